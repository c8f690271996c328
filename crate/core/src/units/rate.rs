//! Rates: money for one unit of a quantity, as it is typed and as it is kept.
//!
//! A rate is kept as it was typed, for the unit that it was typed for (a cubic yard, a short ton, a
//! piece), and shown for the unit that the quantity is shown in.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::decimal::{format_decimal, round_to};
use super::fault::UnitFault;
use super::measure::{Measure, Shown, parse_measure};
use super::money::Currency;
use super::{System, Unit};

/// Digits after the point of a rate that was typed for another unit than it is shown for, at most.
const MOST_DECIMALS: u32 = 5;

/// Digits after the point of a rate as it was typed, at most.
const MOST_TYPED: u32 = 9;

/// Signs of money that people type before a figure, whether or not they are that of the site.
const SIGNS: &str = "$€£¥₹₩₽₺₫¢";

/// What a rate is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)] // Each is the unit of that name.
pub enum RateUnit {
    Metre,
    Foot,
    SquareMetre,
    SquareFoot,
    CubicMetre,
    CubicYard,
    Litre,
    Gallon,
    Kilogram,
    Pound,
    Tonne,
    ShortTon,
    Hour,
    Minute,
    Each,
}

impl RateUnit {
    /// What rates of figures of this kind are typed and shown for.
    pub const fn of(measure: Measure, system: System) -> Self {
        match measure.shown_unit(system) {
            Unit::Metre => Self::Metre,
            Unit::Foot => Self::Foot,
            Unit::SquareMetre => Self::SquareMetre,
            Unit::SquareFoot => Self::SquareFoot,
            Unit::CubicMetre => Self::CubicMetre,
            Unit::CubicYard => Self::CubicYard,
            Unit::Litre => Self::Litre,
            Unit::Gallon => Self::Gallon,
            Unit::Kilogram => Self::Kilogram,
            Unit::Pound => Self::Pound,
            Unit::Tonne => Self::Tonne,
            Unit::ShortTon => Self::ShortTon,
            Unit::Hour => Self::Hour,
            Unit::Minute => Self::Minute,
            _ => Self::Each,
        }
    }

    /// The unit.
    pub const fn unit(self) -> Unit {
        match self {
            Self::Metre => Unit::Metre,
            Self::Foot => Unit::Foot,
            Self::SquareMetre => Unit::SquareMetre,
            Self::SquareFoot => Unit::SquareFoot,
            Self::CubicMetre => Unit::CubicMetre,
            Self::CubicYard => Unit::CubicYard,
            Self::Litre => Unit::Litre,
            Self::Gallon => Unit::Gallon,
            Self::Kilogram => Unit::Kilogram,
            Self::Pound => Unit::Pound,
            Self::Tonne => Unit::Tonne,
            Self::ShortTon => Unit::ShortTon,
            Self::Hour => Unit::Hour,
            Self::Minute => Unit::Minute,
            Self::Each => Unit::One,
        }
    }

    /// How it is written behind an amount: `per cu yd`.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Metre => "per m",
            Self::Foot => "per ft",
            Self::SquareMetre => "per m²",
            Self::SquareFoot => "per sq ft",
            Self::CubicMetre => "per m³",
            Self::CubicYard => "per cu yd",
            Self::Litre => "per L",
            Self::Gallon => "per gal",
            Self::Kilogram => "per kg",
            Self::Pound => "per lb",
            Self::Tonne => "per t",
            Self::ShortTon => "per short ton",
            Self::Hour => "per h",
            Self::Minute => "per min",
            Self::Each => "each",
        }
    }
}

/// Reads a typed rate: money for one of [`RateUnit::of`]. The currency may stand before or behind
/// it; a comma that cannot stand between thousands is a decimal comma (`0,25`).
///
/// # Errors
/// The first stretch of text that is not a number, or another currency than that of the site.
pub fn parse_rate(
    text: &str,
    measure: Measure,
    system: System,
    currency: &Currency,
) -> Result<f64, UnitFault> {
    let (figure, cut) = without_currency(text, currency)?;
    let typed = decimal_point(figure);
    let read = parse_measure(&typed, Measure::Money, system);
    let amount = read.map_err(|mut fault| {
        fault.span = fault.span.start + cut..fault.span.end + cut;
        let unit = RateUnit::of(measure, system).words();
        fault.remedy = format!(
            "Type an amount such as {} {unit}.",
            currency.before("12.50")
        );
        fault
    })?;
    Ok(amount.value)
}

