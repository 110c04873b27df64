//! A language whose words are longer by two fifths: everything is still there to be read, on a screen of usual size.

use std::sync::OnceLock;

use drybench::shipped;
use drybench::text::Words;
use drybench::text::wrap::columns;
use drybench::tui::frame::{Piece, Role};
use drybench::tui::ui::Ui;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::{parser, serializer};

use super::front::{drawn, press, seen, words};
use super::hints::bar;
use super::player::boxed;
use super::scenes::{Scene, scenes};
use super::sittings::Workflow;
use crate::support::machine::TestMachine;

/// The tag of the language.
const TAG: &str = "en-XA";

/// Makes the words of a text longer, so that the whole is two fifths longer; what is no word stays.
fn lengthened(text: &str) -> String {
    let is_word = |word: &&str| word.chars().filter(|c| c.is_alphabetic()).count() > 1;
    let words = text.split(' ').filter(is_word).count();
    let mut missing = text.trim().chars().count() * 2 / 5;
    let mut left = words;
    let longer = text.split(' ').map(|word| {
        if !is_word(&word) {
            return word.to_owned();
        }
        let more = missing.div_ceil(left);
        missing -= more;
        left -= 1;
        // Behind the last letter, so that signs at the end of a word stay there.
        let (at, last) = word
            .char_indices()
            .rfind(|(_, c)| c.is_alphabetic())
            .unwrap();
        let (head, tail) = word.split_at(at + last.len_utf8());
        format!(
            "{head}{}{tail}",
            last.to_lowercase().to_string().repeat(more)
        )
    });
    longer.collect::<Vec<String>>().join(" ")
}

fn lengthen(pattern: &mut Pattern<String>) {
    for element in &mut pattern.elements {
        match element {
            PatternElement::TextElement { value } => *value = lengthened(value),
            PatternElement::Placeable { expression } => match expression {
                Expression::Select { variants, .. } => {
                    for variant in variants {
                        lengthen(&mut variant.value);
                    }
                }
                Expression::Inline(InlineExpression::Placeable { .. } | _) => {}
            },
        }
    }
}

/// The files of the made-up language, beside the shipped ones.
fn files() -> &'static [(String, String)] {
    static FILES: OnceLock<Vec<(String, String)>> = OnceLock::new();
    FILES.get_or_init(|| {
        let mut all = Vec::new();
        for (path, text) in shipped::locales() {
            all.push(((*path).to_owned(), (*text).to_owned()));
            let Some(name) = path.strip_prefix("locales/en-US/") else {
                continue;
            };
            let mut resource = parser::parse((*text).to_owned()).unwrap();
            for entry in &mut resource.body {
                if let Entry::Message(message) = entry {
                    message.value.iter_mut().for_each(lengthen);
                    let attributes = message.attributes.iter_mut();
                    attributes.for_each(|one| lengthen(&mut one.value));
                }
            }
            all.push((
                format!("locales/{TAG}/{name}"),
                serializer::serialize(&resource),
            ));
        }
        all
    })
}

fn longer() -> Words {
    let files = files().iter();
    let files: Vec<(&str, &str)> = files
        .map(|(path, text)| (path.as_str(), text.as_str()))
        .collect();
    Words::new(TAG, &files)
}

fn opened(scene: &Scene) -> Ui<TestMachine> {
    scene.opened(longer(), (80, 24))
}

#[test]
fn the_words_are_longer_by_two_fifths_and_nothing_else_has_changed() {
    let (longer, shipped) = (longer(), Words::shipped("en-US"));
    assert_eq!(longer.language(), TAG);
    for id in [
        "screens-start-about",
        "screens-key-quit",
        "caution-others-come-first.short",
    ] {
        let (long, short) = (longer.say(id, &[]), shipped.say(id, &[]));
        let wanted = columns(&short) * 7 / 5;
        let found = columns(&long);
        assert!(
            (wanted..=wanted + 3).contains(&found),
            "{found} for {wanted}: {long}"
        );
    }
    let count = [("count", 3_usize.into())];
    let text = longer.say("rehearsal-resumed", &count);
    assert!(text.contains(" 3 "), "{text}");
}

/// Texts of modules that may be cut, since the whole of them stands elsewhere.
fn is_whole_elsewhere(piece: &Piece) -> bool {
    // The list of the first screen and the contents of a read-through: beside them or one key on stands the whole title. The
    // list of places: the bench names the place again with every move that is looked for.
    let text = piece
        .text
        .trim_end_matches([' ', '…'])
        .trim_start_matches(['▸', ' ']);
    let text = text.trim_start_matches(|c: char| c.is_ascii_digit() || c == ' ');
    let text = match text.split_once(' ') {
        Some((letter, rest)) if letter.len() == 1 => rest,
        _ => text,
    };
    Workflow::ALL.iter().any(|workflow| {
        let module = &workflow.taken().module;
        let mut titles = module
            .steps
            .iter()
            .map(|one| &one.title)
            .chain(module.stations.iter().map(|one| &one.title))
            .chain([&module.identity.title]);
        titles.any(|title| title.starts_with(text))
    })
}

