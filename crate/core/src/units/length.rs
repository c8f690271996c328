//! Lengths as people type them.
//!
//! A length is an optional sign and one or more parts, each a number and a unit, from the
//! larger unit to the smaller: `12'-6 1/2"`, `12 ft 6.5 in`, `3 yd 2 ft`, `3.81 m`. Parts
//! may be joined by a dash, a space or nothing. Only the last part may carry a fraction,
//! and every part after the first must be less than one of the unit before it. After feet,
//! a last number without a mark is inches. A single number without a mark is in the
//! default system: feet or meters.
//!
//! # When a reading is doubted
//! - A number written with a decimal point, in feet by default or by the mark `'` (not by
//!   the word `ft`), with a whole part of 1 or more and a fraction that reads as whole inches
//!   (`.1` to `.9`, `.10`, `.11`): 12.6 ft is not 12 ft 6 in.
//! - A mixed number without a unit, such as `6 1/2`, where feet are the default.
//! - A whole number with one comma, in meters: `3,810 m` may be a decimal comma.
//! - US survey feet.
//! - Varas, which are not the same everywhere.

use super::System;
use super::decimal::format_decimal;
use super::fault::{Ambiguity, Parsed, UnitFault};
use super::length_text::{LengthStyle, format_length};
use super::scan::{Decimal, Kind, Reader, scan};
use super::unit::{Dimension, Unit};

/// One number with its unit.
struct Part<'a> {
    /// The number, fraction included.
    value: f64,
    /// How its whole or decimal part was written.
    decimal: Option<&'a Decimal>,
    /// Whether a fraction such as `1/2` was written.
    fraction: bool,
    /// The unit written behind it.
    unit: Option<Unit>,
    /// Whether the unit was written as a mark, not as a word.
    mark: bool,
    /// Its place in the text.
    span: core::ops::Range<usize>,
}

/// Reads a length; the value is in meters.
///
/// # Errors
/// The first stretch of text that is not understood, with its place and what to type.
pub fn parse_length(text: &str, default: System) -> Result<Parsed, UnitFault> {
    parse_length_and_unit(text, default).map(|(parsed, _)| parsed)
}

/// Reads a length as [`parse_length`] does, with the unit written behind its first number; `None`
/// where none is written and the default was taken.
///
/// # Errors
/// Those of [`parse_length`].
pub fn parse_length_and_unit(
    text: &str,
    default: System,
) -> Result<(Parsed, Option<Unit>), UnitFault> {
    let tokens = scan(text)?;
    let mut reader = Reader::new(&tokens);
    let start = reader;
    let sign = reader.sign();
    let mut parts: Vec<Part<'_>> = Vec::new();
    while reader.peek().is_some() || parts.is_empty() {
        if !parts.is_empty() {
            let _ = reader.take(&Kind::Dash);
        }
        parts.push(part(&mut reader)?);
    }
    let written = parts.first().and_then(|part| part.unit);
    let mut ambiguities = Vec::new();
    settle_units(&mut parts, default, &mut ambiguities)?;
    check_parts(&parts)?;
    for part in &parts {
        flag_ambiguity(part, &mut ambiguities);
    }
    let metres: f64 = parts
        .iter()
        .map(|p| p.unit.unwrap_or(Unit::Metre).to_si(p.value))
        .sum();
    if !metres.is_finite() {
        return Err(UnitFault::new(
            reader.span_since(&start),
            "The length is too large.",
            "Type a shorter number.",
        ));
    }
    let parsed = Parsed {
        value: sign * metres + 0.0,
        ambiguities,
    };
    Ok((parsed, written))
}

