//! Everything that can be done, by station: steps and tempting acts alike, what is worn and run, and time and end.

use crate::rehearsal::drive::Rehearsal;
use crate::syllabus::module::{Module, Never, ProtectionKind};
use crate::text::{Words, display_safe};

/// Something that can be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Doable {
    /// A step, by index.
    Step(usize),
    /// A tempting act, by index among the module's `never`.
    Act(usize),
    /// Puts a protection item on, fresh, or switches it on; by index.
    On(usize),
    /// Takes it off or switches it off.
    Off(usize),
    /// Looks at everything.
    Look,
    /// Lets time pass.
    Wait,
    /// Hands the work over.
    Finish,
    /// Gives the run up.
    Abandon,
}

/// A place where things are done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Group {
    /// Its title.
    pub(super) title: String,
    /// What can be done there, with titles.
    pub(super) moves: Vec<(Doable, String)>,
}

/// All groups: protection first, the stations in the module's order, time and end last.
pub(super) fn groups(rehearsal: &Rehearsal, words: &Words) -> Vec<Group> {
    let module = rehearsal.module();
    let mut groups = vec![protection(rehearsal, words)];
    for station in &module.stations {
        let mut moves = at(module, &station.id.value);
        if moves.is_empty() {
            continue;
        }
        // Sorted by title, so that where an entry stands does not tell whether it is a trap.
        moves.sort_by(|one, other| one.1.cmp(&other.1));
        groups.push(Group {
            title: display_safe(&station.title),
            moves,
        });
    }
    let say = |id: &str| words.say(id, &[]);
    groups.push(Group {
        title: say("screens-sitting-time"),
        moves: vec![
            (Doable::Look, say("screens-sitting-look")),
            (Doable::Wait, say("screens-sitting-wait")),
            (Doable::Finish, say("screens-sitting-finish")),
            (Doable::Abandon, say("screens-sitting-abandon")),
        ],
    });
    groups
}

fn at(module: &Module, station: &str) -> Vec<(Doable, String)> {
    let steps = module.steps.iter().enumerate();
    let steps = steps
        .filter(|(_, step)| step.at.value == station)
        .map(|(index, step)| (Doable::Step(index), display_safe(&step.title)));
    let acts = module
        .never
        .iter()
        .enumerate()
        .filter_map(|(index, rule)| match rule {
            Never::Act(act) if act.at.value == station => {
                Some((Doable::Act(index), display_safe(&act.title)))
            }
            _ => None,
        });
    steps.chain(acts).collect()
}

/// What can be put on, changed and taken off now. Each item keeps its row whatever is worn; taking off stands below.
fn protection(rehearsal: &Rehearsal, words: &Words) -> Group {
    let worn = rehearsal.worn();
    let (mut moves, mut off) = (Vec::new(), Vec::new());
    for (index, item) in rehearsal.module().protection_items.iter().enumerate() {
        let is_on = worn.iter().any(|(other, _)| *other == index);
        let say = |id: &str| words.say(id, &[("item", item.title.as_str().into())]);
        match (item.kind, is_on) {
            (ProtectionKind::Worn, false) => {
                moves.push((Doable::On(index), say("screens-sitting-put-on")));
            }
            (ProtectionKind::Worn, true) => {
                moves.push((Doable::On(index), say("screens-sitting-change")));
                off.push((Doable::Off(index), say("screens-sitting-take-off")));
            }
            (ProtectionKind::Running, false) => {
                moves.push((Doable::On(index), say("screens-sitting-switch-on")));
            }
            (ProtectionKind::Running, true) => {
                moves.push((Doable::Off(index), say("screens-sitting-switch-off")));
            }
        }
    }
    moves.extend(off);
    Group {
        title: words.say("screens-sitting-protection", &[]),
        moves,
    }
}
