//! The end of a run: the judgement, what has to be known before it, and what the clock says.

use super::typing::Asked;
use super::{JUDGEMENTS, OFFERED, Opened, Over, Watching};
use crate::app::System;
use crate::app::watching::telling::{Telling, anchored};
use crate::app::watching::{Mark, RowAsked};
use crate::report::{Block, Item};
use crate::text::Caution;
use crate::text::wrap::wrap_behind;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::rows::{self, Look, of_letter};
use crate::tui::screen::{Desk, Notice, Turn};

/// What stands before everything that is signed: how it ended and counts, what a sign-off asks for, and which rows were not seen.
pub(super) fn blocks<S: System>(
    telling: &Telling<'_>,
    opened: &Opened<S>,
    asked: Option<RowAsked>,
) -> Vec<Block> {
    let mut blocks: Vec<Block> = telling
        .how_it_ended()
        .into_iter()
        .map(Block::Paragraph)
        .collect();
    for (text, rows) in telling.before_the_end(asked) {
        blocks.push(Block::Paragraph(text));
        if !rows.is_empty() {
            blocks.push(Block::Items(rows.into_iter().map(Item::new).collect()));
        }
    }
    // Lots, values and remarks lie beside the entry; whoever signs for them sees them all the same.
    let mut noted: Vec<Item> = telling.noted_of_all().into_iter().map(Item::new).collect();
    for row in &opened.watch.card().rows {
        let texts = telling.noted(row).into_iter();
        let texts: Vec<Item> = texts.map(Item::new).collect();
        if !texts.is_empty() {
            noted.push(Item::new(telling.title(row)).with(texts));
        }
    }
    if !noted.is_empty() {
        blocks.push(Block::Paragraph(
            telling.words.say("watching-noted-with-it", &[]),
        ));
        blocks.push(Block::Items(noted));
    }
    blocks
}

/// A sentence with the rows that it is about.
fn with_rows((text, rows): &(String, Vec<String>), wide: usize) -> Vec<Line> {
    let mut lines = prose::wrapped(Role::Strong, text, wide);
    for row in rows {
        let texts = wrap_behind("  - ", row, wide.max(1)).into_iter();
        lines.extend(texts.map(|text| Line::new(Role::Plain, text)));
    }
    lines
}

impl<S: System> Watching<S> {
    /// The judgements in full sentences.
    pub(super) fn judgements(desk: &Desk<S>) -> Vec<String> {
        let offered = OFFERED.iter();
        offered.map(|one| anchored(*one, &desk.words)).collect()
    }

    /// How the judgements look.
    pub(super) fn offered() -> Look {
        Look::of(JUDGEMENTS, true)
    }

    /// What has to be known before a judgement.
    pub(super) fn before(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let told = self.told(desk, |telling, _| telling.before_the_end(self.asked));
        let told = told.unwrap_or_default().into_iter();
        told.flat_map(|told| with_rows(&told, wide)).collect()
    }

    /// What the clock and the order of the taps say, and of which rows they can say nothing.
    pub(super) fn clock_page(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let mut lines = self.clock_lines(wide, desk);
        let untimed = self.told(desk, |telling, _| telling.never_timed());
        lines.extend(
            untimed
                .flatten()
                .iter()
                .flat_map(|told| with_rows(told, wide)),
        );
        lines
    }

    /// What the clock and the order of the taps say.
    pub(super) fn clock_lines(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let said = self.told(desk, |telling, _| telling.said_by_clock());
        let said = said.unwrap_or_default();
        let heading = desk.say("watching-clock-heading", &[]);
        let mut lines = prose::wrapped(Role::Strong, &heading, wide);
        if said.is_empty() {
            let nothing = desk.say("watching-clock-nothing", &[]);
            lines.extend(prose::wrapped(Role::Plain, &nothing, wide));
        }
        for text in said {
            let texts = wrap_behind("  - ", &text, wide.max(1)).into_iter();
            lines.extend(texts.map(|text| Line::new(Role::Plain, text)));
        }
        lines
    }

