//! Reading JSON strictly: every member once, whole numbers only, nothing repaired.

use std::borrow::Cow;

use super::{Added, Json, Map, Value, Whole};

/// How deep lists and maps may stand inside one another. Our default; an entry needs five.
const DEEPEST: usize = 16;

/// What is wrong with a text, and where.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JsonFault {
    /// How many bytes stand before it.
    pub at: usize,
    /// What it is.
    pub kind: JsonFaultKind,
}

/// What can be wrong with a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JsonFaultKind {
    /// It is not UTF-8.
    NotUtf8,
    /// It is not JSON.
    Syntax,
    /// A number has a fraction or an exponent, or is the negative zero.
    NotWhole,
    /// A whole number is beyond ±(2^53 − 1).
    TooLarge,
    /// A member of this name has been there already.
    Twice,
    /// Lists and maps stand too deep inside one another.
    TooDeep,
    /// Half of a surrogate pair stands alone.
    LoneSurrogate,
}

/// Reads a JSON text.
///
/// # Errors
///
/// The first thing that is wrong with it.
pub fn parse(bytes: &[u8]) -> Result<Value, JsonFault> {
    parse_noting(bytes).map(|(value, _)| value.into_owned())
}

/// Reads a JSON text, and tells whether it is the canonical one of what it says.
pub(in crate::record) fn parse_noting(bytes: &[u8]) -> Result<(Json<'_>, bool), JsonFault> {
    let text = std::str::from_utf8(bytes).map_err(|error| JsonFault {
        at: error.valid_up_to(),
        kind: JsonFaultKind::NotUtf8,
    })?;
    let mut reader = Reader {
        text,
        at: 0,
        canonical: true,
    };
    let value = reader.value(0)?;
    reader.blanks();
    if reader.at == text.len() {
        Ok((value, reader.canonical))
    } else {
        Err(reader.fault(JsonFaultKind::Syntax))
    }
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
    /// Unset by whatever the canonical text has not: blanks, names out of order, an escape that is not the shortest.
    canonical: bool,
}

impl<'a> Reader<'a> {
    fn fault(&self, kind: JsonFaultKind) -> JsonFault {
        JsonFault { at: self.at, kind }
    }

    fn next(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn blanks(&mut self) {
        while matches!(self.next(), Some(b' ' | b'\t' | b'\n' | b'\r')) {
            self.at += 1;
            self.canonical = false;
        }
    }

    fn expect(&mut self, word: &str) -> Result<(), JsonFault> {
        if self.text[self.at..].starts_with(word) {
            self.at += word.len();
            Ok(())
        } else {
            Err(self.fault(JsonFaultKind::Syntax))
        }
    }

    fn value(&mut self, depth: usize) -> Result<Json<'a>, JsonFault> {
        if depth > DEEPEST {
            return Err(self.fault(JsonFaultKind::TooDeep));
        }
        self.blanks();
        match self.next() {
            Some(b'n') => self.expect("null").map(|()| Json::Null),
            Some(b't') => self.expect("true").map(|()| Json::Flag(true)),
            Some(b'f') => self.expect("false").map(|()| Json::Flag(false)),
            Some(b'"') => self.string().map(Json::Text),
            Some(b'[') => self.list(depth),
            Some(b'{') => self.map(depth),
            Some(b'-' | b'0'..=b'9') => self.number(),
            _ => Err(self.fault(JsonFaultKind::Syntax)),
        }
    }

