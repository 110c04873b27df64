//! Lists the shipped modules and locales into one table each, so that a new file is noticed without being named anywhere.

#![expect(
    clippy::disallowed_methods,
    reason = "runs at build time, before any room of the program exists"
)]

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() {
    let root = PathBuf::from(
        env::var_os("CARGO_MANIFEST_DIR").expect("cargo names the folder of the package"),
    );
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo names a folder for what is made"));
    let mut text = String::new();
    for (name, folder, extension) in [
        ("MODULE_FILES", "modules", "yaml"),
        ("LOCALE_FILES", "locales", "ftl"),
    ] {
        let mut files = Vec::new();
        collect(&root.join(folder), extension, &mut files);
        files.sort();
        writeln!(text, "pub(crate) static {name}: &[(&str, &str)] = &[")
            .expect("a string takes text");
        for file in files {
            let inside = file
                .strip_prefix(&root)
                .expect("it was found below the root");
            let inside = inside.to_string_lossy().replace('\\', "/");
            writeln!(text, "    ({inside:?}, include_str!({file:?})),")
                .expect("a string takes text");
        }
        writeln!(text, "];").expect("a string takes text");
    }
    fs::write(out.join("shipped.rs"), text).expect("the folder of what is made can be written");
    println!("cargo:rerun-if-changed=src/build.rs");
}

/// Adds every file below `folder` with this extension, and tells cargo to watch each folder.
fn collect(folder: &Path, extension: &str, files: &mut Vec<PathBuf>) {
    println!("cargo:rerun-if-changed={}", folder.display());
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries.flatten() {
        let path = entry.path();
        if path.is_dir() {
            collect(&path, extension, files);
        } else if path.extension().is_some_and(|found| found == extension) {
            files.push(path);
        }
    }
}
