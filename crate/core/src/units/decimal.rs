//! Decimal figures: one rounding rule and one way of grouping digits.

/// `value` rounded to a number of decimals, half away from zero.
///
/// The rule is applied to the decimal that the reader sees: a value within one part in
/// 10^15 below a half counts as the half, so that 2.675 (which no binary number equals)
/// gives 2.68 and 3.81 m gives 12.5 ft. Plain IEEE multiplication and rounding only, hence
/// the same on every machine. Negative zero comes back as zero.
pub fn round_to(value: f64, decimals: u32) -> f64 {
    let Some(scale) = power_of_ten(decimals) else {
        return value;
    };
    let scaled = value * scale;
    if !scaled.is_finite() || scaled.abs() >= 9e15 {
        return value;
    }
    let nudge = if scaled.abs() < 1e12 {
        scaled * (4.0 * f64::EPSILON)
    } else {
        0.0
    };
    (scaled + nudge).round() / scale + 0.0
}

/// Ten to a whole power, exactly; `None` above 15, where no decimal of an `f64` means anything.
fn power_of_ten(exponent: u32) -> Option<f64> {
    (exponent <= 15).then(|| (0..exponent).fold(1.0, |power, _| power * 10.0))
}

/// The rounded figure as text, thousands separated by commas: `-1,234.50`.
///
/// Never `-0.00`. A value that is not finite reads `unknown`.
pub fn format_decimal(value: f64, decimals: u32) -> String {
    if !value.is_finite() {
        return "unknown".to_owned();
    }
    let rounded = round_to(value, decimals);
    let digits = format!("{:.*}", decimals as usize, rounded.abs());
    let (whole, fraction) = match digits.split_once('.') {
        Some((whole, fraction)) => (whole, Some(fraction)),
        None => (digits.as_str(), None),
    };
    let mut text = String::new();
    if rounded < 0.0 {
        text.push('-');
    }
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if let Some(fraction) = fraction {
        text.push('.');
        text.push_str(fraction);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_away_from_zero() {
        for (value, decimals, text) in [
            (2.675, 2, "2.68"),
            (-2.675, 2, "-2.68"),
            (0.5, 0, "1"),
            (1.5, 0, "2"),
            (2.5, 0, "3"),
            (-0.5, 0, "-1"),
            (1.005, 2, "1.01"),
            (2.674_999, 2, "2.67"),
        ] {
            assert_eq!(format_decimal(value, decimals), text);
        }
    }

    #[test]
    fn thousands_are_grouped_and_zero_has_no_sign() {
        assert_eq!(format_decimal(1_234_567.891, 1), "1,234,567.9");
        assert_eq!(format_decimal(-999_999.96, 1), "-1,000,000.0");
        assert_eq!(format_decimal(100.0, 0), "100");
        assert_eq!(format_decimal(-0.004, 2), "0.00");
    }

    #[test]
    fn figures_out_of_range_do_not_break() {
        assert_eq!(format_decimal(f64::NAN, 2), "unknown");
        assert_eq!(format_decimal(f64::NEG_INFINITY, 2), "unknown");
        assert_eq!(round_to(1e300, 2), 1e300);
        assert_eq!(round_to(1.5, 99), 1.5);
    }
}
