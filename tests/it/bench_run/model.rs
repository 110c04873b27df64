//! The model in memory: what is kept, what stands, what the clocks say, what it becomes.

use drybench::app::demonstration::demonstration;
use drybench::app::laboratory::{Laboratory, MemoryPlace, Place as _};
use drybench::app::shelf::Shelf;
use drybench::app::watching::{
    BenchRun, ClockNote, Length, Mark, RunProblem, TapFailure, TapProblem, Watch, WatchProblem,
    counts, findings, length, open_runs,
};
use drybench::record::entry::{Judgement, Seen, Signed};
use drybench::rehearsal::finding::Found;
use drybench::standing::{Run, run_of};
use drybench::text::Words;
use drybench::units::{Digest, Millis};
use proptest::prelude::*;

use super::{begun, card, reading, start, stop, taken_up};
use crate::support::machine::TestMachine;

fn seen(row: &str, seen: Seen) -> Mark {
    Mark::Seen {
        row: row.to_owned(),
        seen,
    }
}

/// Some taps, most of which make sense somewhere.
fn any_mark() -> impl Strategy<Value = Mark> {
    let row = prop_oneof![Just("tack"), Just("first-wash"), Just("fill"), Just("wipe")];
    let text = "[a-z ]{0,12}";
    (0..11, row, text, 0..4_usize).prop_map(|(kind, row, text, which)| {
        let row = row.to_owned();
        match kind {
            0..=2 => Mark::Start { row },
            3..=4 => Mark::Stop { row },
            5 => Mark::Seen {
                row,
                seen: Seen::ALL[which],
            },
            6 => Mark::Value { row, text },
            7 => Mark::Remark {
                row: (which > 1).then_some(row),
                text,
            },
            8 => Mark::Lot { text },
            9 if which == 0 => Mark::End {
                judgement: Judgement::Acceptable,
            },
            9 if which == 1 => Mark::Danger { text },
            _ => Mark::Undo,
        }
    })
}

/// What a run looks like: everything that can be asked of it.
fn state(run: &BenchRun) -> String {
    let rows = ["tack", "first-wash", "fill", "wipe"].map(|row| format!("{:?}", run.row(row)));
    let lots: Vec<&str> = run.lots().collect();
    let remarks: Vec<&str> = run.remarks().collect();
    format!("{rows:?} {lots:?} {remarks:?} {:?}", run.ended())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn a_run_killed_behind_any_line_is_the_run_up_to_that_line(
        marks in proptest::collection::vec((any_mark(), 0_i64..70_000), 0..40),
    ) {
        let machine = TestMachine::default();
        let mut watch = begun(&machine);
        let mut states = vec![state(watch.run())];
        for (mark, passed) in marks {
            machine.pass(Millis(passed));
            let before = state(watch.run());
            let undoes = mark == Mark::Undo;
            match watch.tap(mark, reading(&machine)) {
                Ok(()) => {
                    states.push(state(watch.run()));
                    if !undoes {
                        // Taking it back restores what was before, and doing so leaves a line.
                        watch.tap(Mark::Undo, reading(&machine)).unwrap();
                        prop_assert_eq!(state(watch.run()), before.clone());
                        states.push(before);
                    }
                }
                Err(TapFailure::Tap(_)) => prop_assert_eq!(state(watch.run()), before),
                Err(other) => panic!("{other:?}"),
            }
        }
        let (_, text) = machine.files("bench-run").remove(0);
        let lines: Vec<&str> = text.lines().collect();
        prop_assert_eq!(lines.len(), states.len());
        for (kept, wanted) in states.iter().enumerate() {
            let run = BenchRun::read(&lines[..=kept]).unwrap();
            prop_assert_eq!(&state(&run), wanted, "{} lines", kept + 1);
            prop_assert_eq!(run.text().unwrap(), lines[..=kept].join("\n") + "\n");
        }
    }
}

#[test]
fn several_rows_run_at_once_and_one_runs_several_times() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    let mut tap = |mark, passed| {
        machine.pass(Millis(passed));
        watch.tap(mark, reading(&machine))
    };
    tap(start("first-wash"), 0).unwrap();
    tap(start("tack"), 1_000).unwrap();
    tap(stop("tack"), 9_660).unwrap();
    tap(start("tack"), 500).unwrap();
    assert!(matches!(
        tap(start("tack"), 0),
        Err(TapFailure::Tap(TapProblem::Runs(_)))
    ));
    assert!(matches!(
        tap(stop("fill"), 0),
        Err(TapFailure::Tap(TapProblem::DoesNotRun(_)))
    ));
    assert!(matches!(
        tap(start("crown"), 0),
        Err(TapFailure::Tap(TapProblem::NoSuchRow(_)))
    ));
    tap(stop("first-wash"), 120_000).unwrap();
    let run = watch.run();
    let times = run.row("tack").times;
    assert_eq!(times.len(), 2);
    assert_eq!(times[0].lasted(), Some(Millis(9_700)));
    assert_eq!(times[1].lasted(), None);
    let card = card();
    let wash = run.row("first-wash").times[0].lasted().unwrap();
    let window = card.window(card.row("first-wash").unwrap(), 0);
    assert_eq!(wash, Millis(131_200));
    assert_eq!(length(window, wash), Length::Over(Millis(1_200)));
    assert_eq!(card.row("tack").unwrap().tasks.len(), 6);
}

