//! Random small laboratories over years: the fold says of every day, in both readings, what a slow second reading of the rules says.

use std::collections::BTreeMap;

use super::reread;
use super::shop::*;
use crate::record::canonical::Value;
use crate::record::entry::{
    Allowed, Basis, CalledIn, Cause, Corrected, Effect, Ending, Evaluated, Help, Impact,
    Independence, Judgement, Left, Observed, OutsideEvidence, OutsideWay, PolicySet, Rehearsed,
    Reinstated, RevisionAdopted, Seen, Signed, SignedOff, Stage, Suspended, ValidMonths, Voided,
    Withdrawn,
};
use crate::record::scope::Authority;
use crate::record::scribe::{Dice, Scribe, digest, id, person, scope};
use crate::record::seal::Seal;
use crate::standing::{Ledger, Reading, View};
use crate::units::{Instant, Offset, Stamp};

const DAY: i64 = 86_400;

struct Life {
    scribe: Scribe,
    dice: Dice,
    now: i64,
    revision: u32,
}

impl Life {
    fn below(&mut self, end: i64) -> i64 {
        i64::try_from(self.dice.below(usize::try_from(end).unwrap())).unwrap()
    }

    fn one_in(&mut self, times: i64) -> bool {
        self.below(times) == 0
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        let at = self.below(i64::try_from(from.len()).unwrap());
        from[usize::try_from(at).unwrap()]
    }

    fn stamp(&mut self, seconds: i64) -> Stamp {
        let minutes = self.pick(&[60, 120, -300]);
        Stamp::new(
            Instant::from_epoch(seconds),
            Offset::minutes(minutes).unwrap(),
        )
        .unwrap()
    }

    fn pass(&mut self, most_days: i64) {
        self.now += 600 + self.below(most_days * DAY);
        let stamp = self.stamp(self.now);
        let strand = self.pick(&["front", "front", "bench"]);
        self.scribe.at_stamp(stamp).on_strand(strand);
    }

    /// Writes an entry down, late now and then. What nobody had the right to make is left out.
    fn sign(&mut self, by: u8, fact: impl Into<Signed>) {
        let fact = fact.into();
        let late = if self.one_in(6) {
            self.below(20 * DAY)
        } else {
            0
        };
        let happened = self.stamp(self.now - late);
        let entry = self.scribe.draft(by, happened, fact);
        if self.scribe.staff.check(&entry).is_ok() {
            self.scribe.write(entry);
        }
    }

    fn second(&mut self, by: u8, target: Seal) {
        let entry = self.scribe.second(by, target);
        if self.scribe.staff.check(&entry).is_ok() {
            self.scribe.write(entry);
        }
    }

    fn last(&self) -> Seal {
        self.scribe.entries.last().unwrap().seal()
    }

    /// Some entry of one of these kinds.
    fn some(&mut self, words: &[&str]) -> Option<Seal> {
        let fitting = self
            .scribe
            .entries
            .iter()
            .filter(|entry| words.contains(&entry.word()));
        let fitting: Vec<Seal> = fitting.map(crate::record::entry::Entry::seal).collect();
        (!fitting.is_empty()).then(|| self.pick(&fitting))
    }

    fn note_run(&mut self, number: u8) {
        let (help, ending) = (
            self.pick(&[Help::Unaided, Help::Unaided, Help::Guided]),
            self.pick(&[Ending::Clean, Ending::Clean, Ending::NotClean]),
        );
        let revision = self.some_revision();
        self.scribe.note(Rehearsed {
            help,
            ending,
            ..rehearsed(number, revision)
        });
    }

    fn some_revision(&mut self) -> u32 {
        if self.one_in(8) { 1 } else { self.revision }
    }

    fn some_observed(&mut self, number: u8) -> Observed {
        let revision = self.some_revision();
        let seen = self.pick(&[
            Seen::Done,
            Seen::Done,
            Seen::Done,
            Seen::Prompted,
            Seen::NotSeen,
            Seen::NotDone,
        ]);
        let mut observed = observed(number, revision, seen);
        if self.one_in(4) {
            observed.method = blind(number).method;
        }
        if self.one_in(12) {
            observed.judgement = Judgement::NotAcceptable;
        }
        observed
    }

