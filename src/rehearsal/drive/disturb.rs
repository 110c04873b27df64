//! What comes up around the technician, and how it is answered.

use std::sync::Arc;

use super::{Nonsense, Rehearsal};
use crate::rehearsal::trace::What;
use crate::rng::{Seed, Stream};
use crate::syllabus::module::{Comes, Module};
use crate::syllabus::place::Place;
use crate::units::Millis;

impl Rehearsal {
    /// A disturbance that is still open when the work goes on has been left as it was.
    pub(super) fn settle(&mut self) {
        if let Some(disturbance) = self.open.take() {
            let event = self.event(self.clock(), What::CarriedOn(disturbance));
            self.trace.push(event);
        }
    }

    /// Takes the next disturbance that comes at this moment.
    pub(super) fn due(&mut self, now: impl Fn(&Comes) -> bool) -> Option<usize> {
        let at = self
            .coming
            .iter()
            .position(|&one| now(&self.on.module.disturbances[one].comes))?;
        Some(self.coming.remove(at))
    }

    /// Whether something will come up before a step or act is started, the next time that somebody is about to do it.
    #[must_use]
    pub fn is_held_back(&self, what: &str) -> bool {
        let mut coming = self.coming.iter();
        coming.any(|&one| match &self.on.module.disturbances[one].comes {
            Comes::Before(name) => name.value == what,
            Comes::After(_) => false,
        })
    }

    pub(super) fn disturb(&mut self, index: usize) {
        let on = Arc::clone(&self.on);
        let module = &on.module;
        let disturbance = &module.disturbances[index];
        let doing = self.doing(&Place::default(), &[], Millis::ZERO, Millis::ZERO);
        self.bench.perform(&disturbance.does, &doing);
        for name in &disturbance.takes_off {
            if let Some(item) = self.item(&name.value) {
                self.switch(item, None);
            }
        }
        let event = self.event(self.clock(), What::Disturbed(index));
        self.trace.push(event);
        self.open = Some(index);
    }

    pub(super) fn respond(&mut self, response: &str) -> Result<(), Nonsense> {
        let open = self.open.ok_or(Nonsense::NothingToAnswer)?;
        let on = Arc::clone(&self.on);
        let module = &on.module;
        let responses = &module.disturbances[open].responses;
        let Some(chosen) = responses.iter().position(|one| one.id.value == response) else {
            return Err(Nonsense::NoSuchResponse {
                found: response.to_owned(),
                responses: responses.iter().map(|one| one.id.value.clone()).collect(),
            });
        };
        let start = self.clock();
        let doing = self.doing(
            &Place::default(),
            &[],
            responses[chosen].takes,
            Millis::ZERO,
        );
        self.bench.perform(&responses[chosen].does, &doing);
        for name in &responses[chosen].puts_on {
            if let Some(item) = self.item(&name.value) {
                self.switch(item, Some(self.clock()));
            }
        }
        self.open = None;
        let event = self.event(start, What::Answered(open, chosen));
        self.trace.push(event);
        Ok(())
    }
}

/// Draws which disturbances will come, each from its own stream.
#[must_use]
pub fn draw_disturbances(module: &Module, seed: Seed) -> Vec<usize> {
    let drawn = |index: &usize| {
        let one = &module.disturbances[*index];
        Stream::new(seed, &format!("disturbance:{}", one.id.value)).happens(one.chance)
    };
    (0..module.disturbances.len()).filter(drawn).collect()
}
