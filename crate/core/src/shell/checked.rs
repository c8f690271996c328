//! A shell that has been checked: flattened facets, depths, water and displacement.

use super::losses::Losses;
use super::plane::{DepthPlane, positive_part};
use super::record::{FacetKind, ShellRecord};
use crate::geom::{Outline, Point, Region, Vector};

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

impl Facet {
    /// Least and greatest depth of the facet below the rim, meters.
    pub fn depths(&self) -> (f64, f64) {
        let depths = self.region.rings().flat_map(|ring| &ring.0);
        depths
            .map(|p| self.plane.depth(*p))
            .fold((f64::INFINITY, 0.0), |(low, high), d| {
                (low.min(d), high.max(d))
            })
    }
}

/// A straight stretch of the upright wall between rim and floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallStrip {
    /// Where it begins and ends, the water to its left, shell frame.
    pub ends: [Point; 2],
    /// Depth of the floor below the rim at its two ends, meters.
    pub depths: [f64; 2],
}

impl WallStrip {
    /// Length in plan, meters.
    pub fn length(&self) -> f64 {
        let [from, to] = self.ends;
        from.distance(to)
    }

    /// Away from the water, of unit length.
    pub fn out(&self) -> Option<Vector> {
        let [from, to] = self.ends;
        Some(-(to - from).unit()?.left())
    }
}

/// A checked shell, in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Shell {
    /// What it was checked from.
    pub record: ShellRecord,
    /// The water's edge.
    pub outline: Outline,
    /// The outline flattened for volumes (`VOLUME_TOLERANCE`, chords centerd so that its
    /// area is that of the outline).
    pub footprint: Region,
    /// The floor; facets do not overlap and together cover the footprint.
    pub facets: Vec<Facet>,
    /// The outer edge of the coping, flattened.
    pub rim: Region,
    /// The wall round the footprint, stretch by stretch.
    pub walls: Vec<WallStrip>,
    /// What draft and cove take from it by depth, once somebody asked.
    pub(super) losses: Losses,
}

impl Shell {
    /// Greatest depth of the floor below the rim, meters.
    pub fn deepest(&self) -> f64 {
        self.facets
            .iter()
            .map(|facet| facet.depths().1)
            .fold(0.0, f64::max)
    }

    /// Least depth of the floor below the rim, meters.
    pub fn shallowest(&self) -> f64 {
        self.facets
            .iter()
            .map(|facet| facet.depths().0)
            .fold(f64::INFINITY, f64::min)
    }

    /// Volume of water to the waterline, m3.
    pub fn water_volume(&self) -> f64 {
        self.volume_below(self.record.waterline)
    }

    /// Area of the water's surface: that of the outline, arcs exact, m2.
    pub fn water_area(&self) -> f64 {
        self.outline.area()
    }

    /// Volume inside the outline between the floor and a level `depth` below the rim, m3.
    pub fn volume_below(&self, depth: f64) -> f64 {
        let upright = self.upright_volume_below(depth);
        if self.is_plain() {
            upright
        } else {
            upright - self.lost_inside_below(depth)
        }
    }

    /// The same within upright walls and sharp corners.
    pub(super) fn upright_volume_below(&self, depth: f64) -> f64 {
        self.facets
            .iter()
            .map(|facet| facet.plane.volume_below(&facet.region, depth))
            .sum()
    }

    /// Volume of the body of the shell, wall and floor included, below a level `depth` meters
    /// under the rim, m3: what stone or groundwater cannot fill.
    ///
    /// The wall is taken as of even thickness; its corners are taken as square to each stretch,
    /// which is out by less than four times the thickness squared.
    pub fn displacement_below(&self, depth: f64) -> f64 {
        let upright = self.upright_displacement_below(depth);
        if self.is_plain() {
            upright
        } else {
            upright - self.lost_body_below(depth)
        }
    }

    /// The same with upright walls and sharp corners.
    pub(super) fn upright_displacement_below(&self, depth: f64) -> f64 {
        let thickness = self.record.wall_thickness;
        let inside = self.upright_volume_below(depth - thickness);
        inside + thickness * self.wall_area(depth - thickness)
    }

    /// Area of the wall from the floor up to a level `depth` below the rim, m2, as if it stood
    /// upright.
    pub fn wall_area(&self, depth: f64) -> f64 {
        self.walls
            .iter()
            .map(|strip| {
                let [a, b] = strip.depths;
                positive_part(strip.length(), a - depth, b - depth)
            })
            .sum()
    }

    /// Area of the floor, measured along its slopes, m2.
    pub fn floor_area(&self) -> f64 {
        self.facets
            .iter()
            .map(|facet| facet.region.area() * facet.plane.stretch())
            .sum()
    }
}