    fn some_supervision(&mut self, number: u8) -> crate::record::entry::SupervisedBy {
        let (from, until) = (
            self.stamp(self.now - DAY),
            self.now + (20 + self.below(70)) * DAY,
        );
        let until = self.stamp(until);
        crate::record::entry::SupervisedBy {
            person: person(number),
            scope: scope(),
            from,
            until,
        }
    }

    /// The whole path of a technician, with something left out now and then.
    fn path(&mut self, number: u8) {
        self.sign(2, assigned(number));
        let revision = self.revision;
        // Half of them stay on the way for a while.
        let steps = if self.one_in(2) {
            12
        } else {
            6 + self.below(6)
        };
        for step in 0..steps {
            if self.one_in(25) {
                continue;
            }
            self.pass(2);
            match step {
                0 => self.sign(number, read(number, revision)),
                1 => self.sign(1, protected(number)),
                2 => self.sign(1, trained(number, revision)),
                3 | 4 => {
                    self.scribe.note(rehearsed(number, revision));
                }
                5 => {
                    let supervision = self.some_supervision(number);
                    self.sign(1, supervision);
                }
                6 => {
                    let mut checked = case_checked(number, "2026-0101");
                    checked.edition = edition(revision);
                    self.sign(1, checked);
                }
                7 | 8 => self.sign(1, observed(number, revision, Seen::Done)),
                9 => {
                    let mut blind = blind(number);
                    blind.edition = edition(revision);
                    self.sign(1, blind);
                }
                10 => self.sign(1, evaluated(number, revision, Stage::AtAssessment)),
                _ => self.sign_off(number),
            }
        }
    }

    fn sign_off(&mut self, number: u8) {
        let later = if self.one_in(3) {
            self.below(30) * DAY
        } else {
            0
        };
        let from = self.stamp(self.now + later);
        let about = person(number);
        let basis = match self.below(8) {
            0 => first_assessor(),
            1 => Basis::Outside(OutsideEvidence {
                way: OutsideWay::Observation,
                assessor: digest("outside"),
                proof: digest("report"),
            }),
            _ => {
                let assessed = self.scribe.entries.iter().filter(|entry| {
                    matches!(entry.word(), "observed" | "evaluated")
                        && entry.kind().subject().person == Some(about)
                });
                let mut seals: Vec<Seal> =
                    assessed.map(crate::record::entry::Entry::seal).collect();
                seals.reverse();
                seals.truncate(4);
                Basis::Evidence(seals)
            }
        };
        let by = if self.one_in(8) { number } else { 2 };
        let revision = self.some_revision();
        self.sign(
            by,
            SignedOff {
                ..signed_off(number, revision, from, basis)
            },
        );
    }

    fn adopt(&mut self) {
        if self.one_in(3) {
            self.adopt_again();
            return;
        }
        self.revision += 1;
        let start = self.now + self.below(40) * DAY;
        let fact = RevisionAdopted {
            effective: self.stamp(start),
            impact: self.pick(&[
                Impact::None,
                Impact::Awareness,
                Impact::Awareness,
                Impact::Retrain,
                Impact::Reassess,
            ]),
            ..adopted(self.revision, "2026-01-01T00:00:00+01:00", Impact::None)
        };
        let mut fact = fact;
        if self.one_in(2) {
            fact.profile.effect_check = Some(effect_check());
        }
        self.adopted_by_two(fact);
    }

    /// The newest revision again with other numbers, as it would be asked for; refused where it is not in order.
    fn adopt_again(&mut self) {
        let entries = self.scribe.entries.iter().rev();
        let newest = entries.filter_map(|entry| match entry.signed()?.0 {
            Signed::RevisionAdopted(adopted) => Some(adopted.clone()),
            _ => None,
        });
        let Some(mut fact) = newest.into_iter().next() else {
            return;
        };
        let start = self.now + self.below(20) * DAY;
        fact.effective = self.stamp(start);
        fact.profile.first.observed = self.pick(&[1, 2, 3]);
        fact.profile.first.clean_in_a_row = self.pick(&[0, 1, 2]);
        fact.profile.first.supervised_cases = self.pick(&[0, 1]);
        fact.profile.valid_months = ValidMonths::new(vec![self.pick(&[2, 6, 9])]).unwrap();
        self.adopted_by_two(fact);
    }

