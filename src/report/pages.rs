//! A module to read through before anybody touches anything: an overview for a case card, then one page per step.

use super::block::{Block, Item};
use super::caution::{self, Hazards};
use super::names::Names;
use super::wording::{right_options, severity};
use crate::syllabus::module::{Miss, Module, Name, Never, ProtectionKind, Step, Tier};
use crate::syllabus::plan::{Plan, TaskKeeping};
use crate::text::{Caution, Value, Words, display_safe};

/// One page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// The id of the step; `None` for the overview.
    pub step: Option<String>,
    /// What stands on it.
    pub blocks: Vec<Block>,
}

/// The overview and one page per step of the plan, in the order of the module.
#[must_use]
pub fn pages(module: &Module, plan: &Plan, hazards: Hazards<'_>, words: &Words) -> Vec<Page> {
    let pages = Pages {
        names: Names {
            module,
            plan,
            words,
        },
        hazards,
    };
    let mut all = vec![Page {
        step: None,
        blocks: pages.overview(),
    }];
    all.extend((0..module.steps.len()).map(|step| Page {
        step: Some(module.steps[step].id.value.clone()),
        blocks: pages.step(step),
    }));
    all
}

struct Pages<'a> {
    names: Names<'a>,
    hazards: Hazards<'a>,
}

