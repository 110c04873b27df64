//! The keys that do something at the bench and in what lies over it.

use super::Sitting;
use super::over::Over;
use super::sheet::Question;
use super::timing::Timing;
use crate::app::System;
use crate::rehearsal::action::Help;
use crate::tui::command::Command;
use crate::tui::rows::letter;
use crate::tui::screen::{Desk, Hint, Label};

impl<S: System> Sitting<S> {
    /// The keys that do something now, the ones most needed first.
    pub(super) fn keys(&self, desk: &Desk<S>) -> Vec<Hint> {
        let hint = |command: Command, label: Label, id: &str| Hint::new(command, label, id, desk);
        let enter = Label::Word("screens-key-enter");
        let esc = Label::Word("screens-key-esc");
        let space = Label::Word("screens-key-space");
        let up_down = Label::Word("screens-key-up-down");
        let back = hint(Command::Back, esc, "screens-key-back");
        let letters = |count: usize, id: &str| {
            let last = letter(count.saturating_sub(1)).unwrap_or('z');
            hint(Command::Type('a'), Label::Letters(last), id)
        };
        match &self.over {
            Over::Ask(ask) => {
                let mut keys = vec![
                    letters(ask.answers.len(), "screens-sitting-key-answer"),
                    hint(Command::Down, up_down, "screens-key-choose"),
                ];
                if ask.choice.is_made() {
                    keys.push(hint(Command::Take, enter, "screens-sitting-key-take"));
                }
                keys.push(back);
                return keys;
            }
            Over::Wait(..) => {
                return vec![
                    hint(Command::Take, enter, "screens-sitting-key-wait"),
                    hint(Command::Down, up_down, "screens-key-choose"),
                    back,
                ];
            }
            Over::Find(..) => {
                return vec![
                    hint(Command::Take, enter, "screens-sitting-key-go"),
                    hint(Command::Down, up_down, "screens-key-choose"),
                    back,
                ];
            }
            Over::Look(_) => return vec![hint(Command::Down, up_down, "screens-key-scroll"), back],
            Over::Nothing => {}
        }
        if let Some(sheet) = &self.sheet {
            return match &sheet.question {
                Question::Places if sheet.one_at_a_time(self.session.rehearsal()) => vec![
                    hint(Command::Take, enter, "screens-sitting-key-take"),
                    hint(Command::Type(' '), space, "screens-sitting-key-mark"),
                    hint(
                        Command::Down,
                        Label::Word("screens-key-arrows"),
                        "screens-key-choose",
                    ),
                    back,
                ],
                Question::Places => vec![
                    hint(Command::Take, enter, "screens-sitting-key-take"),
                    hint(Command::Type(' '), space, "screens-sitting-key-mark"),
                    hint(
                        Command::Type('a'),
                        Label::Letter('a'),
                        "screens-sitting-key-all",
                    ),
                    hint(
                        Command::Down,
                        Label::Word("screens-key-arrows"),
                        "screens-key-choose",
                    ),
                    back,
                ],
                Question::Way(way) => {
                    let step = &self.session.rehearsal().module().steps[sheet.step];
                    let mut keys = vec![
                        letters(step.ways[*way].options.len(), "screens-sitting-key-answer"),
                        hint(Command::Down, up_down, "screens-key-choose"),
                    ];
                    if sheet.choice.is_made() {
                        keys.push(hint(Command::Take, enter, "screens-sitting-key-take"));
                    }
                    if self.answered.contains_key(&sheet.step) {
                        let equals = Label::Letter('=');
                        let id = "screens-sitting-key-as-before";
                        keys.push(hint(Command::Type('='), equals, id));
                    }
                    keys.push(back);
                    keys
                }
                Question::Time(Timing::Timer { .. }) => {
                    vec![hint(Command::Take, enter, "screens-sitting-key-set"), back]
                }
                Question::Time(
                    Timing::Count { since: None } | Timing::Watch { since: None, .. },
                ) => {
                    vec![
                        hint(Command::Type(' '), space, "screens-sitting-key-start"),
                        back,
                    ]
                }
                Question::Time(Timing::Count { .. } | Timing::Watch { .. }) => {
                    vec![hint(Command::Type(' '), space, "screens-sitting-key-stop")]
                }
                Question::Time(Timing::Judge { .. }) => vec![
                    hint(Command::Type(' '), space, "screens-sitting-key-portion"),
                    hint(Command::Take, enter, "screens-sitting-key-enough"),
                    back,
                ],
            };
        }
        let mut keys = vec![hint(Command::Take, enter, "screens-sitting-key-do")];
        if self.session.rehearsal().open_disturbance().is_some() {
            keys.push(hint(
                Command::Type('!'),
                Label::Letter('!'),
                "screens-sitting-key-answer",
            ));
        }
        keys.push(hint(
            Command::Right,
            Label::Word("screens-sitting-key-capitals"),
            "screens-sitting-key-place",
        ));
        keys.push(hint(
            Command::Down,
            Label::Word("screens-sitting-key-letters"),
            "screens-sitting-key-move",
        ));
        if self.session.run().help == Help::Prompted {
            keys.push(hint(Command::Type(' '), space, "screens-sitting-key-hint"));
        }
        let area = self.text_area(desk);
        if area.tall < self.text(area, desk).len() {
            keys.push(hint(
                Command::PageDown,
                Label::Word("screens-key-page"),
                "screens-key-scroll",
            ));
        }
        if self.session.run().help != Help::Unaided {
            keys.push(hint(
                Command::Next,
                Label::Word("screens-key-tab"),
                "screens-sitting-key-read",
            ));
        }
        keys.push(hint(
            Command::Type('/'),
            Label::Letter('/'),
            "screens-sitting-key-find",
        ));
        keys.push(hint(Command::Back, esc, "screens-sitting-key-leave"));
        keys
    }
}