    fn list(&mut self, depth: usize) -> Result<Json<'a>, JsonFault> {
        let mut items = Vec::new();
        self.at += 1;
        self.blanks();
        if self.next() == Some(b']') {
            self.at += 1;
            return Ok(Json::List(items));
        }
        loop {
            items.push(self.value(depth + 1)?);
            self.blanks();
            if self.next() == Some(b',') {
                self.at += 1;
            } else {
                self.expect("]")?;
                return Ok(Json::List(items));
            }
        }
    }

    fn map(&mut self, depth: usize) -> Result<Json<'a>, JsonFault> {
        let mut members = Map::new();
        self.at += 1;
        self.blanks();
        if self.next() == Some(b'}') {
            self.at += 1;
            return Ok(Json::Map(members));
        }
        loop {
            self.blanks();
            let start = self.at;
            let name = self.string()?;
            self.blanks();
            self.expect(":")?;
            let value = self.value(depth + 1)?;
            match members.add(name, value) {
                Added::Behind => {}
                Added::Between => self.canonical = false,
                Added::Twice => {
                    let kind = JsonFaultKind::Twice;
                    return Err(JsonFault { at: start, kind });
                }
            }
            self.blanks();
            if self.next() == Some(b',') {
                self.at += 1;
            } else {
                self.expect("}")?;
                return Ok(Json::Map(members));
            }
        }
    }

    fn number(&mut self) -> Result<Json<'a>, JsonFault> {
        let start = self.at;
        let fault = |kind| JsonFault { at: start, kind };
        self.at += usize::from(self.next() == Some(b'-'));
        let digits = self.at;
        while matches!(self.next(), Some(b'0'..=b'9')) {
            self.at += 1;
        }
        let written = &self.text[digits..self.at];
        if matches!(self.next(), Some(b'.' | b'e' | b'E')) {
            return Err(fault(JsonFaultKind::NotWhole));
        }
        if written.is_empty() || written.len() > 1 && written.starts_with('0') {
            return Err(fault(JsonFaultKind::Syntax));
        }
        if digits > start && written == "0" {
            return Err(fault(JsonFaultKind::NotWhole));
        }
        let number = self.text[start..self.at].parse().ok().and_then(Whole::new);
        let number = number.ok_or_else(|| fault(JsonFaultKind::TooLarge))?;
        Ok(Json::Whole(number))
    }

    fn string(&mut self) -> Result<Cow<'a, str>, JsonFault> {
        self.expect("\"")?;
        let first = self.plain()?;
        if self.next() == Some(b'"') {
            self.at += 1;
            return Ok(Cow::Borrowed(first));
        }
        let mut read = first.to_owned();
        loop {
            match self.next() {
                Some(b'"') => {
                    self.at += 1;
                    return Ok(Cow::Owned(read));
                }
                Some(b'\\') => read.push(self.escape()?),
                _ => return Err(self.fault(JsonFaultKind::Syntax)),
            }
            read.push_str(self.plain()?);
        }
    }

    /// Reads characters that stand for themselves.
    fn plain(&mut self) -> Result<&'a str, JsonFault> {
        let rest = &self.text[self.at..];
        let (eights, last) = rest.as_bytes().as_chunks::<8>();
        let mut plain = 0;
        for eight in eights {
            let ended = ends(*eight);
            plain += ended;
            if ended < 8 {
                self.at += plain;
                return Ok(&rest[..plain]);
            }
        }
        // Filled up with what ends nothing.
        let mut eight = [b' '; 8];
        eight[..last.len()].copy_from_slice(last);
        let ended = ends(eight);
        plain += ended;
        if ended >= last.len() {
            return Err(self.fault(JsonFaultKind::Syntax));
        }
        self.at += plain;
        Ok(&rest[..plain])
    }

    fn escape(&mut self) -> Result<char, JsonFault> {
        self.at += 1;
        let plain = match self.next() {
            Some(b'"') => '"',
            Some(b'\\') => '\\',
            Some(b'/') => {
                self.canonical = false;
                '/'
            }
            Some(b'b') => '\u{8}',
            Some(b'f') => '\u{c}',
            Some(b'n') => '\n',
            Some(b'r') => '\r',
            Some(b't') => '\t',
            Some(b'u') => return self.unit_or_pair(),
            _ => return Err(self.fault(JsonFaultKind::Syntax)),
        };
        self.at += 1;
        Ok(plain)
    }

    fn unit_or_pair(&mut self) -> Result<char, JsonFault> {
        let start = self.at;
        let first = self.unit()?;
        // Only control characters without an escape of their own are written by their number, in small letters.
        let numbered = first < 0x20 && !matches!(first, 0x8 | 0x9 | 0xa | 0xc | 0xd);
        let digits = &self.text[start + 1..self.at];
        if !numbered || digits.bytes().any(|byte| byte.is_ascii_uppercase()) {
            self.canonical = false;
        }
        let mut units = vec![first];
        if (0xd800..0xdc00).contains(&first) {
            if !self.text[self.at..].starts_with("\\u") {
                return Err(self.fault(JsonFaultKind::LoneSurrogate));
            }
            self.at += 1;
            units.push(self.unit()?);
        }
        char::decode_utf16(units)
            .next()
            .and_then(Result::ok)
            .ok_or_else(|| self.fault(JsonFaultKind::LoneSurrogate))
    }

    /// Reads `uXXXX`.
    fn unit(&mut self) -> Result<u16, JsonFault> {
        let digits = self.text.get(self.at + 1..self.at + 5);
        let digits = digits.filter(|digits| digits.bytes().all(|byte| byte.is_ascii_hexdigit()));
        let unit = digits.and_then(|digits| u16::from_str_radix(digits, 16).ok());
        let unit = unit.ok_or_else(|| self.fault(JsonFaultKind::Syntax))?;
        self.at += 5;
        Ok(unit)
    }
}

/// How many of eight bytes stand before the first that does not stand for itself: a quotation mark, a backslash or a control character.
/// All eight at once, since most of a record is text.
pub(super) fn ends(eight: [u8; 8]) -> usize {
    const ONES: u64 = 0x0101_0101_0101_0101;
    let bytes = u64::from_le_bytes(eight);
    // The highest bit of the lowest byte below `most` is set, and none below it. Bytes beyond ASCII are never below.
    let below = |bytes: u64, most: u64| bytes.wrapping_sub(ONES * most) & !bytes;
    let found = below(bytes, 0x20)
        | below(bytes ^ (ONES * u64::from(b'"')), 1)
        | below(bytes ^ (ONES * u64::from(b'\\')), 1);
    (found & (ONES * 0x80)).trailing_zeros() as usize / 8
}
