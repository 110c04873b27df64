//! Days and times as people type them, and the offset in which they are meant.

use super::{Laboratory, Place};
use crate::units::{Day, Instant, Offset, Stamp};

/// Half a day, in seconds.
const HALF_A_DAY: i64 = 12 * 60 * 60;

/// Which end of a day is meant where only the day is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moment {
    /// Its first instant.
    Begins,
    /// Its last instant.
    Ends,
}

/// In which offset from UTC the clock of the laboratory stood, and when.
///
/// There is no database of time zones: what is known are the offsets that entries were recorded in, and the one of today.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Calendar {
    /// From when until when every entry was recorded in the same offset, in the order of the record.
    spans: Vec<Span>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Span {
    from: Instant,
    until: Instant,
    offset: Offset,
}

impl Calendar {
    /// What entries of these times and the clock of now tell, the entries in the order in which they were recorded.
    pub fn new(recorded: impl IntoIterator<Item = Stamp>, now: Stamp) -> Calendar {
        let mut spans: Vec<Span> = Vec::new();
        for stamp in recorded.into_iter().chain([now]) {
            let (at, offset) = (stamp.instant(), stamp.offset());
            match spans.last_mut() {
                Some(span) if span.offset == offset => span.until = at.max(span.until),
                _ => spans.push(Span {
                    from: at,
                    until: at,
                    offset,
                }),
            }
        }
        Calendar { spans }
    }

    /// The offset of a day: the one of the entry recorded nearest to its noon, or today's where now is nearer.
    #[must_use]
    pub fn offset_on(&self, day: Day) -> Offset {
        let away = |span: &&Span| {
            let noon = day.first_instant(span.offset).plus_seconds(HALF_A_DAY);
            let noon = noon.since_epoch();
            let before = span.from.since_epoch().saturating_sub(noon);
            let after = noon.saturating_sub(span.until.since_epoch());
            before.max(after).max(0)
        };
        let nearest = self.spans.iter().min_by_key(away);
        nearest.map_or(Offset::UTC, |span| span.offset)
    }

    /// An end of a day in the offset of that day. Nothing where the calendar of a record ends before.
    #[must_use]
    pub fn end(&self, day: Day, side: Moment) -> Option<Stamp> {
        let offset = self.offset_on(day);
        let at = match side {
            Moment::Begins => day.first_instant(offset),
            Moment::Ends => day.last_instant(offset),
        };
        Stamp::new(at, offset)
    }
}

impl Moment {
    /// A time as somebody types it: a day, a day and a time, or with an offset of its own. The offset of that day counts where none is named.
    #[must_use]
    pub fn read(text: &str, side: Moment, calendar: &Calendar) -> Option<Stamp> {
        if let Ok(stamp) = text.parse() {
            return Some(stamp);
        }
        if let Ok(day) = text.parse::<Day>() {
            return calendar.end(day, side);
        }
        let (day, time) = text.split_once([' ', 'T'])?;
        let offset = calendar.offset_on(day.parse().ok()?);
        let seconds = if time.len() == 5 { ":00" } else { "" };
        format!("{day}T{time}{seconds}{offset}").parse().ok()
    }
}

impl<P: Place> Laboratory<P> {
    /// The offsets that entries of this workstation were recorded in, and today's. Another workstation may stand elsewhere.
    pub fn calendar(&self) -> Calendar {
        let entries = self.ledger().entries().iter();
        let frames = entries.map(|entry| entry.frame());
        let own = frames.filter(|frame| frame.strand == *self.workstation());
        Calendar::new(own.map(|frame| frame.recorded), self.now())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stamp(text: &str) -> Stamp {
        text.parse().unwrap()
    }

    fn calendar(recorded: &[&str], now: &str) -> Calendar {
        Calendar::new(recorded.iter().map(|text| stamp(text)), stamp(now))
    }

    #[test]
    fn a_time_is_typed_as_people_write_it() {
        let calendar = calendar(&[], "2026-06-30T12:00:00+02:00");
        for (text, side, means) in [
            ("2026-03-03", Moment::Begins, "2026-03-03T00:00:00+02:00"),
            ("2026-03-03", Moment::Ends, "2026-03-03T23:59:59+02:00"),
            (
                "2026-03-03 10:40",
                Moment::Ends,
                "2026-03-03T10:40:00+02:00",
            ),
            (
                "2026-03-03T10:40:30",
                Moment::Ends,
                "2026-03-03T10:40:30+02:00",
            ),
            (
                "2026-03-03T10:40:30+01:00",
                Moment::Ends,
                "2026-03-03T10:40:30+01:00",
            ),
        ] {
            let read = Moment::read(text, side, &calendar).map(|stamp| stamp.to_string());
            assert_eq!(read.as_deref(), Some(means), "{text}");
        }
        for text in ["", "tomorrow", "2026-02-30", "2026-03-03 25:00", "10:40"] {
            assert_eq!(
                Moment::read(text, Moment::Begins, &calendar),
                None,
                "{text}"
            );
        }
    }

    #[test]
    fn a_day_is_meant_in_the_offset_of_what_was_recorded_about_then() {
        let calendar = calendar(
            &[
                "2025-11-03T09:00:00+01:00",
                "2026-02-10T16:00:00+01:00",
                "2026-03-30T08:00:00+02:00",
                "2026-10-20T08:00:00+02:00",
            ],
            "2026-11-28T10:00:00+01:00",
        );
        for (day, offset) in [
            // Before the first entry.
            ("2025-06-01", "+01:00"),
            ("2026-01-15", "+01:00"),
            // Nearer to the last of the winter, nearer to the first of the summer.
            ("2026-02-20", "+01:00"),
            ("2026-03-28", "+02:00"),
            ("2026-06-30", "+02:00"),
            // After the last entry: nearer to it, nearer to now, and to come.
            ("2026-10-22", "+02:00"),
            ("2026-11-20", "+01:00"),
            ("2027-07-01", "+01:00"),
        ] {
            let read = Moment::read(day, Moment::Ends, &calendar).unwrap();
            assert_eq!(read.offset().to_string(), offset, "{day}");
            assert_eq!(read.day().to_string(), day);
            let at_ten = Moment::read(&format!("{day} 10:00"), Moment::Ends, &calendar).unwrap();
            assert_eq!(at_ten.offset().to_string(), offset, "{day}");
        }
    }
}
