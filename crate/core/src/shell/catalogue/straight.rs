//! Shells with straight sides. Lengths in feet, depths in feet below the rim.

use super::curve::{rectangle, rounded};
use super::draft::{Draft, disc, rect};
use crate::geom::Vertex;
use crate::shell::record::{FacetKind, ShellRecord};

/// Depths of treads 10 in apart, the first 1 ft below the rim.
const TREADS: [f64; 5] = [
    1.0,
    1.0 + 10.0 / 12.0,
    2.0 + 8.0 / 12.0,
    3.5,
    4.0 + 4.0 / 12.0,
];

/// A seat 15 in under water.
const SEAT: f64 = 1.75;

/// A ledge 9 in under water.
const LEDGE: f64 = 1.25;

/// Straight treads 1 ft deep that lead down along x from a wall, between two values of y.
fn flight(wall: f64, low: f64, high: f64, treads: usize) -> Vec<(f64, Vec<Vertex>)> {
    TREADS
        .iter()
        .take(treads)
        .zip(1u8..)
        .map(|(depth, run)| (*depth, rect(wall - 1.0, low, wall + f64::from(run), high)))
        .collect()
}

/// Quarter-round treads 1 ft deep about a corner.
fn corner_steps(x: f64, y: f64, treads: usize) -> Vec<(f64, Vec<Vertex>)> {
    TREADS
        .iter()
        .take(treads)
        .zip(2u8..)
        .map(|(depth, radius)| (*depth, disc(x, y, f64::from(radius))))
        .collect()
}

/// Every shell with straight sides.
pub(super) fn shells() -> Vec<ShellRecord> {
    vec![
        pignut(),
        vetch(),
        sedge(),
        fescue(),
        comfrey(),
        speedwell(),
        hawkweed(),
        bracken(),
        knapweed(),
    ]
}

fn pignut() -> ShellRecord {
    Draft::new(
        "Pignut",
        "Small plunge rectangle, 10 x 20 ft, level floor, seat across one end.",
        rectangle(20.0, 10.0, 1.0),
    )
    .floor(&[(-10.0, 5.0, FacetKind::Deep), (10.0, 5.0, FacetKind::Deep)])
    .platform(FacetKind::Bench, SEAT, rect(8.25, -6.0, 11.0, 6.0))
    .steps(flight(-10.0, -6.0, -1.5, 5))
    .weighing(1_500.0)
}

fn vetch() -> ShellRecord {
    Draft::new(
        "Vetch",
        "Rectangle, 12 x 24 ft, with a ledge across the shallow end.",
        rectangle(24.0, 12.0, 0.5),
    )
    .three_part_floor([(-12.0, 3.5), (1.0, 3.75), (7.0, 5.5), (12.0, 5.5)])
    .platform(FacetKind::Ledge, LEDGE, rect(-13.0, -7.0, -6.0, 7.0))
    .platform(FacetKind::Step, 2.0, rect(-13.0, -2.0, -5.0, 2.0))
    .platform(FacetKind::Step, 2.75, rect(-13.0, -2.0, -4.0, 2.0))
    .weighing(2_100.0)
}

fn sedge() -> ShellRecord {
    Draft::new(
        "Sedge",
        "Long narrow rectangle for swimming, 10 x 36 ft.",
        rectangle(36.0, 10.0, 0.5),
    )
    .floor(&[
        (-18.0, 4.0, FacetKind::Slope),
        (12.0, 5.5, FacetKind::Deep),
        (18.0, 5.5, FacetKind::Deep),
    ])
    .steps(corner_steps(-18.0, 5.0, 4))
    .weighing(2_600.0)
}

fn fescue() -> ShellRecord {
    Draft::new(
        "Fescue",
        "Rectangle for games, 13 x 28 ft, level floor of 4 ft 6 in.",
        rectangle(28.0, 13.0, 1.5),
    )
    .floor(&[(-14.0, 4.5, FacetKind::Deep), (14.0, 4.5, FacetKind::Deep)])
    .steps(corner_steps(-14.0, -6.5, 4))
    .platform(FacetKind::Bench, SEAT, disc(14.0, 6.5, 3.0))
    .weighing(2_550.0)
}

