//! Whether two stretches of a path meet: exact for lines and arcs, nothing flattened.
//!
//! The nearest points of two stretches lie at an end of one of them, where they cross, or
//! where a line through an arc's center leaves square. Each such place is probed by stepping
//! from it to the nearest point of the first stretch and from there to the second.

use super::path::Segment;
use super::point::{Point, Vector};

/// Where two stretches come closer than `gap` meters, other than within `guard` meters of a
/// point of `shared` (the corners they have in common); `None` when they do not.
pub(super) fn meeting(
    a: &Segment,
    b: &Segment,
    shared: &[Point],
    gap: f64,
    guard: f64,
) -> Option<Point> {
    let touches = |&candidate: &Point| {
        let on_a = nearest_on(a, candidate);
        nearest_on(b, on_a).distance(on_a) < gap
            && shared.iter().all(|corner| corner.distance(on_a) > guard)
    };
    let ends = [a.from(), a.to(), b.from(), b.to()];
    let found = ends.into_iter().find(touches);
    found
        .or_else(|| crossings(a, b).into_iter().flatten().find(touches))
        .map(|candidate| nearest_on(a, candidate))
}

/// The point of a stretch nearest to `p`.
pub fn nearest_on(segment: &Segment, p: Point) -> Point {
    match *segment {
        Segment::Line { from, to } => {
            let along = to - from;
            let fraction = (p - from).dot(along) / along.dot(along);
            if fraction >= 1.0 {
                to
            } else if fraction > 0.0 {
                from + along * fraction
            } else {
                from
            }
        }
        Segment::Arc {
            from,
            to,
            centre,
            radius,
            sweep,
            ..
        } => {
            let spoke = p - centre;
            let faced = within_sweep(spoke, from - centre, to - centre, sweep);
            if let Some(unit) = spoke.unit().filter(|_| faced) {
                return centre + unit * radius;
            }
            if p.distance(from) <= p.distance(to) {
                from
            } else {
                to
            }
        }
    }
}

/// Whether a direction lies in the sweep from `start` to `end` (signed, radians).
fn within_sweep(direction: Vector, start: Vector, end: Vector, sweep: f64) -> bool {
    let (start, end) = if sweep < 0.0 {
        (end, start)
    } else {
        (start, end)
    };
    if sweep.abs() <= core::f64::consts::PI {
        start.cross(direction) >= 0.0 && direction.cross(end) >= 0.0
    } else {
        end.cross(direction) <= 0.0 || direction.cross(start) <= 0.0
    }
}

/// Places where the full lines or circles of two stretches cross or come nearest.
pub fn crossings(a: &Segment, b: &Segment) -> [Option<Point>; 4] {
    match (*a, *b) {
        (Segment::Line { from, to }, Segment::Line { from: p, to: q }) => {
            let (u, v) = (to - from, q - p);
            let turn = u.cross(v);
            let crossing = (turn != 0.0).then(|| from + u * ((p - from).cross(v) / turn));
            [crossing, None, None, None]
        }
        (Segment::Line { from, to }, Segment::Arc { centre, radius, .. })
        | (Segment::Arc { centre, radius, .. }, Segment::Line { from, to }) => {
            let Some(along) = (to - from).unit() else {
                return [None; 4];
            };
            let foot = from + along * (centre - from).dot(along);
            let [one, other] = either_side(foot, along, radius, foot.distance(centre));
            [Some(foot), one, other, None]
        }
        (
            Segment::Arc { centre, radius, .. },
            Segment::Arc {
                centre: other_centre,
                radius: other_radius,
                ..
            },
        ) => {
            let between = other_centre - centre;
            let Some(axis) = between.unit() else {
                return [None; 4];
            };
            let span = between.length();
            let reach =
                (span * span + radius * radius - other_radius * other_radius) / (2.0 * span);
            let [one, other] = either_side(centre + axis * reach, axis.left(), radius, reach.abs());
            let near = centre + axis * radius;
            let far = centre - axis * radius;
            [Some(near), Some(far), one, other]
        }
    }
}

/// The two points of a circle of `radius` on the line through `foot` along `direction`, the
/// foot lying `height` from the center.
fn either_side(foot: Point, direction: Vector, radius: f64, height: f64) -> [Option<Point>; 2] {
    let square = radius * radius - height * height;
    if square > 0.0 {
        let half = direction * square.sqrt();
        [Some(foot + half), Some(foot - half)]
    } else {
        [None; 2]
    }
}

