//! Lengths as they are printed.

use super::decimal::{format_decimal, round_to};
use super::unit::Unit;

/// In which way a length is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthStyle {
    /// `12'-6 1/2"`, to the nearest part of an inch.
    FeetInches {
        /// Parts to the inch, a power of two such as 16; 0 is taken as 1.
        denominator: u32,
    },
    /// `12.54 ft`.
    DecimalFeet {
        /// Digits after the point.
        decimals: u32,
    },
    /// `3.81 m`.
    Metres {
        /// Digits after the point.
        decimals: u32,
    },
    /// `3,810 mm`.
    Millimetres,
}

/// A length in meters as text; `unknown` when it is not finite.
///
/// Feet and inches carry: 9.9999 ft is `10'-0"`, never `9'-12"`. A length that rounds to
/// nothing has no sign.
pub fn format_length(metres: f64, style: LengthStyle) -> String {
    match style {
        LengthStyle::FeetInches { denominator } => feet_inches(metres, denominator.max(1)),
        LengthStyle::DecimalFeet { decimals } => with_unit(metres, Unit::Foot, decimals),
        LengthStyle::Metres { decimals } => with_unit(metres, Unit::Metre, decimals),
        LengthStyle::Millimetres => with_unit(metres, Unit::Millimetre, 0),
    }
}

fn with_unit(metres: f64, unit: Unit, decimals: u32) -> String {
    let figure = format_decimal(unit.from_si(metres), decimals);
    if metres.is_finite() {
        format!("{figure} {}", unit.symbol())
    } else {
        figure
    }
}

/// The length rounded to whole parts of an inch, in decimal feet.
pub(super) fn feet_of_parts(metres: f64, denominator: u32) -> f64 {
    let parts = Unit::Inch.from_si(metres) * f64::from(denominator);
    round_to(parts, 0) / (12.0 * f64::from(denominator))
}

fn feet_inches(metres: f64, denominator: u32) -> String {
    let parts = round_to(Unit::Inch.from_si(metres) * f64::from(denominator), 0);
    // Beyond this, doubles no longer count single sixteenths; no length on a site comes near.
    if parts.abs() >= 1e15 || !parts.is_finite() {
        return with_unit(metres, Unit::Foot, 2);
    }
    let sign = if parts < 0.0 { "-" } else { "" };
    let total = parts.abs() as u64;
    let denominator = u64::from(denominator);
    let (inches, part) = (total / denominator, total % denominator);
    let (feet, inches) = (inches / 12, inches % 12);
    let feet = format_decimal(feet as f64, 0);
    if part == 0 {
        return format!("{sign}{feet}'-{inches}\"");
    }
    let common = greatest_common_divisor(part, denominator);
    let (above, below) = (part / common, denominator / common);
    format!("{sign}{feet}'-{inches} {above}/{below}\"")
}

fn greatest_common_divisor(a: u64, b: u64) -> u64 {
    if b == 0 {
        a
    } else {
        greatest_common_divisor(b, a % b)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sixteenths(feet: f64) -> String {
        format_length(feet * 0.3048, LengthStyle::FeetInches { denominator: 16 })
    }

    #[test]
    fn inches_carry_into_feet() {
        for (feet, text) in [
            (9.9999, "10'-0\""),
            (-9.9999, "-10'-0\""),
            (12.0 + 6.5 / 12.0, "12'-6 1/2\""),
            (-0.25, "-0'-3\""),
            (-0.001, "0'-0\""),
            (0.0, "0'-0\""),
            (0.5 / 12.0, "0'-0 1/2\""),
            (1234.0, "1,234'-0\""),
            (5.0 + 11.97 / 12.0, "6'-0\""),
            (1.0 / 192.0 + 1.0 / 12.0, "0'-1 1/16\""),
        ] {
            assert_eq!(sixteenths(feet), text);
        }
    }

    #[test]
    fn decimal_styles_name_their_unit() {
        let metres = 3.8227;
        assert_eq!(
            format_length(metres, LengthStyle::DecimalFeet { decimals: 2 }),
            "12.54 ft"
        );
        assert_eq!(
            format_length(metres, LengthStyle::Metres { decimals: 3 }),
            "3.823 m"
        );
        assert_eq!(
            format_length(f64::NAN, LengthStyle::Metres { decimals: 2 }),
            "unknown"
        );
        assert_eq!(sixteenths(f64::INFINITY), "unknown");
        assert_eq!(sixteenths(1e30), sixteenths(1e30));
    }
}
