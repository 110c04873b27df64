//! The record in words: what entries say, who stands where, what was refused, what verification found.
//!
//! A report is gathered first, as data; then it is told as blocks to people and as JSON to machines. Names reach it through a closure: codes
//! and nothing else stand in the data. Left out: which entries somebody asks for, where names are kept, "now".

mod board;
mod entries;
mod entry;
mod facts;
mod faults;
mod follows;
mod glance;
mod json;
mod lines;
mod matrix;
mod needs;
mod next_step;
mod preview;
mod refusals;
mod register;
mod said;
mod scopes;
mod standings;
mod technician;
mod telling;
mod terms;
mod verified;
mod workflow;
mod worth;

pub use board::{About, Board, Matter, board, looks_after_others, standing_of, waiting_for};
pub use entries::{EntryList, entries, entry_row};
pub use entry::{Beside, Link, OneEntry, entry};
pub use facts::Titles;
pub use faults::{
    authority_fault, code_problem, entry_fault, fault, limit, text_problem, trouble, why_not,
};
pub use follows::follows;
pub use glance::{Glance, cell, glance};
pub use json::{
    AdoptedJson, AmendedJson, AsOfJson, BadJson, BoardJson, CarriedJson, CauseJson, CellJson,
    CountJson, EditionJson, EntryJson, EntryListJson, EntryRefJson, InWorkflowJson, LimitJson,
    ListedJson, MatrixJson, MatterJson, NeedJson, OneEntryJson, PreviewJson, RowJson, ScopeJson,
    SecondJson, SigningJson, StandingJson, StandsJson, StrandJson, TechnicianJson, VerifiedJson,
    WordCountJson, WorkflowJson,
};
pub use matrix::{Cell, Matrix, abbreviations, matrix};
pub use needs::{need, too_few};
pub use next_step::next_step;
pub use preview::{Preview, ToBeSigned, declaration, preview};
pub use refusals::{holders, not_yours, refusal, who_could};
pub use register::{name_problem, register_fault};
pub use said::{ground, member_name, member_now, member_word, said};
pub use scopes::InScope;
pub use standings::{due_cause, lapse_cause, remark, standing, standing_short, standing_told};
pub use technician::{Technician, history, technician, technician_today};
pub use telling::{AsOf, Telling, erased, fingerprint, id_of, time};
pub use terms::{
    allowed, authority, cause, effect, ending, found, help, how_established, impact, independence,
    judgement, kind, meaning, method, outside_way, run, seen, stage,
};
pub use verified::{Verified, verified};
pub use workflow::{WorkflowFile, workflow};
pub use worth::worth;

#[cfg(test)]
mod tests;
