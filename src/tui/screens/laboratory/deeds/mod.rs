//! Everything that can be signed, a form for each: what it asks for, and the deed that comes of it.
//!
//! A further one is a word in [`What`], its line in `What::form`, its function in the file of its group, and its words.

mod amending;
mod deciding;
mod drawing;
mod fields;
mod form;
mod keeping;
mod learning;
mod list;
mod offered;
mod picking;
mod row;
mod staff;
mod working;

use crate::app::System;
use crate::app::laboratory::Deed;
use crate::record::scope::{Id, Scope};
use crate::record::seal::Seal;
use crate::tui::screen::{Desk, Notice, Turn};
use crate::units::PersonCode;
use fields::{Answers, Asked};
use form::Form;

pub use list::Deeds;

/// What can be signed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A person needs a scope.
    Assign,
    /// One has read an edition.
    Read,
    /// One has taken note of a change.
    Change,
    /// A person was trained.
    Train,
    /// A person has shown how to protect themself.
    Protection,
    /// A person is supervised by whoever signs.
    Supervise,
    /// A case under supervision was checked.
    CheckCase,
    /// Whether training worked.
    Evaluate,
    /// A person is competent.
    SignOff,
    /// The same, of the first who can assess.
    FirstAssessor,
    /// The same, on evidence from outside.
    Outside,
    /// A person is stopped.
    Suspend,
    /// A person goes on.
    Reinstate,
    /// A sign-off ends.
    Withdraw,
    /// A person has to be assessed again.
    CallIn,
    /// A member of an entry was wrong.
    Correct,
    /// An entry does not count.
    Void,
    /// A second signature.
    Countersign,
    /// A revision holds from now on.
    Adopt,
    /// A workflow is no longer done.
    Retire,
    /// The laboratory's numbers.
    Policy,
    /// The entries of a while were gone through.
    Review,
    /// A person may do something.
    Grant,
    /// A person may no longer do something.
    Revoke,
    /// A person left.
    Leave,
    /// A key is lost.
    KeyLost,
}

