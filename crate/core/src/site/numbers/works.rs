//! The ranges of the settings of the work.

use super::Door;
use crate::site::Works;

/// How many sides, zones, layers or fittings a plan may name; each is looked at on every frame.
const MOST: usize = 100;

/// Every setting that is out of range.
pub(super) fn check(w: &Works, door: &mut Door) {
    let (dig, pipe, spoil) = (&w.dig, &w.pipe, &w.spoil);
    let figures = [
        ("dig/over_dig", "The over-dig", dig.over_dig, 0.0, 3.0),
        (
            "dig/base_thickness",
            "The base thickness",
            dig.base_thickness,
            0.0,
            2.0,
        ),
        (
            "stone/density",
            "The density of the stone",
            w.stone.density,
            500.0,
            4000.0,
        ),
        (
            "stone/voids",
            "The voids of the stone",
            w.stone.voids,
            0.0,
            0.8,
        ),
        ("stone/lift", "A lift of stone", w.stone.lift, 0.05, 3.0),
        (
            "collar/width",
            "The collar's width",
            w.collar.width,
            0.0,
            3.0,
        ),
        (
            "collar/depth",
            "The collar's depth",
            w.collar.depth,
            0.0,
            3.0,
        ),
        (
            "collar/top_below_rim",
            "The depth of the collar's top",
            w.collar.top_below_rim,
            0.0,
            2.0,
        ),
        (
            "collar/bars",
            "The rods in the collar",
            w.collar.bars,
            0.0,
            20.0,
        ),
        ("deck/width", "The deck's width", w.deck.width, 0.0, 20.0),
        (
            "deck/thickness",
            "The deck's thickness",
            w.deck.thickness,
            0.0,
            1.0,
        ),
        ("deck/bed", "The deck's bed", w.deck.bed, 0.0, 1.0),
        ("deck/fall", "The deck's fall", w.deck.fall, 0.0, 0.2),
        (
            "deck/joint_spacing",
            "The spacing of joints",
            w.deck.joint_spacing,
            0.3,
            20.0,
        ),
        (
            "deck/rod_spacing",
            "The spacing of rods",
            w.deck.rod_spacing,
            0.0,
            5.0,
        ),
        (
            "ties/spacing",
            "The spacing of ties",
            w.ties.spacing,
            0.05,
            5.0,
        ),
        (
            "ties/length",
            "The length of a tie",
            w.ties.length,
            0.0,
            5.0,
        ),
        (
            "dewatering/diameter",
            "The pipe's diameter",
            w.dewatering.diameter,
            0.02,
            1.0,
        ),
        (
            "dewatering/above_rim",
            "The pipe's height above the rim",
            w.dewatering.above_rim,
            -1.0,
            2.0,
        ),
        (
            "dewatering/sump_depth",
            "The depth of the sump",
            w.dewatering.sump_depth,
            0.0,
            3.0,
        ),
        (
            "dewatering/sump_width",
            "The width of the sump",
            w.dewatering.sump_width,
            0.1,
            3.0,
        ),
        (
            "haul/box_volume",
            "The volume of a truck's box",
            w.haul.box_volume,
            0.5,
            50.0,
        ),
        (
            "haul/payload",
            "The payload",
            w.haul.payload,
            500.0,
            60_000.0,
        ),
        (
            "haul/cycle",
            "The time of a trip",
            w.haul.cycle,
            60.0,
            86_400.0,
        ),
        (
            "haul/trucks",
            "The trucks that haul",
            w.haul.trucks,
            1.0,
            100.0,
        ),
        ("waste/stone", "The waste of stone", w.waste.stone, 0.0, 1.0),
        (
            "waste/concrete",
            "The waste of concrete",
            w.waste.concrete,
            0.0,
            1.0,
        ),
        ("waste/pipe", "The waste of pipe", w.waste.pipe, 0.0, 1.0),
        (
            "waste/fabric",
            "The waste of fabric",
            w.waste.fabric,
            0.0,
            1.0,
        ),
        ("waste/rods", "The waste of rods", w.waste.rods, 0.0, 1.0),
        (
            "pad/thickness",
            "The pad's thickness",
            w.pad.thickness,
            0.0,
            1.0,
        ),
        ("pad/bed", "The pad's bed", w.pad.bed, 0.0, 1.0),
        ("pipe/flow", "The flow", pipe.flow, 0.0001, 0.1),
        (
            "pipe/coefficient",
            "The coefficient C",
            pipe.coefficient,
            50.0,
            200.0,
        ),
        ("pipe/bend", "The length of a bend", pipe.bend, 0.0, 20.0),
        (
            "pipe/strap_spacing",
            "The spacing of straps",
            pipe.strap_spacing,
            0.1,
            10.0,
        ),
        (
            "pipe/off_wall",
            "The pipe's distance from the wall",
            pipe.off_wall,
            0.0,
            2.0,
        ),
        (
            "pipe/encasement",
            "The stone round the pipe",
            pipe.encasement,
            0.0,
            1.0,
        ),
        (
            "pipe/trench_width",
            "The width of a trench",
            pipe.trench_width,
            0.05,
            3.0,
        ),
        (
            "pipe/trench_depth",
            "The depth of a trench",
            pipe.trench_depth,
            0.05,
            3.0,
        ),
        (
            "grading/bank_slope",
            "The slope of the banks",
            w.grading.bank_slope,
            0.0,
            20.0,
        ),
        (
            "grading/retained_limit",
            "The retained height",
            w.grading.retained_limit,
            0.0,
            10.0,
        ),
        (
            "spoil/piled",
            "The share that is piled",
            spoil.piled,
            0.0,
            1.0,
        ),
        (
            "spoil/repose",
            "The slope of the pile",
            spoil.repose,
            0.5,
            5.0,
        ),
        (
            "spoil/most_height",
            "The height of the pile",
            spoil.most_height,
            0.2,
            20.0,
        ),
        // 2 ft at least (29 CFR 1926.651(j)(2)); the last digits are rounding of 2 ft.
        (
            "spoil/back",
            "The distance of the pile from the edge",
            spoil.back,
            0.609_599,
            30.0,
        ),
        (
            "doubt/swell",
            "The doubt of the swell",
            w.doubt.swell,
            0.0,
            1.0,
        ),
        (
            "doubt/over_dig",
            "The doubt of the over-dig",
            w.doubt.over_dig,
            0.0,
            1.0,
        ),
        (
            "doubt/ground",
            "The doubt of the ground",
            w.doubt.ground,
            0.0,
            2.0,
        ),
    ];
    for (member, what, value, low, high) in figures {
        door.within(&format!("/works/{member}"), what, value, low, high);
    }
    let told = [
        ("dig/side_slope", "The side slope", dig.side_slope, 0.0, 4.0),
        ("dig/swell", "The swell", dig.swell, 1.0, 3.0),
        (
            "dig/density",
            "The weight of the spoil",
            dig.density,
            500.0,
            4000.0,
        ),
        (
            "dig/upright_below",
            "The depth of the upright part",
            dig.upright_below,
            0.0,
            10.0,
        ),
        (
            "groundwater",
            "The elevation of groundwater",
            w.groundwater,
            -500.0,
            9000.0,
        ),
    ];
    for (member, what, value, low, high) in told {
        if let Some(value) = value {
            door.within(&format!("/works/{member}"), what, value, low, high);
        }
    }
    lists(w, door);
}

