//! What kind of figure a number is, and so how it is shown and read.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::System;
use super::bearing::{format_bearing, format_heading, parse_bearing, rounded_heading};
use super::decimal::{format_decimal, round_to};
use super::fault::{Parsed, UnitFault};
use super::length::parse_length;
use super::length_text::{LengthStyle, feet_of_parts, format_length};
use super::scan::{Kind, Reader, scan};
use super::slope::{format_slope, parse_slope};
use super::unit::{Dimension, Unit};

/// What kind of figure a number is. Each is kept in the SI unit of [`Measure::si_unit`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Measure {
    /// A length that a tape measures: feet, inches and sixteenths, or millimetres.
    Length,
    /// A length along a lot line, as plats give it: hundredths of a foot, or of a meter.
    LongLength,
    /// A height above the site's datum: hundredths of a foot, or millimetres.
    Elevation,
    /// A deck, a shell: tenths of a square foot, or hundredths of a square meter.
    Area,
    /// A lot: square feet and acres, or square meters and hectares.
    LandArea,
    /// Soil and stone: tenths of a cubic yard or of a cubic meter.
    EarthVolume,
    /// Concrete: hundredths of a cubic yard or of a cubic meter.
    ConcreteVolume,
    /// Water: gallons or litres.
    WaterVolume,
    /// Soil and stone by weight: tenths of a short ton or of a tonne.
    Mass,
    /// A shell, a load: pounds or kilograms.
    Weight,
    /// Weight of material by volume: short tons per cubic yard or tonnes per cubic meter.
    Density,
    /// Whole things.
    Count,
    /// A plain factor such as swell: two decimals.
    Ratio,
    /// A share such as waste, kept as a ratio: percent with one decimal.
    Fraction,
    /// A side slope, run over rise.
    Slope,
    /// The direction of a lot line: quadrant bearing to the second.
    Bearing,
    /// The direction a shell points: degrees clockwise from north to a tenth.
    Heading,
    /// An angle between two things: degrees to a hundredth.
    Angle,
    /// By how much a traverse misses its start: thousandths of a foot or of a meter.
    Misclosure,
    /// How well a traverse closes: length over misclosure, as `1:2,792`.
    Closing,
    /// Water in a pipe: gallons per minute or litres per second.
    Flow,
    /// How fast water runs: feet or meters per second.
    Speed,
    /// Time at work: tenths of an hour.
    Hours,
    /// A short time: whole minutes.
    Minutes,
    /// Load on the ground: pounds per square foot or kilopascals.
    Pressure,
    /// Money, in whatever currency the user thinks in: two decimals, no sign.
    Money,
}

/// A figure as it is shown.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Shown {
    /// The figure in `unit`, rounded as `text` has it; not finite when it is unknown.
    pub value: f64,
    /// The unit's symbol; empty for plain numbers.
    pub unit: &'static str,
    /// The figure and its unit as a reader sees them.
    pub text: String,
}

impl core::fmt::Display for Shown {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.text)
    }
}

impl Measure {
    /// The SI unit in which a figure of this kind is kept.
    pub const fn si_unit(self) -> Unit {
        match self.dimension() {
            Dimension::Length => Unit::Metre,
            Dimension::Area => Unit::SquareMetre,
            Dimension::Volume => Unit::CubicMetre,
            Dimension::Mass => Unit::Kilogram,
            Dimension::Density => Unit::KilogramPerCubicMetre,
            Dimension::Angle => Unit::Radian,
            Dimension::Flow => Unit::CubicMetrePerSecond,
            Dimension::Duration => Unit::Second,
            Dimension::Speed => Unit::MetrePerSecond,
            Dimension::Pressure => Unit::Pascal,
            Dimension::Number => Unit::One,
        }
    }

