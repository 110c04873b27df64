//! Pictures of every screen, frozen: `DRYBENCH_BLESS=1 cargo test --test it -- screens` draws them anew.
//!
//! One file per state holds it at three sizes. Under each picture stands what is chosen, since a text does not show it.

#![expect(
    clippy::disallowed_methods,
    reason = "pictures are compared with files of the repository"
)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use drybench::text::Words;
use drybench::tui::frame::Role;

use super::front::{Front, seen};
use super::scenes::scenes;
use crate::support::machine::TestMachine;

/// As terminals begin, as they are on a desk, and the smallest that everything fits on.
const SIZES: [(usize, usize); 3] = [(80, 24), (120, 40), (60, 20)];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/screens")
}

/// The picture at a size, and what is chosen in it.
pub(super) fn picture(front: &mut Front, size: (usize, usize)) -> String {
    front.resize(size);
    let chosen = seen(&front.frame(), Role::Chosen);
    let chosen: Vec<&str> = chosen.iter().map(|one| one.text.trim()).collect();
    format!(
        "== {}x{} ==\n{}\n== chosen: {} ==\n",
        size.0,
        size.1,
        front.text(),
        chosen.join(" | ")
    )
}

/// Compares a picture with the one in the repository, or puts it there with `DRYBENCH_BLESS` set.
pub(super) fn compare(name: &str, now: &str) -> Option<String> {
    let path = folder().join(format!("{name}.txt"));
    if std::env::var_os("DRYBENCH_BLESS").is_some() {
        std::fs::write(&path, now).unwrap();
    }
    let then = std::fs::read_to_string(&path).unwrap_or_default();
    if then == now {
        return None;
    }
    let mut rows = now.lines().zip(then.lines().chain(std::iter::repeat("")));
    let row = rows.find(|(now, then)| now != then);
    Some(format!("{name}: {row:?}"))
}

#[test]
fn every_screen_looks_as_it_did() {
    let mut changed = Vec::new();
    let mut known = BTreeSet::from(["too-small.txt".to_owned()]);
    for scene in scenes() {
        let machine = scene.machine();
        let begun = scene.begun(&machine, Words::shipped("en-US"));
        let mut front = Front::before(&machine, begun, SIZES[0]);
        front.press(&scene.keys);
        let pictures = SIZES.map(|size| picture(&mut front, size));
        changed.extend(compare(&scene.name, &pictures.concat()));
        assert!(
            known.insert(format!("{}.txt", scene.name)),
            "{} is there twice",
            scene.name
        );
    }
    let mut front = Front::open(&TestMachine::default(), (59, 19));
    changed.extend(compare("too-small", &picture(&mut front, (59, 19))));
    for entry in std::fs::read_dir(folder()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        // Those of the journeys through deeds are looked at where the journeys are.
        if !known.contains(&name) && !name.starts_with("deed-") {
            changed.push(format!("{name}: nothing is called so any more"));
        }
    }
    assert!(
        changed.is_empty(),
        "DRYBENCH_BLESS=1 draws anew what is meant to have changed:\n{}",
        changed.join("\n")
    );
}
