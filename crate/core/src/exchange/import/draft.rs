//! What was found in a text, in the text's own coordinates.

use serde::Serialize;

use super::role::{Role, Settings};
use crate::finding::Finding;

/// Which form a text has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "MapForm")
)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// GeoJSON (RFC 7946).
    GeoJson,
    /// A list of points, one to a line.
    Points,
    /// LandXML.
    LandXml,
}

/// Everything that was found in a text; nothing of it is in the site yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// The form of the text.
    pub form: Form,
    /// What was found, in the order of the text.
    pub items: Vec<Item>,
    /// How the numbers seem to be meant.
    pub proposed: Settings,
    /// What the reading had to say; faults are of things that were left out.
    pub findings: Vec<Finding>,
}

/// One thing that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Where: a JSON pointer, or `line 7`.
    pub place: String,
    /// The identifier it had when this planner wrote it; otherwise empty.
    pub id: String,
    /// What it is called in the text; may be empty.
    pub name: String,
    /// What it is grouped by: the description of a point, the kind of geometry and its hint.
    pub group: String,
    /// A few words on it.
    pub words: String,
    /// Its shape.
    pub shape: Shape,
    /// What it seems to be.
    pub proposed: Role,
}

/// Two numbers in the order of the text, and an elevation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Position {
    /// The first number.
    pub first: f64,
    /// The second number.
    pub second: f64,
    /// The elevation, where told.
    pub height: Option<f64>,
}

/// A polygon: its outer ring and its holes, none of which repeats its first corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece<P> {
    /// The outer ring.
    pub outer: Vec<P>,
    /// The holes in it.
    pub holes: Vec<Vec<P>>,
}

impl<P> Piece<P> {
    /// The outer ring and then the holes.
    pub fn rings(&self) -> impl Iterator<Item = &Vec<P>> {
        core::iter::once(&self.outer).chain(&self.holes)
    }
}

/// A shape whose positions are `P`.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape<P = Position> {
    /// One point or several.
    Points(Vec<P>),
    /// One line or several.
    Lines(Vec<Vec<P>>),
    /// One polygon or several.
    Areas(Vec<Piece<P>>),
}

impl<P> Shape<P> {
    /// All positions.
    pub fn positions(&self) -> Vec<&P> {
        match self {
            Self::Points(points) => points.iter().collect(),
            Self::Lines(lines) => lines.iter().flatten().collect(),
            Self::Areas(pieces) => pieces.iter().flat_map(Piece::rings).flatten().collect(),
        }
    }

    /// The same shape with every position carried over; `None` when one cannot be.
    pub fn carried<Q>(&self, mut over: impl FnMut(&P) -> Option<Q>) -> Option<Shape<Q>> {
        let mut chain = |chain: &Vec<P>| chain.iter().map(&mut over).collect::<Option<Vec<Q>>>();
        Some(match self {
            Self::Points(points) => Shape::Points(chain(points)?),
            Self::Lines(lines) => Shape::Lines(lines.iter().map(chain).collect::<Option<_>>()?),
            Self::Areas(pieces) => {
                let mut out = Vec::with_capacity(pieces.len());
                for piece in pieces {
                    out.push(Piece {
                        outer: chain(&piece.outer)?,
                        holes: piece.holes.iter().map(&mut chain).collect::<Option<_>>()?,
                    });
                }
                Shape::Areas(out)
            }
        })
    }
}
