//! Steps that go with each other in a circle, so that none of them could be the root when they are left out.

use super::{CheckFault, Found, note};
use crate::syllabus::module::Module;

pub(super) fn check(module: &Module, found: &mut Found) {
    let steps = &module.steps;
    let index = |id: &str| steps.iter().position(|it| it.id.value == id);
    let goes_with: Vec<Option<usize>> = steps
        .iter()
        .map(|it| it.goes_with.as_ref().and_then(|it| index(&it.value)))
        .collect();
    // Whether a step was walked before, and in which walk.
    let mut walked = vec![None; steps.len()];
    for first in 0..steps.len() {
        let mut path = Vec::new();
        let mut here = Some(first);
        while let Some(step) = here {
            match walked[step] {
                None => {
                    walked[step] = Some(first);
                    path.push(step);
                    here = goes_with[step];
                }
                Some(walk) => {
                    if walk == first {
                        let start = path.iter().position(|&it| it == step).unwrap_or(0);
                        let ids = path[start..].iter().map(|&it| steps[it].id.value.clone());
                        let what = CheckFault::GoesWithCircle {
                            steps: ids.collect(),
                        };
                        note(found, steps[step].id.at, what);
                    }
                    break;
                }
            }
        }
    }
}
