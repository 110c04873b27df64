//! The read-through: one step per page, with where it stands in the whole and a search.

use std::sync::Arc;

use super::Module;
use super::laboratory::deeds::{About, What, open};
use crate::app::System;
use crate::app::laboratory::edition_of;
use crate::app::rehearse::StartProblem;
use crate::record::entry::Signed;
use crate::record::scope::Id;
use crate::report::Block;
use crate::report::pages::{Page, pages};
use crate::report::plain::{Glyphs, plain};
use crate::standing::Reading as ReadingOfRecord;
use crate::syllabus::case::CaseCard;
use crate::text::{Sought, Words, display_safe};
use crate::tui::command::Command;
use crate::tui::field::Field;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};

/// From this width on the contents stand beside the page, in columns: their own and a page of readable lines.
const BESIDE: usize = 110;

/// How wide the contents are beside a page, in columns. Our default: most titles stand whole.
const CONTENTS: usize = 40;

/// How many lines stand before the line that was looked for.
const SEEN_BEFORE: usize = 3;

/// What the keys are for.
enum Mode {
    /// Turning pages.
    Page,
    /// Choosing a page from the contents.
    Contents(Choice),
    /// Typing what is looked for.
    Search(Field),
}

/// The read-through of a module for a case card.
pub struct Reading {
    module: Module,
    pages: Vec<Page>,
    titles: Vec<String>,
    at: usize,
    scroll: Scroll,
    mode: Mode,
    sought: String,
    /// Whether whoever is signed in has still to sign that they have read this edition.
    to_sign: bool,
    /// The newest revision that the laboratory adopted, where that is another text than this one.
    adopted: Option<u32>,
}

impl Reading {
    /// Opens the overview.
    ///
    /// # Errors
    /// When the module gives no plan for the case card.
    pub fn new(module: &Module, card: &CaseCard, words: &Words) -> Result<Reading, StartProblem> {
        let on = module
            .prepare(card)
            .map_err(|problem| StartProblem::Prepare(problem, module.files.clone()))?;
        let pages = pages(&on.module, &on.plan, &|id| module.hazard(id), words);
        let titles = pages.iter().map(title).collect();
        Ok(Reading {
            module: Arc::clone(module),
            pages,
            titles,
            at: 0,
            scroll: Scroll::default(),
            mode: Mode::Page,
            sought: String::new(),
            to_sign: false,
            adopted: None,
        })
    }

    /// The same, opened at a step.
    #[must_use]
    pub fn at_step(mut self, id: &str) -> Reading {
        let mut pages = self.pages.iter();
        let found = pages.position(|page| page.step.as_deref() == Some(id));
        self.at = found.unwrap_or(0);
        self
    }

    /// Looks up whether this edition is the newest that was adopted, and nobody has signed yet for whoever is signed in that they have read it.
    fn look_up<S: System>(&mut self, desk: &mut Desk<S>) {
        self.to_sign = self.has_to_sign(desk).unwrap_or(false);
        self.adopted = self.other_adopted(desk);
    }

    fn other_adopted<S: System>(&self, desk: &mut Desk<S>) -> Option<u32> {
        let edition = edition_of(&self.module).ok()?;
        let workflow = self.workflow()?;
        let (house, _) = desk.office()?;
        let newest = house.laboratory.newest_edition(&workflow).ok()?;
        (newest != edition).then_some(newest.revision)
    }

    fn has_to_sign<S: System>(&self, desk: &mut Desk<S>) -> Option<bool> {
        let person = desk.person()?;
        let edition = edition_of(&self.module).ok()?;
        let workflow = self.workflow()?;
        let (house, _) = desk.office()?;
        let laboratory = &house.laboratory;
        let view = laboratory.view(laboratory.now().instant(), ReadingOfRecord::AsNowKnown);
        let editions = view.editions(&workflow);
        let (newest, _) = editions.last()?;
        let mut about = laboratory.ledger().about(person);
        let has_read = about.any(|entry| {
            let read = matches!(entry.signed(), Some((Signed::Read(read), _))
                if read.workflow == workflow && read.edition == edition);
            read && !view.voids(&entry.seal())
        });
        Some(*newest == edition && !has_read)
    }

    fn workflow(&self) -> Option<Id> {
        self.module.module.identity.id.value.parse().ok()
    }

    /// Whether the deed is offered on the page that is shown.
    fn offers(&self) -> bool {
        self.to_sign && self.at + 1 == self.pages.len()
    }

    fn sign<S: System>(&self, desk: &mut Desk<S>) -> Turn<S> {
        let about = About {
            workflow: self.workflow(),
            ..About::default()
        };
        open(What::Read, &about, desk)
    }

