//! A day by a clock that is so far from UTC, and times of the clock, as people write them.

use core::fmt;
use core::str::FromStr;

use serde::Serialize;

use crate::finding::{Finding, said};
use crate::math::TURN;
use crate::site::GeoOrigin;
use crate::site::book::Day;

/// The year taken where nobody gives one: the sun of one year stands where that of another does to a few minutes of
/// the clock. It is fixed, so that the same question has the same answer every year (our choice).
const USUAL_YEAR: u16 = 2026;

/// The years that are taken (our choice; the algorithm holds far longer).
const YEARS: core::ops::RangeInclusive<u16> = 1900..=2100;

/// The farthest that any clock is set from UTC, minutes: 14 h, in the Pacific (common knowledge, no source).
const FARTHEST: i16 = 14 * 60;

/// By how much a clock is ahead of UTC, whole minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct UtcOffset(i16);

impl UtcOffset {
    /// An offset of so many minutes; `None` out of range.
    pub fn of_minutes(minutes: i16) -> Option<Self> {
        (-FARTHEST..=FARTHEST)
            .contains(&minutes)
            .then_some(Self(minutes))
    }

    /// The offset of the clock that the longitude asks for: an hour to every 15 degrees. Borders and daylight saving
    /// are no part of it.
    pub fn by_longitude(origin: &GeoOrigin) -> Self {
        let hours = (origin.longitude / (TURN / 24.0))
            .round()
            .clamp(-12.0, 12.0);
        // A whole number of hours, 12 at most.
        Self(60 * hours as i16)
    }

    /// Minutes ahead of UTC.
    pub fn minutes(self) -> f64 {
        f64::from(self.0)
    }

    /// Hours ahead of UTC.
    pub fn hours(self) -> f64 {
        self.minutes() / 60.0
    }
}

impl fmt::Display for UtcOffset {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { '-' } else { '+' };
        let minutes = self.0.unsigned_abs();
        write!(f, "{sign}{}:{:02}", minutes / 60, minutes % 60)
    }
}

impl FromStr for UtcOffset {
    type Err = String;

    /// `-5`, `+5:30`, `5.5`, with or without `UTC` before it.
    fn from_str(text: &str) -> Result<Self, String> {
        let bare = text.trim();
        let bare = bare.strip_prefix("UTC").unwrap_or(bare).trim();
        let (sign, bare) = match bare.chars().next() {
            Some('-' | '\u{2212}') => (-1.0, bare.trim_start_matches(['-', '\u{2212}'])),
            _ => (1.0, bare.trim_start_matches('+')),
        };
        let digits = |part: &str| part.starts_with(|c: char| c.is_ascii_digit());
        let minutes = match bare.split_once(':') {
            Some((hours, minutes)) if digits(hours) && minutes.len() == 2 => {
                let hours = hours.parse::<u8>().ok().map(f64::from);
                let minutes = minutes.parse::<u8>().ok().filter(|it| *it < 60);
                hours.zip(minutes).map(|(h, m)| 60.0 * h + f64::from(m))
            }
            Some(_) => None,
            None if digits(bare) => bare.parse::<f64>().ok().map(|hours| 60.0 * hours),
            None => None,
        };
        let whole = minutes.filter(|it| *it <= f64::from(FARTHEST) && it.fract() == 0.0);
        // A whole number within the range of the type.
        whole
            .and_then(|it| Self::of_minutes((sign * it) as i16))
            .ok_or_else(|| {
                format!("\"{text}\" is no offset from UTC; write hours from -14 to 14, such as -5 or +5:30.")
            })
    }
}

/// A day by the clock of a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SunDay {
    /// The day.
    pub date: Day,
    /// Its clock.
    pub offset: UtcOffset,
}

impl SunDay {
    /// The day asked about where nobody names one, by the clock of the longitude: 21 June, south of the equator 21
    /// December, about the longest of the year (common practice, no source).
    pub fn usual(origin: &GeoOrigin) -> Self {
        let month = if origin.latitude < 0.0 { 12 } else { 6 };
        Self {
            date: Day::nearest(USUAL_YEAR, month, 21),
            offset: UtcOffset::by_longitude(origin),
        }
    }

    /// Another day by the same clock.
    ///
    /// # Errors
    /// A year out of range.
    pub fn on(self, date: Day) -> Result<Self, Finding> {
        match YEARS.contains(&date.parts().0) {
            true => Ok(Self { date, ..self }),
            false => Err(no_day(&date.to_string())),
        }
    }

