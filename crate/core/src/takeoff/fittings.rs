//! What the shell holds.

use super::line::{GEOMETRY, Group, Line};
use super::{Inputs, Measured, On, Takeoff};
use crate::units::Measure;

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    taken.lines.extend(water(inputs.measured));
}

fn water(measured: &Measured) -> [Line; 4] {
    [
        Line::new(
            "water-volume",
            Group::Water,
            "Water",
            (measured.water_volume, Measure::WaterVolume),
            "volume between the floor and the waterline, walls upright",
            GEOMETRY,
        )
        .on(On::Water)
        .paying_for("water")
        .with("water's surface", measured.water_area, Measure::Area)
        .with(
            "waterline below the rim",
            measured.waterline,
            Measure::Length,
        ),
        Line::new(
            "water-area",
            Group::Water,
            "Water's surface",
            (measured.water_area, Measure::Area),
            "area inside the water's edge, arcs exact",
            GEOMETRY,
        )
        .on(On::Water),
        Line::new(
            "waters-edge",
            Group::Water,
            "Water's edge, length",
            (measured.waters_edge, Measure::Length),
            "length round the water's edge, arcs exact",
            GEOMETRY,
        )
        .on(On::WatersEdge),
        Line::new(
            "rim",
            Group::Water,
            "Rim, length",
            (measured.rim_length, Measure::Length),
            "length round the outer edge of the coping",
            GEOMETRY,
        )
        .on(On::Rim),
    ]
}
