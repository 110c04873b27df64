//! Tests of the overlay: what a profile changes, and what it leaves alone.

use super::*;
use crate::syllabus::read::module::{Library, module as read_module};

fn small(extra: &str) -> Module {
    let text = format!(
        "\
module: {{ id: small, title: Small, about: A test., revision: 1, effective: 2026-12-01, language: en-US, risk: low, origin: our default }}
protection: {{ items: {{ gloves: {{ title: Gloves, kind: worn, change-every: 30 min }} }} }}
bench: {{ bath: {{ title: Bath, kind: bath, numbers: {{ volume: 500 mL }} }} }}
flow:
  - step: {{ id: wash, title: Wash, at: bath, kept-by: {{ timer: {{ target: 2 min, least: 1 min, most: 3 min }} }} }}
  - step: {{ id: rinse, title: Rinse, at: bath, takes: 20 s }}
time-rules:
  - cap: {{ over: [wash], most: 4 min, severity: major }}
  - gap: {{ from: {{ end: wash }}, to: {{ start: rinse }}, most: 5 min, severity: minor }}
{extra}"
    );
    read_module("small.yaml", text.as_bytes(), &Library::new())
        .unwrap()
        .module
}

fn overlay_of(modules: &str, body: &str) -> Profile {
    let text = format!(
        "profile: {{ id: proven, title: Proven, origin: from memory, set: Any set.{modules} }}\n{body}"
    );
    profile("proven.yaml", text.as_bytes()).unwrap()
}

const ALL: &str = "\
steps: { wash: { target: 3 min, least: 2 min, most: 4 min, changes: [ { when: { wash: orbital }, add: 1 min } ] } }
stations: { bath: { volume: 600 mL, carry-over: 5 mL } }
caps: [ { over: [wash], most: 6 min } ]
gaps: [ { from: { end: wash }, to: { start: rinse }, most: 2 min } ]
change-every: { gloves: 15 min }
";

#[test]
fn numbers_are_laid_over_and_nothing_else() {
    let mut module = small("");
    apply(&overlay_of("", ALL), &mut module).unwrap();
    let Some(Keeping::Timer(window)) = &module.steps[0].keeping else {
        panic!("the step is timed");
    };
    assert_eq!(
        (window.target, window.changes.len(), &window.origin),
        (Millis::minutes(3), 1, &Some(Origin::FromMemory))
    );
    let numbers: Vec<_> = module.stations[0]
        .numbers
        .iter()
        .map(|it| it.text.value.as_str())
        .collect();
    assert_eq!(numbers, ["600 mL", "5 mL"]);
    assert!(
        matches!(&module.time_rules[0], TimeRule::Cap { most, .. } if *most == Millis::minutes(6))
    );
    assert!(
        matches!(&module.time_rules[1], TimeRule::Gap { most: Some(most), .. } if *most == Millis::minutes(2))
    );
    let every = module.protection_items[0].change_every;
    assert_eq!(every, Some(Millis::minutes(15)));
}

#[test]
fn what_does_not_fit_leaves_the_module_as_it_was() {
    let wrong = "\
steps: { wahs: { within: 20 s }, rinse: { within: 20 s }, wash: { target: 9 min, least: 8 min, most: 10 min } }
caps: [ { over: [rinse], most: 6 min } ]
gaps: [ { from: { start: wash }, to: { start: rinse }, most: 2 min } ]
";
    let mut module = small("");
    let problems = apply(&overlay_of("", wrong), &mut module).unwrap_err();
    let told: Vec<_> = problems.iter().map(|it| &it.what).collect();
    assert!(
        matches!(told[0], ProfileFault::Unknown { suggestion: Some(meant), .. } if meant == "wash")
    );
    assert!(matches!(told[1], ProfileFault::OtherKeeping { .. }));
    assert_eq!(
        told[2..],
        [&ProfileFault::NoSuchCap, &ProfileFault::NoSuchGap]
    );
    assert!(
        matches!(&module.steps[0].keeping, Some(Keeping::Timer(window)) if window.target == Millis::minutes(2))
    );
}

#[test]
fn a_profile_for_several_modules_passes_over_what_is_meant_for_another() {
    let body =
        "steps: { warm: { within: 10 s }, wash: { target: 2 min, least: 1 min, most: 3 min } }\n";
    let several = overlay_of(", modules: [small, large]", body);
    let mut module = small("");
    apply(&several, &mut module).unwrap();
    let foreign = overlay_of(", modules: [large]", body);
    assert!(apply(&foreign, &mut module).is_err());
    let large = small("never: []\n");
    let unused = several.unused(&[&module, &large]);
    assert_eq!(unused.len(), 1);
    assert!(matches!(&unused[0].what, ProfileFault::Unknown { found, .. } if found == "warm"));
}

#[test]
fn the_digest_is_of_the_numbers_and_of_nothing_else() {
    let one = overlay_of("", ALL);
    let titled = format!(
        "# Ours.\nprofile: {{ id: proven, title: Better, origin: our default, set: Another set. }}\n{ALL}"
    );
    let titled = profile("proven.yaml", titled.as_bytes()).unwrap();
    assert_eq!(one.digest, titled.digest);
    let other = overlay_of("", &ALL.replace("most: 6 min", "most: 7 min"));
    assert_ne!(one.digest, other.digest);
}
