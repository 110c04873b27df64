//! Everything that is signed on screens: a form for each deed. A deed is one line of [`form`] and its rows and its building in a file beside this one.

mod amending;
mod assessing;
mod deciding;
mod keys;
mod offers;
mod publishing;
mod something;
mod staffing;
mod training;

use super::answers::Row;
use super::form::{Build, Form, Not};
use crate::app::System;
use crate::app::laboratory::Deed;
use crate::record::scope::{Id, Scope};
use crate::record::seal::Seal;
use crate::tui::screen::{Desk, Notice, Turn};
use crate::units::PersonCode;

use super::signing::Signing;
pub use something::SignSomething;

/// What can be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A need is recorded.
    Assign,
    /// Somebody has read an edition.
    ConfirmRead,
    /// Somebody takes note of a change.
    ConfirmChange,
    /// Somebody was trained.
    Train,
    /// Somebody has shown how to protect themself.
    Protection,
    /// Somebody supervises a person.
    Supervise,
    /// A supervised case was checked.
    CheckCase,
    /// Whether training worked.
    Evaluate,
    /// A sign-off on what assessors saw.
    SignOff,
    /// The sign-off of the first who can assess.
    FirstAssessor,
    /// A sign-off on what somebody from outside saw.
    Outside,
    /// A person is stopped.
    Suspend,
    /// A suspension ends.
    Reinstate,
    /// A sign-off ends.
    Withdraw,
    /// A person has to be assessed again.
    CallIn,
    /// A member of an entry is put right.
    Correct,
    /// An entry counts for nothing.
    Void,
    /// A second signature.
    Countersign,
    /// The laboratory's numbers.
    Policy,
    /// A revision is adopted.
    Adopt,
    /// A workflow is no longer done.
    Retire,
    /// A person joins.
    Join,
    /// A right is given.
    Grant,
    /// A right is taken back.
    Revoke,
    /// A person leaves.
    Leave,
    /// A key is issued.
    IssueKey,
    /// A person accepts their key.
    AcceptKey,
    /// A key is lost.
    LoseKey,
    /// A new passphrase.
    Passphrase,
}

/// What a deed is about, as far as the screen that opens it knows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct About {
    /// Whom.
    pub person: Option<PersonCode>,
    /// Which scope.
    pub scope: Option<Scope>,
    /// Which workflow.
    pub workflow: Option<Id>,
    /// Which entry.
    pub entry: Option<Seal>,
}

/// Opens the form of a deed, filled in as far as is known.
pub fn open<S: System>(what: What, about: &About, desk: &mut Desk<S>) -> Turn<S> {
    match form(what, about, desk) {
        Some(form) => Turn::Open(Box::new(form)),
        None => Turn::Tell(Notice::new(vec![desk.say("screens-signing-nobody", &[])])),
    }
}

/// The rows of a deed.
type Rows<S> = fn(&About, &mut Desk<S>) -> Vec<Row>;

/// The form of a deed; none without an open laboratory.
fn form<S: System>(what: What, about: &About, desk: &mut Desk<S>) -> Option<Form<S>> {
    desk.office()?;
    let (rows, build): (Rows<S>, Build<S>) = match what {
        What::Assign => (training::assign_rows, training::assign),
        What::ConfirmRead => (training::own_rows, training::read),
        What::ConfirmChange => (training::own_rows, training::change),
        What::Train => (training::rows, training::train),
        What::Protection => (training::rows, training::protection),
        What::Supervise => (assessing::supervise_rows, assessing::supervise),
        What::CheckCase => (assessing::case_rows, assessing::check_case),
        What::Evaluate => (assessing::evaluate_rows, assessing::evaluate),
        What::SignOff if about.scope.is_none() || about.person.is_none() => {
            (deciding::whom_rows, deciding::whom_to_sign_off)
        }
        What::SignOff => (deciding::sign_off_rows, deciding::sign_off),
        What::FirstAssessor => (deciding::first_rows, deciding::first_assessor),
        What::Outside => (deciding::outside_rows, deciding::outside),
        What::Suspend => (deciding::suspend_rows, deciding::suspend),
        What::Reinstate => (deciding::reinstate_rows, deciding::reinstate),
        What::Withdraw => (deciding::withdraw_rows, deciding::withdraw),
        What::CallIn => (deciding::call_in_rows, deciding::call_in),
        What::Correct => (amending::correct_rows, amending::correct),
        What::Void => (amending::void_rows, amending::void),
        What::Countersign => (amending::countersign_rows, amending::countersign),
        What::Policy => (publishing::policy_rows, publishing::policy),
        What::Adopt => (publishing::adopt_rows, publishing::adopt),
        What::Retire => (publishing::retire_rows, publishing::retire),
        What::Join => (staffing::join_rows, staffing::join),
        What::Grant => (staffing::grant_rows, staffing::grant),
        What::Revoke => (staffing::revoke_rows, staffing::revoke),
        What::Leave => (staffing::leave_rows, staffing::leave),
        What::IssueKey => (keys::issue_rows, keys::issue),
        What::AcceptKey => (keys::accept_rows, keys::accept),
        What::LoseKey => (keys::lose_rows, keys::lose),
        What::Passphrase => (keys::passphrase_rows, keys::passphrase),
    };
    let rows = rows(about, desk);
    Some(Form::new(what.title(), rows, build))
}

