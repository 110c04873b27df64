//! What figures look like.

mod widths;

use super::*;
use crate::report::figure::{
    Amount, Arch, ArchTooth, Axis, Bar, BarGroup, Bars, Bound, Curve, Mark, Point, Series, Stroke,
    Timeline, TimelineRow,
};
use crate::text::wrap::columns;
use crate::units::Millis;

fn mark(at: i64, said: &str) -> Mark {
    Mark {
        at,
        said: said.into(),
    }
}

fn drawn(one: &Figure) -> String {
    drawn_with(one, Glyphs::Ascii)
}

fn drawn_with(one: &Figure, glyphs: Glyphs) -> String {
    figure(one, 60, glyphs).join("\n")
}

fn row(label: &str, was: i64, said: &str) -> TimelineRow {
    TimelineRow {
        label: label.into(),
        least: Millis::seconds(110),
        target: Millis::seconds(120),
        most: Millis::seconds(130),
        was: vec![Millis(was)],
        said: said.into(),
    }
}

fn times() -> Figure {
    Figure::Timeline(Timeline {
        title: "Times".into(),
        note: "A note.".into(),
        key: "[ ] allowed".into(),
        rows: vec![
            row("first", 120_000, "2 min"),
            row("second", 109_999, "109.999 s"),
        ],
    })
}

#[test]
fn a_timeline_shows_times_on_their_side_of_the_limits() {
    assert_eq!(
        drawn(&times()),
        "Times\n[ ] allowed\n\
         first  .............................[--*-].........  2 min\n\
         second ............................X[--:-].........\n       109.999 s\n! A note."
    );
}

fn residue() -> Figure {
    let bar = |label: &str, value: i64| Bar {
        label: label.into(),
        value,
        said: value.to_string(),
    };
    Figure::Bars(Bars {
        title: "Residue".into(),
        note: "A note.".into(),
        key: "| limit".into(),
        bound: Some(Bound {
            at: 50,
            said: "at most 50".into(),
            at_least: false,
        }),
        groups: vec![BarGroup {
            label: "Tissue side".into(),
            bars: vec![bar("bath one", 100), bar("bath two", 0)],
        }],
    })
}

#[test]
fn bars_show_on_which_side_of_the_limit_they_end() {
    assert_eq!(
        drawn(&residue()),
        "Residue\n| limit\n| at most 50\nTissue side\n  \
         bath one X####################|################### 100\n  \
         bath two                      |                    0\n! A note."
    );
}

fn warmth() -> Figure {
    Figure::Curve(Curve {
        title: "Warmth".into(),
        note: "A note.".into(),
        across: Axis {
            label: "time".into(),
            ticks: vec![mark(0, "0"), mark(60, "1 min")],
        },
        up: Axis {
            label: "temperature".into(),
            ticks: vec![mark(20, "20"), mark(50, "50")],
        },
        series: vec![Series {
            name: "vessel".into(),
            stroke: Stroke::Straight,
            points: vec![Point { across: 0, up: 20 }, Point { across: 60, up: 45 }],
        }],
        marks: vec![mark(40, "target 40")],
    })
}

#[test]
fn a_curve_has_axes_and_marks() {
    let text = drawn(&warmth());
    assert!(text.contains("50 +"), "{text}");
    assert!(text.contains("- - target 40"), "{text}");
    assert!(text.lines().count() > USUAL.field, "{text}");
    assert!(text.lines().all(|line| columns(line) <= 60), "{text}");
}

