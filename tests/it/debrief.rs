//! Debriefs of runs of the shipped modules.

#![expect(
    clippy::disallowed_methods,
    reason = "a test reads and writes files of the project"
)]

use crate::support::expert::{Expert, start, stock_teeth, typed};
use drybench::app::NoJournal;
use drybench::app::rehearse::{Disturbances, Session};
use drybench::app::shelf::{Shelf, Taken};
use drybench::rehearsal::line::{self, Line};
use drybench::report::json::{FindingJson, debrief_json};
use drybench::report::pages::pages;
use drybench::report::plain::{Glyphs, plain};
use drybench::report::{Arch, Block, Debriefed, Figure, Reach, debrief};
use drybench::rng::{Seed, Stream};
use drybench::syllabus::module::Never;
use drybench::text::wrap::columns;
use drybench::text::{Caution, Words};
use std::collections::BTreeSet;

const CASE: &str = "wash=orbital,teeth=7,arch=upper";

/// A run in which an expert's lines were changed.
fn session(taken: &Taken, seed: u32, change: impl Fn(String) -> Option<String>) -> Session {
    let fresh = || start(taken, CASE, seed, Disturbances::Drawn);
    let lines = Expert::new(fresh()).script();
    let lines: Vec<String> = lines.into_iter().filter_map(change).collect();
    typed(fresh(), &lines)
}

/// Washes as long as another unit would need, leaves out a pair's light, never puts gloves on.
fn careless(line: String) -> Option<String> {
    if line.starts_with("first-wash") {
        Some("first-wash for 2 min".to_owned())
    } else if line.starts_with("tack 3-4") || line.contains("wear nitrile-gloves") {
        None
    } else {
        Some(line)
    }
}

/// Hands what a debrief tells about to a report.
fn report<T>(session: &Session, write: impl Fn(&Debriefed<'_>) -> T) -> T {
    let done = session.debrief().unwrap_or_else(|why| panic!("{why:?}"));
    write(&session.debriefed(&done))
}

fn told(session: &Session, words: &Words) -> Vec<Block> {
    report(session, |of| {
        debrief(of, &|id| session.taken().hazard(id), words)
    })
}

/// Words that are 40 % longer than those of the source language.
fn long_winded() -> Words {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("locales/en-US");
    let mut files: Vec<(String, String)> = Vec::new();
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&path).unwrap();
        let longer: Vec<String> = text.lines().map(lengthen).collect();
        let longer = if name == "units.ftl" {
            text.clone()
        } else {
            longer.join("\n")
        };
        files.push((format!("locales/en-US/{name}"), text));
        files.push((format!("locales/de/{name}"), longer));
    }
    let files: Vec<(&str, &str)> = files
        .iter()
        .map(|(path, text)| (path.as_str(), text.as_str()))
        .collect();
    Words::new("de", &files)
}

/// Puts letters behind each word of a message that stands outside of braces.
fn lengthen(line: &str) -> String {
    let Some((id, text)) = line.split_once(" = ") else {
        return line.to_owned();
    };
    if line.starts_with('#') || line.ends_with("->") {
        return line.to_owned();
    }
    let mut depth = 0;
    let mut longer = String::new();
    for c in text.chars() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            ' ' if depth == 0 && longer.ends_with(char::is_alphabetic) => longer.push_str("xx"),
            _ => {}
        }
        longer.push(c);
    }
    format!("{id} = {longer}xx")
}

