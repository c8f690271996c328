//! Where the shell and its equipment stand.

use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::{Point, Pose};
use crate::shell::ShellRecord;

/// The chosen shell and where it stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Placement {
    /// Which shell.
    pub shell: Arc<ShellChoice>,
    /// Site position of the shell's middle, meters.
    pub at: Point,
    /// Bearing of the shell's length, shallow end to deep end, radians clockwise from north.
    pub heading: f64,
    /// Whether the shell is the mirror image of its drawing.
    #[serde(default)]
    pub mirrored: bool,
    /// Elevation of the rim (top of coping), meters above the site's datum.
    pub coping_elevation: f64,
}

impl Placement {
    /// The pose that carries the shell's frame onto the site.
    pub fn pose(&self) -> Pose {
        Pose::new(self.at, self.heading, self.mirrored)
    }
}

/// A shell from the catalogue by name, or one told in full.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ShellChoice {
    /// The catalogue entry of this name.
    Catalogue(String),
    /// A shell of the user's own.
    Own(ShellRecord),
}

/// The rectangular pad that pump, filter and heater stand on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct EquipmentPad {
    /// Its middle, site meters.
    pub at: Point,
    /// Bearing of its length, radians clockwise from north.
    pub heading: f64,
    /// Its length, meters.
    pub length: f64,
    /// Its width, meters.
    pub width: f64,
}
