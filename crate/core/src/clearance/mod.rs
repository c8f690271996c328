//! Clearances: every rule measured, with its room.
//!
//! Distances decide, never buffered polygons. *Room* is the slack a clearance has left:
//! distance less the required one, negative when it falls short.

use serde::Serialize;

use crate::geom::{Point, Region};
use crate::site::{CheckedSite, MeasuredFrom};

/// One clearance: a rule measured to one thing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Clearance {
    /// Index of the rule in the site.
    pub rule: usize,
    /// The rule's name.
    pub name: String,
    /// Where on the work it was measured from.
    pub from: MeasuredFrom,
    /// What it was measured to, as the plan calls it.
    pub target: String,
    /// Index of the lot's side (in `Lot::sides`) or of the feature it was measured to.
    pub subject: Subject,
    /// Measured distance, metres; negative when the figures overlap.
    pub distance: f64,
    /// Required distance, metres.
    pub required: f64,
    /// Distance less required, metres.
    pub room: f64,
    /// The point on the work (site metres).
    pub from_point: Point,
    /// The point on the target (site metres).
    pub to_point: Point,
    /// Who says so.
    pub source: String,
}

/// What a clearance was measured to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Subject {
    /// A side of the lot, by index in `Lot::sides`.
    Side(usize),
    /// A feature, by index in `Site::features`.
    Feature(usize),
}

/// The work as it stands on the site: what rules measure from.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WorkFigures {
    /// The water's edge, flattened. Rim and deck edge are this, farther out.
    pub waters_edge: Region,
    /// How far the rim lies outside the water's edge, metres.
    pub rim: f64,
    /// How far the deck edge lies outside the water's edge, metres.
    pub deck_edge: f64,
    /// The equipment pad, once placed.
    pub equipment: Option<Region>,
    /// The top edge of the dig.
    pub dig: Region,
}

/// Every rule measured to everything it names, least room first.
///
/// A rule that finds nothing of its kind on the site yields nothing; so does one that
/// measures from a part of the work that is not placed.
pub fn measure(site: &CheckedSite, work: &WorkFigures) -> Vec<Clearance> {
    let _ = (site, work);
    unimplemented!()
}
