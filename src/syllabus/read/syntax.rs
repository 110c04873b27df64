//! What a parser's complaint means to the author of a file.

use serde_yaml::granit_parser::ErrorKind;

use super::fault::{Fault, Feature, SyntaxFault};
use super::tree::MOST_DEPTH;

/// Sorts the parser's many complaints into the few that the author can act on.
pub(super) fn fault(kind: &ErrorKind) -> Fault {
    use ErrorKind as K;
    use SyntaxFault as S;
    let syntax = match kind {
        K::RecursionLimitExceeded => return Fault::TooDeep { most: MOST_DEPTH },
        K::BomInsideDocument => return Fault::ControlCharacter('\u{feff}'),
        K::UnknownAnchor => return Fault::NotUsed(Feature::Alias),
        K::AnchorCountOverflow | K::MissingAnchorOrAliasName => {
            return Fault::NotUsed(Feature::Anchor);
        }
        K::UndeclaredTagHandle
        | K::ExpectedTagBang
        | K::InvalidGlobalTagCharacter
        | K::InvalidTagTerminator
        | K::MissingTagUri
        | K::UnclosedVerbatimTag
        | K::InvalidTagEscape
        | K::InvalidTagUtf8LeadingByte
        | K::InvalidTagUtf8TrailingByte
        | K::InvalidTagUtf8 => return Fault::NotUsed(Feature::Tag),
        K::DirectiveDisallowed
        | K::MissingDocumentEndBeforeDirective
        | K::MissingDirectiveName
        | K::InvalidDirectiveName
        | K::DirectiveByteLimitExceeded { .. }
        | K::TooManyReservedDirectiveParams { .. } => return Fault::NotUsed(Feature::Directive),

        K::TabNotAllowed
        | K::TabInBlockIndentation
        | K::TabInIndentation
        | K::TabAtBlockScalarStart
        | K::TabInPlainScalar => S::Tab,
        K::InvalidIndentation | K::InvalidQuotedScalarIndent | K::InvalidFlowScalarIndent => {
            S::Indentation
        }
        K::UnclosedFlowCollection { open } => S::BracketOpen(*open),
        K::UnexpectedEofFlowSequence => S::BracketOpen('['),
        K::UnexpectedEofFlowMapping | K::UnexpectedEofImplicitFlowMapping => S::BracketOpen('{'),
        K::MismatchedFlowCollectionEnd { open, close } => S::BracketMismatch {
            open: *open,
            close: *close,
        },
        K::MisplacedFlowCollectionEnd => S::BracketStray,
        K::UnclosedQuotedScalar | K::DocumentIndicatorInQuotedScalar => S::QuoteOpen,
        K::InvalidTrailingSingleQuotedScalar | K::InvalidTrailingDoubleQuotedScalar => {
            S::AfterQuote
        }
        K::UnknownQuotedScalarEscape
        | K::InvalidQuotedScalarHexEscape
        | K::InvalidLowSurrogateHexEscape
        | K::InvalidLowSurrogate
        | K::MissingLowSurrogate
        | K::UnpairedLowSurrogate
        | K::InvalidUnicodeEscape => S::Escape,
        K::SimpleKeyExpected | K::InvalidSimpleKey | K::ExpectedBlockMappingKey => S::NoColon,
        K::MappingValueNotAllowed
        | K::MappingKeyNotAllowed
        | K::InvalidColonPlacement
        | K::InvalidMappingValueWhitespace
        | K::FlowMappingValueAdjacentCollection => S::StrayColon,
        K::ExpectedFlowMappingSeparator | K::ExpectedFlowSequenceSeparator => S::NoComma,
        K::ExpectedBlockSequenceEntry
        | K::BlockSequenceEntryNotAllowed
        | K::BlockEntryInFlowCollection
        | K::InvalidBlockEntryWhitespace
        | K::PlainScalarStartsWithDashFlowIndicator => S::Dash,
        K::UnexpectedCharacter { character } => S::Reserved(*character),
        K::CommentNotSeparated | K::CommentInterceptedScalar => S::Comment,
        K::ZeroBlockScalarIndent | K::InvalidBlockScalarHeader | K::InvalidBlockScalarIndent => {
            S::BlockText
        }
        K::UnexpectedEof | K::UnexpectedEofBlockSequence | K::UnexpectedEofBlockMapping => S::End,
        _ => S::Other,
    };
    Fault::Syntax(syntax)
}
