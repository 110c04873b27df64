//! Edge: where the record is kept: a database of entries, and beside it a small file that remembers how far it went.
//!
//! Left out: every rule about who may write what, and what entries mean. Here are bytes with their strand, number and seal; whether they are in
//! order is for `record::verify` to say.

#![expect(
    clippy::disallowed_methods,
    reason = "the room that keeps files; it waits while another process has the database"
)]

mod attachments;
mod copy;
mod heads;
mod keys;
mod register;
mod sqlite;
mod whole;

pub use attachments::{AttachmentProblem, Attachments, Kind};
pub use copy::{Copied, CopyProblem};
pub use heads::{Heads, HeadsFile, Standing, StrandStanding};
pub use keys::{KeyFolder, KeyProblem};
pub use register::RegisterFile;
pub use sqlite::{Misfiled, SqliteLog};
