//! Answers to what is asked before a step is done.

use super::Sitting;
use super::sheet::{Question, Sheet};
use super::timing::Timing;
use crate::app::System;
use crate::rehearsal::action::Help;
use crate::rehearsal::drive::{Nonsense, SIGN_AT_MOST};
use crate::report::problems;
use crate::tui::command::Command;
use crate::tui::rows;
use crate::tui::screen::{Desk, Turn};
use crate::units::Millis;

impl<S> Sitting<S>
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    /// Does what the sheet says, its timed part lasting so long.
    fn perform(&mut self, timed: Option<Millis>, desk: &Desk<S>) -> Turn<S> {
        let Some(sheet) = self.sheet.take() else {
            return Turn::Stay;
        };
        let rehearsal = self.session.rehearsal();
        let step = &rehearsal.module().steps[sheet.step];
        self.answered.insert(sheet.step, sheet.options(step));
        let actions = sheet.actions(rehearsal.module(), rehearsal, timed);
        let counted = matches!(sheet.question, Question::Time(Timing::Count { .. }));
        let turn = self.act(actions, desk);
        if let (true, Some(timed)) = (counted && self.help() != Help::Unaided, timed) {
            let said = desk.say("rehearsal-counted", &[("time", timed.into())]);
            self.just.insert(0, said);
        }
        turn
    }

    /// Goes on to the next question of the sheet, or does the step when there is none.
    fn next_question(&mut self, desk: &Desk<S>) -> Turn<S> {
        let rehearsal = self.session.rehearsal();
        let asks = self
            .sheet
            .as_mut()
            .is_some_and(|sheet| sheet.ask_next(rehearsal));
        if asks {
            Turn::Stay
        } else {
            self.perform(None, desk)
        }
    }

    pub(super) fn on_sheet(&mut self, command: Command, desk: &Desk<S>) -> Turn<S> {
        let module = &self.session.prepared().module;
        let Some(sheet) = &mut self.sheet else {
            return Turn::Stay;
        };
        let running = matches!(
            sheet.question,
            Question::Time(Timing::Count { since: Some(_) } | Timing::Watch { since: Some(_), .. })
        );
        if command == Command::Back && !running {
            if !sheet.ask_before() {
                self.sheet = None;
            }
            return Turn::Stay;
        }
        match &mut sheet.question {
            Question::Places => {
                let rows = sheet.tasks.len();
                match command {
                    Command::Left => sheet.choice.at = sheet.choice.at.saturating_sub(1),
                    Command::Right => sheet.choice.at = (sheet.choice.at + 1).min(rows - 1),
                    Command::Type(' ') => {
                        let at = sheet.choice.at.min(rows - 1);
                        sheet.chosen[at] = !sheet.chosen[at];
                        sheet.choice.at = (at + 1).min(rows - 1);
                    }
                    Command::Type('a') => {
                        let every = sheet.chosen.iter().all(|one| *one);
                        sheet.chosen.fill(!every);
                    }
                    Command::Pick(3, row) if row < rows => sheet.chosen[row] = !sheet.chosen[row],
                    Command::Take => {
                        if !sheet.chosen.contains(&true) {
                            let at = sheet.choice.at.min(rows - 1);
                            sheet.chosen[at] = true;
                        }
                        return self.next_question(desk);
                    }
                    _ => {
                        sheet.choice.moved(command, rows, rows);
                    }
                }
                Turn::Stay
            }
            Question::Way(_) if command == Command::Type('=') => {
                let Some(before) = self.answered.get(&sheet.step) else {
                    return Turn::Stay;
                };
                for (option, before) in sheet.options.iter_mut().zip(before) {
                    option.get_or_insert(*before);
                }
                self.next_question(desk)
            }
            Question::Way(way) => {
                let offered = Sheet::offered(&module.steps[sheet.step], *way);
                let taken = match command {
                    Command::Take => Some(sheet.choice.at),
                    Command::Pick(3, row) => Some(row),
                    Command::Type(letter) => rows::of_letter(letter),
                    _ => {
                        sheet.choice.moved(command, offered.len(), offered.len());
                        None
                    }
                };
                let Some(&option) = taken.and_then(|row| offered.get(row)) else {
                    return Turn::Stay;
                };
                sheet.options[*way] = Some(option);
                self.next_question(desk)
            }
            Question::Time(_) => self.on_time(command, desk),
        }
    }

    fn on_time(&mut self, command: Command, desk: &Desk<S>) -> Turn<S> {
        let now = desk.system.elapsed();
        let Some(Sheet {
            question: Question::Time(timing),
            ..
        }) = &mut self.sheet
        else {
            return Turn::Stay;
        };
        let go = matches!(
            command,
            Command::Type(' ') | Command::Take | Command::Pick(3, _)
        );
        match timing {
            Timing::Timer { field, wrong } => match command {
                Command::Type(c) => field.typed(c),
                Command::Erase => field.erase(),
                Command::Take => match field.text.parse::<Millis>() {
                    Ok(time) if Millis::ZERO <= time && time <= Millis::minutes(24 * 60) => {
                        return self.perform(Some(time), desk);
                    }
                    Ok(_) => {
                        *wrong =
                            Some(problems::nonsense(&Nonsense::TimeOutOfRange, &desk.words).what);
                    }
                    Err(why) => *wrong = Some(problems::unit_problem(&why, &desk.words)),
                },
                _ => {}
            },
            Timing::Count { since } if go => match since {
                None => *since = Some(now),
                Some(since) => {
                    let counted = now - *since;
                    return self.perform(Some(counted), desk);
                }
            },
            Timing::Watch { since: None, .. } if go => {
                if let Timing::Watch { since, .. } = timing {
                    *since = Some(now);
                }
            }
            Timing::Watch { .. } if go || matches!(command, Command::Tick | Command::Back) => {
                let ended = timing.tick(now, SIGN_AT_MOST);
                let Timing::Watch { time, .. } = timing else {
                    return Turn::Stay;
                };
                let time = *time;
                if command != Command::Tick || ended.is_some() {
                    return self.perform(Some(time), desk);
                }
            }
            Timing::Judge { portion, time } => match command {
                Command::Type(' ') | Command::Pick(3, _) => *time += *portion,
                // Nobody can judge before anything has been done.
                Command::Take if *time == Millis::ZERO => *time += *portion,
                Command::Take => {
                    let time = *time;
                    return self.perform(Some(time), desk);
                }
                _ => {}
            },
            _ => {}
        }
        Turn::Stay
    }
}
