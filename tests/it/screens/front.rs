//! The screens as a test sits before them: through the drawing library on a screen in memory, or without it.

use drybench::app::{Begin, Colours, Wish};
use drybench::text::Words;
use drybench::tui;
use drybench::tui::command::{Command, command};
use drybench::tui::frame::{Frame, Piece, Role};
use drybench::tui::ui::{Effect, Ui};
use drybench::tui::view::Screens;
use unicode_segmentation::UnicodeSegmentation as _;

use super::keys::{Stroke, strokes};
use crate::support::machine::TestMachine;
use crate::support::memory_screen::MemoryScreen;

/// Practice without a record.
fn wish() -> Wish {
    Wish {
        begin: Begin::Practice,
        ..Wish::default()
    }
}

/// The screens of a language on a machine, on the dry bench.
pub(super) fn ui(machine: &TestMachine, words: Words) -> Ui<TestMachine> {
    tui::first(machine.clone(), words, &wish(), Colours::Full)
}

/// The screens behind the drawing library.
pub(super) struct Front {
    screen: MemoryScreen,
    machine: TestMachine,
    pressed: String,
}

impl Front {
    /// Opens the screens on their first one at a size, in columns and rows.
    pub(super) fn open(machine: &TestMachine, size: (usize, usize)) -> Front {
        Front::before(machine, ui(machine, Words::shipped("en-US")), size)
    }

    /// Opens the screens on the record that the machine has, or on the first start, at 80 by 24.
    pub(super) fn of_laboratory(machine: &TestMachine) -> Front {
        let wish = Wish {
            begin: Begin::Laboratory,
            ..Wish::default()
        };
        let words = Words::shipped("en-US");
        let ui = tui::first(machine.clone(), words, &wish, Colours::Full);
        Front::before(machine, ui, (80, 24))
    }

    /// Sits down before screens that are open already.
    pub(super) fn before(
        machine: &TestMachine,
        ui: Ui<TestMachine>,
        (wide, tall): (usize, usize),
    ) -> Front {
        Front {
            screen: MemoryScreen::open(wide, tall, tui::views(ui)),
            machine: machine.clone(),
            pressed: String::new(),
        }
    }

    /// The keys that were pressed since the last [`Front::forget`].
    pub(super) fn pressed(&self) -> &str {
        &self.pressed
    }

    /// Forgets the keys that were pressed.
    pub(super) fn forget(&mut self) {
        self.pressed.clear();
    }

    /// Presses keys, written as in [`strokes`].
    pub(super) fn press(&mut self, keys: &str) {
        self.pressed += keys;
        let mut strokes = strokes(keys).into_iter().peekable();
        while let Some(stroke) = strokes.next() {
            match stroke {
                Stroke::Press(event) => self.screen.send([event]),
                Stroke::Pass(time) => {
                    self.machine.pass(time);
                    self.screen.send([cursive::event::Event::Refresh]);
                }
                Stroke::Hold => continue,
            }
            if self.is_at_work() && !matches!(strokes.peek(), Some(Stroke::Hold)) {
                self.screen.send([cursive::event::Event::Refresh]);
            }
        }
    }

    /// Whether the screens have said that they are about to do something that takes a while.
    fn is_at_work(&mut self) -> bool {
        let views = self.screen.views();
        let at_work = views.call_on_name("screens", |view: &mut Screens<TestMachine>| {
            view.ui().is_at_work()
        });
        at_work.unwrap_or(false)
    }

    /// Types a text, whatever it holds.
    pub(super) fn type_text(&mut self, text: &str) {
        self.pressed += text;
        self.screen.type_text(text);
    }

    /// The rows as one text, without blanks at their ends.
    pub(super) fn text(&self) -> String {
        self.screen.text()
    }

    /// The picture as data.
    pub(super) fn frame(&mut self) -> Frame {
        let views = self.screen.views();
        let frame = views.call_on_name("screens", |view: &mut Screens<TestMachine>| {
            view.ui().frame()
        });
        frame.unwrap()
    }

    /// Changes the size.
    pub(super) fn resize(&mut self, (wide, tall): (usize, usize)) {
        self.screen.resize(wide, tall);
    }
}

/// Presses keys on screens without a drawing library. Returns whether they are still open.
pub(super) fn press(ui: &mut Ui<TestMachine>, keys: &str) -> bool {
    strokes(keys).into_iter().all(|stroke| {
        let event = match stroke {
            Stroke::Press(event) => event,
            Stroke::Pass(time) => {
                ui.desk().system.pass(time);
                cursive::event::Event::Refresh
            }
            Stroke::Hold => return true,
        };
        let meant = command(&event, |x, y| ui.frame().clicked(x, y));
        let is_open = meant.is_none_or(|meant| ui.handle(meant) == Effect::Draw);
        is_open && (!ui.is_at_work() || ui.handle(Command::Tick) == Effect::Draw)
    })
}

/// A picture as a text: later pieces lie over earlier ones.
pub(super) fn drawn(frame: &Frame) -> String {
    let mut grid = vec![vec![String::from(" "); frame.area.wide]; frame.area.tall];
    for piece in frame.pieces() {
        let mut x = piece.x;
        for part in piece.text.graphemes(true) {
            let wide = drybench::text::wrap::columns(part);
            for (number, cell) in grid[piece.y][x..x + wide].iter_mut().enumerate() {
                // The second half of a wide character is an empty text.
                part[..if number == 0 { part.len() } else { 0 }].clone_into(cell);
            }
            x += wide;
        }
    }
    let rows = grid.iter().map(|row| row.concat().trim_end().to_owned());
    rows.collect::<Vec<String>>().join("\n")
}

/// The pieces of a role that nothing lies over.
pub(super) fn seen(frame: &Frame, role: Role) -> Vec<Piece> {
    let pieces = frame.pieces();
    let wide = |piece: &Piece| drybench::text::wrap::columns(&piece.text);
    let shown = pieces.iter().enumerate().filter(|(at, one)| {
        let mut over = pieces[at + 1..].iter();
        one.role == role
            && !over
                .any(|other| other.y == one.y && other.x <= one.x && one.x < other.x + wide(other))
    });
    shown.map(|(_, one)| one.clone()).collect()
}

/// All words of a picture, its rows joined, without the lines between areas.
pub(super) fn words(text: &str) -> String {
    let plain = text.replace(['│', '─', '┌', '┐', '└', '┘'], " ");
    plain.split_whitespace().collect::<Vec<&str>>().join(" ")
}
