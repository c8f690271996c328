//! What elevations and positions of a site count from.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::Point;
use crate::units::{Measure, System, Unit, show};

/// The mark that elevations are carried from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Benchmark {
    /// What it is ("nail in the oak", "front step").
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Where it is, site meters, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Point>,
    /// Its elevation, meters above the site's datum.
    pub elevation: f64,
    /// Whether the elevation was taken for granted, such as 100.00.
    #[serde(default)]
    pub assumed: bool,
}

impl Benchmark {
    /// What the plan calls it.
    pub fn label(&self) -> &str {
        match self.name.trim() {
            "" => "benchmark",
            name => name,
        }
    }

    /// The mark with its elevation in words: "nail in the oak 100.00 ft (assumed)".
    pub fn words(&self, system: System) -> String {
        let elevation = show(Measure::Elevation, self.elevation, system).text;
        let assumed = if self.assumed { " (assumed)" } else { "" };
        format!("{} {elevation}{assumed}", self.label())
    }
}

/// Where the site's origin lies on the earth (WGS 84).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct GeoOrigin {
    /// Longitude, radians, east positive.
    pub longitude: f64,
    /// Latitude, radians, north positive.
    pub latitude: f64,
}

/// The survey grid that the site's coordinates were brought down from: what was taken off.
///
/// A survey's list has `easting + x` and `northing + y`, in its own unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Grid {
    /// Easting of the site's origin, meters.
    pub easting: f64,
    /// Northing of the site's origin, meters.
    pub northing: f64,
    /// The unit of the survey. At two million feet the two kinds of foot differ by 4 ft.
    pub unit: GridUnit,
}

/// The unit of a survey's coordinates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum GridUnit {
    /// Meters.
    Metres,
    /// International feet.
    Feet,
    /// US survey feet.
    SurveyFeet,
}

impl GridUnit {
    /// One of it in meters.
    pub fn in_metres(self) -> f64 {
        match self {
            Self::Metres => Unit::Metre,
            Self::Feet => Unit::Foot,
            Self::SurveyFeet => Unit::SurveyFoot,
        }
        .in_si()
    }

    /// The unit in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Metres => "m",
            Self::Feet => "ft",
            Self::SurveyFeet => "US survey ft",
        }
    }
}
