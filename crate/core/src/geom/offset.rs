//! Outlines widened: over-dig, collar and deck by one distance, side slopes by a distance
//! that varies from vertex to vertex.
//!
//! # Method
//! One *raw ring* for each ring (see [`super::raw_ring`]) winds a positive number of times about
//! exactly the points that the widened ring covers; one overlay with fill rule *positive* cleans
//! it. Narrowing is widening the outside: the ring is reversed, widened, and reversed again.
//!
//! # Accuracy
//! Arcs at corners are inscribed chords within `tolerance` meters *inside* the true arc, so a
//! widened area is short by at most tolerance times perimeter and a narrowed one is in excess
//! by as much. The region's own flattening adds its error to that. These areas draw; distances
//! decide (see [`super::distance`]).

use super::boolean::positive_winding;
use super::corner::SAME_PLACE;
use super::point::{Point, Vector};
use super::raw_ring::{mitred_ring, raw_ring};
use super::region::{Region, Ring};

/// The region widened by `distance` meters (narrowed when negative), corners rounded by arcs
/// whose chords stay within `tolerance` meters inside the true arc.
pub fn offset_region(region: &Region, distance: f64, tolerance: f64) -> Region {
    if distance >= 0.0 {
        let rings: Vec<Ring> = region
            .rings()
            .map(|ring| raw_ring(&with_radius(&ring.0, distance), tolerance))
            .collect();
        return positive_winding(&rings);
    }
    // Each polygon by itself: what is taken from one must not be taken from its neighbor.
    let polygons = region.polygons.iter().flat_map(|polygon| {
        let rings: Vec<Ring> = core::iter::once(&polygon.outer)
            .chain(&polygon.holes)
            .map(|ring| {
                let outside = with_radius(&ring.reversed().0, -distance);
                raw_ring(&outside, tolerance).reversed()
            })
            .collect();
        positive_winding(&rings).polygons
    });
    Region {
        polygons: polygons.collect(),
    }
}

/// Everything within `distance` meters of a chain of straight edges (the strip along a wire, a
/// pipe or a lot line), ends and corners rounded.
pub fn offset_chain(chain: &[Point], distance: f64, tolerance: f64) -> Region {
    let back = chain.iter().rev().skip(1);
    let there_and_back: Vec<Point> = chain.iter().chain(back).copied().collect();
    let ring = with_radius(&there_and_back, distance.max(0.0));
    positive_winding(&[raw_ring(&ring, tolerance)])
}

/// Everything beside a chain of straight edges, within `distance` meters of it: ends square,
/// corners mitred (a mitre longer than four times the distance is cut off square). A chain that
/// ends where it began has no ends: it goes round.
pub fn offset_chain_square(chain: &[Point], distance: f64) -> Region {
    let radius = distance.max(0.0);
    let ring = |points: Vec<Point>| mitred_ring(&with_radius(&points, radius));
    let (forth, back) = (chain.iter(), chain.iter().rev());
    if let [first, _, .., last] = chain
        && first.distance(*last) < SAME_PLACE
    {
        // The two rings wind about what the ring itself holds once each way.
        return positive_winding(&[
            ring(forth.copied().collect()),
            ring(back.copied().collect()),
        ]);
    }
    positive_winding(&[ring(forth.chain(back.skip(1)).copied().collect())])
}

/// The counter-clockwise ring widened by `radius` meters at each vertex, the radius varying
/// linearly along each edge: the union of discs centerd along it. All radii are >= 0.
pub fn offset_tapered(ring: &[(Point, f64)], tolerance: f64) -> Region {
    positive_winding(&tapered_rings(ring, tolerance))
}

/// The union of several tapered rings in one pass (what the dig's contours need): see [`raw_tapered`].
pub fn offset_tapered_union(
    gentle: &[Vec<(Point, f64)>],
    others: &[Vec<(Point, f64)>],
    tolerance: f64,
) -> Region {
    positive_winding(&raw_tapered(gentle, others, tolerance))
}

/// The raw rings of several tapered rings, which together wind a positive number of times about what those
/// cover.
///
/// `gentle` are rings whose radii nowhere inside shrink as fast as the ground between two places:
/// no disc stands out beyond that of an edge between, and their right side is enough. Of the
/// others that is found out.
pub fn raw_tapered(
    gentle: &[Vec<(Point, f64)>],
    others: &[Vec<(Point, f64)>],
    tolerance: f64,
) -> Vec<Ring> {
    let right = gentle.iter().map(|ring| raw_ring(ring, tolerance));
    let found_out = others
        .iter()
        .flat_map(|ring| tapered_rings(ring, tolerance));
    right.chain(found_out).collect()
}

