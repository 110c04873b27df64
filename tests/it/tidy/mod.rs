//! The project about itself: who uses whom, what files say first, words in locales, documents, licences.

#![expect(
    clippy::disallowed_methods,
    reason = "reads the project's own files and asks cargo about it"
)]

mod documents;
mod licences;
mod locales;
mod naming;
mod reach;
mod rooms;
mod source;

use std::fs;
use std::path::Path;

/// Returns every file below a folder of the project with this extension: path with forward slashes, and text.
fn files(folder: &str, extension: &str) -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    let mut open = vec![root.join(folder)];
    while let Some(folder) = open.pop() {
        // A folder that is not there holds no files.
        let Ok(entries) = fs::read_dir(&folder) else {
            continue;
        };
        for path in entries.map(|entry| entry.expect("the folder is read").path()) {
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|found| found == extension) {
                let inside = path.strip_prefix(root).expect("found below the project");
                let text = fs::read_to_string(&path).expect("project files are text");
                found.push((inside.to_string_lossy().replace('\\', "/"), text));
            }
        }
    }
    found.sort();
    found
}

/// Returns a document of the top folder. One that is not written yet is said to be skipped.
#[expect(clippy::print_stderr, reason = "a skipped check should be seen")]
fn document(name: &str) -> Option<String> {
    let text = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).ok();
    if text.is_none() {
        eprintln!("skipped: {name} is not written yet");
    }
    text
}

/// One complaint a line.
fn list(complaints: &[String]) -> String {
    format!("\n{}", complaints.join("\n"))
}
