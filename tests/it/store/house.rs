//! A small record with people, keys and two workstations, written through what the program itself uses.

use std::collections::BTreeMap;

use drybench::record::authority::Staff;
use drybench::record::entry::{
    Drilled, Entry, Founded, Frame, Granted, Joined, Judgement, KeyIssued, Method, Noted, Observed,
    Read, Seen, Signed, Signing, StepSeen, ToSign,
};
use drybench::record::log::{Appended, Log};
use drybench::record::scope::{Authority, Edition, Id, Scope};
use drybench::record::seal::Seal;
use drybench::record::signature::SecretKey;
use drybench::record::strand::Head;
use drybench::units::{Instant, Offset, PersonCode, Stamp};

use super::{digest, id};

/// The person with this number.
pub(super) fn person(number: u8) -> PersonCode {
    PersonCode::from_random([number, 1, 2, 3, 4])
}

/// The key of the person with this number; from 9 on, those of strangers.
pub(super) fn key(number: u8) -> SecretKey {
    SecretKey::from_seed(&[number + 1; 32])
}

/// Writes entries as people would: 0 owns the record, 1 and 3 assess, 2 and 4 work.
pub(super) struct House {
    staff: Staff,
    heads: BTreeMap<Id, Head>,
    now: i64,
    /// What was drilled and watched, so that two houses can differ.
    right: u16,
    pub(super) entries: Vec<Entry>,
}

impl House {
    /// A record of some forty entries.
    pub(super) fn built(right: u16) -> House {
        let mut house = House {
            staff: Staff::new(),
            heads: BTreeMap::new(),
            now: 1_767_600_000,
            right,
            entries: Vec::new(),
        };
        house.open();
        for case in 0..4 {
            house.note("front", house.drilled(2));
            house.sign("front", 2, read(2));
            house.sign("bench", 3, observed(4, case));
            house.note("bench", house.drilled(4));
            house.sign("front", 1, observed(2, case));
            house.sign("bench", 4, read(4));
            house.note("bench", house.drilled(4));
        }
        // Both strands end with what the machine noted.
        house.note("front", house.drilled(2));
        house.note("front", house.drilled(2));
        house
    }

    fn open(&mut self) {
        let founded = Founded {
            person: person(0),
            key: key(0).public(),
            laboratory: digest("laboratory"),
        };
        self.sign("front", 0, founded);
        for number in 1..5 {
            let (person, name) = (person(number), digest("name"));
            self.sign("front", 0, Joined { person, name });
            let key = key(number).public();
            self.sign("front", 0, KeyIssued { person, key });
            if number % 2 == 1 {
                let granted = Granted {
                    person,
                    authority: Authority::Assess,
                    workflow: None,
                };
                self.sign("front", 0, granted);
            }
        }
    }

    fn drilled(&self, number: u8) -> Drilled {
        Drilled {
            person: person(number),
            workflow: id("stock-teeth"),
            edition: edition(),
            drill: id("order"),
            right: self.right,
            of: 5,
        }
    }

    fn frame(&mut self, strand: &str) -> Frame {
        self.now += 3_600;
        let offset = Offset::minutes(60).unwrap();
        let now = Stamp::new(Instant::from_epoch(self.now), offset).unwrap();
        let frame = Frame {
            strand: id(strand),
            number: 0,
            previous: Seal::NONE,
            happened: now,
            recorded: now,
            clock_set_back: None,
            enterer: None,
            workstation: id(strand),
            program: "0.1.0".parse().unwrap(),
            reason: None,
        };
        frame.after(self.heads.get(&id(strand)))
    }

    fn put(&mut self, entry: Entry) {
        assert_eq!(self.staff.check(&entry), Ok(()), "{}", entry.word());
        self.staff.learn(&entry);
        let strand = entry.frame().strand.clone();
        self.heads.insert(strand, entry.head());
        self.entries.push(entry);
    }

    fn note(&mut self, strand: &str, fact: impl Into<Noted>) {
        let entry = Entry::noted(self.frame(strand), fact).unwrap();
        self.put(entry);
    }

    fn sign(&mut self, strand: &str, by: u8, fact: impl Into<Signed>) {
        let fact = fact.into();
        let right = fact.kind().right();
        let signing = Signing {
            by: person(by),
            key: key(by).public().id(),
            name: digest("name"),
            meaning: fact.kind().meanings()[0],
            under: self.staff.grant(person(by), right.any_of, right.workflow),
            declaration: digest("I stand by this."),
        };
        let to_sign = ToSign::new(self.frame(strand), fact, signing);
        let signature = key(by).sign(&to_sign.bytes());
        let entry = to_sign.signed(signature).unwrap();
        self.put(entry);
    }

    /// Appends some of its entries to a log.
    pub(super) fn append(&self, log: &mut dyn Log, which: std::ops::Range<usize>) {
        for entry in &self.entries[which] {
            assert_eq!(super::append(log, entry), Appended::Stored);
        }
    }

    /// The grant under which a person assesses.
    pub(super) fn assessing(&self, number: u8) -> Option<Seal> {
        self.staff.grant(person(number), &[Authority::Assess], None)
    }
}

fn edition() -> Edition {
    Edition {
        revision: 1,
        digest: digest("text"),
    }
}

fn read(number: u8) -> Read {
    Read {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(),
    }
}

fn observed(number: u8, case: u8) -> Observed {
    let step = StepSeen {
        step: id("first-wash"),
        critical: true,
        seen: Seen::Done,
    };
    Observed {
        person: person(number),
        scope: Scope {
            workflow: id("stock-teeth"),
            profile: id("common-practice"),
            wash: id("ultrasonic"),
            cure: id("two-sides"),
        },
        edition: edition(),
        method: Method::Direct,
        case: id(&format!("case-{case}")),
        steps: vec![step],
        judgement: Judgement::Acceptable,
        remark: None,
        taps: None,
        transcribed: None,
    }
}
