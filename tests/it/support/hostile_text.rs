//! Texts that nobody means well, and what of them must never come out.

use drybench::rng::Stream;

/// Characters that change order, joining, width or the terminal itself.
const DANGEROUS: [char; 44] = [
    '\u{0}',
    '\u{7}',
    '\t',
    '\n',
    '\r',
    '\u{1b}',
    '\u{7f}',
    '\u{85}',
    '\u{9b}',
    '\u{200B}',
    '\u{200D}',
    '\u{200F}',
    '\u{202E}',
    '\u{2028}',
    '\u{2066}',
    '\u{2069}',
    '\u{FEFF}',
    '\u{FFFE}',
    '\u{301}',
    '\u{600}',
    '\u{622}',
    '\u{627}',
    '\u{644}',
    '\u{915}',
    '\u{93F}',
    '\u{94D}',
    '\u{E33}',
    '\u{1100}',
    '\u{1161}',
    '\u{11A8}',
    '\u{17D2}',
    '\u{1780}',
    '\u{1A15}',
    '\u{2D7F}',
    '\u{A4F8}',
    '\u{A4FC}',
    '\u{FE0F}',
    '\u{20E3}',
    '\u{26A0}',
    '\u{1F1E6}',
    '\u{1F3FD}',
    '\u{1F468}',
    '\u{E0041}',
    '寸',
];

/// The texts of a seed: half of the characters dangerous, the rest from anywhere.
pub(crate) fn hostile(stream: &mut Stream) -> String {
    let length = stream.between(0, 24);
    (0..length)
        .filter_map(|_| {
            if stream.between(0, 1) == 0 {
                let last = i64::try_from(DANGEROUS.len()).unwrap() - 1;
                let at = usize::try_from(stream.between(0, last)).unwrap();
                Some(DANGEROUS[at])
            } else {
                char::from_u32(u32::try_from(stream.between(0x20, 0x10_FFFF)).unwrap())
            }
        })
        .collect()
}

/// Tells what must never reach a terminal as it is.
pub(crate) fn is_raw(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{00AD}' | '\u{061C}' | '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}'
            | '\u{2060}'..='\u{206F}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}' | '\u{E0000}'..='\u{E0FFF}')
}