    /// The dimension of figures of this kind.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Length | Self::LongLength | Self::Elevation | Self::Misclosure => {
                Dimension::Length
            }
            Self::Area | Self::LandArea => Dimension::Area,
            Self::EarthVolume | Self::ConcreteVolume | Self::WaterVolume => Dimension::Volume,
            Self::Mass | Self::Weight => Dimension::Mass,
            Self::Density => Dimension::Density,
            Self::Bearing | Self::Heading | Self::Angle => Dimension::Angle,
            Self::Flow => Dimension::Flow,
            Self::Speed => Dimension::Speed,
            Self::Pressure => Dimension::Pressure,
            Self::Hours | Self::Minutes => Dimension::Duration,
            Self::Count
            | Self::Ratio
            | Self::Fraction
            | Self::Slope
            | Self::Closing
            | Self::Money => Dimension::Number,
        }
    }

    /// The unit in which figures of this kind are shown, and in which a bare number is read.
    pub const fn shown_unit(self, system: System) -> Unit {
        let (feet, metres) = match self {
            Self::Length | Self::LongLength | Self::Elevation | Self::Misclosure => {
                (Unit::Foot, Unit::Metre)
            }
            Self::Area | Self::LandArea => (Unit::SquareFoot, Unit::SquareMetre),
            Self::EarthVolume | Self::ConcreteVolume => (Unit::CubicYard, Unit::CubicMetre),
            Self::WaterVolume => (Unit::Gallon, Unit::Litre),
            Self::Mass => (Unit::ShortTon, Unit::Tonne),
            Self::Weight => (Unit::Pound, Unit::Kilogram),
            Self::Density => (Unit::ShortTonPerCubicYard, Unit::TonnePerCubicMetre),
            Self::Bearing | Self::Heading | Self::Angle => (Unit::Degree, Unit::Degree),
            Self::Fraction => (Unit::Percent, Unit::Percent),
            Self::Flow => (Unit::GallonPerMinute, Unit::LitrePerSecond),
            Self::Speed => (Unit::FootPerSecond, Unit::MetrePerSecond),
            Self::Pressure => (Unit::PoundPerSquareFoot, Unit::Kilopascal),
            Self::Hours => (Unit::Hour, Unit::Hour),
            Self::Minutes => (Unit::Minute, Unit::Minute),
            Self::Count | Self::Ratio | Self::Slope | Self::Closing | Self::Money => {
                (Unit::One, Unit::One)
            }
        };
        match system {
            System::Feet => feet,
            System::Metres => metres,
        }
    }

    /// Digits after the point of figures of this kind.
    pub(super) const fn decimals(self, system: System) -> u32 {
        match (self, system) {
            (Self::Misclosure, _) | (Self::Length | Self::Elevation, System::Metres) => 3,
            (Self::Area, System::Metres) => 2,
            (
                Self::Length
                | Self::LongLength
                | Self::Elevation
                | Self::ConcreteVolume
                | Self::Density
                | Self::Ratio
                | Self::Slope
                | Self::Angle
                | Self::Speed
                | Self::Money,
                _,
            ) => 2,
            (Self::LandArea, System::Metres)
            | (
                Self::Area
                | Self::EarthVolume
                | Self::Mass
                | Self::Fraction
                | Self::Heading
                | Self::Flow
                | Self::Hours,
                _,
            ) => 1,
            (
                Self::LandArea
                | Self::WaterVolume
                | Self::Weight
                | Self::Count
                | Self::Closing
                | Self::Pressure
                | Self::Minutes,
                _,
            ) => 0,
            (Self::Bearing, _) => 4,
        }
    }
}

impl Measure {
    /// One unit of the last digit or part of figures of this kind, SI.
    pub(super) fn step(self, system: System) -> f64 {
        if (self, system) == (Self::Length, System::Feet) {
            return Unit::Inch.to_si(1.0 / f64::from(TAPE_PARTS));
        }
        let digit = (0..self.decimals(system)).fold(1.0, |step, _| step / 10.0);
        self.shown_unit(system).to_si(digit)
    }
}

/// Parts of an inch to which tape lengths are shown.
const TAPE_PARTS: u32 = 16;

/// An SI figure as a reader of the given system sees it.
pub fn show(measure: Measure, value_si: f64, system: System) -> Shown {
    let unit = measure.shown_unit(system);
    let decimals = measure.decimals(system);
    let value = round_to(unit.from_si(value_si), decimals);
    let plain = || match (value.is_finite(), unit) {
        (false, _) | (_, Unit::One) => format_decimal(value, decimals),
        (_, Unit::Degree | Unit::Percent) => {
            format!("{}{}", format_decimal(value, decimals), unit.symbol())
        }
        _ => format!("{} {}", format_decimal(value, decimals), unit.symbol()),
    };
    let (value, text) = match (measure, system) {
        (Measure::Length, System::Feet) => {
            let style = LengthStyle::FeetInches {
                denominator: TAPE_PARTS,
            };
            (
                feet_of_parts(value_si, TAPE_PARTS),
                format_length(value_si, style),
            )
        }
        (Measure::LandArea, _) if value.is_finite() => {
            let large = match system {
                System::Feet => Unit::Acre,
                System::Metres => Unit::Hectare,
            };
            let count = format_decimal(large.from_si(value_si), 3);
            (value, format!("{}, {count} {}", plain(), large.symbol()))
        }
        (Measure::Slope, _) => (value, format_slope(value_si)),
        (Measure::Bearing, _) => (value, format_bearing(value_si)),
        (Measure::Heading, _) => (rounded_heading(value_si), format_heading(value_si)),
        (Measure::Closing, _) if value.is_finite() => (value, format!("1:{}", plain())),
        _ => (value, plain()),
    };
    Shown {
        value,
        unit: unit.symbol(),
        text,
    }
}

