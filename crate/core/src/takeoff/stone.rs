//! Stone under the floor, beside the wall, under deck and pad and round pipe; and the fabric that
//! parts it from the soil.

use super::fill::{Fill, Lift, MOST_LIFTS};
use super::line::{Group, Line, SETTING};
use super::{Inputs, On, Takeoff};
use crate::site::PipeSettings;
use crate::units::Measure;

const EVEN_BASE: &str = "The thickness is plumb, so the volume is plan area times thickness, on slopes as well. The base \
     is as thick under the over-dig as under the floor; where the hole goes deeper, its stone is \
     counted as backfill.";

const ZONES: &str = "Parts of the floor with a base of their own thickness count with that.";

const SIDES_WITH_BACKFILL: &str =
    "Stone between the sides of the hole and the body of the shell, wall and floor included.";

const LEANING_WALL: &str = "The hole is dug plumb below the water's edge, wall and over-dig, though the wall leans inward: \
     the room that its draft leaves is backfill.";

const SHORT_OF_GROUND: &str = "In part the ground lies below the collar's underside. Stone for fill brought in there is not \
     counted, and the shell's body is taken off whole: the figure falls short.";

const FILLED: &str = "Where ground falls away below the collar's underside, the highest lifts lose their stone first. \
     Lift 1 is the lowest. Common practice: fill and compact lift by lift, the water in the shell \
     rising with the stone.";

const VOIDS: &str = "Voids are the air's share of the whole (porosity), not of the solid: a void ratio e is e / (1 + e) \
     of the whole, so that 0.40 of the whole is e = 0.67.";

/// The names of the lifts, from the bottom up.
const LIFTS: [&str; MOST_LIFTS] = [
    "lift 1", "lift 2", "lift 3", "lift 4", "lift 5", "lift 6", "lift 7", "lift 8", "lift 9",
    "lift 10", "lift 11", "lift 12", "lift 13", "lift 14", "lift 15", "lift 16", "lift 17",
    "lift 18", "lift 19", "lift 20", "lift 21", "lift 22", "lift 23", "lift 24",
];

/// A place where stone goes: its volume line, and what its weight is called.
struct Placed {
    volume: Line,
    key: &'static str,
    label: &'static str,
    name: &'static str,
}

/// Every place stone goes, then their sum, the water it holds and the fabric round it.
pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let waste = inputs.works.waste.stone;
    let bought = |placed: f64| placed * (1.0 + waste);
    let base = base_volume(inputs);
    let below = inputs.fill.map_or(base, |fill| fill.base_below);
    let in_hole = backfill_volume(inputs, below);

    let mut places = vec![
        Placed {
            volume: base_line(inputs, bought(base)).wasting(waste),
            key: "base-stone",
            label: "Base stone",
            name: "base stone",
        },
        Placed {
            volume: backfill_line(inputs, below, bought(in_hole)).wasting(waste),
            key: "backfill-stone",
            label: "Backfill stone",
            name: "backfill stone",
        },
    ];
    places.extend(beds(inputs));
    places.extend(round_pipe(inputs));

    let density = inputs.works.stone.density;
    let mut total = 0.0;
    let mut parts = Vec::with_capacity(places.len());
    for place in places {
        let volume = place.volume.paying_for(place.key);
        let weight = volume.value * density;
        total += weight;
        parts.push((place.name, weight));
        let weighed = Line::new(
            place.key,
            Group::Stone,
            place.label,
            (weight, Measure::Mass),
            "volume with waste x weight of loose stone",
            "common practice: 1.35 short tons to the loose cubic yard; suppliers vary",
        )
        .on(volume.on)
        .paying_for(place.key)
        .with("volume with waste", volume.value, Measure::EarthVolume)
        .given("weight of loose stone", density, Measure::Density, SETTING);
        taken.lines.extend([volume, weighed]);
        match (place.key, inputs.fill) {
            ("base-stone", Some(fill)) => taken.lines.push(along_slopes(fill)),
            ("backfill-stone", Some(fill)) => taken.lines.push(lifts(fill, in_hole)),
            _ => {}
        }
    }
    let sum = Line::new(
        "stone",
        Group::Stone,
        "Stone in all",
        (total, Measure::Mass),
        "sum of the lines above",
        "sum of the lines above",
    );
    taken
        .lines
        .push(parts.into_iter().fold(sum, |line, (name, weight)| {
            line.with(name, weight, Measure::Mass)
        }));
    taken.lines.push(held_water(inputs, base + in_hole));
    taken.lines.extend(fabric(inputs));
}

