//! Where the next point of a drawing goes: by the hand and what it is led to, by what is typed.

use super::{Draft, Figures, Next, Stretch, Typed, Wanted};
use crate::geom::{Point, Vector, Vertex};
use crate::math::{atan2, cos, sin};
use crate::sketch::build::{self, Way};
use crate::sketch::catch::{Stroke, catch};

/// The way on from a first point, where nothing says another.
const NORTH: Vector = Vector::new(0.0, 1.0);

impl Draft {
    /// ConstructionSettings out where the next point goes.
    pub(super) fn settle(&mut self) {
        let last = self.placed.last().map(|v| v.at);
        let fixed = last.is_some() && self.figures.length.is_some() && self.figures.angle.is_some();
        let hand = self.hand.filter(|_| !fixed);
        let caught = hand.and_then(|hand| catch(hand.at, hand.reach, &self.scene, &self.stroke()));
        let led = caught.as_ref().map(|it| it.at);
        let led = led.or(self.hand.map(|hand| hand.at));
        let at = match last {
            None => led,
            Some(last) => self.typed_from(last, led),
        };
        // What is typed leads elsewhere.
        let caught = caught.filter(|_| at == led);
        self.next = at.map(|at| Next { at, caught });
    }

    /// Whether the next point closes the path.
    pub(super) fn closes(&self) -> bool {
        match (self.stroke().next, self.at()) {
            (Some((first, _, _)), Some(at)) => first.distance(at) < 1e-6,
            _ => false,
        }
    }

    /// The direction in which the edge came that ends at the last point placed.
    pub(super) fn came(&self) -> Option<Vector> {
        let mut backwards = self.placed.iter().rev();
        let (last, before) = (backwards.next()?, backwards.next()?);
        direction(before, last.at, 1.0)
    }

    fn stroke(&self) -> Stroke {
        let last = self.placed.last().map(|v| v.at);
        let first = match (self.placed.first(), self.placed.get(1)) {
            (Some(a), Some(b)) if self.wanted == Wanted::Closed => {
                direction(a, b.at, -1.0).map(|way| (a.at, way, "the first edge"))
            }
            _ => None,
        };
        let enough = if self.through().is_some() { 2 } else { 3 };
        let may_close = self.placed.len() >= enough;
        Stroke {
            last,
            came: self.came().map(|way| (way, "the last edge")),
            next: first.filter(|_| may_close),
            may_close,
            leaving: None,
        }
    }

    /// The next point by what is typed, the rest by the hand.
    fn typed_from(&self, last: Point, led: Option<Point>) -> Option<Point> {
        if let (Stretch::Rectangle, [a, b, ..]) = (self.stretch, self.placed.as_slice()) {
            return self.typed_width((a.at, b.at), led);
        }
        let Figures { length, angle } = self.figures;
        let came = self.came();
        let bearing = angle.and_then(|angle| self.bearing(angle, last, led));
        let on = came.unwrap_or(NORTH);
        match (length, bearing) {
            (Some(length), Some(bearing)) => Some(build::ahead(last, length, bearing)),
            (Some(length), None) => {
                let towards = led.and_then(|led| (led - last).unit());
                Some(last + towards.unwrap_or(on) * length)
            }
            (None, Some(bearing)) => {
                let way = Vector::along_bearing(bearing);
                let reach = led.map_or(1.0, |led| (led - last).dot(way));
                Some(last + way * if reach > 0.0 { reach } else { 1.0 })
            }
            (None, None) => led,
        }
    }

    /// The bearing that a typed angle gives; `None` where it counts from an edge and there is none.
    fn bearing(&self, angle: Typed, last: Point, led: Option<Point>) -> Option<f64> {
        let came = self.came();
        let way = match angle {
            Typed::Way(Way::Bearing(bearing)) => return Some(bearing),
            Typed::Way(way) => way,
            Typed::Inside(angle) if self.inside_is_left(last, came?, led) => Way::InsideLeft(angle),
            Typed::Inside(angle) => Way::InsideRight(angle),
        };
        came.map(|came| way.bearing(came.bearing()))
    }

    /// A point beside the first edge, at the typed width on the hand's side of it.
    fn typed_width(&self, (a, b): (Point, Point), led: Option<Point>) -> Option<Point> {
        let Some(width) = self.figures.length else {
            return led;
        };
        let left = (b - a).unit()?.left();
        let side = led.map_or(1.0, |led| (led - a).dot(left));
        Some(b + left * if side < 0.0 { -width } else { width })
    }

    /// Which side the figure lies on: by the area so far, or else by the hand.
    fn inside_is_left(&self, last: Point, came: Vector, led: Option<Point>) -> bool {
        let mut area = 0.0;
        for (a, b) in self.placed.iter().zip(self.placed.iter().skip(1)) {
            area += (a.at - last).cross(b.at - last);
        }
        if area.abs() > 1e-9 {
            return area > 0.0;
        }
        led.is_none_or(|led| came.cross(led - last) >= 0.0)
    }
}

/// The direction of an edge at its start (`end` -1) or at its end (1): along the chord for a
/// straight one, turned by half the arc's angle for an arc.
fn direction(from: &Vertex, to: Point, end: f64) -> Option<Vector> {
    let chord = (to - from.at).unit()?;
    // The bulge is the tangent of a quarter of the arc's angle.
    let half = 2.0 * atan2(from.bulge, 1.0) * end;
    Some(Vector::new(
        chord.x * cos(half) - chord.y * sin(half),
        chord.x * sin(half) + chord.y * cos(half),
    ))
}
