//! The kinds of the sides of a lot, proposed from those that lie on a street.
//!
//! The front is told: by a tap, by the edge of a street on the plan, by the words of the deed.
//! From it the others follow: what runs on along the same street is front too, a corner return
//! leads to a street side, the far sides that face away are the rear, all others are sides.
//! A proposal never replaces a kind that somebody gave, unless it is asked to.

use super::checked::Lot;
use super::record::{LineKind, LotRecord};
use crate::geom::{Point, Segment, Vector};
use crate::math::{TURN, cos};
use crate::units::constants::DEGREE;

/// Sides that meet at less than this run on along the same street (our choice: a street's line
/// bends by less between two lots; sides of a lot meet it more steeply).
const RUNS_ON: f64 = 10.0 * DEGREE;

/// A front bends no further than this from the side that was told (our choice: more than the
/// arc of a turning circle before one lot, less than a corner).
const SAME_STREET: f64 = 75.0 * DEGREE;

/// A curve that bulges out of the lot by more than this turns into another street (our choice:
/// corner returns turn by about a right angle, the necks of turning circles by less).
const CORNER_RETURN: f64 = 60.0 * DEGREE;

/// What faces away from the front within this is the rear (our choice, half a right angle).
const FACES_AWAY: f64 = 45.0 * DEGREE;

/// Where nothing does, the deepest side within this (our choice: less than in a triangle of
/// equal sides, which has no rear).
const LEANS_AWAY: f64 = 59.0 * DEGREE;

/// How far outside a side the edge of its street may run, meters (40 ft; our choice: the
/// verge and the walk lie between).
const VERGE: f64 = 12.192;

/// The courses on a street, by their indices.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Streets {
    /// On the street that the house faces.
    pub front: Vec<usize>,
    /// On other streets.
    pub other: Vec<usize>,
}

impl Streets {
    /// Those that the kinds of a record tell already.
    pub fn of(record: &LotRecord) -> Self {
        let all = |kind: LineKind| {
            let courses = record.courses.iter().enumerate();
            courses
                .filter(|(_, course)| course.kind == kind)
                .map(|(index, _)| index)
                .collect()
        };
        Self {
            front: all(LineKind::Front),
            other: all(LineKind::StreetSide),
        }
    }

    /// The same with one course told to be on the street that the house faces; what was said to
    /// be on it before no longer is.
    #[must_use]
    pub fn fronting(mut self, course: usize) -> Self {
        self.other.retain(|other| *other != course);
        self.front = vec![course];
        self
    }
}

/// The courses that lie along the edge of a street, drawn as a chain of points (site meters).
pub fn along_edge(lot: &Lot, edge: &[Point]) -> Vec<usize> {
    let beside = |side: &&super::Side| {
        let outward = outward(&side.segment);
        [0.25, 0.5, 0.75].iter().all(|fraction| {
            let at = side.segment.point_at(*fraction);
            nearest_of(edge, at).is_some_and(|to| {
                let across = to - at;
                let reach = across.length();
                reach < 0.3 || reach <= VERGE && across.dot(outward) > 0.7 * reach
            })
        })
    };
    lot.sides.iter().filter(beside).map(|s| s.course).collect()
}

/// The point of a chain nearest to another.
fn nearest_of(chain: &[Point], at: Point) -> Option<Point> {
    let ends = chain.iter().zip(chain.iter().skip(1));
    ends.map(|(from, to)| {
        let along = *to - *from;
        let square = along.dot(along);
        let share = if square > 0.0 {
            ((at - *from).dot(along) / square).clamp(0.0, 1.0)
        } else {
            0.0
        };
        *from + along * share
    })
    .min_by(|a, b| at.distance(*a).total_cmp(&at.distance(*b)))
}

/// A kind for every course of a lot, by the course's index; unspecified where nothing follows
/// from the streets that are told.
pub fn propose(lot: &Lot, streets: &Streets) -> Vec<LineKind> {
    let mut round = Round::of(lot);
    round.put(&streets.other, LineKind::StreetSide);
    round.put(&streets.front, LineKind::Front);
    if round.any(LineKind::Front) {
        round.run_on();
        round.cut_corners();
        round.rest();
    }
    let mut kinds = vec![LineKind::Unspecified; round.len()];
    for (side, kind) in lot.sides.iter().zip(&round.kinds) {
        if let Some(slot) = kinds.get_mut(side.course) {
            *slot = kind.unwrap_or_default();
        }
    }
    kinds
}

