//! How the bench is drawn: what is worn and runs on top, where and what on the left, what came of it and what is seen on the right.

use super::Sitting;
use super::moves::{Doable, letter};
use super::over::{Ask, Over};
use super::sheet::{Question, Sheet};
use super::timing::Timing;
use crate::app::System;
use crate::rehearsal::action::Help;
use crate::report::Running;
use crate::syllabus::module::ProtectionKind;
use crate::syllabus::place::spelled;
use crate::text::wrap::{columns, wrap_behind};
use crate::text::{Value, display_safe};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Label};
use crate::units::Millis;

/// From this width on what is seen has a column of its own.
const THREE_COLUMNS: usize = 110;

/// How many rows tell what is worn and what runs.
const STATUS: usize = 2;

/// Where the parts of the bench are drawn.
struct Layout {
    status: Area,
    moves: Area,
    text: Area,
    /// What is seen, where it has a column of its own.
    seen: Option<Area>,
    caution: Area,
}

fn layout(area: Area, caution: usize) -> Layout {
    let (status, rest) = area.split_rows(STATUS);
    let (panes, caution) = rest.split_rows(rest.tall.saturating_sub(caution));
    let (moves, right) = panes.split_columns(if area.wide >= THREE_COLUMNS {
        44
    } else {
        area.wide * 43 / 80
    });
    let right = Area {
        x: right.x + 1,
        wide: right.wide.saturating_sub(1),
        ..right
    };
    let (text, seen) = if area.wide >= THREE_COLUMNS {
        let (text, seen) = right.split_columns(right.wide * 55 / 100);
        (text, Some(seen))
    } else {
        (right, None)
    };
    Layout {
        status,
        moves,
        text,
        seen,
        caution,
    }
}

/// A time as a clock shows it.
fn clock(time: Millis) -> String {
    let seconds = time.0 / 1000;
    format!(
        "{}:{:02}:{:02}",
        seconds / 3600,
        seconds / 60 % 60,
        seconds % 60
    )
}

impl<S: System> Sitting<S> {
    /// The bar at the top: what is rehearsed, how, and the clock of the bench.
    pub(super) fn bar(&self, desk: &Desk<S>) -> String {
        let rehearsal = self.session.rehearsal();
        let help = match self.session.run().help {
            Help::Guided => desk.say("screens-setup-guided", &[]),
            Help::Prompted => desk.say("screens-setup-prompted", &[]),
            Help::Unaided => desk.say("screens-setup-unaided", &[]),
        };
        let values: [(&str, Value); 3] = [
            ("module", rehearsal.module().identity.title.as_str().into()),
            ("help", help.into()),
            ("clock", clock(rehearsal.clock()).into()),
        ];
        desk.say("screens-sitting-title", &values)
    }

    /// The area in which the right-hand text is shown.
    pub(super) fn text_area(&self, desk: &Desk<S>) -> Area {
        self.parts(desk.body(), desk).text
    }

    /// The box for what lies over the bench; the caution below stays in sight.
    pub(super) fn box_area(&self, body: Area, desk: &Desk<S>) -> Area {
        let caution = Self::caution(body.wide, desk).len();
        let (body, _) = body.split_rows(body.tall.saturating_sub(caution));
        // A rim too narrow to read is better covered.
        let wide = if body.wide < 96 { body.wide } else { 90 };
        body.middle(wide, body.tall)
    }

    /// What comes before everything that this program says, short enough to stand on the screen all the time.
    fn caution(wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let text = desk.say("caution-others-come-first.short", &[]);
        prose::wrapped(Role::Caution, &format!("! {text}"), wide.saturating_sub(2))
    }

    fn parts(&self, area: Area, desk: &Desk<S>) -> Layout {
        layout(area, Self::caution(area.wide, desk).len())
    }

