//! What a finding was: what was done or left out.

use super::{Wording, harm, module_text};
use crate::rehearsal::finding::{Finding, Found};
use crate::syllabus::module::{Never, ProtectionKind};
use crate::text::{Value, display_safe};

/// How many steps are named at which protection was missing.
const WHERE_MOST: usize = 2;

impl Wording<'_> {
    /// What was done or left out.
    pub(in crate::report) fn what(&self, finding: &Finding) -> String {
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

    fn item(&self, finding: &Finding) -> Option<(String, bool)> {
        let item = match finding.what {
            Found::Unprotected { guard, .. } => self.names.plan.guards[guard].item,
            Found::Stale { item, .. } => item,
            _ => return None,
        };
        let item = &self.names.module.protection_items[item];
        Some((item.title.clone(), item.kind == ProtectionKind::Running))
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
}
