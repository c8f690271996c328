//! What parsing says: a value with its ambiguities, or a fault with its place.

use core::fmt;
use core::ops::Range;

use serde::Serialize;

/// A value that was read, in SI units, and what is doubtful about it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Parsed {
    /// The value: meters, square meters, cubic meters, kilograms, radians or a plain ratio.
    pub value: f64,
    /// Readings that may not be what was meant. The value stands all the same.
    pub ambiguities: Vec<Ambiguity>,
}

impl Parsed {
    /// A value without ambiguities.
    pub fn sure(value: f64) -> Self {
        Self {
            value,
            ambiguities: Vec::new(),
        }
    }
}

/// A value was understood, but something else may have been meant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Ambiguity {
    /// How the text was taken, in a sentence.
    pub message: String,
    /// What to type if something else was meant, in a sentence.
    pub remedy: String,
}

/// A text could not be read as the value that was asked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct UnitFault {
    /// What was not understood, in a sentence.
    pub message: String,
    /// What to type instead, in a sentence.
    pub remedy: String,
    /// Where in the text: characters (not bytes), counted from 0, the end not included.
    pub span: Range<usize>,
}

impl UnitFault {
    pub(super) fn new(
        span: Range<usize>,
        message: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self {
            message: message.into(),
            remedy: remedy.into(),
            span,
        }
    }
}

impl fmt::Display for UnitFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.message, self.remedy)
    }
}

impl core::error::Error for UnitFault {}