impl Pages<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.names.words.say(id, values)
    }

    fn heading(&self, id: &str) -> Block {
        Block::heading(2, self.say(id, &[]))
    }

    fn overview(&self) -> Vec<Block> {
        let Names { module, plan, .. } = self.names;
        let identity = &module.identity;
        let mut blocks = vec![
            Block::heading(1, display_safe(&identity.title)),
            Block::Paragraph(display_safe(&identity.about)),
            Block::Caution(Caution::OthersComeFirst.say(self.names.words)),
        ];
        let own = identity.cautions.iter();
        blocks.extend(own.map(|text| Block::Caution(display_safe(text))));
        blocks.push(self.heading("pages-case"));
        let card = self.names.card();
        blocks.push(if card.is_empty() {
            Block::Paragraph(self.say("pages-case-none", &[]))
        } else {
            Block::Table {
                head: vec![self.say("pages-choice", &[]), self.say("pages-value", &[])],
                rows: card
                    .into_iter()
                    .map(|(choice, value)| vec![choice, value])
                    .collect(),
            }
        });
        if !module.requires.is_empty() {
            let ids = module.requires.iter().map(|one| one.value.clone());
            let modules = ("modules", ids.collect::<Vec<String>>().into());
            blocks.push(Block::Paragraph(self.say("pages-requires", &[modules])));
        }
        blocks.push(self.heading("pages-totals"));
        let totals = plan.totals();
        let required = plan.tasks.iter().filter(|task| task.required).count();
        let row = |id: &str, value: Value| vec![self.say(id, &[]), self.names.words.write(&value)];
        blocks.push(Block::Table {
            head: vec![self.say("pages-measure", &[]), self.say("pages-value", &[])],
            rows: vec![
                row("pages-tasks", required.into()),
                row("pages-hands-on", totals.hands_on.into()),
                row("pages-chain", totals.longest_chain.into()),
                row("pages-least", totals.least.into()),
                row("pages-greatest", totals.greatest.into()),
            ],
        });
        blocks.push(Block::Paragraph(self.say("pages-totals-note", &[])));
        blocks.push(self.heading("pages-chain-steps"));
        let mut steps: Vec<usize> = totals
            .chain
            .iter()
            .map(|&task| plan.tasks[task].step)
            .collect();
        steps.dedup();
        blocks.push(Block::Items(
            steps
                .into_iter()
                .map(|step| Item::new(display_safe(&module.steps[step].title)))
                .collect(),
        ));
        let acts: Vec<Item> = module
            .never
            .iter()
            .filter_map(|one| match one {
                Never::Act(act) => {
                    let text = self.miss(&act.miss);
                    let children = text.into_iter().map(Item::new).collect();
                    let act = ("act", act.title.as_str().into());
                    Some(Item::new(self.say("pages-never-act", &[act])).with(children))
                }
                _ => None,
            })
            .collect();
        if !acts.is_empty() {
            blocks.push(self.heading("pages-never"));
            blocks.push(Block::Items(acts));
        }
        let ids: Vec<&Name> = identity.hazards.iter().collect();
        let told = caution::blocks(&self.names, &ids, self.hazards);
        if !told.is_empty() {
            blocks.push(self.heading("pages-protection"));
            blocks.extend(told);
        }
        blocks
    }

    fn step(&self, number: usize) -> Vec<Block> {
        let Names { module, plan, .. } = self.names;
        let step = &module.steps[number];
        let stage = step.stage.as_ref().map_or("", |stage| &stage.title);
        let place = [
            ("number", (number + 1).into()),
            ("all", module.steps.len().into()),
            ("stage", stage.into()),
        ];
        let mut blocks = vec![
            Block::heading(1, display_safe(&step.title)),
            Block::Paragraph(if stage.is_empty() {
                self.say("pages-where", &place)
            } else {
                self.say("pages-where-in-stage", &place)
            }),
        ];
        let mut facts: Vec<Item> = Vec::new();
        let station = [("station", self.names.station(&step.at.value).into())];
        facts.push(Item::new(self.say("pages-station", &station)));
        let tasks = &plan.tasks_of_step[number];
        if tasks.len() > 1 {
            let places = self.names.tasks(tasks);
            let values = [("count", tasks.len().into()), ("places", places.into())];
            facts.push(Item::new(self.say("pages-places", &values)));
        }
        if step.optional {
            facts.push(Item::new(self.say("pages-optional", &[])));
        }
        if step.critical {
            facts.push(Item::new(self.say("pages-critical", &[])));
        }
        if !step.attended {
            facts.push(Item::new(self.say("pages-unattended", &[])));
        }
        facts.extend(self.order(step).into_iter().map(Item::new));
        facts.extend(self.time(number).into_iter().map(Item::new));
        // What a reader came for stands first: why, and what good looks like. What is long stands last.
        if !step.why.is_empty() {
            blocks.push(self.heading("pages-why"));
            blocks.push(Block::Paragraph(display_safe(&step.why)));
        }
        if !step.good.is_empty() {
            blocks.push(self.heading("pages-good"));
            blocks.push(Block::Paragraph(display_safe(&step.good)));
        }
        blocks.push(self.heading("pages-limits"));
        if !step.tools.is_empty() {
            let tools = step.tools.iter().map(|tool| display_safe(tool));
            let tools = ("tools", tools.collect::<Vec<String>>().into());
            facts.push(Item::new(self.say("pages-tools", &[tools])));
        }
        blocks.push(Block::Items(facts));
        blocks.extend(self.protection(step));
        blocks.extend(self.ways(step));
        blocks.extend(self.errors(step));
        blocks.extend(self.consequences(step));
        blocks.extend(self.hazards(step));
        blocks
    }

    /// What comes before, what must be so, and what the bench refuses.
    fn order(&self, step: &Step) -> Vec<String> {
        let module = self.names.module;
        let title = |id: &str| {
            let found = module.steps.iter().find(|one| one.id.value == id);
            found.map_or(id.to_owned(), |one| one.title.clone())
        };
        let mut told = Vec::new();
        if !step.after.is_empty() {
            let steps = step.after.iter().map(|one| title(&one.step.value));
            let steps = ("steps", steps.collect::<Vec<String>>().into());
            told.push(self.say("pages-after", &[steps]));
        }
        let states = |all: &[crate::syllabus::module::Condition]| -> Value {
            let states = all.iter().map(|one| self.names.condition(one));
            states.collect::<Vec<String>>().into()
        };
        if !step.needs.is_empty() {
            told.push(self.say("pages-needs", &[("states", states(&step.needs))]));
        }
        if !step.refused_if.is_empty() {
            told.push(self.say("pages-refused", &[("states", states(&step.refused_if))]));
        }
        told
    }

    /// How long it takes and how its time is kept, for this case card.
    fn time(&self, step: usize) -> Vec<String> {
        let plan = self.names.plan;
        let Some(task) = plan.tasks_of_step[step].first() else {
            return vec![self.say("pages-not-this-case", &[])];
        };
        let task = &plan.tasks[*task];
        let mut told = vec![self.say("pages-handling", &[("time", task.takes.into())])];
        let window = |window: &crate::syllabus::plan::Window| -> [(&'static str, Value); 3] {
            [
                ("target", window.target.into()),
                ("least", window.least.into()),
                ("most", window.most.into()),
            ]
        };
        match &task.keeping {
            None => {}
            Some(TaskKeeping::Timer(limits)) => {
                told.push(self.say("pages-timer", &window(limits)));
            }
            Some(TaskKeeping::Count(limits)) => {
                told.push(self.say("pages-count", &window(limits)));
            }
            Some(TaskKeeping::Watch {
                sign,
                within,
                expect,
            }) => {
                let values = [
                    ("sign", self.names.cells(sign).into()),
                    ("within", (*within).into()),
                ];
                told.push(self.say("pages-watch", &values));
                if let Some((soonest, latest)) = expect {
                    let values = [("soonest", (*soonest).into()), ("latest", (*latest).into())];
                    told.push(self.say("pages-expect", &values));
                }
            }
            Some(TaskKeeping::Judge { until, portion }) => {
                let looks: Vec<String> = until.iter().map(|one| self.names.cells(one)).collect();
                let values = [("looks", looks.into()), ("portion", (*portion).into())];
                told.push(self.say("pages-judge", &values));
            }
        }
        told
    }

    /// What to wear and run at this step.
    fn protection(&self, step: &Step) -> Vec<Block> {
        let module = self.names.module;
        let mut asked: Vec<String> = Vec::new();
        for guard in &module.guards {
            let here = guard.during.is_empty()
                || guard.during.iter().any(|one| one.value == step.at.value);
            let mut items = module.protection_items.iter();
            let item = items.find(|one| here && one.id.value == guard.item.value);
            let Some(item) = item else { continue };
            let values = [("item", item.title.as_str().into())];
            let said = match item.kind {
                ProtectionKind::Worn => self.say("pages-wear", &values),
                ProtectionKind::Running => self.say("pages-run", &values),
            };
            if !asked.contains(&said) {
                asked.push(said);
            }
        }
        if asked.is_empty() {
            return Vec::new();
        }
        vec![
            self.heading("pages-protection-here"),
            Block::Items(asked.into_iter().map(Item::new).collect()),
            Block::Caution(Caution::OthersComeFirst.say(self.names.words)),
        ]
    }

    /// The hazards of this step with their precautions.
    fn hazards(&self, step: &Step) -> Vec<Block> {
        let ids: Vec<&Name> = step.hazards.iter().collect();
        let told = caution::blocks(&self.names, &ids, self.hazards);
        if told.is_empty() {
            return Vec::new();
        }
        let mut blocks = vec![self.heading("pages-protection")];
        blocks.extend(told);
        blocks
    }

    /// What anything that goes wrong here can lead to, each once.
    fn consequences(&self, step: &Step) -> Vec<Block> {
        let errors = &step.errors;
        let tiers = errors
            .short
            .iter()
            .chain(&errors.long)
            .map(|tier| &tier.miss);
        let wrong = step.ways.iter().flat_map(|way| &way.options);
        let all = [&errors.skipped, &errors.unready, &errors.misplaced]
            .into_iter()
            .flatten()
            .chain(tiers)
            .chain(wrong.filter_map(|option| option.wrong.as_ref()))
            .flat_map(|miss| &miss.leads_to);
        let mut ids: Vec<&str> = Vec::new();
        for id in all {
            if !ids.contains(&id.value.as_str()) {
                ids.push(&id.value);
            }
        }
        let known = &self.names.module.consequences;
        let texts = ids.iter().filter_map(|id| {
            let found = known.iter().find(|one| one.id.value == **id)?;
            Some(Item::new(display_safe(&found.text)))
        });
        let texts: Vec<Item> = texts.collect();
        if texts.is_empty() {
            return Vec::new();
        }
        vec![
            self.heading("pages-leads-to"),
            Block::Items(texts),
            Block::Caution(Caution::TeachingModel.say(self.names.words)),
        ]
    }

    fn ways(&self, step: &Step) -> Vec<Block> {
        if step.ways.is_empty() {
            return Vec::new();
        }
        let items = step.ways.iter().map(|way| {
            let right = [("right", right_options(way).into())];
            let mut under = vec![Item::new(self.say("pages-right", &right))];
            for option in &way.options {
                if let Some(miss) = &option.wrong {
                    let wrong = [("option", option.title.as_str().into())];
                    let text = self.miss(miss).into_iter().map(Item::new).collect();
                    under.push(Item::new(self.say("pages-wrong", &wrong)).with(text));
                }
            }
            Item::new(display_safe(&way.title)).with(under)
        });
        vec![self.heading("pages-ways"), Block::Items(items.collect())]
    }

    fn errors(&self, step: &Step) -> Vec<Block> {
        let errors = &step.errors;
        let mut items: Vec<Item> = Vec::new();
        let mut add = |lead: String, miss: &Miss| {
            let under = self.miss(miss).into_iter().map(Item::new).collect();
            items.push(Item::new(lead).with(under));
        };
        let lead = |id: &str, miss: &Miss| {
            let weight = severity(miss.severity, self.names.words);
            self.say(id, &[("severity", weight.into())])
        };
        if let Some(miss) = &errors.skipped {
            add(lead("pages-if-skipped", miss), miss);
        }
        let tier = |plain: &str, limited: &str, tier: &Tier| match tier.limit {
            None => lead(plain, &tier.miss),
            Some(limit) => {
                let weight = severity(tier.miss.severity, self.names.words);
                let values = [("severity", weight.into()), ("limit", limit.into())];
                self.say(limited, &values)
            }
        };
        for one in &errors.short {
            add(tier("pages-if-short", "pages-if-shorter", one), &one.miss);
        }
        for one in &errors.long {
            add(tier("pages-if-long", "pages-if-longer", one), &one.miss);
        }
        if let Some(miss) = &errors.unready {
            add(lead("pages-if-unready", miss), miss);
        }
        if let Some(miss) = &errors.misplaced {
            add(lead("pages-if-misplaced", miss), miss);
        }
        if items.is_empty() {
            return Vec::new();
        }
        vec![self.heading("pages-errors"), Block::Items(items)]
    }

    /// What a miss means, in its own words.
    fn miss(&self, miss: &Miss) -> Vec<String> {
        let text = Some(&miss.text).filter(|text| !text.is_empty());
        text.map(|text| display_safe(text)).into_iter().collect()
    }
}
