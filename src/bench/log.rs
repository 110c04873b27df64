//! What came about on the way: harms as they happen, and residue after each cleaning.

use super::outcome::{HarmAt, Measure, ResidueAfter};
use crate::syllabus::module::Harm;
use crate::units::Millis;

/// One harm on one tooth and side, when it first came about.
#[derive(Clone, Debug, PartialEq)]
struct Entry {
    harm: Harm,
    tooth: Option<u16>,
    side: Option<u8>,
    at: Millis,
    amount: Option<Measure>,
}

/// Everything noted in a run.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Log {
    entries: Vec<Entry>,
    pub(super) residue: Vec<ResidueAfter>,
}

impl Log {
    /// Notes a harm, of a tooth by its index from 0. Only the first of its kind on a tooth and side counts.
    pub(super) fn harm(
        &mut self,
        harm: Harm,
        tooth: Option<usize>,
        side: Option<u8>,
        at: Millis,
        amount: Option<Measure>,
    ) {
        let tooth = tooth.and_then(|index| u16::try_from(index + 1).ok());
        let known = |entry: &Entry| (entry.harm, entry.tooth, entry.side) == (harm, tooth, side);
        if !self.entries.iter().any(known) {
            self.entries.push(Entry {
                harm,
                tooth,
                side,
                at,
                amount,
            });
        }
    }

    /// The harms gathered by kind and side, in the order in which they first came about.
    ///
    /// A tooth that got far too warm is not also listed as too warm.
    pub(super) fn gathered(&self) -> Vec<HarmAt> {
        let too_hot = |tooth: Option<u16>| {
            let hot = |entry: &Entry| entry.harm == Harm::HotPrimer && entry.tooth == tooth;
            self.entries.iter().any(hot)
        };
        let mut all: Vec<HarmAt> = Vec::new();
        for entry in &self.entries {
            if entry.harm == Harm::WarmPrimer && too_hot(entry.tooth) {
                continue;
            }
            let same = |one: &&mut HarmAt| (one.harm, one.side) == (entry.harm, entry.side);
            match all.iter_mut().find(same) {
                Some(one) => {
                    one.teeth.extend(entry.tooth);
                    one.at = one.at.min(entry.at);
                }
                None => all.push(HarmAt {
                    harm: entry.harm,
                    teeth: entry.tooth.into_iter().collect(),
                    side: entry.side,
                    at: entry.at,
                    amount: entry.amount,
                }),
            }
        }
        for one in &mut all {
            one.teeth.sort_unstable();
        }
        all.sort_by_key(|one| (one.at, one.harm, one.side));
        all
    }
}
