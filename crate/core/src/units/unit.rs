//! Units by name, and what one of each is in SI.

use serde::{Serialize, Serializer};

use super::constants::{
    ACRE, CHAIN, CUBIC_FOOT, CUBIC_YARD, DEGREE, FOOT, GALLON, GRAVITY, INCH, POUND, ROD,
    SHORT_TON, SQUARE_FOOT, SURVEY_FOOT, VARA, YARD,
};

/// What kind of thing a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dimension {
    /// Meters.
    Length,
    /// Square meters.
    Area,
    /// Cubic meters.
    Volume,
    /// Kilograms.
    Mass,
    /// Kilograms per cubic meter.
    Density,
    /// Radians.
    Angle,
    /// Cubic meters per second.
    Flow,
    /// Seconds.
    Duration,
    /// Meters per second.
    Speed,
    /// Pascals.
    Pressure,
    /// A plain number: a count, a ratio, a slope as run over rise.
    Number,
}

/// A unit in which a figure is kept, typed or shown. Serialised as its [`Unit::symbol`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Meter: the unit of every length inside.
    Metre,
    /// Kilometre.
    Kilometre,
    /// Centimetre.
    Centimetre,
    /// Millimetre.
    Millimetre,
    /// International foot.
    Foot,
    /// US survey foot, only ever typed.
    SurveyFoot,
    /// Inch.
    Inch,
    /// Yard.
    Yard,
    /// Surveyor's chain of 66 international feet.
    Chain,
    /// Rod of 16 1/2 international feet.
    Rod,
    /// Link, the hundredth part of a chain.
    Link,
    /// Texas vara of 33 1/3 inches, only ever typed.
    Vara,
    /// Square meter: the unit of every area inside.
    SquareMetre,
    /// Hectare.
    Hectare,
    /// Square foot.
    SquareFoot,
    /// International acre.
    Acre,
    /// Cubic meter: the unit of every volume inside.
    CubicMetre,
    /// Litre.
    Litre,
    /// Cubic foot.
    CubicFoot,
    /// Cubic yard.
    CubicYard,
    /// US liquid gallon.
    Gallon,
    /// Kilogram: the unit of every mass inside.
    Kilogram,
    /// Tonne of 1,000 kg.
    Tonne,
    /// Pound.
    Pound,
    /// Short ton of 2,000 lb.
    ShortTon,
    /// Kilogram per cubic meter: the unit of every density inside.
    KilogramPerCubicMetre,
    /// Tonne per cubic meter.
    TonnePerCubicMetre,
    /// Pound per cubic foot.
    PoundPerCubicFoot,
    /// Pound per cubic yard.
    PoundPerCubicYard,
    /// Short ton per cubic yard.
    ShortTonPerCubicYard,
    /// Radian: the unit of every angle inside.
    Radian,
    /// Degree.
    Degree,
    /// Cubic meter per second: the unit of every flow inside.
    CubicMetrePerSecond,
    /// Litre per second.
    LitrePerSecond,
    /// US gallon per minute.
    GallonPerMinute,
    /// Second: the unit of every time inside.
    Second,
    /// Minute.
    Minute,
    /// Hour.
    Hour,
    /// Meter per second: the unit of every speed inside.
    MetrePerSecond,
    /// Foot per second.
    FootPerSecond,
    /// Pascal: the unit of every pressure inside.
    Pascal,
    /// Kilopascal.
    Kilopascal,
    /// Pound of force per square foot.
    PoundPerSquareFoot,
    /// Percent.
    Percent,
    /// A plain number.
    One,
}

impl Unit {
    /// What the unit measures.
    pub const fn dimension(self) -> Dimension {
        use Unit::*;
        match self {
            Metre | Kilometre | Centimetre | Millimetre | Foot | SurveyFoot | Inch | Yard
            | Chain | Rod | Link | Vara => Dimension::Length,
            SquareMetre | Hectare | SquareFoot | Acre => Dimension::Area,
            CubicMetre | Litre | CubicFoot | CubicYard | Gallon => Dimension::Volume,
            Kilogram | Tonne | Pound | ShortTon => Dimension::Mass,
            KilogramPerCubicMetre
            | TonnePerCubicMetre
            | PoundPerCubicFoot
            | PoundPerCubicYard
            | ShortTonPerCubicYard => Dimension::Density,
            Radian | Degree => Dimension::Angle,
            CubicMetrePerSecond | LitrePerSecond | GallonPerMinute => Dimension::Flow,
            Second | Minute | Hour => Dimension::Duration,
            MetrePerSecond | FootPerSecond => Dimension::Speed,
            Pascal | Kilopascal | PoundPerSquareFoot => Dimension::Pressure,
            Percent | One => Dimension::Number,
        }
    }

