//! Why the register of names did not change, and why a text is no name.

use crate::people::{NameProblem, RegisterFault};
use crate::report::problems::{Told, told};
use crate::text::{Value, Words};
use crate::units::PersonCode;

/// Words why the register did not change.
#[must_use]
pub fn register_fault(fault: RegisterFault, words: &Words) -> Told {
    let say = |id: &str, values: &[(&str, Value)]| told(words, id, values);
    let coded = |id: &str, code: PersonCode| {
        let code = code.to_string();
        told(words, id, &[("code", code.into())])
    };
    match fault {
        RegisterFault::NoFreeCode => say("record-register-no-free-code", &[]),
        RegisterFault::UnknownCode(code) => coded("record-register-unknown-code", code),
        RegisterFault::Erased(code) => coded("record-register-erased", code),
        RegisterFault::SaltUsed => say("record-register-salt-used", &[]),
        RegisterFault::BeforeLast => say("record-register-before-last", &[]),
        RegisterFault::CodeTaken(code) => coded("record-register-code-taken", code),
    }
}

/// Words why a text is no name.
#[must_use]
pub fn name_problem(problem: NameProblem, words: &Words) -> Told {
    match problem {
        NameProblem::Empty => told(words, "record-name-empty", &[]),
        NameProblem::TooLong(most) => told(words, "record-name-too-long", &[("most", most.into())]),
        NameProblem::Character => told(words, "record-name-character", &[]),
    }
}
