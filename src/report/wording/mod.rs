//! Words for findings: what it was, what was expected, what to do next time.

mod expected;
mod next;
mod what;

use super::names::Names;
use crate::bench::Outcome;
use crate::rehearsal::finding::Words as Where;
use crate::syllabus::module::{Disturbance, Harm, Miss, Module, Never, Severity, TimeRule};
use crate::syllabus::plan::TaskKeeping;
use crate::text::{Either, Value, Words};
use crate::units::{Millis, Ppm};

/// The word for a severity.
pub(super) fn severity(severity: Severity, words: &Words) -> String {
    words.say(
        match severity {
            Severity::Critical => "debrief-critical",
            Severity::Major => "debrief-major",
            Severity::Minor => "debrief-minor",
        },
        &[],
    )
}

/// A quantity as a share of another, to a tenth of a percent.
pub(super) fn share(part: Millis, whole: Millis) -> Ppm {
    let whole = i128::from(whole.0.max(1));
    let tenths = (i128::from(part.0) * 1000 + whole / 2) / whole;
    Ppm(i64::try_from(tenths)
        .unwrap_or(i64::MAX / 1000)
        .saturating_mul(1000))
}

/// A sum of times to the second, as nobody reads a sum finer.
pub(super) fn to_the_second(time: Millis) -> Millis {
    Millis((time.0 + 500).div_euclid(1000) * 1000)
}

/// What the module itself says about a finding.
pub(super) fn module_text(module: &Module, at: Where) -> Option<&str> {
    let errors = |step: usize| &module.steps[step].errors;
    let never = |rule: usize| -> &Miss {
        match &module.never[rule] {
            Never::MoreThan { miss, .. } | Never::Before { miss, .. } => miss,
            Never::Act(act) => &act.miss,
        }
    };
    let miss = match at {
        Where::None => None,
        Where::Skipped(step) => errors(step).skipped.as_ref(),
        Where::Misplaced(step) => errors(step).misplaced.as_ref(),
        Where::Unready(step) => errors(step).unready.as_ref(),
        Where::Short(step, tier) => errors(step).short.get(tier).map(|tier| &tier.miss),
        Where::Long(step, tier) => errors(step).long.get(tier).map(|tier| &tier.miss),
        Where::Option(step, way, option) => {
            module.steps[step].ways[way].options[option].wrong.as_ref()
        }
        Where::TimeRule(rule) => Some(match &module.time_rules[rule] {
            TimeRule::Gap { miss, .. } | TimeRule::Cap { miss, .. } => miss,
        }),
        Where::Never(rule) => Some(never(rule)),
        Where::Guard(guard) => Some(&module.guards[guard].miss),
        Where::Response(disturbance, response) => module.disturbances[disturbance].responses
            [response]
            .wrong
            .as_ref(),
        Where::CarryOn(disturbance) => module.disturbances[disturbance].carry_on.as_ref(),
        Where::Consequence(one) => return Some(&module.consequences[one].text),
    };
    miss.map(|miss| miss.text.as_str())
        .filter(|text| !text.is_empty())
}

/// The words for what the bench ended with.
pub(super) fn harm(harm: Harm, words: &Words) -> String {
    words.say(
        match harm {
            Harm::Veil => "debrief-harm-veil",
            Harm::LockedVeil => "debrief-harm-locked-veil",
            Harm::SocketGel => "debrief-harm-socket-gel",
            Harm::Softened => "debrief-harm-softened",
            Harm::DampJoint => "debrief-harm-damp-joint",
            Harm::WeakPrimer => "debrief-harm-weak-primer",
            Harm::NoPrimer => "debrief-harm-no-primer",
            Harm::WarmPrimer => "debrief-harm-warm-primer",
            Harm::HotPrimer => "debrief-harm-hot-primer",
            Harm::WetPrimer => "debrief-harm-wet-primer",
            Harm::StarvedJoint => "debrief-harm-starved-joint",
            Harm::GelledSocket => "debrief-harm-gelled-socket",
            Harm::HardFlash => "debrief-harm-hard-flash",
            Harm::MovedTooth => "debrief-harm-moved-tooth",
            Harm::WrongTooth => "debrief-harm-wrong-tooth",
            Harm::WrongProduct => "debrief-harm-wrong-product",
            Harm::OpenSeam => "debrief-harm-open-seam",
            Harm::UnderCured => "debrief-harm-under-cured",
            Harm::Warped => "debrief-harm-warped",
            Harm::PolishedTissue => "debrief-harm-polished-tissue",
            Harm::Scratched => "debrief-harm-scratched",
            Harm::VapourNearHeat => "debrief-harm-vapour-near-heat",
            Harm::VapourPeak => "debrief-harm-vapour-peak",
            Harm::SkinContact => "debrief-harm-skin-contact",
            Harm::EyeExposure => "debrief-harm-eye-exposure",
            Harm::Spoiled => "debrief-harm-spoiled",
        },
        &[],
    )
}

/// Vapour by volume, in parts per million.
pub(super) fn vapour(level: Ppm, words: &Words) -> String {
    words.say("debrief-vapour", &[("number", Value::Count(level.0))])
}

/// Words for findings of one run.
#[derive(Clone, Copy)]
pub(super) struct Wording<'a> {
    pub(super) names: Names<'a>,
    pub(super) outcome: &'a Outcome,
}

impl Wording<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.names.words.say(id, values)
    }

    fn act(&self, rule: usize) -> &str {
        match &self.names.module.never[rule] {
            Never::Act(act) => &act.title,
            _ => "",
        }
    }

    /// The sign or look that a task's time is kept by.
    fn sign(&self, task: usize) -> String {
        match &self.names.plan.tasks[task].keeping {
            Some(TaskKeeping::Watch { sign, .. }) => self.names.cells(sign),
            Some(TaskKeeping::Judge { until, .. }) => {
                let looks: Vec<String> = until.iter().map(|one| self.names.cells(one)).collect();
                self.names.words.write(&looks.into())
            }
            _ => String::new(),
        }
    }
}

/// The titles of the options that are right.
pub(super) fn right_options(way: &crate::syllabus::module::Way) -> Either {
    let right = way.options.iter().filter(|one| one.wrong.is_none());
    Either(right.map(|one| one.title.clone()).collect())
}

/// The titles of the responses that are right.
pub(super) fn right_responses(one: &Disturbance) -> Either {
    let right = one.responses.iter().filter(|one| one.wrong.is_none());
    Either(right.map(|one| one.title.clone()).collect())
}
