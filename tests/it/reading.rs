//! Reading files that nobody meant well: bounded time and memory, a clear problem, never a panic.

use std::time::{Duration, Instant};

use drybench::syllabus::read::{
    Fault, Feature, MOST_BYTES, MOST_DEPTH, MOST_NODES, MOST_PROBLEMS, MapReader, Node, Problem,
    Problems, Report, Shape, SyntaxFault, Value, parse, read, text,
};

mod damage;

const SAMPLE: &str = include_str!("reading/sample.yaml");

/// Far above what any file takes, far below what a person would wait for.
const PATIENCE: Duration = Duration::from_secs(10);

/// Does something within the time that is allowed and says how long it took.
#[expect(clippy::disallowed_methods, reason = "measures how long reading takes")]
#[expect(clippy::print_stderr, reason = "tells the time next to the result")]
fn timed<T>(what: &str, act: impl FnOnce() -> T) -> T {
    let start = Instant::now();
    let result = act();
    let took = start.elapsed();
    eprintln!("{took:>12.3?}  {what}");
    assert!(took < PATIENCE, "{what} took {took:?}");
    result
}

/// Parses within the time that is allowed.
fn parsed(what: &str, bytes: &[u8]) -> Result<Node, Report> {
    timed(what, || {
        let mut problems = Problems::new();
        let tree = parse(bytes, &mut problems);
        let sound = problems.is_empty();
        tree.filter(|_| sound).ok_or_else(|| problems.report())
    })
}

fn only_fault(what: &str, bytes: &[u8]) -> Fault {
    let report = parsed(what, bytes).expect_err(what);
    let [Problem { at, what: fault }] = &report.problems[..] else {
        panic!("{what}: {report:?}");
    };
    assert!(at.start <= at.end && 1 <= at.line && 1 <= at.column);
    fault.clone()
}

/// A piece repeated until a file is full.
fn full_of(piece: &str, most: usize) -> Vec<u8> {
    piece.repeat(most / piece.len()).into_bytes()
}

#[test]
fn a_sound_module_is_read_without_a_word() {
    let tree = parsed("the sample", SAMPLE.as_bytes()).unwrap();
    assert_eq!(tree.shape(), Shape::Map);
    check(&tree, SAMPLE);
}

/// Holds every place of a tree against the file.
fn check(node: &Node, file: &str) {
    let at = node.at;
    let written = file.get(at.start..at.end).expect("a stretch of the file");
    let before = &file[..at.start];
    let line = before.matches('\n').count() + 1;
    assert_eq!(usize::try_from(at.line), Ok(line));
    match &node.value {
        Value::Scalar {
            text,
            quoted: false,
        } if !written.contains('\n') => {
            assert_eq!(written, text);
        }
        Value::Scalar { .. } | Value::Empty => {}
        Value::List(items) => items.iter().for_each(|item| check(item, file)),
        Value::Map(entries) => {
            for (key, node) in entries {
                assert_eq!(&file[key.at.start..key.at.end], key.text);
                check(node, file);
            }
        }
    }
}

#[test]
fn deep_nesting_ends_at_the_limit() {
    let too_deep = Fault::TooDeep { most: MOST_DEPTH };
    for piece in ["[", "{", "[{a: ", "{a: [", "- "] {
        let bytes = piece.repeat(100_000).into_bytes();
        assert_eq!(only_fault(piece, &bytes), too_deep, "{piece}");
    }
    // Depth made of keys ends sooner: a key is a text.
    for piece in ["? ", "- ? ", "[? ["] {
        let bytes = piece.repeat(100_000).into_bytes();
        let fault = only_fault(piece, &bytes);
        assert!(fault == Fault::KeyIsNoText || fault == too_deep, "{piece}");
    }
    let mut staircase = String::new();
    for depth in 0..1000 {
        staircase.push_str(&format!("{}a:\n", " ".repeat(depth)));
    }
    assert_eq!(only_fault("staircase", staircase.as_bytes()), too_deep);
}

#[test]
fn an_alias_bomb_has_nothing_to_expand() {
    let mut bomb = String::from("a: &a [x, x, x, x, x, x, x, x, x]\n");
    for (name, before) in ('b'..='i').zip('a'..) {
        let list = format!("*{before}, ").repeat(9);
        bomb.push_str(&format!("{name}: &{name} [{list}]\n"));
    }
    let fault = only_fault("alias bomb", bomb.as_bytes());
    assert_eq!(fault, Fault::NotUsed(Feature::Anchor));
    let fault = only_fault("itself", b"a: &a [*a]\n");
    assert_eq!(fault, Fault::NotUsed(Feature::Anchor));
    let fault = only_fault("nobody", b"a: [*b]\n");
    assert_eq!(fault, Fault::NotUsed(Feature::Alias));
}

#[test]
fn a_large_file_is_refused_unread() {
    let too_large = Fault::TooLarge { most: MOST_BYTES };
    let large = vec![b'['; 100 * 1024 * 1024];
    assert_eq!(only_fault("100 MiB of brackets", &large), too_large);
    let scalar = vec![b'a'; 100 * 1024 * 1024];
    assert_eq!(only_fault("one scalar of 100 MiB", &scalar), too_large);
}

