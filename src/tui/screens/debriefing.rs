//! The debrief: what happened first; then the findings, each with the way to its step; the figures; and the rest.

use std::path::PathBuf;
use std::sync::Arc;

use super::reading::Reading;
use super::sitting::Sitting;
use super::{Module, not_kept, not_started};
use crate::app::keep::Keeper;
use crate::app::rehearse::{Disturbances, Request, Session};
use crate::app::{System, complain, save};
use crate::rehearsal::action::Help;
use crate::rehearsal::replay::{ReplayProblem, Replayed};
use crate::rehearsal::run::Run;
use crate::report::json::debrief_json;
use crate::report::plain::{Glyphs, plain};
use crate::report::record::id_of;
use crate::report::{Block, debrief};
use crate::rng::Seed;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::rows::{self, Look};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};

/// How wide the list of findings is beside a finding, in columns. Our default.
const LIST: usize = 30;

/// The parts of a debrief, one tab each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Tab {
    /// The three questions.
    Outcome,
    /// The findings.
    Findings,
    /// The figures.
    Figures,
    /// What is left: what went well, the score, what came in between, cautions, facts.
    Rest,
}

const TABS: [(Tab, &str); 4] = [
    (Tab::Outcome, "screens-debrief-outcome"),
    (Tab::Findings, "screens-debrief-findings"),
    (Tab::Figures, "screens-debrief-figures"),
    (Tab::Rest, "screens-debrief-rest"),
];

/// One finding.
struct Found {
    /// Its heading.
    title: String,
    /// What is told about it.
    blocks: Vec<Block>,
    /// The id of the step it is about, if it is about one.
    step: Option<String>,
}

/// The debrief of a run.
pub struct Debriefing {
    module: Module,
    run: Run,
    /// Whether the next run is kept, as this one was.
    kept: bool,
    clean: bool,
    /// The whole debrief, for saving.
    blocks: Vec<Block>,
    json: String,
    outcome: Vec<Block>,
    found: Vec<Found>,
    figures: Vec<Block>,
    rest: Vec<Block>,
    tab: Tab,
    choice: Choice,
    scroll: Scroll,
}

impl Debriefing {
    /// Grades a run and words its debrief.
    ///
    /// # Errors
    /// When the run does not replay, which would be a fault of the program.
    pub fn new<S: System>(
        session: &Session,
        kept: bool,
        desk: &Desk<S>,
    ) -> Result<Debriefing, ReplayProblem> {
        let replayed = session.debrief()?;
        let of = session.debriefed(&replayed);
        let module: Module = Arc::new(session.taken().clone());
        let blocks = debrief(&of, &|id| module.hazard(id), &desk.words);
        let json =
            serde_json::to_string_pretty(&debrief_json(&of, &desk.words)).unwrap_or_default();
        let mut debriefing = Debriefing {
            clean: replayed.graded.clean,
            run: session.run().clone(),
            kept,
            blocks: Vec::new(),
            json,
            outcome: Vec::new(),
            found: Vec::new(),
            figures: Vec::new(),
            rest: Vec::new(),
            tab: Tab::Outcome,
            choice: Choice::default(),
            scroll: Scroll::default(),
            module: Arc::clone(&module),
        };
        debriefing.sort(&blocks, &steps(&replayed, session));
        debriefing.blocks = blocks;
        Ok(debriefing)
    }

    /// Has the run become an entry about whoever practised. One that is an entry already stays it.
    fn record<S: System>(&mut self, desk: &mut Desk<S>) {
        // What was not kept shows nothing that could be gone through again.
        let Some(person) = desk.person().filter(|_| self.kept) else {
            return;
        };
        let Some((house, words)) = desk.office() else {
            return;
        };
        let laboratory = &mut house.laboratory;
        let recorded = laboratory.rehearsed(person, &self.module, &self.run, self.clean);
        let said = match recorded {
            Ok(done) => {
                let values = [
                    ("entry", id_of(&done.entry).into()),
                    ("who", house.name_of(person).into()),
                ];
                let mut texts = vec![words.say("screens-debrief-recorded", &values)];
                if self.run.help != Help::Unaided {
                    texts.push(words.say("screens-debrief-helped-counts-not", &[]));
                }
                texts.join(" ")
            }
            Err(problem) => {
                let mut texts = house.problem(&problem, words).texts;
                texts.push(words.say("rehearsal-not-recorded", &[]));
                texts.join(" ")
            }
        };
        self.outcome.insert(0, Block::Paragraph(said));
    }

