//! From a cell to what proves it, and from a question to its answer.

use drybench::record::scope::Id;
use drybench::report::record::{AsOf, Telling, cell, id_of};
use drybench::standing::{Reading, Standing, View};
use drybench::tui::ui::Ui;

use super::{First, called, desk, machine, opened};
use crate::screens::front::{drawn, press, words};
use crate::support::machine::TestMachine;

fn shown(ui: &Ui<TestMachine>) -> String {
    words(&drawn(&ui.frame()))
}

#[test]
fn every_cell_leads_to_the_entry_that_proves_it() {
    let machine = machine();
    let mut desk = desk(&machine);
    let (house, _) = desk.office().unwrap();
    let ledger = house.laboratory.ledger();
    let workflows = house.laboratory.workflows();
    let mut people: Vec<_> = ledger.people().collect();
    people.sort_by_key(|code| (house.name_of(*code), *code));
    let mut ui = opened(&machine, First::Matrix);
    ui.resize(80, 24);
    assert!(press(&mut ui, "<tick>l"));
    let asked = house.today();
    let mut proven = 0;
    for (row, person) in people.iter().enumerate() {
        for (column, workflow) in workflows.iter().enumerate() {
            let keys = format!("<home><left*9><down*{row}><right*{column}>");
            let keys = keys.replace("<down*0>", "").replace("<right*0>", "");
            assert!(press(&mut ui, &keys));
            assert!(
                shown(&ui).contains(&format!("({person}) in {workflow}")),
                "{}",
                drawn(&ui.frame())
            );
            assert!(press(&mut ui, "e"));
            let view = View::new(ledger, asked.at.instant(), Reading::AsNowKnown);
            let scopes = view.scopes(*person, Some(workflow));
            let grounds: Vec<String> = scopes
                .iter()
                .filter_map(|scope| {
                    let standing = view.standing(*person, scope).ok()?;
                    assert_ne!(standing, Standing::NotAssigned);
                    // A sign-off that is due or has lapsed leads to what made it so.
                    match &standing {
                        Standing::Due(_, causes)
                            if causes.iter().any(|cause| cause.entry().is_some()) =>
                        {
                            causes.iter().rev().find_map(|cause| cause.entry())
                        }
                        Standing::Lapsed(_, cause) if cause.entry().is_some() => cause.entry(),
                        _ => view.ground(*person, scope, &standing),
                    }
                })
                .map(|seal| format!("Entry {}", id_of(ledger.get(&seal).unwrap())))
                .collect();
            let title = drawn(&ui.frame());
            if grounds.is_empty() {
                assert!(title.contains("No entry up to this day assigns"), "{title}");
                assert!(press(&mut ui, "<enter>"));
            } else {
                let title = title.lines().next().unwrap().to_owned();
                assert!(
                    grounds.iter().any(|entry| title.contains(entry.as_str())),
                    "{title}: {grounds:?}"
                );
                assert!(press(&mut ui, "<esc>"));
                proven += 1;
            }
        }
    }
    assert!(proven > 10, "{proven}");
}

#[test]
fn a_cell_says_the_same_as_the_report() {
    let machine = machine();
    let mut desk = desk(&machine);
    let person = called(&mut desk, "Inti");
    let (house, said) = desk.office().unwrap();
    let ledger = house.laboratory.ledger();
    let asked = house.today();
    let workflow: Id = "stock-teeth".parse().unwrap();
    let names = |code| house.name_of(code);
    let telling = Telling {
        ledger,
        words: said,
        names: &names,
    };
    let full = cell(ledger, asked, person, &workflow).blocks(&telling);
    let lines = drybench::report::plain::plain(&full, 400, drybench::report::plain::Glyphs::Ascii);
    let first = lines[0].trim_start_matches("- ").to_owned();
    let mut ui = opened(&machine, First::Matrix);
    ui.resize(300, 60);
    assert!(press(&mut ui, "<tick>/inti<enter>"));
    let there = (0..3).any(|_| {
        let there = shown(&ui).contains(&words(&first));
        assert!(press(&mut ui, "<right>"));
        there
    });
    assert!(there, "{first}\n{}", drawn(&ui.frame()));
}

#[test]
fn a_question_is_answered_in_fewer_than_ten_keys() {
    // "Who may work alone with stock teeth three months ago, and which signature says so?" The board's key for the table counts as one.
    let machine = machine();
    let mut ui = opened(&machine, First::Matrix);
    ui.resize(80, 24);
    assert!(press(&mut ui, "<tick>"));
    let keys = ["{", "{", "{", "<down>", "<right>", "e"];
    assert!(keys.len() + 1 < 10);
    for key in keys {
        assert!(press(&mut ui, key));
    }
    let text = drawn(&ui.frame());
    assert!(
        text.contains("Entry ") && !text.contains("Who stands where"),
        "{text}"
    );
}

#[test]
fn both_readings_and_both_days_are_in_the_heading() {
    let machine = machine();
    let mut ui = opened(&machine, First::Matrix);
    for (keys, heading) in [
        ("", "As of 2026-06-30 17:00 +02:00, as now known"),
        ("[", "As of 2026-06-29 23:59 +02:00, as now known"),
        ("r", "As of 2026-06-29 23:59 +02:00, as recorded then"),
        ("{", "As of 2026-05-29 23:59 +02:00, as recorded then"),
        (
            "b2026-06-01<enter>",
            "As of 2026-05-29 23:59 +02:00, as recorded by 2026-06-01 23:59 +02:00",
        ),
        ("t", "As of 2026-06-30 17:00 +02:00, as recorded by"),
        // The laboratory's clock stood an hour earlier until the end of March.
        (
            "d2026-02-28<enter>}",
            "As of 2026-03-28 23:59 +01:00, as recorded by 2026-06-01 23:59 +02:00",
        ),
    ] {
        assert!(press(&mut ui, keys));
        for (wide, tall) in [(80, 24), (60, 20), (120, 40)] {
            ui.resize(wide, tall);
            let text = shown(&ui);
            assert!(text.contains(heading), "after {keys}: {heading}\n{text}");
        }
    }
}

#[test]
fn what_was_recorded_by_another_day_is_between_the_two_readings() {
    let machine = machine();
    let mut desk = desk(&machine);
    let (house, _) = desk.office().unwrap();
    let ledger = house.laboratory.ledger();
    let now = house.laboratory.now();
    let then: drybench::units::Stamp = "2026-03-31T23:59:59+02:00".parse().unwrap();
    let asked = |reading| AsOf { at: then, reading };
    let by = |by: drybench::units::Stamp| asked(Reading::AsRecordedBy(by));
    let mut differ = 0;
    for person in ledger.people() {
        for workflow in house.laboratory.workflows() {
            let seen = |asked: AsOf| {
                drybench::report::record::glance(ledger, asked, person, &workflow)
                    .words()
                    .to_vec()
            };
            assert_eq!(seen(by(then)), seen(asked(Reading::AsRecordedThen)));
            // Everything that is known was written down by now.
            assert_eq!(seen(by(now)), seen(asked(Reading::AsNowKnown)));
            let early = "2025-12-31T23:59:59+01:00".parse().unwrap();
            differ += usize::from(seen(by(early)) != seen(by(then)));
        }
    }
    assert!(differ > 0);
}
