//! A shell that has been checked: flattened facets, depths, water and displacement.

use super::record::{FacetKind, ShellRecord};
use crate::finding::Finding;
use crate::geom::{Outline, Point, Region, Vector};

/// A plane of depths below the rim: `depth(p) = at_origin + gradient . p`, shell frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthPlane {
    /// Depth at the frame's origin, metres.
    pub at_origin: f64,
    /// Change of depth per metre along x and y.
    pub gradient: Vector,
}

impl DepthPlane {
    /// Depth below the rim at a point of the shell frame, metres.
    pub fn depth(&self, p: Point) -> f64 {
        self.at_origin + self.gradient.x * p.x + self.gradient.y * p.y
    }
}

/// A planar piece of the floor, inside the outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Facet {
    /// What part of the floor it is.
    pub kind: FacetKind,
    /// Where it is, clipped to the outline, shell frame.
    pub region: Region,
    /// How deep it is.
    pub plane: DepthPlane,
}

/// A checked shell, in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Shell {
    /// What it was checked from.
    pub record: ShellRecord,
    /// The water's edge.
    pub outline: Outline,
    /// The outline flattened for volumes (`VOLUME_TOLERANCE`).
    pub footprint: Region,
    /// The floor; facets do not overlap and together cover the footprint.
    pub facets: Vec<Facet>,
    /// The outer edge of the coping, flattened.
    pub rim: Region,
}

impl Shell {
    /// Checks a shell; cautions come with it.
    ///
    /// # Errors
    /// Every fault, placed in the record (`/outline/3`, `/floor/1/depths/2`).
    pub fn check(record: &ShellRecord) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        let _ = record;
        unimplemented!()
    }

    /// Greatest depth of the floor below the rim, metres.
    pub fn deepest(&self) -> f64 {
        unimplemented!()
    }

    /// Volume of water to the waterline, m3.
    pub fn water_volume(&self) -> f64 {
        unimplemented!()
    }

    /// Volume inside the outline between the floor and a level `depth` below the rim, m3.
    pub fn volume_below(&self, depth: f64) -> f64 {
        let _ = depth;
        unimplemented!()
    }
}
