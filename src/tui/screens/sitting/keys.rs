//! The keys that do something at the bench and in what lies over it.

use super::Sitting;
use super::over::Over;
use super::sheet::Question;
use super::timing::Timing;
use crate::app::System;
use crate::rehearsal::action::Help;
use crate::tui::rows::letter;
use crate::tui::screen::{Desk, Hint, Key};

impl<S: System> Sitting<S> {
    /// The keys that do something now, the ones most needed first.
    pub(super) fn keys(&self, desk: &Desk<S>) -> Vec<Hint> {
        let back = desk.hint(Key::Esc, "screens-key-back");
        let letters = |count: usize, id: &str| {
            let last = letter(count.saturating_sub(1)).unwrap_or('z');
            desk.hint(Key::Letters(last), id)
        };
        match &self.over {
            Over::Ask(ask) => {
                let mut keys = vec![
                    letters(ask.answers.len(), "screens-sitting-key-answer"),
                    desk.hint(Key::UpDown, "screens-key-choose"),
                ];
                if ask.choice.is_made() {
                    keys.push(desk.hint(Key::Enter, "screens-sitting-key-take"));
                }
                keys.push(back);
                return keys;
            }
            Over::Wait(field, choice, _) => {
                let mut keys = vec![desk.hint(Key::UpDown, "screens-key-choose"), back];
                if choice.is_made() || !field.text.is_empty() {
                    keys.insert(0, desk.hint(Key::Enter, "screens-sitting-key-wait"));
                }
                return keys;
            }
            Over::Find(..) => {
                return vec![
                    desk.hint(Key::Enter, "screens-sitting-key-go"),
                    desk.hint(Key::UpDown, "screens-key-choose"),
                    back,
                ];
            }
            Over::Look(_) => return vec![desk.hint(Key::UpDown, "screens-key-scroll"), back],
            Over::Nothing => {}
        }
        if let Some(sheet) = &self.sheet {
            return match &sheet.question {
                Question::Places if sheet.one_at_a_time(self.session.rehearsal()) => vec![
                    desk.hint(Key::Enter, "screens-sitting-key-take"),
                    desk.hint(Key::Space, "screens-sitting-key-mark"),
                    desk.hint(Key::Arrows, "screens-key-choose"),
                    back,
                ],
                Question::Places => vec![
                    desk.hint(Key::Enter, "screens-sitting-key-take"),
                    desk.hint(Key::Space, "screens-sitting-key-mark"),
                    desk.hint(Key::Letter('a'), "screens-sitting-key-all"),
                    desk.hint(Key::Arrows, "screens-key-choose"),
                    back,
                ],
                Question::Way(way) => {
                    let step = &self.session.rehearsal().module().steps[sheet.step];
                    let mut keys = vec![
                        letters(step.ways[*way].options.len(), "screens-sitting-key-answer"),
                        desk.hint(Key::UpDown, "screens-key-choose"),
                    ];
                    if sheet.choice.is_made() {
                        keys.push(desk.hint(Key::Enter, "screens-sitting-key-take"));
                    }
                    if self.answered.contains_key(&sheet.step) {
                        let id = "screens-sitting-key-as-before";
                        keys.push(desk.hint(Key::Letter('='), id));
                    }
                    keys.push(back);
                    keys
                }
                Question::Time(Timing::Timer { .. }) => {
                    vec![desk.hint(Key::Enter, "screens-sitting-key-set"), back]
                }
                Question::Time(
                    Timing::Count { since: None } | Timing::Watch { since: None, .. },
                ) => {
                    vec![desk.hint(Key::Space, "screens-sitting-key-start"), back]
                }
                Question::Time(Timing::Count { .. } | Timing::Watch { .. }) => {
                    vec![desk.hint(Key::Space, "screens-sitting-key-stop")]
                }
                Question::Time(Timing::Judge { .. }) => vec![
                    desk.hint(Key::Space, "screens-sitting-key-portion"),
                    desk.hint(Key::Enter, "screens-sitting-key-enough"),
                    back,
                ],
            };
        }
        let mut keys = Vec::new();
        if self.choice.is_made() {
            keys.push(desk.hint(Key::Enter, "screens-sitting-key-do"));
        }
        if self.session.rehearsal().open_disturbance().is_some() {
            keys.push(desk.hint(Key::Letter('!'), "screens-sitting-key-answer"));
        }
        keys.push(desk.hint(Key::Capitals, "screens-sitting-key-place"));
        keys.push(desk.hint(Key::SmallLetters, "screens-sitting-key-move"));
        if self.session.run().help == Help::Prompted {
            keys.push(desk.hint(Key::Space, "screens-sitting-key-hint"));
        }
        let area = self.text_area(desk);
        if area.tall < self.text(area, desk).len() {
            keys.push(desk.hint(Key::Page, "screens-key-scroll"));
        }
        if self.session.run().help != Help::Unaided {
            keys.push(desk.hint(Key::Tab, "screens-sitting-key-read"));
        }
        keys.push(desk.hint(Key::Letter('/'), "screens-sitting-key-find"));
        keys.push(desk.hint(Key::Esc, "screens-sitting-key-leave"));
        keys
    }
}
