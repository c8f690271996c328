//! Stone under the floor, beside the wall, under deck and pad and round pipe; and the fabric that
//! parts it from the soil.

use super::expression::{Expression, input, measured, setting, sum};
use super::fill::{Fill, MOST_LIFTS};
use super::line::{Group, Line};
use super::{Inputs, MeasuredOn, Takeoff};
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
    let base = base(inputs);
    let placed_base = base.value();
    let below = inputs.fill.map_or(placed_base, |fill| fill.base_below);
    let backfill = backfill(inputs, below);
    let placed_backfill = backfill.value();

    let mut places = vec![
        Placed {
            volume: base_line(inputs, base),
            key: "base-stone",
            label: "Base stone",
            name: "base stone",
        },
        Placed {
            volume: backfill_line(inputs, backfill),
            key: "backfill-stone",
            label: "Backfill stone",
            name: "backfill stone",
        },
    ];
    places.extend(beds(inputs));
    places.extend(round_pipe(inputs));

    let density = inputs.works.stone.density;
    let mut parts = Vec::with_capacity(places.len());
    for place in places {
        let volume = place.volume.paying_for(place.key);
        let weight = Line::new(
            place.key,
            Group::Stone,
            place.label,
            Measure::Mass,
            volume.named("volume with waste")
                * setting("weight of loose stone", density, Measure::Density),
            "common practice: 1.35 short tons to the loose cubic yard; suppliers vary",
        )
        .on(volume.on)
        .paying_for(place.key);
        parts.push(weight.named(place.name));
        taken.lines.extend([volume, weight]);
        match (place.key, inputs.fill) {
            ("base-stone", Some(fill)) => taken.lines.push(along_slopes(fill)),
            ("backfill-stone", Some(fill)) => taken.lines.push(lifts(fill, placed_backfill)),
            _ => {}
        }
    }
    taken.lines.push(Line::new(
        "stone",
        Group::Stone,
        "Total stone",
        Measure::Mass,
        sum(parts).told("sum of the lines above"),
        "sum of the lines above",
    ));
    let placed = placed_base + placed_backfill;
    taken.lines.push(held_water(inputs, placed));
    taken.lines.extend(fabric(inputs));
}

