//! Files and lines that nobody means well: told with their place, in bounded time and memory, without a panic.

#![expect(
    clippy::disallowed_methods,
    reason = "the real program reads real files, and a thread watches its memory"
)]

use std::fs;
use std::io::Read as _;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

mod sittings;

/// No check may hang: far above what any takes.
const PATIENCE: Duration = Duration::from_secs(20);

/// Far above what reading a module takes, far below what a hostile one could ask for.
const MEMORY_MOST_KIB: u64 = 300 * 1024;

/// What came of checking a file.
struct Checked {
    status: Option<i32>,
    said: String,
    peak_kib: u64,
}

/// Runs the real check on a path, watching time and memory.
fn check(path: &Path) -> Checked {
    let mut child = Command::new(env!("CARGO_BIN_EXE_drybench"))
        .args(["module", "check"])
        .arg(path)
        .env("LC_ALL", "C.UTF-8")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stderr = child.stderr.take().unwrap();
    let reader = std::thread::spawn(move || {
        let mut said = String::new();
        stderr.read_to_string(&mut said).unwrap();
        said
    });
    let status = format!("/proc/{}/status", child.id());
    let begun = Instant::now();
    let mut peak_kib = 0;
    let ended = loop {
        let now = fs::read_to_string(&status).unwrap_or_default();
        let peak = now.lines().find_map(|line| line.strip_prefix("VmHWM:"));
        let peak = peak.and_then(|line| line.split_whitespace().next()?.parse().ok());
        peak_kib = peak_kib.max(peak.unwrap_or(0));
        if let Some(ended) = child.try_wait().unwrap() {
            break ended;
        }
        assert!(begun.elapsed() < PATIENCE, "{} hangs", path.display());
        std::thread::sleep(Duration::from_millis(2));
    };
    Checked {
        status: ended.code(),
        said: reader.join().unwrap(),
        peak_kib,
    }
}

/// A small sound module, to be spoilt.
const SOUND: &str = "\
module: { id: rinse, title: Rinse, about: Rinse a cup., revision: 1, effective: 2026-12-01, language: en-US, risk: low, origin: our default }
cautions: [The instructions of the maker come first.]
case:
  size: { title: Size, one-of: [small, large] }
parts:
  cup: { title: The cup, kind: body, aspects: { state: { title: State, seen: yes, values: { dirty: it is dirty, clean: it is clean } } } }
bench:
  sink: { title: Sink, kind: place }
flow:
  - step: { id: take-cup, title: Take the cup, at: sink, takes: 5 s, why: To have it., good: In hand. }
  - step: { id: rinse-cup, title: Rinse it, at: sink, after: [take-cup], takes: 5 s, makes: [ { state: clean } ], why: It is dirty., good: It is clean.,
      kept-by: { timer: { target: 30 s, least: 20 s, most: 40 s } } }
  - step: { id: dry-cup, title: Dry it, at: sink, after: [rinse-cup], needs: [ { state: clean } ], takes: 5 s, why: To put it away., good: Dry. }
time-rules:
  - gap: { from: { end: rinse-cup }, to: { start: dry-cup }, most: 1 min, severity: minor, leads-to: [], text: Too long. }
";

/// Writes a file, checks it, and holds what every check must do.
fn checked(name: &str, bytes: &[u8]) -> Checked {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    fs::write(&path, bytes).unwrap();
    let one = check(&path);
    assert!(!one.said.contains("panicked"), "{name}: {}", one.said);
    assert!(
        one.peak_kib < MEMORY_MOST_KIB,
        "{name}: {} KiB",
        one.peak_kib
    );
    one
}

/// The places that were told, as `line:column`.
fn places(said: &str, name: &str) -> Vec<String> {
    let place = |line: &str| {
        let rest = line.split_once(&format!("{name}:"))?.1;
        let mut parts = rest.split(':');
        let (line, column) = (parts.next()?, parts.next()?);
        let number = |text: &str| text.parse::<u32>().is_ok();
        (number(line) && number(column)).then(|| format!("{line}:{column}"))
    };
    said.lines().filter_map(place).collect()
}

