//! The board of the day: what there is to do for one person, as the record stands.
//!
//! Gathered person by person, so that a front end can show what it has while the rest follows.

use super::next_step::next_step;
use super::refusals::people;
use super::said::{put_right_later, said};
use super::scopes::{InScope, in_scope};
use super::standings::{due_cause, lapse_cause, standing_told};
use super::telling::{AsOf, Telling, as_put_right, stamped, time};
use super::terms;
use crate::record::entry::{Content, Entry, Signed};
use crate::record::scope::{Authority, Id};
use crate::record::seal::Seal;
use crate::report::Block;
use crate::report::Item;
use crate::standing::{
    Ledger, LookedAfter, SetBack, SetUpStep, Standing, ToSetUp, Validity, could_second,
};
use crate::text::{Either, Value};
use crate::units::PersonCode;

/// Authorities whose holders look after others: they see where everybody stands.
const LOOKS_AFTER: [Authority; 7] = [
    Authority::Own,
    Authority::Administer,
    Authority::Quality,
    Authority::Publish,
    Authority::Approve,
    Authority::Assess,
    Authority::Train,
];

/// One thing on the board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Matter {
    /// An entry waits for a second signature that this person may give.
    Second(Seal),
    /// An entry waits for a second signature, and somebody else has to give it.
    SecondOfOthers(Seal),
    /// What a laboratory that has just opened its record still lacks.
    SetUp(ToSetUp),
    /// A run in which this person was watched and of which they have not taken note.
    Acknowledge(Seal),
    /// Where this person stands in a scope.
    Own(InScope),
    /// Somebody else for whom something is to be done in a scope.
    Other(PersonCode, InScope),
    /// When the record was last gone through and last copied.
    LookedAfter(LookedAfter),
}

/// What a matter is about, for whoever opens it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// An entry.
    Entry(Seal),
    /// A person in a workflow.
    Person(PersonCode, Id),
    /// The record as a whole.
    Record,
    /// A step of setting up.
    SetUp(SetUpStep),
}

/// Whether a person looks after others, and so is shown where they stand.
#[must_use]
pub fn looks_after_others(ledger: &Ledger, person: PersonCode) -> bool {
    let mut grants = ledger.staff().grants_of(person);
    grants.any(|(_, authority, _)| LOOKS_AFTER.contains(&authority))
}

/// What waits for this person, or stands still, whoever it is about.
#[must_use]
pub fn waiting_for(ledger: &Ledger, asked: AsOf, person: PersonCode) -> Vec<Matter> {
    let view = asked.view(ledger);
    let unread = view.unacknowledged(person).into_iter();
    let mut matters: Vec<Matter> = unread
        .map(|entry| Matter::Acknowledge(entry.seal()))
        .collect();
    let waiting = view.waiting();
    let (own, others): (Vec<&Entry>, Vec<&Entry>) = waiting
        .into_iter()
        .partition(|entry| view.may_second(person, entry));
    matters.extend(own.iter().map(|entry| Matter::Second(entry.seal())));
    let mut grants = ledger.staff().grants_of(person);
    let sets_up = grants.any(|(_, held, _)| matches!(held, Authority::Own | Authority::Administer));
    drop(grants);
    if sets_up {
        matters.extend(view.set_up_lacks().into_iter().map(Matter::SetUp));
    }
    if looks_after_others(ledger, person) {
        let others = others.iter();
        matters.extend(others.map(|entry| Matter::SecondOfOthers(entry.seal())));
        matters.push(Matter::LookedAfter(view.looked_after()));
    }
    matters
}

/// Where a person stands, scope by scope: all of it for the person themself, and for others what asks for somebody.
#[must_use]
pub fn standing_of(
    ledger: &Ledger,
    asked: AsOf,
    who: PersonCode,
    viewer: PersonCode,
) -> Vec<Matter> {
    let view = asked.view(ledger);
    if !view.is_here(who) {
        return Vec::new();
    }
    let scopes = view.scopes(who, None).into_iter();
    let scopes = scopes.map(|scope| in_scope(view, who, scope));
    if who == viewer {
        return scopes.map(Matter::Own).collect();
    }
    let asks = scopes.filter(|one| {
        one.set_back.is_some()
            || one.lacks_only_evaluation()
            || one.could_be_first && one.first_missing().is_none()
            || matches!(
                one.standing,
                Err(_)
                    | Ok(Standing::ReadyForSignOff
                        | Standing::Due(..)
                        | Standing::Lapsed(..)
                        | Standing::Suspended { .. })
            )
    });
    asks.map(|one| Matter::Other(who, one)).collect()
}

/// The whole board at once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Board {
    pub(super) asked: AsOf,
    pub(super) viewer: PersonCode,
    pub(super) alone: bool,
    pub(super) matters: Vec<Matter>,
}

