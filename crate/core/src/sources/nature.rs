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
const SP_811: &str = "NIST SP 811, Appendix B";
const WGS_84: &str = "NGA standard 0036, WGS 84";

pub(super) fn figures() -> Vec<Sourced> {
    let mut all = units();
    all.extend([
        recalled(
            ("Gravity, meters per second squared", M::Ratio, GRAVITY),
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
            ("Equatorial radius of the earth", M::LongLength, EQUATOR_RADIUS),
            WGS_84,
            Check::Peer("check_geodesy.py"),
        ),
        recalled(
            ("Flattening of the earth, in thousandths", M::Ratio, 1000.0 * FLATTENING),
            WGS_84,
            Check::Peer("check_geodesy.py"),
        ),
        figure(
            Group::Nature,
            ("Mean radius of the earth, where errors are estimated", M::LongLength, ROUND_RADIUS),
            Source::choice("two digits are enough for an error"),
            Check::Nothing,
        ),
        figure(
            Group::Nature,
            ("The sun's middle at its rise, above the horizon", M::Angle, HORIZON),
            Source::read(
                "almanac practice, in the documentation of solar-positioning: 34' refraction, 16' radius",
            ),
            Check::Reference("sun::the_day_of_the_worked_example"),
        ),
    ]);
    all
}

/// What a unit is in meters, kilograms and radians.
fn units() -> Vec<Sourced> {
    let read = |name, value, of| {
        figure(
            Group::Nature,
            (name, M::Ratio, value),
            Source::read(of),
            FEET,
        )
    };
    let mut all = vec![
        read(
            "Meters in a foot",
            FOOT,
            "85 FR 62698, 5 October 2020, restating the agreement of 1959",
        ),
        read(
            "Meters in a US survey foot",
            SURVEY_FOOT,
            "85 FR 62698, 5 October 2020: 1200/3937, deprecated on 31 December 2022",
        ),
    ];
    for (name, value, of, check) in [
        ("Meters in an inch", INCH, "a foot has 12", FACTORS),
        (
            "Square meters in a square foot",
            SQUARE_FOOT,
            "foot times foot",
            FACTORS,
        ),
        (
            "Cubic meters in a cubic foot",
            CUBIC_FOOT,
            "foot times foot times foot",
            FACTORS,
        ),
        (
            "Cubic meters in a cubic yard",
            CUBIC_YARD,
            "yard times yard times yard",
            FACTORS,
        ),
        (
            "Radians in a degree",
            DEGREE,
            "a full turn has 360",
            Check::Nothing,
        ),
    ] {
        let source = Source::Defined(of.to_owned());
        all.push(figure(
            Group::Nature,
            (name, M::Ratio, value),
            source,
            check,
        ));
    }
    for (name, value, of, check) in [
        ("Meters in a yard", YARD, SP_811, FACTORS),
        ("Meters in a chain", CHAIN, SP_811, FACTORS),
        ("Meters in a rod", ROD, SP_811, FACTORS),
        (
            "Meters in a Texas vara",
            VARA,
            "Texas Natural Resources Code 21.077",
            Check::Nothing,
        ),
        ("Square meters in an acre", ACRE, SP_811, FACTORS),
        ("Cubic meters in a gallon", GALLON, SP_811, FACTORS),
        (
            "Kilograms in a pound",
            POUND,
            "the agreement of the national standards laboratories of 1959",
            FACTORS,
        ),
        ("Kilograms in a short ton", SHORT_TON, SP_811, FACTORS),
    ] {
        all.push(recalled((name, M::Ratio, value), of, check));
    }
    all
}

fn recalled(value: (&str, M, f64), of: &str, check: Check) -> Sourced {
    figure(
        Group::Nature,
        value,
        Source::FromMemory(of.to_owned()),
        check,
    )
}
