//! Bearings and headings: quadrant bearings as deeds write them, and degrees clockwise from north.
//!
//! An angle is degrees, or degrees and minutes, or degrees, minutes and seconds: behind the
//! marks `° ' "`, the letters `d m s`, dashes, colons, or spaces. Only the last may have
//! decimals or a fraction such as `1/2`.

use core::ops::Range;

use super::decimal::{format_decimal, round_to};
use super::fault::{Parsed, UnitFault};
use super::length::{starts_fraction, take_fraction};
use super::scan::{Kind, Reader, scan};
use super::unit::Unit;
use crate::math::{TURN, wrap_turn};

/// The eight directions in words, clockwise from north.
pub const EIGHTHS: [&str; 8] = [
    "north",
    "northeast",
    "east",
    "southeast",
    "south",
    "southwest",
    "west",
    "northwest",
];

/// The one of them nearest to a bearing, radians clockwise from north.
pub fn nearest_eighth(bearing: f64) -> &'static str {
    let eighth = (bearing / (TURN / 8.0)).round() as usize % EIGHTHS.len();
    EIGHTHS.get(eighth).copied().unwrap_or("north")
}

const EXAMPLES: &str = "Type a bearing such as N 89°15'30\" E, S12.25W, or degrees such as 123.5.";

/// Reads a quadrant bearing (`N 89°15'30" E`, `N89-15-30E`, `due south`) or degrees clockwise
/// from north (`123.5`, `123°30'`); the value is in radians clockwise from north, `0..TURN`.
///
/// # Errors
/// The first stretch of text that is not understood, with its place and what to type.
pub fn parse_bearing(text: &str) -> Result<Parsed, UnitFault> {
    let tokens = scan(text)?;
    let mut reader = Reader::new(&tokens);
    let start = reader;
    if matches!(reader.kind(0), Some(Kind::Word(w)) if w == "due") {
        reader.skip(1);
    }
    let degrees = match take_letter(&mut reader) {
        None => heading_degrees(&mut reader)?,
        Some(first) if reader.peek().is_none() => first.degrees(),
        Some(first) => quadrant_degrees(first, &mut reader)?,
    };
    if reader.peek().is_some() {
        return Err(UnitFault::new(
            reader.span(),
            "This is not part of the bearing.",
            EXAMPLES,
        ));
    }
    if reader.span_since(&start).is_empty() {
        return Err(UnitFault::new(0..0, "A bearing is missing.", EXAMPLES));
    }
    Ok(Parsed::sure(wrap_turn(Unit::Degree.to_si(degrees))))
}

/// A letter of the compass.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Letter {
    North,
    East,
    South,
    West,
}

impl Letter {
    fn degrees(self) -> f64 {
        match self {
            Self::North => 0.0,
            Self::East => 90.0,
            Self::South => 180.0,
            Self::West => 270.0,
        }
    }
}

fn take_letter(reader: &mut Reader<'_>) -> Option<Letter> {
    let Some(Kind::Word(word)) = reader.kind(0) else {
        return None;
    };
    let letter = match word.as_str() {
        "n" | "north" => Letter::North,
        "e" | "east" => Letter::East,
        "s" | "south" => Letter::South,
        "w" | "west" => Letter::West,
        _ => return None,
    };
    reader.skip(1);
    Some(letter)
}

/// Degrees clockwise from north, 0 to 360.
fn heading_degrees(reader: &mut Reader<'_>) -> Result<f64, UnitFault> {
    let start = *reader;
    let degrees = match take_gon(reader) {
        Some(degrees) => degrees,
        None => take_angle(reader, false)?,
    };
    if (0.0..=360.0).contains(&degrees) {
        return Ok(degrees);
    }
    Err(UnitFault::new(
        reader.span_since(&start),
        "A bearing clockwise from north lies between 0 and 360 degrees.",
        EXAMPLES,
    ))
}

/// Takes gon, of which 400 are a full turn, as degrees.
fn take_gon(reader: &mut Reader<'_>) -> Option<f64> {
    let mut ahead = *reader;
    let gon = ahead.number()?.value;
    let Some(Kind::Word(word)) = ahead.kind(0) else {
        return None;
    };
    if !matches!(word.as_str(), "gon" | "gons" | "grad" | "grads" | "g") {
        return None;
    }
    ahead.skip(1);
    *reader = ahead;
    Some(gon * 0.9)
}