fn comfrey() -> ShellRecord {
    Draft::new(
        "Comfrey",
        "Rectangle with wide round corners, 14 x 30 ft.",
        rectangle(30.0, 14.0, 3.0),
    )
    .three_part_floor([(-15.0, 3.5), (-2.0, 4.0), (7.0, 6.0), (15.0, 6.0)])
    .steps(flight(-15.0, -4.0, 4.0, 3))
    .weighing(2_900.0)
}

fn speedwell() -> ShellRecord {
    Draft::new(
        "Speedwell",
        "Rectangle with clipped corners, 14 x 32 ft, seats in the deep corners.",
        rounded(&[
            (-13.0, -7.0, 0.5),
            (13.0, -7.0, 0.5),
            (16.0, -4.0, 0.5),
            (16.0, 4.0, 0.5),
            (13.0, 7.0, 0.5),
            (-13.0, 7.0, 0.5),
            (-16.0, 4.0, 0.5),
            (-16.0, -4.0, 0.5),
        ]),
    )
    .three_part_floor([(-16.0, 3.5), (-3.0, 4.0), (6.0, 6.0), (16.0, 6.0)])
    .steps(flight(-16.0, -4.0, 4.0, 3))
    .platform(FacetKind::Bench, SEAT, disc(16.0, -7.0, 4.5))
    .platform(FacetKind::Bench, SEAT, disc(16.0, 7.0, 4.5))
    .weighing(3_000.0)
}

fn hawkweed() -> ShellRecord {
    Draft::new(
        "Hawkweed",
        "L, 16 x 34 ft, the short arm at the shallow end.",
        rounded(&[
            (-17.0, -8.0, 1.0),
            (17.0, -8.0, 1.0),
            (17.0, 3.0, 1.0),
            (-5.0, 3.0, 2.0),
            (-5.0, 8.0, 1.0),
            (-17.0, 8.0, 1.0),
        ]),
    )
    .three_part_floor([(-17.0, 3.5), (-3.0, 4.0), (6.0, 6.0), (17.0, 6.0)])
    .platform(FacetKind::Ledge, LEDGE, rect(-18.0, 3.0, -2.5, 9.0))
    .steps(flight(-17.0, -9.0, -4.0, 3))
    .platform(FacetKind::Bench, SEAT, rect(15.25, -9.0, 18.0, 4.0))
    .weighing(3_200.0)
}

fn bracken() -> ShellRecord {
    Draft::new(
        "Bracken",
        "Rectangle with a round deep end, 16 x 36 ft.",
        rounded(&[
            (-18.0, -8.0, 1.0),
            (18.0, -8.0, 8.0),
            (18.0, 8.0, 8.0),
            (-18.0, 8.0, 1.0),
        ]),
    )
    .three_part_floor([(-18.0, 3.5), (-4.0, 4.0), (7.0, 6.5), (18.0, 6.5)])
    .steps(corner_steps(-18.0, -8.0, 3))
    .platform(FacetKind::Bench, SEAT, rect(-19.0, 6.25, -8.0, 9.0))
    .weighing(3_800.0)
}

fn knapweed() -> ShellRecord {
    Draft::new(
        "Knapweed",
        "Rectangle, 16 x 40 ft, with a ledge, steps and a deep-end seat.",
        rectangle(40.0, 16.0, 1.0),
    )
    .three_part_floor([(-20.0, 3.5), (-3.0, 4.0), (8.0, 6.5), (20.0, 6.5)])
    .platform(FacetKind::Ledge, LEDGE, rect(-21.0, -9.0, -13.0, 9.0))
    .platform(FacetKind::Step, 2.0, rect(-21.0, -3.0, -12.0, 3.0))
    .platform(FacetKind::Step, 2.75, rect(-21.0, -3.0, -11.0, 3.0))
    .platform(FacetKind::Bench, SEAT, rect(18.25, -9.0, 21.0, 9.0))
    .weighing(4_500.0)
}
