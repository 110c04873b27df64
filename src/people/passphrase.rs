//! Passphrases: what was typed, which new ones are refused, and how long to wait after refusals.

use std::fmt;

use zeroize::Zeroizing;

/// The shortest new passphrase, in characters. Our default; NIST SP 800-63B asks for 8, and for 15 where nothing else protects. From memory.
const CHARACTERS_LEAST: usize = 12;
/// The longest, in characters. Our default; NIST SP 800-63B asks that at least 64 be possible. From memory.
const CHARACTERS_MOST: usize = 256;
/// Words of a name that are shorter say nothing about whose they are. In characters; our default.
const WORD_LEAST: usize = 3;

/// The longest wait, in seconds: 15 minutes. Our default.
const DELAY_MOST: u32 = 15 * 60;
/// So many refusals in a row cost no wait: fingers slip. Our default.
const FREE_REFUSALS: u16 = 2;

/// Passphrases of 12 letters and digits or more that are guessed first, without what is neither letter nor digit. That such a list is to be compared
/// with comes from NIST SP 800-63B; the list itself is from memory.
const WELL_KNOWN: [&str; 28] = [
    "012345678901",
    "0123456789012",
    "01234567890123456789",
    "0987654321098",
    "123123123123",
    "123456123456",
    "1234567890ab",
    "123456789012",
    "1234567890123",
    "12345678901234567890",
    "123456789abc",
    "1q2w3e4r5t6y",
    "1qaz2wsx3edc",
    "abcdefghijkl",
    "abcdefghijklmnopqrstuvwxyz",
    "administrator",
    "adminadminadmin",
    "changemechangeme",
    "correcthorsebatterystaple",
    "iloveyouiloveyou",
    "letmeinletmein",
    "passphrase123",
    "password1234",
    "passwordpassword",
    "qwerty123456",
    "qwertyuiop123",
    "qwertyuiopasdf",
    "thequickbrownfox",
];

/// A passphrase as it was typed, byte for byte. Wiped from memory when it is dropped; printed nowhere, and never copied.
pub struct Passphrase(Zeroizing<String>);

/// Why a new passphrase is refused. There are no rules about what it is composed of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassphraseProblem {
    /// It has too few characters. Holds how many are needed.
    TooShort(usize),
    /// It has too many characters. Holds how many are allowed.
    TooLong(usize),
    /// It holds a control character, such as a tab.
    Character,
    /// It is one character, over and over.
    OneCharacter,
    /// More than half of it is the person's code or name.
    Name,
    /// It is among those that are guessed first.
    WellKnown,
}

impl Passphrase {
    /// Takes what was typed. Any text will do: whether it opens a key is for the key to say.
    ///
    /// The text is taken over, not copied. Whatever held it while it was typed has to be wiped by whoever filled it.
    #[must_use]
    pub fn typed(text: String) -> Passphrase {
        Passphrase(Zeroizing::new(text))
    }

    /// The bytes that a key is derived from: the text in UTF-8, with nothing changed.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        self.0.as_bytes()
    }

    /// Checks a new passphrase against the person's code and names. Those that are in use already are not asked this.
    ///
    /// # Errors
    ///
    /// The first rule that it breaks.
    pub fn check_new(&self, names: &[&str]) -> Result<(), PassphraseProblem> {
        let count = self.0.chars().count();
        if count < CHARACTERS_LEAST {
            return Err(PassphraseProblem::TooShort(CHARACTERS_LEAST));
        }
        if count > CHARACTERS_MOST {
            return Err(PassphraseProblem::TooLong(CHARACTERS_MOST));
        }
        if self.0.chars().any(char::is_control) {
            return Err(PassphraseProblem::Character);
        }
        let first = self.0.chars().next();
        if self.0.chars().all(|c| Some(c) == first) {
            return Err(PassphraseProblem::OneCharacter);
        }
        let folded = folded(&self.0);
        if mainly_of(&folded, count, names) {
            return Err(PassphraseProblem::Name);
        }
        let known = |known: &&str| known.chars().eq(folded.iter().copied());
        if WELL_KNOWN.iter().any(known) {
            return Err(PassphraseProblem::WellKnown);
        }
        Ok(())
    }
}

impl fmt::Debug for Passphrase {
    /// Says nothing of it, not even its length.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a passphrase")
    }
}

/// How long to wait before the next try, in seconds, after so many passphrases in a row were refused: nothing for two, then 2 s, doubled each
/// time, 15 min at most. Our default.
#[must_use]
pub fn delay(refused_in_a_row: u16) -> u32 {
    match refused_in_a_row.checked_sub(FREE_REFUSALS) {
        None | Some(0) => 0,
        Some(doublings) => 1_u32
            .checked_shl(u32::from(doublings))
            .map_or(DELAY_MOST, |seconds| seconds.min(DELAY_MOST)),
    }
}

