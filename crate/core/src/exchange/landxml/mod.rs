//! LandXML 1.2, the open schema of surveyors' files: read as things that may stand on the site, and
//! written from a site.
//!
//! Read are parcels (lines, curves, irregular lines, chains), points, plan features, and surfaces with
//! their triangles, breaklines, data points and contours; versions 1.0 and 1.1 where they say the same.
//! Whatever else is in a file is named and left. A [`Survey`] holds a [`Draft`](super::import::Draft)
//! like that of a map, and the true curves of its parcels, which a draft cannot hold.
//!
//! Written are the lot with its arcs, named points (corners, stakes, rim, spots, benchmark), what
//! stands on the lot, the existing ground and the surface of the dig.
//!
//! Coordinates are northing, easting, elevation, in the unit that the file names: international feet
//! (`foot`) for a site shown in feet, as this planner's feet are; those of the survey that the site came
//! from, where it came from one.
//!
//! The tree is read by `roxmltree`: it resolves namespaces, tells places, refuses document type
//! declarations (so no entity is ever expanded) and bounds the count of nodes. A reader of events would
//! hold less in memory, at the price of keeping the state of every nested element by hand; a file of the
//! greatest size takes a fraction of a second either way. Writing needs no library: it is escaping and a
//! fixed layout.

mod cg_points;
mod context;
mod curves;
mod element;
mod file;
mod geometry;
mod mesh;
mod parcels;
mod plan_features;
mod read;
mod surfaces;
#[cfg(test)]
mod tests;
mod tin;
mod units;
mod write;
mod xml;

pub use curves::Survey;
pub use file::Moment;
pub use read::{is_xml, read};
pub use write::{Choice, write};

/// The namespace of version 1.2.
const NAMESPACE: &str = "http://www.landxml.org/schema/LandXML-1.2";

/// What a file of version 1.2 says of itself.
const VERSION: &str = "1.2";
