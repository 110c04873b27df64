//! Before a signature: everything that will be signed, then who signs and the passphrase.
//!
//! What is shown is what the rules have let pass. Whoever signs may be another person than the one who is signed in; then it is drafted anew for that
//! person, and shown again.

use crate::app::System;
use crate::app::laboratory::{Deed, Draft, shown_all};
use crate::people::Passphrase;
use crate::record::entry::{Countersigned, Signed};
use crate::record::scope::Meaning;
use crate::report::Block;
use crate::report::record::{declaration, fingerprint, id_of};
use crate::tui::command::Command;
use crate::tui::credentials::{Credentials, Given};
use crate::tui::frame::{Area, Frame};
use crate::tui::list::Scroll;
use crate::tui::prose::{self, Line};
use crate::tui::screen::{Desk, Hint, Key, Notice, Screen, Turn};
use crate::units::PersonCode;

/// What is to be signed, and whether it has been read.
pub struct Signing {
    /// One, or several that are signed with one passphrase.
    deeds: Vec<Deed>,
    drafts: Vec<Draft>,
    shown: Vec<Block>,
    /// What comes first: what else the signature does, as the screen that asked for it knows.
    consequences: Vec<Block>,
    scroll: Scroll,
    asks: Option<Credentials>,
    /// Said once it is signed: what comes next.
    next: Option<String>,
}

impl Signing {
    /// Drafts a deed for whoever is signed in and shows it; says why not where a rule speaks against it. `consequences` stand before it.
    pub fn open<S: System>(deed: Deed, consequences: Vec<Block>, desk: &mut Desk<S>) -> Turn<S> {
        match desk.person() {
            Some(person) => Signing::open_for(person, vec![deed], consequences, None, desk),
            None => {
                let text = desk.say("office-signing-nobody", &[]);
                Turn::Tell(Notice::new(vec![text]))
            }
        }
    }

    /// The same for a person who need not be signed in, and for several deeds. `next` is said once all are signed.
    pub fn open_for<S: System>(
        person: PersonCode,
        deeds: Vec<Deed>,
        consequences: Vec<Block>,
        next: Option<String>,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        match drafted(person, &deeds, desk) {
            Ok((drafts, shown)) => Turn::Open(Box::new(Signing {
                deeds,
                drafts,
                shown,
                consequences,
                scroll: Scroll::default(),
                asks: None,
                next,
            })),
            Err(notice) => Turn::Tell(notice),
        }
    }

    fn lines<S: System>(&self, wide: usize, desk: &Desk<S>) -> Vec<Line> {
        let all: Vec<Block> = self
            .consequences
            .iter()
            .chain(&self.shown)
            .cloned()
            .collect();
        prose::lines(&all, wide, 10, desk.glyphs)
    }

    fn parts(area: Area) -> Area {
        area.within(2, 0)
    }

    fn sign<S: System>(
        &mut self,
        person: PersonCode,
        passphrase: &Passphrase,
        desk: &mut Desk<S>,
    ) -> Turn<S> {
        if self.drafts.iter().any(|draft| draft.by() != person) {
            return match drafted(person, &self.deeds, desk) {
                Ok((drafts, shown)) => {
                    (self.drafts, self.shown) = (drafts, shown);
                    (self.asks, self.scroll) = (None, Scroll::default());
                    let text = desk.say("office-signing-other", &[]);
                    Turn::Tell(Notice::new(vec![text]))
                }
                Err(notice) => Turn::Tell(notice),
            };
        }
        let Some((house, words)) = desk.office() else {
            return Turn::Close;
        };
        let (all, stopped) = match house.laboratory.sign_all(&self.drafts, passphrase) {
            Ok(signed) => signed,
            Err(problem) => {
                let told = house.problem(&problem, words);
                return Credentials::refused(self.asks.as_mut(), &problem, told);
            }
        };
        let mut texts = Vec::new();
        for done in &all {
            let values = [
                ("entry", id_of(&done.entry).into()),
                ("seal", fingerprint(&done.entry.seal().0).into()),
            ];
            texts.push(words.say("laboratory-signed", &values));
            house.note_signed(done.entry.seal());
        }
        if all.iter().any(|done| done.lagging.is_some()) {
            texts.push(words.say("laboratory-lagging", &[]));
        }
        match stopped {
            Some(problem) => {
                let why = house.problem(&problem, words).texts.join(" ");
                texts.push(words.say("laboratory-several-stopped", &[("why", why.into())]));
            }
            None => texts.extend(self.next.take()),
        }
        Turn::CloseWith(Notice::new(texts))
    }

