//! Which shells fit on a lot, where, at which headings, and with how much room.
//!
//! A [`Search`] takes one shell after the other, as it is drawn and as its mirror image, at every
//! heading of a step, and looks into clear ground ([`crate::clear_ground`]): the deepest place of
//! each part of it leaves the most room, the place nearest to a door is the shortest walk, hours of sun are read off a
//! grid of the lot. What is best by
//! the wish, and a few places of each shell that differ from it, are worked out in full.
//! It goes on in short steps, so that it can be shown as it grows, and stopped.
//!
//! # What is exact
//! Whether a shell fits at a heading, within the chords of its arcs, where the ground is level. On other ground
//! the hole is taken as it is at the first place looked at for each shell, and every place that is
//! told was measured again with its own hole: one that falls short then is left out.
//!
//! The rim lies as high above the ground at the shell's middle as it does now.

mod best;
mod candidates;
mod cures;
mod largest;
mod search;
mod shown;
mod sunny;
mod turning;
mod wish;

pub use best::ShellFit;
pub use cures::{CureCard, CureCards, ShortOf, cures};
pub use largest::{Largest, largest};
pub use search::Search;
pub use shown::{CAUTION, FitCard, table};
pub use wish::{FitAim, FitWish};
