//! What happens in the demonstration, day by day: a list of acts, each with its time, in the order of time.
//!
//! Each path is written down by itself; sorting puts them beside each other. What an act takes (evidence, editions, case numbers) is found by
//! whoever performs it, from the record as it stands then.

use super::acts::{Act, Planned, Went};
use super::calendar::{TODAY, after_days, at, day, hour, plus, working};
use super::cast::{
    ADVANCED, BEGINNER, CAST, EXPERIENCED, FIRST, GONE, OWNER, QUALITY, RETURNED, SECOND, Who, Work,
};
use crate::record::entry::{Ending, Help, Impact, Stage};
use crate::units::Day;

/// Kinds of drills, in the order in which they come round.
pub(super) const DRILLS: [&str; 6] = [
    "order",
    "protect",
    "how-long",
    "next",
    "find-the-slip",
    "what-follows",
];

/// A way from the need to the sign-off.
struct Path {
    who: Who,
    work: Work,
    start: &'static str,
    trainer: Who,
    /// So many working days from one thing to the next.
    pace: i64,
    /// Unaided rehearsals that are not clean, before three that are.
    slips: usize,
    cases: usize,
    observed: &'static [Went],
    /// Whether it was evaluated at the end.
    evaluated: bool,
    /// Who signs off at the end.
    approver: Option<Who>,
}

/// The story while it is being written down.
pub(super) struct Story(Vec<Planned>);

/// The whole story.
pub(super) fn story() -> Vec<Planned> {
    let mut story = Story(Vec::new());
    story.beginning();
    story.first_assessors();
    story.paths();
    story.renewals();
    story.revision();
    story.incidents();
    story.routine();
    let end = at(day(TODAY), hour::END);
    story.0.retain(|(at, _)| at.instant() <= end.instant());
    // Stable: what is planned for one time stays in the order in which it was written down.
    story.0.sort_by_key(|(at, _)| at.instant());
    story.0
}

impl Story {
    /// Something is to happen on a day, at a minute.
    pub(super) fn on(&mut self, day: Day, minute: i64, act: Act) {
        self.0.push((at(day, minute), act));
    }

    fn beginning(&mut self) {
        for (who, part) in CAST.iter().enumerate() {
            self.on(day(part.from), hour::FIRST_THING, Act::Join(who));
        }
        self.on(day("2025-01-08"), hour::MORNING, Act::Policy);
        for (work, on) in [(Work::Wet, "2025-01-09"), (Work::Teeth, "2025-01-10")] {
            let on = day(on);
            let act = Act::Adopt(work, Impact::Reassess, working(on, 1));
            self.on(on, hour::LATE_MORNING, act);
        }
    }

    /// Nobody is signed off yet. Two people who were trained outside begin on the same day, so that there are two assessors, as the modules ask.
    fn first_assessors(&mut self) {
        let begin = [
            (Work::Wet, "2025-01-13", "2025-01-27"),
            (Work::Teeth, "2025-01-28", "2025-02-10"),
        ];
        for (work, start, from) in begin {
            for (who, other) in [(FIRST, SECOND), (SECOND, FIRST)] {
                let start = day(start);
                self.on(start, hour::FIRST_THING, Act::Assign(who, work, OWNER));
                self.on(start, hour::MORNING, Act::Read(who, work));
                for run in 1..=3 {
                    let drill = Act::Drill(who, work, DRILLS[run % DRILLS.len()]);
                    let on = working(start, i64::try_from(run).unwrap_or(0));
                    self.on(on, hour::AFTERNOON, drill);
                    let clean = Act::Rehearse(who, work, Help::Unaided, Ending::Clean);
                    self.on(on, hour::BEFORE_END, clean);
                }
                let from = day(from);
                let signed = working(start, 7);
                self.on(signed, hour::END, Act::Begin(who, work, from));
                let shown = working(from, 1);
                self.on(shown, hour::MORNING, Act::Protect(who, work, other));
                self.effect(who, work, other, from);
            }
        }
    }

