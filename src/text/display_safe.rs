//! Makes a text of unknown origin harmless to show: no control sequences, no reversed order, nothing invisible.
//!
//! Module texts, names of people, arguments and cells of imported files pass through here before they reach a terminal or a
//! page. The text that is kept is never changed, only what is shown.

use unicode_segmentation::UnicodeSegmentation as _;

/// What stands for something that cannot be shown.
pub(super) const REPLACEMENT: char = '\u{FFFD}';

/// The most scalar values that one visible character may be built from.
///
/// Our default: stacked Hebrew, Thai and Vietnamese marks need at most 5, family pictures lose their joiners anyway.
const GRAPHEME_MOST: usize = 8;

/// Returns the text on one line: tabs and line ends become spaces.
#[must_use]
pub fn display_safe(text: &str) -> String {
    made_safe(text, ' ')
}

/// Returns the text with its line ends kept, as `\n`.
#[must_use]
pub fn display_safe_lines(text: &str) -> String {
    made_safe(text, '\n')
}

fn made_safe(text: &str, line_end: char) -> String {
    // Characters first: dropping an invisible one can join its neighbours to one overlong character.
    let visible: String = text
        .replace("\r\n", "\n")
        .chars()
        .filter_map(|c| shown(c, line_end))
        .collect();
    let mut safe = String::with_capacity(visible.len());
    for grapheme in visible.graphemes(true) {
        if grapheme.chars().count() <= GRAPHEME_MOST {
            safe.push_str(grapheme);
        } else {
            safe.push(REPLACEMENT);
        }
    }
    safe
}

/// Returns what is shown for one character, `None` for nothing at all.
fn shown(c: char, line_end: char) -> Option<char> {
    match c {
        '\t' => Some(' '),
        '\n' | '\u{2028}' | '\u{2029}' => Some(line_end),
        _ if is_invisible(c) => None,
        _ if c.is_control() || is_nonexistent(c) => Some(REPLACEMENT),
        _ => Some(c),
    }
}

/// Tells characters that take no room of their own and change order, joining or meaning of others.
fn is_invisible(c: char) -> bool {
    matches!(c,
        '\u{00AD}'                    // soft hyphen
        | '\u{034F}'                  // grapheme joiner
        | '\u{061C}'                  // Arabic letter mark
        | '\u{115F}' | '\u{1160}' | '\u{3164}' | '\u{FFA0}' // fillers
        | '\u{17B4}' | '\u{17B5}'     // inherent vowels
        | '\u{180B}'..='\u{180F}'     // Mongolian selectors and separator
        | '\u{200B}'..='\u{200F}'     // zero width, joiners, direction marks
        | '\u{202A}'..='\u{202E}'     // direction embedding and override
        | '\u{2060}'..='\u{206F}'     // word joiner, invisible operators, isolates
        | '\u{FEFF}'                  // byte order mark
        | '\u{FFF9}'..='\u{FFFB}'     // annotation marks
        | '\u{1BCA0}'..='\u{1BCA3}'   // shorthand format controls
        | '\u{1D173}'..='\u{1D17A}'   // musical format controls
        | '\u{E0000}'..='\u{E0FFF}'   // tags and further selectors
    )
}

/// Tells the code points that are promised never to become characters.
fn is_nonexistent(c: char) -> bool {
    let code = u32::from(c);
    matches!(code, 0xFDD0..=0xFDEF) || code & 0xFFFE == 0xFFFE
}

#[cfg(test)]
mod tests {
    use super::super::dangerous::DANGEROUS;
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn escape_sequences_lose_their_escape() {
        assert_eq!(
            display_safe("\u{1b}[2Jgone\u{7}"),
            "\u{FFFD}[2Jgone\u{FFFD}"
        );
        assert_eq!(display_safe("\u{9b}31m"), "\u{FFFD}31m");
    }

    #[test]
    fn reversed_order_and_invisible_characters_are_dropped() {
        assert_eq!(display_safe("a\u{202E}b\u{2066}c\u{200B}d\u{FEFF}"), "abcd");
    }

    #[test]
    fn line_ends_are_kept_only_where_asked() {
        assert_eq!(
            display_safe("one\r\ntwo\tthree\u{2028}four"),
            "one two three four"
        );
        assert_eq!(
            display_safe_lines("one\r\ntwo\tthree\rfour"),
            "one\ntwo three\u{FFFD}four"
        );
    }

    #[test]
    fn a_tower_of_marks_becomes_one_replacement() {
        let tower = format!("a{}b", "\u{0301}".repeat(40));
        assert_eq!(display_safe(&tower), "\u{FFFD}b");
        let hidden = format!("a{0}\u{200B}{0}b", "\u{0301}".repeat(GRAPHEME_MOST - 1));
        assert_eq!(display_safe(&hidden), "\u{FFFD}b");
    }

    #[test]
    fn ordinary_writing_is_left_alone() {
        for text in [
            "Ångström 40 °C, mW/cm²",
            "naïve – “quoted”",
            "日本語 ไทย עברית",
            "e\u{301}",
        ] {
            assert_eq!(display_safe(text), text);
        }
    }

    /// Texts in which the dangerous characters are as likely as the others.
    fn hostile() -> impl Strategy<Value = String> {
        let dangerous = prop::sample::select(DANGEROUS.to_vec());
        prop::collection::vec(prop_oneof![dangerous, any::<char>()], 0..80)
            .prop_map(String::from_iter)
    }

    proptest! {
        #[test]
        fn nothing_dangerous_comes_through(text in hostile()) {
            let one_line = display_safe(&text);
            prop_assert!(!one_line.chars().any(|c| c.is_control() || is_invisible(c) || is_nonexistent(c)));
            let lines = display_safe_lines(&text);
            prop_assert!(!lines.chars().any(|c| (c.is_control() && c != '\n') || is_invisible(c)));
            prop_assert!(lines.graphemes(true).all(|g| g.chars().count() <= GRAPHEME_MOST));
        }

        #[test]
        fn what_is_safe_stays_as_it_is(text in hostile()) {
            let once = display_safe(&text);
            prop_assert_eq!(display_safe(&once), once);
            let lines = display_safe_lines(&text);
            prop_assert_eq!(display_safe_lines(&lines), lines);
        }
    }
}
