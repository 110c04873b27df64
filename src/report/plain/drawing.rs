//! Figures drawn with characters.

use super::Glyphs;
use crate::report::figure::{Bars, Curve, Figure, Stroke, Timeline, TimelineRow};
use crate::text::wrap::{columns, cut, wrap, wrap_behind};

/// How many lines a curve is tall.
const TALL: usize = 12;

/// Draws a figure: title, drawing, note.
pub(super) fn figure(figure: &Figure, width: usize, glyphs: Glyphs) -> Vec<String> {
    let (title, note) = match figure {
        Figure::Timeline(one) => (&one.title, &one.note),
        Figure::Curve(one) => (&one.title, &one.note),
        Figure::Bars(one) => (&one.title, &one.note),
    };
    let mut lines = wrap(title, width);
    lines.extend(match figure {
        Figure::Timeline(one) => timeline(one, width, glyphs),
        Figure::Curve(one) => curve(one, width, glyphs),
        Figure::Bars(one) => bars(one, width, glyphs),
    });
    lines.extend(wrap_behind("! ", note, width));
    lines
}

/// Where a value falls on a line of so many cells.
fn cell(value: i64, from: i64, to: i64, cells: usize) -> usize {
    let span = i128::from(to) - i128::from(from);
    let last = cells.saturating_sub(1);
    if span <= 0 || value <= from {
        return 0;
    }
    let steps = i128::try_from(last).unwrap_or(0);
    let at = ((i128::from(value) - i128::from(from)) * steps * 2 + span) / (span * 2);
    usize::try_from(at).unwrap_or(0).min(last)
}

/// A row per step: `.....[--*--:-----]....` with the allowed stretch between brackets, then words below.
fn timeline(one: &Timeline, width: usize, glyphs: Glyphs) -> Vec<String> {
    let widest = one.rows.iter().map(|row| columns(&row.label)).max();
    let label = widest.unwrap_or(0).min(width * 2 / 5);
    let track = width.saturating_sub(label + 1).clamp(8, 44);
    let mut lines = wrap(&one.key, width);
    for row in &one.rows {
        let name = cut(&row.label, label);
        let pad = " ".repeat(label - columns(&name));
        let drawn = track_of(row, track, glyphs);
        let tail = width.saturating_sub(label + 1 + track + 2);
        let first = format!("{name}{pad} {drawn}");
        // Words go beside the track where they fit, else below it.
        if columns(&row.said) <= tail {
            lines.push(format!("{first}  {}", row.said));
        } else {
            lines.push(first);
            let indent = " ".repeat(label + 1);
            lines.extend(wrap_behind(&indent, &row.said, width));
        }
    }
    lines
}

fn track_of(row: &TimelineRow, cells: usize, glyphs: Glyphs) -> String {
    let longest = row.was.iter().map(|was| was.0).max().unwrap_or(0);
    // A quarter beyond the most that is allowed keeps the right bracket off the edge.
    let to = longest
        .max(row.most.0.saturating_add(row.most.0 / 4))
        .max(1);
    let at = |value: i64| cell(value, 0, to, cells);
    let (least, most) = (at(row.least.0), at(row.most.0));
    let mut track: Vec<char> = (0..cells)
        .map(|one| {
            if one > least && one < most {
                glyphs.pick('─', '-')
            } else {
                glyphs.pick('·', '.')
            }
        })
        .collect();
    track[at(row.target.0)] = glyphs.pick('┼', ':');
    track[least] = '[';
    track[most] = ']';
    for was in &row.was {
        let mut place = at(was.0);
        let allowed = row.allows(*was);
        // A time that rounds onto a bracket must still stand on its own side of it.
        if allowed && most > least + 1 {
            place = place.clamp(least + 1, most - 1);
        } else if was < &row.least && place >= least {
            place = least.saturating_sub(1);
        } else if was > &row.most && place <= most {
            place = (most + 1).min(cells - 1);
        }
        track[place] = if allowed { '*' } else { 'X' };
    }
    track.into_iter().collect()
}

