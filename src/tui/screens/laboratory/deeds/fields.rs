//! What a form asks for, and what was answered.

use std::str::FromStr;

use super::offered::{Offered, OnShelf, in_scopes, profiles};
use super::row::{Answer, Row, named};
use crate::app::laboratory::{Calendar, Moment, Number, OwnNumbers, Place, typed_value};
use crate::record::canonical::Value;
use crate::record::entry::{Entry, Impact};
use crate::record::scope::{Authority, Edition, Id, Meaning, Scope, Text};
use crate::record::seal::Seal;
use crate::report::record as say;
use crate::report::record::{id_of, said, text_problem};
use crate::standing::{Policy, Reading, Standing, is_correctable};
use crate::syllabus::module::SignOff;
use crate::text::Words;
use crate::text::wrap::columns;
use crate::tui::house::House;
use crate::tui::screen::Notice;
use crate::units::{PersonCode, Stamp};

/// The widest value that is shown beside the name of a member, with the name. Our default: a row of the smallest screen.
const MEMBER_COLUMNS: usize = 54;

/// Where the answers to a field come from.
#[derive(Clone, Copy, Debug)]
pub(super) enum Source {
    /// Somebody who is here.
    Person,
    /// A scope of the person.
    Scope,
    /// A workflow of the record.
    Workflow,
    /// An adopted edition of the workflow, the one in force first.
    Edition,
    /// The same, the newest first.
    NewestEdition,
    /// A module on the shelf.
    Module,
    /// A suspension of the person that nothing has lifted.
    Suspension,
    /// A member of the entry.
    Member,
    /// What the member should say: one of its words where it has a list of them, else typed.
    Value,
    /// What was seen of the person: all of it, but what is left out.
    Evidence,
    /// One of these words.
    Words(fn(&Words) -> Vec<(&'static str, String)>),
    /// Some of these words: those that are taken.
    SomeOf(fn(&Words) -> Vec<(&'static str, String)>),
    /// A line of text.
    Line,
    /// An id: small letters, digits, hyphens.
    Name,
    /// A process profile: the shipped one, one of the laboratory's own that covers the workflow, or another that somebody was assigned with.
    Profile,
    /// What stands there in a scope that somebody was assigned to, those of the workflow first; or another id.
    InScope(fn(&Scope) -> &Id),
    /// A time; a day alone means its beginning.
    Begins,
    /// A time; a day alone means its end.
    Ends,
    /// A number that begins as the chosen module has it.
    OfModule(Number),
    /// A whole number that begins as it is in the policy.
    OfPolicy(fn(&Policy) -> u16),
    /// An entry, by its place or the beginning of its seal.
    Entry,
}

/// A field of a form.
#[derive(Clone, Copy, Debug)]
pub(super) struct Asked {
    /// What it is called in the code; its words are `deeds-field.ID` and `deeds-about.ID`.
    pub(super) id: &'static str,
    /// Where its answers come from.
    pub(super) source: Source,
    /// Whether it may be left empty.
    pub(super) optional: bool,
}

/// A field that has to be filled in.
pub(super) const fn must(id: &'static str, source: Source) -> Asked {
    Asked {
        id,
        source,
        optional: false,
    }
}

/// A field that may be left empty.
pub(super) const fn may(id: &'static str, source: Source) -> Asked {
    Asked {
        id,
        source,
        optional: true,
    }
}

/// What was answered, field by field.
pub(super) struct Answers<'r> {
    pub(super) rows: &'r [Row],
    pub(super) now: Stamp,
    /// In which offset a day is meant.
    pub(super) calendar: &'r Calendar,
}

/// What is wrong with an answer: which field, and why.
pub(super) struct Wrong {
    pub(super) field: &'static str,
    pub(super) notice: Notice,
}

/// Fills in what can be chosen, field by field: what comes later can depend on what stands before.
pub(super) fn refill<P: Place>(rows: &mut [Row], shelf: &OnShelf, house: &House<P>, words: &Words) {
    let policy = || {
        let now = house.laboratory.now().instant();
        house.laboratory.view(now, Reading::AsNowKnown).policy()
    };
    for at in 0..rows.len() {
        let (before, rest) = rows.split_at_mut(at);
        if let Some(row) = rest.first_mut() {
            match row.asked.source {
                Source::OfModule(number) => {
                    let asked = asked_by_module(before, &shelf.modules);
                    row.begin(
                        asked.map_or_else(String::new, |asked| Number::written(&number.of(asked))),
                    );
                }
                Source::OfPolicy(held) => row.begin(held(&policy()).to_string()),
                _ => {}
            }
        }
        if let Some(row) = rest.first_mut()
            && (!row.is_typed() || matches!(row.asked.source, Source::Value))
        {
            let options = options(row.asked.source, before, shelf, house, words);
            row.offer(options);
        }
    }
    // Whoever leaves something out says why.
    let leaves_out = rows.iter().any(Row::leaves_out);
    for row in rows.iter_mut().filter(|row| row.asked.id == "reason") {
        row.is_owed = leaves_out;
    }
}

/// What the chosen module asks for.
pub(super) fn asked_by_module<'m>(before: &[Row], modules: &'m [Offered]) -> Option<&'m SignOff> {
    let chosen = before.iter().find(|row| row.asked.id == "module")?;
    let Some(Answer::Name(id)) = chosen.answer() else {
        return None;
    };
    let mut modules = modules.iter();
    modules.find(|one| one.id == *id)?.asks.as_ref()
}

fn options<P: Place>(
    source: Source,
    before: &[Row],
    shelf: &OnShelf,
    house: &House<P>,
    words: &Words,
) -> Vec<(Answer, String)> {
    let laboratory = &house.laboratory;
    let view = laboratory.view(laboratory.now().instant(), Reading::AsNowKnown);
    let now = laboratory.now();
    let answers = Answers {
        rows: before,
        now,
        // What can be chosen depends on no time that was typed.
        calendar: &Calendar::new([], now),
    };
    let person = answers.person("person").ok();
    match source {
        Source::Person => {
            let people = laboratory.people().map(|code| {
                let shown = house.told(words, |telling| telling.person(code));
                (Answer::Person(code), shown)
            });
            let mut people: Vec<_> = people.collect();
            people.sort_by(|one, other| one.1.cmp(&other.1));
            people
        }
        Source::Scope => {
            let scopes = person.map_or_else(Vec::new, |person| view.scopes(person, None));
            let shown = scopes.into_iter().map(|scope| {
                let shown = house.told(words, |telling| telling.scope(&scope));
                (Answer::Scope(scope), shown)
            });
            shown.collect()
        }
        Source::Workflow => {
            let workflows = laboratory.workflows().into_iter();
            workflows.map(|id| named(&id)).collect()
        }
        Source::Profile => profiles(shelf, &answers, laboratory),
        Source::InScope(part) => in_scopes(part, &answers, laboratory),
        Source::Edition | Source::NewestEdition => {
            let Some(workflow) = answers.workflow() else {
                return Vec::new();
            };
            let held = view.edition(&workflow);
            let mut editions = view.editions(&workflow);
            editions.reverse();
            if matches!(source, Source::Edition) {
                editions.sort_by_key(|(edition, _)| Some(edition) != held.as_ref());
            }
            let shown = editions.into_iter().map(|(edition, _)| {
                let shown = house.told(words, |telling| telling.edition(&edition));
                (Answer::Edition(edition), shown)
            });
            shown.collect()
        }
        Source::Module => shelf
            .modules
            .iter()
            .map(|one| (Answer::Name(one.id.clone()), one.shown.clone()))
            .collect(),
        Source::Suspension => {
            let scopes = person.map_or_else(Vec::new, |person| view.scopes(person, None));
            let open = scopes
                .iter()
                .filter_map(|scope| match view.standing(person?, scope) {
                    Ok(Standing::Suspended { by, .. }) => Some(by),
                    _ => None,
                });
            let mut seals: Vec<Seal> = open.collect();
            seals.sort();
            seals.dedup();
            let shown = seals.into_iter().filter_map(|seal| {
                let entry = laboratory.ledger().get(&seal)?;
                let said = house.told(words, |telling| said(entry, telling));
                Some((Answer::Entry(seal), format!("{} {said}", id_of(entry))))
            });
            shown.collect()
        }
        Source::Member => {
            let found = answers.typed("entry");
            let entry = found.and_then(|found| laboratory.find(found).ok());
            let names = entry.map_or_else(Vec::new, |entry| {
                let mut names = entry.content().member_names();
                // Nobody types the digest of another document.
                let documents = entry.kind().documents();
                let is_document = |name: &str| documents.iter().any(|(member, _)| *member == name);
                names.retain(|name| is_correctable(entry, name) && !is_document(name));
                names
            });
            let seal = entry.map(Entry::seal);
            let shown = names.into_iter().map(|name| {
                let id: Option<Id> = name.parse().ok();
                let now = seal
                    .zip(id)
                    .and_then(|(seal, id)| laboratory.member(&seal, &id));
                let shown = house.told(words, |telling| {
                    say::member_now(&name, now.as_ref(), telling)
                });
                // Of what is long, the name says enough.
                let shown = if columns(&shown) > MEMBER_COLUMNS {
                    say::member_name(&name, words)
                } else {
                    shown
                };
                (Answer::Name(name), shown)
            });
            shown.collect()
        }
        Source::Value => {
            let entry = answers.typed("entry");
            let entry = entry.and_then(|found| laboratory.find(found).ok());
            let (Some(entry), Ok(member)) = (entry, answers.name("member")) else {
                return Vec::new();
            };
            let all = entry.content().words_of(member).iter();
            all.map(|&word| (Answer::Word(word), say::member_word(member, word, words)))
                .collect()
        }
        Source::Evidence => {
            let seals = match (person, answers.seal("suspension"), answers.scope()) {
                (Some(person), Ok(suspension), _) => {
                    let found = laboratory.reinstating(person, &suspension);
                    found.map_or_else(Vec::new, |(_, seals)| seals)
                }
                (Some(person), Err(_), Ok(scope)) => laboratory.evidence(person, &scope),
                _ => Vec::new(),
            };
            let shown = seals.into_iter().filter_map(|seal| {
                let entry = laboratory.ledger().get(&seal)?;
                let content = view.reads(&seal)?;
                let shown = house.told(words, |telling| say::ground(entry, &content, telling));
                Some((Answer::Entry(seal), shown))
            });
            shown.collect()
        }
        Source::Words(all) | Source::SomeOf(all) => all(words)
            .into_iter()
            .map(|(word, shown)| (Answer::Word(word), shown))
            .collect(),
        Source::Line
        | Source::Name
        | Source::Begins
        | Source::Ends
        | Source::OfModule(_)
        | Source::OfPolicy(_)
        | Source::Entry => Vec::new(),
    }
}

/// The rights. What lets somebody do everything comes last, so that no haste gives it.
pub(super) fn authority(words: &Words) -> Vec<(&'static str, String)> {
    let all = Authority::ALL.iter();
    let mut all: Vec<_> = all
        .map(|&one| (one.word(), say::authority(one, words)))
        .collect();
    all.sort_by_key(|(word, _)| *word == Authority::Own.word());
    all
}

/// The words of an enumeration of the record with what people read.
macro_rules! words_of {
    ($($name:ident: $type:ty => $said:path;)*) => {$(
        pub(super) fn $name(words: &Words) -> Vec<(&'static str, String)> {
            let all = <$type>::ALL.iter();
            all.map(|&one| (one.word(), $said(one, words))).collect()
        }
    )*};
}

words_of! {
    allowed: crate::record::entry::Allowed => say::allowed;
    cause: crate::record::entry::Cause => say::cause;
    effect: crate::record::entry::Effect => say::effect;
    how: crate::record::entry::HowEstablished => say::how_established;
    independence: crate::record::entry::Independence => say::independence;
    judgement: crate::record::entry::Judgement => say::judgement;
    outside: crate::record::entry::OutsideWay => say::outside_way;
    result: crate::record::entry::Found => say::found;
    stage: crate::record::entry::Stage => say::stage;
}

/// What a revision can ask of those who were signed off before it. What asks for the most stands first, so that nobody takes less unawares.
pub(super) fn impact(words: &Words) -> Vec<(&'static str, String)> {
    let all = Impact::ALL.iter().rev();
    all.map(|&one| (one.word(), say::impact(one, words)))
        .collect()
}

/// What a second signature can mean.
pub(super) fn meaning(words: &Words) -> Vec<(&'static str, String)> {
    let all = [Meaning::Approved, Meaning::Acknowledged, Meaning::Reviewed];
    all.map(|one| (one.word(), say::meaning(one, words))).into()
}

impl Answers<'_> {
    fn row(&self, id: &str) -> Option<&Row> {
        self.rows.iter().find(|row| row.asked.id == id)
    }

