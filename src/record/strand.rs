//! Strands: what one workstation writes, entry behind entry; and the union of what several have.

use std::collections::BTreeMap;

use super::scope::Id;
use super::seal::Seal;
use crate::units::Stamp;

/// The last entry of a strand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// Its number.
    pub number: u64,
    /// Its seal.
    pub seal: Seal,
    /// When it was written down.
    pub recorded: Stamp,
}

/// Strands by name, each a row of stored entries from number 1 on.
pub type Strands = BTreeMap<Id, Vec<Vec<u8>>>;

/// Two copies of a strand say different things: one of them is not what the workstation wrote.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fork {
    /// The strand.
    pub strand: Id,
    /// The first number at which they differ.
    pub number: u64,
}

/// Joins what two places have: of each strand the longer copy, which must begin with the shorter.
///
/// The order of the two, and how often it is done, make no difference.
///
/// # Errors
///
/// The first strand whose copies differ.
pub fn union(one: &Strands, other: &Strands) -> Result<Strands, Fork> {
    let mut all = one.clone();
    for (strand, entries) in other {
        let known = all.entry(strand.clone()).or_default();
        let differ = (1..)
            .zip(known.iter().zip(entries))
            .find(|(_, (one, other))| one != other);
        if let Some((number, _)) = differ {
            return Err(Fork {
                strand: strand.clone(),
                number,
            });
        }
        known.extend(entries.iter().skip(known.len()).cloned());
    }
    Ok(all)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Copies of three strands that were cut at different lengths.
    fn copies() -> impl Strategy<Value = Strands> {
        proptest::collection::vec(0_u8..6, 3).prop_map(|lengths| {
            let strand = |(name, length): (&str, u8)| {
                let entries = (0..length).map(|number| format!("{name} {number}").into_bytes());
                (name.parse().unwrap(), entries.collect())
            };
            ["a", "b", "c"]
                .into_iter()
                .zip(lengths)
                .map(strand)
                .collect()
        })
    }

    proptest! {
        #[test]
        fn the_union_has_no_order(one in copies(), two in copies(), three in copies()) {
            let join = |a: &Strands, b: &Strands| union(a, b).unwrap();
            prop_assert_eq!(join(&one, &two), join(&two, &one));
            prop_assert_eq!(join(&join(&one, &two), &three), join(&one, &join(&two, &three)));
            prop_assert_eq!(join(&join(&one, &two), &two), join(&one, &two));
        }
    }

    #[test]
    fn copies_that_differ_are_named() {
        let strand = |entries: &[&str]| -> Strands {
            let entries = entries.iter().map(|entry| entry.as_bytes().to_vec());
            BTreeMap::from([("front".parse().unwrap(), entries.collect())])
        };
        let fork = union(&strand(&["1", "2", "3"]), &strand(&["1", "x"]));
        let expected = Fork {
            strand: "front".parse().unwrap(),
            number: 2,
        };
        assert_eq!(fork, Err(expected));
    }
}