#[test]
fn the_sample_is_sound() {
    let one = checked("rinse.yaml", SOUND.as_bytes());
    assert_eq!(one.status, Some(0), "{}", one.said);
}

#[test]
fn faults_are_told_with_their_places_and_what_may_have_been_meant() {
    let spoilt = |from: &str, to: &str| SOUND.replacen(from, to, 1);
    for (what, text, line, says) in [
        (
            "typo in a key",
            spoilt("takes: 5 s, why: To have", "taks: 5 s, why: To have"),
            10,
            "takes",
        ),
        (
            "unknown step",
            spoilt("after: [take-cup]", "after: [take-cub]"),
            11,
            "take-cup",
        ),
        (
            "circle",
            spoilt(
                "at: sink, takes: 5 s, why: To have",
                "at: sink, after: [dry-cup], takes: 5 s, why: To have",
            ),
            10,
            "dry-cup",
        ),
        (
            "contradictory times",
            spoilt("least: 20 s, most: 40 s", "least: 50 s, most: 40 s"),
            0,
            "rinse-cup",
        ),
        (
            "no as text",
            spoilt("id: take-cup,", "id: no,"),
            0,
            "take-cup",
        ),
        (
            "duplicate key",
            spoilt(
                "title: Take the cup,",
                "title: Take the cup, title: Take it,",
            ),
            10,
            "title",
        ),
        (
            "need that nothing makes",
            spoilt("makes: [ { state: clean } ], ", ""),
            13,
            "clean",
        ),
        (
            "an alias",
            spoilt("title: Take the cup", "title: &a Take the cup"),
            10,
            "",
        ),
        ("no duration", spoilt("target: 30 s", "target: 30"), 12, "s"),
    ] {
        let one = checked("rinse.yaml", text.as_bytes());
        assert_eq!(one.status, Some(1), "{what}: {}", one.said);
        let places = places(&one.said, "rinse.yaml");
        assert!(!places.is_empty(), "{what}: {}", one.said);
        if line > 0 {
            let begins = format!("{line}:");
            assert!(
                places.iter().any(|one| one.starts_with(&begins)),
                "{what}: {}",
                one.said
            );
        }
        assert!(one.said.contains(says), "{what}: {}", one.said);
    }
}

#[test]
fn all_faults_of_a_file_are_told_in_one_go() {
    let text = SOUND
        .replace("taks", "takes")
        .replacen(
            "at: sink, takes: 5 s, why: To have",
            "at: sinc, taks: 5 s, why: To have",
            1,
        )
        .replacen("least: 20 s", "least: soon", 1)
        .replacen("severity: minor", "severity: minr", 1);
    let one = checked("rinse.yaml", text.as_bytes());
    let lines: Vec<String> = places(&one.said, "rinse.yaml");
    for line in ["10:", "12:", "15:"] {
        assert!(
            lines.iter().any(|one| one.starts_with(line)),
            "{line} {}",
            one.said
        );
    }
}

#[test]
fn contradictory_times_are_explained_as_the_rules_that_clash() {
    let text = SOUND.replacen(
        "to: { start: dry-cup }, most: 1 min",
        "to: { end: dry-cup }, most: 2 s",
        1,
    );
    let one = checked("rinse.yaml", text.as_bytes());
    assert_eq!(one.status, Some(1), "{}", one.said);
    assert!(
        one.said.contains("dry-cup") && one.said.contains("2 s"),
        "{}",
        one.said
    );
}

