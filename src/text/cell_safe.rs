//! Makes a text fit the cells of a screen: every visible character takes one column or two, and a line is as wide as its parts.
//!
//! Screens lay text out by the width of whole strings and print it character by character. Where the two differ, a line
//! runs over its end, or the library that draws stops the program; so such characters are replaced before they get there.

use unicode_segmentation::UnicodeSegmentation as _;
use unicode_width::{UnicodeWidthChar as _, UnicodeWidthStr as _};

use super::display_safe::{REPLACEMENT, display_safe};

/// The most columns that one visible character may take. Terminals know no wider ones.
const COLUMNS_MOST: usize = 2;

/// How many visible characters to the left may change the width of the next one.
///
/// Our default: ligatures that the width tables know (lam and alef, Lisu tones, Buginese) span 2 characters with their marks.
const CONTEXT: usize = 8;

/// Returns the text on one line, harmless as [`display_safe`] makes it, with every character as wide as its cells.
///
/// A character that is wider than two columns, takes none, or has another width than its parts becomes U+FFFD; so does one
/// that would be drawn into its neighbour. The choice between a picture and a sign (U+FE00 to U+FE0F) is dropped, because
/// terminals disagree about the width of the picture. Written Indian languages lose conjuncts of three columns that way: no
/// terminal grid holds them. Changing a text twice changes nothing more.
///
/// Texts that were made safe apart can join when they are put together: what is printed in one go is made safe in one go.
#[must_use]
pub fn cell_safe(text: &str) -> String {
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
        return text.to_owned();
    }
    let mut text = text.to_owned();
    text.retain(|c| !matches!(c, '\u{FE00}'..='\u{FE0F}'));
    let mut text = display_safe(&text);
    // What is put in the place of a character can join the next one: until nothing changes. Each turn replaces at least one more.
    loop {
        let safe = parted(&text);
        if safe == text {
            return safe;
        }
        text = safe;
    }
}

/// Replaces each visible character that does not fit the cells, or that is drawn into those before it.
fn parted(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    // Where each of the last characters starts in `safe`, and how wide it is, the newest last.
    let mut last: Vec<(usize, usize)> = Vec::with_capacity(CONTEXT + 1);
    for grapheme in text.graphemes(true) {
        last.push((safe.len(), grapheme.width()));
        safe.push_str(grapheme);
        if !fits_alone(grapheme) || !adds_up(&safe, &last) {
            let (start, _) = last[last.len() - 1];
            safe.truncate(start);
            safe.push(REPLACEMENT);
            let newest = last.len() - 1;
            last[newest].1 = 1;
        }
        if last.len() > CONTEXT {
            last.remove(0);
        }
    }
    if adds_up_throughout(&safe) {
        safe
    } else {
        // Nothing known comes here. Should a new script change widths over longer stretches, a line is still safe to draw.
        safe.chars()
            .map(|c| if c.is_ascii() { c } else { REPLACEMENT })
            .collect()
    }
}

/// Tells whether one visible character takes one column or two, and as many as its parts.
fn fits_alone(grapheme: &str) -> bool {
    let width = grapheme.width();
    let parts: usize = grapheme
        .chars()
        .map(|c| c.width().unwrap_or(usize::MAX / 2))
        .fold(0, usize::saturating_add);
    (1..=COLUMNS_MOST).contains(&width) && width == parts
}

/// Tells whether the newest character is as wide beside its neighbours as alone.
fn adds_up(safe: &str, last: &[(usize, usize)]) -> bool {
    let mut sum = 0;
    last.iter().rev().all(|&(start, width)| {
        sum += width;
        safe[start..].width() == sum
    })
}

/// Tells whether a line is as wide as its characters.
fn adds_up_throughout(line: &str) -> bool {
    let parts: usize = line.graphemes(true).map(|part| part.width()).sum();
    line.width() == parts
}

#[cfg(test)]
mod tests {
    use super::super::dangerous::DANGEROUS;
    use super::*;
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    #[test]
    fn ordinary_writing_is_left_alone() {
        for text in [
            "",
            "Tack, 3 of 7",
            "Ångström 40 °C, mW/cm²",
            "naïve – “quoted”",
            "寸法 を 確認",
            "ไทย עברית नमक",
            "e\u{301}",
            "⣿⡇ ▁▂▃ ├─┤ ✓",
            "🇦🇹 🦷",
        ] {
            assert_eq!(cell_safe(text), text);
        }
    }

    #[test]
    fn what_a_terminal_obeys_or_hides_does_not_come_through() {
        assert_eq!(cell_safe("\u{1b}[2Jgone"), "\u{FFFD}[2Jgone");
        assert_eq!(cell_safe("a\u{202E}b\u{200B}c\td\ne"), "abc d e");
    }

    #[test]
    fn characters_without_cells_of_their_own_are_replaced() {
        // A mark with nothing to stand on, and six consonants that are one character of six columns.
        assert_eq!(cell_safe("\u{301}"), "\u{FFFD}");
        let joined = ["\u{915}"; 6].join("\u{94D}");
        assert_eq!(cell_safe(&joined), "\u{FFFD}");
        assert_eq!(cell_safe(&"\u{1100}".repeat(5)), "\u{FFFD}");
        // A skin colour makes two pictures one.
        assert_eq!(cell_safe("\u{1F44D}\u{1F3FD}"), "\u{FFFD}");
        // What stands for a character does not join the next one.
        assert_eq!(cell_safe("\u{FFF0}\u{1F3FD}\0"), "\u{FFFD}\u{FFFD}");
    }

    #[test]
    fn characters_that_are_drawn_into_one_another_are_parted() {
        assert_eq!("\u{644}\u{627}".width(), 1);
        assert_eq!(cell_safe("a\u{644}\u{627}b"), "a\u{644}\u{FFFD}b");
    }

    #[test]
    fn a_sign_stays_where_its_picture_is_asked_for() {
        assert_eq!(cell_safe("\u{26A0}\u{FE0F} hot"), "\u{26A0} hot");
        assert_eq!(cell_safe("1\u{FE0F}\u{20E3}"), "1\u{20E3}");
    }

    /// Texts in which characters that change the width of others are as likely as all others together.
    fn hostile() -> impl Strategy<Value = String> {
        let joining = prop::sample::select(DANGEROUS.to_vec());
        prop::collection::vec(prop_oneof![4 => joining, 1 => any::<char>()], 0..60)
            .prop_map(String::from_iter)
    }

    proptest! {
        #![proptest_config(ProptestConfig { rng_seed: RngSeed::Fixed(1), failure_persistence: None, ..ProptestConfig::with_cases(2_000) })]

        #[test]
        fn every_part_of_a_line_is_as_wide_as_its_characters(text in hostile()) {
            let safe = cell_safe(&text);
            let parts: Vec<&str> = safe.graphemes(true).collect();
            prop_assert!(parts.iter().all(|part| fits_alone(part)));
            for from in 0..parts.len() {
                for to in from..=parts.len() {
                    let sum: usize = parts[from..to].iter().map(|part| part.width()).sum();
                    prop_assert_eq!(parts[from..to].concat().width(), sum, "{:?}", &parts[from..to]);
                }
            }
        }

        #[test]
        fn what_is_safe_stays_as_it_is(text in hostile()) {
            let once = cell_safe(&text);
            prop_assert_eq!(cell_safe(&once), once.clone());
            prop_assert_eq!(display_safe(&once), once);
        }
    }
}
