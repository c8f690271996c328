//! Units against the documents that define them.

use batterboard_core::units::constants::{
    ACRE, CHAIN, CUBIC_FOOT, CUBIC_YARD, FOOT, GALLON, INCH, POUND, ROD, SHORT_TON, SQUARE_FOOT,
    SURVEY_FOOT, YARD,
};
use batterboard_core::units::{
    LengthStyle, Measure, System, Unit, format_length, parse_length, parse_measure, show,
};

use super::close;

fn tape(feet: f64) -> String {
    format_length(feet * FOOT, LengthStyle::FeetInches { denominator: 16 })
}

/// Read in 85 FR 62698 (FR Doc 2020-21902, 5 October 2020) and the geodetic survey's notice:
/// foot 0.3048 m since 1959, survey foot 1200/3937 m, ratio 1.000002, 0.01 ft in a mile.
#[test]
fn the_two_feet() {
    assert_eq!(FOOT, 0.3048);
    close("survey foot", SURVEY_FOOT, 0.304_800_609_6, 5e-11);
    close("ratio", SURVEY_FOOT / FOOT, 1.000_002, 5e-10);
    close(
        "per mile, ft",
        5280.0 * (SURVEY_FOOT / FOOT - 1.0),
        0.01,
        0.001,
    );
    // Computed independently: 4.00 ft on a state-plane coordinate of 2,000,000 ft.
    let meant = parse_length("2,000,000 sft", System::Feet).unwrap();
    let taken = parse_length("2,000,000 ft", System::Feet).unwrap();
    close(
        "mixed up, ft",
        (meant.value - taken.value) / FOOT,
        4.00,
        0.005,
    );
    assert_eq!((meant.ambiguities.len(), taken.ambiguities.len()), (1, 0));
}

/// From memory of NIST SP 811 Appendix B; the products computed independently.
#[test]
fn exact_factors() {
    close("inch", INCH * 12.0, FOOT, 1e-16);
    close("yard", YARD, 3.0 * FOOT, 1e-15);
    close("chain", CHAIN, 66.0 * FOOT, 1e-14);
    close("rod", ROD, 16.5 * FOOT, 1e-15);
    close("acre", ACRE, 4_046.856_422_4, 1e-9);
    close("acre of square feet", ACRE, 43_560.0 * SQUARE_FOOT, 1e-9);
    close(
        "survey acre",
        43_560.0 * SURVEY_FOOT * SURVEY_FOOT,
        4_046.872_609_9,
        1e-7,
    );
    close("cubic yard", CUBIC_YARD, 0.764_554_857_984, 1e-15);
    close(
        "cubic yard of cubic feet",
        CUBIC_YARD,
        27.0 * CUBIC_FOOT,
        1e-15,
    );
    close("pound", POUND, 0.453_592_37, 0.0);
    close("short ton", SHORT_TON, 907.184_74, 1e-10);
    // Computed independently: 1728/231 gallons to the cubic foot.
    close(
        "gallons per cubic foot",
        CUBIC_FOOT / GALLON,
        7.480_519_48,
        5e-9,
    );
}

/// Computed independently, and (first two rows) read in a handbook chapter on the weights of
/// materials, doi 10.1201/b12981-45.
#[test]
fn weights_by_volume() {
    for (metric, imperial) in [(1522.0, 2565.0), (1602.0, 2700.0)] {
        let shown = Unit::PoundPerCubicYard.from_si(metric);
        close("lb/cu yd", shown, imperial, 1.0);
    }
    close(
        "kg/m3 in lb/cu yd",
        Unit::PoundPerCubicYard.from_si(1.0),
        1.685_555,
        5e-7,
    );
    // Rule of thumb of an estimating text, read: undisturbed soil 100 lb/ft3, 2,700 lb/yd3; rock 150
    // and 4,050.
    for (per_foot, per_yard) in [("100", 2_700.0), ("150", 4_050.0)] {
        let typed = format!("{per_foot} lb/cu ft");
        let typed = parse_measure(&typed, Measure::Density, System::Feet).unwrap();
        let shown = Unit::PoundPerCubicYard.from_si(typed.value);
        close("lb/cu yd", shown, per_yard, 1e-9);
    }
    close(
        "lb/cu ft in kg/m3",
        Unit::PoundPerCubicFoot.to_si(1.0),
        16.018_46,
        5e-6,
    );
}

/// Computed independently: diagonals and the classic carry.
#[test]
fn feet_and_inches() {
    assert_eq!(tape(33.105_89), "33'-1 1/4\"");
    assert_eq!(tape(26.832_82), "26'-10\"");
    assert_eq!(tape(43.081_32), "43'-1\"");
    assert_eq!(tape(9.999_9), "10'-0\"");
    assert_eq!(tape(12.5), "12'-6\"");
    // Plats use decimal feet, tapes feet and inches: 12.6 typed for 12 ft 6 in is the
    // classic blunder (common practice, no source).
    let typed = parse_length("12.6", System::Feet).unwrap();
    close("12.6 ft", typed.value, 12.6 * FOOT, 1e-12);
    assert_eq!(typed.ambiguities.len(), 1);
}

/// Computed independently: the diagonals of rectangles, as a tape reads them.
#[test]
fn squareness_on_the_tape() {
    for (a, b, text) in [
        (14.0_f64, 30.0_f64, "33'-1 1/4\""),
        (12.0, 24.0, "26'-10\""),
        (16.0, 40.0, "43'-1\""),
        (9.0, 12.0, "15'-0\""),
    ] {
        assert_eq!(tape((a * a + b * b).sqrt()), text);
    }
}

/// Read in a training text (200 x 20 x 2 ft of bank soil): 8,000 cubic feet are 296 cubic
/// yards. Computed independently: 296.30.
#[test]
fn earth_is_told_in_cubic_yards() {
    let shown = show(Measure::EarthVolume, 8000.0 * CUBIC_FOOT, System::Feet);
    assert_eq!(shown.text, "296.3 cu yd");
    let typed = parse_measure("296.3", Measure::EarthVolume, System::Feet).unwrap();
    close("typed back", typed.value / CUBIC_YARD, 296.3, 1e-9);
}
