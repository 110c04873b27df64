//! Reports of the record for machines. `assets/formats.md` describes them for people.
//!
//! Codes, seals, instants as RFC 3339, and the words that entries and standings are stored and known by. No names and no sentences.

use crate::record::canonical::{Map, Value};

macro_rules! json {
    ($($(#[$doc:meta])* $name:ident { $($(#[$field_doc:meta])* $field:ident: $type:ty,)* })*) => {$(
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
        #[serde(rename_all = "kebab-case")]
        pub struct $name {
            $($(#[$field_doc])* pub $field: $type,)*
        }
    )*};
}

mod board;
mod entry;
mod kept;
mod reports;
mod standing;

pub use board::{BoardJson, MatterJson};
pub use entry::{AmendedJson, EntryJson, EntryRefJson, SecondJson, SigningJson};
pub use kept::{
    BadJson, EntryListJson, LimitJson, ListedJson, OneEntryJson, StrandJson, VerifiedJson,
};
pub use reports::{
    AdoptedJson, CellJson, InWorkflowJson, MatrixJson, PreviewJson, RowJson, StandsJson,
    TechnicianJson, WordCountJson, WorkflowJson,
};
pub use standing::{
    AsOfJson, CarriedJson, CauseJson, CountJson, EditionJson, NeedJson, ScopeJson, StandingJson,
};

/// The number of the formats of these reports.
const FORMAT: u16 = 1;

fn value(stored: &Value) -> serde_json::Value {
    // Canonical text is JSON.
    serde_json::from_str(&stored.canonical()).unwrap_or(serde_json::Value::Null)
}

fn facts(facts: &Map<'static>) -> serde_json::Value {
    value(&Value::Map(facts.clone()))
}