    fn turn_to(&mut self, page: usize) {
        self.at = page.min(self.pages.len().saturating_sub(1));
        self.scroll = Scroll::default();
        self.mode = Mode::Page;
    }

    /// The next page that holds what is looked for, after this one and round to it again.
    fn find(&self) -> Option<usize> {
        let sought = Sought::new(&self.sought);
        let count = self.pages.len();
        let holds = |page: &usize| {
            let text = plain(&self.pages[*page].blocks, usize::MAX / 4, Glyphs::Ascii);
            text.iter().any(|line| sought.is_in(line))
        };
        (1..=count).map(|step| (self.at + step) % count).find(holds)
    }

    fn search<S: System>(&mut self, desk: &Desk<S>) -> Turn<S> {
        if self.sought.is_empty() {
            self.mode = Mode::Page;
            return Turn::Stay;
        }
        match self.find() {
            Some(page) => {
                self.turn_to(page);
                // The page opens where the words stand.
                let area = Reading::page_area(desk);
                let sought = Sought::new(&self.sought);
                let lines = self.lines(area, desk);
                let mut texts = lines.iter();
                let line = texts.position(|line| sought.is_in(&line.text));
                self.scroll.top = line.unwrap_or(0).saturating_sub(SEEN_BEFORE);
                Turn::Stay
            }
            None => {
                self.mode = Mode::Page;
                let sought = ("sought", self.sought.as_str().into());
                Turn::Tell(Notice::new(vec![
                    desk.say("screens-reading-not-found", &[sought]),
                ]))
            }
        }
    }

    fn page_area<S: System>(desk: &Desk<S>) -> Area {
        let body = desk.body();
        let (_, page) = if body.wide >= BESIDE {
            body.split_columns(CONTENTS)
        } else {
            body.split_columns(0)
        };
        // Longer lines are hard to read.
        let inside = page.within(2, 1);
        Area {
            wide: inside.wide.min(80),
            ..inside
        }
    }

    fn lines<S: System>(&self, area: Area, desk: &Desk<S>) -> Vec<Line> {
        let wide = area.wide.saturating_sub(2);
        let page = self.pages.get(self.at);
        let mut lines = Vec::new();
        if let Some(adopted) = self.adopted {
            let here = self.module.module.identity.revision.to_string();
            let values = [
                ("here", here.into()),
                ("adopted", adopted.to_string().into()),
            ];
            let text = desk.say("screens-reading-other", &values);
            lines.extend(prose::wrapped(Role::Caution, &text, wide));
            lines.push(Line::new(Role::Plain, ""));
        }
        lines.extend(page.map_or(Vec::new(), |page| {
            prose::lines(&page.blocks, wide, area.tall, desk.glyphs)
        }));
        if self.offers() {
            let revision = self.module.module.identity.revision.to_string();
            let text = desk.say("screens-reading-last", &[("revision", revision.into())]);
            lines.push(Line::new(Role::Plain, ""));
            lines.extend(prose::wrapped(Role::Strong, &text, wide));
        }
        lines
    }

    fn draw_contents(&self, frame: &mut Frame, area: Area, chosen: usize) {
        let top = Choice { at: chosen }.top(self.titles.len(), area.tall);
        for (number, title) in self.titles.iter().enumerate().skip(top).take(area.tall) {
            let line = Area {
                y: area.y + number - top,
                tall: 1,
                ..area
            };
            let (role, mark) = if number == chosen {
                (Role::Chosen, frame.pick('▸', '>'))
            } else {
                (Role::Plain, ' ')
            };
            let text = if number == 0 {
                format!("{mark}    {title}")
            } else {
                format!("{mark} {number:>2} {title}")
            };
            frame.put_row(line, 0, role, &text);
            frame.hot(line, Command::Pick(0, number));
        }
    }
}

/// The title of a page.
fn title(page: &Page) -> String {
    let heading = page.blocks.iter().find_map(|block| match block {
        Block::Heading { level: 1, text } => Some(text.clone()),
        _ => None,
    });
    heading.unwrap_or_default()
}

