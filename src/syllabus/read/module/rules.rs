//! Rules over times, what is never done, disturbances, consequences.

use super::super::problem::Problems;
use super::super::{
    Fault, MapReader, Node, Variant, Words, list_of, name, quantity, spot, text, variant, whole,
    word,
};
use super::operations::operation;
use super::steps::operations;
use super::terms::{condition, duration, miss, miss_of, named, names, origin, severity, when};
use crate::syllabus::module::{
    CapChange, Comes, Consequence, Disturbance, ForbiddenAct, Harm, Miss, Moment, Name, Never,
    Response, TimeRule,
};
use crate::syllabus::operation::Operation;
use crate::units::Millis;

/// Reads the gaps and caps.
pub(super) fn time_rules(node: &Node, problems: &mut Problems) -> Option<Vec<TimeRule>> {
    list_of(variant(&[("gap", gap), ("cap", cap)]))(node, problems)
}

fn gap(node: &Node, problems: &mut Problems) -> Option<TimeRule> {
    let mut map = MapReader::open(node, problems)?;
    let from = map.required("from", moment);
    let to = map.required("to", moment);
    let least = map.optional("least", duration);
    let most = map.optional("most", duration);
    if map.node("least").is_none() && map.node("most").is_none() {
        let at = map.at();
        map.problems().add(at, Fault::MissingKey { key: "most" });
    }
    let miss = miss_of(&mut map);
    let origin = map.optional("origin", origin);
    map.finish();
    Some(TimeRule::Gap {
        from: from?,
        to: to?,
        least,
        most,
        miss: miss?,
        origin,
    })
}

/// Reads `{ end: first-wash }`.
pub(in crate::syllabus) fn moment(node: &Node, problems: &mut Problems) -> Option<Moment> {
    variant(&[
        ("start", |node, problems| {
            let step = name(node, problems)?;
            Some(Moment { step, end: false })
        }),
        ("end", |node, problems| {
            let step = name(node, problems)?;
            Some(Moment { step, end: true })
        }),
    ])(node, problems)
}

fn cap(node: &Node, problems: &mut Problems) -> Option<TimeRule> {
    let mut map = MapReader::open(node, problems)?;
    let over = map.some("over", name);
    let limits = cap_limits(&mut map);
    let changes = map.list("changes", cap_change);
    let miss = miss_of(&mut map);
    let origin = map.optional("origin", origin);
    map.finish();
    let (most, when_done) = limits?;
    Some(TimeRule::Cap {
        over: over?,
        most,
        when_done,
        changes,
        miss: miss?,
        origin,
    })
}

/// Reads a cap and its larger caps from a map that may hold more.
pub(in crate::syllabus) fn cap_limits(
    map: &mut MapReader<'_, '_>,
) -> Option<(Millis, Vec<(Name, Millis)>)> {
    let most = map.required("most", duration);
    let when_done = map.or("when-done", Vec::new(), named(duration));
    Some((most?, when_done))
}

/// Reads a cap for some case cards.
pub(in crate::syllabus) fn cap_change(node: &Node, problems: &mut Problems) -> Option<CapChange> {
    let mut map = MapReader::open(node, problems)?;
    let when = map.required("when", when);
    let limits = cap_limits(&mut map);
    map.finish();
    let ((choice, value), (most, when_done)) = (when?, limits?);
    Some(CapChange {
        choice,
        value,
        most,
        when_done,
    })
}

/// Reads what is never done.
pub(super) fn never(node: &Node, problems: &mut Problems) -> Option<Vec<Never>> {
    list_of(variant(NEVER))(node, problems)
}

const NEVER: &[Variant<Never>] = &[
    ("more-than", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let count = map.required("count", whole(0..=999_u16));
        let of = map.required("of", condition);
        let miss = miss_of(&mut map);
        map.finish();
        Some(Never::MoreThan {
            count: count?,
            of: of?,
            miss: miss?,
        })
    }),
    ("before", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let act = map.required("do", name);
        let until = map.required("until", name);
        let all = map.or("all", false, super::super::yes_no);
        let miss = miss_of(&mut map);
        map.finish();
        Some(Never::Before {
            act: act?,
            until: until?,
            all,
            miss: miss?,
        })
    }),
    ("act", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let id = map.required("id", name);
        let title = map.required("title", text);
        let at = map.required("at", name);
        let takes = map.or("takes", Millis::ZERO, duration);
        let does = map.list("does", operation);
        let makes = map.list("makes", condition);
        let miss = miss_of(&mut map);
        map.finish();
        Some(Never::Act(ForbiddenAct {
            id: id?,
            title: title?,
            at: at?,
            takes,
            does,
            makes,
            miss: miss?,
        }))
    }),
];

