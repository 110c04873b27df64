//! Keys as they are written in tests: `<enter>`, `<down*3>`, single characters; `<+1500>` lets 1500 ms pass and a tick come. Work that a key has brought
//! about is done before the next key, but before `<hold>`.

use cursive::event::{Event, Key};
use drybench::units::Millis;

/// One thing that a test does at the screens.
#[derive(Clone, Debug)]
pub(super) enum Stroke {
    /// An event of the terminal.
    Press(Event),
    /// Time passes, then the screens are drawn again.
    Pass(Millis),
    /// Work that has been said to come is not waited for.
    Hold,
}

/// What a written key means.
fn stroke(name: &str) -> Stroke {
    if let Some(time) = name.strip_prefix('+') {
        return Stroke::Pass(Millis(time.parse().unwrap()));
    }
    if name == "hold" {
        return Stroke::Hold;
    }
    Stroke::Press(match name {
        "enter" => Event::Key(Key::Enter),
        "esc" => Event::Key(Key::Esc),
        "up" => Event::Key(Key::Up),
        "down" => Event::Key(Key::Down),
        "left" => Event::Key(Key::Left),
        "right" => Event::Key(Key::Right),
        "pgup" => Event::Key(Key::PageUp),
        "pgdn" => Event::Key(Key::PageDown),
        "home" => Event::Key(Key::Home),
        "end" => Event::Key(Key::End),
        "tab" => Event::Key(Key::Tab),
        "shift-tab" => Event::Shift(Key::Tab),
        "backspace" => Event::Key(Key::Backspace),
        "f1" => Event::Key(Key::F1),
        "space" => Event::Char(' '),
        "tick" => Event::Refresh,
        "ctrl-t" => Event::CtrlChar('t'),
        "ctrl-g" => Event::CtrlChar('g'),
        "ctrl-q" => Event::CtrlChar('q'),
        other => panic!("no key is written <{other}>"),
    })
}

/// Reads what a test does.
pub(super) fn strokes(keys: &str) -> Vec<Stroke> {
    let mut all = Vec::new();
    let mut rest = keys;
    while let Some(first) = rest.chars().next() {
        if first != '<' {
            all.push(Stroke::Press(Event::Char(first)));
            rest = &rest[first.len_utf8()..];
            continue;
        }
        let (name, after) = rest[1..].split_once('>').unwrap();
        rest = after;
        let (name, times) = name.split_once('*').unwrap_or((name, "1"));
        let times: usize = times.parse().unwrap();
        all.extend(std::iter::repeat_n(stroke(name), times));
    }
    all
}

#[test]
fn written_keys_are_read() {
    let all = strokes("a<down*2><+1500>/x");
    let read = format!("{all:?}");
    assert_eq!(all.len(), 6, "{read}");
    assert!(
        read.contains("Char('a')") && read.contains("Pass(Millis(1500))"),
        "{read}"
    );
}
