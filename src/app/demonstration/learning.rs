//! The acts on the way from the need to the sign-off.

use super::acts::Went;
use super::calendar::{at, day};
use super::cast::{OWNER, Who, Work};
use super::telling::{Telling, parsed};
use crate::app::laboratory::{Deed, Keeping, Problem};
use crate::record::entry::{
    Assigned, Basis, CaseChecked, Drilled, Effect, Ending, Established, Evaluated, Help,
    HowEstablished, Judgement, Method, Observed, ProtectionShown, Read, Rehearsed, Seen, SignedOff,
    Stage, StepSeen, SupervisedBy, Trained,
};
use crate::units::{Day, Stamp};

/// The end of the working day, in minutes since midnight.
const END_OF_DAY: i64 = 17 * 60;
/// The language in which people are trained there.
const LANGUAGE: &str = "en-us";

/// From this day on nobody has taken note yet of the runs in which they were watched.
const ACKNOWLEDGED_UNTIL: &str = "2026-06-08";

impl Telling<'_> {
    pub(super) fn assign(&mut self, who: Who, work: Work, by: Who) -> Result<(), Problem> {
        let assigned = Assigned {
            person: self.code(who),
            scope: Telling::scope(work)?,
        };
        self.sign(by, Deed::now(assigned)).map(drop)
    }

    /// What is read and trained may be ahead of the day from which it holds.
    pub(super) fn read(&mut self, who: Who, work: Work) -> Result<(), Problem> {
        let workflow = Telling::id(work)?;
        let read = Read {
            person: self.code(who),
            edition: self.laboratory.newest_edition(&workflow)?,
            workflow,
        };
        self.sign(who, Deed::now(read)).map(drop)
    }

    pub(super) fn train(&mut self, who: Who, work: Work, by: Who) -> Result<(), Problem> {
        let workflow = Telling::id(work)?;
        let trained = Trained {
            person: self.code(who),
            edition: self.laboratory.newest_edition(&workflow)?,
            workflow,
            language: parsed(LANGUAGE)?,
        };
        self.sign(by, Deed::now(trained)).map(drop)
    }

    pub(super) fn protect(&mut self, who: Who, work: Work, by: Who) -> Result<(), Problem> {
        let shown = ProtectionShown {
            person: self.code(who),
            workflow: Telling::id(work)?,
            edition: self.edition(work)?,
        };
        self.sign(by, Deed::now(shown)).map(drop)
    }

    pub(super) fn drill(&mut self, who: Who, work: Work, drill: &str) -> Result<(), Problem> {
        let right = u16::try_from(self.throw(5, 10)).unwrap_or(0);
        let drilled = Drilled {
            person: self.code(who),
            workflow: Telling::id(work)?,
            edition: self.edition(work)?,
            drill: parsed(drill)?,
            right,
            of: 10,
        };
        self.note(drilled, Some(who))
    }

    /// No run stands behind it: what is attached says so.
    pub(super) fn rehearse(
        &mut self,
        who: Who,
        work: Work,
        help: Help,
        ending: Ending,
    ) -> Result<(), Problem> {
        let said = self.words.say("demonstration-run", &[]);
        let (now, module) = (self.now(), work.module());
        let text = format!("{said}\n{} {module} {now}\n", self.code(who));
        let rehearsed = Rehearsed {
            person: self.code(who),
            workflow: Telling::id(work)?,
            edition: self.edition(work)?,
            help,
            ending,
            run: self.attach(&text, Keeping::Erasable)?,
        };
        self.note(rehearsed, Some(who))
    }

    /// Signed off by the owner on what was learnt outside.
    pub(super) fn first(&mut self, who: Who, work: Work, from: Day) -> Result<(), Problem> {
        let said = self.words.say("demonstration-document", &[]);
        let text = format!("{said}\n{} {}\n", self.code(who), work.module());
        let proof = self.attach(&text, Keeping::Kept)?;
        let signed = SignedOff {
            person: self.code(who),
            scope: Telling::scope(work)?,
            edition: self.edition(work)?,
            valid_from: at(from, 8 * 60),
            basis: Basis::FirstAssessor(Established {
                how: HowEstablished::ExternalTraining,
                proof,
            }),
        };
        self.sign(OWNER, Deed::now(signed)).map(drop)
    }

    pub(super) fn supervise(
        &mut self,
        who: Who,
        work: Work,
        by: Who,
        until: Day,
    ) -> Result<(), Problem> {
        let named = SupervisedBy {
            person: self.code(who),
            scope: Telling::scope(work)?,
            from: self.now(),
            until: at(until, END_OF_DAY),
        };
        self.sign(by, Deed::now(named)).map(drop)
    }

    pub(super) fn case(
        &mut self,
        who: Who,
        work: Work,
        by: Who,
        good: bool,
    ) -> Result<(), Problem> {
        let checked = CaseChecked {
            person: self.code(who),
            scope: Telling::scope(work)?,
            edition: self.edition(work)?,
            case: self.next_case()?,
            judgement: if good {
                Judgement::Acceptable
            } else {
                Judgement::NotAcceptable
            },
        };
        self.sign(by, Deed::now(checked)).map(drop)
    }

    /// A run at the bench, written down when it is over; or later, from paper.
    pub(super) fn observe(
        &mut self,
        who: Who,
        work: Work,
        by: Who,
        went: Went,
        then: Option<Stamp>,
    ) -> Result<(), Problem> {
        let seen = Observed {
            person: self.code(who),
            scope: Telling::scope(work)?,
            edition: self.edition(work)?,
            method: Method::Direct,
            case: self.next_case()?,
            steps: self.steps(work, went)?,
            judgement: match went {
                Went::Clean | Went::Prompted => Judgement::Acceptable,
                Went::Failed => Judgement::NotAcceptable,
            },
            remark: None,
            taps: None,
            transcribed: then.map(|_| true),
        };
        let reason = match then {
            Some(_) => Some(self.why("demonstration-late")?),
            None => None,
        };
        let entry = self.sign(by, Deed::now(seen).at(then).because(reason))?;
        // The newest ones still wait for it.
        if self.now().day() < day(ACKNOWLEDGED_UNTIL) {
            self.acknowledge(who, entry.seal())?;
        }
        Ok(())
    }

    /// Every step as it was seen; one that is critical is prompted or missed where the run was not clean.
    fn steps(&mut self, work: Work, went: Went) -> Result<Vec<StepSeen>, Problem> {
        let module = &self.taken[work as usize].module;
        let critical: Vec<usize> = (0..module.steps.len())
            .filter(|&at| module.steps[at].critical)
            .collect();
        let last = i64::try_from(critical.len()).unwrap_or(1) - 1;
        let drawn = usize::try_from(self.throw(0, last)).unwrap_or(0);
        let slipped = critical.get(drawn).copied();
        let module = &self.taken[work as usize].module;
        let steps = module.steps.iter().enumerate().map(|(at, step)| {
            let seen = match went {
                Went::Prompted if Some(at) == slipped => Seen::Prompted,
                Went::Failed if Some(at) == slipped => Seen::NotDone,
                _ => Seen::Done,
            };
            Ok(StepSeen {
                step: parsed(&step.id.value)?,
                critical: step.critical,
                seen,
            })
        });
        steps.collect()
    }

    pub(super) fn evaluate(
        &mut self,
        who: Who,
        work: Work,
        by: Who,
        stage: Stage,
    ) -> Result<(), Problem> {
        let evaluated = Evaluated {
            person: self.code(who),
            scope: Telling::scope(work)?,
            edition: self.edition(work)?,
            stage,
            effect: Effect::Effective,
        };
        self.sign(by, Deed::now(evaluated)).map(drop)
    }

    /// On everything that was seen since the sign-off before.
    pub(super) fn sign_off(&mut self, who: Who, work: Work, by: Who) -> Result<(), Problem> {
        let (person, scope) = (self.code(who), Telling::scope(work)?);
        let edition = self.edition(work)?;
        let evidence = self.laboratory.evidence(person, &scope);
        let signed = SignedOff {
            person,
            scope,
            edition,
            valid_from: self.now(),
            basis: Basis::Evidence(evidence),
        };
        self.sign(by, Deed::now(signed)).map(drop)
    }
}
