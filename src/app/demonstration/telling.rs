//! The story is performed: every act becomes what the use cases of a laboratory make of it, at its time, under the signatures of its people.

use super::acts::{Act, Planned};
use super::calendar::later;
use super::cast::{CAST, OWNER, QUALITY, Who, Work};

use crate::app::laboratory::{
    Deed, Done, Founding, Keeping, Laboratory, MemoryPlace, Place, Problem,
};
use crate::app::shelf::Taken;
use crate::people::Passphrase;
use crate::record::entry::{Entry, Noted, Signed};
use crate::record::scope::{Authority, Edition, Id, Meaning, Scope, Text};
use crate::record::seal::Seal;
use crate::report::record::declaration;
use crate::rng::Stream;
use crate::text::Words;
use crate::units::{Digest, PersonCode, Stamp};

/// The workstation of the demonstration.
const WORKSTATION: &str = "front-desk";
/// The first case that anybody works on.
const FIRST_CASE: i64 = 101;

/// A record while it is being made.
pub(super) struct Telling<'w> {
    pub(super) laboratory: Laboratory<MemoryPlace>,
    pub(super) words: &'w Words,
    pub(super) taken: &'w [Taken; 2],
    /// The text of the stock teeth before the one on the shelf.
    pub(super) earlier: &'w Taken,
    pub(super) accountability: String,
    authored: String,
    approved: String,
    people: Vec<PersonCode>,
    dice: Stream,
    case: i64,
}

/// A passphrase of the demonstration.
pub(super) fn passphrase(who: Who) -> Passphrase {
    Passphrase::typed(CAST[who].passphrase.to_owned())
}

/// A text that is to stand in an entry.
pub(super) fn parsed<T: std::str::FromStr>(text: &str) -> Result<T, Problem> {
    text.parse()
        .map_err(|_| Problem::BadModule(text.to_owned()))
}

