//! Everything that is linked in may be given on under the project's own licences.

use std::process::Command;

use super::list;

/// Licences that ask for nothing but their text.
const ALLOWED: [&str; 13] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "Unicode-3.0",
    "BSL-1.0",
    "Unlicense",
    "0BSD",
    "CC0-1.0",
];

/// Packages with a licence of their own: copyleft by file, used unchanged.
const EXCEPTIONS: [(&str, &str); 1] = [("option-ext", "MPL-2.0")];

/// Tells whether an expression (`MIT OR Apache-2.0`, `(A OR B) AND C`, `A/B`) can be met.
fn met(package: &str, expression: &str) -> bool {
    let expression = expression.trim();
    let parts = |word: &str| split_outside(expression, word);
    let either = parts(" OR ");
    if either.len() > 1 {
        return either.iter().any(|part| met(package, part));
    }
    let both = parts(" AND ");
    if both.len() > 1 {
        return both.iter().all(|part| met(package, part));
    }
    if let Some(inner) = expression
        .strip_prefix('(')
        .and_then(|rest| rest.strip_suffix(')'))
    {
        return met(package, inner);
    }
    if expression.contains('/') {
        return expression.split('/').any(|part| met(package, part));
    }
    ALLOWED.contains(&expression) || EXCEPTIONS.contains(&(package, expression))
}

/// Splits at a word that stands in no brackets.
fn split_outside<'a>(text: &'a str, word: &str) -> Vec<&'a str> {
    let mut parts = Vec::new();
    let mut from = 0;
    for (at, _) in text.match_indices(word) {
        let before = &text[..at];
        if before.matches('(').count() == before.matches(')').count() {
            parts.push(&text[from..at]);
            from = at + word.len();
        }
    }
    parts.push(&text[from..]);
    parts
}

/// Asks cargo for all packages, or, where those of other systems are not on this machine, for those of this one.
fn metadata() -> serde_json::Value {
    let ask = |more: &[&str]| {
        Command::new(env!("CARGO"))
            .args(["metadata", "--format-version", "1", "--locked", "--offline"])
            .args(more)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .expect("cargo starts")
    };
    let mut output = ask(&[]);
    if !output.status.success() {
        let about = Command::new("rustc")
            .arg("-vV")
            .output()
            .expect("the compiler starts");
        let about = String::from_utf8(about.stdout).expect("the compiler prints text");
        let host = about
            .lines()
            .find_map(|line| line.strip_prefix("host: "))
            .expect("the compiler names its host");
        output = ask(&["--filter-platform", host]);
    }
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).expect("cargo prints JSON")
}

#[test]
fn every_licence_is_permissive() {
    let metadata = metadata();
    let packages = metadata["packages"]
        .as_array()
        .expect("cargo lists packages");
    assert!(packages.len() > 50, "only {} packages", packages.len());
    let found: Vec<String> = packages
        .iter()
        .filter_map(|package| {
            let name = package["name"].as_str().unwrap_or_default();
            let licence = package["license"].as_str().unwrap_or("none stated");
            (!met(name, licence)).then(|| format!("{name}: {licence}"))
        })
        .collect();
    assert!(found.is_empty(), "{}", list(&found));
}

#[test]
fn expressions_are_weighed() {
    for (expression, expected) in [
        ("MIT OR Apache-2.0", true),
        ("MIT/Apache-2.0", true),
        ("GPL-2.0-only OR Apache-2.0", true),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", true),
        ("(MIT OR Apache-2.0) AND GPL-3.0-only", false),
        ("MPL-2.0", false),
        ("none stated", false),
    ] {
        assert_eq!(met("some-package", expression), expected, "{expression}");
    }
    assert!(met("option-ext", "MPL-2.0"));
}
