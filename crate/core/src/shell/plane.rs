//! Planes of depth: fitted through a facet's vertices, summed over its area and its edges.

use crate::geom::{Point, Region, Ring, Vector};

/// A plane of depths below the rim: `depth(p) = at_origin + gradient . p`, shell frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthPlane {
    /// Depth at the frame's origin, meters.
    pub at_origin: f64,
    /// Change of depth per meter along x and y.
    pub gradient: Vector,
}

impl DepthPlane {
    /// The same depth everywhere, meters.
    pub const fn level(depth: f64) -> Self {
        Self {
            at_origin: depth,
            gradient: Vector::new(0.0, 0.0),
        }
    }

    /// The plane nearest to the given points and depths, by least squares of the depth.
    ///
    /// Points on one line leave the tilt across that line open; it is then level across.
    /// No points at all give the level plane at the rim.
    pub fn through(points: &[(Point, f64)]) -> Self {
        let n = points.len().max(1) as f64;
        let mean = |pick: fn(&(Point, f64)) -> f64| points.iter().map(pick).sum::<f64>() / n;
        let middle = Point::new(mean(|(p, _)| p.x), mean(|(p, _)| p.y));
        // Depths are taken from the first one, so that a level facet comes out level exactly.
        let first = points.first().map_or(0.0, |(_, d)| *d);
        let depth = first + points.iter().map(|(_, d)| d - first).sum::<f64>() / n;

        let (mut xx, mut xy, mut yy, mut xd, mut yd) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (p, d) in points {
            let (r, e) = (*p - middle, d - first);
            xx += r.x * r.x;
            xy += r.x * r.y;
            yy += r.y * r.y;
            xd += r.x * e;
            yd += r.y * e;
        }
        let determinant = xx * yy - xy * xy;
        let spread = xx + yy;
        // On one line to within a millionth of its length: solve along that line only.
        let gradient = if determinant > 1e-12 * spread * spread {
            Vector::new(
                (xd * yy - yd * xy) / determinant,
                (yd * xx - xd * xy) / determinant,
            )
        } else if spread > 0.0 {
            Vector::new(xd / spread, yd / spread)
        } else {
            Vector::default()
        };
        Self {
            at_origin: depth - gradient.x * middle.x - gradient.y * middle.y,
            gradient,
        }
    }

    /// Depth below the rim at a point of the shell frame, meters.
    pub fn depth(&self, p: Point) -> f64 {
        self.at_origin + self.gradient.x * p.x + self.gradient.y * p.y
    }

    /// Area along the slope per unit of plan area: 1 for a level floor.
    pub fn stretch(&self) -> f64 {
        (1.0 + self.gradient.dot(self.gradient)).sqrt()
    }

    /// Volume between this plane and the level `level` meters below the rim, over the part
    /// of the region where the plane lies below that level, m3. Exact for straight edges.
    pub fn volume_below(&self, region: &Region, level: f64) -> f64 {
        region
            .rings()
            .map(|ring| self.ring_volume(ring, level))
            .sum()
    }

    /// The signed share of one ring: holes run clockwise and take away.
    fn ring_volume(&self, ring: &Ring, level: f64) -> f64 {
        // The ring clipped to where the plane is below the level. Where the ring is not
        // convex the clip leaves edges that run back and forth along the level line; they
        // enclose nothing, so the signed sum stays exact.
        let below = |p: Point| self.depth(p) - level;
        let mut kept: Vec<(Point, f64)> = Vec::with_capacity(ring.0.len() + 2);
        for (from, to) in ring.edges() {
            let (a, b) = (below(from), below(to));
            if a >= 0.0 {
                kept.push((from, a));
            }
            if (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0) {
                kept.push((from + (to - from) * (a / (a - b)), 0.0));
            }
        }
        // A fan of triangles; the mean of a plane over a triangle is that of its corners.
        let Some(&(apex, h)) = kept.first() else {
            return 0.0;
        };
        kept.iter()
            .zip(kept.iter().skip(1))
            .map(|((p, a), (q, b))| (*p - apex).cross(*q - apex) / 2.0 * (h + a + b) / 3.0)
            .sum()
    }
}

