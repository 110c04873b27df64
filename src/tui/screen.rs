//! What a screen is: a state that takes commands and draws itself; and what screens share.

use std::path::PathBuf;

use super::command::Command;
use super::frame::{Area, Frame};
use super::theme::Theme;
use crate::app::System;
use crate::app::shelf::Shelf;
use crate::report::plain::Glyphs;
use crate::text::{Value, Words};

/// What all screens share.
pub struct Desk<S: System> {
    /// The machine.
    pub system: S,
    /// The language.
    pub words: Words,
    /// Modules and what belongs to them.
    pub shelf: Shelf,
    /// The folder for data, if not the system's.
    pub data: Option<PathBuf>,
    /// The size of the whole terminal.
    pub area: Area,
    /// The colours.
    pub theme: Theme,
    /// The characters that figures and borders are drawn with.
    pub glyphs: Glyphs,
}

impl<S: System> Desk<S> {
    /// Says a message.
    #[must_use]
    pub fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.words.say(id, values)
    }

    /// The part of the terminal that a screen has for itself: without the bar at the top and the keys at the bottom.
    #[must_use]
    pub fn body(&self) -> Area {
        let (_, below) = self.area.split_rows(1);
        below.split_rows(below.tall.saturating_sub(2)).0
    }
}

/// One screen.
pub trait Screen<S: System>: Send + Sync {
    /// Takes a command.
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S>;

    /// Draws itself into an area.
    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>);

    /// What stands in the bar at the top.
    fn title(&self, desk: &Desk<S>) -> String;

    /// The keys that do something now, the ones most needed first.
    fn hints(&self, desk: &Desk<S>) -> Vec<Hint>;

    /// The message that explains the screen.
    fn about(&self) -> &'static str;

    /// Whether characters go into a text, so that none of them is a key.
    fn is_typing(&self) -> bool {
        false
    }

    /// Whether time passes on the screen, so that it is drawn again and again.
    fn is_live(&self) -> bool {
        false
    }

    /// What becomes of what was done here when the program is left now.
    fn leaving(&self) -> Leaving {
        Leaving::Fine
    }

    /// Called when the screen over this one has been closed.
    fn comes_back(&mut self, _desk: &mut Desk<S>) {}
}

/// What becomes of what was done on a screen when the program is left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Leaving {
    /// There is nothing to lose.
    Fine,
    /// It is kept at this path and can be gone on with.
    Kept(PathBuf),
    /// It would be lost.
    Lost,
}

/// What comes next after a command.
pub enum Turn<S: System> {
    /// The same screen.
    Stay,
    /// Another screen over this one.
    Open(Box<dyn Screen<S>>),
    /// Another screen in the place of this one.
    Replace(Box<dyn Screen<S>>),
    /// The screen under this one.
    Close,
    /// The same screen, and something has to be read first.
    Tell(Notice),
    /// The end of the program.
    Leave,
}

/// Something that has to be read: what happened, what was kept, what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// The paragraphs.
    pub texts: Vec<String>,
}

impl Notice {
    /// A notice of these paragraphs.
    #[must_use]
    pub fn new(texts: Vec<String>) -> Notice {
        Notice { texts }
    }
}

/// How a key is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Label {
    /// By a word of the language: the id of a message.
    Word(&'static str),
    /// By its own character.
    Letter(char),
    /// By the letters from `a` to this one.
    Letters(char),
}

/// A key and what it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// What it sends.
    pub command: Command,
    /// How it is called.
    pub label: Label,
    /// What it does, in a word or two.
    pub says: String,
    /// What it does, as the help tells it.
    pub explains: String,
}

impl Hint {
    /// Builds a hint.
    #[must_use]
    pub fn new<S: System>(command: Command, label: Label, id: &str, desk: &Desk<S>) -> Hint {
        let says = desk.say(id, &[]);
        let long = format!("{id}.long");
        Hint {
            command,
            label,
            explains: if desk.words.knows(&long) {
                desk.say(&long, &[])
            } else {
                says.clone()
            },
            says,
        }
    }

    /// The key and what it does, as they stand at the bottom of a screen.
    #[must_use]
    pub fn key(&self, words: &Words) -> String {
        match self.label {
            Label::Word(id) => words.say(id, &[]),
            Label::Letter(letter) => letter.to_string(),
            Label::Letters(last) => format!("a-{last}"),
        }
    }
}
