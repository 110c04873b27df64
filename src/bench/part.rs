//! A part on the bench: resin and liquid on each of its regions, light on its two sides, its surface and its posts.

use super::Model;
use super::outcome::{Cleaning, Region, ResidueAfter};
use super::round::{of, real};
use crate::rng::Stream;
use crate::syllabus::module::PartKind;
use crate::syllabus::operation::Grade;
use crate::units::{Dose, Micrograms, Microliters, Millis, PerSecond, Ppm};

/// Shares of a printed part's surface: tissue side, outer faces, posts, all sockets together (our default).
const TISSUE: Ppm = Ppm(300_000);
const OUTER: Ppm = Ppm(330_000);
const POSTS: Ppm = Ppm(20_000);
const SOCKETS: Ppm = Ppm(350_000);

/// Running drops on a print that was not drained, as a share of its coat (our default).
const DROPS: Ppm = Ppm(300_000);

/// What wets a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Film {
    /// Resin, as it leaves the printer.
    Resin,
    /// Alcohol, after a wash.
    Solvent,
}

/// One region of a part. Resin counts as a share of the region's first coat.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Area {
    pub(super) region: Region,
    /// Share of the part's surface, and so of its coat.
    pub(super) share: Ppm,
    /// Resin that liquid takes.
    pub(super) free: Ppm,
    /// Resin that only a brush loosens.
    pub(super) gel: Ppm,
    /// Resin that set under trapped air: a brush takes it off in lumps.
    pub(super) set: Ppm,
    /// Whether light has fixed what was left on it.
    pub(super) locked: bool,
    /// Whether something was lifted out and not brushed away.
    pub(super) smeared: bool,
}

impl Area {
    /// What liquid did not reach sets under the air: all but the share that it reached.
    pub(super) fn set_under_air(&mut self, reached: Ppm) {
        let kept = |resin: Ppm| Ppm(of(reached, resin.0));
        let (free, gel) = (kept(self.free), kept(self.gel));
        self.set.0 += self.free.0 - free.0 + self.gel.0 - gel.0;
        (self.free, self.gel) = (free, gel);
    }

    /// Gel and what set, together.
    pub(super) fn lumps(&self) -> Ppm {
        Ppm(self.gel.0 + self.set.0)
    }
}

/// A part in one run.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Part {
    pub(super) kind: PartKind,
    /// First coat of resin. Zero for what was not printed in this workflow.
    pub(super) coat: Micrograms,
    pub(super) areas: Vec<Area>,
    /// Running drops that are left, as a share of those at first.
    pub(super) drops: Ppm,
    pub(super) film_kind: Film,
    /// Film on open faces and in sockets, as shares of a full one.
    pub(super) film: Ppm,
    pub(super) socket_film: Ppm,
    /// Resin and liquid of the film that clings after a bath; the resin stays when the liquid has dried.
    pub(super) film_resin: Micrograms,
    pub(super) film_liquid: Microliters,
    /// Time in solvent, in total.
    pub(super) immersed: Millis,
    pub(super) last_dried: Millis,
    /// Light on the tooth side and on the tissue side.
    pub(super) dose: [Dose; 2],
    pub(super) last_lit: Option<Millis>,
    pub(super) posts_cut: Option<Millis>,
    pub(super) surface: Surface,
}

/// How far the surface is finished.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Surface {
    /// Abrasives whose marks stand, from coarse to fine.
    pub(super) grades: Vec<Grade>,
    /// The finest that was ever reached.
    pub(super) finest: Option<Grade>,
    /// When it was last worked.
    pub(super) last: Option<Millis>,
}

impl Surface {
    /// Works the surface: a coarser abrasive takes the work of every finer one away.
    pub(super) fn abrade(&mut self, with: Grade, at: Millis) {
        self.grades.retain(|grade| *grade < with);
        self.grades.push(with);
        self.finest = self.finest.max(Some(with));
        self.last = Some(at);
    }

    /// Whether scratches are left: a coarser abrasive came last, or polish without pumice before it.
    pub(super) fn scratched(&self) -> bool {
        self.grades.last() < self.finest.as_ref()
            || (self.grades.last() == Some(&Grade::Polish) && !self.grades.contains(&Grade::Pumice))
    }
}

