//! Where people stand, for machines: the file of a person, the table, what is about to be signed.

use super::entry::{EntryJson, EntryRefJson, SigningJson, line, named, signing};
use super::standing::{AsOfJson, EditionJson, ScopeJson, StandingJson, standing};
use super::{FORMAT, facts};
use crate::report::record::facts::Facts;
use crate::report::record::matrix::Matrix;
use crate::report::record::preview::Preview;
use crate::report::record::technician::Technician;
use crate::report::record::telling::stamped;
use crate::report::record::workflow::WorkflowFile;
use crate::standing::Ledger;
use crate::units::PersonCode;

json! {
    /// The file of a person.
    TechnicianJson {
        /// `drybench-technician`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// The instant and the reading.
        as_of: AsOfJson,
        /// The person's code.
        person: String,
        /// Whether the person was here.
        here: bool,
        /// Whether the policy says that nobody can assess independently.
        no_independent_assessor: bool,
        /// The standing in each scope.
        standings: Vec<StandingJson>,
        /// What had happened, in order.
        history: Vec<EntryJson>,
    }
    /// Who stands where.
    MatrixJson {
        /// `drybench-matrix`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// The instant and the reading.
        as_of: AsOfJson,
        /// Whether the policy says that nobody can assess independently.
        no_independent_assessor: bool,
        /// A row for each person.
        rows: Vec<RowJson>,
        /// How many people stand where, for each workflow.
        counts: Vec<InWorkflowJson>,
    }
    /// A person's row.
    RowJson {
        /// The person's code.
        person: String,
        /// Whether the person was here.
        here: bool,
        /// A cell for each workflow.
        cells: Vec<CellJson>,
    }
    /// Where a person stands in a workflow.
    CellJson {
        /// The workflow.
        workflow: String,
        /// The words of the standings that differ, the strictest last.
        words: Vec<&'static str>,
        /// The standing in each scope.
        standings: Vec<StandingJson>,
    }
    /// How many people stand where in a workflow.
    InWorkflowJson {
        /// The workflow.
        workflow: String,
        /// By word. A person with several words counts under each.
        people: Vec<WordCountJson>,
        /// How many may work alone in some scope.
        may_work_alone: usize,
    }
    /// How many people have a word.
    WordCountJson {
        /// The word of a standing.
        standing: &'static str,
        /// How many people.
        count: usize,
    }
    /// The file of a workflow.
    WorkflowJson {
        /// `drybench-workflow`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// The instant and the reading.
        as_of: AsOfJson,
        /// The workflow.
        workflow: String,
        /// Whether the policy says that nobody can assess independently.
        no_independent_assessor: bool,
        /// How many people were here.
        here: usize,
        /// The codes of those of them who may work alone in some scope.
        may_work_alone: Vec<String>,
        /// The codes of those of these who may assess.
        may_assess: Vec<String>,
        /// Adopted editions, the newest last.
        editions: Vec<AdoptedJson>,
        /// Where people stand.
        standings: Vec<StandsJson>,
        /// Entries about it, the newest first.
        entries: Vec<EntryRefJson>,
    }
    /// An adopted edition.
    AdoptedJson {
        /// The edition.
        edition: EditionJson,
        /// The entry.
        entry: EntryRefJson,
        /// The codes of those who signed: who adopted it, then who approved.
        by: Vec<String>,
        /// From when it holds; none where it does not count yet.
        from: Option<String>,
        /// Whether it is in force.
        in_force: bool,
    }
    /// Where somebody stands in one scope of a workflow.
    StandsJson {
        /// The person's code.
        person: String,
        /// Whether the person was here.
        here: bool,
        /// Whether the person may work alone now, and is due, or will be or have lapsed in 60 days.
        due_soon: bool,
        /// The standing.
        standing: StandingJson,
    }
    /// What is about to be signed.
    PreviewJson {
        /// `drybench-preview`.
        kind: &'static str,
        /// The number of the format.
        format: u16,
        /// The instant of recording, and the reading.
        as_of: AsOfJson,
        /// Whether the policy says that nobody can assess independently.
        no_independent_assessor: bool,
        /// The word of the kind of entry.
        entry: &'static str,
        /// When it happened.
        happened: String,
        /// Why it is made.
        reason: Option<String>,
        /// The facts.
        fact: serde_json::Value,
        /// Who signs, and what that means.
        signing: SigningJson,
        /// The code of whom it is about, and the standing now, where it is about a scope.
        before: Option<(String, StandingJson)>,
        /// The scope, where it is about one.
        scope: Option<ScopeJson>,
    }
}

