//! A small laboratory for tests: every entry asks the rules first, unless it is forced in.

use crate::record::entry::Independence;
use crate::record::entry::{
    Assigned, AwarenessAcknowledged, Basis, CaseChecked, Effect, EffectCheck, Ending, Entry,
    Established, Evaluated, Help, HowEstablished, Impact, Judgement, Method, MethodCount, Needs,
    Noted, Observed, PolicySet, ProtectionShown, Read, Rehearsed, RevisionAdopted, Seen,
    SignOffProfile, Signed, SignedOff, Stage, StepSeen, SupervisedBy, Trained, ValidMonths,
};
use crate::record::scope::{Authority, Edition, Scope};
use crate::record::scribe::{Scribe, digest, id, person, scope, stamp};
use crate::record::seal::Seal;
use crate::standing::{Ledger, Reading, Refusal, Standing, View, admit};
use crate::units::Stamp;

pub(super) struct Shop {
    pub(super) scribe: Scribe,
    pub(super) ledger: Ledger,
}

pub(super) fn edition(revision: u32) -> Edition {
    Edition {
        revision,
        digest: digest(&format!("text {revision}")),
    }
}

pub(super) fn needs() -> Needs {
    Needs {
        clean_runs: 2,
        clean_days: 2,
        supervised_cases: 1,
        observed: 2,
        assessors: 1,
        clean_in_a_row: 2,
        others: vec![MethodCount {
            method: Method::BlindSample,
            count: 1,
        }],
    }
}

/// Six months, then twelve; a renewal takes one observed run.
pub(super) fn profile() -> SignOffProfile {
    SignOffProfile {
        requires: Vec::new(),
        first: needs(),
        again: Needs {
            clean_runs: 0,
            clean_days: 0,
            supervised_cases: 0,
            observed: 1,
            assessors: 1,
            clean_in_a_row: 1,
            others: Vec::new(),
        },
        valid_months: ValidMonths::new(vec![6, 12]).unwrap(),
        effect_check: None,
    }
}

pub(super) fn effect_check() -> EffectCheck {
    EffectCheck {
        from_days: 30,
        to_days: 90,
    }
}

pub(super) fn adopted(revision: u32, effective: &str, impact: Impact) -> RevisionAdopted {
    RevisionAdopted {
        workflow: id("stock-teeth"),
        edition: edition(revision),
        effective: stamp(effective),
        impact,
        profile: profile(),
    }
}

pub(super) fn assigned(number: u8) -> Assigned {
    Assigned {
        person: person(number),
        scope: scope(),
    }
}

pub(super) fn read(number: u8, revision: u32) -> Read {
    Read {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(revision),
    }
}

pub(super) fn aware(number: u8, revision: u32) -> AwarenessAcknowledged {
    AwarenessAcknowledged {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(revision),
    }
}

pub(super) fn trained(number: u8, revision: u32) -> Trained {
    Trained {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(revision),
        language: id("en-us"),
    }
}

pub(super) fn protected(number: u8) -> ProtectionShown {
    ProtectionShown {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(1),
    }
}

pub(super) fn rehearsed(number: u8, revision: u32) -> Rehearsed {
    Rehearsed {
        person: person(number),
        workflow: id("stock-teeth"),
        edition: edition(revision),
        help: Help::Unaided,
        ending: Ending::Clean,
        run: digest("run"),
    }
}

pub(super) fn supervised(number: u8, from: &str, until: &str) -> SupervisedBy {
    SupervisedBy {
        person: person(number),
        scope: scope(),
        from: stamp(from),
        until: stamp(until),
    }
}

pub(super) fn case_checked(number: u8, case: &str) -> CaseChecked {
    CaseChecked {
        person: person(number),
        scope: scope(),
        edition: edition(1),
        case: id(case),
        judgement: Judgement::Acceptable,
    }
}

pub(super) fn observed(number: u8, revision: u32, seen: Seen) -> Observed {
    let step = |step: &str, critical, seen| StepSeen {
        step: id(step),
        critical,
        seen,
    };
    Observed {
        person: person(number),
        scope: scope(),
        edition: edition(revision),
        method: Method::Direct,
        case: id("2026-0113"),
        steps: vec![
            step("first-wash", true, seen),
            step("label", false, Seen::Done),
        ],
        judgement: Judgement::Acceptable,
        remark: None,
        taps: None,
        transcribed: None,
    }
}

pub(super) fn blind(number: u8) -> Observed {
    Observed {
        method: Method::BlindSample,
        ..observed(number, 1, Seen::Done)
    }
}

pub(super) fn evaluated(number: u8, revision: u32, stage: Stage) -> Evaluated {
    Evaluated {
        person: person(number),
        scope: scope(),
        edition: edition(revision),
        stage,
        effect: Effect::Effective,
    }
}

pub(super) fn signed_off(number: u8, revision: u32, from: Stamp, basis: Basis) -> SignedOff {
    SignedOff {
        person: person(number),
        scope: scope(),
        edition: edition(revision),
        valid_from: from,
        basis,
    }
}

pub(super) fn first_assessor() -> Basis {
    Basis::FirstAssessor(Established {
        how: HowEstablished::ValidationWork,
        proof: digest("validation report"),
    })
}

pub(super) fn policy() -> PolicySet {
    PolicySet {
        due_days: 60,
        grace_days: 0,
        late_hours: 24,
        independence: Independence::Independent,
    }
}

