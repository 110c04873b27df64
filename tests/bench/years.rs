//! A record of ten years: 24 people, four workflows, two workstations, 100,000 entries. Made by what the program itself writes with, the same every time.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use drybench::record::authority::Staff;
use drybench::record::entry::{
    Assigned, Basis, CaseChecked, Corrected, Countersigned, Drilled, Effect, EffectCheck, Ending,
    Entry, Established, Evaluated, Founded, Frame, Granted, Help, HowEstablished, Impact, Joined,
    Judgement, KeyIssued, Method, Needs, Noted, Observed, ProtectionShown, Read, Rehearsed,
    RevisionAdopted, Seen, SignOffProfile, Signed, SignedOff, Signing, Stage, StepSeen,
    SupervisedBy, ToSign, Trained, ValidMonths,
};
use drybench::record::scope::{Authority, Edition, Id, Scope};
use drybench::record::seal::Seal;
use drybench::record::signature::SecretKey;
use drybench::record::strand::{Head, Strands};
use drybench::rng::{Seed, Stream};
use drybench::units::{Digest, Instant, Offset, PersonCode, Stamp};

/// So many entries.
pub(crate) const ENTRIES: usize = 100_000;
/// So many people; the first owns it, the next four assess, train, approve and publish.
pub(crate) const PEOPLE: u8 = 24;
const WORKFLOWS: [&str; 4] = ["stock-teeth", "wet-resin", "milled-arch", "repair"];
/// 5 January 2026, 8:00 UTC, in seconds since 1970.
const START: i64 = 1_767_600_000;
/// So many seconds from one entry to the next, on average: ten years in all.
const STEP: i64 = 3_155;

/// The record, made once.
pub(crate) struct Years {
    pub(crate) strands: Strands,
    pub(crate) heads: Vec<(Id, u64, Seal)>,
    /// The last instant of it.
    pub(crate) end: Instant,
}

/// The record; made when it is first asked for.
pub(crate) fn years() -> &'static Years {
    static MADE: OnceLock<Years> = OnceLock::new();
    MADE.get_or_init(|| Writer::new().write())
}

/// The scopes in which people work.
pub(crate) fn scopes() -> Vec<Scope> {
    let scope = |workflow: &str| Scope {
        workflow: id(workflow),
        profile: id("common-practice"),
        wash: id("ultrasonic"),
        cure: id("two-sides"),
    };
    WORKFLOWS.iter().map(|workflow| scope(workflow)).collect()
}

/// The code of the person with this number.
pub(crate) fn person(number: u8) -> PersonCode {
    PersonCode::from_random([number, 1, 2, 3, 4])
}

fn id(text: &str) -> Id {
    text.parse().expect("the id is one")
}

fn digest(text: &str) -> Digest {
    Digest::of(&[text.as_bytes()])
}

struct Writer {
    staff: Staff,
    keys: Vec<SecretKey>,
    heads: BTreeMap<Id, Head>,
    strands: Strands,
    count: usize,
    now: i64,
    dice: Stream,
    revisions: [u32; WORKFLOWS.len()],
    scopes: Vec<Scope>,
    /// Since the last sign-off: what assessors saw, by person and workflow.
    seen: BTreeMap<(u8, usize), Vec<Seal>>,
}

impl Writer {
    fn new() -> Writer {
        Writer {
            staff: Staff::new(),
            keys: (0..PEOPLE)
                .map(|number| SecretKey::from_seed(&[number + 1; 32]))
                .collect(),
            heads: BTreeMap::new(),
            strands: Strands::new(),
            count: 0,
            now: START,
            dice: Stream::new(Seed(1), "years"),
            revisions: [0; WORKFLOWS.len()],
            scopes: scopes(),
            seen: BTreeMap::new(),
        }
    }

    fn write(mut self) -> Years {
        self.open();
        while self.count < ENTRIES {
            self.event();
        }
        let head = |(strand, head): (&Id, &Head)| (strand.clone(), head.number, head.seal);
        Years {
            heads: self.heads.iter().map(head).collect(),
            strands: self.strands,
            end: Instant::from_epoch(self.now),
        }
    }

    fn stamp(&self) -> Stamp {
        let offset = Offset::minutes(60).expect("an hour is an offset");
        Stamp::new(Instant::from_epoch(self.now), offset).expect("the years are ours")
    }

    /// A frame behind the head of the strand that the person works at.
    fn frame(&mut self, by: u8) -> Frame {
        self.now += self.dice.between(1, 2 * STEP);
        let strand = id(if by.is_multiple_of(3) {
            "office"
        } else {
            "bench"
        });
        let frame = Frame {
            number: 0,
            previous: Seal::NONE,
            happened: self.stamp(),
            recorded: self.stamp(),
            clock_set_back: None,
            enterer: None,
            workstation: strand.clone(),
            program: "0.1.0".parse().expect("a version is a text"),
            reason: Some("as agreed".parse().expect("a reason is a text")),
            strand,
        };
        let head = self.heads.get(&frame.strand).copied();
        frame.after(head.as_ref())
    }

