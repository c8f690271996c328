//! The ground as files tell it, not yet checked.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::Point;

/// The ground as a file tells it. Elevations are meters above the site's own datum.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum GroundRecord {
    /// The same elevation everywhere.
    Level {
        /// Elevation, meters.
        elevation: f64,
    },
    /// An even fall.
    Plane {
        /// A point whose elevation is known, site meters.
        at: Point,
        /// The elevation there, meters.
        elevation: f64,
        /// Drop per meter of run, along `towards`.
        fall: f64,
        /// Bearing down the slope, radians clockwise from north.
        towards: f64,
    },
    /// Spot elevations joined into triangles.
    Spots {
        /// Each spot as `[x, y, elevation]`, meters.
        spots: Vec<[f64; 3]>,
        /// Lines along which the ground breaks, each as points `[x, y, elevation]`, meters:
        /// top and toe of a bank, a curb, a wall.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        breaklines: Vec<Vec<[f64; 3]>>,
    },
}

impl GroundRecord {
    /// Whether it has the same elevation everywhere.
    pub fn is_level(&self) -> bool {
        matches!(self, Self::Level { .. })
    }

    /// Spots without breaklines.
    pub fn of_spots(spots: Vec<[f64; 3]>) -> Self {
        Self::Spots {
            spots,
            breaklines: Vec::new(),
        }
    }
}

impl Default for GroundRecord {
    fn default() -> Self {
        Self::Level { elevation: 0.0 }
    }
}