/// A figure as [`show`] has it, with so many more digits after the point; a tape length in feet
/// becomes decimal feet then.
pub fn show_finer(measure: Measure, value_si: f64, system: System, more: u32) -> Shown {
    let figured = !matches!(
        measure,
        Measure::Bearing | Measure::Heading | Measure::Closing
    );
    if more == 0 || !figured || !value_si.is_finite() {
        return show(measure, value_si, system);
    }
    let unit = measure.shown_unit(system);
    let decimals = measure.decimals(system) + more;
    let value = round_to(unit.from_si(value_si), decimals);
    Shown {
        value,
        unit: unit.symbol(),
        text: with_unit(measure, unit, &format_decimal(value, decimals)),
    }
}

/// A number of a unit as text that reads back.
pub(super) fn with_unit(measure: Measure, unit: Unit, figure: &str) -> String {
    match (measure, unit) {
        (Measure::Slope, _) => format!("{figure}:1"),
        (_, Unit::One) => figure.to_owned(),
        (_, Unit::Degree | Unit::Percent) => format!("{figure}{}", unit.symbol()),
        _ => format!("{figure} {}", unit.symbol()),
    }
}

/// Reads a typed figure of the given kind; the value is in SI.
///
/// A number without a unit is in the unit of [`Measure::shown_unit`].
///
/// # Errors
/// The first stretch of text that is not understood, with its place and what to type.
pub fn parse_measure(text: &str, measure: Measure, system: System) -> Result<Parsed, UnitFault> {
    match measure {
        _ if measure.dimension() == Dimension::Length => parse_length(text, system),
        Measure::Bearing | Measure::Heading => parse_bearing(text),
        Measure::Slope => parse_slope(text),
        Measure::Closing => parse_closing(text, system),
        _ => parse_plain(text, measure, system),
    }
}

/// The x of `1:x`, with or without the `1:`.
fn parse_closing(text: &str, system: System) -> Result<Parsed, UnitFault> {
    let bare = ["1:", "1 :", "1/"]
        .into_iter()
        .find_map(|lead| text.trim_start().strip_prefix(lead))
        .unwrap_or(text);
    let cut = text.chars().count() - bare.chars().count();
    parse_plain(bare, Measure::Closing, system).map_err(|mut fault| {
        fault.span = fault.span.start + cut..fault.span.end + cut;
        fault.remedy = "Type a ratio such as 1:5,000.".to_owned();
        fault
    })
}

