//! What was seen is handed on to be signed, and taken note of once it is.

use super::{Watching, ended, other_edition};
use crate::app::System;
use crate::app::watching::Mark;
use crate::record::seal::Seal;
use crate::report::Block;
use crate::tui::screen::{Desk, Notice, Turn};
use crate::tui::screens::laboratory::signing::Signing;

impl<S: System> Watching<S> {
    /// Hands what was seen on to be signed.
    pub(super) fn to_sign(&self, desk: &mut Desk<S>) -> Turn<S> {
        let Some(opened) = self.opened() else {
            return Turn::Close;
        };
        let said = self.told(desk, |telling, opened| {
            ended::blocks(telling, opened, self.asked)
        });
        let mut consequences = said.unwrap_or_default();
        consequences.extend(other_edition(opened, desk).map(Block::Caution));
        let (run, card) = (opened.watch.run(), opened.watch.card());
        let next = desk.say("watching-then-technician", &[]);
        let Some((house, words)) = desk.office() else {
            return self.leave(desk);
        };
        match house.laboratory.watched(run, card) {
            Ok(Some(deed)) => {
                let deed = deed.because(self.reason.clone());
                let observer = run.head().observer;
                Signing::open_for(observer, vec![deed], consequences, Some(next), desk)
            }
            Ok(None) => Turn::Stay,
            Err(problem) => Turn::Tell(house.problem(&problem, words)),
        }
    }

    /// Signs, unless it was signed before the program was cut off.
    pub(super) fn sign(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let Some(opened) = self.opened() else {
            return Turn::Close;
        };
        let run = opened.watch.run();
        let before = desk
            .office()
            .map(|(house, _)| house.laboratory.signed_already(run));
        if let Some(Ok(Some(seal))) = before {
            let text = desk.say("watching-signed-before", &[]);
            return match self.signed(seal, desk) {
                Turn::Close => Turn::CloseWith(Notice::new(vec![text])),
                _ => Turn::Tell(Notice::new(vec![text, self.other_case(desk)])),
            };
        }
        let turn = self.to_sign(desk);
        self.signing = matches!(turn, Turn::Open(_));
        turn
    }

    /// Takes note that the run shown has become an entry: it is no longer open.
    pub(super) fn signed(&mut self, seal: Seal, desk: &mut Desk<S>) -> Turn<S> {
        let entry = seal.to_string();
        let noted = self.tap(Mark::Signed { entry }, desk);
        self.close_shown(desk);
        match noted {
            // The entry is stored all the same; taken up again, the run is found to be signed.
            Err(notice) => Turn::CloseWith(notice),
            Ok(()) if self.open.is_empty() => Turn::Close,
            // Whose case is on the screen now is to be known before the next tap.
            Ok(()) => Turn::Tell(Notice::new(vec![self.other_case(desk)])),
        }
    }

    /// Drops the run shown, which was begun by mistake. Refused while a tap of it stands.
    pub(super) fn drop_shown(&mut self, desk: &mut Desk<S>) -> Turn<S> {
        let case = self
            .opened()
            .map(|opened| opened.watch.run().head().case.to_string());
        if let Err(notice) = self.tap(Mark::Dropped, desk) {
            return Turn::Tell(notice);
        }
        let case = [("case", case.unwrap_or_default().into())];
        let dropped = desk.say("watching-dropped", &case);
        self.close_shown(desk);
        if self.open.is_empty() {
            Turn::CloseWith(Notice::new(vec![dropped]))
        } else {
            Turn::Tell(Notice::new(vec![dropped, self.other_case(desk)]))
        }
    }

    fn close_shown(&mut self, desk: &mut Desk<S>) {
        self.open.remove(self.at);
        self.at = 0;
        self.reason = None;
        self.greet(desk);
    }

    /// Says which case stands on the screen in the place of the one that was signed.
    fn other_case(&self, desk: &Desk<S>) -> String {
        let Some(opened) = self.opened() else {
            return String::new();
        };
        let case = opened.watch.run().head().case.to_string();
        let values = [
            ("person", opened.person.as_str().into()),
            ("case", case.into()),
        ];
        desk.say("watching-now-other", &values)
    }
}
