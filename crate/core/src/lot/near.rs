//! The side or the corner of the lot at a place.

use super::checked::Lot;
use crate::geom::{Point, Segment};
use crate::math::{TURN, wrap_turn};

impl Lot {
    /// The course whose side lies nearest to a place, within a reach (site meters).
    pub fn side_at(&self, at: Point, reach: f64) -> Option<usize> {
        self.sides
            .iter()
            .map(|side| (side.course, distance(&side.segment, at)))
            .filter(|(_, off)| *off <= reach)
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(course, _)| course)
    }
}

/// From a point to the nearest point of a side, arcs exact, meters.
fn distance(segment: &Segment, at: Point) -> f64 {
    let ends = at.distance(segment.from()).min(at.distance(segment.to()));
    match *segment {
        Segment::Line { from, to } => {
            let along = to - from;
            let share = (at - from).dot(along) / along.dot(along);
            if (0.0..=1.0).contains(&share) {
                at.distance(from + along * share)
            } else {
                ends
            }
        }
        Segment::Arc {
            centre,
            radius,
            start_angle,
            sweep,
            ..
        } => {
            let turned = (at - centre).angle() - start_angle;
            let turned = wrap_turn(if sweep > 0.0 { turned } else { -turned });
            if turned <= sweep.abs().min(TURN) {
                (at.distance(centre) - radius).abs()
            } else {
                ends
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::super::record::LotRecord;
    use super::*;
    use crate::geom::Vertex;

    #[test]
    fn the_side_at_a_place_is_the_nearest_within_reach() {
        let record = LotRecord::from_outline(
            &[
                Vertex::line(0.0, 0.0),
                Vertex::arc(20.0, 0.0, 1.0),
                Vertex::line(20.0, 20.0),
                Vertex::line(0.0, 20.0),
            ],
            &[],
        );
        let (lot, _) = Lot::check(&record).unwrap();
        for (x, y, reach, side) in [
            (10.0, 0.5, 1.0, Some(0)),
            (30.2, 10.0, 1.0, Some(1)),
            (28.0, 10.0, 1.0, None),
            (10.0, 21.0, 1.5, Some(2)),
            (-0.4, 10.0, 1.0, Some(3)),
            (-3.0, -3.0, 1.0, None),
        ] {
            assert_eq!(lot.side_at(Point::new(x, y), reach), side, "{x} {y}");
        }
    }
}
