//! Dark, light, or without colour. A role is told from the others without colour too.

use cursive::style::{BaseColor, Color, ColorStyle, Effect, PaletteStyle, Style};
use cursive::theme::{BorderStyle, Palette, PaletteColor, Theme as CursiveTheme};

use super::frame::Role;

/// How roles look.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Light on dark.
    #[default]
    Dark,
    /// Dark on light.
    Light,
    /// No colour at all: weight, underline and reverse only.
    Colourless,
}

impl Theme {
    /// The other one of dark and light; without colour there is no other.
    #[must_use]
    pub fn other(self) -> Theme {
        match self {
            Theme::Dark => Theme::Light,
            Theme::Light => Theme::Dark,
            Theme::Colourless => Theme::Colourless,
        }
    }

    fn ground(self) -> Color {
        match self {
            Theme::Dark => Color::Dark(BaseColor::Black),
            Theme::Light => Color::Light(BaseColor::White),
            Theme::Colourless => Color::TerminalDefault,
        }
    }

    fn ink(self) -> Color {
        match self {
            Theme::Dark => Color::Dark(BaseColor::White),
            Theme::Light => Color::Dark(BaseColor::Black),
            Theme::Colourless => Color::TerminalDefault,
        }
    }

    /// How a role looks.
    #[must_use]
    pub fn style(self, role: Role) -> Style {
        let tint = |dark: Color, light: Color| match self {
            Theme::Dark => dark,
            Theme::Light => light,
            Theme::Colourless => Color::TerminalDefault,
        };
        let on_ground = |front: Color| Style::from(ColorStyle::new(front, self.ground()));
        let ink = on_ground(self.ink());
        match role {
            Role::Plain => ink,
            Role::Faint | Role::Rule => on_ground(tint(
                Color::Dark(BaseColor::Cyan),
                Color::Dark(BaseColor::Blue),
            )),
            Role::Strong => ink.combine(Effect::Bold),
            Role::Bar | Role::Chosen => ink.combine(Effect::Reverse),
            Role::Key => on_ground(tint(
                Color::Light(BaseColor::Yellow),
                Color::Dark(BaseColor::Magenta),
            ))
            .combine(Effect::Bold),
            Role::Caution => on_ground(tint(
                Color::Light(BaseColor::Red),
                Color::Dark(BaseColor::Red),
            ))
            .combine(Effect::Bold),
            Role::Field => ink.combine(Effect::Underline),
        }
    }

    /// What the drawing library needs to know: what lies under everything.
    #[must_use]
    pub fn whole(self) -> CursiveTheme {
        if self == Theme::Colourless {
            return colourless();
        }
        let mut palette = Palette::terminal_default();
        for color in [PaletteColor::Background, PaletteColor::View] {
            palette[color] = self.ground();
        }
        palette[PaletteColor::Primary] = self.ink();
        CursiveTheme {
            shadow: false,
            borders: BorderStyle::None,
            palette,
        }
    }
}

/// The terminal's own two colours; what stands out in the library's own views does so by reverse, bold and underline. With it no
/// colour is ever sent, not even the terminal's own.
fn colourless() -> CursiveTheme {
    let mut theme = CursiveTheme::terminal_default();
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
