//! What one clause of a deed says of its course, and what was understood of it word by word.

use core::ops::Range;

use super::super::record::{CourseShape, Turn};
use super::bend::{Bend, Stated};
use super::direction::StatedBearings;
use super::length_unit::WrittenLength;
use super::words::Label;

/// Tokens that were understood, and as what.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The tokens.
    pub tokens: Range<usize>,
    /// What was understood, in words: `bearing N 89°15'30" E`.
    pub says: String,
}

/// Something in a clause that bars it or needs a look.
#[derive(Debug, Clone, PartialEq)]
pub struct Trouble {
    /// The tokens it concerns.
    pub tokens: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub remedy: String,
}

/// Everything read in a clause.
#[derive(Debug, Clone, Default)]
pub struct Clause {
    /// What was understood, in order.
    pub marks: Vec<Mark>,
    /// Bearing of a straight side, radians.
    pub bearing: Option<f64>,
    /// Length of a straight side, meters.
    pub distance: Option<f64>,
    /// The figures of a curve.
    pub bend: Bend,
    /// The way the curve bends.
    pub turn: Option<Turn>,
    /// What is stated of the way a curve runs.
    pub stated: StatedBearings,
    /// How a curve joins the curve before it.
    pub joint: Option<Joint>,
    /// Whether a straight side is said to be tangent to the curve before it, ahead of its bearing.
    pub tangent_to_previous: bool,
    /// Whether the word "curve" stands here.
    pub mentions_curve: bool,
    /// The lengths that it rests on, in order.
    pub lengths: Vec<WrittenLength>,
    /// Figures that cannot be taken.
    pub troubles: Vec<Trouble>,
}

/// How a curve joins the curve before it: tangent to it, and bending the other way or the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joint {
    /// The other way.
    Reverse,
    /// The same way, with another radius.
    Compound,
}

impl Clause {
    /// Whether there is anything that only a curve has.
    pub fn bends(&self) -> bool {
        self.bend != Bend::default() || self.stated.chord.is_some()
    }

    /// Whether anything at all is stated of a curve.
    pub fn states_a_curve(&self) -> bool {
        self.bends()
            || self.stated != StatedBearings::default()
            || self.turn.is_some()
            || self.joint.is_some()
    }

    /// Whether a straight side is complete.
    pub fn straight(&self) -> Option<CourseShape> {
        match (self.bearing, self.distance) {
            (Some(bearing), Some(distance)) => Some(CourseShape::Line { bearing, distance }),
            _ => None,
        }
    }

    /// Where the figure of a curve is kept that a label names.
    pub(super) fn curve_figure(&mut self, label: Label) -> &mut Option<Stated> {
        match label {
            Label::Radius => &mut self.bend.radius,
            Label::Delta => &mut self.bend.delta,
            Label::Arc => &mut self.bend.arc,
            Label::Chord | Label::Bearing | Label::Radial | Label::Heading => &mut self.bend.chord,
            Label::Tangent => &mut self.bend.tangent,
        }
    }

    /// Keeps what was understood of tokens.
    pub(super) fn mark(&mut self, tokens: Range<usize>, says: impl Into<String>) {
        let says = says.into();
        self.marks.push(Mark { tokens, says });
    }

    /// Keeps what is wrong with tokens.
    pub(super) fn trouble(&mut self, tokens: Range<usize>, message: &str, remedy: &str) {
        self.troubles.push(Trouble {
            tokens,
            message: message.to_owned(),
            remedy: remedy.to_owned(),
        });
    }
}
