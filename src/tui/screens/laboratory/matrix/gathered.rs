//! What is known of the table so far. Cells are looked at a few at a time, those in sight first, so that keys are taken meanwhile.

use crate::record::scope::Id;
use crate::report::record::{AsOf, Glance, glance};
use crate::standing::{Ledger, Standing};
use crate::units::PersonCode;

/// Somebody in the table.
#[derive(Clone, Debug)]
pub(super) struct Person {
    pub(super) code: PersonCode,
    pub(super) name: String,
    /// The name and the code as they are looked for.
    pub(super) sought: String,
    /// Whether the person was here on that day, as far as that is known.
    pub(super) here: bool,
}

/// Something to be looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Work {
    Here(usize),
    Cell(usize, usize),
}

/// People, workflows and cells.
#[derive(Clone, Debug, Default)]
pub(super) struct Gathered {
    pub(super) people: Vec<Person>,
    pub(super) workflows: Vec<Id>,
    /// Person by person, a cell for each workflow.
    cells: Vec<Option<Glance>>,
    is_here_known: Vec<bool>,
    /// Cells before this one have been looked at.
    next_cell: usize,
    next_person: usize,
}

impl Gathered {
    pub(super) fn new(people: Vec<Person>, workflows: Vec<Id>) -> Gathered {
        let mut gathered = Gathered {
            people,
            workflows,
            ..Gathered::default()
        };
        gathered.forget();
        gathered
    }

    /// Another day or reading is asked about: nothing is known of it yet.
    pub(super) fn forget(&mut self) {
        self.cells = vec![None; self.people.len() * self.workflows.len()];
        self.is_here_known = vec![false; self.people.len()];
        (self.next_cell, self.next_person) = (0, 0);
    }

    pub(super) fn cell(&self, person: usize, workflow: usize) -> Option<&Glance> {
        self.cells
            .get(person * self.workflows.len() + workflow)
            .and_then(Option::as_ref)
    }

    /// How many cells are known.
    pub(super) fn known(&self) -> usize {
        self.cells.iter().flatten().count()
    }

    pub(super) fn all(&self) -> usize {
        self.cells.len()
    }

    /// The cells of these people that are known.
    fn known_of(&self, people: &[usize]) -> impl Iterator<Item = &Glance> {
        people.iter().flat_map(move |&person| {
            (0..self.workflows.len()).filter_map(move |workflow| self.cell(person, workflow))
        })
    }

    /// The words that stand in some cell of these people, in the order of standings; what cannot be shown comes last.
    pub(super) fn words(&self, people: &[usize]) -> Vec<&'static str> {
        let mut seen: Vec<&'static str> = Vec::new();
        for word in self.known_of(people).flat_map(Glance::words) {
            if !seen.contains(word) {
                seen.push(word);
            }
        }
        let place = |word: &&str| Standing::WORDS.iter().position(|known| known == word);
        seen.sort_by_key(|word| place(word).unwrap_or(usize::MAX));
        seen
    }

    /// Whether some cell of these people has several standings.
    pub(super) fn has_several(&self, people: &[usize]) -> bool {
        self.known_of(people).any(|cell| cell.words().len() > 1)
    }

    pub(super) fn is_complete(&self) -> bool {
        self.next_cell >= self.cells.len() && self.next_person >= self.people.len()
    }

    /// How many of these people may work alone in a workflow; none where a cell is not known yet.
    pub(super) fn cover(&self, people: &[usize], workflow: usize) -> Option<usize> {
        let mut alone = 0;
        for &person in people {
            alone += usize::from(self.cell(person, workflow)?.may_work_alone());
        }
        Some(alone)
    }

    /// Looks at one more thing, what is in sight first. Returns whether there was any.
    pub(super) fn go_on(&mut self, ledger: &Ledger, asked: AsOf, sight: &[(usize, usize)]) -> bool {
        let Some(work) = self.next(sight) else {
            return false;
        };
        match work {
            Work::Here(person) => {
                let code = self.people[person].code;
                self.people[person].here = asked.view(ledger).is_here(code);
                self.is_here_known[person] = true;
            }
            Work::Cell(person, workflow) => {
                let (code, id) = (self.people[person].code, &self.workflows[workflow]);
                let seen = glance(ledger, asked, code, id);
                self.cells[person * self.workflows.len() + workflow] = Some(seen);
            }
        }
        true
    }

    fn next(&mut self, sight: &[(usize, usize)]) -> Option<Work> {
        let mut unknown = sight.iter().filter(|(person, workflow)| {
            *person < self.people.len() && self.cell(*person, *workflow).is_none()
        });
        if let Some(&(person, workflow)) = unknown.next() {
            return Some(Work::Cell(person, workflow));
        }
        if self.next_person < self.people.len() {
            self.next_person += 1;
            return Some(Work::Here(self.next_person - 1));
        }
        while self.next_cell < self.cells.len() {
            let at = self.next_cell;
            self.next_cell += 1;
            if self.cells[at].is_none() {
                return Some(Work::Cell(
                    at / self.workflows.len(),
                    at % self.workflows.len(),
                ));
            }
        }
        None
    }
}
