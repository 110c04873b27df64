//! Words for what can stand in an entry as a word: kinds, meanings, authorities, judgements and so on.
//!
//! Each is a message of `locales/…/record.ftl` with one part for every stored word.

use crate::record::entry::{
    Allowed, Cause, Effect, Ending, Found, Help, HowEstablished, Impact, Independence, Judgement,
    Method, OutsideWay, Seen, Stage,
};
use crate::record::scope::{Authority, Meaning};
use crate::standing::Run;
use crate::text::{Words, display_safe};

/// The message with the words of a member's values; none for members whose values are no words.
pub(super) fn vocabulary(member: &str) -> Option<&'static str> {
    Some(match member {
        "allowed" => "record-allowed",
        "authority" => "record-authority",
        "cause" => "record-cause",
        "effect" => "record-effect",
        "ending" => "record-ending",
        "help" => "record-help",
        "how" => "record-how",
        "impact" => "record-impact",
        "independence" => "record-independence",
        "judgement" => "record-judgement",
        "language" => "record-language",
        "meaning" => "record-meaning",
        "method" => "record-method",
        "result" => "record-result",
        "seen" => "record-seen",
        "stage" => "record-stage",
        "way" => "record-way",
        _ => return None,
    })
}

/// One word of a message with parts; the word itself where there are no words for it.
pub(super) fn term(message: &str, word: &str, words: &Words) -> String {
    let id = format!("{message}.{word}");
    if words.knows(&id) {
        words.say(&id, &[])
    } else {
        display_safe(word)
    }
}

macro_rules! terms {
    ($($(#[$doc:meta])* $name:ident: $type:ty => $message:literal;)*) => {$(
        $(#[$doc])*
        #[must_use]
        pub fn $name(value: $type, words: &Words) -> String {
            term($message, value.word(), words)
        }
    )*};
}

terms! {
    /// Words what a suspended person may still do.
    allowed: Allowed => "record-allowed";
    /// Words what a person may be entitled to.
    authority: Authority => "record-authority";
    /// Words why a person was called in.
    cause: Cause => "record-cause";
    /// Words whether training worked.
    effect: Effect => "record-effect";
    /// Words how a rehearsal ended.
    ending: Ending => "record-ending";
    /// Words how something was found.
    found: Found => "record-result";
    /// Words how much help a rehearsal gave.
    help: Help => "record-help";
    /// Words how a first assessor's competence was established.
    how_established: HowEstablished => "record-how";
    /// Words what a revision asks of those who were signed off before.
    impact: Impact => "record-impact";
    /// Words whether somebody can assess independently.
    independence: Independence => "record-independence";
    /// Words the judgement of the whole.
    judgement: Judgement => "record-judgement";
    /// Words what a signature means.
    meaning: Meaning => "record-meaning";
    /// Words a way of assessing.
    method: Method => "record-method";
    /// Words what somebody from outside did.
    outside_way: OutsideWay => "record-way";
    /// Words how a step went.
    seen: Seen => "record-seen";
    /// Words when it was asked whether training worked.
    stage: Stage => "record-stage";
}

/// Words a kind of entry, by its stored word: what stands in a list.
#[must_use]
pub fn kind(word: &str, words: &Words) -> String {
    term("record-kind", word, words)
}

/// Words how an observed run counts.
#[must_use]
pub fn run(run: Run, words: &Words) -> String {
    let id = match run {
        Run::Clean => "record-run.clean",
        Run::NotClean => "record-run.not-clean",
        Run::Failed => "record-run.failed",
        Run::NotCounted => "record-run.not-counted",
    };
    words.say(id, &[])
}