    fn adopted_by_two(&mut self, fact: RevisionAdopted) {
        let before = self.last();
        self.sign(2, fact);
        let adopted = self.last();
        if adopted != before && !self.one_in(5) {
            if self.one_in(3) {
                self.pass(5);
            }
            self.second(1, adopted);
        }
    }

    fn amend(&mut self) {
        let words = [
            "observed",
            "evaluated",
            "signed-off",
            "suspended",
            "read",
            "trained",
            "rehearsed",
            "withdrawn",
            "corrected",
            "called-in",
            "supervised-by",
        ];
        let Some(target) = self.some(&words) else {
            return;
        };
        let before = self.last();
        if self.one_in(2) {
            let entry = self
                .scribe
                .entries
                .iter()
                .find(|entry| entry.seal() == target)
                .unwrap();
            let (member, new) = match entry.word() {
                "observed" => ("judgement", "not-acceptable"),
                "evaluated" => ("effect", "not-effective"),
                "rehearsed" => ("ending", "not-clean"),
                _ => return,
            };
            let old = entry.content().member(member);
            let new = Some(Value::Text(new.into()));
            let member = id(member);
            self.sign(
                2,
                Corrected {
                    target,
                    member,
                    old,
                    new,
                },
            );
        } else {
            self.sign(2, Voided { target });
        }
        let amendment = self.last();
        if amendment != before && !self.one_in(3) {
            self.pass(3);
            self.second(1, amendment);
        }
    }

    fn suspend(&mut self, number: u8) {
        let (workflow, allowed) = (id("stock-teeth"), Allowed::Nothing);
        let before = self.last();
        self.sign(
            2,
            Suspended {
                person: person(number),
                workflow: workflow.clone(),
                allowed,
            },
        );
        let suspension = self.last();
        if suspension == before || self.one_in(4) {
            return;
        }
        self.pass(30);
        let proof = self.one_in(2).then(|| digest("report"));
        let lifted = Reinstated {
            person: person(number),
            workflow,
            suspension,
            evidence: vec![suspension],
            proof,
        };
        self.sign(2, lifted);
        let lifting = self.last();
        if !self.one_in(3) {
            self.pass(3);
            self.second(1, lifting);
        }
    }

    fn event(&mut self) {
        self.pass(14);
        let number = self.pick(&[1, 3, 3, 4, 4]);
        let revision = self.some_revision();
        match self.below(30) {
            0..=2 => self.path(number),
            3 => self.sign(number, read(number, revision)),
            4 => self.sign(number, aware(number, revision)),
            5 => self.sign(1, trained(number, revision)),
            6..=7 => self.note_run(number),
            8..=11 => {
                let observed = self.some_observed(number);
                self.sign(1, observed);
            }
            12..=14 => {
                let stage = self.pick(&[Stage::AtAssessment, Stage::Later, Stage::Later]);
                let effect =
                    self.pick(&[Effect::Effective, Effect::Effective, Effect::NotEffective]);
                let evaluated = Evaluated {
                    effect,
                    ..evaluated(number, revision, stage)
                };
                self.sign(1, evaluated);
            }
            15..=17 => self.sign_off(number),
            18..=19 => self.adopt(),
            20..=22 => self.amend(),
            23 => self.suspend(number),
            24 => {
                let scope = scope();
                self.sign(
                    2,
                    Withdrawn {
                        person: person(number),
                        scope,
                    },
                );
            }
            25 => {
                let cause = Cause::Complaint;
                self.sign(
                    2,
                    CalledIn {
                        person: person(number),
                        scope: scope(),
                        cause,
                    },
                );
            }
            26 => {
                let policy = PolicySet {
                    due_days: self.pick(&[30, 60]),
                    grace_days: self.pick(&[0, 0, 14]),
                    late_hours: 24,
                    independence: self.pick(&[
                        Independence::Independent,
                        Independence::Independent,
                        Independence::NoIndependentAssessor,
                    ]),
                };
                self.sign(0, policy);
            }
            27 => {
                let supervision = self.some_supervision(number);
                self.sign(1, supervision);
            }
            28 => self.sign(2, assigned(number)),
            _ => {
                if number == 4 && self.one_in(2) {
                    self.sign(0, Left { person: person(4) });
                }
            }
        }
    }
}

