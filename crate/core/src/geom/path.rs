//! Paths of straight lines and circular arcs, open and closed.
//!
//! A path is a list of vertices; the stretch from each vertex to the next is straight or
//! an arc, told by the vertex's *bulge*: the tangent of a quarter of the arc's central
//! angle, positive when the arc turns counter-clockwise, 0 for a straight line, 1 for a
//! half circle. Both ends of an arc therefore always meet their neighbours: a gap cannot
//! be written down.

use schemars::JsonSchema;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use super::point::{Point, Pose, Vector};
use super::validate;
use crate::finding::Finding;
use crate::math::{atan, hypot, tan};

/// A corner of a path and the shape of the stretch that leaves it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vertex {
    /// Position, metres.
    pub at: Point,
    /// Tangent of a quarter of the central angle of the arc to the next vertex; positive
    /// turns counter-clockwise; 0 is straight.
    pub bulge: f64,
}

impl Vertex {
    /// A vertex followed by a straight line.
    pub const fn line(x: f64, y: f64) -> Self {
        Self {
            at: Point::new(x, y),
            bulge: 0.0,
        }
    }

    /// A vertex followed by an arc of the given bulge.
    pub const fn arc(x: f64, y: f64, bulge: f64) -> Self {
        Self {
            at: Point::new(x, y),
            bulge,
        }
    }
}

/// The bulge of an arc of the given signed central angle (radians, counter-clockwise positive).
pub fn bulge_of_angle(central_angle: f64) -> f64 {
    tan(central_angle / 4.0)
}

/// One vertex as files write it: `[x, y]` or `[x, y, bulge]`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(untagged)]
pub enum VertexRecord {
    /// Position and the bulge of the arc to the next vertex.
    Arc([f64; 3]),
    /// Position; a straight line to the next vertex.
    Line([f64; 2]),
}

impl<'de> Deserialize<'de> for VertexRecord {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        let numbers = Vec::<f64>::deserialize(reader)?;
        match *numbers.as_slice() {
            [x, y] => Ok(Self::Line([x, y])),
            [x, y, bulge] => Ok(Self::Arc([x, y, bulge])),
            _ => Err(D::Error::custom("a vertex is [x, y] or [x, y, bulge]")),
        }
    }
}

impl From<VertexRecord> for Vertex {
    fn from(record: VertexRecord) -> Self {
        match record {
            VertexRecord::Arc([x, y, bulge]) => Self::arc(x, y, bulge),
            VertexRecord::Line([x, y]) => Self::line(x, y),
        }
    }
}

impl From<Vertex> for VertexRecord {
    fn from(v: Vertex) -> Self {
        if v.bulge == 0.0 {
            Self::Line([v.at.x, v.at.y])
        } else {
            Self::Arc([v.at.x, v.at.y, v.bulge])
        }
    }
}

/// A path as it came in: not yet checked.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(transparent)]
pub struct PathRecord(pub Vec<VertexRecord>);

impl PathRecord {
    /// The vertices of this record.
    pub fn vertices(&self) -> Vec<Vertex> {
        self.0.iter().copied().map(Vertex::from).collect()
    }
}

impl From<&[Vertex]> for PathRecord {
    fn from(vertices: &[Vertex]) -> Self {
        Self(vertices.iter().copied().map(VertexRecord::from).collect())
    }
}

/// One stretch of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// A straight line.
    Line {
        /// Start, metres.
        from: Point,
        /// End, metres.
        to: Point,
    },
    /// A circular arc.
    Arc {
        /// Start, metres.
        from: Point,
        /// End, metres.
        to: Point,
        /// Centre, metres.
        centre: Point,
        /// Radius, metres.
        radius: f64,
        /// Angle of `from` seen from the centre, radians counter-clockwise from +x.
        start_angle: f64,
        /// Signed central angle, radians; positive turns counter-clockwise.
        sweep: f64,
    },
}

impl Segment {
    /// The stretch from one vertex to the next position. A bulge whose arc would be
    /// straighter than 0.1 micrometre is taken as a line.
    pub fn between(from: Vertex, to: Point) -> Self {
        let chord = to - from.at;
        let sagitta = from.bulge * chord.length() / 2.0;
        if sagitta.abs() < 1e-7 {
            return Self::Line { from: from.at, to };
        }
        let b = from.bulge;
        let centre = from.at.midpoint(to) + chord.left() * ((1.0 - b * b) / (4.0 * b));
        let start = from.at - centre;
        Self::Arc {
            from: from.at,
            to,
            centre,
            radius: hypot(start.x, start.y),
            start_angle: start.angle(),
            sweep: 4.0 * atan(b),
        }
    }

    /// Start of the stretch, metres.
    pub fn from(&self) -> Point {
        match *self {
            Self::Line { from, .. } | Self::Arc { from, .. } => from,
        }
    }

    /// End of the stretch, metres.
    pub fn to(&self) -> Point {
        match *self {
            Self::Line { to, .. } | Self::Arc { to, .. } => to,
        }
    }

    /// Length along the stretch, metres.
    pub fn length(&self) -> f64 {
        match *self {
            Self::Line { from, to } => from.distance(to),
            Self::Arc { radius, sweep, .. } => radius * sweep.abs(),
        }
    }

    /// The point at a fraction of the length, 0 at the start and 1 at the end.
    pub fn point_at(&self, fraction: f64) -> Point {
        match *self {
            Self::Line { from, to } => from + (to - from) * fraction,
            Self::Arc {
                centre,
                radius,
                start_angle,
                sweep,
                ..
            } => centre + Vector::at_angle(start_angle + sweep * fraction) * radius,
        }
    }

