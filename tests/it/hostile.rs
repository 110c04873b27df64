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

use crate::support::expert::{start, stock_teeth, wet_resin};
use drybench::app::NoJournal;
use drybench::app::rehearse::{Disturbances, Session};
use drybench::app::shelf::{Shelf, ShelfProblem, Taken};
use drybench::bench::station_kinds;
use drybench::rehearsal::action::Action;
use drybench::rehearsal::line::{self, Line};
use drybench::rehearsal::replay::Replayed;
use drybench::report::json::debrief_json;
use drybench::report::plain::{Glyphs, plain};
use drybench::report::{Debriefed, Running, debrief, problems};
use drybench::rng::{Seed, Stream};
use drybench::syllabus::check::{Surroundings, check as syllabus_check};
use drybench::syllabus::module::Never;
use drybench::text::Words;
use drybench::units::Millis;

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

/// A changed copy of a text: letters dropped, doubled, swapped, lines moved.
fn mutilated(text: &str, stream: &mut Stream) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..=stream.between(0, 3) {
        let last = i64::try_from(bytes.len()).unwrap() - 2;
        let at = usize::try_from(stream.between(0, last)).unwrap();
        match stream.between(0, 4) {
            0 => drop(bytes.remove(at)),
            1 => bytes.insert(at, bytes[at]),
            2 => bytes.swap(at, at + 1),
            3 => bytes[at] = b" :-[]{}#&*0a\n"[usize::try_from(stream.between(0, 12)).unwrap()],
            _ => {
                let end = bytes[at..]
                    .iter()
                    .position(|&b| b == b'\n')
                    .map_or(bytes.len(), |end| at + end);
                drop(bytes.drain(at..end));
            }
        }
    }
    bytes
}

#[test]
fn mutilated_modules_never_make_a_run_panic() {
    let mut stream = Stream::new(Seed(3), "mutilations");
    let shipped = drybench::shipped::modules();
    let words = Words::shipped("en-US");
    let (mut ran, mut faulty, mut refused) = ([0; 2], 0, 0);
    for round in 0..400 {
        let mut shelf = Shelf::shipped();
        let which =
            usize::try_from(stream.between(0, i64::try_from(shipped.len()).unwrap() - 1)).unwrap();
        let (path, text) = shipped[which];
        let spoilt = mutilated(text, &mut stream);
        if spoilt == text.as_bytes() {
            continue;
        }
        shelf.lay(path, spoilt);
        // What is spoilt has to be read: a module by itself, and what modules share by one that uses it.
        let wet = path.ends_with("wet-resin.yaml");
        let id = if wet {
            "wet-resin-and-solvent"
        } else {
            "stock-teeth"
        };
        let taken = match shelf.take(id, None) {
            Ok(taken) => taken,
            Err(problem) => {
                refused += 1;
                if let ShelfProblem::Unreadable(refused) = problem {
                    assert!(!refused.report.problems.is_empty(), "refused for nothing");
                    for one in &refused.report.problems {
                        assert!(one.at.line > 0, "{path}: {one:?}");
                        assert!(!problems::fault(&one.what, &words).what.is_empty());
                    }
                }
                continue;
            }
        };
        let modules = shelf.modules();
        let kinds = station_kinds();
        let around = Surroundings {
            hazards: &taken.hazards,
            faults: &taken.faults,
            modules: Some(&modules),
            station_kinds: Some(&kinds),
        };
        let report = syllabus_check(&taken.assembled, &around);
        for one in &report.problems {
            let told = problems::check_fault(&one.what, &taken.files, &words);
            assert!(!told.what.is_empty(), "{path}: {one:?}");
        }
        faulty += usize::from(!report.problems.is_empty());
        let request = drybench::app::rehearse::Request {
            module: id,
            profile: None,
            case: "",
            seed: Seed(round),
            help: drybench::rehearsal::action::Help::Unaided,
            disturbances: Disturbances::Drawn,
        };
        // What has faults may still be started by somebody, so it must hold together too.
        let Ok(session) = Session::on(taken, &request) else {
            refused += 1;
            continue;
        };
        ran[usize::from(wet)] += 1;
        sit(session, &mut stream, 40);
    }
    assert!(
        ran.iter().all(|&ran| ran > 5) && faulty > 10 && refused > 30,
        "{ran:?} ran, {faulty} had faults, {refused} were refused"
    );
}

