//! Modules with something changed at random: reading and checking them ends, and never by a panic.

use std::time::{Duration, Instant};

use drybench::rng::{Seed, Stream};

use super::{complaints, files_of, folder, library};

/// How many mutilated modules are read.
const MUTATIONS: u64 = 300;

/// Far above what any module takes.
const PATIENCE: Duration = Duration::from_secs(20);

/// A module that uses most of what there is, for as long as none is shipped.
const SAMPLE: &[u8] = include_bytes!("sample.yaml");

fn at(stream: &mut Stream, count: usize) -> usize {
    let last = i64::try_from(count.max(1) - 1).unwrap();
    usize::try_from(stream.between(0, last)).unwrap()
}

/// Changes a file at one to three places: bytes, lines, or words that are swapped for one another.
fn mutated(bytes: &[u8], stream: &mut Stream) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    for _ in 0..=at(stream, 3) {
        match at(stream, 5) {
            0 => {
                let here = at(stream, bytes.len());
                let count = at(stream, 256);
                bytes[here] = u8::try_from(count).unwrap();
            }
            1 => {
                let (one, other) = (at(stream, bytes.len()), at(stream, bytes.len()));
                bytes.swap(one, other);
            }
            2 => {
                let mut lines: Vec<&[u8]> = bytes.split(|&it| it == b'\n').collect();
                let here = at(stream, lines.len());
                if at(stream, 2) == 0 {
                    lines.remove(here);
                } else {
                    let there = at(stream, lines.len());
                    lines.insert(there, lines[here]);
                }
                bytes = lines.join(&b'\n');
            }
            _ => {
                let text = String::from_utf8_lossy(&bytes).into_owned();
                let words: Vec<&str> = text
                    .split(|it: char| !it.is_alphanumeric() && it != '-')
                    .filter(|it| !it.is_empty())
                    .collect();
                let (one, other) = (
                    words[at(stream, words.len())],
                    words[at(stream, words.len())],
                );
                let places: Vec<usize> = text.match_indices(one).map(|it| it.0).collect();
                let start = places[at(stream, places.len())];
                let mut changed = text[..start].to_owned();
                changed.push_str(other);
                changed.push_str(&text[start + one.len()..]);
                bytes = changed.into_bytes();
            }
        }
        if bytes.is_empty() {
            bytes.push(b'a');
        }
    }
    bytes
}

#[test]
fn mutilated_modules_are_read_and_checked_in_bounded_time() {
    let stages = files_of(&folder("modules/stages"));
    let mut modules: Vec<Vec<u8>> = ["modules/constructions", "modules/groundwork"]
        .iter()
        .flat_map(|it| files_of(&folder(it)))
        .map(|it| it.1)
        .collect();
    modules.push(SAMPLE.to_vec());
    let mut stream = Stream::new(Seed(1), "mutations");
    let mut still_plans = 0;
    for turn in 0..MUTATIONS {
        let mut stages = stages.clone();
        let which = at(&mut stream, modules.len());
        let mut bytes = modules[which].clone();
        if turn % 3 == 0 && !stages.is_empty() {
            let stage = at(&mut stream, stages.len());
            stages[stage].1 = mutated(&stages[stage].1, &mut stream);
        } else {
            bytes = mutated(&bytes, &mut stream);
        }
        let start = Instant::now();
        let (_, report) = complaints(&bytes, &library(&stages));
        let took = start.elapsed();
        assert!(took < PATIENCE, "mutation {turn} took {took:?}");
        still_plans += usize::from(!report.cases.is_empty());
    }
    // If none of them came as far as a plan, the check would never have been tried.
    assert!(still_plans > 10, "{still_plans}");
}

#[test]
fn the_sample_is_sound() {
    let (told, report) = complaints(SAMPLE, &library(&[]));
    assert!(told.is_empty(), "{told:?}\n{:?}", report.problems);
    assert_eq!(report.cases.len(), 4);
    let case = &report.cases[0];
    assert_eq!(case.card, "teeth=2,wash=ultrasonic");
    assert_eq!((case.tasks, case.required), (12, 11));
    assert_eq!(case.critical_path.first().map(String::as_str), Some("wash"));
}
