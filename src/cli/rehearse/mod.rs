//! `drybench rehearse`: one simulated run in plain lines, from the keyboard, a script, or a saved run.

use std::path::PathBuf;

use clap::{ArgMatches, Command, value_parser};

mod dialog;

use super::failure::{Ended, Failure};
use super::files;
use super::help::{self, Choice};
use super::office::{self, Office};
use super::out::Out;
use super::page;
use crate::app::System;
use crate::app::keep::{BrokenOff, Drawer, Keeper};
use crate::app::rehearse::{Disturbances, Request, Session, read_run, whole_lines};
use crate::app::shelf::Shelf;
use crate::rehearsal::action::Help;
use crate::rehearsal::replay::Replayed;
use crate::report::json::debrief_json;
use crate::report::record::id_of;
use crate::report::{Running, debrief};
use crate::rng::Seed;
use crate::text::Words;
use crate::units::PersonCode;
use dialog::{Dialog, Left, Lines, WIDTH};

/// How much is said during a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// Every next step is named and explained.
    Guided,
    /// Help comes when asked for or after a miss.
    Prompted,
    /// No help.
    Unaided,
}

/// Where the actions come from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Actions {
    /// From the keyboard.
    Keyboard,
    /// From a script of plain lines.
    Script(PathBuf),
    /// From a saved run, which is graded again.
    Replay(PathBuf),
    /// From the journal of a run that broke off, then from the keyboard.
    Resume,
}

/// What to rehearse.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rehearse {
    /// Id of the module.
    pub id: String,
    /// How much is said.
    pub level: Level,
    /// The seed; none: a fresh one, which is printed.
    pub seed: Option<u32>,
    /// Choices of the case card; what is left out is drawn.
    pub case: Vec<Choice>,
    /// Name or file of the process profile.
    pub profile: Option<String>,
    /// Which disturbances come.
    pub disturbances: Disturbances,
    /// Where the actions come from.
    pub actions: Actions,
    /// The folder for data, if not the system's.
    pub data: Option<PathBuf>,
    /// Whether a machine reads the debrief.
    pub json: bool,
}

/// Says what the command takes.
pub(super) fn command(words: &Words) -> Command {
    let option = |id, value, help: &str| help::option(words, id, value, help);
    let id = help::place(words, "id", "ID", "cli-option.id").required(true);
    help::command(words, "rehearse", "cli-rehearse", Some(id))
        .arg(
            option("level", "LEVEL", "cli-rehearse.level")
                .value_parser(["guided", "prompted", "unaided"])
                .default_value("guided"),
        )
        .arg(option("seed", "N", "cli-rehearse.seed").value_parser(value_parser!(u32)))
        .arg(help::case(words))
        .arg(help::profile(words))
        .arg(
            option("disturbances", "NAME,…", "cli-rehearse.disturbances")
                .value_delimiter(',')
                .default_value("drawn"),
        )
        .arg(
            option("script", "FILE", "cli-rehearse.script")
                .value_parser(value_parser!(PathBuf))
                .conflicts_with_all(["replay", "resume"]),
        )
        .arg(
            option("replay", "FILE", "cli-rehearse.replay")
                .value_parser(value_parser!(PathBuf))
                .conflicts_with("resume"),
        )
        .arg(help::flag(words, "resume", "cli-rehearse.resume"))
        .arg(option("data", "DIR", "cli-option.data").value_parser(value_parser!(PathBuf)))
        .arg(
            // What stands in a file can be run by anybody, and is nobody's practice.
            option("as", "PERSON", "cli-rehearse.as").conflicts_with_all(["script", "replay"]),
        )
        .arg(office::passphrase_fd(words).requires("as"))
        .arg(help::json(words))
}

