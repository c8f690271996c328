//! The shell, and what it holds.

use super::expression::{input, measured};
use super::line::{GEOMETRY, Group, Line};
use super::{Inputs, Measured, MeasuredOn, Takeoff};
use crate::units::Measure;

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    taken.lines.extend(water(inputs.measured));
}

fn water(shell: &Measured) -> [Line; 5] {
    let line = |key, label, measure, expression| {
        Line::new(key, Group::Water, label, measure, expression, GEOMETRY)
    };
    let surface = input("water's surface", shell.water_area, Measure::Area);
    let waterline = input("waterline below the rim", shell.waterline, Measure::Length);
    [
        line(
            "shell",
            "Shell, one piece",
            Measure::Count,
            measured("the shell that was chosen", 1.0),
        )
        .on(MeasuredOn::Body)
        .counted("set in one piece")
        .paying_for("shell"),
        line(
            "water-volume",
            "Water",
            Measure::WaterVolume,
            measured(
                "volume between the floor and the waterline, walls vertical",
                shell.water_volume,
            )
            .under(surface)
            .under(waterline),
        )
        .on(MeasuredOn::Water)
        .paying_for("water"),
        line(
            "water-area",
            "Water's surface",
            Measure::Area,
            measured("area inside the water's edge, arcs exact", shell.water_area),
        )
        .on(MeasuredOn::Water),
        line(
            "waters-edge",
            "Water's edge, length",
            Measure::Length,
            measured(
                "length round the water's edge, arcs exact",
                shell.waters_edge,
            ),
        )
        .on(MeasuredOn::WatersEdge),
        line(
            "rim",
            "Rim, length",
            Measure::Length,
            measured(
                "length round the outer edge of the coping",
                shell.rim_length,
            ),
        )
        .on(MeasuredOn::Rim),
    ]
}
