//! What other units are in metres, kilograms and radians. All exact unless marked.

/// The international foot, metres (exact since 1959).
pub const FOOT: f64 = 0.3048;

/// The inch, metres.
pub const INCH: f64 = 0.0254;

/// The US survey foot, metres: 1200/3937, deprecated since 31 December 2022
/// (85 FR 62698, FR Doc 2020-21902).
pub const SURVEY_FOOT: f64 = 1200.0 / 3937.0;

/// The yard, metres.
pub const YARD: f64 = 0.9144;

/// The square foot, square metres.
pub const SQUARE_FOOT: f64 = FOOT * FOOT;

/// The acre, square metres: 43,560 square feet.
pub const ACRE: f64 = 4046.856_422_4;

/// The cubic foot, cubic metres.
pub const CUBIC_FOOT: f64 = FOOT * FOOT * FOOT;

/// The cubic yard, cubic metres.
pub const CUBIC_YARD: f64 = 0.764_554_857_984;

/// The US gallon, cubic metres: 231 cubic inches.
pub const GALLON: f64 = 231.0 * INCH * INCH * INCH;

/// The avoirdupois pound, kilograms.
pub const POUND: f64 = 0.453_592_37;

/// The short ton, kilograms: 2,000 pounds.
pub const SHORT_TON: f64 = 2000.0 * POUND;

/// One degree, radians.
pub const DEGREE: f64 = core::f64::consts::PI / 180.0;
