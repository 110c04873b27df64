//! The board of the day: what there is to do for whoever is signed in, the most pressing first, and the ways to everything else.
//!
//! It is gathered person by person between keys, so that it takes keys at once however long the record is.

use super::bench_runs::{BenchRuns, how_many};
use super::ways::Way;
use crate::app::System;
use crate::record::scope::{Id, Meaning};
use crate::report::record::{About, AsOf, Matter, looks_after_others, standing_of, waiting_for};
use crate::text::Caution;
use crate::text::wrap::{columns, wrap};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};
use crate::units::{Millis, PersonCode};

/// So long people are gathered before the next look at the keyboard. Our default.
const AT_A_TIME: Millis = Millis(10);

/// The most lines of one matter; the whole is behind it.
const LINES_MOST: usize = 3;

/// A matter as it is shown.
struct Shown {
    matter: Matter,
    told: String,
}

/// The board of the day.
pub struct Board {
    viewer: Option<PersonCode>,
    asked: Option<AsOf>,
    /// Whose standings are still to be looked at.
    left: Vec<PersonCode>,
    matters: Vec<Shown>,
    choice: Choice,
    /// The ways that are open to whoever is signed in.
    ways: Vec<Way>,
    /// How many real cases are watched and not signed yet.
    runs: usize,
}

impl Board {
    /// Looks at what there is to do now.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> Board {
        let mut board = Board {
            viewer: desk.person(),
            asked: None,
            left: Vec::new(),
            matters: Vec::new(),
            choice: Choice::default(),
            ways: Vec::new(),
            runs: 0,
        };
        board.begin(desk);
        board
    }

    fn begin<S: System>(&mut self, desk: &mut Desk<S>) {
        self.viewer = desk.person();
        self.left.clear();
        let viewer = self.viewer;
        self.runs = viewer.map_or(0, |viewer| how_many(viewer, desk));
        let Some((house, _)) = desk.office() else {
            return;
        };
        let asked = house.today();
        self.asked = Some(asked);
        let ledger = house.laboratory.ledger();
        self.ways = Way::open_to(viewer, ledger);
        if let Some(viewer) = viewer {
            let others = looks_after_others(ledger, viewer);
            let people = house.laboratory.people();
            self.left = people.filter(|one| others || *one == viewer).collect();
            // Taken from the end.
            self.left.reverse();
            let waiting = waiting_for(ledger, asked, viewer);
            self.matters.clear();
            self.add(waiting, desk);
        }
        self.go_on(desk);
    }

    fn add<S: System>(&mut self, matters: Vec<Matter>, desk: &mut Desk<S>) {
        let Some((house, words)) = desk.office() else {
            return;
        };
        for matter in matters {
            let told = house.told(words, |telling| matter.told(telling));
            let shown = Shown { matter, told };
            let rank = |one: &Shown| one.matter.rank();
            let at = self
                .matters
                .partition_point(|one| rank(one) <= rank(&shown));
            // Whoever has chosen a matter keeps it while others come in above.
            if self.choice.at >= at && self.choice.at > 0 {
                self.choice.at += 1;
            }
            self.matters.insert(at, shown);
        }
    }

    /// Looks at more people, for a little while.
    fn go_on<S: System>(&mut self, desk: &mut Desk<S>) {
        let begun = desk.system.elapsed();
        while let (Some(who), Some(asked), Some(viewer)) =
            (self.left.pop(), self.asked, self.viewer)
        {
            let Some((house, _)) = desk.office() else {
                return;
            };
            let matters = standing_of(house.laboratory.ledger(), asked, who, viewer);
            self.add(matters, desk);
            if desk.system.elapsed().0 - begun.0 >= AT_A_TIME.0 {
                return;
            }
        }
    }

    /// Whom the chosen matter is about, and which workflow.
    fn chosen(&self) -> Option<(PersonCode, Id)> {
        let shown = self.matters.get(self.choice.at)?;
        match shown.matter.about(self.viewer?) {
            About::Person(person, workflow) => Some((person, workflow)),
            About::Entry(_) | About::Record | About::SetUp(_) => None,
        }
    }

    /// Where everything else is found, and what comes first.
    fn foot<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<prose::Line> {
        let mut texts = vec![String::new()];
        for way in &self.ways {
            let values = [
                ("key", way.key().to_string().into()),
                ("way", desk.say(way.words(), &[]).into()),
            ];
            let said = desk.say("office-board-way", &values);
            // A key is not parted from what it does.
            match texts.last_mut() {
                Some(last) if last.is_empty() => *last = said,
                Some(last) if columns(last) + 3 + columns(&said) <= wide => {
                    *last = format!("{last}   {said}");
                }
                _ => texts.push(said),
            }
        }
        let texts = texts.into_iter();
        let mut lines: Vec<prose::Line> = texts
            .map(|text| prose::Line::new(Role::Plain, text))
            .collect();
        let caution = format!("! {}", Caution::OthersComeFirst.say(&desk.words));
        lines.extend(prose::wrapped(Role::Caution, &caution, wide));
        lines
    }

    fn parts<S: System>(&self, area: Area, desk: &Desk<S>) -> (Area, Area) {
        let inside = area.within(1, 0);
        let foot = self.foot(inside.wide, desk).len();
        let (list, below) = inside.split_rows(inside.tall.saturating_sub(foot + 1));
        (list, below.split_rows(1).1)
    }

    /// The lines of the list: of which matter, in which role.
    fn lines<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<(Option<usize>, Role, String)> {
        let mut lines = Vec::new();
        let mut heading = "";
        if self.runs > 0 {
            let text = desk.say("office-board-runs", &[("count", self.runs.into())]);
            let texts = wrap(&text, wide.max(1)).into_iter();
            lines.extend(texts.map(|text| (None, Role::Strong, text)));
        }
        for (at, shown) in self.matters.iter().enumerate() {
            if shown.matter.heading() != heading {
                heading = shown.matter.heading();
                if !lines.is_empty() {
                    lines.push((None, Role::Plain, String::new()));
                }
                lines.push((None, Role::Strong, desk.say(heading, &[])));
            }
            let chosen = at == self.choice.at;
            let role = if chosen { Role::Chosen } else { Role::Plain };
            let mut texts = wrap(&shown.told, wide.saturating_sub(3).max(1));
            if texts.len() > LINES_MOST && !chosen {
                texts.truncate(LINES_MOST);
                if let Some(last) = texts.last_mut() {
                    last.push('…');
                }
            }
            let texts = texts.into_iter().enumerate();
            lines.extend(texts.map(|(row, text)| {
                let mark = if row == 0 { '-' } else { ' ' };
                (Some(at), role, format!("{mark} {text}"))
            }));
        }
        lines
    }
}

