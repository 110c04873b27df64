//! Everything that a module says can go wrong, made to go wrong one at a time: each is the only root.

use crate::support::expert::{Expert, start, stock_teeth, type_in, wet_resin};
use crate::support::faults::no_faults;
use drybench::app::rehearse::Disturbances;
use drybench::app::shelf::Taken;
use drybench::rehearsal::finding::{Finding, Found};
use drybench::rehearsal::replay::Replayed;
use drybench::syllabus::module::{Never, ProtectionKind};
use drybench::syllabus::plan::{Plan, TaskKeeping};

const STOCK: &str = "wash=orbital,teeth=6,arch=lower,shade=dark,tray=fixed";

/// A module with a case card and the script of an expert on it.
struct Desk<'t> {
    taken: &'t Taken,
    case: &'static str,
    seed: u32,
    plan: Plan,
    script: Vec<String>,
}

impl Desk<'_> {
    fn new<'t>(taken: &'t Taken, case: &'static str, seed: u32) -> Desk<'t> {
        let session = start(taken, case, seed, Disturbances::None);
        let plan = session.prepared().plan.clone();
        Desk {
            taken,
            case,
            seed,
            plan,
            script: Expert::new(session).script(),
        }
    }

    fn run(&self, lines: &[String]) -> Replayed {
        type_in(
            start(self.taken, self.case, self.seed, Disturbances::None),
            lines,
        )
    }

    /// The lines in which a step is done, changed.
    fn changed(&self, step: &str, change: impl Fn(&str) -> Option<String>) -> Vec<String> {
        let lines = self.script.iter();
        lines
            .filter_map(|line| {
                if is(line, step) {
                    change(line)
                } else {
                    Some(line.clone())
                }
            })
            .collect()
    }
}

/// Whether a line does a step.
fn is(line: &str, step: &str) -> bool {
    line.split(' ').next() == Some(step)
}

/// The line with its time replaced.
fn timed(line: &str, time: &str) -> String {
    let at = [" for ", " until "].iter().find_map(|word| line.find(word));
    format!("{} {time}", &line[..at.unwrap_or(line.len())])
}

/// Complains unless the roots are exactly one that passes.
fn only(faults: &mut Vec<String>, what: &str, done: &Replayed, passes: impl Fn(&Finding) -> bool) {
    match done.graded.roots.as_slice() {
        [root] if passes(root) => {}
        roots => {
            let short: Vec<String> = roots
                .iter()
                .map(|root| format!("{:?} {:?}", root.what, root.severity))
                .collect();
            faults.push(format!("{what}: {short:?}"));
        }
    }
}

fn desks() -> Vec<Desk<'static>> {
    vec![
        Desk::new(stock_teeth(), STOCK, 21),
        Desk::new(wet_resin(), "", 22),
    ]
}

#[test]
fn every_wrong_option_is_the_only_root() {
    let mut faults = Vec::new();
    let mut count = 0;
    for desk in desks() {
        let module = &desk.taken.module;
        for (index, step) in module.steps.iter().enumerate() {
            let id = step.id.value.as_str();
            for (way, written) in step.ways.iter().enumerate() {
                for (option, chosen) in written.options.iter().enumerate() {
                    let Some(miss) = &chosen.wrong else { continue };
                    let said = format!(" {}={}", written.id.value, chosen.id.value);
                    let lines = desk.changed(id, |line| {
                        let at = [" for ", " until "].iter().find_map(|word| line.find(word));
                        let mut line = line.to_owned();
                        line.insert_str(at.unwrap_or(line.len()), &said);
                        Some(line)
                    });
                    if lines == desk.script {
                        // An optional step that the expert has no need of.
                        continue;
                    }
                    count += 1;
                    let done = desk.run(&lines);
                    only(&mut faults, &format!("{id}{said}"), &done, |root| {
                        root.what == Found::WrongWay { way, option }
                            && root.severity == miss.severity
                            && root
                                .tasks
                                .iter()
                                .all(|&task| desk.plan.tasks[task].step == index)
                    });
                }
            }
        }
    }
    assert!(count > 50, "only {count} options");
    no_faults(&faults);
}

#[test]
fn every_step_left_out_is_the_only_root() {
    let mut faults = Vec::new();
    let mut count = 0;
    for desk in desks() {
        let module = &desk.taken.module;
        for (index, step) in module.steps.iter().enumerate() {
            let id = step.id.value.as_str();
            // What was refused without the step is not typed either: the script stops making sense there.
            if step.optional || !desk.script.iter().any(|line| is(line, id)) {
                continue;
            }
            count += 1;
            let lines = desk.changed(id, |_| None);
            let done = desk.run(&lines);
            only(&mut faults, &format!("without {id}"), &done, |root| {
                root.what == Found::Skipped
                    && root
                        .tasks
                        .iter()
                        .all(|&task| desk.plan.tasks[task].step == index)
            });
        }
    }
    assert!(count > 60, "only {count} steps");
    no_faults(&faults);
}