#[test]
fn finer_characters_say_the_same() {
    assert_eq!(
        drawn_with(&times(), Glyphs::Braille),
        "Times\n[ ] allowed\n\
         first  ┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄[━━*━━━]┄┄┄┄┄┄┄┄┄┄\n       2 min\n\
         second ┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄X[━━┿━━━]┄┄┄┄┄┄┄┄┄┄\n       109.999 s\n! A note."
    );

    assert_eq!(
        figure(&residue(), 60, Glyphs::Braille),
        [
            "Residue",
            "| limit",
            "┃ at most 50",
            "Tissue side",
            "  bath one X█████████████████████┃█████████████████████ 100",
            "  bath two                       ┃                      0",
            "! A note.",
        ]
    );
    assert_eq!(
        figure(&warmth(), 60, Glyphs::Braille),
        [
            "Warmth",
            "temperature",
            "50 ┤",
            "   │",
            "   │                                         ⢀⣀⠤⠒⠉",
            "   │                                     ⣀⠤⠔⠊⠁",
            "   │⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⠉ ⢉⡠⠝⠒⠉ ⠉ ⠉ ⠉ ⠉  target 40",
            "   │                           ⢀⣀⠤⠒⠉⠁",
            "   │                       ⣀⠤⠔⠊⠁",
            "   │                  ⢀⡠⠔⠒⠉",
            "   │             ⢀⣀⠤⠒⠉⠁",
            "   │         ⣀⠤⠔⠊⠁",
            "   │    ⢀⡠⠔⠒⠉",
            "20 ┤⣀⠤⠒⠉⠁",
            "   └┴────────────────────────────────────────────┴",
            "    0                                        1 min",
            "    time",
            "! A note.",
        ]
    );
}

#[test]
fn limits_that_share_a_row_are_told_apart_by_letters() {
    let Figure::Curve(mut one) = warmth() else {
        unreachable!()
    };
    one.marks = vec![
        mark(40, "the one"),
        mark(40, "the other"),
        mark(30, "a third"),
    ];
    let text = drawn_with(&Figure::Curve(one), Glyphs::Braille);
    for said in [
        " ab\n",
        " c\n",
        "a ⠒ ⠒ the one",
        "b ⠒ ⠒ the other",
        "c ⠒ ⠒ a third",
    ] {
        assert!(text.contains(said), "{said} in\n{text}");
    }
}

#[test]
fn lines_of_a_curve_are_told_apart_by_characters() {
    let Figure::Curve(mut one) = warmth() else {
        unreachable!()
    };
    let mut second = one.series[0].clone();
    second.name = "second".into();
    second.points = vec![Point { across: 0, up: 50 }, Point { across: 60, up: 50 }];
    one.series.push(second);
    let one = Figure::Curve(one);
    for (glyphs, first) in [(Glyphs::Ascii, "* vessel"), (Glyphs::Braille, "⠒ vessel")] {
        let text = drawn_with(&one, glyphs);
        assert!(text.contains(first), "{text}");
        assert!(text.contains("oooooooooo"), "{text}");
        assert!(text.contains("\no second"), "{text}");
    }
}

#[test]
fn a_curve_is_as_tall_as_its_screen() {
    for tall in 18..=34 {
        for glyphs in [Glyphs::Ascii, Glyphs::Braille] {
            let lines = fitted(&warmth(), 80, tall, glyphs).len();
            let words = figure(&warmth(), 80, glyphs).len() - USUAL.field;
            assert_eq!(lines, tall.min(words + FIELDS.1), "{tall}");
        }
    }
}

/// An arch of so many teeth with a limit of 55, all of them at it but those that are named.
fn lit(teeth: u16, short: &[(u16, usize, i64)]) -> Arch {
    let amount = |value: i64| Amount {
        value,
        said: value.to_string(),
    };
    let tooth = |number: u16| {
        let side = |side: usize| {
            let found = short.iter().find(|one| (one.0, one.1) == (number, side));
            amount(found.map_or(55, |one| one.2))
        };
        ArchTooth {
            number,
            sides: [side(0), side(1)],
        }
    };
    Arch {
        title: "Light".into(),
        note: "A note.".into(),
        key: "left to right".into(),
        said: "Some".into(),
        missed: vec!["front: 3".into()],
        tooth: "Tooth".into(),
        sides: ["front".into(), "back".into()],
        bound: Bound {
            at: 55,
            said: "at least 55".into(),
            at_least: true,
        },
        less: "less".into(),
        none: "none".into(),
        teeth: (1..=teeth).map(tooth).collect(),
    }
}