/// Base as it is placed, m3.
fn base_volume(inputs: &Inputs<'_>) -> f64 {
    let even = inputs.measured.bottom_area * inputs.works.dig.base_thickness;
    inputs.fill.map_or(even, |fill| fill.base)
}

/// Pipe that lies in the backfill, m3.
fn pipe_in_backfill(inputs: &Inputs<'_>) -> f64 {
    let round = |diameter: f64| core::f64::consts::PI / 4.0 * diameter * diameter;
    let runs = inputs.pipes.map_or(0.0, |pipes| {
        let length: f64 = pipes.runs.iter().map(|run| run.in_hole()).sum();
        length * round(inputs.works.pipe.size.outside())
    });
    let dewatering = inputs.dewatering.map_or(0.0, |pipe| {
        let below_collar = pipe.underside - inputs.works.collar.underside();
        below_collar.max(0.0) * round(inputs.works.dewatering.diameter)
    });
    runs + dewatering
}

/// Backfill as it is placed, m3.
fn backfill_volume(inputs: &Inputs<'_>, base: f64) -> f64 {
    let body = inputs.measured.body_below_collar;
    (inputs.dig.volume_below_cap - body - base - pipe_in_backfill(inputs)).max(0.0)
}

fn base_line(inputs: &Inputs<'_>, bought: f64) -> Line {
    let (works, measured) = (inputs.works, inputs.measured);
    let bottom = inputs.fill.map_or(measured.bottom_area, |fill| fill.bottom);
    let line = Line::new(
        "base-stone-volume",
        Group::Stone,
        "Base stone, volume",
        (bought, Measure::EarthVolume),
        "area of the bottom x base thickness x (1 + waste)",
        "common practice",
    )
    .with("area of the bottom", bottom, Measure::Area)
    .given(
        "base thickness",
        works.dig.base_thickness,
        Measure::Length,
        SETTING,
    )
    .on(On::Bottom)
    .assuming(true, EVEN_BASE);
    let Some(fill) = inputs.fill else { return line };
    if works.dig.bases.is_empty() {
        return line;
    }
    fill.zones
        .iter()
        .fold(line.assuming(true, ZONES), |line, zone| {
            let (area, thickness) = zone_names(zone.kind);
            line.with(area, zone.area, Measure::Area).given(
                thickness,
                zone.thickness,
                Measure::Length,
                SETTING,
            )
        })
}

/// What the area and the thickness of a zone are called.
fn zone_names(kind: crate::shell::FacetKind) -> (&'static str, &'static str) {
    use crate::shell::FacetKind as K;
    match kind {
        K::Ledge => ("ledge", "base under the ledge"),
        K::Step => ("steps", "base under the steps"),
        K::Bench => ("benches", "base under the benches"),
        K::Shallow => ("shallow floor", "base under the shallow floor"),
        K::Slope => ("sloping floor", "base under the sloping floor"),
        K::Deep => ("deep floor", "base under the deep floor"),
    }
}

