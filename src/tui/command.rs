//! What a person can do at a screen, as values: keys and clicks become these, and nothing else reaches a screen.

use cursive::event::{Event, Key, MouseButton, MouseEvent};

/// One command.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Command {
    /// One row up.
    Up,
    /// One row down.
    Down,
    /// To the left: the value before, the page before.
    Left,
    /// To the right.
    Right,
    /// A screen up.
    PageUp,
    /// A screen down.
    PageDown,
    /// To the first row.
    First,
    /// To the last row.
    Last,
    /// Takes what is chosen.
    Take,
    /// Back to where one came from; nothing is lost by it.
    Back,
    /// To the next area.
    Next,
    /// To the area before.
    Previous,
    /// A character was typed. Space counts.
    Type(char),
    /// Takes back the last character.
    Erase,
    /// Explains the screen.
    Help,
    /// Changes between dark and light.
    Theme,
    /// Changes between fine characters and ASCII.
    Glyphs,
    /// Leaves the program.
    Leave,
    /// A row of a list was clicked: which list of the screen, which row.
    Pick(u8, usize),
    /// Time has passed; comes often while something lives.
    Tick,
}

/// What an event of the terminal means; `None` for those that mean nothing. Clicks are looked up in the picture.
#[must_use]
pub fn command(
    event: &Event,
    clicked: impl Fn(usize, usize) -> Option<Command>,
) -> Option<Command> {
    Some(match event {
        Event::Key(key) => match key {
            Key::Up => Command::Up,
            Key::Down => Command::Down,
            Key::Left => Command::Left,
            Key::Right => Command::Right,
            Key::PageUp => Command::PageUp,
            Key::PageDown => Command::PageDown,
            Key::Home => Command::First,
            Key::End => Command::Last,
            Key::Enter => Command::Take,
            Key::Esc => Command::Back,
            Key::Tab => Command::Next,
            Key::Backspace | Key::Del => Command::Erase,
            Key::F1 => Command::Help,
            _ => return None,
        },
        Event::Shift(Key::Tab) => Command::Previous,
        Event::Char(c) => Command::Type(*c),
        Event::CtrlChar('t') => Command::Theme,
        Event::CtrlChar('g') => Command::Glyphs,
        Event::CtrlChar('c' | 'q') | Event::Exit => Command::Leave,
        Event::Refresh => Command::Tick,
        Event::Mouse {
            offset,
            position,
            event,
        } => {
            let at = position.checked_sub(*offset)?;
            match event {
                MouseEvent::Press(MouseButton::Left) => return clicked(at.x, at.y),
                MouseEvent::WheelUp => Command::Up,
                MouseEvent::WheelDown => Command::Down,
                _ => return None,
            }
        }
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_and_clicks_become_commands() {
        let nowhere = |_: usize, _: usize| None;
        assert_eq!(
            command(&Event::Char('?'), nowhere),
            Some(Command::Type('?'))
        );
        assert_eq!(command(&Event::Key(Key::F12), nowhere), None);
        let click = Event::Mouse {
            offset: (0, 0).into(),
            position: (3, 4).into(),
            event: MouseEvent::Press(MouseButton::Left),
        };
        let row = |x, y| (x == 3).then_some(Command::Pick(0, y));
        assert_eq!(command(&click, row), Some(Command::Pick(0, 4)));
        assert_eq!(command(&click, nowhere), None);
    }
}
