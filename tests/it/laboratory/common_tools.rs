//! A stranger verifies with Python and openssl what the program verifies, by the procedure in `assets/verify.md`.

use std::path::Path;
use std::process::Command;

use rusqlite::Connection;
use serde_json::Value;

use super::{ADA, BO, Bench};

fn by_script(laboratory: &Path) -> (i32, Value) {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/verify.py");
    let told = Command::new("python3")
        .arg(script)
        .arg(laboratory)
        .arg("--json")
        .output()
        .expect("python3 is needed for this test, and openssl");
    let text = String::from_utf8(told.stdout).expect("it prints text");
    let json = serde_json::from_str(&text);
    let json =
        json.unwrap_or_else(|why| panic!("{why}: {text} {:?}", String::from_utf8(told.stderr)));
    (told.status.code().unwrap_or(-1), json)
}

fn long_enough() -> Bench {
    let bench = Bench::with_two();
    bench.done("adopt stock-teeth --reason=first --as Ada", &[ADA]);
    let adopted = bench.entries();
    bench.done(&format!("countersign {adopted} --as Bo"), &[BO]);
    bench.done("assign Bo stock-teeth --wash ultrasonic --as Ada", &[ADA]);
    bench
}

#[test]
fn both_find_nothing_and_the_same_root() {
    let bench = long_enough();
    let (status, theirs) = by_script(&bench.laboratory());
    let ours = bench.json("record verify");
    assert_eq!(status, 0, "{theirs}");
    assert_eq!(theirs["signatures"], ours["signatures"]);
    assert_eq!(theirs["strands"][0]["root"], ours["strands"][0]["root"]);
    assert_eq!(
        theirs["strands"][0]["entries"],
        ours["strands"][0]["entries"]
    );
    assert!(theirs["signatures"].as_u64() > Some(10));
}

/// Changes the file as its owner could, with the guards taken out.
fn altered(bench: &Bench, sql: &str) {
    let connection = Connection::open(bench.laboratory().join("record.sqlite")).unwrap();
    let triggers: Vec<String> = connection
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap();
    for trigger in triggers {
        connection
            .execute_batch(&format!("DROP TRIGGER {trigger}"))
            .unwrap();
    }
    connection.execute_batch(sql).unwrap();
}

#[test]
fn both_find_what_was_altered() {
    for (sql, place) in [
        (
            "UPDATE entries SET bytes = CAST(replace(CAST(bytes AS TEXT), 'train', 'assess') AS BLOB) WHERE number = 5",
            5,
        ),
        ("DELETE FROM entries WHERE number = 7", 7),
        ("DELETE FROM entries WHERE number > 12", 13),
        (
            "UPDATE entries SET bytes = CAST(replace(CAST(bytes AS TEXT), '2026', '2025') AS BLOB) WHERE number = 3",
            3,
        ),
    ] {
        let bench = long_enough();
        altered(&bench, sql);
        let (status, theirs) = by_script(&bench.laboratory());
        assert_eq!(status, 1, "{sql}: {theirs}");
        let first = theirs["found"][0]["entry"]
            .as_str()
            .unwrap_or_default()
            .to_owned();
        let ours = bench.run("record verify --json", &[]);
        assert_eq!(ours.status, 1, "{sql}: {ours:#?}");
        let ours: Value = serde_json::from_str(&ours.results).unwrap();
        assert_eq!(ours["strands"][0]["first-bad"], place, "{sql}");
        // A gap shows to the script at the row that follows it.
        let named: i64 = first
            .rsplit('/')
            .next()
            .and_then(|number| number.parse().ok())
            .unwrap();
        assert!((place..=place + 1).contains(&named), "{sql}: {first}");
    }
}
