//! Who else could sign something, and who could do what is missing: asked of the same rules that refused it.

use super::admit;
use crate::record::entry::{Countersigned, Entry, Frame, Signed, Signing, ToSign};
use crate::record::scope::{Authority, Id, Meaning, Scope};
use crate::record::seal::Seal;
use crate::record::signature::Signature;
use crate::standing::evidence::Need;
use crate::standing::ledger::Ledger;
use crate::standing::view::View;
use crate::units::{Digest, PersonCode};

/// The grant under which a person would sign a fact; none where the person has none that would do.
#[must_use]
pub fn grant_for(ledger: &Ledger, by: PersonCode, fact: &Signed) -> Option<Seal> {
    let staff = ledger.staff();
    match fact {
        // Who may be the second person depends on the entry.
        Signed::Countersigned(second) => {
            let target = ledger.get(&second.target)?;
            let own = target.kind().subject().workflow;
            // What is amended names the workflow where the amendment itself does not.
            let refers = target.kind().refers();
            let amended = refers.first().and_then(|seal| ledger.get(seal));
            let workflow = own.or_else(|| amended.and_then(|one| one.kind().subject().workflow));
            staff.grant(by, target.kind().seconds(), workflow)
        }
        _ => {
            let right = fact.kind().right();
            staff.grant(by, right.any_of, right.workflow)
        }
    }
}

/// The same entry with somebody else as its signer; none where that person has no key.
fn signed_by(ledger: &Ledger, entry: &Entry, by: PersonCode) -> Option<Entry> {
    let (fact, signing) = entry.signed()?;
    let key = ledger.staff().key_of(by)?;
    let signing = Signing {
        by,
        key,
        under: grant_for(ledger, by, fact),
        ..signing.clone()
    };
    let frame = Frame {
        enterer: Some(by),
        ..entry.frame().clone()
    };
    let to_sign = ToSign::new(frame, fact.clone(), signing);
    to_sign.signed(Signature::NONE).ok()
}

/// Everybody else who is here and could sign a drafted entry as things stand.
#[must_use]
pub fn could_sign_instead(ledger: &Ledger, entry: &Entry) -> Vec<PersonCode> {
    let signer = entry.actor();
    let others = ledger.staff().people().filter(|one| Some(*one) != signer);
    others
        .filter(|one| {
            let by_them = signed_by(ledger, entry, *one);
            by_them.is_some_and(|entry| admit(ledger, &entry).is_ok())
        })
        .collect()
}

/// Who has a right that somebody lacks, and who could give it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holders {
    /// Everybody else here who has it, whatever else speaks against what they would sign.
    pub have: Vec<PersonCode>,
    /// Everybody here who could give it.
    pub give: Vec<PersonCode>,
}

/// Who else has one of these rights in the workflow that a drafted entry is about, and who could give it.
#[must_use]
pub fn holders(ledger: &Ledger, entry: &Entry, any_of: &[Authority]) -> Holders {
    let staff = ledger.staff();
    let workflow = entry.kind().subject().workflow;
    let have = |one: &PersonCode| staff.grant(*one, any_of, workflow).is_some();
    let give = |one: &PersonCode| staff.grant(*one, &[Authority::Own], None).is_some();
    let others = staff.people().filter(|one| Some(*one) != entry.actor());
    Holders {
        have: others.filter(have).collect(),
        give: staff.people().filter(give).collect(),
    }
}

/// The second signature of a person under an entry that the ledger holds; none where the rules refuse it.
pub(in crate::standing) fn seconded(
    ledger: &Ledger,
    entry: &Entry,
    by: PersonCode,
) -> Option<Entry> {
    let target = entry.seal();
    let fact = Signed::from(Countersigned { target });
    let signing = Signing {
        by,
        key: ledger.staff().key_of(by)?,
        name: Digest::of(&[]),
        meaning: Meaning::Approved,
        under: grant_for(ledger, by, &fact),
        declaration: Digest::of(&[]),
    };
    let frame = Frame {
        happened: entry.frame().recorded,
        enterer: Some(by),
        reason: None,
        ..entry.frame().clone()
    };
    let to_sign = ToSign::new(frame.after(Some(&entry.head())), fact, signing);
    let second = to_sign.signed(Signature::NONE).ok()?;
    admit(ledger, &second).ok()?;
    Some(second)
}

