//! One entry of every kind, invented, always the same.

use drybench::record::canonical::Value;
use drybench::record::entry::*;
use drybench::record::scope::{Authority, Edition, Id, Scope};
use drybench::record::seal::Seal;
use drybench::record::signature::SecretKey;
use drybench::record::strand::Head;
use drybench::units::{Digest, Instant, Offset, PersonCode, Stamp};

fn id(text: &str) -> Id {
    text.parse().unwrap()
}

fn stamp(text: &str) -> Stamp {
    text.parse().unwrap()
}

fn digest(text: &str) -> Digest {
    Digest::of(&[text.as_bytes()])
}

/// The key that signs every example. Its seed is public: it must never sign anything else.
pub(super) fn key() -> SecretKey {
    SecretKey::from_seed(&[1; 32])
}

fn person(number: u8) -> PersonCode {
    PersonCode::from_random([number, 1, 2, 3, 4])
}

fn scope() -> Scope {
    Scope {
        workflow: id("stock-teeth"),
        profile: id("common-practice"),
        wash: id("ultrasonic"),
        cure: id("two-sides"),
    }
}

fn edition() -> Edition {
    Edition {
        revision: 2,
        digest: digest("text"),
    }
}

fn seal(text: &str) -> Seal {
    Seal::of(text.as_bytes())
}

fn frame() -> Frame {
    Frame {
        strand: id("front"),
        number: 0,
        previous: Seal::NONE,
        happened: stamp("2026-11-25T09:15:00+01:00"),
        recorded: stamp("2026-11-25T09:15:30+01:00"),
        clock_set_back: None,
        enterer: Some(person(2)),
        workstation: id("front-desk"),
        program: "0.1.0".parse().unwrap(),
        reason: Some("as agreed".parse().unwrap()),
    }
}

fn head() -> Head {
    Head {
        number: 41,
        seal: seal("the entry before"),
        recorded: stamp("2026-11-25T09:16:00+01:00"),
    }
}

fn noted(fact: impl Into<Noted>) -> Entry {
    let frame = Frame {
        reason: None,
        ..frame()
    };
    Entry::noted(frame.after(None), fact).unwrap()
}

fn signed(fact: impl Into<Signed>) -> Entry {
    let fact = fact.into();
    let signing = Signing {
        by: person(1),
        key: key().public().id(),
        name: digest("salt and name"),
        meaning: fact.kind().meanings()[0],
        under: Some(seal("a grant")),
        declaration: digest("I stand by this."),
    };
    // Stands behind an entry with a later clock, so that the mark is seen.
    let to_sign = ToSign::new(frame().after(Some(&head())), fact, signing);
    let signature = key().sign(&to_sign.bytes());
    to_sign.signed(signature).unwrap()
}

fn drilled(right: u16) -> Drilled {
    Drilled {
        person: person(2),
        workflow: id("stock-teeth"),
        edition: edition(),
        drill: id("order"),
        right,
        of: 5,
    }
}

/// A drill with any text, number and time.
pub(super) fn drilled_with(text: &str, number: u64, right: u16, seconds: i64) -> Entry {
    let stamp = Stamp::new(Instant::from_epoch(seconds), Offset::UTC).unwrap();
    let frame = Frame {
        number,
        happened: stamp,
        recorded: stamp,
        reason: text.trim().parse().ok(),
        ..frame()
    };
    Entry::noted(frame, drilled(right)).unwrap()
}

fn needs() -> Needs {
    Needs {
        clean_runs: 3,
        clean_days: 3,
        supervised_cases: 10,
        observed: 3,
        assessors: 2,
        clean_in_a_row: 3,
        others: vec![MethodCount {
            method: Method::BlindSample,
            count: 1,
        }],
    }
}

