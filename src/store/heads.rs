//! The heads file: how far each strand went, remembered outside the database.
//!
//! A chain whose end was cut off is a valid, shorter chain. What shows the cut is this file. It is written after COMMIT, so it may lag
//! behind the log and never leads it; where it does lead, entries are missing. Such a line stays until somebody has looked and [`HeadsFile::renew`]
//! is called: a log that grows on from the cut does not wipe it out.
//!
//! The format: a first line `drybench heads 1`, then a line `STRAND NUMBER SEAL` for each strand, in order.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};

use super::whole::{self, Reader};
use crate::record::log::{Log, Trouble};
use crate::record::scope::Id;
use crate::record::seal::Seal;

const TITLE: &str = "drybench heads ";
const FORMAT: u32 = 1;
/// Far more than any laboratory has workstations for, in bytes.
const LONGEST: u64 = 1 << 20;

/// Strands with the number and the seal of their last entry, in order: what `record::verify` takes.
pub type Heads = Vec<(Id, u64, Seal)>;

/// The heads file beside a database.
#[derive(Clone, Debug)]
pub struct HeadsFile {
    path: PathBuf,
}

/// How the remembered head of a strand and the log go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// They are one.
    Same,
    /// The log went on from it. Holds by how many entries.
    Lags(u64),
    /// The log ends before it: entries are missing. Holds how many.
    Leads(u64),
    /// The log has another entry there.
    Differs,
}

/// A strand that is remembered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StrandStanding {
    /// The strand.
    pub strand: Id,
    /// The remembered number.
    pub number: u64,
    /// The remembered seal.
    pub seal: Seal,
    /// How it goes together with the log.
    pub standing: Standing,
}

impl HeadsFile {
    /// The heads file of the database in this file: the same name with `.heads` behind it.
    #[must_use]
    pub fn beside(database: &Path) -> HeadsFile {
        let mut name = database.as_os_str().to_owned();
        name.push(".heads");
        HeadsFile { path: name.into() }
    }

    /// Where it is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What is remembered; nothing where there is no file yet.
    ///
    /// # Errors
    ///
    /// The file cannot be read, is no such file, or a newer program wrote it.
    pub fn read(&self) -> Result<Heads, Trouble> {
        let mut text = String::new();
        match File::open(&self.path) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Heads::new()),
            Err(error) => return Err(whole::trouble(&error)),
            Ok(file) => file.take(LONGEST).read_to_string(&mut text),
        }
        .map_err(|error| match error.kind() {
            ErrorKind::InvalidData => Trouble::Damaged,
            _ => whole::trouble(&error),
        })?;
        parse(&text)
    }

    /// Compares what is remembered with a log. Strands that are not remembered are left out.
    ///
    /// # Errors
    ///
    /// The file or the log cannot be read.
    pub fn compare(&self, log: &dyn Log) -> Result<Vec<StrandStanding>, Trouble> {
        let standing = |(strand, number, seal): (Id, u64, Seal)| {
            let standing = standing(log, &strand, number, seal)?;
            Ok(StrandStanding {
                strand,
                number,
                seal,
                standing,
            })
        };
        self.read()?.into_iter().map(standing).collect()
    }

    /// Brings the file up to the log after COMMIT, as far as the log goes on from what is remembered. A strand that does not is left as it is, and
    /// returned with the others.
    ///
    /// Where two processes do this at once, the file may lag until the next time.
    ///
    /// # Errors
    ///
    /// The file or the log cannot be read, or the file not written. The old file is whole then.
    pub fn follow(&self, log: &dyn Log) -> Result<Vec<StrandStanding>, Trouble> {
        let before = self.compare(log)?;
        let mut heads = current(log)?;
        for remembered in &before {
            if matches!(remembered.standing, Standing::Leads(_) | Standing::Differs) {
                let kept = (remembered.number, remembered.seal);
                heads.insert(remembered.strand.clone(), kept);
            }
        }
        let changed = before.len() != heads.len()
            || before
                .iter()
                .any(|remembered| matches!(remembered.standing, Standing::Lags(_)));
        if changed {
            self.write(&heads)?;
        }
        Ok(before)
    }

    /// Takes the log as it is for what is remembered: only after a restore has been declared in the record.
    ///
    /// # Errors
    ///
    /// The log cannot be read, or the file not written.
    pub fn renew(&self, log: &dyn Log) -> Result<(), Trouble> {
        self.write(&current(log)?)
    }

    /// Remembers these heads, whatever was remembered before: those of a copy, beside it.
    pub(super) fn set(&self, heads: &Heads) -> Result<(), Trouble> {
        let pairs = heads.iter().cloned();
        let heads = pairs.map(|(strand, number, seal)| (strand, (number, seal)));
        self.write(&heads.collect())
    }

    fn write(&self, heads: &BTreeMap<Id, (u64, Seal)>) -> Result<(), Trouble> {
        let mut text = format!("{TITLE}{FORMAT}\n");
        for (strand, (number, seal)) in heads {
            text.push_str(&format!("{strand} {number} {seal}\n"));
        }
        whole::replace(&self.path, text.as_bytes(), Reader::Anybody)
    }
}

fn current(log: &dyn Log) -> Result<BTreeMap<Id, (u64, Seal)>, Trouble> {
    let mut heads = BTreeMap::new();
    for strand in log.strands()? {
        if let Some(head) = log.head(&strand)? {
            heads.insert(strand, (head.number, head.seal));
        }
    }
    Ok(heads)
}

fn standing(log: &dyn Log, strand: &Id, number: u64, seal: Seal) -> Result<Standing, Trouble> {
    let Some(head) = log.head(strand)? else {
        return Ok(Standing::Leads(number));
    };
    if head.number < number {
        return Ok(Standing::Leads(number - head.number));
    }
    let there = log.entries(strand, number).next().transpose()?;
    let same = there.is_some_and(|bytes| Seal::of(&bytes) == seal);
    Ok(match head.number - number {
        _ if !same => Standing::Differs,
        0 => Standing::Same,
        behind => Standing::Lags(behind),
    })
}

fn parse(text: &str) -> Result<Heads, Trouble> {
    let (title, lines) = text.split_once('\n').ok_or(Trouble::Damaged)?;
    let format = title.strip_prefix(TITLE).ok_or(Trouble::Damaged)?;
    match format.parse() {
        Ok(FORMAT) => {}
        Ok(newer) if newer > FORMAT => return Err(Trouble::Newer(newer)),
        _ => return Err(Trouble::Damaged),
    }
    if !lines.is_empty() && !lines.ends_with('\n') {
        return Err(Trouble::Damaged);
    }
    let mut heads = Heads::new();
    for line in lines.lines() {
        let head = parse_line(line).ok_or(Trouble::Damaged)?;
        if heads.last().is_some_and(|(last, _, _)| *last >= head.0) {
            return Err(Trouble::Damaged);
        }
        heads.push(head);
    }
    Ok(heads)
}

fn parse_line(line: &str) -> Option<(Id, u64, Seal)> {
    let mut words = line.split(' ');
    let (strand, number, seal) = (words.next()?, words.next()?, words.next()?);
    let head = (
        strand.parse().ok()?,
        number.parse().ok().filter(|&number| number > 0)?,
        seal.parse().ok()?,
    );
    words.next().is_none().then_some(head)
}

#[cfg(test)]
mod tests;
