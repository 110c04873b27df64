//! What verification found: strands, counts, what is wrong from the first entry on, and what no check of this kind can show.

use super::faults::{fault, limit, whole};
use super::telling::{Telling, fingerprint, is_alone_now};
use crate::record::verify::{Bad, Checked, StrandChecked};
use crate::report::{Block, Item};

/// What the result of a verification tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verified {
    pub(super) checked: Checked,
    /// By strand and number.
    pub(super) bad: Vec<Bad>,
    most: usize,
}

/// Gathers the result of a verification. At most so many faults are told to people; all that are given, to machines.
#[must_use]
pub fn verified(checked: &Checked, bad: &[Bad], most: usize) -> Verified {
    let mut bad = bad.to_vec();
    // Stable: several faults of one entry stay in the order in which they were found.
    bad.sort_by(|one, other| (&one.strand, one.number).cmp(&(&other.strand, other.number)));
    Verified {
        checked: checked.clone(),
        bad,
        most,
    }
}

impl Verified {
    /// What is wrong, by strand and number: the first one first.
    #[must_use]
    pub fn bad(&self) -> &[Bad] {
        &self.bad
    }

    /// The result for people.
    #[must_use]
    pub fn blocks(&self, telling: &Telling<'_>) -> Vec<Block> {
        let checked = &self.checked;
        let entries: u64 = checked.strands.iter().map(|strand| strand.entries).sum();
        let counts = [
            ("entries", whole(entries)),
            ("strands", checked.strands.len().into()),
            ("signatures", whole(checked.signatures)),
            ("faults", whole(checked.faults)),
        ];
        let mut blocks = vec![telling.heading(1, "record-verified-title")];
        blocks.extend(telling.notice(is_alone_now(telling.ledger)));
        blocks.push(Block::Paragraph(if checked.faults == 0 {
            telling.say("record-verified-good", &counts)
        } else {
            telling.say("record-verified-bad", &counts)
        }));
        blocks.push(Block::Paragraph(telling.say("record-verified-shows", &[])));
        if checked.faults > 0 {
            blocks.push(telling.heading(2, "record-verified-faults"));
            blocks.push(Block::Items(self.faults(telling)));
        }
        blocks.push(telling.heading(2, "record-verified-strands"));
        let strands = checked.strands.iter();
        blocks.push(Block::Items(
            strands.map(|one| strand(one, telling)).collect(),
        ));
        blocks.push(telling.heading(2, "record-verified-limits"));
        let limits = checked.limits.iter();
        blocks.push(Block::Items(
            limits
                .map(|one| Item::new(limit(one, telling.words)))
                .collect(),
        ));
        blocks
    }

    fn faults(&self, telling: &Telling<'_>) -> Vec<Item> {
        let told = self.bad.iter().take(self.most).map(|bad| {
            let told = fault(&bad.fault, telling);
            let values = [
                ("entry", format!("{}/{}", bad.strand, bad.number).into()),
                ("what", told.what.into()),
            ];
            let fix = told.fix.into_iter().map(Item::new).collect();
            Item::new(telling.say("record-verified-fault", &values)).with(fix)
        });
        let mut told: Vec<Item> = told.collect();
        let shown = u64::try_from(told.len()).unwrap_or(u64::MAX);
        let more = self.checked.faults.saturating_sub(shown);
        if more > 0 {
            let more = [("count", whole(more))];
            told.push(Item::new(telling.say("record-verified-more", &more)));
        }
        told
    }
}

fn strand(strand: &StrandChecked, telling: &Telling<'_>) -> Item {
    let name = || ("strand", strand.strand.to_string().into());
    let values = [name(), ("entries", whole(strand.entries))];
    let mut under = Vec::new();
    if let Some((number, seal)) = &strand.last {
        let values = [
            ("entry", format!("{}/{number}", strand.strand).into()),
            ("seal", fingerprint(&seal.0).into()),
        ];
        under.push(Item::new(telling.say("record-verified-last", &values)));
    }
    if let Some(number) = strand.first_bad {
        let entry = format!("{}/{number}", strand.strand);
        let entry = [("entry", entry.into())];
        under.push(Item::new(telling.say("record-verified-first-bad", &entry)));
    }
    let root = [("root", strand.root.digest.to_string().into())];
    under.push(Item::new(telling.say("record-verified-root", &root)));
    Item::new(telling.say("record-verified-strand", &values)).with(under)
}
