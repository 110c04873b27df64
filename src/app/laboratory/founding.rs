//! A laboratory opens its record: the first person, who owns it, and the key that the first entry brings.

use super::place::{Place, Title};
use super::problem::Problem;
use super::{Laboratory, PROGRAM, fixed};
use crate::people::{Name, NameVersion, Passphrase, Salt};
use crate::record::entry::{Content, Countersigned, Founded, Frame, Signed, Signing, ToSign};
use crate::record::log::{Appended, Trouble};
use crate::record::scope::{Id, Meaning};
use crate::record::seal::Seal;
use crate::record::signature::SecretKey;
use crate::units::{Digest, PersonCode};

/// How many codes are drawn for a new person. Our default: of 32 million codes, one of these is free.
const DRAWS: usize = 8;

/// What it takes to open a record.
pub struct Founding {
    /// What the laboratory is called.
    pub laboratory: Name,
    /// The workstation, which the strand is named after.
    pub workstation: Id,
    /// The owner's name as it is printed.
    pub owner: Name,
    /// The owner's passphrase.
    pub passphrase: Passphrase,
    /// The sentence by which a person's signature binds them.
    pub accountability: String,
}

/// Refuses a passphrase of the first person that is weak, or mainly that person's name or the laboratory's.
///
/// # Errors
///
/// [`Problem::WeakPassphrase`].
pub fn check_first(
    passphrase: &Passphrase,
    owner: &Name,
    laboratory: &Name,
) -> Result<(), Problem> {
    let names = [owner.as_str(), laboratory.as_str()];
    passphrase
        .check_new(&names)
        .map_err(Problem::WeakPassphrase)
}

/// What a record's first person is known by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Owner {
    /// The code.
    pub person: PersonCode,
    /// The first entry.
    pub founded: Seal,
}

impl<P: Place> Laboratory<P> {
    /// Opens a new record in a place that has none.
    ///
    /// # Errors
    ///
    /// There is a record already, the passphrase is too weak, or something cannot be kept. A name or a key that was kept by then is used by nobody.
    pub fn found(mut place: P, asked: &Founding) -> Result<(Laboratory<P>, Owner), Problem> {
        if !place.log().strands()?.is_empty() {
            return Err(Problem::OpenedAlready);
        }
        let now = place.now();
        check_first(&asked.passphrase, &asked.owner, &asked.laboratory)?;
        let title = Title {
            name: asked.laboratory.clone(),
            salt: Salt(random(&place)?),
            workstation: asked.workstation.clone(),
        };
        let first = NameVersion {
            name: asked.owner.clone(),
            salt: Salt(random(&place)?),
            since: now.instant(),
        };
        let commitment = first.commitment();
        let mut register = place.register()?;
        let person = register.issue(&draws(&place)?, &|_| false, first)?;
        let key = SecretKey::from_seed(&place.key_seed()?);
        place.keep_title(&title)?;
        place.keep_register(&register)?;
        place.keep_key(&key, &asked.passphrase)?;
        place.attach(asked.accountability.as_bytes(), super::Keeping::Kept)?;
        let fact = Founded {
            person,
            key: key.public(),
            laboratory: title.name.commitment(&title.salt),
        };
        let signing = Signing {
            by: person,
            key: key.public().id(),
            name: commitment,
            meaning: Meaning::Authored,
            under: None,
            declaration: Digest::of(&[asked.accountability.as_bytes()]),
        };
        let frame = Frame {
            strand: title.workstation.clone(),
            number: 0,
            previous: Seal::NONE,
            happened: now,
            recorded: now,
            clock_set_back: None,
            enterer: Some(person),
            workstation: title.workstation.clone(),
            program: fixed(PROGRAM)?,
            reason: None,
        };
        let to_sign = ToSign::new(frame.after(None), fact, signing);
        let signature = key.sign(&to_sign.bytes());
        let entry = to_sign.signed(signature)?;
        let founded = entry.seal();
        match place.log_mut().append(None, &entry) {
            Appended::Stored => {}
            Appended::NotStored(why) => return Err(Problem::NotStored(why)),
            Appended::Unknown => return Err(Problem::Unknown(founded)),
        }
        // The heads lag until the next entry where this fails.
        let _lagging = place.follow();
        Ok((Laboratory::open(place)?, Owner { person, founded }))
    }

    /// Whether a person has signed that their signature binds them: with the first entry, or for the key that they have now.
    pub(super) fn has_accepted(&self, person: PersonCode) -> bool {
        let Some(key) = self.ledger.staff().key_of(person) else {
            return false;
        };
        let issued = self
            .ledger
            .entries()
            .iter()
            .find_map(|entry| match entry.signed()?.0 {
                Signed::Founded(founded) if founded.key.id() == key => Some((entry.seal(), true)),
                Signed::KeyIssued(issued) if issued.key.id() == key => Some((entry.seal(), false)),
                _ => None,
            });
        let Some((issued, by_founding)) = issued else {
            return false;
        };
        by_founding || self.ledger.entries().iter().any(|entry| {
            matches!(entry.content(), Content::Signed { fact: Signed::Countersigned(Countersigned { target }), signing, .. }
                if *target == issued && signing.by == person && signing.meaning == Meaning::Acknowledged)
        })
    }
}

/// Random bytes of the place.
pub(super) fn random<const N: usize>(place: &impl Place) -> Result<[u8; N], Trouble> {
    let mut bytes = [0; N];
    place.random(&mut bytes)?;
    Ok(bytes)
}

/// Draws of codes for a new person.
pub(super) fn draws(place: &impl Place) -> Result<[[u8; 5]; DRAWS], Trouble> {
    let mut all = [[0; 5]; DRAWS];
    for draw in &mut all {
        *draw = random(place)?;
    }
    Ok(all)
}
