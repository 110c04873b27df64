//! What a sign-off asks for, as a module says it, and which numbers contradict themselves.

/// The most of anything that is counted. Our default: more than anybody will ever be asked for.
pub const MOST_COUNTED: u16 = 1_000;

/// The most months that a sign-off holds. Our default: ten years.
pub const MOST_MONTHS: u16 = 120;

/// What a renewal asks for where nothing else is set: observed runs, assessors, last clean in a row. A module says nothing of renewals. Our default:
/// whoever was signed off is seen at work once more, and the work is clean.
pub const AGAIN: (u16, u16, u16) = (1, 1, 1);

/// What a sign-off asks for.
#[derive(Clone, Debug)]
pub struct SignOff {
    /// Clean unaided runs before supervised work, and on how many days. 0 of both: no rehearsal is asked for.
    pub clean_unaided: (u16, u16),
    /// Supervised cases.
    pub supervised_cases: u16,
    /// Observed runs, assessors, last clean in a row.
    pub observed: (u16, u16, u16),
    /// The same of a renewal: [`AGAIN`], unless a laboratory sets others.
    pub again: (u16, u16, u16),
    /// Validity of first and later sign-offs in months; the last one repeats.
    pub valid_months: Vec<u16>,
    /// Window of the effectiveness check in days.
    pub effect_check_days: Option<(u16, u16)>,
}

/// Which sign-off a number is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The first one.
    First,
    /// A renewal.
    Again,
}

/// Why nobody could be signed off by such numbers, or what they say against themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SignOffFault {
    /// More days with a rehearsal than rehearsals: each day takes one at least.
    MoreDaysThanRehearsals,
    /// Nothing has to be observed.
    NothingObserved(Which),
    /// Nobody has to observe.
    NoAssessor(Which),
    /// More assessors than observed runs: each of them sees one at least.
    MoreAssessorsThanRuns(Which),
    /// More clean runs in a row than observed runs.
    RowLongerThanRuns(Which),
    /// More of something than can be counted: [`MOST_COUNTED`].
    TooMany,
    /// No months, 0 of them, or more than [`MOST_MONTHS`].
    Months,
    /// The window of the effectiveness check ends before a day of it has passed.
    EffectWindow,
}

impl SignOff {
    /// The first thing that is wrong with the numbers.
    ///
    /// # Errors
    ///
    /// There is one.
    pub fn sound(&self) -> Result<(), SignOffFault> {
        let (rehearsals, days) = self.clean_unaided;
        let (from, to) = self.effect_check_days.unwrap_or((0, 1));
        let counted = [rehearsals, days, self.supervised_cases, from, to];
        if counted.iter().any(|&count| count > MOST_COUNTED) {
            return Err(SignOffFault::TooMany);
        }
        if days > rehearsals {
            return Err(SignOffFault::MoreDaysThanRehearsals);
        }
        observing_sound(self.observed, Which::First)?;
        observing_sound(self.again, Which::Again)?;
        let mut months = self.valid_months.iter();
        if self.valid_months.is_empty() || !months.all(|one| (1..=MOST_MONTHS).contains(one)) {
            return Err(SignOffFault::Months);
        }
        if from >= to {
            return Err(SignOffFault::EffectWindow);
        }
        Ok(())
    }
}

/// The first thing that is wrong with observed runs, assessors and the last clean in a row.
fn observing_sound(asked: (u16, u16, u16), which: Which) -> Result<(), SignOffFault> {
    let (runs, assessors, row) = asked;
    if runs == 0 {
        return Err(SignOffFault::NothingObserved(which));
    }
    if assessors == 0 {
        return Err(SignOffFault::NoAssessor(which));
    }
    if [runs, assessors, row]
        .iter()
        .any(|&count| count > MOST_COUNTED)
    {
        return Err(SignOffFault::TooMany);
    }
    if assessors > runs {
        return Err(SignOffFault::MoreAssessorsThanRuns(which));
    }
    if row > runs {
        return Err(SignOffFault::RowLongerThanRuns(which));
    }
    Ok(())
}

impl SignOffFault {
    /// Its own word, by which its message is found.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            SignOffFault::MoreDaysThanRehearsals => "more-days-than-rehearsals",
            SignOffFault::NothingObserved(_) => "nothing-observed",
            SignOffFault::NoAssessor(_) => "no-assessor",
            SignOffFault::MoreAssessorsThanRuns(_) => "more-assessors-than-runs",
            SignOffFault::RowLongerThanRuns(_) => "row-longer-than-runs",
            SignOffFault::TooMany => "counted-too-many",
            SignOffFault::Months => "sign-off-months",
            SignOffFault::EffectWindow => "effect-check-window",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked() -> SignOff {
        SignOff {
            clean_unaided: (3, 3),
            supervised_cases: 3,
            observed: (2, 2, 2),
            again: AGAIN,
            valid_months: vec![6, 12],
            effect_check_days: Some((30, 90)),
        }
    }

    #[test]
    fn numbers_that_go_together_are_sound() {
        let all = [
            asked(),
            // No rehearsal at all, and several on one day.
            SignOff {
                clean_unaided: (0, 0),
                ..asked()
            },
            SignOff {
                clean_unaided: (3, 0),
                ..asked()
            },
            SignOff {
                again: (3, 2, 0),
                ..asked()
            },
            SignOff {
                effect_check_days: Some((0, 1)),
                ..asked()
            },
            SignOff {
                effect_check_days: None,
                ..asked()
            },
        ];
        for one in all {
            assert_eq!(one.sound(), Ok(()), "{one:?}");
        }
    }

    #[test]
    fn numbers_that_contradict_themselves_are_told_of_the_first_and_of_renewals() {
        for (observed, fault) in [
            ((0, 1, 0), SignOffFault::NothingObserved as fn(Which) -> _),
            ((1, 0, 1), SignOffFault::NoAssessor),
            ((1, 2, 1), SignOffFault::MoreAssessorsThanRuns),
            ((1, 1, 2), SignOffFault::RowLongerThanRuns),
        ] {
            let first = SignOff {
                observed,
                ..asked()
            };
            assert_eq!(first.sound(), Err(fault(Which::First)), "{first:?}");
            let again = SignOff {
                again: observed,
                ..asked()
            };
            assert_eq!(again.sound(), Err(fault(Which::Again)), "{again:?}");
        }
    }

    #[test]
    fn days_windows_and_months_that_cannot_be_are_told() {
        let over = MOST_COUNTED + 1;
        let rehearsed = |clean_unaided| SignOff {
            clean_unaided,
            ..asked()
        };
        let checked = |window| SignOff {
            effect_check_days: Some(window),
            ..asked()
        };
        let again = |again| SignOff { again, ..asked() };
        for (one, fault) in [
            (rehearsed((0, 1)), SignOffFault::MoreDaysThanRehearsals),
            (rehearsed((2, 3)), SignOffFault::MoreDaysThanRehearsals),
            (rehearsed((over, 1)), SignOffFault::TooMany),
            (again((over, 1, 1)), SignOffFault::TooMany),
            (checked((90, 30)), SignOffFault::EffectWindow),
            (checked((30, 30)), SignOffFault::EffectWindow),
            (checked((0, 0)), SignOffFault::EffectWindow),
            (checked((30, over)), SignOffFault::TooMany),
        ] {
            assert_eq!(one.sound(), Err(fault), "{one:?}");
        }
    }
}
