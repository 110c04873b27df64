//! A laboratory adopts a revision with other numbers than the module's; and rights are given several at once.

use super::{ADA, BO, Bench};

const WET: &str = "wet-resin-and-solvent";

/// The file of the workflow, on one line.
fn told(bench: &Bench, line: &str) -> String {
    let said = bench.run(line, &[]);
    let words: Vec<&str> = said.results.split_whitespace().collect();
    words.join(" ")
}

#[test]
fn numbers_that_contradict_themselves_are_refused_with_words_and_nothing_is_recorded() {
    let bench = Bench::with_two();
    let before = bench.entries();
    for (options, says) in [
        ("--assessors 0", "no assessor"),
        ("--observed 0 --assessors 0", "no observed run"),
        ("--assessors 3", "more assessors than observed runs"),
        ("--clean-in-a-row 3", "more clean runs in a row"),
        ("--valid-months 6,0", "1 to 120 months"),
        ("--supervised-cases 1001", "more than 1,000"),
        ("--clean-rehearsals 1001", "more than 1,000"),
        ("--clean-rehearsals 2", "on more days than"),
        ("--clean-rehearsals 0", "both are 0"),
        ("--renewal-observed 0", "A renewal asks for no observed run"),
        ("--renewal-assessors 0", "A renewal asks for no assessor"),
        (
            "--renewal-assessors 2",
            "A renewal asks for more assessors than observed runs",
        ),
        (
            "--renewal-clean-in-a-row 2",
            "A renewal asks for more clean runs in a row",
        ),
        ("--effect-check-days 90,30", "ends before it begins"),
        ("--effect-check-days 30,30", "on the same day"),
    ] {
        let line = format!("adopt {WET} {options} --reason=first --as Ada");
        let said = bench.refused(&line, &[ADA]);
        assert!(said.contains(says), "{options}: {said}");
        assert!(said.contains("Nothing was recorded."), "{options}: {said}");
    }
    for option in [
        "--assessors two",
        "--effect-check-days 30",
        "--effect-check-days 30,60,90",
        "--renewal-observed 1,2",
    ] {
        let said = bench.run(&format!("adopt {WET} {option} --reason=x --as Ada"), &[ADA]);
        assert_eq!(said.status, 2, "{option}: {said:#?}");
    }
    assert_eq!(bench.entries(), before);
}

#[test]
fn what_departs_from_the_module_is_told_before_the_signature_in_the_entry_and_in_the_file() {
    let bench = Bench::with_two();
    let departs = "Assessors: 1. The module asks for 2.";
    let line = format!("adopt {WET} --assessors 1 --valid-months 3,6 --reason=one --as Ada");
    let shown = bench.done(&line, &[ADA]).messages;
    assert!(shown.contains(departs), "{shown}");
    assert!(
        shown.contains("Holds, in months: 3, 6. The module asks for 6, 12, 12."),
        "{shown}"
    );
    let adopted = bench.entries();
    let second = bench.done(&format!("countersign {adopted} --as Bo"), &[BO]);
    assert!(second.messages.contains(departs), "{second:#?}");
    assert!(told(&bench, &format!("record show {adopted}")).contains(departs));
    assert!(told(&bench, &format!("workflow {WET}")).contains(departs));
    // What asks for what the module asks for departs from nothing.
    bench.done(
        "adopt stock-teeth --valid-months 6,12 --reason=same --as Ada",
        &[ADA],
    );
    let same = told(&bench, &format!("record show {}", bench.entries()));
    assert!(same.contains("Observed runs"), "{same}");
    assert!(!same.contains("The module asks for"), "{same}");
}

