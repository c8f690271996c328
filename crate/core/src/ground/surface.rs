//! The checked ground: a surface that has an elevation everywhere.

use super::record::GroundRecord;
use crate::finding::Finding;
use crate::geom::{Point, Region};

/// A triangle of the surface; its elevation is planar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facet {
    /// Its corners in plan, counter-clockwise, site metres.
    pub corners: [Point; 3],
    /// Elevation at each corner, metres.
    pub elevations: [f64; 3],
    /// Whether it lies between surveyed spots; otherwise its elevation is carried over from
    /// the nearest edge of the surveyed area.
    pub known: bool,
}

/// The elevation at a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Height {
    /// Elevation, metres.
    pub elevation: f64,
    /// Whether it lies between surveyed spots.
    pub known: bool,
}

/// The ground before the dig.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    facets: Vec<Facet>,
}

impl Ground {
    /// Checks the ground and builds its surface.
    ///
    /// # Errors
    /// Every fault: fewer than 3 spots, figures not finite or out of range, two elevations at
    /// one place, all spots on one line.
    pub fn check(record: &GroundRecord) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        let _ = record;
        unimplemented!()
    }

    /// The triangles. Together they cover every point within the coordinate limit.
    pub fn facets(&self) -> &[Facet] {
        &self.facets
    }

    /// The elevation at a point of the site.
    pub fn height(&self, at: Point) -> Height {
        let _ = at;
        unimplemented!()
    }

    /// The surveyed area; `None` where the ground is known everywhere (level, plane).
    pub fn surveyed(&self) -> Option<&Region> {
        unimplemented!()
    }
}