impl From<&ArgMatches> for Rehearse {
    fn from(matches: &ArgMatches) -> Rehearse {
        let names: Vec<String> = matches
            .get_many::<String>("disturbances")
            .map(|all| all.cloned().collect())
            .unwrap_or_default();
        let only: Vec<&str> = names.iter().map(String::as_str).collect();
        Rehearse {
            id: help::text(matches, "id").unwrap_or_default(),
            level: match help::text(matches, "level").as_deref() {
                Some("unaided") => Level::Unaided,
                Some("prompted") => Level::Prompted,
                _ => Level::Guided,
            },
            seed: matches.get_one::<u32>("seed").copied(),
            case: help::choices(matches),
            profile: help::text(matches, "profile"),
            disturbances: match only.as_slice() {
                [] | ["drawn"] => Disturbances::Drawn,
                ["none"] => Disturbances::None,
                _ => Disturbances::Named(names),
            },
            actions: if let Some(script) = help::path(matches, "script") {
                Actions::Script(script)
            } else if let Some(saved) = help::path(matches, "replay") {
                Actions::Replay(saved)
            } else if matches.get_flag("resume") {
                Actions::Resume
            } else {
                Actions::Keyboard
            },
            data: help::path(matches, "data"),
            json: matches.get_flag("json"),
        }
    }
}

/// A script or a saved run may be this long, in bytes.
const TEXT_MOST: u64 = 16 * 1024 * 1024;