impl Shop {
    /// Person 0 owns it, 1 assesses and trains, 2 approves and publishes, 3 and 4 are technicians. Revision 1 holds from 7 January 2026;
    /// 1 is the first assessor from 8 January.
    pub(super) fn open() -> Shop {
        use Authority::{Approve, Assess, Publish, Quality, Train};
        let mut scribe = Scribe::founded("2026-01-05T08:00:00+01:00");
        scribe
            .join(1, &[Assess, Train, Publish, Quality])
            .join(2, &[Approve, Publish, Train]);
        scribe.join(3, &[]).join(4, &[]);
        let mut shop = Shop {
            ledger: Ledger::collect(scribe.entries.clone()),
            scribe,
        };
        assert_eq!(shop.ledger.unfounded(), []);
        shop.at("2026-01-06T08:00:00+01:00");
        let revision = shop.sign(2, adopted(1, "2026-01-07T00:00:00+01:00", Impact::Reassess));
        shop.second(1, revision);
        shop.at("2026-01-07T08:00:00+01:00").sign(2, assigned(1));
        shop.sign(1, read(1, 1));
        shop.note(rehearsed(1, 1));
        shop.at("2026-01-08T08:00:00+01:00").note(rehearsed(1, 1));
        shop.sign(
            2,
            signed_off(1, 1, stamp("2026-01-08T08:00:00+01:00"), first_assessor()),
        );
        shop
    }

    /// Person 3 is ready for sign-off on 1 February 2026.
    pub(super) fn with_one_ready() -> Shop {
        let mut shop = Shop::open();
        shop.at("2026-01-12T08:00:00+01:00").sign(2, assigned(3));
        shop.sign(3, read(3, 1));
        shop.sign(1, trained(3, 1));
        shop.sign(1, protected(3));
        shop.note(rehearsed(3, 1));
        shop.at("2026-01-13T08:00:00+01:00").note(rehearsed(3, 1));
        let (from, until) = ("2026-01-14T08:00:00+01:00", "2026-02-28T18:00:00+01:00");
        shop.at("2026-01-14T07:00:00+01:00")
            .sign(1, supervised(3, from, until));
        shop.at("2026-01-15T08:00:00+01:00")
            .sign(1, case_checked(3, "2026-0101"));
        shop.at("2026-01-20T08:00:00+01:00")
            .sign(1, observed(3, 1, Seen::Done));
        shop.at("2026-01-21T08:00:00+01:00")
            .sign(1, observed(3, 1, Seen::Done));
        shop.at("2026-01-22T08:00:00+01:00").sign(1, blind(3));
        shop.sign(1, evaluated(3, 1, Stage::AtAssessment));
        shop.at("2026-02-01T09:00:00+01:00");
        shop
    }

    /// Person 3 is signed off on 1 February 2026, until 1 August.
    pub(super) fn with_one_signed_off() -> Shop {
        let mut shop = Shop::with_one_ready();
        let evidence = shop.evidence(3);
        shop.sign(
            2,
            signed_off(3, 1, stamp("2026-02-01T09:00:00+01:00"), evidence),
        );
        shop
    }

    /// Everything that assessors saw of a person.
    pub(super) fn evidence(&self, number: u8) -> Basis {
        let assessed = self.scribe.entries.iter().filter(|entry| {
            matches!(
                entry.signed(),
                Some((Signed::Observed(_) | Signed::Evaluated(_), _))
            ) && entry.kind().subject().person == Some(person(number))
        });
        Basis::Evidence(assessed.map(Entry::seal).collect())
    }

    pub(super) fn at(&mut self, now: &str) -> &mut Shop {
        self.scribe.at(now);
        self
    }

    pub(super) fn sign(&mut self, by: u8, fact: impl Into<Signed>) -> Seal {
        let now = self.scribe.now();
        let entry = self.scribe.draft(by, now, fact);
        self.admit(entry)
    }

    pub(super) fn second(&mut self, by: u8, target: Seal) -> Seal {
        let entry = self.scribe.second(by, target);
        self.admit(entry)
    }

    pub(super) fn admit(&mut self, entry: Entry) -> Seal {
        assert_eq!(admit(&self.ledger, &entry), Ok(()), "{}", entry.word());
        self.force(entry)
    }

    /// Writes an entry down whatever the rules say.
    pub(super) fn force(&mut self, entry: Entry) -> Seal {
        self.ledger.add(entry.clone());
        self.scribe.write(entry)
    }

    pub(super) fn note(&mut self, fact: impl Into<Noted>) -> Seal {
        let seal = self.scribe.note(fact);
        self.ledger.add(self.scribe.entries.last().unwrap().clone());
        seal
    }

    pub(super) fn refusal(&self, by: u8, fact: impl Into<Signed>) -> Refusal {
        let entry = self.scribe.draft(by, self.scribe.now(), fact);
        admit(&self.ledger, &entry).expect_err("the entry is refused")
    }

    pub(super) fn view(&self, at: &str) -> View<'_> {
        View::new(&self.ledger, stamp(at).instant(), Reading::AsNowKnown)
    }

    pub(super) fn view_then(&self, at: &str) -> View<'_> {
        View::new(&self.ledger, stamp(at).instant(), Reading::AsRecordedThen)
    }

    pub(super) fn standing(&self, number: u8, at: &str) -> Standing {
        self.standing_in(number, &scope(), at)
    }

    pub(super) fn standing_in(&self, number: u8, scope: &Scope, at: &str) -> Standing {
        self.view(at).standing(person(number), scope).unwrap()
    }

    pub(super) fn word(&self, number: u8, at: &str) -> &'static str {
        self.standing(number, at).word()
    }

    pub(super) fn word_then(&self, number: u8, at: &str) -> &'static str {
        self.view_then(at)
            .standing(person(number), &scope())
            .unwrap()
            .word()
    }
}