/// A counter-clockwise ring widened by `distance` meters (narrowed when negative), corners kept
/// sharp: the rectangular pit. A mitre longer than four times the distance is cut off square.
pub fn offset_mitred(ring: &Ring, distance: f64) -> Region {
    let outside = if distance < 0.0 {
        ring.reversed()
    } else {
        ring.clone()
    };
    let raw = mitred_ring(&with_radius(&outside.0, distance.abs()));
    positive_winding(&[if distance < 0.0 { raw.reversed() } else { raw }])
}

/// The raw rings of one tapered ring. When the radii shrink faster than the ground between
/// them, a large disc may stand out on the far side of the ring: then the ring's left side is
/// widened as well.
fn tapered_rings(ring: &[(Point, f64)], tolerance: f64) -> Vec<Ring> {
    let right = raw_ring(ring, tolerance);
    if is_gentle(ring, tolerance) {
        return vec![right];
    }
    let reversed: Vec<(Point, f64)> = ring.iter().rev().copied().collect();
    let middle = Ring(ring.iter().map(|(p, _)| *p).collect());
    vec![right, raw_ring(&reversed, tolerance), middle]
}

/// Whether the radii are, to half the tolerance, those of a plane that falls less than one
/// meter in a meter: then no disc stands out beyond another edge's by more than the tolerance.
fn is_gentle(ring: &[(Point, f64)], tolerance: f64) -> bool {
    let Some(&(origin, radius)) = ring.first() else {
        return true;
    };
    let rise = |(p, r): &(Point, f64)| (*p - origin, r - radius);
    let farthest = |a: &(Vector, f64), b: &(Vector, f64)| a.0.length().total_cmp(&b.0.length());
    let Some((u, du)) = ring.iter().map(rise).max_by(farthest) else {
        return true;
    };
    let off_line =
        |a: &(Vector, f64), b: &(Vector, f64)| u.cross(a.0).abs().total_cmp(&u.cross(b.0).abs());
    let Some((v, dv)) = ring.iter().map(rise).max_by(off_line) else {
        return true;
    };
    // The gradient of the plane through the first vertex and those two; not a number when
    // they lie on one line.
    let gradient = Vector::new(v.y * du - u.y * dv, u.x * dv - v.x * du) * (1.0 / u.cross(v));
    let off_plane = |(w, dw): (Vector, f64)| (gradient.dot(w) - dw).abs();
    gradient.length() < 1.0
        && ring
            .iter()
            .map(rise)
            .all(|vertex| off_plane(vertex) <= tolerance / 2.0)
}

