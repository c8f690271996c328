//! Ties, pipe, and what the shell holds.

use super::line::{GEOMETRY, Group, Line, SETTING, WHOLE_UP, whole_up};
use super::{Inputs, Measured, On, Takeoff};
use crate::site::Works;
use crate::units::Measure;

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let (works, measured) = (inputs.works, inputs.measured);
    taken.lines.extend(ties(works, measured));
    taken.lines.extend(pipe(works, measured));
    taken.lines.extend(water(measured));
}

fn ties(works: &Works, measured: &Measured) -> [Line; 2] {
    let count = whole_up(measured.rim_length / works.ties.spacing);
    [
        Line::new(
            "ties",
            Group::RodsAndForms,
            "Ties, rim to deck",
            (count, Measure::Count),
            "length of the rim / greatest spacing",
            "common practice; spaced evenly round the closed rim",
        )
        .on(On::Ties)
        .paying_for("ties")
        .with("length of the rim", measured.rim_length, Measure::Length)
        .given(
            "greatest spacing",
            works.ties.spacing,
            Measure::Length,
            SETTING,
        )
        .rounded(WHOLE_UP),
        Line::new(
            "tie-rod",
            Group::RodsAndForms,
            "Rod for ties",
            (count * works.ties.length, Measure::Length),
            "ties x length of one",
            "common practice; offcuts not counted",
        )
        .on(On::Ties)
        .paying_for("ties")
        .with("ties", count, Measure::Count)
        .given("length of one", works.ties.length, Measure::Length, SETTING),
    ]
}

fn pipe(works: &Works, measured: &Measured) -> [Line; 2] {
    let pipe = &works.dewatering;
    let down = measured.underside + works.dig.base_thickness;
    [
        Line::new(
            "dewatering-pipe",
            Group::Pipe,
            "Dewatering pipe, length",
            ((down + pipe.above_rim).max(0.0), Measure::Length),
            "height above the rim + depth of the floor's underside + base thickness",
            "common practice: one pipe beside the deep end, down to the underside of the base",
        )
        .on(On::Dewatering)
        .paying_for("dewatering-pipe")
        .given(
            "height above the rim",
            pipe.above_rim,
            Measure::Length,
            SETTING,
        )
        .with(
            "depth of the floor's underside",
            measured.underside,
            Measure::Length,
        )
        .given(
            "base thickness",
            works.dig.base_thickness,
            Measure::Length,
            SETTING,
        ),
        Line::new(
            "dewatering-pipe-diameter",
            Group::Pipe,
            "Dewatering pipe, diameter",
            (pipe.diameter, Measure::Length),
            "nominal diameter",
            SETTING,
        )
        .on(On::Dewatering),
    ]
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
