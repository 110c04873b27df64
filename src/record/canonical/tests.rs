//! Published vectors, and properties of reading and writing.

use proptest::prelude::*;

use super::read::ends;
use super::{JsonFaultKind, Map, Value, Whole, parse};
use crate::units::Digest;

fn canonical(text: &str) -> Result<String, JsonFaultKind> {
    parse(text.as_bytes())
        .map(|value| value.canonical())
        .map_err(|fault| fault.kind)
}

// The first three inputs and digests: test data of the authors of RFC 8785 (files arrays, structures, unicode). The second holds
// `56.0` there; an entry's number has no fraction, so it is written `56` here and refused below.
#[test]
fn published_texts_come_out() {
    for (input, output, digest) in [
        (
            r#"[56,{"d":true,"10":null,"1":[ ]}]"#,
            r#"[56,{"1":[],"10":null,"d":true}]"#,
            "099601b171cafed97c333f8878d68e7f8c8f795412adb34b2fdcf0e7c7beac42",
        ),
        (
            r#"{"1":{"f":{"f":"hi","F":5},"\n":56},"10":{},"":"empty","a":{},"111":[{"e":"yes","E":"no"}],"A":{}}"#,
            r#"{"":"empty","1":{"\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}}"#,
            "605f65004ec2db7692522a0852c22f1c989e036d547e88963d1a3143cf3195d5",
        ),
        (
            r#"{"Unnormalized Unicode":"A\u030a"}"#,
            "{\"Unnormalized Unicode\":\"A\u{30a}\"}",
            "0d99aad92a125196ff887876643fd3206786a84ddce2cee52ba4ad256d2381d3",
        ),
    ] {
        let written = canonical(input).unwrap();
        assert_eq!(written, output);
        assert_eq!(Digest::of(&[written.as_bytes()]).to_string(), digest);
    }
}

// RFC 8785, section 3.2.3: the order of names.
#[test]
fn names_are_ordered_by_code_units() {
    let input = r#"{"\u20ac":"Euro","\r":"CR","\ufb33":"Dalet","1":"One","\ud83d\ude00":"Emoji","\u0080":"Control","\u00f6":"o"}"#;
    let Value::Map(map) = parse(input.as_bytes()).unwrap() else {
        panic!("a map was written");
    };
    let names: Vec<&str> = map.iter().map(|(name, _)| name).collect();
    assert_eq!(
        names,
        ["\r", "1", "\u{80}", "ö", "€", "\u{1f600}", "\u{fb33}"]
    );
}

// RFC 8785, section 3.2.2.2: control characters.
#[test]
fn the_fewest_escapes_are_written() {
    let input = r#"["\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","\b\f\n\r\t"]"#;
    let output = "[\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\",\"\\b\\f\\n\\r\\t\"]";
    assert_eq!(canonical(input).as_deref(), Ok(output));
}

// The numbers of RFC 8785, section 3.2.2 and appendix B, that entries may not hold; the whole ones that they may.
#[test]
fn numbers_with_fractions_and_beyond_the_exact_range_are_refused() {
    for text in [
        "56.0",
        "333333333.33333329",
        "1E30",
        "4.50",
        "2e-3",
        "5e-324",
        "-0",
        "-0.0",
        "1e+23",
        "0.000001",
    ] {
        assert_eq!(canonical(text), Err(JsonFaultKind::NotWhole), "{text}");
    }
    for text in [
        "9007199254740992",
        "-9007199254740992",
        "295147905179352830000",
        "999999999999999900000",
        "18446744073709551616",
    ] {
        assert_eq!(canonical(text), Err(JsonFaultKind::TooLarge), "{text}");
    }
    for text in ["0", "9007199254740991", "-9007199254740991"] {
        assert_eq!(canonical(text).as_deref(), Ok(text));
    }
    for text in ["NaN", "Infinity", "01", "-", "+1", "--1"] {
        assert_eq!(canonical(text), Err(JsonFaultKind::Syntax), "{text}");
    }
    assert_eq!(Whole::new(1 << 53), None);
}