/// Who could be the second person under an entry that the ledger holds.
#[must_use]
pub fn could_second(ledger: &Ledger, entry: &Entry) -> Vec<PersonCode> {
    let people = ledger.staff().people();
    people
        .filter(|one| seconded(ledger, entry, *one).is_some())
        .collect()
}

/// Who could do what a person's sign-off in a scope lacks: the person alone, or any of several.
#[must_use]
pub fn could_meet(
    view: View<'_>,
    person: PersonCode,
    scope: &Scope,
    need: &Need,
) -> Vec<PersonCode> {
    let staff = view.ledger.staff();
    let able = |any_of: &'static [Authority], stands: &dyn Fn(PersonCode) -> bool| {
        let people = staff.people().filter(|one| *one != person);
        let able = people.filter(|one| {
            staff.key_of(*one).is_some()
                && (any_of.is_empty() || staff.grant(*one, any_of, Some(&scope.workflow)).is_some())
                && stands(*one)
        });
        able.collect::<Vec<PersonCode>>()
    };
    let in_scope = |one: PersonCode| view.is_in_force(one, scope);
    let in_workflow = |one: PersonCode| view.is_in_force_in(one, &scope.workflow);
    match need {
        Need::Read | Need::Awareness(_) | Need::CleanRuns(_) | Need::CleanDays(_) => vec![person],
        Need::Edition => able(&[Authority::Publish], &|_| true),
        Need::Assigned => able(&[Authority::Train, Authority::Approve], &|_| true),
        Need::NoSuspension => able(&[Authority::Approve], &|_| true),
        Need::Workflow(workflow) => {
            let people = staff.people().filter(|one| *one != person);
            let approving = &[Authority::Approve];
            people
                .filter(|one| staff.grant(*one, approving, Some(workflow)).is_some())
                .collect()
        }
        Need::Protection | Need::TrainedAfterFailure => able(&[Authority::Train], &in_workflow),
        Need::SupervisedCases(_) => able(&[], &in_scope),
        Need::Observed(_)
        | Need::Assessors(_)
        | Need::CleanInARow(_)
        | Need::Method(..)
        | Need::Evaluated => able(&[Authority::Assess], &in_scope),
    }
}

/// That a sign-off takes more assessors than there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooFew {
    /// So many people here may assess the person, signed off or not.
    pub here: usize,
    /// So many it takes.
    pub of: u16,
}

/// Tells whether what a person's sign-off lacks takes more assessors than have the right to assess here.
#[must_use]
pub fn too_few(
    view: View<'_>,
    person: PersonCode,
    workflow: &Id,
    missing: &[Need],
) -> Option<TooFew> {
    let of = missing.iter().find_map(|need| match need {
        Need::Assessors(count) => Some(count.of),
        _ => None,
    })?;
    let staff = view.ledger.staff();
    let assess = &[Authority::Assess];
    let others = staff.people().filter(|one| *one != person);
    let here = others.filter(|one| staff.grant(*one, assess, Some(workflow)).is_some());
    let here = here.count();
    (here < usize::from(of)).then_some(TooFew { here, of })
}

impl View<'_> {
    /// Whether a person who may assess could be signed off as the first assessor of a scope: nobody else is signed off there (rule R7).
    #[must_use]
    pub fn could_be_first(&self, person: PersonCode, scope: &Scope) -> bool {
        let assess = &[Authority::Assess];
        let staff = self.ledger.staff();
        let others = || self.ledger.people().filter(|other| *other != person);
        staff.grant(person, assess, Some(&scope.workflow)).is_some()
            && !others().any(|other| self.is_in_force(other, scope))
    }
}
