//! The figures of a run: times against windows, warmth, residue, light and air.

mod light;

use super::figure::{
    Axis, Bar, BarGroup, Bars, Bound, Curve, Figure, Mark, Point, Series, Stroke, Timeline,
    TimelineRow,
};
use super::names::Names;
use super::wording::vapour;
use crate::bench::{Cleaning, Limits, Outcome, Region};
use crate::rehearsal::trace::{Event, What};
use crate::syllabus::module::Module;
use crate::syllabus::plan::Plan;
use crate::text::{Caution, Value, Words, display_safe};
use crate::units::{MilliCelsius, Millis, Ppm};

/// All figures that a run gives, those with nothing in them left out.
#[must_use]
pub fn figures(
    module: &Module,
    plan: &Plan,
    trace: &[Event],
    outcome: &Outcome,
    limits: Limits,
    words: &Words,
) -> Vec<Figure> {
    let drawing = Drawing {
        names: Names {
            module,
            plan,
            words,
        },
        outcome,
        limits,
    };
    let mut all = Vec::new();
    all.extend(drawing.timeline(trace));
    all.extend(drawing.vessels());
    all.extend(drawing.residue());
    all.extend(drawing.tooth_dose());
    all.extend(drawing.body_dose());
    all.extend(drawing.air());
    all
}

struct Drawing<'a> {
    names: Names<'a>,
    outcome: &'a Outcome,
    limits: Limits,
}