    /// Puts each block on its tab. Chapters begin with a heading of the second level, findings with one of the third.
    fn sort(&mut self, blocks: &[Block], steps: &[Option<String>]) {
        let mut chapters =
            blocks.chunk_by(|_, next| !matches!(next, Block::Heading { level: 2, .. }));
        // The title of the whole stands in the bar; the caution under it belongs to the first page.
        let head = chapters.next().unwrap_or_default().iter();
        self.outcome = head
            .filter(|block| !matches!(block, Block::Heading { .. }))
            .cloned()
            .collect();
        let caution = self.outcome.clone();
        self.outcome.clear();
        for (number, chapter) in chapters.enumerate() {
            let third = |block: &Block| matches!(block, Block::Heading { level: 3, .. });
            if number < 3 {
                self.outcome.extend(chapter.iter().cloned());
            } else if number == 3 {
                for finding in chapter
                    .chunk_by(|_, next| !third(next))
                    .filter(|one| third(&one[0]))
                {
                    let Block::Heading { text, .. } = &finding[0] else {
                        continue;
                    };
                    self.found.push(Found {
                        title: text.clone(),
                        blocks: finding.to_vec(),
                        step: steps.get(self.found.len()).cloned().flatten(),
                    });
                }
            } else if chapter
                .iter()
                .any(|block| matches!(block, Block::Figure(_)))
            {
                self.figures.extend(chapter.iter().skip(1).cloned());
            } else {
                self.rest.extend(chapter.iter().cloned());
            }
        }
        self.outcome.extend(caution);
    }

    fn page<S: System>(&self, area: Area, desk: &Desk<S>) -> (Area, Vec<Line>) {
        let (_, below) = area.split_rows(2);
        let below = Area {
            x: below.x + 1,
            wide: below.wide.saturating_sub(2),
            ..below
        };
        let readable = |area: Area| Area {
            wide: area.wide.min(96),
            ..area
        };
        let (area, blocks): (Area, &[Block]) = match self.tab {
            Tab::Outcome => (readable(below), &self.outcome),
            Tab::Figures => (below, &self.figures),
            Tab::Rest => (readable(below), &self.rest),
            Tab::Findings if self.found.is_empty() => (below, &[]),
            Tab::Findings => {
                let (_, right) = below.split_columns(LIST + 2);
                let found = self.found.get(self.choice.at);
                (readable(right), found.map_or(&[][..], |one| &one.blocks))
            }
        };
        let mut lines = prose::lines(blocks, area.wide.saturating_sub(2), area.tall, desk.glyphs);
        if lines.is_empty() {
            lines = prose::wrapped(
                Role::Plain,
                &desk.say(
                    if self.tab == Tab::Findings {
                        "screens-debrief-nothing"
                    } else {
                        "screens-debrief-no-figures"
                    },
                    &[],
                ),
                area.wide,
            );
        }
        (area, lines)
    }

    fn turn_to(&mut self, tab: Tab) {
        self.tab = tab;
        self.scroll = Scroll::default();
    }

