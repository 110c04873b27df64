//! A line that is typed.

use unicode_segmentation::UnicodeSegmentation as _;

/// The most characters that a line takes. Our default: a row of a screen.
const MOST: usize = 80;

/// What has been typed so far.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Field {
    /// The text.
    pub(super) text: String,
}

impl Field {
    /// Takes a character; a line that is full takes no more.
    pub(super) fn typed(&mut self, c: char) {
        self.typed_up_to(c, MOST);
    }

    /// The same where more characters have room.
    pub(super) fn typed_up_to(&mut self, c: char, most: usize) {
        if !c.is_control() && self.text.chars().count() < most {
            self.text.push(c);
        }
    }

    /// Takes back the last character that a reader sees.
    pub(super) fn erase(&mut self) {
        let last = self.text.grapheme_indices(true).next_back();
        self.text.truncate(last.map_or(0, |(at, _)| at));
    }

    /// The text with the place where typing goes on.
    #[must_use]
    pub(super) fn shown(&self) -> String {
        format!("{}_", self.text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_character_is_taken_back_whole() {
        let mut field = Field::default();
        for c in "2 me\u{301}".chars() {
            field.typed(c);
        }
        field.typed('\u{7}');
        field.erase();
        assert_eq!(field.text, "2 m");
        field.erase();
        field.erase();
        field.erase();
        field.erase();
        assert_eq!(field.text, "");
    }
}
