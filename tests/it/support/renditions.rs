//! What a program has sent to set colours and effects.

/// The parameters of every sequence that sets colours or effects.
pub(crate) fn renditions(raw: &[u8]) -> Vec<String> {
    let text = String::from_utf8_lossy(raw);
    text.split("\u{1b}[")
        .skip(1)
        .filter_map(|rest| {
            let end = rest.find(|c: char| !c.is_ascii_digit() && c != ';' && c != ':')?;
            rest[end..].starts_with('m').then(|| rest[..end].to_owned())
        })
        .collect()
}

/// Tells parameters that set a colour, the terminal's own included (ECMA-48, SGR, and the bright ones of terminals).
pub(crate) fn sets_colour(parameters: &str) -> bool {
    parameters
        .split([';', ':'])
        .filter_map(|part| part.parse().ok())
        .any(|part: u32| matches!(part, 30..=49 | 90..=107))
}
