//! The units of a LandXML file.

use roxmltree::Node;

use super::element::{attribute, child};
use crate::site::GridUnit;
use crate::units::Unit;

/// How lengths and areas of a file are meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct FileUnits {
    /// The unit that coordinates are handed on in.
    pub unit: GridUnit,
    /// What a length of the file is multiplied by to be in that unit.
    pub scale: f64,
    /// One unit of area, m2, where it is told.
    pub area: Option<f64>,
}

impl FileUnits {
    /// The units that a root tells; none where it tells no unit of length that the schema has.
    pub fn of(root: Node<'_, '_>) -> Option<Self> {
        let units = child(root, "Units")?;
        let told = child(units, "Metric").or_else(|| child(units, "Imperial"))?;
        // Some programs write the plural, or other capitals, than the schema has.
        let (unit, scale) = match attribute(told, "linearUnit").to_ascii_lowercase().as_str() {
            "meter" | "meters" => (GridUnit::Metres, 1.0),
            "kilometer" => (GridUnit::Metres, 1e3),
            "centimeter" => (GridUnit::Metres, 1e-2),
            "millimeter" => (GridUnit::Metres, 1e-3),
            "foot" | "feet" => (GridUnit::Feet, 1.0),
            "ussurveyfoot" | "ussurveyfeet" => (GridUnit::SurveyFeet, 1.0),
            "inch" => (GridUnit::Feet, 1.0 / 12.0),
            "mile" => (GridUnit::Feet, 5_280.0),
            _ => return None,
        };
        let foot = match unit {
            GridUnit::SurveyFeet => GridUnit::SurveyFeet.in_metres(),
            _ => GridUnit::Feet.in_metres(),
        };
        let area = match attribute(told, "areaUnit").as_str() {
            "squareMeter" => Some(1.0),
            "hectare" => Some(Unit::Hectare.in_si()),
            "squareCentimeter" => Some(1e-4),
            "squareMillimeter" => Some(1e-6),
            "squareFoot" => Some(foot * foot),
            "acre" => Some(43_560.0 * foot * foot),
            "squareInch" => Some(foot * foot / 144.0),
            "squareMiles" => Some(5_280.0 * 5_280.0 * foot * foot),
            _ => None,
        };
        Some(Self { unit, scale, area })
    }

    /// What is taken where nothing is told: feet, as for lists of points.
    pub fn assumed() -> Self {
        Self {
            unit: GridUnit::Feet,
            scale: 1.0,
            area: None,
        }
    }
}