/// What follows N or S: an angle of 0 to 90 degrees, and E or W.
fn quadrant_degrees(first: Letter, reader: &mut Reader<'_>) -> Result<f64, UnitFault> {
    if matches!(first, Letter::East | Letter::West) {
        return Err(UnitFault::new(
            reader.span(),
            "A quadrant bearing begins with N or S.",
            EXAMPLES,
        ));
    }
    let start = *reader;
    let angle = take_angle(reader, true)?;
    if !(0.0..=90.0).contains(&angle) {
        return Err(UnitFault::new(
            reader.span_since(&start),
            "The angle of a quadrant bearing lies between 0 and 90 degrees.",
            EXAMPLES,
        ));
    }
    let place = reader.span();
    match (first, take_letter(reader)) {
        (Letter::North, Some(Letter::East)) => Ok(angle),
        (Letter::North, Some(Letter::West)) => Ok(360.0 - angle),
        (Letter::South, Some(Letter::East)) => Ok(180.0 - angle),
        (Letter::South, Some(Letter::West)) => Ok(180.0 + angle),
        _ => Err(UnitFault::new(
            place,
            "A quadrant bearing ends with E or W.",
            EXAMPLES,
        )),
    }
}

/// Takes degrees, minutes and seconds as decimal degrees. In a quadrant bearing a closing
/// `s` is seconds only when E or W still follows.
fn take_angle(reader: &mut Reader<'_>, quadrant: bool) -> Result<f64, UnitFault> {
    let mut degrees = 0.0;
    let mut before: Option<(bool, Range<usize>)> = None;
    for (parts_in_one, name) in [(1.0, "degrees"), (60.0, "minutes"), (3600.0, "seconds")] {
        let mut ahead = *reader;
        if before.is_some() {
            let _ = ahead.take(&Kind::Dash) || ahead.take(&Kind::Colon);
        }
        let place = ahead.span();
        let Some(number) = ahead.number() else { break };
        *reader = ahead;
        // "N 12 1/2 E", as chain surveys write it.
        let fraction = number.is_whole() && starts_fraction(reader);
        let part = if fraction {
            take_fraction(reader)?
        } else {
            0.0
        };
        if let Some((false, place)) = before {
            return Err(UnitFault::new(
                place,
                format!("Decimals are followed by {name}."),
                "Write decimals on the last number only.",
            ));
        }
        if parts_in_one > 1.0 && number.value >= 60.0 {
            return Err(UnitFault::new(
                place,
                format!("There are 60 {name} or more."),
                "Minutes and seconds are below 60.",
            ));
        }
        degrees += (number.value + part) / parts_in_one;
        before = Some((number.is_whole() && !fraction, place));
        take_mark(reader, name, quadrant);
    }
    if before.is_some() {
        return Ok(degrees);
    }
    Err(UnitFault::new(
        reader.span(),
        if reader.peek().is_some() {
            "An angle is expected here."
        } else {
            "An angle is missing here."
        },
        EXAMPLES,
    ))
}

/// Takes the mark behind degrees, minutes or seconds, if it stands there.
fn take_mark(reader: &mut Reader<'_>, name: &str, quadrant: bool) {
    let fits = match (reader.kind(0), name) {
        (Some(Kind::Degree), "degrees")
        | (Some(Kind::Prime), "minutes")
        | (Some(Kind::DoublePrime), "seconds") => true,
        (Some(Kind::Word(w)), "degrees") => {
            matches!(w.as_str(), "d" | "deg" | "degree" | "degrees")
        }
        (Some(Kind::Word(w)), "minutes") => {
            matches!(w.as_str(), "m" | "min" | "minute" | "minutes")
        }
        (Some(Kind::Word(w)), "seconds") => match w.as_str() {
            "s" => !quadrant || matches!(reader.kind(1), Some(Kind::Word(_))),
            "sec" | "second" | "seconds" => true,
            _ => false,
        },
        _ => false,
    };
    reader.skip(usize::from(fits));
}

/// A bearing in radians as a quadrant bearing to the nearest second: `N 89°15'30" E`.
///
/// Seconds carry, so 60 seconds never appear. `unknown` when the bearing is not finite.
pub fn format_bearing(bearing: f64) -> String {
    if !bearing.is_finite() {
        return "unknown".to_owned();
    }
    const DEGREE: u32 = 3600;
    let seconds = round_to(Unit::Degree.from_si(wrap_turn(bearing)) * 3600.0, 0);
    // At most 1,296,000 after wrapping: the cast is exact.
    let seconds = seconds as u32 % (360 * DEGREE);
    let (first, angle, second) = match seconds {
        s if s <= 90 * DEGREE => ('N', s, 'E'),
        s if s <= 180 * DEGREE => ('S', 180 * DEGREE - s, 'E'),
        s if s < 270 * DEGREE => ('S', s - 180 * DEGREE, 'W'),
        s => ('N', 360 * DEGREE - s, 'W'),
    };
    let (degrees, minutes, seconds) = (angle / DEGREE, angle / 60 % 60, angle % 60);
    format!("{first} {degrees}°{minutes:02}'{seconds:02}\" {second}")
}