#[test]
fn bombs_and_rubbish_end_soon() {
    let bomb = {
        let mut text = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
        for level in 1..10 {
            let last = level - 1;
            let refs = vec![format!("*a{last}"); 9].join(", ");
            text += &format!("a{level}: &a{level} [{refs}]\n");
        }
        text
    };
    let bytes = |text: &str| text.as_bytes().to_vec();
    let mut not_text = bytes(SOUND);
    not_text[200] = 0xff;
    for (what, content) in [
        ("alias bomb", bytes(&bomb)),
        ("invalid UTF-8", not_text),
        ("nested brackets", bytes(&"[".repeat(100_000))),
        (
            "nested maps",
            bytes(&(0..50_000).fold(String::new(), |text, at| {
                text + &" ".repeat(at % 60) + "a:\n"
            })),
        ),
        ("one long line", vec![b'a'; 1_900_000]),
        (
            "many keys",
            bytes(&(0..150_000).fold(String::new(), |text, at| text + &format!("k{at}: v\n"))),
        ),
        ("nothing", Vec::new()),
        ("zeros", vec![0; 4096]),
        (
            "a program",
            fs::read(env!("CARGO_BIN_EXE_drybench")).unwrap()[..65_536].to_vec(),
        ),
    ] {
        let one = checked("bad.yaml", &content);
        assert_eq!(one.status, Some(1), "{what}: {}", one.said);
        assert!(
            !places(&one.said, "bad.yaml").is_empty(),
            "{what}: {}",
            one.said
        );
    }
}

#[test]
fn every_broken_sample_is_told_with_its_place_by_the_program() {
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/modules/bad");
    let mut broken = 0;
    for entry in fs::read_dir(&samples).unwrap() {
        let path = entry.unwrap().path();
        let one = check(&path);
        let warned = one.said.lines().filter(|line| line.contains(": warning: "));
        // A fault may stand in a stage that the sample uses; hints have no place.
        let told: Vec<&str> = one
            .said
            .lines()
            .filter(|line| places(line, ".yaml").len() == 1)
            .collect();
        assert!(!told.is_empty(), "{}: {}", path.display(), one.said);
        let sound = told.len() == warned.count();
        broken += usize::from(!sound);
        let status = if sound { 0 } else { 1 };
        assert_eq!(one.status, Some(status), "{}: {}", path.display(), one.said);
        assert!(!one.said.contains("panicked"), "{}", one.said);
        assert!(one.peak_kib < MEMORY_MOST_KIB, "{}", path.display());
    }
    assert!(broken > 50, "{broken}");
}

#[cfg(target_os = "linux")]
#[test]
fn what_never_ends_and_what_leads_nowhere_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let circle = folder.path().join("circle.yaml");
    std::os::unix::fs::symlink("circle.yaml", &circle).unwrap();
    // A folder that holds itself, so that its paths never end.
    std::os::unix::fs::symlink(".", folder.path().join("again")).unwrap();
    for (path, says) in [
        (Path::new("/dev/zero"), "is longer than"),
        (circle.as_path(), "could not be read"),
        (folder.path(), "no module in"),
    ] {
        let one = check(path);
        assert_eq!(one.status, Some(1), "{}", one.said);
        assert!(one.said.contains(says), "{}", one.said);
        assert!(one.peak_kib < 64 * 1024, "{} KiB", one.peak_kib);
    }
}

#[test]
fn a_name_of_a_file_gives_the_terminal_no_orders() {
    let name = "a\u{1b}[2J\nb\u{202e}.yaml";
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    fs::write(&path, "x: 1\n").unwrap();
    for asked in [path.as_path(), folder.path()] {
        let one = check(asked);
        assert_eq!(one.status, Some(1), "{}", one.said);
        let orders = ['\u{1b}', '\u{202e}', '\r'];
        assert!(!one.said.contains(orders), "{:?}", one.said);
        // The line end of the name is none of the message.
        assert!(places(&one.said, ".yaml").len() > 1, "{:?}", one.said);
        assert!(
            !one.said.lines().any(|line| line.starts_with('b')),
            "{:?}",
            one.said
        );
    }
}

#[test]
fn a_file_of_a_hundred_megabytes_is_refused_before_it_is_read() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("large.yaml");
    let file = fs::File::create(&path).unwrap();
    file.set_len(100 * 1024 * 1024).unwrap();
    let one = check(&path);
    assert_eq!(one.status, Some(1), "{}", one.said);
    assert!(one.said.contains("large.yaml"), "{}", one.said);
    assert!(one.peak_kib < 64 * 1024, "{} KiB", one.peak_kib);
}

