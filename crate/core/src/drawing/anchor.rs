//! What a label names, and thereby where it may stand.

use super::chain::Chain;
use crate::geom::Point;

/// On which side of a line its name stands, looking along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineSide {
    /// Either; rather on the left.
    Either,
    /// Rather on the left.
    Left,
    /// Rather on the right.
    Right,
}

/// What a label names. Points are site meters in a drawing and view units where a place is looked for;
/// bearings are the same in both.
#[derive(Debug, Clone, PartialEq)]
pub enum Anchor {
    /// A point: the label stands beside it.
    Point {
        /// The point.
        at: Point,
        /// The bearing at which the label would rather stand, radians.
        toward: f64,
    },
    /// A line: the label runs beside it.
    Line {
        /// Its points in order.
        line: Vec<Point>,
        /// Where along it the label would rather stand, as a part of its length.
        share: f64,
        /// On which side.
        side: LineSide,
    },
    /// An area: the label stands in it.
    Area {
        /// Its boundary.
        ring: Vec<Point>,
        /// Where the label's middle would rather be.
        at: Point,
        /// The bearing it would rather run along, radians; never upside down.
        along: f64,
    },
    /// Places where the label's middle may be and the bearing it runs along there, the best first: a text
    /// that lies on what it names.
    Places(Vec<(Point, f64)>),
    /// A dimension between two points: the label stands beside its line.
    Span {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
    },
}

impl Anchor {
    /// The same with every point taken elsewhere.
    pub fn mapped(&self, map: impl Fn(Point) -> Point) -> Self {
        let all = |points: &[Point]| points.iter().map(|p| map(*p)).collect();
        match self {
            Self::Point { at, toward } => Self::Point {
                at: map(*at),
                toward: *toward,
            },
            Self::Line { line, share, side } => Self::Line {
                line: all(line),
                share: *share,
                side: *side,
            },
            Self::Area { ring, at, along } => Self::Area {
                ring: all(ring),
                at: map(*at),
                along: *along,
            },
            Self::Places(places) => {
                Self::Places(places.iter().map(|(p, along)| (map(*p), *along)).collect())
            }
            Self::Span { from, to } => Self::Span {
                from: map(*from),
                to: map(*to),
            },
        }
    }

    /// The point that a leader ends at; none for a line without points or a label without places.
    pub fn point(&self) -> Option<Point> {
        match self {
            Self::Point { at, .. } | Self::Area { at, .. } => Some(*at),
            Self::Line { line, share, .. } => {
                Chain::new(line).map(|chain| chain.at(chain.length() * share))
            }
            Self::Places(places) => places.first().map(|(at, _)| *at),
            Self::Span { from, to } => Some(from.midpoint(*to)),
        }
    }
}
