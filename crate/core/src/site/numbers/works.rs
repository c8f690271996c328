//! The ranges of the settings of the work.

use super::{Faults, ranges};
use crate::site::ConstructionSettings;
use crate::units::Measure;

/// How many sides, zones, layers or fittings a plan may name; each is looked at on every frame.
const MOST: usize = 100;

/// Every setting that is out of range.
pub(super) fn check(works: &ConstructionSettings, faults: &mut Faults) {
    ranges! { faults, "/works", works;
        dig.over_dig: "The over-dig", Length, 0.0..=3.0;
        dig.base_thickness: "The base thickness", Length, 0.0..=2.0;
        dig.side_slope: "The side slope", Slope, 0.0..=4.0;
        dig.swell: "The swell", Ratio, 1.0..=3.0;
        dig.density: "The weight of the spoil", Density, 500.0..=4000.0;
        dig.upright_below: "The depth of the vertical part", Length, 0.0..=10.0;
        stone.density: "The density of the stone", Density, 500.0..=4000.0;
        stone.voids: "The voids of the stone", Fraction, 0.0..=0.8;
        stone.lift: "A lift of stone", Length, 0.05..=3.0;
        collar.width: "The collar's width", Length, 0.0..=3.0;
        collar.depth: "The collar's depth", Length, 0.0..=3.0;
        collar.top_below_rim: "The depth of the collar's top", Length, 0.0..=2.0;
        collar.bars: "The rebar in the collar", Count, 0.0..=20.0;
        deck.width: "The deck's width", Length, 0.0..=20.0;
        deck.thickness: "The deck's thickness", Length, 0.0..=1.0;
        deck.bed: "The deck's bed", Length, 0.0..=1.0;
        deck.fall: "The deck's fall", Fraction, 0.0..=0.2;
        deck.joint_spacing: "The spacing of joints", Length, 0.3..=20.0;
        deck.rod_spacing: "The rebar spacing", Length, 0.0..=5.0;
        ties.spacing: "The spacing of ties", Length, 0.05..=5.0;
        ties.length: "The length of a tie", Length, 0.0..=5.0;
        dewatering.diameter: "The pipe's diameter", Length, 0.02..=1.0;
        dewatering.above_rim: "The pipe's height above the rim", Length, -1.0..=2.0;
        dewatering.sump_depth: "The depth of the sump", Length, 0.0..=3.0;
        dewatering.sump_width: "The width of the sump", Length, 0.1..=3.0;
        haul.box_volume: "The volume of a truck's box", EarthVolume, 0.5..=50.0;
        haul.payload: "The payload", Weight, 500.0..=60_000.0;
        haul.cycle: "The time of a trip", Minutes, 60.0..=86_400.0;
        haul.trucks: "The trucks that haul", Count, 1.0..=100.0;
        waste.stone: "The waste of stone", Fraction, 0.0..=1.0;
        waste.concrete: "The waste of concrete", Fraction, 0.0..=1.0;
        waste.pipe: "The waste of pipe", Fraction, 0.0..=1.0;
        waste.fabric: "The geotextile waste", Fraction, 0.0..=1.0;
        waste.rods: "The rebar waste", Fraction, 0.0..=1.0;
        pad.thickness: "The pad's thickness", Length, 0.0..=1.0;
        pad.bed: "The pad's bed", Length, 0.0..=1.0;
        pipe.flow: "The flow", Flow, 0.0001..=0.1;
        pipe.coefficient: "The coefficient C", Count, 50.0..=200.0;
        pipe.bend: "The length of a bend", Length, 0.0..=20.0;
        pipe.strap_spacing: "The spacing of straps", Length, 0.1..=10.0;
        pipe.off_wall: "The pipe's distance from the wall", Length, 0.0..=2.0;
        pipe.encasement: "The stone round the pipe", Length, 0.0..=1.0;
        pipe.trench_width: "The width of a trench", Length, 0.05..=3.0;
        pipe.trench_depth: "The depth of a trench", Length, 0.05..=3.0;
        grading.bank_slope: "The slope of the banks", Slope, 0.0..=20.0;
        grading.retained_limit: "The retained height", Length, 0.0..=10.0;
        spoil.piled: "The share that is piled", Fraction, 0.0..=1.0;
        spoil.repose: "The slope of the pile", Slope, 0.5..=5.0;
        spoil.most_height: "The height of the pile", Length, 0.2..=20.0;
        // 2 ft at least (29 CFR 1926.651(j)(2)); the last digits are rounding of 2 ft.
        spoil.back: "The distance of the pile from the edge", Length, 0.609_599..=30.0;
        groundwater: "The elevation of groundwater", Elevation, -500.0..=9000.0;
        doubt.swell: "The doubt of the swell", Fraction, 0.0..=1.0;
        doubt.over_dig: "The doubt of the over-dig", Length, 0.0..=1.0;
        doubt.ground: "The doubt of the ground", Length, 0.0..=2.0;
        access.side_room: "The room on either side", Length, 0.0..=5.0;
        access.room_above: "The room above", Length, 0.0..=5.0;
        access.carried_at: "The height at which the shell is carried", Length, 0.0..=5.0;
        access.handling: "The room for handling", Length, 0.0..=10.0;
        access.panel: "The length of a fence panel", Length, 0.3..=30.0;
        crane.outrigger_length: "The distance of the outriggers along the crane", Length, 0.5..=20.0;
        crane.outrigger_width: "The distance of the outriggers across the crane", Length, 0.5..=20.0;
        crane.pad: "The side of a pad", Length, 0.1..=10.0;
        crane.weight: "The weight of the crane", Weight, 100.0..=500_000.0;
        crane.rigging: "The weight of the rigging", Weight, 0.0..=50_000.0;
        crane.shell_weight: "The weight of the shell", Weight, 1.0..=50_000.0;
        crane.share: "The share on one outrigger", Fraction, 0.25..=1.0;
        crane.lift_height: "The height of the lift", Length, 0.0..=60.0;
        crane.tip_above: "The height of the boom's tip above the shell", Length, 0.0..=100.0;
        crane.swing: "The swing of the shell", Length, 0.0..=20.0;
        crane.room_below: "The room under the shell", Length, 0.0..=20.0;
    }
    for (name, machine) in [
        ("excavator", &works.access.excavator),
        ("truck", &works.access.truck),
        ("skid_loader", &works.access.skid_loader),
    ] {
        ranges! { faults, format!("/works/access/{name}"), machine;
            width: "The width of a machine", Length, 0.3..=10.0;
            wheelbase: "The wheelbase of a machine", Length, 0.3..=30.0;
            turning_radius: "The turning radius of a machine", Length, 0.0..=100.0;
            height: "The height of a machine", Length, 0.3..=20.0;
        }
    }
    for (place, side) in items("/works/dig/sides", &works.dig.sides, faults) {
        ranges! { faults, place, side;
            over_dig: "The over-dig", Length, 0.0..=3.0;
            slope: "The side slope", Slope, 0.0..=10.0;
        }
    }
    for (place, base) in items("/works/dig/bases", &works.dig.bases, faults) {
        ranges! { faults, place, base; thickness: "The base thickness", Length, 0.0..=2.0; }
    }
    for (place, layer) in items("/works/dig/layers", &works.dig.layers, faults) {
        ranges! { faults, place, layer;
            // A layer may end above the rim, where the ground stands high.
            down_to: "The depth of a layer", Length, -10.0..=10.0;
            slope: "The side slope", Slope, 0.0..=4.0;
        }
    }
    if let Some(bench) = &works.dig.bench {
        ranges! { faults, "/works/dig/bench", bench;
            depth: "The depth of the bench", Length, -10.0..=10.0;
            width: "The width of the bench", Length, 0.0..=5.0;
        }
    }
    for (place, fitting) in items("/works/pipe/fittings", &works.pipe.fittings, faults) {
        ranges! { faults, place, fitting; depth: "The depth of a fitting", Length, 0.0..=6.0; }
        faults.position(&format!("{place}/at"), fitting.at);
    }
    faults.position("/works/dewatering/at", works.dewatering.at);
    faults.position("/works/spoil/at", works.spoil.at);
}

/// The items of a list with their places in the file; that there are too many is a fault.
fn items<'a, T>(
    place: &'a str,
    list: &'a [T],
    faults: &mut Faults,
) -> impl Iterator<Item = (String, &'a T)> + use<'a, T> {
    if list.len() > MOST {
        let count = list.len() as f64;
        faults.within(
            place,
            "How many there are",
            Measure::Count,
            count,
            0.0..=MOST as f64,
        );
    }
    let placed = move |(i, item)| (format!("{place}/{i}"), item);
    list.iter().enumerate().map(placed)
}
