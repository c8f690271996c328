//! Changing a shape: which one, which part of it is picked, and the edits of buttons and keys.

use serde::Serialize;

use super::handle::{Handle, Part};
use super::shape::Target;
use crate::finding::Finding;
use crate::geom::{Point, Segment, Vector};
use crate::lot::CornerChange;
use crate::site::Site;
use crate::sketch::square::{self, square_up};
use crate::sketch::{Sketch, build};
use crate::units::{Measure, show};

/// The bulge of an edge that becomes an arc at the touch of a button: a fifth of its half
/// length (our choice: enough to be taken hold of).
const FIRST_BULGE: f64 = 0.2;

/// A shape being changed. It is no part of the document.
#[derive(Debug, Clone, PartialEq)]
pub struct Shaping {
    /// Whose shape.
    pub target: Target,
    /// The part that buttons and keys act on.
    pub picked: Option<Handle>,
    /// Why the last change was not made, or what it came to.
    pub word: String,
}

/// What the page shows of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct Shaped {
    /// Whose shape it is.
    pub name: String,
    /// What it is made of.
    pub form: ShapedForm,
    /// Whether it is held where it is.
    pub locked: bool,
    /// How many corners it has.
    pub corners: usize,
    /// What is picked, if anything.
    pub picked: Option<PickedPart>,
    /// What is picked, in words: `corner 3 of 6`.
    pub says: String,
    /// Length of the picked edge, meters, and its bearing, radians.
    pub run: Option<(f64, f64)>,
    /// Why the last change was not made, or what it came to.
    pub word: String,
}

/// What a shape is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ShapedForm {
    /// Closed paths.
    Closed,
    /// An open path.
    Open,
    /// Spots of the survey.
    Spots,
    /// A disc.
    Disc,
    /// Nothing that could be changed by hand.
    None,
}

/// A part of a shape that buttons and keys act on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum PickedPart {
    /// A corner.
    Corner,
    /// A straight edge.
    Edge,
    /// An edge that is an arc.
    Arc,
}

impl PickedPart {
    const fn words(self) -> &'static str {
        match self {
            Self::Corner => "corner",
            Self::Edge => "edge",
            Self::Arc => "arc",
        }
    }
}

/// What a button or a key does to a shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ShapeEdit {
    /// Picks the next corner or edge, or the one before.
    Pick {
        /// Backwards.
        back: bool,
    },
    /// Adds a corner in the middle of the picked edge, or of the one behind the picked corner.
    Add,
    /// Takes the picked corner out.
    Remove,
    /// Makes the picked edge an arc, or the arc straight.
    Bend,
    /// Makes nearly square corners square.
    Square,
    /// Moves the picked part, or the whole (meters).
    Nudge(Vector),
    /// Sets length (meters) and bearing (radians) of the picked edge by its second corner.
    Run(f64, f64),
}

impl Shaping {
    /// What the page shows.
    pub(super) fn shaped(&self, site: &Site) -> Shaped {
        let paths = self.target.paths(site);
        let corners = paths.iter().map(|s| s.vertices.len()).sum();
        let sketch = self.picked.and_then(|g| paths.get(g.path));
        let form = match (&self.target, paths.first()) {
            (Target::Spots, _) => ShapedForm::Spots,
            (_, Some(first)) if first.closed => ShapedForm::Closed,
            (_, Some(_)) => ShapedForm::Open,
            (_, None) if self.target.disc(site).is_some() => ShapedForm::Disc,
            _ => ShapedForm::None,
        };
        let edge = |i| sketch.and_then(|s| s.edge(i));
        let (picked, index, of, run) = match self.picked.map(|g| g.part) {
            Some(Part::Corner(i)) if sketch.is_some_and(|s| i < s.vertices.len()) => {
                let (i, of) = match (form, self.picked) {
                    (ShapedForm::Spots, Some(handle)) => (handle.path, corners),
                    _ => (i, sketch.map_or(0, |s| s.vertices.len())),
                };
                (Some(PickedPart::Corner), i, of, None)
            }
            Some(Part::Edge(i)) => match edge(i) {
                Some(segment) => {
                    let way = segment.to() - segment.from();
                    let part = match segment {
                        Segment::Arc { .. } => PickedPart::Arc,
                        Segment::Line { .. } => PickedPart::Edge,
                    };
                    let run = (way.length(), way.bearing());
                    let of = sketch.map_or(0, Sketch::edges);
                    (Some(part), i, of, Some(run))
                }
                None => (None, 0, 0, None),
            },
            _ => (None, 0, 0, None),
        };
        Shaped {
            name: self.target.name(site),
            form,
            locked: self.locked(site),
            corners,
            says: picked.map_or_else(String::new, |what| {
                let what = match form {
                    ShapedForm::Spots => "spot",
                    _ => what.words(),
                };
                format!("{what} {} of {of}", index + 1)
            }),
            picked,
            run,
            word: self.word.clone(),
        }
    }

    /// Whether it is held where it is.
    pub(super) fn locked(&self, site: &Site) -> bool {
        self.target.feature(site).is_some_and(|f| f.locked)
    }

