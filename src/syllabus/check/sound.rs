//! The module without what stands for nothing, so that one wrong name does not hide what else is wrong.

use std::collections::BTreeSet;

use super::NameKind;
use super::names::Names;
use super::sense::is_resolved;
use crate::syllabus::module::{
    Condition, Keeping, Module, Name, Never, RepeatOver, Station, Step, TimeRule,
};

/// A copy that compiles as far as names are concerned.
pub(super) fn without_unknown(module: &Module, names: &Names<'_>) -> Module {
    let mut sound = module.clone();
    sound.repeats = sound
        .repeats
        .iter()
        .enumerate()
        .filter(|(index, it)| {
            let known = match &it.over {
                RepeatOver::UpTo(choice) => names.has(NameKind::Choice, &choice.value),
                RepeatOver::GroupsOf { what, .. } => names.has(NameKind::Repeat, &what.value),
                RepeatOver::EachOf(_) => true,
            };
            known && is_resolved(module, it, *index)
        })
        .map(|(_, it)| it.clone())
        .collect();
    // A grouping of a repeat that went has to go as well; groupings name earlier repeats, so one pass in order is enough.
    let mut kept: BTreeSet<String> = BTreeSet::new();
    sound.repeats.retain(|it| {
        let stays = match &it.over {
            RepeatOver::GroupsOf { what, .. } => kept.contains(&what.value),
            RepeatOver::UpTo(_) | RepeatOver::EachOf(_) => true,
        };
        if stays {
            kept.insert(it.id.value.clone());
        }
        stays
    });
    let repeated = |it: &Name| kept.contains(&it.value);
    for aspect in &mut sound.aspects {
        aspect.per.retain(&repeated);
        once(&mut aspect.per);
        aspect.values.truncate(31);
    }
    let mut ids = BTreeSet::new();
    sound.steps.retain(|it| ids.insert(it.id.value.clone()));
    for step in &mut sound.steps {
        step.each.retain(&repeated);
        once(&mut step.each);
        clean_step(step, names);
    }
    for step in &sound.steps {
        // Its station is told of elsewhere; the plan only has to find one.
        if !names.has(NameKind::Station, &step.at.value) {
            sound.stations.push(Station {
                id: step.at.clone(),
                title: String::new(),
                kind: step.at.clone(),
                numbers: Vec::new(),
            });
        }
    }
    sound.time_rules.retain_mut(|rule| match rule {
        TimeRule::Gap { from, to, .. } => is_step(&from.step, names) && is_step(&to.step, names),
        TimeRule::Cap {
            over,
            when_done,
            changes,
            ..
        } => {
            over.retain(|it| is_step(it, names));
            when_done.retain(|it| is_step(&it.0, names));
            for change in changes {
                change.when_done.retain(|it| is_step(&it.0, names));
            }
            true
        }
    });
    sound.guards.retain_mut(|guard| {
        clean(&mut guard.holds_while, names);
        guard
            .during
            .retain(|it| names.has(NameKind::Station, &it.value));
        names.has(NameKind::Item, &guard.item.value)
    });
    sound.never.retain_mut(|never| match never {
        Never::MoreThan { of, .. } => is_known(of, names),
        Never::Before { act, until, .. } => is_step(act, names) && is_step(until, names),
        Never::Act(act) => {
            clean(&mut act.makes, names);
            true
        }
    });
    sound
}

fn is_step(name: &Name, names: &Names<'_>) -> bool {
    names.has(NameKind::Step, &name.value)
}

/// Names each thing once: naming it again changes nothing but costs time.
fn once(names: &mut Vec<Name>) {
    let mut seen = BTreeSet::new();
    names.retain(|it| seen.insert(it.value.clone()));
}

fn is_known(condition: &Condition, names: &Names<'_>) -> bool {
    let aspect = &condition.aspect.value;
    names.has(NameKind::Aspect, aspect)
        && condition
            .values
            .iter()
            .all(|it| names.has_value(aspect, &it.value))
}

fn clean(conditions: &mut Vec<Condition>, names: &Names<'_>) {
    conditions.retain(|it| is_known(it, names));
}

fn clean_step(step: &mut Step, names: &Names<'_>) {
    let mut seen = BTreeSet::new();
    step.after
        .retain(|it| is_step(&it.step, names) && seen.insert((it.step.value.clone(), it.all)));
    clean(&mut step.needs, names);
    clean(&mut step.makes, names);
    clean(&mut step.refused_if, names);
    step.makes.retain(|it| !it.negated && it.values.len() == 1);
    match &mut step.keeping {
        Some(Keeping::Watch { sign, .. }) if !is_known(sign, names) => step.keeping = None,
        Some(Keeping::Judge { until, .. }) => clean(until, names),
        _ => {}
    }
}
