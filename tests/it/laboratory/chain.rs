//! From an empty folder through needs, readings and refusals to a verified record.

use std::process::{Command, Stdio};

use super::{ADA, BO, Bench};

const WET: &str = "wet-resin-and-solvent";

/// Both have signed the first revision, and Bo has the need.
fn assigned() -> Bench {
    let bench = Bench::with_two();
    bench.done(&format!("adopt {WET} --reason=first --as Ada"), &[ADA]);
    let adopted = bench.entries();
    bench.done(&format!("countersign {adopted} --as Bo"), &[BO]);
    bench.done(&format!("assign Bo {WET} --as Ada"), &[ADA]);
    bench
}

#[test]
fn a_record_begins_and_verifies() {
    let bench = Bench::with_two();
    assert_eq!(bench.entries(), 14);
    let verified = bench.done("record verify", &[]);
    assert!(
        verified.results.contains("14 entries in 1 strand"),
        "{verified:#?}"
    );
    let people = bench.done("person list", &[]).results;
    assert!(people.contains("Ada Example (P-"), "{people}");
    assert!(
        people.contains("approve, assess, publish, quality and train"),
        "{people}"
    );
    let again = bench.refused("lab open --name=Other --owner=Cy_Instance", &[ADA, ADA]);
    assert!(again.contains("There is a record here already."), "{again}");
    assert_eq!(bench.entries(), 14);
}

#[test]
fn whoever_only_looks_makes_nothing() {
    let bench = Bench::empty();
    for line in [
        "record verify",
        "matrix",
        "lab show",
        "record list",
        "technician Bo",
        "person list",
    ] {
        let said = bench.refused(line, &[]);
        assert!(
            said.contains("There is no record here yet."),
            "{line}: {said}"
        );
    }
    assert_eq!(files(bench.data()), Vec::new());
    assert!(!bench.laboratory().exists());
}

#[test]
fn rules_refuse_by_name_and_leave_nothing_behind() {
    let bench = assigned();
    let before = bench.entries();
    for (line, passphrase, says) in [
        (format!("sign-off Bo {WET} --as Ada"), ADA, "rule R4"),
        (format!("sign-off Bo {WET} --as Bo"), BO, "rule R6"),
        (format!("train Bo {WET} --as Ada"), ADA, "signed off"),
        (
            "policy set --due-days 30 --reason=x --as Bo".to_owned(),
            BO,
            "own",
        ),
        ("suspend Bo stock-teeth --as Ada".to_owned(), ADA, "reason"),
        (
            format!("reinstate Bo {WET} --suspension 1 --as Ada"),
            ADA,
            "rule R13",
        ),
        (
            format!("adopt {WET} --reason=again --as Ada"),
            ADA,
            "rule R11",
        ),
        (
            "correct 1 person --to P-000000 --reason=x --as Ada".to_owned(),
            ADA,
            "",
        ),
        ("person leave Ada --as Ada".to_owned(), ADA, ""),
    ] {
        let messages = bench.refused(&line, &[passphrase]);
        assert!(messages.contains(says), "{line}: {messages}");
    }
    assert_eq!(bench.entries(), before, "a refusal writes nothing");
    for line in [
        "technician Nobody",
        "matrix --on yesterday",
        "assign Bo Stock! --as Ada",
    ] {
        assert_eq!(bench.run(line, &[]).status, 2, "{line}");
    }
}

#[test]
fn a_suspension_is_shown_as_of_its_day_with_the_entry_that_proves_it() {
    let bench = assigned();
    bench.done(
        &format!("suspend Bo {WET} --reason=spilled_twice --as Ada"),
        &[ADA],
    );
    let number = bench.entries();
    let file = bench.done("technician Bo", &[]).results;
    assert!(file.contains("Suspended since"), "{file}");
    assert!(
        file.contains(&format!("Shown by the entry front-desk/{number}")),
        "{file}"
    );
    let proof = bench
        .done(&format!("record show front-desk/{number}"), &[])
        .results;
    assert!(proof.contains("spilled twice"), "{proof}");
    let yesterday = bench.done("technician Bo --on 2020-01-01", &[]).results;
    assert!(!yesterday.contains("Suspended since"), "{yesterday}");
    let matrix = bench.done("matrix", &[]).results;
    assert!(matrix.contains("stopped"), "{matrix}");
}

