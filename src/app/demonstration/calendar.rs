//! The demonstration's calendar: central European time from January 2025 to June 2026, Monday to Friday, closed around the new year.

use crate::units::{Day, Instant, Offset, Stamp};

/// The first day on which the demonstration's laboratory keeps its record.
pub(super) const FIRST: &str = "2025-01-06";
/// The day that is today in the demonstration.
pub(super) const TODAY: &str = "2026-06-30";

/// Summer time of those years: from the last Sunday in March to the day before the last Sunday in October. Clocks change on a day off, so the day
/// alone decides. Source: Directive 2000/84/EC, from memory.
const SUMMERS: [(&str, &str); 2] = [("2025-03-30", "2025-10-25"), ("2026-03-29", "2026-10-24")];
/// The laboratory is closed. Invented.
const CLOSED: (&str, &str) = ("2025-12-24", "2026-01-02");

/// Minutes since midnight at which things are usually done. They lie further apart than the shift with which acts are performed.
pub(super) mod hour {
    pub(in super::super) const FIRST_THING: i64 = 8 * 60 + 5;
    pub(in super::super) const MORNING: i64 = 9 * 60;
    pub(in super::super) const LATE_MORNING: i64 = 10 * 60 + 30;
    pub(in super::super) const NOON: i64 = 11 * 60 + 30;
    pub(in super::super) const AFTERNOON: i64 = 13 * 60;
    pub(in super::super) const LATER: i64 = 14 * 60 + 15;
    pub(in super::super) const BEFORE_END: i64 = 15 * 60 + 15;
    pub(in super::super) const END: i64 = 16 * 60;
}

/// A day of the calendar by its date. The story's dates are constants, and a test reads all of them.
pub(super) fn day(date: &str) -> Day {
    date.parse().unwrap_or(Day::LAST)
}

/// A time on a day, in minutes since midnight at the laboratory.
pub(super) fn at(day: Day, minute: i64) -> Stamp {
    let offset = offset(day);
    let instant = day.first_instant(offset).plus_seconds(minute * 60);
    stamp(instant, offset)
}

/// The same place so many seconds later.
pub(super) fn later(from: Stamp, seconds: i64) -> Stamp {
    stamp(from.instant().plus_seconds(seconds), from.offset())
}

/// The first day that is so many calendar days later and on which somebody works.
pub(super) fn after_days(from: Day, days: i64) -> Day {
    let mut next = plus(from, days);
    while !is_open(next) {
        next = plus(next, 1);
    }
    next
}

/// So many working days later.
pub(super) fn working(from: Day, days: i64) -> Day {
    (0..days).fold(from, |day, _| after_days(day, 1))
}

/// Whether somebody works.
pub(super) fn is_open(day: Day) -> bool {
    // The first day of 1970 was a Thursday.
    let weekday = (day.since_epoch() + 3).rem_euclid(7);
    let text = day.to_string();
    weekday < 5 && !within(&text, CLOSED)
}

/// So many days later, of whatever kind.
pub(super) fn plus(from: Day, days: i64) -> Day {
    Day::from_epoch(from.since_epoch() + days).unwrap_or(from)
}

fn offset(day: Day) -> Offset {
    let text = day.to_string();
    let summer = SUMMERS.iter().any(|&summer| within(&text, summer));
    Offset::minutes(if summer { 120 } else { 60 }).unwrap_or(Offset::UTC)
}

fn within(date: &str, (from, to): (&str, &str)) -> bool {
    (from..=to).contains(&date)
}

fn stamp(instant: Instant, offset: Offset) -> Stamp {
    // Every day of the story is within what a record can name.
    Stamp::new(instant, offset).unwrap_or_else(|| at(day(FIRST), 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_off_are_left_out_and_clocks_change() {
        assert_eq!(working(day("2025-12-23"), 1), day("2026-01-05"));
        assert_eq!(after_days(day("2025-03-07"), 1), day("2025-03-10"));
        let winter = at(day("2025-03-28"), 8 * 60).to_string();
        assert_eq!(winter, "2025-03-28T08:00:00+01:00");
        let summer = at(day("2025-03-31"), 8 * 60).to_string();
        assert_eq!(summer, "2025-03-31T08:00:00+02:00");
        let back = at(day("2025-10-27"), 17 * 60).to_string();
        assert_eq!(back, "2025-10-27T17:00:00+01:00");
    }
}
