//! A path being drawn, point by point: what is placed, what the hand shows, what is typed.
//!
//! Nothing of it is in the document. The page ends it with the vertices, and makes an edit of
//! them; until then "back" takes a point away, not a step of the history.

use serde::Serialize;

use super::scene::scene;
use crate::finding::Finding;
use crate::geom::{PathRecord, Point, Segment, Vector, Vertex};
use crate::math::{atan2, cos, sin, wrap_half_turn};
use crate::site::CheckedSite;
use crate::sketch::build::{self, Way};
use crate::sketch::catch::{Caught, Scene, Stroke, catch};
use crate::sketch::{Sketch, arc};
use crate::units::{Measure, System, show};

/// How the next stretch is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "DrawMode")
)]
#[serde(rename_all = "kebab-case")]
pub enum Mode {
    /// Straight edges.
    Straight,
    /// An arc by a point on it and its end.
    Arc,
    /// A rectangle by two opposite corners, or on the first edge by its width.
    Rectangle,
}

/// What is wanted of a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "typescript", derive(serde::Deserialize, tsify::Tsify))]
#[cfg_attr(feature = "typescript", serde(rename_all = "kebab-case"))]
pub enum Wanted {
    /// One point.
    Point,
    /// Two points: from where to where.
    Stretch,
    /// A middle, and a point on the circle.
    Disc,
    /// An open path.
    Open,
    /// A closed path.
    Closed,
}

/// An angle typed for the next stretch, radians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Typed {
    /// A bearing, or a turn from the last edge.
    Way(Way),
    /// The angle inside the figure, on whichever side that turns out to be.
    Inside(f64),
}

/// A drawing under way.
#[derive(Debug)]
pub struct Draft {
    wanted: Wanted,
    mode: Mode,
    system: System,
    scene: Scene,
    placed: Vec<Vertex>,
    /// The point on an arc whose end is wanted next.
    through: Option<Point>,
    /// Where the hand is, and how far it may be led, metres.
    hand: Option<(Point, f64)>,
    length: Option<f64>,
    angle: Option<Typed>,
    /// Where the next point goes, and why.
    at: Option<Point>,
    caught: Option<Caught>,
}

/// What the page shows of a drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct Drawn {
    /// What is placed.
    pub points: PathRecord,
    /// Where the next point goes.
    pub at: Option<Point>,
    /// How the next stretch is drawn.
    #[cfg_attr(feature = "typescript", tsify(type = "DrawMode"))]
    pub mode: Mode,
    /// What the next point is: `first`, `next`, `on-arc`, `arc-end`, `opposite`, `width`,
    /// `rim`.
    #[cfg_attr(
        feature = "typescript",
        tsify(type = "'first' | 'next' | 'on-arc' | 'arc-end' | 'opposite' | 'width' | 'rim'")
    )]
    pub wants: &'static str,
    /// Length of the stretch in hand, for an arc along the chord.
    pub length: Option<String>,
    /// Its bearing.
    pub bearing: Option<String>,
    /// Both, metres and radians.
    pub run: Option<(f64, f64)>,
    /// How it turns from the edge before, in words.
    pub turn: Option<String>,
    /// Radius of the arc in hand.
    pub radius: Option<String>,
    /// Why the point is where it is.
    pub reason: Option<String>,
    /// Whether the next point closes the path.
    pub closes: bool,
    /// Whether what is placed may be taken as it is.
    pub ready: bool,
}

impl Draft {
    pub(super) fn begin(wanted: Wanted, start: Vec<Vertex>, site: &CheckedSite) -> Self {
        Self {
            wanted,
            mode: Mode::Straight,
            system: site.site().display,
            scene: scene(site),
            placed: start,
            through: None,
            hand: None,
            length: None,
            angle: None,
            at: None,
            caught: None,
        }
    }

    /// Follows the hand; it is led to things within `reach` metres, and nowhere with a reach
    /// of 0.
    pub fn follow(&mut self, hand: Point, reach: f64) {
        self.hand = Some((hand, reach));
        self.settle();
    }

    /// Takes typed figures for the next stretch in place of the hand's (metres, radians).
    pub fn typed(&mut self, length: Option<f64>, angle: Option<Typed>) {
        self.length = length;
        self.angle = angle;
        self.settle();
    }

    /// Draws the next stretch in another way.
    pub fn set_mode(&mut self, mode: Mode) {
        self.mode = mode;
        self.through = None;
        self.settle();
    }

    /// Takes the last point back; says whether there was one.
    pub fn back(&mut self) -> bool {
        let gone = self.through.take().is_some() || self.placed.pop().is_some();
        if let Some(last) = self.placed.last_mut() {
            last.bulge = 0.0;
        }
        self.settle();
        gone
    }

