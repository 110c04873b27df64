//! What taps do, and what is told of them: how a run counts, which clocks run, where a case goes on.

use super::*;

#[test]
fn what_a_run_counts_as_and_what_is_asked_is_told_before_the_judgement_and_the_signature() {
    let machine = TestMachine::default();
    let mut ui = opened(&machine, &teeth(), true);
    ui.resize(120, 60);
    assert!(press(&mut ui, BEGIN));
    let every = "d<down>".repeat(teeth().module.steps.len());
    assert!(press(&mut ui, &every));
    assert!(press(&mut ui, "f"));
    let shown = |ui: &Ui<TestMachine>| words(&drawn(&ui.frame()));
    let text = shown(&ui);
    let clean = "Called acceptable, the run counts as clean.";
    assert!(text.contains(clean), "{text}");
    let asked = "revision 2 asks that the last 3 observed runs are clean, one after the other";
    assert!(text.contains(asked), "{text}");
    assert!(text.contains("Clean means: acceptable"), "{text}");
    // One prompt, and the row is named.
    assert!(press(&mut ui, "<esc><home>pf"));
    let text = shown(&ui);
    let helped = "passed, but not clean, because a row was done after a prompt or not done.";
    assert!(
        text.contains(&format!("Called acceptable, the run is {helped}")),
        "{text}"
    );
    let row = "Read the ticket against the print: done after a prompt";
    assert!(text.contains(row), "{text}");
    assert!(press(&mut ui, "a"));
    let text = shown(&ui);
    assert!(text.contains(&format!("The run is {helped}")), "{text}");
    assert!(press(&mut ui, "<enter>"));
    let text = shown(&ui);
    for told in [helped, asked, row] {
        assert!(text.contains(told), "{told}: {text}");
    }
    // What is signed says the same.
    for _ in 0..40 {
        if shown(&ui).contains("passed, but not clean.") {
            return;
        }
        assert!(press(&mut ui, "<enter>"));
    }
    panic!("{}", shown(&ui));
}

#[test]
fn a_run_that_was_stopped_for_a_danger_counts_as_failed_and_nothing_else_is_said() {
    let mut front = front(&[BEGIN, "!goggles off"]);
    let text = words(&front.text());
    assert!(text.contains("Stop for a danger"), "{text}");
    assert!(text.contains("Enter end the run, not acceptable"), "{text}");
    front.press("<enter>");
    let text = words(&front.text());
    let failed = "The run counts as failed, because it was stopped for a danger.";
    assert!(text.contains(failed), "{text}");
    assert!(!text.contains("not count"), "{text}");
}

fn marks(machine: &TestMachine) -> Vec<Marked> {
    let (_, kept) = machine.files("bench-run").remove(0);
    let lines: Vec<&str> = kept.lines().collect();
    BenchRun::read(&lines).unwrap().marks().to_vec()
}

#[test]
fn whoever_says_how_a_row_went_stops_its_clock_and_takes_both_taps_back_one_by_one() {
    for letter in ["d", "p", "n", "o"] {
        let machine = TestMachine::default();
        let mut ui = opened(&machine, &teeth(), false);
        assert!(press(&mut ui, BEGIN));
        assert!(press(&mut ui, "<enter><+3000>"));
        assert!(press(&mut ui, letter));
        let text = words(&drawn(&ui.frame()));
        assert!(text.contains(", clock stopped: "), "{text}");
        let kept = marks(&machine);
        assert!(
            matches!(
                &kept[..],
                [
                    Marked { mark: Mark::Start { .. }, .. },
                    Marked { mark: Mark::Stop { .. }, run: stopped, .. },
                    Marked { mark: Mark::Seen { .. }, run: said, .. },
                ] if stopped == said
            ),
            "{letter}: {kept:?}"
        );
        assert!(press(&mut ui, "u"));
        let text = words(&drawn(&ui.frame()));
        assert!(!text.contains("running for"), "{text}");
        assert!(press(&mut ui, "u"));
        let text = words(&drawn(&ui.frame()));
        assert!(text.contains("running for 3 s; not marked yet"), "{text}");
    }
}

#[test]
fn a_row_with_more_places_to_come_runs_on_when_it_is_said_how_it_went() {
    let taken = teeth();
    let mut steps = taken.module.steps.iter();
    let at = steps.position(|step| step.id.value == "tack").unwrap();
    let mut front = front(&[BEGIN]);
    front.press(&"<down>".repeat(at));
    front.press("<enter><+9000>p");
    let text = words(&front.text());
    assert!(text.contains(", clock runs on, 1 of 6: "), "{text}");
    assert!(text.contains("running for 9 s"), "{text}");
}

