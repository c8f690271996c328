//! What labels are and what they keep clear of, as shapes: turned boxes and straight strokes.

use crate::geom::{Point, Vector};
use crate::math::{TURN, wrap_turn};

/// Boxes that come this near are still apart, view units.
const TOUCH: f64 = 1e-6;

/// The box round a piece of text, turned as the text runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextBox {
    /// Its middle.
    pub centre: Point,
    /// Half of its length, along the text.
    pub half_length: f64,
    /// Half of its height, across the text.
    pub half_height: f64,
    /// The direction in which the text runs, of length 1.
    pub along: Vector,
}

impl TextBox {
    /// An upright rectangle between two corners.
    pub fn between(low: Point, high: Point) -> Self {
        Self {
            centre: low.midpoint(high),
            half_length: (high.x - low.x) / 2.0,
            half_height: (high.y - low.y) / 2.0,
            along: Vector::new(1.0, 0.0),
        }
    }

    /// The bearing in which the text runs, clockwise from up, radians.
    pub fn bearing(&self) -> f64 {
        wrap_turn(TURN / 4.0 + self.along.angle())
    }

    fn across(&self) -> Vector {
        Vector::new(-self.along.y, self.along.x)
    }

    /// The four corners, in order round it.
    pub fn corners(&self) -> [Point; 4] {
        let (l, h) = (
            self.along * self.half_length,
            self.across() * self.half_height,
        );
        let c = self.centre;
        [c - l - h, c + l - h, c + l + h, c - l + h]
    }

    /// How far it reaches from its middle along x and along y.
    pub fn extent(&self) -> Vector {
        let (a, h) = (self.along, self.half_height);
        Vector::new(
            a.x.abs() * self.half_length + a.y.abs() * h,
            a.y.abs() * self.half_length + a.x.abs() * h,
        )
    }

    /// Whether it shares inner points with another.
    pub fn overlaps(&self, other: &Self) -> bool {
        let (d, a, b) = (other.centre - self.centre, self.extent(), other.extent());
        if d.x.abs() > a.x + b.x - TOUCH || d.y.abs() > a.y + b.y - TOUCH {
            return false;
        }
        !self.parted_from(other) && !other.parted_from(self)
    }

    /// Whether one of its own axes separates it from another.
    fn parted_from(&self, other: &Self) -> bool {
        let d = other.centre - self.centre;
        let reach = |axis: Vector| {
            other.along.dot(axis).abs() * other.half_length
                + other.across().dot(axis).abs() * other.half_height
        };
        let parted = |axis: Vector, half: f64| d.dot(axis).abs() > half + reach(axis) - TOUCH;
        parted(self.along, self.half_length) || parted(self.across(), self.half_height)
    }

    /// Whether a stroke runs through it.
    pub fn is_crossed_by(&self, from: Point, to: Point) -> bool {
        let local = |p: Point| {
            let d = p - self.centre;
            (d.dot(self.along), d.dot(self.across()))
        };
        let ((x, y), (u, v)) = (local(from), local(to));
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        let sides = [
            (x, u - x, self.half_length - TOUCH),
            (y, v - y, self.half_height - TOUCH),
        ];
        for (start, run, half) in sides {
            if run.abs() < 1e-12 {
                if start.abs() >= half {
                    return false;
                }
                continue;
            }
            let (a, b) = ((-half - start) / run, (half - start) / run);
            enter = enter.max(a.min(b));
            leave = leave.min(a.max(b));
        }
        enter < leave
    }

    /// Whether a point lies in it.
    pub fn contains(&self, p: Point) -> bool {
        let d = p - self.centre;
        d.dot(self.along).abs() <= self.half_length
            && d.dot(self.across()).abs() <= self.half_height
    }

    /// The point of it nearest to another.
    pub fn nearest(&self, p: Point) -> Point {
        let d = p - self.centre;
        let l = d.dot(self.along).clamp(-self.half_length, self.half_length);
        let h = d
            .dot(self.across())
            .clamp(-self.half_height, self.half_height);
        self.centre + self.along * l + self.across() * h
    }
}

/// The shape of an obstacle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// A box.
    Box(TextBox),
    /// A straight stroke between two points.
    Stroke(Point, Point),
}

impl Shape {
    /// Smallest upright rectangle round it: the corners of least and greatest coordinates.
    pub(super) fn bounds(&self) -> (Point, Point) {
        match self {
            Self::Box(it) => (it.centre - it.extent(), it.centre + it.extent()),
            Self::Stroke(a, b) => (
                Point::new(a.x.min(b.x), a.y.min(b.y)),
                Point::new(a.x.max(b.x), a.y.max(b.y)),
            ),
        }
    }

    /// Whether a text would lie on it.
    pub fn lies_under(&self, text: &TextBox) -> bool {
        match self {
            Self::Box(it) => it.overlaps(text),
            Self::Stroke(a, b) => text.is_crossed_by(*a, *b),
        }
    }

    /// Whether a stroke would run through it or across it.
    pub fn is_crossed_by(&self, from: Point, to: Point) -> bool {
        match self {
            Self::Box(it) => it.is_crossed_by(from, to),
            Self::Stroke(a, b) => {
                let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
                side(*a, *b, from) * side(*a, *b, to) < 0.0
                    && side(from, to, *a) * side(from, to, *b) < 0.0
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(x: f64, y: f64, half_length: f64, bearing: f64) -> TextBox {
        let along = Vector::new(crate::math::sin(bearing), -crate::math::cos(bearing));
        TextBox {
            centre: Point::new(x, y),
            half_length,
            half_height: 6.0,
            along,
        }
    }

    #[test]
    fn turned_boxes_overlap_only_where_they_share_points() {
        let level = text(0.0, 0.0, 40.0, TURN / 4.0);
        // Its upright rectangle lies over the level text, itself it does not.
        let slanted = text(30.0, 42.0, 50.0, TURN / 8.0);
        assert!(!level.overlaps(&slanted) && !slanted.overlaps(&level));
        let nearer = text(30.0, 22.0, 50.0, TURN / 8.0);
        assert!(level.overlaps(&nearer) && nearer.overlaps(&level));
        // Side by side they touch and are apart.
        assert!(!level.overlaps(&text(80.0, 0.0, 40.0, TURN / 4.0)));
    }

    #[test]
    fn a_stroke_crosses_where_it_has_points_within() {
        let level = text(0.0, 0.0, 40.0, TURN / 4.0);
        assert!(level.is_crossed_by(Point::new(0.0, -20.0), Point::new(0.0, 20.0)));
        assert!(!level.is_crossed_by(Point::new(-60.0, 6.0), Point::new(60.0, 6.0)));
        assert!(!level.is_crossed_by(Point::new(41.0, -20.0), Point::new(60.0, 20.0)));
        assert!(level.is_crossed_by(Point::new(0.0, 0.0), Point::new(1.0, 1.0)));
    }

    #[test]
    fn the_bearing_is_that_of_the_text() {
        for bearing in [0.0, 0.4, TURN / 4.0, 2.9] {
            assert!((text(0.0, 0.0, 9.0, bearing).bearing() - bearing).abs() < 1e-9);
        }
    }
}
