//! What entries speak of: ids and short texts, scopes, editions, what people may do and mean.

use std::fmt;
use std::str::FromStr;

use smol_str::SmolStr;

use super::member::{inner_members, words};
use crate::units::Digest;

/// The longest id, in characters. Our default.
const ID_MOST: usize = 64;
/// The longest text inside an entry, in characters. Our default. Longer remarks are attachments.
const TEXT_MOST: usize = 200;

/// The id of a workflow, profile, unit, step or workstation: small letters, digits and hyphens.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id(SmolStr);

/// A short text that a person wrote: one line, no control characters, no spaces around it, 1 to 200 characters.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Text(SmolStr);

/// Why a text may not stand in an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextProblem {
    /// It is empty, or nothing but spaces.
    Empty,
    /// It has too many characters. Holds how many are allowed.
    TooLong(usize),
    /// It holds a character that may not stand there, or spaces around it.
    Character,
}

impl FromStr for Id {
    type Err = TextProblem;

    fn from_str(text: &str) -> Result<Id, TextProblem> {
        if text.is_empty() {
            return Err(TextProblem::Empty);
        }
        if text.len() > ID_MOST {
            return Err(TextProblem::TooLong(ID_MOST));
        }
        let allowed = |byte: u8| matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'-');
        if !text.bytes().all(allowed) {
            return Err(TextProblem::Character);
        }
        Ok(Id(text.into()))
    }
}

impl FromStr for Text {
    type Err = TextProblem;

    fn from_str(text: &str) -> Result<Text, TextProblem> {
        // Nearly every text, told quickly.
        if matches!(text.as_bytes(), [b'!'..=b'~', .., b'!'..=b'~'])
            && text.len() <= TEXT_MOST
            && text.bytes().all(|byte| matches!(byte, b' '..=b'~'))
        {
            return Ok(Text(text.into()));
        }
        if text.trim().is_empty() {
            return Err(TextProblem::Empty);
        }
        if text.chars().count() > TEXT_MOST {
            return Err(TextProblem::TooLong(TEXT_MOST));
        }
        // Separators and overrides of direction would change how a line reads.
        let steers = |c: char| {
            c.is_control()
                || matches!(c, '\u{2028}' | '\u{2029}' | '\u{200e}' | '\u{200f}')
                || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
        };
        if text.trim() != text || text.chars().any(steers) {
            return Err(TextProblem::Character);
        }
        Ok(Text(text.into()))
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

inner_members! {
    /// What a sign-off is for. Outside it, a person starts anew.
    #[derive(PartialOrd, Ord, Hash)]
    Scope {
        /// The workflow.
        "workflow" workflow: Id,
        /// The process profile.
        "profile" profile: Id,
        /// The wash unit; `none` where the workflow has none.
        "wash" wash: Id,
        /// The curing unit; `none` where the workflow has none.
        "cure" cure: Id,
    }
}

inner_members! {
    /// An edition of a workflow: its revision, and the digest of the text of that revision.
    #[derive(PartialOrd, Ord, Hash)]
    Edition {
        /// The revision, counted from 1.
        "revision" revision: u32,
        /// The digest of the module with its stages merged.
        "digest" digest: Digest,
    }
}

words! {
    /// What a person may be entitled to.
    Authority {
        /// To give and take authority, and to set the policy.
        "own" Own,
        /// To enter people and their keys.
        "administer" Administer,
        /// To assign and to train.
        "train" Train,
        /// To observe and to evaluate.
        "assess" Assess,
        /// To sign off, suspend, reinstate and withdraw.
        "approve" Approve,
        /// To adopt revisions and to retire workflows.
        "publish" Publish,
        /// To suspend and to review.
        "quality" Quality,
    }
}

words! {
    /// What a signature means.
    Meaning {
        /// The signer made it.
        "authored" Authored,
        /// The signer trained the person.
        "trained" Trained,
        /// The signer saw it.
        "observed" Observed,
        /// The signer judged it.
        "assessed" Assessed,
        /// The signer looked through it.
        "reviewed" Reviewed,
        /// The signer approves of it.
        "approved" Approved,
        /// The signer stops the person.
        "suspended" Suspended,
        /// The signer lets the person work again.
        "reinstated" Reinstated,
        /// The signer ends what the person was signed off for.
        "withdrawn" Withdrawn,
        /// The signer puts an entry right.
        "corrected" Corrected,
        /// The signer has taken note.
        "acknowledged" Acknowledged,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_that_could_steer_a_terminal_are_refused() {
        for text in [
            "a\u{1b}[2J",
            "a\nb",
            "a\u{202e}b",
            " a",
            "a\u{2028}b",
            "a\u{85}b",
        ] {
            assert_eq!(
                text.parse::<Text>(),
                Err(TextProblem::Character),
                "{text:?}"
            );
        }
        assert_eq!(" ".parse::<Text>(), Err(TextProblem::Empty));
        assert!("ü".repeat(200).parse::<Text>().is_ok());
        assert_eq!(
            "ü".repeat(201).parse::<Text>(),
            Err(TextProblem::TooLong(200))
        );
        assert_eq!("Stock".parse::<Id>(), Err(TextProblem::Character));
    }
}
