//! Everything that can be wrong has words, and where the rules refuse, what to do.

use super::super::*;
use super::{check_text, mentions, telling, words};
use crate::people::{NameProblem, RegisterFault};
use crate::record::authority::AuthorityFault;
use crate::record::canonical::{JsonFault, JsonFaultKind};
use crate::record::entry::{Cause, EntryFault, Impact, Method};
use crate::record::log::{Trouble, WhyNot};
use crate::record::scope::{Authority, Meaning, TextProblem};
use crate::record::scribe::{id, key, person, stamp};
use crate::record::seal::Seal;
use crate::record::strand::Head;
use crate::record::verify::{Fault, Limit};
use crate::record::{MemberFault, MemberFaultKind};
use crate::report::problems::Told;
use crate::standing::{Count, DueCause, LapseCause, Ledger, Need, Refusal, Remark};
use crate::units::CodeProblem;

fn seal() -> Seal {
    Seal::of(b"an entry")
}

fn check(told: &Told) {
    check_text(&told.what);
    let last = told.what.chars().last();
    assert!(matches!(last, Some('.' | ')')), "{}", told.what);
    if let Some(fix) = &told.fix {
        check_text(fix);
        assert!(fix.ends_with('.'), "{fix}");
    }
}

fn authority_faults() -> Vec<AuthorityFault> {
    let (who, of) = (person(3), key(3).public().id());
    vec![
        AuthorityFault::NotFounded,
        AuthorityFault::FoundedAgain,
        AuthorityFault::UnknownPerson(who),
        AuthorityFault::NotHere(who),
        AuthorityFault::HereAlready(who),
        AuthorityFault::CodeUsed(who),
        AuthorityFault::LastOwner(who),
        AuthorityFault::LastOwnGrant(seal()),
        AuthorityFault::KeyNotSeconded(of),
        AuthorityFault::UnknownKey(of),
        AuthorityFault::KeyAgain(of),
        AuthorityFault::KeyEnded(of),
        AuthorityFault::KeyOfAnother(of),
        AuthorityFault::OnlyThePerson,
        AuthorityFault::NotThePerson,
        AuthorityFault::NoGrant(&[Authority::Approve, Authority::Quality]),
        AuthorityFault::UnknownGrant(seal()),
        AuthorityFault::GrantEnded(seal()),
        AuthorityFault::GrantOfAnother(seal()),
        AuthorityFault::GrantTooNarrow(seal()),
        AuthorityFault::RefersToNothing(seal()),
    ]
}

fn needs() -> Vec<Need> {
    let count = Count { have: 1, of: 3 };
    vec![
        Need::Edition,
        Need::Assigned,
        Need::NoSuspension,
        Need::Workflow(id("wet-resin")),
        Need::Read,
        Need::Awareness(2),
        Need::Protection,
        Need::TrainedAfterFailure,
        Need::CleanRuns(count),
        Need::CleanDays(count),
        Need::SupervisedCases(count),
        Need::Observed(count),
        Need::Assessors(count),
        Need::CleanInARow(count),
        Need::Method(Method::BlindSample, count),
        Need::Evaluated,
    ]
}

fn refusals() -> Vec<Refusal> {
    let who = person(3);
    let mut all = vec![
        Refusal::DatedAhead,
        Refusal::LateWithoutReason,
        Refusal::BeforeSignature,
        Refusal::SignedAtAnotherTime,
        Refusal::Missing(needs()),
        Refusal::NoEvidence(seal()),
        Refusal::LeftOutWithoutReason(1),
        Refusal::LeftOutWithoutReason(2),
        Refusal::SelfSignOff,
        Refusal::SelfAssessment,
        Refusal::AssessorNotInForce(who),
        Refusal::TrainerNotInForce(who),
        Refusal::SupervisorNotInForce(who),
        Refusal::NotTheSupervisor(who),
        Refusal::SupervisionTooLong(92),
        Refusal::NotTheFirst(who),
        Refusal::NotAlone,
        Refusal::NotAdopted(2),
        Refusal::OtherText(2),
        Refusal::Superseded(2),
        Refusal::NotNewer(2),
        Refusal::OtherImpact(Impact::Retrain),
        Refusal::NoSuchSuspension(seal()),
        Refusal::NoReinstatingEvidence,
        Refusal::SelfReinstatement,
        Refusal::NotASecondPerson,
        Refusal::SecondNotEntitled,
        Refusal::NotTheirs,
        Refusal::NotAmendable,
        Refusal::NotCorrectable,
        Refusal::OldDiffers,
        Refusal::NewWrong,
        Refusal::VoidAlready,
    ];
    all.extend(authority_faults().into_iter().map(Refusal::Authority));
    all
}

#[test]
fn every_refusal_says_its_rule_and_what_to_do() {
    telling(&Ledger::new(), |telling| {
        let mut seen = std::collections::BTreeSet::new();
        for one in refusals() {
            let told = refusal(&one, telling);
            check(&told);
            assert!(told.fix.is_some(), "{}", told.what);
            match one.rule() {
                Some(rule) => assert!(told.what.ends_with(&format!("(rule {rule:?})"))),
                None => assert!(!told.what.contains("(rule "), "{}", told.what),
            }
            assert!(
                seen.insert(told.what.clone()),
                "{} is said twice",
                told.what
            );
        }
    });
}

