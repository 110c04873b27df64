//! The kinds of things that can be wrong with a module file.
//!
//! Everything here is data: the words for people are chosen elsewhere.

use crate::units::UnitProblem;

use super::problem::Place;

/// The kinds of things that are wrong. What was `found` is shortened where it is long.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The file has more than `most` bytes and was not looked at.
    TooLarge {
        /// The most bytes a module may have.
        most: usize,
    },
    /// A byte that is no UTF-8.
    NotUtf8 {
        /// The byte.
        byte: u8,
    },
    /// A character that no text needs and that could act on a terminal.
    ControlCharacter(char),
    /// The file is no YAML.
    Syntax(SyntaxFault),
    /// Lists and maps stand in each other more than `most` deep.
    TooDeep {
        /// The deepest that is read.
        most: usize,
    },
    /// The file has more than `most` values.
    TooMany {
        /// The most values that are read.
        most: usize,
    },
    /// A feature of YAML that modules do not use.
    NotUsed(Feature),
    /// The key of a map is no plain text.
    KeyIsNoText,
    /// A key stands twice in one map; the place is that of the second.
    DuplicateKey {
        /// The key.
        key: String,
        /// Where it stood before.
        first: Place,
    },
    /// A key that this map does not have.
    UnknownKey {
        /// The key as written.
        found: String,
        /// The key that may have been meant.
        suggestion: Option<String>,
        /// The keys this map has.
        known: Vec<&'static str>,
    },
    /// A key that this map must have is missing; the place is that of the map.
    MissingKey {
        /// The key.
        key: &'static str,
    },
    /// Of these keys a map takes one, and it has another number of them.
    OneKeyOf {
        /// The keys to choose from.
        known: Vec<&'static str>,
        /// How many of them there are.
        found: usize,
    },
    /// A value of one shape stands where another is needed.
    WrongShape {
        /// What is there.
        found: Shape,
        /// What could stand there.
        expected: &'static [Shape],
    },
    /// A word that is not one of those possible here.
    UnknownWord {
        /// The word as written.
        found: String,
        /// The word that may have been meant.
        suggestion: Option<String>,
        /// The words possible here.
        known: Vec<&'static str>,
    },
    /// A word that is known but needs more to be said: `watch` instead of `{ watch: … }`.
    WordNeedsMore {
        /// The word.
        word: &'static str,
    },
    /// A word that stands alone but was given something: `{ timer: … }` instead of `timer`.
    WordStandsAlone {
        /// The word.
        word: &'static str,
    },
    /// A text that is no quantity of the wanted kind.
    NoQuantity {
        /// The text as written.
        found: String,
        /// What kind of quantity is needed.
        kind: Kind,
        /// Why it is none.
        why: UnitProblem,
    },
    /// A text that has not the wanted form.
    WrongForm {
        /// The text as written.
        found: String,
        /// The form that is needed.
        expected: Form,
    },
    /// A number or quantity outside its limits.
    OutOfRange {
        /// What was written.
        found: String,
        /// The least that is allowed.
        least: String,
        /// The most that is allowed.
        most: String,
    },
    /// A stage that is not among the stages.
    UnknownStage {
        /// Its id as written.
        found: String,
        /// The stage that may have been meant.
        suggestion: Option<String>,
    },
    /// A stage that says another id than the one it is used by.
    StageNamedOtherwise {
        /// The id in its file.
        found: String,
        /// The id it is used by.
        expected: String,
    },
    /// A stage that the module uses already.
    StageTwice,
    /// A change of a step that the stage does not have.
    UnknownStageStep {
        /// The step as written.
        found: String,
        /// The step that may have been meant.
        suggestion: Option<String>,
    },
    /// A list or text with nothing in it.
    Nothing,
    /// The value was refused without a reason of its own.
    Refused,
}