#[test]
fn after_sleep_the_wall_clock_counts_and_a_clock_set_back_is_noted() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    watch.tap(start("cool-first"), reading(&machine)).unwrap();
    machine.set_clock(600);
    assert_eq!(watch.run().now(reading(&machine)), Millis::minutes(10));
    watch.tap(stop("cool-first"), reading(&machine)).unwrap();
    machine.pass(Millis(5_000));
    machine.set_clock(-7_200);
    watch.tap(start("turn"), reading(&machine)).unwrap();
    let notes: Vec<ClockNote> = watch.run().clock_notes().map(|(_, note)| note).collect();
    assert_eq!(notes, [ClockNote::Ahead(600), ClockNote::Back(7_200)]);
    let times = watch.run().row("cool-first").times;
    assert_eq!(times[0].lasted(), Some(Millis::minutes(10)));
    // The program is started again after the clock was set back once more.
    drop(watch);
    machine.set_clock(-60);
    let mut again = taken_up(&machine);
    machine.pass(Millis(3_000));
    again.tap(stop("turn"), reading(&machine)).unwrap();
    assert_eq!(
        again.run().row("turn").times[0].lasted(),
        Some(Millis(3_000))
    );
    let last = again.run().marks().last().unwrap();
    assert_eq!(last.clock, Some(ClockNote::Back(60)));
}

#[test]
fn a_last_line_cut_at_any_byte_is_left_out() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    for row in ["drain", "lift-off", "peel-supports"] {
        watch.tap(start(row), reading(&machine)).unwrap();
    }
    let path = watch.path().to_owned();
    drop(watch);
    let (_, whole) = machine.files("bench-run").remove(0);
    let last = whole.trim_end().rfind('\n').unwrap() + 1;
    for cut in last..whole.len() {
        machine.put(&path, &whole.as_bytes()[..cut]);
        let open = open_runs(&machine, None).unwrap();
        assert_eq!(open.runs.len(), 1, "{cut}");
        assert_eq!(open.runs[0].torn, cut > last, "{cut}");
        let mut watch = taken_up(&machine);
        assert_eq!(watch.run().marks().len(), 2, "{cut}");
        watch
            .tap(start("peel-supports"), reading(&machine))
            .unwrap();
        drop(watch);
        assert_eq!(taken_up(&machine).run().marks().len(), 3, "{cut}");
    }
}

#[test]
fn a_run_begun_by_mistake_is_dropped_while_nothing_of_it_stands() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    watch.tap(start("drain"), reading(&machine)).unwrap();
    let refused = watch.tap(Mark::Dropped, reading(&machine));
    assert!(matches!(refused, Err(TapFailure::Tap(TapProblem::Stands))));
    watch.tap(Mark::Undo, reading(&machine)).unwrap();
    watch.tap(Mark::Dropped, reading(&machine)).unwrap();
    for mark in [start("drain"), Mark::Undo, Mark::Dropped] {
        let refused = watch.tap(mark, reading(&machine));
        assert!(matches!(refused, Err(TapFailure::Tap(TapProblem::Dropped))));
    }
    drop(watch);
    // Every line stays where it was written; the run is not gone on with.
    let (_, kept) = machine.files("bench-run").remove(0);
    assert_eq!(kept.lines().count(), 4);
    let open = open_runs(&machine, None).unwrap();
    assert!(open.runs.is_empty() && open.refused.is_empty(), "{open:?}");
}

#[test]
fn two_runs_are_open_at_once_and_each_is_held_by_one() {
    let machine = TestMachine::default();
    let first = begun(&machine);
    let second = begun(&machine);
    assert_ne!(first.path(), second.path());
    assert_eq!(open_runs(&machine, None).unwrap().runs.len(), 2);
    let shelf = Shelf::shipped();
    let held = Watch::take_up(&machine, &shelf, first.path(), reading(&machine));
    assert!(matches!(held, Err(WatchProblem::Machine(_))));
}

#[test]
fn a_tap_that_could_not_be_kept_is_not_there() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    machine.fill(true);
    let refused = watch.tap(start("tack"), reading(&machine));
    assert!(matches!(refused, Err(TapFailure::Journal(_))));
    assert!(watch.run().row("tack").times.is_empty());
    machine.fill(false);
    watch.tap(start("tack"), reading(&machine)).unwrap();
    assert_eq!(watch.run().row("tack").times.len(), 1);
}

