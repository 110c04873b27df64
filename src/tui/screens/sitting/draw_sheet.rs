//! What is asked before a step is done, drawn: what is worth reading above, the question below.

use super::Sitting;
use super::sheet::{Question, Sheet};
use super::timing::Timing;
use crate::app::System;
use crate::rehearsal::action::Help;
use crate::report::{Running, clock};
use crate::syllabus::place::spelled;
use crate::text::display_safe;
use crate::text::wrap::columns;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::rows::{self, Look};
use crate::tui::screen::Desk;
use crate::units::Millis;

impl<S: System> Sitting<S> {
    /// What is worth reading while a step is being asked about; nothing when unaided.
    pub(super) fn sheet_lines(&self, sheet: &Sheet, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        if self.session.run().help == Help::Unaided {
            return Vec::new();
        }
        let rehearsal = self.session.rehearsal();
        let running = Running::on_screen(rehearsal, &desk.words);
        let guided = self.session.run().help == Help::Guided;
        let Some(&task) = sheet.tasks.first() else {
            return Vec::new();
        };
        let step = &rehearsal.module().steps[sheet.step];
        let mut texts = running.protected(step, task);
        if guided {
            texts.extend(running.how(step, task));
        }
        let lines = texts
            .iter()
            .flat_map(|text| prose::wrapped(Role::Plain, text, wide));
        lines.collect()
    }

    pub(super) fn draw_sheet(&self, frame: &mut Frame, area: Area, sheet: &Sheet, desk: &Desk<S>) {
        let module = self.session.rehearsal().module();
        let step = &module.steps[sheet.step];
        let inside = frame.boxed(self.box_area(area, desk), &display_safe(&step.title));
        let reading = self.sheet_lines(sheet, inside.wide.saturating_sub(2), desk);
        let asked = self.asked_lines(sheet, inside.wide, desk);
        // What is asked is always whole; what is read gives way to it.
        let rows = self.question_rows(sheet, inside.wide, desk);
        let room = inside.tall.saturating_sub(asked.len() + rows + 1);
        let (upper, lower) = inside.split_rows(reading.len().min(room));
        prose::draw(frame, upper, &reading, sheet.scroll);
        let (_, lower) = lower.split_rows(usize::from(upper.tall > 0));
        prose::draw(frame, lower, &asked, Scroll::default());
        let (_, below) = lower.split_rows(asked.len());
        self.draw_question(frame, below, sheet, desk);
    }

    /// The question, with the answers given before.
    fn asked_lines(&self, sheet: &Sheet, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let rehearsal = self.session.rehearsal();
        let step = &rehearsal.module().steps[sheet.step];
        let mut lines: Vec<Line> = Vec::new();
        let places = self.places(sheet);
        let chosen: Vec<String> = places
            .into_iter()
            .zip(&sheet.chosen)
            .filter(|((place, _), chosen)| **chosen && !place.is_empty())
            .map(|((place, _), _)| place)
            .collect();
        if !matches!(sheet.question, Question::Places) && !chosen.is_empty() {
            let said = desk.say("screens-sitting-at", &[("places", chosen.into())]);
            lines.extend(prose::wrapped(Role::Faint, &said, wide));
        }
        for (way, taken) in step.ways.iter().zip(&sheet.options) {
            if let Some(option) = taken {
                let values = [
                    ("question", way.title.as_str().into()),
                    ("option", way.options[*option].title.as_str().into()),
                ];
                lines.extend(prose::wrapped(
                    Role::Faint,
                    &desk.say("screens-sitting-answered", &values),
                    wide,
                ));
            }
        }
        let said = match &sheet.question {
            Question::Places if sheet.one_at_a_time(rehearsal) => {
                desk.say("screens-sitting-where-one", &[])
            }
            Question::Places => desk.say("screens-sitting-where", &[]),
            Question::Way(way) => display_safe(&step.ways[*way].title),
            Question::Time(Timing::Timer { .. }) => desk.say("screens-sitting-timer", &[]),
            Question::Time(Timing::Count { since: None }) => desk.say("screens-sitting-count", &[]),
            Question::Time(Timing::Count { since: Some(_) }) => {
                desk.say("screens-sitting-counting", &[])
            }
            Question::Time(Timing::Watch {
                since: None, speed, ..
            }) => {
                let speed = ("speed", ((speed + 500) / 1000).into());
                desk.say("screens-sitting-watch", &[speed])
            }
            Question::Time(Timing::Watch { .. }) => desk.say("screens-sitting-watching", &[]),
            Question::Time(Timing::Judge { portion, .. }) => {
                desk.say("screens-sitting-judge", &[("portion", (*portion).into())])
            }
        };
        lines.extend(prose::wrapped(Role::Strong, &said, wide));
        lines
    }

