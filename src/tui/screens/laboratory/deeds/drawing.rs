//! How a form is drawn: its rows, the chosen one in sight, and below them what that one is for.

use super::fields::{Asked, Source, asked_by_module};
use super::form::{Form, ROWS};
use super::row::Row;
use crate::app::System;
use crate::text::wrap::wrap;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::screen::Desk;

/// How many rows a form keeps for its last row, what is chosen, and the explanation. Our default.
const SPARE: usize = 9;

/// How many lines an explanation of a row takes at the most, on the smallest screen. Our default.
const EXPLAINED: usize = 3;

/// How many rows stay in sight above a long explanation. Our default.
const IN_SIGHT: usize = 6;

/// A row as it is drawn.
struct Placed {
    /// What stands in it, line by line.
    values: Vec<String>,
    /// The line on which it begins, counted from the first row.
    begins: usize,
}

impl Placed {
    fn tall(&self) -> usize {
        self.values.len().max(1)
    }
}

impl<S: System> Form<S> {
    fn column(area: Area) -> usize {
        (area.wide / 3).clamp(18, 30)
    }

    /// Draws the form, and the answers of a row where they are laid open.
    pub(super) fn draw_rows(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 0);
        let about = desk.words.part("deeds-explained", self.what.word());
        let head = prose::wrapped(Role::Faint, &about, inside.wide);
        // Where both do not fit, what a row is for comes before what the form is for.
        let left = inside.tall.saturating_sub(self.rows.len() + 2);
        let head = if left < head.len() + 1 + EXPLAINED {
            Vec::new()
        } else {
            head
        };
        let above = if head.is_empty() { 0 } else { head.len() + 1 };
        let (top, below) = inside.split_rows(above);
        prose::draw(frame, top, &head, Scroll::default());
        let column = Form::<S>::column(area);
        let foot = self.foot(below.wide, desk);
        // Where not all fits, the rows move under the choice, and the explanation stays whole.
        let kept = (foot.len() + 1).min(below.tall.saturating_sub(IN_SIGHT));
        let most = below.tall.saturating_sub(kept);
        let mut wide = below.wide;
        let mut placed = self.placed(below, column, desk);
        if last_line(&placed) >= most {
            // The last column is for the marks of what is out of sight.
            wide = wide.saturating_sub(1);
            placed = self.placed(Area { wide, ..below }, column, desk);
        }
        let go_on = last_line(&placed);
        let (list, _) = below.split_rows((go_on + 1).min(most));
        let narrow = Area { wide, ..list };
        let begins = |at: usize| placed.get(at).map_or(go_on, |row| row.begins);
        let tall = placed.get(self.choice.at).map_or(1, Placed::tall);
        let middle = list.tall.saturating_sub(tall) / 2;
        let first = begins(self.choice.at).saturating_sub(middle);
        let first = first.min((go_on + 1).saturating_sub(list.tall));
        for (at, row) in placed.iter().enumerate() {
            if let Some(y) = row.begins.checked_sub(first) {
                self.draw_row(frame, narrow.split_rows(y).1, (at, row), column, desk);
            }
        }
        let (_, place) = narrow.split_rows(go_on.saturating_sub(first));
        let place = place.split_rows(1).0;
        let last = self.choice.at >= self.rows.len();
        let mark = if last { frame.pick('▸', '>') } else { ' ' };
        let text = format!("{mark} {}", desk.say("deeds-go-on", &[]));
        if last {
            frame.put_row(place, 0, Role::Chosen, &text);
        } else {
            frame.put(place, 0, 0, Role::Plain, &text);
        }
        frame.hot(place, Command::Pick(ROWS, self.rows.len()));
        let edge = list.wide.saturating_sub(1);
        if first > 0 {
            let mark = frame.pick('▲', '^').to_string();
            frame.put(list, 0, edge, Role::Key, &mark);
        }
        if first + list.tall <= go_on {
            let mark = frame.pick('▼', 'v').to_string();
            frame.put(list, list.tall.saturating_sub(1), edge, Role::Key, &mark);
        }
        let (_, below) = below.split_rows(list.tall + 1);
        prose::draw(frame, below, &foot, Scroll::default());
        if let Some((field, choice)) = &self.picking {
            let id = self.row().map_or("", |row| row.asked.id);
            let title = desk.words.part("deeds-field", id);
            self.draw_picking(frame, inside, (field, *choice), &title, desk);
        }
    }

    /// What stands in the rows, and where each begins.
    fn placed(&self, below: Area, column: usize, desk: &Desk<S>) -> Vec<Placed> {
        let mut begins = 0;
        let mut spare = below.tall.saturating_sub(self.rows.len() + SPARE);
        let mut all = Vec::with_capacity(self.rows.len());
        for (at, row) in self.rows.iter().enumerate() {
            let chosen = at == self.choice.at;
            let shown = match (row.is_typed(), chosen, row.shown()) {
                _ if row.takes_several() && !several_told(row, desk).is_empty() => {
                    several_told(row, desk)
                }
                (true, true, _) => row.line.shown(),
                (_, _, shown) if !shown.is_empty() => shown,
                _ if row.may_stay_empty() => desk.say("deeds-left-empty", &[]),
                _ => desk.say("deeds-to-fill", &[]),
            };
            let values = wrap(&shown, below.wide.saturating_sub(column + 1).max(1));
            // A second line for what is long, as long as the explanation below keeps its place.
            let most = if chosen { 4 } else { 1 + spare.min(1) };
            let is_cut = values.len() > most;
            let mut values: Vec<String> = values.into_iter().take(most).collect();
            if let Some(last) = values.last_mut().filter(|_| is_cut) {
                last.push_str(" …");
            }
            let row = Placed { values, begins };
            if !chosen {
                spare = spare.saturating_sub(row.tall() - 1);
            }
            begins += row.tall();
            all.push(row);
        }
        all
    }

    fn draw_row(
        &self,
        frame: &mut Frame,
        area: Area,
        (at, placed): (usize, &Placed),
        column: usize,
        desk: &Desk<S>,
    ) {
        let Some(row) = self.rows.get(at) else {
            return;
        };
        let chosen = at == self.choice.at;
        let name = desk.words.part("deeds-field", row.asked.id);
        let mark = if chosen { frame.pick('▸', '>') } else { ' ' };
        let (place, _) = area.split_rows(placed.tall());
        let (left, right) = place.split_columns(column);
        let role = if chosen { Role::Chosen } else { Role::Plain };
        frame.put_row(left, 0, role, &format!("{mark} {name}"));
        let role = match (chosen, row.is_typed()) {
            (true, true) => Role::Field,
            (true, false) => Role::Strong,
            _ => Role::Plain,
        };
        for (line, text) in placed.values.iter().enumerate() {
            frame.put(right, line, 1, role, text);
        }
        frame.hot(place, Command::Pick(ROWS, at));
    }

    /// What is said below the rows: what is wrong with the chosen one, and what it is for.
    fn foot(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let explained = match self.row() {
            Some(row) => {
                let told = self.began(row, desk).into_iter();
                let gives_way = row.gives_way().then(|| desk.say("deeds-gives-way", &[]));
                let explained = [explained(row.asked, desk)];
                let all: Vec<String> = told.chain(explained).chain(gives_way).collect();
                all.join(" ")
            }
            None => desk.say("deeds-go-on-about", &[]),
        };
        let wrong = self.wrong.iter().filter(|(at, _)| *at == self.choice.at);
        let mut lines: Vec<_> = wrong
            .flat_map(|(_, texts)| texts)
            .flat_map(|text| prose::wrapped(Role::Caution, text, wide))
            .collect();
        if !lines.is_empty() {
            lines.push(Line::new(Role::Plain, ""));
        }
        lines.extend(prose::wrapped(Role::Plain, &explained, wide));
        lines
    }

    /// What stood in a row before it was changed; where it is our default, that too.
    fn began(&self, row: &Row, desk: &Desk<S>) -> Option<String> {
        if row.began.is_empty() {
            return None;
        }
        let is_changed = row.line.text != row.began;
        let id = match row.asked.source {
            Source::OfModule(number) => {
                let asked = asked_by_module(&self.rows, &self.shelf.modules)?;
                if !number.is_said(asked) {
                    "deeds-module-says-nothing"
                } else if is_changed {
                    "deeds-module-asks"
                } else {
                    return None;
                }
            }
            Source::OfPolicy(_) if is_changed => "deeds-policy-holds",
            _ => return None,
        };
        Some(desk.say(id, &[("began", row.began.as_str().into())]))
    }
}

/// The line of the way on, behind all rows.
fn last_line(placed: &[Placed]) -> usize {
    placed.last().map_or(0, |row| row.begins + row.tall())
}

/// How many of several are taken.
fn several_told<S: System>(row: &Row, desk: &Desk<S>) -> String {
    if matches!(row.asked.source, Source::SomeOf(_)) {
        return row.words().join(", ");
    }
    let values = [
        ("taken", row.taken().into()),
        ("all", row.options.len().into()),
    ];
    let id = if row.options.is_empty() {
        "deeds-evidence-none"
    } else if row.taken() == row.options.len() {
        "deeds-evidence-all"
    } else {
        "deeds-evidence-some"
    };
    desk.say(id, &values)
}

/// What a field is for. One that may be left empty somewhere and not elsewhere has words of its own for it.
fn explained<S: System>(asked: Asked, desk: &Desk<S>) -> String {
    let optional = format!("{}-optional", asked.id);
    let id = if asked.optional && desk.words.knows(&format!("deeds-about.{optional}")) {
        &optional
    } else {
        asked.id
    };
    desk.words.part("deeds-about", id)
}