    fn status(&self, desk: &Desk<S>) -> String {
        let rehearsal = self.session.rehearsal();
        let items = &rehearsal.module().protection_items;
        let of = |kind: ProtectionKind| -> Vec<String> {
            let on = rehearsal.worn().into_iter();
            on.filter(|(item, _)| items[*item].kind == kind)
                .map(|(item, time)| {
                    // A time is told where there is an interval to keep.
                    if time < Millis::minutes(1) || items[item].change_every.is_none() {
                        return display_safe(&items[item].title);
                    }
                    let minutes = Millis::minutes(time.0 / 60_000);
                    let values = [
                        ("item", items[item].title.as_str().into()),
                        ("time", minutes.into()),
                    ];
                    desk.say("screens-sitting-on", &values)
                })
                .collect()
        };
        let (worn, running) = (of(ProtectionKind::Worn), of(ProtectionKind::Running));
        let nothing = || desk.say("screens-sitting-nothing", &[]);
        let list = |all: Vec<String>| -> Value {
            if all.is_empty() {
                nothing().into()
            } else {
                all.into()
            }
        };
        let values = [("worn", list(worn)), ("running", list(running))];
        desk.say("screens-sitting-status", &values)
    }

    /// The right-hand text: what came of the last move, what a guide says, and (without a column of its own) what is seen.
    pub(super) fn text(&self, area: Area, desk: &Desk<S>) -> Vec<Line> {
        let wide = area.wide.saturating_sub(1);
        let mut lines: Vec<Line> = Vec::new();
        if self.session.rehearsal().open_disturbance().is_some() {
            lines.extend(prose::wrapped(
                Role::Caution,
                &desk.say("screens-sitting-unanswered", &[]),
                wide,
            ));
        }
        let careful = desk.say("rehearsal-notice", &[("text", "".into())]);
        for text in &self.just {
            let role = if text.starts_with(careful.trim_end()) {
                Role::Caution
            } else {
                Role::Plain
            };
            lines.extend(prose::wrapped(role, text, wide));
        }
        if let Some(guidance) = &self.guidance {
            if !lines.is_empty() {
                lines.push(Line::new(Role::Plain, ""));
            }
            lines.extend(prose::wrapped(
                Role::Faint,
                &desk.say("screens-sitting-guide", &[]),
                wide,
            ));
            lines.extend(prose::wrapped(Role::Strong, &guidance.next, wide));
            for text in &guidance.missing {
                lines.extend(prose::wrapped(Role::Caution, &format!("! {text}"), wide));
            }
            for text in &guidance.how {
                lines.extend(prose::wrapped(Role::Plain, text, wide));
            }
        }
        if area.wide < THREE_COLUMNS / 2 && self.parts(desk.body(), desk).seen.is_none() {
            lines.push(Line::new(Role::Plain, ""));
            lines.extend(self.look_lines(wide, desk));
        }
        lines
    }

    /// The case, and what can be seen, part by part.
    pub(super) fn look_lines(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let running = Running::on_screen(self.session.rehearsal(), &desk.words);
        let mut lines = prose::wrapped(Role::Faint, &desk.say("screens-sitting-seen", &[]), wide);
        lines.extend(prose::wrapped(Role::Plain, &running.case(), wide));
        for text in running.parts() {
            let (role, lead) = if text.ends_with(':') {
                (Role::Strong, "")
            } else {
                (Role::Plain, "  ")
            };
            let texts = wrap_behind(lead, &text, wide.max(1));
            lines.extend(texts.into_iter().map(|text| Line::new(role, text)));
        }
        lines
    }

    pub(super) fn draw_bench(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let parts = self.parts(area, desk);
        let status = prose::wrapped(
            Role::Plain,
            &self.status(desk),
            parts.status.wide.saturating_sub(2),
        );
        prose::draw(frame, parts.status.within(1, 0), &status, Scroll::default());
        self.draw_moves(frame, parts.moves, desk);
        let edge = Area {
            x: parts.text.x.saturating_sub(1),
            wide: 1,
            ..parts.text
        };
        frame.rule_down(edge, 0);
        let inside = Area {
            x: parts.text.x + 1,
            wide: parts.text.wide.saturating_sub(1),
            ..parts.text
        };
        prose::draw(frame, inside, &self.text(parts.text, desk), self.scroll);
        if let Some(seen) = parts.seen {
            frame.rule_down(seen, 0);
            let inside = seen.within(2, 0);
            prose::draw(
                frame,
                inside,
                &self.look_lines(inside.wide, desk),
                Scroll::default(),
            );
        }
        let caution = Self::caution(area.wide, desk);
        prose::draw(
            frame,
            parts.caution.within(1, 0),
            &caution,
            Scroll::default(),
        );
    }

