//! What other libraries say of the same figures (the ground's peers: [`ground`]; the sun's: [`sun`]).
//!
//! The core's plane geometry against GEOS (by way of Shapely) on 200 random outlines.
//!
//! Source: computed independently with the versions named in `shapely_cases.json`, which
//! `make_cases.py` builds and `check_shapely.py` keeps honest. The two share no code and no
//! method: GEOS overlays in floating point, and a widened area is its union of the buffers of all edges.
#![allow(missing_docs)]
// Helpers outside `#[test]` functions count as plain code for these lints; a panic here fails a test.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod ground;
mod sun;

use batterboard_core::geom::distance::{Figure, nearest};
use batterboard_core::geom::{
    Outline, Point, Region, VOLUME_TOLERANCE, Vector, Vertex, boolean, offset,
};
use serde::Deserialize;

/// Grid of the overlay on a figure 50 m across, meters: an area may differ by this times the
/// length of its edge.
const GRID: f64 = 1e-7;

/// Chord error of round corners here, meters.
const CORNER_TOLERANCE: f64 = 1e-5;

#[derive(Deserialize)]
struct Peers {
    source: String,
    cases: Vec<Case>,
}

/// One outline, what GEOS says of it, and of it and the next outline moved by `shift`.
#[derive(Deserialize)]
struct Case {
    ring: Vec<Point>,
    area: f64,
    perimeter: f64,
    centroid: Point,
    widened: Vec<Widened>,
    shift: [f64; 2],
    union: f64,
    intersection: f64,
    difference: f64,
    apart: f64,
}

#[derive(Deserialize)]
struct Widened {
    distance: f64,
    area: f64,
    perimeter: f64,
    parts: usize,
    holes: usize,
}

fn peers() -> Peers {
    let peers: Peers = serde_json::from_str(include_str!("shapely_cases.json")).unwrap();
    assert!(peers.source.contains("GEOS"));
    assert_eq!(peers.cases.len(), 200);
    peers
}

/// The outline through the door: a clockwise one is turned round there.
fn region(ring: &[Point]) -> Region {
    let vertices = ring.iter().map(|p| Vertex::line(p.x, p.y)).collect();
    Outline::check(vertices).unwrap().region(VOLUME_TOLERANCE)
}

/// Each case with its number, its region, and the next outline moved into place.
fn each(mut check: impl FnMut(usize, &Case, Region, Region)) {
    let cases = peers().cases;
    for (i, case) in cases.iter().enumerate() {
        let by = Vector::new(case.shift[0], case.shift[1]);
        let next = &cases[(i + 1) % cases.len()].ring;
        let moved: Vec<Point> = next.iter().map(|p| *p + by).collect();
        check(i, case, region(&case.ring), region(&moved));
    }
}

#[track_caller]
fn close(what: &str, case: usize, ours: f64, theirs: f64, tolerance: f64) {
    assert!(
        (ours - theirs).abs() <= tolerance,
        "case {case}: {what} is {ours}, GEOS says {theirs}, allowed {tolerance}"
    );
}

#[test]
fn areas_lengths_and_centroids_agree() {
    each(|i, case, region, _| {
        close("area", i, region.area(), case.area, 1e-9);
        close("perimeter", i, region.perimeter(), case.perimeter, 1e-9);
        let off = region.centroid().unwrap().distance(case.centroid);
        close("centroid", i, off, 0.0, 1e-9);
    });
}

#[test]
fn overlays_agree() {
    each(|i, case, a, b| {
        let tolerance = GRID * (a.perimeter() + b.perimeter());
        let both = [
            ("union", boolean::union(&a, &b), case.union),
            ("overlap", boolean::intersection(&a, &b), case.intersection),
            ("rest", boolean::difference(&a, &b), case.difference),
        ];
        for (what, ours, theirs) in both {
            close(what, i, ours.area(), theirs, tolerance);
        }
    });
}

#[test]
fn distances_agree() {
    each(|i, case, a, b| {
        let ours = nearest(Figure::Area(&a), Figure::Area(&b)).unwrap();
        close("distance", i, ours.distance.max(0.0), case.apart, 1e-9);
        // Their areas overlap exactly where ours are less than nothing apart.
        assert_eq!(ours.distance < 0.0, case.intersection > 0.0, "case {i}");
    });
}

#[test]
fn widened_and_narrowed_outlines_agree() {
    each(|i, case, region, _| {
        for theirs in &case.widened {
            let ours = offset::offset_region(&region, theirs.distance, CORNER_TOLERANCE);
            let what = |name: &str| format!("{name} at {} m", theirs.distance);
            let holes: usize = ours.polygons.iter().map(|p| p.holes.len()).sum();
            assert_eq!(
                ours.polygons.len(),
                theirs.parts,
                "case {i}: {}",
                what("parts")
            );
            assert_eq!(holes, theirs.holes, "case {i}: {}", what("holes"));
            // Each side's round corners are chords of their own.
            let tolerance = 2.0 * CORNER_TOLERANCE * theirs.perimeter.max(1.0);
            close(&what("area"), i, ours.area(), theirs.area, tolerance);
            close(
                &what("perimeter"),
                i,
                ours.perimeter(),
                theirs.perimeter,
                1e-3,
            );
        }
    });
}