/// A laboratory that lived for two years with this seed.
fn life(seed: u64) -> Life {
    use Authority::{Approve, Assess, Publish, Quality, Train};
    let mut scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
    scribe
        .join(1, &[Assess, Train, Publish, Quality])
        .join(2, &[Approve, Publish, Train]);
    scribe.join(3, &[Approve]).join(4, &[]);
    let now = scribe.now().instant().since_epoch();
    let mut life = Life {
        scribe,
        dice: Dice(seed),
        now,
        revision: 0,
    };
    life.pass(2);
    while life
        .scribe
        .entries
        .iter()
        .all(|entry| entry.word() != "countersigned")
    {
        life.adopt();
    }
    life.pass(40);
    life.sign(2, assigned(1));
    let from = life.stamp(life.now);
    let revision = life.revision;
    life.sign(2, signed_off(1, revision, from, first_assessor()));
    while life.now < now + 730 * DAY {
        life.event();
    }
    life
}

#[test]
fn the_fold_says_what_a_slow_reading_says_on_every_day() {
    let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
    let mut apart = 0;
    for seed in 0..6 {
        let life = life(seed);
        let ledger = Ledger::collect(life.scribe.entries.clone());
        assert_eq!(ledger.unfounded(), [], "seed {seed}");
        let book = reread::Book::new(life.scribe.entries.clone());
        let first = life.scribe.entries[0]
            .frame()
            .recorded
            .instant()
            .since_epoch();
        for day in 0..=760 {
            let at = first + day * DAY + 43_200;
            for number in [1, 3, 4] {
                let [now, then] = [Reading::AsNowKnown, Reading::AsRecordedThen].map(|reading| {
                    let view = View::new(&ledger, Instant::from_epoch(at), reading);
                    let word = view.standing(person(number), &scope()).unwrap().word();
                    let other = reread::word(&book, person(number), at, reading);
                    assert_eq!(
                        word, other,
                        "seed {seed}, day {day}, person {number}, {reading:?}"
                    );
                    word
                });
                *seen.entry(now).or_default() += 1;
                apart += u32::from(now != then);
            }
        }
    }
    assert!(apart > 200, "the readings differ on {apart} days only");
    assert_eq!(seen.len(), 10, "every standing has been met: {seen:?}");
}

#[test]
fn in_which_order_strands_come_in_makes_no_difference() {
    for seed in 20..24 {
        let life = life(seed);
        let (front, bench): (Vec<_>, Vec<_>) = life
            .scribe
            .entries
            .iter()
            .cloned()
            .partition(|entry| entry.frame().strand == id("front"));
        let one = Ledger::collect(front.iter().chain(&bench).cloned());
        let mut other = Ledger::collect(bench.iter().chain(&front).cloned());
        for entry in &front {
            // What is there already changes nothing.
            other.add(entry.clone());
        }
        for day in (0..760).step_by(7) {
            let at = Instant::from_epoch(
                life.scribe.entries[0]
                    .frame()
                    .recorded
                    .instant()
                    .since_epoch()
                    + day * DAY,
            );
            for number in [1, 3, 4] {
                for reading in [Reading::AsNowKnown, Reading::AsRecordedThen] {
                    let standing =
                        |ledger| View::new(ledger, at, reading).standing(person(number), &scope());
                    assert_eq!(standing(&one), standing(&other), "seed {seed}, day {day}");
                }
            }
        }
    }
}
