//! What elevations and positions of a site count from.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::Point;

/// The mark that elevations are carried from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Benchmark {
    /// What it is ("nail in the oak", "front step").
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Where it is, site metres, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Point>,
    /// Its elevation, metres above the site's datum.
    pub elevation: f64,
    /// Whether the elevation was taken for granted, such as 100.00.
    #[serde(default)]
    pub assumed: bool,
}

/// Where the site's origin lies on the earth (WGS 84).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GeoOrigin {
    /// Longitude, radians, east positive.
    pub longitude: f64,
    /// Latitude, radians, north positive.
    pub latitude: f64,
}