/// What makes the deed of the answers.
type MakeOne<S> = fn(&Answers<'_>, &mut Desk<S>) -> Result<Deed, Refused>;

/// What makes one deed of the answers, or several that are signed with one passphrase.
enum Build<S: System> {
    One(MakeOne<S>),
    Several(fn(&Answers<'_>) -> Result<Vec<Deed>, Refused>),
}

/// Why the answers make no deed.
pub(super) enum Refused {
    /// This field cannot stand so.
    Field(&'static str),
    /// Something else speaks against it.
    Told(Notice),
}

impl From<&'static str> for Refused {
    fn from(field: &'static str) -> Refused {
        Refused::Field(field)
    }
}

/// What is known already when a form is opened.
#[derive(Clone, Debug, Default)]
pub struct About {
    /// Whom it is about.
    pub person: Option<PersonCode>,
    /// In which scope.
    pub scope: Option<Scope>,
    /// In which workflow.
    pub workflow: Option<Id>,
    /// Which entry.
    pub entry: Option<Seal>,
}

impl About {
    /// A person.
    #[must_use]
    pub fn person(person: PersonCode) -> About {
        About {
            person: Some(person),
            ..About::default()
        }
    }

    /// An entry.
    #[must_use]
    pub fn entry(seal: Seal) -> About {
        About {
            entry: Some(seal),
            ..About::default()
        }
    }
}

/// The groups in which deeds are listed, with their headings.
pub(super) const GROUPS: [(&str, &[What]); 5] = [
    (
        "deeds-group-learning",
        &[
            What::Assign,
            What::Read,
            What::Change,
            What::Train,
            What::Protection,
        ],
    ),
    (
        "deeds-group-working",
        &[What::Supervise, What::CheckCase, What::Evaluate],
    ),
    (
        "deeds-group-deciding",
        &[
            What::SignOff,
            What::FirstAssessor,
            What::Outside,
            What::CallIn,
            What::Suspend,
            What::Reinstate,
            What::Withdraw,
        ],
    ),
    (
        "deeds-group-amending",
        &[What::Countersign, What::Correct, What::Void],
    ),
    (
        "deeds-group-keeping",
        &[
            What::Adopt,
            What::Retire,
            What::Policy,
            What::Review,
            What::Grant,
            What::Revoke,
            What::Leave,
            What::KeyLost,
        ],
    ),
];

impl What {
    /// Everything that can be signed with a form, in the order of the list.
    pub fn all() -> impl Iterator<Item = What> {
        GROUPS.iter().flat_map(|(_, deeds)| deeds.iter().copied())
    }

    /// The word that its messages are found by.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            What::Assign => "assign",
            What::Read => "read",
            What::Change => "change",
            What::Train => "train",
            What::Protection => "protection",
            What::Supervise => "supervise",
            What::CheckCase => "check-case",
            What::Evaluate => "evaluate",
            What::SignOff => "sign-off",
            What::FirstAssessor => "first-assessor",
            What::Outside => "outside",
            What::Suspend => "suspend",
            What::Reinstate => "reinstate",
            What::Withdraw => "withdraw",
            What::CallIn => "call-in",
            What::Correct => "correct",
            What::Void => "void",
            What::Countersign => "countersign",
            What::Adopt => "adopt",
            What::Retire => "retire",
            What::Policy => "policy",
            What::Review => "review",
            What::Grant => "grant",
            What::Revoke => "revoke",
            What::Leave => "leave",
            What::KeyLost => "key-lost",
        }
    }

    /// The word of the kind of entry that it becomes.
    fn kind(self) -> &'static str {
        match self {
            What::Assign => "assigned",
            What::Read => "read",
            What::Change => "awareness-acknowledged",
            What::Train => "trained",
            What::Protection => "protection-shown",
            What::Supervise => "supervised-by",
            What::CheckCase => "case-checked",
            What::Evaluate => "evaluated",
            What::SignOff | What::FirstAssessor | What::Outside => "signed-off",
            What::Suspend => "suspended",
            What::Reinstate => "reinstated",
            What::Withdraw => "withdrawn",
            What::CallIn => "called-in",
            What::Correct => "corrected",
            What::Void => "voided",
            What::Countersign => "countersigned",
            What::Adopt => "revision-adopted",
            What::Retire => "workflow-retired",
            What::Policy => "policy-set",
            What::Review => "trail-reviewed",
            What::Grant => "granted",
            What::Revoke => "revoked",
            What::Leave => "left",
            What::KeyLost => "key-lost",
        }
    }

    /// What its form asks for, and what makes the deed of the answers.
    fn form<S: System>(self) -> (&'static [Asked], Build<S>) {
        let (asked, build): (&'static [Asked], MakeOne<S>) = match self {
            What::Assign => (learning::ASSIGN, learning::assign),
            What::Read => (learning::READ, learning::read),
            What::Change => (learning::READ, learning::change),
            What::Train => (learning::TRAIN, learning::train),
            What::Protection => (learning::TRAIN, learning::protection),
            What::Supervise => (working::SUPERVISE, working::supervise),
            What::CheckCase => (working::CHECK_CASE, working::check_case),
            What::Evaluate => (working::EVALUATE, working::evaluate),
            What::SignOff => (deciding::SIGN_OFF, deciding::sign_off),
            What::FirstAssessor => (deciding::FIRST_ASSESSOR, deciding::first_assessor),
            What::Outside => (deciding::OUTSIDE, deciding::outside),
            What::Suspend => (deciding::SUSPEND, deciding::suspend),
            What::Reinstate => (deciding::REINSTATE, deciding::reinstate),
            What::Withdraw => (deciding::WITHDRAW, deciding::withdraw),
            What::CallIn => (deciding::CALL_IN, deciding::call_in),
            What::Correct => (amending::CORRECT, amending::correct),
            What::Void => (amending::VOID, amending::void),
            What::Countersign => (amending::COUNTERSIGN, amending::countersign),
            What::Adopt => (keeping::ADOPT, keeping::adopt),
            What::Retire => (keeping::RETIRE, keeping::retire),
            What::Policy => (keeping::POLICY, keeping::policy),
            What::Review => (keeping::REVIEW, keeping::review),
            What::Grant => return (staff::GRANT, Build::Several(staff::grant)),
            What::Revoke => (staff::REVOKE, staff::revoke),
            What::Leave => (staff::LEAVE, staff::leave),
            What::KeyLost => (staff::KEY_LOST, staff::key_lost),
        };
        (asked, Build::One(build))
    }

    /// What is said once it is signed, where something has to follow.
    fn next(self) -> Option<&'static str> {
        match self {
            What::Reinstate | What::Adopt => Some("deeds-then-second"),
            What::Correct | What::Void => Some("deeds-then-perhaps-second"),
            _ => None,
        }
    }
}

/// Opens the form of a deed with what is known already.
pub fn open<S: System>(what: What, about: &About, desk: &mut Desk<S>) -> Turn<S> {
    Turn::Open(Box::new(Form::new(what, about, desk)))
}
