//! Everything that can be signed, in groups, each with what it is for; beside what somebody has no right to stands who has it.

use super::{About, What, open};
use crate::app::System;
use crate::report::record::Telling;
use crate::text::Either;
use crate::tui::command::Command;
use crate::tui::frame::{Area, Frame, Role};
use crate::tui::list::{Choice, Scroll};
use crate::tui::prose;
use crate::tui::rows::{self, Look};
use crate::tui::screen::{Desk, Hint, Key, Screen, Turn};

/// A deed that is offered.
struct Offered {
    what: What,
    shown: String,
    /// Who could, where whoever is signed in cannot.
    others: Option<String>,
}

/// Asks what is to be signed.
pub struct SignSomething {
    offered: Vec<Offered>,
    choice: Choice,
}

impl SignSomething {
    /// Looks up who may do what now.
    #[must_use]
    pub fn new<S: System>(desk: &mut Desk<S>) -> SignSomething {
        let person = desk.person();
        let mut offered = Vec::new();
        let Some((house, words)) = desk.office() else {
            return SignSomething {
                offered,
                choice: Choice::default(),
            };
        };
        for (group, all) in What::GROUPS {
            for what in all.iter().copied() {
                let values = [
                    ("group", words.say(group, &[]).into()),
                    ("deed", words.say(what.title(), &[]).into()),
                ];
                let able = house.laboratory.entitled(what.kind());
                let may = person.is_some_and(|person| able.contains(&person));
                let others = (!may).then(|| {
                    house.told(words, |telling: &Telling<'_>| {
                        let names = able.iter().map(|one| telling.person(*one)).collect();
                        words.say("deeds-not-you", &[("people", Either(names).into())])
                    })
                });
                offered.push(Offered {
                    what,
                    shown: words.say(
                        if may {
                            "deeds-offered"
                        } else {
                            "deeds-offered-to-others"
                        },
                        &values,
                    ),
                    others,
                });
            }
        }
        SignSomething {
            offered,
            choice: Choice::default(),
        }
    }

    fn open<S: System>(&self, desk: &mut Desk<S>) -> Turn<S> {
        match self.offered.get(self.choice.at) {
            Some(one) => open(one.what, &About::default(), desk),
            None => Turn::Stay,
        }
    }
}

impl<S: System> Screen<S> for SignSomething {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        let page = desk.body().tall.saturating_sub(8);
        if self.choice.moved(command, self.offered.len(), page) {
            return Turn::Stay;
        }
        match command {
            Command::Pick(0, row) if row == self.choice.at => self.open(desk),
            Command::Pick(0, row) => {
                self.choice.at = row.min(self.offered.len().saturating_sub(1));
                Turn::Stay
            }
            Command::Take => self.open(desk),
            Command::Back => Turn::Close,
            _ => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        let inside = area.within(2, 1);
        let (list, below) = inside.split_rows(inside.tall.saturating_sub(6));
        let shown: Vec<String> = self.offered.iter().map(|one| one.shown.clone()).collect();
        rows::draw(frame, list, &shown, self.choice.at, Look::of(0, false));
        let Some(one) = self.offered.get(self.choice.at) else {
            return;
        };
        let (_, below) = below.split_rows(1);
        let about = desk.say(&format!("{}.about", one.what.title()), &[]);
        let mut lines = prose::wrapped(Role::Plain, &about, below.wide);
        if let Some(others) = &one.others {
            lines.extend(prose::wrapped(Role::Caution, others, below.wide));
        }
        prose::draw(frame, below, &lines, Scroll::default());
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("deeds-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        vec![
            desk.hint(Key::Enter, "deeds-key-open"),
            desk.hint(Key::UpDown, "screens-key-choose"),
            desk.hint(Key::Esc, "screens-key-back"),
        ]
    }

    fn about(&self) -> &'static str {
        "deeds-about"
    }
}
