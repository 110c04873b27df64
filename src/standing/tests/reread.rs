//! The rules read a second time, slowly: all entries are gone through in their order for every question, with nothing indexed and nothing
//! shared with the fold but the entries. Knows one workflow with one scope, as the random laboratories do.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use crate::record::entry::{
    Amending, Basis, Content, Effect, Ending, Entry, Help, Impact, Independence, Judgement, Method,
    Needs, Noted, PolicySet, RevisionAdopted, Seen, SignOffProfile, Signed, SignedOff, Stage,
};
use crate::record::scope::{Authority, Meaning};
use crate::record::seal::Seal;
use crate::standing::Reading;
use crate::units::PersonCode;

const DAY: i64 = 86_400;

/// One entry as it reads at the time that is asked about.
#[derive(Clone)]
struct Line<'a> {
    seal: Seal,
    when: i64,
    written: i64,
    east: i64,
    by: Option<PersonCode>,
    what: Cow<'a, Content>,
}

/// All entries, in their order, and authorities by the seal of the grant.
pub(super) struct Book {
    entries: Vec<Entry>,
    grants: BTreeMap<Seal, Authority>,
}

impl Book {
    pub(super) fn new(mut entries: Vec<Entry>) -> Book {
        let mut grants = BTreeMap::new();
        for entry in &entries {
            match entry.signed() {
                Some((Signed::Granted(granted), _)) => {
                    grants.insert(entry.seal(), granted.authority)
                }
                Some((Signed::Founded(_), _)) => grants.insert(entry.seal(), Authority::Own),
                _ => None,
            };
        }
        entries.sort_by_key(|entry| {
            (
                seconds(entry),
                entry.frame().strand.to_string(),
                entry.frame().number,
            )
        });
        Book { entries, grants }
    }
}

fn seconds(entry: &Entry) -> i64 {
    entry.frame().happened.instant().since_epoch()
}

fn written(entry: &Entry) -> i64 {
    entry.frame().recorded.instant().since_epoch()
}

/// When somebody else, who may, signed this entry too.
fn seconded(book: &Book, target: &Entry, about: Option<PersonCode>, by_then: i64) -> Option<i64> {
    let mut first = None;
    for entry in &book.entries {
        let Some((Signed::Countersigned(second), signing)) = entry.signed() else {
            continue;
        };
        let publishing = matches!(target.signed(), Some((Signed::RevisionAdopted(_), _)));
        let entitled = match signing.under.and_then(|under| book.grants.get(&under)) {
            Some(Authority::Own | Authority::Approve) => true,
            Some(Authority::Publish) => publishing,
            Some(Authority::Quality) => !publishing,
            _ => false,
        };
        if second.target == target.seal()
            && signing.meaning == Meaning::Approved
            && entitled
            && Some(signing.by) != target.actor()
            && Some(signing.by) != about
            && written(entry) <= by_then
        {
            first = Some(first.map_or(seconds(entry), |first: i64| first.min(seconds(entry))));
        }
    }
    first
}

/// The entries that count at an instant, in order, put right.
fn lines(book: &Book, at: i64, by_then: i64) -> Vec<Line<'_>> {
    let holds = |amendment: &Entry, target: &Entry| {
        let about = target.kind().subject().person;
        written(amendment) <= by_then
            && match target.kind().amending() {
                Amending::Never => false,
                Amending::Free => true,
                Amending::Critical | Amending::VoidOnly => {
                    seconded(book, amendment, about, by_then).is_some()
                }
            }
    };
    let amending = |entry: &&Entry| {
        matches!(
            entry.signed(),
            Some((Signed::Voided(_) | Signed::Corrected(_), _))
        )
    };
    let amending: Vec<&Entry> = book.entries.iter().filter(amending).collect();
    let is_void = |target: &Entry| {
        amending.iter().any(|entry| {
            matches!(entry.signed(), Some((Signed::Voided(void), _)) if void.target == target.seal())
                && holds(entry, target)
        })
    };
    let mut lines = Vec::new();
    for entry in &book.entries {
        if seconds(entry) > at || written(entry) > by_then || is_void(entry) {
            continue;
        }
        let mut what = Cow::Borrowed(entry.content());
        for other in &amending {
            if let Some((Signed::Corrected(put), _)) = other.signed()
                && put.target == entry.seal()
                && !is_void(other)
                && holds(other, entry)
                && what.member(&put.member.to_string()) == put.old
                && let Ok(right) = what.with(&put.member.to_string(), put.new.clone())
            {
                what = Cow::Owned(right);
            }
        }
        let recorded = entry.frame().recorded.to_string();
        let minutes: i64 = recorded[20..22].parse::<i64>().unwrap() * 60
            + recorded[23..25].parse::<i64>().unwrap();
        lines.push(Line {
            seal: entry.seal(),
            when: seconds(entry),
            written: written(entry),
            east: if &recorded[19..20] == "-" {
                -minutes * 60
            } else {
                minutes * 60
            },
            by: entry.signed().map(|(_, signing)| signing.by),
            what,
        });
    }
    lines
}