#[test]
fn renewals_and_the_check_of_effect_are_set_and_what_a_module_does_not_say_is_told_from_its_default()
 {
    let bench = Bench::with_two();
    let observed = "Renewal, observed: 2. The module says nothing of it; the default is 1.";
    let assessors = "Renewal, assessors: 2. The module says nothing of it; the default is 1.";
    let effect = "Effect asked, days: never. The module asks for 30, 90.";
    let options = "--renewal-observed 2 --renewal-assessors 2 --effect-check-days 0";
    let line = format!("adopt {WET} {options} --reason=one --as Ada");
    let shown = bench.done(&line, &[ADA]).messages;
    let adopted = bench.entries();
    bench.done(&format!("countersign {adopted} --as Bo"), &[BO]);
    let entry = told(&bench, &format!("record show {adopted}"));
    let file = told(&bench, &format!("workflow {WET}"));
    for departs in [observed, assessors, effect] {
        for text in [&shown, &entry, &file] {
            assert!(text.contains(departs), "{departs}: {text}");
        }
    }
    assert!(!entry.contains("Renewal, in a row:"), "{entry}");
    let stored = bench.run(&format!("record show {adopted} --json"), &[]);
    let stored: serde_json::Value = serde_json::from_str(&stored.results).unwrap();
    let stored = stored.to_string();
    let again = r#""again":{"assessors":2,"clean-days":0,"clean-in-a-row":1"#;
    assert!(stored.contains(again), "{stored}");
    assert!(!stored.contains("effect-check"), "{stored}");
    // Another window is one too.
    let line = "adopt stock-teeth --effect-check-days 14,60 --reason=two --as Ada";
    let shown = bench.done(line, &[ADA]).messages;
    let departs = "Effect asked, days: 14, 60. The module asks for 30, 90.";
    assert!(shown.contains(departs), "{shown}");
}

#[test]
fn where_no_rehearsal_is_asked_for_none_is_counted_or_missing() {
    let bench = Bench::with_two();
    let line = |numbers: &str| format!("adopt {WET} {numbers} --reason=one --as Ada");
    let shown = bench
        .done(&line("--clean-rehearsals 0 --clean-days 0"), &[ADA])
        .messages;
    for departs in [
        "Clean rehearsals: 0. The module asks for 3.",
        "Rehearsal days: 0. The module asks for 3.",
    ] {
        assert!(shown.contains(departs), "{departs}: {shown}");
    }
    let adopted = bench.entries();
    bench.done(&format!("countersign {adopted} --as Bo"), &[BO]);
    bench.done(&format!("assign Bo {WET} --as Ada"), &[ADA]);
    for line in ["technician Bo", "board Bo", "board Ada", "matrix"] {
        let said = told(&bench, line);
        assert!(!said.contains("of 0"), "{line}: {said}");
        assert!(!said.contains("unaided"), "{line}: {said}");
    }
    let file = told(&bench, "technician Bo");
    assert!(file.contains("the edition read"), "{file}");
    let refused = bench.refused(&format!("sign-off Bo {WET} --as Ada"), &[ADA]);
    assert!(!refused.contains("unaided"), "{refused}");
}

#[test]
fn whoever_may_not_adopt_is_told_who_has_the_right_and_where_nobody_has_it_who_could_give_it() {
    let bench = Bench::with_two();
    let line = format!("adopt {WET} --reason=one --as Bo");
    bench.done("person revoke Bo publish --as Ada", &[ADA]);
    let refused = bench.refused(&line, &[BO]);
    assert!(refused.contains("Could sign it now: Ada"), "{refused}");
    // Adopted already, so that nobody could adopt it as it is: the right is named all the same.
    bench.done(&format!("adopt {WET} --reason=one --as Ada"), &[ADA]);
    let refused = bench.refused(&line, &[BO]);
    assert!(refused.contains("Has the right: Ada"), "{refused}");
    assert!(!refused.contains("Could give it"), "{refused}");
    bench.done("person revoke Ada publish --as Ada", &[ADA]);
    let refused = bench.refused(&line, &[BO]);
    let nobody = "Nobody else here has the right. Could give it: Ada";
    assert!(refused.contains(nobody), "{refused}");
}

