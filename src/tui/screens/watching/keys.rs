//! The keys that do something while somebody is watched.

use super::{Over, Watching};
use crate::app::System;
use crate::tui::rows::letter;
use crate::tui::screen::{Desk, Hint, Key};

impl<S: System> Watching<S> {
    /// The letters that note how the chosen row went, and what else is noted, the ones most needed first.
    pub(super) fn noting(desk: &Desk<S>) -> Vec<Hint> {
        let letters = [
            ('d', "watching-key-done"),
            ('p', "watching-key-prompted"),
            ('n', "watching-key-not-done"),
            ('o', "watching-key-not-seen"),
            ('v', "watching-key-value"),
            ('r', "watching-key-remark"),
            ('w', "watching-key-remark-on-all"),
            ('l', "watching-key-lot"),
        ];
        let letters = letters.into_iter();
        letters
            .map(|(letter, says)| desk.hint(Key::Letter(letter), says))
            .collect()
    }

    /// The keys that do something now, the ones most needed first.
    pub(super) fn keys(&self, desk: &Desk<S>) -> Vec<Hint> {
        let back = desk.hint(Key::Esc, "screens-key-back");
        let other = desk.hint(Key::Tab, "watching-key-other");
        match &self.over {
            Over::Typing(asked, ..) => return vec![desk.hint(Key::Enter, asked.key()), back],
            Over::Judging(choice, _) => {
                let last = letter(super::OFFERED.len() - 1).unwrap_or('b');
                let mut keys = vec![
                    desk.hint(Key::Letters(last), "watching-key-judge"),
                    desk.hint(Key::UpDown, "screens-key-choose"),
                    desk.hint(Key::Page, "screens-key-scroll"),
                ];
                if choice.is_made() {
                    keys.insert(0, desk.hint(Key::Enter, "watching-key-judge"));
                }
                keys.push(back);
                return keys;
            }
            Over::Clock(_) => return vec![desk.hint(Key::UpDown, "screens-key-scroll"), back],
            Over::Nothing => {}
        }
        let several = self.open.len() > 1;
        if self.is_over() {
            let mut keys = vec![
                desk.hint(Key::Enter, "watching-key-sign"),
                desk.hint(Key::Letter('u'), "watching-key-undo"),
                desk.hint(Key::UpDown, "screens-key-scroll"),
            ];
            if self.asks_for_reason() {
                keys.push(desk.hint(Key::Letter('y'), "watching-key-reason"));
            }
            if several {
                keys.push(other);
            }
            keys.push(desk.hint(Key::Esc, "watching-key-leave"));
            return keys;
        }
        let row = self.row();
        let runs = self.told(desk, |telling, _| {
            row.is_some_and(|row| telling.is_running(row))
        });
        let clock = if runs == Some(true) {
            "watching-key-stop"
        } else {
            "watching-key-start"
        };
        let mut keys = vec![
            desk.hint(Key::Enter, clock),
            desk.hint(Key::Letter('f'), "watching-key-finish"),
            desk.hint(Key::Letter('!'), "watching-key-danger"),
            // On the smallest screen the ways to end a run come before the way to take a tap back.
            desk.hint(Key::Letter('u'), "watching-key-undo"),
        ];
        if several {
            keys.push(other);
        }
        keys.push(desk.hint(Key::Letter('c'), "watching-key-clock"));
        // They have a line of their own above.
        keys.extend(Self::noting(desk));
        let area = self.text_area(desk);
        if area.tall < self.text(area.wide, desk).len() {
            keys.push(desk.hint(Key::Page, "screens-key-scroll"));
        }
        keys.push(desk.hint(Key::Space, clock));
        keys.push(desk.hint(Key::UpDown, "screens-key-choose"));
        keys.push(desk.hint(Key::LeftRight, "watching-key-stage"));
        if self.opened().is_some_and(|one| one.watch.run().is_empty()) {
            keys.push(desk.hint(Key::Letter('x'), "watching-key-drop"));
        }
        keys.push(desk.hint(Key::Esc, "watching-key-leave"));
        keys
    }
}
