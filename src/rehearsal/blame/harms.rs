//! What the bench ended with, under the errors that lead to it.

use super::{Blame, Raw};
use crate::bench::HarmAt;
use crate::rehearsal::finding::{Finding, Found, Words};
use crate::syllabus::module::Severity;

impl Blame<'_> {
    /// What the bench ended with, under the errors that lead to it; unexplained harms stand for themselves.
    pub(super) fn add_harms(&mut self, harms: &[HarmAt]) {
        for harm in harms {
            let shows: Vec<usize> = (0..self.module.consequences.len())
                .filter(|&index| {
                    let consequence = &self.module.consequences[index];
                    consequence.shows.iter().any(|one| one.value == harm.harm)
                })
                .collect();
            let cause = self.cause(&shows, harm);
            let consequence = cause
                .and_then(|cause| {
                    let leads_to = &self.all[cause].finding.leads_to;
                    shows.iter().copied().find(|one| leads_to.contains(one))
                })
                .or_else(|| shows.first().copied());
            let severity = consequence.map_or(Severity::Major, |index| {
                self.module.consequences[index].severity
            });
            let finding = Finding {
                what: Found::Harm {
                    harm: harm.harm,
                    consequence,
                    teeth: harm.teeth.clone(),
                },
                severity,
                at: harm.at,
                tasks: Vec::new(),
                leads_to: consequence.into_iter().collect(),
                words: consequence.map_or(Words::None, Words::Consequence),
                follow_ons: Vec::new(),
            };
            self.all.push(Raw {
                finding,
                event: None,
                parent: cause,
            });
        }
    }

    /// The error that leads to one of these consequences: one at the same teeth first, then one that stands for itself, then
    /// the gravest, then the earliest.
    pub(super) fn cause(&self, shows: &[usize], harm: &HarmAt) -> Option<usize> {
        (0..self.all.len())
            .filter(|&index| {
                let one = &self.all[index].finding;
                !matches!(one.what, Found::Harm { .. })
                    && one.leads_to.iter().any(|lead| shows.contains(lead))
            })
            .min_by_key(|&index| {
                let one = &self.all[index].finding;
                let elsewhere = !harm.teeth.is_empty() && !self.touches(one, &harm.teeth);
                let nested = self.all[index].parent.is_some();
                (
                    elsewhere,
                    nested,
                    std::cmp::Reverse(one.severity),
                    one.at,
                    index,
                )
            })
    }

    pub(super) fn touches(&self, finding: &Finding, teeth: &[u16]) -> bool {
        finding.tasks.is_empty()
            || finding.tasks.iter().any(|&task| {
                let mut counted = self.plan.tasks[task]
                    .place
                    .0
                    .iter()
                    .filter(|one| self.plan.dimensions[one.base].names.is_empty());
                counted.next().is_none_or(|one| {
                    teeth
                        .iter()
                        .any(|tooth| one.low <= *tooth && *tooth <= one.high)
                })
            })
    }
}