    fn typed(&self, id: &str) -> Option<&str> {
        let text = self.row(id)?.line.text.trim();
        (!text.is_empty()).then_some(text)
    }

    /// The first field that has to be filled in and is not.
    pub(super) fn first_missing(&self) -> Option<&'static str> {
        let mut rows = self.rows.iter();
        let missing = rows.find(|row| !row.may_stay_empty() && row.is_empty());
        missing.map(|row| row.asked.id)
    }

    pub(super) fn person(&self, id: &'static str) -> Result<PersonCode, &'static str> {
        match self.row(id).and_then(Row::answer) {
            Some(Answer::Person(person)) => Ok(*person),
            _ => Err(id),
        }
    }

    pub(super) fn scope(&self) -> Result<Scope, &'static str> {
        match self.row("scope").and_then(Row::answer) {
            Some(Answer::Scope(scope)) => Ok(scope.clone()),
            _ => Err("scope"),
        }
    }

    pub(super) fn edition(&self) -> Result<Edition, &'static str> {
        match self.row("edition").and_then(Row::answer) {
            Some(Answer::Edition(edition)) => Ok(edition.clone()),
            _ => Err("edition"),
        }
    }

    /// The workflow that was chosen, or that of the scope.
    pub(super) fn workflow(&self) -> Option<Id> {
        match self.row("workflow").and_then(Row::answer) {
            Some(Answer::Id(id)) => Some(id.clone()),
            _ => self.scope().ok().map(|scope| scope.workflow),
        }
    }

    /// An id that was chosen or named; nothing where the field is empty.
    pub(super) fn id(&self, id: &'static str) -> Option<Id> {
        match self.row(id)?.answer() {
            Some(Answer::Id(id)) => Some(id.clone()),
            _ => None,
        }
    }

    pub(super) fn seal(&self, id: &'static str) -> Result<Seal, &'static str> {
        match self.row(id).and_then(Row::answer) {
            Some(Answer::Entry(seal)) => Ok(*seal),
            _ => Err(id),
        }
    }

    /// Those of several entries that were not left out.
    pub(super) fn several(&self, id: &'static str) -> Vec<Seal> {
        let Some(row) = self.row(id) else {
            return Vec::new();
        };
        let taken = row.options.iter().enumerate();
        taken
            .filter(|(at, _)| row.takes(*at))
            .filter_map(|(_, (answer, _))| match answer {
                Answer::Entry(seal) => Some(*seal),
                _ => None,
            })
            .collect()
    }

    /// What a member should say: a word that was chosen, or what was typed; nothing where the field is empty.
    pub(super) fn value(&self, id: &'static str) -> Option<Value> {
        let row = self.row(id)?;
        match row.answer() {
            Some(Answer::Word(word)) => Some(Value::Text((*word).into())),
            _ if row.is_typed() => self.typed(id).map(typed_value),
            _ => None,
        }
    }

    /// A name that was chosen: of a module, of a member.
    pub(super) fn name(&self, id: &'static str) -> Result<&str, &'static str> {
        match self.row(id).and_then(Row::answer) {
            Some(Answer::Name(name)) => Ok(name),
            _ => Err(id),
        }
    }

    /// A word that was chosen, as the value that it stands for.
    pub(super) fn word<T: Copy>(
        &self,
        id: &'static str,
        all: &[T],
        word: fn(T) -> &'static str,
    ) -> Result<T, &'static str> {
        let chosen = match self.row(id).and_then(Row::answer) {
            Some(Answer::Word(chosen)) => *chosen,
            _ => return Err(id),
        };
        let mut all = all.iter().copied();
        all.find(|one| word(*one) == chosen).ok_or(id)
    }

    /// The words that were taken of several, as the values that they stand for.
    pub(super) fn some_of<T: Copy>(
        &self,
        id: &'static str,
        all: &[T],
        word: fn(T) -> &'static str,
    ) -> Vec<T> {
        let words = self.row(id).map_or_else(Vec::new, Row::words);
        let all = all.iter().copied();
        all.filter(|one| words.contains(&word(*one))).collect()
    }

    /// What was typed, read; nothing where the field is empty.
    pub(super) fn read<T: FromStr>(&self, id: &'static str) -> Result<Option<T>, &'static str> {
        let typed = self.typed(id);
        typed.map(|text| text.parse().map_err(|_| id)).transpose()
    }

    /// A name of the laboratory's own that was typed, capitals taken as small letters.
    pub(super) fn own_name(&self, id: &'static str) -> Result<Option<Id>, &'static str> {
        let typed = self.typed(id);
        typed
            .map(|text| text.to_lowercase().parse().map_err(|_| id))
            .transpose()
    }

    /// The numbers of a sign-off that were typed otherwise than the module has them. What was emptied is the module's again.
    pub(super) fn own_numbers(&self) -> Result<OwnNumbers, &'static str> {
        let mut own = OwnNumbers::default();
        for row in self.rows {
            let Source::OfModule(number) = row.asked.source else {
                continue;
            };
            let typed = row.line.text.trim();
            if !typed.is_empty() && typed != row.began {
                own = own.with(number, number.read(typed).ok_or(row.asked.id)?);
            }
        }
        Ok(own)
    }

    /// A time that was typed; nothing where the field is empty.
    pub(super) fn time(
        &self,
        id: &'static str,
        side: Moment,
    ) -> Result<Option<Stamp>, &'static str> {
        let typed = self.typed(id);
        typed
            .map(|text| Moment::read(text, side, self.calendar).ok_or(id))
            .transpose()
    }

    /// The reason.
    pub(super) fn reason(&self) -> Result<Option<Text>, &'static str> {
        self.read("reason")
    }

    /// An entry that was typed.
    pub(super) fn found(&self, id: &'static str) -> Option<&str> {
        self.typed(id)
    }

    /// Why a field cannot stand so, in words.
    pub(super) fn wrong(&self, field: &'static str, words: &Words) -> Wrong {
        let row = self.row(field);
        let name = words.part("deeds-field", field);
        let text = row.map_or_else(String::new, Row::shown);
        let mut texts = if text.trim().is_empty() {
            vec![words.say("deeds-missing", &[("field", name.into())])]
        } else {
            vec![words.say(
                "deeds-wrong",
                &[("field", name.into()), ("text", text.clone().into())],
            )]
        };
        let source = row.map(|row| row.asked.source);
        match source {
            Some(Source::Begins | Source::Ends) => texts.push(words.say("deeds-times", &[])),
            Some(Source::Name) => {
                if let Err(problem) = text.trim().parse::<Id>() {
                    let told = text_problem(problem, words);
                    texts = std::iter::once(told.what).chain(told.fix).collect();
                }
            }
            Some(Source::Line) if !text.trim().is_empty() => {
                if let Err(problem) = text.trim().parse::<Text>() {
                    let told = text_problem(problem, words);
                    texts = std::iter::once(told.what).chain(told.fix).collect();
                }
            }
            _ => {}
        }
        Wrong {
            field,
            notice: Notice::new(texts),
        }
    }
}
