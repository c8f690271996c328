//! The hole: how wide, how steep, in what soil.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::shell::FacetKind;
use crate::site::soil::{SoilClass, SpoilMaterial};
use crate::units::constants::INCH;

/// The hole.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct DigSettings {
    /// Width dug beyond the wall at the bottom, meters.
    pub over_dig: f64,
    /// Thickness of the stone base under the floor, measured vertically, meters.
    pub base_thickness: f64,
    /// Soil class; sets the side slope.
    pub soil: SoilClass,
    /// Side slope (horizontal run per unit of rise) in place of the soil class's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side_slope: Option<f64>,
    /// What the spoil is; sets swell and weight.
    pub material: SpoilMaterial,
    /// Loose volume per bank volume, in place of the material's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub swell: Option<f64>,
    /// Weight of a bank cubic meter, kilograms, in place of the material's own (wet soil).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub density: Option<f64>,
    /// Sides of the hole that are dug otherwise.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sides: Vec<SideSettings>,
    /// Parts of the floor whose base is of another thickness.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub bases: Vec<BaseZone>,
    /// Layers of other soil above that of `soil`, from the top down.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub layers: Vec<SoilLayer>,
    /// Depth below the rim from which on the sides stand upright, meters.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub upright_below: Option<f64>,
    /// A level step in the sides.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bench: Option<Bench>,
    /// Whether the hole is open for 24 hours at most.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub short_term: bool,
}

impl DigSettings {
    /// The side slope in force, horizontal run per unit of rise.
    pub fn slope(&self) -> f64 {
        self.side_slope.unwrap_or_else(|| self.soil.side_slope())
    }

    /// The swell in force, loose volume per bank volume.
    pub fn loose_per_bank(&self) -> f64 {
        self.swell.unwrap_or_else(|| self.material.loose_per_bank())
    }

    /// The weight in force, kilograms per bank cubic meter.
    pub fn bank_density(&self) -> f64 {
        self.density.unwrap_or_else(|| self.material.bank_density())
    }
}

impl Default for DigSettings {
    fn default() -> Self {
        Self {
            over_dig: 8.0 * INCH,
            base_thickness: 4.0 * INCH,
            soil: SoilClass::default(),
            side_slope: None,
            material: SpoilMaterial::default(),
            swell: None,
            density: None,
            sides: Vec::new(),
            bases: Vec::new(),
            layers: Vec::new(),
            upright_below: None,
            bench: None,
            short_term: false,
        }
    }
}

/// A side of the hole, in the shell's frame: its length runs from the shallow end to the deep
/// end, which lies ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum HoleSide {
    /// Beyond the end that the length points to: x positive.
    Ahead,
    /// To the left of the length: y positive. Of a mirrored shell it lies to the right.
    Left,
    /// Beyond the end that the length comes from: x negative.
    Behind,
    /// To the right of the length: y negative.
    Right,
}

/// How one side of the hole is dug otherwise than the rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct SideSettings {
    /// Which side.
    pub side: HoleSide,
    /// Width dug beyond the wall there, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub over_dig: Option<f64>,
    /// Run per unit of rise there, in all soil.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slope: Option<f64>,
    /// Why: what holds a steep side, what a flat one is for.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The base's thickness under the facets of one kind.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BaseZone {
    /// Which part of the floor.
    pub kind: FacetKind,
    /// Thickness of the base there, measured vertically, meters.
    pub thickness: f64,
}

/// A layer of soil above the one of the settings.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct SoilLayer {
    /// Depth of its underside below the rim, meters.
    pub down_to: f64,
    /// Its class.
    pub soil: SoilClass,
    /// Side slope in place of the class's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slope: Option<f64>,
}

/// A level step in the sides of the hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Bench {
    /// Its depth below the rim, meters.
    pub depth: f64,
    /// Its width, meters.
    pub width: f64,
}
