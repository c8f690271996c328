//! Stone under the floor, beside the wall and under the deck.

use super::line::{Group, Line, SETTING};
use super::{Inputs, On, Takeoff};
use crate::units::Measure;

const EVEN_BASE: &str = "The base is as thick under the over-dig as under the floor, measured plumb on slopes; where \
     the hole goes deeper, its stone is counted as backfill.";

const SIDES_WITH_BACKFILL: &str =
    "Stone between the sides of the hole and the body of the shell, wall and floor included.";

const LEANING_WALL: &str = "The hole is dug plumb below the water's edge, wall and over-dig, though the wall leans inward: \
     the room that its draft leaves is backfill.";

const SHORT_OF_GROUND: &str = "In part the ground lies below the collar's underside. Stone for fill brought in there is not \
     counted, and the shell's body is taken off whole: the figure falls short.";

/// The three places stone goes, then their sum.
pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let Inputs {
        works,
        measured,
        dig,
        ..
    } = *inputs;
    let base = measured.bottom_area * works.dig.base_thickness;
    let body = measured.body_below_collar;
    let backfill = (dig.volume_below_cap - body - base).max(0.0);
    let bed = measured.deck_bed_area * works.deck.bed;
    let waste = works.waste.stone;
    let bought = |placed: f64| placed * (1.0 + waste);

    let volumes = [
        Line::new(
            "base-stone-volume",
            Group::Stone,
            "Base stone, volume",
            (bought(base), Measure::EarthVolume),
            "area of the bottom x base thickness x (1 + waste)",
            "common practice",
        )
        .with("area of the bottom", measured.bottom_area, Measure::Area)
        .given(
            "base thickness",
            works.dig.base_thickness,
            Measure::Length,
            SETTING,
        )
        .wasting(waste)
        .on(On::Bottom)
        .assuming(true, EVEN_BASE),
        Line::new(
            "backfill-stone-volume",
            Group::Stone,
            "Backfill stone, volume",
            (bought(backfill), Measure::EarthVolume),
            "(hole below the collar's underside - body of the shell below it - base) x (1 + waste)",
            "common practice: stone to the underside of the collar",
        )
        .with(
            "hole below the collar's underside",
            dig.volume_below_cap,
            Measure::EarthVolume,
        )
        .with("body of the shell below it", body, Measure::EarthVolume)
        .with("base", base, Measure::EarthVolume)
        .wasting(waste)
        .on(On::Backfill)
        .assuming(true, SIDES_WITH_BACKFILL)
        .assuming(measured.leaning_wall, LEANING_WALL)
        .assuming(dig.area_above_ground > 0.0, SHORT_OF_GROUND),
        Line::new(
            "deck-bed-volume",
            Group::Stone,
            "Deck bed stone, volume",
            (bought(bed), Measure::EarthVolume),
            "area of the deck beyond the collar x bed thickness x (1 + waste)",
            "common practice",
        )
        .with(
            "area of the deck beyond the collar",
            measured.deck_bed_area,
            Measure::Area,
        )
        .on(On::DeckBed)
        .given("bed thickness", works.deck.bed, Measure::Length, SETTING)
        .wasting(waste),
    ];
    let names = [
        ("base-stone", "Base stone", "base stone"),
        ("backfill-stone", "Backfill stone", "backfill stone"),
        ("deck-bed-stone", "Deck bed stone", "deck bed stone"),
    ];
    let density = works.stone.density;
    let mut total = 0.0;
    let mut parts = Vec::with_capacity(names.len());
    for (volume, (key, label, name)) in volumes.into_iter().zip(names) {
        let volume = volume.paying_for(key);
        let weight = volume.value * density;
        total += weight;
        parts.push((name, weight));
        let weighed = Line::new(
            key,
            Group::Stone,
            label,
            (weight, Measure::Mass),
            "volume with waste x weight of loose stone",
            "common practice: 1.35 short tons to the loose cubic yard; suppliers vary",
        )
        .on(volume.on)
        .paying_for(key)
        .with("volume with waste", volume.value, Measure::EarthVolume)
        .given("weight of loose stone", density, Measure::Density, SETTING);
        taken.lines.extend([volume, weighed]);
    }
    let sum = Line::new(
        "stone",
        Group::Stone,
        "Stone in all",
        (total, Measure::Mass),
        "base stone + backfill stone + deck bed stone",
        "sum of the lines above",
    );
    taken
        .lines
        .push(parts.into_iter().fold(sum, |line, (name, weight)| {
            line.with(name, weight, Measure::Mass)
        }));
}