/// Gathers the board of a person.
#[must_use]
pub fn board(ledger: &Ledger, asked: AsOf, viewer: PersonCode) -> Board {
    let mut matters = waiting_for(ledger, asked, viewer);
    let others = looks_after_others(ledger, viewer);
    let people = ledger.staff().people();
    for who in people.filter(|one| others || *one == viewer) {
        matters.extend(standing_of(ledger, asked, who, viewer));
    }
    matters.sort_by_key(Matter::rank);
    Board {
        asked,
        viewer,
        alone: asked.view(ledger).policy().is_alone(),
        matters,
    }
}

impl Board {
    /// The board for people.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        let person = [("person", telling.person(self.viewer).into())];
        let mut blocks = vec![
            Block::heading(1, telling.say("board-title", &person)),
            telling.as_of(self.asked),
        ];
        blocks.extend(telling.notice(self.alone));
        if self.matters.is_empty() {
            blocks.push(Block::Paragraph(telling.say("board-nothing", &[])));
        }
        let same = |one: &Matter, next: &Matter| one.heading() == next.heading();
        for part in self.matters.chunk_by(same) {
            blocks.extend(part.first().map(|one| telling.heading(2, one.heading())));
            let items = part.iter().map(|one| Item::new(one.told(telling)));
            blocks.push(Block::Items(items.collect()));
        }
        blocks
    }
}

impl Matter {
    /// What it is about.
    #[must_use]
    pub fn about(&self, viewer: PersonCode) -> About {
        match self {
            Matter::Second(seal) | Matter::SecondOfOthers(seal) | Matter::Acknowledge(seal) => {
                About::Entry(*seal)
            }
            Matter::Own(scope) => About::Person(viewer, scope.scope.workflow.clone()),
            Matter::Other(who, scope) => About::Person(*who, scope.scope.workflow.clone()),
            Matter::LookedAfter(_) => About::Record,
            Matter::SetUp(lack) => About::SetUp(lack.step),
        }
    }

    /// In which order matters stand: what waits for this person first.
    #[must_use]
    pub fn rank(&self) -> u8 {
        match self {
            Matter::Second(_) => 0,
            Matter::Acknowledge(_) => 1,
            Matter::SetUp(_) => 2,
            Matter::Other(_, scope) => match scope.standing {
                Err(_) => 3,
                Ok(Standing::ReadyForSignOff) => 4,
                Ok(Standing::Suspended { .. }) => 5,
                // Nothing is missing but what somebody else has to sign.
                _ if scope.lacks_only_evaluation() => 4,
                Ok(Standing::InTraining | Standing::UnderSupervision { .. })
                    if scope.could_be_first && scope.first_missing().is_none() =>
                {
                    4
                }
                // Others are in training only where they had got further.
                Ok(Standing::Lapsed(..) | Standing::InTraining) => 6,
                _ => 7,
            },
            Matter::Own(_) => 8,
            Matter::SecondOfOthers(_) => 9,
            Matter::LookedAfter(_) => 10,
        }
    }

    /// The message above all matters of its sort.
    #[must_use]
    pub fn heading(&self) -> &'static str {
        match self {
            Matter::Second(_) | Matter::Acknowledge(_) => "board-waits-for-you",
            Matter::Other(..) => "board-others",
            Matter::Own(_) => "board-own",
            Matter::SecondOfOthers(_) => "board-waits-for-others",
            Matter::LookedAfter(_) => "board-record",
            Matter::SetUp(_) => "board-set-up",
        }
    }

    /// The matter in a sentence or two.
    #[must_use]
    pub fn told(&self, telling: &Telling<'_>) -> String {
        let of_entry = |id: &str, seal: &Seal| {
            let entry = telling.ledger.get(seal);
            let said = entry.map_or_else(String::new, |entry| said(entry, telling));
            let at = entry.map_or_else(String::new, |entry| time(entry.frame().happened));
            let who = entry.map_or_else(Vec::new, |entry| could_second(telling.ledger, entry));
            let who = if who.is_empty() {
                telling.say("board-second-by-nobody", &[])
            } else {
                let names = Either(people(&who, telling));
                telling.say("deeds-could-sign", &[("people", names.into())])
            };
            let values = [
                ("said", said.into()),
                ("at", at.into()),
                ("who", who.into()),
            ];
            telling.say(id, &values)
        };
        match self {
            Matter::Second(seal) => of_entry("board-second", seal),
            Matter::SecondOfOthers(seal) => of_entry("board-second-of-others", seal),
            Matter::Acknowledge(seal) => watched(seal, telling),
            Matter::SetUp(lack) => to_set_up(lack, telling),
            Matter::Own(scope) => in_a_scope(scope, telling),
            Matter::Other(who, scope) => {
                let values = [
                    ("person", telling.name(*who).into()),
                    ("told", in_a_scope(scope, telling).into()),
                ];
                telling.say("board-other", &values)
            }
            Matter::LookedAfter(last) => {
                let when = |stamp: Option<crate::units::Stamp>| -> Value {
                    let never = || telling.say("board-never", &[]);
                    stamp.map_or_else(never, time).into()
                };
                let values = [
                    ("reviewed", when(last.reviewed)),
                    ("copied", when(last.copied)),
                ];
                telling.say("board-looked-after", &values)
            }
        }
    }
}

