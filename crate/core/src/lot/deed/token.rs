//! The pieces a deed text is cut into: words, numbers and marks.

use core::ops::Range;

/// What a stretch of text is.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// A run of letters, in lower case.
    Word(String),
    /// A decimal number, with its digits after the point.
    Number {
        /// Its value; finite.
        value: f64,
        /// How many digits stand after the point.
        decimals: u32,
    },
    /// Any other character that is not a space.
    Mark(char),
}

/// A token and its place: characters counted from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Where it is.
    pub span: Range<usize>,
    /// Its line, counted from 1.
    pub line: usize,
    /// The digits of a number that is written out in words.
    pub spelled: Option<String>,
}
