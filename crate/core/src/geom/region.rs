//! Areas bounded by straight edges: rings, polygons with holes, and sets of polygons.

use super::point::{Point, Pose};

/// A closed ring of straight edges (the last point joins the first; it is not repeated).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ring(pub Vec<Point>);

/// An outer ring (counter-clockwise) and its holes (clockwise).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polygon {
    /// The outer ring, counter-clockwise.
    pub outer: Ring,
    /// The holes, clockwise.
    pub holes: Vec<Ring>,
}

/// Any number of polygons that do not overlap. Empty is a valid region.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Region {
    /// The polygons, outer rings counter-clockwise.
    pub polygons: Vec<Polygon>,
}

impl Ring {
    /// Signed area, m2; positive counter-clockwise.
    pub fn signed_area(&self) -> f64 {
        unimplemented!()
    }

    /// Length round the ring, metres.
    pub fn perimeter(&self) -> f64 {
        unimplemented!()
    }

    /// The edges in order, each as its two ends.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.0
            .iter()
            .copied()
            .zip(self.0.iter().copied().cycle().skip(1))
    }
}

impl Region {
    /// The region inside one counter-clockwise ring.
    pub fn from_ring(outer: Ring) -> Self {
        Self {
            polygons: vec![Polygon {
                outer,
                holes: Vec::new(),
            }],
        }
    }

    /// All rings, outer ones and holes.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        self.polygons
            .iter()
            .flat_map(|p| core::iter::once(&p.outer).chain(&p.holes))
    }

    /// Area, m2.
    pub fn area(&self) -> f64 {
        unimplemented!()
    }

    /// Length round all rings, metres.
    pub fn perimeter(&self) -> f64 {
        unimplemented!()
    }

    /// Centroid of the area; `None` when there is none.
    pub fn centroid(&self) -> Option<Point> {
        unimplemented!()
    }

    /// Whether the point lies inside (boundary points may go either way).
    pub fn contains(&self, p: Point) -> bool {
        let _ = p;
        unimplemented!()
    }

    /// Smallest upright rectangle round the region: its lower left and upper right corners.
    pub fn bounds(&self) -> Option<(Point, Point)> {
        unimplemented!()
    }

    /// This region carried from the shell's frame to the site's (rings keep their sense).
    pub fn posed(&self, pose: &Pose) -> Self {
        let _ = pose;
        unimplemented!()
    }
}
