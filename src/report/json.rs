//! The debrief for machines: `drybench-debrief`, format 1. `assets/formats.md` describes it for people.
//!
//! Names are kebab-case and stay; a later format may add members and raises the number when it changes or drops one. Times are
//! milliseconds, shares are parts per million, doses are µJ/cm². Texts are in the language of the words that were asked for,
//! or of the module; nobody should compare them.

use super::debrief::Debriefed;
use super::figure::Figure;
use super::figures::figures;
use super::names::Names;
use super::wording::{Wording, module_text};
use crate::rehearsal::action::Help;
use crate::rehearsal::finding::{Finding, Found};
use crate::rehearsal::trace::What;
use crate::syllabus::case::CaseCard;
use crate::syllabus::module::Severity;
use crate::text::{Words, display_safe};

/// The name of the format.
pub const NAME: &str = "drybench-debrief";

/// The number of the format.
pub const FORMAT: u16 = 1;

/// A debrief.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct DebriefJson {
    /// [`NAME`].
    pub kind: &'static str,
    /// [`FORMAT`].
    pub format: u16,
    /// The id of the module.
    pub module: String,
    /// Its revision.
    pub revision: u32,
    /// The digest of its content, in hexadecimal.
    pub digest: String,
    /// The name of the process profile.
    pub profile: String,
    /// The case card: choice to `{"word": …}` or `{"whole": …}`.
    pub card: CaseCard,
    /// The seed.
    pub seed: u32,
    /// How much help was given: `guided`, `prompted` or `unaided`.
    pub help: Help,
    /// The disturbances that were drawn or chosen, by id.
    pub disturbances: Vec<String>,
    /// The language of the texts.
    pub language: String,
    /// Whether the run was handed over.
    pub finished: bool,
    /// Whether it was given up.
    pub abandoned: bool,
    /// Whether it is clean.
    pub clean: bool,
    /// How long it lasted.
    pub lasted_ms: i64,
    /// The roots, the gravest first, each with what followed from it.
    pub roots: Vec<FindingJson>,
    /// The score in its parts. It decides nothing.
    pub score: ScoreJson,
    /// What came in between, in order.
    pub disturbed: Vec<DisturbedJson>,
    /// The figures: a teaching model, no process limit.
    pub figures: Vec<Figure>,
    /// What has to be shown with any of this.
    pub cautions: Vec<String>,
}

/// One finding.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct FindingJson {
    /// The rule that fired: see [`rule`].
    pub rule: &'static str,
    /// The weight of the rule.
    pub severity: Severity,
    /// The weight with every harm that followed.
    pub worst: Severity,
    /// The id of the step, if it is about one.
    pub step: Option<String>,
    /// The places of that step, as in labels: `5-6/facial`.
    pub places: Vec<String>,
    /// The labels of the tasks.
    pub labels: Vec<String>,
    /// What else it is about, by id: the forbidden act, the protection item, the disturbance, the harm.
    pub about: Option<String>,
    /// When it first showed, from the start of the run.
    pub at_ms: i64,
    /// What was expected.
    pub expected: Option<Amount>,
    /// What was found.
    pub found: Option<Amount>,
    /// The case choice and value for which the time would have been right.
    pub right_for: Option<(String, String)>,
    /// Ids of consequences that it can lead to.
    pub leads_to: Vec<String>,
    /// Ids of consequences that showed on the bench.
    pub shown: Vec<String>,
    /// What was done or left out, in words.
    pub words: String,
    /// Expected against found, in words.
    pub against: Option<String>,
    /// The module's own words.
    pub module_words: Option<String>,
    /// What followed from it.
    pub follow_ons: Vec<FindingJson>,
}

/// An amount: a time, a window or a count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case", rename_all_fields = "kebab-case")]
pub enum Amount {
    /// A time.
    Time {
        /// How long.
        ms: i64,
    },
    /// A time between two.
    Window {
        /// What to aim at.
        target_ms: i64,
        /// At least.
        least_ms: i64,
        /// At most.
        most_ms: i64,
    },
    /// At least and at most, where there is one.
    Between {
        /// At least.
        least_ms: Option<i64>,
        /// At most.
        most_ms: Option<i64>,
    },
    /// A count.
    Count {
        /// How many.
        count: usize,
    },
}

/// The score in its parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ScoreJson {
    /// Order kept, parts per million.
    pub order_ppm: i64,
    /// Timed parts in time.
    pub in_time: usize,
    /// Timed parts done.
    pub timed: usize,
    /// Time with all protection that was called for.
    pub protected_ms: i64,
    /// All time.
    pub lasted_ms: i64,
    /// Harms that the bench ended with.
    pub harms: usize,
}

