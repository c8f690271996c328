//! A place on the globe as people write it: two angles, in decimal degrees or in degrees, minutes
//! and seconds.
//!
//! Latitude comes first, as on maps, unless letters say otherwise: `36.4512, -84.3071`,
//! `36°27'04.3"N 84°18'25.6"W`, `W 84 18.427, N 36 27.072`.

use super::fault::UnitFault;

const REMEDY: &str =
    "Type latitude and longitude, such as 36.4512, -84.3071 or 36°27'04.3\"N 84°18'25.6\"W.";

/// Latitude and longitude, degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LatitudeLongitude {
    /// North of the equator, -90 to 90.
    pub latitude: f64,
    /// East of Greenwich, -180 to 180.
    pub longitude: f64,
    /// Whether letters told which is which; otherwise latitude was taken as the first.
    pub lettered: bool,
}

/// Whether a text is a place on the globe and no row of columns: its angles have degree signs or
/// letters of the compass.
pub fn looks_geographic(text: &str) -> bool {
    parse_place(text).is_ok_and(|place| place.lettered || text.contains(['°', 'º', '˚']))
}

/// Reads a place on the globe.
///
/// # Errors
/// What was not understood, and what to type.
pub fn parse_place(text: &str) -> Result<LatitudeLongitude, UnitFault> {
    let fault = |message: &str| UnitFault::new(0..text.chars().count(), message, REMEDY);
    let pieces: Vec<Piece> = pieces(text)
        .into_iter()
        .collect::<Option<_>>()
        .ok_or_else(|| fault("This is not a latitude and a longitude."))?;
    let angles = angles(&pieces).ok_or_else(|| fault("This is not two angles."))?;
    let [first, second] = angles;
    let degrees = |angle: &Angle| {
        angle
            .degrees()
            .ok_or_else(|| fault("An angle is degrees, minutes below 60 and seconds below 60."))
    };
    let (one, other) = (degrees(&first)?, degrees(&second)?);
    let (latitude, longitude) = match (first.letter, second.letter) {
        (None, None) => (one, other),
        (Some('N' | 'S'), Some('E' | 'W')) => (one, other),
        (Some('E' | 'W'), Some('N' | 'S')) => (other, one),
        _ => return Err(fault("One angle needs N or S, the other E or W.")),
    };
    if !(-90.0..=90.0).contains(&latitude) {
        return Err(fault("The latitude lies between -90 and 90 degrees."));
    }
    if !(-180.0..=180.0).contains(&longitude) {
        return Err(fault("The longitude lies between -180 and 180 degrees."));
    }
    Ok(LatitudeLongitude {
        latitude,
        longitude,
        lettered: first.letter.is_some(),
    })
}

