//! The dig: how deep, how wide, how much.
//!
//! The hole is the envelope of everything that must come out: under every facet of the floor
//! the base's thickness, beyond it the over-dig, and from there the side slope up to the
//! ground. [`DigShape`] holds all of that which does not depend on where the shell stands;
//! [`excavate`] cuts it into the ground at one placement.
//!
//! | part | what it knows |
//! |---|---|
//! | `bottom` | what has to come out at least, and how the sides rise from it |
//! | `influence` | how deep one edge of the bottom makes the hole at a point: a closed form |
//! | `grid`, `fill`, `zone` | the hole as a grid of depths, for sloping sides |
//! | `slabs` | the same for upright sides, by exact shares of cells |
//! | `sides`, `profile` | how the sides stand: by side, by layer of soil, with a bench |
//! | `hole` | bottom and sides as one model, whichever way it is drawn |
//! | `body`, `mesh`, `skin`, `swept`, `non_uniform` | sections of holes whose sides are not all alike |
//! | `facets`, `surface`, `relief`, `stretch` | their surface, and the same as a grid |
//! | `depths` | the surface of any hole at single points, and the lines along which it bends |
//! | `contour` | exact contours, and the volume under level ground from them |
//! | `terrain` | the ground in the shell's frame, row by row |
//! | `excavate`, `sums`, `kink` | the cut between ground and grid |
//! | `top_edge` | where the sides meet the ground |
//! | `small` | sump, pad and trenches |
//! | `clip` | lines cut at a region's edge; where ground meets a level |
//! | `safety` | the cautions beside the numbers |
//!
//! Grid and contours are two independent ways to the volume under level ground; tests hold
//! them against each other.

mod body;
mod bottom;
mod cells;
mod clip;
mod contour;
mod depths;
mod excavate;
mod facets;
mod fill;
mod grid;
mod hole;
mod influence;
mod kink;
mod mesh;
mod non_uniform;
mod piece;
mod profile;
mod relief;
pub mod safety;
mod shape;
mod sides;
mod skin;
mod slabs;
pub mod small;
mod stretch;
mod sums;
mod surface;
mod swept;
mod terrain;
mod top_edge;
mod zone;

pub use bottom::{STEEPEST_SLOPE, base_under};
pub use depths::Depths;
pub use excavate::excavate;
pub(crate) use grid::Grid;
pub use profile::{Reach, reach};
pub use shape::{DigShape, contours, edge_at, foot, wound_contours};
pub use sides::BySide;
pub(crate) use terrain::Terrain;
pub(crate) use top_edge::positive_area;

use crate::geom::{Point, Region};

/// The hole cut into the ground at one placement. All volumes are bank (in place).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Dig {
    /// Volume of ground taken out, m3.
    pub bank_volume: f64,
    /// The part of it under ground that nobody surveyed, m3.
    pub unsurveyed_volume: f64,
    /// The part of the opening on ground that nobody surveyed, m2.
    pub unsurveyed_area: f64,
    /// Volume of the hole below the level `cap_depth` under the rim (and below the ground), m3.
    pub volume_below_cap: f64,
    /// Area the dig opens at the ground, m2.
    pub top_area: f64,
    /// Where its sides meet the ground, site frame: within 5 mm of the line, at most.
    pub top_edge: Region,
    /// Area of the plan at the foot of the sides (footprint, wall and over-dig), m2.
    pub floor_area: f64,
    /// Run per unit of rise, as dug, of the side and layer that stand steepest for their soil; 0
    /// when upright.
    pub side_slope: f64,
    /// Steepest side that the standard lists for that soil, run per unit of rise.
    pub steepest: f64,
    /// Run per unit of rise side by side, in the shell's frame, of the steepest layer that each
    /// passes.
    pub slopes: BySide,
    /// Height of the part at the foot of the sides that stands upright all round because the
    /// settings say so, meters; 0 for none.
    pub upright_toe: f64,
    /// Greatest vertical depth from the ground down to the bottom, meters.
    pub greatest_depth: f64,
    /// Lowest elevation of the bottom, meters.
    pub bottom_elevation: f64,
    /// How far the rim stands above the ground where it stands highest, meters (negative when
    /// it stands below the ground everywhere).
    pub rim_above_ground: f64,
    /// How far the ground stands above the rim where it stands highest, meters (negative when
    /// it stands below the rim everywhere).
    pub ground_above_rim: f64,
    /// Area of the hole, at the level of the cap, over which the ground lies lower than that
    /// level: nothing holds the backfill there and the site has to be filled, m2.
    pub area_above_ground: f64,
    /// Where the ground falls below the level up to which the hole is backfilled, within the
    /// hole: chains in the site frame, higher ground to their left. On their right nothing holds
    /// the backfill, and the hole's edge is where its sides run out to daylight.
    pub daylight: Vec<Vec<Point>>,
    /// Whether the sides were followed up to the ground everywhere. When not, the shape's
    /// headroom was too small: the figures fall short, and a finding says so.
    pub closed: bool,
}

impl Dig {
    /// Mean depth: the volume over the area it opens, meters.
    pub fn mean_depth(&self) -> f64 {
        if self.top_area > 0.0 {
            self.bank_volume / self.top_area
        } else {
            0.0
        }
    }
}