    /// Everything about a run that is over.
    pub(super) fn ended_lines(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let ended = self.told(desk, |telling, _| telling.how_it_ended());
        let mut lines = prose::wrapped(Role::Strong, &ended.flatten().unwrap_or_default(), wide);
        let over = desk.say("watching-over-not-signed", &[]);
        lines.extend(prose::wrapped(Role::Plain, &over, wide));
        if self.is_late && self.reason.is_none() {
            let late = desk.say("watching-over-late", &[]);
            lines.extend(prose::wrapped(Role::Plain, &late, wide));
        }
        if let Some(reason) = &self.reason {
            let reason = desk.say("watching-reason", &[("text", reason.to_string().into())]);
            lines.extend(prose::wrapped(Role::Plain, &reason, wide));
        }
        lines.push(Line::new(Role::Plain, ""));
        lines.extend(self.before(wide, desk));
        lines.push(Line::new(Role::Plain, ""));
        lines.extend(self.clock_lines(wide, desk));
        lines.push(Line::new(Role::Plain, ""));
        let caution = Caution::OthersComeFirst.say(&desk.words);
        lines.extend(prose::wrapped(Role::Caution, &format!("! {caution}"), wide));
        lines
    }

    pub(super) fn on_ended(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        match command {
            Command::Take => return self.sign(desk),
            Command::Type('u') => return self.tapped(Mark::Undo, desk),
            Command::Type('y') => return self.ask(Asked::Reason),
            Command::Next => self.next_run(desk),
            Command::Back => return self.leave(desk),
            _ => {
                let area = self.page_area(desk.body(), desk);
                let lines = self.ended_lines(area.wide, desk).len();
                self.scroll.moved(command, lines, area.tall);
            }
        }
        Turn::Stay
    }

    /// The area of the judgements, and what is below them.
    pub(super) fn judging_areas(area: Area, desk: &Desk<S>) -> (Area, Area) {
        let all = Watching::<S>::judgements(desk);
        let tall = rows::height(&all, area.wide, Watching::<S>::offered());
        let (above, below) = area.split_rows(tall + 1);
        (above, below)
    }

    pub(super) fn on_judging(
        &mut self,
        mut choice: Choice,
        mut scroll: Scroll,
        command: Command,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let taken = match command {
            Command::Back => return Turn::Stay,
            Command::Take if choice.is_made() => Some(choice.at),
            Command::Type(letter) => of_letter(letter),
            Command::Pick(JUDGEMENTS, row) => Some(row),
            Command::PageUp | Command::PageDown => {
                let area = self.page_area(desk.body(), desk);
                let (_, below) = Watching::<S>::judging_areas(area, desk);
                let (_, below) = below.split_rows(1);
                let lines = self.before(below.wide.saturating_sub(2), desk).len();
                scroll.moved(command, lines, below.tall);
                None
            }
            _ => {
                choice.moved(command, OFFERED.len(), OFFERED.len());
                None
            }
        };
        if let Some(&judgement) = taken.and_then(|at| OFFERED.get(at)) {
            self.scroll = Scroll::default();
            if let Err(notice) = self.tap(Mark::End { judgement }, desk) {
                return Turn::Tell(notice);
            }
            let contradiction = self.told(desk, |telling, _| telling.contradiction());
            return match contradiction.flatten() {
                Some(text) => Turn::Tell(Notice::new(vec![text])),
                None => Turn::Stay,
            };
        }
        self.over = Over::Judging(choice, scroll);
        Turn::Stay
    }

    pub(super) fn on_clock(
        &mut self,
        mut scroll: Scroll,
        command: Command,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        let area = self.page_area(desk.body(), desk);
        let lines = self.clock_page(area.wide, desk).len();
        if command == Command::Tick || scroll.moved(command, lines, area.tall) {
            self.over = Over::Clock(scroll);
        }
        Turn::Stay
    }
}
