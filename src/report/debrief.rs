//! What a learner reads after a run: what happened, why it matters, what to do next time; then everything in order.

use super::block::{Block, Item};
use super::caution::{self, Hazards};
use super::figures::figures;
use super::names::Names;
use super::wording::{Wording, right_responses, severity, to_the_second, vapour};
use crate::bench::{Limits, Outcome};
use crate::rehearsal::action::Help;
use crate::rehearsal::finding::Finding;
use crate::rehearsal::grade::Graded;
use crate::rehearsal::run::Run;
use crate::rehearsal::trace::{Event, What};
use crate::syllabus::module::{Module, Name, Severity};
use crate::syllabus::plan::Plan;
use crate::text::{Caution, Value, Words, display_safe};
use crate::units::{Millis, Ppm};

/// How many pieces of advice are given; more would not be kept in mind.
const ADVICE_MOST: usize = 3;

/// How many mistakes are named on the first page; the others stand further down.
const NAMED_MOST: usize = 5;

/// How many digits of a digest tell revisions apart on a page.
const DIGEST_SHOWN: usize = 12;

/// Everything that a debrief tells about.
#[derive(Clone, Copy, Debug)]
pub struct Debriefed<'a> {
    /// The module.
    pub module: &'a Module,
    /// Its plan for the run's case card.
    pub plan: &'a Plan,
    /// The run.
    pub run: &'a Run,
    /// What happened.
    pub trace: &'a [Event],
    /// What the bench ended with.
    pub outcome: &'a Outcome,
    /// How it was graded.
    pub graded: &'a Graded,
    /// The limits that figures draw.
    pub limits: Limits,
}

/// Writes the debrief of a run.
#[must_use]
pub fn debrief(of: &Debriefed<'_>, hazards: Hazards<'_>, words: &Words) -> Vec<Block> {
    let names = Names {
        module: of.module,
        plan: of.plan,
        words,
    };
    let debrief = Debrief {
        of,
        hazards,
        names,
        wording: Wording {
            names,
            outcome: of.outcome,
        },
    };
    let mut blocks = Vec::new();
    debrief.questions(&mut blocks);
    debrief.findings(&mut blocks);
    debrief.score(&mut blocks);
    debrief.disturbances(&mut blocks);
    debrief.figures(&mut blocks);
    debrief.cautions(&mut blocks);
    debrief.facts(&mut blocks);
    blocks
}

struct Debrief<'a> {
    of: &'a Debriefed<'a>,
    hazards: Hazards<'a>,
    names: Names<'a>,
    wording: Wording<'a>,
}

