//! How a run is drawn: who and what was last kept on top, the rows on the left, what is known of the chosen one on the right, the caution below.

use super::{Opened, Over, ROWS, Watching};
use crate::app::System;
use crate::app::watching::Row;
use crate::app::watching::telling::Telling;
use crate::report::clock;
use crate::text::wrap::{columns, wrap, wrap_behind};
use crate::text::{Caution, display_safe};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::rows;
use crate::tui::screen::Desk;

/// How many rows tell who is watched and what was kept last.
const STATUS: usize = 2;

/// How many rows tell by which letters something is noted.
const LEGEND: usize = 1;

/// A line of the list: of which row, in which role.
struct Listed {
    row: Option<usize>,
    role: Role,
    text: String,
}

impl<S: System> Watching<S> {
    /// The bar at the top: the workflow, and the time of the run.
    pub(super) fn bar(&self, desk: &Desk<S>) -> String {
        let said = self.told(desk, |telling, opened| {
            let title = &opened.watch.card().module().identity.title;
            let values = [
                ("module", title.as_str().into()),
                ("clock", clock(telling.now).into()),
            ];
            desk.say("watching-title", &values)
        });
        said.unwrap_or_default()
    }

    /// What comes before everything that this program says, short enough to stand on the screen all the time.
    fn caution(wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let text = desk.say("caution-others-come-first.short", &[]);
        prose::wrapped(Role::Caution, &format!("! {text}"), wide.saturating_sub(2))
    }

    /// Status, the middle, and the caution.
    fn parts(area: Area, desk: &Desk<S>) -> (Area, Area, Area) {
        let (status, rest) = area.split_rows(STATUS);
        let caution = Self::caution(area.wide, desk).len();
        let (middle, caution) = rest.split_rows(rest.tall.saturating_sub(caution));
        (status, middle, caution)
    }

    /// The rows, and the text beside them.
    fn panes(middle: Area) -> (Area, Area) {
        let (left, right) = middle.split_columns(middle.wide * 9 / 16);
        let text = Area {
            x: right.x + 2,
            wide: right.wide.saturating_sub(3),
            ..right
        };
        (left, text)
    }

    /// What the rows have for themselves, and the line below with the letters of what can be noted.
    fn with_legend(area: Area) -> (Area, Area) {
        area.split_rows(area.tall.saturating_sub(LEGEND))
    }

    /// The area of what is known of the chosen row.
    pub(super) fn text_area(&self, desk: &Desk<S>) -> Area {
        let (area, _) = Self::with_legend(desk.body());
        let (_, middle, _) = Self::parts(area, desk);
        Self::panes(middle).1
    }

    /// The area of a whole page between status and caution.
    pub(super) fn page_area(&self, area: Area, desk: &Desk<S>) -> Area {
        let (_, middle, _) = Self::parts(area, desk);
        Area {
            x: middle.x + 1,
            wide: middle.wide.saturating_sub(3),
            ..middle
        }
    }

    /// What is known of the row that is chosen: its clock and limits, then what protects, then reasons and notes.
    pub(super) fn text(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let Some(row) = self.row() else {
            return Vec::new();
        };
        let mut lines = Vec::new();
        if let Some(doubt) = &self.doubt {
            lines.extend(prose::wrapped(Role::Caution, &format!("! {doubt}"), wide));
        }
        let told = self.told(desk, |telling, _| lines_of(telling, row, wide, desk));
        lines.extend(told.unwrap_or_default());
        lines
    }