fn curve(one: &Curve, width: usize, glyphs: Glyphs) -> Vec<String> {
    let gutter = one.up.ticks.iter().map(|tick| columns(&tick.said)).max();
    let gutter = gutter.unwrap_or(0).min(width / 4);
    let wide = width.saturating_sub(gutter + 2).clamp(10, 64);
    let (left, right) = (one.across.from(), one.across.to());
    let (low, high) = (one.up.from(), one.up.to());
    let row = |value: i64| TALL - 1 - cell(value, low, high, TALL);
    let mut field = vec![vec![' '; wide]; TALL];
    for mark in one
        .marks
        .iter()
        .filter(|mark| mark.at >= low && mark.at <= high)
    {
        for (at, place) in field[row(mark.at)].iter_mut().enumerate() {
            if at % 2 == 0 {
                *place = glyphs.pick('╌', '-');
            }
        }
    }
    for (number, series) in one.series.iter().enumerate() {
        let dot = ['*', 'o', '+', 'x'][number % 4];
        for point in &series.points {
            field[row(point.up)][cell(point.across, left, right, wide)] = dot;
        }
        if series.stroke == Stroke::Straight {
            for pair in series.points.windows(2) {
                let columns = cell(pair[0].across, left, right, wide)
                    ..=cell(pair[1].across, left, right, wide);
                let from = *columns.start();
                let span = i64::try_from(columns.end() - from).unwrap_or(0).max(1);
                for at in columns {
                    let along = i64::try_from(at - from).unwrap_or(0);
                    let up = pair[0].up
                        + (pair[1].up - pair[0].up) / span * along
                        + (pair[1].up - pair[0].up) % span * along / span;
                    field[row(up)][at] = dot;
                }
            }
        }
    }
    let mut lines = wrap(&one.up.label, width);
    for (at, cells) in field.iter().enumerate() {
        let tick = one.up.ticks.iter().find(|tick| row(tick.at) == at);
        let said = tick.map_or(String::new(), |tick| cut(&tick.said, gutter));
        let pad = " ".repeat(gutter - columns(&said));
        let edge = if tick.is_some() {
            glyphs.pick('┤', '+')
        } else {
            glyphs.pick('│', '|')
        };
        let line: String = cells.iter().collect();
        lines.push(format!("{pad}{said} {edge}{}", line.trim_end()));
    }
    let indent = " ".repeat(gutter + 1);
    let floor = String::from(glyphs.pick('─', '-')).repeat(wide);
    lines.push(format!("{indent}{}{floor}", glyphs.pick('└', '+')));
    lines.push(format!("{indent} {}", ticks_below(one, left, right, wide)));
    lines.extend(wrap_behind(&format!("{indent} "), &one.across.label, width));
    if one.series.len() > 1 {
        for (number, series) in one.series.iter().enumerate() {
            let lead = format!("{} ", ['*', 'o', '+', 'x'][number % 4]);
            lines.extend(wrap_behind(&lead, &series.name, width));
        }
    }
    for mark in &one.marks {
        lines.extend(wrap_behind("- - ", &mark.said, width));
    }
    lines
}

/// The words of the ticks below a curve; one that would touch its neighbour is left out.
fn ticks_below(one: &Curve, left: i64, right: i64, wide: usize) -> String {
    let mut line = String::new();
    for tick in &one.across.ticks {
        let at = cell(tick.at, left, right, wide);
        let length = columns(&tick.said);
        let start = at
            .saturating_sub(length / 2)
            .min(wide.saturating_sub(length));
        let used = columns(&line);
        if (used == 0 || start > used) && start + length <= wide {
            line.push_str(&" ".repeat(start - used));
            line.push_str(&tick.said);
        }
    }
    line
}

