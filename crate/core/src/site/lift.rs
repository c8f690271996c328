//! Where the shell comes from and where the crane stands that sets it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::Point;

/// The places of the lift, as far as somebody has chosen them.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Lift {
    /// Where the crane stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crane: Option<CraneSpot>,
    /// Middle of the shell where it is delivered, on its truck, site meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub delivery: Option<Point>,
    /// Where the shell is laid down in the yard before it is set, site meters; without it, it comes
    /// to the dig.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_down: Option<Point>,
}

/// Where the crane stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct CraneSpot {
    /// The middle about which it turns, site meters.
    pub at: Point,
    /// Bearing of its length, radians clockwise from north.
    #[serde(default)]
    pub heading: f64,
}