/// A record with proposed kinds. Those that stand in it stay, but for the courses in `told`,
/// unless all are to be replaced.
pub fn fill(record: &LotRecord, proposed: &[LineKind], told: &[usize], replace: bool) -> LotRecord {
    let mut filled = record.clone();
    let courses = filled.courses.iter_mut().enumerate();
    for ((index, course), kind) in courses.zip(proposed) {
        let open = course.kind == LineKind::Unspecified;
        if open || told.contains(&index) || replace && *kind != LineKind::Unspecified {
            course.kind = *kind;
        }
    }
    filled
}

/// Away from the lot, square to the chord of a side of its counter-clockwise boundary; a unit
/// vector.
fn outward(segment: &Segment) -> Vector {
    let along = segment.to() - segment.from();
    (-along.left()).unit().unwrap_or_default()
}

/// The way along a side at its start and at its end.
fn ways(segment: &Segment) -> [Vector; 2] {
    match *segment {
        Segment::Line { from, to } => [to - from; 2],
        Segment::Arc {
            start_angle, sweep, ..
        } => {
            let quarter = if sweep > 0.0 { TURN / 4.0 } else { -TURN / 4.0 };
            [0.0, sweep].map(|turned| Vector::at_angle(start_angle + turned + quarter))
        }
    }
}

/// The angle between two ways, radians.
fn between(a: Vector, b: Vector) -> f64 {
    crate::math::atan2(a.cross(b), a.dot(b)).abs()
}

/// The sides in their order round the lot, with the kinds known so far.
struct Round {
    segments: Vec<Segment>,
    kinds: Vec<Option<LineKind>>,
    courses: Vec<usize>,
}

impl Round {
    fn of(lot: &Lot) -> Self {
        Self {
            segments: lot.sides.iter().map(|s| s.segment).collect(),
            kinds: vec![None; lot.sides.len()],
            courses: lot.sides.iter().map(|s| s.course).collect(),
        }
    }

    fn len(&self) -> usize {
        self.kinds.len()
    }

    fn put(&mut self, courses: &[usize], kind: LineKind) {
        for (slot, course) in self.kinds.iter_mut().zip(&self.courses) {
            if courses.contains(course) {
                *slot = Some(kind);
            }
        }
    }

    fn any(&self, kind: LineKind) -> bool {
        self.kinds.contains(&Some(kind))
    }

    fn kind(&self, at: usize) -> Option<LineKind> {
        self.kinds.get(at).copied().flatten()
    }

    fn set(&mut self, at: usize, kind: LineKind) {
        if let Some(slot) = self.kinds.get_mut(at) {
            *slot = Some(kind);
        }
    }

    /// The side next to another, onwards or back.
    fn next(&self, at: usize, onwards: bool) -> usize {
        (at + if onwards { 1 } else { self.len() - 1 }) % self.len()
    }

    /// How sharply one side bends into the next one, onwards or back.
    fn bend(&self, at: usize, next: usize, onwards: bool) -> Option<f64> {
        let [first, last] = ways(self.segments.get(at)?);
        let [next_first, next_last] = ways(self.segments.get(next)?);
        Some(if onwards {
            between(last, next_first)
        } else {
            between(first, next_last)
        })
    }

    /// Along the same street from every front, both ways.
    fn run_on(&mut self) {
        let seeds: Vec<usize> = (0..self.len())
            .filter(|at| self.kind(*at) == Some(LineKind::Front))
            .collect();
        for seed in seeds {
            for onwards in [true, false] {
                self.run_on_from(seed, onwards);
            }
        }
    }

    fn run_on_from(&mut self, seed: usize, onwards: bool) {
        let Some(faces) = self.segments.get(seed).map(outward) else {
            return;
        };
        let mut at = seed;
        for _ in 0..self.len() {
            let next = self.next(at, onwards);
            let smooth = self.bend(at, next, onwards).is_some_and(|b| b < RUNS_ON);
            let Some(segment) = self.segments.get(next).filter(|_| smooth) else {
                return;
            };
            if self.kind(next).is_some() {
                return;
            }
            let returns = matches!(segment, Segment::Arc { sweep, .. } if *sweep > CORNER_RETURN);
            if !returns && between(faces, outward(segment)) > SAME_STREET {
                return;
            }
            self.set(next, LineKind::Front);
            if returns {
                let beyond = self.next(next, onwards);
                let smooth = self
                    .bend(next, beyond, onwards)
                    .is_some_and(|b| b < RUNS_ON);
                if smooth && self.kind(beyond).is_none() {
                    self.set(beyond, LineKind::StreetSide);
                }
                return;
            }
            at = next;
        }
    }

