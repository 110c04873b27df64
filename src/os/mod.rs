//! Edge: what the machine under the program offers: clocks, cores, random bytes, secrets, a folder for data, whole files, journals, a language, wishes about colour.
//!
//! Left out: every rule about what is stored, and every sentence. A fault is a value that says what happened, what is still
//! there and what would help; the front ends word it.

#![expect(
    clippy::disallowed_methods,
    reason = "the one room that reads clocks, files, randomness and the environment"
)]

mod clock;
mod files;
mod folder;
mod hands;
mod journal;
mod laboratory;
mod machine;
mod random;
mod secret;
mod terminal;

pub use clock::Clock;
pub use files::{read_bytes, read_text, write_atomically};
pub use folder::data_folder;
pub use hands::Cores;
pub use journal::{Found, Journal};
pub use laboratory::Folder;
pub use machine::Machine;
pub use terminal::{colours, input_is_terminal, output_is_terminal, preferred_language};
