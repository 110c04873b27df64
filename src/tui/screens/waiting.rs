//! The rehearsals of a workflow that wait to be gone on with, when there are several.

use std::sync::Arc;

use super::sitting::Sitting;
use super::{Module, not_kept, not_started};
use crate::app::System;
use crate::app::keep::{Keeper, Survey, Waiting};
use crate::app::rehearse::Session;
use crate::rehearsal::action::Help;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::rows::{self, Look};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};

/// The rehearsals that wait.
pub struct WaitingRuns {
    module: Module,
    kept: Survey,
    choice: Choice,
}

impl WaitingRuns {
    /// Those of a survey.
    #[must_use]
    pub fn new(module: &Module, kept: &Survey) -> WaitingRuns {
        WaitingRuns {
            module: Arc::clone(module),
            kept: kept.clone(),
            choice: Choice::default(),
        }
    }

    fn rows<S: System>(&self, desk: &Desk<S>) -> Vec<String> {
        let row = |one: &Waiting| {
            let help = match one.run.help {
                Help::Guided => "screens-setup-guided",
                Help::Prompted => "screens-setup-prompted",
                Help::Unaided => "screens-setup-unaided",
            };
            let values = [
                ("begun", one.begun.as_str().into()),
                ("count", one.run.actions.len().into()),
                ("help", desk.say(help, &[]).into()),
                ("seed", one.run.seed.0.to_string().into()),
            ];
            desk.say("screens-waiting-row", &values)
        };
        self.kept.waiting.iter().map(row).collect()
    }
}

/// The bench of a run that is gone on with, or why it cannot be.
pub(super) fn taken_up<S>(waiting: &Waiting, desk: &Desk<S>) -> Result<Sitting<S>, Notice>
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    let found = Keeper::take_up(&desk.system, &waiting.path, &waiting.run.module)
        .map_err(|problem| not_kept(&problem, &desk.words))?
        .ok_or_else(|| Notice::new(vec![desk.say("screens-nothing-broken-off", &[])]))?;
    let session = Session::resume(&desk.shelf, found.run)
        .map_err(|problem| not_started(&problem, &desk.words))?;
    let torn = found.torn || waiting.torn;
    Ok(Sitting::new(session, found.keeper, torn, desk))
}

impl<S> Screen<S> for WaitingRuns
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let count = self.kept.waiting.len();
        if self.choice.moved(command, count, desk.body().tall) {
            return Turn::Stay;
        }
        match command {
            Command::Pick(0, row) if row != self.choice.at => self.choice.at = row,
            Command::Take | Command::Pick(0, _) => {
                if let Some(one) = self.kept.waiting.get(self.choice.at) {
                    return match taken_up(one, desk) {
                        Ok(sitting) => Turn::Replace(Box::new(sitting)),
                        Err(notice) => Turn::Tell(notice),
                    };
                }
            }
            Command::Back => return Turn::Close,
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let question = desk.say("screens-waiting-question", &[]);
        let mut lines = prose::wrapped(Role::Faint, &question, inside.wide);
        for problem in &self.kept.refused {
            for text in not_kept(problem, &desk.words).texts {
                lines.extend(prose::wrapped(Role::Caution, &text, inside.wide));
            }
        }
        lines.push(Line::new(Role::Plain, ""));
        prose::draw(frame, inside, &lines, Scroll::default());
        let (_, below) = inside.split_rows(lines.len());
        rows::draw(
            frame,
            below,
            &self.rows(desk),
            self.choice.at,
            Look::of(0, false),
        );
    }

    fn title(&self, desk: &Desk<S>) -> String {
        let title = self.module.module.identity.title.as_str();
        desk.say("screens-waiting-title", &[("module", title.into())])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Enter, "screens-start-go-on"),
            desk.hint(Key::UpDown, "screens-key-choose"),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "screens-waiting-about"
    }
}
