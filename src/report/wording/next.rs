//! What to do next time, why the step is done, and what a finding can lead to.

use super::{Wording, module_text, right_options, right_responses};
use crate::rehearsal::finding::{Finding, Found};
use crate::report::caution;
use crate::text::{Value, display_safe};
use crate::units::Millis;

impl Wording<'_> {
    /// What to do next time.
    pub(in crate::report) fn next(&self, finding: &Finding) -> String {
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
                let asked = caution::guard_here(names, &names.module.guards[*guard]);
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

    /// Why the step is done that a finding is about.
    pub(in crate::report) fn why(&self, finding: &Finding) -> Option<String> {
        // A finding about protection or a sum names many tasks: the reason of one of them would explain nothing.
        let task = match &finding.what {
            Found::Unprotected { .. } | Found::Cap { .. } | Found::Stale { .. } => return None,
            Found::Gap { gap, .. } => self.names.plan.gaps[*gap].to,
            _ => *finding.tasks.first()?,
        };
        let why = &self.names.step(task).why;
        (!why.is_empty()).then(|| self.say("debrief-why", &[("why", why.as_str().into())]))
    }

    /// The consequences that a finding can lead to, those that showed first.
    pub(in crate::report) fn consequences(&self, finding: &Finding) -> Vec<String> {
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
