//! Whether each thing by itself makes sense: aspects, ways, tiers, disturbances, consequences, hazards, cautions.

use super::operations::is_station;
use super::references::misses;
use super::{CheckFault, Found, NameKind, Surroundings, note};
use crate::syllabus::digest::hazards_of;
use crate::syllabus::module::{
    Aspect, CaseRange, GaugeKind, Keeping, LINE_WORDS, Module, Name, Never, PartKind, Repeat,
    RepeatOver, SignOff, Step, Tier,
};
use crate::units::Millis;

/// Values are bits of one word in a plan, and the last bit is kept for "none of these".
const MOST_VALUES: usize = 31;

pub(super) fn check(module: &Module, around: &Surroundings<'_>, found: &mut Found) {
    for aspect in &module.aspects {
        check_aspect(module, aspect, found);
    }
    for (index, repeat) in module.repeats.iter().enumerate() {
        if !is_resolved(module, repeat, index) {
            let repeat_id = repeat.id.value.clone();
            note(
                found,
                repeat.id.at,
                CheckFault::RepeatUnresolved { repeat: repeat_id },
            );
        }
    }
    for step in &module.steps {
        check_step(module, step, found);
        check_id(&step.id, found);
    }
    for never in &module.never {
        if let Never::Act(act) = never {
            check_id(&act.id, found);
            check_makes(&act.makes, found);
        }
    }
    for one in &module.disturbances {
        let all_wrong = one.responses.iter().all(|it| it.wrong.is_some());
        if all_wrong && one.carry_on.is_some() {
            let disturbance = one.id.value.clone();
            note(
                found,
                one.id.at,
                CheckFault::NoRightResponse { disturbance },
            );
        }
    }
    let misses = misses(module);
    for one in &module.consequences {
        let leads = misses
            .iter()
            .flat_map(|it| &it.leads_to)
            .any(|it| it.value == one.id.value);
        if !leads && one.shows.is_empty() {
            let consequence = one.id.value.clone();
            note(
                found,
                one.id.at,
                CheckFault::ConsequenceUnused { consequence },
            );
        }
    }
    for name in hazards_of(module) {
        let known = around.hazards.iter().find(|it| it.id.value == name.value);
        if known.is_some_and(|it| it.precautions.is_empty()) {
            let hazard = name.value.clone();
            note(found, name.at, CheckFault::NoPrecautions { hazard });
        }
        let listed = &module.identity.hazards;
        if known.is_some() && listed.iter().all(|it| it.value != name.value) {
            let hazard = name.value.clone();
            note(found, name.at, CheckFault::HazardNotListed { hazard });
        }
    }
    if module.identity.cautions.is_empty() {
        note(found, module.identity.id.at, CheckFault::NoCautions);
    }
    let asked = module.sign_off.as_ref();
    if let Some(Err(fault)) = asked.map(SignOff::sound) {
        note(found, module.identity.id.at, CheckFault::SignOff(fault));
    }
}

/// Whether a step or act could be typed: words of plain mode come first.
fn check_id(id: &Name, found: &mut Found) {
    if LINE_WORDS.contains(&id.value.as_str()) {
        let taken = id.value.clone();
        note(found, id.at, CheckFault::TakenWord { id: taken });
    }
}

