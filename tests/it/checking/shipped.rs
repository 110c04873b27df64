//! The shipped modules, stages, lists and profiles fit together.

use drybench::syllabus::check::{Surroundings, check};
use drybench::syllabus::digest::digest;
use drybench::syllabus::faults::faults;
use drybench::syllabus::hazards::hazards;
use drybench::syllabus::profile::{apply, profile};
use drybench::syllabus::read::module::{Assembled, Refused, module};

use super::{STATION_KINDS, files_of, folder, library};

fn told(refused: &Refused) -> String {
    let lines = refused.report.problems.iter().map(|it| {
        let file = &refused.files[usize::from(it.at.file)];
        format!("{file}:{}:{} {:?}\n", it.at.line, it.at.column, it.what)
    });
    lines.collect()
}

#[test]
fn everything_shipped_is_sound() {
    let stages = files_of(&folder("modules/stages"));
    let library = library(&stages);
    let mut wrong = String::new();
    let list = |name: &str| std::fs::read(folder("modules").join(name)).unwrap();
    let hazards = hazards("hazards.yaml", &list("hazards.yaml")).unwrap_or_else(|it| {
        wrong.push_str(&told(&it));
        Vec::new()
    });
    let faults = faults("faults.yaml", &list("faults.yaml")).unwrap_or_else(|it| {
        wrong.push_str(&told(&it));
        Vec::new()
    });
    let mut read: Vec<Assembled> = Vec::new();
    for (name, bytes) in ["modules/constructions", "modules/groundwork"]
        .iter()
        .flat_map(|it| files_of(&folder(it)))
    {
        match module(&format!("{name}.yaml"), &bytes, &library) {
            Ok(one) => read.push(one),
            Err(it) => wrong.push_str(&told(&it)),
        }
    }
    let ids: Vec<String> = read
        .iter()
        .map(|it| it.module.identity.id.value.clone())
        .collect();
    let around = Surroundings {
        hazards: &hazards,
        faults: &faults,
        modules: Some(&ids),
        station_kinds: Some(STATION_KINDS),
    };
    for one in &read {
        let report = check(one, &around);
        for it in &report.problems {
            let file = &one.files[usize::from(it.at.file)];
            let (line, column) = (it.at.line, it.at.column);
            wrong.push_str(&format!("{file}:{line}:{column} {:?}\n", it.what));
        }
        assert_eq!(digest(&one.canonical, &one.module, &hazards).len(), 64);
    }
    for (name, bytes) in files_of(&folder("modules/profiles")) {
        match profile(&format!("{name}.yaml"), &bytes) {
            Err(it) => wrong.push_str(&told(&it)),
            Ok(profile) => {
                let modules: Vec<_> = read.iter().map(|it| &it.module).collect();
                for it in profile.unused(&modules) {
                    let (line, column) = (it.at.line, it.at.column);
                    wrong.push_str(&format!("{name}.yaml:{line}:{column} {:?}\n", it.what));
                }
                for one in &read {
                    let mut laid_over = one.clone();
                    // A profile need not cover every module.
                    if apply(&profile, &mut laid_over.module).is_ok() {
                        let report = check(&laid_over, &around);
                        for it in &report.problems {
                            let (line, what) = (it.at.line, &it.what);
                            wrong.push_str(&format!("with {name}:{line} {what:?}\n"));
                        }
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