#[test]
fn damaged_and_newer_runs_are_told_by_line() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    watch.tap(start("tack"), reading(&machine)).unwrap();
    let path = watch.path().to_owned();
    drop(watch);
    let (_, sound) = machine.files("bench-run").remove(0);
    for (damaged, wanted) in [
        (sound.replace("\"tack\"", "\"crown\""), Some(2)),
        (sound.replace("{\"start\"", "{\"begin\""), Some(2)),
        (sound.replace("P-2R4J54", "nobody"), Some(1)),
        (sound.replace("\"format\":1", "\"format\":2"), None),
    ] {
        assert_ne!(damaged, sound);
        machine.put(&path, damaged.as_bytes());
        let shelf = Shelf::shipped();
        let why = match Watch::take_up(&machine, &shelf, &path, reading(&machine)) {
            Err(WatchProblem::Damaged(_, why)) => why,
            Err(other) => panic!("{other:?}"),
            Ok(_) => panic!("{damaged}"),
        };
        let line = match why {
            RunProblem::Line(line, _) | RunProblem::Senseless(line, _) => Some(line),
            RunProblem::Newer(format) => {
                assert_eq!(format, 2);
                None
            }
        };
        assert_eq!(line, wanted, "{damaged}");
        assert_eq!(machine.files("bench-run")[0].1, damaged);
    }
}

#[test]
fn the_grader_speaks_of_order_and_times_that_were_tapped() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    let card = card();
    for (mark, passed) in [
        (start("second-wash"), 0),
        (stop("second-wash"), 60_000),
        (start("first-wash"), 1_000),
        (stop("first-wash"), 20_000),
    ] {
        machine.pass(Millis(passed));
        watch.tap(mark, reading(&machine)).unwrap();
    }
    let found = findings(watch.run(), &card);
    let is = |wanted: fn(&Found) -> bool| found.iter().any(|one| wanted(&one.what));
    assert!(
        is(|one| matches!(one, Found::Misplaced { .. })),
        "{found:#?}"
    );
    assert!(is(|one| matches!(one, Found::Short { .. })), "{found:#?}");
    assert!(!is(|one| matches!(
        one,
        Found::Skipped | Found::Unprotected { .. }
    )));
}

#[test]
fn what_is_signed_names_every_step_and_holds_the_lines() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    let card = card();
    let mut tap = |mark| watch.tap(mark, reading(&machine)).unwrap();
    for row in card.rows.iter().filter(|row| row.id != "tack") {
        tap(seen(&row.id, Seen::Done));
    }
    tap(seen("wipe", Seen::Prompted));
    tap(Mark::Remark {
        row: Some("wipe".to_owned()),
        text: "asked once".to_owned(),
    });
    tap(Mark::End {
        judgement: Judgement::Acceptable,
    });
    let mut laboratory = laboratory();
    let counted = counts(watch.run(), &card, Judgement::Acceptable).unwrap();
    assert_eq!(counted.run, Run::NotCounted);
    let unseen: Vec<&str> = counted.rows.iter().map(|row| row.id.as_str()).collect();
    assert_eq!(unseen, ["tack"]);
    let deed = laboratory.watched(watch.run(), &card).unwrap().unwrap();
    let Signed::Observed(observed) = &deed.fact else {
        panic!("{deed:?}");
    };
    assert_eq!(observed.steps.len(), card.module().steps.len());
    assert_eq!(run_of(observed), Run::NotCounted);
    let (_, text) = machine.files("bench-run").remove(0);
    assert_eq!(observed.taps, Some(Digest::of(&[text.as_bytes()])));
    let remark = observed.remark.unwrap();
    let remark = laboratory.place().attached(&remark).unwrap().unwrap();
    assert_eq!(String::from_utf8(remark).unwrap(), "wipe: asked once\n");
    // The one row that was missing makes it count, and not as clean.
    tap_again(&mut watch, &machine, Mark::Undo);
    tap_again(&mut watch, &machine, seen("tack", Seen::Done));
    tap_again(
        &mut watch,
        &machine,
        Mark::End {
            judgement: Judgement::Acceptable,
        },
    );
    let deed = laboratory.watched(watch.run(), &card).unwrap().unwrap();
    let Signed::Observed(observed) = &deed.fact else {
        panic!("{deed:?}");
    };
    assert_eq!(run_of(observed), Run::NotClean);
}

#[test]
fn a_danger_ends_the_run_as_not_acceptable() {
    let machine = TestMachine::default();
    let mut watch = begun(&machine);
    let danger = Mark::Danger {
        text: "alcohol beside the warm plate".to_owned(),
    };
    tap_again(&mut watch, &machine, danger);
    let ended = watch.run().ended().unwrap();
    assert_eq!(ended.judgement, Judgement::NotAcceptable);
    assert_eq!(ended.danger, Some("alcohol beside the warm plate"));
    let over = watch.tap(start("tack"), reading(&machine));
    assert!(matches!(over, Err(TapFailure::Tap(TapProblem::Over))));
}

fn tap_again(watch: &mut Watch<TestMachine>, machine: &TestMachine, mark: Mark) {
    watch.tap(mark, reading(machine)).unwrap();
}

/// An open record: the demonstration's.
fn laboratory() -> Laboratory<MemoryPlace> {
    let words = Words::shipped("en-US");
    let Ok(made) = demonstration(&words) else {
        panic!("the demonstration is made");
    };
    made.laboratory
}