/// A senseless or sensible line about a module.
fn some_line(taken: &Taken, stream: &mut Stream) -> String {
    let module = &taken.module;
    let pick = |stream: &mut Stream, all: &[String]| -> String {
        let last = i64::try_from(all.len()).unwrap() - 1;
        all.get(usize::try_from(stream.between(0, last)).unwrap())
            .cloned()
            .unwrap_or_default()
    };
    let steps: Vec<String> = module
        .steps
        .iter()
        .map(|one| one.id.value.clone())
        .collect();
    let acts: Vec<String> = module
        .never
        .iter()
        .filter_map(|rule| match rule {
            Never::Act(act) => Some(act.id.value.clone()),
            _ => None,
        })
        .collect();
    let items: Vec<String> = module
        .protection_items
        .iter()
        .map(|one| one.id.value.clone())
        .collect();
    let responses: Vec<String> = module
        .disturbances
        .iter()
        .flat_map(|one| {
            one.responses
                .iter()
                .map(|response| response.id.value.clone())
        })
        .collect();
    let times = [
        "",
        " for 10 s",
        " for 2 min",
        " for 23 h",
        " for 0 s",
        " for -5 s",
        " for 99 days",
        " until sign",
        " until sign + 1 min",
        " until nothing",
    ];
    let places = [
        "",
        " all",
        " 1",
        " 1-2",
        " 3-9",
        " 99",
        " facial",
        " 1-2 lingual",
        " 2/1",
        " 0",
        " x",
    ];
    let of = |stream: &mut Stream, all: &[&str]| {
        let last = i64::try_from(all.len()).unwrap() - 1;
        all[usize::try_from(stream.between(0, last)).unwrap()].to_owned()
    };
    match stream.between(0, 11) {
        0 => format!("wear {}", pick(stream, &items)),
        1 => format!("run {}", pick(stream, &items)),
        2 => format!("take-off {}", pick(stream, &items)),
        3 => format!("respond {}", pick(stream, &responses)),
        4 => pick(stream, &acts),
        5 => format!(
            "wait{}",
            of(
                stream,
                &[
                    " 30 s",
                    " 20 h",
                    " until plate-state-ready",
                    " until film-dry",
                    " 1",
                    " -1 s"
                ]
            )
        ),
        6 => of(
            stream,
            &[
                "look",
                "next",
                "help",
                "",
                "# thought",
                "wear",
                "finish now",
                "\u{202e}abc",
                "fill =",
                "why x",
            ],
        ),
        _ => {
            let index = usize::try_from(stream.between(0, i64::try_from(steps.len()).unwrap() - 1))
                .unwrap();
            let step = &module.steps[index];
            let mut line = steps[index].clone() + &of(stream, &places);
            for way in &step.ways {
                if stream.between(0, 2) == 0 {
                    let options: Vec<String> =
                        way.options.iter().map(|one| one.id.value.clone()).collect();
                    line += &format!(" {}={}", way.id.value, pick(stream, &options));
                }
            }
            line + &of(stream, &times)
        }
    }
}

/// An action that no line would make, as a saved run may hold it.
fn some_action(taken: &Taken, stream: &mut Stream) -> Action {
    let times = [
        Millis(i64::MIN),
        Millis(i64::MAX),
        Millis(-1),
        Millis::ZERO,
        Millis(1),
        Millis::minutes(24 * 60),
        Millis::minutes(24 * 60 + 1),
    ];
    let mut at =
        |many: usize| usize::try_from(stream.between(0, i64::try_from(many).unwrap() - 1)).unwrap();
    let time = times[at(times.len())];
    let item = ["", "crown", "nitrile-gloves", "extraction"][at(4)].to_owned();
    match at(8) {
        0 => Action::Wait { time },
        1 => Action::Wear { item },
        2 => Action::TakeOff { item },
        3 => Action::Start { item },
        4 => Action::Stop { item },
        5 => Action::Respond { response: item },
        _ => {
            let step = &taken.module.steps[at(taken.module.steps.len())];
            let way = step.ways.first();
            let chosen = |option: &str| {
                let way = way.map_or("manner", |way| way.id.value.as_str());
                (way.to_owned(), option.to_owned())
            };
            let right = way.and_then(|way| way.options.first());
            let right = chosen(right.map_or("any", |one| one.id.value.as_str()));
            Action::Do {
                what: step.id.value.clone(),
                at: ["", "1-2", "1-2/facial", "/", "9999999999", "all"][at(6)].to_owned(),
                ways: [vec![], vec![chosen("nobodys")], vec![right.clone(), right]][at(3)].clone(),
                timed: [None, Some(time)][at(2)],
            }
        }
    }
}

