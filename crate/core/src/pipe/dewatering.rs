//! The pipe beside the deep end through which groundwater is pumped down.

use crate::dig::DigShape;
use crate::dig::small::beside_deepest;
use crate::finding::{Finding, Topic};
use crate::geom::offset::offset_region;
use crate::geom::{DRAWING_TOLERANCE, Point};
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// How much shallower than the deepest place the pipe's foot may stand, meters: 2 in.
const SHALLOWER: f64 = 0.05;

/// Where the dewatering pipe stands and how long it is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Dewatering {
    /// Its middle, shell frame.
    pub at: Point,
    /// Depth of the underside of the base there below the rim, meters.
    pub underside: f64,
    /// Depth of its foot below the rim, sump included, meters.
    pub foot: f64,
    /// Its length, meters.
    pub length: f64,
    /// What is worth knowing of it.
    pub findings: Vec<Finding>,
}

impl Dewatering {
    /// The pipe of a shell whose hole has this shape.
    pub fn new(shell: &Shell, works: &ConstructionSettings, shape: &DigShape) -> Self {
        let settings = &works.dewatering;
        let at = (settings.at).unwrap_or_else(|| beside_deepest(shell, &works.dig));
        let deepest = shape.deepest();
        // On the edge of the bottom itself the depth may be told either way.
        let there = match settings.at {
            Some(at) => shape.depth(at),
            None => deepest,
        };
        let underside = if there.is_finite() {
            there.max(0.0)
        } else {
            0.0
        };
        let foot = underside + settings.sump_depth;
        let mut findings = Vec::new();
        let mut caution = |check, message: &'static str, remedy: &'static str, place: &str| {
            let place = format!("/works/dewatering{place}");
            let finding = Finding::caution(check, message, remedy);
            findings.push(finding.about(Topic::Pipe).under(&place));
        };
        if offset_region(
            &shell.footprint,
            shell.record.wall_thickness,
            DRAWING_TOLERANCE,
        )
        .contains(at)
        {
            caution(
                "pipe-in-shell",
                "The dewatering pipe would stand in the shell.",
                "Put it beside the wall, in the stone.",
                "/at",
            );
        } else if underside < deepest - SHALLOWER {
            caution(
                "pipe-not-deepest",
                "The dewatering pipe does not stand where the hole is deepest: water below its foot \
                 stays under the shell.",
                "Put it beside the deepest part of the floor.",
                "/at",
            );
        } else if settings.at.is_none() && settings.diameter > works.dig.over_dig + 1e-6 {
            caution(
                "pipe-wider-than-over-dig",
                "The dewatering pipe is wider than the over-dig: it has no room beside the wall.",
                "Dig wider there, or choose a smaller pipe.",
                "/diameter",
            );
        }
        Self {
            at,
            underside,
            foot,
            length: (foot + settings.above_rim).max(0.0),
            findings,
        }
    }
}
