//! Truck loads by the box, by the scale, and the greater of the two; trips and time.

use crate::finding::{Finding, Topic};
use crate::site::ConstructionSettings;
use crate::takeoff::expression::{Expression, Extreme, of_two, setting};
use crate::takeoff::{Group, Line, MeasuredOn, Takeoff};
use crate::units::Measure;

/// Of a loose volume (m3) and its weight (kg).
pub(super) fn take(
    works: &ConstructionSettings,
    loose: Expression,
    weight: Expression,
    taken: &mut Takeoff,
) {
    let haul = &works.haul;
    let line = |key, label, measure, expression, source| {
        Line::new(key, Group::Haul, label, measure, expression, source)
    };
    let boxes = loose
        / setting(
            "volume of the truck bed",
            haul.box_volume,
            Measure::EarthVolume,
        );
    let payloads = weight / setting("payload", haul.payload, Measure::Weight);
    // Compared before rounding: a box may be overloaded though the loads come out alike.
    if payloads.value() > boxes.value() {
        taken.findings.push(
            Finding::caution(
                "payload-governs",
                "A full truck bed of this spoil weighs more than the payload.",
                "Load the trucks by weight, not to the top of the bed; wet soil weighs more still.",
            )
            .about(Topic::Haul)
            .under("/works/haul/payload"),
        );
    }
    let by_volume = line(
        "loads-by-volume",
        "Loads by volume",
        Measure::Count,
        boxes.whole_up(),
        "common practice",
    );
    let by_weight = line(
        "loads-by-weight",
        "Loads by weight",
        Measure::Count,
        payloads.whole_up(),
        "common practice; axle limits of the road decide the payload",
    );
    let loads = line(
        "loads",
        "Truck loads",
        Measure::Count,
        of_two(
            Extreme::Greater,
            by_volume.named("loads by volume"),
            by_weight.named("loads by weight"),
        ),
        "common practice",
    )
    .on(MeasuredOn::Opening)
    .paying_for("haul");
    let trucks = setting("trucks", haul.trucks, Measure::Count);
    let trips = line(
        "trips",
        "Trips of each truck",
        Measure::Count,
        (loads.named("truck loads") / trucks).whole_up(),
        "common practice",
    )
    .on(MeasuredOn::Opening);
    let time = line(
        "haul-time",
        "Time to haul",
        Measure::Hours,
        trips.named("trips of each truck")
            * setting("time of a trip", haul.cycle, Measure::Minutes),
        "common practice",
    )
    .on(MeasuredOn::Opening)
    .paying_for("haul")
    .assuming(true, "No truck waits for another; breaks are not counted.");
    taken
        .lines
        .extend([by_volume, by_weight, loads, trips, time]);
}
