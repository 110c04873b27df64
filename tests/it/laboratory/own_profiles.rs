//! Process profiles of a laboratory's own, at the command line: found by their names, told when they are faulty, and never taken for one another.

use super::{ADA, BO, Bench};
use crate::support::profiles::ours;

/// A rehearsal of the stock teeth that never changes.
const CASE: &str = "--seed 7 --case teeth=6,wash=ultrasonic --disturbances none";

/// A laboratory of two that has adopted the stock teeth, with its own numbers.
fn with_ours() -> Bench {
    let bench = Bench::with_two();
    bench.done("adopt stock-teeth --reason=first --as Ada", &[ADA]);
    lay(&bench, "ours.yaml", &ours("ours"));
    bench
}

fn lay(bench: &Bench, name: &str, text: &str) {
    let folder = bench.data().join("modules/profiles");
    std::fs::create_dir_all(&folder).expect("it can be made");
    std::fs::write(folder.join(name), text).expect("it can be written");
}

/// A rehearsal of nothing but its end, kept; returns where.
fn rehearsed(bench: &Bench, profile: &str) -> String {
    let script = bench.data().join("lines.txt");
    std::fs::write(&script, "abandon\n").expect("it can be written");
    let line = format!(
        "rehearse stock-teeth {CASE} --profile {profile} --script {}",
        script.display()
    );
    let said = bench.run(&line, &[]);
    assert_eq!(said.status, 1, "{said:#?}");
    let mut runs = std::fs::read_dir(bench.data().join("rehearsals")).expect("runs are kept");
    let run = runs.next().expect("there is one").expect("it can be read");
    run.path().display().to_string()
}

#[test]
fn a_profile_of_the_folder_is_found_by_its_name() {
    let bench = with_ours();
    let said = bench.done("read stock-teeth --step tack --profile ours", &[]);
    assert!(said.results.contains("12 s"), "{said:#?}");
    let shown = bench.json("module show stock-teeth --profile ours");
    assert_eq!(shown["profile"], "ours");
    let tacks = shown["tasks"].as_array().expect("it has tasks").iter();
    let mut tacks = tacks.filter(|task| task["step"] == "tack");
    assert!(tacks.all(|task| task["least"] == 10_000));
    let said = bench.done("module check ours", &[]);
    assert!(said.results.contains("no problem"), "{said:#?}");
    // By its path it is the same.
    let path = bench.data().join("modules/profiles/ours.yaml");
    let line = format!("read stock-teeth --step tack --profile {}", path.display());
    assert!(bench.done(&line, &[]).results.contains("12 s"));
}

#[test]
fn a_person_is_assigned_and_watched_under_a_profile_of_the_folder() {
    let bench = with_ours();
    bench.done("assign Bo stock-teeth --profile ours --as Ada", &[ADA]);
    let workflow = bench.run("workflow stock-teeth", &[]);
    assert!(workflow.results.contains("ours"), "{workflow:#?}");
    let line = "observe run stock-teeth Bo --case-ref=c-0700 --as Ada";
    let said = bench.run(line, &[ADA]);
    assert_eq!(said.status, 1, "{said:#?}");
    let path = bench.data().join("bench-runs");
    let mut runs = std::fs::read_dir(path).expect("runs are kept");
    let run = runs.next().expect("there is one").expect("it can be read");
    let head = std::fs::read_to_string(run.path()).expect("it can be read");
    assert!(head.contains("\"numbers\":\""), "{head}");
    // With other numbers it is not gone on with, and left as it is.
    lay(
        &bench,
        "ours.yaml",
        &ours("ours").replace("most: 15 s", "most: 14 s"),
    );
    let line = "observe run stock-teeth Bo --resume --as Ada";
    let said = bench.refused(line, &[ADA]);
    assert!(
        said.contains("other numbers than the profile ours"),
        "{said}"
    );
    let after = std::fs::read_to_string(run.path()).expect("it can be read");
    assert_eq!(after, head);
}

