//! Plane geometry: paths of lines and arcs, and what is done with them.
//!
//! The pipeline: a [`PathRecord`] from a file or a finger is checked at the door
//! ([`Outline::check`], [`Track::check`]) and becomes an [`Outline`] (closed) or a
//! [`Track`] (open). Arcs stay arcs until [`flatten`] turns them into the straight edges
//! of a [`Region`], with a named tolerance on a named side. Regions are united, cut and
//! widened in [`boolean`] and [`offset`]; [`distance`] measures between figures and names
//! the two points it measured between.
//!
//! | to do this | use |
//! |---|---|
//! | check what came in | [`Outline::check`], [`Track::check`] |
//! | arcs to edges | [`flatten::flatten`] |
//! | area, centroid, inside or not | [`Region`], [`Outline::area`] |
//! | union, intersection, difference | [`boolean`] |
//! | over-dig, collar, deck; side slopes | [`offset::offset_region`], [`offset::offset_tapered`] |
//! | area and length of a widened outline, arcs exact | [`parallel::offset_measure`] |
//! | a chain cut to an area, lines through it | [`clip`] |
//! | an easement along a lot line | [`band::along_side`] |
//! | several polygons with holes | [`compound::check`] |
//! | every place where one figure meets another | [`convolution::convolution`] |
//! | a door or a gate | [`span::on_chain`] |
//! | room between two figures | [`distance::nearest`], [`distance::Measurable`] |
//! | distance of two paths, arcs exact | [`stretches::nearest`] |
//! | distance of many points from one figure | [`Edges`] |
//! | the place farthest from an edge | [`pole::poles`] |
//! | fewer corners within a tolerance | [`thin::thinned`] |
//! | hatches and ticks for drawings | [`pattern`] |

pub mod band;
pub mod boolean;
mod boundary;
pub mod clip;
pub mod compound;
pub mod convolution;
mod corner;
pub mod distance;
mod edges;
mod extent;
pub mod flatten;
pub mod gap;
pub mod inside;
mod meet;
pub mod offset;
pub mod parallel;
pub mod path;
pub mod pattern;
pub mod point;
pub mod pole;
mod raw_ring;
pub mod region;
mod segment;
pub mod span;
mod spur;
pub mod stretches;
pub mod thin;
pub mod validate;
pub mod winding;

pub use edges::{Edges, Foot};
pub use meet::{crossings, nearest_on};
pub use path::{Outline, PathRecord, Segment, Track, Vertex};
pub use point::{Point, Pose, Vector};
pub use region::{Polygon, Region, Ring};

/// Chord error for drawing and for clearances, meters (design rule: 1 mm).
pub const DRAWING_TOLERANCE: f64 = 0.001;

/// Chord error for areas and volumes, meters (design rule: a quarter of a millimetre).
pub const VOLUME_TOLERANCE: f64 = 0.000_25;

/// The farthest a coordinate may lie from the site origin, meters. A lot is tens of
/// meters across; state-plane coordinates must be brought to a local origin first.
pub const COORDINATE_LIMIT: f64 = 10_000.0;
