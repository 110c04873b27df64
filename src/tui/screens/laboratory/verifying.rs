//! The whole record is gone through beside the screens, as a stranger would; then what was found, and what no such check can show.

use std::ops::ControlFlow;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};
use std::sync::{Arc, Mutex, PoisonError};

use super::leaf::{Leaf, edges, turn, within};
use super::page::Page;
use crate::app::System;
use crate::app::laboratory::{Checking, Problem, verify};
use crate::record::log::Trouble;
use crate::record::verify::Bad;
use crate::report::Block;
use crate::report::record::{fault, verified};
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn, not_opened};

/// So many faults are told in the text; all of them can be opened. Our default.
const TOLD_MOST: usize = 10;

/// Columns of the bar that shows how far it has come.
const BAR: usize = 40;

/// What the work beside the screens says.
struct Work {
    comes: Mutex<Receiver<Result<Checking, Problem>>>,
    done: Arc<AtomicU64>,
    stopped: Arc<AtomicBool>,
}

impl Drop for Work {
    fn drop(&mut self) {
        // Nobody waits for it any more.
        self.stopped.store(true, Ordering::Relaxed);
    }
}

/// One thing that is wrong.
struct Wrong {
    bad: Bad,
    told: String,
}

/// Where it stands.
enum State {
    Working(Work),
    Found {
        leaf: Box<Leaf>,
        wrong: Vec<Wrong>,
        /// The list of what is wrong is shown in the place of the text.
        list: Option<Choice>,
    },
}

/// A verification.
pub struct Verifying {
    state: State,
    /// How many entries there are.
    all: u64,
    shown: u64,
}

impl Verifying {
    /// Begins to go through the record. Says why not where its folder cannot be opened.
    #[must_use]
    pub fn open<S: System>(desk: &mut Desk<S>) -> Turn<S> {
        let entries = desk.office().map_or(0, |(house, _)| {
            let ledger = house.laboratory.ledger();
            ledger.entries().len() + ledger.unfounded().len()
        });
        // Opened anew: what is verified is what stands on the disk.
        let place = match desk.laboratory_folder() {
            Ok(folder) => desk.system.place(&folder),
            Err(_) => Err(Trouble::Unreachable),
        };
        let place = match place {
            Ok(place) => place,
            Err(why) => return Turn::Tell(not_opened(&Problem::Trouble(why), &desk.words)),
        };
        let hands = desk.system.hands();
        let (gives, comes) = mpsc::channel();
        let (done, stopped) = (
            Arc::new(AtomicU64::new(0)),
            Arc::new(AtomicBool::new(false)),
        );
        let work = Work {
            comes: Mutex::new(comes),
            done: Arc::clone(&done),
            stopped: Arc::clone(&stopped),
        };
        desk.system.aside(Box::new(move || {
            let mut passed = |count| {
                done.store(count, Ordering::Relaxed);
                if stopped.load(Ordering::Relaxed) {
                    ControlFlow::Break(())
                } else {
                    ControlFlow::Continue(())
                }
            };
            let found = verify(&place, &*hands, &mut passed);
            // Whoever has left no longer waits for it.
            let _left = gives.send(found);
        }));
        Turn::Open(Box::new(Verifying {
            state: State::Working(work),
            all: entries as u64,
            shown: 0,
        }))
    }

    /// Looks whether it has ended.
    fn look<S: System>(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let State::Working(work) = &mut self.state else {
            return Turn::Stay;
        };
        self.shown = work.done.load(Ordering::Relaxed);
        let comes = work.comes.get_mut().unwrap_or_else(PoisonError::into_inner);
        match comes.try_recv() {
            Err(TryRecvError::Empty) => Turn::Stay,
            Err(TryRecvError::Disconnected) => {
                let problem = Problem::Trouble(Trouble::Unreachable);
                Turn::CloseWith(not_opened(&problem, &desk.words))
            }
            Ok(Err(problem)) => Turn::CloseWith(not_opened(&problem, &desk.words)),
            Ok(Ok(checking)) => {
                self.found(&checking, desk);
                Turn::Stay
            }
        }
    }

    fn found<S: System>(&mut self, checking: &Checking, desk: &mut Desk<S>) {
        let Some((house, words)) = desk.office() else {
            return;
        };
        let all = verified(&checking.checked, &checking.bad, TOLD_MOST);
        let (mut blocks, wrong) = house.told(words, |telling| {
            let wrong = all.bad().iter().map(|bad| {
                let values = [
                    ("entry", format!("{}/{}", bad.strand, bad.number).into()),
                    ("what", fault(&bad.fault, telling).what.into()),
                ];
                let told = telling.words.say("record-verified-fault", &values);
                let bad = bad.clone();
                Wrong { bad, told }
            });
            let wrong: Vec<Wrong> = wrong.collect();
            // The bar says what it is.
            let blocks: Vec<Block> = all.blocks(telling).into_iter().skip(1).collect();
            (blocks, wrong)
        });
        for (strand, number) in &checking.misfiled {
            let values = [
                ("strand", strand.as_str().into()),
                ("number", (*number).into()),
            ];
            let text = words.say("laboratory-misfiled", &values);
            blocks.push(Block::Paragraph(text));
        }
        blocks.push(Block::heading(2, words.say("files-repeat-heading", &[])));
        blocks.push(Block::Paragraph(words.say("files-repeat", &[])));
        self.state = State::Found {
            leaf: Box::new(Leaf::new(blocks, String::new(), Vec::new())),
            wrong,
            list: None,
        };
    }