    /// The places of a step as they are called, and whether it has been done there.
    fn places(&self, sheet: &Sheet) -> Vec<(String, bool)> {
        let rehearsal = self.session.rehearsal();
        let plan = rehearsal.plan();
        let place = |&task: &usize| {
            let place = spelled(&plan.tasks[task].place, &plan.dimensions).replace('/', " ");
            (display_safe(&place), rehearsal.is_done(task))
        };
        sheet.tasks.iter().map(place).collect()
    }

    fn question_rows(&self, sheet: &Sheet, wide: usize, desk: &Desk<S>) -> usize {
        let module = self.session.rehearsal().module();
        match &sheet.question {
            Question::Places => self.place_cells(sheet, wide, desk).1,
            Question::Way(way) => {
                let step = &module.steps[sheet.step];
                let options = step.ways[*way].options.iter();
                let titles: Vec<String> = options.map(|one| display_safe(&one.title)).collect();
                rows::height(&titles, wide, Look::of(3, true))
            }
            Question::Time(Timing::Timer { .. } | Timing::Count { .. }) => 2,
            // The time, the hand, and what shows: each sign, and a line for what else changes.
            Question::Time(_) => {
                let running = Running::on_screen(self.session.rehearsal(), &desk.words);
                let signs = sheet.tasks.first().map(|&task| running.signs(task));
                3 + signs.map_or(0, |signs| signs.len())
            }
        }
    }

    /// The cells of places: their texts, how many rows they take, how many stand beside each other, how wide each is.
    pub(super) fn place_cells(
        &self,
        sheet: &Sheet,
        wide: usize,
        desk: &Desk<S>,
    ) -> (Vec<String>, usize, usize, usize) {
        let done = desk.say("screens-sitting-done", &[]);
        let one = sheet.one_at_a_time(self.session.rehearsal());
        let texts: Vec<String> = self
            .places(sheet)
            .into_iter()
            .zip(&sheet.chosen)
            .map(|((place, is_done), chosen)| {
                let mark = match (*chosen, one) {
                    (true, false) => "[x]",
                    (false, false) => "[ ]",
                    (true, true) => "(x)",
                    (false, true) => "( )",
                };
                if is_done {
                    format!("{mark} {place} {done}")
                } else {
                    format!("{mark} {place}")
                }
            })
            .collect();
        let cell = texts
            .iter()
            .map(|text| columns(text))
            .max()
            .unwrap_or(0)
            .max(8)
            + 2;
        let across = (wide / cell).max(1);
        let rows = texts.len().div_ceil(across);
        (texts, rows, across, cell)
    }