#[test]
fn an_arch_shows_which_side_of_which_tooth_was_missed() {
    let one = lit(9, &[(1, 0, 54), (3, 1, 0), (5, 0, 1), (9, 1, 0)]);
    let one = Figure::Arch(Box::new(one));
    assert_eq!(
        figure(&one, 60, Glyphs::Ascii),
        [
            "Light",
            "Some",
            "- front: 3",
            "",
            "                front",
            "             +   [X]   +",
            "             4    5    6",
            "             +    +    +",
            "  +  3  [0]                +  7   +",
            "",
            " +  2   +       back        +  8   +",
            "",
            "[X] 1   +                  [0] 9   +",
            "",
            "left to right",
            " +  at least 55   [X] less   [0] none",
            "Tooth  front   back      Tooth  front   back",
            "1      [X] 54   +  55    6       +  55   +  55",
            "2       +  55   +  55    7       +  55   +  55",
            "3       +  55  [0] 0     8       +  55   +  55",
            "4       +  55   +  55    9       +  55  [0] 0",
            "5      [X] 1    +  55",
            "! A note.",
        ]
    );
    assert_eq!(
        figure(&one, 30, Glyphs::Ascii),
        [
            "Light",
            "Some",
            "- front: 3",
            " +  at least 55",
            "[X] less",
            "[0] none",
            "Tooth  front   back",
            "1      [X] 54   +  55",
            "2       +  55   +  55",
            "3       +  55  [0] 0",
            "4       +  55   +  55",
            "5      [X] 1    +  55",
            "6       +  55   +  55",
            "7       +  55   +  55",
            "8       +  55   +  55",
            "9       +  55  [0] 0",
            "! A note.",
        ]
    );
}

/// The marks that stand beside a tooth's number: outer, then inner.
fn beside(lines: &[String], number: u16) -> [String; 2] {
    let number = number.to_string();
    let words = |line: &str| -> Vec<String> {
        let parts = line.split(' ').filter(|part| !part.is_empty());
        parts.map(str::to_owned).collect()
    };
    let front = words(&lines[2]);
    if let Some(at) = front.iter().position(|word| *word == number) {
        return [words(&lines[1])[at].clone(), words(&lines[3])[at].clone()];
    }
    for line in &lines[4..] {
        let words = words(line);
        if let Some(at) = words.iter().position(|word| *word == number) {
            let marks = [words[at - 1].clone(), words[at + 1].clone()];
            let [left, right] = marks;
            return if at == 1 {
                [left, right]
            } else {
                [right, left]
            };
        }
    }
    panic!("no {number} in {lines:#?}")
}

#[test]
fn each_tooth_stands_between_its_own_marks() {
    for teeth in 1..=16 {
        for (tooth, side) in (1..=teeth).flat_map(|tooth| [(tooth, 0), (tooth, 1)]) {
            for (value, missed) in [(54, "[X]"), (0, "[0]")] {
                let mut one = lit(teeth, &[(tooth, side, value)]);
                // Numbers are found by words, and the names of the sides are words too.
                one.sides = [String::new(), String::new()];
                let lines =
                    arch::horseshoe(&one, 70, 1 + usize::from(value > 0), Glyphs::Ascii).unwrap();
                for number in 1..=teeth {
                    let mut expected = ["+", "+"];
                    if number == tooth {
                        expected[side] = missed;
                    }
                    assert_eq!(beside(&lines, number), expected, "{lines:#?}");
                }
            }
        }
    }
}

#[test]
fn every_arch_from_6_to_14_teeth_is_drawn_from_60_columns_on() {
    for (teeth, width) in (6..=14).flat_map(|teeth| (60..=120).map(move |width| (teeth, width))) {
        let one = Figure::Arch(Box::new(lit(teeth, &[])));
        for glyphs in [Glyphs::Ascii, Glyphs::Braille] {
            let drawn = figure(&one, width, glyphs).join("\n");
            assert!(drawn.contains("left to right"), "{drawn}");
        }
    }
}
