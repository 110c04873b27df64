//! Words for findings: what it was, what was expected, what to do next time.

use super::names::Names;
use crate::bench::{Measure, Outcome};
use crate::rehearsal::finding::{Finding, Found, Words as Where};
use crate::syllabus::module::{
    CaseRange, Disturbance, Harm, Miss, Module, Never, ProtectionKind, Severity, TimeRule,
};
use crate::syllabus::plan::TaskKeeping;
use crate::text::{Value, Words, display_safe};
use crate::units::{Millis, Ppm};

/// How many steps are named at which protection was missing.
const WHERE_MOST: usize = 2;

/// The word for a severity.
pub(super) fn severity(severity: Severity, words: &Words) -> String {
    words.say(
        match severity {
            Severity::Critical => "debrief-critical",
            Severity::Major => "debrief-major",
            Severity::Minor => "debrief-minor",
        },
        &[],
    )
}

/// A quantity as a share of another, to a tenth of a percent.
pub(super) fn share(part: Millis, whole: Millis) -> Ppm {
    let whole = i128::from(whole.0.max(1));
    let tenths = (i128::from(part.0) * 1000 + whole / 2) / whole;
    Ppm(i64::try_from(tenths)
        .unwrap_or(i64::MAX / 1000)
        .saturating_mul(1000))
}

/// A sum of times to the second, as nobody reads a sum finer.
pub(super) fn to_the_second(time: Millis) -> Millis {
    Millis((time.0 + 500).div_euclid(1000) * 1000)
}

/// What the module itself says about a finding.
pub(super) fn module_text(module: &Module, at: Where) -> Option<&str> {
    let errors = |step: usize| &module.steps[step].errors;
    let never = |rule: usize| -> &Miss {
        match &module.never[rule] {
            Never::MoreThan { miss, .. } | Never::Before { miss, .. } => miss,
            Never::Act(act) => &act.miss,
        }
    };
    let miss = match at {
        Where::None => None,
        Where::Skipped(step) => errors(step).skipped.as_ref(),
        Where::Misplaced(step) => errors(step).misplaced.as_ref(),
        Where::Unready(step) => errors(step).unready.as_ref(),
        Where::Short(step, tier) => errors(step).short.get(tier).map(|tier| &tier.miss),
        Where::Long(step, tier) => errors(step).long.get(tier).map(|tier| &tier.miss),
        Where::Option(step, way, option) => {
            module.steps[step].ways[way].options[option].wrong.as_ref()
        }
        Where::TimeRule(rule) => Some(match &module.time_rules[rule] {
            TimeRule::Gap { miss, .. } | TimeRule::Cap { miss, .. } => miss,
        }),
        Where::Never(rule) => Some(never(rule)),
        Where::Guard(guard) => Some(&module.guards[guard].miss),
        Where::Response(disturbance, response) => module.disturbances[disturbance].responses
            [response]
            .wrong
            .as_ref(),
        Where::CarryOn(disturbance) => module.disturbances[disturbance].carry_on.as_ref(),
        Where::Consequence(one) => return Some(&module.consequences[one].text),
    };
    miss.map(|miss| miss.text.as_str())
        .filter(|text| !text.is_empty())
}

/// The words for what the bench ended with.
pub(super) fn harm(harm: Harm, words: &Words) -> String {
    words.say(
        match harm {
            Harm::Veil => "debrief-harm-veil",
            Harm::LockedVeil => "debrief-harm-locked-veil",
            Harm::SocketGel => "debrief-harm-socket-gel",
            Harm::Softened => "debrief-harm-softened",
            Harm::DampJoint => "debrief-harm-damp-joint",
            Harm::WeakPrimer => "debrief-harm-weak-primer",
            Harm::NoPrimer => "debrief-harm-no-primer",
            Harm::WarmPrimer => "debrief-harm-warm-primer",
            Harm::HotPrimer => "debrief-harm-hot-primer",
            Harm::WetPrimer => "debrief-harm-wet-primer",
            Harm::StarvedJoint => "debrief-harm-starved-joint",
            Harm::GelledSocket => "debrief-harm-gelled-socket",
            Harm::HardFlash => "debrief-harm-hard-flash",
            Harm::MovedTooth => "debrief-harm-moved-tooth",
            Harm::WrongTooth => "debrief-harm-wrong-tooth",
            Harm::WrongProduct => "debrief-harm-wrong-product",
            Harm::OpenSeam => "debrief-harm-open-seam",
            Harm::UnderCured => "debrief-harm-under-cured",
            Harm::Warped => "debrief-harm-warped",
            Harm::PolishedTissue => "debrief-harm-polished-tissue",
            Harm::Scratched => "debrief-harm-scratched",
            Harm::VapourNearHeat => "debrief-harm-vapour-near-heat",
            Harm::VapourPeak => "debrief-harm-vapour-peak",
            Harm::SkinContact => "debrief-harm-skin-contact",
            Harm::EyeExposure => "debrief-harm-eye-exposure",
            Harm::Spoiled => "debrief-harm-spoiled",
        },
        &[],
    )
}

