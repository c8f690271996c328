//! The placed shell along a line: what every part of the section round it is measured from.

use super::chain::{breaks, region};
use super::line::Cut;
use crate::geom::boolean::positive_winding;
use crate::geom::{Point, Region, Ring};
use crate::shell::Shell;

/// Far below everything that is drawn, meters below the rim.
pub(super) const FAR_BELOW: f64 = 50.0;

/// Far beyond both ends of the line, meters.
const FAR_OUT: f64 = 100.0;

/// A shell, and the line in its frame.
#[derive(Clone, Copy)]
pub(super) struct Placed<'a> {
    pub shell: &'a Shell,
    pub cut: Cut,
    /// Elevation of the rim, meters.
    pub coping: f64,
}

impl Placed<'_> {
    /// Stations where the floor bends or steps.
    pub fn floor_breaks(&self) -> Vec<f64> {
        let facets = self.shell.facets.iter();
        breaks(
            facets
                .flat_map(|facet| self.cut.crossings(&facet.region))
                .collect(),
        )
    }

    /// Everything below an elevation, along the section and beyond.
    pub fn below(&self, elevation: f64) -> Region {
        let low = self.coping - FAR_BELOW;
        let (left, right) = (-FAR_OUT, self.cut.length + FAR_OUT);
        region(vec![
            Point::new(left, low),
            Point::new(right, low),
            Point::new(right, elevation),
            Point::new(left, elevation),
        ])
    }

    /// A level slab over a region of the shell's frame, its top `top` meters below the rim.
    pub fn slab(&self, over: &Region, top: f64, thickness: f64) -> Region {
        let high = self.coping - top;
        let rings: Vec<Ring> = self
            .cut
            .inside(over)
            .into_iter()
            .map(|(a, b)| {
                Ring(vec![
                    Point::new(a, high - thickness),
                    Point::new(b, high - thickness),
                    Point::new(b, high),
                    Point::new(a, high),
                ])
            })
            .collect();
        positive_winding(&rings)
    }

    /// All that stands over a region of the shell's frame, from above the rim to far below it.
    pub fn column(&self, over: &Region) -> Region {
        self.slab(over, -1.0, FAR_BELOW + 1.0)
    }
}
