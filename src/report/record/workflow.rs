//! The file of a workflow: adopted editions, what a sign-off asks for, where everybody stands, who covers it, who has to be assessed again soon.

use super::entries::entry_row;
use super::facts::Facts;
use super::glance::told;
use super::lines::Line;
use super::scopes::{InScope, in_scope};
use super::standings::causes;
use super::telling::{AsOf, Telling, time};
use super::terms;
use crate::record::canonical::Value as Stored;
use crate::record::entry::{Content, Entry, RevisionAdopted, Signed};
use crate::record::scope::{Authority, Edition, Id, Meaning};
use crate::record::seal::Seal;
use crate::report::{Block, Item};
use crate::standing::{Ledger, Standing, View};
use crate::units::{Instant, PersonCode};

/// So many days ahead are looked at for those who have to be assessed again. Our default.
const AHEAD_DAYS: i64 = 60;

/// An edition that somebody signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Adopted<'a> {
    pub(super) line: Line<'a>,
    pub(super) edition: Edition,
    /// From when it holds; none where it does not count yet.
    pub(super) start: Option<Instant>,
}

/// Where somebody stands in one scope of the workflow.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Stands {
    pub(super) person: PersonCode,
    pub(super) here: bool,
    pub(super) in_scope: InScope,
    /// Where the person stands at the end of the days that are looked ahead, who may work alone now and is due by then or has lapsed.
    pub(super) soon: Option<Standing>,
}

/// What the file of a workflow tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkflowFile<'a> {
    pub(super) workflow: Id,
    pub(super) asked: AsOf,
    pub(super) alone: bool,
    /// The newest last.
    pub(super) editions: Vec<Adopted<'a>>,
    pub(super) in_force: Option<Edition>,
    pub(super) standings: Vec<Stands>,
    /// Who may work alone in some scope, of those who are here.
    pub(super) may_work_alone: Vec<PersonCode>,
    /// Who may work alone and has the right to assess.
    pub(super) may_assess: Vec<PersonCode>,
    /// How many people were here.
    pub(super) here: usize,
    /// The newest first.
    pub(super) entries: Vec<Seal>,
}

/// Gathers the file of a workflow as of an instant.
#[must_use]
pub fn workflow<'a>(ledger: &'a Ledger, workflow: &Id, asked: AsOf) -> WorkflowFile<'a> {
    let view = asked.view(ledger);
    let counts = |entry: &&Entry| {
        entry.frame().happened.instant() <= asked.at.instant() && view.sees(&entry.seal())
    };
    let about = ledger.entries().iter();
    let about = about.filter(|entry| entry.kind().subject().workflow == Some(workflow));
    let about: Vec<&Entry> = about.filter(counts).collect();
    let adopted = |entry: &&'a Entry| match view.reads(&entry.seal())?.as_ref() {
        Content::Signed {
            fact: Signed::RevisionAdopted(RevisionAdopted { edition, .. }),
            ..
        } => Some(Adopted {
            line: Line::of(entry, ledger, view),
            edition: edition.clone(),
            start: view.start_of(workflow, &entry.seal()),
        }),
        _ => None,
    };
    let later = view.of(asked.at.instant().plus_days(AHEAD_DAYS));
    let mut standings = Vec::new();
    let (mut may_work_alone, mut may_assess, mut here) = (Vec::new(), Vec::new(), 0);
    for person in ledger.people() {
        let is_here = view.is_here(person);
        here += usize::from(is_here);
        let mut covers = false;
        for scope in view.scopes(person, Some(workflow)) {
            let in_scope = in_scope(view, person, scope);
            let in_force = in_scope.standing.as_ref().is_ok_and(Standing::is_in_force);
            covers |= in_force;
            let ends = || {
                let then = later.standing(person, &in_scope.scope).ok();
                then.filter(|then| matches!(then, Standing::Due(..) | Standing::Lapsed(..)))
            };
            standings.push(Stands {
                person,
                here: is_here,
                soon: in_force.then(ends).flatten(),
                in_scope,
            });
        }
        if covers && is_here {
            may_work_alone.push(person);
            if has_right(ledger, view, person, workflow, Authority::Assess) {
                may_assess.push(person);
            }
        }
    }
    let mut entries: Vec<Seal> = about.iter().map(|entry| entry.seal()).collect();
    entries.reverse();
    WorkflowFile {
        workflow: workflow.clone(),
        asked,
        alone: view.policy().is_alone(),
        editions: about.iter().filter_map(adopted).collect(),
        in_force: view.edition(workflow),
        standings,
        may_work_alone,
        may_assess,
        here,
        entries,
    }
}