fn bars(one: &Bars, width: usize, glyphs: Glyphs) -> Vec<String> {
    let all = || one.groups.iter().flat_map(|group| &group.bars);
    let widest = |wide: &dyn Fn(&crate::report::figure::Bar) -> usize| all().map(wide).max();
    let label = widest(&|bar| columns(&bar.label))
        .unwrap_or(0)
        .min(width / 3);
    let said = widest(&|bar| columns(&bar.said))
        .unwrap_or(0)
        .min(width / 3);
    let track = width.saturating_sub(2 + label + 2 + 2 + said).clamp(4, 40);
    let highest = all().map(|bar| bar.value).max().unwrap_or(0);
    let top = match &one.bound {
        // Far beyond the limit nothing more is told by length, and near it everything is.
        Some(bound) if bound.at > 0 => highest.clamp(
            bound.at.saturating_add(bound.at / 4),
            bound.at.saturating_mul(5),
        ),
        _ => highest,
    }
    .max(1);
    let mut lines = wrap(&one.key, width);
    if let Some(bound) = &one.bound {
        lines.extend(wrap_behind("| ", &bound.said, width));
    }
    for group in &one.groups {
        lines.extend(wrap(&group.label, width));
        for bar in &group.bars {
            let mut cells = vec![' '; track];
            let full = if bar.value <= 0 {
                0
            } else {
                cell(bar.value, 0, top, track) + 1
            };
            for place in &mut cells[..full.min(track)] {
                *place = glyphs.pick('█', '#');
            }
            if bar.value > top {
                cells[track - 1] = '>';
            }
            let mut sign = ' ';
            if let Some(bound) = &one.bound {
                let mut at = cell(bound.at, 0, top, track);
                let allowed = bound.allows(bar.value);
                // The line stands where the bar's end shows on the right side of it.
                if bar.value < bound.at && at < full {
                    at = full.min(track - 1);
                }
                cells[at] = '|';
                sign = if allowed { ' ' } else { 'X' };
            }
            let name = cut(&bar.label, label);
            let pad = " ".repeat(label - columns(&name));
            let drawn: String = cells.into_iter().collect();
            let said = cut(&bar.said, said);
            lines.push(format!("  {name}{pad} {sign}{drawn} {said}"));
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::figure::{Axis, Bar, BarGroup, Bound, Mark, Point, Series};
    use crate::units::Millis;

    fn mark(at: i64, said: &str) -> Mark {
        Mark {
            at,
            said: said.into(),
        }
    }

    fn drawn(one: &Figure) -> String {
        let lines = figure(one, 60, Glyphs::Ascii);
        let lines: Vec<&str> = lines.iter().map(|line| line.trim_end()).collect();
        lines.join("\n")
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

    #[test]
    fn a_timeline_shows_times_on_their_side_of_the_limits() {
        let one = Figure::Timeline(Timeline {
            title: "Times".into(),
            note: "A note.".into(),
            key: "[ ] allowed".into(),
            rows: vec![
                row("first", 120_000, "2 min"),
                row("second", 109_999, "109.999 s"),
            ],
        });
        assert_eq!(
            drawn(&one),
            "Times\n[ ] allowed\n\
             first  .............................[--*--].........  2 min\n\
             second ............................X[--:--].........\n       109.999 s\n! A note."
        );
    }

    #[test]
    fn bars_show_on_which_side_of_the_limit_they_end() {
        let bar = |label: &str, value: i64| Bar {
            label: label.into(),
            value,
            said: value.to_string(),
        };
        let one = Figure::Bars(Bars {
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
        });
        assert_eq!(
            drawn(&one),
            "Residue\n| limit\n| at most 50\nTissue side\n  \
             bath one X####################|################### 100\n  \
             bath two                      |                    0\n! A note."
        );
    }

    #[test]
    fn a_curve_has_axes_and_marks() {
        let one = Figure::Curve(Curve {
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
        });
        let text = drawn(&one);
        assert!(text.contains("50 +"), "{text}");
        assert!(text.contains("- - target 40"), "{text}");
        assert!(text.lines().count() > TALL, "{text}");
        assert!(text.lines().all(|line| columns(line) <= 60), "{text}");
    }
}
