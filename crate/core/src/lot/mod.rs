//! The lot: the courses of its description, their traverse and closure, and its sides.
//!
//! A [`LotRecord`] is what a deed or a plat tells: a start and one [`Course`] for each side,
//! straight or curved. [`Lot::check`] walks the courses, says how well they close and how
//! their area agrees with the stated one, and gives the boundary counter-clockwise with the
//! kind of every side. A lot known by its corners becomes a record by
//! [`LotRecord::from_outline`], so that there is one way in.
//!
//! ```
//! use batterboard_core::geom::Vertex;
//! use batterboard_core::lot::{LineKind, Lot, LotRecord};
//!
//! let corners = [
//!     Vertex::line(0.0, 0.0),
//!     Vertex::line(30.0, 0.0),
//!     Vertex::arc(30.0, 40.0, 0.2),
//!     Vertex::line(0.0, 40.0),
//! ];
//! let record = LotRecord::from_outline(&corners, &[LineKind::Front]);
//! let (lot, cautions) = Lot::check(&record).map_err(|faults| faults.len())?;
//! assert_eq!(lot.sides[0].label, "front line (south)");
//! assert!(lot.area > 1200.0 && cautions.is_empty());
//! # Ok::<(), usize>(())
//! ```
//!
//! # Closing
//! Courses rounded to the second and the hundredth never quite come back to their start. The
//! boundary is closed by joining the last corner to the start: the misclosure stays in the
//! last course, the other courses are exactly as described. It is *not* distributed unless the
//! record asks for it by its [`Balance`]: then the corners are those of
//! [`Traverse::balanced`], a note says so, and the record keeps its courses as described.

mod area;
mod basis;
mod cautions;
mod checked;
pub mod curve;
pub mod deed;
pub mod kinds;
mod monument;
mod near;
mod record;
mod reshape;
mod traverse;

pub use area::AreaComparison;
pub use basis::{Basis, North};
pub use checked::{Lot, Side};
pub use monument::{Monument, MonumentKind, MonumentState};
pub use record::{Balance, Course, CourseShape, LineKind, LotRecord, Turn};
pub use reshape::CornerChange;
pub use traverse::{Closure, Traverse};
