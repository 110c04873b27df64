//! Reading an entry from its stored bytes. What would be written otherwise is no entry: one entry has one text.

use super::{
    Content, ENTRY_BYTES_MOST, Entry, EntryFault, FORMAT, Frame, Noted, Signed, check, stored,
};
use crate::record::canonical::{Given, Json, parse_noting};
use crate::record::member::{Member, MemberFault, MemberFaultKind, read_all};
use crate::record::scope::Text;
use crate::record::seal::Seal;
use crate::record::signature::Signature;

/// The stored text of a signed entry around what is signed; the signature itself stands between the last two.
const AROUND: (&[u8], &[u8], &[u8]) = (b"{\"body\":", b",\"signature\":\"", b"\"}");
/// The digits of a signature.
const SIGNATURE_DIGITS: usize = 128;

impl Entry {
    /// Reads an entry from its stored bytes. Does not verify the signature.
    ///
    /// # Errors
    ///
    /// The first thing by which the bytes are no entry of a format that this program knows.
    pub fn read(bytes: &[u8]) -> Result<Entry, EntryFault> {
        if bytes.len() > ENTRY_BYTES_MOST {
            return Err(EntryFault::TooLong);
        }
        let (whole, canonical) = parse_noting(bytes).map_err(EntryFault::Json)?;
        if !canonical {
            return Err(EntryFault::NotCanonical);
        }
        let (frame, content) = decoded(whole)?;
        // A canonical text whose members are read strictly is the one that would be written.
        debug_assert_eq!(stored(&frame, &content), bytes, "one entry has one text");
        Ok(Entry {
            frame,
            content,
            seal: Seal::of(bytes),
        })
    }

    /// The part of a signed entry's stored bytes that is signed; none where the bytes are not those of one.
    pub(in crate::record) fn signed_part(stored: &[u8]) -> Option<&[u8]> {
        let (before, between, after) = AROUND;
        let rest = stored.strip_prefix(before)?.strip_suffix(after)?;
        let body = rest.len().checked_sub(SIGNATURE_DIGITS)?;
        rest.get(..body)?.strip_suffix(between)
    }
}

fn decoded(whole: Json<'_>) -> Result<(Frame, Content), EntryFault> {
    let mut outer = as_members("", Some(whole))?;
    let mut body = as_members("body", outer.take("body"))?;
    let format = u32::take("format", &mut body)?;
    if format > FORMAT {
        return Err(EntryFault::Newer(format));
    }
    let signature: Option<Signature> = Member::take("signature", &mut outer)?;
    nothing_left(&outer)?;
    let word = Text::take("kind", &mut body)?.to_string();
    let fact = as_members("fact", body.take("fact"))?;
    let content = if Noted::WORDS.contains(&word.as_str()) {
        if signature.is_some() {
            return Err(EntryFault::NeedlesslySigned);
        }
        let fact = Noted::read(&word, fact);
        Content::Noted(fact.ok_or(EntryFault::UnknownKind(word))??)
    } else if let Some(fact) = Signed::read(&word, fact) {
        let signing = as_members("signing", body.take("signing"))?;
        Content::Signed {
            fact: fact?,
            signing: read_all(signing)?,
            signature: signature.ok_or(EntryFault::Unsigned)?,
        }
    } else {
        return Err(EntryFault::UnknownKind(word));
    };
    let frame = read_all(body)?;
    check(&frame, &content)?;
    // There is no older format.
    if format != FORMAT {
        return Err(EntryFault::NotCanonical);
    }
    Ok((frame, content))
}

fn as_members<'a>(name: &str, value: Option<Json<'a>>) -> Result<Given<'a>, MemberFault> {
    match value {
        Some(Json::Map(map)) => Ok(map.given()),
        Some(_) => Err(MemberFault::new(name, MemberFaultKind::Wrong)),
        None => Err(MemberFault::new(name, MemberFaultKind::Missing)),
    }
}

fn nothing_left(members: &Given<'_>) -> Result<(), MemberFault> {
    match members.left() {
        Some(name) => Err(MemberFault::new(name, MemberFaultKind::Unknown)),
        None => Ok(()),
    }
}
