//! One entry with what was said about it later: void or not, put right, signed by a second person, late.

use std::borrow::Cow;

use super::facts::Facts;
use super::said::sentence;
use super::telling::{Telling, time};
use super::terms::meaning;
use crate::record::canonical::Value as Stored;
use crate::record::entry::{Content, Entry, Frame, Signed};
use crate::report::Item;
use crate::standing::{Amendment, Force, Ledger, Reading, View};
use crate::text::Value;

const HOUR_SECONDS: i64 = 3600;
const DAY_SECONDS: i64 = 24 * HOUR_SECONDS;

/// An entry as a view sees it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line<'a> {
    pub(super) entry: &'a Entry,
    /// What it says once it is put right…
    pub(super) content: Cow<'a, Content>,
    /// …and the same member by member.
    pub(super) facts: Facts,
    pub(super) void: bool,
    pub(super) amendments: Vec<Amendment<'a>>,
    pub(super) seconds: Vec<&'a Entry>,
    /// By how many seconds it was written down later than it happened, where the policy of that time calls that late.
    pub(super) late_seconds: Option<i64>,
}

impl<'a> Line<'a> {
    pub(super) fn of(entry: &'a Entry, ledger: &'a Ledger, view: View<'a>) -> Line<'a> {
        let seal = entry.seal();
        let mut facts = Facts::of(entry);
        let amendments = view.amendments(&seal);
        let counts = |one: &&Amendment<'_>| one.force == Force::Counts;
        for amendment in amendments.iter().filter(counts) {
            if let Some((Signed::Corrected(fact), _)) = amendment.entry.signed() {
                facts.put_right(&fact.member.to_string(), fact.new.as_ref());
            }
        }
        let seconds = ledger.second_signatures(&seal).into_iter();
        let seconds = seconds.filter(|second| view.sees(&second.seal()));
        Line {
            entry,
            content: view.reads(&seal).unwrap_or(Cow::Borrowed(entry.content())),
            facts,
            void: view.voids(&seal),
            amendments,
            seconds: seconds.collect(),
            late_seconds: late_seconds(entry, ledger),
        }
    }

    /// The entry in one sentence, as it reads once put right.
    pub(super) fn said(&self, telling: &Telling<'_>) -> String {
        sentence(&self.facts, &self.content, telling)
    }

    /// How late it is, and why it was made.
    pub(super) fn origin(&self, telling: &Telling<'_>) -> Vec<Item> {
        let mut marks = Vec::new();
        if let Some(seconds) = self.late_seconds {
            marks.push(Item::new(late(seconds, telling)));
        }
        marks.extend(reason(self.entry.frame(), telling));
        marks
    }

    /// What was said about it later.
    pub(super) fn later(&self, telling: &Telling<'_>) -> Vec<Item> {
        let mut marks = Vec::new();
        let seconds = self.seconds.iter();
        marks.extend(seconds.map(|second| Item::new(second_signature(second, telling))));
        marks.extend(self.amended(telling));
        marks
    }

    /// How it was put right or made void, or would be once a second person has signed.
    pub(super) fn amended(&self, telling: &Telling<'_>) -> Vec<Item> {
        let amendments = self.amendments.iter();
        amendments
            .map(|one| Item::new(amendment(one, telling)))
            .collect()
    }
}

/// Why an entry was made, where somebody says so.
pub(super) fn reason(frame: &Frame, telling: &Telling<'_>) -> Option<Item> {
    let reason = frame.reason.as_ref()?;
    let reason = [("reason", reason.to_string().into())];
    Some(Item::new(telling.say("record-reason", &reason)))
}

fn late_seconds(entry: &Entry, ledger: &Ledger) -> Option<i64> {
    let frame = entry.frame();
    let recorded = frame.recorded.instant();
    let policy = View::new(ledger, recorded, Reading::AsNowKnown).policy();
    let late = recorded.since_epoch() - frame.happened.instant().since_epoch();
    (late > i64::from(policy.late_hours) * HOUR_SECONDS).then_some(late)
}

fn late(seconds: i64, telling: &Telling<'_>) -> String {
    if seconds >= DAY_SECONDS {
        let days = [("days", (seconds / DAY_SECONDS).into())];
        telling.say("record-late-days", &days)
    } else {
        let hours = [("hours", (seconds / HOUR_SECONDS).into())];
        telling.say("record-late-hours", &hours)
    }
}

/// Who made an entry, when, and which it is.
fn origin(entry: &Entry, telling: &Telling<'_>) -> [(&'static str, Value); 3] {
    let signed = entry.signed();
    let by = signed.map_or_else(String::new, |(_, signing)| telling.person(signing.by));
    [
        ("by", by.into()),
        ("at", time(entry.frame().happened).into()),
        ("entry", telling.entry(&entry.seal()).into()),
    ]
}

fn second_signature(entry: &Entry, telling: &Telling<'_>) -> String {
    let signed = entry.signed();
    let meaning = signed.map_or_else(String::new, |(_, signing)| {
        meaning(signing.meaning, telling.words)
    });
    let mut values = origin(entry, telling).to_vec();
    values.push(("meaning", meaning.into()));
    telling.say("record-second", &values)
}

fn amendment(amendment: &Amendment<'_>, telling: &Telling<'_>) -> String {
    let entry = amendment.entry;
    let mut values = origin(entry, telling).to_vec();
    let reason = entry.frame().reason.as_ref();
    let reason = reason.map_or_else(String::new, ToString::to_string);
    values.push(("reason", reason.into()));
    let said = match entry.signed() {
        Some((Signed::Corrected(fact), _)) => {
            let member = fact.member.to_string();
            let side = |value: &Option<Stored>| telling.value_or_nothing(&member, value.as_ref());
            values.push(("member", telling.member(&member).into()));
            values.push(("old", side(&fact.old).into()));
            values.push(("new", side(&fact.new).into()));
            telling.say("record-was-corrected", &values)
        }
        _ => telling.say("record-was-voided", &values),
    };
    let id = match amendment.force {
        Force::Counts => return said,
        Force::Waits => "record-not-in-force.waits",
        Force::Fails => "record-not-in-force.fails",
    };
    telling.say(id, &[("said", said.into())])
}
