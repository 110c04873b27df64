//! What a screen is: a state that takes commands and draws itself; and what screens share.

use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use super::command::Command;
use super::frame::{Area, Frame};
use super::house::House;
use super::theme::Theme;
use crate::app::System;
use crate::app::fault::Fault;
use crate::app::keep::Drawer;
use crate::app::laboratory::{self, Attendance, Laboratory, Problem, worded};
use crate::app::laying;
use crate::app::shelf::Shelf;
use crate::report::plain::Glyphs;
use crate::report::problems::Told;
use crate::report::record::Telling;
use crate::standing::Ledger;
use crate::text::{Value, Words};
use crate::units::PersonCode;

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
    /// The laboratory that is open, if one is. The lock is never waited for: the drawing library wants to be able to hand screens to other threads, and a
    /// connection to a database cannot be shared.
    pub house: Option<Mutex<House<S::Place>>>,
    /// Who is signed in.
    pub here: Option<Attendance>,
    /// Which folder for data was meant before a demonstration was opened, as long as it is open.
    pub before_demonstration: Option<Option<PathBuf>>,
    /// Folders that are cleared away when the program is left.
    pub thrown_away: Vec<PathBuf>,
    /// What the bar at the top says of laboratory and person, on every screen.
    pub at_the_top: AtTheTop,
}

/// What the bar at the top says of laboratory and person.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct AtTheTop {
    /// Which laboratory is open, and who is signed in.
    pub whole: String,
    /// Which laboratory is open: what is left where the title of a screen needs the room.
    pub short: String,
}

impl<S: System> Desk<S> {
    /// Says a message.
    #[must_use]
    pub fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.words.say(id, values)
    }

    /// The laboratory that is open, with the words to talk about it.
    pub fn office(&mut self) -> Option<(&mut House<S::Place>, &Words)> {
        let house = self.house.as_mut()?;
        let house = house.get_mut().unwrap_or_else(PoisonError::into_inner);
        Some((house, &self.words))
    }

    /// The folder of the laboratory's record.
    ///
    /// # Errors
    /// When there is no folder for data and none can be made.
    pub fn laboratory_folder(&self) -> Result<PathBuf, Fault> {
        laboratory::folder(&self.system, self.data.as_deref())
    }

    /// Reads the laboratory's folder of modules: what lies there stands on the shelf, as it is now.
    pub fn lay_own_modules(&mut self) {
        laying::own(&mut self.shelf, self.data.as_deref(), &self.system);
    }

    /// Where the runs of whoever is signed in are kept.
    #[must_use]
    pub fn drawer(&self) -> Drawer<'_> {
        Drawer {
            data: self.data.as_deref(),
            person: self.person(),
        }
    }

    /// Lays a laboratory open in the place of the one before. Nobody is signed in.
    ///
    /// # Errors
    /// When its names cannot be read.
    pub fn lay_open(&mut self, laboratory: Laboratory<S::Place>) -> Result<(), Notice> {
        let house = House::of(laboratory, &self.words);
        let house = house.map_err(|problem| not_opened(&problem, &self.words))?;
        self.house = Some(Mutex::new(house));
        self.here = None;
        self.lay_own_modules();
        Ok(())
    }

    /// Leaves a demonstration that was opened on the way: the laboratory and the folder for data are those from before.
    pub fn leave_demonstration(&mut self) {
        if let Some(before) = self.before_demonstration.take() {
            self.data = before;
            self.house = None;
            self.here = None;
            self.lay_own_modules();
        }
    }

    /// Who is signed in.
    #[must_use]
    pub fn person(&self) -> Option<PersonCode> {
        self.here.map(|here| here.person())
    }

    /// Whether somebody is signed in to a laboratory that is cleared away when the program is left.
    #[must_use]
    pub fn is_thrown_away(&self) -> bool {
        let mut folders = self.thrown_away.iter();
        self.here.is_some() && folders.any(|folder| self.data.as_ref() == Some(folder))
    }

    /// A key and what it does: a message, with its part `long` for the help where it has one.
    #[must_use]
    pub fn hint(&self, key: Key, id: &str) -> Hint {
        let says = self.say(id, &[]);
        let long = format!("{id}.long");
        Hint {
            command: key.command(),
            key: key.name(self),
            explains: if self.words.knows(&long) {
                self.say(&long, &[])
            } else {
                says.clone()
            },
            says,
        }
    }

    /// The part of the terminal that a screen has for itself: without the bar at the top and the keys at the bottom.
    #[must_use]
    pub fn body(&self) -> Area {
        let (_, below) = self.area.split_rows(1);
        below.split_rows(below.tall.saturating_sub(2)).0
    }
}