/// The settings that come in lists.
fn lists(w: &Works, door: &mut Door) {
    let dig = &w.dig;
    let sizes = [
        ("dig/sides", dig.sides.len()),
        ("dig/bases", dig.bases.len()),
        ("dig/layers", dig.layers.len()),
        ("pipe/fittings", w.pipe.fittings.len()),
    ];
    for (member, count) in sizes {
        if count > MOST {
            let place = format!("/works/{member}");
            door.within(&place, "How many there are", count as f64, 0.0, MOST as f64);
        }
    }
    for (i, side) in dig.sides.iter().enumerate() {
        if let Some(over_dig) = side.over_dig {
            door.within(
                &format!("/works/dig/sides/{i}/over_dig"),
                "The over-dig",
                over_dig,
                0.0,
                3.0,
            );
        }
        if let Some(slope) = side.slope {
            door.within(
                &format!("/works/dig/sides/{i}/slope"),
                "The side slope",
                slope,
                0.0,
                10.0,
            );
        }
    }
    for (i, base) in dig.bases.iter().enumerate() {
        let what = "The base thickness";
        door.within(
            &format!("/works/dig/bases/{i}/thickness"),
            what,
            base.thickness,
            0.0,
            2.0,
        );
    }
    for (i, layer) in dig.layers.iter().enumerate() {
        // A layer may end above the rim, where the ground stands high.
        let what = "The depth of a layer";
        door.within(
            &format!("/works/dig/layers/{i}/down_to"),
            what,
            layer.down_to,
            -10.0,
            10.0,
        );
        if let Some(slope) = layer.slope {
            door.within(
                &format!("/works/dig/layers/{i}/slope"),
                "The side slope",
                slope,
                0.0,
                4.0,
            );
        }
    }
    if let Some(bench) = dig.bench {
        door.within(
            "/works/dig/bench/depth",
            "The depth of the bench",
            bench.depth,
            -10.0,
            10.0,
        );
        door.within(
            "/works/dig/bench/width",
            "The width of the bench",
            bench.width,
            0.0,
            5.0,
        );
    }
    for (i, fitting) in w.pipe.fittings.iter().enumerate() {
        let what = "The depth of a fitting";
        door.within(
            &format!("/works/pipe/fittings/{i}/depth"),
            what,
            fitting.depth,
            0.0,
            6.0,
        );
        let at = format!("/works/pipe/fittings/{i}/at");
        door.position(&at, fitting.at);
    }
    if let Some(at) = w.dewatering.at {
        door.position("/works/dewatering/at", at);
    }
    if let Some(at) = w.spoil.at {
        door.position("/works/spoil/at", at);
    }
}
