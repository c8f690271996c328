//! Rates: money for one unit of a quantity, as it is typed and as it is kept.
//!
//! A rate is kept per SI unit (a meter, a kilogram, a piece) and typed and shown per unit that
//! the quantity is shown in (a foot, a short ton, a piece). Money has no sign and no currency.

use super::decimal::{format_decimal, round_to};
use super::fault::UnitFault;
use super::measure::{Measure, Shown, parse_measure};
use super::{System, Unit};

/// Digits after the point that a rate is shown with at most: a gallon costs parts of a cent.
const MOST_DECIMALS: u32 = 5;

/// Money per SI unit of a figure of this kind, from money per unit that it is shown in.
pub fn rate_from_shown(measure: Measure, per_shown: f64, system: System) -> f64 {
    measure.shown_unit(system).from_si(per_shown)
}

/// Reads a typed rate; the value is money per SI unit.
///
/// # Errors
/// The first stretch of text that is not a number.
pub fn parse_rate(text: &str, measure: Measure, system: System) -> Result<f64, UnitFault> {
    let typed = parse_measure(text, Measure::Money, system)?;
    Ok(rate_from_shown(measure, typed.value, system))
}

/// A rate kept per SI unit, as it is shown: `45.00 per short ton`.
pub fn show_rate(measure: Measure, per_si: f64, system: System) -> Shown {
    let unit = measure.shown_unit(system);
    let value = round_to(unit.to_si(per_si), MOST_DECIMALS);
    let enough = |d: &u32| round_to(value, *d) == value;
    let decimals = (2..MOST_DECIMALS).find(enough).unwrap_or(MOST_DECIMALS);
    let one = one_of(unit);
    Shown {
        value,
        unit: one,
        text: format!("{} {one}", format_decimal(value, decimals)),
    }
}

/// What a rate is told for.
const fn one_of(unit: Unit) -> &'static str {
    match unit {
        Unit::Metre => "per m",
        Unit::Foot => "per ft",
        Unit::SquareMetre => "per m²",
        Unit::SquareFoot => "per sq ft",
        Unit::CubicMetre => "per m³",
        Unit::CubicYard => "per cu yd",
        Unit::Litre => "per L",
        Unit::Gallon => "per gal",
        Unit::Kilogram => "per kg",
        Unit::Pound => "per lb",
        Unit::Tonne => "per t",
        Unit::ShortTon => "per short ton",
        Unit::Hour => "per h",
        Unit::Minute => "per min",
        _ => "each",
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// A short ton is 907.18474 kg and a cubic yard 0.764554857984 m3, both exactly; a foot is
    /// 0.3048 m (see `constants`).
    #[test]
    fn a_rate_is_turned_exactly() {
        let feet = System::Feet;
        for (measure, typed, kept) in [
            (Measure::Mass, 45.0, 45.0 / 907.184_74),
            (Measure::EarthVolume, 12.5, 12.5 / 0.764_554_857_984),
            (Measure::Length, 3.0, 3.0 / 0.3048),
            (Measure::Count, 180.0, 180.0),
        ] {
            let rate = rate_from_shown(measure, typed, feet);
            assert!((rate - kept).abs() <= 1e-15 * kept, "{measure:?}");
            assert_eq!(show_rate(measure, rate, feet).value, typed);
        }
    }

    #[test]
    fn a_rate_is_shown_as_it_was_typed() {
        let shown = |text: &str, measure, system| {
            let rate = parse_rate(text, measure, system).unwrap();
            show_rate(measure, rate, system).text
        };
        let (feet, metres) = (System::Feet, System::Metres);
        assert_eq!(shown("45", Measure::Mass, feet), "45.00 per short ton");
        assert_eq!(
            shown("0.0085", Measure::WaterVolume, feet),
            "0.0085 per gal"
        );
        assert_eq!(shown("1,250.5", Measure::Count, metres), "1,250.50 each");
        assert_eq!(shown("60", Measure::ConcreteVolume, metres), "60.00 per m³");
        assert!(parse_rate("dear", Measure::Mass, feet).is_err());
    }
}