/// Shows what is to be signed.
fn to_sign<S: System>(deed: Deed, desk: &mut Desk<S>) -> Result<Turn<S>, Not> {
    Ok(Signing::open(deed, Vec::new(), desk))
}

impl What {
    /// Every deed, in the order and groups in which they are offered.
    pub(super) const GROUPS: [(&'static str, &'static [What]); 6] = [
        (
            "deeds-group-training",
            &[
                What::Assign,
                What::ConfirmRead,
                What::ConfirmChange,
                What::Train,
                What::Protection,
            ],
        ),
        (
            "deeds-group-work",
            &[What::Supervise, What::CheckCase, What::Evaluate],
        ),
        (
            "deeds-group-deciding",
            &[
                What::SignOff,
                What::FirstAssessor,
                What::Outside,
                What::Suspend,
                What::Reinstate,
                What::Withdraw,
                What::CallIn,
            ],
        ),
        (
            "deeds-group-amending",
            &[What::Countersign, What::Correct, What::Void],
        ),
        (
            "deeds-group-everybody",
            &[What::Adopt, What::Retire, What::Policy],
        ),
        (
            "deeds-group-people",
            &[
                What::Join,
                What::Grant,
                What::Revoke,
                What::Leave,
                What::IssueKey,
                What::AcceptKey,
                What::LoseKey,
                What::Passphrase,
            ],
        ),
    ];

    /// The message that names it, whose part `about` explains it.
    pub(super) fn title(self) -> &'static str {
        match self {
            What::Assign => "deeds-assign",
            What::ConfirmRead => "deeds-confirm-read",
            What::ConfirmChange => "deeds-confirm-change",
            What::Train => "deeds-train",
            What::Protection => "deeds-protection",
            What::Supervise => "deeds-supervise",
            What::CheckCase => "deeds-check-case",
            What::Evaluate => "deeds-evaluate",
            What::SignOff => "deeds-sign-off",
            What::FirstAssessor => "deeds-first-assessor",
            What::Outside => "deeds-outside",
            What::Suspend => "deeds-suspend",
            What::Reinstate => "deeds-reinstate",
            What::Withdraw => "deeds-withdraw",
            What::CallIn => "deeds-call-in",
            What::Correct => "deeds-correct",
            What::Void => "deeds-void",
            What::Countersign => "deeds-countersign",
            What::Policy => "deeds-policy",
            What::Adopt => "deeds-adopt",
            What::Retire => "deeds-retire",
            What::Join => "deeds-join",
            What::Grant => "deeds-grant",
            What::Revoke => "deeds-revoke",
            What::Leave => "deeds-leave",
            What::IssueKey => "deeds-issue-key",
            What::AcceptKey => "deeds-accept-key",
            What::LoseKey => "deeds-lose-key",
            What::Passphrase => "deeds-passphrase",
        }
    }

    /// The word of the kind of entry that it makes; none where nobody needs a right for it.
    pub(super) fn kind(self) -> &'static str {
        match self {
            What::Assign => "assigned",
            What::Train => "trained",
            What::Protection => "protection-shown",
            What::Evaluate => "evaluated",
            What::SignOff | What::FirstAssessor | What::Outside => "signed-off",
            What::Suspend => "suspended",
            What::Reinstate => "reinstated",
            // Whoever made an entry may put it right, and may give up what they were signed off for.
            What::Withdraw | What::Correct | What::Void | What::Countersign => "",
            What::CallIn => "called-in",
            What::Policy => "policy-set",
            What::Adopt => "revision-adopted",
            What::Retire => "workflow-retired",
            What::Join => "joined",
            What::Grant => "granted",
            What::Revoke => "revoked",
            What::Leave => "left",
            What::IssueKey => "key-issued",
            What::LoseKey => "key-lost",
            What::ConfirmRead
            | What::ConfirmChange
            | What::Supervise
            | What::CheckCase
            | What::AcceptKey
            | What::Passphrase => "",
        }
    }
}