/// The figure without the currency round it, and how many characters stand before it.
fn without_currency<'a>(text: &'a str, currency: &Currency) -> Result<(&'a str, usize), UnitFault> {
    let own = currency.symbol();
    let bare = text.trim();
    let lead = text.chars().count() - text.trim_start().chars().count();
    let is_figure = |c: char| c.is_ascii_digit() || "+-.,".contains(c);
    let inner = bare.trim_matches(|c: char| !is_figure(c));
    if inner.is_empty() || inner == bare {
        return Ok((text, 0));
    }
    // `bare` is what stands before the figure, the figure, and what stands behind it.
    let start = bare.find(is_figure).unwrap_or(0);
    let (before, rest) = bare.split_at(start);
    let behind = rest.strip_prefix(inner).unwrap_or("");
    let names: Vec<&str> = [before.trim(), behind.trim()]
        .into_iter()
        .filter(|name| !name.is_empty())
        .collect();
    let is_own = |name: &&str| name.eq_ignore_ascii_case(own);
    let is_money = |name: &&str| {
        let code = name.len() == 3 && name.bytes().all(|b| b.is_ascii_uppercase());
        code || name.chars().any(|c| SIGNS.contains(c))
    };
    if names.iter().all(is_own) {
        return Ok((inner, lead + before.chars().count()));
    }
    match names.iter().find(|name| !is_own(name) && is_money(name)) {
        Some(other) => {
            let place = lead..lead + bare.chars().count();
            let message = format!("The rates of this site are in {own}, not in {other}.");
            let remedy = format!("Set the currency to {other} first, or type the amount in {own}.");
            Err(UnitFault::new(place, message, remedy))
        }
        None => Ok((text, 0)),
    }
}

/// A figure with its decimal comma made a point, where its only comma cannot stand between
/// thousands: behind a leading zero or more than three digits, or before other than three.
fn decimal_point(figure: &str) -> String {
    let Some((whole, fraction)) = figure.split_once(',') else {
        return figure.to_owned();
    };
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let unsigned = whole.trim().trim_start_matches(['+', '-']);
    let fraction = fraction.trim_end();
    let groups =
        fraction.len() == 3 && (1..=3).contains(&unsigned.len()) && !unsigned.starts_with('0');
    if digits(fraction) && digits(unsigned) && !groups {
        format!("{whole}.{fraction}")
    } else {
        figure.to_owned()
    }
}

/// A rate of a quantity of this kind for the unit in which it is shown, with all its digits.
pub fn rate_in(measure: Measure, amount: f64, per: Option<RateUnit>, system: System) -> f64 {
    let shown_for = RateUnit::of(measure, system);
    if per == Some(shown_for) {
        return amount;
    }
    let from = per.map_or(measure.si_unit(), RateUnit::unit);
    shown_for.unit().to_si(from.from_si(amount))
}

/// A rate of a quantity of this kind as it is shown: `45.00 per short ton`. The amount is for
/// `per`, or for an SI unit without one; one that was typed for the unit in which the quantity is
/// shown stays as it was typed, any other is rounded.
pub fn show_rate(measure: Measure, amount: f64, per: Option<RateUnit>, system: System) -> Shown {
    let shown_for = RateUnit::of(measure, system);
    let as_typed = per == Some(shown_for);
    let count = rate_in(measure, amount, per, system);
    let most = if as_typed { MOST_TYPED } else { MOST_DECIMALS };
    let near = |d: &u32| (round_to(count, *d) - count).abs() <= 1e-9 * count.abs();
    let decimals = (2..=most).find(near).unwrap_or_else(|| enough(count));
    let value = round_to(count, decimals);
    let unit = shown_for.words();
    Shown {
        value,
        unit,
        text: format!("{} {unit}", format_decimal(value, decimals)),
    }
}

