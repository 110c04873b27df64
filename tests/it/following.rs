//! Findings follow the module: names mean nothing to the program, numbers mean everything.

use std::collections::BTreeMap;

use crate::support::expert::{Expert, start, stock_teeth, type_in};
use drybench::app::rehearse::Disturbances;
use drybench::app::shelf::{Shelf, Taken};
use drybench::bench::station_kinds;
use drybench::rehearsal::finding::{Finding, Found};
use drybench::rehearsal::replay::Replayed;
use drybench::syllabus::module::{Harm, Module, Never};
use drybench::syllabus::operation::OPERATION_WORDS;

const CASE: &str = "wash=ultrasonic,teeth=7,arch=upper,shade=light,tray=fixed";

/// Every id that a module gives itself, with an id that says nothing in its place. Words of the program's own vocabulary
/// (options, gauges, kinds) keep their names: they are what an operation is told.
fn renamed(module: &Module) -> BTreeMap<String, String> {
    let mut ids: Vec<&str> = Vec::new();
    ids.extend(module.steps.iter().map(|one| one.id.value.as_str()));
    ids.extend(module.stations.iter().map(|one| one.id.value.as_str()));
    ids.extend(module.aspects.iter().map(|one| one.id.value.as_str()));
    ids.extend(module.consequences.iter().map(|one| one.id.value.as_str()));
    ids.extend(module.disturbances.iter().map(|one| one.id.value.as_str()));
    ids.extend(
        module
            .protection_items
            .iter()
            .map(|one| one.id.value.as_str()),
    );
    ids.extend(module.never.iter().filter_map(|rule| match rule {
        Never::Act(act) => Some(act.id.value.as_str()),
        _ => None,
    }));
    let words = vocabulary(module);
    let mut names = BTreeMap::new();
    for id in ids {
        // Ids that are also words of the vocabulary, of a key or of a text would be torn out of other places.
        if id.contains('-') && !words.contains(&id.to_owned()) {
            let number = names.len();
            names
                .entry(id.to_owned())
                .or_insert_with(|| format!("x{number}-thing"));
        }
    }
    names
}

/// Words that the program itself knows.
fn vocabulary(module: &Module) -> Vec<String> {
    let harms = module.consequences.iter().flat_map(|one| &one.shows);
    let harms = harms.filter_map(|harm| {
        serde_json::to_value(harm.value)
            .ok()?
            .as_str()
            .map(str::to_owned)
    });
    OPERATION_WORDS
        .iter()
        .copied()
        .chain(station_kinds())
        .map(str::to_owned)
        .chain(harms)
        .collect()
}

/// Puts names in the place of others, where they stand as whole words.
fn replaced(text: &str, names: &BTreeMap<String, String>) -> String {
    let part = |c: char| c.is_ascii_alphanumeric() || c == '-';
    let mut out = String::new();
    let mut word = String::new();
    for c in text.chars().chain(std::iter::once('\n')) {
        if part(c) {
            word.push(c);
            continue;
        }
        out.push_str(names.get(&word).unwrap_or(&word));
        word.clear();
        out.push(c);
    }
    out.pop();
    out
}

/// The shipped module with every file of the shelf rewritten.
fn rewritten(change: impl Fn(&str, &str) -> String) -> Taken {
    let mut shelf = Shelf::shipped();
    for (path, text) in drybench::shipped::modules() {
        if !path.ends_with("hazards.yaml") && !path.ends_with("faults.yaml") {
            shelf.lay(path, change(path, text).into_bytes());
        }
    }
    let taken = shelf.take("stock-teeth", None);
    taken.unwrap_or_else(|problem| panic!("{problem:#?}"))
}

/// A finding with everything in it, without names.
fn shape(finding: &Finding) -> String {
    let under: Vec<String> = finding.follow_ons.iter().map(shape).collect();
    format!(
        "{:?} {:?} {:?} {:?} {:?} [{}]",
        finding.what,
        finding.severity,
        finding.at,
        finding.tasks,
        finding.leads_to,
        under.join("; ")
    )
}

fn shapes(done: &Replayed) -> Vec<String> {
    done.graded.roots.iter().map(shape).collect()
}