/// Reads one number and the unit behind it.
fn part<'a>(reader: &mut Reader<'a>) -> Result<Part<'a>, UnitFault> {
    let start = *reader;
    let not_a_number = |reader: &Reader<'_>| {
        let message = if reader.peek().is_none() {
            "A number is missing here."
        } else {
            "A number is expected here."
        };
        UnitFault::new(
            reader.span(),
            message,
            "Type a length such as 12'-6 1/2\", 12.5 ft, 150 in or 3.81 m.",
        )
    };
    let mut decimal = None;
    let mut fraction = None;
    if starts_fraction(reader) {
        fraction = Some(take_fraction(reader)?);
    } else if let Some(number) = reader.number() {
        decimal = Some(number);
        let dashed = matches!(reader.kind(0), Some(Kind::Dash));
        let mut ahead = *reader;
        ahead.skip(usize::from(dashed));
        if starts_fraction(&ahead) {
            *reader = ahead;
            fraction = Some(take_fraction(reader)?);
        }
    } else {
        return Err(not_a_number(reader));
    }
    if let (Some(number), Some(part)) = (decimal, fraction)
        && (!number.is_whole() || part >= 1.0)
    {
        return Err(UnitFault::new(
            reader.span_since(&start),
            "A fraction follows a number that it does not belong to.",
            "Write a whole number and a fraction below one, as in 6 1/2.",
        ));
    }
    let number_span = reader.span_since(&start);
    let (unit, mark) = take_unit(reader)?;
    Ok(Part {
        value: decimal.map_or(0.0, |d| d.value) + fraction.unwrap_or(0.0),
        decimal,
        fraction: fraction.is_some(),
        unit,
        mark,
        span: number_span.start..reader.span_since(&start).end,
    })
}

/// Whether a fraction such as `1/2` or `½` stands here.
pub(super) fn starts_fraction(reader: &Reader<'_>) -> bool {
    match reader.kind(0) {
        Some(Kind::Vulgar(..)) => true,
        Some(Kind::Number(_)) => matches!(reader.kind(1), Some(Kind::Slash)),
        _ => false,
    }
}

/// Takes a fraction: two whole numbers and a slash, or one character.
pub(super) fn take_fraction(reader: &mut Reader<'_>) -> Result<f64, UnitFault> {
    let start = *reader;
    if let Some(Kind::Vulgar(above, below)) = reader.kind(0) {
        reader.skip(1);
        return Ok(above / below);
    }
    let above = reader.number();
    reader.skip(1);
    let below = reader.number();
    match (above, below) {
        (Some(above), Some(below)) if above.is_whole() && below.is_whole() && below.value > 0.0 => {
            Ok(above.value / below.value)
        }
        _ => Err(UnitFault::new(
            reader.span_since(&start),
            "The fraction is not two whole numbers, the lower one above zero.",
            "Write a fraction as in 1/2.",
        )),
    }
}

/// Takes the unit behind a number, if there is one, and says whether it was a mark.
fn take_unit(reader: &mut Reader<'_>) -> Result<(Option<Unit>, bool), UnitFault> {
    if reader.take(&Kind::Prime) {
        return Ok((Some(Unit::Foot), true));
    }
    if reader.take(&Kind::DoublePrime) {
        return Ok((Some(Unit::Inch), true));
    }
    let start = *reader;
    let mut words: Vec<&str> = Vec::new();
    while let Some(Kind::Word(word)) = reader.kind(0) {
        words.push(word);
        reader.skip(1);
    }
    if words.is_empty() {
        return Ok((None, false));
    }
    let name = words.join(" ");
    match Unit::from_word(Dimension::Length, &name) {
        Some(unit) => Ok((Some(unit), false)),
        None => Err(UnitFault::new(
            reader.span_since(&start),
            format!("“{name}” is not a unit of length."),
            "Use ft, in, yd, m, cm, mm, or the marks ' and \".",
        )),
    }
}