    /// Places the next point. Gives the finished path when it was the last.
    ///
    /// # Errors
    /// Why the point cannot be placed; the drawing goes on as it was.
    pub fn place(&mut self) -> Result<Option<Vec<Vertex>>, Vec<Finding>> {
        let Some(at) = self.at else {
            return Ok(None);
        };
        let closes = self.closes();
        if let Some(last) = self.placed.last()
            && last.at.distance(at) < crate::geom::validate::SMALLEST_GAP
            && !closes
        {
            return Err(vec![Finding::fault(
                "point-repeated",
                "The point lies on the one before.",
                "Go on to another place, or take the point back.",
            )]);
        }
        if let Some(rectangle) = self.rectangle(at) {
            let faults = Sketch::new(rectangle.to_vec(), true).check();
            if !faults.is_empty() {
                return Err(faults);
            }
            self.placed = rectangle.to_vec();
            return Ok(Some(self.placed.clone()));
        }
        if self.mode == Mode::Arc && !self.placed.is_empty() {
            let Some(through) = self.through else {
                self.through = Some(at);
                self.forget();
                return Ok(None);
            };
            if let Some(last) = self.placed.last_mut() {
                *last = arc::arc_through(last.at, through, at).map_err(|fault| vec![fault])?;
            }
            self.through = None;
        }
        if closes {
            return self.finish().map(Some);
        }
        self.placed.push(Vertex { at, bulge: 0.0 });
        self.forget();
        let enough = match self.wanted {
            Wanted::Point => 1,
            Wanted::Stretch | Wanted::Disc => 2,
            Wanted::Open | Wanted::Closed => usize::MAX,
        };
        Ok((self.placed.len() >= enough).then(|| self.placed.clone()))
    }

    /// The finished path.
    ///
    /// # Errors
    /// Every fault of it; the drawing goes on.
    pub fn finish(&mut self) -> Result<Vec<Vertex>, Vec<Finding>> {
        let faults = Sketch::new(self.placed.clone(), self.wanted == Wanted::Closed).check();
        if faults.is_empty() {
            Ok(self.placed.clone())
        } else {
            Err(faults)
        }
    }

    /// Drops typed figures: they were for one stretch. The hand is where the point went.
    fn forget(&mut self) {
        if let (Some(hand), Some(at)) = (&mut self.hand, self.at) {
            hand.0 = at;
        }
        self.length = None;
        self.angle = None;
        self.settle();
    }

    /// The edge that ends at the last point placed: its end and its direction there.
    fn came(&self) -> Option<Vector> {
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
        let enough = if self.through.is_some() { 2 } else { 3 };
        let may_close = self.placed.len() >= enough;
        Stroke {
            last,
            came: self.came().map(|way| (way, "the last edge")),
            next: first.filter(|_| may_close),
            may_close,
            leaving: None,
        }
    }

    /// Works out where the next point goes.
    fn settle(&mut self) {
        let last = self.placed.last().map(|v| v.at);
        let free = self.length.is_none() || self.angle.is_none() || last.is_none();
        self.caught = self
            .hand
            .filter(|_| free)
            .and_then(|(hand, reach)| catch(hand, reach, &self.scene, &self.stroke()));
        let led = self
            .caught
            .as_ref()
            .map(|c| c.at)
            .or(self.hand.map(|(hand, _)| hand));
        self.at = match last {
            None => led,
            Some(last) => self.typed_from(last, led),
        };
        if self.at != led {
            self.caught = None;
        }
    }

    /// The next point by what is typed, the rest by the hand.
    fn typed_from(&self, last: Point, led: Option<Point>) -> Option<Point> {
        if self.mode == Mode::Rectangle && self.placed.len() > 1 {
            return self.typed_width(led);
        }
        let came = self.came();
        let bearing = match self.angle {
            None => None,
            Some(Typed::Way(Way::Bearing(bearing))) => Some(bearing),
            Some(Typed::Way(way)) => came.map(|c| way.bearing(c.bearing())),
            Some(Typed::Inside(angle)) => came.map(|c| {
                let way = if self.inside_is_left(last, c, led) {
                    Way::InsideLeft(angle)
                } else {
                    Way::InsideRight(angle)
                };
                way.bearing(c.bearing())
            }),
        };
        match (self.length, bearing, led) {
            (Some(length), Some(bearing), _) => Some(build::ahead(last, length, bearing)),
            (Some(length), None, Some(led)) => {
                let on = came.unwrap_or(Vector::new(0.0, 1.0));
                Some(last + (led - last).unit().unwrap_or(on) * length)
            }
            (None, Some(bearing), led) => {
                let way = Vector::along_bearing(bearing);
                let reach = led.map_or(1.0, |led| (led - last).dot(way));
                Some(last + way * if reach > 0.0 { reach } else { 1.0 })
            }
            (Some(length), None, None) => {
                Some(last + came.unwrap_or(Vector::new(0.0, 1.0)) * length)
            }
            (None, None, led) => led,
        }
    }

