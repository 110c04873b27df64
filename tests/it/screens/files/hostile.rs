//! Names that nobody means well, sizes that nobody has, keys in any order.

use drybench::app::laboratory::Place as _;
use drybench::people::{NameVersion, Salt};
use drybench::rng::{Seed, Stream};

use super::{First, called, desk, machine, opened};
use crate::screens::front::press;
use crate::screens::hostile_modules::blemish;
use crate::screens::places::some_size;
use crate::support::hostile_text::hostile;
use crate::support::machine::TestMachine;

const FIRSTS: [First; 5] = [
    First::Matrix,
    First::Person("a"),
    First::Workflows,
    First::Entries,
    First::Verifying,
];

const KEYS: [&str; 41] = [
    "<up>",
    "<down>",
    "<left>",
    "<right>",
    "<pgup>",
    "<pgdn>",
    "<home>",
    "<end>",
    "<tab>",
    "<shift-tab>",
    "<enter>",
    "<enter>",
    "<esc>",
    "<tick>",
    "<tick>",
    "<space>",
    "<backspace>",
    "[",
    "]",
    "{",
    "}",
    "t",
    "r",
    "d",
    "b",
    "/",
    "n",
    "l",
    "e",
    "w",
    "p",
    "k",
    "a",
    "1",
    "9",
    "?",
    "<f1>",
    "<ctrl-g>",
    "d2026-03-31<enter>",
    "/ti<enter>",
    "<down*7>",
];

/// Everybody gets a name that is hard to print.
fn rename(machine: &TestMachine, stream: &mut Stream) {
    let mut desk = desk(machine);
    let (house, _) = desk.office().unwrap();
    let people: Vec<_> = house.laboratory.ledger().people().collect();
    let since = house.laboratory.now().instant();
    let mut register = house.laboratory.register().unwrap();
    for (number, code) in people.into_iter().enumerate() {
        let name = loop {
            let text = match number % 3 {
                0 => format!("a{}", hostile(stream)),
                1 => "歯科技工".repeat(9),
                _ => format!("a{}", "e\u{301}".repeat(28)),
            };
            if let Ok(name) = text.parse() {
                break name;
            }
        };
        let version = NameVersion {
            name,
            salt: Salt([7; 32]),
            since,
        };
        // Who was erased keeps no name.
        let _erased = register.rename(code, version);
    }
    let place = house.laboratory.place_mut();
    assert!(place.keep_register(&register).is_ok());
}

#[test]
fn any_keys_at_any_size_with_any_names_do_no_harm() {
    let mut pictures = 0;
    for seed in 0..6 {
        let mut stream = Stream::new(Seed(seed), "any files");
        let machine = machine();
        rename(&machine, &mut stream);
        for first in FIRSTS {
            let mut ui = opened(&machine, first);
            for _ in 0..25 {
                let (wide, tall) = some_size(&mut stream);
                ui.resize(wide, tall);
                let mut pressed = String::new();
                for _ in 0..8 {
                    let last = i64::try_from(KEYS.len()).unwrap() - 1;
                    let key = KEYS[usize::try_from(stream.between(0, last)).unwrap()];
                    pressed += key;
                    if !press(&mut ui, key) {
                        ui = opened(&machine, first);
                        ui.resize(wide, tall);
                    }
                }
                let wrong = blemish(&ui.frame());
                assert_eq!(
                    wrong, None,
                    "seed {seed}, {first:?}, {wide}x{tall}, {pressed}"
                );
                pictures += 1;
            }
        }
    }
    assert_eq!(pictures, 750);
}

#[test]
fn a_name_is_found_by_a_part_of_it_or_of_the_code() {
    let machine = machine();
    let mut desk = desk(&machine);
    let code = called(&mut desk, "Inti").to_string();
    for sought in ["int", "INTI", &code, &code.to_lowercase()[2..]] {
        let mut ui = opened(&machine, First::Matrix);
        assert!(press(&mut ui, &format!("<tick>/{sought}<enter>")));
        let text = crate::screens::front::drawn(&ui.frame());
        assert!(text.contains("1 person"), "{sought}: {text}");
        assert!(text.contains(&code), "{sought}: {text}");
    }
}
