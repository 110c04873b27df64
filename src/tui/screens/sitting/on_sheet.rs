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

/// By how many lines what is worth reading is scrolled at least.
const READING: usize = 5;

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
            // Nobody counts to the millisecond.
            let tenths = Millis((timed.0 + 50) / 100 * 100);
            let said = desk.say("rehearsal-counted", &[("time", tenths.into())]);
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
        let prepared = self.session.prepared().clone();
        let module = &prepared.module;
        let seed = self.session.run().seed;
        let inside = self.box_area(desk.body(), desk).within(2, 1);
        let (tall, lines) = match &self.sheet {
            Some(sheet) => (
                self.place_cells(sheet, inside.wide, desk).1,
                self.sheet_lines(sheet, inside.wide, desk).len(),
            ),
            None => return Turn::Stay,
        };
        let rehearsal = self.session.rehearsal();
        let Some(sheet) = &mut self.sheet else {
            return Turn::Stay;
        };
        let running = matches!(
            sheet.question,
            Question::Time(Timing::Count { since: Some(_) } | Timing::Watch { since: Some(_), .. })
        ) || matches!(
            // What has been done cannot be taken back at a bench either.
            sheet.question,
            Question::Time(Timing::Judge { time, .. }) if time > Millis::ZERO
        );
        if command == Command::Back && !running {
            if !sheet.ask_before() {
                self.sheet = None;
            }
            return Turn::Stay;
        }
        if matches!(command, Command::PageUp | Command::PageDown) {
            sheet.scroll.moved(command, lines, READING);
            return Turn::Stay;
        }
        match &mut sheet.question {
            Question::Places => {
                let rows = sheet.tasks.len();
                match command {
                    // The cells stand in columns; the eye moves from one to the next.
                    Command::Left => sheet.choice.at = sheet.choice.at.saturating_sub(tall),
                    Command::Right if sheet.choice.at + tall < rows => sheet.choice.at += tall,
                    Command::Right => {}
                    Command::Type(' ') => {
                        let at = sheet.choice.at.min(rows - 1);
                        sheet.mark(at, rehearsal);
                        sheet.choice.at = (at + 1).min(rows - 1);
                    }
                    Command::Type('a') if !sheet.one_at_a_time(rehearsal) => {
                        let every = sheet.chosen.iter().all(|one| *one);
                        sheet.chosen.fill(!every);
                    }
                    Command::Pick(3, row) => sheet.mark(row, rehearsal),
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
                let offered = Sheet::offered(&module.steps[sheet.step], *way, seed);
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
                Command::Take | Command::Back => {
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
