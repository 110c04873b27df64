//! Words: every message that the source asks for is there, none is there for nothing, and languages agree.

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;

use super::source::Source;
use super::{files, list};

/// Rooms whose literals are looked at; elsewhere no sentences are named at all.
const WORDING: [&str; 5] = [
    "src/text/",
    "src/cli/",
    "src/tui/",
    "src/report/",
    "src/app/",
];

/// A message or attribute: where it stands and what it takes in.
#[derive(Default)]
struct Sentence {
    file: String,
    variables: BTreeSet<String>,
    refers_to: BTreeSet<String>,
    text: String,
}

/// Sentences by language and then by id (`message` or `message.attribute`), and what could not be read.
fn sentences(
    files: &[(String, String)],
) -> (BTreeMap<String, BTreeMap<String, Sentence>>, Vec<String>) {
    let mut all: BTreeMap<String, BTreeMap<String, Sentence>> = BTreeMap::new();
    let mut faults = Vec::new();
    for (path, text) in files {
        let language = path.split('/').nth(1).unwrap_or_default().to_owned();
        let known = all.entry(language).or_default();
        let resource = match parser::parse(text.as_str()) {
            Ok(resource) => resource,
            Err((resource, errors)) => {
                faults.extend(errors.iter().map(|error| format!("{path}: {error}")));
                resource
            }
        };
        for entry in &resource.body {
            let Entry::Message(message) = entry else {
                continue;
            };
            let id = message.id.name;
            let whole = message.value.iter().map(|pattern| (id.to_owned(), pattern));
            let parts = message
                .attributes
                .iter()
                .map(|attribute| (format!("{id}.{}", attribute.id.name), &attribute.value));
            for (id, pattern) in whole.chain(parts) {
                let mut sentence = Sentence {
                    file: path.clone(),
                    ..Sentence::default()
                };
                read_pattern(pattern, &mut sentence);
                if known.insert(id.clone(), sentence).is_some() {
                    faults.push(format!("{path}: {id} is there twice"));
                }
            }
        }
    }
    (all, faults)
}

fn read_pattern(pattern: &Pattern<&str>, sentence: &mut Sentence) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => sentence.text.push_str(value),
            PatternElement::Placeable { expression } => read_expression(expression, sentence),
        }
    }
}

fn read_expression(expression: &Expression<&str>, sentence: &mut Sentence) {
    match expression {
        Expression::Inline(inline) => read_inline(inline, sentence),
        Expression::Select { selector, variants } => {
            read_inline(selector, sentence);
            for variant in variants {
                read_pattern(&variant.value, sentence);
            }
        }
    }
}

fn read_inline(inline: &InlineExpression<&str>, sentence: &mut Sentence) {
    match inline {
        InlineExpression::VariableReference { id } => {
            sentence.variables.insert(id.name.to_owned());
        }
        InlineExpression::MessageReference { id, attribute } => {
            let attribute = attribute.as_ref().map(|part| format!(".{}", part.name));
            sentence
                .refers_to
                .insert(format!("{}{}", id.name, attribute.unwrap_or_default()));
        }
        InlineExpression::FunctionReference { arguments, .. } => {
            for argument in &arguments.positional {
                read_inline(argument, sentence);
            }
        }
        InlineExpression::Placeable { expression } => read_expression(expression, sentence),
        _ => {}
    }
}

/// Returns the ids that a source file names outside its tests, with the lines.
fn named(path: &str, text: &str, places: &BTreeSet<String>) -> Vec<(usize, String)> {
    let body = text.split("#[cfg(test)]\nmod ").next().unwrap_or(text);
    let source = Source::read(body);
    let wording = WORDING.iter().any(|room| path.starts_with(room));
    source
        .literals
        .iter()
        .filter(|(at, literal)| {
            let before: String = source.code[at.saturating_sub(40)..*at].iter().collect();
            let said = [".say(", ".look_up("]
                .iter()
                .any(|call| before.trim_end().ends_with(call));
            said || wording && is_id(literal, places)
        })
        .map(|(at, literal)| (source.line(*at), literal.clone()))
        .collect()
}

/// Tells `place-thing` and `place-thing.part`, where the place is a file of the locale.
fn is_id(text: &str, places: &BTreeSet<String>) -> bool {
    let Some((place, thing)) = text.split_once('-') else {
        return false;
    };
    places.contains(place)
        && !thing.is_empty()
        && thing
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-' || c == '.')
}

/// What is said in plain lines where this is said on screens; none for what is no such part.
fn in_place_of(id: &str) -> Option<&str> {
    id.strip_suffix("on-screens")?.strip_suffix(['-', '.'])
}

/// Returns what names a command or a rule by its number and has no words of its own for screens.
fn of_plain_lines(locales: &[(String, String)]) -> BTreeSet<String> {
    let (all, _) = sentences(locales);
    let known = &all["en-US"];
    let has_own = |id: &str| {
        let mut parts = known.keys().filter_map(|part| in_place_of(part));
        parts.any(|base| base == id)
    };
    let named = known.iter().filter(|(id, sentence)| {
        let names = [" drybench ", "(rule "];
        let text = format!(" {}", sentence.text);
        names.iter().any(|name| text.contains(name)) && in_place_of(id).is_none()
    });
    let without = named.filter(|(id, _)| !has_own(id));
    without.map(|(id, _)| id.clone()).collect()
}

fn place_of(path: &str) -> &str {
    path.rsplit('/')
        .next()
        .and_then(|name| name.strip_suffix(".ftl"))
        .unwrap_or(path)
}

