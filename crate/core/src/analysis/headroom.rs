//! How far the ground stands above the rim near the shell.

use crate::dig;
use crate::geom::{Point, Pose, Vector};
use crate::ground::{Facet, Ground};
use crate::shell::Shell;
use crate::site::DigSettings;

/// Headroom comes in whole steps of this, meters, so that a shape of the hole serves a whole
/// stretch of a drag and is the same one each time the shell comes by (our choice).
const STEP: f64 = 1.0;

/// The most headroom, meters: ground so high above the rim is no place for a shell, and a
/// side slope flatter than the ground would never come out of it (our choice).
const MOST: f64 = 12.0;

/// How far the ground stands above the rim anywhere the hole can reach, meters, rounded up.
///
/// The hole reaches the farther the higher the ground stands, so the two are found in turns.
pub(super) fn needed(
    shell: &Shell,
    settings: &DigSettings,
    ground: &Ground,
    pose: &Pose,
    coping_elevation: f64,
) -> f64 {
    let size = shell
        .footprint
        .rings()
        .flat_map(|ring| &ring.0)
        .map(|p| (*p - Point::default()).length())
        .fold(0.0, f64::max);
    let hole = dig::reach(shell, settings);
    let mut headroom = 0.0;
    while headroom < MOST {
        let reach = size + hole.foot + hole.slope * (hole.depth + headroom);
        let corner = Vector::new(reach, reach);
        let highest = highest(ground, pose.at - corner, pose.at + corner);
        let needed = ((highest - coping_elevation) / STEP).ceil() * STEP;
        if needed <= headroom {
            break;
        }
        headroom = needed.min(MOST);
    }
    headroom
}

/// The highest ground within an upright rectangle, meters.
fn highest(ground: &Ground, low: Point, high: Point) -> f64 {
    ground
        .facets_near(low, high)
        .flat_map(|facet| clipped(facet, low, high))
        .map(|[_, _, z]| z)
        .fold(f64::NEG_INFINITY, f64::max)
}

/// The corners `[x, y, z]` of the part of a triangle within an upright rectangle.
fn clipped(facet: &Facet, low: Point, high: Point) -> Vec<[f64; 3]> {
    let corner = |(p, z): (&Point, &f64)| [p.x, p.y, *z];
    let whole: Vec<[f64; 3]> = facet
        .corners
        .iter()
        .zip(&facet.elevations)
        .map(corner)
        .collect();
    // The edges of the rectangle: a direction inwards, and how far along it the edge lies.
    let edges = [
        (Vector::new(1.0, 0.0), low.x),
        (Vector::new(-1.0, 0.0), -high.x),
        (Vector::new(0.0, 1.0), low.y),
        (Vector::new(0.0, -1.0), -high.y),
    ];
    edges.into_iter().fold(whole, |corners, (inwards, edge)| {
        let inside = |[x, y, _]: [f64; 3]| inwards.dot(Vector::new(x, y)) - edge;
        let mut kept = Vec::with_capacity(corners.len() + 1);
        let next = corners.iter().cycle().skip(1);
        for (a, b) in corners.iter().zip(next) {
            let (da, db) = (inside(*a), inside(*b));
            if da >= 0.0 {
                kept.push(*a);
            }
            if (da < 0.0) != (db < 0.0) {
                let t = da / (da - db);
                let mix = |from: f64, to: f64| from + (to - from) * t;
                let ([ax, ay, az], [bx, by, bz]) = (*a, *b);
                kept.push([mix(ax, bx), mix(ay, by), mix(az, bz)]);
            }
        }
        kept
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_triangle_is_looked_at_within_the_rectangle_alone() {
        // z = x over a large triangle.
        let facet = Facet {
            corners: [
                Point::new(-100.0, -100.0),
                Point::new(100.0, -100.0),
                Point::new(0.0, 200.0),
            ],
            elevations: [-100.0, 100.0, 0.0],
            known: true,
        };
        let corners = clipped(&facet, Point::new(1.0, 2.0), Point::new(3.0, 5.0));
        assert_eq!(corners.len(), 4);
        let highest = corners.iter().map(|c| c[2]).fold(f64::MIN, f64::max);
        assert!((highest - 3.0).abs() < 1e-12);
        assert!(clipped(&facet, Point::new(300.0, 0.0), Point::new(301.0, 1.0)).is_empty());
    }
}
