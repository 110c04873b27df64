//! Commands that write down what happened, decide, and show what the record says. One file for each group.

pub(super) mod adopt;
pub(super) mod amend;
pub(super) mod board;
pub(super) mod decide;
pub(super) mod entries;
pub(super) mod key;
pub(super) mod lab;
pub(super) mod matrix;
pub(super) mod observe;
pub(super) mod person;
pub(super) mod policy;
pub(super) mod technician;
pub(super) mod training;
pub(super) mod watching;
pub(super) mod work;
pub(super) mod workflow;

use clap::ArgMatches;

use super::failure::{Ended, Failure};
use super::office::Office;
use super::out::Out;
use crate::app::System;
use crate::text::Words;

/// Runs the command of this name. All but a few work on the laboratory that is there.
pub(super) fn run<S: System>(
    name: &str,
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    let (what, matches) = matches.subcommand().unwrap_or((name, matches));
    match (name, what) {
        ("lab", "open") => return lab::found(matches, system, words, out),
        ("lab", "demonstration") => return lab::invented(matches, system, words, out),
        ("observe", "sheet") => return observe::sheet(matches, system, words, out),
        ("record", "verify") => return entries::verify(matches, system, words, out),
        _ => {}
    }
    let office = &mut Office::open(matches, system, words)?;
    match name {
        "lab" => lab::show(office, out),
        "person" => person::run(what, office, out),
        "key" => key::run(what, office, out),
        "policy" => policy::run(what, office, out),
        "adopt" => adopt::run(office, out),
        "retire" => adopt::run_retire(office, out),
        "assign" | "confirm" | "train" | "protection" => training::run(what, office, out),
        "supervise" | "check-case" | "evaluate" => work::run(what, office, out),
        "observe" if what == "run" => watching::run(office, out),
        "observe" => observe::enter(office, out),
        "sign-off" | "suspend" | "reinstate" | "withdraw" | "call-in" => {
            decide::run(what, office, out)
        }
        "correct" | "void" | "countersign" => amend::run(what, office, out),
        "board" => board::run(office, out),
        "technician" => technician::run(office, out),
        "workflow" => workflow::run(office, out),
        "matrix" => matrix::run(office, out),
        "record" => entries::run(what, office, out),
        _ => Err(Failure::NotThere("drybench")),
    }
}
