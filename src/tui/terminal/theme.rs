//! A theme without any colour.

use cursive::style::{ColorStyle, Effect, PaletteStyle, Style};
use cursive::theme::Theme;

/// The terminal's own two colours; what stands out does so by reverse, bold and underline.
///
/// With it no colour is ever sent, not even the terminal's own.
#[must_use]
pub fn plain_theme() -> Theme {
    let mut theme = Theme::terminal_default();
    for (style, effects) in [
        (PaletteStyle::Highlight, &[Effect::Reverse][..]),
        (PaletteStyle::HighlightInactive, &[Effect::Underline]),
        (PaletteStyle::TitlePrimary, &[Effect::Bold]),
        (PaletteStyle::TitleSecondary, &[Effect::Bold]),
        (PaletteStyle::EditableText, &[Effect::Underline]),
        (PaletteStyle::EditableTextCursor, &[Effect::Reverse]),
        (PaletteStyle::EditableTextInactive, &[Effect::Underline]),
    ] {
        let mut plain = Style::from(ColorStyle::terminal_default());
        for effect in effects {
            plain = plain.combine(*effect);
        }
        theme.palette[style] = plain;
    }
    theme
}