/// An optional sign, one number, and a unit's name.
fn parse_plain(text: &str, measure: Measure, system: System) -> Result<Parsed, UnitFault> {
    let usual = measure.shown_unit(system);
    let remedy = match usual.symbol() {
        "" => "Type a number such as 12.5.".to_owned(),
        symbol => format!("Type a number and a unit, such as 12.5 {symbol}."),
    };
    // The name of a unit may hold signs that no number does; it is cut off before scanning.
    let lower = text.to_lowercase();
    let cut = lower
        .find(|c: char| c.is_alphabetic() || c == '%' || c == '°')
        .unwrap_or(lower.len());
    let (figure, name) = lower.split_at(cut);
    let place = figure.chars().count();
    let tokens = scan(figure)?;
    let mut reader = Reader::new(&tokens);
    let sign = reader.sign();
    let (Some(Kind::Number(number)), None) = (reader.kind(0), reader.kind(1)) else {
        return Err(UnitFault::new(
            reader.span(),
            "A number is expected here.",
            remedy,
        ));
    };
    let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
    let name = name.trim_end_matches('.');
    let unit = if name.is_empty() {
        usual
    } else {
        let Some(unit) = Unit::from_word(measure.dimension(), name) else {
            return Err(UnitFault::new(
                place..text.chars().count().max(place),
                format!("“{}” is not a unit that fits here.", name.escape_debug()),
                remedy,
            ));
        };
        unit
    };
    let value = unit.to_si(sign * number.value) + 0.0;
    if !value.is_finite() {
        return Err(UnitFault::new(0..place, "The number is too large.", remedy));
    }
    Ok(Parsed::sure(value))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn each_kind_is_shown_in_its_own_way() {
        use Measure::*;
        let yard = 0.764_554_857_984;
        for (measure, value, feet, metres) in [
            (Length, 3.8227, "12'-6 1/2\"", "3.823 m"),
            (LongLength, 30.48, "100.00 ft", "30.48 m"),
            (Misclosure, 0.002, "0.007 ft", "0.002 m"),
            (Elevation, 3.048, "10.00 ft", "3.048 m"),
            (Area, 9.290_304, "100.0 sq ft", "9.29 m²"),
            (
                LandArea,
                1_300.642_56,
                "14,000 sq ft, 0.321 ac",
                "1,300.6 m², 0.130 ha",
            ),
            (EarthVolume, 100.0 * yard, "100.0 cu yd", "76.5 m³"),
            (ConcreteVolume, 3.608 * yard, "3.61 cu yd", "2.76 m³"),
            (WaterVolume, 37.854_117_84, "10,000 gal", "37,854 L"),
            (Mass, 9071.8474, "10.0 short tons", "9.1 t"),
            (Weight, 1000.0, "2,205 lb", "1,000 kg"),
            (Density, 1602.0, "1.35 short tons/cu yd", "1.60 t/m³"),
            (Count, 24.0, "24", "24"),
            (Ratio, 1.25, "1.25", "1.25"),
            (Fraction, 0.075, "7.5%", "7.5%"),
            (Slope, 0.75, "3/4:1", "3/4:1"),
            (
                Bearing,
                core::f64::consts::FRAC_PI_4,
                "N 45°00'00\" E",
                "N 45°00'00\" E",
            ),
            (Heading, core::f64::consts::PI, "180.0°", "180.0°"),
            (Angle, core::f64::consts::FRAC_PI_3, "60.00°", "60.00°"),
            (Closing, 2792.0, "1:2,792", "1:2,792"),
            (Flow, 0.003_154_509_82, "50.0 gpm", "3.2 L/s"),
            (Speed, 1.457, "4.78 ft/s", "1.46 m/s"),
            (Hours, 5400.0, "1.5 h", "1.5 h"),
            (Minutes, 2700.0, "45 min", "45 min"),
            (Money, 1234.5, "1,234.50", "1,234.50"),
            (Mass, f64::NAN, "unknown", "unknown"),
        ] {
            assert_eq!(show(measure, value, System::Feet).text, feet);
            assert_eq!(show(measure, value, System::Metres).text, metres);
        }
        let shown = show(Length, 3.8227, System::Feet);
        assert_eq!((shown.value, shown.unit), (12.0 + 6.5 / 12.0, "ft"));
    }

    #[test]
    fn a_field_is_read_by_what_it_measures() {
        use Measure::*;
        for (text, measure, value) in [
            ("2,500 lb", Weight, 2500.0 * 0.453_592_37),
            ("2500", Weight, 2500.0 * 0.453_592_37),
            ("1.2 tons", Weight, 2400.0 * 0.453_592_37),
            ("10 yd", EarthVolume, 7.645_548_579_84),
            ("10 cu yd", EarthVolume, 7.645_548_579_84),
            ("10 yd³", EarthVolume, 7.645_548_579_84),
            ("7.5 %", Fraction, 0.075),
            ("7.5", Fraction, 0.075),
            ("-3", Count, -3.0),
            ("1:5,000", Closing, 5000.0),
            ("1 : 7500", Closing, 7500.0),
            ("10000", Closing, 10_000.0),
            ("5:1", Closing, f64::NAN),
            ("1.25", Ratio, 1.25),
            ("1/4 acre", LandArea, f64::NAN),
            ("0.25 ac.", LandArea, 0.25 * 4_046.856_422_4),
            ("1602 kg/m3", Density, 1602.0),
            ("3/4:1", Slope, 0.75),
            ("90", Heading, core::f64::consts::FRAC_PI_2),
            ("6\"", Length, 0.1524),
        ] {
            match parse_measure(text, measure, System::Feet) {
                Ok(parsed) => assert!((parsed.value - value).abs() < 1e-9, "{text}"),
                Err(_) => assert!(value.is_nan(), "{text}"),
            }
        }
        assert!(parse_measure("5 kg", LandArea, System::Metres).is_err());
        assert!(parse_measure("", Weight, System::Metres).is_err());
    }
}