/// The same radius at every vertex.
fn with_radius(points: &[Point], radius: f64) -> Vec<(Point, f64)> {
    points.iter().map(|p| (*p, radius)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::distance::{Figure, nearest};
    use crate::geom::{DRAWING_TOLERANCE, Outline, Vertex};
    use crate::math::TURN;

    const PI: f64 = TURN / 2.0;

    fn rectangle(w: f64, h: f64) -> Ring {
        Ring(vec![
            Point::new(0.0, 0.0),
            Point::new(w, 0.0),
            Point::new(w, h),
            Point::new(0.0, h),
        ])
    }

    fn polygon(sides: u32, radius: f64) -> Ring {
        let at = |i| Vector::at_angle(TURN * f64::from(i) / f64::from(sides)) * radius;
        Ring((0..sides).map(|i| Point::default() + at(i)).collect())
    }

    /// A ring 10 m across with a round hole of the given radius.
    fn washer(hole: f64) -> Region {
        let mut region = Region::from_ring(polygon(90, 5.0));
        region.polygons[0].holes.push(polygon(60, hole).reversed());
        region
    }

    /// A kidney whose waist is an inward arc of radius 1.6 m.
    fn kidney() -> Region {
        Outline::check(vec![
            Vertex::arc(1.4, 1.2, -0.6),
            Vertex::arc(-1.4, 1.2, 0.95),
            Vertex::arc(-1.4, -1.2, 0.15),
            Vertex::arc(1.4, -1.2, 0.95),
        ])
        .unwrap()
        .region(DRAWING_TOLERANCE)
    }

    /// Every vertex of the widened region lies `distance` from the region it came from, but
    /// for the tolerance of its corners.
    fn assert_all_at(region: &Region, widened: &Region, distance: f64, tolerance: f64) {
        let points = widened.rings().flat_map(|ring| &ring.0);
        for p in points {
            let chain = [*p];
            let rings = region.rings().map(|ring| {
                let mut closed = ring.0.clone();
                closed.extend(ring.0.first());
                closed
            });
            let to_edge = rings
                .filter_map(|ring| nearest(Figure::Chain(&ring), Figure::Chain(&chain)))
                .map(|n| n.distance)
                .fold(f64::INFINITY, f64::min);
            let off = to_edge - distance;
            assert!((-tolerance..1e-6).contains(&off), "{p:?} is {to_edge} away");
        }
    }

    #[test]
    fn a_widened_rectangle_follows_steiner() {
        let widened = offset_region(&Region::from_ring(rectangle(6.0, 3.0)), 0.5, 1e-5);
        let expected = 18.0 + 18.0 * 0.5 + PI * 0.25;
        assert!((widened.area() - expected).abs() < 1e-4);
        assert!((widened.perimeter() - (18.0 + TURN * 0.5)).abs() < 1e-4);
    }

    #[test]
    fn a_narrowed_rectangle_keeps_sharp_corners_and_can_vanish() {
        let region = Region::from_ring(rectangle(6.0, 3.0));
        assert!((offset_region(&region, -0.5, 1e-3).area() - 10.0).abs() < 1e-6);
        assert!(offset_region(&region, -1.6, 1e-3).is_empty());
        assert!(offset_region(&region, -50.0, 1e-3).is_empty());
    }

    #[test]
    fn a_waist_closes_beyond_its_own_radius() {
        let kidney = kidney();
        for distance in [0.2, 1.0, 1.6, 2.5, 6.0] {
            let widened = offset_region(&kidney, distance, DRAWING_TOLERANCE);
            assert_eq!(widened.polygons.len(), 1);
            assert!(widened.polygons[0].holes.is_empty());
            assert_all_at(&kidney, &widened, distance, DRAWING_TOLERANCE);
        }
    }

    #[test]
    fn a_kidney_narrows_into_two() {
        let kidney = kidney();
        for distance in [0.2, 0.5, 1.0, 3.0] {
            let narrowed = offset_region(&kidney, -distance, DRAWING_TOLERANCE);
            assert_all_at(&kidney, &narrowed, distance, DRAWING_TOLERANCE);
        }
        assert!(offset_region(&kidney, -3.0, DRAWING_TOLERANCE).is_empty());
    }

    #[test]
    fn a_hole_fills_and_grows() {
        let washer = washer(2.0);
        let wider = offset_region(&washer, 0.5, DRAWING_TOLERANCE);
        assert_eq!(wider.polygons[0].holes.len(), 1);
        assert_all_at(&washer, &wider, 0.5, DRAWING_TOLERANCE);
        for distance in [2.1, 3.0, 3.9, 5.0, 12.0] {
            let filled = offset_region(&washer, distance, DRAWING_TOLERANCE);
            assert!(filled.polygons[0].holes.is_empty(), "at {distance}");
        }
        let narrower = offset_region(&washer, -0.5, DRAWING_TOLERANCE);
        assert_all_at(&washer, &narrower, 0.5, DRAWING_TOLERANCE);
        for distance in [1.6, 2.5, 4.0, 6.0, 20.0] {
            assert!(offset_region(&washer, -distance, DRAWING_TOLERANCE).is_empty());
        }
    }

    #[test]
    fn neighbours_do_not_narrow_each_other() {
        let mut pair = Region::from_ring(rectangle(1.0, 1.0));
        let east = Vector::new(1.2, 0.0);
        let moved = Ring(rectangle(8.0, 8.0).0.iter().map(|p| *p + east).collect());
        pair.polygons.extend(Region::from_ring(moved).polygons);
        let narrowed = offset_region(&pair, -0.6, DRAWING_TOLERANCE);
        assert!((narrowed.area() - 6.8 * 6.8).abs() < 1e-6);
    }

    #[test]
    fn a_chain_widens_to_a_strip() {
        let chain = [
            Point::new(0.0, 0.0),
            Point::new(4.0, 0.0),
            Point::new(4.0, 3.0),
        ];
        let strip = offset_chain(&chain, 0.5, 1e-6);
        // Two strips and two half discs, and a quarter square shared and a quarter disc more.
        let expected = 7.0 + PI * 0.25 - 0.25 + PI * 0.25 / 4.0;
        assert!((strip.area() - expected).abs() < 1e-4, "{}", strip.area());
        let disc = offset_chain(&chain[..1], 0.5, 1e-6);
        assert!((disc.area() - PI * 0.25).abs() < 1e-4);
        assert!(offset_chain(&[], 0.5, 1e-6).is_empty());
    }

    #[test]
    fn a_chain_widens_to_a_band_with_square_ends() {
        let corner = [
            Point::new(0.0, 0.0),
            Point::new(4.0, 0.0),
            Point::new(4.0, 3.0),
        ];
        // Two strips of 1 m, the square they share once, and the mitre beyond it.
        let band = offset_chain_square(&corner, 0.5);
        assert!((band.area() - 7.0).abs() < 1e-6, "{}", band.area());
        assert!(band.contains(Point::new(4.4, -0.4)) && !band.contains(Point::new(-0.1, 0.0)));
        let straight = offset_chain_square(&corner[..2], 0.5);
        assert!((straight.area() - 4.0).abs() < 1e-6);
        let mut round = corner.to_vec();
        round.extend([Point::new(0.0, 3.0), Point::new(0.0, 0.0)]);
        let ring = offset_chain_square(&round, 0.5);
        assert!((ring.area() - (5.0 * 4.0 - 3.0 * 2.0)).abs() < 1e-6);
        assert_eq!(ring.polygons[0].holes.len(), 1);
        assert!(offset_chain_square(&[], 0.5).is_empty());
        assert!(offset_chain_square(&corner[..1], 0.5).is_empty());
    }

    #[test]
    fn equal_radii_taper_into_plain_widening() {
        let kidney = kidney();
        let ring = with_radius(&kidney.polygons[0].outer.0, 1.8);
        let tapered = offset_tapered(&ring, DRAWING_TOLERANCE);
        let plain = offset_region(&kidney, 1.8, DRAWING_TOLERANCE);
        assert!((tapered.area() - plain.area()).abs() < 1e-9);
    }

    #[test]
    fn a_large_disc_stands_out_on_the_far_side() {
        // A thin strip whose one end carries a disc far wider than the strip.
        let ring = [
            (Point::new(0.0, 0.0), 0.0),
            (Point::new(1.0, 0.0), 0.0),
            (Point::new(1.0, 0.5), 3.0),
            (Point::new(0.0, 0.5), 3.0),
        ];
        let widened = offset_tapered(&ring, 1e-4);
        assert!(
            (widened.area() - (PI * 9.0 + 6.0)).abs() < 0.01,
            "{}",
            widened.area()
        );
        assert!(widened.contains(Point::new(0.5, -2.4)));
    }

    #[test]
    fn a_needle_with_one_large_disc_reaches_no_farther_than_its_tip() {
        // At the tip the tangents of the far side turn more than half way round.
        let ring = [
            (Point::new(6.46, 3.86), 2.37),
            (Point::new(1.95, 5.93), 0.28),
            (Point::new(6.15, 3.29), 0.0),
        ];
        let widened = offset_tapered(&ring, DRAWING_TOLERANCE);
        assert!(!widened.contains(Point::new(1.56, 6.11)));
        assert!(widened.contains(Point::new(1.70, 6.00)));
    }

    #[test]
    fn tapered_walls_are_common_tangents() {
        // A square 2 m wide, radius 1 along one side and 0 along the other.
        let ring = [
            (Point::new(0.0, 0.0), 1.0),
            (Point::new(0.0, -2.0), 1.0),
            (Point::new(2.0, -2.0), 0.0),
            (Point::new(2.0, 0.0), 0.0),
        ];
        let widened = offset_tapered(&ring, 1e-6);
        // The strip along the wide side; on either side of it a right triangle between the
        // centers and the tangent; at each wide corner a sector of 90 + 30 degrees.
        let expected = 4.0 + 2.0 + 3f64.sqrt() + 2.0 * (PI / 3.0);
        assert!(
            (widened.area() - expected).abs() < 1e-4,
            "{} {expected}",
            widened.area()
        );
    }

    #[test]
    fn mitred_corners_stay_sharp() {
        let region = offset_mitred(&rectangle(6.0, 3.0), 0.5);
        assert!((region.area() - 28.0).abs() < 1e-6);
        assert_eq!(region.polygons[0].outer.0.len(), 4);
        assert!((offset_mitred(&rectangle(6.0, 3.0), -0.5).area() - 10.0).abs() < 1e-6);
        assert!(offset_mitred(&rectangle(6.0, 3.0), -2.0).is_empty());
        let needle = Ring(vec![
            Point::new(0.0, -0.1),
            Point::new(10.0, 0.0),
            Point::new(0.0, 0.1),
        ]);
        let (_, high) = offset_mitred(&needle, 1.0).bounds().unwrap();
        assert!(high.x < 11.0 + 1e-9);
    }

    #[test]
    fn spoilt_input_gives_nothing_and_no_panic() {
        for bad in [f64::NAN, f64::INFINITY, -f64::INFINITY, 1e300] {
            let mut ring = rectangle(2.0, 1.0);
            ring.0[1].y = bad;
            let region = Region::from_ring(ring.clone());
            for distance in [0.5, -0.5, 0.0] {
                assert!(offset_region(&region, distance, 0.001).is_empty());
                let _ = offset_mitred(&ring, distance);
            }
            let good = Region::from_ring(rectangle(2.0, 1.0));
            let _ = offset_region(&good, bad, 0.001);
            let _ = offset_region(&good, 1.0, bad);
            let mut tapered = with_radius(&rectangle(2.0, 1.0).0, 1.0);
            tapered[2].1 = bad;
            let _ = offset_tapered(&tapered, 0.001);
        }
        assert!(offset_tapered(&[], 0.001).is_empty());
        assert!(offset_tapered_union(&[], &[Vec::new()], 0.001).is_empty());
    }
}