pub(super) fn examples() -> Vec<Entry> {
    let (who, workflow) = (person(2), id("stock-teeth"));
    let mut all = vec![
        noted(drilled(4)),
        noted(Rehearsed {
            person: who,
            workflow: workflow.clone(),
            edition: edition(),
            help: Help::Unaided,
            ending: Ending::Clean,
            run: digest("run"),
        }),
        noted(PassphraseRefused {
            person: who,
            times: 3,
        }),
        noted(BackupMade {
            copy: digest("copy"),
        }),
        noted(RestoreTested {
            copy: digest("copy"),
            result: Found::Good,
        }),
        noted(PackExported {
            pack: digest("pack"),
        }),
        signed(Founded {
            person: person(1),
            key: key().public(),
            laboratory: digest("salt and laboratory"),
        }),
        signed(Joined {
            person: who,
            name: digest("salt and name"),
        }),
        signed(Left { person: who }),
        signed(Granted {
            person: who,
            authority: Authority::Assess,
            workflow: Some(workflow.clone()),
        }),
        signed(Revoked {
            person: who,
            grant: seal("a grant"),
        }),
        signed(KeyIssued {
            person: who,
            key: SecretKey::from_seed(&[2; 32]).public(),
        }),
        signed(KeyLost {
            person: who,
            key: SecretKey::from_seed(&[2; 32]).public().id(),
        }),
        signed(Assigned {
            person: who,
            scope: scope(),
        }),
        signed(Read {
            person: who,
            workflow: workflow.clone(),
            edition: edition(),
        }),
        signed(AwarenessAcknowledged {
            person: who,
            workflow: workflow.clone(),
            edition: edition(),
        }),
        signed(Trained {
            person: who,
            workflow: workflow.clone(),
            edition: edition(),
            language: id("en-us"),
        }),
        signed(ProtectionShown {
            person: who,
            workflow: workflow.clone(),
            edition: edition(),
        }),
        signed(SupervisedBy {
            person: who,
            scope: scope(),
            from: stamp("2026-11-26T00:00:00+01:00"),
            until: stamp("2026-12-24T23:59:59+01:00"),
        }),
        signed(CaseChecked {
            person: who,
            scope: scope(),
            edition: edition(),
            case: id("2026-1125"),
            judgement: Judgement::Acceptable,
        }),
        signed(Observed {
            person: who,
            scope: scope(),
            edition: edition(),
            method: Method::Direct,
            case: id("2026-1125"),
            steps: vec![
                StepSeen {
                    step: id("first-wash"),
                    critical: true,
                    seen: Seen::Done,
                },
                StepSeen {
                    step: id("label"),
                    critical: false,
                    seen: Seen::Prompted,
                },
            ],
            judgement: Judgement::Acceptable,
            remark: Some(digest("remark")),
            taps: None,
            transcribed: None,
        }),
        signed(Evaluated {
            person: who,
            scope: scope(),
            edition: edition(),
            stage: Stage::AtAssessment,
            effect: Effect::Effective,
        }),
        signed(SignedOff {
            person: who,
            scope: scope(),
            edition: edition(),
            valid_from: stamp("2026-12-01T00:00:00+01:00"),
            basis: Basis::Evidence(vec![seal("one run"), seal("another run")]),
        }),
    ];
    all.extend(more(who, &workflow));
    all
}

fn more(who: PersonCode, workflow: &Id) -> Vec<Entry> {
    vec![
        signed(Suspended {
            person: who,
            workflow: workflow.clone(),
            allowed: Allowed::Supervised,
        }),
        signed(Reinstated {
            person: who,
            workflow: workflow.clone(),
            suspension: seal("a suspension"),
            evidence: vec![seal("one run")],
            proof: None,
        }),
        signed(Withdrawn {
            person: who,
            scope: scope(),
        }),
        signed(CalledIn {
            person: who,
            scope: scope(),
            cause: Cause::Complaint,
        }),
        signed(Countersigned {
            target: seal("an entry"),
        }),
        signed(Corrected {
            target: seal("an entry"),
            member: id("right"),
            old: None,
            new: Some(Value::Text("new".into())),
        }),
        signed(Voided {
            target: seal("an entry"),
        }),
        signed(RevisionAdopted {
            workflow: workflow.clone(),
            edition: edition(),
            effective: stamp("2026-12-01T00:00:00+01:00"),
            impact: Impact::Reassess,
            profile: SignOffProfile {
                requires: vec![id("solvent-and-skin")],
                first: needs(),
                again: Needs {
                    supervised_cases: 0,
                    ..needs()
                },
                valid_months: ValidMonths::new(vec![6, 12]).unwrap(),
                effect_check: Some(EffectCheck {
                    from_days: 30,
                    to_days: 90,
                }),
            },
        }),
        signed(WorkflowRetired {
            workflow: workflow.clone(),
        }),
        signed(PolicySet {
            due_days: 60,
            grace_days: 0,
            late_hours: 24,
            independence: Independence::Independent,
        }),
        signed(TrailReviewed {
            from: stamp("2026-10-01T00:00:00+02:00"),
            until: stamp("2026-10-31T23:59:59+01:00"),
            result: Found::Good,
        }),
        signed(Restored {
            lost_strand: id("bench"),
            lost_number: 7,
            lost_seal: seal("the lost entry"),
        }),
    ]
}
