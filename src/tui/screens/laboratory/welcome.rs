//! The first start: there is no laboratory yet. Look at an invented one, set up this one, or practise without a record.

use super::founding::Founding;
use super::opening::Opening;
use super::sign_in::SignIn;
use crate::app::System;
use crate::app::demonstration;
use crate::text::Caution;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::rows::{self, Look};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn, not_opened};
use crate::tui::screens::start::Start;

/// What can be done first, each with its message; `.about` explains it.
const WAYS: [&str; 3] = [
    "office-welcome-demonstration",
    "office-welcome-set-up",
    "office-welcome-practise",
];

/// The same where a laboratory is there that could not be opened: no other is set up in its place.
const WAYS_INSTEAD: [&str; 3] = [WAYS[0], "office-welcome-again", WAYS[2]];

/// The first start.
#[derive(Default)]
pub struct Welcome {
    choice: Choice,
    /// Why a laboratory that is there could not be opened.
    problem: Option<Notice>,
}

impl Welcome {
    /// Nothing is there yet.
    #[must_use]
    pub fn new() -> Welcome {
        Welcome::default()
    }

    /// There is a laboratory, and it cannot be opened: practising goes on.
    #[must_use]
    pub fn instead(problem: Notice) -> Welcome {
        Welcome {
            choice: Choice { at: WAYS.len() - 1 },
            problem: Some(problem),
        }
    }

    fn ways(&self) -> [&'static str; 3] {
        match self.problem {
            Some(_) => WAYS_INSTEAD,
            None => WAYS,
        }
    }

    /// Tries once more to open the laboratory that is there.
    fn again<S: System>(desk: &Desk<S>) -> Turn<S> {
        match Opening::begin(desk) {
            Ok(Some(opening)) => Turn::Replace(Box::new(opening)),
            Ok(None) => Turn::Replace(Box::new(Welcome::new())),
            Err(problem) => Turn::Tell(not_opened(&problem, &desk.words)),
        }
    }

    fn take<S: System>(&self, desk: &mut Desk<S>) -> Turn<S> {
        match self.choice.at {
            0 => match open_demonstration(desk) {
                Ok(asks) => Turn::Open(Box::new(asks)),
                Err(notice) => Turn::Tell(notice),
            },
            1 if self.problem.is_some() => Welcome::again(desk),
            1 => Turn::Open(Box::new(Founding::new(desk))),
            _ => Turn::Open(Box::new(Start::new(desk))),
        }
    }
}

/// Opens a fresh copy of the demonstration that is thrown away at the end.
///
/// # Errors
/// The machine has no room for it.
pub(in crate::tui) fn open_demonstration<S: System>(desk: &mut Desk<S>) -> Result<SignIn, Notice> {
    let made = demonstration::throw_away(&desk.system, &desk.words);
    let (folder, laboratory) = made
        .map_err(|problem| Notice::new(demonstration::no_demonstration(&problem, &desk.words)))?;
    desk.thrown_away.push(folder.clone());
    let before = desk.data.replace(folder);
    desk.before_demonstration.get_or_insert(before);
    desk.lay_open(laboratory)?;
    Ok(SignIn::new(desk))
}

impl<S: System> Screen<S> for Welcome {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if self.choice.moved(command, WAYS.len(), WAYS.len()) {
            return Turn::Stay;
        }
        match command {
            Command::Pick(0, row) if self.choice.at != row => {
                self.choice.at = row.min(WAYS.len() - 1);
                Turn::Stay
            }
            Command::Take | Command::Pick(0, _) => self.take(desk),
            Command::Back | Command::Type('q') => Turn::Leave,
            _ => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let wide = inside.wide.min(90);
        let inside = Area { wide, ..inside };
        let mut head = prose::wrapped(Role::Plain, &desk.say("office-welcome-greeting", &[]), wide);
        if let Some(problem) = &self.problem {
            head = problem
                .texts
                .iter()
                .flat_map(|text| prose::wrapped(Role::Strong, text, wide))
                .collect();
            let kept = desk.say("office-welcome-untouched", &[]);
            head.extend(prose::wrapped(Role::Plain, &kept, wide));
        }
        let (top, below) = inside.split_rows(head.len() + 1);
        prose::draw(frame, top, &head, Scroll::default());
        let ways = self.ways();
        let rows: Vec<String> = ways.iter().map(|id| desk.say(id, &[])).collect();
        let look = Look::of(0, false);
        let (list, below) = below.split_rows(rows::height(&rows, below.wide, look) + 1);
        rows::draw(frame, list, &rows, self.choice.at, look);
        let about = ways.get(self.choice.at).map(|id| format!("{id}.about"));
        let mut lines = prose::wrapped(
            Role::Plain,
            &desk.say(about.as_deref().unwrap_or(WAYS[0]), &[]),
            wide,
        );
        lines.push(prose::Line::new(Role::Plain, ""));
        let caution = format!("! {}", Caution::OthersComeFirst.say(&desk.words));
        lines.extend(prose::wrapped(Role::Caution, &caution, wide));
        prose::draw(frame, below, &lines, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("office-welcome-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Enter, "office-welcome-take"),
            desk.hint(Key::UpDown, "screens-key-choose"),
            desk.hint(Key::Letter('q'), "screens-key-quit"),
        ]
    }

    fn about(&self) -> &'static str {
        "office-welcome-about"
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        desk.leave_demonstration();
        Turn::Stay
    }
}
