//! Figures of 29 CFR 1926: excavations, falls, cranes near power lines.

use super::{Check, Group, Source, Sourced, figure};
use crate::analysis::{CRANE_NEAR_LINE, INFLUENCE_LINES};
use crate::crane::wire::{TABLE_A, ZONE_OVER_350};
use crate::dig::safety::{
    ENGINEER_ABOVE, FALL_FROM, LADDER_FROM, PROTECTED_FROM, SHORT_TERM_DEPTH, SHORT_TERM_SLOPE,
    SPOIL_BACK,
};
use crate::site::SoilClass;
use crate::units::Measure as M;
use crate::units::constants::FOOT;

const DEPTHS: Check = Check::Reference("safety::every_limit_of_depth_at_its_own_foot");
const SLOPES: Check = Check::Reference("safety::slopes_of_the_excavation_standard");

pub(super) fn figures() -> Vec<Sourced> {
    let table = " Subpart P App. B, Table B-1";
    let mut all: Vec<Sourced> = [
        (
            "Sides are protected from a depth of",
            PROTECTED_FROM,
            ".652(a)(1)",
        ),
        (
            "A way out of a trench from a depth of",
            LADDER_FROM,
            ".651(c)(2)",
        ),
        (
            "Protection from falls from a depth of",
            FALL_FROM,
            ".501(b)(7)",
        ),
        (
            "An engineer designs the protection beyond",
            ENGINEER_ABOVE,
            " Subpart P App. F",
        ),
    ]
    .map(|(name, value, section)| read((name, M::LongLength, value), section, DEPTHS))
    .into();
    all.push(read(
        (
            "Spoil and machines stand back from the edge",
            M::LongLength,
            SPOIL_BACK,
        ),
        ".651(j)(2)",
        Check::Reference("safety::a_pile_stands_back_from_the_edge"),
    ));
    let short_term = Check::Reference("safety::a_short_term_is_for_type_a_up_to_twelve_feet");
    all.extend([
        read(
            (
                "Steepest side of Type A for 24 hours",
                M::Slope,
                SHORT_TERM_SLOPE,
            ),
            table,
            short_term,
        ),
        read(
            ("The same, to a depth of", M::LongLength, SHORT_TERM_DEPTH),
            table,
            short_term,
        ),
    ]);
    for soil in [
        SoilClass::StableRock,
        SoilClass::A,
        SoilClass::B,
        SoilClass::C,
    ] {
        let name = format!("Steepest side of {}", soil.words());
        let value = (name, M::Slope, soil.side_slope());
        all.push(read(value, table, SLOPES));
    }
    let voltage = Check::Reference("access::approach_distances_by_voltage");
    let near = Check::Reference("yard::a_crane_is_spoken_of_within_twenty_feet_of_a_line");
    all.extend([
        read(
            (
                "A crane is looked at near a line up to 350 kV, within",
                M::LongLength,
                CRANE_NEAR_LINE,
            ),
            ".1408(a)",
            near,
        ),
        read(
            (
                "A crane is looked at near a line above 350 kV, within",
                M::LongLength,
                ZONE_OVER_350,
            ),
            ".1409",
            voltage,
        ),
    ]);
    for (kilovolts, feet) in TABLE_A {
        let name = format!("Least distance of a crane from a line up to {kilovolts} kV");
        let value = (name, M::LongLength, feet * FOOT);
        all.push(read(value, ".1408 Table A", voltage));
    }
    let footing = Check::Reference("safety::a_footing_within_the_line_of_influence");
    for (slope, words) in INFLUENCE_LINES {
        let name = format!("Line from the toe up to a footing, {words}");
        let source = if slope > 1.0 {
            Source::read(
                "29 CFR 1926.652(b)(1): the slope of unclassified soil; .651(i) gives no distance",
            )
        } else {
            Source::CommonPractice
        };
        all.push(figure(Group::Law, (name, M::Slope, slope), source, footing));
    }
    all
}

/// A figure that was read in a section of 29 CFR 1926.
fn read(value: (impl Into<String>, M, f64), section: &str, check: Check) -> Sourced {
    let of = format!("29 CFR 1926{section}");
    figure(Group::Law, value, Source::Read(of), check)
}
