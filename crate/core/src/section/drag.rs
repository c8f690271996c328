//! The section's line in the hand: which part of it is held, and where it goes.

use crate::geom::{Point, Vector};
use crate::site::SectionLine;

/// The shortest line that a hand can make, meters (our choice).
const SHORTEST: f64 = 0.5;

/// A part of the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LinePart {
    /// Its left end, A.
    From,
    /// Its right end, A'.
    To,
    /// Anything between, to move the whole.
    Whole,
}

/// What a hand at a place takes hold of within `reach` meters: an end before the rest.
pub fn part_at(line: &SectionLine, at: Point, reach: f64) -> Option<LinePart> {
    let (from, to) = (line.from.distance(at), line.to.distance(at));
    if from.min(to) <= reach {
        return Some(if from <= to {
            LinePart::From
        } else {
            LinePart::To
        });
    }
    let along = line.to - line.from;
    let share = (at - line.from).dot(along) / along.dot(along).max(1e-12);
    let on = line.from + along * share.clamp(0.0, 1.0);
    // Half the reach, so that it does not take what lies beside it.
    (on.distance(at) <= reach / 2.0).then_some(LinePart::Whole)
}

/// The line with a part of it moved along with the hand. An end comes no nearer to the other
/// than half a meter.
pub fn moved(line: &SectionLine, part: LinePart, hand: Point, to: Point) -> SectionLine {
    let by = to - hand;
    let kept_off = |end: Point, other: Point| {
        let away = end - other;
        match away.unit() {
            Some(unit) if away.length() < SHORTEST => other + unit * SHORTEST,
            Some(_) => end,
            None => other + (line.to - line.from).unit().unwrap_or_default() * SHORTEST,
        }
    };
    match part {
        LinePart::Whole => SectionLine {
            from: line.from + by,
            to: line.to + by,
        },
        LinePart::From => SectionLine {
            from: kept_off(line.from + by, line.to),
            ..*line
        },
        LinePart::To => SectionLine {
            to: kept_off(line.to + by, line.from),
            ..*line
        },
    }
}

/// The line about the same middle, pointing along a bearing (radians clockwise from north) and
/// as long as given, meters, but no shorter than a hand can make it.
pub fn laid(line: &SectionLine, bearing: f64, length: f64) -> SectionLine {
    let middle = line.from.midpoint(line.to);
    let half = Vector::along_bearing(bearing) * (length.max(SHORTEST) / 2.0);
    SectionLine {
        from: middle - half,
        to: middle + half,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line() -> SectionLine {
        SectionLine {
            from: Point::new(0.0, 0.0),
            to: Point::new(10.0, 0.0),
        }
    }

    #[test]
    fn ends_are_taken_before_the_rest() {
        let at = |x: f64, y: f64| part_at(&line(), Point::new(x, y), 1.0);
        assert_eq!(at(0.5, 0.5), Some(LinePart::From));
        assert_eq!(at(9.6, -0.4), Some(LinePart::To));
        assert_eq!(at(5.0, 0.4), Some(LinePart::Whole));
        assert_eq!(at(5.0, 0.6), None);
        assert_eq!(at(-2.0, 0.0), None);
    }

    #[test]
    fn it_is_turned_about_its_middle() {
        let turned = laid(&line(), 0.0, 4.0);
        assert!(turned.from.distance(Point::new(5.0, -2.0)) < 1e-12);
        assert!(turned.to.distance(Point::new(5.0, 2.0)) < 1e-12);
        assert!(laid(&line(), 0.0, 0.0).to.y > 0.2);
    }

    #[test]
    fn it_follows_the_hand_and_keeps_a_length() {
        let go = |part, x: f64, y: f64| {
            moved(
                &line(),
                part,
                Point::new(1.0, 1.0),
                Point::new(1.0 + x, 1.0 + y),
            )
        };
        assert_eq!(go(LinePart::Whole, 2.0, 3.0).to, Point::new(12.0, 3.0));
        assert_eq!(go(LinePart::From, 0.0, 2.0).from, Point::new(0.0, 2.0));
        assert_eq!(go(LinePart::From, 9.9, 0.0).from, Point::new(9.5, 0.0));
        assert_eq!(go(LinePart::To, -10.0, 0.0).to, Point::new(0.5, 0.0));
    }
}
