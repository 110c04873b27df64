//! Edge: where a laboratory's things are kept: a database of entries with a small file beside it that remembers how far it went, the register of
//! names, private keys, attachments. [`Folder`] says what lies where.
//!
//! Left out: every rule about who may write what, and what entries mean. Here are bytes with their strand, number and seal; whether they are in
//! order is for `record::verify` to say, and who stands behind a code for `people`.

#![expect(
    clippy::disallowed_methods,
    reason = "the room that keeps files; it waits while another process has the database, and draws salts"
)]

mod attachments;
mod copy;
mod database;
mod folder;
mod heads;
mod keys;
mod laboratory;
mod register;
mod sqlite;
mod whole;

pub use attachments::{AttachmentFolder, AttachmentKind, AttachmentProblem};
pub use copy::{Copied, CopyProblem};
pub use folder::Folder;
pub use heads::{Heads, HeadsFile, Standing, StrandStanding};
pub use keys::{KeyFolder, KeyProblem};
pub use laboratory::{CopiedLaboratory, NoCopy, Part, copy_laboratory};
pub use register::{RegisterFile, RegisterProblem};
pub use sqlite::{Misfiled, SqliteLog};
