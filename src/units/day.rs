//! Days of the calendar, as people write them.

use std::fmt;
use std::str::FromStr;

use chrono::{Datelike, Days, Months, NaiveDate};

/// A day of the Gregorian calendar, in no particular place. Prints as `2026-11-25`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(NaiveDate);

/// Why a text is no day: it is not written `2026-11-25`, or there is no such day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSuchDay;

impl Day {
    /// The first day that a record can name.
    pub const FIRST: Day = Day(NaiveDate::from_ymd_opt(1970, 1, 1).expect("the day exists"));
    /// The last day that a record can name.
    pub const LAST: Day = Day(NaiveDate::from_ymd_opt(9999, 12, 31).expect("the day exists"));

    /// Returns the day so many days after 1 January 1970, if a record can name it.
    #[must_use]
    pub fn from_epoch(days: i64) -> Option<Day> {
        let days = u64::try_from(days).ok()?;
        let day = Day(Day::FIRST.0.checked_add_days(Days::new(days))?);
        (day <= Day::LAST).then_some(day)
    }

    /// The number of days since 1 January 1970.
    #[must_use]
    pub fn since_epoch(self) -> i64 {
        (self.0 - Day::FIRST.0).num_days()
    }

    /// The day so many calendar months later, clamped to the end of the month: 31 August plus 6 months is 28 or 29 February.
    ///
    /// Ends at the last day that a record can name.
    #[must_use]
    pub fn plus_months(self, months: u16) -> Day {
        self.0
            .checked_add_months(Months::new(u32::from(months)))
            .map_or(Day::LAST, |day| Day(day).min(Day::LAST))
    }

    /// The day so many calendar months earlier, clamped to the end of the month. Begins at the first day that a record can name.
    #[must_use]
    pub fn minus_months(self, months: u16) -> Day {
        self.0
            .checked_sub_months(Months::new(u32::from(months)))
            .map_or(Day::FIRST, |day| Day(day).max(Day::FIRST))
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let day = self.0;
        write!(f, "{:04}-{:02}-{:02}", day.year(), day.month(), day.day())
    }
}

impl FromStr for Day {
    type Err = NoSuchDay;

    fn from_str(text: &str) -> Result<Day, NoSuchDay> {
        let bytes = text.as_bytes();
        let shaped = bytes.len() == 10
            && bytes.iter().enumerate().all(|(at, byte)| {
                if at == 4 || at == 7 {
                    *byte == b'-'
                } else {
                    byte.is_ascii_digit()
                }
            });
        if !shaped {
            return Err(NoSuchDay);
        }
        let number = |from: usize, to: usize| text[from..to].parse::<u32>().map_err(|_| NoSuchDay);
        let year = i32::try_from(number(0, 4)?).map_err(|_| NoSuchDay)?;
        let day = NaiveDate::from_ymd_opt(year, number(5, 7)?, number(8, 10)?).ok_or(NoSuchDay)?;
        let day = Day(day);
        (Day::FIRST <= day).then_some(day).ok_or(NoSuchDay)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Day {
        text.parse().unwrap()
    }

    #[test]
    fn months_are_clamped_to_the_end_of_the_month() {
        for (from, months, to) in [
            ("2026-08-31", 6, "2027-02-28"),
            ("2027-08-31", 6, "2028-02-29"),
            ("2028-02-29", 12, "2029-02-28"),
            ("2026-01-15", 6, "2026-07-15"),
            ("2026-12-31", 2, "2027-02-28"),
            ("9999-12-01", 6, "9999-12-31"),
        ] {
            assert_eq!(day(from).plus_months(months), day(to), "{from}");
        }
    }

    #[test]
    fn only_days_that_exist_are_read() {
        assert_eq!(day("2026-11-25").since_epoch(), 20_782);
        for text in [
            "2026-02-30",
            "2026-2-03",
            "1969-12-31",
            "2026-13-01",
            "x",
            "2026-11-2５",
        ] {
            assert_eq!(text.parse::<Day>(), Err(NoSuchDay), "{text}");
        }
    }

    proptest::proptest! {
        #[test]
        fn every_day_round_trips(days in 0_i64..2_932_897) {
            let there = Day::from_epoch(days).unwrap();
            proptest::prop_assert_eq!(there.to_string().parse(), Ok(there));
            proptest::prop_assert_eq!(there.since_epoch(), days);
        }
    }
}