    fn put(&mut self, entry: &Entry) -> Seal {
        self.staff.check(entry).expect("whoever writes may");
        self.staff.learn(entry);
        let strand = entry.frame().strand.clone();
        self.heads.insert(strand.clone(), entry.head());
        self.strands.entry(strand).or_default().push(entry.bytes());
        self.count += 1;
        entry.seal()
    }

    fn note(&mut self, by: u8, fact: impl Into<Noted>) {
        let entry = Entry::noted(self.frame(by), fact).expect("the entry is whole");
        self.put(&entry);
    }

    fn sign(&mut self, by: u8, fact: impl Into<Signed>) -> Seal {
        self.sign_under(by, None, fact)
    }

    /// Signs under an authority that the kind does not ask for by itself.
    fn sign_under(
        &mut self,
        by: u8,
        any_of: Option<&[Authority]>,
        fact: impl Into<Signed>,
    ) -> Seal {
        let fact = fact.into();
        let right = fact.kind().right();
        let any_of = any_of.unwrap_or(right.any_of);
        let signing = Signing {
            by: person(by),
            key: self.keys[usize::from(by)].public().id(),
            name: digest("a name"),
            meaning: fact.kind().meanings()[0],
            under: self.staff.grant(person(by), any_of, right.workflow),
            declaration: digest("I stand by this."),
        };
        let to_sign = ToSign::new(self.frame(by), fact, signing);
        let signature = self.keys[usize::from(by)].sign(&to_sign.bytes());
        let entry = to_sign.signed(signature).expect("the entry is whole");
        self.put(&entry)
    }

    fn edition(&self, at: usize) -> Edition {
        let revision = self.revisions[at];
        Edition {
            revision,
            digest: digest(&format!("{} {revision}", WORKFLOWS[at])),
        }
    }

    fn adopt(&mut self, at: usize, impact: Impact) {
        self.revisions[at] += 1;
        let again = Needs {
            clean_runs: 0,
            clean_days: 0,
            supervised_cases: 0,
            observed: 1,
            assessors: 1,
            clean_in_a_row: 1,
            others: Vec::new(),
        };
        let adopted = RevisionAdopted {
            workflow: id(WORKFLOWS[at]),
            edition: self.edition(at),
            effective: self.stamp(),
            impact,
            profile: SignOffProfile {
                requires: Vec::new(),
                first: Needs {
                    clean_runs: 3,
                    clean_days: 3,
                    supervised_cases: 5,
                    observed: 2,
                    clean_in_a_row: 2,
                    ..again.clone()
                },
                again,
                valid_months: ValidMonths::new(vec![6, 12]).expect("two spans"),
                effect_check: Some(EffectCheck {
                    from_days: 30,
                    to_days: 90,
                }),
            },
        };
        let target = self.sign(1, adopted);
        let second = &[Authority::Approve];
        self.sign_under(2, Some(second), Countersigned { target });
    }

    /// People join, revisions are adopted, everybody has a need, and the four are signed off as the first.
    fn open(&mut self) {
        let founded = Founded {
            person: person(0),
            key: self.keys[0].public(),
            laboratory: digest("laboratory"),
        };
        self.sign(0, founded);
        for number in 1..PEOPLE {
            let (person, key) = (person(number), self.keys[usize::from(number)].public());
            let name = digest("a name");
            self.sign(0, Joined { person, name });
            self.sign(0, KeyIssued { person, key });
            use Authority::{Approve, Assess, Publish, Train};
            let roles: &[Authority] = if number < 5 {
                &[Assess, Train, Approve, Publish]
            } else {
                &[]
            };
            for &authority in roles {
                let workflow = None;
                self.sign(
                    0,
                    Granted {
                        person,
                        authority,
                        workflow,
                    },
                );
            }
        }
        for at in 0..WORKFLOWS.len() {
            self.adopt(at, Impact::Reassess);
            let scope = self.scopes[at].clone();
            for number in 1..PEOPLE {
                self.sign(
                    1 + number % 2,
                    Assigned {
                        person: person(number),
                        scope: scope.clone(),
                    },
                );
                self.read(number, at);
            }
            for number in 1..5 {
                let basis = Basis::FirstAssessor(Established {
                    how: HowEstablished::ValidationWork,
                    proof: digest("validation report"),
                });
                self.sign_off(number, at, basis);
            }
        }
    }

    fn read(&mut self, number: u8, at: usize) {
        let (workflow, edition) = (id(WORKFLOWS[at]), self.edition(at));
        self.sign(
            number,
            Read {
                person: person(number),
                workflow,
                edition,
            },
        );
    }

