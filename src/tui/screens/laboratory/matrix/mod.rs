//! The table of people by workflows as of a day, in either reading: every cell leads to the entry that proves it.

mod draw;
mod gathered;

use gathered::{Gathered, Person};

use super::asked::{Asked, Taken};
use super::one_entry::OneEntry;
use super::person_file::PersonFile;
use super::workflow_file::WorkflowFile;
use crate::app::System;
use crate::record::seal::Seal;
use crate::report::Block;
use crate::report::record::{abbreviations, cell};
use crate::text::Sought;
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::units::Millis;

/// So long cells are looked at before the next look at the keyboard. Our default.
const AT_A_TIME: Millis = Millis(8);

/// The table.
pub struct Matrix {
    asked: Asked,
    gathered: Gathered,
    /// The letters of each workflow.
    short: Vec<String>,
    /// Who is shown, by their place among all people, in the order of their names.
    rows: Vec<usize>,
    with_those_who_left: bool,
    names: String,
    asking: Option<Field>,
    /// The chosen cell: a row of those shown, a workflow.
    row: usize,
    column: usize,
    /// The chosen cell in full, and the entry that proves it.
    detail: Vec<Block>,
    proof: Option<Seal>,
    /// Whether the policy of that day says that nobody can assess independently.
    alone: bool,
}

impl Matrix {
    /// Opens the table as of now. Nothing where no laboratory is open.
    #[must_use]
    pub fn open<S: System>(desk: &mut Desk<S>) -> Turn<S> {
        let Some((house, words)) = desk.office() else {
            return Turn::Stay;
        };
        let today = house.today();
        let ledger = house.laboratory.ledger();
        let staff = ledger.staff();
        let people = ledger.people().map(|code| {
            let name = house.told(words, |telling| telling.name(code));
            Person {
                code,
                sought: format!("{name} {code}"),
                name,
                here: staff.is_here(code),
            }
        });
        let mut people: Vec<Person> = people.collect();
        people.sort_by(|one, other| (&one.name, one.code).cmp(&(&other.name, other.code)));
        let workflows = house.laboratory.workflows();
        let mut matrix = Matrix {
            asked: Asked::of(today, today.at, house.laboratory.calendar()),
            short: abbreviations(&workflows),
            gathered: Gathered::new(people, workflows),
            rows: Vec::new(),
            with_those_who_left: false,
            names: String::new(),
            asking: None,
            row: 0,
            column: 0,
            detail: Vec::new(),
            proof: None,
            alone: false,
        };
        matrix.begin(desk);
        Turn::Open(Box::new(matrix))
    }

    /// Another day, another reading, or entries that are new.
    fn begin<S: System>(&mut self, desk: &mut Desk<S>) {
        self.gathered.forget();
        let asked = self.asked.as_of();
        if let Some((house, _)) = desk.office() {
            self.alone = asked.view(house.laboratory.ledger()).policy().is_alone();
        }
        self.list();
        self.look_closer(desk);
        self.go_on(desk);
    }

    /// Lists who is shown. The chosen person stays chosen where they still are.
    fn list(&mut self) {
        let chosen = self.rows.get(self.row).copied();
        let sought = Sought::new(&self.names);
        let people = self.gathered.people.iter().enumerate();
        let shown = people.filter(|(_, person)| {
            (person.here || self.with_those_who_left) && sought.is_in(&person.sought)
        });
        self.rows = shown.map(|(at, _)| at).collect();
        let place = chosen.map(|chosen| self.rows.partition_point(|row| *row < chosen));
        let last = self.rows.len().saturating_sub(1);
        self.row = place.unwrap_or(0).min(last);
    }

    /// Looks at more cells, for a little while.
    fn go_on<S: System>(&mut self, desk: &mut Desk<S>) {
        let begun = desk.system.elapsed();
        let sight = self.in_sight(desk);
        let asked = self.asked.as_of();
        let mut steps = 0_u32;
        loop {
            let Some((house, _)) = desk.office() else {
                return;
            };
            let ledger = house.laboratory.ledger();
            if !self.gathered.go_on(ledger, asked, &sight) {
                break;
            }
            steps += 1;
            // A clock that stands still in a test does not keep keys waiting.
            if desk.system.elapsed().0 - begun.0 >= AT_A_TIME.0 || steps >= 2_000 {
                break;
            }
        }
        let chosen = self.rows.get(self.row).copied();
        self.list();
        if self.rows.get(self.row).copied() != chosen {
            self.look_closer(desk);
        }
    }

    /// Puts the chosen cell into words.
    fn look_closer<S: System>(&mut self, desk: &mut Desk<S>) {
        (self.detail, self.proof) = (Vec::new(), None);
        let Some((person, workflow)) = self.chosen() else {
            return;
        };
        let asked = self.asked.as_of();
        let Some((house, words)) = desk.office() else {
            return;
        };
        let full = cell(house.laboratory.ledger(), asked, person, &workflow);
        self.proof = full.proof();
        self.detail = house.told(words, |telling| full.blocks(telling));
    }

