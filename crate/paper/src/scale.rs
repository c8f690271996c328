//! Papers and scales.

use batterboard_core::units::System;
use serde::{Deserialize, Serialize};

use crate::job::SheetKind;

/// A paper, by the name the trade has for it (ANSI Y14.1 and ISO 216 sizes; arch C and D common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// 8 1/2 by 11 in.
    Letter,
    /// 8 1/2 by 14 in.
    Legal,
    /// 11 by 17 in.
    Tabloid,
    /// 18 by 24 in.
    ArchC,
    /// 24 by 36 in.
    ArchD,
    /// 210 by 297 mm.
    A4,
    /// 297 by 420 mm.
    A3,
}

impl Paper {
    /// Every paper.
    pub const ALL: [Self; 7] = [
        Self::Letter,
        Self::Legal,
        Self::Tabloid,
        Self::ArchC,
        Self::ArchD,
        Self::A4,
        Self::A3,
    ];

    /// What files and the command line call it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::Legal => "legal",
            Self::Tabloid => "tabloid",
            Self::ArchC => "arch-c",
            Self::ArchD => "arch-d",
            Self::A4 => "a4",
            Self::A3 => "a3",
        }
    }

    /// The paper that a kind of sheet is proposed on.
    pub const fn usual(kind: SheetKind, system: System) -> Self {
        match (kind, system) {
            (SheetKind::Permit, System::Feet) => Self::Tabloid,
            (SheetKind::Permit, System::Metres) => Self::A3,
            (_, System::Feet) => Self::Letter,
            (_, System::Metres) => Self::A4,
        }
    }

    /// Its short and its long side, millimeters.
    pub const fn sides(self) -> (f64, f64) {
        match self {
            Self::Letter => (215.9, 279.4),
            Self::Legal => (215.9, 355.6),
            Self::Tabloid => (279.4, 431.8),
            Self::ArchC => (457.2, 609.6),
            Self::ArchD => (609.6, 914.4),
            Self::A4 => (210.0, 297.0),
            Self::A3 => (297.0, 420.0),
        }
    }

    /// How many times as large as on an office sheet its text is: a large sheet hangs on a wall or lies on a table,
    /// and is read from farther off (our choice).
    pub const fn lettering(self) -> f64 {
        match self {
            Self::ArchC | Self::ArchD => 1.25,
            Self::Letter | Self::Legal | Self::Tabloid | Self::A4 | Self::A3 => 1.0,
        }
    }
}

/// Which way a paper lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Lie {
    /// The long side is level.
    Wide,
    /// The long side is upright.
    Tall,
}

impl Lie {
    /// Width and height of a paper that lies so, millimeters.
    pub const fn of(self, paper: Paper) -> (f64, f64) {
        let (short, long) = paper.sides();
        match self {
            Self::Wide => (long, short),
            Self::Tall => (short, long),
        }
    }
}

/// How much smaller than the site a plan is drawn.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(transparent)]
pub struct Scale {
    /// Lengths on the site over lengths on paper: 240 at 1 in = 20 ft, 200 at 1:200.
    pub ratio: f64,
}

/// Feet to an inch that plans are drawn at.
const FEET_TO_AN_INCH: [f64; 9] = [4.0, 5.0, 8.0, 10.0, 20.0, 30.0, 40.0, 50.0, 100.0];

/// The like in metric plans.
const METRIC: [f64; 9] = [20.0, 25.0, 50.0, 75.0, 100.0, 200.0, 250.0, 500.0, 1000.0];

impl Scale {
    /// The scales of a system, the largest first.
    pub fn usual(system: System) -> [Self; 9] {
        match system {
            System::Feet => FEET_TO_AN_INCH.map(|feet| Self { ratio: feet * 12.0 }),
            System::Metres => METRIC.map(|ratio| Self { ratio }),
        }
    }

    /// The largest usual scale at which so much of the site (meters) fits a window (millimeters); the smallest where
    /// none does.
    pub fn fitting(system: System, site: (f64, f64), window: (f64, f64)) -> Self {
        let [.., smallest] = Self::usual(system);
        let fits = |it: &Self| {
            let paper = 1000.0 / it.ratio;
            site.0 * paper <= window.0 && site.1 * paper <= window.1
        };
        Self::usual(system)
            .into_iter()
            .find(fits)
            .unwrap_or(smallest)
    }

    /// As plans name it: "1 in = 20 ft", or "1:200".
    pub fn words(self, system: System) -> String {
        match system {
            System::Feet => format!("1 in = {} ft", self.ratio / 12.0),
            System::Metres => format!("1:{}", self.ratio),
        }
    }

    /// Reads a scale as people write it: `20` or `1in=20ft` in feet to an inch, `1:200` in either system.
    ///
    /// # Errors
    /// With what can be written, when it is neither.
    pub fn parse(text: &str, system: System) -> Result<Self, String> {
        let plain: String = text
            .to_lowercase()
            .chars()
            .filter(|c| !c.is_whitespace() && !matches!(c, '"' | '\'' | '\u{2032}' | '\u{2033}'))
            .collect();
        let ratio = if let Some(ratio) = plain.strip_prefix("1:") {
            ratio.parse::<f64>().ok()
        } else {
            let feet = plain.strip_prefix("1in=").or(plain.strip_prefix("1="));
            let feet = feet.unwrap_or(&plain).trim_end_matches("ft");
            let feet = feet.parse::<f64>().ok();
            feet.map(|feet| match system {
                System::Feet => feet * 12.0,
                System::Metres if plain.contains("in=") => feet * 12.0,
                System::Metres => feet,
            })
        };
        match ratio.filter(|it| (1.0..=20_000.0).contains(it)) {
            Some(ratio) => Ok(Self { ratio }),
            None => Err(format!(
                "\"{text}\" is no scale; write feet to an inch (20) or a ratio (1:200)"
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_scale_is_read_as_it_is_written() {
        for (text, ratio) in [
            ("20", 240.0),
            ("1 in = 20 ft", 240.0),
            ("1\"=20'", 240.0),
            ("1:200", 200.0),
        ] {
            assert_eq!(
                Scale::parse(text, System::Feet).unwrap().ratio,
                ratio,
                "{text}"
            );
        }
        assert_eq!(Scale::parse("200", System::Metres).unwrap().ratio, 200.0);
        for text in ["", "x", "1:0", "-3", "1:nan", "inf"] {
            assert!(Scale::parse(text, System::Feet).is_err(), "{text}");
        }
        for system in [System::Feet, System::Metres] {
            for scale in Scale::usual(system) {
                assert_eq!(Scale::parse(&scale.words(system), system), Ok(scale));
            }
        }
    }

    #[test]
    fn the_scale_proposed_is_the_largest_that_fits() {
        // 100 ft are 5 in at 1 in = 20 ft.
        let fits = |width| Scale::fitting(System::Feet, (30.48, 10.0), (width, 500.0)).ratio;
        assert_eq!(fits(127.1), 240.0);
        assert_eq!(fits(126.9), 360.0);
        assert_eq!(fits(1.0), 1200.0);
    }
}
