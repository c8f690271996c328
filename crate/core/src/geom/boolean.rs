//! Union, intersection and difference of regions. The only module that names the `geo` crate.
//!
//! The engine works on an integer grid whose scale follows the bounding box: vertices that
//! nothing touched move by up to 3e-8 m on a lot. Never compare coordinates with `==` after it.
//!
//! Every operation fills where the rings of a figure wind a positive number of times (never
//! even-odd, under which two overlapping parts would cancel). Slivers that the grid leaves
//! behind are dropped, and a ring with a coordinate that is not finite counts as absent:
//! the door refuses those, this only keeps the engine from panicking.

use geo::algorithm::bool_ops::{BooleanOps, FillRule, OpType};
use geo::{Coord, LineString, MultiPolygon};

use super::point::Point;
use super::region::{Polygon, Region, Ring};

/// Rings whose mean width (area over length) is below this are grid noise, not ground, meters.
const SLIVER_WIDTH: f64 = 1e-6;

/// The engine's integers are asked to hold nothing beyond this, meters: a thousand times the
/// largest coordinate that the door lets in.
const ENGINE_LIMIT: f64 = 1e7;

/// Everything in `a` or in `b`.
pub fn union(a: &Region, b: &Region) -> Region {
    overlay(a.rings(), b.rings(), OpType::Union)
}

/// Everything in any of some regions, in one pass. Each winds once about what is in it and not about its holes, so that all of
/// them wind a positive number of times about what is in any.
pub fn union_of<'a>(regions: impl IntoIterator<Item = &'a Region>) -> Region {
    let rings = regions.into_iter().flat_map(Region::rings);
    overlay(rings, core::iter::empty(), OpType::Union)
}

/// Everything in both.
pub fn intersection(a: &Region, b: &Region) -> Region {
    overlay(a.rings(), b.rings(), OpType::Intersection)
}

/// Everything in `a` and not in `b`.
pub fn difference(a: &Region, b: &Region) -> Region {
    overlay(a.rings(), b.rings(), OpType::Difference)
}

/// The points about which the rings together wind a positive number of times. Rings may
/// cross themselves and each other: this is what cleans a raw offset ring.
pub fn positive_winding(rings: &[Ring]) -> Region {
    overlay(rings, core::iter::empty(), OpType::Union)
}

/// One pass of the engine over two sets of rings.
fn overlay<'a>(
    subject: impl IntoIterator<Item = &'a Ring>,
    clip: impl IntoIterator<Item = &'a Ring>,
    operation: OpType,
) -> Region {
    let (subject, clip) = (to_engine(subject), to_engine(clip));
    let result = subject.boolean_op_with_fill_rule(&clip, operation, FillRule::Positive);
    Region {
        polygons: result.0.iter().filter_map(from_engine).collect(),
    }
}

/// Rings as the engine takes them. Each goes in as a polygon of its own: the fill rule, not
/// the nesting, decides what is inside.
fn to_engine<'a>(rings: impl IntoIterator<Item = &'a Ring>) -> MultiPolygon<f64> {
    let fits = |p: &Point| p.x.abs() <= ENGINE_LIMIT && p.y.abs() <= ENGINE_LIMIT;
    let polygons = rings
        .into_iter()
        .filter(|ring| ring.0.len() >= 3 && ring.0.iter().all(fits))
        .map(|ring| {
            let coords: Vec<Coord<f64>> = ring.0.iter().map(|p| Coord { x: p.x, y: p.y }).collect();
            geo::Polygon::new(LineString(coords), Vec::new())
        })
        .collect();
    MultiPolygon(polygons)
}

/// A polygon as the engine gives it; `None` when it is a sliver.
///
/// The engine nests rings rightly but may turn a hole the wrong way where a hair of the grid
/// is all that parts it from its outer ring; the sense is therefore set here.
fn from_engine(polygon: &geo::Polygon<f64>) -> Option<Polygon> {
    let holes = polygon.interiors().iter();
    Some(Polygon {
        outer: ring_from_engine(polygon.exterior(), 1.0)?,
        holes: holes.filter_map(|h| ring_from_engine(h, -1.0)).collect(),
    })
}