    fn chosen(&self) -> Option<(crate::units::PersonCode, crate::record::scope::Id)> {
        let person = self.gathered.people.get(*self.rows.get(self.row)?)?;
        let workflow = self.gathered.workflows.get(self.column)?;
        Some((person.code, workflow.clone()))
    }

    fn move_cell<S: System>(&mut self, command: Command, desk: &Desk<S>) -> bool {
        let (last_row, last_column) = (
            self.rows.len().saturating_sub(1),
            self.gathered.workflows.len().saturating_sub(1),
        );
        let page = self.parts(desk.body(), desk).rows.tall.max(2) - 1;
        match command {
            Command::Up => self.row = self.row.saturating_sub(1),
            Command::Down => self.row += 1,
            Command::PageUp => self.row = self.row.saturating_sub(page),
            Command::PageDown => self.row += page,
            Command::First => self.row = 0,
            Command::Last => self.row = last_row,
            Command::Left => self.column = self.column.saturating_sub(1),
            Command::Right => self.column += 1,
            _ => return false,
        }
        self.row = self.row.min(last_row);
        self.column = self.column.min(last_column);
        true
    }

    fn ask_names<S: System>(&mut self, command: Command, desk: &mut Desk<S>) {
        let Some(field) = &mut self.asking else {
            return;
        };
        match command {
            Command::Type(c) => field.typed(c),
            Command::Erase => field.erase(),
            Command::Back => self.asking = None,
            Command::Take => {
                field.text.trim().clone_into(&mut self.names);
                self.asking = None;
                self.list();
                self.look_closer(desk);
            }
            _ => {}
        }
    }

    fn open_chosen<S: System>(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let Some((person, workflow)) = self.chosen() else {
            return Turn::Stay;
        };
        let as_of = self.asked.as_of();
        match command {
            Command::Type('w') => WorkflowFile::open_at(workflow, as_of, desk),
            Command::Type('e') => match self.proof {
                Some(seal) => OneEntry::open(seal, desk),
                None => {
                    let text = desk.say("files-matrix-no-proof", &[]);
                    Turn::Tell(Notice::new(vec![text]))
                }
            },
            _ => PersonFile::open_at(person, Some(workflow), as_of, desk),
        }
    }
}

impl<S: System> Screen<S> for Matrix {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if command == Command::Tick {
            self.go_on(desk);
            return Turn::Stay;
        }
        if self.asking.is_some() {
            self.ask_names(command, desk);
            return Turn::Stay;
        }
        match self.asked.handle(command) {
            Taken::Changed => self.begin(desk),
            Taken::Yes => {}
            Taken::No if self.move_cell(command, desk) => self.look_closer(desk),
            Taken::No => match command {
                Command::Back => return Turn::Close,
                Command::Type('/') => self.asking = Some(Field::default()),
                Command::Type('l') => {
                    self.with_those_who_left = !self.with_those_who_left;
                    self.list();
                    self.look_closer(desk);
                }
                Command::Pick(0, cell) => {
                    let wide = self.gathered.workflows.len().max(1);
                    let to = (cell / wide, cell % wide);
                    if to == (self.row, self.column) {
                        return self.open_chosen(Command::Take, desk);
                    }
                    (self.row, self.column) = (to.0.min(self.rows.len().saturating_sub(1)), to.1);
                    self.look_closer(desk);
                }
                Command::Take | Command::Type('e' | 'w') => {
                    return self.open_chosen(command, desk);
                }
                _ => {}
            },
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        self.draw_all(frame, area, desk);
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("record-matrix-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let back = desk.hint(Key::Esc, "screens-key-back");
        if self.asking.is_some() {
            return vec![desk.hint(Key::Enter, "files-key-names"), back];
        }
        if self.asked.is_typing() {
            return self.asked.hints(desk);
        }
        let mut hints = Vec::new();
        if self.chosen().is_some() {
            hints.push(desk.hint(Key::Enter, "files-key-person"));
            hints.push(desk.hint(Key::Letter('e'), "files-key-proof"));
        }
        hints.extend(self.asked.hints(desk));
        let cells = self.rows.len() * self.gathered.workflows.len();
        if cells > 1 {
            hints.push(desk.hint(Key::Arrows, "screens-key-choose"));
        }
        if self.chosen().is_some() {
            hints.push(desk.hint(Key::Letter('w'), "files-key-workflow"));
        }
        hints.push(desk.hint(Key::Letter('/'), "files-key-find-names"));
        hints.push(desk.hint(Key::Letter('l'), "files-key-left"));
        hints.push(back);
        hints
    }

    fn about(&self) -> &'static str {
        "files-matrix-about"
    }

    fn is_typing(&self) -> bool {
        self.asking.is_some() || self.asked.is_typing()
    }

    fn is_live(&self) -> bool {
        !self.gathered.is_complete()
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.asked.renew(desk);
        self.begin(desk);
        Turn::Stay
    }
}
