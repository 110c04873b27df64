//! What holds for every figure at every width.

use proptest::prelude::*;

use super::residue;
use crate::report::figure::{
    Amount, Arch, ArchTooth, Axis, Bar, BarGroup, Bars, Bound, Curve, Figure, Mark, Point, Series,
    Stroke, Timeline, TimelineRow,
};
use crate::report::plain::Glyphs;
use crate::report::plain::drawing::{figure, fitted};
use crate::text::wrap::columns;
use crate::units::Millis;

/// Texts of a person.
fn text() -> impl Strategy<Value = String> {
    "[a-zé日]{0,12}( [a-z]{1,8}){0,3}"
}

/// Values that are usual, and values that are not.
fn value() -> impl Strategy<Value = i64> {
    prop_oneof![
        4 => 0..1000_i64,
        1 => any::<i64>(),
        1 => Just(i64::MIN),
        1 => Just(i64::MAX),
    ]
}

fn few<T: Strategy>(one: T) -> impl Strategy<Value = Vec<T::Value>> {
    prop::collection::vec(one, 0..5)
}

prop_compose! {
    fn any_mark()(at in value(), said in text()) -> Mark {
        Mark { at, said }
    }
}

prop_compose! {
    fn any_axis()(label in text(), ticks in few(any_mark())) -> Axis {
        Axis { label, ticks }
    }
}

prop_compose! {
    fn any_bound()(at in value(), said in text(), at_least in any::<bool>()) -> Bound {
        Bound { at, said, at_least }
    }
}

prop_compose! {
    fn any_row()(label in text(), least in value(), target in value(), most in value(), was in few(value()), said in text()) -> TimelineRow {
        let was = was.into_iter().map(Millis).collect();
        TimelineRow { label, least: Millis(least), target: Millis(target), most: Millis(most), was, said }
    }
}

prop_compose! {
    fn any_timeline()(title in text(), note in text(), key in text(), rows in few(any_row())) -> Figure {
        Figure::Timeline(Timeline { title, note, key, rows })
    }
}

prop_compose! {
    fn any_series()(name in text(), apart in any::<bool>(), points in few((value(), value()))) -> Series {
        let stroke = if apart { Stroke::Apart } else { Stroke::Straight };
        let points = points.into_iter().map(|(across, up)| Point { across, up }).collect();
        Series { name, stroke, points }
    }
}

prop_compose! {
    fn any_curve()(title in text(), note in text(), across in any_axis(), up in any_axis(), series in few(any_series()), marks in few(any_mark())) -> Figure {
        Figure::Curve(Curve { title, note, across, up, series, marks })
    }
}

prop_compose! {
    fn any_bar()(label in text(), value in value(), said in text()) -> Bar {
        Bar { label, value, said }
    }
}

prop_compose! {
    fn any_bars()(title in text(), note in text(), key in text(), bound in prop::option::of(any_bound()), groups in few((text(), few(any_bar())))) -> Figure {
        let groups = groups.into_iter().map(|(label, bars)| BarGroup { label, bars }).collect();
        Figure::Bars(Bars { title, note, key, bound, groups })
    }
}

prop_compose! {
    fn any_arch()(words in prop::array::uniform9(text()), missed in few(text()), bound in any_bound(), amounts in prop::collection::vec([(value(), text()), (value(), text())], 0..20), from in any::<u16>()) -> Figure {
        let [title, note, key, said, tooth, outer, inner, less, none] = words;
        let teeth = amounts.into_iter().zip(from.min(u16::MAX - 20)..).map(|(sides, number)| ArchTooth {
            number,
            sides: sides.map(|(value, said)| Amount { value, said }),
        });
        let teeth = teeth.collect();
        Figure::Arch(Box::new(Arch { title, note, key, said, missed, tooth, sides: [outer, inner], bound, less, none, teeth }))
    }
}

fn any_figure() -> impl Strategy<Value = Figure> {
    prop_oneof![any_timeline(), any_curve(), any_bars(), any_arch()]
}

/// What is left without the spaces that wrapping moves.
fn bare(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

/// The words of a figure that are never cut.
fn kept(one: &Figure) -> Vec<&str> {
    match one {
        Figure::Timeline(one) => [&one.title, &one.key]
            .into_iter()
            .chain(one.rows.iter().map(|row| &row.said))
            .map(String::as_str)
            .collect(),
        Figure::Curve(one) => [&one.title, &one.across.label, &one.up.label]
            .into_iter()
            .chain(one.marks.iter().map(|mark| &mark.said))
            .map(String::as_str)
            .collect(),
        Figure::Bars(one) => [&one.title, &one.key]
            .into_iter()
            .chain(one.groups.iter().map(|group| &group.label))
            .map(String::as_str)
            .collect(),
        Figure::Arch(one) => [&one.title, &one.said, &one.bound.said, &one.less, &one.none]
            .into_iter()
            .chain(&one.missed)
            .chain(
                one.teeth
                    .iter()
                    .flat_map(|tooth| &tooth.sides)
                    .map(|side| &side.said),
            )
            .map(String::as_str)
            .collect(),
    }
}

proptest! {
    #[test]
    fn no_figure_is_wider_than_its_page_or_loses_its_words(one in any_figure(), width in 20..=200_usize, tall in 0..40_usize) {
        for glyphs in [Glyphs::Ascii, Glyphs::Braille] {
            for lines in [figure(&one, width, glyphs), fitted(&one, width, tall, glyphs)] {
                for line in &lines {
                    prop_assert!(columns(line) <= width, "{} > {width}: {line}", columns(line));
                }
                let told = bare(&lines.concat());
                for said in kept(&one) {
                    prop_assert!(told.contains(&bare(said)), "{said} in {lines:#?}");
                }
            }
        }
    }

    #[test]
    fn a_bar_of_blocks_ends_on_its_side_of_the_limit(at in 1..1000_i64, value in 0..5000_i64, width in 40..=200_usize) {
        let Figure::Bars(mut one) = residue() else { unreachable!() };
        one.bound = Some(Bound { at, said: "at most".into(), at_least: false });
        one.groups[0].bars = vec![Bar { label: "bath".into(), value, said: value.to_string() }];
        let lines = figure(&Figure::Bars(one), width, Glyphs::Braille);
        let drawn = lines.iter().find(|line| line.starts_with("  bath")).unwrap();
        let (before, behind) = drawn.split_once('┃').unwrap();
        prop_assert_eq!(behind.starts_with(' '), value <= at, "{}", drawn);
        prop_assert_eq!(before.contains('X'), value > at, "{}", drawn);
        prop_assert!(value >= at || !before.ends_with('█'), "{}", drawn);
        prop_assert_eq!(value == 0, before.ends_with(' ') && before.trim_end() == "  bath", "{}", drawn);
    }
}