    /// Starts another run: of the same case, or of one drawn afresh.
    fn again<S>(&self, seed: Seed, desk: &Desk<S>) -> Turn<S>
    where
        S: System + Send + Sync + 'static,
        S::Journal: Send + Sync,
    {
        let same = seed == self.run.seed;
        let case = if same {
            self.run.card.to_string()
        } else {
            String::new()
        };
        let request = Request {
            module: &self.run.module,
            profile: Some(&self.run.profile),
            case: &case,
            seed,
            help: self.run.help,
            disturbances: if same {
                Disturbances::Named(self.run.disturbances.clone())
            } else {
                Disturbances::Drawn
            },
        };
        let session = match Session::on((*self.module).clone(), &request) {
            Ok(session) => session,
            Err(problem) => return Turn::Tell(not_started(&problem, &desk.words)),
        };
        let keeper = if self.kept {
            Keeper::start(&desk.system, desk.drawer(), session.run())
        } else {
            Ok(Keeper::nothing())
        };
        match keeper {
            Ok(keeper) => Turn::Replace(Box::new(Sitting::new(session, keeper, false, desk))),
            Err(problem) => Turn::Tell(not_kept(&problem, &desk.words)),
        }
    }

    /// Writes the debrief as text and for machines, and says where.
    fn save<S: System>(&self, desk: &Desk<S>) -> Notice {
        let text = plain(&self.blocks, 80, Glyphs::Ascii).join("\n") + "\n";
        let name = format!("{}-{}", self.run.module, self.run.seed.0);
        match save::debrief(&desk.system, desk.data.as_deref(), &name, &text, &self.json) {
            Ok(paths) => {
                let shown = |path: &PathBuf| path.to_string_lossy().replace('\\', "/");
                let mut texts = vec![desk.say("screens-debrief-saved", &[])];
                texts.extend(paths.iter().map(shown));
                Notice::new(texts)
            }
            Err(fault) => Notice::new(complain::machine(&fault, &desk.words)),
        }
    }
}

/// The step that each root is about, if it is about one.
fn steps(replayed: &Replayed, session: &Session) -> Vec<Option<String>> {
    let on = session.prepared();
    let roots = replayed.graded.roots.iter();
    let step = |root: &crate::rehearsal::finding::Finding| {
        let task = root.tasks.first()?;
        Some(on.module.steps[on.plan.tasks[*task].step].id.value.clone())
    };
    roots.map(step).collect()
}

