//! Lists of points: one to a line, from a collector, a spreadsheet, or a paste.
//!
//! A line holds a point's number, northing, easting, elevation and description, in that order or
//! with easting first; number, elevation and description may be missing. Commas, semicolons, tabs or
//! spaces separate; a heading may name the columns. A line may also be a place on the globe:
//! `36.4512, -84.3071`, `36°27'04.3"N 84°18'25.6"W`.

mod columns;
mod heading;
mod read;
mod split;
mod write;

pub use read::read;
pub(in crate::exchange) use read::sort_of;
pub use write::{Choice, write, write_laid_out};

#[cfg(test)]
mod tests;
