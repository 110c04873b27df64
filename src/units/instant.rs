//! Instants, and instants as they were written: with the offset of the place.

use std::fmt;
use std::str::FromStr;

use super::day::Day;

const DAY_SECONDS: i64 = 86_400;
/// No place on earth is further from UTC than this.
const OFFSET_MINUTES_MOST: i16 = 14 * 60;

/// An instant, in whole seconds since the beginning of 1970 in UTC. Leap seconds are not counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Instant(i64);

/// How far a place's clock is ahead of UTC, in minutes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Offset(i16);

/// An instant as it was written down: with the offset of the place. Prints as `2026-02-03T09:15:00+01:00` (RFC 3339).
///
/// Two stamps of one instant differ when their offsets do, so stamps have no order: compare their instants.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stamp {
    instant: Instant,
    offset: Offset,
}

/// Why a text is no stamp: it is not written exactly as a stamp prints, or names no instant that a record can name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSuchInstant;

impl Instant {
    /// The instant so many seconds after the beginning of 1970.
    #[must_use]
    pub const fn from_epoch(seconds: i64) -> Instant {
        Instant(seconds)
    }

    /// The number of seconds since the beginning of 1970.
    #[must_use]
    pub const fn since_epoch(self) -> i64 {
        self.0
    }

    /// The instant so many days of 24 hours later; negative for earlier.
    #[must_use]
    pub const fn plus_days(self, days: i64) -> Instant {
        self.plus_seconds(days.saturating_mul(DAY_SECONDS))
    }

    /// The instant so many seconds later; negative for earlier.
    #[must_use]
    pub const fn plus_seconds(self, seconds: i64) -> Instant {
        Instant(self.0.saturating_add(seconds))
    }
}

impl Offset {
    /// UTC itself.
    pub const UTC: Offset = Offset(0);

    /// The offset of so many minutes east of UTC, if there is such a place.
    #[must_use]
    pub const fn minutes(minutes: i16) -> Option<Offset> {
        if minutes.unsigned_abs() <= OFFSET_MINUTES_MOST.unsigned_abs() {
            Some(Offset(minutes))
        } else {
            None
        }
    }

    const fn seconds(self) -> i64 {
        self.0 as i64 * 60
    }
}

impl fmt::Display for Offset {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { '-' } else { '+' };
        let minutes = self.0.unsigned_abs();
        write!(f, "{sign}{:02}:{:02}", minutes / 60, minutes % 60)
    }
}

impl Stamp {
    /// The stamp of an instant at a place, if the place's calendar is within what a record can name.
    #[must_use]
    pub fn new(instant: Instant, offset: Offset) -> Option<Stamp> {
        let stamp = Stamp { instant, offset };
        Day::from_epoch(stamp.local_seconds().div_euclid(DAY_SECONDS))?;
        Some(stamp)
    }

    /// The instant.
    #[must_use]
    pub const fn instant(self) -> Instant {
        self.instant
    }

    /// The offset of the place.
    #[must_use]
    pub const fn offset(self) -> Offset {
        self.offset
    }

    /// The day at the place.
    #[must_use]
    pub fn day(self) -> Day {
        // A stamp is only made where this day exists.
        Day::from_epoch(self.local_seconds().div_euclid(DAY_SECONDS)).unwrap_or(Day::LAST)
    }

    const fn local_seconds(self) -> i64 {
        self.instant.0 + self.offset.seconds()
    }
}

impl Day {
    /// The first instant of the day at a place.
    #[must_use]
    pub fn first_instant(self, offset: Offset) -> Instant {
        Instant(self.since_epoch() * DAY_SECONDS - offset.seconds())
    }

    /// The last instant of the day at a place.
    #[must_use]
    pub fn last_instant(self, offset: Offset) -> Instant {
        self.first_instant(offset).plus_seconds(DAY_SECONDS - 1)
    }
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let of_day = self.local_seconds().rem_euclid(DAY_SECONDS);
        let (hour, minute, second) = (of_day / 3600, of_day / 60 % 60, of_day % 60);
        let (day, offset) = (self.day(), self.offset);
        write!(f, "{day}T{hour:02}:{minute:02}:{second:02}{offset}")
    }
}

impl FromStr for Stamp {
    type Err = NoSuchInstant;

