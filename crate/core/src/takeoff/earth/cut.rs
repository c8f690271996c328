//! The hole, what else is dug, and their sum.

use super::{ENTERED, Earth, PRISMS, VOLUME};
use crate::dig::Dig;
use crate::site::ConstructionSettings;
use crate::site::soil::SIDE_SLOPE_SOURCE;
use crate::takeoff::expression::{given, input, measured, setting, sum};
use crate::takeoff::{Group, Inputs, Line, MeasuredOn, Takeoff};
use crate::units::Measure;

const UNSURVEYED: &str =
    "Part of the ground was not surveyed; its height is carried over from the nearest spots.";

const LOW_GROUND: &str = "In part the ground lies below the collar's underside; what is filled there \
                          is counted as fill.";

const NOT_CLOSED: &str =
    "The sides were not followed up to the ground everywhere; the figure falls short.";

pub(super) fn take(inputs: &Inputs<'_>, earth: &Earth, taken: &mut Takeoff) {
    let bank_cut = bank_cut(inputs.works, inputs.dig);
    let mut all = vec![bank_cut.named("bank cut")];
    taken.lines.push(bank_cut);
    taken.lines.extend(opening(inputs.dig));
    if let Some(grading) = inputs.moved.grading {
        let cut = input("under deck and collar", grading.deck_cut, VOLUME)
            + input("in banks", grading.bank_cut, VOLUME);
        let line = Line::new(
            "grading-cut",
            Group::Dig,
            "Cut for deck and banks",
            VOLUME,
            cut,
            PRISMS,
        )
        .on(MeasuredOn::Cut)
        .paying_for("grading-cut")
        .assuming(true, "Beyond the hole's opening alone.");
        all.push(line.named("cut for deck and banks"));
        taken.lines.push(line);
    }
    for it in inputs.moved.others {
        let line = Line::new(
            it.key,
            Group::Dig,
            it.label,
            VOLUME,
            it.volume.clone(),
            "geometry of the work and its settings",
        )
        .on(it.on)
        .paying_for(it.key);
        all.push(line.named(it.name));
        taken.lines.push(line);
    }
    let all = sum(all).closer(earth.dug);
    let all = match inputs.moved.others {
        [] => all,
        _ => all.told("the sum of all that is dug"),
    };
    taken.lines.push(
        Line::new(
            "cut",
            Group::Dig,
            "Total cut",
            VOLUME,
            all,
            "sum of the lines above",
        )
        .on(MeasuredOn::Opening),
    );
}

fn bank_cut(works: &ConstructionSettings, dig: &Dig) -> Line {
    let slope_source = match works.dig.side_slope {
        Some(_) => ENTERED,
        None => SIDE_SLOPE_SOURCE,
    };
    let unsurveyed = dig.unsurveyed_volume > 0.0;
    let mut volume = measured(
        "volume between the ground and the hole: underside of the base, offset by the over-dig, \
         its sides rising at the side slope",
        dig.bank_volume,
    )
    .under(setting("over-dig", works.dig.over_dig, Measure::Length))
    .under(setting(
        "base thickness",
        works.dig.base_thickness,
        Measure::Length,
    ))
    .under(given(
        "side slope",
        works.dig.slope(),
        Measure::Slope,
        slope_source,
    ));
    if unsurveyed {
        volume = volume.under(input(
            "of it under unsurveyed ground",
            dig.unsurveyed_volume,
            VOLUME,
        ));
    }
    Line::new(
        "bank-cut",
        Group::Dig,
        "Bank cut",
        VOLUME,
        volume,
        "geometry of the shell, its settings and the ground; rounded outer corners",
    )
    .on(MeasuredOn::Opening)
    .paying_for("dig")
    .assuming(unsurveyed, UNSURVEYED)
    .assuming(dig.area_above_ground > 0.0, LOW_GROUND)
    .assuming(!dig.closed, NOT_CLOSED)
}

/// How wide and how deep the hole opens.
fn opening(dig: &Dig) -> [Line; 3] {
    let source = "geometry of the hole and the ground";
    let unsurveyed = dig.unsurveyed_volume > 0.0;
    [
        Line::new(
            "dig-top-area",
            Group::Dig,
            "Top of dig, area",
            Measure::Area,
            measured(
                "area inside the line where the sides meet the ground",
                dig.top_area,
            ),
            source,
        )
        .on(MeasuredOn::Opening)
        .assuming(unsurveyed, UNSURVEYED),
        Line::new(
            "dig-depth",
            Group::Dig,
            "Greatest depth of the hole",
            Measure::Length,
            measured(
                "greatest height of the ground above the bottom, plumb",
                dig.greatest_depth,
            ),
            source,
        )
        .on(MeasuredOn::Bottom)
        .assuming(unsurveyed, UNSURVEYED),
        Line::new(
            "dig-bottom",
            Group::Dig,
            "Lowest point of the hole",
            Measure::Elevation,
            measured(
                "elevation of the deepest point of the bottom",
                dig.bottom_elevation,
            ),
            source,
        )
        .on(MeasuredOn::Deepest),
    ]
}