    fn draw_moves(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let rows = self.groups.len().div_ceil(2);
        // Each of the two columns is as wide as its titles, as far as there is room.
        let widest = |groups: &[super::Group]| {
            let wide = groups.iter().map(|group| columns(&group.title));
            wide.max().unwrap_or(0) + 4
        };
        let (first, second) = self.groups.split_at(rows.min(self.groups.len()));
        let left = widest(first).min(area.wide.saturating_sub(widest(second)).max(area.wide / 2));
        for (number, group) in self.groups.iter().enumerate() {
            let is_left = number < rows;
            let cell = Area {
                x: if is_left { area.x } else { area.x + left },
                y: area.y + number % rows,
                wide: if is_left { left } else { area.wide - left }.saturating_sub(1),
                tall: usize::from(number % rows < area.tall),
            };
            let key = letter(number).map_or(' ', |letter| letter.to_ascii_uppercase());
            if number == self.group {
                frame.put_row(cell, 0, Role::Chosen, &format!(" {key} {}", group.title));
            } else {
                frame.put(cell, 0, 1, Role::Key, &key.to_string());
                frame.put(cell, 0, 3, Role::Plain, &group.title);
            }
            frame.hot(cell, Command::Pick(1, number));
        }
        let (_, below) = area.split_rows(rows);
        frame.rule(
            Area {
                wide: below.wide.saturating_sub(1),
                ..below
            },
            0,
        );
        let (line, below) = below.split_rows(1);
        let Some(group) = self.groups.get(self.group) else {
            return;
        };
        frame.put(line, 0, 2, Role::Strong, &format!(" {} ", group.title));
        // Each move takes as many rows as its title needs; the chosen one stays in sight.
        let wide = below.wide.saturating_sub(5);
        let titles: Vec<Vec<Line>> = group
            .moves
            .iter()
            .map(|(what, title)| {
                let done = self.done_at(*what, desk);
                prose::wrapped(Role::Plain, &format!("{title}{done}"), wide)
            })
            .collect();
        let height =
            |range: std::ops::Range<usize>| titles[range].iter().map(Vec::len).sum::<usize>();
        let mut top = 0;
        while top < self.choice.at && height(top..self.choice.at + 1) > below.tall {
            top += 1;
        }
        let mut y = 0;
        for (row, title) in titles.iter().enumerate().skip(top) {
            let tall = title.len().min(below.tall.saturating_sub(y));
            let cell = Area {
                y: below.y + y,
                tall,
                wide: below.wide.saturating_sub(1),
                ..below
            };
            let chosen = row == self.choice.at;
            let key = letter(row).map_or(' ', |letter| letter);
            let role = if chosen { Role::Chosen } else { Role::Plain };
            for (at, line) in title.iter().take(tall).enumerate() {
                let lead = if at == 0 { key } else { ' ' };
                if chosen {
                    frame.put_row(cell, at, role, &format!(" {lead} {}", line.text));
                } else {
                    frame.put(cell, at, 1, Role::Key, &lead.to_string());
                    frame.put(cell, at, 3, role, &line.text);
                }
            }
            frame.hot(cell, Command::Pick(2, row));
            y += title.len();
            if y >= below.tall {
                break;
            }
        }
        let edge = below.wide.saturating_sub(2);
        if top > 0 {
            let mark = frame.pick('▲', '^').to_string();
            frame.put(below, 0, edge, Role::Key, &mark);
        }
        if height(top..titles.len()) > below.tall {
            let mark = frame.pick('▼', 'v').to_string();
            frame.put(below, below.tall.saturating_sub(1), edge, Role::Key, &mark);
        }
    }

    /// That a step has been done, or at how many of its places, as it stands behind its title.
    fn done_at(&self, what: Doable, desk: &Desk<S>) -> String {
        let Doable::Step(step) = what else {
            return String::new();
        };
        let rehearsal = self.session.rehearsal();
        let tasks = &rehearsal.plan().tasks_of_step[step];
        let done = tasks
            .iter()
            .filter(|&&task| rehearsal.is_done(task))
            .count();
        let values = [("done", done.into()), ("all", tasks.len().into())];
        match (done, tasks.len()) {
            (0, _) => String::new(),
            (_, 1) => format!(" {}", desk.say("screens-sitting-done", &[])),
            _ => format!(" {}", desk.say("screens-sitting-done-at", &values)),
        }
    }

