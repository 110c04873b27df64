//! A screen in memory: views are drawn on it, events sent to it, its text read, its size changed.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;

use cursive::backend::Backend;
use cursive::event::Event;
use cursive::theme::{Color, ColorPair, Effect};
use cursive::{Cursive, CursiveRunner, Vec2};
use unicode_width::UnicodeWidthStr as _;

/// Views on a screen of cells.
pub(crate) struct MemoryScreen {
    runner: CursiveRunner<Cursive>,
    cells: Rc<Cells>,
}

/// What stands on the screen, and what is still to be handed to the views.
struct Cells {
    size: Cell<Vec2>,
    cursor: Cell<Vec2>,
    /// Row by row; the second half of a wide character is an empty text.
    grid: RefCell<Vec<Vec<String>>>,
    events: RefCell<VecDeque<Event>>,
    /// Every text that was printed since the start, as it came.
    printed: RefCell<Vec<String>>,
    coloured: Cell<bool>,
    effects: RefCell<Vec<Effect>>,
    /// How each cell of the grid looks.
    looks: RefCell<Vec<Vec<Look>>>,
    /// How what is printed next looks.
    look: RefCell<Look>,
}

/// How a cell looks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Look {
    /// The colours of the letter and of the ground.
    pub(crate) colours: ColorPair,
    /// What is done to them: bold, reverse, underline.
    pub(crate) effects: Vec<Effect>,
}

impl Look {
    fn plain() -> Look {
        Look {
            colours: ColorPair::terminal_default(),
            effects: Vec::new(),
        }
    }
}

impl MemoryScreen {
    /// Shows the views at a size, in columns and rows.
    pub(crate) fn open(columns: usize, rows: usize, views: Cursive) -> MemoryScreen {
        let cells = Rc::new(Cells {
            size: Cell::new(Vec2::new(columns, rows)),
            cursor: Cell::new(Vec2::zero()),
            grid: RefCell::new(blank(columns, rows)),
            events: RefCell::default(),
            printed: RefCell::default(),
            coloured: Cell::new(false),
            effects: RefCell::default(),
            looks: RefCell::new(vec![vec![Look::plain(); columns]; rows]),
            look: RefCell::new(Look::plain()),
        });
        let backend = MemoryBackend(Rc::clone(&cells));
        let mut runner = CursiveRunner::new(views, Box::new(backend) as Box<dyn Backend>);
        runner.refresh();
        MemoryScreen { runner, cells }
    }

    /// Hands events to the views, drawing after each as the real loop does.
    pub(crate) fn send(&mut self, events: impl IntoIterator<Item = Event>) {
        for event in events {
            self.cells.events.borrow_mut().push_back(event);
            if self.runner.process_events() {
                self.runner.refresh();
            }
        }
    }

    /// Types a text, character by character.
    pub(crate) fn type_text(&mut self, text: &str) {
        self.send(text.chars().map(Event::Char));
    }

    /// Changes the size as a person does who pulls at the window.
    pub(crate) fn resize(&mut self, columns: usize, rows: usize) {
        self.cells.size.set(Vec2::new(columns, rows));
        let mut grid = self.cells.grid.borrow_mut();
        grid.resize(rows, vec![" ".to_owned(); columns]);
        for row in grid.iter_mut() {
            row.resize(columns, " ".to_owned());
        }
        drop(grid);
        let mut looks = self.cells.looks.borrow_mut();
        looks.resize(rows, vec![Look::plain(); columns]);
        for row in looks.iter_mut() {
            row.resize(columns, Look::plain());
        }
        drop(looks);
        self.send([Event::WindowResize]);
    }

    /// The rows, without blanks at their ends.
    pub(crate) fn lines(&self) -> Vec<String> {
        self.cells
            .grid
            .borrow()
            .iter()
            .map(|row| row.concat().trim_end().to_owned())
            .collect()
    }

    /// Row by row, each cell with its text and how it looks; the second half of a wide character has no text.
    pub(crate) fn cells(&self) -> Vec<Vec<(String, Look)>> {
        let (grid, looks) = (self.cells.grid.borrow(), self.cells.looks.borrow());
        let rows = grid.iter().zip(looks.iter());
        rows.map(|(texts, looks)| texts.iter().cloned().zip(looks.iter().cloned()).collect())
            .collect()
    }

    /// All rows as one text.
    pub(crate) fn text(&self) -> String {
        self.lines().join("\n")
    }

    /// Tells whether any colour but the terminal's own was set.
    pub(crate) fn is_coloured(&self) -> bool {
        self.cells.coloured.get()
    }

    /// The effects that were set, in their order.
    pub(crate) fn effects(&self) -> Vec<Effect> {
        self.cells.effects.borrow().clone()
    }

    /// Every text that was printed since the start, as it came.
    pub(crate) fn printed(&self) -> Vec<String> {
        self.cells.printed.borrow().clone()
    }

    /// Tells whether the views still want to be shown.
    pub(crate) fn is_running(&self) -> bool {
        self.runner.is_running()
    }

    /// The views.
    pub(crate) fn views(&mut self) -> &mut Cursive {
        &mut self.runner
    }
}

fn blank(columns: usize, rows: usize) -> Vec<Vec<String>> {
    vec![vec![" ".to_owned(); columns]; rows]
}

/// Writes into the cells.
struct MemoryBackend(Rc<Cells>);

impl Backend for MemoryBackend {
    fn poll_event(&mut self) -> Option<Event> {
        self.0.events.borrow_mut().pop_front()
    }

    fn set_title(&mut self, title: String) {
        self.0.printed.borrow_mut().push(title);
    }

    fn refresh(&mut self) {}

    fn has_colors(&self) -> bool {
        true
    }

    fn screen_size(&self) -> Vec2 {
        self.0.size.get()
    }

    fn is_persistent(&self) -> bool {
        true
    }

    fn move_to(&self, pos: Vec2) {
        self.0.cursor.set(pos);
    }

    fn print(&self, text: &str) {
        self.0.printed.borrow_mut().push(text.to_owned());
        let Vec2 { x, y } = self.0.cursor.get();
        let mut grid = self.0.grid.borrow_mut();
        let mut looks = self.0.looks.borrow_mut();
        let width = text.width();
        for column in x..x + width {
            // What runs over the end of a row is cut off, as terminals do.
            if let Some(cell) = grid.get_mut(y).and_then(|row| row.get_mut(column)) {
                text.clone_into(cell);
                if column > x {
                    cell.clear();
                }
            }
            if let Some(look) = looks.get_mut(y).and_then(|row| row.get_mut(column)) {
                look.clone_from(&self.0.look.borrow());
            }
        }
        self.0.cursor.set(Vec2::new(x + width, y));
    }

    fn clear(&self, ground: Color) {
        let size = self.0.size.get();
        *self.0.grid.borrow_mut() = blank(size.x, size.y);
        let mut look = Look::plain();
        look.colours.back = ground;
        *self.0.looks.borrow_mut() = vec![vec![look; size.x]; size.y];
    }

    fn set_color(&self, colours: ColorPair) -> ColorPair {
        if colours != ColorPair::terminal_default() {
            self.0.coloured.set(true);
        }
        std::mem::replace(&mut self.0.look.borrow_mut().colours, colours)
    }

    fn set_effect(&self, effect: Effect) {
        self.0.effects.borrow_mut().push(effect);
        self.0.look.borrow_mut().effects.push(effect);
    }

    fn unset_effect(&self, effect: Effect) {
        self.0
            .look
            .borrow_mut()
            .effects
            .retain(|one| *one != effect);
    }
}
