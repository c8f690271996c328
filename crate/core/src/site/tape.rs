//! Tapes: distances that somebody had measured between two things and wants to keep.
//!
//! A tape names the things at its ends, not their places, so that it follows them. One whose side
//! or feature is taken away goes with it; one that ends at the work waits while that is not placed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{MeasuredFrom, Site};
use crate::finding::Finding;
use crate::geom::Point;

/// A distance between two things, measured anew whenever one of them moves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Tape {
    /// One end.
    pub from: TapeEnd,
    /// The other end.
    pub to: TapeEnd,
}

/// What an end of a tape is held to: the edge of a thing, or a point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum TapeEnd {
    /// The edge of a part of the work.
    Work(MeasuredFrom),
    /// The side of the lot that this course describes.
    Side(usize),
    /// The edge of the feature of this id.
    Feature(String),
    /// A point of the plan, site meters.
    At(Point),
}

impl TapeEnd {
    /// Whether the site has what it is held to. A part of the work may come and go.
    pub fn is_there(&self, site: &Site) -> bool {
        match self {
            Self::Work(_) | Self::At(_) => true,
            Self::Side(course) => *course < site.lot.courses.len(),
            Self::Feature(id) => site.features.iter().any(|f| f.id == *id),
        }
    }
}

/// Takes away the tapes that have lost the side or the feature at one of their ends.
pub fn drop_loose(site: &mut Site) {
    if site.tapes.iter().all(|tape| holds(site, tape)) {
        return;
    }
    let tapes = core::mem::take(&mut site.tapes);
    let holding = tapes.into_iter().filter(|tape| holds(site, tape));
    site.tapes = holding.collect();
}

fn holds(site: &Site, tape: &Tape) -> bool {
    tape.from.is_there(site) && tape.to.is_there(site)
}

/// The faults of tapes that end nowhere or twice at the same thing, placed in the site file.
pub(super) fn check(site: &Site) -> Vec<Finding> {
    let mut faults = Vec::new();
    for (i, tape) in site.tapes.iter().enumerate() {
        if tape.from == tape.to {
            let message = "Both ends of a tape are held to the same thing.";
            let remedy = "Hold its other end to something else.";
            faults.push(Finding::fault("tape-ends", message, remedy).under(&format!("/tapes/{i}")));
        }
        for (name, end) in [("from", &tape.from), ("to", &tape.to)] {
            if !end.is_there(site) {
                let message = "A tape is held to something that is not on the site.";
                let remedy = "Name a side or a feature that is there, or leave the tape out.";
                let fault = Finding::fault("tape-end", message, remedy);
                faults.push(fault.under(&format!("/tapes/{i}/{name}")));
            }
        }
    }
    faults
}
