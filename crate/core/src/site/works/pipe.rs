//! Pipe: to lower groundwater, and to carry water between shell and equipment.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::Point;
use crate::units::constants::{FOOT, GALLON, INCH};

/// The pipe that stands beside the deep end, down to the underside of the base.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct DewateringSettings {
    /// Nominal diameter, meters.
    pub diameter: f64,
    /// How far it stands above the rim, meters.
    pub above_rim: f64,
    /// Where it stands, shell frame; without it beside the deepest floor.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Point>,
    /// Depth of the sump at its foot below the underside of the base, meters; 0 for none.
    pub sump_depth: f64,
    /// Width of the sump, meters.
    pub sump_width: f64,
}

impl Default for DewateringSettings {
    fn default() -> Self {
        Self {
            diameter: 8.0 * INCH,
            above_rim: 0.0,
            at: None,
            sump_depth: 0.0,
            sump_width: 2.0 * FOOT,
        }
    }
}

/// The pipe between the fittings of the shell and the equipment pad.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct PipeSettings {
    /// Where pipe leaves the shell.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fittings: Vec<Fitting>,
    /// Size of the pipe.
    pub size: PipeSize,
    /// Design flow, cubic meters per second.
    pub flow: f64,
    /// Coefficient C of the Hazen-Williams formula.
    pub coefficient: f64,
    /// Length of straight pipe that one bend is taken to equal, meters.
    pub bend: f64,
    /// Greatest distance between straps, meters.
    pub strap_spacing: f64,
    /// Distance of the pipe from the shell's wall, meters.
    pub off_wall: f64,
    /// Stone kept all round the pipe, meters.
    pub encasement: f64,
    /// Width of a trench, meters.
    pub trench_width: f64,
    /// Depth of a trench below the ground, meters.
    pub trench_depth: f64,
}

impl Default for PipeSettings {
    fn default() -> Self {
        Self {
            fittings: Vec::new(),
            size: PipeSize::Two,
            flow: 50.0 * GALLON / 60.0,
            coefficient: 150.0,
            bend: 5.0 * FOOT,
            strap_spacing: 4.0 * FOOT,
            off_wall: 4.0 * INCH,
            encasement: 4.0 * INCH,
            trench_width: 12.0 * INCH,
            trench_depth: 18.0 * INCH,
        }
    }
}

/// A place where pipe leaves the shell.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Fitting {
    /// What it is.
    pub kind: FittingKind,
    /// Where it is, shell frame; a wall fitting sits at the nearest place of the water's edge.
    pub at: Point,
    /// Depth of its middle below the rim, meters; a drain lies in the floor.
    pub depth: f64,
}

/// What a fitting does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum FittingKind {
    /// Water comes back through it.
    Return,
    /// Water leaves over it, at the surface.
    Skimmer,
    /// Water leaves through it, in the floor.
    Drain,
}

impl FittingKind {
    /// What it is, in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Return => "return",
            Self::Skimmer => "skimmer",
            Self::Drain => "drain",
        }
    }
}

/// Nominal size of Schedule 40 pipe (ASTM D1785), inches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum PipeSize {
    /// 1 1/2 in.
    OneAndHalf,
    /// 2 in.
    Two,
    /// 2 1/2 in.
    TwoAndHalf,
    /// 3 in.
    Three,
}

/// Where the sizes of pipe come from.
pub const PIPE_SOURCE: &str =
    "Schedule 40 pipe, ASTM D1785: outside diameter less twice the least wall";

impl PipeSize {
    /// Every size, smallest first.
    pub const ALL: [Self; 4] = [Self::OneAndHalf, Self::Two, Self::TwoAndHalf, Self::Three];

    /// The nominal size in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::OneAndHalf => "1 1/2 in",
            Self::Two => "2 in",
            Self::TwoAndHalf => "2 1/2 in",
            Self::Three => "3 in",
        }
    }

    /// Outside diameter and least wall, inches: two published tables of ASTM D1785, read.
    const fn inches(self) -> (f64, f64) {
        match self {
            Self::OneAndHalf => (1.900, 0.145),
            Self::Two => (2.375, 0.154),
            Self::TwoAndHalf => (2.875, 0.203),
            Self::Three => (3.500, 0.216),
        }
    }

    /// Outside diameter, meters.
    pub fn outside(self) -> f64 {
        self.inches().0 * INCH
    }

    /// Inside diameter between walls of the least thickness, meters: 2.067 in of 2 in pipe.
    pub fn inside(self) -> f64 {
        let (outside, wall) = self.inches();
        (outside - 2.0 * wall) * INCH
    }
}
