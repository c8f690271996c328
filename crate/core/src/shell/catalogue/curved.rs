//! Shells of arcs that run into each other. Lengths in feet, depths in feet below the rim.
//!
//! Radii of the long arcs are chosen so that the outline just touches its nominal width.

use super::curve::{Round, around_bulges};
use super::draft::{Draft, disc};
use crate::geom::Vertex;
use crate::shell::record::{FacetKind, ShellRecord};

/// A seat 15 in under water.
const SEAT: f64 = 1.75;

/// Round treads 1 ft deep about a point of the wall, the first of the given radius.
fn round_steps(x: f64, y: f64, first: f64) -> [(f64, Vec<Vertex>); 3] {
    [
        (1.0, disc(x, y, first)),
        (1.0 + 10.0 / 12.0, disc(x, y, first + 1.0)),
        (2.0 + 8.0 / 12.0, disc(x, y, first + 2.0)),
    ]
}

/// An oval of four arcs: round ends joined by two long arcs that just touch the width.
fn oval(length: f64, width: f64, end: f64) -> Vec<Vertex> {
    let (x, y) = (length / 2.0 - end, width / 2.0);
    let long = (x * x + y * y - end * end) / (2.0 * (y - end));
    around_bulges(&[
        (Round::new(x, 0.0, end), long),
        (Round::new(-x, 0.0, end), long),
    ])
}

/// Every shell of arcs.
pub(super) fn shells() -> Vec<ShellRecord> {
    vec![
        tansy(),
        betony(),
        sorrel(),
        yarrow(),
        campion(),
        toadflax(),
        burdock(),
        mugwort(),
        ragwort(),
    ]
}

fn tansy() -> ShellRecord {
    Draft::new("Tansy", "Small oval, 10 x 22 ft.", oval(22.0, 10.0, 3.2))
        .three_part_floor([(-11.0, 3.5), (-2.0, 3.75), (5.0, 5.0), (11.0, 5.0)])
        .steps(round_steps(-11.0, 0.0, 2.5))
        .weighing(1_400.0)
}

fn betony() -> ShellRecord {
    Draft::new(
        "Betony",
        "Kidney, 12 x 24 ft.",
        around_bulges(&[
            (Round::new(6.75, -0.75, 5.25), 19.938_467),
            (Round::new(-7.25, -0.75, 4.75), -14.0),
        ]),
    )
    .three_part_floor([(-12.0, 3.5), (-2.0, 3.75), (5.0, 5.5), (12.0, 5.5)])
    .steps(round_steps(-11.75, -1.0, 2.75))
    .weighing(1_750.0)
}

fn sorrel() -> ShellRecord {
    Draft::new(
        "Sorrel",
        "Figure-eight, 12 x 26 ft.",
        around_bulges(&[
            (Round::new(7.0, 0.0, 6.0), -8.0),
            (Round::new(-7.5, 0.0, 5.5), -8.0),
        ]),
    )
    .three_part_floor([(-13.0, 3.5), (-1.0, 4.0), (5.0, 5.5), (13.0, 5.5)])
    .steps(round_steps(-13.0, 0.0, 2.5))
    .weighing(1_850.0)
}

fn yarrow() -> ShellRecord {
    Draft::new(
        "Yarrow",
        "Oval, 14 x 28 ft, with a seat at the deep end.",
        oval(28.0, 14.0, 4.5),
    )
    .three_part_floor([(-14.0, 3.5), (-2.0, 4.0), (6.0, 6.0), (14.0, 6.0)])
    .steps(round_steps(-14.0, 0.0, 3.0))
    .platform(FacetKind::Bench, SEAT, disc(15.5, 0.0, 4.0))
    .weighing(2_250.0)
}

fn campion() -> ShellRecord {
    Draft::new(
        "Campion",
        "Kidney, 14 x 28 ft.",
        around_bulges(&[
            (Round::new(7.75, -0.75, 6.25), 24.577_859),
            (Round::new(-8.5, -0.75, 5.5), -15.0),
        ]),
    )
    .three_part_floor([(-14.0, 3.5), (-2.5, 4.0), (5.5, 6.0), (14.0, 6.0)])
    .steps(round_steps(-14.0, -0.75, 3.0))
    .platform(FacetKind::Bench, SEAT, disc(1.0, 8.5, 3.5))
    .weighing(2_300.0)
}

fn toadflax() -> ShellRecord {
    Draft::new(
        "Toadflax",
        "Figure-eight, 14 x 30 ft.",
        around_bulges(&[
            (Round::new(8.0, 0.0, 7.0), -9.0),
            (Round::new(-9.0, 0.0, 6.0), -9.0),
        ]),
    )
    .three_part_floor([(-15.0, 3.5), (-2.0, 4.0), (5.5, 6.0), (15.0, 6.0)])
    .steps(round_steps(-15.0, 0.0, 3.0))
    .weighing(2_350.0)
}

fn burdock() -> ShellRecord {
    Draft::new(
        "Burdock",
        "Free form, 14 x 30 ft, with a bay along one side.",
        around_bulges(&[
            (Round::new(8.5, -0.25, 6.5), -9.0),
            (Round::new(-2.0, 2.25, 4.5), -12.0),
            (Round::new(-10.0, -1.75, 5.0), -30.0),
        ]),
    )
    .three_part_floor([(-15.0, 3.5), (-2.5, 4.0), (5.0, 6.0), (15.0, 6.0)])
    .steps(round_steps(-15.0, -2.0, 3.0))
    .platform(FacetKind::Bench, SEAT, disc(-1.5, 8.25, 4.0))
    .weighing(2_400.0)
}

fn mugwort() -> ShellRecord {
    Draft::new(
        "Mugwort",
        "Free form, 16 x 33 ft, with bays on both sides and a round ledge.",
        around_bulges(&[
            (Round::new(9.875, 1.2, 6.5), -10.0),
            (Round::new(0.125, 3.0, 5.0), -9.0),
            (Round::new(-10.875, -1.4, 5.5), -12.0),
            (Round::new(0.125, -4.2, 3.8), -10.0),
        ]),
    )
    .three_part_floor([(-16.5, 3.5), (-2.0, 4.0), (6.0, 6.25), (16.5, 6.25)])
    .platform(FacetKind::Ledge, 1.25, disc(-16.5, -1.5, 5.5))
    .platform(FacetKind::Step, 2.0, disc(-16.5, -1.5, 6.5))
    .platform(FacetKind::Step, 2.75, disc(-16.5, -1.5, 7.5))
    .platform(FacetKind::Bench, SEAT, disc(0.125, -9.0, 4.25))
    .weighing(2_800.0)
}

fn ragwort() -> ShellRecord {
    Draft::new(
        "Ragwort",
        "Kidney, 16 x 38 ft, with a ledge and a long seat.",
        around_bulges(&[
            (Round::new(11.75, -0.75, 7.25), 44.489_102),
            (Round::new(-13.0, -0.75, 6.0), -26.0),
        ]),
    )
    .three_part_floor([(-19.0, 3.5), (-3.0, 4.0), (7.0, 6.5), (19.0, 6.5)])
    .platform(FacetKind::Ledge, 1.25, disc(-19.5, -0.75, 6.0))
    .platform(FacetKind::Step, 2.0, disc(-19.5, -0.75, 7.0))
    .platform(FacetKind::Step, 2.75, disc(-19.5, -0.75, 8.0))
    .platform(FacetKind::Bench, SEAT, disc(19.5, -0.75, 3.5))
    .weighing(3_350.0)
}