/// A disturbance that showed.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct DisturbedJson {
    /// Its id.
    pub disturbance: String,
    /// When it showed.
    pub at_ms: i64,
    /// The id of the response; `None` when nothing was chosen.
    pub response: Option<String>,
    /// Whether that was right.
    pub right: bool,
}

/// The word for the rule behind a finding.
#[must_use]
pub fn rule(found: &Found) -> &'static str {
    match found {
        Found::Skipped => "skipped",
        Found::Misplaced { early: true, .. } => "misplaced-early",
        Found::Misplaced { early: false, .. } => "misplaced-late",
        Found::TooEarly { .. } => "too-early",
        Found::Again => "again",
        Found::Short { .. } => "short",
        Found::Long { .. } => "long",
        Found::BeforeSign { .. } => "before-sign",
        Found::AfterSign { .. } => "after-sign",
        Found::NotYetRight => "not-yet-right",
        Found::WrongWay { .. } => "wrong-way",
        Found::Unready { .. } => "unready",
        Found::Gap { .. } => "gap",
        Found::Cap { .. } => "cap",
        Found::Crowded { .. } => "crowded",
        Found::Forbidden { .. } => "forbidden",
        Found::Unprotected { .. } => "unprotected",
        Found::Stale { .. } => "stale",
        Found::WrongResponse { .. } => "wrong-response",
        Found::CarriedOn { .. } => "carried-on",
        Found::Harm { .. } => "harm",
    }
}

/// The debrief of a run for machines.
#[must_use]
pub fn debrief_json(of: &Debriefed<'_>, words: &Words) -> DebriefJson {
    let names = Names {
        module: of.module,
        plan: of.plan,
        words,
    };
    let writer = Writer {
        wording: Wording {
            names,
            outcome: of.outcome,
        },
    };
    let score = &of.graded.score;
    let cautions = crate::text::Caution::ALL;
    let own = of.module.identity.cautions.iter();
    DebriefJson {
        kind: NAME,
        format: FORMAT,
        module: of.run.module.clone(),
        revision: of.run.revision,
        digest: of.run.digest.clone(),
        profile: of.run.profile.clone(),
        card: of.run.card.clone(),
        seed: of.run.seed.0,
        help: of.run.help,
        disturbances: of.run.disturbances.clone(),
        language: words.language().to_owned(),
        finished: of.graded.finished,
        abandoned: of.trace.iter().any(|event| event.what == What::Abandoned),
        clean: of.graded.clean,
        lasted_ms: of.trace.last().map_or(0, |event| event.end.0),
        roots: writer.findings(&of.graded.roots),
        score: ScoreJson {
            order_ppm: score.order.0,
            in_time: score.in_time.0,
            timed: score.in_time.1,
            protected_ms: score.protected.0.0,
            lasted_ms: score.protected.1.0,
            harms: score.harms,
        },
        disturbed: disturbed(of),
        figures: figures(of.module, of.plan, of.trace, of.outcome, of.limits, words),
        cautions: cautions
            .iter()
            .map(|one| one.say(words))
            .chain(own.map(|text| display_safe(text)))
            .collect(),
    }
}

fn disturbed(of: &Debriefed<'_>) -> Vec<DisturbedJson> {
    let mut all = Vec::new();
    for (at, event) in of.trace.iter().enumerate() {
        let What::Disturbed(index) = event.what else {
            continue;
        };
        let one = &of.module.disturbances[index];
        let answer = of.trace[at..].iter().find_map(|event| match event.what {
            What::Answered(of, response) if of == index => Some(Some(response)),
            What::CarriedOn(of) if of == index => Some(None),
            _ => None,
        });
        let response = answer.flatten().map(|response| &one.responses[response]);
        all.push(DisturbedJson {
            disturbance: one.id.value.clone(),
            at_ms: event.start.0,
            response: response.map(|response| response.id.value.clone()),
            right: match (answer, response) {
                (_, Some(response)) => response.wrong.is_none(),
                (Some(None), None) => one.carry_on.is_none(),
                _ => false,
            },
        });
    }
    all
}

struct Writer<'a> {
    wording: Wording<'a>,
}

