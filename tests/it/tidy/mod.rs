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
        let entries = fs::read_dir(&folder).expect("the folder is there");
        for path in entries.map(|entry| entry.expect("the folder is read").path()) {
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|found| found == extension) {
                let inside = path.strip_prefix(root).expect("found below the project");
                // Broken modules may hold bytes that are no text; what can be read of them is looked at all the same.
                let bytes = fs::read(&path).expect("project files can be read");
                let text = String::from_utf8_lossy(&bytes).into_owned();
                found.push((inside.to_string_lossy().replace('\\', "/"), text));
            }
        }
    }
    // A test that looks at nothing would find nothing wrong.
    assert!(!found.is_empty(), "no .{extension} below {folder}");
    found.sort();
    found
}

/// Returns a document of the top folder. One that is missing fails the test that asks for it.
fn document(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
    fs::read_to_string(path).unwrap_or_else(|problem| panic!("{name}: {problem}"))
}

/// One complaint a line.
fn list(complaints: &[String]) -> String {
    format!("\n{}", complaints.join("\n"))
}
