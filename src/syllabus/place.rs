//! Where a task is done: a tooth, a pair, a side, or the whole part.
//!
//! A label is a step and a place (`tack@5-6/facial`); it is unique in a plan and the only name that is stored.

use std::fmt::Write as _;

use super::case::CaseCard;
use super::module::{Module, Repeat, RepeatOver};

/// One kind of place that tasks are repeated over, resolved for a case card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dimension {
    /// The id of the repeat it came from.
    pub id: String,
    /// The index of the counted or named dimension that coordinates count in (groups count in their base).
    pub base: usize,
    /// The places along it, in order.
    pub steps: Vec<(u16, u16)>,
    /// The names of the places; empty when they are numbers.
    pub names: Vec<String>,
}

/// One coordinate: an inclusive range along a base dimension. Counted dimensions start at 1, named ones at 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Coordinate {
    /// The base dimension.
    pub base: usize,
    /// The first place.
    pub low: u16,
    /// The last place.
    pub high: u16,
}

/// Where a task is done. Empty: once, for everything.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place(pub Vec<Coordinate>);

impl Place {
    /// Whether two places share something: in every base dimension that both have, their ranges meet.
    #[must_use]
    pub fn overlaps(&self, other: &Place) -> bool {
        self.0.iter().all(|here| {
            other
                .0
                .iter()
                .filter(|there| there.base == here.base)
                .all(|there| here.low <= there.high && there.low <= here.high)
        })
    }

    /// Whether the other place lies wholly inside this one, in the dimensions that this one has.
    #[must_use]
    pub fn covers(&self, other: &Place) -> bool {
        self.0.iter().all(|here| {
            other
                .0
                .iter()
                .filter(|there| there.base == here.base)
                .all(|there| here.low <= there.low && there.high <= here.high)
        })
    }

    /// The range along one base dimension, if the place has it.
    #[must_use]
    pub fn along(&self, base: usize) -> Option<(u16, u16)> {
        self.0
            .iter()
            .find(|one| one.base == base)
            .map(|one| (one.low, one.high))
    }
}

/// Why repeats cannot be resolved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RepeatProblem {
    /// The index of the repeat.
    pub repeat: usize,
}

/// Resolves a module's repeats for a case card, in the order of the module.
///
/// # Errors
/// When a repeat counts up to something that is no whole number of the card, or groups something that is not counted.
pub fn dimensions(module: &Module, card: &CaseCard) -> Result<Vec<Dimension>, RepeatProblem> {
    let mut all: Vec<Dimension> = Vec::new();
    for (index, repeat) in module.repeats.iter().enumerate() {
        let dimension =
            dimension(repeat, index, &all, card).ok_or(RepeatProblem { repeat: index })?;
        all.push(dimension);
    }
    Ok(all)
}

fn dimension(
    repeat: &Repeat,
    index: usize,
    earlier: &[Dimension],
    card: &CaseCard,
) -> Option<Dimension> {
    let id = repeat.id.value.clone();
    Some(match &repeat.over {
        RepeatOver::UpTo(choice) => {
            let last = card.whole(&choice.value)?;
            Dimension {
                id,
                base: index,
                steps: (1..=last).map(|n| (n, n)).collect(),
                names: Vec::new(),
            }
        }
        RepeatOver::GroupsOf { what, size } => {
            let of = earlier
                .iter()
                .find(|one| one.id == what.value && one.names.is_empty())?;
            let size = usize::from((*size).max(1));
            Dimension {
                id,
                base: of.base,
                steps: of
                    .steps
                    .chunks(size)
                    .filter_map(|group| Some((group.first()?.0, group.last()?.1)))
                    .collect(),
                names: Vec::new(),
            }
        }
        RepeatOver::EachOf(names) => Dimension {
            id,
            base: index,
            steps: (0..u16::try_from(names.len()).ok()?)
                .map(|n| (n, n))
                .collect(),
            names: names.iter().map(|name| name.value.clone()).collect(),
        },
    })
}

/// All places of a step that is done for each of these dimensions, the last one varying fastest.
#[must_use]
pub fn places(each: &[usize], all: &[Dimension]) -> Vec<Place> {
    let mut places = vec![Place::default()];
    for &dimension in each {
        let Dimension { base, steps, .. } = &all[dimension];
        places = places
            .iter()
            .flat_map(|place| {
                steps.iter().map(|&(low, high)| {
                    let mut coordinates = place.0.clone();
                    coordinates.push(Coordinate {
                        base: *base,
                        low,
                        high,
                    });
                    Place(coordinates)
                })
            })
            .collect();
    }
    places
}

/// The place as it stands in a label: `5`, `5-6`, `facial`, `5-6/facial`. Empty for the whole part.
#[must_use]
pub fn spelled(place: &Place, all: &[Dimension]) -> String {
    let mut text = String::new();
    for one in &place.0 {
        if !text.is_empty() {
            text.push('/');
        }
        let name = all
            .get(one.base)
            .and_then(|base| base.names.get(usize::from(one.low)));
        // Writing to a string cannot fail.
        let _ = match name {
            Some(name) => write!(text, "{name}"),
            None if one.low == one.high => write!(text, "{}", one.low),
            None => write!(text, "{}-{}", one.low, one.high),
        };
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn along(low: u16, high: u16) -> Place {
        Place(vec![Coordinate { base: 0, low, high }])
    }

    fn side(at: u16) -> Coordinate {
        Coordinate {
            base: 2,
            low: at,
            high: at,
        }
    }

    #[test]
    fn places_overlap_where_their_shared_dimensions_meet() {
        assert!(along(5, 6).overlaps(&along(6, 6)));
        assert!(!along(5, 6).overlaps(&along(7, 8)));
        assert!(Place::default().overlaps(&along(7, 8)));
        let facial = Place(vec![side(0)]);
        let lingual_pair = Place(vec![
            Coordinate {
                base: 0,
                low: 1,
                high: 2,
            },
            side(1),
        ]);
        assert!(!facial.overlaps(&lingual_pair));
        assert!(along(1, 1).overlaps(&lingual_pair));
    }

    #[test]
    fn an_odd_rest_is_a_group_of_one() {
        let tooth = Dimension {
            id: "tooth".into(),
            base: 0,
            steps: (1..=7).map(|n| (n, n)).collect(),
            names: vec![],
        };
        let groups: Vec<_> = tooth
            .steps
            .chunks(2)
            .map(|g| (g[0].0, g[g.len() - 1].1))
            .collect();
        let pair = Dimension {
            id: "pair".into(),
            base: 0,
            steps: groups,
            names: vec![],
        };
        let all = vec![tooth, pair];
        let spelled: Vec<_> = places(&[1], &all)
            .iter()
            .map(|p| spelled(p, &all))
            .collect();
        assert_eq!(spelled, ["1-2", "3-4", "5-6", "7"]);
    }
}
