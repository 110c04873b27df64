//! A passphrase that is typed: nothing of it shows but that something was typed, and it is wiped from memory.

use zeroize::Zeroizing;

use crate::people::Passphrase;
use crate::report::plain::Glyphs;

/// The most bytes that are taken. Our default: far more than anybody types.
const MOST: usize = 512;

/// What has been typed so far.
pub(super) struct Hidden {
    // Room for all of it from the start, so that growing leaves no copy behind.
    text: Zeroizing<String>,
}

impl Default for Hidden {
    fn default() -> Hidden {
        Hidden::new()
    }
}

impl Hidden {
    /// Nothing typed yet.
    pub(super) fn new() -> Hidden {
        Hidden {
            text: Zeroizing::new(String::with_capacity(MOST)),
        }
    }

    /// Takes a character; a field that is full takes no more.
    pub(super) fn typed(&mut self, c: char) {
        if !c.is_control() && self.text.len() + c.len_utf8() <= MOST {
            self.text.push(c);
        }
    }

    /// Takes back the last character.
    pub(super) fn erase(&mut self) {
        self.text.pop();
    }

    /// Whether nothing was typed.
    pub(super) fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// A mark for each character, with the place where typing goes on.
    pub(super) fn shown(&self, glyphs: Glyphs) -> String {
        let mark = match glyphs {
            Glyphs::Ascii => '*',
            Glyphs::Braille => '•',
        };
        let marks = std::iter::repeat_n(mark, self.text.chars().count());
        marks.chain(['_']).collect()
    }

    /// Takes what was typed and begins anew.
    pub(super) fn take(&mut self) -> Passphrase {
        let typed = Passphrase::typed((*self.text).clone());
        *self = Hidden::new();
        typed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_of_a_passphrase_shows_and_taking_it_empties_the_field() {
        let mut field = Hidden::new();
        for c in "seven lamps".chars() {
            field.typed(c);
        }
        field.erase();
        assert_eq!(field.shown(Glyphs::Ascii), "**********_");
        assert_eq!(field.take().bytes(), b"seven lamp");
        assert!(field.is_empty());
    }
}
