//! The screens of the laboratory's record: who is here, what is to do, what was signed.

mod asked;
pub mod bench_runs;
pub mod board;
mod dated;
pub mod deeds;
pub mod enrolling;
pub mod entries;
pub mod founding;
pub mod giving_key;
mod leaf;
pub mod matrix;
pub mod new_passphrase;
pub mod one_entry;
pub mod opening;
pub mod page;
pub mod person_file;
pub mod sign_in;
pub mod signing;
pub mod verifying;
pub mod ways;
pub mod welcome;
pub mod workflow_file;
pub mod workflows;
