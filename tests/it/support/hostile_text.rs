//! Texts that nobody means well, and what of them must never come out.

use drybench::rng::Stream;

use super::dangerous::DANGEROUS;

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
