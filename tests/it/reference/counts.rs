//! The table of counts in README against what the checks count in the project's own folder.

use super::{CHECKS, Tally, own_cases};

/// The head of the table.
const HEAD: &str = "\
| file | cases | published | library | cross-computed | not owed |
|---|---|---|---|---|---|
";

/// A row of the table: the file and its numbers, those of what is not owed last.
type Row = (String, Vec<usize>);

/// The row that a file's checks come to.
fn counted(name: &str, tally: &Tally) -> Row {
    let mut numbers = vec![tally.count()];
    numbers.extend([tally.published, tally.library, tally.cross_computed]);
    numbers.extend(tally.not_owed.values());
    (name.to_owned(), numbers)
}

/// The rows of the table in a text. Every number of a row counts, wherever it stands.
fn written(text: &str) -> Vec<Row> {
    let table = text.split_once(HEAD).map_or("", |(_, table)| table);
    let rows = table.lines().take_while(|line| line.starts_with('|'));
    rows.map(|row| {
        let mut cells = row.split('|').skip(1).map(str::trim);
        let file = cells.next().and_then(|cell| cell.split(' ').next());
        let numbers = cells
            .flat_map(str::split_whitespace)
            .filter_map(|word| word.parse().ok());
        (file.unwrap_or_default().to_owned(), numbers.collect())
    })
    .collect()
}

/// The counts of every file of cases, by its own checks.
fn all_counted() -> Vec<Row> {
    let mut rows: Vec<Row> = CHECKS
        .iter()
        .map(|(name, check)| counted(name, &check(&own_cases(name)).tally))
        .collect();
    rows.sort();
    rows
}

/// The rows of README, sorted.
fn readme() -> (String, Vec<Row>) {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let text = std::fs::read_to_string(path).expect("README can be read");
    let mut rows = written(&text);
    rows.sort();
    (text, rows)
}

#[test]
fn the_readme_counts_what_the_checks_count() {
    assert_eq!(readme().1, all_counted(), "README on the left");
}

#[test]
fn a_count_altered_in_the_readme_is_noticed() {
    let counted = all_counted();
    let (text, rows) = readme();
    let differs = |from: &str, to: &str| {
        let altered = text.replacen(from, to, 1);
        assert_ne!(altered, text, "{from}");
        let mut rows = written(&altered);
        rows.sort();
        rows != counted
    };
    // Every number of every row, one at a time.
    let mut altered = 0;
    for line in text.lines().filter(|line| line.starts_with('|')) {
        let [row] = &written(&format!("{HEAD}{line}\n"))[..] else {
            panic!("{line} is a row");
        };
        if !rows.contains(row) {
            continue;
        }
        let words: Vec<&str> = line.split(' ').collect();
        for (at, word) in words.iter().enumerate() {
            let Ok(number) = word.parse::<usize>() else {
                continue;
            };
            let more = (number + 1).to_string();
            let mut words = words.clone();
            words[at] = &more;
            altered += 1;
            assert!(differs(line, &words.join(" ")), "{word} of {line}");
        }
        assert!(differs(&format!("{line}\n"), ""), "without {line}");
    }
    let numbers: usize = rows.iter().map(|(_, numbers)| numbers.len()).sum();
    assert_eq!(altered, numbers);
    assert!(differs("| file | cases |", "| file | all cases |"));
}