    fn draw_question(&self, frame: &mut Frame, area: Area, sheet: &Sheet, desk: &Desk<S>) {
        let rehearsal = self.session.rehearsal();
        match &sheet.question {
            Question::Places => {
                let (texts, rows, _, wide) = self.place_cells(sheet, area.wide, desk);
                for (number, text) in texts.iter().enumerate() {
                    let cell = Area {
                        x: area.x + number / rows * wide,
                        y: area.y + number % rows,
                        wide: wide - 1,
                        tall: usize::from(number % rows < area.tall),
                    };
                    let role = if number == sheet.choice.at {
                        Role::Chosen
                    } else {
                        Role::Plain
                    };
                    frame.put_row(cell, 0, role, text);
                    frame.hot(cell, Command::Pick(3, number));
                }
            }
            Question::Way(way) => {
                let step = &rehearsal.module().steps[sheet.step];
                let offered = Sheet::offered(step, *way, self.session.run().seed).into_iter();
                let titles: Vec<String> = offered
                    .map(|one| display_safe(&step.ways[*way].options[one].title))
                    .collect();
                rows::draw(frame, area, &titles, sheet.choice.at, Look::of(3, true));
            }
            Question::Time(Timing::Timer { field, wrong }) => {
                frame.put(area, 0, 0, Role::Field, &field.shown());
                if let Some(wrong) = wrong {
                    frame.put(area, 1, 0, Role::Caution, wrong);
                }
            }
            Question::Time(Timing::Count { since }) => {
                frame.hot(area, Command::Pick(3, 0));
                if since.is_some() {
                    frame.put(
                        area,
                        0,
                        0,
                        Role::Faint,
                        &desk.say("screens-sitting-no-clock", &[]),
                    );
                }
            }
            Question::Time(Timing::Watch { time, since, .. }) => {
                self.draw_running(frame, area, sheet, *time, desk);
                frame.hot(area, Command::Pick(3, 0));
                if since.is_some() {
                    // One turn of the hand is a minute on the bench.
                    let label = desk.say("screens-sitting-minute", &[]);
                    let left = columns(&label) + 1;
                    let wide = area.wide.saturating_sub(left).min(60);
                    let at = usize::try_from(time.0 % 60_000).unwrap_or(0) * wide / 60_000;
                    let bar: String = (0..wide)
                        .map(|cell| match cell.cmp(&at) {
                            std::cmp::Ordering::Less => frame.pick('━', '='),
                            std::cmp::Ordering::Equal => frame.pick('●', 'O'),
                            std::cmp::Ordering::Greater => frame.pick('·', '.'),
                        })
                        .collect();
                    frame.put(area, 1, 0, Role::Faint, &label);
                    frame.put(area, 1, left, Role::Key, &bar);
                }
            }
            Question::Time(Timing::Judge { time, .. }) => {
                self.draw_running(frame, area, sheet, *time, desk);
                frame.hot(area, Command::Pick(3, 0));
            }
        }
    }

    /// How long a step has lasted on the bench, and what looks different since it began.
    fn draw_running(
        &self,
        frame: &mut Frame,
        area: Area,
        sheet: &Sheet,
        time: Millis,
        desk: &Desk<S>,
    ) {
        let rehearsal = self.session.rehearsal();
        let step = &rehearsal.module().steps[sheet.step];
        let values = [("clock", clock(time).into())];
        frame.put(
            area,
            0,
            0,
            Role::Plain,
            &desk.say("screens-sitting-so-far", &values),
        );
        let Some(task) = sheet.tasks_chosen().next() else {
            return;
        };
        let before = rehearsal.readings();
        let after = rehearsal.after(task, &sheet.options(step), time);
        // Before anything has been done, things look as they do now.
        let now = if time == Millis::ZERO {
            rehearsal
        } else {
            &after
        };
        let running = Running::on_screen(now, &desk.words);
        let mut seen = running.signs(task);
        for other in running.seen_of_bench(&before) {
            if !seen.contains(&other) {
                seen.push(other);
            }
        }
        let (_, below) = area.split_rows(2);
        let lines = seen
            .iter()
            .flat_map(|text| prose::wrapped(Role::Strong, text, below.wide));
        prose::draw(
            frame,
            below,
            &lines.collect::<Vec<Line>>(),
            Scroll::default(),
        );
    }
}