impl<S: System> Screen<S> for Reading {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let area = Reading::page_area(desk);
        match &mut self.mode {
            Mode::Contents(choice) => {
                if !choice.moved(command, self.titles.len(), desk.body().tall) {
                    let at = choice.at;
                    match command {
                        Command::Take => self.turn_to(at),
                        Command::Pick(0, row) => self.turn_to(row),
                        Command::Back | Command::Next | Command::Type('c') => {
                            self.mode = Mode::Page;
                        }
                        _ => {}
                    }
                }
                return Turn::Stay;
            }
            Mode::Search(field) => {
                match command {
                    Command::Type(c) => field.typed(c),
                    Command::Erase => field.erase(),
                    Command::Take => {
                        self.sought = field.text.trim().to_owned();
                        return self.search(desk);
                    }
                    Command::Back => self.mode = Mode::Page,
                    _ => {}
                }
                return Turn::Stay;
            }
            Mode::Page => {}
        }
        if self
            .scroll
            .moved(command, self.lines(area, desk).len(), area.tall)
        {
            return Turn::Stay;
        }
        match command {
            Command::Right | Command::Take if self.at + 1 < self.pages.len() => {
                self.turn_to(self.at + 1);
            }
            Command::Left => self.turn_to(self.at.saturating_sub(1)),
            Command::Type(' ') => {
                // Space reads on: down the page, then to the next one.
                let lines = self.lines(area, desk).len();
                if self.scroll.shown(lines, area.tall) + area.tall < lines {
                    self.scroll.moved(Command::PageDown, lines, area.tall);
                } else if self.at + 1 < self.pages.len() {
                    self.turn_to(self.at + 1);
                }
            }
            Command::Next | Command::Type('c') => {
                self.mode = Mode::Contents(Choice { at: self.at });
            }
            Command::Pick(0, row) => self.turn_to(row),
            Command::Type('/') => self.mode = Mode::Search(Field::default()),
            Command::Type('n') => return self.search(desk),
            Command::Type('s') if self.offers() => return self.sign(desk),
            Command::Back => return Turn::Close,
            _ => {}
        }
        Turn::Stay
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let beside = area.wide >= BESIDE;
        let page = Reading::page_area(desk);
        if beside {
            let (contents, rest) = area.split_columns(CONTENTS);
            let chosen = match &self.mode {
                Mode::Contents(choice) => choice.at,
                _ => self.at,
            };
            self.draw_contents(frame, contents.within(1, 0), chosen);
            frame.rule_down(rest, 0);
        }
        match &self.mode {
            Mode::Contents(choice) if !beside => {
                self.draw_contents(frame, area.within(1, 0), choice.at);
            }
            _ => prose::draw(frame, page, &self.lines(page, desk), self.scroll),
        }
        if let Mode::Search(field) = &self.mode {
            let last = Area {
                y: area.y + area.tall.saturating_sub(1),
                tall: 1,
                ..area
            };
            let question = desk.say("screens-reading-search", &[]);
            frame.put_row(
                last,
                0,
                Role::Field,
                &format!(" {question} {}", field.shown()),
            );
        }
    }

    fn title(&self, desk: &Desk<S>) -> String {
        let values = [
            ("module", self.module.module.identity.title.as_str().into()),
            ("number", self.at.into()),
            ("all", self.pages.len().saturating_sub(1).into()),
        ];
        let id = if self.at == 0 {
            "screens-reading-title-overview"
        } else {
            "screens-reading-title"
        };
        display_safe(&desk.say(id, &values))
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let back = desk.hint(Key::Esc, "screens-key-back");
        match self.mode {
            Mode::Contents(_) => vec![
                desk.hint(Key::Enter, "screens-reading-open"),
                desk.hint(Key::UpDown, "screens-key-choose"),
                back,
            ],
            Mode::Search(_) => vec![desk.hint(Key::Enter, "screens-reading-find"), back],
            Mode::Page => {
                let mut hints = vec![
                    desk.hint(Key::LeftRight, "screens-reading-turn"),
                    desk.hint(Key::UpDown, "screens-key-scroll"),
                    desk.hint(Key::Space, "screens-reading-on"),
                    desk.hint(Key::Letter('c'), "screens-reading-contents"),
                    desk.hint(Key::Letter('/'), "screens-reading-look-for"),
                ];
                if self.offers() {
                    hints.insert(0, desk.hint(Key::Letter('s'), "screens-reading-sign"));
                }
                if !self.sought.is_empty() {
                    hints.push(desk.hint(Key::Letter('n'), "screens-reading-again"));
                }
                hints.push(back);
                hints
            }
        }
    }

    fn about(&self) -> &'static str {
        "screens-reading-about"
    }

    fn is_typing(&self) -> bool {
        matches!(self.mode, Mode::Search(_))
    }

    fn comes_up(&mut self, desk: &mut Desk<S>) {
        self.look_up(desk);
    }

    fn comes_back(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        self.look_up(desk);
        Turn::Stay
    }
}
