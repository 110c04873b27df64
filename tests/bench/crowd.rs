//! A record of 200 people and 40 workflows: everybody has a need in each, half are signed off, a part has read. The same every time.

use std::sync::OnceLock;

use drybench::record::authority::Staff;
use drybench::record::entry::{
    Assigned, Basis, Countersigned, Entry, Established, Founded, Frame, Granted, HowEstablished,
    Impact, Joined, KeyIssued, Needs, Read, RevisionAdopted, SignOffProfile, Signed, SignedOff,
    Signing, ToSign, ValidMonths,
};
use drybench::record::scope::{Authority, Edition, Id, Scope};
use drybench::record::seal::Seal;
use drybench::record::signature::SecretKey;
use drybench::record::strand::Head;
use drybench::units::{Digest, Instant, Offset, PersonCode, Stamp};

/// So many people.
pub(crate) const PEOPLE: u16 = 200;
/// So many workflows.
pub(crate) const WORKFLOWS: u16 = 40;
/// 5 January 2026, 8:00 UTC, in seconds since 1970.
const START: i64 = 1_767_600_000;
/// The first few have keys: the owner, and two who sign everything else.
const SIGNERS: u16 = 3;

fn id(text: &str) -> Id {
    text.parse().expect("the id is one")
}

fn digest(text: &str) -> Digest {
    Digest::of(&[text.as_bytes()])
}

fn person(number: u16) -> PersonCode {
    // Five bits of each byte make a letter.
    let [_, low] = (number % 32).to_be_bytes();
    let [_, high] = (number / 32).to_be_bytes();
    PersonCode::from_random([low, high, 1, 2, 3])
}

struct Writer {
    staff: Staff,
    keys: Vec<SecretKey>,
    head: Option<Head>,
    entries: Vec<Entry>,
    now: i64,
}

/// The entries, made when they are first asked for, with the last instant of them.
pub(crate) fn crowd() -> &'static (Vec<Entry>, Stamp) {
    static MADE: OnceLock<(Vec<Entry>, Stamp)> = OnceLock::new();
    MADE.get_or_init(|| {
        let keys = (1..=SIGNERS).map(|number| SecretKey::from_seed(&[number.to_be_bytes()[1]; 32]));
        let mut writer = Writer {
            staff: Staff::new(),
            keys: keys.collect(),
            head: None,
            entries: Vec::new(),
            now: START,
        };
        writer.write();
        let end = writer.stamp();
        (writer.entries, end)
    })
}

impl Writer {
    fn stamp(&self) -> Stamp {
        let offset = Offset::minutes(60).expect("an hour is an offset");
        Stamp::new(Instant::from_epoch(self.now), offset).expect("the years are ours")
    }

    fn sign(&mut self, by: u16, under: Option<&[Authority]>, fact: impl Into<Signed>) -> Seal {
        let fact = fact.into();
        self.now += 60;
        let right = fact.kind().right();
        let any_of = under.unwrap_or(right.any_of);
        let key = &self.keys[usize::from(by)];
        let signing = Signing {
            by: person(by),
            key: key.public().id(),
            name: digest("a name"),
            meaning: fact.kind().meanings()[0],
            under: self.staff.grant(person(by), any_of, right.workflow),
            declaration: digest("I stand by this."),
        };
        let frame = Frame {
            number: 0,
            previous: Seal::NONE,
            happened: self.stamp(),
            recorded: self.stamp(),
            clock_set_back: None,
            enterer: None,
            workstation: id("office"),
            program: "0.1.0".parse().expect("a version is a text"),
            reason: Some("as agreed".parse().expect("a reason is a text")),
            strand: id("office"),
        };
        let to_sign = ToSign::new(frame.after(self.head.as_ref()), fact, signing);
        let signature = key.sign(&to_sign.bytes());
        let entry = to_sign.signed(signature).expect("the entry is whole");
        self.staff.check(&entry).expect("whoever writes may");
        self.staff.learn(&entry);
        self.head = Some(entry.head());
        let seal = entry.seal();
        self.entries.push(entry);
        seal
    }

    fn write(&mut self) {
        let founded = Founded {
            person: person(0),
            key: self.keys[0].public(),
            laboratory: digest("laboratory"),
        };
        self.sign(0, None, founded);
        for number in 1..PEOPLE {
            let (person, name) = (person(number), digest("a name"));
            self.sign(0, None, Joined { person, name });
        }
        for number in 1..SIGNERS {
            let (person, key) = (person(number), self.keys[usize::from(number)].public());
            self.sign(0, None, KeyIssued { person, key });
            use Authority::{Approve, Assess, Publish, Train};
            for authority in [Assess, Train, Approve, Publish] {
                let granted = Granted {
                    person,
                    authority,
                    workflow: None,
                };
                self.sign(0, None, granted);
            }
        }
        for number in 0..WORKFLOWS {
            self.workflow(number);
        }
    }

    fn workflow(&mut self, number: u16) {
        let workflow = id(&format!("work-{number}"));
        let edition = Edition {
            revision: 1,
            digest: digest(&workflow.to_string()),
        };
        let needs = Needs {
            clean_runs: 3,
            clean_days: 3,
            supervised_cases: 3,
            observed: 2,
            assessors: 2,
            clean_in_a_row: 2,
            others: Vec::new(),
        };
        let adopted = RevisionAdopted {
            workflow: workflow.clone(),
            edition: edition.clone(),
            effective: self.stamp(),
            impact: Impact::Reassess,
            profile: SignOffProfile {
                requires: Vec::new(),
                first: needs.clone(),
                again: needs,
                valid_months: ValidMonths::new(vec![6, 12]).expect("two spans"),
                effect_check: None,
            },
        };
        let target = self.sign(1, None, adopted);
        self.sign(2, Some(&[Authority::Approve]), Countersigned { target });
        let scope = Scope {
            workflow: workflow.clone(),
            profile: id("common-practice"),
            wash: id("ultrasonic"),
            cure: id("two-sides"),
        };
        for number in 0..PEOPLE {
            let (person, scope) = (person(number), scope.clone());
            self.sign(1, None, Assigned { person, scope });
        }
        for number in 1..SIGNERS {
            let (workflow, edition) = (workflow.clone(), edition.clone());
            let read = Read {
                person: person(number),
                workflow,
                edition,
            };
            self.sign(number, None, read);
        }
        for number in (0..PEOPLE).step_by(2) {
            let fact = SignedOff {
                person: person(number),
                scope: scope.clone(),
                edition: edition.clone(),
                valid_from: self.stamp(),
                basis: Basis::FirstAssessor(Established {
                    how: HowEstablished::ValidationWork,
                    proof: digest("validation report"),
                }),
            };
            let by = if number == 1 { 2 } else { 1 };
            self.sign(by, None, fact);
        }
    }
}
