//! A form: rows that are answered, each explained; what will not do is told at its row, and nothing that was typed is lost.

use super::answers::{Answers, Offer, Row, Way, Wrong, fitting};
use crate::app::System;
use crate::report::plain::Glyphs;
use crate::text::Value;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key, Leaving, Notice, Screen, Turn};

/// Why a form does not go on.
pub(super) enum Not {
    /// An answer will not do.
    Wrong(Wrong),
    /// Something has to be read.
    Told(Notice),
}

impl From<Wrong> for Not {
    fn from(wrong: Wrong) -> Not {
        Not::Wrong(wrong)
    }
}

impl From<Notice> for Not {
    fn from(notice: Notice) -> Not {
        Not::Told(notice)
    }
}

/// What answers lead to.
pub(super) type Build<S> = fn(&mut Answers<'_>, &mut Desk<S>) -> Result<Turn<S>, Not>;

/// A form.
pub(super) struct Form<S: System> {
    /// The message of the deed, whose part `about` explains it.
    title: &'static str,
    rows: Vec<Row>,
    choice: Choice,
    build: Build<S>,
    /// Whether anything was answered.
    touched: bool,
    /// Whether somebody has just been told what going back would lose.
    warned: bool,
}

impl<S: System> Form<S> {
    /// A form of these rows.
    pub(super) fn new(title: &'static str, rows: Vec<Row>, build: Build<S>) -> Form<S> {
        Form {
            title,
            rows,
            choice: Choice::default(),
            build,
            touched: false,
            warned: false,
        }
    }

    fn go_on(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let Some((house, _)) = desk.office() else {
            return Turn::Close;
        };
        let now = house.laboratory.now();
        let mut answers = Answers {
            rows: &mut self.rows,
            now,
        };
        match (self.build)(&mut answers, desk) {
            Ok(turn) => turn,
            Err(Not::Told(notice)) => Turn::Tell(notice),
            Err(Not::Wrong(Wrong { id, why })) => {
                let said = desk.say(why, &[]);
                if let Some(at) = self.rows.iter().position(|row| row.id == id) {
                    self.rows[at].wrong = Some(said);
                    self.choice.at = at;
                    return Turn::Stay;
                }
                Turn::Tell(Notice::new(vec![said]))
            }
        }
    }

    /// What is shown of an answer.
    fn shown(row: &Row, chosen: bool, desk: &Desk<S>) -> String {
        match &row.way {
            Way::One { offers, at, .. } => offers
                .get(*at)
                .map_or_else(|| desk.say("deeds-none", &[]), |one| one.shown.clone()),
            Way::Several { offers, at } => {
                let count = offers.iter().filter(|(_, chosen)| *chosen).count();
                let mark = match offers.get(*at) {
                    Some((one, is_in)) if chosen => {
                        format!("[{}] {}", if *is_in { 'x' } else { ' ' }, one.shown)
                    }
                    _ => String::new(),
                };
                let values: [(&str, Value); 3] = [
                    ("count", count.into()),
                    ("of", offers.len().into()),
                    ("mark", mark.into()),
                ];
                desk.say("deeds-several", &values)
            }
            Way::Text(field) if chosen => field.shown(),
            Way::Text(field) => field.text.clone(),
            Way::Hidden(field) => {
                let mark = if desk.glyphs == Glyphs::Ascii {
                    '*'
                } else {
                    '•'
                };
                field.shown(mark)
            }
        }
    }

    /// What is told below the rows about the chosen one.
    fn told(&self, desk: &Desk<S>, wide: usize) -> Vec<prose::Line> {
        let Some(row) = self.rows.get(self.choice.at) else {
            return Vec::new();
        };
        let mut lines = Vec::new();
        if let Some(wrong) = &row.wrong {
            lines.extend(prose::wrapped(Role::Caution, wrong, wide));
        }
        // What does not fit into its row stands here whole.
        let shown = Form::shown(row, true, desk);
        lines.extend(prose::wrapped(Role::Strong, &shown, wide));
        if let Way::One { offers, sought, .. } = &row.way {
            lines.extend(prose::wrapped(
                Role::Faint,
                &narrowed(offers, &sought.text, desk),
                wide,
            ));
        }
        let about = desk.say(&format!("{}.about", row.id), &[]);
        lines.extend(prose::wrapped(Role::Plain, &about, wide));
        lines
    }
}

/// How many values are left to choose from.
fn narrowed<S: System>(offers: &[Offer], sought: &str, desk: &Desk<S>) -> String {
    let values = [
        ("count", fitting(offers, sought).len().into()),
        ("sought", sought.into()),
        (
            "has",
            if sought.is_empty() { "none" } else { "typed" }.into(),
        ),
    ];
    desk.say("deeds-narrowed", &values)
}

impl<S: System> Screen<S> for Form<S> {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let rows = self.rows.len();
        self.warned &= matches!(command, Command::Back | Command::Tick);
        let command = match command {
            Command::Next => Command::Down,
            Command::Previous => Command::Up,
            other => other,
        };
        match command {
            Command::Up | Command::Down | Command::PageUp | Command::PageDown => {
                self.choice.moved(command, rows, rows);
            }
            Command::Pick(0, row) if row == self.choice.at => {
                if let Some(row) = self.rows.get_mut(row) {
                    self.touched |= row.handle(Command::Right);
                }
            }
            Command::Pick(0, row) => self.choice.at = row.min(rows.saturating_sub(1)),
            Command::Take => return self.go_on(desk),
            Command::Back if self.touched && !self.warned => {
                self.warned = true;
                return Turn::Tell(Notice::new(vec![desk.say("deeds-leave-loses", &[])]));
            }
            Command::Back => return Turn::Close,
            _ => {
                if let Some(row) = self.rows.get_mut(self.choice.at) {
                    self.touched |= row.handle(command);
                }
            }
        }
        Turn::Stay
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let signed = desk.office().and_then(|(house, _)| house.take_signed());
        match signed {
            Some(_) => Turn::Close,
            None => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let about = desk.say(&format!("{}.about", self.title), &[]);
        let about = prose::wrapped(Role::Faint, &about, inside.wide);
        let (head, rest) = inside.split_rows((about.len() + 1).min(4));
        prose::draw(frame, head, &about, Scroll::default());
        let told = self.told(desk, inside.wide);
        let most = rest.tall.saturating_sub(told.len().min(rest.tall / 2) + 1);
        let (list, below) = rest.split_rows(self.rows.len().min(most.max(1)));
        let top = self.choice.top(self.rows.len(), list.tall);
        let column = (list.wide / 3).min(28);
        for (number, row) in self.rows.iter().enumerate().skip(top).take(list.tall) {
            let chosen = number == self.choice.at;
            let line = Area {
                y: list.y + number - top,
                tall: 1,
                ..list
            };
            let (left, right) = line.split_columns(column);
            let role = if chosen { Role::Chosen } else { Role::Plain };
            let mark = if chosen { frame.pick('▸', '>') } else { ' ' };
            frame.put_row(left, 0, role, &format!("{mark} {}", desk.say(row.id, &[])));
            let shown = Form::shown(row, chosen, desk);
            let turns = matches!(row.way, Way::One { .. } | Way::Several { .. });
            let text = match (chosen && turns, row.wrong.is_some()) {
                (_, true) => format!("! {shown}"),
                (true, _) => format!("{} {shown}", frame.pick('◂', '<')),
                _ => format!("  {shown}"),
            };
            let role = if row.wrong.is_some() {
                Role::Caution
            } else if chosen {
                Role::Strong
            } else {
                Role::Plain
            };
            frame.put(right, 0, 1, role, &text);
            frame.hot(line, Command::Pick(0, number));
        }
        let (_, below) = below.split_rows(1);
        prose::draw(frame, below, &told, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say(self.title, &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Enter, "deeds-key-go-on"),
            desk.hint(Key::UpDown, "deeds-key-row"),
            desk.hint(Key::LeftRight, "deeds-key-change"),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "deeds-form-about"
    }

    fn is_typing(&self) -> bool {
        true
    }

    fn leaving(&self) -> Leaving {
        if self.touched {
            Leaving::Lost
        } else {
            Leaving::Fine
        }
    }
}
