//! What the commands of the record share: the open laboratory, who signs, the passphrase, the way from a draft to an answer.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::{Arg, ArgMatches};
use serde::Serialize;

use super::failure::{Ended, Failure};
use super::help;
use super::out::Out;
use super::page;
pub(super) use crate::app::laboratory::Moment;
use crate::app::laboratory::{self, worded};
use crate::app::laboratory::{
    Deed, Done, Draft, Laboratory, Place as _, Problem, Wanted, shown_all,
};
use crate::app::{Secret, System};
use crate::people::Passphrase;
use crate::record::entry::Entry;
use crate::record::scope::{Edition, Id, Meaning, Scope, Text};
use crate::record::seal::Seal;
use crate::report::Block;
use crate::report::plain::{Glyphs, plain};
use crate::report::record::{AsOf, Telling, declaration, fingerprint, id_of};
use crate::standing::Reading;
use crate::text::Words;
use crate::units::{PersonCode, Stamp};

/// An open laboratory at the command line.
pub(super) struct Office<'c, S: System> {
    pub(super) laboratory: Laboratory<S::Place>,
    pub(super) system: &'c S,
    pub(super) words: &'c Words,
    names: BTreeMap<PersonCode, String>,
    pub(super) matches: &'c ArgMatches,
}

/// What was stored, for machines.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct StoredJson {
    kind: &'static str,
    format: u16,
    entry: String,
    seal: String,
    heads_lag: bool,
}

/// `--data DIR`.
pub(super) fn data(words: &Words) -> Arg {
    help::option(words, "data", "DIR", "cli-option.data").value_parser(clap::value_parser!(PathBuf))
}

/// What every command takes in which somebody shows who they are.
pub(super) fn signed_in(words: &Words) -> [Arg; 3] {
    [
        help::option(words, "as", "PERSON", "cli-option.as").required(true),
        passphrase_fd(words),
        data(words),
    ]
}

/// `--passphrase-fd NUMBER`.
pub(super) fn passphrase_fd(words: &Words) -> Arg {
    help::option(words, "passphrase-fd", "NUMBER", "cli-option.passphrase-fd")
        .value_parser(clap::value_parser!(u32))
}

/// What every command that signs takes.
pub(super) fn signing(words: &Words) -> impl IntoIterator<Item = Arg> {
    let why = help::option(words, "reason", "TEXT", "cli-option.reason");
    signed_in(words).into_iter().chain([why, help::json(words)])
}

/// `--happened TIME`.
pub(super) fn happened(words: &Words) -> Arg {
    help::option(words, "happened", "TIME", "cli-option.happened")
}

/// `PERSON`, the one that a command is about.
pub(super) fn person(words: &Words) -> Arg {
    help::place(words, "person", "PERSON", "cli-option.person").required(true)
}

/// `WORKFLOW`.
pub(super) fn workflow(words: &Words) -> Arg {
    help::place(words, "workflow", "WORKFLOW", "cli-option.workflow").required(true)
}

/// `--profile`, `--wash`, `--cure`.
pub(super) fn scope(words: &Words) -> [Arg; 3] {
    [
        help::option(words, "profile", "NAME", "cli-option.scope-profile"),
        help::option(words, "wash", "UNIT", "cli-option.wash"),
        help::option(words, "cure", "UNIT", "cli-option.cure"),
    ]
}

/// `--revision NUMBER`.
pub(super) fn revision(words: &Words) -> Arg {
    help::option(words, "revision", "NUMBER", "cli-option.revision")
        .value_parser(clap::value_parser!(u32))
}

/// `--on DATE` and `--as-recorded DATE`.
pub(super) fn as_of(words: &Words) -> [Arg; 2] {
    [
        help::option(words, "on", "DATE", "cli-option.on"),
        help::option(words, "as-recorded", "DATE", "cli-option.as-recorded"),
    ]
}

/// The folder that the record is kept in.
pub(super) fn folder<S: System>(matches: &ArgMatches, system: &S) -> Result<PathBuf, Failure> {
    let data = help::path(matches, "data");
    Ok(laboratory::folder(system, data.as_deref())?)
}

/// The place of a record that is there: whoever only looks makes none.
pub(super) fn place<S: System>(matches: &ArgMatches, system: &S) -> Result<S::Place, Failure> {
    let folder = folder(matches, system)?;
    if !system.is_folder(&folder) {
        return Err(Problem::NotOpened.into());
    }
    let place = system.place(&folder)?;
    let nothing =
        place.title()?.is_none() && place.log().strands()?.is_empty() && place.heads()?.is_empty();
    if nothing {
        return Err(Problem::NotOpened.into());
    }
    Ok(place)
}

