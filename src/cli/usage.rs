//! Answers a command line that asks for help or is wrong. The words are ours, not those of the argument reader.

use clap::error::{ContextKind, ContextValue, ErrorKind};

use super::failure::{Ended, Failure};
use super::out::Out;
use crate::app::shelf::Shelf;
use crate::text::Words;

/// Prints the help asked for on the stream of results, or what is wrong on the stream of messages.
pub(super) fn answer(error: &clap::Error, words: &Words, out: &mut Out) -> Result<Ended, Failure> {
    match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => {
            out.line(error.render().to_string().trim_end())?;
            Ok(Ended::Done)
        }
        ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => {
            out.message(error.render().to_string().trim_end())?;
            Ok(Ended::WrongUsage)
        }
        _ => {
            out.message(&complaint(error, words))?;
            if let Some(similar) = similar(error) {
                out.message(&words.say("cli-hint-similar", &[("similar", similar.into())]))?;
            }
            if let Some(known) = known(error) {
                let known = words.say("cli-known", &[("known", known.into())]);
                out.message(&words.say("cli-hint", &[("fix", known.into())]))?;
            }
            out.message(&words.say("cli-hint-help", &[]))?;
            Ok(Ended::WrongUsage)
        }
    }
}

fn complaint(error: &clap::Error, words: &Words) -> String {
    let found = |kind| context(error, kind).unwrap_or_default();
    let argument = found(ContextKind::InvalidArg);
    match error.kind() {
        ErrorKind::UnknownArgument => {
            words.say("cli-wrong-unknown-option", &[("argument", argument.into())])
        }
        ErrorKind::InvalidSubcommand => words.say(
            "cli-wrong-unknown-command",
            &[("command", found(ContextKind::InvalidSubcommand).into())],
        ),
        ErrorKind::InvalidValue | ErrorKind::ValueValidation => {
            let value = found(ContextKind::InvalidValue);
            if value.is_empty() {
                words.say("cli-wrong-no-value", &[("argument", argument.into())])
            } else {
                words.say(
                    "cli-wrong-value",
                    &[("argument", argument.into()), ("value", value.into())],
                )
            }
        }
        ErrorKind::MissingRequiredArgument => {
            words.say("cli-wrong-missing", &[("arguments", argument.into())])
        }
        ErrorKind::MissingSubcommand => words.say("cli-wrong-no-command", &[]),
        ErrorKind::ArgumentConflict => words.say(
            "cli-wrong-together",
            &[
                ("argument", argument.into()),
                ("other", found(ContextKind::PriorArg).into()),
            ],
        ),
        ErrorKind::InvalidUtf8 => words.say("cli-wrong-no-text", &[]),
        _ => words.say("cli-wrong-otherwise", &[]),
    }
}

/// What could have stood there instead: the values of an argument, or the modules where one has to be named.
fn known(error: &clap::Error) -> Option<Vec<String>> {
    if let Some(ContextValue::Strings(values)) = error.get(ContextKind::ValidValue)
        && !values.is_empty()
    {
        return Some(values.clone());
    }
    let names_no_module = error.kind() == ErrorKind::MissingRequiredArgument
        && context(error, ContextKind::InvalidArg).is_some_and(|one| one == "<ID>");
    names_no_module.then(|| Shelf::shipped().modules())
}

fn similar(error: &clap::Error) -> Option<String> {
    [
        ContextKind::SuggestedArg,
        ContextKind::SuggestedSubcommand,
        ContextKind::SuggestedValue,
    ]
    .into_iter()
    .find_map(|kind| context(error, kind))
}

/// What the argument reader remembers about the error.
fn context(error: &clap::Error, kind: ContextKind) -> Option<String> {
    match error.get(kind)? {
        ContextValue::String(text) => Some(text.clone()),
        // The closest one comes last.
        ContextValue::Strings(texts) => texts.last().cloned(),
        _ => None,
    }
}