/// Why somebody has to be assessed again soon: for what is the matter now, else for what will be.
fn why_soon(one: &Stands, telling: &Telling<'_>) -> Vec<Item> {
    let now = one.in_scope.standing.iter();
    let now: Vec<String> = now.flat_map(|now| causes(now, telling)).collect();
    if !now.is_empty() {
        return now.into_iter().map(Item::new).collect();
    }
    let then = one.soon.iter().flat_map(|then| causes(then, telling));
    let by_then = |cause: String| telling.say("files-workflow-by-then", &[("cause", cause.into())]);
    then.map(by_then).map(Item::new).collect()
}

/// Whether a person had a right for a workflow: given, not taken back.
fn has_right(
    ledger: &Ledger,
    view: View<'_>,
    person: PersonCode,
    workflow: &Id,
    wanted: Authority,
) -> bool {
    let mut open: Vec<Seal> = Vec::new();
    for entry in ledger
        .about(person)
        .filter(|entry| view.has_happened(entry))
    {
        match entry.signed().map(|(fact, _)| fact) {
            Some(Signed::Granted(granted)) => {
                let reaches = granted.workflow.as_ref().is_none_or(|one| one == workflow);
                if reaches && granted.authority == wanted {
                    open.push(entry.seal());
                }
            }
            Some(Signed::Revoked(revoked)) => open.retain(|grant| *grant != revoked.grant),
            Some(Signed::Left(_)) => open.clear(),
            _ => {}
        }
    }
    !open.is_empty()
}

