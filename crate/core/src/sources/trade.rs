//! Figures of the trade: soil, pipe, concrete, stakes, trees; and the example rules.

use super::{Check, Group, Source, Sourced, figure};
use crate::deck::{LONGEST_PANEL, SHORTEST_PANEL, STAKE_SPACING};
use crate::dig::STEEPEST_SLOPE;
use crate::ground::AGREE;
use crate::pipe::LEAST_BEND;
use crate::pipe::friction::{
    DIAMETER_POWER, FASTEST_RETURN, FASTEST_SUCTION, FLOW_POWER, FRICTION_FACTOR, FRICTION_SOURCE,
};
use crate::site::facts::PROTECTION_PER_TRUNK;
use crate::site::{FeatureKind, MeasuredTo, PIPE_SOURCE, PipeSize, Rule, SpoilMaterial, rule};
use crate::stakeout::{LEAST_BASE, LEAST_CROSSING};
use crate::units::Measure as M;
use crate::way_in::ASSUMED_TRUNK;

pub(super) fn figures() -> Vec<Sourced> {
    let mut all = soil();
    all.extend(pipe());
    let practice = |value, check| figure(Group::Trade, value, Source::CommonPractice, check);
    all.extend([
        practice(
            (
                "A side steeper than this is dug at it, unless upright",
                M::Slope,
                STEEPEST_SLOPE,
            ),
            Check::Nothing,
        ),
        practice(
            ("Elevations of one place agree within", M::Misclosure, AGREE),
            Check::Nothing,
        ),
        practice(
            (
                "A panel of deck is as long for its width as",
                M::Ratio,
                LONGEST_PANEL,
            ),
            Check::Nothing,
        ),
        practice(
            (
                "A panel of deck is not made shorter than",
                M::Length,
                SHORTEST_PANEL,
            ),
            Check::Nothing,
        ),
        practice(
            ("From stake to stake along a form", M::Length, STAKE_SPACING),
            Check::Nothing,
        ),
        practice(
            (
                "Tapes cross at this angle at least",
                M::Angle,
                LEAST_CROSSING,
            ),
            Check::Reference("stakeout::angles_between_30_and_150_degrees_are_sound"),
        ),
        practice(
            (
                "Radius kept undisturbed round a tree, for its trunk",
                M::Ratio,
                PROTECTION_PER_TRUNK,
            ),
            Check::Reference("yard::a_tree_of_eighteen_inches_is_kept_clear_by_eighteen_feet"),
        ),
        figure(
            Group::Trade,
            (
                "Fixed points nearer than this are no base line",
                M::Length,
                LEAST_BASE,
            ),
            Source::choice("tapes held so near to each other tell little"),
            Check::Nothing,
        ),
        figure(
            Group::Trade,
            (
                "A trunk whose size nobody entered",
                M::Length,
                ASSUMED_TRUNK,
            ),
            Source::choice("a foot, until somebody measures it"),
            Check::Nothing,
        ),
    ]);
    all
}

fn soil() -> Vec<Sourced> {
    let mut all = Vec::new();
    for (material, words) in [
        (SpoilMaterial::Sand, "sand or gravel"),
        (SpoilMaterial::CommonEarth, "common earth"),
        (SpoilMaterial::Clay, "clay"),
        (SpoilMaterial::Rock, "blasted rock"),
    ] {
        let volumes = match material {
            SpoilMaterial::Sand => Source::read(material.swell_source()),
            _ => Source::FromMemory("US Army FM 5-434, table of volume changes".to_owned()),
        };
        let swells = Check::Reference("soil::the_table_follows_from_swell_and_shrink");
        let [loose, packed, weight] = [
            format!("Loose volume for one of bank, {words}"),
            format!("Compacted volume for one of bank, {words}"),
            format!("Weight in place, {words}"),
        ];
        all.extend([
            figure(
                Group::Trade,
                (loose, M::Ratio, material.loose_per_bank()),
                volumes.clone(),
                swells,
            ),
            figure(
                Group::Trade,
                (packed, M::Ratio, material.compacted_per_bank()),
                volumes,
                swells,
            ),
            figure(
                Group::Trade,
                (weight, M::Density, material.bank_density()),
                Source::read(material.density_source()),
                Check::Reference("soil::weights_in_place"),
            ),
        ]);
    }
    all
}

fn pipe() -> Vec<Sourced> {
    let table = Check::Reference("pipe::friction_follows_the_published_table");
    let mut all: Vec<Sourced> = [
        ("Factor of the friction formula", FRICTION_FACTOR),
        ("Power of flow in the friction formula", FLOW_POWER),
        ("Power of diameter in the friction formula", DIAMETER_POWER),
    ]
    .map(|(name, value)| {
        let source = Source::read(FRICTION_SOURCE);
        figure(Group::Trade, (name, M::Ratio, value), source, table)
    })
    .into();
    for size in PipeSize::ALL {
        let sizes = Check::Reference("pipe::sizes_of_schedule_40_pipe");
        for (what, value) in [("Outside", size.outside()), ("Inside", size.inside())] {
            let name = format!("{what} diameter of {} pipe", size.words());
            let source = Source::read(PIPE_SOURCE);
            all.push(figure(
                Group::Trade,
                (name, M::Length, value),
                source,
                sizes,
            ));
        }
    }
    for value in [
        (
            "Water toward the shell runs no faster than",
            M::Speed,
            FASTEST_RETURN,
        ),
        (
            "Water toward the pump runs no faster than",
            M::Speed,
            FASTEST_SUCTION,
        ),
        ("A turn that counts as a bend", M::Angle, LEAST_BEND),
    ] {
        all.push(figure(
            Group::Trade,
            value,
            Source::CommonPractice,
            Check::Nothing,
        ));
    }
    all
}

/// Examples whose distances a test holds against what was read; of all others nothing outside says the same.
const CHECKED: [FeatureKind; 4] = [
    FeatureKind::SepticTank,
    FeatureKind::SepticField,
    FeatureKind::OverheadLine,
    FeatureKind::Fence,
];

/// The rules that a new site offers.
pub(super) fn rules() -> Vec<Sourced> {
    let of = |rule: Rule| {
        let checked = CHECKED.map(|kind| MeasuredTo::Feature { kind });
        let check = match checked.contains(&rule.to) {
            true => Check::Reference("yard::examples_follow_the_distances_that_were_read"),
            false => Check::Nothing,
        };
        let value = (rule.name, M::Length, rule.distance);
        figure(Group::Rules, value, Source::Example(rule.source), check)
    };
    rule::examples().into_iter().map(of).collect()
}
