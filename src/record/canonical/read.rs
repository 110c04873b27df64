//! Reading JSON strictly: every member once, whole numbers only, nothing repaired.

use super::{Map, Value, Whole};

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
    let text = std::str::from_utf8(bytes).map_err(|error| JsonFault {
        at: error.valid_up_to(),
        kind: JsonFaultKind::NotUtf8,
    })?;
    let mut reader = Reader { text, at: 0 };
    let value = reader.value(0)?;
    reader.blanks();
    if reader.at == text.len() {
        Ok(value)
    } else {
        Err(reader.fault(JsonFaultKind::Syntax))
    }
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl Reader<'_> {
    fn fault(&self, kind: JsonFaultKind) -> JsonFault {
        JsonFault { at: self.at, kind }
    }

    fn next(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn blanks(&mut self) {
        while matches!(self.next(), Some(b' ' | b'\t' | b'\n' | b'\r')) {
            self.at += 1;
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

    fn value(&mut self, depth: usize) -> Result<Value, JsonFault> {
        if depth > DEEPEST {
            return Err(self.fault(JsonFaultKind::TooDeep));
        }
        self.blanks();
        match self.next() {
            Some(b'n') => self.expect("null").map(|()| Value::Null),
            Some(b't') => self.expect("true").map(|()| Value::Flag(true)),
            Some(b'f') => self.expect("false").map(|()| Value::Flag(false)),
            Some(b'"') => self.string().map(Value::Text),
            Some(b'[') => self.list(depth),
            Some(b'{') => self.map(depth),
            Some(b'-' | b'0'..=b'9') => self.number(),
            _ => Err(self.fault(JsonFaultKind::Syntax)),
        }
    }

    fn list(&mut self, depth: usize) -> Result<Value, JsonFault> {
        let mut items = Vec::new();
        self.at += 1;
        self.blanks();
        if self.next() == Some(b']') {
            self.at += 1;
            return Ok(Value::List(items));
        }
        loop {
            items.push(self.value(depth + 1)?);
            self.blanks();
            if self.next() == Some(b',') {
                self.at += 1;
            } else {
                self.expect("]")?;
                return Ok(Value::List(items));
            }
        }
    }

    fn map(&mut self, depth: usize) -> Result<Value, JsonFault> {
        let mut members = Map::new();
        self.at += 1;
        self.blanks();
        if self.next() == Some(b'}') {
            self.at += 1;
            return Ok(Value::Map(members));
        }
        loop {
            self.blanks();
            let start = self.at;
            let name = self.string()?;
            self.blanks();
            self.expect(":")?;
            let value = self.value(depth + 1)?;
            if members.insert(&name, value).is_some() {
                let kind = JsonFaultKind::Twice;
                return Err(JsonFault { at: start, kind });
            }
            self.blanks();
            if self.next() == Some(b',') {
                self.at += 1;
            } else {
                self.expect("}")?;
                return Ok(Value::Map(members));
            }
        }
    }

    fn number(&mut self) -> Result<Value, JsonFault> {
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
        Ok(Value::Whole(number))
    }

    fn string(&mut self) -> Result<String, JsonFault> {
        self.expect("\"")?;
        let mut read = String::new();
        loop {
            let rest = &self.text[self.at..];
            let plain = rest
                .find(|c: char| c == '"' || c == '\\' || c < ' ')
                .ok_or_else(|| self.fault(JsonFaultKind::Syntax))?;
            read.push_str(&rest[..plain]);
            self.at += plain;
            match self.next() {
                Some(b'"') => {
                    self.at += 1;
                    return Ok(read);
                }
                Some(b'\\') => read.push(self.escape()?),
                _ => return Err(self.fault(JsonFaultKind::Syntax)),
            }
        }
    }

    fn escape(&mut self) -> Result<char, JsonFault> {
        self.at += 1;
        let plain = match self.next() {
            Some(b'"') => '"',
            Some(b'\\') => '\\',
            Some(b'/') => '/',
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
        let first = self.unit()?;
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
