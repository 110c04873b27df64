//! Modules that a laboratory wrote itself, at the command line: found by their id, adopted when they are sound, told when they are not.

use super::{ADA, Bench};

/// A module that asks for little.
fn sharp_edge() -> String {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/modules/own");
    std::fs::read_to_string(folder.join("sharp-edge.yaml")).expect("it is there")
}

/// A laboratory of two with a file among its own modules.
fn with_module(name: &str, text: &str) -> Bench {
    let bench = Bench::with_two();
    lay(&bench, name, text);
    bench
}

fn lay(bench: &Bench, name: &str, text: &str) {
    let path = bench.data().join("modules").join(name);
    let folder = path.parent().expect("it lies in a folder");
    std::fs::create_dir_all(folder).expect("it can be made");
    std::fs::write(path, text).expect("it can be written");
}

#[test]
fn a_module_of_the_folder_is_adopted_and_rehearsed_by_its_id() {
    let bench = with_module("constructions/sharp-edge.yaml", &sharp_edge());
    let script = bench.data().join("lines.txt");
    let lines = "read-ticket\nwear goggles\nbreak-edge\nfeel-edge\nfinish\n";
    std::fs::write(&script, lines).expect("it can be written");
    let line = format!("rehearse sharp-edge --script {}", script.display());
    let said = bench.done(&line, &[]);
    assert!(said.results.contains("Clean."), "{said:#?}");
    bench.done("adopt sharp-edge --reason=first --as Ada", &[ADA]);
    let workflow = bench.run("workflow sharp-edge", &[]);
    assert!(workflow.results.contains("sharp-edge"), "{workflow:#?}");
}

#[test]
fn a_faulty_module_is_told_and_not_adopted_whether_by_id_or_by_path() {
    // Its structure is as it should be; what it means is not.
    let text = sharp_edge().replace(
        "{ edge: broken } ]\n      takes: 20 s",
        "{ edge: gone } ]\n      takes: 20 s",
    );
    assert_ne!(text, sharp_edge());
    let bench = with_module("sharp-edge.yaml", &text);
    let before = bench.entries();
    let path = bench.data().join("modules/sharp-edge.yaml");
    for wanted in ["sharp-edge", &path.display().to_string()] {
        let line = format!("adopt {wanted} --reason=first --as Ada");
        let said = bench.refused(&line, &[ADA]);
        assert!(said.contains("Nothing was recorded."), "{said}");
        assert!(said.contains("sharp-edge.yaml:"), "{said}");
        assert!(said.contains("gone"), "{said}");
    }
    assert_eq!(bench.entries(), before);
    // What is shipped is not touched by it.
    bench.done("adopt stock-teeth --reason=first --as Ada", &[ADA]);
}

#[test]
fn two_files_with_one_id_are_told() {
    let bench = with_module("one.yaml", &sharp_edge());
    lay(&bench, "other.yml", &sharp_edge());
    let said = bench.refused("adopt sharp-edge --reason=first --as Ada", &[ADA]);
    assert!(
        said.contains("one.yaml") && said.contains("other.yml"),
        "{said}"
    );
}