#[test]
fn a_laboratory_of_two_is_told_the_ways_out_and_adopts_again_with_one_assessor() {
    let bench = Bench::with_two();
    bench.done(&format!("adopt {WET} --reason=first --as Ada"), &[ADA]);
    let first = bench.entries();
    let again = format!("adopt {WET} --assessors 1 --reason=again --as Ada");
    let waits = bench.refused(&again, &[ADA]);
    assert!(waits.contains("rule R11"), "{waits}");
    bench.done(&format!("countersign {first} --as Bo"), &[BO]);
    bench.done(&format!("assign Bo {WET} --as Ada"), &[ADA]);
    let ways = "It takes 2 assessors, and only 1 other person here has the right to assess.";
    let refused = bench.refused(&format!("sign-off Bo {WET} --as Ada"), &[ADA]);
    assert!(refused.contains(ways), "{refused}");
    assert!(refused.contains("adopt the revision again"), "{refused}");
    assert!(
        told(&bench, &format!("technician Bo {WET}")).contains(ways)
            || told(&bench, "technician Bo").contains(ways)
    );
    assert!(told(&bench, "board Ada").contains("asks for 2 assessors, so 2 of them"));

    let other = bench.refused(&format!("{again} --impact none"), &[ADA]);
    assert!(other.contains("Adopting it again changes only"), "{other}");
    bench.done(&again, &[ADA]);
    let second = bench.entries();
    assert!(
        told(&bench, "technician Bo").contains(ways),
        "one signature changes nothing"
    );
    bench.done(&format!("countersign {second} --as Bo"), &[BO]);
    let file = told(&bench, "technician Bo");
    assert!(file.contains("different assessors (0 of 1)"), "{file}");
    assert!(!file.contains("It takes 2 assessors"), "{file}");
    let refused = bench.refused(&format!("sign-off Bo {WET} --as Ada"), &[ADA]);
    assert!(!refused.contains("It takes"), "{refused}");
    let workflow = told(&bench, &format!("workflow {WET}"));
    assert_eq!(workflow.matches("In force since").count(), 1, "{workflow}");
    assert!(
        workflow.contains("It was adopted again since"),
        "{workflow}"
    );
    let same = bench.refused(&again, &[ADA]);
    assert!(same.contains("rule R11"), "{same}");
    let verified = bench.done("record verify", &[]);
    assert!(
        verified.results.contains("Nothing wrong was found."),
        "{verified:#?}"
    );
}

#[test]
fn the_board_names_the_rights_that_nobody_holds_and_several_are_given_with_one_passphrase() {
    let bench = Bench::empty();
    bench.done("lab open --name=Invented --owner=Ada_Example", &[ADA, ADA]);
    let board = told(&bench, "board Ada");
    assert!(
        board.contains("publish: adopt revisions, retire workflows; train:"),
        "{board}"
    );
    let before = bench.entries();
    let given = bench.done(
        "person grant Ada train assess publish train --as Ada",
        &[ADA],
    );
    assert_eq!(bench.entries(), before + 3, "{given:#?}");
    assert_eq!(
        given.results.matches("Stored: entry").count(),
        3,
        "{given:#?}"
    );
    assert!(
        given.messages.contains("3 entries, one passphrase"),
        "{given:#?}"
    );
    let board = told(&bench, "board Ada");
    assert!(
        board.contains("nobody holds them yet: approve: sign off, suspend, reinstate, withdraw."),
        "{board}"
    );
    // One that is no right spoils all of them, before anything is signed.
    let said = bench.run("person grant Ada approve everything --as Ada", &[ADA]);
    assert_eq!(said.status, 2, "{said:#?}");
    assert!(said.messages.contains("everything"), "{said:#?}");
    let wrong = bench.refused("person grant Ada approve quality --as Ada", &[BO]);
    assert!(!wrong.is_empty());
    let people = told(&bench, "person list");
    assert!(
        people.contains("assess, own, publish and train"),
        "{people}"
    );
}