/// The integral of the positive part of a quantity that varies evenly from `a` to `b` over
/// a length.
pub(super) fn positive_part(length: f64, a: f64, b: f64) -> f64 {
    let (low, high) = if a < b { (a, b) } else { (b, a) };
    if low >= 0.0 {
        length * (low + high) / 2.0
    } else if high > 0.0 {
        length * high * high / (2.0 * (high - low))
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(size: f64) -> Vec<Point> {
        vec![
            Point::new(0.0, 0.0),
            Point::new(size, 0.0),
            Point::new(size, size),
            Point::new(0.0, size),
        ]
    }

    #[test]
    fn the_plane_through_coplanar_points_is_found_exactly() {
        let plane = DepthPlane {
            at_origin: 1.2,
            gradient: Vector::new(0.25, -0.1),
        };
        let points: Vec<_> = square(4.0).iter().map(|p| (*p, plane.depth(*p))).collect();
        let found = DepthPlane::through(&points);
        assert!((found.at_origin - plane.at_origin).abs() < 1e-12);
        assert!((found.gradient + -plane.gradient).length() < 1e-12);
    }

    #[test]
    fn equal_depths_make_a_plane_that_is_exactly_level() {
        let points: Vec<_> = square(4.4).iter().map(|p| (*p, 0.812_8)).collect();
        let five = points
            .iter()
            .copied()
            .chain([(Point::new(1.3, 0.7), 0.812_8)]);
        let plane = DepthPlane::through(&five.collect::<Vec<_>>());
        assert_eq!(plane, DepthPlane::level(0.812_8));
    }

    #[test]
    fn points_on_a_line_leave_the_plane_level_across_it() {
        let points = [(Point::new(0.0, 0.0), 1.0), (Point::new(2.0, 2.0), 2.0)];
        let found = DepthPlane::through(&points);
        assert!((found.depth(Point::new(1.0, 1.0)) - 1.5).abs() < 1e-12);
        assert!((found.depth(Point::new(2.0, 0.0)) - 1.5).abs() < 1e-12);
        assert_eq!(DepthPlane::through(&[]), DepthPlane::level(0.0));
    }

    #[test]
    fn a_wedge_above_and_below_a_level_matches_its_closed_form() {
        // Depth x over a 3 m square: below level 1 stands a wedge 2 m long and 2 m high.
        let plane = DepthPlane {
            at_origin: 0.0,
            gradient: Vector::new(1.0, 0.0),
        };
        let region = Region::from_ring(Ring(square(3.0)));
        assert!((plane.volume_below(&region, 1.0) - 3.0 * 2.0).abs() < 1e-12);
        assert!((plane.volume_below(&region, -1.0) - 9.0 * 2.5).abs() < 1e-12);
        assert_eq!(plane.volume_below(&region, 3.5), 0.0);
    }

    #[test]
    fn a_region_that_is_not_convex_is_cut_into_several_parts() {
        // A comb of two teeth pointing down the slope; the level line cuts both teeth.
        let comb = [
            (0.0, 0.0),
            (3.0, 0.0),
            (3.0, 1.0),
            (1.0, 1.0),
            (1.0, 2.0),
            (3.0, 2.0),
            (3.0, 3.0),
            (0.0, 3.0),
        ];
        let ring = Ring(comb.iter().map(|(x, y)| Point::new(*x, *y)).collect());
        let plane = DepthPlane {
            at_origin: 0.0,
            gradient: Vector::new(1.0, 0.0),
        };
        let volume = plane.volume_below(&Region::from_ring(ring), 2.0);
        assert!((volume - 2.0 * 0.5).abs() < 1e-12, "{volume}");
    }

    #[test]
    fn the_positive_part_of_a_line_is_a_trapezium_or_a_triangle() {
        assert_eq!(positive_part(2.0, 1.0, 3.0), 4.0);
        assert_eq!(positive_part(4.0, -1.0, 1.0), 1.0);
        assert_eq!(positive_part(4.0, 1.0, -1.0), 1.0);
        assert_eq!(positive_part(4.0, -1.0, 0.0), 0.0);
    }
}
