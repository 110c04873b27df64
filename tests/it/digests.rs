//! A text that changes under an old revision is caught: the digest of every shipped module stands in `tests/digests.txt`.
//!
//! Until a revision is released, `DRYBENCH_BLESS=1 cargo test digests` writes the list anew; afterwards the module's revision
//! goes up first.

#![expect(
    clippy::disallowed_methods,
    reason = "the list is a file, and the environment may ask for a new one"
)]

use drybench::app::shelf::Shelf;

const LIST: &str = "tests/digests.txt";

/// One line per shipped module: id, revision, digest.
fn now() -> Vec<String> {
    let shelf = Shelf::shipped();
    let line = |id: &String| {
        let taken = shelf
            .take(id, None)
            .unwrap_or_else(|problem| panic!("{id}: {problem:#?}"));
        format!("{id} {} {}", taken.module.identity.revision, taken.digest)
    };
    shelf.modules().iter().map(line).collect()
}

#[test]
fn every_shipped_module_is_what_its_revision_says() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(LIST);
    let now = now();
    if std::env::var_os("DRYBENCH_BLESS").is_some() {
        std::fs::write(&path, now.join("\n") + "\n").expect("the list can be written");
    }
    let listed = std::fs::read_to_string(&path).expect("the list can be read");
    let listed: Vec<&str> = listed.lines().collect();
    assert_eq!(
        listed, now,
        "a module changed: raise its revision, then write the list anew"
    );
}

#[test]
fn the_default_profile_says_what_the_modules_say_themselves() {
    let shelf = Shelf::shipped();
    for id in shelf.modules() {
        let taken = shelf
            .take(&id, None)
            .unwrap_or_else(|problem| panic!("{id}: {problem:#?}"));
        let own = taken.assembled.module.clone();
        assert_eq!(
            format!("{:?}", numbers(&own)),
            format!("{:?}", numbers(&taken.module)),
            "{id}"
        );
    }
}

/// The numbers that a profile can overlay, without where they were written.
fn numbers(module: &drybench::syllabus::module::Module) -> Vec<String> {
    use drybench::syllabus::module::{Keeping, TimeRule};
    let mut all = Vec::new();
    for step in &module.steps {
        match &step.keeping {
            Some(Keeping::Timer(window) | Keeping::Count(window)) => {
                let changes: Vec<_> = window
                    .changes
                    .iter()
                    .map(|one| (&one.choice.value, &one.value.value, one.add, one.replace))
                    .collect();
                all.push(format!(
                    "{} {} {} {} {changes:?}",
                    step.id.value, window.target, window.least, window.most
                ));
            }
            Some(Keeping::Watch { within, .. }) => all.push(format!("{} {within}", step.id.value)),
            _ => {}
        }
    }
    for station in &module.stations {
        for number in &station.numbers {
            all.push(format!(
                "{} {} {}",
                station.id.value, number.name.value, number.text.value
            ));
        }
    }
    for rule in &module.time_rules {
        match rule {
            TimeRule::Gap { least, most, .. } => all.push(format!("gap {least:?} {most:?}")),
            TimeRule::Cap {
                most,
                when_done,
                changes,
                ..
            } => {
                let raised: Vec<_> = when_done
                    .iter()
                    .map(|(step, cap)| (&step.value, cap))
                    .collect();
                let changed: Vec<_> = changes
                    .iter()
                    .map(|one| (&one.choice.value, &one.value.value, one.most))
                    .collect();
                all.push(format!("cap {most} {raised:?} {changed:?}"));
            }
        }
    }
    for item in &module.protection_items {
        all.push(format!("{} {:?}", item.id.value, item.change_every));
    }
    all
}