impl Drawing<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.names.words.say(id, values)
    }

    fn write(&self, value: impl Into<Value>) -> String {
        self.names.words.write(&value.into())
    }

    fn note(&self) -> String {
        Caution::TeachingModel.say(self.names.words)
    }

    fn timeline(&self, trace: &[Event]) -> Option<Figure> {
        let plan = self.names.plan;
        let mut rows = Vec::new();
        for (step, tasks) in plan.tasks_of_step.iter().enumerate() {
            let window = tasks
                .first()
                .and_then(|&task| plan.tasks[task].keeping.as_ref()?.window());
            let was: Vec<Millis> = trace
                .iter()
                .filter_map(|event| match event.what {
                    What::Task {
                        task,
                        timed: Some(timed),
                        ..
                    } if plan.tasks[task].step == step => Some(timed),
                    _ => None,
                })
                .collect();
            let Some(window) = window.filter(|_| !was.is_empty()) else {
                continue;
            };
            let mut row = TimelineRow {
                label: display_safe(&self.names.module.steps[step].title),
                least: window.least,
                target: window.target,
                most: window.most,
                was,
                said: String::new(),
            };
            let missed = row.was.iter().filter(|was| !row.allows(**was)).count();
            let shortest = row.was.iter().min().copied().unwrap_or(Millis::ZERO);
            let longest = row.was.iter().max().copied().unwrap_or(Millis::ZERO);
            let values = [
                ("shortest", shortest.into()),
                ("longest", longest.into()),
                ("least", window.least.into()),
                ("most", window.most.into()),
                ("count", row.was.len().into()),
                ("missed", missed.into()),
            ];
            row.said = if row.was.len() == 1 {
                self.say("debrief-timeline-once", &values)
            } else if shortest == longest {
                self.say("debrief-timeline-alike", &values)
            } else {
                self.say("debrief-timeline-often", &values)
            };
            rows.push(row);
        }
        (!rows.is_empty()).then(|| {
            Figure::Timeline(Timeline {
                title: self.say("debrief-timeline", &[]),
                note: self.note(),
                key: self.say("debrief-timeline-key", &[]),
                rows,
            })
        })
    }

    /// Ticks from the first to the last of these values, about so many steps, each a round number of units.
    fn ticks(low: i64, high: i64, unit: i64, write: &dyn Fn(i64) -> String) -> Vec<Mark> {
        const STEPS: i64 = 5;
        let span = (high - low).max(1);
        let mut step = unit.max(1);
        let factors = [2, 5, 10];
        let mut decade = step;
        'search: while step.saturating_mul(STEPS) < span {
            for factor in factors {
                step = decade.saturating_mul(factor);
                if step.saturating_mul(STEPS) >= span {
                    break 'search;
                }
            }
            decade = step;
        }
        let first = low.div_euclid(step);
        let last = (high + step - 1).div_euclid(step).max(first + 1);
        (first..=last)
            .map(|at| Mark {
                at: at * step,
                said: write(at * step),
            })
            .collect()
    }

    /// Time along the bottom, from and to whole units.
    fn time_axis(&self, from: Millis, to: Millis) -> Axis {
        let span = to - from;
        let unit = if span.0 > 300_000 { 60_000 } else { 10_000 };
        Axis {
            label: self.say("debrief-axis-time", &[]),
            ticks: Self::ticks(from.0, to.0, unit, &|at| self.write(Millis(at))),
        }
    }

    fn mark(&self, id: &str, at: i64, said: String) -> Mark {
        Mark {
            at,
            said: self.say(id, &[("limit", said.into())]),
        }
    }

    fn vessels(&self) -> Vec<Figure> {
        let samples = &self.outcome.figures.vessel;
        let mut vessels: Vec<usize> = samples.iter().map(|one| one.vessel).collect();
        vessels.sort_unstable();
        vessels.dedup();
        let draw = |vessel: usize| {
            let of = || samples.iter().filter(move |one| one.vessel == vessel);
            let (first, last) = (of().map(|one| one.at).min()?, of().map(|one| one.at).max()?);
            let mut marks = Vec::new();
            for (id, limit) in [
                ("debrief-warmth-target", self.limits.target),
                ("debrief-warmth-warm", self.limits.warm),
                ("debrief-warmth-hot", self.limits.hot),
            ] {
                if let Some(limit) = limit {
                    marks.push(self.mark(id, limit.0, self.write(limit)));
                }
            }
            let ends = of().map(|one| one.temperature.0);
            let ends: Vec<i64> = ends.chain(marks.iter().map(|mark| mark.at)).collect();
            let (low, high) = (ends.iter().min()?, ends.iter().max()?);
            let title = self.names.module.stations.get(vessel)?.title.as_str();
            let points = of().map(|one| Point {
                across: one.at.0,
                up: one.temperature.0,
            });
            Some(Figure::Curve(Curve {
                title: self.say("debrief-warmth", &[("vessel", title.into())]),
                note: self.note(),
                across: self.time_axis(first, last),
                up: Axis {
                    label: self.say("debrief-axis-temperature", &[]),
                    ticks: Self::ticks(*low, *high, 1000, &|at| self.write(MilliCelsius(at))),
                },
                series: vec![Series {
                    name: display_safe(title),
                    stroke: Stroke::Straight,
                    points: points.collect(),
                }],
                marks,
            }))
        };
        vessels.into_iter().filter_map(draw).collect()
    }

    fn region(&self, region: Region) -> String {
        match region {
            Region::Tissue => self.say("debrief-region-tissue", &[]),
            Region::Outer => self.say("debrief-region-outer", &[]),
            Region::Posts => self.say("debrief-region-posts", &[]),
            Region::Socket(tooth) => self.say(
                "debrief-region-socket",
                &[("tooth", u32::from(tooth).to_string().into())],
            ),
        }
    }

    /// Bars per region, one for each cleaning. Of the sockets only the one that ended worst is drawn.
    fn residue(&self) -> Vec<Figure> {
        let all = &self.outcome.figures.residue;
        let mut parts: Vec<usize> = all.iter().map(|one| one.part).collect();
        parts.sort_unstable();
        parts.dedup();
        let draw = |part: usize| {
            let stages = || all.iter().filter(move |one| one.part == part);
            let last = stages().next_back()?;
            let worst = last
                .regions
                .iter()
                .filter(|one| matches!(one.0, Region::Socket(_)))
                .max_by_key(|one| (one.1.0 + one.2.0, std::cmp::Reverse(one.0)))
                .map(|one| one.0);
            let regions = last.regions.iter().map(|one| one.0);
            let regions =
                regions.filter(|one| !matches!(one, Region::Socket(_)) || Some(*one) == worst);
            let group = |region: Region| {
                let bars = stages().filter_map(|stage| {
                    let found = stage.regions.iter().find(|one| one.0 == region)?;
                    let label = match stage.after {
                        Cleaning::Bath { bath, .. } => {
                            display_safe(&self.names.module.stations.get(bath)?.title)
                        }
                        Cleaning::Brush => self.say("debrief-cleaning-brush", &[]),
                    };
                    let left = Ppm(found.1.0.saturating_add(found.2.0));
                    Some(Bar {
                        label,
                        value: left.0,
                        said: self.write(rounded(left)),
                    })
                });
                let label = if Some(region) == worst {
                    let socket = ("socket", self.region(region).into());
                    self.say("debrief-region-worst-socket", &[socket])
                } else {
                    self.region(region)
                };
                BarGroup {
                    label,
                    bars: bars.collect(),
                }
            };
            let title = self.names.module.parts.get(part)?.title.as_str();
            Some(Figure::Bars(Bars {
                title: self.say("debrief-residue", &[("part", title.into())]),
                note: self.note(),
                key: self.say("debrief-bars-key", &[]),
                bound: self.limits.residue.map(|limit| Bound {
                    at: limit.0,
                    said: self.say("debrief-residue-limit", &[("limit", limit.into())]),
                    at_least: false,
                }),
                groups: regions.map(group).collect(),
            }))
        };
        parts.into_iter().filter_map(draw).collect()
    }

    fn air(&self) -> Option<Figure> {
        let samples = &self.outcome.figures.air.samples;
        let (first, last) = (samples.first()?.0, samples.last()?.0);
        let highest = samples
            .iter()
            .map(|one| one.1.0)
            .max()
            .filter(|&one| one > 0)?;
        let mut marks = Vec::new();
        if let Some(limit) = self.limits.vapour {
            let said = vapour(limit, self.names.words);
            marks.push(self.mark("debrief-air-limit", limit.0, said));
        }
        let top = marks.iter().map(|mark| mark.at).fold(highest, i64::max);
        let points = samples.iter().map(|&(at, level)| Point {
            across: at.0,
            up: level.0,
        });
        Some(Figure::Curve(Curve {
            title: self.say("debrief-air", &[]),
            note: self.note(),
            across: self.time_axis(first, last),
            up: Axis {
                label: self.say("debrief-axis-vapour", &[]),
                ticks: Self::ticks(0, top, 1, &|at| vapour(Ppm(at), self.names.words)),
            },
            series: vec![Series {
                name: self.say("debrief-air-room", &[]),
                // Between two changes of source or air flow the level follows a curve of its own.
                stroke: Stroke::Apart,
                points: points.collect(),
            }],
            marks,
        }))
    }
}

/// A share to a hundredth of a percent.
fn rounded(share: Ppm) -> Ppm {
    Ppm((share.0 + 50).div_euclid(100) * 100)
}