/// Lower left and upper right corners of a box that holds the whole stretch.
pub(super) fn reach(segment: &Segment) -> (Point, Point) {
    let (low, high, margin) = match *segment {
        Segment::Line { from, to } => (from, to, 0.0),
        Segment::Arc {
            centre,
            radius,
            sweep,
            ..
        } if sweep.abs() > core::f64::consts::PI => (centre, centre, radius),
        Segment::Arc {
            from,
            to,
            centre,
            radius,
            ..
        } => {
            // An arc up to a half turn stays within its sagitta of the chord.
            let sagitta = radius - from.midpoint(to).distance(centre);
            (from, to, sagitta.max(0.0))
        }
    };
    (
        Point::new(low.x.min(high.x) - margin, low.y.min(high.y) - margin),
        Point::new(low.x.max(high.x) + margin, low.y.max(high.y) + margin),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Vertex;

    fn line(a: [f64; 2], b: [f64; 2]) -> Segment {
        Segment::between(Vertex::line(a[0], a[1]), Point::from(b))
    }

    fn arc(a: [f64; 2], b: [f64; 2], bulge: f64) -> Segment {
        Segment::between(Vertex::arc(a[0], a[1], bulge), Point::from(b))
    }

    fn meet(a: &Segment, b: &Segment) -> Option<Point> {
        let found = meeting(a, b, &[], 1e-6, 0.0);
        assert_eq!(found.is_some(), meeting(b, a, &[], 1e-6, 0.0).is_some());
        found
    }

    #[test]
    fn lines_cross_touch_or_miss() {
        let base = line([0.0, 0.0], [4.0, 0.0]);
        let p = meet(&base, &line([1.0, -1.0], [1.0, 1.0])).unwrap();
        assert!(p.distance(Point::new(1.0, 0.0)) < 1e-12);
        assert!(meet(&base, &line([1.0, 0.0], [1.0, 1.0])).is_some());
        assert!(meet(&base, &line([1.0, 0.01], [1.0, 1.0])).is_none());
        assert!(meet(&base, &line([3.0, 0.0], [9.0, 0.0])).is_some());
        assert!(meet(&base, &line([4.1, 0.0], [9.0, 0.0])).is_none());
    }

    #[test]
    fn a_line_grazes_or_cuts_an_arc() {
        // Lower half of the unit circle about (0, 0).
        let bowl = arc([-1.0, 0.0], [1.0, 0.0], 1.0);
        assert!(meet(&bowl, &line([-2.0, -1.0], [2.0, -1.0])).is_some());
        assert!(meet(&bowl, &line([-2.0, -1.01], [2.0, -1.01])).is_none());
        assert!(meet(&bowl, &line([-2.0, 0.5], [2.0, 0.5])).is_none());
        assert!(meet(&bowl, &line([-2.0, -0.5], [0.0, -0.5])).is_some());
        assert!(meet(&bowl, &line([-0.5, -0.5], [0.5, -0.5])).is_none());
    }

    #[test]
    fn arcs_meet_where_their_circles_do_and_both_run_there() {
        let bowl = arc([-1.0, 0.0], [1.0, 0.0], 1.0);
        let moved = arc([0.0, 0.0], [2.0, 0.0], 1.0);
        let p = meet(&bowl, &moved).unwrap();
        assert!(p.distance(Point::new(0.5, -0.75f64.sqrt())) < 1e-9);
        // The upper half of the same moved circle crosses the circle of the bowl only above.
        assert!(meet(&bowl, &arc([0.0, 0.01], [2.0, 0.01], -1.0)).is_none());
        // Touching from outside, and one inside the other.
        assert!(meet(&bowl, &arc([1.0, -2.0], [-1.0, -2.0], 1.0)).is_some());
        assert!(meet(&bowl, &arc([-0.5, 0.0], [0.5, 0.0], 1.0)).is_none());
        // A stretch of the same circle.
        assert!(meet(&bowl, &arc([0.0, -1.0], [0.0, 1.0], 1.0)).is_some());
    }

    #[test]
    fn more_than_a_half_turn_reaches_round_the_back() {
        let hook = arc([-0.1, -1.0], [0.1, -1.0], -5.0);
        let Segment::Arc { centre, radius, .. } = hook else {
            panic!("an arc")
        };
        let top = centre + Vector::new(0.0, radius);
        assert!(meet(&hook, &line([top.x, top.y - 0.1], [top.x, top.y + 0.1])).is_some());
        let (low, high) = reach(&hook);
        assert!(high.y >= top.y && low.x <= centre.x - radius + 1e-12);
    }
}
