//! What can be signed, in groups, each with one line that explains it.

use super::{About, GROUPS, What, open};
use crate::app::System;
use crate::report::record::not_yours;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};
use crate::tui::screens::laboratory::enrolling::Enrolling;
use crate::tui::screens::laboratory::giving_key::GivingKey;
use crate::tui::screens::laboratory::new_passphrase::NewPassphrase;

/// What stands on the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Line {
    Form(What),
    /// Somebody joins.
    Join,
    /// Somebody gets a key.
    Key,
    /// One changes the passphrase of one's key.
    Passphrase,
}

impl Line {
    fn word(self) -> &'static str {
        match self {
            Line::Form(what) => what.word(),
            Line::Join => "join",
            Line::Key => "key",
            Line::Passphrase => "passphrase",
        }
    }
}

impl Line {
    /// The word of the kind of entry that it becomes.
    fn kind(self) -> &'static str {
        match self {
            Line::Form(what) => what.kind(),
            Line::Join => "joined",
            Line::Key => "key-issued",
            // One's own passphrase makes no entry.
            Line::Passphrase => "",
        }
    }
}

/// The list of deeds.
pub struct Deeds {
    about: About,
    choice: Choice,
    /// What whoever is signed in has no right to, whatever it is about, with who has it or could give it, in words.
    barred: Vec<(Line, String)>,
}

impl Deeds {
    /// A list; what is known already stands in the forms.
    #[must_use]
    pub fn about<S: System>(about: About, desk: &mut Desk<S>) -> Deeds {
        // The choice begins where one signs about an entry, or decides about a person; where one has no right to that, at the first that is one's own.
        let first = if about.entry.is_some() {
            What::Countersign.word()
        } else if about.person.is_some() {
            What::SignOff.word()
        } else {
            What::Assign.word()
        };
        let person = desk.person();
        let barred = desk.office().map_or_else(Vec::new, |(house, words)| {
            let all = Deeds::deeds().into_iter().filter_map(|line| {
                let held = house.laboratory.holders(line.kind());
                let is_barred = person.is_some_and(|one| !held.have.contains(&one));
                is_barred.then(|| (line, house.told(words, |telling| not_yours(&held, telling))))
            });
            all.collect()
        });
        let deeds = Deeds::deeds();
        let is_theirs = |line: &Line| !barred.iter().any(|(barred, _)| barred == line);
        let fits = |line: &Line| line.word() == first && is_theirs(line);
        let at = deeds.iter().position(fits);
        let at = at.or_else(|| deeds.iter().position(is_theirs));
        Deeds {
            about,
            choice: Choice {
                at: at.unwrap_or(0),
            },
            barred,
        }
    }

    /// Who could do what whoever is signed in has no right to; none where they have it.
    fn barred_from(&self, line: Line) -> Option<&str> {
        let mut barred = self.barred.iter();
        let found = barred.find(|(one, _)| *one == line);
        found.map(|(_, who)| who.as_str())
    }

    /// Headings and what can be signed, from top to bottom.
    fn lines() -> Vec<(Option<&'static str>, Option<Line>)> {
        let mut lines = Vec::new();
        for (heading, deeds) in GROUPS {
            lines.push((Some(heading), None));
            lines.extend(deeds.iter().map(|what| (None, Some(Line::Form(*what)))));
        }
        for one in [Line::Join, Line::Key, Line::Passphrase] {
            lines.push((None, Some(one)));
        }
        lines
    }

    fn deeds() -> Vec<Line> {
        Deeds::lines()
            .into_iter()
            .filter_map(|(_, line)| line)
            .collect()
    }

    fn parts(area: Area) -> (Area, Area) {
        let inside = area.within(2, 0);
        let (list, below) = inside.split_rows(inside.tall.saturating_sub(5));
        (list, below.split_rows(1).1)
    }
}

impl<S: System> Screen<S> for Deeds {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let deeds = Deeds::deeds();
        let (list, _) = Deeds::parts(desk.body());
        if self.choice.moved(command, deeds.len(), list.tall) {
            return Turn::Stay;
        }
        match command {
            Command::Back => Turn::Close,
            Command::Pick(0, row) if row != self.choice.at => {
                self.choice.at = row.min(deeds.len() - 1);
                Turn::Stay
            }
            Command::Take | Command::Pick(0, _) => match deeds.get(self.choice.at) {
                Some(Line::Form(what)) => open(*what, &self.about, desk),
                Some(Line::Join) => Turn::Open(Box::new(Enrolling::new())),
                Some(Line::Key) => Turn::Open(Box::new(GivingKey::new(self.about.person, desk))),
                Some(Line::Passphrase) => Turn::Open(Box::new(NewPassphrase::new(desk))),
                None => Turn::Stay,
            },
            _ => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let (list, foot) = Deeds::parts(area);
        let lines = Deeds::lines();
        let mut deed = 0;
        let mut placed = Vec::with_capacity(lines.len());
        for (heading, line) in lines {
            placed.push((heading, line.map(|line| (deed, line))));
            deed += usize::from(line.is_some());
        }
        let chosen = placed
            .iter()
            .position(|(_, line)| line.is_some_and(|(at, _)| at == self.choice.at))
            .unwrap_or(0);
        let top = chosen.saturating_sub(list.tall / 2);
        let top = top.min(placed.len().saturating_sub(list.tall));
        for (row, (heading, line)) in placed.iter().skip(top).take(list.tall).enumerate() {
            let place = Area {
                y: list.y + row,
                tall: 1,
                ..list
            };
            if let Some(heading) = heading {
                frame.put(place, 0, 0, Role::Strong, &desk.say(heading, &[]));
            }
            if let Some((at, line)) = line {
                let title = desk.words.part("deeds-title", line.word());
                let text = if self.barred_from(*line).is_some() {
                    let title = [("title", title.into())];
                    format!("  {}", desk.say("deeds-not-yours", &title))
                } else {
                    format!("  {title}")
                };
                if *at == self.choice.at {
                    frame.put_row(place, 0, Role::Chosen, &text);
                } else {
                    frame.put(place, 0, 0, Role::Plain, &text);
                }
                frame.hot(place, Command::Pick(0, *at));
            }
        }
        let above = Area {
            y: foot.y.saturating_sub(1),
            tall: 1,
            ..foot
        };
        frame.rule(above, 0);
        if let Some(line) = Deeds::deeds().get(self.choice.at) {
            let text = desk.words.part("deeds-explained", line.word());
            let texts = self.barred_from(*line).into_iter().chain([text.as_str()]);
            let lines: Vec<_> = texts
                .flat_map(|text| prose::wrapped(Role::Plain, text, foot.wide))
                .collect();
            prose::draw(frame, foot, &lines, Scroll::default());
        }
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("deeds-list-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Enter, "deeds-key-form"),
            desk.hint(Key::UpDown, "screens-key-choose"),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "deeds-list-about"
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        // What was signed is noted where it was opened from.
        if let Some((house, _)) = desk.office() {
            let _noted = house.take_signed();
        }
        Turn::Stay
    }
}