/// A bearing in radians as degrees clockwise from north to a tenth: `123.5°`, below 360.
pub fn format_heading(bearing: f64) -> String {
    let degrees = rounded_heading(bearing);
    if degrees.is_finite() {
        format!("{}°", format_decimal(degrees, 1))
    } else {
        format_decimal(degrees, 1)
    }
}

/// Degrees clockwise from north to a tenth, in 0..360; not finite when the bearing is not.
pub(super) fn rounded_heading(bearing: f64) -> f64 {
    if !bearing.is_finite() {
        return f64::NAN;
    }
    let degrees = round_to(Unit::Degree.from_si(wrap_turn(bearing)), 1);
    if degrees >= 360.0 { 0.0 } else { degrees }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn degrees(text: &str) -> f64 {
        let parsed = parse_bearing(text).unwrap_or_else(|e| panic!("{text}: {e}"));
        Unit::Degree.from_si(parsed.value)
    }

    #[test]
    fn quadrant_bearings_are_read_in_every_common_spelling() {
        let angle = 89.0 + 15.0 / 60.0 + 30.0 / 3600.0;
        for text in [
            "N 89°15'30\" E",
            "N89-15-30E",
            "n 89 15 30 e",
            "North 89d15m30s East",
            "N 89° 15′ 30″ E",
            "N 89 deg 15 min 30 sec E",
            "89-15-30",
            "89°15'30\"",
            "N89°15.5'E",
        ] {
            assert!((degrees(text) - angle).abs() < 1e-12, "{text}");
        }
        for (text, value) in [
            ("S12.25W", 192.25),
            ("S 45 E", 135.0),
            ("N 10 W", 350.0),
            ("123.5", 123.5),
            ("360", 0.0),
            ("due South", 180.0),
            ("W", 270.0),
            ("N 12 1/2 E", 12.5),
            ("N 12½° E", 12.5),
            ("S 45 3/4 E", 134.25),
            ("N 10:30:00 E", 10.5),
            ("N", 0.0),
            ("150.25 gon", 135.225),
            ("400g", 0.0),
            (
                "North 1 degree 1 minute 36 seconds East",
                1.026_666_666_666_667,
            ),
            ("N 0 E", 0.0),
            ("S 90 W", 270.0),
        ] {
            assert!(
                (degrees(text) - value).abs() < 1e-12,
                "{text}: {}",
                degrees(text)
            );
        }
    }

    #[test]
    fn what_is_wrong_is_named_with_its_place() {
        for (text, place) in [
            ("", 0..0),
            ("due", 3..3),
            ("N 91 E", 2..4),
            ("N 10", 4..4),
            ("N 10 S", 5..6),
            ("E 10 N", 2..4),
            ("361", 0..3),
            ("401 gon", 0..7),
            ("N 10-60-00 E", 5..7),
            ("N 10.5-30 E", 2..6),
            ("N 10 1/2 30 E", 2..4),
            ("N 10 E 5", 7..8),
            ("-5", 0..1),
            ("bearing", 0..7),
        ] {
            let fault = parse_bearing(text).unwrap_err();
            assert_eq!(fault.span, place, "{text}: {fault}");
        }
    }

    #[test]
    fn seconds_carry() {
        let show = |d: f64| format_bearing(Unit::Degree.to_si(d));
        let almost = 29.0 + 59.0 / 60.0 + 59.9996 / 3600.0;
        assert_eq!(show(almost), "N 30°00'00\" E");
        assert_eq!(show(180.0 - almost), "S 30°00'00\" E");
        assert_eq!(show(360.0 - 1e-9), "N 0°00'00\" E");
        assert_eq!(show(-10.0), "N 10°00'00\" W");
        assert_eq!(show(192.25), "S 12°15'00\" W");
        assert_eq!(show(90.0), "N 90°00'00\" E");
        assert_eq!(show(180.0), "S 0°00'00\" E");
        assert_eq!(show(270.0), "N 90°00'00\" W");
        assert_eq!(format_bearing(f64::NAN), "unknown");
    }

    #[test]
    fn a_heading_stays_below_a_full_turn() {
        assert_eq!(format_heading(Unit::Degree.to_si(359.96)), "0.0°");
        assert_eq!(format_heading(Unit::Degree.to_si(123.45)), "123.5°");
        assert_eq!(format_heading(f64::INFINITY), "unknown");
    }
}
