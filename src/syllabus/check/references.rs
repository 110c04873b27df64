//! Whether every name stands for something, whether ids are their own, and whether stages see only what they expect.

use std::collections::BTreeMap;

use super::names::Names;
use super::operations::names_of;
use super::{CheckFault, Found, NameKind, note};
use crate::syllabus::module::{
    Comes, Condition, Keeping, Miss, Module, Name, Never, Origin, RepeatOver, Step, TimeChange,
    TimeRule,
};
use crate::syllabus::operation::Operation;
use crate::syllabus::read::Place;
use crate::syllabus::read::module::{Assembled, StageUse};

pub(super) fn check(read: &Assembled, names: &Names<'_>, found: &mut Found) {
    let mut walk = Walk {
        names,
        stages: &read.stages,
        module: &read.module,
        found,
    };
    walk.module();
    duplicates(&read.module, found);
    for stage in &read.stages {
        for name in stage.expects.iter().chain(&stage.lent) {
            if !names.has_any(&name.value) {
                let what = CheckFault::ExpectedMissing {
                    stage: stage.id.value.clone(),
                    name: name.value.clone(),
                };
                note(found, name.at, what);
            }
        }
    }
}

/// Every miss of a module, with where it stands as far as that is known.
pub(super) fn misses(module: &Module) -> Vec<&Miss> {
    let mut all = Vec::new();
    for step in &module.steps {
        let errors = &step.errors;
        all.extend(
            [&errors.skipped, &errors.unready, &errors.misplaced]
                .into_iter()
                .flatten(),
        );
        all.extend(errors.short.iter().chain(&errors.long).map(|it| &it.miss));
        let options = step.ways.iter().flat_map(|it| &it.options);
        all.extend(options.filter_map(|it| it.wrong.as_ref()));
    }
    for rule in &module.time_rules {
        let (TimeRule::Gap { miss, .. } | TimeRule::Cap { miss, .. }) = rule;
        all.push(miss);
    }
    for never in &module.never {
        all.push(match never {
            Never::MoreThan { miss, .. } | Never::Before { miss, .. } => miss,
            Never::Act(act) => &act.miss,
        });
    }
    all.extend(module.guards.iter().map(|it| &it.miss));
    for one in &module.disturbances {
        all.extend(one.carry_on.as_ref());
        all.extend(one.responses.iter().filter_map(|it| it.wrong.as_ref()));
    }
    all
}

struct Walk<'w, 'm> {
    names: &'w Names<'m>,
    stages: &'w [StageUse],
    module: &'w Module,
    found: &'w mut Found,
}

impl Walk<'_, '_> {
    /// Looks at one reference.
    fn name(&mut self, kind: NameKind, name: &Name) {
        if let Some(problem) = self.names.complaint(kind, name) {
            self.found.push(problem);
            return;
        }
        if matches!(kind, NameKind::Hazard | NameKind::Fault | NameKind::Module) {
            return;
        }
        // The module itself is file 0 and sees everything.
        let Some(stage) = self.stages.iter().find(|it| it.file == name.at.file) else {
            return;
        };
        let mut allowed = stage.expects.iter().chain(&stage.lent);
        let own = kind == NameKind::Step
            && self.module.steps.iter().any(|it| {
                it.id.value == name.value
                    && it.stage.as_ref().is_some_and(|of| of.id == stage.id.value)
            });
        if !own && allowed.all(|it| it.value != name.value) {
            let what = CheckFault::NotExpected {
                stage: stage.id.value.clone(),
                kind,
                name: name.value.clone(),
            };
            note(self.found, name.at, what);
        }
    }

    fn names(&mut self, kind: NameKind, names: &[Name]) {
        for name in names {
            self.name(kind, name);
        }
    }

    fn condition(&mut self, condition: &Condition) {
        self.name(NameKind::Aspect, &condition.aspect);
        for value in &condition.values {
            let complaint = self.names.value_complaint(&condition.aspect.value, value);
            self.found.extend(complaint);
        }
    }

    fn when(&mut self, choice: &Name, value: &Name, shapes: bool) {
        self.name(NameKind::Choice, choice);
        let complaint = self.names.choice_complaint(&choice.value, value);
        self.found.extend(complaint);
        if shapes {
            self.shapes(choice);
        }
    }

    /// A choice on which the plan depends must say so, or some plans would never be looked at.
    fn shapes(&mut self, choice: &Name) {
        let known = self
            .module
            .case
            .iter()
            .find(|it| it.id.value == choice.value);
        if known.is_some_and(|it| !it.shapes_plan) {
            let choice_id = choice.value.clone();
            note(
                self.found,
                choice.at,
                CheckFault::ShapesPlan { choice: choice_id },
            );
        }
    }

    fn origin(&mut self, origin: Option<&Origin>) {
        // A stage names the sources of whichever module it is used in.
        if let Some(Origin::Source(name)) = origin {
            let complaint = self.names.complaint(NameKind::Source, name);
            self.found.extend(complaint);
        }
    }

    fn operations(&mut self, operations: &[Operation]) {
        for operation in operations {
            for (kind, _, name) in names_of(operation).names {
                self.name(kind, name);
            }
        }
    }