fn signed<'a>(line: &'a Line<'_>) -> Option<&'a Signed> {
    match &*line.what {
        Content::Signed { fact, .. } => Some(fact),
        Content::Noted(_) => None,
    }
}

/// Days of the civil calendar, counted by walking through the years.
fn civil(days: i64) -> (i64, i64, i64) {
    let (mut year, mut rest) = (1970, days);
    loop {
        let length = if is_leap(year) { 366 } else { 365 };
        if rest < length {
            break;
        }
        rest -= length;
        year += 1;
    }
    let mut month = 1;
    while rest >= month_length(year, month) {
        rest -= month_length(year, month);
        month += 1;
    }
    (year, month, rest + 1)
}

fn is_leap(year: i64) -> bool {
    year % 4 == 0 && year % 100 != 0 || year % 400 == 0
}

fn month_length(year: i64, month: i64) -> i64 {
    match month {
        2 => 28 + i64::from(is_leap(year)),
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// The last second of the day so many months after the day of an instant, at a place.
fn months_later(from: i64, east: i64, months: i64) -> i64 {
    let day = (from + east).div_euclid(DAY);
    let (mut year, mut month, of_month) = civil(day);
    let mut ahead = day - of_month + 1;
    for _ in 0..months {
        ahead += month_length(year, month);
        month += 1;
        if month == 13 {
            (year, month) = (year + 1, 1);
        }
    }
    let clamped = of_month.min(month_length(year, month));
    (ahead + clamped) * DAY - 1 - east
}

fn policy(lines: &[Line<'_>]) -> PolicySet {
    let mut now = PolicySet {
        due_days: 60,
        grace_days: 0,
        late_hours: 24,
        independence: Independence::Independent,
    };
    for line in lines {
        if let Some(Signed::PolicySet(set)) = signed(line) {
            now = set.clone();
        }
    }
    now
}

struct Asked<'a> {
    book: &'a Book,
    at: i64,
    by_then: i64,
}

impl Asked<'_> {
    fn of(&self, at: i64) -> Asked<'_> {
        Asked { at, ..*self }
    }

    fn lines(&self) -> Vec<Line<'_>> {
        lines(self.book, self.at, self.by_then)
    }

    fn alone_at(&self, written: i64) -> bool {
        policy(&self.of(written).lines()).independence == Independence::NoIndependentAssessor
    }

    fn entry(&self, seal: Seal) -> &Entry {
        self.book
            .entries
            .iter()
            .find(|entry| entry.seal() == seal)
            .unwrap()
    }

    /// Adopted revisions with the instant from which each holds.
    fn revisions(&self, lines: &[Line<'_>]) -> BTreeMap<u32, (RevisionAdopted, i64)> {
        let mut all: BTreeMap<u32, (RevisionAdopted, i64)> = BTreeMap::new();
        for (revision, start) in self.signings(lines) {
            let number = revision.edition.revision;
            all.entry(number).or_insert((revision, start));
        }
        all
    }

    /// What a sign-off on a revision asked for at a time: what was signed last of what held then.
    fn asked(&self, lines: &[Line<'_>], number: u32, at: i64) -> SignOffProfile {
        let signings = self.signings(lines);
        let of: Vec<_> = signings
            .iter()
            .filter(|(one, _)| one.edition.revision == number)
            .collect();
        let at = at.max(of[0].1);
        let mut same = of.iter().filter(|(one, _)| one.edition == of[0].0.edition);
        let held = same.rfind(|(_, start)| *start <= at);
        held.unwrap_or(&of[0]).0.profile.clone()
    }

    /// Every signing of a revision by two, with the instant from which it holds.
    fn signings(&self, lines: &[Line<'_>]) -> Vec<(RevisionAdopted, i64)> {
        let mut all = Vec::new();
        for line in lines {
            let Some(Signed::RevisionAdopted(revision)) = signed(line) else {
                continue;
            };
            let second = seconded(self.book, self.entry(line.seal), None, self.by_then);
            let decided = match second {
                Some(second) => second.max(line.when),
                None if self.alone_at(line.written) => line.when,
                None => continue,
            };
            if decided <= self.at {
                let start = decided.max(revision.effective.instant().since_epoch());
                all.push((revision.clone(), start));
            }
        }
        all
    }

    fn is_in_force(&self, person: PersonCode) -> bool {
        matches!(self.by_time(person), "signed-off" | "due")
    }

    /// The standing as far as time, suspensions and ends decide it; empty where no sign-off has begun.
    fn by_time(&self, person: PersonCode) -> &'static str {
        let lines = self.lines();
        let mut ended = "";
        let mut since = 0;
        for (at, line) in lines.iter().enumerate() {
            match signed(line) {
                Some(Signed::Left(left)) if left.person == person => (ended, since) = ("left", at),
                Some(Signed::WorkflowRetired(_)) => (ended, since) = ("left", at),
                Some(Signed::Withdrawn(end)) if end.person == person => {
                    since = at;
                    ended = if ended == "left" { "left" } else { "withdrawn" };
                }
                Some(Signed::Assigned(need)) if need.person == person => ended = "",
                _ => {}
            }
        }
        if !ended.is_empty() {
            return ended;
        }
        let mut open = Vec::new();
        for line in &lines {
            if let Some(Signed::Suspended(stop)) = signed(line)
                && stop.person == person
            {
                open.push(line.seal);
            }
        }
        for line in &lines {
            if let Some(Signed::Reinstated(go)) = signed(line)
                && go.person == person
            {
                let second = seconded(self.book, self.entry(line.seal), Some(person), self.by_then);
                let alone = go.proof.is_some() && self.alone_at(line.written);
                if second.is_some_and(|second| second <= self.at) || alone {
                    open.retain(|seal| *seal != go.suspension);
                }
            }
        }
        if !open.is_empty() {
            return "suspended";
        }
        self.by_sign_off(person, &lines[since.min(lines.len())..], &lines)
    }

    fn by_sign_off(
        &self,
        person: PersonCode,
        path: &[Line<'_>],
        lines: &[Line<'_>],
    ) -> &'static str {
        let revisions = self.revisions(lines);
        let rules = policy(lines);
        let mut earlier = 0;
        let mut latest: Option<(i64, usize, &Line<'_>, &SignedOff, i64)> = None;
        for (at, line) in path.iter().enumerate() {
            let Some(Signed::SignedOff(off)) = signed(line) else {
                continue;
            };
            let Some((_, start)) = revisions.get(&off.edition.revision) else {
                continue;
            };
            if off.person != person || line.by == Some(person) && !self.alone_at(line.written) {
                continue;
            }
            let asked = self.asked(lines, off.edition.revision, line.written.max(line.when));
            let months = asked.valid_months.after(earlier);
            earlier += 1;
            let from = off
                .valid_from
                .instant()
                .since_epoch()
                .max(line.written)
                .max(*start);
            if from <= self.at && latest.as_ref().is_none_or(|(then, ..)| *then <= from) {
                latest = Some((from, at, line, off, i64::from(months)));
            }
        }
        let Some((from, at, line, off, months)) = latest else {
            return "";
        };
        let window = i64::from(rules.due_days) * DAY;
        let natural = months_later(from, line.east, months);
        let mut due = self.at > natural - window;
        let mut until = natural;
        for later in &path[at + 1..] {
            let trigger = match signed(later) {
                Some(Signed::CalledIn(call)) => call.person == person,
                Some(Signed::Observed(seen)) => seen.person == person && is_failed(seen),
                Some(Signed::Evaluated(found)) => {
                    found.person == person
                        && found.stage == Stage::Later
                        && found.effect == Effect::NotEffective
                }
                _ => false,
            };
            if trigger {
                due = true;
                until = until.min(later.when + window);
            }
        }
        until += i64::from(rules.grace_days) * DAY;
        for (number, (revision, start)) in &revisions {
            if *number > off.edition.revision && !covers(lines, person, revision) {
                due = true;
                until = until.min(start - 1);
            }
        }
        let signing = path[at].written.max(path[at].when);
        let asked = self.asked(lines, off.edition.revision, signing);
        if let Some(check) = &asked.effect_check
            && self.at > from + i64::from(check.to_days) * DAY
            && !matches!(off.basis, Basis::Outside(_))
        {
            let checked = path[at + 1..].iter().any(|line| {
                matches!(signed(line), Some(Signed::Evaluated(found))
                    if found.person == person && found.stage == Stage::Later)
                    && line.when >= from + i64::from(check.from_days) * DAY
            });
            due |= !checked;
        }
        if let Basis::Evidence(seals) = &off.basis {
            for &seal in seals {
                let sound = lines
                    .iter()
                    .find(|line| line.seal == seal)
                    .is_some_and(|line| {
                        let judged = matches!(
                            signed(line),
                            Some(Signed::Observed(_) | Signed::Evaluated(_))
                        );
                        !judged || self.of(line.when).is_in_force(line.by.unwrap())
                    });
                due |= !sound;
            }
        }
        if self.at > until {
            "lapsed"
        } else if due {
            "due"
        } else {
            "signed-off"
        }
    }

    fn word(&self, person: PersonCode) -> &'static str {
        let by_time = self.by_time(person);
        if !by_time.is_empty() {
            return by_time;
        }
        let lines = self.lines();
        let ended = |line: &Line<'_>| match signed(line) {
            Some(Signed::Left(left)) => left.person == person,
            Some(Signed::Withdrawn(end)) => end.person == person,
            Some(Signed::WorkflowRetired(_)) => true,
            _ => false,
        };
        let path: Vec<Line<'_>> = match lines.iter().rposition(ended) {
            Some(at) => lines[at + 1..].to_vec(),
            None => lines.clone(),
        };
        let assigned = |line: &Line<'_>| matches!(signed(line), Some(Signed::Assigned(need)) if need.person == person);
        if !path.iter().any(assigned) {
            return "not-assigned";
        }
        let revisions = self.revisions(&lines);
        let current = revisions
            .iter()
            .rev()
            .find(|(_, (_, start))| *start <= self.at);
        let Some((number, _)) = current else {
            return "in-training";
        };
        // Nobody was signed off on this path, or the standing would have been decided above.
        let equal = equal_to(*number, &revisions);
        let asked = self.asked(&lines, *number, self.at);
        let before = self.is_prepared(person, &path, &lines, &revisions, &equal, &asked.first);
        if !before {
            return "in-training";
        }
        if self.is_shown(person, &path, &equal, &asked.first) {
            return "ready-for-sign-off";
        }
        let supervised = lines.iter().any(|line| {
            matches!(signed(line), Some(Signed::SupervisedBy(named))
                if named.person == person
                    && named.from.instant().since_epoch() <= self.at
                    && self.at <= named.until.instant().since_epoch())
                && self.is_in_force(line.by.unwrap())
        });
        if supervised {
            "under-supervision"
        } else {
            "in-training"
        }
    }

    fn is_prepared(
        &self,
        person: PersonCode,
        path: &[Line<'_>],
        lines: &[Line<'_>],
        revisions: &BTreeMap<u32, (RevisionAdopted, i64)>,
        equal: &BTreeSet<u32>,
        needs: &Needs,
    ) -> bool {
        let mut read = 0;
        let (mut protected, mut to_train) = (false, false);
        let mut clean = Vec::new();
        for line in path {
            match (&*line.what, signed(line)) {
                (_, Some(Signed::Read(fact)))
                    if fact.person == person && equal.contains(&fact.edition.revision) =>
                {
                    read = read.max(fact.edition.revision);
                }
                (_, Some(Signed::ProtectionShown(fact))) if fact.person == person => {
                    protected |= self.of(line.when).is_in_force(line.by.unwrap());
                }
                (_, Some(Signed::Observed(seen))) if seen.person == person && is_failed(seen) => {
                    to_train = true;
                }
                (_, Some(Signed::Trained(fact))) if fact.person == person => to_train = false,
                (Content::Noted(Noted::Rehearsed(run)), _)
                    if run.person == person
                        && equal.contains(&run.edition.revision)
                        && run.help == Help::Unaided
                        && run.ending == Ending::Clean =>
                {
                    clean.push((line.when + line.east).div_euclid(DAY));
                }
                _ => {}
            }
        }
        let aware = revisions.iter().all(|(number, (revision, _))| {
            *number <= read
                || !equal.contains(number)
                || revision.impact != Impact::Awareness
                || covers(lines, person, revision)
        });
        let runs = clean.len() >= usize::from(needs.clean_runs);
        let days: BTreeSet<i64> = clean.into_iter().collect();
        let days = days.len() >= usize::from(needs.clean_days);
        read > 0 && aware && protected && !to_train && runs && days
    }

    fn is_shown(
        &self,
        person: PersonCode,
        path: &[Line<'_>],
        equal: &BTreeSet<u32>,
        needs: &Needs,
    ) -> bool {
        let (mut passed, mut row, mut worked) = (0, 0, false);
        let mut assessors = BTreeSet::new();
        let mut cases = BTreeSet::new();
        let mut others: BTreeMap<Method, u16> = BTreeMap::new();
        for line in path {
            let in_force = |by: PersonCode| self.of(line.when).is_in_force(by);
            match signed(line) {
                Some(Signed::Observed(seen))
                    if seen.person == person && equal.contains(&seen.edition.revision) =>
                {
                    let by = line.by.unwrap();
                    if is_failed(seen) {
                        row = if seen.method == Method::Direct {
                            0
                        } else {
                            row
                        };
                        continue;
                    }
                    let unseen = seen
                        .steps
                        .iter()
                        .any(|step| step.critical && step.seen == Seen::NotSeen);
                    if unseen || !in_force(by) {
                        continue;
                    }
                    if seen.method == Method::Direct {
                        let mut clean = true;
                        for step in &seen.steps {
                            clean &= step.seen != Seen::Prompted && step.seen != Seen::NotDone;
                        }
                        row = if clean { row + 1 } else { 0 };
                        passed += 1;
                        assessors.insert(by);
                    } else {
                        *others.entry(seen.method).or_default() += 1;
                    }
                }
                Some(Signed::Evaluated(found))
                    if found.person == person
                        && equal.contains(&found.edition.revision)
                        && found.stage == Stage::AtAssessment
                        && in_force(line.by.unwrap()) =>
                {
                    worked = found.effect == Effect::Effective;
                }
                Some(Signed::CaseChecked(case))
                    if case.person == person
                        && equal.contains(&case.edition.revision)
                        && case.judgement == Judgement::Acceptable =>
                {
                    let named = path.iter().any(|other| {
                        other.by == line.by
                            && matches!(signed(other), Some(Signed::SupervisedBy(named))
                                if named.person == person
                                    && named.from.instant().since_epoch() <= line.when
                                    && line.when <= named.until.instant().since_epoch())
                    });
                    if named && in_force(line.by.unwrap()) {
                        cases.insert(case.case.clone());
                    }
                }
                _ => {}
            }
        }
        passed >= needs.observed
            && row >= needs.clean_in_a_row
            && assessors.len() >= usize::from(needs.assessors)
            && cases.len() >= usize::from(needs.supervised_cases)
            && needs
                .others
                .iter()
                .all(|other| others.get(&other.method).copied().unwrap_or(0) >= other.count)
            && worked
    }
}

fn is_failed(seen: &crate::record::entry::Observed) -> bool {
    seen.judgement == Judgement::NotAcceptable
        || seen
            .steps
            .iter()
            .any(|step| step.critical && step.seen == Seen::NotDone)
}

/// Revisions whose evidence counts for this one.
fn equal_to(number: u32, revisions: &BTreeMap<u32, (RevisionAdopted, i64)>) -> BTreeSet<u32> {
    let mut equal = BTreeSet::new();
    for (other, (revision, _)) in revisions.range(..=number).rev() {
        equal.insert(*other);
        if matches!(revision.impact, Impact::Retrain | Impact::Reassess) {
            break;
        }
    }
    equal
}

fn covers(lines: &[Line<'_>], person: PersonCode, revision: &RevisionAdopted) -> bool {
    let done = |line: &Line<'_>| match (revision.impact, signed(line)) {
        (Impact::Awareness, Some(Signed::AwarenessAcknowledged(fact))) => {
            fact.person == person && fact.edition == revision.edition
        }
        (Impact::Retrain, Some(Signed::Trained(fact))) => {
            fact.person == person && fact.edition == revision.edition
        }
        _ => false,
    };
    revision.impact == Impact::None || lines.iter().any(done)
}

/// The word of a person's standing at an instant.
pub(super) fn word(book: &Book, person: PersonCode, at: i64, reading: Reading) -> &'static str {
    let by_then = match reading {
        Reading::AsNowKnown => i64::MAX,
        Reading::AsRecordedThen => at,
        Reading::AsRecordedBy(by) => by.instant().since_epoch(),
    };
    Asked { book, at, by_then }.word(person)
}