impl<'c, S: System> Office<'c, S> {
    /// Opens the record.
    pub(super) fn open(
        matches: &'c ArgMatches,
        system: &'c S,
        words: &'c Words,
    ) -> Result<Office<'c, S>, Failure> {
        let mut laboratory = Laboratory::open(place(matches, system)?)?;
        laboratory.keep_its_time();
        Office::on(laboratory, matches, system, words)
    }

    pub(super) fn on(
        laboratory: Laboratory<S::Place>,
        matches: &'c ArgMatches,
        system: &'c S,
        words: &'c Words,
    ) -> Result<Office<'c, S>, Failure> {
        let mut office = Office {
            laboratory,
            system,
            words,
            names: BTreeMap::new(),
            matches,
        };
        office.learn_names()?;
        Ok(office)
    }

    /// Looks names up again after the register has changed.
    pub(super) fn learn_names(&mut self) -> Result<(), Failure> {
        self.names = self.laboratory.printed_names(self.words)?;
        Ok(())
    }

    fn name(&self, code: PersonCode) -> String {
        self.names.get(&code).cloned().unwrap_or_default()
    }

    /// Says something with names and entries at hand.
    pub(super) fn told<T>(&self, say: impl FnOnce(&Telling<'_>) -> T) -> T {
        let names = |code| self.name(code);
        say(&Telling {
            ledger: self.laboratory.ledger(),
            words: self.words,
            names: &names,
        })
    }

    /// What a use case answered, or its problem, worded with the names of the laboratory's people.
    pub(super) fn ok<T>(&self, answered: Result<T, Problem>) -> Result<T, Failure> {
        answered.map_err(|problem| self.failed(&problem))
    }

    pub(super) fn failed(&self, problem: &Problem) -> Failure {
        Failure::Told(self.told(|telling| worded::problem(problem, telling)))
    }

    /// The person that an argument names: a code, or part of a name that fits one person.
    pub(super) fn person(&self, argument: &str) -> Result<PersonCode, Failure> {
        let found = help::text(self.matches, argument).unwrap_or_default();
        self.person_called(&found)
    }

    pub(super) fn person_called(&self, found: &str) -> Result<PersonCode, Failure> {
        self.laboratory
            .person(found)
            .map_err(|problem| Failure::Usage(worded::person_problem(problem, found, self.words)))
    }

    pub(super) fn workflow(&self) -> Result<Id, Failure> {
        required(self.matches, "workflow", "stock-teeth")
    }

    /// The scope as the options name it.
    pub(super) fn wanted(&self) -> Result<Wanted, Failure> {
        Ok(Wanted {
            workflow: self.workflow()?,
            profile: value(self.matches, "profile", "common-practice")?,
            wash: value(self.matches, "wash", "ultrasonic")?,
            cure: value(self.matches, "cure", "two-sides")?,
        })
    }

    /// The scope of a person that the options name.
    pub(super) fn scope(&self, person: PersonCode) -> Result<Scope, Failure> {
        let wanted = self.wanted()?;
        self.ok(self.laboratory.scope(person, &wanted))
    }

    /// The edition that the options name; the one in force where none is named.
    pub(super) fn edition(&self) -> Result<Edition, Failure> {
        let named = self.matches.get_one::<u32>("revision").copied();
        let workflow = self.workflow()?;
        self.ok(self.laboratory.edition(&workflow, named))
    }

    /// The seal of an entry that somebody names.
    pub(super) fn seal(&self, found: &str) -> Result<Seal, Failure> {
        self.ok(self.laboratory.find(found)).map(Entry::seal)
    }

    pub(super) fn reason(&self) -> Result<Option<Text>, Failure> {
        value(self.matches, "reason", "as agreed with the owner")
    }

    pub(super) fn happened(&self) -> Result<Option<Stamp>, Failure> {
        self.moment("happened", Moment::Begins)
    }

    /// A time that an option names.
    pub(super) fn moment(
        &self,
        option: &'static str,
        side: Moment,
    ) -> Result<Option<Stamp>, Failure> {
        let Some(text) = help::text(self.matches, option) else {
            return Ok(None);
        };
        Moment::read(&text, side, &self.laboratory.calendar())
            .map(Some)
            .ok_or_else(|| Failure::value(option, &text, &["2026-03-03", "2026-03-03 10:40"]))
    }

    /// The day that is asked about, and the reading.
    pub(super) fn as_of(&self) -> Result<AsOf, Failure> {
        let on = self.moment("on", Moment::Ends)?;
        let recorded = self.moment("as-recorded", Moment::Ends)?;
        Ok(match (on, recorded) {
            (Some(at), Some(by)) => AsOf {
                at,
                reading: Reading::AsRecordedBy(by),
            },
            (None, Some(at)) => AsOf {
                at,
                reading: Reading::AsRecordedThen,
            },
            (on, None) => AsOf {
                at: on.unwrap_or_else(|| self.laboratory.now()),
                reading: Reading::AsNowKnown,
            },
        })
    }

    /// Who signs.
    pub(super) fn signer(&self) -> Result<PersonCode, Failure> {
        self.person("as")
    }

    /// Asks a person for their passphrase.
    pub(super) fn passphrase(&self, of: PersonCode, out: &mut Out) -> Result<Passphrase, Failure> {
        let who = self.told(|telling| telling.person(of));
        let asked = self
            .words
            .say("laboratory-ask-passphrase", &[("person", who.into())]);
        self.secret(&asked, out)
    }

    /// Asks for a passphrase, without showing what is typed.
    pub(super) fn secret(&self, asked: &str, out: &mut Out) -> Result<Passphrase, Failure> {
        secret(asked, self.matches, self.system, out)
    }

    /// Asks twice for a passphrase that somebody has just chosen.
    pub(super) fn new_passphrase(&self, of: &str, out: &mut Out) -> Result<Passphrase, Failure> {
        new_passphrase(of, self.matches, self.system, self.words, out)
    }

    /// Drafts, shows, asks for the passphrase, signs, and says which entry it has become.
    pub(super) fn sign(&mut self, deed: Deed, out: &mut Out) -> Result<Ended, Failure> {
        let done = self.signed(deed, out)?;
        self.answer(&done, out)
    }

    /// Drafts, shows, asks for the passphrase and signs.
    pub(super) fn signed(&mut self, deed: Deed, out: &mut Out) -> Result<Done, Failure> {
        let by = self.signer()?;
        let declaration = self.declaration(&deed);
        let draft = self.laboratory.draft(by, deed, declaration);
        let draft = self.ok(draft)?;
        self.signed_draft(&draft, out)
    }

    /// The same for several deeds with one passphrase.
    pub(super) fn sign_all(&mut self, deeds: Vec<Deed>, out: &mut Out) -> Result<Ended, Failure> {
        let by = self.signer()?;
        let mut drafts = Vec::with_capacity(deeds.len());
        for deed in deeds {
            let declaration = self.declaration(&deed);
            let draft = self.laboratory.draft(by, deed, declaration);
            drafts.push(self.ok(draft)?);
        }
        if !self.show(&drafts, out)? {
            return Err(Failure::NotSigned);
        }
        let passphrase = self.passphrase(by, out)?;
        let signed = self.laboratory.sign_all(&drafts, &passphrase);
        let (done, stopped) = self.ok(signed)?;
        for one in &done {
            self.answer(one, out)?;
        }
        match stopped {
            Some(problem) => Err(self.failed(&problem)),
            None => Ok(Ended::Done),
        }
    }

    /// The sentence that goes with a deed.
    pub(super) fn declaration(&self, deed: &Deed) -> String {
        let first = deed.fact.kind().meanings().first().copied();
        let meaning = deed.meaning.or(first).unwrap_or(Meaning::Authored);
        declaration(meaning, self.words)
    }

    pub(super) fn sign_draft(&mut self, draft: &Draft, out: &mut Out) -> Result<Ended, Failure> {
        let done = self.signed_draft(draft, out)?;
        self.answer(&done, out)
    }

    fn signed_draft(&mut self, draft: &Draft, out: &mut Out) -> Result<Done, Failure> {
        if !self.show(std::slice::from_ref(draft), out)? {
            return Err(Failure::NotSigned);
        }
        let passphrase = self.passphrase(draft.by(), out)?;
        let done = self.laboratory.sign(draft, &passphrase);
        self.ok(done)
    }

    /// Shows what is about to be signed: page by page where a person sits, otherwise among the messages, so that the result stays alone.
    /// Returns whether the person read on to the end.
    fn show(&self, drafts: &[Draft], out: &mut Out) -> Result<bool, Failure> {
        let blocks = self.told(|telling| shown_all(drafts, telling));
        if self.system.person_types() && !self.matches.get_flag("json") {
            return page::print_in_pages(&blocks, 80, self.system, self.words, out);
        }
        for line in plain(&blocks, 80, Glyphs::Ascii) {
            out.message(&line)?;
        }
        Ok(true)
    }

    /// Prints a report, under the notice where it is the demonstration's.
    pub(super) fn report(&self, blocks: &[Block], out: &mut Out) -> Result<Ended, Failure> {
        if self.laboratory.is_demonstration() {
            out.line(&self.words.say("laboratory-demonstration", &[]))?;
            out.line("")?;
        }
        page::print_in_pages(blocks, 80, self.system, self.words, out)?;
        Ok(Ended::Done)
    }

    /// Says which entry something has become.
    pub(super) fn answer(&self, done: &Done, out: &mut Out) -> Result<Ended, Failure> {
        if self.matches.get_flag("json") {
            let answer = StoredJson {
                kind: "drybench-stored",
                format: 1,
                entry: id_of(&done.entry),
                seal: done.entry.seal().to_string(),
                heads_lag: done.lagging.is_some(),
            };
            page::json(&answer, out)?;
        } else {
            let values = [
                ("entry", id_of(&done.entry).into()),
                ("seal", fingerprint(&done.entry.seal().0).into()),
            ];
            out.line(&self.words.say("laboratory-signed", &values))?;
        }
        if done.lagging.is_some() {
            out.message(&self.words.say("laboratory-lagging", &[]))?;
        }
        Ok(Ended::Done)
    }
}