#[test]
fn what_is_missing_is_counted() {
    let words = words();
    let texts: Vec<String> = needs().iter().map(|one| need(one, &words)).collect();
    texts.iter().for_each(|text| check_text(text));
    let counted = texts
        .iter()
        .filter(|text| text.contains("(1 of 3)"))
        .count();
    assert_eq!(counted, 7, "{texts:#?}");
    let all = Refusal::Missing(needs());
    let told = telling(&Ledger::new(), |telling| refusal(&all, telling));
    texts.iter().for_each(|text| mentions(&told.what, text));
}

#[test]
fn every_cause_and_remark_has_words() {
    telling(&Ledger::new(), |telling| {
        for cause in [
            DueCause::Interval,
            DueCause::CalledIn(Cause::Complaint, seal()),
            DueCause::Failed(seal()),
            DueCause::NotEffective(seal()),
            DueCause::EffectNotChecked,
            DueCause::Revision(2),
            DueCause::ToReview(seal()),
        ] {
            let text = due_cause(&cause, telling);
            check_text(&text);
            assert!(text.starts_with("Due because"), "{text}");
        }
        for cause in [
            LapseCause::Interval,
            LapseCause::NotReassessed(seal()),
            LapseCause::Revision(2, seal()),
        ] {
            let text = lapse_cause(cause, telling.words);
            check_text(&text);
            assert!(text.starts_with("Lapsed because"), "{text}");
        }
        for one in [
            Remark::ApproverTrained,
            Remark::ApproverAssessed,
            Remark::FirstAssessor,
            Remark::NoIndependentAssessor,
        ] {
            let text = remark(one, telling.words);
            check_text(&text);
            assert!(text.starts_with("Remark:"), "{text}");
        }
    });
}

fn entry_faults() -> Vec<EntryFault> {
    let member = |name: &str, kind| {
        let name = name.to_owned();
        EntryFault::Member(MemberFault { name, kind })
    };
    let mut all = vec![
        EntryFault::TooLong,
        EntryFault::NotCanonical,
        EntryFault::Newer(2),
        EntryFault::UnknownKind("drowned\u{1b}[2J".to_owned()),
        member("right", MemberFaultKind::Missing),
        member("", MemberFaultKind::Wrong),
        member("shoe", MemberFaultKind::Unknown),
        EntryFault::Unsigned,
        EntryFault::NeedlesslySigned,
        EntryFault::Meaning(Meaning::Approved),
        EntryFault::NoReason,
    ];
    all.extend(
        [
            JsonFaultKind::NotUtf8,
            JsonFaultKind::Syntax,
            JsonFaultKind::NotWhole,
            JsonFaultKind::TooLarge,
            JsonFaultKind::Twice,
            JsonFaultKind::TooDeep,
            JsonFaultKind::LoneSurrogate,
        ]
        .map(|kind| EntryFault::Json(JsonFault { at: 1, kind })),
    );
    all
}

#[test]
fn every_fault_of_an_entry_and_of_verification_has_words() {
    telling(&Ledger::new(), |telling| {
        let mut faults = vec![
            Fault::Missing(7),
            Fault::Misplaced(id("front"), 3),
            Fault::PreviousDiffers,
            Fault::Altered,
            Fault::Signature,
            Fault::ClockWentBack,
            Fault::DatedAhead,
            Fault::CutOff(9),
            Fault::HeadDiffers,
            Fault::CheckpointDiffers,
        ];
        for one in entry_faults() {
            check(&entry_fault(&one, telling.words));
            faults.push(Fault::Unreadable(one));
        }
        for one in authority_faults() {
            check(&authority_fault(&one, telling));
            faults.push(Fault::Authority(one));
        }
        for one in &faults {
            check(&fault(one, telling));
        }
        for one in [
            Limit::NoHead(id("front")),
            Limit::NoCheckpoint(id("front")),
            Limit::Restored(id("front"), 7),
            Limit::UntrueButEntered,
            Limit::ClockOfMachine,
        ] {
            let text = limit(&one, telling.words);
            check_text(&text);
            assert!(text.ends_with('.'), "{text}");
        }
    });
}

#[test]
fn storing_typing_and_the_register_have_words() {
    let words = words();
    let head = Head {
        number: 3,
        seal: seal(),
        recorded: stamp("2026-01-05T08:00:00+01:00"),
    };
    let troubles = [
        Trouble::Full,
        Trouble::ReadOnly,
        Trouble::Unreachable,
        Trouble::Damaged,
        Trouble::Newer(2),
    ];
    let mut all: Vec<Told> = troubles.map(|one| trouble(one, &words)).into();
    all.extend(troubles.map(|one| why_not(&WhyNot::Trouble(one), &words)));
    for one in [
        WhyNot::HeadMoved(Some(head)),
        WhyNot::HeadMoved(None),
        WhyNot::OutOfLine,
    ] {
        all.push(why_not(&one, &words));
    }
    for one in [
        TextProblem::Empty,
        TextProblem::TooLong(1),
        TextProblem::TooLong(200),
        TextProblem::Character,
    ] {
        all.push(text_problem(one, &words));
    }
    for one in [
        NameProblem::Empty,
        NameProblem::TooLong(120),
        NameProblem::Character,
    ] {
        all.push(name_problem(one, &words));
    }
    for one in [
        RegisterFault::NoFreeCode,
        RegisterFault::UnknownCode(person(3)),
        RegisterFault::Erased(person(3)),
        RegisterFault::SaltUsed,
        RegisterFault::BeforeLast,
        RegisterFault::CodeTaken(person(3)),
    ] {
        all.push(register_fault(one, &words));
    }
    all.push(code_problem(CodeProblem::Shape, &words));
    all.push(code_problem(CodeProblem::Check, &words));
    for told in all {
        check(&told);
        assert!(told.fix.is_some(), "{}", told.what);
    }
}