impl Part {
    /// A part at the start of a run: a body has a coat of resin if the bench has a bath, and is cured only where nothing of the
    /// bench wets, bonds or cures it.
    pub(super) fn start(kind: PartKind, model: &Model, stream: &mut Stream) -> Part {
        let printed = kind == PartKind::Body && model.has_bath;
        let coat = if printed {
            Micrograms(model.bath.resin_on_part.0 * stream.between(920, 1_080) / 1_000)
        } else {
            Micrograms(0)
        };
        let full = if printed { 1_000_000 } else { 0 };
        let gel = of(model.bath.gel_share, full);
        let area = |region, share, gel| Area {
            region,
            share,
            free: Ppm(full - gel),
            gel: Ppm(gel),
            set: Ppm(0),
            locked: false,
            smeared: false,
        };
        let mut areas = Vec::new();
        if kind == PartKind::Body {
            areas.push(area(Region::Tissue, TISSUE, gel));
            areas.push(area(Region::Outer, OUTER, 0));
            areas.push(area(Region::Posts, POSTS, 0));
            let each = Ppm(SOCKETS.0 / i64::from(model.teeth));
            areas.extend((1..=model.teeth).map(|tooth| area(Region::Socket(tooth), each, gel)));
        }
        let cured = if model.starts_cured {
            model.unit.least_dose
        } else {
            Dose(0)
        };
        Part {
            kind,
            coat,
            areas,
            drops: Ppm(full),
            film_kind: Film::Resin,
            film: Ppm(full),
            socket_film: Ppm(full),
            film_resin: Micrograms(0),
            film_liquid: Microliters(0),
            immersed: Millis::ZERO,
            last_dried: Millis::ZERO,
            dose: [cured; 2],
            last_lit: None,
            posts_cut: None,
            surface: Surface::default(),
        }
    }

    /// Resin in the drops that still run.
    pub(super) fn running(&self) -> Micrograms {
        Micrograms(of(DROPS, of(self.drops, self.coat.0)))
    }

    /// Wets it all over.
    pub(super) fn wet(&mut self, with: Film) {
        self.film_kind = with;
        self.film = Ppm(1_000_000);
        self.socket_film = Ppm(1_000_000);
    }

    /// Whether neither resin nor solvent wets it. A film of resin never dries.
    pub(super) fn is_dry(&self, below: Ppm) -> bool {
        let fresh_resin = self.film_kind == Film::Resin && self.coat.0 > 0;
        !fresh_resin && self.film <= below && self.socket_film <= below
    }

    /// The liquid of the film is gone; its resin stays, loose enough to come off at once in another bath.
    pub(super) fn dry_on(&mut self) {
        self.film_liquid = Microliters(0);
    }

    /// Resin in the film as a share of the coat: the same on every region.
    fn film_share(&self) -> Ppm {
        if self.coat.0 > 0 {
            Ppm(self.film_resin.0.saturating_mul(1_000_000) / self.coat.0)
        } else {
            Ppm(0)
        }
    }

    /// Resin on a region that is no gel, with what is in its film. Where light has fixed it, no later film counts.
    pub(super) fn residue_of(&self, area: &Area) -> Ppm {
        let film = if area.locked {
            Ppm(0)
        } else {
            self.film_share()
        };
        Ppm(area.free.0 + film.0)
    }

    /// The highest residue of all regions.
    pub(super) fn highest_residue(&self) -> Ppm {
        self.areas
            .iter()
            .map(|area| self.residue_of(area))
            .max()
            .unwrap_or_default()
    }

    /// The socket of a tooth, 0-based.
    pub(super) fn socket(&self, tooth: usize) -> Option<&Area> {
        self.areas.get(tooth + FIRST_SOCKET)
    }

    /// The socket of a tooth, 0-based.
    pub(super) fn socket_mut(&mut self, tooth: usize) -> Option<&mut Area> {
        self.areas.get_mut(tooth + FIRST_SOCKET)
    }

    /// Light on regions: what is left above the limit is fixed for good. Gives the highest residue that was fixed just now.
    pub(super) fn lock(&mut self, lit: impl Fn(Region) -> bool, limit: Ppm) -> Option<Ppm> {
        let film = self.film_share();
        let mut highest = None;
        for area in &mut self.areas {
            let residue = Ppm(area.free.0 + film.0);
            if lit(area.region) && !area.locked && residue > limit {
                area.locked = true;
                area.free = residue;
                highest = highest.max(Some(residue));
            }
        }
        highest
    }

    /// How many sides have had their dose.
    pub(super) fn cured(&self, least: Dose) -> usize {
        self.dose.iter().filter(|dose| **dose >= least).count()
    }

    /// The residue of every region, for the debrief.
    pub(super) fn residue(&self, part: usize, at: Millis, after: Cleaning) -> ResidueAfter {
        ResidueAfter {
            at,
            part,
            after,
            regions: self
                .areas
                .iter()
                .map(|area| (area.region, self.residue_of(area), area.lumps()))
                .collect(),
        }
    }
}

/// Where the sockets start among the areas of a body.
const FIRST_SOCKET: usize = 3;

/// A rate for the closed forms.
pub(super) fn per_second(rate: PerSecond) -> f64 {
    real(rate.0) / 1e6
}