/// Base as it is placed.
fn base(inputs: &Inputs<'_>) -> Expression {
    let (works, area) = (inputs.works, inputs.measured.bottom_area);
    let area = inputs.fill.map_or(area, |fill| fill.bottom);
    let bottom = input("area of the bottom", area, Measure::Area);
    let thickness = setting("base thickness", works.dig.base_thickness, Measure::Length);
    match inputs.fill {
        None => bottom * thickness,
        Some(fill) if works.dig.bases.is_empty() => (bottom * thickness).closer(fill.base),
        Some(fill) => {
            let base = measured("area of the bottom x base thickness", fill.base)
                .under(bottom)
                .under(thickness);
            fill.zones.iter().fold(base, |base, zone| {
                let (area, thickness) = zone_names(zone.kind);
                base.under(input(area, zone.area, Measure::Area))
                    .under(setting(thickness, zone.thickness, Measure::Length))
            })
        }
    }
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

/// Backfill as it is placed, beside so much base below the collar's underside, m3.
fn backfill(inputs: &Inputs<'_>, base: f64) -> Expression {
    let volume = |name, value| input(name, value, Measure::EarthVolume);
    (volume(
        "hole below the collar's underside",
        inputs.dig.volume_below_cap,
    ) - volume(
        "body of the shell below it",
        inputs.measured.body_below_collar,
    ) - volume("base below it", base)
        - volume("pipe in it", pipe_in_backfill(inputs)))
    .not_negative()
}

fn base_line(inputs: &Inputs<'_>, placed: Expression) -> Line {
    let works = inputs.works;
    let zones = inputs.fill.is_some() && !works.dig.bases.is_empty();
    Line::new(
        "base-stone-volume",
        Group::Stone,
        "Base stone, volume",
        Measure::EarthVolume,
        placed.with_waste(works.waste.stone),
        "common practice",
    )
    .on(MeasuredOn::Bottom)
    .assuming(true, EVEN_BASE)
    .assuming(zones, ZONES)
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

fn backfill_line(inputs: &Inputs<'_>, placed: Expression) -> Line {
    Line::new(
        "backfill-stone-volume",
        Group::Stone,
        "Backfill stone, volume",
        Measure::EarthVolume,
        placed.with_waste(inputs.works.waste.stone),
        "common practice: stone to the underside of the collar",
    )
    .on(MeasuredOn::Backfill)
    .assuming(true, SIDES_WITH_BACKFILL)
    .assuming(inputs.measured.leaning_wall, LEANING_WALL)
    .assuming(inputs.dig.area_above_ground > 0.0, SHORT_OF_GROUND)
}

/// The bottom as it is graded and covered, beside its plan.
fn along_slopes(fill: &Fill) -> Line {
    let plan = input("area of the bottom in plan", fill.bottom, Measure::Area);
    Line::new(
        "bottom-along-slopes",
        Group::Stone,
        "Bottom, along its slopes",
        Measure::Area,
        measured(
            "area of the bottom, its sloping parts measured along the slope",
            fill.along_slopes,
        )
        .under(plan),
        "geometry of the shell and its settings",
    )
    .on(MeasuredOn::Bottom)
}

/// The lifts in one line: how many, and the stone of each.
fn lifts(fill: &Fill, placed: f64) -> Line {
    let lifts = fill.lifts_less(fill.backfill() - placed);
    let count = measured(
        "stone of each lift, without waste, from the bottom up",
        lifts.len() as f64,
    );
    let count = LIFTS.iter().zip(&lifts).fold(count, |count, (name, lift)| {
        count.under(input(name, lift.volume, Measure::EarthVolume))
    });
    Line::new(
        "backfill-lifts",
        Group::Stone,
        "Backfill, lifts",
        Measure::Count,
        count,
        "hole between two levels less the shell's body and the base between them",
    )
    .on(MeasuredOn::Backfill)
    .counted("the top lift is what is left up to the collar")
    .assuming(true, FILLED)
}

/// The beds under deck, pad and in the sump.
fn beds(inputs: &Inputs<'_>) -> Vec<Placed> {
    let (works, waste) = (inputs.works, inputs.works.waste.stone);
    let bed = |key, label, on, (area, of): (&'static str, f64), (deep, by): (&'static str, f64)| {
        let placed = input(area, of, Measure::Area) * setting(deep, by, Measure::Length);
        Line::new(
            key,
            Group::Stone,
            label,
            Measure::EarthVolume,
            placed.with_waste(waste),
            "common practice",
        )
        .on(on)
    };
    let area = inputs.deck.map_or(inputs.measured.deck_bed_area, |deck| {
        deck.bed_area + deck.steps_area
    });
    let mut beds = vec![Placed {
        volume: bed(
            "deck-bed-volume",
            "Deck bed stone, volume",
            MeasuredOn::DeckBed,
            ("area of the deck beyond the collar", area),
            ("bed thickness", works.deck.bed),
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
                MeasuredOn::Pad,
                ("area of the pad", pad.area),
                ("bed thickness", works.pad.bed),
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
                MeasuredOn::Dewatering,
                ("area of the sump", sump.sump_width * sump.sump_width),
                ("sump depth", sump.sump_depth),
            ),
            key: "sump-stone",
            label: "Sump stone",
            name: "sump stone",
        });
    }
    beds
}

/// Height of the stone round the pipes of a trench, meters.
pub(super) fn encased(settings: &PipeSettings) -> f64 {
    (settings.size.outside() + 2.0 * settings.encasement).min(settings.trench_depth)
}

/// The stone round pipe in the trench to the pad.
fn round_pipe(inputs: &Inputs<'_>) -> Option<Placed> {
    let pipes = inputs.pipes.filter(|pipes| pipes.shared > 0)?;
    let settings = &inputs.works.pipe;
    let outside = settings.size.outside();
    let pipe = core::f64::consts::PI / 4.0 * outside * outside * pipes.shared as f64;
    let across = setting("trench width", settings.trench_width, Measure::Length)
        * input("height of the stone", encased(settings), Measure::Length)
        - input("pipes in it", pipe, Measure::Area);
    let length = input(
        "length of the trench",
        pipes.shared_length,
        Measure::LongLength,
    );
    Some(Placed {
        volume: Line::new(
            "pipe-stone-volume",
            Group::Stone,
            "Pipe encasement stone, volume",
            Measure::EarthVolume,
            (across.not_negative() * length).with_waste(inputs.works.waste.stone),
            "common practice: clean stone all round the pipe",
        )
        .on(MeasuredOn::Trenches)
        .assuming(
            true,
            "In the hole pipe lies in the backfill, which is the same stone.",
        ),
        key: "pipe-stone",
        label: "Pipe encasement stone",
        name: "pipe encasement stone",
    })
}

/// The water that base and backfill hold when they are full of it.
fn held_water(inputs: &Inputs<'_>, placed: f64) -> Line {
    let voids = setting("voids", inputs.works.stone.voids, Measure::Fraction);
    Line::new(
        "stone-water",
        Group::Stone,
        "Water the stone can hold",
        Measure::WaterVolume,
        input("base and backfill as placed", placed, Measure::EarthVolume) * voids,
        "common practice: clean angular stone is about 0.40 voids",
    )
    .on(MeasuredOn::Backfill)
    .assuming(true, VOIDS)
}

/// The fabric between stone and soil.
fn fabric(inputs: &Inputs<'_>) -> Option<Line> {
    let fill = inputs.fill.filter(|_| inputs.works.stone.fabric)?;
    let bed = inputs
        .deck
        .map_or(inputs.measured.deck_bed_area, |deck| deck.bed_area);
    let covered = input("bottom along its slopes", fill.along_slopes, Measure::Area)
        + input("sides along their slopes", fill.sides, Measure::Area)
        + input("deck bed", bed, Measure::Area);
    Some(
        Line::new(
            "fabric",
            Group::Stone,
            "Geotextile",
            Measure::Area,
            covered.with_waste(inputs.works.waste.fabric),
            "common practice: geotextile separates stone from soil; laps are waste",
        )
        .on(MeasuredOn::Bottom)
        .paying_for("fabric")
        .assuming(
            true,
            "Sides up to the collar's underside, within about 2 %.",
        ),
    )
}