#[test]
fn what_is_not_strict_json_is_refused() {
    for (text, kind) in [
        (r#"{"a":1,"a":2}"#, JsonFaultKind::Twice),
        (r#"{"a":1,"\u0061":2}"#, JsonFaultKind::Twice),
        (r#"["\ud800"]"#, JsonFaultKind::LoneSurrogate),
        (r#"["\ud800\u0041"]"#, JsonFaultKind::LoneSurrogate),
        (r#"["\udc00"]"#, JsonFaultKind::LoneSurrogate),
        (r#"["\u12"]"#, JsonFaultKind::Syntax),
        (r#"["\x"]"#, JsonFaultKind::Syntax),
        ("[1,]", JsonFaultKind::Syntax),
        ("[1] 2", JsonFaultKind::Syntax),
        ("\"a\nb\"", JsonFaultKind::Syntax),
        ("\"open", JsonFaultKind::Syntax),
        ("{'a':1}", JsonFaultKind::Syntax),
        ("", JsonFaultKind::Syntax),
    ] {
        assert_eq!(canonical(text), Err(kind), "{text}");
    }
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    assert_eq!(canonical(&deep), Err(JsonFaultKind::TooDeep));
    let fault = parse(b"[\"\xff\"]").unwrap_err();
    assert_eq!((fault.at, fault.kind), (2, JsonFaultKind::NotUtf8));
}

pub(in crate::record) fn any_value() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::Flag),
        (-9_007_199_254_740_991_i64..=9_007_199_254_740_991)
            .prop_map(|number| Value::Whole(Whole::new(number).unwrap())),
        any::<String>().prop_map(|text| Value::Text(text.into())),
    ];
    leaf.prop_recursive(4, 40, 6, |inner| {
        prop_oneof![
            proptest::collection::vec(inner.clone(), 0..6).prop_map(Value::List),
            proptest::collection::vec((any::<String>(), inner), 0..6).prop_map(|members| {
                let mut map = Map::new();
                for (name, value) in members {
                    map.insert(name, value);
                }
                Value::Map(map)
            }),
        ]
    })
}

proptest! {
    #[test]
    fn what_is_written_is_read_back_and_written_the_same(value in any_value()) {
        let text = value.canonical();
        let read = parse(text.as_bytes()).map_err(|fault| TestCaseError::fail(format!("{fault:?}")))?;
        prop_assert_eq!(read.canonical(), text);
        prop_assert_eq!(read, value);
    }

    // Another implementation (a general JSON library) reads the same value out of the text.
    #[test]
    fn a_general_library_reads_the_same(value in any_value()) {
        let read: serde_json::Value = serde_json::from_str(&value.canonical()).unwrap();
        let again = parse(read.to_string().as_bytes()).map_err(|fault| TestCaseError::fail(format!("{fault:?}")))?;
        prop_assert_eq!(again, value);
    }

    #[test]
    fn no_bytes_make_reading_panic(bytes in proptest::collection::vec(any::<u8>(), 0..60)) {
        drop(parse(&bytes));
    }

    // Small changes of canonical texts: blanks, escapes, letters of digits, members in another order.
    #[test]
    fn whether_a_text_is_canonical_is_noticed_while_it_is_read(
        value in any_value(), at in any::<proptest::sample::Index>(), change in 0_usize..6,
    ) {
        let mut text = value.canonical();
        let at = (0..=at.index(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0);
        match change {
            0 => {}
            1 => text.insert(at, ' '),
            2 => text.insert_str(at, "\\u0041"),
            3 => text.insert_str(at, "\\/"),
            4 => text = text.to_uppercase(),
            _ => if let Value::Map(map) = &value {
                let turned: Vec<String> = map.iter().map(|(name, value)| {
                    format!("{}:{}", Value::Text(name.to_owned().into()).canonical(), value.canonical())
                }).collect();
                text = format!("{{{}}}", turned.iter().rev().cloned().collect::<Vec<_>>().join(","));
            },
        }
        if let Ok((read, canonical)) = super::parse_noting(text.as_bytes()) {
            prop_assert_eq!(canonical, read.canonical() == text);
        }
    }
}

#[test]
fn eight_bytes_at_once_end_where_one_after_the_other_would() {
    let one_by_one = |eight: [u8; 8]| {
        let end = |byte: &u8| matches!(byte, b'"' | b'\\' | 0..0x20);
        eight.iter().position(end).unwrap_or(8)
    };
    // Whatever a byte is, with every neighbour that could lend to it or borrow from it.
    let neighbours = [
        0x00, 0x1f, 0x20, 0x21, 0x22, 0x23, 0x5b, 0x5c, 0x5d, 0x7f, 0x80, 0xa2, 0xff,
    ];
    for byte in 0..=u8::MAX {
        for before in neighbours {
            for after in neighbours {
                for at in 0..6 {
                    let mut eight = [b'a'; 8];
                    eight[at..at + 3].copy_from_slice(&[before, byte, after]);
                    assert_eq!(ends(eight), one_by_one(eight), "{eight:?}");
                }
            }
        }
    }
}