    fn sign_off(&mut self, number: u8, at: usize, basis: Basis) {
        let fact = SignedOff {
            person: person(number),
            scope: self.scopes[at].clone(),
            edition: self.edition(at),
            valid_from: self.stamp(),
            basis,
        };
        self.sign(1 + number % 4, fact);
    }

    /// One of the four, but not that person.
    fn other(&mut self, number: u8) -> u8 {
        let one = 1 + u8::try_from(self.dice.between(0, 3)).expect("one of four");
        if one == number { 1 + number % 4 } else { one }
    }

    fn event(&mut self) {
        let number =
            1 + u8::try_from(self.dice.between(0, i64::from(PEOPLE) - 2)).expect("one of us");
        let at = usize::try_from(self.dice.between(0, 3)).expect("one of four");
        let (person, scope, edition) = (person(number), self.scopes[at].clone(), self.edition(at));
        let (workflow, by) = (scope.workflow.clone(), self.other(number));
        match self.dice.between(0, 999) {
            0..250 => {
                let (help, ending, run) = (Help::Unaided, Ending::Clean, digest("run"));
                self.note(
                    number,
                    Rehearsed {
                        person,
                        workflow,
                        edition,
                        help,
                        ending,
                        run,
                    },
                );
            }
            250..400 => {
                let drill = id("order");
                self.note(
                    number,
                    Drilled {
                        person,
                        workflow,
                        edition,
                        drill,
                        right: 4,
                        of: 5,
                    },
                );
            }
            400..600 => {
                let case = id(&format!("case-{}", self.count));
                let judgement = Judgement::Acceptable;
                self.sign(
                    by,
                    CaseChecked {
                        person,
                        scope,
                        edition,
                        case,
                        judgement,
                    },
                );
            }
            600..780 => self.observe(number, at, by),
            780..830 => {
                let (stage, effect) = (Stage::Later, Effect::Effective);
                self.sign(
                    by,
                    Evaluated {
                        person,
                        scope,
                        edition,
                        stage,
                        effect,
                    },
                );
            }
            830..880 => self.read(number, at),
            880..900 => {
                let language = id("en-us");
                self.sign(
                    by,
                    Trained {
                        person,
                        workflow,
                        edition,
                        language,
                    },
                );
            }
            900..920 => {
                self.sign(
                    by,
                    ProtectionShown {
                        person,
                        workflow,
                        edition,
                    },
                );
            }
            920..950 => {
                let from = self.stamp();
                let until = Stamp::new(from.instant().plus_days(60), from.offset());
                let until = until.expect("the years are ours");
                self.sign(
                    by,
                    SupervisedBy {
                        person,
                        scope,
                        from,
                        until,
                    },
                );
            }
            950..999 => {
                let (stage, effect) = (Stage::AtAssessment, Effect::Effective);
                let fact = Evaluated {
                    person,
                    scope,
                    edition,
                    stage,
                    effect,
                };
                let seal = self.sign(by, fact);
                let mut seals = self.seen.remove(&(number, at)).unwrap_or_default();
                seals.push(seal);
                let newest = seals.len().saturating_sub(6);
                self.sign_off(number, at, Basis::Evidence(seals.split_off(newest)));
            }
            _ => {
                let impact = [Impact::None, Impact::Awareness, Impact::Retrain];
                self.adopt(at, impact[self.count % 3]);
            }
        }
    }

    fn observe(&mut self, number: u8, at: usize, by: u8) {
        let step = |(step, critical): (&str, bool)| StepSeen {
            step: id(step),
            critical,
            seen: Seen::Done,
        };
        let steps = [
            ("first-wash", true),
            ("dry-teeth", true),
            ("fill", true),
            ("tack", true),
            ("label", false),
        ];
        let fact = Observed {
            person: person(number),
            scope: self.scopes[at].clone(),
            edition: self.edition(at),
            method: Method::Direct,
            case: id(&format!("case-{}", self.count)),
            steps: steps.into_iter().map(step).collect(),
            judgement: Judgement::Acceptable,
            remark: None,
            taps: None,
            transcribed: None,
        };
        let seal = self.sign(by, fact);
        self.seen.entry((number, at)).or_default().push(seal);
        if self.dice.between(0, 19) == 0 {
            // The wrong case: put right by whoever wrote it, and signed by another.
            let old =
                drybench::record::canonical::Value::Text(format!("case-{}", self.count - 1).into());
            let new = drybench::record::canonical::Value::Text("case-0".into());
            let fact = Corrected {
                target: seal,
                member: id("case"),
                old: Some(old),
                new: Some(new),
            };
            let target = self.sign(by, fact);
            let second = 1 + by % 4;
            self.sign_under(
                second,
                Some(&[Authority::Approve]),
                Countersigned { target },
            );
        }
    }
}
