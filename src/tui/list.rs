//! A list of rows of which one is chosen, longer than its area if need be.

use super::command::Command;

/// Which row is chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Choice {
    /// The chosen row.
    pub(super) at: usize,
}

impl Choice {
    /// No row is chosen yet, so that nobody takes one by pressing Enter again and again.
    pub(super) const NONE: Choice = Choice { at: usize::MAX };

    /// Whether a row is chosen.
    pub(super) fn is_made(self) -> bool {
        self != Choice::NONE
    }

    /// Moves through `rows` rows of which `page` are seen at once. Returns whether the command was a movement.
    pub(super) fn moved(&mut self, command: Command, rows: usize, page: usize) -> bool {
        let last = rows.saturating_sub(1);
        let page = page.max(2) - 1;
        if !self.is_made() {
            match command {
                Command::Down | Command::First => self.at = 0,
                Command::Up | Command::Last => self.at = last,
                _ => return false,
            }
            return true;
        }
        self.at = match command {
            Command::Up => self.at.saturating_sub(1),
            Command::Down => self.at + 1,
            Command::PageUp => self.at.saturating_sub(page),
            Command::PageDown => self.at + page,
            Command::First => 0,
            Command::Last => last,
            _ => {
                self.at = self.at.min(last);
                return false;
            }
        }
        .min(last);
        true
    }

    /// The first row to show so that the chosen one is seen.
    #[must_use]
    pub(super) fn top(self, rows: usize, page: usize) -> usize {
        self.at
            .saturating_sub(page / 2)
            .min(rows.saturating_sub(page))
    }
}

/// How far a text has been scrolled.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Scroll {
    /// The first line that is shown.
    pub(super) top: usize,
}

impl Scroll {
    /// Scrolls through `lines` lines of which `page` are seen at once. Returns whether the command was a movement.
    pub(super) fn moved(&mut self, command: Command, lines: usize, page: usize) -> bool {
        let last = lines.saturating_sub(page);
        let jump = page.max(3) - 2;
        self.top = match command {
            Command::Up => self.top.min(last).saturating_sub(1),
            Command::Down => self.top + 1,
            Command::PageUp => self.top.min(last).saturating_sub(jump),
            Command::PageDown => self.top + jump,
            Command::First => 0,
            Command::Last => last,
            _ => return false,
        }
        .min(last);
        true
    }

    /// The first line to show, whatever the size has become.
    #[must_use]
    pub(super) fn shown(self, lines: usize, page: usize) -> usize {
        self.top.min(lines.saturating_sub(page))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_choice_stays_within_its_rows_and_in_sight() {
        let mut choice = Choice::default();
        assert!(choice.moved(Command::Up, 3, 10));
        assert_eq!(choice.at, 0);
        assert!(choice.moved(Command::Last, 30, 10));
        assert_eq!((choice.at, choice.top(30, 10)), (29, 20));
        assert!(!choice.moved(Command::Take, 5, 10));
        assert_eq!(choice.at, 4);
        assert!(choice.moved(Command::Down, 0, 0));
        assert_eq!((choice.at, choice.top(0, 0)), (0, 0));
    }

    #[test]
    fn a_text_is_not_scrolled_beyond_its_end() {
        let mut scroll = Scroll::default();
        assert!(scroll.moved(Command::PageDown, 100, 10));
        assert_eq!(scroll.top, 8);
        assert!(scroll.moved(Command::Last, 12, 10));
        assert_eq!(scroll.top, 2);
        assert_eq!(scroll.shown(5, 10), 0);
    }
}
