//! What leaves the hole and how it is hauled.

use super::line::{Group, Line, SETTING, WHOLE_UP, whole_up};
use super::{Inputs, On, Takeoff};
use crate::dig::Dig;
use crate::finding::Finding;
use crate::site::Works;
use crate::site::soil::SIDE_SLOPE_SOURCE;
use crate::units::Measure;

const UNSURVEYED: &str =
    "Part of the ground was not surveyed; its height is carried over from the nearest spots.";

const LOW_GROUND: &str = "In part the ground lies below the collar's underside; fill brought in \
                          there is not counted.";

const NOT_CLOSED: &str =
    "The sides were not followed up to the ground everywhere; the figure falls short.";

const ALL_HAULED: &str = "All spoil is hauled away; none is kept back for use on the site.";

const ENTERED: &str = "entered";

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let (works, dig) = (inputs.works, inputs.dig);
    let bank = dig.bank_volume;
    taken.lines.push(bank_cut(works, dig));
    taken.lines.extend(opening(dig));

    let settings = &works.dig;
    let swell = settings.loose_per_bank();
    let swell_source = match settings.swell {
        Some(_) => ENTERED,
        None => settings.material.swell_source(),
    };
    let density = settings.bank_density();
    let density_source = match settings.density {
        Some(_) => ENTERED,
        None => settings.material.density_source(),
    };
    let (loose, weight) = (bank * swell, bank * density);
    taken.lines.push(
        Line::new(
            "spoil-loose",
            Group::Haul,
            "Spoil, loose",
            (loose, Measure::EarthVolume),
            "bank cut x swell",
            "swell is told per bank volume",
        )
        .with("bank cut", bank, Measure::EarthVolume)
        .given("swell", swell, Measure::Ratio, swell_source)
        .on(On::Opening)
        .paying_for("haul"),
    );
    taken.lines.push(
        Line::new(
            "spoil-weight",
            Group::Haul,
            "Spoil, weight",
            (weight, Measure::Mass),
            "bank cut x weight of the bank",
            "soil weighs the same loose as in place; wet soil weighs more",
        )
        .with("bank cut", bank, Measure::EarthVolume)
        .given(
            "weight of the bank",
            density,
            Measure::Density,
            density_source,
        )
        .on(On::Opening)
        .paying_for("haul"),
    );
    loads(works, loose, weight, taken);
}

fn bank_cut(works: &Works, dig: &Dig) -> Line {
    let slope_source = match works.dig.side_slope {
        Some(_) => ENTERED,
        None => SIDE_SLOPE_SOURCE,
    };
    let line = Line::new(
        "bank-cut",
        Group::Dig,
        "Bank cut",
        (dig.bank_volume, Measure::EarthVolume),
        "volume between the ground and the hole: underside of the base, widened by the over-dig, \
         its sides rising at the side slope",
        "geometry of the shell, its settings and the ground; rounded outer corners",
    )
    .on(On::Opening)
    .paying_for("dig")
    .given("over-dig", works.dig.over_dig, Measure::Length, SETTING)
    .given(
        "base thickness",
        works.dig.base_thickness,
        Measure::Length,
        SETTING,
    )
    .given(
        "side slope",
        works.dig.slope(),
        Measure::Slope,
        slope_source,
    );
    let unsurveyed = dig.unsurveyed_volume > 0.0;
    let line = if unsurveyed {
        line.with(
            "of it under unsurveyed ground",
            dig.unsurveyed_volume,
            Measure::EarthVolume,
        )
    } else {
        line
    };
    line.assuming(unsurveyed, UNSURVEYED)
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
            "Opening at the ground",
            (dig.top_area, Measure::Area),
            "area inside the line where the sides meet the ground",
            source,
        )
        .on(On::Opening)
        .assuming(unsurveyed, UNSURVEYED),
        Line::new(
            "dig-depth",
            Group::Dig,
            "Greatest depth of the hole",
            (dig.greatest_depth, Measure::Length),
            "greatest height of the ground above the bottom, plumb",
            source,
        )
        .on(On::Bottom)
        .assuming(unsurveyed, UNSURVEYED),
        Line::new(
            "dig-bottom",
            Group::Dig,
            "Lowest point of the hole",
            (dig.bottom_elevation, Measure::Elevation),
            "elevation of the deepest point of the bottom",
            source,
        )
        .on(On::Deepest),
    ]
}

/// Loads by the box, by the scale, and the greater of the two.
fn loads(works: &Works, loose: f64, weight: f64, taken: &mut Takeoff) {
    let haul = &works.haul;
    let by_volume = whole_up(loose / haul.box_volume);
    let by_weight = whole_up(weight / haul.payload);
    taken.lines.push(
        Line::new(
            "loads-by-volume",
            Group::Haul,
            "Loads by volume",
            (by_volume, Measure::Count),
            "spoil, loose / volume of the box",
            "common practice",
        )
        .with("spoil, loose", loose, Measure::EarthVolume)
        .given(
            "volume of the box",
            haul.box_volume,
            Measure::EarthVolume,
            SETTING,
        )
        .rounded(WHOLE_UP),
    );
    taken.lines.push(
        Line::new(
            "loads-by-weight",
            Group::Haul,
            "Loads by weight",
            (by_weight, Measure::Count),
            "spoil, weight / payload",
            "common practice; axle limits of the road decide the payload",
        )
        .with("spoil, weight", weight, Measure::Mass)
        .given("payload", haul.payload, Measure::Weight, SETTING)
        .rounded(WHOLE_UP),
    );
    taken.lines.push(
        Line::new(
            "loads",
            Group::Haul,
            "Truck loads",
            (by_volume.max(by_weight), Measure::Count),
            "the greater of loads by volume and loads by weight",
            "common practice",
        )
        .with("loads by volume", by_volume, Measure::Count)
        .with("loads by weight", by_weight, Measure::Count)
        .on(On::Opening)
        .paying_for("haul")
        .assuming(true, ALL_HAULED),
    );
    // Compared before rounding: a box may be overloaded though the loads come out alike.
    if weight / haul.payload > loose / haul.box_volume {
        taken.findings.push(
            Finding::caution(
                "payload-governs",
                "A full box of this spoil weighs more than the payload.",
                "Load the trucks by weight, not to the top of the box; wet soil weighs more still.",
            )
            .under("/works/haul/payload"),
        );
    }
}
