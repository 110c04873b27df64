//! A laboratory is being opened: its record is read beside the screens, which take keys meanwhile.

use std::sync::Mutex;
use std::sync::mpsc::{self, Receiver, TryRecvError};

use super::sign_in::SignIn;
use super::welcome::Welcome;
use crate::app::System;
use crate::app::laboratory::{Laboratory, Place as _, Problem};
use crate::record::log::Trouble;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn, not_opened};
use crate::tui::screens::start::Start;

/// What comes of opening.
type Opened<S> = Result<Laboratory<<S as System>::Place>, Problem>;

/// Waits for a laboratory.
pub struct Opening<S: System> {
    comes: Mutex<Receiver<Opened<S>>>,
    name: String,
}

impl<S: System> Opening<S> {
    /// Begins to open the laboratory of the folder for data; none where there is no laboratory.
    ///
    /// # Errors
    /// What is there cannot be opened.
    pub fn begin(desk: &Desk<S>) -> Result<Option<Opening<S>>, Problem> {
        let Ok(folder) = desk.laboratory_folder() else {
            return Ok(None);
        };
        if !desk.system.is_folder(&folder) {
            return Ok(None);
        }
        let place = desk.system.place(&folder)?;
        let Some(title) = place.title()? else {
            // An end that was cut off to nothing is not the same as a beginning.
            let nothing = place.log().strands()?.is_empty() && place.heads()?.is_empty();
            return if nothing {
                Ok(None)
            } else {
                Err(Problem::NotOpened)
            };
        };
        let (gives, comes) = mpsc::channel();
        desk.system.aside(Box::new(move || {
            // Whoever has left no longer waits for it.
            let _left = gives.send(Laboratory::open(place));
        }));
        Ok(Some(Opening {
            comes: Mutex::new(comes),
            name: title.name.as_str().to_owned(),
        }))
    }

    fn look(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let comes = self.comes.get_mut();
        let comes = comes.unwrap_or_else(std::sync::PoisonError::into_inner);
        let opened = match comes.try_recv() {
            Ok(opened) => opened,
            Err(TryRecvError::Empty) => return Turn::Stay,
            Err(TryRecvError::Disconnected) => Err(Trouble::Unreachable.into()),
        };
        let laid = opened
            .map_err(|problem| not_opened(&problem, &desk.words))
            .and_then(|laboratory| desk.lay_open(laboratory));
        match laid {
            Ok(()) => Turn::Replace(Box::new(SignIn::new(desk))),
            Err(notice) => Turn::Replace(Box::new(Welcome::instead(notice))),
        }
    }
}

impl<S: System> Screen<S> for Opening<S> {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        match command {
            Command::Tick => self.look(desk),
            Command::Type('p') => Turn::Open(Box::new(Start::new(desk))),
            Command::Back | Command::Type('q') => Turn::Leave,
            _ => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let name = [("name", self.name.as_str().into())];
        let told = prose::wrapped(
            Role::Plain,
            &desk.say("office-opening-told", &name),
            inside.wide,
        );
        prose::draw(frame, inside, &told, Scroll::default());
    }

    fn title(&self, _desk: &Desk<S>) -> String {
        self.name.clone()
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Letter('p'), "office-way-practise"),
            desk.hint(Key::Letter('q'), "screens-key-quit"),
        ]
    }

    fn about(&self) -> &'static str {
        "office-opening-about"
    }

    fn is_live(&self) -> bool {
        true
    }
}