impl Debrief<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.names.words.say(id, values)
    }

    fn heading(&self, level: u8, id: &str) -> Block {
        Block::heading(level, self.say(id, &[]))
    }

    fn roots(&self) -> &[Finding] {
        &self.of.graded.roots
    }

    fn lasted(&self) -> Millis {
        to_the_second(self.of.trace.last().map_or(Millis::ZERO, |event| event.end))
    }

    fn questions(&self, blocks: &mut Vec<Block>) {
        let title = &self.of.module.identity.title;
        blocks.push(Block::heading(
            1,
            self.say("debrief-title", &[("module", title.as_str().into())]),
        ));
        blocks.push(Block::Caution(
            Caution::OthersComeFirst.say(self.names.words),
        ));
        blocks.push(self.heading(2, "debrief-what-happened"));
        let verdict = [
            ("verdict", self.verdict().into()),
            ("counted", self.counted().into()),
        ];
        blocks.push(Block::Paragraph(self.say("debrief-verdict", &verdict)));
        let named = self.roots().iter().take(NAMED_MOST).map(|root| {
            let severity = severity(root.worst(), self.names.words);
            let values = [
                ("severity", severity.into()),
                ("what", self.wording.what(root).into()),
            ];
            Item::new(self.say("debrief-named", &values))
        });
        let mut named: Vec<Item> = named.collect();
        let more = self.roots().len().saturating_sub(NAMED_MOST);
        if more > 0 {
            let more = [("count", more.into())];
            named.push(Item::new(self.say("debrief-named-more", &more)));
        }
        if !named.is_empty() {
            blocks.push(Block::Items(named));
        }
        blocks.push(self.heading(2, "debrief-what-next"));
        if self.roots().is_empty() {
            let again = if self.of.graded.finished {
                self.say("debrief-next-same", &[])
            } else {
                self.say("debrief-next-finish", &[])
            };
            blocks.push(Block::Paragraph(again));
        } else {
            let mut advice: Vec<Item> = Vec::new();
            for root in self.roots() {
                let next = Item::new(self.wording.next(root));
                if !advice.contains(&next) {
                    advice.push(next);
                }
            }
            let more = advice.len().saturating_sub(ADVICE_MOST);
            advice.truncate(ADVICE_MOST);
            if more > 0 {
                let more = [("count", more.into())];
                advice.push(Item::new(self.say("debrief-next-more", &more)));
            }
            blocks.push(Block::Items(advice));
        }
        blocks.push(self.heading(2, "debrief-why-it-matters"));
        blocks.extend(self.why_it_matters());
    }

    fn verdict(&self) -> String {
        let lasted = [("time", self.lasted().into())];
        let graded = self.of.graded;
        let given_up = self
            .of
            .trace
            .iter()
            .any(|event| event.what == What::Abandoned);
        match (graded.finished, graded.clean) {
            (true, true) => self.say("debrief-clean", &lasted),
            (true, false) => self.say("debrief-not-clean", &lasted),
            (false, _) if given_up => self.say("debrief-abandoned", &lasted),
            (false, _) => self.say("debrief-unfinished", &lasted),
        }
    }

    fn count(&self, of: Severity) -> usize {
        self.roots()
            .iter()
            .filter(|root| root.worst() == of)
            .count()
    }

    fn counted(&self) -> String {
        if self.roots().is_empty() {
            return self.say("debrief-nothing-found", &[]);
        }
        let part = |id: &str, of: Severity| {
            let count = self.count(of);
            (count > 0).then(|| self.say(id, &[("count", count.into())]))
        };
        let parts = [
            part("debrief-counted-critical", Severity::Critical),
            part("debrief-counted-major", Severity::Major),
            part("debrief-counted-minor", Severity::Minor),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        let values = [
            ("count", self.roots().len().into()),
            ("parts", parts.into()),
        ];
        self.say("debrief-counted", &values)
    }

    /// What showed on the bench, else what the gravest finding can lead to.
    fn why_it_matters(&self) -> Vec<Block> {
        let mut shown: Vec<usize> = self.roots().iter().flat_map(Finding::shown).collect();
        shown.sort_unstable();
        shown.dedup();
        let texts = |all: &[usize]| -> Vec<Item> {
            let consequences = &self.of.module.consequences;
            let texts = all.iter().map(|&one| display_safe(&consequences[one].text));
            texts.map(Item::new).collect()
        };
        let Some(gravest) = self.roots().first() else {
            let id = if self.of.graded.finished {
                "debrief-matters-clean"
            } else {
                "debrief-matters-unfinished"
            };
            return vec![Block::Paragraph(self.say(id, &[]))];
        };
        let mut blocks = Vec::new();
        if !shown.is_empty() {
            blocks.push(Block::Paragraph(self.say("debrief-matters-shown", &[])));
            blocks.push(Block::Items(texts(&shown)));
        } else if !gravest.leads_to.is_empty() {
            blocks.push(Block::Paragraph(self.say("debrief-matters-can", &[])));
            blocks.push(Block::Items(texts(&gravest.leads_to)));
        }
        if blocks.is_empty() {
            blocks.push(Block::Paragraph(match gravest.worst() {
                Severity::Critical => self.say("debrief-matters-critical", &[]),
                Severity::Major => self.say("debrief-matters-major", &[]),
                Severity::Minor => self.say("debrief-matters-minor", &[]),
            }));
        } else {
            blocks.push(Block::Caution(Caution::TeachingModel.say(self.names.words)));
        }
        blocks
    }

    fn findings(&self, blocks: &mut Vec<Block>) {
        blocks.push(self.heading(2, "debrief-findings"));
        blocks.push(Block::Paragraph(self.say("debrief-decides", &[])));
        for (at, root) in self.roots().iter().enumerate() {
            let values = [
                ("number", (at + 1).to_string().into()),
                ("severity", severity(root.worst(), self.names.words).into()),
                ("what", self.wording.what(root).into()),
            ];
            blocks.push(Block::heading(3, self.say("debrief-root", &values)));
            blocks.push(Block::Items(self.told(root)));
            let hazards = self.hazards_of(root);
            if !hazards.is_empty() {
                let values = [("hazards", hazards.into())];
                blocks.push(Block::Caution(self.say("debrief-hazards-here", &values)));
            }
        }
        blocks.push(self.heading(2, "debrief-well"));
        let score = &self.of.graded.score;
        let required = || {
            self.of
                .plan
                .tasks
                .iter()
                .enumerate()
                .filter(|one| one.1.required)
        };
        let done = required().filter(|(task, _)| {
            let mut events = self.of.trace.iter();
            events.any(|event| event.task() == Some(*task))
        });
        let values = [
            ("done", done.count().into()),
            ("all", required().count().into()),
            ("timed", score.in_time.1.into()),
            ("kept", score.in_time.0.into()),
        ];
        blocks.push(Block::Paragraph(self.say("debrief-well-done", &values)));
    }

    /// Titles of the hazards of the steps and guards of a finding and of what followed from it.
    fn hazards_of(&self, finding: &Finding) -> Vec<String> {
        let mut ids: Vec<&Name> = Vec::new();
        self.collect_hazards(finding, &mut ids);
        let mut titles: Vec<String> = Vec::new();
        for id in ids {
            let title = (self.hazards)(&id.value).map_or(id.value.clone(), |one| one.title);
            if !titles.contains(&title) {
                titles.push(title);
            }
        }
        titles
    }

    fn collect_hazards<'s>(&'s self, finding: &Finding, ids: &mut Vec<&'s Name>) {
        use crate::rehearsal::finding::Found;
        for &task in &finding.tasks {
            let step = self.names.step(task);
            ids.extend(&step.hazards);
            // What has to be worn or running where it happened belongs to it too.
            let guards = self.of.module.guards.iter();
            let here =
                guards.filter(|guard| guard.during.iter().any(|at| at.value == step.at.value));
            ids.extend(here.map(|guard| &guard.hazard));
        }
        match finding.what {
            Found::Unprotected { guard, .. } => ids.push(&self.of.module.guards[guard].hazard),
            // An act has no hazards of its own: everything that the module names may be in reach.
            Found::Forbidden { .. } | Found::WrongResponse { .. } | Found::CarriedOn { .. } => {
                ids.extend(&self.of.module.identity.hazards);
            }
            _ => {}
        }
        for one in &finding.follow_ons {
            self.collect_hazards(one, ids);
        }
    }

    /// Everything about one finding.
    fn told(&self, finding: &Finding) -> Vec<Item> {
        let mut items: Vec<Item> = Vec::new();
        items.extend(self.wording.expected(finding).map(Item::new));
        items.extend(self.wording.right_for(finding).map(Item::new));
        items.extend(self.wording.why(finding).map(Item::new));
        if let Some(text) = super::wording::module_text(self.of.module, finding.words) {
            items.push(Item::new(display_safe(text)));
        }
        let consequences = self.wording.consequences(finding);
        items.extend(consequences.into_iter().map(Item::new));
        items.extend(self.follow_ons(finding));
        items
    }

    /// What followed, each with what followed from it; what reads the same twice is told once.
    fn follow_ons(&self, finding: &Finding) -> Vec<Item> {
        let mut items: Vec<Item> = Vec::new();
        for one in &finding.follow_ons {
            let values = [
                ("severity", severity(one.severity, self.names.words).into()),
                ("what", self.wording.what(one).into()),
            ];
            let mut under: Vec<Item> = Vec::new();
            under.extend(self.wording.expected(one).map(Item::new));
            under.extend(self.follow_ons(one));
            let item = Item::new(self.say("debrief-followed", &values)).with(under);
            if !items.contains(&item) {
                items.push(item);
            }
        }
        items
    }

    fn score(&self, blocks: &mut Vec<Block>) {
        let score = &self.of.graded.score;
        blocks.push(self.heading(2, "debrief-score"));
        blocks.push(Block::Paragraph(self.say("debrief-score-note", &[])));
        let order = Ppm((score.order.0 + 500).div_euclid(1000) * 1000);
        let pair =
            |part: Value, whole: Value| self.say("debrief-of", &[("part", part), ("whole", whole)]);
        let row = |id: &str, found: String| vec![self.say(id, &[]), found];
        blocks.push(Block::Table {
            head: vec![
                self.say("debrief-score-part", &[]),
                self.say("debrief-score-found", &[]),
            ],
            rows: vec![
                row("debrief-score-order", self.names.words.write(&order.into())),
                row(
                    "debrief-score-time",
                    pair(score.in_time.0.into(), score.in_time.1.into()),
                ),
                row(
                    "debrief-score-protection",
                    pair(
                        to_the_second(score.protected.0).into(),
                        to_the_second(score.protected.1).into(),
                    ),
                ),
                row(
                    "debrief-score-harms",
                    self.names.words.write(&score.harms.into()),
                ),
            ],
        });
    }

    fn disturbances(&self, blocks: &mut Vec<Block>) {
        let mut items = Vec::new();
        for (at, event) in self.of.trace.iter().enumerate() {
            let What::Disturbed(index) = event.what else {
                continue;
            };
            let one = &self.of.module.disturbances[index];
            let answer = self.of.trace[at..]
                .iter()
                .find_map(|event| match event.what {
                    What::Answered(of, response) if of == index => Some(Some(response)),
                    What::CarriedOn(of) if of == index => Some(None),
                    _ => None,
                });
            let right = right_responses(one);
            let said = match answer {
                Some(Some(response)) => {
                    let response = &one.responses[response];
                    let taken = ("taken", response.title.as_str().into());
                    if response.wrong.is_none() {
                        self.say("debrief-answered-right", &[taken])
                    } else {
                        let right = ("right", right.into());
                        self.say("debrief-answered-wrong", &[taken, right])
                    }
                }
                Some(None) if one.carry_on.is_none() => self.say("debrief-went-on-right", &[]),
                Some(None) => self.say("debrief-went-on-wrong", &[("right", right.into())]),
                None => self.say("debrief-unanswered", &[("right", right.into())]),
            };
            let seen = display_safe(&one.seen);
            items.push(Item::new(seen).with(vec![Item::new(said)]));
        }
        blocks.push(self.heading(2, "debrief-disturbances"));
        blocks.push(if items.is_empty() {
            Block::Paragraph(self.say("debrief-undisturbed", &[]))
        } else {
            Block::Items(items)
        });
    }

    fn figures(&self, blocks: &mut Vec<Block>) {
        let of = self.of;
        let all = figures(
            of.module,
            of.plan,
            of.trace,
            of.outcome,
            of.limits,
            self.names.words,
        );
        if all.is_empty() {
            return;
        }
        blocks.push(self.heading(2, "debrief-figures"));
        blocks.extend(all.into_iter().map(Block::Figure));
        blocks.extend(self.air());
    }

    /// What the air came to, as numbers.
    fn air(&self) -> Option<Block> {
        let air = &self.of.outcome.figures.air;
        let share = Ppm((air.explosive_share.0 + 500).div_euclid(1000) * 1000);
        let row = |id: &str, found: String| vec![self.say(id, &[]), found];
        (!air.samples.is_empty()).then(|| Block::Table {
            head: vec![
                self.say("debrief-air-measure", &[]),
                self.say("debrief-score-found", &[]),
            ],
            rows: vec![
                row(
                    "debrief-air-average",
                    vapour(air.average_8_h, self.names.words),
                ),
                row(
                    "debrief-air-highest",
                    vapour(air.highest_15_min, self.names.words),
                ),
                row(
                    "debrief-air-explosive",
                    self.names.words.write(&share.into()),
                ),
            ],
        })
    }

    /// The precautions of the findings' hazards and of the timed steps that the figures show, and the module's own cautions.
    fn cautions(&self, blocks: &mut Vec<Block>) {
        let mut ids: Vec<&Name> = Vec::new();
        for root in self.roots() {
            self.collect_hazards(root, &mut ids);
        }
        let drawn = self.of.trace.iter().filter_map(Event::task);
        for task in drawn.filter(|&task| self.of.plan.tasks[task].keeping.is_some()) {
            ids.extend(&self.names.step(task).hazards);
        }
        let told = caution::blocks(&self.names, &ids, self.hazards);
        let own = &self.of.module.identity.cautions;
        if told.is_empty() && own.is_empty() {
            return;
        }
        blocks.push(self.heading(2, "debrief-protection"));
        blocks.extend(told);
        blocks.extend(own.iter().map(|text| Block::Caution(display_safe(text))));
    }

    fn facts(&self, blocks: &mut Vec<Block>) {
        let run = self.of.run;
        let digest: String = run.digest.chars().take(DIGEST_SHOWN).collect();
        let card: Vec<String> = self
            .names
            .card()
            .into_iter()
            .map(|(choice, value)| {
                let values = [("choice", choice.into()), ("value", value.into())];
                self.say("debrief-choice", &values)
            })
            .collect();
        let help = match run.help {
            Help::Guided => self.say("debrief-help-guided", &[]),
            Help::Prompted => self.say("debrief-help-prompted", &[]),
            Help::Unaided => self.say("debrief-help-unaided", &[]),
        };
        let row = |id: &str, found: String| vec![self.say(id, &[]), found];
        let revision = [
            ("module", run.module.as_str().into()),
            ("revision", run.revision.to_string().into()),
            ("digest", digest.into()),
        ];
        blocks.push(self.heading(2, "debrief-facts"));
        blocks.push(Block::Table {
            head: vec![
                self.say("debrief-fact", &[]),
                self.say("debrief-fact-value", &[]),
            ],
            rows: vec![
                row(
                    "debrief-fact-module",
                    self.say("debrief-revision", &revision),
                ),
                row("debrief-fact-profile", display_safe(&run.profile)),
                row("debrief-fact-card", self.names.words.write(&card.into())),
                row("debrief-fact-help", help),
                row("debrief-fact-seed", run.seed.0.to_string()),
            ],
        });
        let disturbances = if run.disturbances.is_empty() {
            "none".to_owned()
        } else {
            run.disturbances.join(",")
        };
        let values = [
            ("disturbances", disturbances.into()),
            ("module", run.module.as_str().into()),
            ("card", run.card.to_string().into()),
            ("seed", run.seed.0.to_string().into()),
            ("profile", run.profile.as_str().into()),
        ];
        blocks.push(Block::Paragraph(self.say("debrief-repeat", &values)));
    }
}