/// Gives a unit to the numbers written without one.
fn settle_units(
    parts: &mut [Part<'_>],
    default: System,
    ambiguities: &mut Vec<Ambiguity>,
) -> Result<(), UnitFault> {
    let alone = parts.len() == 1;
    let mut before: Option<Unit> = None;
    for part in parts.iter_mut() {
        if part.unit.is_none() {
            part.unit = match (before, default) {
                (Some(Unit::Foot), _) => Some(Unit::Inch),
                (None, System::Feet) if alone => {
                    if part.fraction {
                        ambiguities.push(Ambiguity {
                            message: "A number without a unit was taken as feet.".to_owned(),
                            remedy: "If inches were meant, put the mark \" behind it.".to_owned(),
                        });
                    }
                    part.mark = true;
                    Some(Unit::Foot)
                }
                (None, System::Metres) if alone => Some(Unit::Metre),
                _ => {
                    return Err(UnitFault::new(
                        part.span.clone(),
                        "This number has no unit, and there is more than one number.",
                        "Put a unit behind each number, as in 12'-6\".",
                    ));
                }
            };
        }
        before = part.unit;
    }
    Ok(())
}

/// Parts run from large to small, whole but for the last, each less than one of the unit before.
fn check_parts(parts: &[Part<'_>]) -> Result<(), UnitFault> {
    for (larger, smaller) in parts.iter().zip(parts.iter().skip(1)) {
        let (Some(big), Some(small)) = (larger.unit, smaller.unit) else {
            continue;
        };
        let place = smaller.span.clone();
        if big.in_si() <= small.in_si() {
            return Err(UnitFault::new(
                place,
                format!(
                    "A length in {} cannot follow one in {}.",
                    small.symbol(),
                    big.symbol()
                ),
                "Write the larger unit first, each unit once.",
            ));
        }
        if larger.fraction || larger.decimal.is_some_and(|d| !d.is_whole()) {
            return Err(UnitFault::new(
                larger.span.clone(),
                "Only the last number of a length may carry a fraction.",
                "Write whole feet and then inches, as in 12'-6 1/2\", or decimal feet alone.",
            ));
        }
        let limit = big.in_si() / small.in_si();
        if smaller.value >= limit {
            let total = big.to_si(larger.value) + small.to_si(smaller.value);
            let meant = format_length(total, LengthStyle::FeetInches { denominator: 16 });
            return Err(UnitFault::new(
                place,
                format!(
                    "{} {} is not less than one {}.",
                    format_decimal(smaller.value, 3)
                        .trim_end_matches('0')
                        .trim_end_matches('.'),
                    small.symbol(),
                    big.symbol()
                ),
                if big == Unit::Foot && small == Unit::Inch {
                    format!("If {meant} is meant, type it so.")
                } else {
                    "Carry the excess into the larger unit.".to_owned()
                },
            ));
        }
    }
    Ok(())
}

/// Says what is doubtful about a part (see the front page of this module).
fn flag_ambiguity(part: &Part<'_>, ambiguities: &mut Vec<Ambiguity>) {
    let Some(decimal) = part.decimal else { return };
    match part.unit {
        Some(Unit::Foot) if part.mark && decimal.value >= 1.0 => {
            let Some(inches) = whole_inches(&decimal.fraction) else {
                return;
            };
            let read = format_length(
                Unit::Foot.to_si(decimal.value),
                LengthStyle::FeetInches { denominator: 16 },
            );
            let feet = decimal.value.floor();
            let digits = &decimal.fraction;
            ambiguities.push(Ambiguity {
                message: format!("{feet}.{digits} ft is {read}."),
                remedy: format!(
                    "If {feet} ft {inches} in was meant, type {feet}'{inches}\"; \
                     if decimal feet were meant, {feet}.{digits} ft says so."
                ),
            });
        }
        Some(Unit::SurveyFoot) => ambiguities.push(Ambiguity {
            message: "US survey feet were retired at the end of 2022 (85 FR 62698).".to_owned(),
            remedy: "Check that the plat really uses them; otherwise type ft.".to_owned(),
        }),
        Some(Unit::Vara) => ambiguities.push(Ambiguity {
            message: "The vara was taken as 33 1/3 in, that of Texas.".to_owned(),
            remedy: "Elsewhere the vara has another length: type that length in ft then."
                .to_owned(),
        }),
        Some(Unit::Metre) if decimal.grouped && decimal.is_whole() => ambiguities.push(Ambiguity {
            message: format!(
                "The comma was read between thousands: {} m.",
                format_decimal(decimal.value, 0)
            ),
            remedy: "If a decimal was meant, write it with a point.".to_owned(),
        }),
        _ => {}
    }
}

/// The inches that a decimal fraction's digits read as, if somebody could have meant inches.
fn whole_inches(fraction: &str) -> Option<u32> {
    let inches: u32 = fraction.parse().ok()?;
    let plausible = match fraction.len() {
        1 => inches >= 1,
        2 => (10..=11).contains(&inches),
        _ => false,
    };
    plausible.then_some(inches)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn feet(text: &str) -> f64 {
        parse_length(text, System::Feet).unwrap().value / 0.3048
    }

    fn ambiguities(text: &str, default: System) -> usize {
        parse_length(text, default).unwrap().ambiguities.len()
    }

    #[test]
    fn one_length_is_typed_in_many_ways() {
        for text in [
            "12'-6 1/2\"",
            "12'6.5\"",
            "12' 6.5\"",
            "12'-6-1/2\"",
            "12′-6½″",
            "12’ 6 ½”",
            "12 ft 6 1/2 in",
            "12 feet 6.5 inches",
            "12ft. 6.5in.",
            "12' 6 1/2",
            "+12'6.5\"",
            "150.5 in",
            "150 1/2\"",
            "3.82270 m",
            "382.27 cm",
            "3,822.7 mm",
            "4 yd 6.5 in",
            "4yd 0ft 6 1/2in",
        ] {
            let read = parse_length(text, System::Feet);
            let metres = read.unwrap_or_else(|e| panic!("{text}: {e}")).value;
            assert!((metres - 3.8227).abs() < 1e-12, "{text}: {metres}");
        }
    }

    #[test]
    fn a_sign_holds_for_the_whole_length() {
        assert!((feet("-0'-3\"") + 0.25).abs() < 1e-15);
        assert!((feet("−3'6\"") + 3.5).abs() < 1e-15);
        assert!(feet("-0").is_sign_positive());
    }

    #[test]
    fn a_bare_number_is_in_the_default_system() {
        assert!((feet("40") - 40.0).abs() < 1e-12);
        assert_eq!(parse_length("3.81", System::Metres).unwrap().value, 3.81);
        assert!((feet("2 chains") - 132.0).abs() < 1e-12);
        assert!((feet("2 rods") - 33.0).abs() < 1e-12);
        let survey = parse_length("3937 ftUS", System::Feet).unwrap();
        assert!((survey.value - 1200.0).abs() < 1e-9 && survey.ambiguities.len() == 1);
    }

    #[test]
    fn decimal_feet_that_look_like_inches_are_doubted() {
        let read = parse_length("12.6", System::Feet).unwrap();
        assert!((read.value - 12.6 * 0.3048).abs() < 1e-12);
        let doubt = read.ambiguities.first().unwrap();
        assert_eq!(doubt.message, "12.6 ft is 12'-7 3/16\".");
        assert!(doubt.remedy.contains("type 12'6\""), "{}", doubt.remedy);
        for (text, count) in [
            ("12.6'", 1),
            ("12.10", 1),
            ("12.11'", 1),
            ("12.12", 0),
            ("12.54'", 0),
            ("12.0", 0),
            ("12.06", 0),
            ("12.6 ft", 0),
            ("0.6", 0),
            ("12", 0),
            ("6.5\"", 0),
            ("6 1/2", 1),
        ] {
            assert_eq!(ambiguities(text, System::Feet), count, "{text}");
        }
        assert_eq!(ambiguities("12.6", System::Metres), 0);
        assert_eq!(ambiguities("3,810 m", System::Feet), 1);
    }

    #[test]
    fn what_is_wrong_is_named_with_its_place() {
        for (text, place) in [
            ("", 0..0),
            ("-", 1..1),
            ("ft", 0..2),
            ("12 6", 0..2),
            ("12'14\"", 3..6),
            ("12.5' 6\"", 0..5),
            ("6\" 2'", 3..5),
            ("12 furlongs", 3..11),
            ("6 9/8\"", 0..5),
            ("1/0 in", 0..3),
            ("12-6", 0..2),
            ("1e3", 1..2),
            ("5 m 3 m", 4..7),
            ("--5", 1..2),
            ("12' 6\" 3", 7..8),
            ("12 6/12 ft 0.5 in", 0..10),
            ("1/2/3", 3..4),
            ("12,5", 2..3),
            ("5 ft :", 5..6),
        ] {
            let fault = parse_length(text, System::Feet).unwrap_err();
            assert_eq!(fault.span, place, "{text}: {fault}");
            assert!(!fault.remedy.is_empty());
        }
        let fault = parse_length("12'14\"", System::Feet).unwrap_err();
        assert!(fault.remedy.contains("13'-2\""), "{}", fault.remedy);
    }
}