    /// A short cut across the corner between two streets lies on a street too.
    fn cut_corners(&mut self) {
        for at in 0..self.len() {
            let (before, after) = (self.next(at, false), self.next(at, true));
            let on_street = |side: usize| {
                matches!(
                    self.kind(side),
                    Some(LineKind::Front | LineKind::StreetSide)
                )
            };
            let length = |side: usize| self.segments.get(side).map_or(0.0, Segment::length);
            let short = length(at) < 0.5 * length(before).min(length(after));
            let two_streets = on_street(before) && on_street(after);
            if self.kind(at).is_none() && short && two_streets && before != after {
                self.set(at, LineKind::StreetSide);
            }
        }
    }

    /// Rear and sides.
    fn rest(&mut self) {
        let fronts = || {
            let both = self.segments.iter().zip(&self.kinds);
            both.filter(|(_, kind)| **kind == Some(LineKind::Front))
                .map(|(segment, _)| segment)
        };
        let sum = fronts().fold(Vector::default(), |sum, s| {
            sum + outward(s) * s.from().distance(s.to())
        });
        let (Some(faces), Some(from)) = (sum.unit(), fronts().next().map(|s| s.point_at(0.5)))
        else {
            return;
        };
        let depth = |at: Point| -(at - from).dot(faces);
        let deepest = self
            .segments
            .iter()
            .map(|s| depth(s.from()))
            .fold(0.0, f64::max);
        let away = |segment: &Segment| -outward(segment).dot(faces);
        let open: Vec<(usize, f64, f64)> = (0..self.len())
            .filter(|at| self.kind(*at).is_none())
            .filter_map(|at| {
                let segment = self.segments.get(at)?;
                Some((at, away(segment), depth(segment.point_at(0.5))))
            })
            .collect();
        let faces_away =
            |(_, away, deep): &&(usize, f64, f64)| *away > cos(FACES_AWAY) && *deep > deepest / 2.0;
        let mut rear: Vec<usize> = open.iter().filter(faces_away).map(|(at, ..)| *at).collect();
        if rear.is_empty() && !self.any(LineKind::Rear) {
            let leans = open.iter().filter(|(_, away, _)| *away > cos(LEANS_AWAY));
            rear.extend(leans.max_by(|a, b| a.2.total_cmp(&b.2)).map(|(at, ..)| *at));
        }
        for (at, ..) in open {
            let kind = if rear.contains(&at) {
                LineKind::Rear
            } else {
                LineKind::Side
            };
            self.set(at, kind);
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::geom::Vertex;
    use LineKind::{Front, Rear, Side, StreetSide, Unspecified};

    fn lot(corners: &[Vertex]) -> (Lot, LotRecord) {
        let record = LotRecord::from_outline(corners, &[]);
        (Lot::check(&record).unwrap().0, record)
    }

    fn lines(corners: &[(f64, f64)]) -> (Lot, LotRecord) {
        let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
        lot(&corners)
    }

    fn front(lot: &Lot, course: usize) -> Vec<LineKind> {
        propose(lot, &Streets::default().fronting(course))
    }

    #[test]
    fn a_plain_lot() {
        let (lot, _) = lines(&[(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)]);
        assert_eq!(front(&lot, 0), [Front, Side, Rear, Side]);
        assert_eq!(front(&lot, 1), [Side, Front, Side, Rear]);
        assert_eq!(propose(&lot, &Streets::default()), [Unspecified; 4]);
    }

    #[test]
    fn a_corner_lot_by_its_other_street_by_a_return_and_by_a_cut_corner() {
        let (plain, _) = lines(&[(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)]);
        let streets = Streets {
            front: vec![0],
            other: vec![1],
        };
        assert_eq!(propose(&plain, &streets), [Front, StreetSide, Rear, Side]);
        let moved = streets.fronting(1);
        assert_eq!(propose(&plain, &moved), [Side, Front, Side, Rear]);

        let quarter = crate::math::tan(TURN / 16.0);
        let (round, _) = lot(&[
            Vertex::line(0.0, 0.0),
            Vertex::arc(24.0, 0.0, quarter),
            Vertex::line(30.0, 6.0),
            Vertex::line(30.0, 40.0),
            Vertex::line(0.0, 40.0),
        ]);
        assert_eq!(front(&round, 0), [Front, Front, StreetSide, Rear, Side]);

        let (cut, _) = lines(&[
            (0.0, 0.0),
            (26.0, 0.0),
            (30.0, 4.0),
            (30.0, 40.0),
            (0.0, 40.0),
        ]);
        let streets = Streets {
            front: vec![0],
            other: vec![2],
        };
        assert_eq!(
            propose(&cut, &streets),
            [Front, StreetSide, StreetSide, Rear, Side]
        );
    }

    #[test]
    fn a_wedge_on_a_turning_circle() {
        // A hollow front of two arcs, a rear of two lines.
        let (wedge, _) = lot(&[
            Vertex::arc(-7.0, 0.0, -0.12),
            Vertex::arc(0.0, 1.7, -0.12),
            Vertex::line(7.0, 0.0),
            Vertex::line(22.0, 38.0),
            Vertex::line(0.0, 46.0),
            Vertex::line(-22.0, 38.0),
        ]);
        assert_eq!(front(&wedge, 0), [Front, Front, Side, Rear, Rear, Side]);
        // Drawn to a point, it has no rear.
        let (point, _) = lines(&[(0.0, 0.0), (20.0, 0.0), (10.0, 40.0)]);
        assert_eq!(front(&point, 0), [Front, Side, Side]);
    }

    #[test]
    fn a_flag_lot_behind_another() {
        let (flag, _) = lines(&[
            (0.0, 0.0),
            (6.0, 0.0),
            (6.0, 30.0),
            (40.0, 30.0),
            (40.0, 70.0),
            (0.0, 70.0),
        ]);
        assert_eq!(front(&flag, 0), [Front, Side, Side, Side, Rear, Side]);
    }

    #[test]
    fn a_curved_front_of_several_courses_and_a_lot_between_two_streets() {
        let (curved, _) = lot(&[
            Vertex::line(0.0, 0.0),
            Vertex::arc(12.0, 0.0, 0.05),
            Vertex::line(24.0, 1.2),
            Vertex::line(34.0, 3.2),
            Vertex::line(30.0, 45.0),
            Vertex::line(0.0, 45.0),
        ]);
        assert_eq!(front(&curved, 1), [Front, Front, Front, Side, Rear, Side]);
        let (through, _) = lines(&[(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)]);
        let streets = Streets {
            front: vec![0],
            other: vec![2],
        };
        assert_eq!(propose(&through, &streets), [Front, Side, StreetSide, Side]);
    }

    #[test]
    fn a_skewed_rear_and_a_stepped_one() {
        let (skewed, _) = lines(&[(0.0, 0.0), (20.0, 0.0), (20.0, 60.0), (0.0, 35.0)]);
        assert_eq!(front(&skewed, 0), [Front, Side, Rear, Side]);
        let (stepped, _) = lines(&[
            (0.0, 0.0),
            (30.0, 0.0),
            (30.0, 40.0),
            (12.0, 40.0),
            (12.0, 34.0),
            (0.0, 34.0),
        ]);
        assert_eq!(front(&stepped, 0), [Front, Side, Rear, Side, Rear, Side]);
    }

    #[test]
    fn a_clockwise_description_keeps_its_courses() {
        let (lot, _) = lines(&[(0.0, 0.0), (0.0, 40.0), (30.0, 40.0), (30.0, 0.0)]);
        assert_eq!(front(&lot, 3), [Side, Rear, Side, Front]);
    }

    #[test]
    fn what_somebody_gave_stays_unless_it_is_to_be_replaced() {
        let (lot, mut record) = lines(&[(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)]);
        record.courses.get_mut(1).unwrap().kind = LineKind::Shared;
        record.courses.get_mut(0).unwrap().kind = LineKind::Side;
        let proposed = front(&lot, 0);
        let kinds = |record: LotRecord| -> Vec<LineKind> {
            record.courses.iter().map(|c| c.kind).collect()
        };
        assert_eq!(
            kinds(fill(&record, &proposed, &[0], false)),
            [Front, LineKind::Shared, Rear, Side]
        );
        assert_eq!(
            kinds(fill(&record, &proposed, &[0], true)),
            [Front, Side, Rear, Side]
        );
    }

    #[test]
    fn the_edge_of_a_street_tells_its_side() {
        let (lot, _) = lines(&[(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)]);
        let edge = [Point::new(-50.0, -3.0), Point::new(80.0, -3.0)];
        assert_eq!(along_edge(&lot, &edge), [0]);
        // Too far out; nothing; inside the lot, where it is no street of this lot.
        let far = [Point::new(-50.0, -30.0), Point::new(80.0, -30.0)];
        let inside = [Point::new(0.0, 3.0), Point::new(30.0, 3.0)];
        for edge in [&far[..], &[], &inside] {
            assert!(along_edge(&lot, edge).is_empty());
        }
    }
}