#[test]
fn a_profile_that_is_not_here_is_not_silently_assigned() {
    let bench = with_ours();
    let before = bench.entries();
    let said = bench.run("assign Bo stock-teeth --profile ourz --as Ada", &[ADA]);
    assert_eq!(said.status, 2, "{said:#?}");
    // What may have been meant stands first.
    assert!(
        said.messages.contains("there are ours and common-practice"),
        "{said:#?}"
    );
    assert!(said.messages.contains("modules/profiles"), "{said:#?}");
    assert!(said.messages.contains("another workstation"), "{said:#?}");
    lay(
        &bench,
        "wet.yaml",
        &ours("wet").replace("[stock-teeth, ", "["),
    );
    let said = bench.refused("assign Bo stock-teeth --profile wet --as Ada", &[ADA]);
    assert!(
        said.contains("does not cover the module stock-teeth"),
        "{said}"
    );
    assert_eq!(bench.entries(), before);
    bench.done("assign Bo stock-teeth --as Ada", &[ADA]);
    // Nor by somebody else.
    bench.run("assign Ada stock-teeth --profile ourz --as Bo", &[BO]);
    assert_eq!(bench.entries(), before + 1);
}

#[test]
fn faulty_profiles_are_told_where_they_are_asked_for_and_keep_nothing_else_away() {
    let bench = with_ours();
    lay(&bench, "broken.yaml", "profile: { id: broken }\n");
    lay(&bench, "renamed.yaml", &ours("first"));
    lay(&bench, "twice.yaml", &ours("twice"));
    lay(&bench, "twice.yml", &ours("twice"));
    for (profile, says) in [
        ("broken", "broken.yaml:1:"),
        (
            "renamed",
            "calls itself first, and its file is called renamed",
        ),
        ("twice", "twice.yaml and"),
    ] {
        for line in [
            "read stock-teeth",
            "rehearse stock-teeth",
            "assign Bo stock-teeth --as Ada",
        ] {
            let said = bench.refused(&format!("{line} --profile {profile}"), &[]);
            assert!(said.contains(says), "{line}: {said}");
        }
        let said = bench.run(&format!("module check {profile}"), &[]);
        assert_eq!(said.status, 1, "{said:#?}");
        assert!(said.messages.contains(says), "{said:#?}");
    }
    bench.done("read stock-teeth --profile ours --step tack", &[]);
    bench.done("read stock-teeth --step tack", &[]);
}

#[test]
fn a_profile_with_the_name_of_the_shipped_one_is_refused_in_its_place() {
    let bench = with_ours();
    let text = ours("common-practice");
    lay(&bench, "common-practice.yaml", &text);
    for line in [
        "read stock-teeth",
        "rehearse stock-teeth",
        "assign Bo stock-teeth --as Ada",
    ] {
        let said = bench.refused(line, &[]);
        assert!(
            said.contains("must not mean two sets of numbers"),
            "{line}: {said}"
        );
        assert!(said.contains("a name of its own"), "{line}: {said}");
    }
    bench.done("read stock-teeth --profile ours --step tack", &[]);
    // From anywhere else it is the same.
    std::fs::remove_file(bench.data().join("modules/profiles/common-practice.yaml"))
        .expect("it is there");
    let path = bench.data().join("common-practice.yaml");
    std::fs::write(&path, text).expect("it can be written");
    let said = bench.refused(
        &format!("read stock-teeth --profile {}", path.display()),
        &[],
    );
    assert!(said.contains("must not mean two sets of numbers"), "{said}");
}

#[test]
fn a_kept_run_is_replayed_by_the_numbers_it_was_made_under_or_not_at_all() {
    let bench = with_ours();
    let path = rehearsed(&bench, "ours");
    let kept = std::fs::read_to_string(&path).expect("it can be read");
    let line = format!("rehearse stock-teeth --replay {path}");
    let said = bench.run(&line, &[]);
    assert!(said.results.contains("--profile ours"), "{said:#?}");
    // What is written around the numbers may change.
    let titled = ours("ours").replace("title: Common practice", "title: Ours");
    lay(&bench, "ours.yaml", &titled);
    assert_eq!(bench.run(&line, &[]).results, said.results);
    lay(
        &bench,
        "ours.yaml",
        &ours("ours").replace("most: 15 s", "most: 14 s"),
    );
    let told = bench.refused(&line, &[]);
    assert!(
        told.contains("other numbers") && told.contains("untouched"),
        "{told}"
    );
    std::fs::remove_file(bench.data().join("modules/profiles/ours.yaml")).expect("it is there");
    let told = bench.refused(&line, &[]);
    assert!(
        told.contains("no profile ours") && told.contains("untouched"),
        "{told}"
    );
    let after = std::fs::read_to_string(&path).expect("it can be read");
    assert_eq!(after, kept);
    // A file of the same numbers, named by its path, will do.
    let file = bench.data().join("ours.yaml");
    std::fs::write(&file, titled).expect("it can be written");
    let again = bench.run(&format!("{line} --profile {}", file.display()), &[]);
    assert_eq!(again.results, said.results, "{again:#?}");
}