/// Runs, grades and prints the debrief.
pub(super) fn run<S: System>(
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let rehearse = &Rehearse::from(matches);
    let signed_in = sign_in(matches, system, words, out)?;
    // A person who no longer reads no longer types; what stands in a file is worked through and graded.
    if matches!(rehearse.actions, Actions::Script(_) | Actions::Replay(_)) {
        out.go_on_unread();
    }
    let mut shelf = Shelf::shipped();
    let data = rehearse.data.as_deref();
    let of_file = matches!(rehearse.actions, Actions::Script(_) | Actions::Replay(_));
    let id = if of_file && data.is_none() {
        // What a file says comes out alike on every machine, unless a folder is named.
        files::module(&mut shelf, &rehearse.id, system)?
    } else {
        files::module_of(&mut shelf, &rehearse.id, data, system)?
    };
    let profile = files::profile(&mut shelf, rehearse.profile.as_deref(), system)?;
    if let Some(name) = &profile {
        files::own_profile(&mut shelf, name, data, system);
    }
    let drawer = Drawer {
        data: rehearse.data.as_deref(),
        person: signed_in.as_ref().map(|(_, person)| *person),
    };
    let help = match rehearse.level {
        Level::Guided => Help::Guided,
        Level::Prompted => Help::Prompted,
        Level::Unaided => Help::Unaided,
    };
    let case = help::spelled(&rehearse.case);
    let request = Request {
        module: &id,
        profile: profile.as_deref(),
        case: &case,
        seed: rehearse.seed.map_or_else(|| system.fresh_seed(), Seed),
        help,
        disturbances: rehearse.disturbances.clone(),
    };
    let fresh = |shelf: &Shelf| Session::start(shelf, &request).map_err(Failure::Start);
    let of_saved_run = matches!(rehearse.actions, Actions::Replay(_) | Actions::Resume);
    // A file of a profile is laid on the shelf for the run to find it there.
    let of_profile = rehearse.profile.as_deref();
    let named = of_profile.is_some_and(|named| !files::is_path(named));
    let chosen = rehearse.seed.is_some() || !rehearse.case.is_empty() || named;
    if of_saved_run && chosen {
        out.message(&words.say("rehearsal-of-saved-run", &[]))?;
    }
    let mut told = Vec::new();
    let (mut session, keeper, lines) = match &rehearse.actions {
        Actions::Replay(path) => {
            let text = text(system, path)?;
            let (whole, torn) = whole_lines(&text);
            let run = read_run(whole).map_err(Failure::Saved)?;
            if run.module != id {
                return Err(Failure::OtherRun {
                    found: run.module,
                    wanted: id,
                });
            }
            if torn {
                out.message(&words.say("rehearsal-torn-replay", &[]))?;
            }
            // Its numbers are those it was made under, or it is not replayed: so it comes out alike all the same.
            files::own_profile(&mut shelf, &run.profile, data, system);
            let session = Session::resume(&shelf, run).map_err(Failure::Saved)?;
            let replayed = session.debrief().map_err(Failure::Replay)?;
            return debriefed(&session, &replayed, rehearse.json, system, words, out);
        }
        Actions::Resume => {
            let Some(BrokenOff {
                keeper,
                run,
                torn,
                passed_over,
            }) = Keeper::latest(system, drawer, &id)?
            else {
                return Err(Failure::NothingToResume(id));
            };
            if let Some(problem) = passed_over {
                let _earlier_one_goes_on = Failure::from(problem).tell(words, out);
                out.message(&words.say("rehearsal-passed-over", &[]))?;
            }
            told.push(words.say("rehearsal-resumed", &[("count", run.actions.len().into())]));
            if torn {
                told.push(words.say("rehearsal-torn", &[]));
            }
            let session = Session::resume(&shelf, run).map_err(|problem| match keeper.path() {
                Some(path) => Failure::Kept(files::shown(path), problem),
                None => Failure::Saved(problem),
            })?;
            (session, keeper, Lines::Input)
        }
        Actions::Keyboard => {
            let session = fresh(&shelf)?;
            let keeper = Keeper::start(system, drawer, session.run())?;
            (session, keeper, Lines::Input)
        }
        Actions::Script(path) => {
            let lines: Vec<String> = text(system, path)?.lines().map(str::to_owned).collect();
            let session = fresh(&shelf)?;
            // A script can be run again at any time; it is kept where a folder is named.
            let keeper = match drawer.data {
                Some(_) => Keeper::start(system, drawer, session.run())?,
                None => Keeper::nothing(),
            };
            (session, keeper, Lines::Script(lines.into_iter(), 0))
        }
    };
    if let Some(path) = keeper.path() {
        let path = ("path", files::shown(path).into());
        told.push(words.say("rehearsal-kept", &[path]));
    }
    let opening = Running::new(session.rehearsal(), words).opening(session.run().seed.0);
    let mut dialog = Dialog {
        session: &mut session,
        keeper,
        level: rehearse.level,
        lines,
        system,
        words,
        out,
        quiet: rehearse.json,
        guided: Vec::new(),
    };
    let opened = opening
        .iter()
        .chain(&told)
        .try_for_each(|line| dialog.print(line));
    let left = opened.and_then(|()| dialog.run());
    out.go_on_unread();
    let left = match left {
        // Nobody was there to the end, so it is not clean; the run is kept.
        Err(Failure::Closed) => return Ok(Ended::WithFindings),
        Err(failure) => return Err(failure),
        Ok(left) => left,
    };
    match left {
        Left::Over => {}
        Left::LinesEnded => {
            let ended = words.say("rehearsal-no-finish", &[]);
            out.message(&ended)?;
        }
        Left::BadLine => return Ok(Ended::WrongUsage),
    }
    if !rehearse.json {
        out.line("")?;
    }
    let replayed = session.debrief().map_err(Failure::Replay)?;
    if let Some((mut office, person)) = signed_in {
        match office.laboratory.rehearsed(
            person,
            session.taken(),
            session.run(),
            replayed.graded.clean,
        ) {
            Ok(done) => {
                let entry = [("entry", id_of(&done.entry).into())];
                out.message(&words.say("rehearsal-recorded", &entry))?;
            }
            // The debrief comes all the same: the run is kept in its journal.
            Err(problem) => {
                let _the_debrief_follows = office.failed(&problem).tell(words, out);
                out.message(&words.say("rehearsal-not-recorded", &[]))?;
            }
        }
    }
    debriefed(&session, &replayed, rehearse.json, system, words, out)
}

