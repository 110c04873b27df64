//! What was expected instead of a finding, what was found, and how far off.

use super::{Wording, right_options, right_responses, share, to_the_second, vapour};
use crate::bench::Measure;
use crate::rehearsal::finding::{Finding, Found};
use crate::report::caution;
use crate::syllabus::module::CaseRange;
use crate::text::Value;
use crate::units::Millis;

impl Wording<'_> {
    /// What was expected, what was found, and how far off.
    pub(in crate::report) fn expected(&self, finding: &Finding) -> Option<String> {
        let names = &self.names;
        let plan = names.plan;
        let first = finding.tasks.first().copied();
        Some(match &finding.what {
            Found::Skipped => {
                let all = plan.tasks_of_step[plan.tasks[first?].step].len();
                let values = [("all", all.into()), ("count", finding.tasks.len().into())];
                self.say("debrief-expected-done", &values)
            }
            Found::Misplaced { against, early } => {
                let other = [("other", names.tasks(&[*against]).into())];
                if *early {
                    self.say("debrief-expected-after", &other)
                } else {
                    self.say("debrief-expected-before", &other)
                }
            }
            Found::TooEarly { until } => {
                let other = [("other", names.tasks(until).into())];
                self.say("debrief-expected-only-after", &other)
            }
            Found::Again => self.say("debrief-expected-once", &[]),
            Found::Short { was, window, .. } | Found::Long { was, window } => {
                let short = was < &window.least;
                let limit = if short { window.least } else { window.most };
                let by = if short { limit - *was } else { *was - limit };
                let values = [
                    ("target", window.target.into()),
                    ("least", window.least.into()),
                    ("most", window.most.into()),
                    ("was", (*was).into()),
                    ("by", by.into()),
                    ("share", share(by, limit).into()),
                ];
                if short {
                    self.say("debrief-expected-longer", &values)
                } else {
                    self.say("debrief-expected-shorter", &values)
                }
            }
            Found::BeforeSign { by } => {
                let sign = [("sign", self.sign(first?).into())];
                match by {
                    Some(by) => {
                        let [sign] = sign;
                        let by = ("by", to_the_second(*by).into());
                        self.say("debrief-expected-sign", &[sign, by])
                    }
                    None => self.say("debrief-expected-sign-never", &sign),
                }
            }
            Found::AfterSign { by, within } => self.say(
                "debrief-expected-soon-after-sign",
                &[
                    ("sign", self.sign(first?).into()),
                    ("within", (*within).into()),
                    ("by", to_the_second(*by).into()),
                    ("over", to_the_second(*by - *within).into()),
                    ("share", share(*by - *within, *within).into()),
                ],
            ),
            Found::NotYetRight => {
                let look = [("look", self.sign(first?).into())];
                self.say("debrief-expected-look", &look)
            }
            Found::WrongWay { way, option } => {
                let way = &names.step(first?).ways[*way];
                self.say(
                    "debrief-expected-way",
                    &[
                        ("question", way.title.as_str().into()),
                        ("right", right_options(way).into()),
                        ("taken", way.options[*option].title.as_str().into()),
                    ],
                )
            }
            Found::Unready { aspect } => {
                let needs = &plan.tasks[first?].needs;
                let need = needs.iter().find(|need| need.aspect == *aspect)?;
                self.say(
                    "debrief-expected-state",
                    &[("state", names.cells(need).into())],
                )
            }
            Found::Gap { gap, was } => {
                let gap = &plan.gaps[*gap];
                match (gap.least, gap.most) {
                    (_, Some(most)) if *was > most => self.at_most(most, *was),
                    (Some(least), _) => self.say(
                        "debrief-expected-at-least",
                        &[
                            ("least", least.into()),
                            ("was", (*was).into()),
                            ("by", (least - *was).into()),
                            ("share", share(least - *was, least).into()),
                        ],
                    ),
                    _ => return None,
                }
            }
            Found::Cap { was, most, .. } => self.at_most(*most, *was),
            Found::Crowded { rule, cells, .. } => self.say(
                "debrief-expected-no-more-than",
                &[
                    ("most", plan.more_than[*rule].count.into()),
                    ("count", cells.len().into()),
                ],
            ),
            Found::Forbidden { .. } => self.say("debrief-expected-never", &[]),
            Found::Unprotected { guard, time } => {
                let asked = caution::guard(names, &names.module.guards[*guard]);
                self.say(
                    "debrief-expected-protection",
                    &[
                        ("asked", asked.into()),
                        ("time", to_the_second(*time).into()),
                    ],
                )
            }
            Found::Stale { item, by } => {
                let every = names.module.protection_items[*item].change_every?;
                self.say(
                    "debrief-expected-change",
                    &[("every", every.into()), ("by", to_the_second(*by).into())],
                )
            }
            Found::WrongResponse {
                disturbance,
                response,
            } => {
                let one = &names.module.disturbances[*disturbance];
                self.say(
                    "debrief-expected-answer",
                    &[
                        ("right", right_responses(one).into()),
                        ("taken", one.responses[*response].title.as_str().into()),
                    ],
                )
            }
            Found::CarriedOn { disturbance } => {
                let right = right_responses(&names.module.disturbances[*disturbance]);
                self.say("debrief-expected-stop", &[("right", right.into())])
            }
            Found::Harm { harm, .. } => {
                self.measure(self.outcome.harm(*harm).and_then(|one| one.amount)?)
            }
        })
    }

    fn at_most(&self, most: Millis, was: Millis) -> String {
        self.say(
            "debrief-expected-at-most",
            &[
                ("most", most.into()),
                ("was", was.into()),
                ("by", (was - most).into()),
                ("share", share(was - most, most).into()),
            ],
        )
    }

    /// A measure against its limit. The limit's direction is told by the numbers: some harms come from too little.
    fn measure(&self, measure: Measure) -> String {
        let (found, limit): (Value, Value) = match measure {
            Measure::Share { found, limit } => (found.into(), limit.into()),
            Measure::Dose { found, limit } => (found.into(), limit.into()),
            Measure::Temperature { found, limit } => (found.into(), limit.into()),
            Measure::Time { found, limit } => (found.into(), limit.into()),
            Measure::Count { found, limit } => {
                let values = [
                    ("most", u32::from(limit).into()),
                    ("count", u32::from(found).into()),
                ];
                return self.say("debrief-expected-no-more-than", &values);
            }
            Measure::Vapour { found, limit } => (
                vapour(found, self.names.words).into(),
                vapour(limit, self.names.words).into(),
            ),
        };
        self.say(
            "debrief-expected-limit",
            &[("found", found), ("limit", limit)],
        )
    }

    /// For which other case a time would have been right.
    pub(in crate::report) fn right_for(&self, finding: &Finding) -> Option<String> {
        let Found::Short {
            was,
            right_for: Some((choice, value)),
            ..
        } = &finding.what
        else {
            return None;
        };
        let choice = &self.names.module.case[*choice];
        let CaseRange::OneOf(values) = &choice.range else {
            return None;
        };
        let card = self.names.plan.card.get(&choice.id.value)?;
        Some(self.say(
            "debrief-right-for",
            &[
                ("was", (*was).into()),
                ("choice", choice.title.as_str().into()),
                ("value", values[*value].value.as_str().into()),
                ("card", card.to_string().into()),
            ],
        ))
    }
}
