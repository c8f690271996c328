//! The display list: what stands on a page, in millimeters of paper from its upper left corner, y down.
//!
//! Every kind of file is written from these marks alone, so that a PDF and an SVG of a sheet show the same
//! thing at the same place. Later marks lie over earlier ones.

use std::sync::Arc;

use batterboard_core::geom::{Point, Vector};
use batterboard_core::math;

use crate::face::Face;
use crate::plan::Window;

/// A color of ink: red, green and blue, 0 to 255. All inks are opaque, so that a copier shows what the screen shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Color(pub u8, pub u8, pub u8);

impl Color {
    /// Plain ink.
    pub const BLACK: Self = Self(0x14, 0x1c, 0x20);
    /// Bare paper.
    pub const WHITE: Self = Self(255, 255, 255);
    /// Ink for what is read second.
    pub const GRAY: Self = Self(0x4c, 0x57, 0x5c);
    /// Hair lines of tables and frames.
    pub const RULE: Self = Self(0xa6, 0xae, 0xb1);
    /// What falls short or needs care.
    pub const ALARM: Self = Self(0xa8, 0x12, 0x1b);
}

/// How a line is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// Its color.
    pub color: Color,
    /// Its width, millimeters.
    pub width: f64,
    /// Dashes and gaps, millimeters; empty for a full line.
    pub dash: &'static [f64],
}

impl Stroke {
    /// A full line.
    pub const fn full(color: Color, width: f64) -> Self {
        Self {
            color,
            width,
            dash: &[],
        }
    }
}

/// How a shape is inked.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ink {
    /// What it is filled with.
    pub fill: Option<Color>,
    /// How its edge is drawn.
    pub stroke: Option<Stroke>,
}

impl Ink {
    /// An edge alone.
    pub const fn line(stroke: Stroke) -> Self {
        Self {
            fill: None,
            stroke: Some(stroke),
        }
    }

    /// A fill alone.
    pub const fn filled(color: Color) -> Self {
        Self {
            fill: Some(color),
            stroke: None,
        }
    }
}

/// A step of an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step {
    /// Straight to a place.
    Line(Point),
    /// A cubic curve by its two handles to a place.
    Curve(Point, Point, Point),
}

/// One stretch of an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// Where it begins.
    pub from: Point,
    /// How it goes on.
    pub steps: Vec<Step>,
    /// Whether it ends where it began.
    pub closed: bool,
}

impl Outline {
    /// Straight from place to place; none without any.
    pub fn through(places: impl IntoIterator<Item = Point>, closed: bool) -> Option<Self> {
        let mut places = places.into_iter();
        let from = places.next()?;
        Some(Self {
            from,
            steps: places.map(Step::Line).collect(),
            closed,
        })
    }

    fn grown(&self, by: f64) -> Self {
        let at = |p: Point| Point::new(p.x * by, p.y * by);
        let step = |step: &Step| match *step {
            Step::Line(p) => Step::Line(at(p)),
            Step::Curve(a, b, p) => Step::Curve(at(a), at(b), at(p)),
        };
        Self {
            from: at(self.from),
            steps: self.steps.iter().map(step).collect(),
            closed: self.closed,
        }
    }

    fn moved(&self, by: Vector) -> Self {
        let step = |step: &Step| match *step {
            Step::Line(p) => Step::Line(p + by),
            Step::Curve(a, b, p) => Step::Curve(a + by, b + by, p + by),
        };
        Self {
            from: self.from + by,
            steps: self.steps.iter().map(step).collect(),
            closed: self.closed,
        }
    }
}

/// An upright rectangle, millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Its left edge.
    pub x: f64,
    /// Its upper edge.
    pub y: f64,
    /// How wide it is.
    pub width: f64,
    /// How high it is.
    pub height: f64,
}

impl Area {
    /// The right edge.
    pub fn right(&self) -> f64 {
        self.x + self.width
    }

    /// The lower edge.
    pub fn bottom(&self) -> f64 {
        self.y + self.height
    }

    /// What is left when so much is cut off every side.
    pub fn inset(&self, by: f64) -> Self {
        Self {
            x: self.x + by,
            y: self.y + by,
            width: (self.width - 2.0 * by).max(0.0),
            height: (self.height - 2.0 * by).max(0.0),
        }
    }

    /// The same so many times as large, from the corner that places count from.
    pub fn grown(&self, by: f64) -> Self {
        Self {
            x: self.x * by,
            y: self.y * by,
            width: self.width * by,
            height: self.height * by,
        }
    }

    /// Its corners, from the upper left one clockwise.
    pub fn corners(&self) -> [Point; 4] {
        [
            Point::new(self.x, self.y),
            Point::new(self.right(), self.y),
            Point::new(self.right(), self.bottom()),
            Point::new(self.x, self.bottom()),
        ]
    }
}

/// A line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where its base line begins.
    pub at: Point,
    /// The way it runs, radians clockwise from the right.
    pub turn: f64,
    /// The face.
    pub face: Face,
    /// Height of an em, millimeters.
    pub size: f64,
    /// Its color.
    pub color: Color,
    /// Whether it has a rim of paper, so that it reads over lines.
    pub halo: bool,
    /// What it says.
    pub words: String,
}

impl Text {
    /// How long it is, millimeters.
    pub fn length(&self) -> f64 {
        self.face.length(&self.words, self.size)
    }

    /// The corners of the box that its letters fill: from the top of a capital to the base line.
    pub fn corners(&self) -> [Point; 4] {
        let (along, up) = self.axes();
        let (length, high) = (along * self.length(), up * (self.size * Face::CAPITAL));
        [
            self.at,
            self.at + length,
            self.at + length + high,
            self.at + high,
        ]
    }

