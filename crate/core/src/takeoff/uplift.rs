//! What groundwater does to the shell: uplift, the water that holds it, how far to draw down.

use super::expression::{Expression, given, input, measured};
use super::line::{Group, Line};
use super::{Inputs, MeasuredOn, Takeoff};
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

fn rim(uplift: &Uplift) -> Expression {
    input("elevation of the rim", uplift.rim, Measure::Elevation)
}

fn below_groundwater(uplift: &Uplift) -> Expression {
    input(
        "body of the shell below groundwater",
        uplift.displaced,
        Measure::WaterVolume,
    )
}

fn shell_weight(uplift: &Uplift) -> Expression {
    let weight = uplift.weight.unwrap_or(0.0);
    input("weight of the shell", weight, Measure::Weight)
}

const fn water_weight() -> Expression {
    given("weight of water", WATER_DENSITY, Measure::Density, FRESH)
}

fn level(uplift: &Uplift) -> Line {
    let (expression, source) = match uplift.told {
        true => (measured("as entered", uplift.level), ENTERED),
        false => (rim(uplift).closer(uplift.level), "the worst case"),
    };
    Line::new(
        "groundwater",
        Group::Water,
        "Groundwater, elevation",
        Measure::Elevation,
        expression,
        source,
    )
    .on(MeasuredOn::Body)
}

/// Uplift on the shell empty, half full and full.
fn lifted(uplift: &Uplift) -> [Line; 3] {
    let states = [
        ("uplift-empty", "Uplift, shell empty", None),
        (
            "uplift-half-full",
            "Uplift, half full",
            Some(("half of its water", uplift.full / 2.0)),
        ),
        (
            "uplift-full",
            "Uplift, full",
            Some(("all of its water", uplift.full)),
        ),
    ];
    states.map(|(key, label, water)| {
        let body = below_groundwater(uplift);
        let displaced = match water {
            Some((name, volume)) => body - input(name, volume, Measure::WaterVolume),
            None => body,
        };
        let net = displaced * water_weight() - shell_weight(uplift);
        let at_rest = net.value() < 0.0;
        Line::new(
            key,
            Group::Water,
            label,
            Measure::Weight,
            net.not_negative(),
            ARCHIMEDES,
        )
        .on(MeasuredOn::Body)
        .assuming(uplift.weight.is_none(), NO_WEIGHT)
        .assuming(at_rest, AT_REST)
    })
}

/// Area of the body in plan, walls included.
fn plan_area(inputs: &Inputs<'_>) -> Expression {
    let shell = inputs.measured;
    let area = shell.water_area + shell.waters_edge * shell.wall_thickness;
    input("area of the shell in plan", area, Measure::Area)
}

fn one_foot(inputs: &Inputs<'_>) -> Line {
    let foot = given("one foot", FOOT, Measure::Length, "a round figure");
    Line::new(
        "uplift-of-a-foot",
        Group::Water,
        "Uplift of one foot of head",
        Measure::Weight,
        plan_area(inputs) * foot * water_weight(),
        ARCHIMEDES,
    )
    .on(MeasuredOn::Body)
}

/// How little groundwater the shell's weight balances.
fn balance(inputs: &Inputs<'_>, uplift: &Uplift) -> Option<Line> {
    uplift.weight?;
    Some(
        Line::new(
            "weight-balances",
            Group::Water,
            "Head that its weight balances",
            Measure::Length,
            shell_weight(uplift) / (plan_area(inputs) * water_weight()),
            ARCHIMEDES,
        )
        .on(MeasuredOn::Body),
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
    let wanted = below_groundwater(uplift) - shell_weight(uplift) / water_weight();
    let needed = Line::new(
        "least-water-volume",
        Group::Water,
        "Least water in the shell",
        Measure::WaterVolume,
        wanted
            .within(0.0, uplift.full)
            .closer(volume)
            .worded("", ", no more than it holds"),
        ARCHIMEDES,
    );
    let deep = Line::new(
        "least-water",
        Group::Water,
        "Least water, depth at the deep end",
        Measure::Length,
        needed
            .named("least water")
            .found(depth, "depth at which the shell holds the "),
        ARCHIMEDES,
    );
    [needed, deep].map(|line| {
        line.on(MeasuredOn::Water)
            .assuming(uplift.weight.is_none(), NO_WEIGHT)
            .assuming(beyond, NOT_ENOUGH)
    })
}

/// Down to where groundwater is drawn, before the shell is emptied and while people work.
fn drawn_down(inputs: &Inputs<'_>, uplift: &Uplift) -> [Line; 2] {
    let source = "geometry; a professional draws it down and keeps it down";
    let underside = input(
        "depth of the floor's underside",
        inputs.measured.underside,
        Measure::Length,
    );
    [
        Line::new(
            "draw-down-shell",
            Group::Water,
            "Draw down below, shell empty",
            Measure::Elevation,
            (rim(uplift) - underside).closer(uplift.underside),
            source,
        ),
        Line::new(
            "draw-down-dig",
            Group::Water,
            "Draw down below, people in the hole",
            Measure::Elevation,
            input(
                "lowest point of the hole",
                inputs.dig.bottom_elevation,
                Measure::Elevation,
            ),
            source,
        ),
    ]
    .map(|line| line.on(MeasuredOn::Dewatering))
}