/// Reads what can go wrong around the technician.
pub(super) fn disturbances(node: &Node, problems: &mut Problems) -> Option<Vec<Disturbance>> {
    list_of(disturbance)(node, problems)
}

fn disturbance(node: &Node, problems: &mut Problems) -> Option<Disturbance> {
    let mut map = MapReader::open(node, problems)?;
    let id = map.required("id", name);
    let comes = map.required(
        "comes",
        variant(&[
            ("before", |node, problems| {
                Some(Comes::Before(name(node, problems)?))
            }),
            ("after", |node, problems| {
                Some(Comes::After(name(node, problems)?))
            }),
        ]),
    );
    let chance = map.required("chance", quantity);
    let does = map.or("does", Vec::new(), operations);
    let takes_off = map.or("takes-off", Vec::new(), names);
    let seen = map.required("seen", text);
    let responses = map.or("responses", Vec::new(), named(response));
    let carry_on = map.optional("carry-on", miss);
    map.finish();
    Some(Disturbance {
        id: id?,
        comes: comes?,
        chance: chance?,
        does,
        takes_off,
        seen: seen?,
        responses: responses
            .into_iter()
            .map(|(id, read)| Response {
                id,
                title: read.title,
                takes: read.takes,
                does: read.does,
                puts_on: read.puts_on,
                wrong: read.wrong,
            })
            .collect(),
        carry_on,
    })
}

/// A response whose id is not known yet.
struct Answer {
    title: String,
    takes: Millis,
    does: Vec<Operation>,
    puts_on: Vec<Name>,
    wrong: Option<Miss>,
}

fn response(node: &Node, problems: &mut Problems) -> Option<Answer> {
    let mut map = MapReader::open(node, problems)?;
    let title = map.required("title", text);
    let takes = map.or("takes", Millis::ZERO, duration);
    let does = map.or("does", Vec::new(), operations);
    let puts_on = map.or("puts-on", Vec::new(), names);
    let wrong = map.optional("wrong", miss);
    map.finish();
    Some(Answer {
        title: title?,
        takes,
        does,
        puts_on,
        wrong,
    })
}

const HARMS: &Words<Harm> = &[
    ("veil", Harm::Veil),
    ("locked-veil", Harm::LockedVeil),
    ("socket-gel", Harm::SocketGel),
    ("softened", Harm::Softened),
    ("damp-joint", Harm::DampJoint),
    ("weak-primer", Harm::WeakPrimer),
    ("no-primer", Harm::NoPrimer),
    ("warm-primer", Harm::WarmPrimer),
    ("hot-primer", Harm::HotPrimer),
    ("wet-primer", Harm::WetPrimer),
    ("starved-joint", Harm::StarvedJoint),
    ("gelled-socket", Harm::GelledSocket),
    ("hard-flash", Harm::HardFlash),
    ("moved-tooth", Harm::MovedTooth),
    ("wrong-tooth", Harm::WrongTooth),
    ("wrong-product", Harm::WrongProduct),
    ("open-seam", Harm::OpenSeam),
    ("under-cured", Harm::UnderCured),
    ("warped", Harm::Warped),
    ("polished-tissue", Harm::PolishedTissue),
    ("scratched", Harm::Scratched),
    ("vapour-near-heat", Harm::VapourNearHeat),
    ("vapour-peak", Harm::VapourPeak),
    ("skin-contact", Harm::SkinContact),
    ("eye-exposure", Harm::EyeExposure),
    ("spoiled", Harm::Spoiled),
];

/// Reads the consequences.
pub(super) fn consequences(node: &Node, problems: &mut Problems) -> Option<Vec<Consequence>> {
    let read = named(|node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let fault = map.optional("fault", name);
        let text = map.required("text", text);
        let shows = map.list("shows", spot(word(HARMS)));
        let severity = map.required("severity", severity);
        map.finish();
        Some((fault, text?, shows, severity?))
    })(node, problems)?;
    Some(
        read.into_iter()
            .map(|(id, (fault, text, shows, severity))| Consequence {
                id,
                fault,
                text,
                shows,
                severity,
            })
            .collect(),
    )
}
