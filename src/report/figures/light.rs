//! Light on teeth and on bodies.

use super::Drawing;
use crate::report::figure::{Amount, Arch, ArchTooth, Bar, BarGroup, Bars, Bound, Figure};
use crate::syllabus::module::RepeatOver;
use crate::text::display_safe;
use crate::units::Dose;

impl Drawing<'_> {
    fn side(&self, side: usize) -> String {
        let named = self.names.module.repeats.iter().find_map(|one| {
            let RepeatOver::EachOf(names) = &one.over else {
                return None;
            };
            names.get(side).map(|name| display_safe(&name.value))
        });
        let number = ("number", (side + 1).to_string().into());
        named.unwrap_or_else(|| self.say("debrief-side", &[number]))
    }

    fn amount(&self, dose: Dose) -> Amount {
        // Tenths of a joule are enough for a picture; what is under a limit is not rounded up to it.
        let rounded = Dose(dose.0 / 100_000 * 100_000);
        Amount {
            value: dose.0,
            said: self.write(rounded),
        }
    }

    fn dose_bar(&self, label: String, dose: Dose) -> Bar {
        let Amount { value, said } = self.amount(dose);
        Bar { label, value, said }
    }

    fn dose_bound(&self, limit: Dose) -> Bound {
        Bound {
            at: limit.0,
            said: self.say("debrief-dose-limit", &[("limit", limit.into())]),
            at_least: true,
        }
    }

    /// The teeth that got less than the limit on a side.
    fn missed(&self, side: usize, limit: Dose) -> Vec<String> {
        let doses = (1_u16..).zip(&self.outcome.figures.tooth_dose);
        let missed = doses.filter(|(_, sides)| sides[side] < limit);
        missed.map(|(tooth, _)| tooth.to_string()).collect()
    }

    pub(super) fn tooth_dose(&self) -> Option<Figure> {
        let doses = &self.outcome.figures.tooth_dose;
        let limit = self.limits.joint_dose?;
        let lit = doses.iter().flatten().any(|dose| dose.0 > 0);
        let sides = [self.side(0), self.side(1)];
        let [outer, inner] = &sides;
        let missed = [self.missed(0, limit), self.missed(1, limit)];
        let short = missed.iter().map(Vec::len).sum::<usize>();
        let missed = sides.iter().zip(missed).filter(|one| !one.1.is_empty());
        let missed = missed.map(|(side, teeth)| {
            let values = [("side", side.as_str().into()), ("teeth", teeth.into())];
            self.say("debrief-arch-missed", &values)
        });
        let teeth = (1..).zip(doses).map(|(number, doses)| ArchTooth {
            number,
            sides: doses.map(|dose| self.amount(dose)),
        });
        lit.then(|| {
            Figure::Arch(Box::new(Arch {
                title: self.say("debrief-dose-teeth", &[]),
                note: self.note(),
                key: self.say(
                    "debrief-arch-key",
                    &[
                        ("outer", outer.as_str().into()),
                        ("inner", inner.as_str().into()),
                    ],
                ),
                said: self.say(
                    "debrief-arch-said",
                    &[
                        ("missed", short.into()),
                        ("count", (2 * doses.len()).into()),
                    ],
                ),
                missed: missed.collect(),
                tooth: self.say("debrief-arch-tooth", &[]),
                sides: sides.clone(),
                bound: self.dose_bound(limit),
                less: self.say("debrief-dose-less", &[]),
                none: self.say("debrief-dose-none", &[]),
                teeth: teeth.collect(),
            }))
        })
    }

    pub(super) fn body_dose(&self) -> Option<Figure> {
        let doses = &self.outcome.figures.body_dose;
        let lit = doses
            .iter()
            .any(|(_, sides)| sides.iter().any(|one| one.0 > 0));
        let group = |(part, sides): &(usize, [Dose; 2])| {
            let part = self.names.module.parts.get(*part)?;
            Some(BarGroup {
                label: display_safe(&part.title),
                bars: vec![
                    self.dose_bar(self.say("debrief-side-tooth", &[]), sides[0]),
                    self.dose_bar(self.say("debrief-side-tissue", &[]), sides[1]),
                ],
            })
        };
        // Without a curing unit a body counts as cured from the start, and nothing has been measured.
        (lit && self.limits.body_dose.is_some()).then(|| {
            Figure::Bars(Bars {
                title: self.say("debrief-dose-bodies", &[]),
                note: self.note(),
                key: self.say("debrief-bars-key", &[]),
                bound: self.limits.body_dose.map(|limit| self.dose_bound(limit)),
                groups: doses.iter().filter_map(group).collect(),
            })
        })
    }
}