    /// A day as it was typed; what is empty is the usual.
    ///
    /// # Errors
    /// A day that does not exist, and an offset that is none.
    pub fn read(date: &str, offset: &str, origin: &GeoOrigin) -> Result<Self, Vec<Finding>> {
        let mut day = Self::usual(origin);
        let mut faults = Vec::new();
        if !date.trim().is_empty() {
            let typed = Day::read(date).ok_or_else(|| no_day(date));
            match typed.and_then(|date| day.on(date)) {
                Ok(on) => day = on,
                Err(fault) => faults.push(fault),
            }
        }
        if !offset.trim().is_empty() {
            match offset.parse() {
                Ok(offset) => day.offset = offset,
                Err(why) => faults.push(no_offset(why)),
            }
        }
        match faults.is_empty() {
            true => Ok(day),
            false => Err(faults),
        }
    }
}

fn no_day(text: &str) -> Finding {
    let why = format!("\"{text}\" is no day from 1900 to 2100; write it as 2026-06-21.");
    let remedy = "Give the day as year, month and day.";
    Finding::fault("sun-day", said!("{why}", why = why), remedy)
}

fn no_offset(why: String) -> Finding {
    let remedy = "Give the hours that your clock is ahead of UTC; daylight saving adds one.";
    Finding::fault("sun-offset", said!("{why}", why = why), remedy)
}

/// A time of the clock in words, of minutes after midnight: `6:07 am`.
pub fn clock(minutes: f64) -> String {
    let whole = minutes.round().rem_euclid(1440.0);
    let (hour, minute) = ((whole / 60.0).floor(), whole % 60.0);
    let half = if hour < 12.0 { "am" } else { "pm" };
    let twelve = if hour % 12.0 == 0.0 {
        12.0
    } else {
        hour % 12.0
    };
    format!("{twelve:.0}:{minute:02.0} {half}")
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn days_that_exist_are_read_and_others_are_not() {
        let origin = GeoOrigin {
            longitude: 0.0,
            latitude: 0.8,
        };
        let read = |text: &str| SunDay::read(text, "", &origin);
        for good in ["2026-06-21", "2024-02-29", "2000-02-29", "1900-01-01"] {
            assert_eq!(read(good).unwrap().date.to_string(), good);
        }
        for bad in [
            "2026-6",
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "26-06-21",
            "2026-06-31",
            "2026-06-0",
            "1899-12-31",
            "21 June",
        ] {
            assert!(read(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn offsets_are_read_as_people_write_them() {
        let minutes = |text: &str| text.parse::<UtcOffset>().map(UtcOffset::minutes).ok();
        assert_eq!(minutes("-5"), Some(-300.0));
        assert_eq!(minutes("\u{2212}7"), Some(-420.0));
        assert_eq!(minutes("+5:30"), Some(330.0));
        assert_eq!(minutes("5.75"), Some(345.0));
        assert_eq!(minutes("UTC-03:30"), Some(-210.0));
        assert_eq!(minutes("0"), Some(0.0));
        for bad in [
            "", "x", "15", "-14:30", "5:7", "5:60", "5:-3", "1e9", "NaN", "0.001", "--5x",
        ] {
            assert_eq!(minutes(bad), None, "{bad}");
        }
        assert_eq!("-3.5".parse::<UtcOffset>().unwrap().to_string(), "-3:30");
    }

    #[test]
    fn a_clock_and_a_day_are_proposed_by_the_place() {
        let place = |longitude: f64, latitude: f64| GeoOrigin {
            longitude: longitude.to_radians(),
            latitude: latitude.to_radians(),
        };
        let day = SunDay::usual(&place(-105.2, 39.7));
        assert_eq!(
            (day.date.to_string(), day.offset.minutes()),
            ("2026-06-21".to_owned(), -420.0)
        );
        let day = SunDay::usual(&place(151.2, -33.9));
        assert_eq!(
            (day.date.to_string(), day.offset.minutes()),
            ("2026-12-21".to_owned(), 600.0)
        );
        assert_eq!(UtcOffset::by_longitude(&place(180.0, 0.0)).minutes(), 720.0);
    }

    #[test]
    fn what_is_typed_wrong_is_all_said() {
        let origin = GeoOrigin {
            longitude: 0.0,
            latitude: 0.8,
        };
        let faults = SunDay::read("2026-02-30", "soon", &origin).unwrap_err();
        let codes: Vec<&str> = faults.iter().map(|it| it.code).collect();
        assert_eq!(codes, ["sun-day", "sun-offset"]);
        assert_eq!(
            SunDay::read("", " ", &origin).unwrap(),
            SunDay::usual(&origin)
        );
    }

    #[test]
    fn times_read_as_a_clock_has_them() {
        assert_eq!(clock(0.0), "12:00 am");
        assert_eq!(clock(367.4), "6:07 am");
        assert_eq!(clock(720.0), "12:00 pm");
        assert_eq!(clock(1439.7), "12:00 am");
        assert_eq!(clock(59.6 + 720.0), "1:00 pm");
    }
}
