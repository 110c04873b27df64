//! Who a module is and what a sign-off of it asks for.

use super::super::problem::Problems;
use super::super::{Form, MapReader, Node, Words, formed, name, text, whole, word};
use super::terms::origin;
use crate::syllabus::module::{
    AGAIN, Identity, MOST_COUNTED, MOST_MONTHS, Name, Origin, Risk, SignOff,
};

const RISKS: &Words<Risk> = &[
    ("high", Risk::High),
    ("medium", Risk::Medium),
    ("low", Risk::Low),
];

/// What stands under `module`.
pub(super) struct Head {
    id: Name,
    title: String,
    about: String,
    revision: u32,
    effective: chrono::NaiveDate,
    language: String,
    risk: Risk,
    /// The origin of every number that names no other.
    pub(super) origin: Origin,
}

impl Head {
    /// The identity, with what stands elsewhere in the file.
    pub(super) fn with(
        self,
        sources: Vec<(Name, String)>,
        hazards: Vec<Name>,
        cautions: Vec<String>,
    ) -> Identity {
        Identity {
            id: self.id,
            title: self.title,
            about: self.about,
            revision: self.revision,
            effective: self.effective,
            language: self.language,
            risk: self.risk,
            origin: self.origin,
            sources: sources
                .into_iter()
                .map(|(id, citation)| (id.value, citation))
                .collect(),
            hazards,
            cautions,
        }
    }
}

/// Reads what stands under `module`.
pub(super) fn head(node: &Node, problems: &mut Problems) -> Option<Head> {
    let mut map = MapReader::open(node, problems)?;
    let id = map.required("id", name);
    let title = map.required("title", text);
    let about = map.required("about", text);
    let revision = map.required("revision", whole(1..=u32::MAX));
    let effective = map.required("effective", formed(Form::Date, date));
    let language = map.required("language", formed(Form::Language, language));
    let risk = map.required("risk", word(RISKS));
    let origin = map.required("origin", origin);
    map.finish();
    Some(Head {
        id: id?,
        title: title?,
        about: about?,
        revision: revision?,
        effective: effective?,
        language: language?,
        risk: risk?,
        origin: origin?,
    })
}

/// A day as `2026-12-01` and not otherwise.
fn date(text: &str) -> Option<chrono::NaiveDate> {
    let plain = text.len() == 10 && text.bytes().all(|it| it.is_ascii_digit() || it == b'-');
    text.parse().ok().filter(|_| plain)
}

/// A language tag: letters and digits in groups of at most eight, the first one two or three letters.
fn language(text: &str) -> Option<String> {
    let mut groups = text.split('-');
    let first = groups.next()?;
    let is_tag = (2..=3).contains(&first.len())
        && first.bytes().all(|it| it.is_ascii_alphabetic())
        && groups.all(|it| {
            (1..=8).contains(&it.len()) && it.bytes().all(|byte| byte.is_ascii_alphanumeric())
        });
    is_tag.then(|| text.to_owned())
}

/// Reads what a sign-off asks for.
pub(super) fn sign_off(node: &Node, problems: &mut Problems) -> Option<SignOff> {
    let count = || whole(0..=MOST_COUNTED);
    let mut map = MapReader::open(node, problems)?;
    let clean_unaided = map.required("clean-unaided", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let runs = map.required("runs", count());
        let days = map.required("on-days", count());
        map.finish();
        Some((runs?, days?))
    });
    let supervised_cases = map.required("supervised", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let cases = map.required("cases", count());
        map.finish();
        cases
    });
    let observed = map.required("observed", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let runs = map.required("runs", count());
        let assessors = map.required("assessors", count());
        let last = map.required("last-clean-in-a-row", count());
        map.finish();
        Some((runs?, assessors?, last?))
    });
    let valid_months = map.some("valid-months", whole(1..=MOST_MONTHS));
    let effect_check_days = map.optional("effect-check", |node, problems| {
        let mut map = MapReader::open(node, problems)?;
        let from = map.required("from-days", count());
        let to = map.required("to-days", count());
        map.finish();
        Some((from?, to?))
    });
    map.finish();
    Some(SignOff {
        clean_unaided: clean_unaided?,
        supervised_cases: supervised_cases?,
        observed: observed?,
        again: AGAIN,
        valid_months: valid_months?,
        effect_check_days,
    })
}