/// Digits after the point of an amount that is no round figure: to the cent, and three digits of
/// what is less than a unit of money.
fn enough(count: f64) -> u32 {
    let three = |d: &u32| (0..*d).fold(count.abs(), |scaled, _| scaled * 10.0) >= 100.0;
    (2..MOST_DECIMALS).find(three).unwrap_or(MOST_DECIMALS)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn shown(text: &str, measure: Measure, typed: System, system: System) -> String {
        let amount = parse_rate(text, measure, typed, &Currency::default()).unwrap();
        let per = Some(RateUnit::of(measure, typed));
        show_rate(measure, amount, per, system).text
    }

    #[test]
    fn a_rate_is_shown_as_it_was_typed() {
        let (feet, metres) = (System::Feet, System::Metres);
        for (text, measure, system, expected) in [
            ("45", Measure::Mass, feet, "45.00 per short ton"),
            ("0.0085", Measure::WaterVolume, feet, "0.0085 per gal"),
            ("0.0012345", Measure::WaterVolume, feet, "0.0012345 per gal"),
            ("1,250.5", Measure::Count, metres, "1,250.50 each"),
            ("60", Measure::ConcreteVolume, metres, "60.00 per m³"),
            ("$0.25", Measure::WaterVolume, feet, "0.25 per gal"),
            ("$ 14", Measure::EarthVolume, feet, "14.00 per cu yd"),
            ("14 $", Measure::EarthVolume, feet, "14.00 per cu yd"),
            ("0,25", Measure::WaterVolume, feet, "0.25 per gal"),
            ("$0,250", Measure::WaterVolume, feet, "0.25 per gal"),
            ("12,5", Measure::Count, feet, "12.50 each"),
            ("1234,567", Measure::Count, feet, "1,234.567 each"),
            ("1,250", Measure::Count, feet, "1,250.00 each"),
            ("1,250,000", Measure::Count, feet, "1,250,000.00 each"),
        ] {
            assert_eq!(shown(text, measure, system, system), expected, "{text}");
        }
    }

    /// A short ton is 907.18474 kg, a cubic yard 0.764554857984 m3 and a gallon 3.785411784 L,
    /// all exactly (see `constants`).
    #[test]
    fn a_rate_in_other_units_is_rounded() {
        let (feet, metres) = (System::Feet, System::Metres);
        for (text, measure, expected) in [
            ("14", Measure::EarthVolume, "18.31 per m³"),
            ("42", Measure::Mass, "46.30 per t"),
            ("0.012", Measure::WaterVolume, "0.00317 per L"),
            ("0.25", Measure::WaterVolume, "0.0660 per L"),
            ("1.10", Measure::Length, "3.61 per m"),
            ("185", Measure::Count, "185.00 each"),
        ] {
            assert_eq!(shown(text, measure, feet, metres), expected, "{text}");
        }
        // A rate of a file that says no unit is for an SI unit.
        let kept = 14.0 / 0.764_554_857_984;
        let plain = |system| show_rate(Measure::EarthVolume, kept, None, system).text;
        assert_eq!(plain(feet), "14.00 per cu yd");
        assert_eq!(plain(metres), "18.31 per m³");
    }

    #[test]
    fn what_is_no_rate_is_told() {
        let read = |text, currency: &str| {
            parse_rate(text, Measure::Mass, System::Feet, &Currency::new(currency))
        };
        for text in ["dear", "", "$", "1.234,56", "12 lb", "$12x", "1,2,3"] {
            assert!(read(text, "$").is_err(), "{text}");
        }
        let fault = read("€ 0.25", "$").unwrap_err();
        assert_eq!(fault.message, "The rates of this site are in $, not in €.");
        assert_eq!(read("€0,25", "€"), Ok(0.25));
        assert_eq!(read("cad 12", "CAD"), Ok(12.0));
        assert_eq!(read("12 CAD", "CAD"), Ok(12.0));
        assert!(read("12 CAD", "$").unwrap_err().remedy.contains("CAD"));
        assert_eq!(read(" $1,2,3", "$").unwrap_err().span, 3..4);
    }
}
