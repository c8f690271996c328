//! Where the labels of a plan stand: one pass for all of them, the most important first.
//!
//! Every label has an anchor (a point, a line, an area, a dimension) and from it candidate places: the natural one,
//! others beside or along what it names, and some at the end of a leader. It takes the cheapest that is free. Nothing
//! may lie on what is always guarded (controls, the line of a shortfall, a label placed before) nor on what matters
//! more; other strokes are only kept clear of where there is room elsewhere. What finds no place is left out, but for
//! what is required: that gets one wherever there is room.
//!
//! # Units
//! Those of the view: CSS pixels on a screen, points on paper. x to the right, **y down**, the origin at the upper
//! left corner. Directions are bearings: clockwise from up, radians. Nothing here knows meters, colors or fonts.

mod candidate;
mod grid;
mod search;
mod shape;

pub(in crate::drawing) use candidate::contains;
pub use search::{Placed, place};
pub use shape::{Shape, TextBox};

pub use super::chain::Size;
use std::collections::BTreeMap;

use super::Anchor;

/// How much a label matters: the lowest is placed first.
pub type Rank = u16;

/// Whether a label may be left out, and how far from its anchor it may stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// It is never left out.
    Required,
    /// It may stand at the end of a leader.
    Leader,
    /// It stands right beside what it names or nowhere.
    Near,
}

/// A label that wants a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// What it is known by from one pass to the next.
    pub key: u64,
    /// How much it matters.
    pub rank: Rank,
    /// Length of its text.
    pub width: f64,
    /// Height of its text.
    pub height: f64,
    /// How far it keeps from what it names.
    pub gap: f64,
    /// What it names, in view units.
    pub anchor: Anchor,
    /// Whether it may be left out.
    pub need: Need,
}

/// Whom an obstacle keeps off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Guard {
    /// Everybody.
    Always,
    /// Labels of this rank and all that matter less; others keep off where they can.
    From(Rank),
    /// Nobody: lying on it costs so much.
    Soft(f64),
}

/// Something that labels keep clear of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Obstacle {
    /// Where it is.
    pub shape: Shape,
    /// Whom it keeps off.
    pub guard: Guard,
    /// The key of the label that names it, whose leader may touch it.
    pub of: Option<u64>,
}

/// The slots that labels took in an earlier pass, by their keys: while something moves under a hand, a label
/// stays in its slot as long as that is free.
pub type Slots = BTreeMap<u64, u16>;
