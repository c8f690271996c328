//! Paths of straight lines and circular arcs, open and closed.
//!
//! A path is a list of vertices; the stretch from each vertex to the next is straight or
//! an arc, told by the vertex's *bulge*: the tangent of a quarter of the arc's central
//! angle, positive when the arc turns counter-clockwise, 0 for a straight line, 1 for a
//! half circle. Both ends of an arc therefore always meet their neighbors: a gap cannot
//! be written down.

use schemars::JsonSchema;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use super::point::Pose;
pub use super::segment::{Segment, Vertex};
use super::segment::{closed_segments, reversed, signed_area};
use super::validate;
use crate::finding::Finding;
use crate::math::tan;

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

    /// Length round the path, arcs exact, meters.
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

    /// Length, meters.
    pub fn length(&self) -> f64 {
        self.segments().map(|s| s.length()).sum()
    }
}