/// Vapour by volume, in parts per million.
pub(super) fn vapour(level: Ppm, words: &Words) -> String {
    words.say("debrief-vapour", &[("number", Value::Count(level.0))])
}

/// Words for findings of one run.
#[derive(Clone, Copy)]
pub(super) struct Wording<'a> {
    pub(super) names: Names<'a>,
    pub(super) outcome: &'a Outcome,
}

impl Wording<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.names.words.say(id, values)
    }

    fn item(&self, finding: &Finding) -> Option<(String, bool)> {
        let item = match finding.what {
            Found::Unprotected { guard, .. } => self.names.plan.guards[guard].item,
            Found::Stale { item, .. } => item,
            _ => return None,
        };
        let item = &self.names.module.protection_items[item];
        Some((item.title.clone(), item.kind == ProtectionKind::Running))
    }

    fn act(&self, rule: usize) -> &str {
        match &self.names.module.never[rule] {
            Never::Act(act) => &act.title,
            _ => "",
        }
    }

    /// What was done or left out.
    pub(super) fn what(&self, finding: &Finding) -> String {
        let what = [("what", Value::from(self.names.tasks(&finding.tasks)))];
        let item = |(title, _): (String, bool)| [("item", Value::from(title))];
        match &finding.what {
            Found::Skipped => self.say("debrief-found-skipped", &what),
            Found::Misplaced { early: true, .. } => self.say("debrief-found-early", &what),
            Found::Misplaced { early: false, .. } => self.say("debrief-found-late", &what),
            Found::TooEarly { .. } => self.say("debrief-found-too-soon", &what),
            Found::Again => self.say("debrief-found-again", &what),
            Found::Short { .. } => self.say("debrief-found-short", &what),
            Found::Long { .. } => self.say("debrief-found-long", &what),
            Found::BeforeSign { .. } => self.say("debrief-found-before-sign", &what),
            Found::AfterSign { .. } => self.say("debrief-found-after-sign", &what),
            Found::NotYetRight => self.say("debrief-found-not-yet-right", &what),
            Found::WrongWay { way, option } => {
                let step = finding.tasks.first().map(|&task| self.names.step(task));
                let taken = step.map_or("", |step| step.ways[*way].options[*option].title.as_str());
                let [what] = what;
                self.say("debrief-found-wrong-way", &[what, ("taken", taken.into())])
            }
            Found::Unready { aspect } => {
                let needs = finding
                    .tasks
                    .first()
                    .map(|&task| &self.names.plan.tasks[task].needs);
                let need = needs.and_then(|all| all.iter().find(|need| need.aspect == *aspect));
                let state = need.map_or(String::new(), |need| self.names.cells(need));
                let [what] = what;
                self.say("debrief-found-unready", &[what, ("state", state.into())])
            }
            Found::Gap { gap, was } => {
                let gap = &self.names.plan.gaps[*gap];
                let values = [
                    ("from", self.names.tasks(&[gap.from]).into()),
                    ("to", self.names.tasks(&[gap.to]).into()),
                ];
                if gap.most.is_some_and(|most| *was > most) {
                    self.say("debrief-found-gap-long", &values)
                } else {
                    self.say("debrief-found-gap-short", &values)
                }
            }
            Found::Cap { .. } => self.say("debrief-found-cap", &what),
            Found::Crowded { rule, .. } => {
                // The rule says it in the words of the bench, its state only in those of a list.
                let text = module_text(self.names.module, finding.words);
                let state = text.map_or_else(|| self.crowd(*rule), display_safe);
                self.say("debrief-found-crowded", &[("state", state.into())])
            }
            Found::Forbidden { rule } => self.say(
                "debrief-found-forbidden",
                &[("act", self.act(*rule).into())],
            ),
            Found::Unprotected { .. } => {
                let Some((title, running)) = self.item(finding) else {
                    return String::new();
                };
                let steps = self.names.steps(&finding.tasks, WHERE_MOST);
                let values = [("item", title.into()), ("steps", steps.into())];
                match (running, finding.tasks.is_empty()) {
                    (true, true) => self.say("debrief-found-not-running", &values),
                    (true, false) => self.say("debrief-found-not-running-at", &values),
                    (false, true) => self.say("debrief-found-not-worn", &values),
                    (false, false) => self.say("debrief-found-not-worn-at", &values),
                }
            }
            Found::Stale { .. } => self.item(finding).map_or(String::new(), |one| {
                self.say("debrief-found-stale", &item(one))
            }),
            Found::WrongResponse { disturbance, .. } => {
                self.say("debrief-found-wrong-answer", &self.seen(*disturbance))
            }
            Found::CarriedOn { disturbance } => {
                self.say("debrief-found-carried-on", &self.seen(*disturbance))
            }
            Found::Harm {
                harm: one, teeth, ..
            } => {
                let said = harm(*one, self.names.words);
                if teeth.is_empty() {
                    return said;
                }
                let teeth: Vec<String> = teeth.iter().map(ToString::to_string).collect();
                self.say(
                    "debrief-harm-at-teeth",
                    &[("harm", said.into()), ("teeth", teeth.into())],
                )
            }
        }
    }

    fn seen(&self, disturbance: usize) -> [(&'static str, Value); 1] {
        let seen = &self.names.module.disturbances[disturbance].seen;
        [("seen", seen.as_str().into())]
    }

    fn crowd(&self, rule: usize) -> String {
        let number = self.names.plan.more_than[rule].rule;
        match &self.names.module.never[number] {
            Never::MoreThan { of, .. } => self.names.condition(of),
            _ => String::new(),
        }
    }

    /// What was expected, what was found, and how far off.
    pub(super) fn expected(&self, finding: &Finding) -> Option<String> {
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
                let asked = super::caution::guard(names, &names.module.guards[*guard]);
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

    /// The sign or look that a task's time is kept by.
    fn sign(&self, task: usize) -> String {
        match &self.names.plan.tasks[task].keeping {
            Some(TaskKeeping::Watch { sign, .. }) => self.names.cells(sign),
            Some(TaskKeeping::Judge { until, .. }) => {
                let looks: Vec<String> = until.iter().map(|one| self.names.cells(one)).collect();
                self.names.words.write(&looks.into())
            }
            _ => String::new(),
        }
    }

    /// For which other case a time would have been right.
    pub(super) fn right_for(&self, finding: &Finding) -> Option<String> {
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

    /// Why the step is done that a finding is about.
    pub(super) fn why(&self, finding: &Finding) -> Option<String> {
        // A finding about protection or a sum names many tasks: the reason of one of them would explain nothing.
        let task = match &finding.what {
            Found::Unprotected { .. } | Found::Cap { .. } | Found::Stale { .. } => return None,
            Found::Gap { gap, .. } => self.names.plan.gaps[*gap].to,
            _ => *finding.tasks.first()?,
        };
        let why = &self.names.step(task).why;
        (!why.is_empty()).then(|| self.say("debrief-why", &[("why", why.as_str().into())]))
    }

    /// What to do next time.
    pub(super) fn next(&self, finding: &Finding) -> String {
        let names = &self.names;
        let plan = names.plan;
        let first = finding.tasks.first().copied();
        let what = ("what", Value::from(names.tasks(&finding.tasks)));
        match &finding.what {
            Found::Skipped => self.say("debrief-next-skipped", &[what]),
            Found::Misplaced { against, early } => {
                let other = ("other", names.tasks(&[*against]).into());
                if *early {
                    self.say("debrief-next-after", &[what, other])
                } else {
                    self.say("debrief-next-before", &[what, other])
                }
            }
            Found::TooEarly { until } => {
                let other = ("other", names.tasks(until).into());
                self.say("debrief-next-after", &[what, other])
            }
            Found::Again => self.say("debrief-next-once", &[what]),
            Found::Short { window, .. } | Found::Long { window, .. } => self.say(
                "debrief-next-time",
                &[
                    what,
                    ("target", window.target.into()),
                    ("least", window.least.into()),
                    ("most", window.most.into()),
                ],
            ),
            Found::BeforeSign { .. } | Found::NotYetRight => {
                let sign = first.map_or(String::new(), |task| self.sign(task));
                self.say("debrief-next-wait", &[what, ("sign", sign.into())])
            }
            Found::AfterSign { within, .. } => {
                let sign = first.map_or(String::new(), |task| self.sign(task));
                self.say(
                    "debrief-next-at-sign",
                    &[what, ("sign", sign.into()), ("within", (*within).into())],
                )
            }
            Found::WrongWay { way, .. } => {
                let right = first.map(|task| right_options(&names.step(task).ways[*way]));
                let right = ("right", right.unwrap_or_default().into());
                self.say("debrief-next-way", &[what, right])
            }
            Found::Unready { aspect } => {
                let needs = first.map(|task| &plan.tasks[task].needs);
                let need = needs.and_then(|needs| needs.iter().find(|one| one.aspect == *aspect));
                let state = need.map_or(String::new(), |need| names.cells(need));
                self.say("debrief-next-ready", &[what, ("state", state.into())])
            }
            Found::Gap { gap, was } => {
                let gap = &plan.gaps[*gap];
                let from = ("from", names.tasks(&[gap.from]).into());
                let to = ("to", names.tasks(&[gap.to]).into());
                match (gap.least, gap.most) {
                    (_, Some(most)) if *was > most => {
                        self.say("debrief-next-sooner", &[from, to, ("most", most.into())])
                    }
                    (least, _) => {
                        let least = ("least", least.unwrap_or(Millis::ZERO).into());
                        self.say("debrief-next-later", &[from, to, least])
                    }
                }
            }
            Found::Cap { most, .. } => {
                self.say("debrief-next-cap", &[what, ("most", (*most).into())])
            }
            Found::Crowded { rule, .. } => self.say(
                "debrief-next-fewer",
                &[("most", plan.more_than[*rule].count.into())],
            ),
            Found::Forbidden { rule } => {
                let text = module_text(names.module, finding.words).unwrap_or_default();
                let values = [("act", self.act(*rule).into()), ("text", text.into())];
                self.say("debrief-next-never", &values)
            }
            Found::Unprotected { guard, .. } => {
                let asked = super::caution::guard_here(names, &names.module.guards[*guard]);
                self.say("debrief-next-protection", &[("asked", asked.into())])
            }
            Found::Stale { item, .. } => {
                let item = &names.module.protection_items[*item];
                let every = item.change_every.unwrap_or(Millis::ZERO);
                self.say(
                    "debrief-next-change",
                    &[
                        ("item", item.title.as_str().into()),
                        ("every", every.into()),
                    ],
                )
            }
            Found::WrongResponse { disturbance, .. } | Found::CarriedOn { disturbance } => {
                let one = &names.module.disturbances[*disturbance];
                self.say(
                    "debrief-next-answer",
                    &[
                        ("seen", one.seen.as_str().into()),
                        ("right", right_responses(one).into()),
                    ],
                )
            }
            Found::Harm { .. } => {
                self.say("debrief-next-harm", &[("harm", self.what(finding).into())])
            }
        }
    }

    /// The consequences that a finding can lead to, those that showed first.
    pub(super) fn consequences(&self, finding: &Finding) -> Vec<String> {
        let shown = finding.shown();
        let leads = finding.leads_to.iter().copied();
        let mut all: Vec<usize> = shown.iter().copied().chain(leads).collect();
        let mut told = Vec::new();
        all.retain(|one| {
            let new = !told.contains(one);
            told.push(*one);
            new
        });
        all.into_iter()
            .map(|one| {
                let text = &self.names.module.consequences[one].text;
                let text = [("text", display_safe(text).into())];
                if shown.contains(&one) {
                    self.say("debrief-leads-shown", &text)
                } else {
                    self.say("debrief-leads-unshown", &text)
                }
            })
            .collect()
    }
}

/// The titles of the options that are right.
pub(super) fn right_options(way: &crate::syllabus::module::Way) -> Vec<String> {
    let right = way.options.iter().filter(|one| one.wrong.is_none());
    right.map(|one| one.title.clone()).collect()
}

/// The titles of the responses that are right.
pub(super) fn right_responses(one: &Disturbance) -> Vec<String> {
    let right = one.responses.iter().filter(|one| one.wrong.is_none());
    right.map(|one| one.title.clone()).collect()
}
