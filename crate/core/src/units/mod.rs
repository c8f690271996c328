//! Feet, inches, yards, gallons, tons and degrees: what people type and read.
//!
//! Inside, the planner knows meters, square meters, cubic meters, kilograms and radians
//! only. Everything else lives here: text comes in through the `parse_` functions and
//! figures go out through [`show`] and the `format_` functions.
//!
//! | to do this | use |
//! |---|---|
//! | read `12'-6 1/2"`, `12.54'`, `150 in`, `3.81 m` | [`parse_length`] |
//! | read `N 89°15'30" E`, `123.5` | [`parse_bearing`] |
//! | read `3/4:1`, `vertical` | [`parse_slope`] |
//! | read any field by what it measures | [`parse_measure`] |
//! | print a figure in the user's system | [`show`] |
//! | print a length in one style | [`format_length`] |
//! | say that a figure is out of its range | [`out_of_range`] |
//! | read and print a coordinate of a list | [`parse_coordinate`], [`format_coordinate`] |
//! | read and print a rate | [`parse_rate`], [`show_rate`] |
//! | print a sum of money | [`show_money`] |
//! | read latitude and longitude | [`parse_place`] |
//! | print a bearing or a heading | [`format_bearing`], [`format_heading`] |
//!
//! ```
//! use batterboard_core::units::{Measure, System, parse_length, show};
//!
//! let typed = parse_length("12'-6 1/2\"", System::Metres)?;
//! assert_eq!(show(Measure::Length, typed.value, System::Feet).text, "12'-6 1/2\"");
//! assert_eq!(show(Measure::Length, typed.value, System::Metres).text, "3.823 m");
//! # Ok::<(), batterboard_core::units::UnitFault>(())
//! ```
//!
//! # Rounding
//! One rule, [`round_to`], rounds every printed figure: half away from zero, on plain IEEE
//! arithmetic, so that every machine prints the same digits.
//!
//! Deliberately absent: findings (this layer stands below them; it speaks by [`UnitFault`]
//! and [`Ambiguity`]), state-plane coordinates, temperatures, one currency in another.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

mod bearing;
mod bound;
pub mod constants;
mod coordinate;
mod decimal;
mod fault;
mod geographic;
mod length;
mod length_text;
mod measure;
mod money;
mod rate;
mod scan;
mod slope;
mod unit;

pub use bearing::{EIGHTHS, format_bearing, format_heading, nearest_eighth, parse_bearing};
pub use bound::out_of_range;
pub use coordinate::{DecimalSign, decimal_sign, format_coordinate, parse_coordinate};
pub use decimal::{format_decimal, round_to};
pub use fault::{Ambiguity, Parsed, UnitFault};
pub use geographic::{LatitudeLongitude, format_place, looks_geographic, parse_place};
pub use length::{parse_length, parse_length_and_unit};
pub use length_text::{LengthStyle, format_length};
pub use measure::{Measure, Shown, parse_measure, show, show_finer};
pub use money::{Currency, LONGEST_CURRENCY, show_money};
pub use rate::{RateUnit, parse_rate, rate_in, show_rate};
pub use slope::{format_slope, parse_slope};
pub use unit::{Dimension, Unit};

/// The user's choice of units for what is shown, and for numbers typed without a unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum System {
    /// Feet and inches, square feet, cubic yards, gallons, short tons.
    #[default]
    Feet,
    /// Meters, square meters, cubic meters, litres, tonnes.
    Metres,
}

impl System {
    /// The other one.
    pub const fn other(self) -> Self {
        match self {
            Self::Feet => Self::Metres,
            Self::Metres => Self::Feet,
        }
    }
}