    pub(super) fn draw_all(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let rows_show = matches!(self.over, Over::Nothing) && !self.is_over();
        let (inside, legend) = if rows_show {
            Self::with_legend(area)
        } else {
            area.split_rows(area.tall)
        };
        self.draw_legend(frame, legend.within(1, 0), desk);
        let (status, middle, caution) = Self::parts(inside, desk);
        let elsewhere = self.running_elsewhere(middle, desk);
        self.draw_status(frame, status.within(1, 0), &elsewhere, desk);
        let lines = Self::caution(area.wide, desk);
        prose::draw(frame, caution.within(1, 0), &lines, Scroll::default());
        match &self.over {
            Over::Nothing if self.is_over() => {
                let page = self.page_area(area, desk);
                let lines = self.ended_lines(page.wide, desk);
                prose::draw(frame, page, &lines, self.scroll);
            }
            Over::Clock(scroll) => {
                let page = self.page_area(area, desk);
                let lines = self.clock_page(page.wide, desk);
                prose::draw(frame, page, &lines, *scroll);
            }
            Over::Judging(choice, scroll) => {
                let page = self.page_area(area, desk);
                let (above, below) = Self::judging_areas(page, desk);
                let all = Self::judgements(desk);
                rows::draw(frame, above, &all, choice.at, Self::offered());
                frame.rule(below, 0);
                let (_, below) = below.split_rows(1);
                let lines = self.before(below.wide.saturating_sub(2), desk);
                prose::draw(frame, below, &lines, *scroll);
            }
            Over::Nothing => self.draw_rows(frame, middle, desk),
            Over::Typing(asked, field, wrong) => {
                self.draw_rows(frame, middle, desk);
                let title = match self.row() {
                    Some(row) => self.told(desk, |telling, _| telling.title(row)),
                    None => None,
                };
                let inside = frame.boxed(middle, &desk.say(asked.title(), &[]));
                let row = [("row", title.unwrap_or_default().into())];
                let question = desk.say(asked.question(), &row);
                let mut lines = prose::wrapped(Role::Plain, &question, inside.wide);
                // Which value is meant follows from what the row is held to.
                let limits = self.told(desk, |telling, _| telling.limits(self.row()?));
                let limits = limits.flatten().filter(|_| asked.is_value());
                let limits = limits.iter();
                lines
                    .extend(limits.flat_map(|text| prose::wrapped(Role::Faint, text, inside.wide)));
                lines.push(Line::new(Role::Plain, ""));
                lines.extend(prose::wrapped(Role::Field, &field.shown(), inside.wide));
                for text in wrong {
                    lines.extend(prose::wrapped(Role::Caution, text, inside.wide));
                }
                prose::draw(frame, inside, &lines, Scroll::default());
            }
        }
    }

    fn draw_status(&self, frame: &mut Frame, area: Area, elsewhere: &[String], desk: &Desk<S>) {
        let said = self.told(desk, |telling, opened| {
            let values = [
                ("person", opened.person.as_str().into()),
                ("case", telling.run.head().case.to_string().into()),
                ("at", (self.at + 1).into()),
                ("all", self.open.len().into()),
            ];
            desk.say("watching-status", &values)
        });
        let said = said.unwrap_or_default();
        frame.put(area, 0, 0, Role::Plain, &said);
        frame.put(area, 1, 0, Role::Strong, &self.just);
        let (_, right) = area.split_columns(columns(&said) + 3);
        if !elsewhere.is_empty() {
            let values = [
                ("count", elsewhere.len().into()),
                ("rows", elsewhere.to_vec().into()),
            ];
            let runs = desk.say("watching-runs-out-of-sight", &values);
            frame.put_right(right, 0, Role::Strong, &runs);
            return;
        }
        // What a letter does that is not a word of its own is spelled out where there is room.
        let spelled = match self.over {
            Over::Nothing if self.is_over() && !self.asks_for_reason() => return,
            Over::Nothing if self.is_over() => "watching-spelled-reason",
            Over::Nothing => "watching-spelled-clock",
            _ => return,
        };
        let spelled = desk.say(spelled, &[]);
        if columns(&spelled) <= right.wide {
            frame.put_right(right, 0, Role::Faint, &spelled);
        }
    }

    /// The lines of the list, and how many of them are above what is in sight.
    fn lines_in(&self, left: Area, desk: &Desk<S>) -> (Vec<Listed>, usize) {
        let wide = left.wide.saturating_sub(2);
        let listed = self.told(desk, |telling, opened| listed(telling, opened, wide));
        let listed = listed.unwrap_or_default();
        let at = self.opened().map_or(0, |opened| opened.choice.at);
        let of = |one: &Listed| one.row == Some(at);
        let first = listed.iter().position(of).unwrap_or(0);
        let last = listed.iter().rposition(of).unwrap_or(0);
        // The chosen row stays in the middle; the heading over the first one stays in sight with it.
        let middle = (first + last) / 2;
        let top = middle.saturating_sub(left.tall / 2);
        let top = top.min(listed.len().saturating_sub(left.tall));
        (listed, top)
    }

    /// What runs in rows that are not in sight; all that runs, where none is.
    fn running_elsewhere(&self, middle: Area, desk: &Desk<S>) -> Vec<String> {
        let (left, _) = Self::panes(middle);
        let (listed, top) = match self.over {
            Over::Nothing | Over::Typing(..) => self.lines_in(left, desk),
            Over::Judging(..) | Over::Clock(_) => (Vec::new(), 0),
        };
        let in_sight = listed.iter().skip(top).take(left.tall);
        let in_sight: Vec<usize> = in_sight.filter_map(|one| one.row).collect();
        let told = self.told(desk, |telling, _| {
            let rows = telling.card.rows.iter().enumerate();
            rows.filter(|(at, _)| !in_sight.contains(at))
                .filter_map(|(_, row)| telling.runs_elsewhere(row))
                .collect()
        });
        told.filter(|_| !self.is_over()).unwrap_or_default()
    }