    /// Who most likely signs: of an acknowledgement the one whom the entry is about, else the one it was drafted for.
    fn likely<S: System>(&self, desk: &mut Desk<S>) -> Option<PersonCode> {
        let by = self.drafts.first()?.by();
        let [deed] = self.deeds.as_slice() else {
            return Some(by);
        };
        let Signed::Countersigned(Countersigned { target }) = &deed.fact else {
            return Some(by);
        };
        if deed.meaning != Some(Meaning::Acknowledged) {
            return Some(by);
        }
        let (house, _) = desk.office()?;
        let target = house.laboratory.ledger().get(target);
        let about = target.and_then(|entry| entry.kind().subject().person);
        Some(about.unwrap_or(by))
    }
}

/// Asks every rule, and makes what is shown before the passphrase.
fn drafted<S: System>(
    person: PersonCode,
    deeds: &[Deed],
    desk: &mut Desk<S>,
) -> Result<(Vec<Draft>, Vec<Block>), Notice> {
    let Some((house, words)) = desk.office() else {
        return Err(Notice::new(vec![desk.say("office-signing-nobody", &[])]));
    };
    let mut drafts = Vec::with_capacity(deeds.len());
    for deed in deeds {
        let first = deed.fact.kind().meanings().first().copied();
        let meaning = deed.meaning.or(first).unwrap_or(Meaning::Authored);
        let sentence = declaration(meaning, words);
        let draft = house.laboratory.draft(person, deed.clone(), sentence);
        drafts.push(draft.map_err(|problem| house.problem(&problem, words))?);
    }
    let shown = house.told(words, |telling| shown_all(&drafts, telling));
    Ok((drafts, shown))
}

impl<S: System> Screen<S> for Signing {
    fn handle(&mut self, command: Command, desk: &mut Desk<S>) -> Turn<S> {
        if let Some(asks) = &mut self.asks {
            return match asks.handle(command, desk.body().tall) {
                Given::Nothing => Turn::Stay,
                Given::Left => {
                    self.asks = None;
                    Turn::Stay
                }
                Given::Both => Credentials::opens(),
            };
        }
        let area = Signing::parts(desk.body());
        let lines = self.lines(area.wide.saturating_sub(2), desk).len();
        let end = self.scroll.shown(lines, area.tall) + area.tall >= lines;
        match command {
            // What has not been in sight is not signed.
            Command::Take if !end => {
                self.scroll.moved(Command::PageDown, lines, area.tall);
            }
            Command::Take => {
                let likely = self.likely(desk);
                self.asks = Some(Credentials::ask(desk).likely(likely));
            }
            Command::Back => return Turn::Close,
            _ => {
                self.scroll.moved(command, lines, area.tall);
            }
        }
        Turn::Stay
    }

    fn works(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        match self.asks.as_mut().and_then(Credentials::take) {
            Some((person, passphrase)) => self.sign(person, &passphrase, desk),
            None => Turn::Stay,
        }
    }

    fn draw(&self, frame: &mut Frame, area: Area, desk: &Desk<S>) {
        if let Some(asks) = &self.asks {
            asks.draw(frame, area.within(2, 1), desk);
            return;
        }
        let area = Signing::parts(area);
        let lines = self.lines(area.wide.saturating_sub(2), desk);
        prose::draw(frame, area, &lines, self.scroll);
    }

    fn title(&self, desk: &Desk<S>) -> String {
        desk.say("office-signing-title", &[])
    }

    fn hints(&self, desk: &Desk<S>) -> Vec<Hint> {
        if let Some(asks) = &self.asks {
            return asks.hints(desk, "office-signing-sign");
        }
        let area = Signing::parts(desk.body());
        let lines = self.lines(area.wide.saturating_sub(2), desk).len();
        let end = self.scroll.shown(lines, area.tall) + area.tall >= lines;
        let take = if end {
            "office-signing-go-on"
        } else {
            "office-signing-read-on"
        };
        vec![
            desk.hint(Key::Enter, take),
            desk.hint(Key::Esc, "office-signing-leave"),
            desk.hint(Key::UpDown, "screens-key-scroll"),
        ]
    }

    fn about(&self) -> &'static str {
        "office-signing-about"
    }

    fn is_typing(&self) -> bool {
        self.asks.is_some()
    }
}
