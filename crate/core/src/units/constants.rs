//! What other units are in meters, kilograms and radians.
//!
//! # Sources
//! - International foot 0.3048 m and pound 0.453 592 37 kg, both exact: the 1959 agreement of
//!   the national standards laboratories (from memory; the foot is restated in 85 FR 62698).
//! - US survey foot 1200/3937 m, deprecated on 31 December 2022: 85 FR 62698 (FR Doc
//!   2020-21902, 5 October 2020), read.
//! - Yard 3 ft, acre 43,560 square feet, chain 66 ft, rod 16 1/2 ft, gallon 231 cubic inches,
//!   short ton 2,000 lb, all exact: NIST SP 811, Appendix B (from memory).
//! - Texas vara 33 1/3 in: Texas Natural Resources Code 21.077 (from memory). Other states and
//!   older grants have other varas.

/// The international foot, meters.
pub const FOOT: f64 = 0.3048;

/// The inch, meters.
pub const INCH: f64 = 0.0254;

/// The US survey foot, meters: 1200/3937.
pub const SURVEY_FOOT: f64 = 1200.0 / 3937.0;

/// The yard, meters.
pub const YARD: f64 = 0.9144;

/// The surveyor's chain of 66 international feet, meters.
pub const CHAIN: f64 = 20.1168;

/// The rod of 16 1/2 international feet, meters.
pub const ROD: f64 = 5.0292;

/// The Texas vara of 33 1/3 inches, meters.
pub const VARA: f64 = 100.0 / 3.0 * INCH;

/// The square foot, square meters.
pub const SQUARE_FOOT: f64 = FOOT * FOOT;

/// The international acre, square meters: 43,560 square feet.
pub const ACRE: f64 = 4_046.856_422_4;

/// The cubic foot, cubic meters.
pub const CUBIC_FOOT: f64 = FOOT * FOOT * FOOT;

/// The cubic yard, cubic meters.
pub const CUBIC_YARD: f64 = 0.764_554_857_984;

/// The US liquid gallon, cubic meters: 231 cubic inches.
pub const GALLON: f64 = 231.0 * INCH * INCH * INCH;

/// The avoirdupois pound, kilograms.
pub const POUND: f64 = 0.453_592_37;

/// Standard gravity, meters per second squared: exact by the 3rd general conference on weights and
/// measures, 1901 (from memory).
pub const GRAVITY: f64 = 9.806_65;

/// The short ton, kilograms: 2,000 pounds.
pub const SHORT_TON: f64 = 2000.0 * POUND;

/// One degree, radians.
pub const DEGREE: f64 = core::f64::consts::PI / 180.0;
