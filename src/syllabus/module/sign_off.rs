//! What a sign-off asks for, as a module says it, and which numbers contradict themselves.

/// The most of anything that is counted. Our default: more than anybody will ever be asked for.
pub const MOST_COUNTED: u16 = 1_000;

/// The most months that a sign-off holds. Our default: ten years.
pub const MOST_MONTHS: u16 = 120;

/// What a sign-off asks for.
#[derive(Clone, Debug)]
pub struct SignOff {
    /// Clean unaided runs before supervised work, and on how many days.
    pub clean_unaided: (u16, u16),
    /// Supervised cases.
    pub supervised_cases: u16,
    /// Observed runs, assessors, last clean in a row.
    pub observed: (u16, u16, u16),
    /// Validity of first and later sign-offs in months; the last one repeats.
    pub valid_months: Vec<u16>,
    /// Window of the effectiveness check in days.
    pub effect_check_days: Option<(u16, u16)>,
}

/// Why nobody could be signed off by such numbers, or what they say against themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SignOffFault {
    /// Nothing has to be observed.
    NothingObserved,
    /// Nobody has to observe.
    NoAssessor,
    /// More assessors than observed runs: each of them sees one at least.
    MoreAssessorsThanRuns,
    /// More clean runs in a row than observed runs.
    RowLongerThanRuns,
    /// More of something than can be counted: [`MOST_COUNTED`].
    TooMany,
    /// No months, 0 of them, or more than [`MOST_MONTHS`].
    Months,
}

impl SignOff {
    /// The first thing that is wrong with the numbers.
    ///
    /// # Errors
    ///
    /// There is one.
    pub fn sound(&self) -> Result<(), SignOffFault> {
        let (runs, assessors, row) = self.observed;
        let counted = [runs, assessors, row, self.supervised_cases];
        if runs == 0 {
            return Err(SignOffFault::NothingObserved);
        }
        if assessors == 0 {
            return Err(SignOffFault::NoAssessor);
        }
        if counted.iter().any(|&count| count > MOST_COUNTED) {
            return Err(SignOffFault::TooMany);
        }
        if assessors > runs {
            return Err(SignOffFault::MoreAssessorsThanRuns);
        }
        if row > runs {
            return Err(SignOffFault::RowLongerThanRuns);
        }
        let mut months = self.valid_months.iter();
        if self.valid_months.is_empty() || !months.all(|one| (1..=MOST_MONTHS).contains(one)) {
            return Err(SignOffFault::Months);
        }
        Ok(())
    }
}

impl SignOffFault {
    /// Its own word, by which its message is found.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            SignOffFault::NothingObserved => "nothing-observed",
            SignOffFault::NoAssessor => "no-assessor",
            SignOffFault::MoreAssessorsThanRuns => "more-assessors-than-runs",
            SignOffFault::RowLongerThanRuns => "row-longer-than-runs",
            SignOffFault::TooMany => "counted-too-many",
            SignOffFault::Months => "sign-off-months",
        }
    }
}
