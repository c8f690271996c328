//! A path being drawn, point by point: what is placed, what the hand shows, what is typed.
//!
//! Nothing of it is in the document. The page ends it with the vertices, and makes an edit of
//! them; until then "back" takes a point away, not a step of the history.
//!
//! | part | what it does |
//! |---|---|
//! | here | the drawing, and what happens as points are placed |
//! | `next` | where the next point goes: by the hand, by what is typed |
//! | `shown` | the drawing as the page shows it |

mod next;
mod shown;

use serde::Serialize;

use super::scene::scene;
use crate::finding::Finding;
use crate::geom::validate::SMALLEST_GAP;
use crate::geom::{PathRecord, Point, Vertex};
use crate::site::CheckedSite;
use crate::sketch::build::Way;
use crate::sketch::catch::{Caught, Scene};
use crate::sketch::{Sketch, arc, build};
use crate::units::System;

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
    stretch: Stretch,
    system: System,
    scene: Scene,
    placed: Vec<Vertex>,
    hand: Option<Hand>,
    figures: Figures,
    /// Where the next point goes.
    next: Option<Next>,
}

/// The stretch in hand.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Stretch {
    Straight,
    /// Its end is wanted next where it has a point on it.
    Arc {
        through: Option<Point>,
    },
    Rectangle,
}

/// Where the hand is, and how far it may be led, meters.
#[derive(Debug, Clone, Copy)]
struct Hand {
    at: Point,
    reach: f64,
}

/// What is typed for the next stretch, meters.
#[derive(Debug, Clone, Copy, Default)]
struct Figures {
    length: Option<f64>,
    angle: Option<Typed>,
}

/// Where the next point goes, and what it was led to.
#[derive(Debug)]
struct Next {
    at: Point,
    caught: Option<Caught>,
}

/// What the next point of a drawing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum NextPoint {
    /// The first of the path, or the center of a disc.
    First,
    /// The end of a straight edge.
    Next,
    /// A point on an arc.
    OnArc,
    /// The end of an arc.
    ArcEnd,
    /// The opposite corner of a rectangle.
    Opposite,
    /// How wide a rectangle on its first edge is.
    Width,
    /// The rim of a disc.
    Rim,
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
    /// What the next point is.
    pub wants: NextPoint,
    /// Length of the stretch in hand, for an arc along the chord.
    pub length: Option<String>,
    /// Its bearing.
    pub bearing: Option<String>,
    /// Both, meters and radians.
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
            stretch: Stretch::Straight,
            system: site.site().display,
            scene: scene(site),
            placed: start,
            hand: None,
            figures: Figures::default(),
            next: None,
        }
    }

    /// Follows the hand; it is led to things within `reach` meters, and nowhere with a reach
    /// of 0.
    pub fn follow(&mut self, hand: Point, reach: f64) {
        self.hand = Some(Hand { at: hand, reach });
        self.settle();
    }

    /// Takes typed figures for the next stretch in place of the hand's (meters, radians).
    pub fn typed(&mut self, length: Option<f64>, angle: Option<Typed>) {
        self.figures = Figures { length, angle };
        self.settle();
    }

    /// Draws the next stretch in another way.
    pub fn set_mode(&mut self, mode: Mode) {
        self.stretch = match mode {
            Mode::Straight => Stretch::Straight,
            Mode::Arc => Stretch::Arc { through: None },
            Mode::Rectangle => Stretch::Rectangle,
        };
        self.settle();
    }

    /// Takes the last point back; says whether there was one.
    pub fn back(&mut self) -> bool {
        let gone = match &mut self.stretch {
            Stretch::Arc { through } if through.is_some() => through.take().is_some(),
            _ => self.placed.pop().is_some(),
        };
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
        let Some(at) = self.at() else {
            return Ok(None);
        };
        let closes = self.closes();
        let last = self.placed.last().filter(|_| !closes);
        if last.is_some_and(|last| last.at.distance(at) < SMALLEST_GAP) {
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
        if let (Stretch::Arc { through }, Some(last)) = (&mut self.stretch, self.placed.last_mut())
        {
            let Some(on_arc) = *through else {
                *through = Some(at);
                self.go_on_from(at);
                return Ok(None);
            };
            *last = arc::arc_through(last.at, on_arc, at).map_err(|fault| vec![fault])?;
            *through = None;
        }
        if closes {
            return self.finish().map(Some);
        }
        self.placed.push(Vertex { at, bulge: 0.0 });
        self.go_on_from(at);
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
    fn go_on_from(&mut self, at: Point) {
        if let Some(hand) = &mut self.hand {
            hand.at = at;
        }
        self.figures = Figures::default();
        self.settle();
    }

    /// The point on an arc whose end is wanted next.
    fn through(&self) -> Option<Point> {
        match self.stretch {
            Stretch::Arc { through } => through,
            Stretch::Straight | Stretch::Rectangle => None,
        }
    }

    /// The rectangle that the next point makes, in that mode.
    fn rectangle(&self, at: Point) -> Option<[Vertex; 4]> {
        if self.stretch != Stretch::Rectangle {
            return None;
        }
        match *self.placed.as_slice() {
            // With a figure typed the point ends the first edge.
            [only] if self.figures.length.is_none() && self.figures.angle.is_none() => Some(
                build::rectangle(only.at, at, self.scene.direction_at(only.at)),
            ),
            [a, b] => Some(build::rectangle_on(a.at, b.at, at)),
            _ => None,
        }
    }

    /// The points that are placed, site meters.
    pub fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.placed.iter().map(|v| v.at).chain(self.through())
    }

    /// Where the next point goes.
    pub fn at(&self) -> Option<Point> {
        self.next.as_ref().map(|next| next.at)
    }

    /// What the hand was led to.
    pub fn caught(&self) -> Option<&Caught> {
        self.next.as_ref()?.caught.as_ref()
    }
}
