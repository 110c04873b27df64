//! Drybench: rehearse, assess and record the bench work of a dental laboratory.
//!
//! The map of the tree, in reading order. A room is wholly pure (values in, values out) or wholly edge (may reach files,
//! clocks and terminals, and holds no rules). `tests/it/tidy` keeps who may use whom.
//!
//! | room | what it is |
//! |---|---|
//! | [`units`] | quantities as integers with names |
//! | [`rng`] | one random stream per name |
//! | [`syllabus`] | learning modules as data, and plans made from them |
//! | [`mod@bench`] | the simulated bench |
//! | [`rehearsal`] | one run over a plan |
//! | [`people`] | the register's rules: codes, names by version, erasure; passphrases |
//! | [`record`] | entries: canonical bytes, seals, chain, tree, signatures, authority, verification |
//! | [`standing`] | entries to standings as of an instant, and what may be recorded |
//! | [`report`] | what is told about modules and runs: blocks, figures, and plain text |
//! | [`shipped`] | texts built into the program: modules and locales; only `text` and `app` (and those above) use it |
//! | [`text`] | every sentence outside modules, numbers and lists of a language |
//! | [`app`] | use cases: what the front ends ask for |
//! | [`cli`] | edge: the command line |
//! | [`tui`] | edge: screens |
//! | [`os`] | edge: clocks, random bytes, folders, whole files, journals |
//! | [`store`] | edge: where record, register, keys and attachments are kept |

pub mod app;
pub mod bench;
pub mod cli;
pub mod os;
pub mod people;
pub mod record;
pub mod rehearsal;
pub mod report;
pub mod rng;
pub mod shipped;
pub mod standing;
pub mod store;
pub mod syllabus;
pub mod text;
pub mod tui;
pub mod units;