/// Types so many lines into a session, holding what must always hold, and hands it over.
fn sit(mut session: Session, stream: &mut Stream, lines: usize) -> Counts {
    let taken = session.taken().clone();
    let words = Words::shipped("en-US");
    let mut typed = Vec::new();
    let mut counts = Counts::default();
    for _ in 0..lines {
        let raw = (stream.between(0, 3) == 0).then(|| some_action(&taken, stream));
        let text = match &raw {
            Some(action) => format!("{action:?}"),
            None => some_line(&taken, stream),
        };
        typed.push(text.clone());
        let before = (
            session.rehearsal().clock(),
            session.rehearsal().trace().len(),
        );
        let action = match raw {
            Some(action) => Some(action),
            None => match line::parse(&text) {
                Ok(Line::Move(one)) => session.resolve(&one).ok(),
                Ok(Line::Action(action)) => Some(action),
                Ok(Line::WaitUntil { sign, plus }) => session.wait_until(&sign, plus).ok(),
                Ok(Line::Blank | Line::Ask(_)) | Err(_) => None,
            },
        };
        let acting = action.is_some();
        let acted = action.and_then(|action| session.act(action, &mut NoJournal).ok());
        counts.done += usize::from(acted.is_some());
        counts.refused += usize::from(acting && acted.is_none());
        let after = (
            session.rehearsal().clock(),
            session.rehearsal().trace().len(),
        );
        if acted.is_none() {
            assert_eq!(before, after, "{typed:#?}");
        }
        talk(&session, before.1, &words);
        assert!(before.0 <= after.0 && before.1 <= after.1, "{typed:#?}");
    }
    // Whoever gives up here gets a debrief too.
    let given_up = session.debrief();
    assert!(given_up.is_ok(), "{given_up:?}\n{typed:#?}");
    session.act(Action::Finish, &mut NoJournal).unwrap();
    let done = session
        .debrief()
        .unwrap_or_else(|problem| panic!("{problem:?}\n{typed:#?}"));
    let mut clock = drybench::units::Millis::ZERO;
    for event in &done.trace {
        assert!(
            clock <= event.start && event.start <= event.end,
            "{typed:#?}"
        );
        clock = event.end;
    }
    assert!(!done.graded.clean, "nothing senseless is clean");
    told(&session, &done, &words);
    counts
}

/// How many actions were done and refused.
#[derive(Clone, Copy, Default)]
struct Counts {
    done: usize,
    refused: usize,
}

/// Says everything that plain mode can say now.
fn talk(session: &Session, event: usize, words: &Words) {
    let rehearsal = session.rehearsal();
    let running = Running::new(rehearsal, words);
    let events = event..rehearsal.trace().len();
    let said = [
        running.look(),
        running.next(),
        running.guide(&[]).1,
        running.events(events.clone(), true),
        running.events(events, false),
    ];
    for line in said.into_iter().flatten() {
        assert!(!line.is_empty());
        assert!(!line.contains(['\u{1b}', '\u{202e}']), "{line:?}");
    }
    assert!(!running.prompt().is_empty());
}

/// Writes the debrief for people and for machines.
fn told(session: &Session, done: &Replayed, words: &Words) {
    let on = session.prepared();
    let of = Debriefed {
        module: &on.module,
        plan: &on.plan,
        run: session.run(),
        trace: &done.trace,
        outcome: &done.outcome,
        graded: &done.graded,
        limits: on.model.limits(),
    };
    let blocks = debrief(&of, &|_| None, words);
    for width in [20, 80] {
        assert!(!plain(&blocks, width, Glyphs::Braille).is_empty());
    }
    let json = serde_json::to_value(debrief_json(&of, words)).unwrap();
    assert_eq!(json["finished"], true);
}

#[test]
fn random_sittings_hold_together() {
    for (name, taken) in [("stock teeth", stock_teeth()), ("wet resin", wet_resin())] {
        let mut counts = Counts::default();
        for seed in 0..150 {
            let mut stream = Stream::new(Seed(seed), name);
            let session = start(taken, "", seed, Disturbances::Drawn);
            let one = sit(session, &mut stream, 120);
            counts.done += one.done;
            counts.refused += one.refused;
        }
        assert!(
            counts.done > 3_000 && counts.refused > 1_000,
            "{name}: {} done, {} refused",
            counts.done,
            counts.refused
        );
    }
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