impl Writer<'_> {
    fn findings(&self, all: &[Finding]) -> Vec<FindingJson> {
        all.iter().map(|one| self.finding(one)).collect()
    }

    fn finding(&self, finding: &Finding) -> FindingJson {
        let Names { module, plan, .. } = self.wording.names;
        let consequence = |one: &usize| module.consequences[*one].id.value.clone();
        let tasks = finding.tasks.iter().map(|&task| &plan.tasks[task]);
        let step = finding.tasks.first().map(|&task| plan.tasks[task].step);
        // Several steps have no step in common to name.
        let step = step.filter(|step| tasks.clone().all(|task| task.step == *step));
        let (expected, found) = self.amounts(finding);
        FindingJson {
            rule: rule(&finding.what),
            severity: finding.severity,
            worst: finding.worst(),
            step: step.map(|step| module.steps[step].id.value.clone()),
            places: tasks
                .clone()
                .filter(|_| step.is_some())
                .map(|task| crate::syllabus::place::spelled(&task.place, &plan.dimensions))
                .filter(|place| !place.is_empty())
                .collect(),
            labels: tasks.map(|task| task.label.clone()).collect(),
            about: self.about(finding),
            at_ms: finding.at.0,
            expected,
            found,
            right_for: right_for(finding, module),
            leads_to: finding.leads_to.iter().map(consequence).collect(),
            shown: finding.shown().iter().map(consequence).collect(),
            words: self.wording.what(finding),
            against: self.wording.expected(finding),
            module_words: module_text(module, finding.words).map(display_safe),
            follow_ons: self.findings(&finding.follow_ons),
        }
    }

    fn about(&self, finding: &Finding) -> Option<String> {
        use crate::syllabus::module::Never;
        let Names { module, plan, .. } = self.wording.names;
        Some(match &finding.what {
            Found::Forbidden { rule } => match &module.never[*rule] {
                Never::Act(act) => act.id.value.clone(),
                _ => return None,
            },
            Found::Unprotected { guard, .. } => module.guards[*guard].item.value.clone(),
            Found::Stale { item, .. } => module.protection_items[*item].id.value.clone(),
            Found::WrongResponse { disturbance, .. } | Found::CarriedOn { disturbance } => {
                module.disturbances[*disturbance].id.value.clone()
            }
            Found::Unready { aspect } => plan.aspects[*aspect].id.clone(),
            Found::WrongWay { way, .. } => {
                let step = plan.tasks[*finding.tasks.first()?].step;
                module.steps[step].ways[*way].id.value.clone()
            }
            Found::Misplaced { against, .. } => plan.tasks[*against].label.clone(),
            Found::Harm { harm, .. } => serde_json::to_value(harm)
                .ok()
                .and_then(|word| word.as_str().map(str::to_owned))?,
            _ => return None,
        })
    }

    fn amounts(&self, finding: &Finding) -> (Option<Amount>, Option<Amount>) {
        let plan = self.wording.names.plan;
        let time = |ms: crate::units::Millis| Some(Amount::Time { ms: ms.0 });
        let at_most = |most: crate::units::Millis| {
            Some(Amount::Between {
                least_ms: None,
                most_ms: Some(most.0),
            })
        };
        match &finding.what {
            Found::Short { was, window, .. } | Found::Long { was, window } => (
                Some(Amount::Window {
                    target_ms: window.target.0,
                    least_ms: window.least.0,
                    most_ms: window.most.0,
                }),
                time(*was),
            ),
            Found::AfterSign { by, within } => (at_most(*within), time(*by)),
            Found::Gap { gap, was } => (
                Some(Amount::Between {
                    least_ms: plan.gaps[*gap].least.map(|least| least.0),
                    most_ms: plan.gaps[*gap].most.map(|most| most.0),
                }),
                time(*was),
            ),
            Found::Cap { was, most, .. } => (at_most(*most), time(*was)),
            Found::Crowded { rule, cells, .. } => (
                Some(Amount::Count {
                    count: plan.more_than[*rule].count,
                }),
                Some(Amount::Count { count: cells.len() }),
            ),
            Found::Unprotected { time: bare, .. } => {
                (time(crate::units::Millis::ZERO), time(*bare))
            }
            _ => (None, None),
        }
    }
}

fn right_for(
    finding: &Finding,
    module: &crate::syllabus::module::Module,
) -> Option<(String, String)> {
    use crate::syllabus::module::CaseRange;
    let Found::Short {
        right_for: Some((choice, value)),
        ..
    } = finding.what
    else {
        return None;
    };
    let choice = &module.case[choice];
    let CaseRange::OneOf(values) = &choice.range else {
        return None;
    };
    Some((choice.id.value.clone(), values[value].value.clone()))
}
