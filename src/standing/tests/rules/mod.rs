//! The rules R1 to R16, each by example, and what else is refused.

mod assessing;
mod ending;
mod reading;
mod signing_off;
mod stopping;

use crate::record::entry::{Allowed, CalledIn, Cause, Suspended, Withdrawn};
use crate::record::scribe::{id, person, scope};

pub(super) fn suspended(number: u8) -> Suspended {
    Suspended {
        person: person(number),
        workflow: id("stock-teeth"),
        allowed: Allowed::Nothing,
    }
}

pub(super) fn withdrawn(number: u8) -> Withdrawn {
    Withdrawn {
        person: person(number),
        scope: scope(),
    }
}

pub(super) fn called_in(number: u8) -> CalledIn {
    CalledIn {
        person: person(number),
        scope: scope(),
        cause: Cause::Complaint,
    }
}
