//! Sittings that nobody means well: modules with their letters spoilt, lines and actions that make no sense, typed into a session.

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
use drybench::report::{Running, debrief, problems};
use drybench::rng::{Seed, Stream};
use drybench::syllabus::check::{Surroundings, check as syllabus_check};
use drybench::syllabus::module::Never;
use drybench::text::Words;
use drybench::units::Millis;

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
    for round in 0..800 {
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
    let of = session.debriefed(done);
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