/// Opens the record for the person who practises, where one is named.
fn sign_in<'c, S: System>(
    matches: &'c ArgMatches,
    system: &'c S,
    words: &'c Words,
    out: &mut Out,
) -> Result<Option<(Office<'c, S>, PersonCode)>, Failure> {
    if help::text(matches, "as").is_none() {
        return Ok(None);
    }
    let mut office = Office::open(matches, system, words)?;
    let person = office.signer()?;
    let passphrase = office.passphrase(person, out)?;
    match office.laboratory.sign_in(person, &passphrase) {
        Ok(()) => Ok(Some((office, person))),
        Err(problem) => Err(office.failed(&problem)),
    }
}

fn text<S: System>(system: &S, path: &std::path::Path) -> Result<String, Failure> {
    let bytes = system.read(path, TEXT_MOST)?;
    String::from_utf8(bytes).map_err(|_| Failure::NoText(files::shown(path)))
}

/// Prints the debrief of a run: page by page where a person sits, so that what matters most does not run off the screen.
fn debriefed<S: System>(
    session: &Session,
    replayed: &Replayed,
    json: bool,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let of = session.debriefed(replayed);
    if json {
        page::json(&debrief_json(&of, words), out)?;
    } else {
        let blocks = debrief(&of, &|id| session.taken().hazard(id), words);
        page::print_in_pages(&blocks, WIDTH, system, words, out)?;
    }
    Ok(if replayed.graded.clean {
        Ended::Done
    } else {
        Ended::WithFindings
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rehearse(arguments: &[&str]) -> Result<Rehearse, clap::error::ErrorKind> {
        let words = Words::shipped("en-US");
        let line = std::iter::once("rehearse").chain(arguments.iter().copied());
        match command(&words).try_get_matches_from(line) {
            Ok(matches) => Ok((&matches).into()),
            Err(error) => Err(error.kind()),
        }
    }

    #[test]
    fn a_short_line_takes_the_defaults() {
        let plain = rehearse(&["stock-teeth"]).unwrap();
        assert_eq!(plain.level, Level::Guided);
        assert_eq!(plain.disturbances, Disturbances::Drawn);
        assert_eq!(plain.actions, Actions::Keyboard);
        assert_eq!(plain.seed, None);
    }

    #[test]
    fn a_long_line_is_read_whole() {
        let line = "stock-teeth --level unaided --seed 7 --case teeth=14,wash=orbital --case arch=upper \
            --disturbances cloudy-second-bath,lamp-off --script run.txt --data here --json";
        let read = rehearse(&line.split_whitespace().collect::<Vec<_>>()).unwrap();
        assert_eq!(read.level, Level::Unaided);
        assert_eq!(read.seed, Some(7));
        assert_eq!(read.case.len(), 3);
        assert_eq!(read.case[2], ("arch".to_owned(), "upper".to_owned()));
        assert_eq!(
            read.disturbances,
            Disturbances::Named(vec!["cloudy-second-bath".to_owned(), "lamp-off".to_owned()])
        );
        assert_eq!(read.actions, Actions::Script("run.txt".into()));
        assert!(read.json);
    }

    #[test]
    fn what_cannot_be_meant_together_is_refused() {
        use clap::error::ErrorKind as Kind;
        for (line, kind) in [
            (
                &["x", "--script", "a", "--replay", "b"][..],
                Kind::ArgumentConflict,
            ),
            (&["x", "--script", "a", "--resume"], Kind::ArgumentConflict),
            (&["x", "--seed", "-1"], Kind::UnknownArgument),
            (&["x", "--seed", "4294967296"], Kind::ValueValidation),
            (&["x", "--case", "teeth"], Kind::ValueValidation),
            (&["x", "--level", "brave"], Kind::InvalidValue),
            (&[], Kind::MissingRequiredArgument),
        ] {
            assert_eq!(rehearse(line), Err(kind), "{line:?}");
        }
    }
}
