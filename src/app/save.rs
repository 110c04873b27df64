//! Saving a debrief: as text for people and for machines, side by side.

use std::path::{Path, PathBuf};

use super::System;
use super::fault::Fault;

/// The folder of saved debriefs inside the folder for data.
const DEBRIEFS: &str = "debriefs";

/// Writes both files and returns where they are. `name` says what they are about; the time of day is put before it.
///
/// # Errors
/// When the folder or a file is refused.
pub fn debrief<S: System>(
    system: &S,
    data: Option<&Path>,
    name: &str,
    text: &str,
    json: &str,
) -> Result<Vec<PathBuf>, Fault> {
    let folder = system.data_folder(Some(&system.data_folder(data)?.join(DEBRIEFS)))?;
    let stem = format!("{}-{name}", system.stamp());
    let files = [("txt", text), ("json", json)];
    let mut written = Vec::new();
    for (end, content) in files {
        let path = folder.join(format!("{stem}.{end}"));
        system.write(&path, content.as_bytes())?;
        written.push(path);
    }
    Ok(written)
}
