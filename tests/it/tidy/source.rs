//! Reads Rust source just well enough: code without comments and literals, and the literals with their places.

/// A source file taken apart.
pub(super) struct Source {
    /// The code, character for character, with blanks for comments and for what stands in literals.
    pub(super) code: Vec<char>,
    /// Every string literal with the index of its opening quote in `code`.
    pub(super) literals: Vec<(usize, String)>,
}

impl Source {
    /// Takes a source text apart.
    pub(super) fn read(text: &str) -> Source {
        let chars: Vec<char> = text.chars().collect();
        let mut source = Source {
            code: Vec::with_capacity(chars.len()),
            literals: Vec::new(),
        };
        let mut at = 0;
        while at < chars.len() {
            at = source.take(&chars, at);
        }
        source
    }

    /// Returns the 1-based line of an index.
    pub(super) fn line(&self, index: usize) -> usize {
        1 + self.code[..index].iter().filter(|&&c| c == '\n').count()
    }

    /// Copies or blanks what starts at `at` and returns where it ends.
    fn take(&mut self, chars: &[char], at: usize) -> usize {
        let next = |offset: usize| chars.get(at + offset).copied().unwrap_or('\0');
        let in_word = at > 0 && is_word(chars[at - 1]);
        match chars[at] {
            '/' if next(1) == '/' => self.blank(chars, at, line_end(chars, at)),
            '/' if next(1) == '*' => self.blank(chars, at, block_end(chars, at)),
            '"' => self.text(chars, at, 0, false),
            'r' if !in_word || chars[at - 1] == 'b' => {
                let hashes = chars[at + 1..].iter().take_while(|&&c| c == '#').count();
                if next(1 + hashes) == '"' {
                    self.code.extend(&chars[at..=at + hashes]);
                    self.text(chars, at + 1 + hashes, hashes, true)
                } else {
                    self.code.push('r');
                    at + 1
                }
            }
            // A lifetime has no closing quote two characters on; a character has, or a backslash.
            '\'' if next(1) == '\\' => {
                let end = (at + 3..chars.len())
                    .find(|&i| chars[i] == '\'')
                    .map_or(chars.len(), |i| i + 1);
                self.blank(chars, at, end)
            }
            '\'' if next(2) == '\'' => self.blank(chars, at, at + 3),
            other => {
                self.code.push(other);
                at + 1
            }
        }
    }

    /// Notes a string whose opening quote is at `at`.
    fn text(&mut self, chars: &[char], at: usize, hashes: usize, raw: bool) -> usize {
        let mut end = at + 1;
        while end < chars.len() {
            if !raw && chars[end] == '\\' {
                end += 2;
                continue;
            }
            let closing = chars[end + 1..].iter().take_while(|&&c| c == '#').count();
            if chars[end] == '"' && closing >= hashes {
                break;
            }
            end += 1;
        }
        let end = end.min(chars.len());
        self.literals
            .push((self.code.len(), chars[at + 1..end].iter().collect()));
        self.code.push('"');
        self.blank(chars, at + 1, end);
        if end < chars.len() {
            self.code.push('"');
        }
        end + 1
    }

    fn blank(&mut self, chars: &[char], from: usize, to: usize) -> usize {
        let to = to.min(chars.len());
        self.code.extend(
            chars[from..to]
                .iter()
                .map(|&c| if c == '\n' { '\n' } else { ' ' }),
        );
        to
    }
}

/// Tells characters that names are made of.
pub(super) fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

fn line_end(chars: &[char], from: usize) -> usize {
    (from..chars.len())
        .find(|&at| chars[at] == '\n')
        .unwrap_or(chars.len())
}

fn block_end(chars: &[char], from: usize) -> usize {
    let mut depth = 0_usize;
    let mut at = from;
    while at + 1 < chars.len() {
        match (chars[at], chars[at + 1]) {
            ('/', '*') => {
                depth += 1;
                at += 2;
            }
            ('*', '/') => {
                depth -= 1;
                at += 2;
                if depth == 0 {
                    return at;
                }
            }
            _ => at += 1,
        }
    }
    chars.len()
}

#[test]
fn literals_and_comments_are_told_from_code() {
    let text = r##"use a; // crate::b
/* crate::c /* nested */ */ let x = "crate::d \" //"; let y = r#"e " f"#; let z: &'static str = b"g"; 'h'; '\''; i
"##;
    let source = Source::read(text);
    let code: String = source.code.iter().collect();
    assert_eq!(code.chars().count(), text.chars().count());
    assert!(!code.contains("crate") && !code.contains('h'), "{code}");
    assert!(
        code.contains("'static str") && code.contains("; i"),
        "{code}"
    );
    let texts: Vec<&str> = source
        .literals
        .iter()
        .map(|(_, text)| text.as_str())
        .collect();
    assert_eq!(texts, ["crate::d \\\" //", "e \" f", "g"]);
    assert_eq!(source.line(source.literals[0].0), 2);
}