#[test]
fn no_debrief_is_wider_than_its_page() {
    let taken = stock_teeth();
    let careless = session(taken, 3, careless);
    let clean = session(taken, 4, Some);
    let broken_off = session(taken, 5, |line| (line != "finish").then_some(line));
    for words in [Words::shipped("en-US"), long_winded()] {
        for session in [&careless, &clean, &broken_off] {
            let blocks = told(session, &words);
            assert!(!blocks.is_empty());
            for width in [40, 60, 80, 120, 200] {
                for glyphs in [Glyphs::Ascii, Glyphs::Braille] {
                    for line in plain(&blocks, width, glyphs) {
                        assert!(columns(&line) <= width, "{line}");
                        assert!(!line.contains("[debrief-"), "{line}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_page_with_a_hazard_has_its_precautions_and_what_comes_first() {
    let session = start(stock_teeth(), CASE, 1, Disturbances::None);
    let on = session.prepared();
    let first = Caution::OthersComeFirst;
    let mut count = 0;
    for words in [Words::shipped("en-US"), long_winded()] {
        let pages = pages(
            &on.module,
            &on.plan,
            &|id| session.taken().hazard(id),
            &words,
        );
        assert_eq!(pages.len(), on.module.steps.len() + 1);
        for page in pages {
            for width in [60, 80] {
                for line in plain(&page.blocks, width, Glyphs::Braille) {
                    assert!(columns(&line) <= width, "{line}");
                    assert!(
                        !line.contains("[pages-") && !line.contains("[debrief-"),
                        "{line}"
                    );
                }
            }
            let Some(id) = page.step else { continue };
            let step = on
                .module
                .steps
                .iter()
                .find(|one| one.id.value == id)
                .unwrap();
            let told = format!("{:?}", page.blocks);
            for hazard in &step.hazards {
                count += 1;
                let known = session.taken().hazard(&hazard.value).unwrap();
                let said = known
                    .precautions
                    .iter()
                    .all(|one| told.contains(one.as_str()));
                assert!(said, "{id}: {}", hazard.value);
                let caution = Block::Caution(first.say(&words));
                assert!(page.blocks.contains(&caution), "{id}");
            }
        }
    }
    assert!(count > 100, "only {count} hazards");
}

/// Runs gone wrong in ways that nobody thought of: lines lost, doubled, moved, and done for another time.
fn muddled(seed: u32) -> Session {
    let fresh = || start(stock_teeth(), CASE, seed, Disturbances::Drawn);
    let mut lines = Expert::new(fresh()).script();
    let mut stream = Stream::new(Seed(seed), "muddle");
    let mut at = |many: usize| {
        let last = i64::try_from(many).unwrap() - 1;
        usize::try_from(stream.between(0, last)).unwrap()
    };
    for _ in 0..12 {
        let one = at(lines.len());
        match at(6) {
            0 => drop(lines.remove(one)),
            1 => lines.insert(one, lines[one].clone()),
            2 => {
                let line = lines.remove(one);
                lines.insert(at(lines.len()), line);
            }
            3 => {
                let acts = stock_teeth()
                    .module
                    .never
                    .iter()
                    .filter_map(|one| match one {
                        Never::Act(act) => Some(act.id.value.clone()),
                        _ => None,
                    });
                let acts: Vec<String> = acts.collect();
                lines.insert(one, acts[at(acts.len())].clone());
            }
            4 => {
                let timed = (0..lines.len()).filter(|&line| lines[line].contains(" for "));
                let timed: Vec<usize> = timed.collect();
                let line = timed[at(timed.len())];
                let (what, _) = lines[line].split_once(" for ").unwrap();
                lines[line] = format!("{what} for {}", ["3 s", "40 s", "9 min"][at(3)]);
            }
            _ => lines.insert(one, "wait 40 min".to_owned()),
        }
    }
    let mut session = fresh();
    for text in &lines {
        let action = match line::parse(text) {
            Ok(Line::Move(typed)) => session.resolve(&typed).ok(),
            Ok(Line::Action(action)) => Some(action),
            _ => None,
        };
        // What makes no sense any more is not done, as at a real bench.
        if let Some(action) = action {
            drop(session.act(action, &mut NoJournal));
        }
    }
    session
}

/// All rules of findings, those that followed too.
fn rules(findings: &[FindingJson], into: &mut BTreeSet<&'static str>) {
    for one in findings {
        into.insert(one.rule);
        rules(&one.follow_ons, into);
    }
}

#[test]
fn whatever_happened_has_words_that_fit() {
    let words = [Words::shipped("en-US"), long_winded()];
    let mut seen = BTreeSet::new();
    for seed in 0..60 {
        let session = muddled(seed);
        let json = report(&session, |of| debrief_json(of, &words[0]));
        rules(&json.roots, &mut seen);
        for words in &words {
            for line in plain(&told(&session, words), 60, Glyphs::Ascii) {
                assert!(columns(&line) <= 60, "{seed}: {line}");
                assert!(
                    !line.contains("{$") && !line.contains("[debrief-"),
                    "{seed}: {line}"
                );
            }
        }
    }
    // What the muddle never comes to is told by the mistakes that are made on purpose elsewhere.
    assert!(seen.len() >= 15, "{seen:?}");
}

#[test]
fn the_arch_shows_the_side_that_was_missed_and_the_side_that_was_lit_from_afar() {
    let session = session(stock_teeth(), 7, |line| {
        let of = |pair: &str, side: &str| {
            line.starts_with(&format!("tack {pair}")) && line.contains(side)
        };
        if of("3-4", "lingual") {
            None
        } else if of("5-6", "facial") {
            Some(line.replace(" for ", " distance=far for "))
        } else {
            Some(line)
        }
    });
    let blocks = told(&session, &Words::shipped("en-US"));
    let arches: Vec<&Arch> = blocks
        .iter()
        .filter_map(|block| match block {
            Block::Figure(Figure::Arch(arch)) => Some(arch.as_ref()),
            _ => None,
        })
        .collect();
    let [arch] = arches[..] else {
        panic!("{arches:#?}")
    };
    assert_eq!(arch.sides, ["facial", "lingual"]);
    assert_eq!(arch.missed, ["facial: 5 and 6", "lingual: 3 and 4"]);
    assert_eq!(arch.teeth.len(), 7);
    for tooth in &arch.teeth {
        let [outer, inner] = tooth.sides.each_ref().map(|side| arch.reach(side));
        let expected = match tooth.number {
            3 | 4 => [Reach::Enough, Reach::None],
            5 | 6 => [Reach::Less, Reach::Enough],
            _ => [Reach::Enough, Reach::Enough],
        };
        assert_eq!([outer, inner], expected, "{tooth:?}");
    }
}

/// A small module of its own, so that what is frozen does not change with the shipped ones.
fn small() -> Session {
    let mut shelf = Shelf::default();
    for name in ["rinse.yaml", "hazards.yaml", "faults.yaml"] {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/report");
        shelf.lay(
            &format!("modules/{name}"),
            std::fs::read(path.join(name)).unwrap(),
        );
    }
    let taken = shelf
        .take("rinse", None)
        .unwrap_or_else(|why| panic!("{why:?}"));
    let lines = ["rinse for 20 s", "dry b", "spin", "finish"].map(str::to_owned);
    typed(start(&taken, "unit=slow", 7, Disturbances::None), &lines)
}

/// What is in the repository, or, with `DRYBENCH_BLESS` set, what is there from now on.
fn frozen(name: &str, now: &str) {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/report")
        .join(name);
    if std::env::var_os("DRYBENCH_BLESS").is_some() {
        std::fs::write(&path, now).unwrap();
    }
    let then = std::fs::read_to_string(&path).unwrap();
    assert_eq!(
        now, then,
        "{name}: change the number of the format, or undo the change"
    );
}

#[test]
fn a_small_debrief_reads_like_this() {
    let blocks = told(&small(), &Words::shipped("en-US"));
    let lines = plain(&blocks, 80, Glyphs::Ascii);
    frozen("rinse.txt", &format!("{}\n", lines.join("\n")));
}

#[test]
fn format_1_of_the_debrief_stays() {
    let words = Words::shipped("en-US");
    let json = report(&small(), |of| {
        serde_json::to_string_pretty(&debrief_json(of, &words)).unwrap()
    });
    frozen("rinse.json", &format!("{json}\n"));
}
