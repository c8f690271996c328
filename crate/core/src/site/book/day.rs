//! A day of the calendar.

use core::fmt;
use core::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};

/// A day of the Gregorian calendar; in text `2026-03-31` (ISO 8601, the calendar date in its extended
/// form). Days are in order. The core has no clock: whoever asks says what day it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(type = "string"))]
#[serde(try_from = "String", into = "String")]
pub struct Day {
    year: u16,
    month: u8,
    day: u8,
}

impl Day {
    /// The day of a year, month and day of the month; none where the calendar has no such day.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        (1..=days_of(year, month))
            .contains(&day)
            .then_some(Self { year, month, day })
    }

    /// The day of the calendar nearest to that: of a day beyond the end of its month the last one.
    pub fn nearest(year: u16, month: u8, day: u8) -> Self {
        let month = month.clamp(1, 12);
        Self {
            year,
            month,
            day: day.clamp(1, days_of(year, month)),
        }
    }

    /// Reads `2026-03-31`.
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.trim().splitn(3, '-');
        let mut digits = |count: usize| {
            let part = parts.next()?;
            let sound = part.len() == count && part.bytes().all(|b| b.is_ascii_digit());
            sound.then_some(part)?.parse::<u16>().ok()
        };
        let (year, month, day) = (digits(4)?, digits(2)?, digits(2)?);
        Self::new(year, u8::try_from(month).ok()?, u8::try_from(day).ok()?)
    }

    /// Year, month from 1 and day of the month.
    pub fn parts(self) -> (u16, u8, u8) {
        (self.year, self.month, self.day)
    }

    /// The same day of the year before; of a leap day the one before it.
    #[must_use]
    pub fn a_year_before(self) -> Self {
        Self::nearest(self.year.saturating_sub(1), self.month, self.day)
    }
}

/// How many days a month has; 0 where there is no such month.
fn days_of(year: u16, month: u8) -> u8 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 => 28 + u8::from(leap),
        _ => 0,
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl FromStr for Day {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        Self::read(text).ok_or_else(|| format!("\"{text}\" is no day; write it like 2026-03-31"))
    }
}

impl TryFrom<String> for Day {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        text.parse()
    }
}

impl From<Day> for String {
    fn from(date: Day) -> Self {
        date.to_string()
    }
}

impl JsonSchema for Day {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Day".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A day of the Gregorian calendar, `2026-03-31`.",
            "type": "string",
            "format": "date",
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn days_are_read_written_and_in_order() {
        for text in ["2026-03-31", "2024-02-29", "2000-02-29", "0001-01-01"] {
            assert_eq!(Day::read(text).unwrap().to_string(), text);
        }
        let read = |text| Day::read(text).unwrap();
        assert!(read("2026-03-31") < read("2026-04-01") && read("2025-12-31") < read("2026-01-01"));
    }

    #[test]
    fn what_the_calendar_does_not_have_is_no_day() {
        for text in [
            "",
            "2026",
            "2026-3-31",
            "2026-02-29",
            "1900-02-29",
            "2026-04-31",
            "2026-00-10",
            "2026-13-01",
            "2026-01-00",
            "26-01-01",
            "2026-01-011",
            "+026-01-01",
            "2026/01/01",
            "2026-01-01-01",
        ] {
            assert_eq!(Day::read(text), None, "{text}");
        }
    }

    #[test]
    fn a_year_before_a_leap_day_is_the_last_day_of_february() {
        let before = |text| Day::read(text).unwrap().a_year_before().to_string();
        assert_eq!(before("2024-02-29"), "2023-02-28");
        assert_eq!(before("2026-11-29"), "2025-11-29");
    }
}
