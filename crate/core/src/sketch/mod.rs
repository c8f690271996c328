//! Drawing by hand: paths put together point by point, and changed corner by corner.
//!
//! A [`Sketch`] is a path not yet validated: vertices, closed or open. Each edit gives a new
//! sketch and never judges it; [`Sketch::check`] validates it like one from a file.
//!
//! | to do this | use |
//! |---|---|
//! | corners and edges moved, added, taken out, bent | [`Sketch`] |
//! | an arc through three points, an arc cut in two | [`arc`] |
//! | the next point by length and angle, a rectangle | [`build`] |
//! | nearly square made square | [`square::square_up`] |
//! | a hand led to corners, edges and their lines | [`catch`] |
//! | a house walked wall by wall, as text | [`walk`] |

pub mod arc;
pub mod build;
pub mod catch;
mod edit;
pub mod square;
pub mod walk;

pub use edit::Sketch;