/// A ring without its repeated last point, turned so that its area has the given sign;
/// `None` when it is a sliver.
fn ring_from_engine(line: &LineString<f64>, sense: f64) -> Option<Ring> {
    let mut points: Vec<Point> = line.coords().map(|c| Point::new(c.x, c.y)).collect();
    points.pop();
    let mut ring = Ring(points);
    let area = ring.signed_area();
    if area * sense < 0.0 {
        ring.0.reverse();
    }
    let wide = area.abs() > SLIVER_WIDTH * ring.perimeter();
    (ring.0.len() >= 3 && wide).then_some(ring)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Ring {
        Ring(vec![
            Point::new(x, y),
            Point::new(x + side, y),
            Point::new(x + side, y + side),
            Point::new(x, y + side),
        ])
    }

    #[test]
    fn overlapping_squares_share_a_corner() {
        let a = Region::from_ring(square(0.0, 0.0, 2.0));
        let b = Region::from_ring(square(1.0, 1.0, 2.0));
        assert!((union(&a, &b).area() - 7.0).abs() < 1e-6);
        assert!((intersection(&a, &b).area() - 1.0).abs() < 1e-6);
        assert!((difference(&a, &b).area() - 3.0).abs() < 1e-6);
    }

    #[test]
    fn overlaps_within_one_figure_do_not_cancel() {
        let rings = [square(0.0, 0.0, 2.0), square(0.5, 0.5, 1.0)];
        let region = positive_winding(&rings);
        assert_eq!(region.polygons.len(), 1);
        assert!((region.area() - 4.0).abs() < 1e-6);
    }

    #[test]
    fn a_hole_that_hugs_its_outer_ring_comes_back_clockwise() {
        // The left part of a polygon, cut out and taken away again: what the grid leaves
        // beside it is a hair, and the engine gives the hole the wrong way round.
        let corners = [
            (2.6502835978271393, 2.825589283141907),
            (0.11093798266453897, 5.333276306409623),
            (-3.88748700361055, 3.078682499018064),
            (-5.13856962530088, -2.12444196440711),
            (-1.498341074310882, -2.179980433216329),
            (0.045294201760312354, -3.9279191719488313),
            (1.2574803520355033, -0.8177671821763616),
            (1.5, 9.64873589805982e-16),
        ];
        let ring = corners.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let whole = Region::from_ring(Ring(ring));
        let strip = [(-10.0, -10.0), (0.0, -10.0), (0.0, 10.0), (-10.0, 10.0)];
        let strip = strip.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let left = intersection(&Region::from_ring(Ring(strip)), &whole);
        let right = difference(&whole, &left);
        assert!((left.area() + right.area() - whole.area()).abs() < 1e-5);
        assert!(right.polygons.iter().all(|p| {
            p.outer.signed_area() > 0.0 && p.holes.iter().all(|h| h.signed_area() < 0.0)
        }));
    }

    #[test]
    fn a_hole_comes_back_clockwise() {
        let outer = Region::from_ring(square(0.0, 0.0, 4.0));
        let inner = Region::from_ring(square(1.0, 1.0, 1.0));
        let ringed = difference(&outer, &inner);
        assert!((ringed.area() - 15.0).abs() < 1e-6);
        assert!(ringed.polygons[0].outer.signed_area() > 0.0);
        assert!(ringed.polygons[0].holes[0].signed_area() < 0.0);
        let filled = union(&ringed, &inner);
        assert!(filled.polygons[0].holes.is_empty());
    }

    #[test]
    fn a_figure_less_itself_is_nothing() {
        let a = Region::from_ring(Ring(vec![
            Point::new(0.1, 0.3),
            Point::new(7.7, 1.1),
            Point::new(3.3, 5.9),
        ]));
        assert!(difference(&a, &a).is_empty());
        assert!(intersection(&a, &Region::default()).is_empty());
    }

    #[test]
    fn spoilt_rings_are_left_out_without_a_panic() {
        let good = square(0.0, 0.0, 1.0);
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300] {
            let mut spoilt = square(5.0, 5.0, 1.0);
            spoilt.0[2].x = bad;
            let region = positive_winding(&[good.clone(), spoilt]);
            assert!((region.area() - 1.0).abs() < 1e-6);
        }
        let point = Ring(vec![Point::new(1.0, 1.0); 5]);
        assert!(positive_winding(&[point, Ring::default()]).is_empty());
        assert!(positive_winding(&[]).is_empty());
    }
}
