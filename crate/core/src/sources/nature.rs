//! Units, water, gravity, the earth and the sun.

use super::{Check, Group, Source, Sourced, figure};
use crate::exchange::geodesy::{EQUATOR_RADIUS, FLATTENING, ROUND_RADIUS};
use crate::groundwater::WATER_DENSITY;
use crate::sun::HORIZON;
use crate::units::Measure as M;
use crate::units::constants::{
    ACRE, CHAIN, CUBIC_FOOT, CUBIC_YARD, DEGREE, FOOT, GALLON, GRAVITY, INCH, POUND, ROD,
    SHORT_TON, SQUARE_FOOT, SURVEY_FOOT, VARA, YARD,
};

const FACTORS: Check = Check::Reference("units::exact_factors");
const FEET: Check = Check::Reference("units::the_two_feet");

pub(super) fn figures() -> Vec<Sourced> {
    let recalled = |value, of: &str, check| {
        figure(
            Group::Nature,
            value,
            Source::FromMemory(of.to_owned()),
            check,
        )
    };
    let follows = |value, of: &str| {
        figure(
            Group::Nature,
            value,
            Source::Defined(of.to_owned()),
            FACTORS,
        )
    };
    let length = M::Ratio;
    let sp811 = "NIST SP 811, Appendix B";
    vec![
        figure(
            Group::Nature,
            ("Meters in a foot", length, FOOT),
            Source::read("85 FR 62698, 5 October 2020, restating the agreement of 1959"),
            FEET,
        ),
        figure(
            Group::Nature,
            ("Meters in a US survey foot", length, SURVEY_FOOT),
            Source::read("85 FR 62698, 5 October 2020: 1200/3937, deprecated on 31 December 2022"),
            FEET,
        ),
        follows(("Meters in an inch", length, INCH), "a foot has 12"),
        recalled(("Meters in a yard", length, YARD), sp811, FACTORS),
        recalled(("Meters in a chain", length, CHAIN), sp811, FACTORS),
        recalled(("Meters in a rod", length, ROD), sp811, FACTORS),
        recalled(
            ("Meters in a Texas vara", length, VARA),
            "Texas Natural Resources Code 21.077",
            Check::Nothing,
        ),
        follows(
            ("Square meters in a square foot", length, SQUARE_FOOT),
            "foot times foot",
        ),
        recalled(("Square meters in an acre", length, ACRE), sp811, FACTORS),
        follows(
            ("Cubic meters in a cubic foot", length, CUBIC_FOOT),
            "foot times foot times foot",
        ),
        follows(
            ("Cubic meters in a cubic yard", length, CUBIC_YARD),
            "yard times yard times yard",
        ),
        recalled(("Cubic meters in a gallon", length, GALLON), sp811, FACTORS),
        recalled(
            ("Kilograms in a pound", length, POUND),
            "the agreement of the national standards laboratories of 1959",
            FACTORS,
        ),
        recalled(
            ("Kilograms in a short ton", length, SHORT_TON),
            sp811,
            FACTORS,
        ),
        follows(
            ("Radians in a degree", length, DEGREE),
            "a full turn has 360",
        ),
        recalled(
            ("Gravity, meters per second squared", length, GRAVITY),
            "3rd general conference on weights and measures, 1901",
            Check::Reference("access::a_pound_per_square_foot_in_pascals"),
        ),
        figure(
            Group::Nature,
            ("Weight of fresh water", M::Density, WATER_DENSITY),
            Source::choice("water at its densest, 0.05 % above the tables' 62.4 lb per cubic foot"),
            Check::Reference(
                "groundwater::the_water_is_heavier_than_the_tables_by_less_than_a_part_in_two_thousand",
            ),
        ),
        recalled(
            (
                "Equatorial radius of the earth",
                M::LongLength,
                EQUATOR_RADIUS,
            ),
            "NGA standard 0036, WGS 84",
            Check::Peer("check_geodesy.py"),
        ),
        recalled(
            (
                "Flattening of the earth, in thousandths",
                length,
                1000.0 * FLATTENING,
            ),
            "NGA standard 0036, WGS 84",
            Check::Peer("check_geodesy.py"),
        ),
        figure(
            Group::Nature,
            (
                "Mean radius of the earth, where errors are estimated",
                M::LongLength,
                ROUND_RADIUS,
            ),
            Source::choice("two digits are enough for an error"),
            Check::Nothing,
        ),
        figure(
            Group::Nature,
            (
                "The sun's middle at its rise, above the horizon",
                M::Angle,
                HORIZON,
            ),
            Source::read(
                "almanac practice, in the documentation of solar-positioning: 34' refraction, 16' radius",
            ),
            Check::Reference("sun::the_day_of_the_worked_example"),
        ),
    ]
}
