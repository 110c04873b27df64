//! The tree over a strand's seals (RFC 9162, section 2.1): its root, and short proofs that an entry is in it or that it only grew.

use super::seal::Seal;
use crate::units::Digest;

/// The root of a tree over so many entries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Root {
    /// How many entries the tree holds.
    pub size: u64,
    /// The root.
    pub digest: Digest,
}

/// The hash of a node: SHA-256(0x01 ‖ left ‖ right).
fn node(left: &Digest, right: &Digest) -> Digest {
    Digest::of(&[&[1], &left.0, &right.0])
}

/// Collects seals one after the other and knows the root after each. Holds as many digests as the size has binary digits.
#[derive(Clone, Debug, Default)]
pub struct Growing {
    size: u64,
    /// Roots of the full subtrees, the largest first: one for each binary digit that is set in the size.
    full: Vec<Digest>,
}

impl Growing {
    /// An empty tree.
    #[must_use]
    pub fn new() -> Growing {
        Growing::default()
    }

    /// Adds the next entry.
    pub fn push(&mut self, seal: Seal) {
        let mut digest = seal.0;
        for _ in 0..self.size.trailing_ones() {
            if let Some(left) = self.full.pop() {
                digest = node(&left, &digest);
            }
        }
        self.full.push(digest);
        self.size += 1;
    }

    /// How many entries have been added.
    #[must_use]
    pub fn size(&self) -> u64 {
        self.size
    }

    /// The root over what has been added. That of an empty tree is the digest of nothing.
    #[must_use]
    pub fn root(&self) -> Root {
        let mut rest = self.full.iter().rev().copied();
        let last = rest.next().unwrap_or_else(|| Digest::of(&[]));
        Root {
            size: self.size,
            digest: rest.fold(last, |right, left| node(&left, &right)),
        }
    }
}

/// The root over some seals.
#[must_use]
pub fn root(seals: &[Seal]) -> Root {
    let mut tree = Growing::new();
    for seal in seals {
        tree.push(*seal);
    }
    tree.root()
}

/// The largest power of two below `size`, which is at least 2.
fn split(size: usize) -> usize {
    1 << (usize::BITS - 1 - (size - 1).leading_zeros())
}

/// The proof that the entry at `index` (counted from 0) is in the tree; none where there is no such entry.
#[must_use]
pub fn inclusion(index: usize, seals: &[Seal]) -> Option<Vec<Digest>> {
    if index >= seals.len() {
        return None;
    }
    if seals.len() == 1 {
        return Some(Vec::new());
    }
    let (left, right) = seals.split_at(split(seals.len()));
    let (inside, index, other) = if index < left.len() {
        (left, index, right)
    } else {
        (right, index - left.len(), left)
    };
    let mut proof = inclusion(index, inside)?;
    proof.push(root(other).digest);
    Some(proof)
}

/// Tells whether a proof shows that the entry with this seal stands at `index` (counted from 0) in the tree with this root.
///
/// The procedure of RFC 9162, section 2.1.3.2.
#[must_use]
pub fn includes(root: Root, index: u64, seal: Seal, proof: &[Digest]) -> bool {
    if index >= root.size {
        return false;
    }
    let (mut place, mut last) = (index, root.size - 1);
    let mut digest = seal.0;
    for other in proof {
        if last == 0 {
            return false;
        }
        if place & 1 == 1 || place == last {
            digest = node(other, &digest);
            while place & 1 == 0 && place != 0 {
                place >>= 1;
                last >>= 1;
            }
        } else {
            digest = node(&digest, other);
        }
        place >>= 1;
        last >>= 1;
    }
    last == 0 && digest == root.digest
}

/// The proof that the tree over the first `size` entries is the beginning of the tree over all; none unless `1 <= size <= all`.
#[must_use]
pub fn consistency(size: usize, seals: &[Seal]) -> Option<Vec<Digest>> {
    if size == 0 || size > seals.len() {
        return None;
    }
    Some(subproof(size, seals, true))
}

fn subproof(size: usize, seals: &[Seal], whole: bool) -> Vec<Digest> {
    if size == seals.len() {
        return if whole {
            Vec::new()
        } else {
            vec![root(seals).digest]
        };
    }
    let (left, right) = seals.split_at(split(seals.len()));
    if size <= left.len() {
        let mut proof = subproof(size, left, whole);
        proof.push(root(right).digest);
        proof
    } else {
        let mut proof = subproof(size - left.len(), right, false);
        proof.push(root(left).digest);
        proof
    }
}

/// Tells whether a proof shows that the tree with root `later` begins with the tree with root `earlier`.
///
/// The procedure of RFC 9162, section 2.1.4.2. An empty tree is the beginning of every tree, which needs no proof.
#[must_use]
pub fn grew(earlier: Root, later: Root, proof: &[Digest]) -> bool {
    if earlier.size == 0 {
        return proof.is_empty() && earlier == root(&[]);
    }
    if earlier.size >= later.size {
        return earlier == later && proof.is_empty();
    }
    let (mut place, mut last) = (earlier.size - 1, later.size - 1);
    while place & 1 == 1 {
        place >>= 1;
        last >>= 1;
    }
    // A tree of a power of two stands in the later tree as it is.
    let mut rest = proof.iter();
    let first = if earlier.size.is_power_of_two() {
        earlier.digest
    } else if let Some(first) = rest.next() {
        *first
    } else {
        return false;
    };
    let (mut before, mut after) = (first, first);
    for other in rest {
        if last == 0 {
            return false;
        }
        if place & 1 == 1 || place == last {
            before = node(other, &before);
            after = node(other, &after);
            while place & 1 == 0 && place != 0 {
                place >>= 1;
                last >>= 1;
            }
        } else {
            after = node(&after, other);
        }
        place >>= 1;
        last >>= 1;
    }
    last == 0 && before == earlier.digest && after == later.digest
}

#[cfg(test)]
mod tests;