#[test]
fn what_is_void_stays_and_counts_for_nothing() {
    let bench = assigned();
    let assigned = bench.entries();
    bench.done(
        &format!("void {assigned} --reason=wrong_person --as Ada"),
        &[ADA],
    );
    let file = bench.done("technician Bo", &[]).results;
    assert!(file.contains("VOID"), "{file}");
    let early = bench.refused(&format!("sign-off Bo {WET} --as Ada"), &[ADA]);
    assert!(early.contains("no need recorded"), "{early}");
    assert_eq!(bench.done("record verify", &[]).status, 0);
}

#[test]
fn a_rehearsal_is_practice_of_whoever_is_signed_in() {
    let bench = assigned();
    let secret = bench.data().join("secret");
    std::fs::write(&secret, BO).unwrap();
    let rehearse = |passphrase: &str| {
        std::fs::write(&secret, passphrase).unwrap();
        let line = format!(
            "exec '{}' rehearse {WET} --level unaided --as Bo --passphrase-fd 3 --data '{}' 3<'{}'",
            env!("CARGO_BIN_EXE_drybench"),
            bench.data().display(),
            secret.display()
        );
        let mut command = Command::new("sh");
        command.args(["-c", &line]).stdin(Stdio::null());
        super::said(command.output().expect("a shell starts"))
    };
    let before = bench.entries();
    let wrong = rehearse("not the passphrase");
    assert!(
        wrong.messages.contains("The passphrase is wrong"),
        "{wrong:#?}"
    );
    let given_up = rehearse(BO);
    assert!(
        given_up.messages.contains("Written down as practice"),
        "{given_up:#?}"
    );
    assert_eq!(
        bench.entries(),
        before + 2,
        "the refused passphrase, and the rehearsal"
    );
    let last = bench.json(&format!("record show {}", before + 2));
    let text = last.to_string();
    assert!(
        text.contains("rehearsed") && text.contains("abandoned"),
        "{text}"
    );
    // The run itself is attached under the digest that the entry names.
    let run = last["entry"]["fact"]["run"]
        .as_str()
        .expect("it names a run")
        .to_owned();
    let kept = files(&bench.laboratory().join("attachments"));
    let (_, run) = kept
        .iter()
        .find(|(path, _)| path.contains(&run))
        .expect("it is attached");
    assert!(String::from_utf8_lossy(run).contains(WET));
}

#[test]
fn an_observed_run_is_entered_from_a_sheet_only_by_who_may_assess() {
    let bench = assigned();
    let sheet = std::process::Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(["observe", "sheet", WET])
        .output()
        .expect("the program runs");
    let blank = super::said(sheet).results;
    let people = bench.done("person list", &[]).results;
    let code = |name: &str| {
        let line = people
            .lines()
            .find(|line| line.contains(name))
            .expect("there");
        let from = line.find("P-").expect("a code");
        line[from..from + 8].to_owned()
    };
    let filled = blank
        .replace(
            "technician: P-",
            &format!("technician: {}", code("Bo Sample")),
        )
        .replace("case: ", "case: c-0312")
        .replace("ended: ", "ended: 2026-03-03T10:40:00+01:00")
        .replace("judgement: ", "judgement: acceptable")
        .replace("not-seen", "done");
    let path = bench.data().join("sheet.yaml");
    for (text, says) in [
        (filled.clone(), "rule R5"),
        (filled.replace("c-0312", "C 0312!"), "case"),
        (
            filled.replace("judgement: acceptable", "judgement: fine"),
            "acceptable",
        ),
        (filled.replace("read-sheet", "red-sheet"), "red-sheet"),
        (filled.replace("revision: 1", "revision: 7"), "revision"),
        ("steps: [".to_owned(), "no observation sheet"),
    ] {
        std::fs::write(&path, &text).unwrap();
        let line = format!("observe enter {} --reason=late --as Ada", path.display());
        let messages = bench.refused(&line, &[ADA]);
        assert!(messages.contains(says), "{says}: {messages}");
    }
}

/// Every file below a folder with its bytes.
pub(super) fn files(folder: &std::path::Path) -> Vec<(String, Vec<u8>)> {
    let mut found = Vec::new();
    let Ok(entries) = std::fs::read_dir(folder) else {
        return found;
    };
    for entry in entries.map(Result::unwrap) {
        let path = entry.path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            let bytes = std::fs::read(&path).unwrap();
            found.push((path.display().to_string(), bytes));
        }
    }
    found
}