impl Fault {
    /// The word for the kind of fault, by which its message is found.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self {
            Fault::TooLarge { .. } => "too-large",
            Fault::NotUtf8 { .. } => "not-utf8",
            Fault::ControlCharacter(_) => "control-character",
            Fault::Syntax(_) => "syntax",
            Fault::TooDeep { .. } => "too-deep",
            Fault::TooMany { .. } => "too-many",
            Fault::NotUsed(_) => "not-used",
            Fault::KeyIsNoText => "key-is-no-text",
            Fault::DuplicateKey { .. } => "duplicate-key",
            Fault::UnknownKey { .. } => "unknown-key",
            Fault::MissingKey { .. } => "missing-key",
            Fault::OneKeyOf { .. } => "one-key-of",
            Fault::WrongShape { .. } => "wrong-shape",
            Fault::UnknownWord { .. } => "unknown-word",
            Fault::WordNeedsMore { .. } => "word-needs-more",
            Fault::WordStandsAlone { .. } => "word-stands-alone",
            Fault::NoQuantity { .. } => "no-quantity",
            Fault::WrongForm { .. } => "wrong-form",
            Fault::OutOfRange { .. } => "out-of-range",
            Fault::UnknownStage { .. } => "unknown-stage",
            Fault::StageNamedOtherwise { .. } => "stage-named-otherwise",
            Fault::StageTwice => "stage-twice",
            Fault::UnknownStageStep { .. } => "unknown-stage-step",
            Fault::Nothing => "nothing",
            Fault::Refused => "refused",
        }
    }
}

/// What keeps a file from being YAML, as far as it helps the author.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SyntaxFault {
    /// A tab where only spaces may stand.
    Tab,
    /// A line starts too far left or right.
    Indentation,
    /// A bracket is never closed.
    BracketOpen(char),
    /// A bracket is closed by another kind of bracket.
    BracketMismatch {
        /// The opening bracket.
        open: char,
        /// The closing bracket.
        close: char,
    },
    /// A closing bracket that nothing opened.
    BracketStray,
    /// A quotation mark is never closed.
    QuoteOpen,
    /// Something follows a closing quotation mark.
    AfterQuote,
    /// A backslash in quotes that means nothing.
    Escape,
    /// A key without its colon, or something that is no key where one is needed.
    NoColon,
    /// A colon where no key can be: mostly a text that needs quotation marks.
    StrayColon,
    /// A comma or closing bracket is missing.
    NoComma,
    /// A dash where no list can be, or a list item without its dash.
    Dash,
    /// A character that text without quotation marks cannot start with.
    Reserved(char),
    /// A `#` that touches what stands before it.
    Comment,
    /// The header or the lines of a `|` or `>` text.
    BlockText,
    /// The file ends in the middle of something.
    End,
    /// Anything else.
    Other,
}

/// Features of YAML that modules do not use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feature {
    /// `&name`
    Anchor,
    /// `*name`
    Alias,
    /// `!name`
    Tag,
    /// `<<: …`
    MergeKey,
    /// `%YAML …`
    Directive,
    /// A second document after `---`.
    SecondDocument,
}

/// The shapes a value can have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Nothing at all.
    Empty,
    /// A text, number or word.
    Scalar,
    /// A list.
    List,
    /// A map.
    Map,
}

/// The kinds of quantities.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A span of time.
    Duration,
    /// A temperature.
    Temperature,
    /// A length.
    Length,
    /// A volume.
    Volume,
    /// A mass.
    Mass,
    /// Light on a surface.
    Irradiance,
    /// Light received by a surface.
    Dose,
    /// A share of a whole.
    Share,
    /// A rate of removal or drying.
    Rate,
    /// A chance such as `1 in 6`.
    Chance,
}

/// The forms a text can be asked to have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Letters without accents and digits, in groups joined by single hyphens, starting with a letter.
    ///
    /// At most 64 of them.
    Name,
    /// A whole number.
    WholeNumber,
    /// A day such as `2026-12-01`.
    Date,
    /// A language tag such as `en-US`.
    Language,
    /// Where a number or statement comes from.
    Origin,
    /// A span of calendar months or days such as `6 months`.
    CalendarSpan,
}
