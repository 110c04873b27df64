//! Times as people type them.

use crate::units::{Day, Stamp};

/// Which end of a day is meant where only the day is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moment {
    /// Its first instant.
    Begins,
    /// Its last instant.
    Ends,
}

impl Moment {
    /// A time as somebody types it: a day, a day and a time, or with an offset of its own. Today's offset counts where none is named.
    #[must_use]
    pub fn read(text: &str, side: Moment, now: Stamp) -> Option<Stamp> {
        if let Ok(stamp) = text.parse() {
            return Some(stamp);
        }
        let offset = now.offset();
        if let Ok(day) = text.parse::<Day>() {
            let at = match side {
                Moment::Begins => day.first_instant(offset),
                Moment::Ends => day.last_instant(offset),
            };
            return Stamp::new(at, offset);
        }
        let (day, time) = text.split_once([' ', 'T'])?;
        let seconds = if time.len() == 5 { ":00" } else { "" };
        format!("{day}T{time}{seconds}{offset}").parse().ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_typed_as_people_write_it() {
        let now = "2026-06-30T12:00:00+02:00".parse().unwrap();
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
            let read = Moment::read(text, side, now).map(|stamp| stamp.to_string());
            assert_eq!(read.as_deref(), Some(means), "{text}");
        }
        for text in ["", "tomorrow", "2026-02-30", "2026-03-03 25:00", "10:40"] {
            assert_eq!(Moment::read(text, Moment::Begins, now), None, "{text}");
        }
    }
}