/// Texts that were cut at the end of their row.
fn cut(ui: &Ui<TestMachine>) -> Vec<String> {
    let frame = ui.frame();
    let roles = [
        Role::Plain,
        Role::Faint,
        Role::Strong,
        Role::Bar,
        Role::Key,
        Role::Chosen,
        Role::Caution,
        Role::Rule,
        Role::Field,
    ];
    let pieces = roles.into_iter().flat_map(|role| seen(&frame, role));
    let cut = pieces.filter(|one| {
        let text = one.text.trim_end();
        // The sign that stands for a clock while somebody counts is no cut.
        text.ends_with('…') && text != "…" && !is_whole_elsewhere(one)
    });
    cut.map(|one| one.text).collect()
}

/// Where more text is said to follow.
fn more(ui: &Ui<TestMachine>) -> Vec<(usize, usize)> {
    let keys = seen(&ui.frame(), Role::Key);
    let more = keys.iter().filter(|one| one.text == "▼");
    more.map(|one| (one.x, one.y)).collect()
}

#[test]
fn nothing_is_cut_that_cannot_be_read_elsewhere() {
    let mut found = Vec::new();
    for scene in scenes() {
        let mut ui = opened(&scene);
        for (wide, tall) in [(80, 24), (120, 40)] {
            ui.resize(wide, tall);
            for text in cut(&ui) {
                found.push(format!("{} at {wide}x{tall}: {text}", scene.name));
            }
        }
    }
    assert!(
        found.is_empty(),
        "{} cuts:\n{}",
        found.len(),
        found.join("\n")
    );
}

#[test]
fn what_goes_on_below_can_be_reached() {
    let mut found = Vec::new();
    for scene in scenes() {
        // What lies over a screen, the contents and what is typed take the keys; the text under them is not scrolled.
        if scene.is_covered()
            || ["reading-contents", "reading-search"].contains(&scene.name.as_str())
        {
            continue;
        }
        for (wide, tall) in [(80, 24), (120, 40)] {
            let mut ui = opened(&scene);
            ui.resize(wide, tall);
            // What is seen at the bench has a column of its own on a wide screen; all of it stands under "Look at everything".
            // Under a box the bench is not scrolled: the box has to be answered first.
            let is_over = boxed(&drawn(&ui.frame())).is_some();
            let beside = |x: usize| scene.is_rehearsal() && (is_over || x > 86 && wide == 120);
            let inside = |(x, _): &(usize, usize)| !beside(*x);
            let goes_on = |ui: &Ui<TestMachine>| more(ui).iter().any(inside);
            // Texts are scrolled; lists are followed to their last row.
            for keys in ["<pgdn*25>", "<down*60>"] {
                if goes_on(&ui) {
                    press(&mut ui, keys);
                }
            }
            if goes_on(&ui) {
                let text = drawn(&ui.frame());
                found.push(format!("{} at {wide}x{tall}:\n{text}", scene.name));
            }
        }
    }
    assert!(
        found.is_empty(),
        "{} unreachable:\n{}",
        found.len(),
        found.join("\n")
    );
}

#[test]
fn every_key_that_does_not_fit_at_the_bottom_stands_in_the_help() {
    let mut left_out = 0;
    for scene in scenes() {
        // Something has to be read first there, or help is open already.
        if scene.is_covered() {
            continue;
        }
        let mut ui = opened(&scene);
        let here = bar(&ui);
        ui.resize(400, 24);
        let all = bar(&ui);
        ui.resize(80, 24);
        press(&mut ui, "<f1>");
        let mut help = Vec::new();
        for _ in 0..6 {
            let pieces = seen(&ui.frame(), Role::Plain);
            help.extend(pieces.into_iter().map(|one| one.text));
            press(&mut ui, "<pgdn>");
        }
        for (key, says) in all.iter().filter(|one| !here.contains(one)) {
            left_out += 1;
            // The key begins a row; what it does follows at length.
            let begins = format!("{key}  ");
            assert!(
                help.iter().any(|row| row.starts_with(&begins)),
                "{}: {key} {says} is not in {help:#?}",
                scene.name
            );
        }
    }
    assert!(left_out > 50, "{left_out}");
}

#[test]
fn everything_that_is_asked_is_asked_whole() {
    let module = &Workflow::StockTeeth.taken().module;
    let mut asked = 0;
    for scene in scenes() {
        let ways = scene.name.ends_with("-way");
        let answers =
            ["bench-disturbance", "bench-disturbance-unaided"].contains(&scene.name.as_str());
        if !ways && !answers {
            continue;
        }
        let mut ui = opened(&scene);
        for (wide, tall) in [(80, 24), (120, 40), (60, 20)] {
            ui.resize(wide, tall);
            let (_, inside) = boxed(&drawn(&ui.frame())).unwrap();
            let holds = |title: &str| inside.contains(&words(title));
            let whole = if ways {
                let mut all = module.steps.iter().flat_map(|step| &step.ways);
                all.any(|way| holds(&way.title) && way.options.iter().all(|one| holds(&one.title)))
            } else {
                let mut all = module.disturbances.iter();
                all.any(|one| holds(&one.seen) && one.responses.iter().all(|one| holds(&one.title)))
            };
            assert!(whole, "{} at {wide}x{tall}: {inside}", scene.name);
            asked += 1;
        }
    }
    assert!(asked >= 15, "{asked}");
}