    /// Whether training worked is asked again about six weeks after a sign-off.
    fn effect(&mut self, who: Who, work: Work, by: Who, signed: Day) {
        let on = after_days(signed, 44);
        self.on(
            on,
            hour::LATE_MORNING,
            Act::Evaluate(who, work, by, Stage::Later),
        );
    }

    fn paths(&mut self) {
        use Went::{Clean, Failed, Prompted};
        let path = |who, work, start, trainer, pace, slips, observed| Path {
            who,
            work,
            start,
            trainer,
            pace,
            slips,
            cases: match work {
                Work::Wet => 3,
                Work::Teeth => 10,
            },
            observed,
            evaluated: true,
            approver: Some(OWNER),
        };
        let wet = |who, start, trainer, slips, observed| {
            path(who, Work::Wet, start, trainer, 2, slips, observed)
        };
        let teeth = |who, start, trainer, slips, observed| {
            path(who, Work::Teeth, start, trainer, 2, slips, observed)
        };
        let signed_by = |approver, path| Path {
            approver: Some(approver),
            ..path
        };
        let all = [
            wet(EXPERIENCED, "2025-02-05", FIRST, 0, &[Clean, Clean]),
            wet(RETURNED, "2025-02-12", SECOND, 1, &[Prompted, Clean, Clean]),
            signed_by(
                SECOND,
                wet(GONE, "2025-02-19", FIRST, 2, &[Failed, Clean, Clean]),
            ),
            wet(QUALITY, "2025-02-24", FIRST, 0, &[Clean, Clean]),
            teeth(
                EXPERIENCED,
                "2025-03-17",
                FIRST,
                1,
                &[Prompted, Clean, Clean, Clean],
            ),
            signed_by(
                FIRST,
                teeth(
                    RETURNED,
                    "2025-05-05",
                    SECOND,
                    2,
                    &[Failed, Clean, Clean, Clean],
                ),
            ),
            teeth(
                GONE,
                "2025-06-02",
                SECOND,
                1,
                &[Prompted, Failed, Clean, Clean, Clean],
            ),
            signed_by(
                FIRST,
                wet(ADVANCED, "2025-09-08", SECOND, 1, &[Prompted, Clean, Clean]),
            ),
            Path {
                cases: 6,
                pace: 3,
                evaluated: false,
                approver: None,
                ..teeth(ADVANCED, "2026-03-16", FIRST, 1, &[Prompted])
            },
            Path {
                pace: 6,
                approver: None,
                ..wet(BEGINNER, "2026-03-09", SECOND, 2, &[Failed, Clean, Clean])
            },
        ];
        for path in all {
            self.path(&path);
        }
        // The newest one has only begun with the second workflow.
        let (who, work) = (BEGINNER, Work::Teeth);
        let start = day("2026-06-15");
        self.on(start, hour::FIRST_THING, Act::Assign(who, work, FIRST));
        self.on(start, hour::MORNING, Act::Read(who, work));
        self.on(
            working(start, 1),
            hour::LATE_MORNING,
            Act::Train(who, work, FIRST),
        );
        for (after, help, ending) in [
            (2, Help::Guided, Ending::Abandoned),
            (4, Help::Guided, Ending::NotClean),
            (7, Help::Prompted, Ending::NotClean),
            (9, Help::Unaided, Ending::NotClean),
        ] {
            let on = working(start, after);
            self.on(on, hour::AFTERNOON, Act::Drill(who, work, DRILLS[0]));
            self.on(on, hour::BEFORE_END, Act::Rehearse(who, work, help, ending));
        }
    }

