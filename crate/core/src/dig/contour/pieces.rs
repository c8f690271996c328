//! What is gathered from the pieces of a bottom, and what is left out, against every piece widened
//! by itself.

use super::super::bottom::Bottom;
use super::*;
use crate::geom::Region;
use crate::geom::offset::offset_tapered_union;
use crate::geom::{Ring, Vector};
use crate::shell::{DepthPlane, Shell, catalogue};

/// A strip 1 m long from `x` with a depth at each end, or a triangle of three such corners.
fn facet(corners: &[(f64, f64, f64)]) -> (Region, DepthPlane) {
    let at = |i: usize| Point::new(corners[i].0, corners[i].1);
    let (u, v) = (at(1) - at(0), at(2) - at(0));
    let (du, dv) = (corners[1].2 - corners[0].2, corners[2].2 - corners[0].2);
    let gradient = Vector::new(v.y * du - u.y * dv, u.x * dv - v.x * du) * (1.0 / u.cross(v));
    let at_origin = corners[0].2 - gradient.dot(at(0) - Point::default());
    let ring = Ring(corners.iter().map(|(x, y, _)| Point::new(*x, *y)).collect());
    let plane = DepthPlane {
        at_origin,
        gradient,
    };
    (Region::from_ring(ring), plane)
}

fn strip(x: f64, from: f64, to: f64) -> (Region, DepthPlane) {
    let y = 2.0;
    facet(&[
        (x, 0.0, from),
        (x + 1.0, 0.0, to),
        (x + 1.0, y, to),
        (x, y, from),
    ])
}

fn bottom(facets: Vec<(Region, DepthPlane)>) -> Bottom {
    Bottom::of(Region::default(), facets, 0.0, 0.2, 1.0)
}

#[test]
fn a_bank_between_two_floors_has_nothing_of_its_own() {
    let between = bottom(vec![
        strip(0.0, 1.0, 1.0),
        strip(1.0, 1.0, 2.5),
        strip(2.0, 2.5, 2.5),
    ]);
    assert!(between.skin().steep.is_empty());
    assert_eq!(between.skin().groups.len(), 2);
    // On a step down it stands as high as at its own foot, and more.
    let stepped = bottom(vec![strip(0.0, 1.0, 2.5), strip(1.0, 2.6, 2.6)]);
    assert!(stepped.skin().steep.is_empty());
    let raised = bottom(vec![strip(0.0, 1.0, 2.5), strip(1.0, 2.4, 2.4)]);
    assert_eq!(raised.skin().steep, [0]);
}

#[test]
fn a_bank_that_ends_in_the_open_or_in_a_valley_keeps_its_own() {
    let open = bottom(vec![strip(0.0, 1.0, 1.0), strip(1.0, 1.0, 2.5)]);
    assert_eq!(open.skin().steep, [1]);
    let valley = bottom(vec![strip(0.0, 1.0, 2.5), strip(1.0, 2.5, 1.0)]);
    assert_eq!(valley.skin().steep, [0, 1]);
}

/// What every piece that lies so deep widens to by itself.
fn piece_by_piece(bottom: &Bottom, depth: f64) -> Region {
    let mut rings = Vec::new();
    for piece in &bottom.pieces {
        let radius = |p: &Point| {
            (
                *p,
                bottom.reach + bottom.slope * (piece.plane.depth(*p) - depth),
            )
        };
        for ring in deep_part(piece, depth).rings() {
            rings.push(ring.0.iter().map(radius).collect());
        }
    }
    offset_tapered_union(&[], &rings, 1e-4)
}

/// Corners of faces beyond an edge once left cuts of no width in the contour, 0.8 m long.
#[test]
fn edges_have_no_seams() {
    for record in catalogue::all() {
        let shell = Shell::check(record).unwrap().0;
        let facets = shell.facets.iter().map(|f| (f.region.clone(), f.plane));
        let bottom = Bottom::of(shell.footprint.clone(), facets, 0.1, 0.25, 1.0);
        for depth in [0.93, 1.03, 1.13] {
            let plain = piece_by_piece(&bottom, depth).perimeter();
            let quick = contour(&bottom, depth, 1e-4).perimeter();
            assert!(
                (quick - plain).abs() < 0.01,
                "{depth}: {quick} is not {plain}"
            );
        }
    }
}

/// Floors of triangles at uneven depths, steep and gentle: the contours against those of
/// every piece widened by itself.
#[test]
fn what_is_left_out_is_held_by_the_rest() {
    let mut seed = 7_u32;
    let mut uneven = || {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        f64::from(seed >> 8) / f64::from(1 << 24)
    };
    let mut left_out = 0;
    for _ in 0..12 {
        let depths: Vec<f64> = (0..16).map(|_| 1.0 + 1.5 * uneven()).collect();
        let corner = |i: usize, k: usize| {
            let (x, y) = (i as f64 * 1.1, k as f64 * 0.9);
            (x, y, depths[i * 4 + k])
        };
        let mut facets = Vec::new();
        for (i, k) in (0..3).flat_map(|i| (0..3).map(move |k| (i, k))) {
            let [a, b] = [corner(i, k), corner(i + 1, k)];
            let [c, d] = [corner(i + 1, k + 1), corner(i, k + 1)];
            facets.extend([facet(&[a, b, c]), facet(&[a, c, d])]);
        }
        let bottom = bottom(facets);
        let gentle: usize = bottom.skin().groups.iter().map(|g| g.members.len()).sum();
        left_out += 18 - gentle - bottom.skin().steep.len();
        for depth in [0.3, 1.0, 1.4, 1.8, 2.2] {
            let plain = piece_by_piece(&bottom, depth).area();
            let quick = contour(&bottom, depth, 1e-4).area();
            assert!(
                (quick - plain).abs() < 2e-3,
                "{depth}: {quick} is not {plain}"
            );
        }
    }
    assert!(left_out > 20, "{left_out}");
}