    /// Twice the signed area between this stretch and the origin (Green's theorem), m2.
    fn twice_area(&self) -> f64 {
        let (from, to) = (self.from(), self.to());
        let chord = from.x * to.y - to.x * from.y;
        match *self {
            Self::Line { .. } => chord,
            Self::Arc { radius, sweep, .. } => {
                chord + radius * radius * (sweep - crate::math::sin(sweep))
            }
        }
    }
}

/// The stretches of a closed list of vertices.
pub(super) fn closed_segments(vertices: &[Vertex]) -> impl Iterator<Item = Segment> + '_ {
    let next = vertices.iter().cycle().skip(1);
    vertices
        .iter()
        .zip(next)
        .map(|(from, to)| Segment::between(*from, to.at))
}

/// Signed area enclosed by a closed list of vertices, arcs exact, m2; positive counter-clockwise.
pub(super) fn signed_area(vertices: &[Vertex]) -> f64 {
    // Measured from the first vertex, so that a far origin costs no digits.
    let Some(origin) = vertices.first().map(|v| v.at) else {
        return 0.0;
    };
    let local: Vec<Vertex> = vertices
        .iter()
        .map(|v| Vertex {
            at: Point::new(v.at.x - origin.x, v.at.y - origin.y),
            bulge: v.bulge,
        })
        .collect();
    closed_segments(&local).map(|s| s.twice_area()).sum::<f64>() / 2.0
}

/// The same closed path walked the other way round. Segment `i` of the result is segment
/// `n - 1 - i` of the original, reversed.
pub(super) fn reversed(vertices: &[Vertex]) -> Vec<Vertex> {
    let n = vertices.len();
    (0..n)
        .filter_map(|i| {
            let at = vertices.get((n - i) % n)?.at;
            let bulge = -vertices.get(n - 1 - i)?.bulge;
            Some(Vertex { at, bulge })
        })
        .collect()
}

/// A closed path that encloses an area: simple, finite, counter-clockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    vertices: Vec<Vertex>,
    was_clockwise: bool,
}

impl Outline {
    /// Checks a closed path. A clockwise one is turned round (see [`Outline::was_clockwise`]).
    ///
    /// # Errors
    /// Every fault found: too few vertices, coordinates that are not finite or out of
    /// range, a stretch of no length, edges that cross, no area.
    pub fn check(vertices: Vec<Vertex>) -> Result<Self, Vec<Finding>> {
        let faults = validate::closed_path(&vertices);
        if !faults.is_empty() {
            return Err(faults);
        }
        let was_clockwise = signed_area(&vertices) < 0.0;
        let vertices = if was_clockwise {
            reversed(&vertices)
        } else {
            vertices
        };
        Ok(Self {
            vertices,
            was_clockwise,
        })
    }

    /// The corners, counter-clockwise.
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// Whether the path came in clockwise; then segment `i` here was segment `n - 1 - i` there.
    pub fn was_clockwise(&self) -> bool {
        self.was_clockwise
    }

    /// The stretches in order, counter-clockwise.
    pub fn segments(&self) -> impl Iterator<Item = Segment> + '_ {
        closed_segments(&self.vertices)
    }

    /// Enclosed area, arcs exact, m2.
    pub fn area(&self) -> f64 {
        signed_area(&self.vertices)
    }

    /// Length round the path, arcs exact, metres.
    pub fn perimeter(&self) -> f64 {
        self.segments().map(|s| s.length()).sum()
    }

    /// This outline carried from the shell's frame to the site's. Mirroring would turn it
    /// clockwise, so a mirrored outline is walked the other way round.
    pub fn posed(&self, pose: &Pose) -> Self {
        let mut vertices: Vec<Vertex> = self
            .vertices
            .iter()
            .map(|v| Vertex {
                at: pose.site_from_shell(v.at),
                bulge: if pose.mirrored { -v.bulge } else { v.bulge },
            })
            .collect();
        if pose.mirrored {
            vertices = reversed(&vertices);
        }
        Self {
            vertices,
            was_clockwise: self.was_clockwise,
        }
    }

    /// The record a file keeps of this outline.
    pub fn record(&self) -> PathRecord {
        PathRecord::from(self.vertices.as_slice())
    }
}

/// An open path (a fence, a wire, a buried line): finite, of two vertices or more. It may
/// cross itself; the bulge of its last vertex means nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    vertices: Vec<Vertex>,
}

impl Track {
    /// Checks an open path.
    ///
    /// # Errors
    /// Every fault found: fewer than two vertices, coordinates that are not finite or out
    /// of range, a stretch of no length.
    pub fn check(vertices: Vec<Vertex>) -> Result<Self, Vec<Finding>> {
        let faults = validate::open_path(&vertices);
        if faults.is_empty() {
            Ok(Self { vertices })
        } else {
            Err(faults)
        }
    }

    /// The vertices in order.
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// The stretches in order.
    pub fn segments(&self) -> impl Iterator<Item = Segment> + '_ {
        self.vertices
            .iter()
            .zip(self.vertices.iter().skip(1))
            .map(|(a, b)| Segment::between(*a, b.at))
    }

    /// Length, metres.
    pub fn length(&self) -> f64 {
        self.segments().map(|s| s.length()).sum()
    }
}
