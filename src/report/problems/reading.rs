//! Words for what keeps a file from being read.

use super::{Told, known, meant, told, with_fix};
use crate::syllabus::read::{Fault, Feature, Form, Kind, Shape, SyntaxFault};
use crate::text::{Value, Words};
use crate::units::UnitProblem;

/// Words a fault of a file.
#[must_use]
pub fn fault(fault: &Fault, words: &Words) -> Told {
    let say = |id: &str, values: &[(&str, Value)]| told(words, id, values);
    match fault {
        Fault::TooLarge { most } => say("problems-too-large", &[("most", (*most).into())]),
        Fault::NotUtf8 { byte } => say(
            "problems-not-utf8",
            &[("byte", format!("{byte:02X}").into())],
        ),
        Fault::ControlCharacter(c) => {
            let code = format!("U+{:04X}", u32::from(*c));
            say("problems-control-character", &[("code", code.into())])
        }
        Fault::Syntax(syntax) => syntax_fault(*syntax, words),
        Fault::TooDeep { most } => say("problems-too-deep", &[("most", (*most).into())]),
        Fault::TooMany { most } => say("problems-too-many", &[("most", (*most).into())]),
        Fault::NotUsed(feature) => match feature {
            Feature::Anchor => say("problems-not-used-anchor", &[]),
            Feature::Alias => say("problems-not-used-alias", &[]),
            Feature::Tag => say("problems-not-used-tag", &[]),
            Feature::MergeKey => say("problems-not-used-merge-key", &[]),
            Feature::Directive => say("problems-not-used-directive", &[]),
            Feature::SecondDocument => say("problems-not-used-second-document", &[]),
        },
        Fault::KeyIsNoText => say("problems-key-is-no-text", &[]),
        Fault::DuplicateKey { key, first } => say(
            "problems-duplicate-key",
            &[
                ("key", key.as_str().into()),
                ("line", first.line.to_string().into()),
            ],
        ),
        Fault::UnknownKey {
            found,
            suggestion,
            known: all,
        } => {
            let it = say("problems-unknown-key", &[("found", found.as_str().into())]);
            let fix = meant(words, suggestion.as_ref()).or(Some(known(words, all)));
            with_fix(it, fix)
        }
        Fault::MissingKey { key } => say("problems-missing-key", &[("key", (*key).into())]),
        Fault::OneKeyOf { known: all, found } => {
            let it = say("problems-one-key-of", &[("count", (*found).into())]);
            with_fix(it, Some(known(words, all)))
        }
        Fault::WrongShape { found, expected } => {
            let expected: Vec<String> = expected.iter().map(|one| shape(*one, words)).collect();
            say(
                "problems-wrong-shape",
                &[
                    ("found", shape(*found, words).into()),
                    ("expected", expected.into()),
                ],
            )
        }
        Fault::UnknownWord {
            found,
            suggestion,
            known: all,
        } => {
            let it = say("problems-unknown-word", &[("found", found.as_str().into())]);
            let fix = meant(words, suggestion.as_ref()).or(Some(known(words, all)));
            with_fix(it, fix)
        }
        Fault::WordNeedsMore { word } => {
            say("problems-word-needs-more", &[("word", (*word).into())])
        }
        Fault::WordStandsAlone { word } => {
            say("problems-word-stands-alone", &[("word", (*word).into())])
        }
        Fault::NoQuantity { found, kind, why } => {
            let values = [
                ("found", found.as_str().into()),
                ("kind", quantity(*kind, words).into()),
            ];
            with_fix(
                say("problems-no-quantity", &values),
                Some(unit_problem(why, words)),
            )
        }
        Fault::WrongForm { found, expected } => {
            let it = say("problems-wrong-form", &[("found", found.as_str().into())]);
            with_fix(it, Some(form(*expected, words)))
        }
        Fault::OutOfRange { found, least, most } => say(
            "problems-out-of-range",
            &[
                ("found", found.as_str().into()),
                ("least", least.as_str().into()),
                ("most", most.as_str().into()),
            ],
        ),
        Fault::UnknownStage { found, suggestion } => {
            let it = say(
                "problems-unknown-stage",
                &[("found", found.as_str().into())],
            );
            with_fix(it, meant(words, suggestion.as_ref()))
        }
        Fault::StageNamedOtherwise { found, expected } => say(
            "problems-stage-named-otherwise",
            &[
                ("found", found.as_str().into()),
                ("expected", expected.as_str().into()),
            ],
        ),
        Fault::StageTwice => say("problems-stage-twice", &[]),
        Fault::UnknownStageStep { found, suggestion } => {
            let it = say(
                "problems-unknown-stage-step",
                &[("found", found.as_str().into())],
            );
            with_fix(it, meant(words, suggestion.as_ref()))
        }
        Fault::Nothing => say("problems-nothing", &[]),
        Fault::Refused => say("problems-refused", &[]),
    }
}