    /// One of this unit in the SI unit of its dimension.
    pub const fn in_si(self) -> f64 {
        match self {
            Self::Metre
            | Self::SquareMetre
            | Self::CubicMetre
            | Self::Kilogram
            | Self::KilogramPerCubicMetre
            | Self::Radian
            | Self::CubicMetrePerSecond
            | Self::Second
            | Self::MetrePerSecond
            | Self::Pascal
            | Self::One => 1.0,
            Self::Kilopascal => 1000.0,
            Self::PoundPerSquareFoot => POUND * GRAVITY / SQUARE_FOOT,
            Self::LitrePerSecond => 0.001,
            Self::GallonPerMinute => GALLON / 60.0,
            Self::Minute => 60.0,
            Self::Hour => 3600.0,
            Self::FootPerSecond => FOOT,
            Self::Kilometre => 1000.0,
            Self::Centimetre => 0.01,
            Self::Millimetre => 0.001,
            Self::Foot => FOOT,
            Self::SurveyFoot => SURVEY_FOOT,
            Self::Inch => INCH,
            Self::Yard => YARD,
            Self::Chain => CHAIN,
            Self::Rod => ROD,
            Self::Link => CHAIN / 100.0,
            Self::Vara => VARA,
            Self::Hectare => 10_000.0,
            Self::SquareFoot => SQUARE_FOOT,
            Self::Acre => ACRE,
            Self::Litre => 0.001,
            Self::CubicFoot => CUBIC_FOOT,
            Self::CubicYard => CUBIC_YARD,
            Self::Gallon => GALLON,
            Self::Tonne | Self::TonnePerCubicMetre => 1000.0,
            Self::Pound => POUND,
            Self::ShortTon => SHORT_TON,
            Self::PoundPerCubicFoot => POUND / CUBIC_FOOT,
            Self::PoundPerCubicYard => POUND / CUBIC_YARD,
            Self::ShortTonPerCubicYard => SHORT_TON / CUBIC_YARD,
            Self::Degree => DEGREE,
            Self::Percent => 0.01,
        }
    }

    /// An SI value counted in this unit.
    pub fn from_si(self, value: f64) -> f64 {
        value / self.in_si()
    }

    /// A number of this unit in SI.
    pub fn to_si(self, count: f64) -> f64 {
        count * self.in_si()
    }

