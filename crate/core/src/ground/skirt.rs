//! The ground beyond the outermost spots: the elevation of the nearest point of the surveyed
//! area's edge, carried outwards.
//!
//! Off each edge of the convex hull stands a strip at right angles to it, and in each corner
//! between two strips a fan whose elevation is the corner's. Both are planar, so the surface
//! stays a set of triangles, and both are exactly "the elevation at the nearest known point".

use super::facet::Facet;
use crate::geom::{COORDINATE_LIMIT, Point, Vector};
use crate::math::{TURN, atan2};

/// How far the skirt reaches, meters. The farthest that two points within the coordinate limit
/// can be apart is 2.83 limits, and the chord of a fan piece of 60 degrees stands 0.87 of the
/// reach from its corner: four limits cover everything.
pub(super) const REACH: f64 = 4.0 * COORDINATE_LIMIT;

/// The widest piece of a corner fan, radians.
const WIDEST_FAN: f64 = TURN / 6.0;

/// The triangles beyond a hull, given counter-clockwise as points with elevations.
pub(super) fn skirt(hull: &[(Point, f64)]) -> Vec<Facet> {
    let edges: Vec<Edge> = hull
        .iter()
        .zip(hull.iter().cycle().skip(1))
        .filter_map(|(&from, &to)| Edge::between(from, to))
        .collect();
    let next = edges.iter().cycle().skip(1);
    let mut facets = Vec::with_capacity(4 * edges.len());
    for (edge, next) in edges.iter().zip(next) {
        facets.extend(edge.strip());
        facets.extend(edge.fan_before(next));
    }
    facets
}

/// One edge of the hull with the far ends of its strip.
struct Edge {
    from: (Point, f64),
    to: (Point, f64),
    /// Unit normal, away from the surveyed area.
    out: Vector,
}

impl Edge {
    fn between(from: (Point, f64), to: (Point, f64)) -> Option<Self> {
        let out = -(to.0 - from.0).left().unit()?;
        Some(Self { from, to, out })
    }

    /// The strip off this edge, as two triangles.
    fn strip(&self) -> [Facet; 2] {
        let (a, b) = (self.from, self.to);
        let (far_a, far_b) = (a.0 + self.out * REACH, b.0 + self.out * REACH);
        [
            assumed([a.0, far_a, far_b], [a.1, a.1, b.1]),
            assumed([b.0, a.0, far_b], [b.1, a.1, b.1]),
        ]
    }

    /// The fan in the corner between this strip and the next, in pieces.
    fn fan_before(&self, next: &Self) -> Vec<Facet> {
        let turn = atan2(self.out.cross(next.out), self.out.dot(next.out));
        if turn <= 0.0 {
            // The hull is convex: what looks like a turn the other way is rounding.
            return Vec::new();
        }
        let pieces = (turn / WIDEST_FAN).ceil().max(1.0);
        let start = self.out.angle();
        let (corner, elevation) = self.to;
        let ray = |k: f64| {
            // The first and the last ray are the strips' own edges, to the last digit.
            let direction = if k <= 0.0 {
                self.out
            } else if k >= pieces {
                next.out
            } else {
                Vector::at_angle(start + turn * k / pieces)
            };
            corner + direction * REACH
        };
        (0..pieces as u32)
            .map(f64::from)
            .map(|k| assumed([corner, ray(k), ray(k + 1.0)], [elevation; 3]))
            .collect()
    }
}

fn assumed(corners: [Point; 3], elevations: [f64; 3]) -> Facet {
    Facet {
        corners,
        elevations,
        known: false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_skirt_of_a_needle_covers_every_side_without_overlap() {
        let hull = [
            (Point::new(0.0, 0.0), 1.0),
            (Point::new(30.0, 0.1), 2.0),
            (Point::new(0.0, 0.2), 3.0),
        ];
        let facets = skirt(&hull);
        assert!(facets.iter().all(|f| f.plan_area() > 0.0));
        // Strips, and fans whose angles add up to a full turn: between the inscribed polygon
        // of 60 degree pieces and the disc.
        let perimeter: f64 = (0..3)
            .map(|i| hull[i].0.distance(hull[(i + 1) % 3].0))
            .sum();
        let fans: f64 = facets.iter().map(Facet::plan_area).sum::<f64>() - perimeter * REACH;
        assert!(fans > 2.59 * REACH * REACH && fans < core::f64::consts::PI * REACH * REACH);
    }
}
