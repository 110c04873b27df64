//! Which findings are roots, and what followed from them.
//!
//! A finding is a root or nests under one; only roots count. Nothing here looks at names of steps: what links findings is
//! the order of the plan, what tasks make and need, and which consequences the module says an error leads to.

mod gather;
mod harms;
mod links;
mod needs;

use super::align::Alignment;
use super::finding::Finding;
use super::trace::Event;
use crate::bench::HarmAt;
use crate::syllabus::module::Module;
use crate::syllabus::plan::Plan;
use gather::gather;

/// A finding before it is known what it followed from.
#[derive(Clone, Debug)]
pub(super) struct Raw {
    pub(super) finding: Finding,
    /// The event it was found at.
    event: Option<usize>,
    /// The raw finding it followed from.
    parent: Option<usize>,
}

impl Raw {
    pub(super) fn new(finding: Finding, event: Option<usize>) -> Raw {
        Raw {
            finding,
            event,
            parent: None,
        }
    }
}

/// Gathers raw findings of the same kind, links what followed to what it followed from, and returns the roots.
pub(super) fn roots(
    module: &Module,
    plan: &Plan,
    trace: &[Event],
    alignment: &Alignment,
    raw: Vec<Raw>,
    harms: &[HarmAt],
) -> Vec<Finding> {
    let mut blame = Blame {
        module,
        plan,
        all: gather(plan, raw),
    };
    // Only the number of events matters here: the alignment has been turned into findings already.
    debug_assert!(alignment.matched.len() <= trace.len());
    blame.link_skips();
    blame.link_order();
    blame.link_crowds();
    blame.link_times();
    blame.link_protection();
    blame.link_needs();
    blame.link_refusals(trace);
    blame.link_signs();
    blame.add_harms(harms);
    blame.tree()
}

struct Blame<'b> {
    module: &'b Module,
    plan: &'b Plan,
    all: Vec<Raw>,
}

impl Blame<'_> {
    /// The raw findings of a kind, in order.
    fn find(&self, matches: impl Fn(&Finding) -> bool) -> Vec<usize> {
        (0..self.all.len())
            .filter(|&index| matches(&self.all[index].finding))
            .collect()
    }

    /// Links one finding under another, unless that would close a circle.
    fn link(&mut self, child: usize, parent: usize) {
        if self.root_of(parent) != child && child != parent && self.all[child].parent.is_none() {
            self.all[child].parent = Some(parent);
        }
    }

    fn root_of(&self, mut index: usize) -> usize {
        while let Some(parent) = self.all[index].parent {
            index = parent;
        }
        index
    }

    fn step_of(&self, index: usize) -> Option<usize> {
        self.all[index]
            .finding
            .tasks
            .first()
            .map(|&task| self.plan.tasks[task].step)
    }

    /// The roots with everything nested, the gravest first.
    fn tree(mut self) -> Vec<Finding> {
        // Children stand after their parents or before; each is moved once its own children have been.
        let mut depth: Vec<(usize, usize)> = (0..self.all.len())
            .map(|index| {
                let mut steps = 0;
                let mut at = index;
                while let Some(parent) = self.all[at].parent {
                    at = parent;
                    steps += 1;
                }
                (steps, index)
            })
            .collect();
        depth.sort_unstable_by_key(|&(steps, index)| (std::cmp::Reverse(steps), index));
        let mut roots = Vec::new();
        for (_, index) in depth {
            let mut finding = self.all[index].finding.clone();
            finding.follow_ons.sort_by_key(|one| one.at);
            match self.all[index].parent {
                Some(parent) => self.all[parent].finding.follow_ons.push(finding),
                None => roots.push(finding),
            }
        }
        roots.sort_by_key(|root| (std::cmp::Reverse(root.worst()), root.at));
        roots
    }
}
