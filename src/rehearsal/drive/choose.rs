//! What a move means: places and options as typed, and what the bench is told of them.

use super::{Nonsense, Rehearsal};
use crate::bench::{Doing, Teeth};
use crate::syllabus::module::Step;
use crate::syllabus::place::{self, Coordinate, Place};
use crate::syllabus::plan::TaskIndex;
use crate::units::Millis;

impl Rehearsal {
    /// The tasks of a step at the places that were written.
    ///
    /// # Errors
    /// When there is no such place, or several places and none is named.
    pub fn select(&self, step: usize, at: &str) -> Result<Vec<TaskIndex>, Nonsense> {
        let tasks = &self.on.plan.tasks_of_step[step];
        let spelled = |task: &TaskIndex| {
            place::spelled(&self.on.plan.tasks[*task].place, &self.on.plan.dimensions)
        };
        let places = || tasks.iter().map(spelled).collect::<Vec<_>>();
        let at = at.trim();
        let once = tasks
            .iter()
            .all(|&task| self.on.plan.tasks[task].place.0.is_empty());
        if at == "all" || (at.is_empty() && once) {
            return Ok(tasks.clone());
        }
        if at.is_empty() {
            return Err(Nonsense::WhereTo(places()));
        }
        let no_such = || Nonsense::NoSuchPlace {
            found: at.to_owned(),
            places: places(),
        };
        let wanted = self.written_place(at).ok_or_else(no_such)?;
        let chosen: Vec<TaskIndex> = tasks
            .iter()
            .copied()
            .filter(|&task| {
                let place = &self.on.plan.tasks[task].place;
                !place.0.is_empty()
                    && place.overlaps(&wanted)
                    && wanted.0.iter().all(|one| place.along(one.base).is_some())
            })
            .collect();
        if chosen.is_empty() || once {
            return Err(no_such());
        }
        Ok(chosen)
    }

    /// Reads `5-6/facial`: numbers count teeth, names are looked up.
    pub(super) fn written_place(&self, at: &str) -> Option<Place> {
        let mut coordinates = Vec::new();
        for part in at.split(['/', ' ']).filter(|part| !part.is_empty()) {
            let number = |text: &str| text.parse::<u16>().ok();
            let range = match part.split_once('-') {
                Some((low, high)) => number(low).zip(number(high)),
                None => number(part).map(|one| (one, one)),
            };
            let coordinate = if let Some((low, high)) = range {
                let base = self.counted?;
                let steps = &self.on.plan.dimensions[base].steps;
                let last = steps.last()?.1;
                (1 <= low && low <= high && high <= last).then_some(Coordinate {
                    base,
                    low,
                    high,
                })?
            } else {
                let named = self.on.plan.dimensions.iter().enumerate();
                named
                    .filter_map(|(base, one)| {
                        let at = one.names.iter().position(|name| name == part)?;
                        let at = u16::try_from(at).ok()?;
                        Some(Coordinate {
                            base,
                            low: at,
                            high: at,
                        })
                    })
                    .next()?
            };
            coordinates.push(coordinate);
        }
        (!coordinates.is_empty()).then_some(Place(coordinates))
    }

    /// The teeth and the side of a place, as the bench wants them.
    pub(super) fn doing<'a>(
        &self,
        place: &Place,
        ways: &'a [(String, String)],
        handling: Millis,
        timed: Millis,
    ) -> Doing<'a> {
        let teeth = self.counted.and_then(|base| place.along(base));
        let side = self.named.and_then(|base| place.along(base));
        Doing {
            teeth: teeth.map(|(first, last)| Teeth { first, last }),
            side: side.and_then(|(low, _)| u8::try_from(low).ok()),
            ways,
            handling,
            timed,
        }
    }
}

/// The options by index: named ones, and the first right one for every way that is not named.
///
/// # Errors
/// When a way or an option does not exist.
pub fn options(step: &Step, named: &[(String, String)]) -> Result<Vec<usize>, Nonsense> {
    for (way, _) in named {
        if !step.ways.iter().any(|one| one.id.value == *way) {
            return Err(Nonsense::NoSuchWay {
                found: way.clone(),
                ways: step.ways.iter().map(|one| one.id.value.clone()).collect(),
            });
        }
    }
    step.ways
        .iter()
        .map(|way| {
            let Some((_, option)) = named.iter().rev().find(|(one, _)| *one == way.id.value) else {
                return Ok(way
                    .options
                    .iter()
                    .position(|one| one.wrong.is_none())
                    .unwrap_or(0));
            };
            way.options
                .iter()
                .position(|one| one.id.value == *option)
                .ok_or_else(|| Nonsense::NoSuchOption {
                    found: option.clone(),
                    options: way.options.iter().map(|one| one.id.value.clone()).collect(),
                })
        })
        .collect()
}

pub(super) fn chosen_ways(step: &Step, options: &[usize]) -> Vec<(String, String)> {
    step.ways
        .iter()
        .zip(options)
        .map(|(way, &option)| (way.id.value.clone(), way.options[option].id.value.clone()))
        .collect()
}