    /// Says by which letters it is noted how a row went, and what else is noted, as far as there is room.
    fn draw_legend(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        if area.tall == 0 {
            return;
        }
        let mut at = 0;
        for hint in Self::noting(desk) {
            let text = format!("{} {}", hint.key, hint.says);
            let wide = columns(&text);
            if at + wide > area.wide {
                return;
            }
            let (_, place) = area.split_columns(at);
            let (place, _) = place.split_columns(wide);
            frame.put(place, 0, 0, Role::Faint, &text);
            frame.hot(place, hint.command);
            at += wide + 2;
        }
    }

    fn draw_rows(&self, frame: &mut Frame, middle: Area, desk: &Desk<S>) {
        let (left, text) = Self::panes(middle);
        let edge = Area {
            x: text.x.saturating_sub(2),
            wide: 1,
            ..text
        };
        frame.rule_down(edge, 0);
        prose::draw(frame, text, &self.text(text.wide, desk), self.scroll);
        let (listed, top) = self.lines_in(left, desk);
        for (y, one) in listed.iter().skip(top).take(left.tall).enumerate() {
            let line = Area {
                y: left.y + y,
                tall: 1,
                wide: left.wide.saturating_sub(1),
                ..left
            };
            if one.role == Role::Chosen {
                frame.put_row(line, 0, one.role, &one.text);
            } else {
                frame.put(line, 0, 0, one.role, &one.text);
            }
            if let Some(row) = one.row {
                frame.hot(line, Command::Pick(ROWS, row));
            }
        }
        frame.mark_more(left, top > 0, top + left.tall < listed.len());
    }
}

/// The rows under the titles of their stages; how each stands is under its title.
fn listed<S: System>(telling: &Telling<'_>, opened: &Opened<S>, wide: usize) -> Vec<Listed> {
    let card = opened.watch.card();
    let mut all = Vec::new();
    let mut stage = None;
    for (number, row) in card.rows.iter().enumerate() {
        let here = card.step(row).stage.as_ref();
        if number == 0 || stage != here {
            stage = here;
            let title = here.map_or_else(
                || telling.words.say("watching-no-stage", &[]),
                |stage| display_safe(&stage.title),
            );
            all.push(Listed {
                row: None,
                role: Role::Faint,
                text: format!(" {title}"),
            });
        }
        let chosen = number == opened.choice.at;
        let role = match (chosen, telling.is_running(row)) {
            (true, _) => Role::Chosen,
            (false, true) => Role::Strong,
            (false, false) => Role::Plain,
        };
        let mut add = |text: String, role| {
            all.push(Listed {
                row: Some(number),
                role,
                text,
            });
        };
        let title = telling.title(row);
        let title = if row.critical {
            let values = [("title", title.into())];
            telling.words.say("watching-critical", &values)
        } else {
            title
        };
        for text in wrap(&title, wide.saturating_sub(2).max(1)) {
            add(format!(" {text}"), role);
        }
        let role = if chosen { Role::Chosen } else { Role::Plain };
        for text in wrap_behind("   ", &telling.stands(row), wide.max(4)) {
            add(text, role);
        }
    }
    all
}

fn lines_of<S: System>(telling: &Telling<'_>, row: &Row, wide: usize, desk: &Desk<S>) -> Vec<Line> {
    let mut lines = prose::wrapped(Role::Strong, &telling.title(row), wide);
    let mut add = |role, text: &str| lines.extend(prose::wrapped(role, text, wide));
    if let Some(limits) = telling.limits(row) {
        add(Role::Plain, &limits);
    }
    // What outranks this program stands below all the time, in short.
    for text in telling.protection(row) {
        add(Role::Caution, &format!("! {text}"));
    }
    for text in telling.times(row) {
        add(Role::Plain, &text);
    }
    if row.critical {
        add(Role::Plain, &desk.say("watching-critical-means", &[]));
    }
    for text in telling.noted(row) {
        add(Role::Plain, &text);
    }
    for text in telling.reasons(row) {
        add(Role::Plain, &text);
    }
    for hazard in telling.hazards(row) {
        add(Role::Strong, &hazard.title);
        for text in hazard.precautions {
            add(Role::Plain, &format!("- {text}"));
        }
    }
    let caution = Caution::OthersComeFirst.say(telling.words);
    add(Role::Caution, &format!("! {caution}"));
    let noted = telling.noted_of_all();
    if !noted.is_empty() {
        add(Role::Strong, &desk.say("watching-on-all", &[]));
        for text in noted {
            add(Role::Plain, &text);
        }
    }
    add(Role::Faint, &desk.say("watching-words", &[]));
    lines
}