    fn module(&mut self) {
        let module = self.module;
        let identity = &module.identity;
        self.names(NameKind::Hazard, &identity.hazards);
        self.names(NameKind::Module, &module.requires);
        self.origin(Some(&identity.origin));
        for repeat in &module.repeats {
            match &repeat.over {
                RepeatOver::UpTo(choice) => {
                    self.name(NameKind::Choice, choice);
                    self.shapes(choice);
                }
                RepeatOver::GroupsOf { what, .. } => self.name(NameKind::Repeat, what),
                RepeatOver::EachOf(_) => {}
            }
        }
        for aspect in &module.aspects {
            self.names(NameKind::Repeat, &aspect.per);
        }
        for station in &module.stations {
            self.name(NameKind::StationKind, &station.kind);
            for number in &station.numbers {
                self.origin(Some(&number.origin));
                for (choice, value, _) in &number.changes {
                    self.when(choice, value, false);
                }
            }
        }
        for step in &module.steps {
            self.step(step);
        }
        for rule in &module.time_rules {
            self.time_rule(rule);
        }
        for guard in &module.guards {
            self.name(NameKind::Item, &guard.item);
            self.names(NameKind::Station, &guard.during);
            self.name(NameKind::Hazard, &guard.hazard);
            guard.holds_while.iter().for_each(|it| self.condition(it));
        }
        for never in &module.never {
            match never {
                Never::MoreThan { of, .. } => self.condition(of),
                Never::Before { act, until, .. } => {
                    self.name(NameKind::Step, act);
                    self.name(NameKind::Step, until);
                }
                Never::Act(act) => {
                    self.name(NameKind::Station, &act.at);
                    self.operations(&act.does);
                    act.makes.iter().for_each(|it| self.condition(it));
                }
            }
        }
        for one in &module.disturbances {
            let (Comes::Before(step) | Comes::After(step)) = &one.comes;
            self.name(NameKind::Step, step);
            self.operations(&one.does);
            self.names(NameKind::Item, &one.takes_off);
            for response in &one.responses {
                self.operations(&response.does);
                self.names(NameKind::Item, &response.puts_on);
            }
        }
        for consequence in &module.consequences {
            if let Some(fault) = &consequence.fault {
                self.name(NameKind::Fault, fault);
            }
        }
        for miss in misses(module) {
            self.names(NameKind::Consequence, &miss.leads_to);
        }
    }

    fn step(&mut self, step: &Step) {
        self.name(NameKind::Station, &step.at);
        self.names(NameKind::Repeat, &step.each);
        for after in &step.after {
            self.name(NameKind::Step, &after.step);
        }
        let conditions = step.needs.iter().chain(&step.makes).chain(&step.refused_if);
        conditions.for_each(|it| self.condition(it));
        if let Some(other) = &step.goes_with {
            self.name(NameKind::Step, other);
        }
        self.names(NameKind::Hazard, &step.hazards);
        self.origin(step.origin.as_ref());
        self.operations(&step.does);
        match &step.keeping {
            Some(Keeping::Timer(window) | Keeping::Count(window)) => {
                self.origin(window.origin.as_ref());
                for TimeChange { choice, value, .. } in &window.changes {
                    self.when(choice, value, true);
                }
            }
            Some(Keeping::Watch { sign, .. }) => self.condition(sign),
            Some(Keeping::Judge { until, .. }) => until.iter().for_each(|it| self.condition(it)),
            None => {}
        }
    }

    fn time_rule(&mut self, rule: &TimeRule) {
        match rule {
            TimeRule::Gap {
                from, to, origin, ..
            } => {
                self.name(NameKind::Step, &from.step);
                self.name(NameKind::Step, &to.step);
                self.origin(origin.as_ref());
            }
            TimeRule::Cap {
                over,
                when_done,
                changes,
                origin,
                ..
            } => {
                self.names(NameKind::Step, over);
                when_done
                    .iter()
                    .for_each(|it| self.name(NameKind::Step, &it.0));
                for change in changes {
                    self.when(&change.choice, &change.value, true);
                    let raised = change.when_done.iter();
                    raised.for_each(|it| self.name(NameKind::Step, &it.0));
                }
                self.origin(origin.as_ref());
            }
        }
    }
}

/// Ids that stand twice. Steps and forbidden acts are chosen from one list, so they share their ids.
fn duplicates(module: &Module, found: &mut Found) {
    let acts = module.never.iter().filter_map(|it| match it {
        Never::Act(act) => Some((NameKind::Act, &act.id)),
        Never::MoreThan { .. } | Never::Before { .. } => None,
    });
    let moves = module.steps.iter().map(|it| (NameKind::Step, &it.id));
    twice(moves.chain(acts), found);
    twice(
        module.aspects.iter().map(|it| (NameKind::Aspect, &it.id)),
        found,
    );
    let disturbances = module.disturbances.iter();
    twice(
        disturbances.map(|it| (NameKind::Disturbance, &it.id)),
        found,
    );
    for choice in &module.case {
        if let crate::syllabus::module::CaseRange::OneOf(words) = &choice.range {
            twice(words.iter().map(|it| (NameKind::ChoiceValue, it)), found);
        }
    }
    for repeat in &module.repeats {
        if let RepeatOver::EachOf(names) = &repeat.over {
            twice(names.iter().map(|it| (NameKind::NamedPlace, it)), found);
        }
    }
}

fn twice<'m>(ids: impl Iterator<Item = (NameKind, &'m Name)>, found: &mut Found) {
    let mut seen: BTreeMap<&str, Place> = BTreeMap::new();
    for (kind, name) in ids {
        if let Some(&first) = seen.get(name.value.as_str()) {
            let what = CheckFault::Duplicate {
                kind,
                id: name.value.clone(),
                first,
            };
            note(found, name.at, what);
        } else {
            seen.insert(&name.value, name.at);
        }
    }
}