fn check_aspect(module: &Module, aspect: &Aspect, found: &mut Found) {
    if aspect.values.len() > MOST_VALUES {
        let what = CheckFault::TooManyValues {
            aspect: aspect.id.value.clone(),
            most: MOST_VALUES,
        };
        note(found, aspect.id.at, what);
    }
    let Some(gauge) = &aspect.decided_by else {
        return;
    };
    let expected = gauge.kind.values();
    let values: Vec<&str> = aspect
        .values
        .iter()
        .map(|it| it.id.value.as_str())
        .collect();
    if values != expected {
        let what = CheckFault::GaugeValues {
            aspect: aspect.id.value.clone(),
            expected,
        };
        note(found, aspect.id.at, what);
    }
    let station = match gauge.kind {
        GaugeKind::Plate => Some("plate"),
        GaugeKind::Strip => Some("vessel"),
        GaugeKind::Heat => Some("unit"),
        _ => None,
    };
    if let Some(kind) = station {
        let known: Vec<&str> = module
            .stations
            .iter()
            .map(|it| it.id.value.as_str())
            .collect();
        if !known.contains(&gauge.of.value.as_str()) {
            found.push(super::names::unknown(NameKind::Station, &gauge.of, &known));
        }
        is_station(module, &gauge.of, kind, found);
        return;
    }
    let Some(part) = module.parts.iter().find(|it| it.id.value == gauge.of.value) else {
        let known: Vec<&str> = module.parts.iter().map(|it| it.id.value.as_str()).collect();
        found.push(super::names::unknown(NameKind::Part, &gauge.of, &known));
        return;
    };
    let expected = match gauge.kind {
        GaugeKind::Primer => Some((PartKind::Teeth, "teeth")),
        GaugeKind::Hold => Some((PartKind::Joints, "joints")),
        _ => None,
    };
    if let Some((kind, expected)) = expected
        && part.kind != kind
    {
        let what = CheckFault::WrongKind {
            name: gauge.of.value.clone(),
            found: match part.kind {
                PartKind::Body => "body",
                PartKind::Teeth => "teeth",
                PartKind::Joints => "joints",
            }
            .to_owned(),
            expected,
        };
        note(found, gauge.of.at, what);
    }
}

/// Whether a repeat counts something that can be counted. Names that stand for nothing are told elsewhere.
pub(super) fn is_resolved(module: &Module, repeat: &Repeat, index: usize) -> bool {
    match &repeat.over {
        RepeatOver::UpTo(choice) => {
            let known = module.case.iter().find(|it| it.id.value == choice.value);
            known.is_none_or(|it| matches!(it.range, CaseRange::Whole { .. }))
        }
        RepeatOver::GroupsOf { what, .. } => {
            let mut known = module.repeats.iter().take(index);
            let anywhere = module.repeats.iter().any(|it| it.id.value == what.value);
            let counted = known
                .any(|it| it.id.value == what.value && !matches!(it.over, RepeatOver::EachOf(_)));
            counted || !anywhere
        }
        RepeatOver::EachOf(names) => !names.is_empty(),
    }
}

fn check_makes(makes: &[crate::syllabus::module::Condition], found: &mut Found) {
    for made in makes {
        if made.negated || made.values.len() != 1 {
            let aspect = made.aspect.value.clone();
            note(found, made.aspect.at, CheckFault::MakesNotOne { aspect });
        }
    }
}

fn check_step(module: &Module, step: &Step, found: &mut Found) {
    let id = || step.id.value.clone();
    check_makes(&step.makes, found);
    if let Some(Keeping::Watch { sign, .. }) = &step.keeping {
        let aspect = module
            .aspects
            .iter()
            .find(|it| it.id.value == sign.aspect.value);
        if aspect.is_some_and(|it| it.decided_by.is_none()) {
            let aspect = sign.aspect.value.clone();
            note(found, sign.aspect.at, CheckFault::SignNotDecided { aspect });
        }
    }
    for way in &step.ways {
        if way.options.iter().all(|it| it.wrong.is_some()) {
            let way_id = way.id.value.clone();
            note(found, way.id.at, CheckFault::NoRightOption { way: way_id });
        }
    }
    let says =
        |miss: &crate::syllabus::module::Miss| !miss.leads_to.is_empty() || !miss.text.is_empty();
    if step.critical && !step.errors.skipped.as_ref().is_some_and(says) {
        note(
            found,
            step.id.at,
            CheckFault::CriticalWithoutConsequence { step: id() },
        );
    }
    if step.why.is_empty() || step.good.is_empty() {
        note(found, step.id.at, CheckFault::NoReason { step: id() });
    }
    if step.takes == Millis::ZERO && step.keeping.is_none() {
        note(found, step.id.at, CheckFault::NoTime { step: id() });
    }
    let grows = |tiers: &[Tier], further: fn(Millis, Millis) -> bool| {
        tiers.windows(2).all(|pair| {
            let limits = (pair[0].limit, pair[1].limit);
            pair[0].miss.severity <= pair[1].miss.severity
                && match limits {
                    (None, Some(_)) => true,
                    (Some(near), Some(far)) => further(near, far),
                    (_, None) => false,
                }
        })
    };
    let short = grows(&step.errors.short, |near, far| far < near);
    let long = grows(&step.errors.long, |near, far| near < far);
    if !short || !long {
        note(found, step.id.at, CheckFault::TierOrder { step: id() });
    }
}
