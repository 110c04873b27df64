//! A saved run rebuilds everything: the same bytes in debug and release, and after being taken up in the middle.
//!
//! The figures stand in `tests/replay.txt`; `DRYBENCH_BLESS=1 cargo test replay` writes them anew when a module changed.

#![expect(
    clippy::disallowed_methods,
    reason = "the figures are a file, and the environment may ask for new ones"
)]

use std::fmt::Write as _;

use crate::support::expert::{Expert, start, stock_teeth, type_in, typed, wet_resin};
use drybench::app::NoJournal;
use drybench::app::rehearse::{Disturbances, Session, StartProblem, journal_head, read_run};
use drybench::app::shelf::Shelf;
use drybench::rehearsal::action::Action;
use drybench::rehearsal::replay::Replayed;
use drybench::rehearsal::run::Run;
use drybench::report::json::debrief_json;
use drybench::text::Words;
use sha2::{Digest as _, Sha256};

const FIGURES: &str = "tests/replay.txt";

fn hex(text: &str) -> String {
    Sha256::digest(text.as_bytes())
        .iter()
        .fold(String::new(), |mut hex, byte| {
            // Writing to a string cannot fail.
            let _ = write!(hex, "{byte:02x}");
            hex
        })
}

/// The debrief for machines, as text.
fn json(session: &Session, done: &Replayed) -> String {
    let of = session.debriefed(done);
    serde_json::to_string(&debrief_json(&of, &Words::shipped("en-US"))).unwrap()
}

/// A run worth keeping.
struct Kept {
    name: &'static str,
    /// Whether two slips were made.
    slips: bool,
    /// Whether disturbances were drawn.
    drawn: bool,
    session: Session,
}

/// Lines with two slips in them: a step left out, and a step done in a wrong way.
fn with_slips(lines: &[String], left_out: &str, right: &str, wrong: &str) -> Vec<String> {
    let left = lines.iter().filter(|line| line.starts_with(left_out));
    let spoilt = lines.iter().filter(|line| *line == right);
    assert_eq!((left.count(), spoilt.count()), (1, 1), "{lines:#?}");
    let kept = lines.iter().filter(|line| !line.starts_with(left_out));
    kept.map(|line| if line == right { wrong } else { line }.to_owned())
        .collect()
}

/// Both modules, both units, clean and not, with and without disturbances.
fn sessions() -> Vec<Kept> {
    let (orbital, ultrasonic) = ("wash=orbital,teeth=7", "wash=ultrasonic,teeth=14");
    let mut all = Vec::new();
    for (name, taken, case, seed, drawn, slips) in [
        ("orbital expert", stock_teeth(), orbital, 41, false, false),
        ("orbital slips", stock_teeth(), orbital, 42, false, true),
        (
            "orbital slips, drawn",
            stock_teeth(),
            orbital,
            52,
            true,
            true,
        ),
        (
            "ultrasonic expert, drawn",
            stock_teeth(),
            ultrasonic,
            43,
            true,
            false,
        ),
        (
            "ultrasonic slips",
            stock_teeth(),
            ultrasonic,
            44,
            false,
            true,
        ),
        ("wet resin expert", wet_resin(), "", 45, false, false),
        ("wet resin, drawn", wet_resin(), "", 46, true, false),
        ("wet resin slips", wet_resin(), "", 48, false, true),
    ] {
        let come = if drawn {
            Disturbances::Drawn
        } else {
            Disturbances::None
        };
        let mut lines = Expert::new(start(taken, case, seed, come.clone())).script();
        if slips {
            lines = if case.is_empty() {
                with_slips(&lines, "find-eyewash", "wear goggles", "take-phone")
            } else {
                with_slips(
                    &lines,
                    "wipe 3",
                    "set-baths",
                    "set-baths stage-two=topped-up",
                )
            };
        }
        let session = typed(start(taken, case, seed, come), &lines);
        all.push(Kept {
            name,
            slips,
            drawn,
            session,
        });
    }
    all
}

#[test]
fn replay_is_of_runs_that_are_what_they_are_called() {
    for Kept {
        name,
        slips,
        drawn,
        session,
    } in sessions()
    {
        let graded = session.debrief().unwrap().graded;
        assert_eq!(graded.clean, !slips, "{name}");
        let roots = graded.roots.len();
        assert!(!slips || roots >= 2, "{name}: {roots} roots");
        let came = session.run().disturbances.len();
        assert_eq!(came > 0, drawn, "{name}: {came} disturbances");
    }
}

