//! Finds where a source file reaches into other rooms: `crate::…` in imports and in the middle of code, and `super` chains.

use super::source::{Source, is_word};

/// A reach from one room into another, or out of its own.
pub(super) struct Reach {
    pub(super) line: usize,
    /// The room that is used; `None` for a path that hides which one it is.
    pub(super) room: Option<String>,
    /// What is wrong whoever may use whom.
    pub(super) wrong: Option<&'static str>,
}

/// Returns the room that a file below `src/` belongs to.
pub(super) fn room_of(path: &str) -> &str {
    let inside = path.strip_prefix("src/").unwrap_or(path);
    let first = inside.split('/').next().unwrap_or(inside);
    first.strip_suffix(".rs").unwrap_or(first)
}

/// Finds every `crate::…` and every `super::` chain that climbs out of its room.
pub(super) fn reaches(path: &str, text: &str) -> Vec<Reach> {
    let source = Source::read(text);
    let code = &source.code;
    let depths = depths(path, code);
    let mut found = Vec::new();
    let mut at = 0;
    while at < code.len() {
        let starts_word =
            is_word(code[at]) && (at == 0 || !is_word(code[at - 1]) && code[at - 1] != '$');
        if starts_word && has(code, at, "crate::") {
            for (room, glob) in heads(code, at + "crate::".len()) {
                let foreign = room.as_deref() != Some(room_of(path));
                found.push(Reach {
                    line: source.line(at),
                    room,
                    wrong: (glob && foreign)
                        .then_some("a glob import hides what is used of another room"),
                });
            }
            at += "crate::".len();
        } else if starts_word && has(code, at, "super::") {
            let mut climbed = 0;
            let start = at;
            while has(code, at, "super::") {
                climbed += 1;
                at += "super::".len();
            }
            if climbed >= depths[start] {
                found.push(Reach {
                    line: source.line(start),
                    room: None,
                    wrong: Some("a chain of `super` leaves the room; say `crate::`"),
                });
            }
        } else {
            at += 1;
        }
    }
    found
}

fn has(code: &[char], at: usize, word: &str) -> bool {
    word.chars()
        .enumerate()
        .all(|(i, c)| code.get(at + i) == Some(&c))
}

/// Returns the first names behind `crate::` (several in braces), and whether all of the name is imported by `*`.
fn heads(code: &[char], from: usize) -> Vec<(Option<String>, bool)> {
    let statement: String = code[from..].iter().take_while(|&&c| c != ';').collect();
    let Some(group) = statement.strip_prefix('{') else {
        let name: String = statement.chars().take_while(|&c| is_word(c)).collect();
        let path: String = statement
            .chars()
            .take_while(|&c| is_word(c) || "*:{}, \n".contains(c))
            .collect();
        return vec![((!name.is_empty()).then_some(name), is_glob(&path))];
    };
    let mut depth = 0_i32;
    let mut parts = vec![String::new()];
    for c in group.chars() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            _ => {}
        }
        if c == ',' && depth == 0 {
            parts.push(String::new());
        } else if let Some(part) = parts.last_mut() {
            part.push(c);
        }
    }
    parts
        .iter()
        .map(|part| part.trim())
        .filter(|part| !part.is_empty())
        .map(|part| {
            let name: String = part.chars().take_while(|&c| is_word(c)).collect();
            ((!name.is_empty()).then_some(name), is_glob(part))
        })
        .collect()
}

/// Tells `a::*` and `a::{b, *}` from a product such as `a::B * c`.
fn is_glob(path: &str) -> bool {
    let path: String = path.split_whitespace().collect();
    path.starts_with('*')
        || path.contains("::*")
        || path.contains("{*")
        || path.contains('{') && path.contains(",*")
}

/// For each character: how many modules deep it stands. The room itself is one deep.
fn depths(path: &str, code: &[char]) -> Vec<usize> {
    let inside = path.strip_prefix("src/").unwrap_or(path);
    let mut of_file = inside.split('/').count();
    if inside.ends_with("/mod.rs") {
        of_file -= 1;
    }
    let mut open = Vec::new();
    let mut depths = Vec::with_capacity(code.len());
    for (at, &c) in code.iter().enumerate() {
        match c {
            '{' => open.push(opens_module(&code[..at])),
            '}' => {
                open.pop();
            }
            _ => {}
        }
        depths.push(of_file + open.iter().filter(|&&is_module| is_module).count());
    }
    depths
}

fn opens_module(before: &[char]) -> bool {
    let tail: String = before[before.len().saturating_sub(60)..].iter().collect();
    let mut words = tail.split_whitespace().rev();
    words.next().is_some_and(|name| name.chars().all(is_word)) && words.next() == Some("mod")
}