impl<'w> Telling<'w> {
    /// Founds the laboratory.
    pub(super) fn begin(
        place: MemoryPlace,
        words: &'w Words,
        taken: &'w [Taken; 2],
        earlier: &'w Taken,
        dice: Stream,
    ) -> Result<Telling<'w>, Problem> {
        let accountability = words.say("demonstration-accountability", &[]);
        let name = words.say("demonstration-laboratory", &[]);
        let owner = CAST[OWNER].name;
        let asked = Founding {
            laboratory: name.parse().map_err(Problem::Name)?,
            workstation: parsed(WORKSTATION)?,
            owner: owner.parse().map_err(Problem::Name)?,
            passphrase: passphrase(OWNER),
            accountability: accountability.clone(),
        };
        let (laboratory, owner) = Laboratory::found(place, &asked)?;
        Ok(Telling {
            laboratory,
            words,
            taken,
            earlier,
            accountability,
            authored: declaration(Meaning::Authored, words),
            approved: declaration(Meaning::Approved, words),
            people: vec![owner.person],
            dice,
            case: FIRST_CASE,
        })
    }

    /// The codes of everybody, in the order of the cast.
    pub(super) fn people(&self) -> &[PersonCode] {
        &self.people
    }

    /// Performs one act at its time, or a little later.
    pub(super) fn perform(&mut self, planned: &Planned) -> Result<(), Problem> {
        let (at, act) = planned;
        let shift = self.dice.between(0, 20 * 60);
        let wanted = later(*at, shift);
        let now = self.laboratory.now();
        if wanted.instant() > now.instant() {
            self.laboratory.place().set(wanted);
        } else {
            self.pass(40, 200);
        }
        self.act(*act)
    }

    /// Lets some seconds pass.
    pub(super) fn pass(&mut self, least: i64, most: i64) {
        let seconds = self.dice.between(least, most);
        let now = self.laboratory.now();
        self.laboratory.place().set(later(now, seconds));
    }

    fn join(&mut self, who: Who) -> Result<(), Problem> {
        let part = &CAST[who];
        let owner = passphrase(OWNER);
        if who != OWNER {
            let name = part.name.parse().map_err(Problem::Name)?;
            let by = self.people[OWNER];
            let (person, _) = self
                .laboratory
                .join(by, &owner, name, None, &self.authored)?;
            self.people.push(person);
            self.pass(60, 240);
            self.key(who)?;
            self.accept(who)?;
        }
        for authority in part.may {
            self.pass(30, 90);
            self.grant(who, *authority)?;
        }
        Ok(())
    }

    /// Has the owner issue a key.
    pub(super) fn key(&mut self, who: Who) -> Result<Seal, Problem> {
        let (by, person) = (self.people[OWNER], self.people[who]);
        let new = self.laboratory.new_key(person, passphrase(who))?;
        let identity = self.why("demonstration-identity")?;
        let owner = passphrase(OWNER);
        let done = self
            .laboratory
            .issue_key(by, &owner, &new, identity, &self.approved)?;
        self.pass(60, 180);
        Ok(done.entry.seal())
    }

    /// Has a person sign that the signature binds them.
    pub(super) fn accept(&mut self, who: Who) -> Result<(), Problem> {
        let person = self.people[who];
        self.laboratory
            .accept_key(person, &passphrase(who), &self.accountability)?;
        Ok(())
    }

    fn grant(&mut self, who: Who, authority: Authority) -> Result<(), Problem> {
        let (by, person) = (self.people[OWNER], self.people[who]);
        let draft = self
            .laboratory
            .grant(by, person, authority, None, &self.approved)?;
        self.laboratory.sign(&draft, &passphrase(OWNER)).map(drop)
    }

    /// Has somebody leave.
    pub(super) fn leave(&mut self, who: Who) -> Result<(), Problem> {
        let (by, person) = (self.people[OWNER], self.people[who]);
        let reason = Some(self.why("demonstration-left")?);
        let draft = self.laboratory.leave(by, person, reason, &self.authored)?;
        self.laboratory.sign(&draft, &passphrase(OWNER)).map(drop)
    }

    /// A key is lost; the next one is used after a second person has approved of it.
    fn replace_key(&mut self, who: Who) -> Result<(), Problem> {
        let (by, person) = (self.people[OWNER], self.people[who]);
        let reason = Some(self.why("demonstration-key-lost")?);
        let draft = self
            .laboratory
            .lose_key(by, person, reason, &self.authored)?;
        self.laboratory.sign(&draft, &passphrase(OWNER))?;
        self.pass(600, 1200);
        let issued = self.key(who)?;
        self.second(QUALITY, issued)?;
        self.pass(60, 180);
        self.accept(who)
    }

    /// Two wrong passphrases and the right one.
    fn mistype(&mut self, who: Who) -> Result<(), Problem> {
        let person = self.people[who];
        for _ in 0..2 {
            let wrong = Passphrase::typed(CAST[who].passphrase.to_uppercase());
            match self.laboratory.sign_in(person, &wrong) {
                Err(Problem::Passphrase { .. }) => self.pass(5, 15),
                other => return other,
            }
        }
        self.laboratory.sign_in(person, &passphrase(who))
    }

    /// A person signs something.
    pub(super) fn sign(&mut self, by: Who, deed: Deed) -> Result<Entry, Problem> {
        let person = self.people[by];
        let first = deed.fact.kind().meanings().first().copied();
        let meaning = deed.meaning.or(first).unwrap_or(Meaning::Authored);
        let sentence = declaration(meaning, self.words);
        let done: Done = self
            .laboratory
            .do_it(person, &passphrase(by), deed, &sentence)?;
        Ok(done.entry)
    }

    /// A second person approves of an entry, some minutes later.
    pub(super) fn second(&mut self, by: Who, target: Seal) -> Result<(), Problem> {
        self.pass(120, 600);
        let fact = crate::record::entry::Countersigned { target };
        let meaning = crate::record::scope::Meaning::Approved;
        self.sign(by, Deed::now(fact).meaning(meaning)).map(drop)
    }

    /// A person takes note of a run in which they were watched, some minutes later.
    pub(super) fn acknowledge(&mut self, who: Who, target: Seal) -> Result<(), Problem> {
        self.pass(120, 600);
        let fact = crate::record::entry::Countersigned { target };
        let meaning = crate::record::scope::Meaning::Acknowledged;
        self.sign(who, Deed::now(fact).meaning(meaning)).map(drop)
    }

    /// The machine notes something.
    pub(super) fn note(
        &mut self,
        fact: impl Into<Noted>,
        enterer: Option<Who>,
    ) -> Result<(), Problem> {
        let enterer = enterer.map(|who| self.people[who]);
        self.laboratory.note(fact, None, enterer).map(drop)
    }

    /// A reason in words.
    pub(super) fn why(&self, id: &str) -> Result<Text, Problem> {
        parsed(&self.words.say(id, &[]))
    }

    /// Keeps a text that says it is invented, and until when.
    pub(super) fn attach(&mut self, text: &str, keeping: Keeping) -> Result<Digest, Problem> {
        let place = self.laboratory.place_mut();
        Ok(place.attach(text.as_bytes(), keeping)?)
    }

    pub(super) fn code(&self, who: Who) -> PersonCode {
        self.people[who]
    }

    pub(super) fn now(&self) -> Stamp {
        self.laboratory.now()
    }

    pub(super) fn scope(work: Work) -> Result<Scope, Problem> {
        work.scope()
            .map_err(|_| Problem::BadModule(work.module().to_owned()))
    }

    pub(super) fn id(work: Work) -> Result<Id, Problem> {
        parsed(work.module())
    }

    /// The edition in force.
    pub(super) fn edition(&self, work: Work) -> Result<Edition, Problem> {
        self.laboratory.edition(&Telling::id(work)?, None)
    }

    /// The next case of the laboratory: most are done by people whose work nobody has to check.
    pub(super) fn next_case(&mut self) -> Result<Id, Problem> {
        self.case += self.dice.between(1, 4);
        parsed(&format!("c-{:04}", self.case))
    }

    pub(super) fn throw(&mut self, low: i64, high: i64) -> i64 {
        self.dice.between(low, high)
    }

    fn act(&mut self, act: Act) -> Result<(), Problem> {
        match act {
            Act::Join(who) => self.join(who),
            Act::Policy => self.policy(),
            Act::Adopt(work, impact, from) => self.adopt(work, impact, from),
            Act::Assign(who, work, by) => self.assign(who, work, by),
            Act::Read(who, work) => self.read(who, work),
            Act::Train(who, work, by) => self.train(who, work, by),
            Act::Protect(who, work, by) => self.protect(who, work, by),
            Act::Drill(who, work, drill) => self.drill(who, work, drill),
            Act::Rehearse(who, work, help, ending) => self.rehearse(who, work, help, ending),
            Act::Begin(who, work, from) => self.first(who, work, from),
            Act::Supervise(who, work, by, until) => self.supervise(who, work, by, until),
            Act::Case(who, work, by, good) => self.case(who, work, by, good),
            Act::Observe(who, work, by, went) => self.observe(who, work, by, went, None),
            Act::ObserveLate(who, work, by, went, then) => {
                self.observe(who, work, by, went, Some(then))
            }
            Act::Evaluate(who, work, by, stage) => self.evaluate(who, work, by, stage),
            Act::SignOff(who, work, by) => self.sign_off(who, work, by),
            Act::Suspend(who, work) => self.suspend(who, work),
            Act::Reinstate(who, work, by) => self.reinstate(who, work, by),
            Act::Withdraw(who, work) => self.withdraw(who, work),
            Act::CallIn(who, work) => self.call_in(who, work),
            Act::Leave(who) => self.leave(who),
            Act::ReplaceKey(who) => self.replace_key(who),
            Act::Mistype(who) => self.mistype(who),
            Act::CorrectCase(who, by) => self.correct_case(who, by),
            Act::CorrectObserved(who) => self.correct_observed(who),
            Act::VoidCase(who, by) => self.void_case(who, by),
            Act::Review => self.review(),
            Act::Backup => self.backup().map(drop),
            Act::TryBackup => self.try_backup(),
        }
    }

    /// The signed facts so far, each with its entry, the newest first.
    pub(super) fn newest(&self) -> impl Iterator<Item = (&Entry, &Signed)> {
        let entries = self.laboratory.ledger().entries().iter().rev();
        entries.filter_map(|entry| Some((entry, entry.signed()?.0)))
    }
}
