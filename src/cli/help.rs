//! The parts that every command's help shares, all worded by `text`.

use clap::{Arg, ArgAction, Command};

use crate::app::{Begin, Wish};
use crate::text::Words;

/// A command that is described by the attributes `about`, `usage` and `after` of a message.
///
/// `place` is what it takes by position; it comes first, because the help lists headings in the order of their arguments.
pub(super) fn command(words: &Words, name: &'static str, id: &str, place: Option<Arg>) -> Command {
    let heading = |id: &str| words.say(id, &[]);
    let template = format!(
        "{{about-with-newline}}\n{} {{usage}}\n\n{{all-args}}{{after-help}}\n",
        heading("cli-heading-usage"),
    );
    Command::new(name)
        .about(words.say(&format!("{id}.about"), &[]))
        .override_usage(words.say(&format!("{id}.usage"), &[]))
        .after_help(words.say(&format!("{id}.after"), &[]))
        .help_template(template)
        .max_term_width(80)
        .subcommand_help_heading(heading("cli-heading-commands"))
        .next_help_heading(heading("cli-heading-options"))
        .disable_help_flag(true)
        .disable_help_subcommand(true)
        .disable_version_flag(true)
        .args(place)
        .arg(
            Arg::new("help")
                .short('h')
                .long("help")
                .action(ArgAction::Help)
                .help(words.say("cli-option.help", &[])),
        )
}

/// A command that only holds others.
pub(super) fn group(words: &Words, name: &'static str, id: &str) -> Command {
    command(words, name, id, None)
        .subcommand_required(true)
        .arg_required_else_help(true)
}

/// An argument known by its place. `name` is what stands for it in the usage line.
pub(super) fn place(words: &Words, id: &'static str, name: &'static str, help: &str) -> Arg {
    Arg::new(id)
        .value_name(name)
        .help(words.say(help, &[]))
        .help_heading(words.say("cli-heading-arguments", &[]))
}

/// An option that takes a value.
pub(super) fn option(words: &Words, id: &'static str, value: &'static str, help: &str) -> Arg {
    Arg::new(id)
        .long(id)
        .value_name(value)
        .help(words.say(help, &[]))
        .hide_possible_values(true)
        .hide_default_value(true)
}

/// An option that is there or not.
pub(super) fn flag(words: &Words, id: &'static str, help: &str) -> Arg {
    Arg::new(id)
        .long(id)
        .action(ArgAction::SetTrue)
        .help(words.say(help, &[]))
}

/// `--json`.
pub(super) fn json(words: &Words) -> Arg {
    flag(words, "json", "cli-option.json")
}

/// `--case NAME=VALUE,…`.
pub(super) fn case(words: &Words) -> Arg {
    option(words, "case", "NAME=VALUE,…", "cli-option.case")
        .action(ArgAction::Append)
        .value_delimiter(',')
        .value_parser(choice)
}

/// `--profile NAME|FILE`.
pub(super) fn profile(words: &Words) -> Arg {
    option(words, "profile", "NAME|FILE", "cli-option.profile")
}

/// What the screens take.
pub(super) fn screens(words: &Words) -> impl IntoIterator<Item = Arg> {
    let data = option(words, "data", "DIR", "cli-option.data");
    let data = data.value_parser(clap::value_parser!(std::path::PathBuf));
    std::iter::once(data).chain(look(words))
}

/// How the screens look.
pub(super) fn look(words: &Words) -> [Arg; 2] {
    [
        flag(words, "light", "cli-option.light"),
        flag(words, "ascii", "cli-option.ascii"),
    ]
}

/// What is asked of the screens.
pub(super) fn wish(matches: &clap::ArgMatches, begin: Begin) -> Wish {
    Wish {
        begin,
        // The demonstration has a folder of its own.
        data: matches
            .try_get_one::<std::path::PathBuf>("data")
            .ok()
            .flatten()
            .cloned(),
        light: matches.get_flag("light"),
        ascii: matches.get_flag("ascii"),
    }
}

/// `--version`.
pub(super) fn version(words: &Words) -> Arg {
    Arg::new("version")
        .short('V')
        .long("version")
        .action(ArgAction::Version)
        .help(words.say("cli-option.version", &[]))
}

/// One choice of a case card as typed: name and value.
pub(super) type Choice = (String, String);

/// Reads `teeth=14`. What is wrong is worded by `usage`, so the error says nothing.
fn choice(text: &str) -> Result<Choice, &'static str> {
    match text.split_once('=') {
        Some((name, value)) if !name.trim().is_empty() && !value.trim().is_empty() => {
            Ok((name.trim().to_owned(), value.trim().to_owned()))
        }
        _ => Err(""),
    }
}

/// The choices of `--case` in the order typed.
pub(super) fn choices(matches: &clap::ArgMatches) -> Vec<Choice> {
    matches
        .get_many::<Choice>("case")
        .map(|all| all.cloned().collect())
        .unwrap_or_default()
}

/// Choices as one text: `teeth=14,wash=orbital`.
pub(super) fn spelled(choices: &[Choice]) -> String {
    let all: Vec<String> = choices
        .iter()
        .map(|(name, value)| format!("{name}={value}"))
        .collect();
    all.join(",")
}

/// A text argument, if it was given.
pub(super) fn text(matches: &clap::ArgMatches, id: &str) -> Option<String> {
    matches.get_one::<String>(id).cloned()
}

/// A path argument, if it was given.
pub(super) fn path(matches: &clap::ArgMatches, id: &str) -> Option<std::path::PathBuf> {
    matches.get_one::<std::path::PathBuf>(id).cloned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_choice_has_a_name_and_a_value() {
        assert_eq!(choice(" teeth = 14"), Ok(("teeth".into(), "14".into())));
        for text in ["teeth", "=14", "teeth="] {
            assert!(choice(text).is_err(), "{text}");
        }
    }
}
