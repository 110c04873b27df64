//! Reading an entry from its stored bytes. What would be written otherwise is no entry: one entry has one text.

use super::{
    Content, ENTRY_BYTES_MOST, Entry, EntryFault, FORMAT, Frame, Noted, Signed, check, stored,
};
use crate::record::canonical::{Map, Value, parse};
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
        let whole = parse(bytes).map_err(EntryFault::Json)?;
        let fault = match decoded(whole) {
            Ok((frame, content)) if stored(&frame, &content) == bytes => {
                return Ok(Entry {
                    frame,
                    content,
                    seal: Seal::of(bytes),
                });
            }
            // Members that are read leniently would make two texts of one entry.
            Ok(_) => EntryFault::NotCanonical,
            Err(fault) => fault,
        };
        // What it says is wrong only where it says it in its one text.
        let again = parse(bytes).map_err(EntryFault::Json)?;
        let canonical = again.canonical().as_bytes() == bytes;
        Err(if canonical {
            fault
        } else {
            EntryFault::NotCanonical
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

fn decoded(whole: Value) -> Result<(Frame, Content), EntryFault> {
    let mut outer: Map = as_map("", whole)?;
    let mut body: Map = as_map("body", Value::take("body", &mut outer)?)?;
    let format = u32::take("format", &mut body)?;
    if format > FORMAT {
        return Err(EntryFault::Newer(format));
    }
    let signature: Option<Signature> = Member::take("signature", &mut outer)?;
    nothing_left(&outer)?;
    let word = Text::take("kind", &mut body)?.to_string();
    let fact = as_map("fact", Value::take("fact", &mut body)?)?;
    let content = if let Some(fact) = Noted::read(&word, fact.clone()) {
        if signature.is_some() {
            return Err(EntryFault::NeedlesslySigned);
        }
        Content::Noted(fact?)
    } else if let Some(fact) = Signed::read(&word, fact) {
        let signing = as_map("signing", Value::take("signing", &mut body)?)?;
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
    Ok((frame, content))
}

fn as_map(name: &str, value: Value) -> Result<Map, MemberFault> {
    match value {
        Value::Map(map) => Ok(map),
        _ => Err(MemberFault::new(name, MemberFaultKind::Wrong)),
    }
}

fn nothing_left(map: &Map) -> Result<(), MemberFault> {
    match map.iter().next() {
        Some((name, _)) => Err(MemberFault::new(name, MemberFaultKind::Unknown)),
        None => Ok(()),
    }
}