    /// Unit vectors along the base line and up from it.
    pub fn axes(&self) -> (Vector, Vector) {
        let (sin, cos) = (math::sin(self.turn), math::cos(self.turn));
        (Vector::new(cos, sin), Vector::new(sin, -cos))
    }
}

/// A photograph as it is put on paper: a JPEG, which every kind of file takes as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// Its width, pixels.
    pub width: u32,
    /// Its height, pixels.
    pub height: u32,
    /// Whether it has no colors but gray.
    pub gray: bool,
    /// Its bytes (ISO/IEC 10918-1).
    pub bytes: Vec<u8>,
}

/// What marks are to whoever has the page read out: an element of the document's structure.
#[derive(Debug, Clone, PartialEq)]
pub enum Role {
    /// The title of the document.
    Title,
    /// A heading.
    Heading,
    /// A paragraph.
    Paragraph,
    /// A table.
    Table,
    /// A row of a table.
    Row,
    /// The title of a column.
    ColumnTitle,
    /// Any other cell of a table.
    Cell,
    /// Something drawn, and what it shows.
    Figure(String),
    /// Nothing that is read out: it is said elsewhere already.
    Ornament,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// Outlines filled and drawn together; overlapping ones cut holes.
    Shape(Vec<Outline>, Ink),
    /// A line of text.
    Text(Text),
    /// A photograph, as large as an area.
    Photo(Area, Arc<Photo>),
    /// Marks of which only what lies in an area is seen.
    Within(Area, Vec<Mark>),
    /// Marks that are an element of the document's structure, or more of the one that has the same number: lines of a
    /// paragraph, rows of a table. Text that is in no element is a paragraph of its own; lines alone are ornament.
    Element(Role, u32, Vec<Mark>),
}

impl Mark {
    /// The same somewhere else.
    pub fn moved(&self, by: Vector) -> Self {
        match self {
            Self::Shape(outlines, ink) => Self::Shape(
                outlines.iter().map(|it| it.moved(by)).collect(),
                ink.clone(),
            ),
            Self::Text(text) => Self::Text(Text {
                at: text.at + by,
                ..text.clone()
            }),
            Self::Photo(area, photo) => {
                let area = Area {
                    x: area.x + by.x,
                    y: area.y + by.y,
                    ..*area
                };
                Self::Photo(area, Arc::clone(photo))
            }
            Self::Within(area, marks) => {
                let area = Area {
                    x: area.x + by.x,
                    y: area.y + by.y,
                    ..*area
                };
                Self::Within(area, marks.iter().map(|it| it.moved(by)).collect())
            }
            Self::Element(role, number, marks) => {
                let marks = marks.iter().map(|it| it.moved(by)).collect();
                Self::Element(role.clone(), *number, marks)
            }
        }
    }

    /// The same so many times as large, from the corner that places count from. Dashes keep their length.
    pub fn grown(&self, by: f64) -> Self {
        match self {
            Self::Shape(outlines, ink) => {
                let stroke = ink.stroke.clone().map(|stroke| Stroke {
                    width: stroke.width * by,
                    ..stroke
                });
                let outlines = outlines.iter().map(|it| it.grown(by)).collect();
                Self::Shape(
                    outlines,
                    Ink {
                        stroke,
                        fill: ink.fill,
                    },
                )
            }
            Self::Text(text) => Self::Text(Text {
                at: Point::new(text.at.x * by, text.at.y * by),
                size: text.size * by,
                ..text.clone()
            }),
            Self::Photo(area, photo) => Self::Photo(area.grown(by), Arc::clone(photo)),
            Self::Within(area, marks) => Self::Within(
                area.grown(by),
                marks.iter().map(|it| it.grown(by)).collect(),
            ),
            Self::Element(role, number, marks) => {
                let marks = marks.iter().map(|it| it.grown(by)).collect();
                Self::Element(role.clone(), *number, marks)
            }
        }
    }

    /// Every text in it, whether seen or cut off.
    pub fn texts(&self) -> Vec<&Text> {
        match self {
            Self::Shape(..) | Self::Photo(..) => Vec::new(),
            Self::Text(text) => vec![text],
            Self::Within(_, marks) | Self::Element(_, _, marks) => {
                marks.iter().flat_map(Self::texts).collect()
            }
        }
    }

    /// Every photograph in it.
    pub fn photos(&self) -> Vec<(&Area, &Arc<Photo>)> {
        match self {
            Self::Shape(..) | Self::Text(_) => Vec::new(),
            Self::Photo(area, photo) => vec![(area, photo)],
            Self::Within(_, marks) | Self::Element(_, _, marks) => {
                marks.iter().flat_map(Self::photos).collect()
            }
        }
    }
}

/// A page.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Its width, millimeters.
    pub width: f64,
    /// Its height, millimeters.
    pub height: f64,
    /// What stands on it, lowest first.
    pub marks: Vec<Mark>,
}

/// A file that goes with a document.
#[derive(Debug, Clone, PartialEq)]
pub struct Attachment {
    /// Its name.
    pub name: String,
    /// What it is, as a media type.
    pub kind: &'static str,
    /// What it is, in words.
    pub what: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// Everything that is printed together.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its title.
    pub title: String,
    /// What it is about.
    pub subject: String,
    /// The language of its text, as a tag of BCP 47.
    pub language: &'static str,
    /// Its pages, in order.
    pub pages: Vec<Page>,
    /// Where the plan is on the first page, if anywhere.
    pub window: Option<Window>,
    /// What goes with it.
    pub attachments: Vec<Attachment>,
}

impl Document {
    /// Every text of a page.
    pub fn texts(&self, page: usize) -> Vec<&Text> {
        let page = self.pages.get(page);
        page.map_or(Vec::new(), |page| {
            page.marks.iter().flat_map(Mark::texts).collect()
        })
    }
}
