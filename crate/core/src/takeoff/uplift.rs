//! What groundwater does to the shell: uplift, the water that holds it, how far to draw down.

use super::line::{Group, Line};
use super::{Inputs, On, Takeoff};
use crate::finding::Caveat;
use crate::groundwater::{LeastWater, Uplift, WATER_DENSITY};
use crate::units::Measure;
use crate::units::constants::FOOT;

const ARCHIMEDES: &str = "weight of the water displaced; friction, collar, deck and backfill are \
                          not counted, nobody may rely on them without an engineer";

const FRESH: &str = "fresh water at its densest, 1,000 kg/m³ (62.4 lb/cu ft)";

const WORST: &str = "How high groundwater stands is not known. It was taken at the rim: the worst \
                     case, not a measurement.";

const NO_WEIGHT: &str = "The weight of the shell is not known and counts as nothing.";

const AT_REST: &str = "Nothing is left to lift where it comes out below zero.";

const NOT_ENOUGH: &str = "Even full to the waterline the shell is lifted; collar, deck and backfill \
                          have to hold the rest, and an engineer has to say whether they do.";

const ENTERED: &str = "entered";

/// The lines; what leans on an unknown level says so.
pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let Some(uplift) = inputs.uplift else { return };
    let first = taken.lines.len();
    taken.lines.push(level(uplift));
    taken.lines.extend(lifted(uplift));
    taken.lines.extend(least(uplift));
    if !uplift.told {
        for line in taken.lines.iter_mut().skip(first) {
            line.working.assumptions.push(WORST);
            line.caveats.push(Caveat::UnknownGroundwater);
        }
    }
    taken.lines.push(one_foot(inputs));
    taken.lines.extend(balance(inputs, uplift));
    taken.lines.extend(drawn_down(inputs, uplift));
}

fn level(uplift: &Uplift) -> Line {
    let (formula, source) = match uplift.told {
        true => ("as entered", ENTERED),
        false => ("elevation of the rim", "the worst case"),
    };
    let line = Line::new(
        "groundwater",
        Group::Water,
        "Groundwater, elevation",
        (uplift.level, Measure::Elevation),
        formula,
        source,
    )
    .on(On::Body);
    match uplift.told {
        true => line,
        false => line.with("elevation of the rim", uplift.rim, Measure::Elevation),
    }
}

/// Uplift on the shell empty, half full and full.
fn lifted(uplift: &Uplift) -> [Line; 3] {
    let states = [
        (
            "uplift-empty",
            "Uplift, shell empty",
            "body of the shell below groundwater x weight of water - weight of the shell",
            None,
        ),
        (
            "uplift-half-full",
            "Uplift, half full",
            "(body of the shell below groundwater - half of its water) x weight of water - weight of the shell",
            Some(("half of its water", uplift.full / 2.0)),
        ),
        (
            "uplift-full",
            "Uplift, full",
            "(body of the shell below groundwater - all of its water) x weight of water - weight of the shell",
            Some(("all of its water", uplift.full)),
        ),
    ];
    states.map(|(key, label, formula, water)| {
        let held = water.map_or(0.0, |(_, volume)| volume);
        let net = uplift.net(held);
        let line = Line::new(
            key,
            Group::Water,
            label,
            (net.max(0.0), Measure::Weight),
            formula,
            ARCHIMEDES,
        )
        .on(On::Body)
        .with(
            "body of the shell below groundwater",
            uplift.displaced,
            Measure::WaterVolume,
        );
        let line = match water {
            Some((name, volume)) => line.with(name, volume, Measure::WaterVolume),
            None => line,
        };
        line.given("weight of water", WATER_DENSITY, Measure::Density, FRESH)
            .with(
                "weight of the shell",
                uplift.weight.unwrap_or(0.0),
                Measure::Weight,
            )
            .assuming(uplift.weight.is_none(), NO_WEIGHT)
            .assuming(net < 0.0, AT_REST)
    })
}

/// Area of the body in plan, walls included, m2.
fn plan_area(inputs: &Inputs<'_>) -> f64 {
    inputs.measured.water_area + inputs.measured.waters_edge * inputs.measured.wall_thickness
}