#[test]
fn what_is_not_there_is_told() {
    let one = check(Path::new("no/such/module.yaml"));
    assert_eq!(one.status, Some(1), "{}", one.said);
    assert!(one.said.contains("is not there"), "{}", one.said);
    let one = check(Path::new("no-such-module"));
    assert_eq!(one.status, Some(2), "{}", one.said);
    assert!(one.said.contains("stock-teeth"), "{}", one.said);
}

/// A folder with files in it, by path.
fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    folder
}

#[test]
fn a_folder_is_checked_for_its_modules_and_nothing_else() {
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("modules");
    let one = check(&shipped);
    assert_eq!((one.status, one.said.as_str()), (Some(0), ""));
    let broken = SOUND.replacen("after: [take-cup]", "after: [take-cub]", 1);
    let two = folder(&[
        ("a/one.yaml", &broken),
        ("b/two.yaml", &broken),
        ("c/three.yaml", SOUND),
        ("c/notes.txt", "no module"),
    ]);
    let one = check(two.path());
    assert_eq!(one.status, Some(1), "{}", one.said);
    for (name, found) in [("one.yaml", 1), ("two.yaml", 1), ("three.yaml", 0)] {
        assert_eq!(places(&one.said, name).len(), found, "{}", one.said);
    }
}

#[test]
fn a_folder_without_a_module_is_told() {
    for files in [
        &[][..],
        &[("notes.txt", "no module")],
        &[("stages/a.yaml", "")],
    ] {
        let folder = folder(files);
        let one = check(folder.path());
        assert_eq!(one.status, Some(1), "{files:?}: {}", one.said);
        assert!(one.said.contains("no module in"), "{}", one.said);
    }
}

#[test]
fn a_folder_with_too_many_files_is_refused_before_any_is_read() {
    let names: Vec<String> = (0..2_000).map(|at| format!("mine/{at}.yaml")).collect();
    let mut files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), "")).collect();
    // What is no module and no stage does not count.
    files.push(("notes.txt", "no module"));
    let folder = folder(&files);
    let one = check(folder.path());
    assert_eq!(one.status, Some(1), "{}", one.said);
    assert_eq!(places(&one.said, ".yaml").len(), 2_000);
    // The first one would be refused if it were read.
    let first = fs::File::create(folder.path().join("mine/0.yaml")).unwrap();
    first.set_len(100 * 1024 * 1024).unwrap();
    // A stage is a file that is read too.
    for more in ["mine/more.yaml", "stages/more.yaml"] {
        let path = folder.path().join(more);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, "").unwrap();
        let one = check(folder.path());
        assert_eq!(one.status, Some(1), "{}", one.said);
        let told = "2,001 files of modules in ";
        assert!(one.said.contains(told), "{}", one.said);
        assert!(one.said.contains("no more than 2,000"), "{}", one.said);
        assert!(places(&one.said, ".yaml").is_empty(), "{}", one.said);
        fs::remove_file(&path).unwrap();
    }
}

#[test]
fn a_stage_of_a_folder_stands_before_the_shipped_one() {
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("modules");
    let module = fs::read_to_string(shipped.join("constructions/stock-teeth.yaml")).unwrap();
    let stage = fs::read_to_string(shipped.join("stages/two-baths.yaml")).unwrap();
    let broken = stage.replacen("takes:", "taks:", 1);
    assert_ne!(stage, broken);
    let files = [
        ("mine/it.yaml", module.as_str()),
        ("stages/two-baths.yaml", &broken),
    ];
    let folder = folder(&files);
    for path in [folder.path().to_owned(), folder.path().join("mine/it.yaml")] {
        let one = check(&path);
        assert_eq!(one.status, Some(1), "{}", one.said);
        let file = folder.path().join("stages/two-baths.yaml");
        let file = file.to_string_lossy();
        assert_eq!(places(&one.said, &file).len(), 1, "{}", one.said);
    }
}
