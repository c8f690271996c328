//! Lengths in a deed that are no sides: the size of what marks a corner.

use core::ops::Range;

use super::lex::Text;

/// Things that mark a corner and are told with their size: "a 5/8 inch rebar".
const MARKS: &str = " iron rebar pipe rod pin bar steel bolt spike nail stone concrete monument oak elm \
    pine tree post axle cap disk disc brass aluminum aluminium plug stake rerod ";

/// Whether a length in these tokens is the size of a mark: inches alone, with what is measured
/// right behind it.
pub fn is_size(text: &Text, tokens: &Range<usize>) -> bool {
    let inches = |at: usize| {
        matches!(text.word(at), "inch" | "inches" | "in")
            || matches!(text.mark(at), '"' | '”' | '“' | '″')
    };
    let feet = |at: usize| {
        matches!(text.word(at), "foot" | "feet" | "ft") || matches!(text.mark(at), '\'' | '’' | '′')
    };
    let marks = |word: &str| !word.is_empty() && MARKS.split_ascii_whitespace().any(|m| m == word);
    tokens.clone().any(inches)
        && !tokens.clone().any(feet)
        && (tokens.end..tokens.end + 4).any(|at| marks(text.word(at)))
}
