//! Problems with a module file: where they are and how they are collected.
//!
//! Reading ends at the first fault of syntax, since what follows it would be guesswork;
//! faults of structure are collected and told in one go.

use super::fault::Fault;

/// A stretch of the file: where it starts, as people count, and which bytes it covers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Which file, as an index into the files that were read together; 0 is the one that names the others.
    pub file: u16,
    /// The first byte.
    pub start: usize,
    /// The byte after the last one; equal to `start` where something is missing.
    pub end: usize,
    /// The line, from 1.
    pub line: u32,
    /// The column in characters, from 1.
    pub column: u32,
}

/// A value together with the place where it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot<T> {
    /// What was written.
    pub value: T,
    /// Where.
    pub at: Place,
}

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Where it is.
    pub at: Place,
    /// What it is.
    pub what: Fault,
}

/// How many problems are told at once: more than this helps nobody.
pub const MOST_PROBLEMS: usize = 100;

/// The problems of one file, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// The first [`MOST_PROBLEMS`] problems.
    pub problems: Vec<Problem>,
    /// How many more there are.
    pub more: usize,
}

/// Collects problems while a file is read.
#[derive(Clone, Debug, Default)]
pub struct Problems {
    found: Vec<Problem>,
}

impl Place {
    /// A place at `start`, on a line and in a column counted from 1, that covers nothing yet.
    pub(super) fn point(start: usize, line: usize, column: usize) -> Place {
        // Files are far smaller than this could tell apart.
        let counted = |number: usize| u32::try_from(number.max(1)).unwrap_or(u32::MAX);
        Place {
            file: 0,
            start,
            end: start,
            line: counted(line),
            column: counted(column),
        }
    }
}

impl Problems {
    /// No problems yet.
    #[must_use]
    pub fn new() -> Problems {
        Problems::default()
    }

    /// Notes one problem.
    pub fn add(&mut self, at: Place, what: Fault) {
        self.found.push(Problem { at, what });
    }

    /// Notes one problem and stands in for the value that could not be read.
    pub fn refuse<T>(&mut self, at: Place, what: Fault) -> Option<T> {
        self.add(at, what);
        None
    }

    /// Takes over the problems of another file, which are told with that file from then on.
    pub(super) fn take_over(&mut self, other: Problems, file: u16) {
        for mut problem in other.found {
            problem.at.file = file;
            if let Fault::DuplicateKey { first, .. } = &mut problem.what {
                first.file = file;
            }
            self.found.push(problem);
        }
    }

    /// Whether nothing is wrong so far.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.found.is_empty()
    }

    /// Sorts the problems by place, drops those told twice and cuts the list.
    #[must_use]
    pub fn report(mut self) -> Report {
        self.found.sort_by_key(|problem| problem.at);
        let mut problems: Vec<Problem> = Vec::new();
        let mut more = 0;
        for problem in self.found {
            let mut same_place = problems.iter().rev().take_while(|it| it.at == problem.at);
            if same_place.any(|it| *it == problem) {
                continue;
            }
            if problems.len() < MOST_PROBLEMS {
                problems.push(problem);
            } else {
                more += 1;
            }
        }
        Report { problems, more }
    }
}

/// Shortens a text from a file, so that a complaint about a huge value stays small.
pub(super) fn excerpt(text: &str) -> String {
    const MOST_CHARS: usize = 60;
    match text.char_indices().nth(MOST_CHARS) {
        None => text.to_owned(),
        Some((cut, _)) => format!("{}…", &text[..cut]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(start: usize) -> Place {
        Place::point(start, 1, start + 1)
    }

    #[test]
    fn problems_come_in_the_order_of_the_file_and_once() {
        let mut problems = Problems::new();
        problems.add(at(7), Fault::Nothing);
        problems.add(at(2), Fault::KeyIsNoText);
        problems.add(at(7), Fault::Refused);
        problems.add(at(7), Fault::Nothing);
        let report = problems.report();
        let told: Vec<_> = report
            .problems
            .iter()
            .map(|it| (it.at.start, &it.what))
            .collect();
        assert_eq!(
            told,
            [
                (2, &Fault::KeyIsNoText),
                (7, &Fault::Nothing),
                (7, &Fault::Refused)
            ]
        );
        assert_eq!(report.more, 0);
    }

    #[test]
    fn a_flood_of_problems_is_cut_and_counted() {
        let mut problems = Problems::new();
        for start in 0..1234 {
            problems.add(at(start), Fault::Nothing);
        }
        let report = problems.report();
        assert_eq!(
            (report.problems.len(), report.more),
            (MOST_PROBLEMS, 1234 - MOST_PROBLEMS)
        );
    }

    #[test]
    fn a_huge_text_is_shown_in_part() {
        assert_eq!(excerpt("dry"), "dry");
        assert_eq!(excerpt(&"é".repeat(1000)).chars().count(), 61);
    }
}
