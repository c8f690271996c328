//! Coordinates in lists: plain numbers without a unit, which stands once for the whole list.

/// Which sign stands between whole and fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DecimalSign {
    /// `1,234.5`
    Point,
    /// `1.234,5`
    Comma,
}

/// Reads a plain decimal number: a sign, digits in groups of three or ungrouped, a fraction, an
/// exponent. `None` when it is anything else or not finite.
pub fn parse_coordinate(text: &str, sign: DecimalSign) -> Option<f64> {
    let (point, group) = match sign {
        DecimalSign::Point => ('.', ','),
        DecimalSign::Comma => (',', '.'),
    };
    let text = text.trim();
    let (minus, digits) = match text.strip_prefix(['-', '−', '–']) {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, rest) = match digits.find([point, 'e', 'E']) {
        Some(end) => digits.split_at(end),
        None => (digits, ""),
    };
    let mut plain = String::with_capacity(digits.len() + 1);
    if minus {
        plain.push('-');
    }
    for (i, part) in whole.split(group).enumerate() {
        if i > 0 && part.len() != 3 {
            return None;
        }
        plain.push_str(part);
    }
    plain.extend(rest.chars().map(|c| if c == point { '.' } else { c }));
    // The reader below also takes words such as "inf"; a coordinate begins with a digit.
    let starts = plain.trim_start_matches('-').trim_start_matches('.');
    if !starts.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    plain.parse().ok().filter(|value: &f64| value.is_finite())
}

/// Which decimal sign the fields of a list use, where commas do not separate them.
///
/// A comma is decimal when some field has it and not as a thousands sign could stand: once,
/// behind more than three digits or before other than three.
pub fn decimal_sign<'a>(fields: impl Iterator<Item = &'a str>) -> DecimalSign {
    let mut sign = DecimalSign::Point;
    for field in fields.filter(|f| numeric(f)) {
        match (field.rfind(','), field.rfind('.')) {
            (Some(comma), Some(point)) => {
                return if comma > point {
                    DecimalSign::Comma
                } else {
                    DecimalSign::Point
                };
            }
            (Some(comma), None) => {
                let whole = field.trim_start_matches(['-', '+']).find(',').unwrap_or(0);
                if field.len() - comma != 4 || whole > 3 {
                    sign = DecimalSign::Comma;
                }
            }
            _ => {}
        }
    }
    sign
}

/// Whether a field holds digits and the signs of numbers alone.
fn numeric(field: &str) -> bool {
    field.contains(|c: char| c.is_ascii_digit())
        && field
            .chars()
            .all(|c| c.is_ascii_digit() || matches!(c, ',' | '.' | '-' | '+'))
}

/// A coordinate as text that reads back to within half of its last decimal: no groups, a decimal
/// point, no `-0`.
pub fn format_coordinate(value: f64, decimals: u32) -> String {
    let text = format!("{value:.*}", decimals as usize);
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| matches!(c, '0' | '.')) => rest.to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_with_either_sign() {
        let point = |t| parse_coordinate(t, DecimalSign::Point);
        let comma = |t| parse_coordinate(t, DecimalSign::Comma);
        assert_eq!(point(" 1754321.125 "), Some(1_754_321.125));
        assert_eq!(point("1,754,321.125"), Some(1_754_321.125));
        assert_eq!(point("-84.25"), Some(-84.25));
        assert_eq!(point("−.5"), Some(-0.5));
        assert_eq!(point("1.5e3"), Some(1500.0));
        assert_eq!(comma("1.754.321,125"), Some(1_754_321.125));
        assert_eq!(comma("12,5"), Some(12.5));
        for odd in [
            "", "-", "abc", "inf", "NaN", "1,2", "1.2.3", "12 5", "1e999", "0x10", "12'",
        ] {
            assert_eq!(point(odd), None, "{odd}");
        }
    }

    #[test]
    fn the_decimal_sign_shows_in_the_list() {
        let sign = |fields: &[&str]| decimal_sign(fields.iter().copied());
        assert_eq!(sign(&["12,5", "7"]), DecimalSign::Comma);
        assert_eq!(sign(&["1.234,5"]), DecimalSign::Comma);
        assert_eq!(sign(&["4512,345"]), DecimalSign::Comma);
        assert_eq!(sign(&["1,234.5", "1,234"]), DecimalSign::Point);
        assert_eq!(sign(&["1,234"]), DecimalSign::Point);
        assert_eq!(sign(&["12.5", "IP, bent"]), DecimalSign::Point);
    }

    #[test]
    fn nothing_is_written_as_less_than_nothing() {
        assert_eq!(format_coordinate(-0.000_01, 3), "0.000");
        assert_eq!(format_coordinate(-1.25, 1), "-1.2");
        assert_eq!(format_coordinate(1_754_321.125, 4), "1754321.1250");
    }
}
