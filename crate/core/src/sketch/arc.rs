//! Circular arcs by three points, and arcs cut in two.

use crate::finding::Finding;
use crate::geom::validate::{BULGE_LIMIT, SMALLEST_GAP};
use crate::geom::{Point, Segment, Vector, Vertex, nearest_on};
use crate::math::{TURN, atan, tan, wrap_turn};

/// The bulge of the arc from one point through a second to a third; 0 where the second lies
/// on the straight line between, `None` where no circle passes through them in that order
/// or two of them are one.
///
/// The path turns at the second point by half the arc's central angle (the angle at the
/// circumference), and the bulge is the tangent of half that turn.
pub fn bulge_through(from: Point, through: Point, to: Point) -> Option<f64> {
    let (before, after) = (through - from, to - through);
    let lengths = before.length() * after.length();
    let open = lengths + before.dot(after);
    if before.length() < SMALLEST_GAP
        || after.length() < SMALLEST_GAP
        || from.distance(to) < SMALLEST_GAP
        || open < 1e-9 * lengths
    {
        return None;
    }
    let bulge = before.cross(after) / open;
    // Written so that a bulge that is not a number is refused too.
    let gentle = bulge.abs() <= BULGE_LIMIT;
    if !gentle {
        return None;
    }
    let sagitta = bulge * from.distance(to) / 2.0;
    Some(if sagitta.abs() < SMALLEST_GAP {
        0.0
    } else {
        bulge
    })
}

/// The arc from one point through a second to a third, as a vertex at the first.
///
/// # Errors
/// Two points in one place, three in a line, or an arc that all but closes its circle.
pub fn arc_through(from: Point, through: Point, to: Point) -> Result<Vertex, Finding> {
    match bulge_through(from, through, to) {
        Some(bulge) if bulge != 0.0 => Ok(Vertex { at: from, bulge }),
        _ => Err(Finding::fault(
            "arc-of-three-points",
            "No arc runs through these three points: they lie in a line, or two are one place.",
            "Put the middle point beside the line from end to end, or draw a straight edge.",
        )
        .at(through.x, through.y)),
    }
}

/// The bulges of the two parts of an arc cut at a fraction of its length.
pub fn split(bulge: f64, fraction: f64) -> (f64, f64) {
    if bulge == 0.0 {
        return (0.0, 0.0);
    }
    let quarter = atan(bulge);
    (tan(quarter * fraction), tan(quarter * (1.0 - fraction)))
}

/// The bulge of the arc that two arcs of one circle make together; `None` when they are not
/// of one circle (to a millimetre) or run against each other.
///
/// The arc is held against both: centers would not do, because that of a short piece is hardly known.
/// A piece may be so short that it passes for straight.
pub fn joined(first: Vertex, second: Vertex, to: Point) -> Option<f64> {
    let (quarter, other) = (atan(first.bulge), atan(second.bulge));
    let bulge = tan(quarter + other);
    let one_way = first.bulge * second.bulge >= 0.0 && (quarter + other).abs() < TURN / 4.0;
    if !one_way || bulge.abs() > BULGE_LIMIT {
        return None;
    }
    let (from, at) = (first.at, second.at);
    let whole = Segment::between(Vertex { at: from, bulge }, to);
    let (before, after) = split(bulge, fraction_at(&whole, at));
    let near = |a: f64, b: f64, chord: f64| (a - b).abs() * chord / 2.0 < SAME;
    let same = nearest_on(&whole, at).distance(at) < SAME
        && near(first.bulge, before, from.distance(at))
        && near(second.bulge, after, at.distance(to));
    same.then_some(bulge)
}

/// Arcs that lie this near to each other are one, meters.
const SAME: f64 = 1e-3;

/// How far along a stretch a point on it lies, 0 at its start and 1 at its end.
pub fn fraction_at(segment: &Segment, p: Point) -> f64 {
    match *segment {
        Segment::Line { from, to } => {
            let along = to - from;
            ((p - from).dot(along) / along.dot(along)).clamp(0.0, 1.0)
        }
        Segment::Arc {
            centre,
            start_angle,
            sweep,
            ..
        } => {
            let spoke: Vector = p - centre;
            let turned = if sweep > 0.0 {
                spoke.angle() - start_angle
            } else {
                start_angle - spoke.angle()
            };
            let turned = wrap_turn(turned);
            let span = sweep.abs();
            if turned <= span {
                turned / span
            } else if turned - span < TURN - turned {
                1.0
            } else {
                0.0
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_half_circle_goes_through_its_top() {
        let (a, b) = (Point::new(-1.0, 0.0), Point::new(1.0, 0.0));
        let below = bulge_through(a, Point::new(0.0, -1.0), b).unwrap();
        assert!((below - 1.0).abs() < 1e-12);
        let above = bulge_through(a, Point::new(0.0, 1.0), b).unwrap();
        assert!((above + 1.0).abs() < 1e-12);
        // The long way round: three quarters of the circle.
        let c = Point::new(0.0, -1.0);
        let long = bulge_through(a, Point::new(0.0, 1.0), c).unwrap();
        assert!((long + tan(TURN * 3.0 / 16.0)).abs() < 1e-12, "{long}");
    }

    #[test]
    fn three_points_in_a_line_make_no_arc() {
        let p = |x: f64| Point::new(x, 2.0 * x);
        for (a, b, c) in [(0.0, 1.0, 2.0), (0.0, 2.0, 1.0), (0.0, 0.0, 1.0)] {
            let finding = arc_through(p(a), p(b), p(c)).unwrap_err();
            assert!(finding.is_fault() && !finding.remedy.is_empty());
        }
        assert_eq!(bulge_through(p(0.0), p(1.0), p(3.0)), Some(0.0));
        assert_eq!(bulge_through(p(0.0), p(3.0), p(1.0)), None);
    }

    #[test]
    fn an_arc_cut_in_two_comes_together_again() {
        for bulge in [0.3, -0.9, 2.5] {
            for fraction in [0.1, 0.5, 0.8] {
                let whole = Segment::between(Vertex::arc(1.0, 2.0, bulge), Point::new(7.0, 3.0));
                let middle = whole.point_at(fraction);
                let (one, other) = split(bulge, fraction);
                let first = Vertex::arc(1.0, 2.0, one);
                let second = Vertex {
                    at: middle,
                    bulge: other,
                };
                let again = joined(first, second, Point::new(7.0, 3.0)).unwrap();
                assert!((again - bulge).abs() < 1e-9);
                assert!((fraction_at(&whole, middle) - fraction).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn arcs_of_two_circles_are_not_joined() {
        let (a, b) = (Point::new(0.0, 0.0), Point::new(4.0, 0.0));
        // Of one bow each, and of two circles all the same.
        let humps = (Vertex::arc(0.0, 0.0, 0.3), Vertex::arc(2.0, 0.0, 0.3));
        assert_eq!(joined(humps.0, humps.1, b), None);
        let whole = Segment::between(Vertex { at: a, bulge: 0.4 }, b);
        let middle = nearest_on(&whole, Point::new(2.0, -9.0));
        let (one, other) = split(0.4, fraction_at(&whole, middle));
        let join = |one, other| {
            let second = Vertex {
                at: middle,
                bulge: other,
            };
            joined(Vertex { at: a, bulge: one }, second, b)
        };
        assert!(join(one, other).is_some());
        assert_eq!(
            join(one + 0.02, other - 0.02),
            None,
            "the joint alone lies on the circle"
        );
    }
}
