//! What others saw of a person's work: supervised cases, observations, evaluations.

use super::{Amending, Kind, Right, SignedKind, Subject};
use crate::record::member::{inner_members, members, words};
use crate::record::scope::{Authority, Edition, Id, Meaning, Scope};
use crate::units::{Digest, PersonCode, Stamp};

members! {
    /// Somebody supervises the person for a while. Signed by the supervisor.
    SupervisedBy {
        /// Who is supervised.
        "person" person: PersonCode,
        /// At what.
        "scope" scope: Scope,
        /// From when…
        "from" from: Stamp,
        /// …until when, this instant included.
        "until" until: Stamp,
    }
}

members! {
    /// The supervisor checked a case that the person worked on.
    CaseChecked {
        /// Who worked on it.
        "person" person: PersonCode,
        /// At what.
        "scope" scope: Scope,
        /// By which edition.
        "edition" edition: Edition,
        /// Which case.
        "case" case: Id,
        /// What the supervisor thinks of it.
        "judgement" judgement: Judgement,
    }
}

words! {
    /// How a step went that somebody watched.
    Seen {
        /// Done unaided.
        "done" Done,
        /// Done after a prompt.
        "prompted" Prompted,
        /// Not done, or done wrongly.
        "not-done" NotDone,
        /// Not watched.
        "not-seen" NotSeen,
    }
}

words! {
    /// The judgement of the whole.
    Judgement {
        /// Acceptable.
        "acceptable" Acceptable,
        /// Not acceptable.
        "not-acceptable" NotAcceptable,
    }
}

words! {
    /// The ways of assessing. Source: 42 CFR 493.1413(b)(8), in a dental laboratory's words.
    Method {
        /// A real case was watched.
        "direct" Direct,
        /// What the person writes down was looked through.
        "records" Records,
        /// Logs and checks of the equipment were looked through.
        "checks" Checks,
        /// Maintenance was watched.
        "maintenance" Maintenance,
        /// Pieces whose faults were known to the assessor only.
        "blind-sample" BlindSample,
        /// A problem was solved, aloud.
        "problem" Problem,
    }
}

inner_members! {
    /// One step, row or piece that was watched.
    StepSeen {
        /// The step.
        "step" step: Id,
        /// Whether it is critical.
        "critical" critical: bool,
        /// How it went.
        "seen" seen: Seen,
    }
}

members! {
    /// An assessor watched the person's work.
    Observed {
        /// Who was watched.
        "person" person: PersonCode,
        /// At what.
        "scope" scope: Scope,
        /// By which edition.
        "edition" edition: Edition,
        /// In which way.
        "method" method: Method,
        /// On which case.
        "case" case: Id,
        /// Step by step.
        "steps" steps: Vec<StepSeen>,
        /// The judgement of the whole.
        "judgement" judgement: Judgement,
        /// The digest of a free remark, which is kept apart and can be erased.
        "remark" remark: Option<Digest>,
        /// The digest of the sheet with its times, which is kept apart and can be erased.
        "taps" taps: Option<Digest>,
        /// Set where it was written down from paper later.
        "transcribed" transcribed: Option<bool>,
    }
}

words! {
    /// When it was asked whether training worked.
    Stage {
        /// At the assessment.
        "at-assessment" AtAssessment,
        /// At work, some time after the sign-off.
        "later" Later,
    }
}

words! {
    /// Whether training worked.
    Effect {
        /// It did.
        "effective" Effective,
        /// It did not.
        "not-effective" NotEffective,
    }
}

members! {
    /// An assessor evaluated whether the person's training worked.
    Evaluated {
        /// Whose training.
        "person" person: PersonCode,
        /// For what.
        "scope" scope: Scope,
        /// On which edition.
        "edition" edition: Edition,
        /// When it was asked.
        "stage" stage: Stage,
        /// What was found.
        "effect" effect: Effect,
    }
}

macro_rules! of_scope {
    ($($kind:ident $amending:ident $meaning:ident [$($authority:ident),*] $($document:ident)*;)*) => {$(
        impl Kind for $kind {
            fn subject(&self) -> Subject<'_> {
                Subject::scope(self.person, &self.scope)
            }

            fn documents(&self) -> Vec<(&'static str, Digest)> {
                let named: [(&'static str, Option<Digest>); _] = [$((stringify!($document), self.$document)),*];
                let named = named.into_iter();
                named.filter_map(|(name, digest)| Some((name, digest?))).collect()
            }

            fn amending(&self) -> Amending {
                Amending::$amending
            }
        }

        impl SignedKind for $kind {
            fn right(&self) -> Right<'_> {
                Right::of(&[$(Authority::$authority),*])
                    .within(&self.scope.workflow)
                    .not(self.person)
            }

            fn meanings(&self) -> &'static [Meaning] {
                &[Meaning::$meaning]
            }
        }
    )*};
}

// A supervisor needs no authority but to be signed off, which `standing` knows.
of_scope! {
    SupervisedBy Free Approved [];
    CaseChecked Free Reviewed [];
    Observed Critical Observed [Assess] taps remark;
    Evaluated Critical Assessed [Assess];
}
