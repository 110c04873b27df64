//! The shared table of faults: what shows, what caused it, how to tell causes apart, what to do.

use super::hazards::list;
use super::module::{Name, Origin};
use super::read::module::{Refused, origin};
use super::read::{MapReader, Node, Problems, text};

/// One fault of finished work.
#[derive(Clone, Debug)]
pub struct Fault {
    /// Its id, as consequences name it.
    pub id: Name,
    /// What shows.
    pub symptom: String,
    /// What can have caused it.
    pub causes: Vec<String>,
    /// How to tell the causes apart.
    pub tell_apart: Vec<String>,
    /// What to do about it.
    pub remedy: String,
    /// What to do so that it does not come again.
    pub prevention: String,
    /// Where this comes from.
    pub origin: Origin,
}

/// Reads the table of faults. `name` is the name of the file.
///
/// # Errors
/// One fault of syntax, or all faults of structure.
pub fn faults(name: &str, bytes: &[u8]) -> Result<Vec<Fault>, Refused> {
    list(name, bytes, "faults", fault)
}

fn fault(id: Name, node: &Node, problems: &mut Problems) -> Option<Fault> {
    let mut map = MapReader::open(node, problems)?;
    let symptom = map.required("symptom", text);
    let causes = map.some("causes", text);
    let tell_apart = map.list("tell-apart", text);
    let remedy = map.required("remedy", text);
    let prevention = map.required("prevention", text);
    let origin = map.required("origin", origin);
    map.finish();
    Some(Fault {
        id,
        symptom: symptom?,
        causes: causes?,
        tell_apart,
        remedy: remedy?,
        prevention: prevention?,
        origin: origin?,
    })
}