    /// The unit as it is written after a figure; empty for a plain number.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Metre => "m",
            Self::Kilometre => "km",
            Self::Centimetre => "cm",
            Self::Millimetre => "mm",
            Self::Foot => "ft",
            Self::SurveyFoot => "US survey ft",
            Self::Inch => "in",
            Self::Yard => "yd",
            Self::Chain => "chain",
            Self::Rod => "rod",
            Self::Link => "link",
            Self::Vara => "vara",
            Self::SquareMetre => "m²",
            Self::Hectare => "ha",
            Self::SquareFoot => "sq ft",
            Self::Acre => "ac",
            Self::CubicMetre => "m³",
            Self::Litre => "L",
            Self::CubicFoot => "cu ft",
            Self::CubicYard => "cu yd",
            Self::Gallon => "gal",
            Self::Kilogram => "kg",
            Self::Tonne => "t",
            Self::Pound => "lb",
            Self::ShortTon => "short tons",
            Self::KilogramPerCubicMetre => "kg/m³",
            Self::TonnePerCubicMetre => "t/m³",
            Self::PoundPerCubicFoot => "lb/cu ft",
            Self::PoundPerCubicYard => "lb/cu yd",
            Self::ShortTonPerCubicYard => "short tons/cu yd",
            Self::Radian => "rad",
            Self::Degree => "°",
            Self::CubicMetrePerSecond => "m³/s",
            Self::LitrePerSecond => "L/s",
            Self::GallonPerMinute => "gpm",
            Self::Second => "s",
            Self::Minute => "min",
            Self::Hour => "h",
            Self::MetrePerSecond => "m/s",
            Self::FootPerSecond => "ft/s",
            Self::Pascal => "Pa",
            Self::Kilopascal => "kPa",
            Self::PoundPerSquareFoot => "lb/sq ft",
            Self::Percent => "%",
            Self::One => "",
        }
    }

    /// The unit of the given dimension that a typed word names; the word in lower case, its
    /// parts joined by single spaces.
    pub(super) fn from_word(dimension: Dimension, word: &str) -> Option<Self> {
        use Unit::*;
        let unit = match word {
            "m" | "metre" | "metres" | "meter" | "meters" => Metre,
            "km" | "kilometre" | "kilometres" | "kilometer" | "kilometers" => Kilometre,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Centimetre,
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Millimetre,
            "ft" | "foot" | "feet" => Foot,
            "ftus" | "usft" | "sft" | "us ft" | "survey ft" | "survey foot" | "survey feet"
            | "u s survey ft" | "u s survey foot" | "u s survey feet" | "us survey ft"
            | "us survey foot" | "us survey feet" => SurveyFoot,
            "in" | "ins" | "inch" | "inches" => Inch,
            "yd" | "yds" | "yard" | "yards" if matches!(dimension, Dimension::Length) => Yard,
            "ch" | "chs" | "chain" | "chains" => Chain,
            "lk" | "lks" | "link" | "links" => Link,
            "rod" | "rods" | "rds" | "pole" | "poles" | "perch" | "perches" => Rod,
            "vara" | "varas" | "vrs" => Vara,
            "m²" | "m2" | "sq m" | "square metres" | "square meters" => SquareMetre,
            "ha" | "hectare" | "hectares" => Hectare,
            "ft²" | "ft2" | "sq ft" | "sf" | "square feet" | "square foot" => SquareFoot,
            "ac" | "acre" | "acres" => Acre,
            "m³" | "m3" | "cu m" | "cubic metres" | "cubic meters" => CubicMetre,
            "l" | "litre" | "litres" | "liter" | "liters" => Litre,
            "ft³" | "ft3" | "cu ft" | "cf" | "cubic feet" | "cubic foot" => CubicFoot,
            "yd³" | "yd3" | "cu yd" | "cy" | "cubic yards" | "cubic yard" | "yd" | "yds"
            | "yard" | "yards" => CubicYard,
            "gal" | "gallon" | "gallons" => Gallon,
            "kg" | "kilogram" | "kilograms" => Kilogram,
            "t" | "tonne" | "tonnes" => Tonne,
            "lb" | "lbs" | "pound" | "pounds" => Pound,
            "ton" | "tons" | "short ton" | "short tons" => ShortTon,
            "kg/m³" | "kg/m3" => KilogramPerCubicMetre,
            "t/m³" | "t/m3" => TonnePerCubicMetre,
            "psf" | "lb/sq ft" | "lb/ft²" | "lb/ft2" => PoundPerSquareFoot,
            "kpa" => Kilopascal,
            "pa" => Pascal,
            "lb/ft³" | "lb/ft3" | "lb/cu ft" | "pcf" => PoundPerCubicFoot,
            "lb/yd³" | "lb/yd3" | "lb/cu yd" => PoundPerCubicYard,
            "ton/yd³" | "ton/yd3" | "ton/cu yd" | "tons/cu yd" | "short tons/cu yd" => {
                ShortTonPerCubicYard
            }
            "rad" | "radian" | "radians" => Radian,
            "°" | "deg" | "degree" | "degrees" => Degree,
            "gpm" | "gal/min" | "gallons per minute" => GallonPerMinute,
            "l/s" | "lps" | "litres per second" | "liters per second" => LitrePerSecond,
            "m³/s" | "m3/s" => CubicMetrePerSecond,
            "s" | "sec" | "second" | "seconds" => Second,
            "min" | "mins" | "minute" | "minutes" => Minute,
            "h" | "hr" | "hrs" | "hour" | "hours" => Hour,
            "m/s" => MetrePerSecond,
            "ft/s" | "fps" => FootPerSecond,
            "%" | "percent" => Percent,
            _ => return None,
        };
        (unit.dimension() == dimension).then_some(unit)
    }
}

impl Serialize for Unit {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.symbol())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_goes_to_si_and_back() {
        for unit in [Unit::Foot, Unit::Acre, Unit::Gallon, Unit::ShortTon] {
            assert!((unit.from_si(unit.to_si(3.5)) - 3.5).abs() < 1e-14);
        }
    }

    #[test]
    fn a_word_names_a_unit_of_the_asked_dimension_only() {
        assert_eq!(Unit::from_word(Dimension::Length, "yd"), Some(Unit::Yard));
        assert_eq!(
            Unit::from_word(Dimension::Volume, "yd"),
            Some(Unit::CubicYard)
        );
        assert_eq!(Unit::from_word(Dimension::Mass, "ft"), None);
    }
}
