//! Writing the canonical text: no white space, members in order, the fewest escapes (RFC 8785, section 3.2).

use std::fmt::Write as _;

use super::Json;

pub(super) fn value(value: &Json<'_>, text: &mut String) {
    match value {
        Json::Null => text.push_str("null"),
        Json::Flag(flag) => text.push_str(if *flag { "true" } else { "false" }),
        // Writing to a string cannot fail.
        Json::Whole(number) => drop(write!(text, "{}", number.get())),
        Json::Text(written) => string(written, text),
        Json::List(items) => {
            text.push('[');
            for (at, item) in items.iter().enumerate() {
                separate(at, text);
                self::value(item, text);
            }
            text.push(']');
        }
        Json::Map(members) => {
            text.push('{');
            for (at, (name, member)) in members.iter().enumerate() {
                separate(at, text);
                string(name, text);
                text.push(':');
                self::value(member, text);
            }
            text.push('}');
        }
    }
}

fn separate(at: usize, text: &mut String) {
    if at > 0 {
        text.push(',');
    }
}

fn string(written: &str, text: &mut String) {
    text.push('"');
    // Nearly every text is one run of characters that stand for themselves.
    if !written
        .bytes()
        .any(|byte| byte < b' ' || byte == b'"' || byte == b'\\')
    {
        text.push_str(written);
        text.push('"');
        return;
    }
    for c in written.chars() {
        match c {
            '"' => text.push_str("\\\""),
            '\\' => text.push_str("\\\\"),
            '\u{8}' => text.push_str("\\b"),
            '\t' => text.push_str("\\t"),
            '\n' => text.push_str("\\n"),
            '\u{c}' => text.push_str("\\f"),
            '\r' => text.push_str("\\r"),
            c if c < ' ' => drop(write!(text, "\\u{:04x}", u32::from(c))),
            c => text.push(c),
        }
    }
    text.push('"');
}