/// Asks for a passphrase, without showing what is typed.
pub(super) fn secret<S: System>(
    asked: &str,
    matches: &ArgMatches,
    system: &S,
    out: &mut Out,
) -> Result<Passphrase, Failure> {
    let from = match matches.get_one::<u32>("passphrase-fd") {
        Some(number) => Secret::From(*number),
        None if system.person_types() => Secret::Terminal,
        None => return Err(Failure::NoPassphrase),
    };
    if from == Secret::Terminal {
        out.flush()?;
        out.ask(asked)?;
    }
    let typed = system.secret(from)?;
    if from == Secret::Terminal {
        out.message("")?;
    }
    match typed {
        // Enter alone is a second thought, and no try.
        Some(typed) if typed.is_empty() => Err(Failure::NotSigned),
        Some(typed) => Ok(Passphrase::typed(typed)),
        None => Err(Failure::NoPassphrase),
    }
}

/// Asks twice for a passphrase that somebody has just chosen.
pub(super) fn new_passphrase<S: System>(
    of: &str,
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Passphrase, Failure> {
    let who = [("person", of.into())];
    let first = secret(
        &words.say("laboratory-ask-new-passphrase", &who),
        matches,
        system,
        out,
    )?;
    let again = secret(
        &words.say("laboratory-ask-again", &who),
        matches,
        system,
        out,
    )?;
    if first.bytes() == again.bytes() {
        Ok(first)
    } else {
        Err(Failure::Differ)
    }
}

/// A value of an option; none where it was not given. `example` is shown where it is none.
pub(super) fn value<T: std::str::FromStr>(
    matches: &ArgMatches,
    option: &'static str,
    example: &str,
) -> Result<Option<T>, Failure> {
    let Some(text) = help::text(matches, option) else {
        return Ok(None);
    };
    let read = text
        .parse()
        .map_err(|_| Failure::value(option, &text, &[example]))?;
    Ok(Some(read))
}

/// A value that has to be there.
pub(super) fn required<T: std::str::FromStr>(
    matches: &ArgMatches,
    option: &'static str,
    example: &str,
) -> Result<T, Failure> {
    let read = value(matches, option, example)?;
    read.ok_or_else(|| Failure::value(option, "", &[example]))
}

/// A value among named ones that has to be there.
pub(super) fn one_of<T: Copy>(
    matches: &ArgMatches,
    option: &'static str,
    all: &[T],
    word: fn(T) -> &'static str,
) -> Result<T, Failure> {
    let known: Vec<&str> = all.iter().map(|one| word(*one)).collect();
    chosen(matches, option, all, word)?.ok_or_else(|| Failure::value(option, "", &known))
}

/// A value among named ones.
pub(super) fn chosen<T: Copy>(
    matches: &ArgMatches,
    option: &'static str,
    all: &[T],
    word: fn(T) -> &'static str,
) -> Result<Option<T>, Failure> {
    let Some(text) = help::text(matches, option) else {
        return Ok(None);
    };
    let found = all.iter().copied().find(|one| word(*one) == text);
    let known: Vec<&str> = all.iter().map(|one| word(*one)).collect();
    found
        .map(Some)
        .ok_or_else(|| Failure::value(option, &text, &known))
}