#[test]
fn rows_that_run_out_of_sight_are_told_at_the_top() {
    let mut front = front(&[BEGIN, "<enter><+3000>"]);
    let first = |front: &mut Front| words(&front.text().lines().take(3).collect::<String>());
    let runs = "Runs: Read the ticket against the print (3 s)";
    assert!(!first(&mut front).contains("Runs:"), "{}", front.text());
    front.press("<end>");
    assert!(first(&mut front).contains(runs), "{}", front.text());
    front.press("f");
    assert!(first(&mut front).contains(runs), "{}", front.text());
    front.press("<esc><enter>c");
    let text = first(&mut front);
    assert!(text.contains("2 run: Read the ticket"), "{text}");
    // Nothing runs any more where the run is over.
    front.press("<esc>fb");
    assert!(!first(&mut front).contains("run:"), "{}", front.text());
}

#[test]
fn the_clock_page_names_rows_that_have_a_time_and_were_never_timed() {
    let mut front = front(&[BEGIN, "<every>", "c"]);
    front.resize((120, 60));
    let text = front.text();
    assert!(text.contains("Marked as done and never timed"), "{text}");
    assert!(text.contains("- Wash in stage one, lid on"), "{text}");
}

#[test]
fn a_case_is_taken_up_at_the_row_that_was_tapped_last() {
    let machine = TestMachine::default();
    let mut ui = opened(&machine, &teeth(), false);
    assert!(press(&mut ui, BEGIN));
    assert!(press(&mut ui, "d<down*5>d<down>du<down*3><esc>"));
    drop(ui);
    let (path, _) = machine.files("bench-run").remove(0);
    let mut desk = desk(&machine, Words::shipped("en-US"));
    desk.shelf = Shelf::shipped();
    let mut ui = Ui::new(
        desk,
        Box::new(Blank(move |desk: &mut Desk<TestMachine>| {
            Watching::take_up(&path, desk)
        })),
    );
    assert!(press(&mut ui, "<enter>"));
    let chosen = seen(&ui.frame(), Role::Chosen);
    let chosen: Vec<&str> = chosen.iter().map(|one| one.text.as_str()).collect();
    let chosen = words(&chosen.join(" "));
    let title = &teeth().module.steps[5].title;
    assert!(chosen.contains(title.as_str()), "{title}: {chosen}");
}

#[test]
fn whom_one_watches_is_found_by_typing_a_piece_of_the_name() {
    let mut front = front(&[]);
    let who = |front: &mut Front| {
        let text = front.text();
        let mut rows = text.lines().filter(|row| row.contains("Who "));
        words(rows.next().unwrap_or_default())
    };
    assert!(words(&front.text()).contains("Type a piece of the name"));
    front.press("wayra");
    assert!(who(&mut front).contains("Inti"), "{}", front.text());
    assert!(words(&front.text()).contains("Looked for: wayra"));
    // What fits nobody begins anew; accents and scripts do not matter.
    front.press("s");
    assert!(words(&front.text()).contains("Looked for: s"));
    front.press("maragda");
    assert!(who(&mut front).contains("Σμαράγδα"), "{}", front.text());
    front.press("<backspace*8>");
    assert!(words(&front.text()).contains("Type a piece of the name"));
}

#[test]
fn where_somebody_stands_is_told_before_they_are_watched() {
    let machine = TestMachine::default();
    let mut desk = desk(&machine, Words::shipped("en-US"));
    desk.shelf = Shelf::shipped();
    let mut careful = candidates(&teeth());
    careful[2].careful = vec!["Suspended since then.".to_owned()];
    let mut ui = Ui::new(desk, Box::new(asking(careful)));
    assert!(press(&mut ui, "<enter>"));
    let said = |ui: &Ui<TestMachine>| drawn(&ui.frame()).contains("! Suspended since then.");
    assert!(!said(&ui));
    assert!(press(&mut ui, "<right>"));
    assert!(said(&ui));
}

#[test]
fn a_value_that_is_one_of_the_keys_is_asked_for_once_more() {
    let machine = TestMachine::default();
    let mut ui = opened(&machine, &teeth(), false);
    assert!(press(&mut ui, BEGIN));
    let asked = |ui: &Ui<TestMachine>| drawn(&ui.frame()).contains("Is that what was read?");
    assert!(press(&mut ui, "vd<enter>"));
    assert!(asked(&ui));
    assert!(marks(&machine).is_empty());
    // Another letter is asked about anew, and what is asked about twice is kept.
    assert!(press(&mut ui, "<backspace>n"));
    assert!(!asked(&ui));
    assert!(press(&mut ui, "<enter>"));
    assert!(asked(&ui));
    assert!(press(&mut ui, "<enter>"));
    assert_eq!(marks(&machine).len(), 1);
    // Neither a number nor another letter is.
    assert!(press(&mut ui, "v7<enter>vA<enter>"));
    assert_eq!(marks(&machine).len(), 3);
}
