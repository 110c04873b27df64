//! Every disturbance of the shipped modules: answered right the run is clean, answered wrong or ignored it is the root.

use crate::support::expert::{Expert, start, stock_teeth, wet_resin};
use crate::support::faults::no_faults;
use drybench::app::rehearse::Disturbances;
use drybench::app::shelf::Taken;
use drybench::rehearsal::finding::Found;
use drybench::rehearsal::replay::Replayed;
use drybench::syllabus::module::{Miss, Severity};

fn run(taken: &Taken, seed: u32, name: &str, answer: Option<Option<usize>>) -> Replayed {
    let named = Disturbances::Named(vec![name.to_owned()]);
    let expert = Expert::new(start(taken, "", seed, named));
    match answer {
        None => expert.run(),
        Some(response) => expert.answering(response).run(),
    }
}

/// What is wrong when a disturbance is treated so that it should be the only root.
fn wrong_root(done: &Replayed, disturbance: usize, miss: &Miss) -> Option<String> {
    let [root] = done.graded.roots.as_slice() else {
        return Some(format!("roots are {:#?}", done.graded.roots));
    };
    let ours = match root.what {
        Found::WrongResponse {
            disturbance: one, ..
        }
        | Found::CarriedOn { disturbance: one } => one == disturbance,
        _ => false,
    };
    if !ours || root.severity != miss.severity {
        return Some(format!("the root is {root:#?}"));
    }
    let clean = root.worst() < Severity::Major;
    (done.graded.clean != clean).then(|| "the verdict does not follow the root".to_owned())
}

fn faults(taken: &Taken) -> Vec<String> {
    let mut faults = Vec::new();
    for (index, one) in taken.module.disturbances.iter().enumerate() {
        let name = one.id.value.as_str();
        for seed in [1, 2, 3] {
            let right = run(taken, seed, name, None);
            if !right.graded.roots.is_empty() {
                faults.push(format!(
                    "{name} answered right, seed {seed}: {:#?}",
                    right.graded.roots
                ));
            }
            for (response, written) in one.responses.iter().enumerate() {
                let done = run(taken, seed, name, Some(Some(response)));
                let fault = match &written.wrong {
                    Some(miss) => wrong_root(&done, index, miss),
                    None => (!done.graded.clean).then(|| format!("{:#?}", done.graded.roots)),
                };
                faults.extend(fault.map(|fault| {
                    format!("{name} answered {}, seed {seed}: {fault}", written.id.value)
                }));
            }
            let ignored = run(taken, seed, name, Some(None));
            let fault = match &one.carry_on {
                Some(miss) => wrong_root(&ignored, index, miss),
                None => (!ignored.graded.clean).then(|| format!("{:#?}", ignored.graded.roots)),
            };
            faults.extend(fault.map(|fault| format!("{name} ignored, seed {seed}: {fault}")));
        }
    }
    faults
}

#[test]
fn disturbances_of_stock_teeth_are_roots_unless_answered_right() {
    let taken = stock_teeth();
    assert!(taken.module.disturbances.len() >= 8);
    let faults = faults(taken);
    no_faults(&faults);
}

#[test]
fn disturbances_of_wet_resin_are_roots_unless_answered_right() {
    let faults = faults(wet_resin());
    no_faults(&faults);
}