/// A place as degrees with so many decimals, latitude first: `36.451200, -84.307100`.
pub fn format_place(latitude: f64, longitude: f64, decimals: u32) -> String {
    let number = |value| super::coordinate::format_coordinate(value, decimals);
    format!("{}, {}", number(latitude), number(longitude))
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Piece {
    /// A number, whether a minus stands before it, and whether it was written without a fraction.
    Number(f64, bool, bool),
    Letter(char),
    Degree,
    Minute,
    Second,
    /// A comma, semicolon or slash between the two angles.
    Between,
}

/// One angle: a letter, and one to three numbers.
#[derive(Debug, Default)]
struct Angle {
    letter: Option<char>,
    numbers: Vec<(f64, bool, bool)>,
}

impl Angle {
    fn degrees(&self) -> Option<f64> {
        if self.numbers.is_empty() || self.numbers.len() > 3 {
            return None;
        }
        let mut degrees = 0.0;
        let mut sign = 1.0;
        let mut scale = 1.0;
        for (i, (value, minus, _)) in self.numbers.iter().enumerate() {
            let before = i.checked_sub(1).and_then(|k| self.numbers.get(k));
            let sound = before.is_none_or(|(_, _, whole)| *whole && *value < 60.0 && !minus);
            if !sound {
                return None;
            }
            if *minus {
                sign = -1.0;
            }
            degrees += value / scale;
            scale *= 60.0;
        }
        match self.letter {
            // A letter and a minus would say it twice.
            Some(_) if sign < 0.0 => None,
            Some('S' | 'W') => Some(-degrees),
            _ => Some(sign * degrees),
        }
    }
}

/// The pieces of a text; `None` where something else stands.
fn pieces(text: &str) -> Vec<Option<Piece>> {
    let mut out = Vec::new();
    let mut rest = text.trim_start();
    while let Some(c) = rest.chars().next() {
        let mut length = c.len_utf8();
        let piece = match c {
            '0'..='9' | '.' | '-' | '+' | '−' => {
                let minus = matches!(c, '-' | '−');
                let signed = matches!(c, '-' | '−' | '+');
                let digits = if signed {
                    rest.get(length..).unwrap_or("")
                } else {
                    length = 0;
                    rest
                };
                let end = digits
                    .find(|c: char| !c.is_ascii_digit() && c != '.')
                    .unwrap_or(digits.len());
                let number = digits.get(..end).unwrap_or("");
                length += end;
                number
                    .parse()
                    .ok()
                    .map(|value| Piece::Number(value, minus, !number.contains('.')))
            }
            'N' | 'n' | 'S' | 's' | 'E' | 'e' | 'W' | 'w' => {
                Some(Piece::Letter(c.to_ascii_uppercase()))
            }
            '°' | 'º' | '˚' => Some(Piece::Degree),
            '\'' | '’' | '′' => {
                let after = rest.get(length..).unwrap_or("");
                match after.strip_prefix(['\'', '’', '′']) {
                    Some(beyond) => {
                        length = rest.len() - beyond.len();
                        Some(Piece::Second)
                    }
                    None => Some(Piece::Minute),
                }
            }
            '"' | '”' | '″' => Some(Piece::Second),
            ',' | ';' | '/' => Some(Piece::Between),
            _ => None,
        };
        out.push(piece);
        // A number of no length would stand still.
        rest = rest.get(length.max(1)..).unwrap_or("").trim_start();
    }
    out
}

/// The pieces as two angles: parted by a comma, or by the letters, or halfway.
fn angles(pieces: &[Piece]) -> Option<[Angle; 2]> {
    let between = pieces.iter().position(|p| *p == Piece::Between);
    let leading = matches!(pieces.first(), Some(Piece::Letter(_)));
    let letter = |p: &Piece| matches!(p, Piece::Letter(_));
    let cut = if let Some(at) = between {
        at
    } else if leading {
        1 + pieces.iter().skip(1).position(letter)?
    } else if let Some(at) = pieces.iter().position(letter) {
        at + 1
    } else if let Some(at) = second_degree(pieces) {
        at
    } else {
        pieces.len() / 2
    };
    let (first, rest) = pieces.split_at_checked(cut)?;
    let second = rest.strip_prefix(&[Piece::Between]).unwrap_or(rest);
    Some([angle(first)?, angle(second)?])
}

/// Where the second angle begins when degree signs tell.
fn second_degree(pieces: &[Piece]) -> Option<usize> {
    let mut signs = pieces
        .iter()
        .enumerate()
        .filter(|(_, p)| **p == Piece::Degree);
    signs.next()?;
    signs.next()?.0.checked_sub(1)
}

fn angle(pieces: &[Piece]) -> Option<Angle> {
    let mut angle = Angle::default();
    for piece in pieces {
        match *piece {
            Piece::Number(value, minus, whole) => angle.numbers.push((value, minus, whole)),
            Piece::Letter(letter) if angle.letter.is_none() => angle.letter = Some(letter),
            Piece::Degree if angle.numbers.len() == 1 => {}
            Piece::Minute if angle.numbers.len() == 2 => {}
            Piece::Second if angle.numbers.len() == 3 => {}
            _ => return None,
        }
    }
    (!angle.numbers.is_empty()).then_some(angle)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> [f64; 2] {
        let place = parse_place(text).unwrap_or_else(|f| panic!("{text}: {f}"));
        [place.latitude, place.longitude]
    }

    fn near(text: &str, latitude: f64, longitude: f64) {
        let [a, b] = read(text);
        assert!(
            (a - latitude).abs() < 1e-12 && (b - longitude).abs() < 1e-12,
            "{text}: {a}, {b}"
        );
    }

    #[test]
    fn every_usual_way_of_writing_a_place_is_read() {
        near("36.4512, -84.3071", 36.4512, -84.3071);
        near("36.4512 -84.3071", 36.4512, -84.3071);
        let (lat, lon) = (
            36.0 + 27.0 / 60.0 + 4.5 / 3600.0,
            -(84.0 + 18.0 / 60.0 + 25.5 / 3600.0),
        );
        near("36°27'04.5\"N 84°18'25.5\"W", lat, lon);
        near("36° 27′ 4.5″ N, 84° 18′ 25.5″ W", lat, lon);
        near("36°27'4.5''N 84°18'25.5''W", lat, lon);
        near("W 84 18 25.5, N 36 27 4.5", lat, lon);
        near("N36 27 4.5 W84 18 25.5", lat, lon);
        near("36 27 4.5 -84 18 25.5", lat, lon);
        near("36°27.075' -84°18.425'", lat, lon);
        near("-33.5, 151", -33.5, 151.0);
        near("33.5S 151E", -33.5, 151.0);
        near("0.5 -0.25", 0.5, -0.25);
        near("-0 30 0, 10", -0.5, 10.0);
    }

    #[test]
    fn what_is_no_place_is_told() {
        for odd in [
            "",
            "36",
            "36, ",
            "91, 0",
            "0, 181",
            "36 61 0, 84",
            "36N 84N",
            "36.5 27, 84",
            "-36S 84W",
            "a, b",
            "36,84,12",
            "36°27\"N 84W",
            "1 2 3 4 5 6 7 8",
            "36N 84W 3E",
        ] {
            assert!(parse_place(odd).is_err(), "{odd}: {:?}", parse_place(odd));
        }
    }

    #[test]
    fn a_place_looks_different_from_columns() {
        assert!(looks_geographic("36°27'04.3\"N 84°18'25.6\"W"));
        assert!(looks_geographic("N36 27 04.3 W84 18 25.6"));
        assert!(!looks_geographic("36.4512, -84.3071"));
        assert!(!looks_geographic("1, 5000.0, 2000.0, 100.0, pine"));
        assert!(!looks_geographic("1 5000 2000 100 NE"));
    }
}