    /// A point beside the first edge, at the typed width on the hand's side of it.
    fn typed_width(&self, led: Option<Point>) -> Option<Point> {
        let (a, b) = (self.placed.first()?.at, self.placed.get(1)?.at);
        let Some(width) = self.length else { return led };
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

    fn closes(&self) -> bool {
        let stroke = self.stroke();
        let first = stroke.next.filter(|_| stroke.may_close);
        match (first, self.at) {
            (Some((first, _, _)), Some(at)) => first.distance(at) < 1e-6,
            _ => false,
        }
    }

    /// The rectangle that the next point makes, in that mode.
    fn rectangle(&self, at: Point) -> Option<[Vertex; 4]> {
        if self.mode != Mode::Rectangle {
            return None;
        }
        match *self.placed.as_slice() {
            [only] if self.length.is_none() && self.angle.is_none() => Some(build::rectangle(
                only.at,
                at,
                self.scene.direction_at(only.at),
            )),
            [a, b] => Some(build::rectangle_on(a.at, b.at, at)),
            _ => None,
        }
    }

    /// The stretches that are placed, then those in hand, site metres.
    pub fn stretches(&self) -> (Vec<Segment>, Vec<Segment>) {
        let between = |path: &[Vertex]| -> Vec<Segment> {
            let pairs = path.iter().zip(path.iter().skip(1));
            pairs.map(|(a, b)| Segment::between(*a, b.at)).collect()
        };
        let placed = between(&self.placed);
        let Some((at, last)) = self.at.zip(self.placed.last()) else {
            return (placed, Vec::new());
        };
        if let Some(rectangle) = self.rectangle(at) {
            let mut round = rectangle.to_vec();
            round.extend(rectangle.first());
            return (placed, between(&round));
        }
        if self.wanted == Wanted::Disc {
            let opposite = last.at + (last.at - at);
            let half = |from, to| {
                Segment::between(
                    Vertex {
                        at: from,
                        bulge: 1.0,
                    },
                    to,
                )
            };
            return (placed, vec![half(at, opposite), half(opposite, at)]);
        }
        let hand = match self.through {
            Some(through) => match arc::bulge_through(last.at, through, at) {
                Some(bulge) => vec![Segment::between(Vertex { bulge, ..*last }, at)],
                None => vec![],
            },
            None => vec![Segment::between(
                Vertex {
                    bulge: 0.0,
                    ..*last
                },
                at,
            )],
        };
        (placed, hand)
    }

    /// The points that are placed, site metres.
    pub fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.placed.iter().map(|v| v.at).chain(self.through)
    }

    /// Where the next point goes.
    pub fn at(&self) -> Option<Point> {
        self.at
    }

    /// What the hand was led to.
    pub fn caught(&self) -> Option<&Caught> {
        self.caught.as_ref()
    }

    /// What the page shows.
    pub fn drawn(&self) -> Drawn {
        let last = self.placed.last();
        let shown = |measure, value| show(measure, value, self.system).text;
        let base = match (self.mode, self.placed.as_slice()) {
            // The width of a rectangle counts from its first edge.
            (Mode::Rectangle, [_, b]) => self.rectangle(b.at).and(self.at).map(|at| {
                let a = self.placed.first().map_or(b.at, |v| v.at);
                let left = (b.at - a).unit().unwrap_or_default().left();
                left * (at - b.at).dot(left)
            }),
            _ => last.zip(self.at).map(|(last, at)| at - last.at),
        };
        let base = base.filter(|it| it.length() > 1e-9);
        let (_, hand) = self.stretches();
        let radius = hand.iter().find_map(|s| match s {
            Segment::Arc { radius, .. } => Some(shown(Measure::Length, *radius)),
            Segment::Line { .. } => None,
        });
        let turn = base.zip(self.came()).map(|(way, came)| {
            let by = wrap_half_turn(way.bearing() - came.bearing());
            let side = if by < 0.0 { "left" } else { "right" };
            format!("{} {side}", shown(Measure::Angle, by.abs()))
        });
        Drawn {
            points: PathRecord::from(self.placed.as_slice()),
            at: self.at,
            mode: self.mode,
            wants: self.wants(),
            length: base.map(|it| shown(Measure::Length, it.length())),
            bearing: base.map(|it| shown(Measure::Bearing, it.bearing())),
            run: base.map(|it| (it.length(), it.bearing())),
            turn,
            radius,
            reason: self.caught.as_ref().map(|c| c.reason.clone()),
            closes: self.closes(),
            ready: self.placed.len() >= if self.wanted == Wanted::Closed { 3 } else { 2 }
                || self.placed.iter().any(|v| v.bulge != 0.0),
        }
    }

    fn wants(&self) -> &'static str {
        match (self.mode, self.placed.len(), self.through) {
            (_, 0, _) => "first",
            _ if self.wanted == Wanted::Disc => "rim",
            (Mode::Arc, _, None) => "on-arc",
            (Mode::Arc, _, Some(_)) => "arc-end",
            (Mode::Rectangle, 1, _) => "opposite",
            (Mode::Rectangle, 2, _) => "width",
            _ => "next",
        }
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
