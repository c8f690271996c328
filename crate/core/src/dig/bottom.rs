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

use core::cell::OnceCell;

use super::mesh::TaggedFace;
use super::piece::{Piece, lowered};
use super::skin::Skin;
use crate::geom::region::bounds;
use crate::geom::{Point, Region, Vector};
use crate::shell::{DepthPlane, FacetKind, Shell};
use crate::site::DigSettings;

/// The steepest side that is followed as a slope, run per unit of rise. Steeper ones, unless
/// they are upright, are dug at this slope: 3 in of run in 5 ft is within the swing of a
/// bucket (common practice, no source), and it is on the safe side.
pub const STEEPEST_SLOPE: f64 = 0.05;

/// A floor that comes so near to falling as fast as the side rises counts as doing so.
pub(super) const GENTLE: f64 = 0.999;

/// The bottom of the hole and how its sides rise.
#[derive(Debug, Clone)]
pub(super) struct Bottom {
    /// The shell's footprint.
    pub plan: Region,
    /// The planar pieces; together they cover the footprint.
    pub pieces: Vec<Piece>,
    /// How far the ground is kept free sideways at every depth: wall and over-dig, meters.
    pub reach: f64,
    /// Run of the side per unit of rise; 0 for upright sides.
    pub slope: f64,
    /// See [`Bottom::skin`].
    skin: OnceCell<Skin>,
}

impl Bottom {
    /// The bottom under a shell: under every facet lie its wall and the base of its kind. The
    /// sides are left upright at the wall.
    pub fn new(shell: &Shell, settings: &DigSettings) -> Self {
        let wall = shell.record.wall_thickness;
        let lowered = shell.facets.iter().map(|facet| {
            let base = base_under(settings, facet.kind);
            (facet.region.clone(), lowered(facet.plane, base + wall))
        });
        Self::of(shell.footprint.clone(), lowered, 0.0, wall, 0.0)
    }

    /// The bottom `lower` meters under planes of depth that cover a plan.
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
            skin: OnceCell::new(),
        }
    }

    /// Sets how far the ground is kept free, meters, and the run of the side per unit of rise.
    pub fn set_sides(&mut self, reach: f64, slope: f64) {
        self.reach = reach;
        self.slope = slope;
        self.skin = OnceCell::new();
    }

    /// The pieces gathered where they meet; made when first asked for.
    pub fn skin(&self) -> &Skin {
        self.skin.get_or_init(|| {
            let told = self.pieces.iter().map(|piece| TaggedFace {
                piece,
                layer: 0,
                below: false,
                gentle: self.slope * piece.plane.gradient.length() < GENTLE,
            });
            Skin::of(&told.collect::<Vec<_>>())
        })
    }

    /// A rectangle round the hole from the bottom up to so far above the rim, meters.
    pub fn bounds(&self, above: f64) -> (Point, Point) {
        let out = self.reach + self.slope * (self.deepest() + above).max(0.0);
        let corners = self.pieces.iter().flat_map(|piece| piece.region.bounds());
        let (low, high) = bounds(corners.flat_map(|(low, high)| [low, high])).unwrap_or_default();
        let out = Vector::new(out, out);
        (low + -out, high + out)
    }

    /// Greatest depth of the bottom below the rim, meters; 0 when there is none.
    pub fn deepest(&self) -> f64 {
        let depths = self.pieces.iter().map(|p| p.greatest);
        depths.reduce(f64::max).unwrap_or(0.0)
    }

    /// Least depth of the bottom below the rim, meters; 0 when there is none.
    pub fn shallowest(&self) -> f64 {
        let depths = self.pieces.iter().map(|p| p.least);
        depths.reduce(f64::min).unwrap_or(0.0)
    }
}

/// Thickness of the base under the facets of a kind, meters: the last word on it in the settings.
pub fn base_under(settings: &DigSettings, kind: FacetKind) -> f64 {
    let zone = settings.bases.iter().rev().find(|zone| zone.kind == kind);
    zone.map_or(settings.base_thickness, |zone| zone.thickness)
}