    fn draw_work<S: System>(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = within(area);
        let done = self.shown.min(self.all);
        let values = [
            ("done", i64::try_from(self.shown).unwrap_or(i64::MAX).into()),
            ("all", i64::try_from(self.all).unwrap_or(i64::MAX).into()),
        ];
        let mut lines = prose::wrapped(
            Role::Plain,
            &desk.say("files-verifying-told", &[]),
            inside.wide,
        );
        lines.push(Line::new(Role::Plain, ""));
        lines.push(Line::new(
            Role::Strong,
            desk.say("files-verifying-done", &values),
        ));
        let full = BAR as u64 * done / self.all.max(1);
        let full = usize::try_from(full).unwrap_or(BAR);
        let (fine, rest) = (frame.pick('█', '#'), frame.pick('░', '.'));
        let bar = format!(
            "{}{}",
            fine.to_string().repeat(full),
            rest.to_string().repeat(BAR - full)
        );
        lines.push(Line::new(Role::Plain, bar));
        prose::draw(frame, inside, &lines, Scroll::default());
    }
}

/// What is wrong with one entry, with the entry where it can be read.
fn open_wrong<S: System>(wrong: &Wrong, desk: &mut Desk<S>) -> Turn<S> {
    let id = format!("{}/{}", wrong.bad.strand, wrong.bad.number);
    let Some((house, words)) = desk.office() else {
        return Turn::Stay;
    };
    let told = house.told(words, |telling| fault(&wrong.bad.fault, telling));
    let there = house.laboratory.find(&id).ok();
    let there = there.map(crate::record::entry::Entry::seal);
    let title = words.say("record-one-title", &[("entry", id.as_str().into())]);
    let mut blocks = vec![
        Block::heading(1, title.clone()),
        Block::Paragraph(told.what),
    ];
    blocks.extend(told.fix.map(Block::Paragraph));
    if there.is_none() {
        blocks.push(Block::Paragraph(words.say("files-wrong-not-read", &[])));
    }
    let entries = there.into_iter().collect();
    Turn::Open(Box::new(Page::with_entries(title, blocks, entries, desk)))
}

impl<S: System> Screen<S> for Verifying {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let area = within(desk.body());
        let (leaf, wrong, list) = match &mut self.state {
            State::Working(work) => {
                return match command {
                    Command::Tick => self.look(desk),
                    Command::Back => {
                        work.stopped.store(true, Ordering::Relaxed);
                        let text = desk.say("files-verifying-stopped", &[]);
                        Turn::CloseWith(Notice::new(vec![text]))
                    }
                    _ => Turn::Stay,
                };
            }
            State::Found { leaf, wrong, list } => (leaf, wrong, list),
        };
        if let Some(choice) = list {
            if choice.moved(command, wrong.len(), area.tall) {
                return Turn::Stay;
            }
            match command {
                Command::Back | Command::Next => *list = None,
                Command::Pick(1, row) if row != choice.at => choice.at = row,
                Command::Take | Command::Pick(1, _) => {
                    if let Some(one) = wrong.get(choice.at) {
                        return open_wrong(one, desk);
                    }
                }
                _ => {}
            }
            return Turn::Stay;
        }
        if !leaf.is_typing() {
            match command {
                Command::Take if !wrong.is_empty() => return open_wrong(&wrong[0], desk),
                Command::Next if !wrong.is_empty() => {
                    *list = Some(Choice::default());
                    return Turn::Stay;
                }
                _ => {}
            }
        }
        let did = leaf.handle(command, area, desk);
        match turn(did, desk) {
            Some(turn) => turn,
            None if command == Command::Back => Turn::Close,
            None => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = within(area);
        match &self.state {
            State::Working(_) => self.draw_work(frame, area, desk),
            State::Found {
                leaf, list: None, ..
            } => leaf.draw(frame, inside, desk),
            State::Found {
                wrong,
                list: Some(choice),
                ..
            } => {
                let top = choice.top(wrong.len(), inside.tall);
                for (y, row) in (top..wrong.len()).take(inside.tall).enumerate() {
                    let line = Area {
                        y: inside.y + y,
                        tall: 1,
                        wide: inside.wide.saturating_sub(1),
                        ..inside
                    };
                    if row == choice.at {
                        frame.put_row(line, 0, Role::Chosen, &wrong[row].told);
                    } else {
                        frame.put(line, 0, 0, Role::Plain, &wrong[row].told);
                    }
                    frame.hot(line, Command::Pick(1, row));
                }
                edges(frame, inside, top, wrong.len());
            }
        }
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("record-verified-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        let back = desk.hint(Key::Esc, "screens-key-back");
        match &self.state {
            State::Working(_) => vec![desk.hint(Key::Esc, "files-key-stop")],
            State::Found {
                list: Some(_),
                wrong,
                ..
            } => {
                let mut hints = vec![desk.hint(Key::Enter, "files-key-open")];
                if wrong.len() > 1 {
                    hints.push(desk.hint(Key::UpDown, "screens-key-choose"));
                }
                hints.push(back);
                hints
            }
            State::Found { leaf, wrong, .. } => {
                let mut hints = Vec::new();
                if !wrong.is_empty() && !leaf.is_typing() {
                    hints.push(desk.hint(Key::Enter, "files-key-first-wrong"));
                    hints.push(desk.hint(Key::Tab, "files-key-all-wrong"));
                }
                hints.extend(leaf.hints(within(desk.body()), desk));
                hints
            }
        }
    }

    fn about(&self) -> &'static str {
        "files-verifying-about"
    }

    fn is_typing(&self) -> bool {
        matches!(&self.state, State::Found { leaf, .. } if leaf.is_typing())
    }

    fn is_live(&self) -> bool {
        matches!(self.state, State::Working(_))
    }
}
