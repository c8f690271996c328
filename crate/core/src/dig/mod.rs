//! The dig: how deep, how wide, how much.
//!
//! The hole is the envelope of everything that must come out: under every facet of the floor
//! the base's thickness, beyond it the over-dig, and from there the side slope up to the
//! ground. [`DigShape`] holds all of that which does not depend on where the shell stands;
//! [`excavate`] cuts it into the ground at one placement.

use crate::finding::Finding;
use crate::geom::{Pose, Region};
use crate::ground::Ground;
use crate::shell::Shell;
use crate::site::DigSettings;

/// The hole in the shell's own frame, before it meets any ground.
#[derive(Debug, Clone)]
pub struct DigShape {}

impl DigShape {
    /// Builds the hole of a shell. `headroom`: how far the ground may stand above the rim
    /// anywhere near the shell, metres (the slope is followed up that far).
    pub fn new(shell: &Shell, settings: &DigSettings, headroom: f64) -> Self {
        let _ = (shell, settings, headroom);
        unimplemented!()
    }

    /// How far above the rim the slope was followed, metres.
    pub fn headroom(&self) -> f64 {
        unimplemented!()
    }

    /// The bottom edge of the hole at a depth below the rim: the exact contour, shell frame.
    pub fn contour(&self, depth: f64) -> Region {
        let _ = depth;
        unimplemented!()
    }
}

/// The hole cut into the ground at one placement. All volumes are bank (in place).
#[derive(Debug, Clone, PartialEq)]
pub struct Dig {
    /// Volume of ground taken out, m3.
    pub bank_volume: f64,
    /// The part of it under ground that nobody surveyed, m3.
    pub unsurveyed_volume: f64,
    /// Volume of the hole below the level `cap_depth` under the rim (and below the ground), m3.
    pub volume_below_cap: f64,
    /// Area the dig opens at the ground, m2.
    pub top_area: f64,
    /// Where its sides meet the ground, site frame.
    pub top_edge: Region,
    /// Greatest vertical depth from the ground down to the bottom, metres.
    pub greatest_depth: f64,
    /// Lowest elevation of the bottom, metres.
    pub bottom_elevation: f64,
    /// Area of the shell's outline over which the rim's underside stands above the ground, or
    /// the hole is not closed by ground at the sides: the site has to be filled there, m2.
    pub area_above_ground: f64,
    /// Cautions that belong beside these numbers.
    pub findings: Vec<Finding>,
}

/// Cuts the hole into the ground.
pub fn excavate(
    shape: &DigShape,
    ground: &Ground,
    pose: &Pose,
    coping_elevation: f64,
    cap_depth: f64,
) -> Dig {
    let _ = (shape, ground, pose, coping_elevation, cap_depth);
    unimplemented!()
}