#[test]
fn every_forbidden_act_is_the_only_root() {
    let mut faults = Vec::new();
    let mut count = 0;
    for desk in desks() {
        let module = &desk.taken.module;
        for (rule, written) in module.never.iter().enumerate() {
            let Never::Act(act) = written else { continue };
            count += 1;
            let mut lines = desk.script.clone();
            lines.insert(lines.len() - 1, act.id.value.clone());
            let done = desk.run(&lines);
            only(&mut faults, &act.id.value, &done, |root| {
                root.what == Found::Forbidden { rule } && root.severity == act.miss.severity
            });
        }
    }
    assert!(count > 12, "only {count} acts");
    no_faults(&faults);
}

#[test]
fn every_item_never_put_on_is_the_only_root() {
    let mut faults = Vec::new();
    let mut count = 0;
    for desk in desks() {
        let module = &desk.taken.module;
        for (index, item) in module.protection_items.iter().enumerate() {
            let word = match item.kind {
                ProtectionKind::Worn => "wear",
                ProtectionKind::Running => "run",
            };
            let line = format!("{word} {}", item.id.value);
            let lines: Vec<String> = desk
                .script
                .iter()
                .filter(|one| **one != line)
                .cloned()
                .collect();
            if lines == desk.script {
                continue;
            }
            count += 1;
            let done = desk.run(&lines);
            only(
                &mut faults,
                &format!("without {line}"),
                &done,
                |root| match root.what {
                    Found::Unprotected { guard, .. } => desk.plan.guards[guard].item == index,
                    _ => false,
                },
            );
        }
    }
    assert!(count > 5, "only {count} items");
    no_faults(&faults);
}

#[test]
fn windows_are_kept_to_the_second() {
    let mut faults = Vec::new();
    let mut count = 0;
    for desk in desks() {
        let module = &desk.taken.module;
        for (index, step) in module.steps.iter().enumerate() {
            let id = step.id.value.as_str();
            let Some(&task) = desk.plan.tasks_of_step[index].first() else {
                continue;
            };
            let Some(window) = desk.plan.tasks[task]
                .keeping
                .as_ref()
                .and_then(TaskKeeping::window)
            else {
                continue;
            };
            if !desk.script.iter().any(|line| is(line, id)) {
                continue;
            }
            count += 1;
            let with = |millis: i64| {
                let time = format!("for {millis} ms");
                desk.run(&desk.changed(id, |line| Some(timed(line, &time))))
            };
            for (what, edge) in [("least", window.least), ("most", window.most)] {
                let done = with(edge.0);
                let grave = done
                    .graded
                    .roots
                    .iter()
                    .any(|root| !matches!(root.what, Found::Stale { .. }));
                if grave {
                    faults.push(format!("{id} at its {what}: {:#?}", done.graded.roots));
                }
            }
            if window.least.0 > 1000 {
                only(
                    &mut faults,
                    &format!("{id} too short"),
                    &with(window.least.0 - 1),
                    |root| matches!(root.what, Found::Short { .. }),
                );
            }
            only(
                &mut faults,
                &format!("{id} too long"),
                &with(window.most.0 + 1),
                |root| matches!(root.what, Found::Long { .. }),
            );
        }
    }
    assert!(count >= 8, "only {count} windows");
    no_faults(&faults);
}

#[test]
fn every_step_done_before_what_it_waits_for_is_one_root() {
    let mut faults = Vec::new();
    let mut count = 0;
    for desk in desks() {
        let module = &desk.taken.module;
        for step in &module.steps {
            let id = step.id.value.as_str();
            for before in &step.after {
                let before = before.step.value.as_str();
                let first = desk.script.iter().position(|line| is(line, before));
                // Places of a step are done one by one; moving all of them at once would be another mistake.
                let alone = |id: &str| desk.script.iter().filter(|line| is(line, id)).count() == 1;
                let (Some(_), true, true) = (first, alone(id), alone(before)) else {
                    continue;
                };
                count += 1;
                let (moved, mut lines): (Vec<String>, Vec<String>) =
                    desk.script.iter().cloned().partition(|line| is(line, id));
                let at = lines.iter().position(|line| is(line, before)).unwrap();
                // Protection is put on first, so that the order alone is wrong.
                let items = module.protection_items.iter().map(|item| match item.kind {
                    ProtectionKind::Worn => format!("wear {}", item.id.value),
                    ProtectionKind::Running => format!("run {}", item.id.value),
                });
                lines.splice(at..at, items.chain(moved));
                let done = desk.run(&lines);
                only(
                    &mut faults,
                    &format!("{id} before {before}"),
                    &done,
                    |root| {
                        let of = |task: &usize| {
                            let step = module.steps[desk.plan.tasks[*task].step].id.value.as_str();
                            step == id || step == before
                        };
                        match &root.what {
                            Found::Misplaced { .. } | Found::TooEarly { .. } | Found::Skipped => {
                                root.tasks.iter().any(of)
                            }
                            _ => false,
                        }
                    },
                );
            }
        }
    }
    assert!(count > 30, "only {count} moves");
    no_faults(&faults);
}