    /// Picks the next part: corner, the edge behind it, the next corner.
    pub(super) fn step(&mut self, site: &Site, back: bool) {
        let mut parts = Vec::new();
        for (path, sketch) in self.target.paths(site).iter().enumerate() {
            for i in 0..sketch.vertices.len() {
                let mut put = |part| parts.push(Handle { path, part });
                put(Part::Corner(i));
                if i < sketch.edges() && sketch.vertices.len() > 1 {
                    put(Part::Edge(i));
                }
            }
        }
        let now = parts.iter().position(|p| Some(*p) == self.picked);
        let count = parts.len();
        let next = match (now, back) {
            (None, _) => 0,
            (Some(now), false) => (now + 1) % count,
            (Some(now), true) => (now + count - 1) % count,
        };
        self.picked = parts.get(next).copied();
    }

    /// Carries out what a button or a key asks; gives the step's name.
    ///
    /// # Errors
    /// Why there is nothing to do.
    pub(super) fn carry_out(
        &mut self,
        site: &mut Site,
        edit: ShapeEdit,
    ) -> Result<&'static str, Vec<Finding>> {
        let paths = self.target.paths(site);
        let nothing = || {
            vec![Finding::fault(
                "nothing-picked",
                "Nothing is picked that this could change.",
                "Pick a corner or an edge first, by hand or step by step.",
            )]
        };
        if let ShapeEdit::Nudge(by) = edit {
            return self.nudge(site, by).ok_or_else(nothing);
        }
        if edit == ShapeEdit::Square {
            return self.square(site, &paths);
        }
        let handle = self.picked.ok_or_else(nothing)?;
        let sketch = paths.get(handle.path).ok_or_else(nothing)?;
        let mut picked = Some(handle);
        let (next, change, label) = match (edit, handle.part) {
            (ShapeEdit::Add, Part::Corner(i) | Part::Edge(i)) => {
                let edge = sketch.edge(i).ok_or_else(nothing)?;
                let part = Part::Corner(i + 1);
                picked = Some(Handle { part, ..handle });
                let next = sketch.with_corner(i, edge.point_at(0.5));
                (next, CornerChange::Added(i + 1), "add corner")
            }
            (ShapeEdit::Remove, Part::Corner(i)) => {
                picked = None;
                let label = if self.target == Target::Spots {
                    "remove spot"
                } else {
                    "remove corner"
                };
                (sketch.without_corner(i), CornerChange::Removed(i), label)
            }
            (ShapeEdit::Bend, Part::Edge(i)) => {
                let straight = matches!(sketch.edge(i), Some(Segment::Line { .. }));
                let bulge = if straight { outward(sketch) } else { 0.0 };
                (
                    sketch.with_bulge(i, bulge),
                    CornerChange::Moved,
                    "bend edge",
                )
            }
            (ShapeEdit::Run(length, bearing), Part::Edge(i)) => {
                let from = sketch.edge(i).ok_or_else(nothing)?.from();
                let next = (i + 1) % sketch.vertices.len().max(1);
                let to = build::ahead(from, length, bearing);
                (
                    sketch.with_corner_at(next, to),
                    CornerChange::Moved,
                    "set edge",
                )
            }
            _ => return Err(nothing()),
        };
        self.target.put(site, handle.path, &next, change);
        self.picked = picked;
        Ok(label)
    }

    fn nudge(&self, site: &mut Site, by: Vector) -> Option<&'static str> {
        let whole = Handle {
            path: 0,
            part: Part::Whole,
        };
        let movable = matches!(self.target, Target::Feature(_));
        let handle = self.picked.or(movable.then_some(whole))?;
        let from = super::handle::place(&self.target, site, handle, Point::default())?;
        super::handle::moved(&self.target, site, handle, from, from + by);
        Some(label(handle.part))
    }

    fn square(&mut self, site: &mut Site, paths: &[Sketch]) -> Result<&'static str, Vec<Finding>> {
        let mut greatest: f64 = 0.0;
        let mut edges = 0;
        for (index, sketch) in paths.iter().enumerate() {
            let squared = square_up(sketch, square::TOLERANCE).map_err(|fault| vec![fault])?;
            greatest = greatest.max(squared.greatest_move);
            edges += squared.edges;
            self.target
                .put(site, index, &squared.sketch, CornerChange::Moved);
        }
        let furthest = show(Measure::Length, greatest, site.display).text;
        self.word = format!("{edges} edges are square now; no corner moved more than {furthest}.");
        Ok("square up")
    }
}

/// A bulge that swells an edge outward.
fn outward(sketch: &Sketch) -> f64 {
    let mut area = 0.0;
    let corners = sketch.vertices.iter();
    for (a, b) in corners.zip(sketch.vertices.iter().cycle().skip(1)) {
        area += a.at.x * b.at.y - b.at.x * a.at.y;
    }
    if area < 0.0 {
        -FIRST_BULGE
    } else {
        FIRST_BULGE
    }
}

/// What moving a part is called.
pub(super) fn label(part: Part) -> &'static str {
    match part {
        Part::Corner(_) => "move corner",
        Part::Middle(_) => "add corner",
        Part::Edge(_) => "move edge",
        Part::Whole => "move feature",
        Part::Rim => "change radius",
    }
}