    pub(super) fn draw_over(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        match &self.over {
            Over::Nothing => {
                if let Some(sheet) = &self.sheet {
                    self.draw_sheet(frame, area, sheet, desk);
                }
            }
            Over::Ask(ask) => self.draw_ask(frame, area, ask, desk),
            Over::Wait(field, choice, wrong) => {
                let inside = frame.boxed(
                    self.box_area(area, desk),
                    &desk.say("screens-sitting-wait", &[]),
                );
                let (head, below) = inside.split_rows(3);
                frame.put(
                    head,
                    0,
                    0,
                    Role::Plain,
                    &desk.say("screens-sitting-wait-how", &[]),
                );
                frame.put(head, 1, 0, Role::Field, &field.shown());
                let texts = wrong.iter().flat_map(|one| &one.texts);
                let mut lines: Vec<Line> = Vec::new();
                for text in texts {
                    lines.extend(prose::wrapped(Role::Caution, text, below.wide));
                }
                lines.extend(prose::wrapped(
                    Role::Plain,
                    &desk.say("screens-sitting-wait-until", &[]),
                    below.wide,
                ));
                let used = lines.len();
                prose::draw(frame, below, &lines, Scroll::default());
                let running = Running::on_screen(self.session.rehearsal(), &desk.words);
                let (_, rows) = below.split_rows(used);
                let signs: Vec<String> = running.waits().into_iter().map(|one| one.1).collect();
                draw_rows(frame, rows, &signs, choice.at, false);
            }
            Over::Find(field, choice) => {
                let inside = frame.boxed(
                    self.box_area(area, desk),
                    &desk.say("screens-sitting-find", &[]),
                );
                let (head, below) = inside.split_rows(2);
                frame.put(head, 0, 0, Role::Field, &field.shown());
                let found = self.found(&field.text).into_iter();
                let titles: Vec<String> = found
                    .map(|(group, _, title)| {
                        let values = [
                            ("what", title.into()),
                            ("station", self.groups[group].title.as_str().into()),
                        ];
                        desk.say("screens-sitting-found", &values)
                    })
                    .collect();
                draw_rows(frame, below, &titles, choice.at, false);
            }
            Over::Look(scroll) => {
                let inside = frame.boxed(
                    self.box_area(area, desk),
                    &desk.say("screens-sitting-look", &[]),
                );
                prose::draw(frame, inside, &self.look_lines(inside.wide, desk), *scroll);
            }
        }
    }

    fn draw_ask(&self, frame: &mut Frame, area: Area, ask: &Ask, desk: &Desk<S>) {
        let wide = area.wide.saturating_sub(8).min(76);
        let mut lines: Vec<Line> = Vec::new();
        for (number, text) in ask.texts.iter().enumerate() {
            let role = if number == 0 {
                Role::Strong
            } else {
                Role::Plain
            };
            lines.extend(prose::wrapped(role, text, wide - 4));
        }
        lines.push(Line::new(Role::Plain, ""));
        let answers: Vec<String> = ask.answers.iter().map(|one| one.1.clone()).collect();
        let rows: usize = answers
            .iter()
            .map(|text| prose::wrapped(Role::Plain, text, wide - 8).len())
            .sum();
        let outside = area.middle(wide, lines.len() + rows + 2);
        let inside = frame.boxed(outside, &desk.say("screens-sitting-ask", &[]));
        prose::draw(frame, inside, &lines, Scroll::default());
        let (_, below) = inside.split_rows(lines.len());
        draw_rows(frame, below, &answers, ask.choice.at, true);
    }

