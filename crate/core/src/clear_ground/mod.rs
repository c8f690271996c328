//! Where the shell may stand: every place at one heading, every heading at one place.
//!
//! [`Bounds`] gathers what holds the shell off: every rule that measures from a part of the work
//! that goes with it, the lot's own lines, and whatever may not be dug, covered or stood on. From
//! those follow
//!
//! | to know | ask |
//! |---|---|
//! | every place of the shell's middle at one heading | [`Bounds::region`] |
//! | how much room a place leaves, and what is nearest | [`Ruler::tightest`] |
//! | which headings a place allows | [`Bounds::headings`] |
//! | all ground that the water may cover at one heading | [`Bounds::water_may_cover`] |
//! | the nearest place, heading or lesser rule that would do | [`Bounds::cures`] |
//! | whether the edge holds by the cut made there | [`EdgeByCut::of`] |
//! | which bounds leave nothing between them | [`Bounds::what_leaves_nothing`] |
//!
//! # What is exact
//! Where ground is level the work round the shell is the same wherever it stands, and the region is exact
//! within `DRAWING_TOLERANCE` for every arc. On other ground the top of the dig changes with the
//! place: it is taken as it is where the shell stands now, and [`EdgeByCut`] holds the edge against the cut made
//! at its places.
//!
//! Decks drawn beside the ring, the equipment pad and the pile stay where they are when the shell goes,
//! and bound nothing here.

mod bounds;
mod by_cut;
mod cure;
mod headings;
mod nothing_left;
mod region;
mod room;
mod water;

pub use bounds::{Bound, Bounds, Cause, Moving, Place};
pub use by_cut::{EDGE_SLACK, EdgeByCut, EdgePlace};
pub use cure::{Cure, Cures, settled};
pub use headings::HeadingRange;
pub use nothing_left::{cause_words, nothing_left_words};
pub use region::ClearGround;
pub use room::{Ruler, Tightest};
