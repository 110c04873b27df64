//! Commands that write down what happened, decide, and show what the record says. One file for each group.

pub(super) mod adopt;
pub(super) mod amend;
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
pub(super) mod work;

use clap::ArgMatches;

use super::failure::{Ended, Failure};
use super::out::Out;
use crate::app::System;
use crate::text::Words;

/// Runs the command of this name.
pub(super) fn run<S: System>(
    name: &str,
    matches: &ArgMatches,
    system: &S,
    words: &Words,
    out: &mut Out,
) -> Result<Ended, Failure> {
    match name {
        "lab" => lab::run(matches, system, words, out),
        "person" => person::run(matches, system, words, out),
        "key" => key::run(matches, system, words, out),
        "policy" => policy::run(matches, system, words, out),
        "adopt" => adopt::run(matches, system, words, out),
        "retire" => adopt::run_retire(matches, system, words, out),
        "assign" | "confirm" | "train" | "protection" => {
            training::run(name, matches, system, words, out)
        }
        "supervise" | "check-case" | "evaluate" => work::run(name, matches, system, words, out),
        "observe" => observe::run(matches, system, words, out),
        "sign-off" | "suspend" | "reinstate" | "withdraw" | "call-in" => {
            decide::run(name, matches, system, words, out)
        }
        "correct" | "void" | "countersign" => amend::run(name, matches, system, words, out),
        "technician" => technician::run(matches, system, words, out),
        "matrix" => matrix::run(matches, system, words, out),
        "record" => entries::run(matches, system, words, out),
        _ => Err(Failure::NotThere("drybench")),
    }
}
