//! Two tapes: from two fixed points to a stake, and from two readings back to the point.
//!
//! # Accuracy
//! Of two tapes whose readings have one standard deviation `sigma`, crossing at an angle `gamma`,
//! the point has `sx^2 + sy^2 = 2 sigma^2 / sin^2 gamma`, and the long half-axis of its ellipse is
//! `sigma / sqrt(1 - |cos gamma|)` (propagation of variances, as every text on adjustment has it).

use serde::Serialize;

use crate::geom::{Point, Vector};
use crate::math::{atan2, cos, sin};
use crate::units::constants::DEGREE;

/// Tapes that cross at less than this, or at more than this less than a straight angle, fix a point
/// poorly, radians (30 degrees: common practice; the error is then 2.83 times that of a tape).
pub const LEAST_CROSSING: f64 = 30.0 * DEGREE;

/// Fixed points nearer to each other than this are no base line, meters (arbitrary).
pub const LEAST_BASE: f64 = 0.5;

/// Tapes that cross at an angle whose sine is less than this do not fix a point (1 part in 1,000).
const NO_FIX: f64 = 1e-3;

/// The line from one fixed point to the other, which are never at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BaseLine {
    a: Point,
    b: Point,
    length: f64,
    along: Vector,
}

/// How a point hangs on a base line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tie {
    /// Distance from A and from B, meters.
    pub tapes: [f64; 2],
    /// The angle at which the tapes cross at the point, radians from 0 to a straight angle.
    pub crossing: f64,
    /// How far along the base line from A the point lies, meters.
    pub along: f64,
    /// How far off it, meters; positive on the left of the way from A to B.
    pub off: f64,
}

/// On which side of the way from A to B a point lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum BaseSide {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl BaseSide {
    /// 1 on the left, -1 on the right.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Left => 1.0,
            Self::Right => -1.0,
        }
    }
}

/// Where two tapes of given readings meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meeting {
    /// On the left and on the right of the base line (one place where it is on the line itself).
    At {
        /// The place on the left.
        left: Point,
        /// The place on the right.
        right: Point,
    },
    /// Nowhere: together they are so much shorter than the base line, meters.
    TooShort(f64),
    /// Nowhere: one is so much longer than the other and the base line, meters.
    TooLong(f64),
}

impl BaseLine {
    /// The line from `a` to `b`, site meters; none where they are too near to each other.
    pub fn new(a: Point, b: Point) -> Option<Self> {
        let length = a.distance(b);
        let along = (b - a).unit().filter(|_| length >= LEAST_BASE)?;
        Some(Self {
            a,
            b,
            length,
            along,
        })
    }

    /// Its length, meters.
    pub fn length(&self) -> f64 {
        self.length
    }

    /// Its two ends: A and B.
    pub fn ends(&self) -> [Point; 2] {
        [self.a, self.b]
    }

    /// How a point hangs on it.
    pub fn tie(&self, p: Point) -> Tie {
        let (to_a, to_b) = (self.a - p, self.b - p);
        Tie {
            tapes: [to_a.length(), to_b.length()],
            crossing: atan2(to_a.cross(to_b).abs(), to_a.dot(to_b)),
            along: self.along.dot(p - self.a),
            off: self.along.cross(p - self.a),
        }
    }

    /// Where tapes from A and B meet whose readings are these, meters.
    pub fn meet(&self, [a, b]: [f64; 2]) -> Meeting {
        let gap = self.length - (a + b);
        if gap > 0.0 {
            return Meeting::TooShort(gap);
        }
        let over = (a - b).abs() - self.length;
        if over > 0.0 {
            return Meeting::TooLong(over);
        }
        let x = (a * a - b * b + self.length * self.length) / (2.0 * self.length);
        let y = (a * a - x * x).max(0.0).sqrt();
        let (foot, aside) = (self.a + self.along * x, self.along.left() * y);
        Meeting::At {
            left: foot + aside,
            right: foot - aside,
        }
    }
}

impl Tie {
    /// Whether the tapes cross at an angle that fixes the point well.
    pub fn is_sound(&self) -> bool {
        let most = core::f64::consts::PI - LEAST_CROSSING;
        (LEAST_CROSSING..=most).contains(&self.crossing) && self.error(1.0).is_some()
    }

    /// The expected error of the point for tapes with a standard deviation `sigma`, meters: the root
    /// of `sx^2 + sy^2`. None where the tapes run along one line and fix nothing.
    pub fn error(&self, sigma: f64) -> Option<f64> {
        let turn = sin(self.crossing);
        let fixed = turn >= NO_FIX && self.tapes.iter().all(|tape| *tape > 0.0);
        fixed.then(|| core::f64::consts::SQRT_2 * sigma / turn)
    }

    /// The long half-axis of the point's standard ellipse, meters; none as for [`Tie::error`].
    pub fn long_axis(&self, sigma: f64) -> Option<f64> {
        self.error(sigma)?;
        Some(sigma / (1.0 - cos(self.crossing).abs()).sqrt())
    }

    /// On which side of the base line it lies.
    pub fn side(&self) -> BaseSide {
        if self.off < 0.0 {
            BaseSide::Right
        } else {
            BaseSide::Left
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    fn base(length: f64) -> BaseLine {
        BaseLine::new(Point::new(0.0, 0.0), Point::new(length, 0.0)).unwrap()
    }

    #[test]
    fn a_tie_leads_back_to_its_point() {
        let line = BaseLine::new(Point::new(2.0, -1.0), Point::new(9.0, 5.0)).unwrap();
        for (p, side) in [
            (Point::new(1.0, 7.0), BaseSide::Left),
            (Point::new(12.0, -3.0), BaseSide::Right),
        ] {
            let tie = line.tie(p);
            assert_eq!(tie.side(), side);
            let Meeting::At { left, right } = line.meet(tie.tapes) else {
                panic!("they meet");
            };
            let at = if side == BaseSide::Left { left } else { right };
            assert!(at.distance(p) < 1e-9);
            let foot = Point::new(2.0, -1.0) + line.along * tie.along;
            assert!((foot + line.along.left() * tie.off).distance(p) < 1e-12);
        }
    }

    #[test]
    fn tapes_that_cannot_meet_say_by_how_much() {
        assert_eq!(base(10.0).meet([4.0, 5.0]), Meeting::TooShort(1.0));
        assert_eq!(base(10.0).meet([15.0, 4.0]), Meeting::TooLong(1.0));
        assert_eq!(base(10.0).meet([4.0, 15.0]), Meeting::TooLong(1.0));
        let on_it = Point::new(4.0, 0.0);
        let touching = base(10.0).meet([4.0, 6.0]);
        assert_eq!(
            touching,
            Meeting::At {
                left: on_it,
                right: on_it
            }
        );
    }

    #[test]
    fn a_point_on_the_base_line_or_at_its_end_has_no_error_to_tell() {
        for x in [4.0, 14.0, 0.0] {
            let tie = base(10.0).tie(Point::new(x, 0.0));
            assert_eq!((tie.error(0.01), tie.long_axis(0.01)), (None, None));
            assert!(!tie.is_sound() && tie.crossing.is_finite());
        }
        assert!(BaseLine::new(Point::new(1.0, 1.0), Point::new(1.0, 1.2)).is_none());
    }
}