/// Where somebody stands in a scope, why, and what is missing first: shorter than in a file.
fn in_a_scope(of: &InScope, telling: &Telling<'_>) -> String {
    let day = |validity: &Validity| {
        let until = stamped(validity.until, validity.offset);
        let until = until.map_or_else(String::new, |stamp| stamp.day().to_string());
        ("until", Value::from(until))
    };
    let told = match &of.standing {
        Ok(Standing::SignedOff(validity)) => telling.say("board-signed-off", &[day(validity)]),
        Ok(Standing::Due(validity, causes)) => {
            let why = causes.iter().map(|cause| due_cause(cause, telling));
            let why: Vec<String> = why.collect();
            telling.say("board-due", &[day(validity), ("why", why.join(" ").into())])
        }
        Ok(Standing::Lapsed(validity, cause)) => {
            let why = lapse_cause(*cause, telling.words);
            telling.say("board-lapsed", &[day(validity), ("why", why.into())])
        }
        Ok(Standing::ReadyForSignOff) => telling.say("board-ready", &[]),
        Ok(Standing::InTraining) if of.set_back.is_some() => set_back(of, telling),
        Ok(standing @ (Standing::InTraining | Standing::UnderSupervision { .. })) => {
            let told = super::standing(standing.word(), telling.words);
            let values = [
                ("told", told.into()),
                ("step", next_step(of, telling).into()),
            ];
            telling.say("board-next", &values)
        }
        other => standing_told(other, of.ground.as_ref(), None, telling),
    };
    let values = [
        ("workflow", of.scope.workflow.to_string().into()),
        ("told", told.into()),
    ];
    telling.say("board-scope", &values)
}

/// That somebody is in training again, why, and what leads on.
fn set_back(of: &InScope, telling: &Telling<'_>) -> String {
    match of.set_back {
        Some(SetBack::Failed) => telling.say("board-set-back.failed", &[]),
        Some(SetBack::Unsupervised) => telling.say("board-set-back.unsupervised", &[]),
        Some(SetBack::Missing) | None => {
            let step = [("step", next_step(of, telling).into())];
            telling.say("board-set-back.missing", &step)
        }
    }
}

/// A step of setting up: which rights nobody holds, and how many first assessors the adopted workflows ask for.
fn to_set_up(lack: &ToSetUp, telling: &Telling<'_>) -> String {
    let rights = lack.rights.iter();
    let rights = rights.map(|one| terms::authority(*one, telling.words));
    let rights: Vec<String> = rights.collect();
    let values = [
        ("rights", rights.join("; ").into()),
        ("assessors", i64::from(lack.assessors).into()),
    ];
    let id = match lack.step {
        SetUpStep::People => "board-step.people",
        SetUpStep::Keys => "board-step.keys",
        SetUpStep::Rights => "board-step.rights",
        SetUpStep::Workflow => "board-step.workflow",
        SetUpStep::Assigned => "board-step.assigned",
        SetUpStep::FirstAssessor => "board-step.first-assessor",
        SetUpStep::FromOutside => "board-step.from-outside",
    };
    telling.say(id, &values)
}

/// A run in which somebody was watched: by whom, when, how it was judged. Read as it was put right.
fn watched(seal: &Seal, telling: &Telling<'_>) -> String {
    let entry = telling.ledger.get(seal);
    let content = as_put_right(telling.ledger).reads(seal);
    let (
        Some(entry),
        Some(Content::Signed {
            fact: Signed::Observed(seen),
            signing,
            ..
        }),
    ) = (entry, content.as_deref())
    else {
        return telling.entry(seal);
    };
    let values = [
        ("by", telling.name(signing.by).into()),
        ("workflow", seen.scope.workflow.to_string().into()),
        ("day", entry.frame().happened.day().to_string().into()),
        ("case", seen.case.to_string().into()),
        (
            "judgement",
            terms::judgement(seen.judgement, telling.words).into(),
        ),
    ];
    put_right_later(telling.say("board-acknowledge", &values), seal, telling)
}