fn backfill_line(inputs: &Inputs<'_>, base: f64, bought: f64) -> Line {
    let dig = inputs.dig;
    Line::new(
        "backfill-stone-volume",
        Group::Stone,
        "Backfill stone, volume",
        (bought, Measure::EarthVolume),
        "(hole below the collar's underside - body of the shell below it - base below it - pipe in it) x \
         (1 + waste)",
        "common practice: stone to the underside of the collar",
    )
    .with(
        "hole below the collar's underside",
        dig.volume_below_cap,
        Measure::EarthVolume,
    )
    .with(
        "body of the shell below it",
        inputs.measured.body_below_collar,
        Measure::EarthVolume,
    )
    .with("base below it", base, Measure::EarthVolume)
    .with("pipe in it", pipe_in_backfill(inputs), Measure::EarthVolume)
    .on(On::Backfill)
    .assuming(true, SIDES_WITH_BACKFILL)
    .assuming(inputs.measured.leaning_wall, LEANING_WALL)
    .assuming(dig.area_above_ground > 0.0, SHORT_OF_GROUND)
}

/// The bottom as it is graded and covered, beside its plan.
fn along_slopes(fill: &Fill) -> Line {
    Line::new(
        "bottom-along-slopes",
        Group::Stone,
        "Bottom, along its slopes",
        (fill.along_slopes, Measure::Area),
        "area of the bottom, its sloping parts measured along the slope",
        "geometry of the shell and its settings",
    )
    .with("area of the bottom in plan", fill.bottom, Measure::Area)
    .on(On::Bottom)
}

/// The lifts in one line: how many, and the stone of each.
fn lifts(fill: &Fill, placed: f64) -> Line {
    let lifts: Vec<Lift> = fill.lifts_less(fill.backfill() - placed);
    let line = Line::new(
        "backfill-lifts",
        Group::Stone,
        "Backfill, lifts",
        (lifts.len() as f64, Measure::Count),
        "stone of each lift, without waste, from the bottom up",
        "hole between two levels less the shell's body and the base between them",
    )
    .on(On::Backfill)
    .rounded("the top lift is what is left up to the collar")
    .assuming(true, FILLED);
    let named = LIFTS.iter().zip(&lifts);
    named.fold(line, |line, (name, lift)| {
        line.with(name, lift.volume, Measure::EarthVolume)
    })
}

/// The beds under deck, pad and in the sump.
fn beds(inputs: &Inputs<'_>) -> Vec<Placed> {
    let (works, waste) = (inputs.works, inputs.works.waste.stone);
    let area = inputs.deck.map_or(inputs.measured.deck_bed_area, |deck| {
        deck.bed_area + deck.steps_area
    });
    let bed = |key,
               label,
               name,
               (on, area),
               (formula, area_name): (&'static str, &'static str),
               thickness: f64| {
        Line::new(
            key,
            Group::Stone,
            label,
            (area * thickness * (1.0 + waste), Measure::EarthVolume),
            formula,
            "common practice",
        )
        .with(area_name, area, Measure::Area)
        .given(name, thickness, Measure::Length, SETTING)
        .on(on)
        .wasting(waste)
    };
    let mut beds = vec![Placed {
        volume: bed(
            "deck-bed-volume",
            "Deck bed stone, volume",
            "bed thickness",
            (On::DeckBed, area),
            (
                "area of the deck beyond the collar x bed thickness x (1 + waste)",
                "area of the deck beyond the collar",
            ),
            works.deck.bed,
        ),
        key: "deck-bed-stone",
        label: "Deck bed stone",
        name: "deck bed stone",
    }];
    if let Some(pad) = inputs.pad {
        beds.push(Placed {
            volume: bed(
                "pad-bed-volume",
                "Pad bed stone, volume",
                "bed thickness",
                (On::Pad, pad.area),
                (
                    "area of the pad x bed thickness x (1 + waste)",
                    "area of the pad",
                ),
                works.pad.bed,
            ),
            key: "pad-bed-stone",
            label: "Pad bed stone",
            name: "pad bed stone",
        });
    }
    let sump = &works.dewatering;
    if sump.sump_depth > 0.0 {
        beds.push(Placed {
            volume: bed(
                "sump-stone-volume",
                "Sump stone, volume",
                "sump depth",
                (On::Dewatering, sump.sump_width * sump.sump_width),
                (
                    "area of the sump x sump depth x (1 + waste)",
                    "area of the sump",
                ),
                sump.sump_depth,
            ),
            key: "sump-stone",
            label: "Sump stone",
            name: "sump stone",
        });
    }
    beds
}