fn syntax_fault(fault: SyntaxFault, words: &Words) -> Told {
    let say = |id: &str, values: &[(&str, Value)]| told(words, id, values);
    let sign = |c: char| Value::from(c.to_string());
    match fault {
        SyntaxFault::Tab => say("problems-syntax-tab", &[]),
        SyntaxFault::Indentation => say("problems-syntax-indentation", &[]),
        SyntaxFault::BracketOpen(open) => {
            say("problems-syntax-bracket-open", &[("open", sign(open))])
        }
        SyntaxFault::BracketMismatch { open, close } => say(
            "problems-syntax-bracket-mismatch",
            &[("open", sign(open)), ("close", sign(close))],
        ),
        SyntaxFault::BracketStray => say("problems-syntax-bracket-stray", &[]),
        SyntaxFault::QuoteOpen => say("problems-syntax-quote-open", &[]),
        SyntaxFault::AfterQuote => say("problems-syntax-after-quote", &[]),
        SyntaxFault::Escape => say("problems-syntax-escape", &[]),
        SyntaxFault::NoColon => say("problems-syntax-no-colon", &[]),
        SyntaxFault::StrayColon => say("problems-syntax-stray-colon", &[]),
        SyntaxFault::NoComma => say("problems-syntax-no-comma", &[]),
        SyntaxFault::Dash => say("problems-syntax-dash", &[]),
        SyntaxFault::Reserved(c) => say("problems-syntax-reserved", &[("sign", sign(c))]),
        SyntaxFault::Comment => say("problems-syntax-comment", &[]),
        SyntaxFault::BlockText => say("problems-syntax-block-text", &[]),
        SyntaxFault::End => say("problems-syntax-end", &[]),
        SyntaxFault::Other => say("problems-syntax-other", &[]),
    }
}

/// Words why a text is no quantity.
#[must_use]
pub fn unit_problem(problem: &UnitProblem, words: &Words) -> String {
    match problem {
        UnitProblem::NoNumber => words.say("problems-unit-no-number", &[]),
        UnitProblem::NoUnit(units) => {
            words.say("problems-unit-no-unit", &[("known", (*units).into())])
        }
        UnitProblem::UnknownUnit { found, known } => words.say(
            "problems-unit-unknown",
            &[("found", found.as_str().into()), ("known", (*known).into())],
        ),
        UnitProblem::TooFine => words.say("problems-unit-too-fine", &[]),
        UnitProblem::TooLarge => words.say("problems-unit-too-large", &[]),
    }
}

fn shape(shape: Shape, words: &Words) -> String {
    words.say(
        match shape {
            Shape::Empty => "problems-shape-empty",
            Shape::Scalar => "problems-shape-scalar",
            Shape::List => "problems-shape-list",
            Shape::Map => "problems-shape-map",
        },
        &[],
    )
}

fn quantity(kind: Kind, words: &Words) -> String {
    words.say(
        match kind {
            Kind::Duration => "problems-kind-duration",
            Kind::Temperature => "problems-kind-temperature",
            Kind::Length => "problems-kind-length",
            Kind::Volume => "problems-kind-volume",
            Kind::Mass => "problems-kind-mass",
            Kind::Irradiance => "problems-kind-irradiance",
            Kind::Dose => "problems-kind-dose",
            Kind::Share => "problems-kind-share",
            Kind::Rate => "problems-kind-rate",
            Kind::Chance => "problems-kind-chance",
        },
        &[],
    )
}

fn form(form: Form, words: &Words) -> String {
    words.say(
        match form {
            Form::Name => "problems-form-name",
            Form::WholeNumber => "problems-form-whole-number",
            Form::Date => "problems-form-date",
            Form::Language => "problems-form-language",
            Form::Origin => "problems-form-origin",
            Form::CalendarSpan => "problems-form-calendar-span",
        },
        &[],
    )
}