    /// Reads exactly what [`fmt::Display`] prints: no `Z`, no fractions, no `-00:00`, so that one stamp has one spelling.
    fn from_str(text: &str) -> Result<Stamp, NoSuchInstant> {
        if text.len() != 25 || !text.is_ascii() {
            return Err(NoSuchInstant);
        }
        let number = |at: usize| -> Result<i64, NoSuchInstant> {
            let digits = &text[at..at + 2];
            let all = digits.bytes().all(|byte| byte.is_ascii_digit());
            all.then(|| digits.parse().ok())
                .flatten()
                .ok_or(NoSuchInstant)
        };
        let day: Day = text[..10].parse().map_err(|_| NoSuchInstant)?;
        let (hour, minute, second) = (number(11)?, number(14)?, number(17)?);
        if hour > 23 || minute > 59 || second > 59 {
            return Err(NoSuchInstant);
        }
        let minutes_east = number(23)?;
        let east = number(20)? * 60 + minutes_east;
        let east = if &text[19..20] == "-" { -east } else { east };
        let offset = i16::try_from(east).ok().and_then(Offset::minutes);
        let offset = offset.ok_or(NoSuchInstant)?;
        let seconds = hour * 3600 + minute * 60 + second;
        let instant = day.first_instant(offset).plus_seconds(seconds);
        let between = |at: usize| text.as_bytes()[at];
        let separated = between(10) == b'T'
            && [13, 16, 22].map(between) == [b':'; 3]
            && matches!(between(19), b'+' | b'-');
        // UTC is written with a plus.
        let zero = east == 0 && between(19) == b'-';
        if separated && minutes_east < 60 && !zero {
            Ok(Stamp { instant, offset })
        } else {
            Err(NoSuchInstant)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stamp(text: &str) -> Stamp {
        text.parse().unwrap()
    }

    // The first and second text are examples of RFC 3339, section 5.8, without their fractions.
    #[test]
    fn stamps_are_read_and_printed() {
        for (text, seconds) in [
            ("1985-04-12T23:20:50+00:00", 482_196_050),
            ("1996-12-19T16:39:57-08:00", 851_042_397),
            ("2026-02-03T09:15:00+01:00", 1_770_106_500),
            ("1970-01-01T00:00:00-00:01", 60),
        ] {
            assert_eq!(
                stamp(text).instant(),
                Instant::from_epoch(seconds),
                "{text}"
            );
            assert_eq!(stamp(text).to_string(), text);
        }
    }

    #[test]
    fn one_stamp_has_one_spelling() {
        for text in [
            "1985-04-12T23:20:50Z",
            "1985-04-12T23:20:50.5+00:00",
            "1985-04-12 23:20:50+00:00",
            "1985-04-12T23:20:50-00:00",
            "1990-12-31T23:59:60+00:00",
            "1985-04-12T24:00:00+00:00",
            "1985-04-12T23:20:50+01:60",
            "1985-04-12T23:20:50+15:00",
            "1985-02-30T23:20:50+01:00",
        ] {
            assert_eq!(text.parse::<Stamp>(), Err(NoSuchInstant), "{text}");
        }
    }

    #[test]
    fn the_day_is_that_of_the_place() {
        let late = stamp("2026-03-31T23:59:59-05:00");
        assert_eq!(late.day().to_string(), "2026-03-31");
        assert_eq!(late.day().last_instant(late.offset()), late.instant());
    }

    proptest::proptest! {
        #[test]
        fn every_stamp_round_trips(seconds in 100_000_i64..253_402_200_000, minutes in -840_i16..=840) {
            let offset = Offset::minutes(minutes).unwrap();
            let there = Stamp::new(Instant::from_epoch(seconds), offset).unwrap();
            proptest::prop_assert_eq!(there.to_string().parse(), Ok(there));
        }

        #[test]
        fn what_is_read_is_what_is_printed(seconds in 100_000_i64..253_402_200_000, at in 0_usize..25, other in "[-+:TZ 0-9]") {
            let there = Stamp::new(Instant::from_epoch(seconds), Offset::UTC).unwrap();
            let mut text = there.to_string();
            text.replace_range(at..=at, &other);
            if let Ok(read) = text.parse::<Stamp>() {
                proptest::prop_assert_eq!(read.to_string(), text);
            }
        }

        #[test]
        fn no_text_makes_reading_panic(text in "[-+:T0-9]{0,26}") {
            let _ = text.parse::<Stamp>();
            let _ = text.parse::<Day>();
        }
    }
}