/// Why a laboratory is not open, in words.
#[must_use]
pub fn not_opened(problem: &Problem, words: &Words) -> Notice {
    // Nobody's name is at hand.
    let ledger = Ledger::new();
    let names = |_| String::new();
    let telling = Telling {
        ledger: &ledger,
        words,
        names: &names,
    };
    let told = worded::problem(problem, &telling);
    Notice::told(told)
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

    /// The message that says where it is kept when the program has been left.
    fn farewell(&self) -> &'static str {
        "screens-farewell"
    }

    /// Whether closing the screen now would drop what somebody has filled in here. Then it is asked first.
    fn would_drop(&self) -> bool {
        false
    }

    /// Whether going back closes only what is laid open over the screen, so that nothing is dropped by it.
    fn closes_first(&self) -> bool {
        false
    }

    /// Does what it asked time for with [`Turn::Work`].
    fn works(&mut self, _desk: &mut Desk<S>) -> Turn<S> {
        Turn::Stay
    }

    /// Whether it stays open however long nobody presses a key, because somebody watches it.
    fn is_watched(&self) -> bool {
        false
    }

    /// Called when the screen has been opened over others or in their place.
    fn comes_up(&mut self, _desk: &mut Desk<S>) {}

    /// Called when the screen over this one has been closed. What it says comes next, except that a screen just closed is not closed again.
    fn comes_back(&mut self, _desk: &mut Desk<S>) -> Turn<S> {
        Turn::Stay
    }
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
    /// The screen under this one, and something has to be read first.
    CloseWith(Notice),
    /// Another screen in the place of all, under something that has to be read first if there is anything.
    Restart(Box<dyn Screen<S>>, Option<Notice>),
    /// The same screen, and something has to be read first.
    Tell(Notice),
    /// The same screen, which does something that takes a while ([`Screen::works`]) once this message has been drawn.
    Work(&'static str),
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

    /// What is wrong, and what to do about it.
    #[must_use]
    pub fn told(told: Told) -> Notice {
        Notice::new(std::iter::once(told.what).chain(told.fix).collect())
    }
}

/// A key that a screen names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// Enter.
    Enter,
    /// Escape.
    Esc,
    /// The space bar.
    Space,
    /// The tabulator.
    Tab,
    /// Up and down.
    UpDown,
    /// Left and right.
    LeftRight,
    /// All four arrows.
    Arrows,
    /// A page up and down.
    Page,
    /// A character.
    Letter(char),
    /// The letters from `a` to this one.
    Letters(char),
    /// Any capital letter, for a place.
    Capitals,
    /// Any small letter, for what is done there.
    SmallLetters,
    /// F1.
    F1,
    /// Control with T.
    CtrlT,
    /// Control with G.
    CtrlG,
    /// Control with Q.
    CtrlQ,
}

impl Key {
    /// What it sends when it is clicked; of several keys one that does no harm.
    fn command(self) -> Command {
        match self {
            Key::Enter => Command::Take,
            Key::Esc => Command::Back,
            Key::Space => Command::Type(' '),
            Key::Tab => Command::Next,
            Key::UpDown | Key::Arrows | Key::SmallLetters => Command::Down,
            Key::LeftRight | Key::Capitals => Command::Right,
            Key::Page => Command::PageDown,
            Key::Letter(letter) => Command::Type(letter),
            Key::Letters(_) => Command::Type('a'),
            Key::F1 => Command::Help,
            Key::CtrlT => Command::Theme,
            Key::CtrlG => Command::Glyphs,
            Key::CtrlQ => Command::Leave,
        }
    }

    /// How it is called; the id of a message or the characters themselves.
    fn name<S: System>(self, desk: &Desk<S>) -> String {
        let id = match self {
            Key::Letter(letter) => return letter.to_string(),
            Key::Letters(last) => return format!("a-{last}"),
            Key::Capitals => return "A-Z".to_owned(),
            Key::SmallLetters => return "a-z".to_owned(),
            Key::Enter => "screens-key-enter",
            Key::Esc => "screens-key-esc",
            Key::Space => "screens-key-space",
            Key::Tab => "screens-key-tab",
            Key::UpDown => "screens-key-up-down",
            Key::LeftRight => "screens-key-left-right",
            Key::Arrows => "screens-key-arrows",
            Key::Page => "screens-key-page",
            Key::F1 => "screens-key-f1",
            Key::CtrlT => "screens-key-ctrl-t",
            Key::CtrlG => "screens-key-ctrl-g",
            Key::CtrlQ => "screens-key-ctrl-q",
        };
        let plain = format!("{id}.ascii");
        if desk.glyphs == Glyphs::Ascii && desk.words.knows(&plain) {
            return desk.say(&plain, &[]);
        }
        desk.say(id, &[])
    }
}

/// A key and what it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// What it sends.
    pub command: Command,
    /// How the key is called.
    pub key: String,
    /// What it does, in a word or two.
    pub says: String,
    /// What it does, as the help tells it.
    pub explains: String,
}
