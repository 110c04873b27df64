//! What is worn and running, and what was missing or worn too long.

use super::{Nonsense, Rehearsal};
use crate::rehearsal::trace::What;
use crate::syllabus::module::ProtectionKind;
use crate::units::Millis;

impl Rehearsal {
    pub(super) fn item(&self, id: &str) -> Option<usize> {
        self.on
            .module
            .protection_items
            .iter()
            .position(|one| one.id.value == id)
    }

    pub(super) fn item_of(&self, id: &str, kind: ProtectionKind) -> Result<usize, Nonsense> {
        let items = &self.on.module.protection_items;
        self.item(id)
            .filter(|&item| items[item].kind == kind)
            .ok_or_else(|| Nonsense::NoSuchItem {
                found: id.to_owned(),
                items: items
                    .iter()
                    .filter(|one| one.kind == kind)
                    .map(|one| one.id.value.clone())
                    .collect(),
            })
    }

    pub(super) fn put_on(&mut self, id: &str, kind: ProtectionKind) -> Result<(), Nonsense> {
        let item = self.item_of(id, kind)?;
        self.switch(item, Some(self.clock()));
        let event = self.event(self.clock(), What::PutOn(item));
        self.trace.push(event);
        Ok(())
    }

    pub(super) fn take_off(&mut self, id: &str, kind: ProtectionKind) -> Result<(), Nonsense> {
        let item = self.item_of(id, kind)?;
        self.switch(item, None);
        let event = self.event(self.clock(), What::TookOff(item));
        self.trace.push(event);
        Ok(())
    }

    pub(super) fn switch(&mut self, item: usize, since: Option<Millis>) {
        self.worn[item] = since;
        let written = &self.on.module.protection_items[item];
        if written.kind == ProtectionKind::Running {
            self.bench.set_running(&written.id.value, since.is_some());
        }
    }

    /// The guards that apply now to work at a station (`None`: no station, only guards that apply everywhere).
    pub(super) fn guards_in_force(&self, station: Option<usize>) -> Vec<usize> {
        (0..self.on.plan.guards.len())
            .filter(|&index| {
                let guard = &self.on.plan.guards[index];
                let here = guard.during.is_empty()
                    || station.is_some_and(|station| guard.during.contains(&station));
                here && guard
                    .holds_while
                    .iter()
                    .all(|one| self.cells_in(one).next().is_some())
            })
            .collect()
    }

    /// The guards that were not met, and for how long.
    ///
    /// Hands and face are near the work only while somebody is: at a machine that runs by itself, what is worn counts for the
    /// handling alone; what runs in the room counts for the whole time.
    pub(super) fn missing(
        &self,
        guards: &[usize],
        start: Millis,
        near: Millis,
    ) -> Vec<(usize, Millis)> {
        let time = self.clock() - start;
        let bare = guards.iter().filter_map(|&guard| {
            let item = self.on.plan.guards[guard].item;
            let time = match self.on.module.protection_items[item].kind {
                ProtectionKind::Worn => near.min(time),
                ProtectionKind::Running => time,
            };
            (self.worn[item].is_none() && time > Millis::ZERO).then_some((guard, time))
        });
        bare.collect()
    }

    /// What is worn past its change interval while hands are at the work, and by how much.
    pub(super) fn stale(
        &self,
        guards: &[usize],
        start: Millis,
        near: Millis,
    ) -> Vec<(usize, Millis)> {
        let mut stale = Vec::new();
        for &guard in guards {
            let item = self.on.plan.guards[guard].item;
            let limit = self.on.module.protection_items[item].change_every;
            if let (Some(since), Some(limit)) = (self.worn[item], limit) {
                let over = start + near - since - limit;
                if over > Millis::ZERO && !stale.contains(&(item, over)) {
                    stale.push((item, over));
                }
            }
        }
        stale
    }
}
