//! Upright boxes round figures: what lies in none of them need not be measured.

use super::point::Point;
use crate::math::{greater, lesser};

/// Edges in a block with a box of its own: few enough that most blocks lie far away, many enough
/// that looking at the boxes costs little.
pub(super) const BLOCK: usize = 16;

/// A box is left out only where it is farther by more than rounding: this share of the square.
const ROUNDING: f64 = 1.0 + 1e-9;

/// An upright box. One round nothing is nowhere: no point is near it, and it meets no other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    pub low: Point,
    pub high: Point,
}

impl Extent {
    /// The least box round some points.
    pub fn round(points: impl Iterator<Item = Point>) -> Self {
        let nowhere = Self {
            low: Point::new(f64::INFINITY, f64::INFINITY),
            high: Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
        };
        points.fold(nowhere, |Self { low, high }, p| Self {
            low: Point::new(lesser(low.x, p.x), lesser(low.y, p.y)),
            high: Point::new(greater(high.x, p.x), greater(high.y, p.y)),
        })
    }

    /// Whether the two boxes overlap or touch.
    pub fn meets(&self, other: &Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }

    /// Squared distance from another box; 0 where they meet.
    pub fn square(&self, other: &Self) -> f64 {
        let apart = |low: f64, high: f64, other_low: f64, other_high: f64| {
            greater(greater(other_low - high, low - other_high), 0.0)
        };
        let x = apart(self.low.x, self.high.x, other.low.x, other.high.x);
        let y = apart(self.low.y, self.high.y, other.low.y, other.high.y);
        x * x + y * y
    }

    /// Squared distance from a point; 0 within the box.
    pub fn square_to(&self, p: Point) -> f64 {
        let x = greater(greater(self.low.x - p.x, p.x - self.high.x), 0.0);
        let y = greater(greater(self.low.y - p.y, p.y - self.high.y), 0.0);
        x * x + y * y
    }

    /// Whether anything in the box may lie nearer to a point than the root of `square`, or as near.
    pub fn may_be_nearer(&self, p: Point, square: f64) -> bool {
        self.square_to(p) <= square * ROUNDING
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_tells_how_near_what_it_holds_may_be() {
        let corners = [(3.0, 1.0), (1.0, 2.0)].map(|(x, y)| Point::new(x, y));
        let extent = Extent::round(corners.into_iter());
        assert_eq!((extent.low.x, extent.high.y), (1.0, 2.0));
        assert_eq!(extent.square(&extent), 0.0);
        let far = Extent::round([Point::new(6.0, 6.0)].into_iter());
        assert_eq!(extent.square(&far), 25.0);
        assert_eq!(extent.square_to(far.low), 25.0);
        assert!(extent.meets(&extent) && !extent.meets(&far));
        assert!(extent.may_be_nearer(far.low, 25.0) && !extent.may_be_nearer(far.low, 24.9));
        let nowhere = Extent::round(core::iter::empty());
        assert!(!nowhere.meets(&extent) && nowhere.square(&extent) == f64::INFINITY);
    }
}