#[test]
fn replay_gives_the_same_bytes_as_ever() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(FIGURES);
    let now: Vec<String> = sessions()
        .iter()
        .map(|Kept { name, session, .. }| {
            let done = session.debrief().unwrap();
            let trace = hex(&format!("{:?} {:?}", done.trace, done.outcome));
            format!("{name}: {trace} {}", hex(&json(session, &done)))
        })
        .collect();
    if std::env::var_os("DRYBENCH_BLESS").is_some() {
        std::fs::write(&path, now.join("\n") + "\n").unwrap();
    }
    let listed = std::fs::read_to_string(&path).unwrap();
    assert_eq!(listed.lines().collect::<Vec<_>>(), now);
}

#[test]
fn replay_after_any_action_ends_the_same() {
    let (mut cuts, mut unanswered) = (0, 0);
    for Kept { name, session, .. } in sessions() {
        let whole = session.debrief().unwrap();
        let told = json(&session, &whole);
        let run = session.run().clone();
        for cut in 0..=run.actions.len() {
            let kept = Run {
                actions: run.actions[..cut].to_vec(),
                ..run.clone()
            };
            let mut again = Session::resume(&Shelf::shipped(), kept).unwrap();
            cuts += 1;
            unanswered += usize::from(again.rehearsal().open_disturbance().is_some());
            for action in &run.actions[cut..] {
                again.act(action.clone(), &mut NoJournal).unwrap();
            }
            let done = again.debrief().unwrap();
            assert_eq!(done.trace, whole.trace, "{name}, cut at {cut}");
            assert_eq!(json(&again, &done), told, "{name}, cut at {cut}");
        }
    }
    assert!(
        cuts > 300 && unanswered > 0,
        "{cuts} cuts, {unanswered} of them before an answer"
    );
}

#[test]
fn replay_of_fifty_seeds_is_twice_the_same() {
    let mut different = std::collections::BTreeSet::new();
    for seed in 0..50 {
        let session = start(stock_teeth(), "teeth=6", seed, Disturbances::Drawn);
        let lines =
            Expert::new(start(stock_teeth(), "teeth=6", seed, Disturbances::Drawn)).script();
        let one = type_in(session, &lines);
        let other = type_in(
            start(stock_teeth(), "teeth=6", seed, Disturbances::Drawn),
            &lines,
        );
        assert_eq!(one, other, "seed {seed}");
        different.insert(hex(&format!("{:?}", one.trace)));
    }
    // Seeds that change nothing would make this an easy promise.
    assert!(different.len() > 25, "{} traces", different.len());
}

/// An expert's run with wet resin.
fn of_wet_resin() -> Session {
    let fresh = || start(wet_resin(), "", 45, Disturbances::None);
    typed(fresh(), &Expert::new(fresh()).script())
}

/// A run as journal lines.
fn journal(run: &Run) -> String {
    let mut text = journal_head(run).unwrap() + "\n";
    for action in &run.actions {
        text += &serde_json::to_string(action).unwrap();
        text += "\n";
    }
    text
}

#[test]
fn replay_reads_a_run_in_one_piece_and_line_by_line() {
    for Kept { session, .. } in sessions() {
        let run = session.run();
        assert_eq!(
            &read_run(&serde_json::to_string_pretty(run).unwrap()).unwrap(),
            run
        );
        assert_eq!(&read_run(&journal(run)).unwrap(), run);
    }
}

#[test]
fn replay_refuses_what_is_not_its_own() {
    let shelf = Shelf::shipped();
    let session = of_wet_resin();
    let run = session.run().clone();
    let other = Run {
        digest: "0".repeat(64),
        ..run.clone()
    };
    assert!(matches!(
        Session::resume(&shelf, other),
        Err(StartProblem::OtherModule { .. })
    ));
    let revised = Run {
        revision: run.revision + 1,
        ..run.clone()
    };
    assert!(matches!(
        Session::resume(&shelf, revised),
        Err(StartProblem::OtherModule { .. })
    ));
    let newer = Run {
        format: run.format + 1,
        ..run.clone()
    };
    assert!(matches!(
        Session::resume(&shelf, newer),
        Err(StartProblem::NewerFormat(_))
    ));
    let mut senseless = run.clone();
    senseless.actions.insert(
        0,
        Action::Wear {
            item: "crown".to_owned(),
        },
    );
    assert!(matches!(
        Session::resume(&shelf, senseless),
        Err(StartProblem::Replay(_))
    ));
    for text in ["", "{}", "[1]", "wear nitrile-gloves"] {
        assert!(
            matches!(read_run(text), Err(StartProblem::NoRun { .. })),
            "{text}"
        );
    }
    let garbled = journal(&run) + "no action\n";
    let last = run.actions.len() + 2;
    assert!(matches!(read_run(&garbled), Err(StartProblem::NoRun { line, .. }) if line == last));
}
