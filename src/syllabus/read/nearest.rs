//! The known name that a misspelt one most likely meant.
//!
//! Used for keys, words and references alike, so that every complaint about a name can offer a way out.
//! A far-fetched suggestion is worse than none: the allowed distance grows with the length of the name, up to three.

/// Names longer than this get no suggestion, so that a hostile file cannot buy time with long names.
const MOST_CHARS: usize = 64;

/// Returns the name of `known` that is nearest to `found`, or `None` if none is near.
///
/// Letter case and the difference between space, `_` and `-` count for nothing.
/// Of equally near names the first one wins, so the order of `known` makes the answer certain.
///
/// ```
/// use drybench::syllabus::read::nearest;
///
/// assert_eq!(nearest("majr", ["minor", "major", "critical"]), Some("major"));
/// assert_eq!(nearest("kept_by", ["at", "kept-by"]), Some("kept-by"));
/// assert_eq!(nearest("banana", ["minor", "major"]), None);
/// ```
pub fn nearest<'k>(found: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
    let wanted = folded(found)?;
    let allowed = match wanted.len() {
        0 => return None,
        1..=2 => 0,
        3..=5 => 1,
        6..=9 => 2,
        _ => 3,
    };
    let mut best: Option<(usize, &'k str)> = None;
    for name in known {
        let Some(letters) = folded(name) else {
            continue;
        };
        if letters.len().abs_diff(wanted.len()) > allowed {
            continue;
        }
        let far = distance(&wanted, &letters);
        if far <= allowed && best.is_none_or(|(least, _)| far < least) {
            best = Some((far, name));
        }
    }
    best.map(|(_, name)| name)
}

/// The letters that are compared, or `None` if there are too many.
fn folded(name: &str) -> Option<Vec<char>> {
    let letters: Vec<char> = name
        .chars()
        .take(MOST_CHARS + 1)
        .flat_map(char::to_lowercase)
        .map(|letter| match letter {
            ' ' | '_' => '-',
            other => other,
        })
        .collect();
    (letters.len() <= MOST_CHARS).then_some(letters)
}

/// Counts the letters to insert, drop, change or swap with their neighbour.
fn distance(from: &[char], to: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=to.len()).collect();
    for (row, &letter) in from.iter().enumerate() {
        let mut here = vec![row + 1];
        for (column, &other) in to.iter().enumerate() {
            let change = above[column] + usize::from(letter != other);
            let mut least = change.min(above[column + 1] + 1).min(here[column] + 1);
            let swapped = row > 0
                && column > 0
                && letter == to[column - 1]
                && from[row - 1] == other
                && letter != other;
            if swapped {
                least = least.min(before[column - 1] + 1);
            }
            here.push(least);
        }
        before = std::mem::replace(&mut above, here);
    }
    above[to.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_of_the_finger_are_found() {
        let known = ["severity", "after", "needs", "makes", "kept-by", "at"];
        for (found, expected) in [
            ("severty", "severity"),
            ("seveirty", "severity"),
            ("Severity", "severity"),
            ("aftre", "after"),
            ("need", "needs"),
            ("kept by", "kept-by"),
            ("AT", "at"),
        ] {
            assert_eq!(nearest(found, known), Some(expected), "{found}");
        }
    }

    #[test]
    fn what_is_far_gets_no_suggestion() {
        for found in ["", "on", "colour", "x".repeat(1_000_000).as_str()] {
            assert_eq!(nearest(found, ["severity", "after", "at"]), None);
        }
    }

    #[test]
    fn the_first_of_equally_near_names_wins() {
        assert_eq!(nearest("bace", ["base", "face"]), Some("base"));
        assert_eq!(nearest("bace", ["face", "base"]), Some("face"));
    }

    proptest::proptest! {
        #[test]
        fn a_known_name_is_its_own_nearest(name in "[a-z][a-z-]{0,20}", other in "[a-z-]{1,20}") {
            let found = nearest(&name, [other.as_str(), name.as_str()]);
            proptest::prop_assert!(found == Some(name.as_str()) || other == name);
        }

        #[test]
        fn distance_is_the_same_both_ways(one in "[a-d]{0,8}", two in "[a-d]{0,8}") {
            let (one, two): (Vec<char>, Vec<char>) = (one.chars().collect(), two.chars().collect());
            proptest::prop_assert_eq!(distance(&one, &two), distance(&two, &one));
        }
    }
}
