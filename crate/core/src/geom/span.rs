//! A stretch of a chain round one of its points: a door in a wall, a gate in a fence.

use super::point::{Point, Vector};

/// The most marks of one chain: more would be a smear, and stand for a spacing nobody meant.
const MOST_MARKS: f64 = 2000.0;

/// A stretch of a chain.
#[derive(Debug, Clone, PartialEq)]
pub struct Span {
    /// How far the point asked for lies from the chain, meters.
    pub off: f64,
    /// The point of the chain nearest to it: the stretch's middle.
    pub middle: Point,
    /// The stretch, from end to end.
    pub points: Vec<Point>,
    /// Whether the chain is long enough to hold the stretch.
    pub fits: bool,
}

/// The stretch of a chain, `width` meters long, round the point nearest to `at`. A closed chain
/// (`points` without the first repeated) goes on past its end; an open one ends there, and the
/// stretch is cut short. `None` for a chain of fewer than two points.
pub fn on_chain(points: &[Point], closed: bool, at: Point, width: f64) -> Option<Span> {
    let mut chain = points.to_vec();
    if closed {
        chain.extend(points.first());
    }
    let mut best: Option<(f64, f64, Point)> = None;
    let mut length = 0.0;
    for (a, b) in edges(&chain) {
        let along = b - a;
        let share = ((at - a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        let on = a + along * share;
        let off = on.distance(at);
        if best.is_none_or(|(least, ..)| off < least) {
            best = Some((off, length + along.length() * share, on));
        }
        length += along.length();
    }
    let (off, station, middle) = best?;
    let (from, to) = (station - width / 2.0, station + width / 2.0);
    let fits = width <= length && (closed || (from >= 0.0 && to <= length));
    let mut stretch = Vec::new();
    if closed {
        // Once round before and once after, so that the stretch may run over the start.
        for start in [-length, 0.0, length] {
            cut(&chain, start, (from, to), &mut stretch);
        }
    } else {
        cut(&chain, 0.0, (from, to), &mut stretch);
    }
    stretch.dedup_by(|a, b| a.distance(*b) < 1e-9);
    Some(Span {
        off,
        middle,
        points: stretch,
        fits,
    })
}

/// Places evenly along a chain, about `spacing` meters apart and at least one, none of them at
/// an end; each with the unit direction of travel there.
pub fn marks(chain: &[Point], spacing: f64) -> Vec<(Point, Vector)> {
    let length: f64 = edges(chain).map(|(a, b)| a.distance(b)).sum();
    let count = (length / spacing).round().clamp(1.0, MOST_MARKS);
    let step = length / count;
    let (mut marks, mut next, mut station) = (Vec::new(), step / 2.0, 0.0);
    for (a, b) in edges(chain) {
        let Some(along) = (b - a).unit() else {
            continue;
        };
        let end = station + a.distance(b);
        while next <= end {
            marks.push((a + along * (next - station), along));
            next += step;
        }
        station = end;
    }
    marks
}

fn edges(chain: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let ends = chain.iter().zip(chain.iter().skip(1));
    ends.filter(|(a, b)| a != b).map(|(a, b)| (*a, *b))
}

/// The part of a chain, which begins at the station `start`, between two stations.
fn cut(chain: &[Point], start: f64, (from, to): (f64, f64), out: &mut Vec<Point>) {
    let mut station = start;
    for (a, b) in edges(chain) {
        let length = a.distance(b);
        let (low, high) = ((from - station) / length, (to - station) / length);
        station += length;
        if high < 0.0 || low > 1.0 {
            continue;
        }
        out.push(a + (b - a) * low.max(0.0));
        out.push(a + (b - a) * high.min(1.0));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Point; 4] = [
        Point::new(0.0, 0.0),
        Point::new(10.0, 0.0),
        Point::new(10.0, 10.0),
        Point::new(0.0, 10.0),
    ];

    fn length(points: &[Point]) -> f64 {
        edges(points).map(|(a, b)| a.distance(b)).sum()
    }

    #[test]
    fn a_door_lies_in_the_nearest_wall() {
        let door = on_chain(&SQUARE, true, Point::new(5.0, -0.3), 2.0).unwrap();
        assert!((door.off - 0.3).abs() < 1e-12 && door.fits);
        assert_eq!(door.points, [Point::new(4.0, 0.0), Point::new(6.0, 0.0)]);
    }

    #[test]
    fn a_stretch_runs_over_corners_and_over_the_start() {
        let corner = on_chain(&SQUARE, true, Point::new(0.0, 0.0), 3.0).unwrap();
        assert!((length(&corner.points) - 3.0).abs() < 1e-12);
        assert_eq!(corner.points[1], Point::new(0.0, 0.0));
        let at_end = on_chain(&SQUARE, true, Point::new(0.0, 0.5), 3.0).unwrap();
        assert!((length(&at_end.points) - 3.0).abs() < 1e-12);
    }

    #[test]
    fn marks_are_even() {
        let at: Vec<Point> = marks(&SQUARE, 9.0).into_iter().map(|m| m.0).collect();
        let expected = [(5.0, 0.0), (10.0, 5.0), (5.0, 10.0)];
        assert_eq!(at, expected.map(|p| Point::new(p.0, p.1)));
        assert_eq!(marks(&SQUARE, 1e9).len(), 1);
        assert!(marks(&SQUARE[..1], 1.0).is_empty() && marks(&[], 1.0).is_empty());
    }

    #[test]
    fn an_open_chain_ends() {
        let gate = on_chain(&SQUARE, false, Point::new(0.5, 0.0), 3.0).unwrap();
        assert!(!gate.fits);
        assert!((length(&gate.points) - 2.0).abs() < 1e-12);
        let whole = on_chain(&SQUARE, true, Point::new(5.0, 5.0), 99.0).unwrap();
        assert!(!whole.fits);
        assert!(on_chain(&SQUARE[..1], false, Point::default(), 1.0).is_none());
    }
}