impl Technician<'_> {
    /// The file for machines.
    #[must_use]
    pub fn json(&self, ledger: &Ledger) -> TechnicianJson {
        let scopes = self.scopes.iter();
        TechnicianJson {
            kind: "drybench-technician",
            format: FORMAT,
            as_of: self.asked.into(),
            person: self.person.to_string(),
            here: self.here,
            no_independent_assessor: self.alone,
            standings: scopes.map(|one| standing(one, ledger)).collect(),
            history: self.history.iter().map(|one| line(one, ledger)).collect(),
        }
    }
}

impl Matrix {
    /// The table for machines.
    #[must_use]
    pub fn json(&self, ledger: &Ledger) -> MatrixJson {
        let rows = self.rows.iter().map(|row| RowJson {
            person: row.person.to_string(),
            here: row.here,
            cells: row
                .cells
                .iter()
                .map(|cell| CellJson {
                    workflow: cell.workflow.to_string(),
                    words: cell.words(),
                    standings: cell
                        .scopes
                        .iter()
                        .map(|one| standing(one, ledger))
                        .collect(),
                })
                .collect(),
        });
        let counts = self.workflows.iter().enumerate().map(|(column, workflow)| {
            let (people, may_work_alone) = self.counts(column);
            let people = people.into_iter();
            InWorkflowJson {
                workflow: workflow.to_string(),
                people: people
                    .map(|(standing, count)| WordCountJson { standing, count })
                    .collect(),
                may_work_alone,
            }
        });
        MatrixJson {
            kind: "drybench-matrix",
            format: FORMAT,
            as_of: self.asked.into(),
            no_independent_assessor: self.alone,
            rows: rows.collect(),
            counts: counts.collect(),
        }
    }
}

impl WorkflowFile<'_> {
    /// The file for machines.
    #[must_use]
    pub fn json(&self, ledger: &Ledger) -> WorkflowJson {
        let codes = |people: &[PersonCode]| people.iter().map(ToString::to_string).collect();
        let editions = self.editions.iter().map(|one| AdoptedJson {
            edition: (&one.edition).into(),
            entry: named(&one.line.entry.seal(), ledger),
            by: codes(&WorkflowFile::signers(one)),
            from: one
                .start
                .and_then(|start| stamped(start, one.line.entry.frame().happened.offset()))
                .map(|start| start.to_string()),
            in_force: self.in_force.as_ref() == Some(&one.edition),
        });
        let standings = self.standings.iter().map(|one| StandsJson {
            person: one.person.to_string(),
            here: one.here,
            due_soon: one.soon.is_some(),
            standing: standing(&one.in_scope, ledger),
        });
        WorkflowJson {
            kind: "drybench-workflow",
            format: FORMAT,
            as_of: self.asked.into(),
            workflow: self.workflow.to_string(),
            no_independent_assessor: self.alone,
            here: self.here,
            may_work_alone: codes(&self.may_work_alone),
            may_assess: codes(&self.may_assess),
            editions: editions.collect(),
            standings: standings.collect(),
            entries: self.entries.iter().map(|one| named(one, ledger)).collect(),
        }
    }
}

impl Preview<'_> {
    /// What is about to be signed, for machines.
    #[must_use]
    pub fn json(&self, ledger: &Ledger) -> PreviewJson {
        let of = self.of;
        let before = self.before.as_ref();
        PreviewJson {
            kind: "drybench-preview",
            format: FORMAT,
            as_of: self.asked.into(),
            no_independent_assessor: self.alone,
            entry: of.fact.word(),
            happened: of.frame.happened.to_string(),
            reason: of.frame.reason.as_ref().map(ToString::to_string),
            fact: facts(&Facts::to_sign(of.frame, of.fact, of.signing).0),
            signing: signing(of.signing, ledger),
            before: before.map(|(person, one)| (person.to_string(), standing(one, ledger))),
            scope: of.fact.kind().subject().scope.map(Into::into),
        }
    }
}