    fn path(&mut self, path: &Path) {
        let &Path {
            who,
            work,
            trainer,
            pace,
            ..
        } = path;
        let mut now = day(path.start);
        self.on(now, hour::FIRST_THING, Act::Assign(who, work, trainer));
        self.on(now, hour::MORNING, Act::Read(who, work));
        now = working(now, 1);
        self.on(now, hour::LATE_MORNING, Act::Train(who, work, trainer));
        let mut runs = vec![
            (Help::Guided, Ending::NotClean),
            (Help::Guided, Ending::Clean),
            (Help::Prompted, Ending::NotClean),
            (Help::Prompted, Ending::Clean),
        ];
        runs.extend(vec![(Help::Unaided, Ending::NotClean); path.slips]);
        runs.extend([(Help::Unaided, Ending::Clean); 3]);
        for (number, (help, ending)) in runs.into_iter().enumerate() {
            now = working(now, 1);
            let drill = Act::Drill(who, work, DRILLS[number % DRILLS.len()]);
            self.on(now, hour::AFTERNOON, drill);
            self.on(
                now,
                hour::BEFORE_END,
                Act::Rehearse(who, work, help, ending),
            );
        }
        now = working(now, 1);
        self.on(now, hour::MORNING, Act::Protect(who, work, trainer));
        now = working(now, pace);
        let until = plus(now, 90);
        self.on(
            now,
            hour::FIRST_THING,
            Act::Supervise(who, work, trainer, until),
        );
        for number in 0..path.cases {
            now = working(now, pace);
            // Who slipped in rehearsals slips once at work, too.
            if number == 1 && path.slips > 1 {
                self.on(
                    now,
                    hour::LATE_MORNING,
                    Act::Case(who, work, trainer, false),
                );
                now = working(now, pace);
            }
            self.on(now, hour::LATE_MORNING, Act::Case(who, work, trainer, true));
        }
        for (number, &went) in path.observed.iter().enumerate() {
            now = working(now, pace);
            let by = if number % 2 == 0 { FIRST } else { SECOND };
            self.on(now, hour::AFTERNOON, Act::Observe(who, work, by, went));
            if went == Went::Failed {
                now = working(now, pace);
                self.on(now, hour::LATE_MORNING, Act::Train(who, work, trainer));
            }
        }
        if path.evaluated {
            self.on(
                now,
                hour::LATER,
                Act::Evaluate(who, work, SECOND, Stage::AtAssessment),
            );
        }
        if let Some(approver) = path.approver {
            now = working(now, 1);
            self.on(now, hour::END, Act::SignOff(who, work, approver));
            self.effect(who, work, FIRST, now);
        }
    }

    fn renew(&mut self, who: Who, work: Work, by: Who, approver: Who, on: &str) {
        let on = day(on);
        self.on(
            on,
            hour::LATE_MORNING,
            Act::Observe(who, work, by, Went::Clean),
        );
        self.on(
            on,
            hour::AFTERNOON,
            Act::Evaluate(who, work, by, Stage::AtAssessment),
        );
        self.on(on, hour::BEFORE_END, Act::SignOff(who, work, approver));
        self.effect(who, work, by, on);
    }

    fn renewals(&mut self) {
        use Work::{Teeth, Wet};
        for (who, work, by, approver, on) in [
            (FIRST, Wet, SECOND, OWNER, "2025-07-08"),
            (SECOND, Wet, FIRST, OWNER, "2025-07-09"),
            (FIRST, Teeth, SECOND, OWNER, "2025-07-22"),
            (SECOND, Teeth, FIRST, OWNER, "2025-07-23"),
            (RETURNED, Wet, FIRST, SECOND, "2025-08-05"),
            (EXPERIENCED, Wet, SECOND, OWNER, "2025-08-20"),
            (GONE, Wet, FIRST, OWNER, "2025-09-24"),
            (EXPERIENCED, Teeth, SECOND, FIRST, "2025-10-15"),
            (RETURNED, Teeth, SECOND, OWNER, "2025-12-10"),
            (GONE, Teeth, FIRST, OWNER, "2026-01-14"),
            (ADVANCED, Wet, SECOND, OWNER, "2026-04-08"),
            (FIRST, Wet, SECOND, OWNER, "2026-05-06"),
            (SECOND, Wet, FIRST, OWNER, "2026-05-07"),
            // On the second revision.
            (FIRST, Teeth, SECOND, OWNER, "2026-05-12"),
            (SECOND, Teeth, FIRST, OWNER, "2026-05-13"),
            (EXPERIENCED, Teeth, FIRST, OWNER, "2026-05-19"),
            (EXPERIENCED, Wet, FIRST, SECOND, "2026-06-10"),
        ] {
            self.renew(who, work, by, approver, on);
        }
    }