/// Letters and digits only, in lower case, so that case and marks between do not hide a word.
fn folded(text: &str) -> Zeroizing<Vec<char>> {
    let mut folded = Zeroizing::new(Vec::with_capacity(2 * text.len()));
    let kept = text.chars().filter(|c| c.is_alphanumeric());
    folded.extend(kept.flat_map(char::to_lowercase));
    folded
}

/// Tells whether more than half of a passphrase of so many characters is made of words of these names.
fn mainly_of(folded: &[char], count: usize, names: &[&str]) -> bool {
    let mut covered = vec![false; folded.len()];
    for name in names {
        let words = name.split(|c: char| !c.is_alphanumeric());
        // The whole as well: a name of short words, and a code with its P.
        for word in words.chain([*name]) {
            let word = self::folded(word);
            if word.len() < WORD_LEAST {
                continue;
            }
            for (at, window) in folded.windows(word.len()).enumerate() {
                if *window == **word {
                    covered[at..at + word.len()].fill(true);
                }
            }
        }
    }
    2 * covered.into_iter().filter(|&covered| covered).count() > count
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, names: &[&str]) -> Result<(), PassphraseProblem> {
        Passphrase::typed(text.to_owned()).check_new(names)
    }

    #[test]
    fn length_is_counted_in_characters() {
        for (text, expected) in [
            ("elevenchars", Err(PassphraseProblem::TooShort(12))),
            ("twelve chars", Ok(())),
            // 11 and 12 characters, 22 and 24 bytes.
            ("äöüßäöüßäöü", Err(PassphraseProblem::TooShort(12))),
            ("äöüßäöüßäöüß", Ok(())),
            ("", Err(PassphraseProblem::TooShort(12))),
        ] {
            assert_eq!(check(text, &[]), expected, "{text}");
        }
        let long = "ab".repeat(128);
        assert_eq!(check(&long, &[]), Ok(()));
        let longer = format!("{long}c");
        assert_eq!(check(&longer, &[]), Err(PassphraseProblem::TooLong(256)));
    }

    #[test]
    fn there_are_no_rules_of_composition() {
        for text in [
            "small letters alone",
            "   spaces before",
            "73910586224917",
            "義歯床用材料研磨工程検査室",
            "🦷 and other signs",
        ] {
            assert_eq!(check(text, &["Invented Person", "P-7K3MQ1"]), Ok(()));
        }
    }

    #[test]
    fn what_is_easily_guessed_is_refused() {
        let names = ["P-7K3MQ1", "Ana-Maria Invented", "Li Wu"];
        for (text, problem) in [
            ("tab\tin the midst", PassphraseProblem::Character),
            ("with a line end\n", PassphraseProblem::Character),
            ("zzzzzzzzzzzzzzz", PassphraseProblem::OneCharacter),
            ("             ", PassphraseProblem::OneCharacter),
            ("ana maria invented", PassphraseProblem::Name),
            ("AnaMaria2026!", PassphraseProblem::Name),
            ("INVENTED-INVENTED", PassphraseProblem::Name),
            ("p-7k3mq1P-7K3MQ1", PassphraseProblem::Name),
            ("7K3MQ1 7K3MQ1", PassphraseProblem::Name),
            ("li wu li wu li wu", PassphraseProblem::Name),
            ("Password 1234", PassphraseProblem::WellKnown),
            ("correct horse battery staple", PassphraseProblem::WellKnown),
            ("1234-5678-9012", PassphraseProblem::WellKnown),
        ] {
            assert_eq!(check(text, &names), Err(problem), "{text:?}");
        }
        // A name in the midst of something longer is no reason.
        assert_eq!(check("maria sings at the open window", &names), Ok(()));
        assert_eq!(check("ana maria invented", &["Somebody Else"]), Ok(()));
    }

    #[test]
    fn every_well_known_one_is_long_enough_to_be_met() {
        for known in WELL_KNOWN {
            assert_eq!(check(known, &[]), Err(PassphraseProblem::WellKnown));
        }
    }

    #[test]
    fn a_passphrase_is_not_printed() {
        let passphrase = Passphrase::typed("not to be seen".to_owned());
        assert_eq!(format!("{passphrase:?}"), "a passphrase");
    }

    #[test]
    fn waits_begin_after_two_refusals_and_double_up_to_a_quarter_of_an_hour() {
        let waits: Vec<u32> = (0..13).map(delay).collect();
        assert_eq!(waits, [0, 0, 0, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900]);
        assert_eq!(delay(u16::MAX), 900);
        assert!((0..u16::MAX).all(|count| delay(count) <= delay(count + 1)));
    }
}