/// Returns the complaints about the source language and the sources that use it.
fn complaints(locales: &[(String, String)], sources: &[(String, String)]) -> Vec<String> {
    let (all, mut found) = sentences(locales);
    let Some(source_language) = all.get("en-US") else {
        found.push("there is no en-US".to_owned());
        return found;
    };
    let places: BTreeSet<String> = locales
        .iter()
        .map(|(path, _)| place_of(path).to_owned())
        .collect();
    let mut used: BTreeSet<String> = BTreeSet::new();
    for (path, text) in sources {
        for (line, id) in named(path, text, &places) {
            // A message may have nothing but parts; naming it asks for all of them.
            let parts = format!("{id}.");
            let known: Vec<&String> = source_language
                .keys()
                .filter(|known| **known == id || known.starts_with(&parts))
                .collect();
            if known.is_empty() {
                found.push(format!("{path}:{line}: {id} is in no file of en-US"));
            }
            used.extend(known.into_iter().cloned());
        }
    }
    for (id, sentence) in source_language {
        let place = place_of(&sentence.file);
        if !id.starts_with(&format!("{place}-")) {
            found.push(format!(
                "{}: {id} should begin with {place}-",
                sentence.file
            ));
        }
        for other in &sentence.refers_to {
            if !source_language.contains_key(other) {
                found.push(format!(
                    "{}: {id} refers to {other}, which is not there",
                    sentence.file
                ));
            }
            used.insert(other.clone());
        }
    }
    for (id, sentence) in source_language.iter().filter(|(id, _)| !used.contains(*id)) {
        found.push(format!("{}: nothing uses {id}", sentence.file));
    }
    for (id, sentence) in source_language {
        let Some(base) = in_place_of(id) else {
            continue;
        };
        match source_language.get(base) {
            None => found.push(format!("{id} stands in the place of nothing")),
            Some(base) if !sentence.variables.is_subset(&base.variables) => {
                found.push(format!("{id} takes in what is not given in plain lines"));
            }
            Some(_) => {}
        }
    }
    for (language, theirs) in all.iter().filter(|(language, _)| *language != "en-US") {
        for (id, sentence) in theirs {
            match source_language.get(id) {
                None => found.push(format!("{language}: {id} is not in en-US")),
                Some(ours) if ours.variables != sentence.variables => {
                    found.push(format!(
                        "{language}: {id} takes in other things than in en-US"
                    ));
                }
                Some(_) => {}
            }
        }
    }
    found
}

#[test]
fn words_and_sources_agree() {
    let found = complaints(&files("locales", "ftl"), &files("src", "rs"));
    assert!(found.is_empty(), "{}", list(&found));
}

/// What names a command and has no other words on screens: it is said in plain lines alone, or nothing on the screens does the same.
const OF_PLAIN_LINES: [&str; 15] = [
    // In plain lines alone.
    "files-cli-workflow.usage",
    "laboratory-adopted-next",
    "laboratory-founded-next",
    "laboratory-key-then-accept",
    "laboratory-no-sheet.fix",
    "laboratory-nobody.fix",
    "laboratory-not-one-step.fix",
    "laboratory-then-second",
    "watching-countersign",
    // Nothing on the screens does it, so that plain lines are named.
    "debrief-repeat",
    "deeds-key-not-accepted",
    "files-wrong-not-read",
    "screens-too-small",
    "watching-damaged.fix",
    // The program is meant and no command of it.
    "files-repeat",
];

#[test]
fn screens_name_what_is_on_screens() {
    let mut found = of_plain_lines(&files("locales", "ftl"));
    found.retain(|id| !id.starts_with("cli-"));
    let known = OF_PLAIN_LINES.iter().map(|id| (*id).to_owned());
    assert_eq!(found, known.collect());
    let planted = "cli-a = Type drybench board\ncli-b = x\n    .fix = drybench board\n    .fix-on-screens = Press b\n\
        cli-c = y (rule { $r })\n    .fix = z\n    .fix-on-screens = w\n";
    let planted = [("locales/en-US/cli.ftl".to_owned(), planted.to_owned())];
    let expected = ["cli-a", "cli-c"].map(str::to_owned);
    assert_eq!(of_plain_lines(&planted), BTreeSet::from(expected));
}

#[test]
fn planted_disagreements_are_reported() {
    let file = |path: &str, text: &str| (path.to_owned(), text.to_owned());
    let locales = [
        file(
            "locales/en-US/cli.ftl",
            "cli-used = { $a }\n    .on-screens = { $b }\n    .fix-on-screens = x\ncli-idle = x\nodd-name = { cli-gone }\ncli-bad = { $\n",
        ),
        file("locales/de/cli.ftl", "cli-used = { $b }\ncli-more = x\n"),
    ];
    let sources = [
        file(
            "src/cli/mod.rs",
            "fn f() { w.say(\"cli-used\", &[]); g(\"cli-lost\"); w.say(\"odd-name\") }",
        ),
        file("src/bench/mod.rs", "const A: &str = \"cli-elsewhere\";"),
    ];
    let found = complaints(&locales, &sources);
    for expected in [
        "src/cli/mod.rs:1: cli-lost is in no file of en-US",
        "locales/en-US/cli.ftl: nothing uses cli-idle",
        "locales/en-US/cli.ftl: odd-name should begin with cli-",
        "locales/en-US/cli.ftl: odd-name refers to cli-gone, which is not there",
        "de: cli-used takes in other things than in en-US",
        "de: cli-more is not in en-US",
        "cli-used.on-screens takes in what is not given in plain lines",
        "cli-used.fix-on-screens stands in the place of nothing",
    ] {
        assert!(
            found.iter().any(|line| line == expected),
            "{expected}{}",
            list(&found)
        );
    }
    // Those eight and the entry that can not be read.
    assert_eq!(found.len(), 9, "{}", list(&found));
}