impl WorkflowFile<'_> {
    /// The entries about the workflow and its people in it, the newest first.
    #[must_use]
    pub fn entries(&self) -> &[Seal] {
        &self.entries
    }

    /// The file for people, without the entries.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        let workflow = [("workflow", self.workflow.to_string().into())];
        let mut blocks = vec![
            Block::heading(1, telling.say("files-workflow-title", &workflow)),
            telling.as_of(self.asked),
        ];
        blocks.extend(telling.notice(self.alone));
        self.cover(telling, &mut blocks);
        self.soon(telling, &mut blocks);
        self.everybody(telling, &mut blocks);
        self.adopted(telling, &mut blocks);
        self.asks(telling, &mut blocks);
        blocks
    }

    /// The entries on one line each.
    #[must_use]
    pub fn rows(&self, telling: &Telling<'_>) -> Block {
        let entries = self.entries.iter();
        let entries = entries.filter_map(|seal| telling.ledger.get(seal));
        let rows = entries.map(|entry| Item::new(entry_row(entry, telling)));
        Block::Items(rows.collect())
    }

    fn cover(&self, telling: &Telling<'_>, blocks: &mut Vec<Block>) {
        blocks.push(telling.heading(2, "files-workflow-cover"));
        let names = |people: &[PersonCode]| -> Vec<Item> {
            let people = people.iter();
            people.map(|one| Item::new(telling.person(*one))).collect()
        };
        let values =
            |people: &[PersonCode]| [("count", people.len().into()), ("here", self.here.into())];
        let alone = telling.say("files-workflow-alone", &values(&self.may_work_alone));
        let assess = telling.say("files-workflow-assess", &values(&self.may_assess));
        blocks.push(Block::Items(vec![
            Item::new(alone).with(names(&self.may_work_alone)),
            Item::new(assess).with(names(&self.may_assess)),
        ]));
    }

    fn soon(&self, telling: &Telling<'_>, blocks: &mut Vec<Block>) {
        let days = [("days", AHEAD_DAYS.into())];
        let heading = telling.say("files-workflow-soon", &days);
        blocks.push(Block::heading(2, heading));
        let soon: Vec<&Stands> = self
            .standings
            .iter()
            .filter(|one| one.soon.is_some())
            .collect();
        blocks.push(if soon.is_empty() {
            Block::Paragraph(telling.say("files-workflow-nobody-soon", &[]))
        } else {
            self.people(&soon, why_soon, telling)
        });
    }

    fn everybody(&self, telling: &Telling<'_>, blocks: &mut Vec<Block>) {
        blocks.push(telling.heading(2, "files-workflow-everybody"));
        let all: Vec<&Stands> = self.standings.iter().filter(|one| one.here).collect();
        blocks.push(if all.is_empty() {
            Block::Paragraph(telling.say("files-workflow-nobody", &[]))
        } else {
            self.people(&all, |_, _| Vec::new(), telling)
        });
        let left: Vec<&Stands> = self.standings.iter().filter(|one| !one.here).collect();
        if !left.is_empty() {
            blocks.push(telling.heading(2, "files-workflow-left"));
            blocks.push(self.people(&left, |_, _| Vec::new(), telling));
        }
    }

    /// People by name, with where they stand.
    /// These people with where they stand, and what there is to say under each.
    fn people(
        &self,
        all: &[&Stands],
        under: fn(&Stands, &Telling<'_>) -> Vec<Item>,
        telling: &Telling<'_>,
    ) -> Block {
        let mut all = all.to_vec();
        all.sort_by_key(|one| (telling.name(one.person), one.person));
        let items = all.iter().map(|one| {
            let scope = &one.in_scope.scope;
            let values = [
                ("person", telling.person(one.person).into()),
                ("profile", scope.profile.to_string().into()),
                ("wash", scope.wash.to_string().into()),
                ("cure", scope.cure.to_string().into()),
                ("told", told(&one.in_scope, telling).into()),
            ];
            Item::new(telling.say("files-workflow-person", &values)).with(under(one, telling))
        });
        Block::Items(items.collect())
    }

    fn adopted(&self, telling: &Telling<'_>, blocks: &mut Vec<Block>) {
        blocks.push(telling.heading(2, "files-workflow-editions"));
        let asking = self.asking().map(Entry::seal);
        let items = self.editions.iter().rev().map(|one| {
            let fact = one.line.entry.signed();
            let (effective, impact, by) = match fact {
                Some((Signed::RevisionAdopted(fact), signing)) => (
                    time(fact.effective),
                    terms::impact(fact.impact, telling.words),
                    telling.person(signing.by),
                ),
                _ => (String::new(), String::new(), String::new()),
            };
            let values = [
                ("edition", telling.edition(&one.edition).into()),
                ("effective", effective.into()),
                ("impact", impact.into()),
                ("by", by.into()),
                ("entry", telling.entry(&one.line.entry.seal()).into()),
            ];
            let mut under = one.line.later(telling);
            under.push(Item::new(match one.start {
                None => telling.say("files-workflow-not-yet", &[]),
                Some(start) => {
                    let started = start <= self.asked.at.instant();
                    let offset = one.line.entry.frame().happened.offset();
                    let start = [("start", telling.at(start, offset).into())];
                    let in_force = self.in_force.as_ref() == Some(&one.edition);
                    if asking == Some(one.line.entry.seal()) {
                        telling.say("files-workflow-in-force", &start)
                    } else if in_force && started {
                        telling.say("files-workflow-again", &start)
                    } else if started {
                        telling.say("files-workflow-over", &start)
                    } else {
                        telling.say("files-workflow-ahead", &start)
                    }
                }
            }));
            Item::new(telling.say("files-workflow-edition", &values)).with(under)
        });
        blocks.push(Block::Items(items.collect()));
        if self.editions.is_empty() {
            blocks.pop();
            blocks.push(Block::Paragraph(
                telling.say("files-workflow-no-edition", &[]),
            ));
        }
    }

    /// The entry that says what a sign-off asks for now: of the edition in force, what was signed last of what holds.
    #[must_use]
    pub fn asking(&self) -> Option<&Entry> {
        self.asking_line().map(|one| one.line.entry)
    }

    fn asking_line(&self) -> Option<&Adopted<'_>> {
        let mut editions = self.editions.iter();
        editions.rfind(|one| {
            let holds = one
                .start
                .is_some_and(|start| start <= self.asked.at.instant());
            holds && Some(&one.edition) == self.in_force.as_ref()
        })
    }

    fn asks(&self, telling: &Telling<'_>, blocks: &mut Vec<Block>) {
        let Some(current) = self.asking_line() else {
            return;
        };
        let facts: &Facts = &current.line.facts;
        if let Some(Stored::Map(profile)) = facts.0.get("profile") {
            blocks.push(telling.heading(2, "files-workflow-asks"));
            blocks.push(Block::Items(telling.items(profile)));
        }
    }

    /// Who signed an edition first, and who second.
    pub(super) fn signers(one: &Adopted<'_>) -> Vec<PersonCode> {
        let seconds = one.line.seconds.iter();
        let approved = seconds
            .filter_map(|second| second.signed())
            .filter(|(_, signing)| signing.meaning == Meaning::Approved);
        let first = one.line.entry.signed().map(|(_, signing)| signing.by);
        first
            .into_iter()
            .chain(approved.map(|(_, signing)| signing.by))
            .collect()
    }
}
