//! What can speak against whoever made an entry.

use crate::record::scope::Authority;
use crate::record::seal::Seal;
use crate::record::signature::KeyId;
use crate::units::PersonCode;

/// Why nobody may have made an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AuthorityFault {
    /// The record has not been founded yet.
    NotFounded,
    /// The record was founded before.
    FoundedAgain,
    /// The code was never given to anybody here.
    UnknownPerson(PersonCode),
    /// The person is not here, or no longer.
    NotHere(PersonCode),
    /// The person is here already.
    HereAlready(PersonCode),
    /// Somebody who left had that code. A code is never issued again: whoever comes back joins with a new one.
    CodeUsed(PersonCode),
    /// Nobody would be left who owns the record.
    LastOwner(PersonCode),
    /// It is the last grant by which anybody owns the record.
    LastOwnGrant(Seal),
    /// The key was never issued.
    UnknownKey(KeyId),
    /// The key was issued before. A key stands for one person, for ever.
    KeyAgain(KeyId),
    /// The key is lost or its person left.
    KeyEnded(KeyId),
    /// The key is another person's.
    KeyOfAnother(KeyId),
    /// The key takes the place of an earlier one, and no second person has approved of that yet.
    KeyNotSeconded(KeyId),
    /// Only the person that the entry is about may sign it.
    OnlyThePerson,
    /// The person that the entry is about may not sign it.
    NotThePerson,
    /// A grant is needed and none is named.
    NoGrant(&'static [Authority]),
    /// What is named as the grant is none.
    UnknownGrant(Seal),
    /// The grant was taken back, or its person left.
    GrantEnded(Seal),
    /// The grant is another person's.
    GrantOfAnother(Seal),
    /// The grant is of another authority or for another workflow.
    GrantTooNarrow(Seal),
    /// It names an entry that is not there.
    RefersToNothing(Seal),
}
