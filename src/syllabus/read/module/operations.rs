//! Operations: the words of the vocabulary and what each of them takes.

use super::super::problem::Problems;
use super::super::{MapReader, Node, Variant, Words, name, word_or_variant};
use super::terms::{manner, share};
use crate::syllabus::operation::Operation;

/// The operations that take nothing.
const ALONE: &Words<Operation> = &[
    ("close-alcohol", Operation::CloseAlcohol),
    ("try-in", Operation::TryIn),
    ("lift", Operation::Lift),
    ("seal", Operation::Seal),
];

macro_rules! takes {
    ($variant:ident { $($field:ident: $key:literal $decode:expr),+ }) => {
        |node: &Node, problems: &mut Problems| {
            let mut map = MapReader::open(node, problems)?;
            $(let $field = map.required($key, $decode);)+
            map.finish();
            Some(Operation::$variant { $($field: $field?),+ })
        }
    };
}

/// The operations that take something.
const WITH: &[Variant<Operation>] = &[
    (
        "fill-bath",
        takes!(FillBath { bath: "bath" name, with: "with" manner }),
    ),
    (
        "place-baths",
        takes!(PlaceBaths { first: "first" name, second: "second" name, how: "how" manner }),
    ),
    (
        "load-bath",
        takes!(LoadBath { bath: "bath" name, load: "load" share }),
    ),
    ("drain", takes!(Drain { part: "part" name })),
    (
        "strain",
        takes!(Strain { part: "part" name, how: "how" manner }),
    ),
    (
        "immerse",
        takes!(Immerse { part: "part" name, bath: "bath" name, air: "air" manner }),
    ),
    (
        "brush",
        takes!(Brush { part: "part" name, reach: "reach" manner }),
    ),
    (
        "hand-down",
        takes!(HandDown { from: "from" name, to: "to" name, old: "old" manner }),
    ),
    ("dry", takes!(Dry { part: "part" name, with: "with" name })),
    ("arrange", takes!(Arrange { how: "how" manner })),
    ("switch-on", takes!(SwitchOn { plate: "plate" name })),
    ("switch-off", takes!(SwitchOff { plate: "plate" name })),
    (
        "charge",
        takes!(Charge { vessel: "vessel" name, level: "level" manner, rest: "rest" manner }),
    ),
    (
        "warm",
        takes!(Warm { vessel: "vessel" name, plate: "plate" name }),
    ),
    ("unload", takes!(Unload { vessel: "vessel" name })),
    (
        "pick",
        takes!(Pick { product: "product" name, bottle: "bottle" manner }),
    ),
    (
        "fill",
        takes!(Fill { at: "at" name, amount: "amount" manner }),
    ),
    ("seat", takes!(Seat { how: "how" manner })),
    ("wipe", takes!(Wipe { how: "how" manner })),
    (
        "tack",
        takes!(Tack {
            light: "light" name,
            distance: "distance" manner,
            tip: "tip" manner,
            neighbours: "neighbours" manner,
            tooth: "tooth" manner
        }),
    ),
    ("dirty-tip", takes!(DirtyTip { light: "light" name })),
    ("weak-light", takes!(WeakLight { light: "light" name })),
    (
        "restore-light",
        takes!(RestoreLight { light: "light" name }),
    ),
    (
        "load-unit",
        takes!(LoadUnit {
            unit: "unit" name,
            part: "part" name,
            up: "up" manner,
            programme: "programme" manner
        }),
    ),
    ("expose", takes!(Expose { unit: "unit" name })),
    ("interrupt", takes!(Interrupt { unit: "unit" name })),
    ("cool", takes!(Cool { unit: "unit" name })),
    ("turn", takes!(Turn { unit: "unit" name })),
    ("cut-posts", takes!(CutPosts { part: "part" name })),
    (
        "abrade",
        takes!(Abrade { part: "part" name, with: "with" manner, side: "side" manner }),
    ),
    ("steam", takes!(Steam { part: "part" name })),
    ("illuminate", takes!(Illuminate { part: "part" name })),
    ("discard", takes!(Discard { to: "to" manner })),
];

/// Reads one operation: `seal`, or `{ drain: { part: base } }`.
pub(super) fn operation(node: &Node, problems: &mut Problems) -> Option<Operation> {
    word_or_variant(ALONE, WITH)(node, problems)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syllabus::operation::{Amount, Manner, OPERATION_WORDS};
    use crate::syllabus::read::{Fault, read};

    #[test]
    fn every_word_of_the_vocabulary_is_read() {
        let mut read: Vec<&str> = ALONE.iter().map(|it| it.0).collect();
        read.extend(WITH.iter().map(|it| it.0));
        let mut known = OPERATION_WORDS.to_vec();
        read.sort_unstable();
        known.sort_unstable();
        assert_eq!(read, known);
    }

    #[test]
    fn a_manner_is_a_word_or_what_was_chosen() {
        let fixed = read(b"fill: { at: bonding, amount: bead }", operation).unwrap();
        assert!(matches!(
            fixed,
            Operation::Fill {
                amount: Manner::Fixed(Amount::Bead),
                ..
            }
        ));
        let chosen = read(
            b"fill: { at: bonding, amount: { as: how-much } }",
            operation,
        )
        .unwrap();
        assert!(
            matches!(chosen, Operation::Fill { amount: Manner::AsWay(way), .. } if way.value == "how-much")
        );
    }

    #[test]
    fn a_misspelt_word_or_operation_gets_a_suggestion() {
        for (text, meant) in [
            ("fill: { at: bonding, amount: baed }", "bead"),
            ("imerse: { part: base }", "immerse"),
            ("seel", "seal"),
        ] {
            let report = read(text.as_bytes(), operation).unwrap_err();
            assert!(
                matches!(&report.problems[0].what, Fault::UnknownWord { suggestion, .. } if suggestion.as_deref() == Some(meant)),
                "{report:?}"
            );
        }
    }
}
