//! What has to come out at least: the floor of the shell, lowered by shell and base.
//!
//! The hole is the envelope of cones: a point of the bottom at depth `d` keeps the ground free
//! within the *reach* (over-dig and wall) all round it at its own depth, and from there the
//! side rises one in *slope*:
//!
//! `depth(p) = max over q of d(q) - max(0, |p - q| - reach) / slope`
//!
//! It holds at every level, so the over-dig is also kept on the upper side of a sloping floor:
//! beneath a floor that falls 1 in 3, a reach of 8 in makes the base 2.7 in thicker.

use crate::geom::{Point, Region, Vector};
use crate::shell::{DepthPlane, Shell};
use crate::site::DigSettings;

/// The steepest side that is followed as a slope, run per unit of rise. Steeper ones, unless
/// they are upright, are dug at this slope: 3 in of run in 5 ft is within the swing of a
/// bucket (common practice, no source), and it is on the safe side.
pub const STEEPEST_SLOPE: f64 = 0.05;

/// A planar piece of the bottom, shell frame.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    /// Where it is.
    pub region: Region,
    /// Depth of the bottom below the rim.
    pub plane: DepthPlane,
    /// Least depth, metres.
    pub least: f64,
    /// Greatest depth, metres.
    pub greatest: f64,
}

/// The bottom of the hole and how its sides rise.
#[derive(Debug, Clone)]
pub(super) struct Bottom {
    /// The shell's footprint.
    pub plan: Region,
    /// The planar pieces; together they cover the footprint.
    pub pieces: Vec<Piece>,
    /// How far the ground is kept free sideways at every depth: wall and over-dig, metres.
    pub reach: f64,
    /// Run of the side per unit of rise; 0 for upright sides.
    pub slope: f64,
}

impl Bottom {
    /// The bottom under a shell.
    pub fn new(shell: &Shell, settings: &DigSettings) -> Self {
        let wall = shell.record.wall_thickness;
        let facets = shell.facets.iter().map(|f| (f.region.clone(), f.plane));
        let lower = settings.base_thickness + wall;
        let plan = shell.footprint.clone();
        Self::of(
            plan,
            facets,
            lower,
            settings.over_dig + wall,
            settings.slope(),
        )
    }

    /// The bottom `lower` metres under planes of depth that cover a plan.
    pub fn of(
        plan: Region,
        facets: impl IntoIterator<Item = (Region, DepthPlane)>,
        lower: f64,
        reach: f64,
        slope: f64,
    ) -> Self {
        let pieces = facets
            .into_iter()
            .filter_map(|(region, plane)| Piece::new(region, lowered(plane, lower)))
            .collect();
        Self {
            plan,
            pieces,
            reach: reach.max(0.0),
            slope: if slope > 0.0 {
                slope.max(STEEPEST_SLOPE)
            } else {
                0.0
            },
        }
    }

    /// Greatest depth of the bottom below the rim, metres; 0 when there is none.
    pub fn deepest(&self) -> f64 {
        let depths = self.pieces.iter().map(|p| p.greatest);
        depths.reduce(f64::max).unwrap_or(0.0)
    }

    /// Least depth of the bottom below the rim, metres; 0 when there is none.
    pub fn shallowest(&self) -> f64 {
        let depths = self.pieces.iter().map(|p| p.least);
        depths.reduce(f64::min).unwrap_or(0.0)
    }
}

impl Piece {
    fn new(region: Region, plane: DepthPlane) -> Option<Self> {
        let depths = region.rings().flat_map(|r| &r.0).map(|p| plane.depth(*p));
        let (least, greatest) = depths.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, g), d| {
            (l.min(d), g.max(d))
        });
        (least.is_finite() && greatest.is_finite()).then_some(Self {
            region,
            plane,
            least,
            greatest,
        })
    }

    /// Corners of the piece with their depths.
    pub fn corners(&self) -> impl Iterator<Item = (Point, f64)> + '_ {
        let points = self.region.rings().flat_map(|ring| &ring.0);
        points.map(|p| (*p, self.plane.depth(*p)))
    }

    /// The piece's interior as it governs the hole: moved uphill by the reach, because the
    /// deepest point within the reach stands straight downhill. The plane is lowered to match.
    pub fn shifted(&self, reach: f64) -> (Vector, DepthPlane) {
        let steepness = self.plane.gradient.length();
        match self.plane.gradient.unit() {
            Some(down) => (down * -reach, lowered(self.plane, steepness * reach)),
            None => (Vector::default(), self.plane),
        }
    }
}

fn lowered(plane: DepthPlane, by: f64) -> DepthPlane {
    DepthPlane {
        at_origin: plane.at_origin + by,
        gradient: plane.gradient,
    }
}