/// Height of the stone round the pipes of a trench, metres.
pub(super) fn encased(settings: &PipeSettings) -> f64 {
    (settings.size.outside() + 2.0 * settings.encasement).min(settings.trench_depth)
}

/// The stone round pipe in the trench to the pad.
fn round_pipe(inputs: &Inputs<'_>) -> Option<Placed> {
    let pipes = inputs.pipes.filter(|pipes| pipes.shared > 0)?;
    let (settings, waste) = (&inputs.works.pipe, inputs.works.waste.stone);
    let outside = settings.size.outside();
    let height = encased(settings);
    let pipe = core::f64::consts::PI / 4.0 * outside * outside * pipes.shared as f64;
    let across = (settings.trench_width * height - pipe).max(0.0);
    Some(Placed {
        volume: Line::new(
            "pipe-stone-volume",
            Group::Stone,
            "Pipe encasement stone, volume",
            (
                across * pipes.shared_length * (1.0 + waste),
                Measure::EarthVolume,
            ),
            "(trench width x height of the stone - pipes in it) x length of the trench x (1 + waste)",
            "common practice: clean stone all round the pipe",
        )
        .given("trench width", settings.trench_width, Measure::Length, SETTING)
        .with("height of the stone", height, Measure::Length)
        .with("pipes in it", pipe, Measure::Area)
        .with(
            "length of the trench",
            pipes.shared_length,
            Measure::LongLength,
        )
        .on(On::Trenches)
        .wasting(waste)
        .assuming(true, "In the hole pipe lies in the backfill, which is the same stone."),
        key: "pipe-stone",
        label: "Pipe encasement stone",
        name: "pipe encasement stone",
    })
}

/// The water that base and backfill hold when they are full of it.
fn held_water(inputs: &Inputs<'_>, placed: f64) -> Line {
    let voids = inputs.works.stone.voids;
    Line::new(
        "stone-water",
        Group::Stone,
        "Water the stone can hold",
        (placed * voids, Measure::WaterVolume),
        "base and backfill as placed x voids",
        "common practice: clean angular stone is about 0.40 voids",
    )
    .with("base and backfill as placed", placed, Measure::EarthVolume)
    .given("voids", voids, Measure::Fraction, SETTING)
    .on(On::Backfill)
    .assuming(true, VOIDS)
}

/// The fabric between stone and soil.
fn fabric(inputs: &Inputs<'_>) -> Option<Line> {
    let fill = inputs.fill.filter(|_| inputs.works.stone.fabric)?;
    let waste = inputs.works.waste.fabric;
    let bed = inputs
        .deck
        .map_or(inputs.measured.deck_bed_area, |deck| deck.bed_area);
    let area = fill.along_slopes + fill.sides + bed;
    Some(
        Line::new(
            "fabric",
            Group::Stone,
            "Fabric",
            (area * (1.0 + waste), Measure::Area),
            "(bottom along its slopes + sides along their slopes + deck bed) x (1 + waste)",
            "common practice: fabric parts the stone from the soil; laps are waste",
        )
        .with("bottom along its slopes", fill.along_slopes, Measure::Area)
        .with("sides along their slopes", fill.sides, Measure::Area)
        .with("deck bed", bed, Measure::Area)
        .wasting(waste)
        .on(On::Bottom)
        .paying_for("fabric")
        .assuming(
            true,
            "Sides up to the collar's underside, within about 2 %.",
        ),
    )
}