#[test]
fn full_files_of_any_kind_end_in_time() {
    let pieces = [
        "a",
        "é",
        " ",
        "\n",
        "\r",
        "\t",
        "#",
        "# a\n",
        "a: b\n",
        "- a\n",
        "a\n",
        "a \n",
        "a,",
        ",",
        "[],",
        "{},",
        "'",
        "''",
        "\"",
        "\\",
        "\"\",",
        "'a' ",
        "|\n",
        ">\n",
        ": ",
        "? a\n",
        "?\n",
        "-\n",
        "- - a\n",
        "&a ",
        "*a ",
        "!a ",
        "!",
        "%",
        "%a\n",
        "---\n",
        "...\n",
        "--- a\n",
        "@",
        "`",
        "<<: a\n",
        "a:\n",
        "a: [\n",
        "[a, b]: c\n",
        "a: 'b\n",
        "\u{feff}",
        "a #",
        "a: |\n b\n",
        "- |\n  a\n\n\n",
        "\n\n a",
        "  \n",
        "{a: b}\n",
        "[a]\n",
        "]",
        "}",
        "]}",
        "a: &a b\n",
        "\\\n",
    ];
    for piece in pieces {
        for start in [
            "", "[", "{", "a: ", "- ", "'", "\"", "|\n ", ">\n ", "? ", "{a: ",
        ] {
            // A quarter of the size shows growth with the square as well, and leaves time for every pair.
            let most = match start {
                "" => MOST_BYTES,
                _ => MOST_BYTES / 4,
            };
            let mut bytes = start.as_bytes().to_vec();
            bytes.extend(full_of(piece, most));
            bytes.truncate(most);
            // Cutting may halve a character: that has an answer too.
            let _outcome = parsed(&format!("{start:?} then {piece:?}"), &bytes);
        }
    }
}

#[test]
fn more_values_than_any_module_has_are_refused() {
    let too_many = Fault::TooMany { most: MOST_NODES };
    for piece in ["- a\n", "- []\n", "-\n"] {
        assert_eq!(
            only_fault(piece, &full_of(piece, MOST_BYTES)),
            too_many,
            "{piece}"
        );
    }
    let mut keys = String::new();
    for number in 0..MOST_NODES {
        keys.push_str(&format!("k{number}: v\n"));
    }
    assert_eq!(only_fault("many keys", keys.as_bytes()), too_many);
}

#[test]
fn a_flood_of_problems_is_cut_and_counted() {
    let report = parsed("one key, many times", "a: b\n".repeat(40_000).as_bytes()).unwrap_err();
    assert_eq!(report.problems.len(), MOST_PROBLEMS);
    assert_eq!(report.more, 40_000 - 1 - MOST_PROBLEMS);

    let mut keys = String::new();
    for number in 0..40_000 {
        keys.push_str(&format!("aftr{number}: v\n"));
    }
    let report = timed("keys that nobody knows", || {
        read(keys.as_bytes(), |node, problems| {
            let mut map = MapReader::open(node, problems)?;
            let after = map.list("after", text);
            map.finish();
            Some(after)
        })
    })
    .unwrap_err();
    assert_eq!(report.problems.len(), MOST_PROBLEMS);
    assert_eq!(report.more, 40_000 - MOST_PROBLEMS);
}

#[test]
fn a_huge_value_makes_a_small_complaint() {
    let bytes = format!("{}: 1\n", "k".repeat(1000));
    let report = read(bytes.as_bytes(), |node, problems| {
        MapReader::open(node, problems)?.finish();
        Some(())
    })
    .unwrap_err();
    let Fault::UnknownKey { found, .. } = &report.problems[0].what else {
        panic!("{report:?}");
    };
    assert!(found.chars().count() <= 61);
}

#[test]
fn a_tab_and_a_bare_colon_are_shown_where_they_stand() {
    let with_tab = SAMPLE.replacen("  tooth:", "\ttooth:", 1);
    let report = parsed("a tab", with_tab.as_bytes()).unwrap_err();
    let problem = &report.problems[0];
    assert_eq!(problem.what, Fault::Syntax(SyntaxFault::Tab));
    assert_eq!((problem.at.line, problem.at.column), (9, 1));

    let with_colon = SAMPLE.replace(
        "\"Before anything has been put in: the second bath looks like thin milk.\"",
        "Milky: look.",
    );
    let report = parsed("a bare colon", with_colon.as_bytes()).unwrap_err();
    let problem = &report.problems[0];
    assert_eq!(problem.what, Fault::Syntax(SyntaxFault::StrayColon));
    assert_eq!(problem.at.column, 16);
}

#[test]
fn line_ends_of_other_systems_and_a_byte_order_mark_change_nothing() {
    fn bare(node: &Node) -> String {
        match &node.value {
            Value::Scalar { text, quoted } => format!("{text:?}{quoted}"),
            Value::Empty => String::new(),
            Value::List(items) => format!("{:?}", items.iter().map(bare).collect::<Vec<_>>()),
            Value::Map(entries) => {
                let entries = entries.iter().map(|(key, node)| (&key.text, bare(node)));
                format!("{:?}", entries.collect::<Vec<_>>())
            }
        }
    }
    let expected = bare(&parsed("the sample", SAMPLE.as_bytes()).unwrap());
    let windows = SAMPLE.replace('\n', "\r\n");
    assert_eq!(bare(&parsed("CRLF", windows.as_bytes()).unwrap()), expected);
    let marked = format!("\u{feff}{SAMPLE}");
    assert_eq!(bare(&parsed("BOM", marked.as_bytes()).unwrap()), expected);
}
