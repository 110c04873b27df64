//! What comes round in the demonstration: reviews, copies, and practice of everybody at the bench.

use super::acts::Act;
use super::calendar::{TODAY, after_days, day, hour, is_open, plus, working};
use super::cast::{ADVANCED, CAST, EXPERIENCED, FIRST, GONE, RETURNED, SECOND, Work};
use super::story::{DRILLS, Story};
use crate::record::entry::{Ending, Help};

impl Story {
    /// What comes round: reviews, copies, and practice of everybody at the bench.
    pub(super) fn routine(&mut self) {
        let (mut now, last) = (day("2025-02-01"), day(TODAY));
        let mut month = 0;
        while now.since_epoch() <= last.since_epoch() {
            let first = after_days(now, 0);
            self.on(first, hour::MORNING, Act::Review);
            if month % 3 == 1 {
                self.on(working(first, 3), hour::NOON, Act::TryBackup);
            }
            for (number, who) in [FIRST, SECOND, EXPERIENCED, RETURNED, GONE, ADVANCED]
                .into_iter()
                .enumerate()
            {
                let on = working(first, 2 + i64::try_from(number).unwrap_or(0));
                let there = |from: i64| day(CAST[who].from).since_epoch() + from < on.since_epoch();
                let gone = who == GONE && on.since_epoch() > day("2026-02-26").since_epoch();
                // Nobody practises at the side in the first months; then their own path is enough.
                if !there(170) || gone {
                    continue;
                }
                let drill = DRILLS[(month + number) % DRILLS.len()];
                let work = Work::ALL[(month + number) % 2];
                self.on(on, hour::NOON, Act::Drill(who, work, drill));
                let ending = if (month + number) % 5 == 0 {
                    Ending::NotClean
                } else {
                    Ending::Clean
                };
                let rehearsal = Act::Rehearse(who, work, Help::Unaided, ending);
                self.on(on, hour::LATER, rehearsal);
            }
            month += 1;
            now = now.plus_months(1);
        }
        let mut friday = day("2025-01-10");
        while friday.since_epoch() <= last.since_epoch() {
            if is_open(friday) {
                self.on(friday, hour::END + 30, Act::Backup);
            }
            friday = plus(friday, 14);
        }
    }
}