impl<S> Screen<S> for Debriefing
where
    S: System + Send + Sync + 'static,
    S::Journal: Send + Sync,
{
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let (area, lines) = self.page(desk.body(), desk);
        if self.tab == Tab::Findings
            && matches!(
                command,
                Command::Up | Command::Down | Command::First | Command::Last
            )
        {
            self.choice
                .moved(command, self.found.len(), self.found.len());
            self.scroll = Scroll::default();
            return Turn::Stay;
        }
        if self.scroll.moved(command, lines.len(), area.tall) {
            return Turn::Stay;
        }
        let at = TABS.iter().position(|one| one.0 == self.tab).unwrap_or(0);
        match command {
            Command::Right | Command::Next => self.turn_to(TABS[(at + 1) % TABS.len()].0),
            Command::Left | Command::Previous => {
                self.turn_to(TABS[(at + TABS.len() - 1) % TABS.len()].0);
            }
            Command::Type(' ') => {
                // Space reads on: down the page, then to the next one.
                if self.scroll.shown(lines.len(), area.tall) + area.tall < lines.len() {
                    self.scroll.moved(Command::PageDown, lines.len(), area.tall);
                } else {
                    self.turn_to(TABS[(at + 1) % TABS.len()].0);
                }
            }
            Command::Type(digit) if ('1'..='4').contains(&digit) => {
                let tab = digit
                    .to_digit(10)
                    .and_then(|one| usize::try_from(one).ok())
                    .unwrap_or(1);
                self.turn_to(TABS[tab - 1].0);
            }
            Command::Pick(0, tab) if tab < TABS.len() => self.turn_to(TABS[tab].0),
            Command::Pick(1, row) if row < self.found.len() => {
                self.choice.at = row;
                self.scroll = Scroll::default();
            }
            Command::Take if self.tab == Tab::Outcome => self.turn_to(Tab::Findings),
            Command::Take => {
                let found = self
                    .found
                    .get(self.choice.at)
                    .filter(|_| self.tab == Tab::Findings);
                let Some(found) = found else {
                    return Turn::Stay;
                };
                let Some(step) = &found.step else {
                    return Turn::Tell(Notice::new(vec![desk.say("screens-debrief-no-page", &[])]));
                };
                return match Reading::new(&self.module, &self.run.card, &desk.words) {
                    Ok(reading) => Turn::Open(Box::new(reading.at_step(step))),
                    Err(problem) => Turn::Tell(not_started(&problem, &desk.words)),
                };
            }
            Command::Type('a') => return self.again(self.run.seed, desk),
            Command::Type('n') => return self.again(desk.system.fresh_seed(), desk),
            Command::Type('s') => return Turn::Tell(self.save(desk)),
            Command::Back => return Turn::Close,
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let (tabs, _) = area.split_rows(1);
        let mut column = 1;
        for (number, (tab, id)) in TABS.iter().enumerate() {
            let count = ("count", self.found.len().into());
            let text = format!(" {} {} ", number + 1, desk.say(id, &[count]));
            let wide = crate::text::wrap::columns(&text);
            let role = if *tab == self.tab {
                Role::Chosen
            } else {
                Role::Plain
            };
            frame.put(tabs, 0, column, role, &text);
            let hot = Area {
                x: tabs.x + column,
                wide,
                ..tabs
            };
            frame.hot(hot, Command::Pick(0, number));
            column += wide + 1;
        }
        frame.rule(area, 1);
        let (page, lines) = self.page(area, desk);
        if self.tab == Tab::Findings && !self.found.is_empty() {
            let list = Area {
                x: area.x,
                y: page.y,
                wide: LIST,
                tall: page.tall,
            };
            let titles = self.found.iter().map(|one| one.title.clone());
            let titles: Vec<String> = titles.collect();
            // Three lines tell findings apart; the whole heading stands beside them.
            let look = Look {
                gap: 1,
                tall: 3,
                ..Look::of(1, false)
            };
            rows::draw(frame, list, &titles, self.choice.at, look);
            let edge = Area {
                x: area.x + LIST,
                wide: 1,
                ..page
            };
            frame.rule_down(edge, 0);
        }
        prose::draw(frame, page, &lines, self.scroll);
    }

    fn title(&self, desk: &Desk<S>) -> String {
        let title = self.module.module.identity.title.as_str();
        let values = [
            ("module", title.into()),
            ("seed", self.run.seed.0.to_string().into()),
        ];
        desk.say(
            if self.clean {
                "screens-debrief-title-clean"
            } else {
                "screens-debrief-title"
            },
            &values,
        )
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let mut hints = Vec::new();
        if self.tab == Tab::Outcome && !self.found.is_empty() {
            hints.push(desk.hint(Key::Enter, "screens-debrief-key-findings"));
        }
        if self.tab == Tab::Findings && !self.found.is_empty() {
            let found = self.found.get(self.choice.at);
            if found.is_some_and(|one| one.step.is_some()) {
                hints.push(desk.hint(Key::Enter, "screens-debrief-key-page"));
            }
            hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
            hints.push(desk.hint(Key::Page, "screens-key-scroll"));
        } else {
            hints.push(desk.hint(Key::Space, "screens-reading-on"));
        }
        hints.push(desk.hint(Key::LeftRight, "screens-debrief-key-tab"));
        hints.push(desk.hint(Key::Letter('a'), "screens-debrief-key-again"));
        hints.push(desk.hint(Key::Letter('n'), "screens-debrief-key-new"));
        hints.push(desk.hint(Key::Letter('s'), "screens-debrief-key-save"));
        hints.push(desk.hint(Key::Esc, "screens-key-back"));
        hints
    }

    fn comes_up(&mut self, desk: &mut Desk<S>) {
        self.record(desk);
    }

    fn about(&self) -> &'static str {
        "screens-debrief-about"
    }
}