    /// What is worth reading while a step is being asked about; nothing when unaided.
    fn sheet_lines(&self, sheet: &Sheet, wide: usize, desk: &Desk<S>) -> Vec<Line> {
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

    fn draw_sheet(&self, frame: &mut Frame, area: Area, sheet: &Sheet, desk: &Desk<S>) {
        let module = self.session.rehearsal().module();
        let step = &module.steps[sheet.step];
        let inside = frame.boxed(self.box_area(area, desk), &display_safe(&step.title));
        let reading = self.sheet_lines(sheet, inside.wide, desk);
        let asked = self.asked_lines(sheet, inside.wide, desk);
        // What is asked is always whole; what is read gives way to it.
        let rows = self.question_rows(sheet, inside.wide, desk);
        let room = inside.tall.saturating_sub(asked.len() + rows + 1);
        let (upper, lower) = inside.split_rows(reading.len().min(room));
        prose::draw(frame, upper, &reading, Scroll::default());
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
                options
                    .map(|one| {
                        prose::wrapped(Role::Plain, &one.title, wide.saturating_sub(4)).len()
                    })
                    .sum()
            }
            Question::Time(Timing::Timer { .. } | Timing::Count { .. }) => 2,
            Question::Time(_) => 5,
        }
    }

    /// The cells of places: their texts, how many rows they take, how many stand beside each other, how wide each is.
    fn place_cells(
        &self,
        sheet: &Sheet,
        wide: usize,
        desk: &Desk<S>,
    ) -> (Vec<String>, usize, usize, usize) {
        let done = desk.say("screens-sitting-done", &[]);
        let texts: Vec<String> = self
            .places(sheet)
            .into_iter()
            .zip(&sheet.chosen)
            .map(|((place, is_done), chosen)| {
                let mark = if *chosen { "[x]" } else { "[ ]" };
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
                let offered = Sheet::offered(step, *way).into_iter();
                let titles: Vec<String> = offered
                    .map(|one| display_safe(&step.ways[*way].options[one].title))
                    .collect();
                draw_rows(frame, area, &titles, sheet.choice.at, true);
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
                    let wide = area.wide.min(60);
                    let at = usize::try_from(time.0 % 60_000).unwrap_or(0) * wide / 60_000;
                    let bar: String = (0..wide)
                        .map(|cell| match cell.cmp(&at) {
                            std::cmp::Ordering::Less => frame.pick('━', '='),
                            std::cmp::Ordering::Equal => frame.pick('●', 'O'),
                            std::cmp::Ordering::Greater => frame.pick('·', '.'),
                        })
                        .collect();
                    frame.put(area, 1, 0, Role::Key, &bar);
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

    pub(super) fn keys(&self, desk: &Desk<S>) -> Vec<Hint> {
        let hint = |command: Command, label: Label, id: &str| Hint::new(command, label, id, desk);
        let enter = Label::Word("screens-key-enter");
        let esc = Label::Word("screens-key-esc");
        let space = Label::Word("screens-key-space");
        let up_down = Label::Word("screens-key-up-down");
        let back = hint(Command::Back, esc, "screens-key-back");
        let letters = |count: usize, id: &str| {
            let last = letter(count.saturating_sub(1)).unwrap_or('z');
            hint(Command::Type('a'), Label::Letters(last), id)
        };
        match &self.over {
            Over::Ask(ask) => {
                let mut keys = vec![
                    letters(ask.answers.len(), "screens-sitting-key-answer"),
                    hint(Command::Down, up_down, "screens-key-choose"),
                ];
                if ask.choice.is_made() {
                    keys.push(hint(Command::Take, enter, "screens-sitting-key-take"));
                }
                keys.push(back);
                return keys;
            }
            Over::Wait(..) => {
                return vec![
                    hint(Command::Take, enter, "screens-sitting-key-wait"),
                    hint(Command::Down, up_down, "screens-key-choose"),
                    back,
                ];
            }
            Over::Find(..) => {
                return vec![
                    hint(Command::Take, enter, "screens-sitting-key-go"),
                    hint(Command::Down, up_down, "screens-key-choose"),
                    back,
                ];
            }
            Over::Look(_) => return vec![hint(Command::Down, up_down, "screens-key-scroll"), back],
            Over::Nothing => {}
        }
        if let Some(sheet) = &self.sheet {
            return match &sheet.question {
                Question::Places => vec![
                    hint(Command::Take, enter, "screens-sitting-key-take"),
                    hint(Command::Type(' '), space, "screens-sitting-key-mark"),
                    hint(
                        Command::Type('a'),
                        Label::Letter('a'),
                        "screens-sitting-key-all",
                    ),
                    hint(
                        Command::Down,
                        Label::Word("screens-key-arrows"),
                        "screens-key-choose",
                    ),
                    back,
                ],
                Question::Way(way) => {
                    let step = &self.session.rehearsal().module().steps[sheet.step];
                    let mut keys = vec![
                        letters(step.ways[*way].options.len(), "screens-sitting-key-answer"),
                        hint(Command::Down, up_down, "screens-key-choose"),
                    ];
                    if sheet.choice.is_made() {
                        keys.push(hint(Command::Take, enter, "screens-sitting-key-take"));
                    }
                    if self.answered.contains_key(&sheet.step) {
                        let equals = Label::Letter('=');
                        let id = "screens-sitting-key-as-before";
                        keys.push(hint(Command::Type('='), equals, id));
                    }
                    keys.push(back);
                    keys
                }
                Question::Time(Timing::Timer { .. }) => {
                    vec![hint(Command::Take, enter, "screens-sitting-key-set"), back]
                }
                Question::Time(
                    Timing::Count { since: None } | Timing::Watch { since: None, .. },
                ) => {
                    vec![
                        hint(Command::Type(' '), space, "screens-sitting-key-start"),
                        back,
                    ]
                }
                Question::Time(Timing::Count { .. } | Timing::Watch { .. }) => {
                    vec![hint(Command::Type(' '), space, "screens-sitting-key-stop")]
                }
                Question::Time(Timing::Judge { .. }) => vec![
                    hint(Command::Type(' '), space, "screens-sitting-key-portion"),
                    hint(Command::Take, enter, "screens-sitting-key-enough"),
                    back,
                ],
            };
        }
        let mut keys = vec![hint(Command::Take, enter, "screens-sitting-key-do")];
        if self.session.rehearsal().open_disturbance().is_some() {
            keys.push(hint(
                Command::Type('!'),
                Label::Letter('!'),
                "screens-sitting-key-answer",
            ));
        }
        keys.push(hint(
            Command::Right,
            Label::Word("screens-sitting-key-capitals"),
            "screens-sitting-key-place",
        ));
        keys.push(hint(
            Command::Down,
            Label::Word("screens-sitting-key-letters"),
            "screens-sitting-key-move",
        ));
        if self.session.run().help == Help::Prompted {
            keys.push(hint(Command::Type(' '), space, "screens-sitting-key-hint"));
        }
        keys.push(hint(
            Command::PageDown,
            Label::Word("screens-key-page"),
            "screens-key-scroll",
        ));
        if self.session.run().help != Help::Unaided {
            keys.push(hint(
                Command::Next,
                Label::Word("screens-key-tab"),
                "screens-sitting-key-read",
            ));
        }
        keys.push(hint(
            Command::Type('/'),
            Label::Letter('/'),
            "screens-sitting-key-find",
        ));
        keys.push(hint(Command::Back, esc, "screens-sitting-key-leave"));
        keys
    }
}

/// Draws rows of which one is chosen, with letters where letters choose; rows wrap.
fn draw_rows(frame: &mut Frame, area: Area, rows: &[String], chosen: usize, letters: bool) {
    let texts: Vec<Vec<Line>> = rows
        .iter()
        .map(|row| prose::wrapped(Role::Plain, row, area.wide.saturating_sub(4)))
        .collect();
    let height = |range: std::ops::Range<usize>| texts[range].iter().map(Vec::len).sum::<usize>();
    // Before anything has been chosen the rows begin at the top.
    let sought = if chosen < rows.len() { chosen } else { 0 };
    let mut top = 0;
    while top < sought && height(top..sought + 1) > area.tall {
        top += 1;
    }
    let mut y = 0;
    for (row, lines) in texts.iter().enumerate().skip(top) {
        let cell = Area {
            y: area.y + y,
            tall: lines.len().min(area.tall.saturating_sub(y)),
            ..area
        };
        let role = if row == chosen {
            Role::Chosen
        } else {
            Role::Plain
        };
        for (at, line) in lines.iter().take(cell.tall).enumerate() {
            let key = if at == 0 && letters {
                letter(row).unwrap_or(' ')
            } else {
                ' '
            };
            if row == chosen {
                frame.put_row(cell, at, role, &format!(" {key} {}", line.text));
            } else {
                frame.put(cell, at, 1, Role::Key, &key.to_string());
                frame.put(cell, at, 3, role, &line.text);
            }
        }
        frame.hot(cell, Command::Pick(3, row));
        y += lines.len();
        if y >= area.tall {
            break;
        }
    }
}
