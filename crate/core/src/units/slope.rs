//! Slopes of dig sides, as horizontal run over vertical rise: `3/4:1` is 0.75, vertical is 0.

use super::decimal::format_decimal;
use super::fault::{Parsed, UnitFault};
use super::length::{starts_fraction, take_fraction};
use super::scan::{Kind, Reader, scan};

const EXAMPLES: &str = "Type a slope such as 3/4:1, 1 1/2:1 or vertical, run first and then rise.";

/// Reads `3/4:1`, `1 1/2:1`, `1.5:1`, `1.5` (to 1), `vertical`, or a grade such as `50 %`
/// (rise over run); the value is run over rise.
///
/// # Errors
/// The first stretch of text that is not understood, with its place and what to type.
pub fn parse_slope(text: &str) -> Result<Parsed, UnitFault> {
    let tokens = scan(text)?;
    let mut reader = Reader::new(&tokens);
    let start = reader;
    if matches!(reader.kind(0), Some(Kind::Word(w)) if w == "vertical") {
        reader.skip(1);
        return ended(&reader, 0.0);
    }
    let run = mixed(&mut reader)?;
    if reader.take(&Kind::Percent) {
        if run <= 0.0 {
            return Err(UnitFault::new(
                reader.span_since(&start),
                "A side of no grade never reaches the ground.",
                EXAMPLES,
            ));
        }
        return ended(&reader, 100.0 / run);
    }
    let rise = if reader.take(&Kind::Colon) {
        mixed(&mut reader)?
    } else {
        1.0
    };
    if rise <= 0.0 {
        return Err(UnitFault::new(
            reader.span_since(&start),
            "The rise of a slope is above zero.",
            EXAMPLES,
        ));
    }
    ended(&reader, run / rise)
}

/// Takes a number, a fraction, or a whole number and a fraction.
fn mixed(reader: &mut Reader<'_>) -> Result<f64, UnitFault> {
    if starts_fraction(reader) {
        return take_fraction(reader);
    }
    let place = reader.span();
    let Some(number) = reader.number() else {
        return Err(UnitFault::new(
            place,
            "A number is expected here.",
            EXAMPLES,
        ));
    };
    if !starts_fraction(reader) {
        return Ok(number.value);
    }
    let part = take_fraction(reader)?;
    if number.is_whole() && part < 1.0 {
        return Ok(number.value + part);
    }
    Err(UnitFault::new(
        place,
        "A fraction follows a number that it does not belong to.",
        EXAMPLES,
    ))
}

fn ended(reader: &Reader<'_>, value: f64) -> Result<Parsed, UnitFault> {
    if reader.peek().is_some() {
        return Err(UnitFault::new(
            reader.span(),
            "This is not part of the slope.",
            EXAMPLES,
        ));
    }
    if !value.is_finite() {
        return Err(UnitFault::new(
            0..reader.span().end,
            "The slope is too flat.",
            EXAMPLES,
        ));
    }
    Ok(Parsed::sure(value))
}

/// A slope as text: `vertical`, `3/4:1`, `1 1/2:1`, or decimals where quarters do not fit.
pub fn format_slope(run_over_rise: f64) -> String {
    if !run_over_rise.is_finite() {
        return "unknown".to_owned();
    }
    if run_over_rise == 0.0 {
        return "vertical".to_owned();
    }
    let whole = run_over_rise.floor();
    let quarter = [("", 0.0), ("1/4", 0.25), ("1/2", 0.5), ("3/4", 0.75)]
        .into_iter()
        .find(|(_, part)| (run_over_rise - whole - part).abs() < 1e-9);
    match quarter {
        Some(("", _)) => format!("{}:1", format_decimal(whole, 0)),
        Some((part, _)) if whole == 0.0 => format!("{part}:1"),
        Some((part, _)) => format!("{} {part}:1", format_decimal(whole, 0)),
        None => format!("{}:1", format_decimal(run_over_rise, 2)),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn slopes_are_run_over_rise() {
        for (text, value) in [
            ("3/4:1", 0.75),
            ("¾:1", 0.75),
            ("1:1", 1.0),
            ("1.5:1", 1.5),
            ("1 1/2 : 1", 1.5),
            ("vertical", 0.0),
            ("0:1", 0.0),
            ("3:4", 0.75),
            ("50%", 2.0),
            ("0.5", 0.5),
        ] {
            assert_eq!(parse_slope(text).unwrap().value, value, "{text}");
        }
        for text in [
            "",
            "1:0",
            "0%",
            "1:",
            "1:1 x",
            "-1:1",
            "1:1:1",
            "1.5 1/2:1",
            "1/0:1",
        ] {
            assert!(parse_slope(text).is_err(), "{text}");
        }
    }

    #[test]
    fn slopes_print_as_tables_do() {
        for (value, text) in [
            (0.0, "vertical"),
            (0.75, "3/4:1"),
            (1.0, "1:1"),
            (1.5, "1 1/2:1"),
            (2.0, "2:1"),
            (0.8, "0.80:1"),
            (f64::NAN, "unknown"),
        ] {
            assert_eq!(format_slope(value), text);
        }
    }
}