#[test]
fn names_mean_nothing() {
    let names = renamed(&stock_teeth().module);
    assert!(names.len() > 80, "only {} names", names.len());
    // Stages are asked for by the name of their file, so those ids stay.
    let other = rewritten(|_, text| {
        let mut text = replaced(text, &names);
        for (stage, said) in [("two-baths", "two-baths"), ("final-cure", "final-cure")] {
            text = text.replace(said, stage);
        }
        text
    });
    let script = Expert::new(start(stock_teeth(), CASE, 11, Disturbances::None)).script();
    let slips: [fn(&str) -> Option<String>; 4] = [
        |line| Some(line.to_owned()),
        |line| (!line.starts_with("tack 3-4/lingual")).then(|| line.to_owned()),
        |line| Some(line.replace("set-baths", "set-baths stage-two=once-used")),
        |line| Some(line.replace("for 2 min", "for 12 min")),
    ];
    for slip in slips {
        let lines: Vec<String> = script.iter().filter_map(|line| slip(line)).collect();
        let here = type_in(start(stock_teeth(), CASE, 11, Disturbances::None), &lines);
        let lines: Vec<String> = lines.iter().map(|line| replaced(line, &names)).collect();
        let there = type_in(start(&other, CASE, 11, Disturbances::None), &lines);
        // Streams of the bench are named after stations, so what was drawn differs; what is found must not.
        let kinds = |done: &Replayed| -> Vec<String> {
            done.graded
                .roots
                .iter()
                .map(|root| {
                    format!(
                        "{:?} {:?} {:?} {:?}",
                        std::mem::discriminant(&root.what),
                        root.severity,
                        root.tasks,
                        root.shown()
                    )
                })
                .collect()
        };
        assert_eq!(kinds(&here), kinds(&there));
        assert_eq!(here.trace.len(), there.trace.len());
        assert_eq!(here.graded.clean, there.graded.clean);
    }
}

#[test]
fn steps_alone_can_be_renamed_without_a_trace() {
    let ids: Vec<&str> = stock_teeth()
        .module
        .steps
        .iter()
        .map(|one| one.id.value.as_str())
        .collect();
    let words = vocabulary(&stock_teeth().module);
    let names: BTreeMap<String, String> = ids
        .iter()
        .filter(|id| id.contains('-') && !words.contains(&(**id).to_owned()))
        .enumerate()
        .map(|(number, id)| ((*id).to_owned(), format!("x{number}-step")))
        .collect();
    let other = rewritten(|_, text| replaced(text, &names));
    let script = Expert::new(start(stock_teeth(), CASE, 12, Disturbances::None)).script();
    let lines: Vec<String> = script
        .into_iter()
        .filter(|line| !line.starts_with("wipe 3"))
        .map(|line| line.replace("first-wash for 2 min", "first-wash for 1 min"))
        .collect();
    let here = type_in(start(stock_teeth(), CASE, 12, Disturbances::None), &lines);
    let lines: Vec<String> = lines.iter().map(|line| replaced(line, &names)).collect();
    let there = type_in(start(&other, CASE, 12, Disturbances::None), &lines);
    assert_eq!(shapes(&here), shapes(&there));
    assert_eq!(here.trace, there.trace);
    assert_eq!(here.outcome, there.outcome);
    assert!(!here.graded.clean);
}

/// The roots of the expert's script on a changed module.
fn roots_after(change: impl Fn(&str, &str) -> String) -> Vec<Finding> {
    let other = rewritten(change);
    let script = Expert::new(start(stock_teeth(), CASE, 13, Disturbances::None)).script();
    let done = type_in(start(&other, CASE, 13, Disturbances::None), &script);
    done.graded.roots
}

/// Whether a finding or what followed from it is this harm.
fn shows(finding: &Finding, harm: Harm) -> bool {
    matches!(finding.what, Found::Harm { harm: found, .. } if found == harm)
        || finding.follow_ons.iter().any(|one| shows(one, harm))
}

#[test]
fn a_weaker_bath_leaves_a_veil_and_going_on_over_it_is_the_mistake() {
    let weaker =
        |_: &str, text: &str| text.replace("grip: { value: 0.033 /s", "grip: { value: 0.016 /s");
    let roots = roots_after(weaker);
    let [root] = roots.as_slice() else {
        panic!("{roots:?}");
    };
    assert!(matches!(root.what, Found::Unready { .. }), "{root:?}");
    assert!(
        shows(root, Harm::Veil) && shows(root, Harm::LockedVeil),
        "{root:?}"
    );
}

#[test]
fn a_moved_window_moves_the_finding() {
    let longer = |path: &str, text: &str| {
        if path.contains("two-baths") || path.contains("profiles") {
            text.replace("target: 2 min", "target: 3 min")
                .replace("least: 110 s", "least: 170 s")
                .replace("most: 130 s", "most: 190 s")
        } else {
            text.to_owned()
        }
    };
    let roots = roots_after(longer);
    assert!(
        roots
            .iter()
            .any(|one| matches!(one.what, Found::Short { .. })),
        "{roots:?}"
    );
}

#[test]
fn a_smaller_count_is_broken_by_what_was_right_before() {
    let roots = roots_after(|_, text| text.replace("      count: 2\n", "      count: 1\n"));
    assert!(
        roots
            .iter()
            .any(|one| matches!(one.what, Found::Crowded { .. })),
        "{roots:?}"
    );
}
