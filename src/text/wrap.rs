//! Fits text to a number of columns, counting what a reader sees: a wide character takes two, a mark on a letter none.

use unicode_segmentation::UnicodeSegmentation as _;
use unicode_width::UnicodeWidthStr as _;

/// Returns how many columns a text takes on one line.
#[must_use]
pub fn columns(text: &str) -> usize {
    text.graphemes(true).map(|grapheme| grapheme.width()).sum()
}

/// Breaks a text into lines of at most `width` columns, at spaces where there are any.
///
/// Line ends in the text stay line ends. A word wider than a line is broken between characters; a character wider than
/// a line stands alone and is the only thing that can stick out.
#[must_use]
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    text.split('\n')
        .flat_map(|line| wrap_line(line, width.max(1)))
        .collect()
}

/// Wraps with `first` before the first line and spaces of the same width before the others.
#[must_use]
pub fn wrap_behind(first: &str, text: &str, width: usize) -> Vec<String> {
    let indent = columns(first);
    let blank = " ".repeat(indent);
    wrap(text, width.saturating_sub(indent))
        .into_iter()
        .enumerate()
        .map(|(at, line)| {
            let lead = if at == 0 { first } else { &blank };
            format!("{lead}{line}").trim_end().to_owned()
        })
        .collect()
}

/// Cuts a text to `width` columns; what was cut ends in `…`.
#[must_use]
pub fn cut(text: &str, width: usize) -> String {
    if columns(text) <= width {
        return text.to_owned();
    }
    let mut kept = String::new();
    let mut used = 0;
    for grapheme in text.graphemes(true) {
        used += grapheme.width();
        // One column is for the ellipsis.
        if used >= width {
            break;
        }
        kept.push_str(grapheme);
    }
    if width > 0 {
        kept.push('…');
    }
    kept
}

fn wrap_line(text: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut used = 0;
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let wide = columns(word);
        if used > 0 && used + 1 + wide <= width {
            line.push(' ');
            line.push_str(word);
            used += 1 + wide;
            continue;
        }
        if used > 0 {
            lines.push(std::mem::take(&mut line));
            used = 0;
        }
        for grapheme in word.graphemes(true) {
            let wide = grapheme.width();
            if used > 0 && used + wide > width {
                lines.push(std::mem::take(&mut line));
                used = 0;
            }
            line.push_str(grapheme);
            used += wide;
        }
    }
    lines.push(line);
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn lines_break_at_spaces() {
        assert_eq!(
            wrap("wash the plate in the first bath", 12),
            ["wash the", "plate in the", "first bath"]
        );
        assert_eq!(wrap("one\n\ntwo", 10), ["one", "", "two"]);
        assert_eq!(wrap("", 10), [""]);
    }

    #[test]
    fn long_words_break_between_characters() {
        assert_eq!(wrap("ab photopolymer", 6), ["ab", "photop", "olymer"]);
        assert_eq!(wrap("日本語", 4), ["日本", "語"]);
        assert_eq!(
            wrap("e\u{301}e\u{301}e\u{301}", 2),
            ["e\u{301}e\u{301}", "e\u{301}"]
        );
    }

    #[test]
    fn later_lines_hang_behind_the_first() {
        assert_eq!(
            wrap_behind("1. ", "tack one side", 9),
            ["1. tack", "   one", "   side"]
        );
    }

    #[test]
    fn a_cut_text_says_so() {
        assert_eq!(cut("supports", 8), "supports");
        assert_eq!(cut("supports", 5), "supp…");
        assert_eq!(cut("日本語", 4), "日…");
        assert_eq!(cut("supports", 0), "");
    }

    proptest! {
        #[test]
        fn no_line_is_too_wide_and_nothing_is_lost(text in "[a-z日é ]{0,60}", width in 0_usize..30) {
            let lines = wrap(&text, width);
            prop_assert!(lines.iter().all(|line| columns(line) <= width.max(2)));
            prop_assert_eq!(lines.concat().replace(' ', ""), text.replace(' ', ""));
            prop_assert!(columns(&cut(&text, width)) <= width);
        }
    }
}
