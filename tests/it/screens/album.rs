//! Pictures of screens in a folder of the repository: `DRYBENCH_BLESS=1` draws them anew, and none stays that nothing is called by any more.
//!
//! One file per state holds it at three sizes. Under each picture stands what is chosen, since a text does not show it.

#![expect(
    clippy::disallowed_methods,
    reason = "pictures are compared with files of the repository"
)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use drybench::tui::frame::Role;

use super::front::{Front, seen};

/// As terminals begin, as they are on a desk, and the smallest that everything fits on.
pub(super) const SIZES: [(usize, usize); 3] = [(80, 24), (120, 40), (60, 20)];

/// The pictures of a folder.
pub(super) struct Album {
    folder: PathBuf,
    known: BTreeSet<String>,
    changed: Vec<String>,
}

impl Album {
    /// Opens the folder of this name below `tests`.
    pub(super) fn open(folder: &str) -> Album {
        Album {
            folder: Path::new(env!("CARGO_MANIFEST_DIR"))
                .join("tests")
                .join(folder),
            known: BTreeSet::new(),
            changed: Vec::new(),
        }
    }

    /// Compares what is seen at three sizes with the picture of this name.
    pub(super) fn compare(&mut self, name: &str, front: &mut Front) {
        self.compare_at(name, front, &SIZES);
    }

    /// The same at other sizes.
    pub(super) fn compare_at(&mut self, name: &str, front: &mut Front, sizes: &[(usize, usize)]) {
        let now: String = sizes.iter().map(|&size| picture(front, size)).collect();
        let file = format!("{name}.txt");
        let path = self.folder.join(&file);
        assert!(self.known.insert(file), "{name} is there twice");
        if blesses() {
            std::fs::create_dir_all(&self.folder).unwrap();
            std::fs::write(&path, &now).unwrap();
        }
        let then = std::fs::read_to_string(&path).unwrap_or_default();
        if then != now {
            let mut rows = now.lines().zip(then.lines().chain(std::iter::repeat("")));
            let row = rows.find(|(now, then)| now != then);
            self.changed.push(format!("{name}: {row:?}"));
        }
    }

    /// Says what has changed, and what lies there besides.
    pub(super) fn close(mut self) {
        for entry in std::fs::read_dir(&self.folder).unwrap() {
            let name = entry.unwrap().file_name().into_string().unwrap();
            if !self.known.contains(&name) {
                self.changed
                    .push(format!("{name}: nothing is called so any more"));
            }
        }
        let changed = self.changed.join("\n");
        assert!(
            changed.is_empty(),
            "DRYBENCH_BLESS=1 draws anew what is meant to have changed:\n{changed}"
        );
    }
}

fn blesses() -> bool {
    std::env::var_os("DRYBENCH_BLESS").is_some()
}

/// The picture at a size, and what is chosen in it.
fn picture(front: &mut Front, size: (usize, usize)) -> String {
    front.resize(size);
    let chosen = seen(&front.frame(), Role::Chosen);
    let chosen: Vec<&str> = chosen.iter().map(|one| one.text.trim()).collect();
    let (wide, tall) = size;
    let (text, chosen) = (front.text(), chosen.join(" | "));
    format!("== {wide}x{tall} ==\n{text}\n== chosen: {chosen} ==\n")
}