impl<S: System> Screen<S> for Board {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let tall = desk.body().tall;
        if self
            .choice
            .moved(command, self.matters.len(), tall / LINES_MOST)
        {
            return Turn::Stay;
        }
        match command {
            Command::Tick => self.go_on(desk),
            Command::Pick(0, row) if self.choice.at != row => {
                self.choice.at = row.min(self.matters.len().saturating_sub(1));
            }
            Command::Take | Command::Pick(0, _) => {
                let (Some(shown), Some(viewer)) = (self.matters.get(self.choice.at), self.viewer)
                else {
                    return Turn::Stay;
                };
                return match shown.matter.about(viewer) {
                    About::Entry(seal) if matches!(shown.matter, Matter::Second(_)) => {
                        Way::second(seal, Meaning::Approved, desk)
                    }
                    About::Entry(seal) if matches!(shown.matter, Matter::Acknowledge(_)) => {
                        Way::second(seal, Meaning::Acknowledged, desk)
                    }
                    About::Entry(seal) => Way::entry(seal, desk),
                    About::Person(person, workflow) => Way::person(person, workflow, desk),
                    About::Record => Way::Verify.go(desk),
                    About::SetUp(step) => Way::set_up(step, desk),
                };
            }
            Command::Type(key) => {
                let mut ways = self.ways.iter();
                if let Some(way) = ways.find(|way| way.key() == key) {
                    return match (way, self.chosen()) {
                        (Way::BenchRun, Some((person, workflow))) => {
                            BenchRuns::open(Some((person, Some(workflow))), desk)
                        }
                        _ => way.go(desk),
                    };
                }
            }
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let (list, foot) = self.parts(area, desk);
        let lines = self.lines(list.wide, desk);
        let first = lines
            .iter()
            .position(|(of, ..)| *of == Some(self.choice.at));
        let last = lines
            .iter()
            .rposition(|(of, ..)| *of == Some(self.choice.at));
        // The heading over the first matter stays in sight with it.
        let first = if self.choice.at == 0 {
            0
        } else {
            first.unwrap_or(0)
        };
        let last = last.unwrap_or(0);
        let top = (last + 1).saturating_sub(list.tall).max(
            first.min(
                first
                    .saturating_sub(list.tall / 2)
                    .min(lines.len().saturating_sub(list.tall)),
            ),
        );
        for (row, (of, role, text)) in lines.iter().skip(top).take(list.tall).enumerate() {
            let (line, _) = Area {
                y: list.y + row,
                tall: 1,
                ..list
            }
            .split_rows(1);
            if *role == Role::Chosen {
                frame.put_row(line, 0, *role, text);
            } else {
                frame.put(line, 0, 0, *role, text);
            }
            if let Some(at) = of {
                frame.hot(line, Command::Pick(0, *at));
            }
        }
        let edge = Area {
            x: list.x + list.wide,
            wide: 1,
            ..list
        };
        if top > 0 {
            let mark = frame.pick('▲', '^').to_string();
            frame.put(edge, 0, 0, Role::Key, &mark);
        }
        if top + list.tall < lines.len() {
            let mark = frame.pick('▼', 'v').to_string();
            frame.put(edge, list.tall.saturating_sub(1), 0, Role::Key, &mark);
        }
        if self.matters.is_empty() {
            let text = desk.say("office-board-nothing", &[]);
            let nothing = prose::wrapped(Role::Plain, &text, list.wide);
            prose::draw(frame, list, &nothing, Scroll::default());
        }
        if !self.left.is_empty() {
            let (last, _) = Area {
                y: list.y + list.tall.saturating_sub(1),
                tall: 1,
                ..list
            }
            .split_rows(1);
            frame.put_right(last, 0, Role::Faint, &desk.say("office-board-still", &[]));
        }
        let above = Area {
            y: foot.y.saturating_sub(1),
            tall: 1,
            ..foot
        };
        frame.rule(above, 0);
        prose::draw(frame, foot, &self.foot(foot.wide, desk), Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        let day = self
            .asked
            .map_or_else(String::new, |asked| asked.at.day().to_string());
        desk.say("office-board-title", &[("day", day.into())])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = vec![
            desk.hint(Key::Enter, "office-board-take"),
            desk.hint(Key::UpDown, "screens-key-choose"),
        ];
        let ways = self.ways.iter();
        hints.extend(ways.map(|way| desk.hint(Key::Letter(way.key()), way.words())));
        hints
    }

    fn about(&self) -> &'static str {
        "office-board-about"
    }

    fn is_live(&self) -> bool {
        !self.left.is_empty()
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.begin(desk);
        Turn::Stay
    }
}
