//! How the bench is drawn: what is worn and runs on top, where and what on the left, what came of it and what is seen on the right.

use super::Sitting;
use super::moves::Doable;
use crate::app::System;
use crate::rehearsal::action::Help;
use crate::report::{Running, clock};
use crate::syllabus::module::ProtectionKind;
use crate::text::wrap::{columns, wrap_behind};
use crate::text::{Value, display_safe};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::rows::{self, Look, letter};
use crate::tui::screen::Desk;
use crate::units::Millis;

/// From this width on, in columns, what is seen has a column of its own. Our default: three columns of readable lines.
const THREE_COLUMNS: usize = 110;

/// How many rows tell what is worn and what runs: everything that the shipped modules ask for fits at 80 columns.
const STATUS: usize = 2;

/// How many rows below the places are kept for what can be done there. Our default: two or three moves whole.
const MOVES_LEAST: usize = 7;

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
        // What is worn and what runs stays in sight too.
        let (_, body) = body.split_rows(STATUS);
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
        let wide = area.wide.saturating_sub(3);
        let mut lines: Vec<Line> = Vec::new();
        if self.session.rehearsal().open_disturbance().is_some() {
            lines.extend(prose::wrapped(
                Role::Caution,
                &desk.say("screens-sitting-unanswered", &[]),
                wide,
            ));
        }
        // Who has asked for a hint looks for it; who is led reads first what came of the last move.
        if self.session.run().help == Help::Prompted {
            self.add_guidance(&mut lines, wide, desk);
            self.add_just(&mut lines, wide, desk);
        } else {
            self.add_just(&mut lines, wide, desk);
            self.add_guidance(&mut lines, wide, desk);
        }
        if area.wide < THREE_COLUMNS / 2 && self.parts(desk.body(), desk).seen.is_none() {
            lines.push(Line::new(Role::Plain, ""));
            lines.extend(self.look_lines(wide, desk));
        }
        lines
    }

    /// What came of the last move.
    fn add_just(&self, lines: &mut Vec<Line>, wide: usize, desk: &Desk<S>) {
        if !lines.is_empty() {
            lines.push(Line::new(Role::Plain, ""));
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
    }

    /// What a guide says, if one speaks.
    fn add_guidance(&self, lines: &mut Vec<Line>, wide: usize, desk: &Desk<S>) {
        let Some(guidance) = &self.guidance else {
            return;
        };
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
        // Each of the two columns is as wide as its titles; where they do not fit and there is room below, one column will do.
        let widest = |groups: &[super::Group]| {
            let wide = groups.iter().map(|group| columns(&group.title));
            wide.max().unwrap_or(0) + 4
        };
        let half = self.groups.len().div_ceil(2);
        let (first, second) = self.groups.split_at(half);
        let fits = widest(first) + widest(second) <= area.wide;
        let rows = if fits || self.groups.len() + MOVES_LEAST > area.tall {
            half
        } else {
            self.groups.len()
        };
        let left = if rows == half {
            widest(first).min(area.wide.saturating_sub(widest(second)).max(area.wide / 2))
        } else {
            area.wide
        };
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
        let titles = group.moves.iter();
        let titles: Vec<String> = titles
            .map(|(what, title)| format!("{title}{}", self.done_at(*what, desk)))
            .collect();
        let rows = Area {
            wide: below.wide.saturating_sub(1),
            ..below
        };
        rows::draw(frame, rows, &titles, self.choice.at, Look::of(2, true));
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
}