fn one_foot(inputs: &Inputs<'_>) -> Line {
    let area = plan_area(inputs);
    Line::new(
        "uplift-of-a-foot",
        Group::Water,
        "Uplift of one foot of head",
        (area * FOOT * WATER_DENSITY, Measure::Weight),
        "area of the shell in plan x one foot x weight of water",
        ARCHIMEDES,
    )
    .on(On::Body)
    .with("area of the shell in plan", area, Measure::Area)
    .given("one foot", FOOT, Measure::Length, "a round figure")
    .given("weight of water", WATER_DENSITY, Measure::Density, FRESH)
}

/// How little groundwater the shell's weight balances.
fn balance(inputs: &Inputs<'_>, uplift: &Uplift) -> Option<Line> {
    let weight = uplift.weight?;
    let area = plan_area(inputs);
    Some(
        Line::new(
            "weight-balances",
            Group::Water,
            "Head that its weight balances",
            (weight / (area * WATER_DENSITY), Measure::Length),
            "weight of the shell / (area of the shell in plan x weight of water)",
            ARCHIMEDES,
        )
        .on(On::Body)
        .with("weight of the shell", weight, Measure::Weight)
        .with("area of the shell in plan", area, Measure::Area)
        .given("weight of water", WATER_DENSITY, Measure::Density, FRESH),
    )
}

/// The least water that has to stand in the shell.
fn least(uplift: &Uplift) -> [Line; 2] {
    let (depth, volume) = match uplift.least {
        LeastWater::None => (0.0, 0.0),
        LeastWater::Standing { depth, volume } => (depth, volume),
        LeastWater::MoreThanFull { .. } => {
            let full = uplift.by_depth.last();
            (full.map_or(0.0, |(depth, _)| *depth), uplift.full)
        }
    };
    let beyond = matches!(uplift.least, LeastWater::MoreThanFull { .. });
    let line = |key, label, value, measure, formula| {
        Line::new(
            key,
            Group::Water,
            label,
            (value, measure),
            formula,
            ARCHIMEDES,
        )
        .on(On::Water)
        .assuming(uplift.weight.is_none(), NO_WEIGHT)
        .assuming(beyond, NOT_ENOUGH)
    };
    let needed = line(
        "least-water-volume",
        "Least water in the shell",
        volume,
        Measure::WaterVolume,
        "body of the shell below groundwater - weight of the shell / weight of water, no more than it holds",
    )
    .with(
        "body of the shell below groundwater",
        uplift.displaced,
        Measure::WaterVolume,
    )
    .with(
        "weight of the shell",
        uplift.weight.unwrap_or(0.0),
        Measure::Weight,
    )
    .given("weight of water", WATER_DENSITY, Measure::Density, FRESH);
    let deep = line(
        "least-water",
        "Least water, depth at the deep end",
        depth,
        Measure::Length,
        "depth at which the shell holds the least water",
    )
    .with("least water", volume, Measure::WaterVolume);
    [needed, deep]
}

/// Down to where groundwater is drawn, before the shell is emptied and while people work.
fn drawn_down(inputs: &Inputs<'_>, uplift: &Uplift) -> [Line; 2] {
    let source = "geometry; a professional draws it down and keeps it down";
    [
        Line::new(
            "draw-down-shell",
            Group::Water,
            "Draw down below, shell empty",
            (uplift.underside, Measure::Elevation),
            "elevation of the rim - depth of the floor's underside",
            source,
        )
        .on(On::Dewatering)
        .with("elevation of the rim", uplift.rim, Measure::Elevation)
        .with(
            "depth of the floor's underside",
            inputs.measured.underside,
            Measure::Length,
        ),
        Line::new(
            "draw-down-dig",
            Group::Water,
            "Draw down below, people in the hole",
            (inputs.dig.bottom_elevation, Measure::Elevation),
            "lowest point of the hole",
            source,
        )
        .on(On::Dewatering)
        .with(
            "lowest point of the hole",
            inputs.dig.bottom_elevation,
            Measure::Elevation,
        ),
    ]
}