    /// The second revision of the stock teeth asks those who were signed off to be trained on it. One of them never is.
    fn revision(&mut self) {
        let (work, holds) = (Work::Teeth, day("2026-03-02"));
        let act = Act::Adopt(work, Impact::Retrain, holds);
        self.on(day("2026-02-09"), hour::LATE_MORNING, act);
        for (who, by, on) in [
            (FIRST, SECOND, "2026-02-11"),
            (SECOND, FIRST, "2026-02-12"),
            (EXPERIENCED, FIRST, "2026-02-18"),
        ] {
            self.on(day(on), hour::MORNING, Act::Read(who, work));
            self.on(day(on), hour::LATER, Act::Train(who, work, by));
        }
    }

    fn incidents(&mut self) {
        use Work::{Teeth, Wet};
        self.on(day("2025-06-17"), hour::FIRST_THING, Act::Mistype(RETURNED));
        self.on(day("2025-09-15"), hour::NOON, Act::Withdraw(QUALITY, Wet));
        self.on(
            day("2025-11-05"),
            hour::MORNING,
            Act::ReplaceKey(EXPERIENCED),
        );
        self.on(day("2026-02-27"), hour::END, Act::Leave(GONE));
        self.on(day("2026-06-16"), hour::NOON, Act::CallIn(SECOND, Teeth));
        self.suspension(RETURNED, Teeth);
        // A run in April that was left on paper for two weeks, then the way back.
        let (who, work) = (EXPERIENCED, Teeth);
        let then = at(day("2026-04-14"), hour::LATE_MORNING);
        let act = Act::ObserveLate(who, work, SECOND, Went::Failed, then);
        self.on(day("2026-04-28"), hour::MORNING, act);
        self.on(
            day("2026-05-05"),
            hour::LATE_MORNING,
            Act::Train(who, work, FIRST),
        );
        // Numbers that were misread, and a case that was somebody else's.
        self.correct();
    }

    fn suspension(&mut self, who: Who, work: Work) {
        self.on(day("2025-10-14"), hour::NOON, Act::Suspend(who, work));
        let (back, until) = (day("2025-10-15"), day("2025-11-14"));
        self.on(
            back,
            hour::FIRST_THING,
            Act::Supervise(who, work, FIRST, until),
        );
        self.on(back, hour::LATE_MORNING, Act::Train(who, work, FIRST));
        for on in ["2025-10-16", "2025-10-20", "2025-10-22"] {
            self.on(day(on), hour::AFTERNOON, Act::Case(who, work, FIRST, true));
        }
        let seen = day("2025-10-24");
        self.on(
            seen,
            hour::AFTERNOON,
            Act::Observe(who, work, SECOND, Went::Clean),
        );
        self.on(seen, hour::END, Act::Reinstate(who, work, FIRST));
    }

    fn correct(&mut self) {
        let (who, work) = (EXPERIENCED, Work::Teeth);
        let case = |act: &Act| matches!(act, Act::Case(of, on, ..) if (*of, *on) == (who, work));
        if let Some(on) = self.newest(case, "2025-06-30") {
            self.on(on, hour::END, Act::CorrectCase(who, FIRST));
        }
        let who = RETURNED;
        let seen = |act: &Act| matches!(act, Act::Observe(of, on, ..) if (*of, *on) == (who, work));
        if let Some(on) = self.newest(seen, "2025-09-30") {
            self.on(on, hour::LATER - 15, Act::CorrectObserved(who));
        }
        let (who, wrong) = (ADVANCED, day("2026-06-03"));
        let case = Act::Case(who, work, FIRST, true);
        self.on(wrong, hour::BEFORE_END, case);
        self.on(wrong, hour::END, Act::VoidCase(who, FIRST));
    }

    /// The last day before a date on which something of the kind is planned.
    fn newest(&self, fits: impl Fn(&Act) -> bool, before: &str) -> Option<Day> {
        let all = self.0.iter().filter(|(_, act)| fits(act));
        all.map(|(at, _)| at.day())
            .filter(|on| on.since_epoch() < day(before).since_epoch())
            .max_by_key(|on| on.since_epoch())
    }
}
