//! The vertices of a path and its stretches: straight lines and arcs.

use super::point::{Point, Vector};
use crate::math::{atan, hypot};

/// A corner of a path and the shape of the stretch that leaves it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vertex {
    /// Position, meters.
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

/// One stretch of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// A straight line.
    Line {
        /// Start, meters.
        from: Point,
        /// End, meters.
        to: Point,
    },
    /// A circular arc.
    Arc {
        /// Start, meters.
        from: Point,
        /// End, meters.
        to: Point,
        /// Center, meters.
        centre: Point,
        /// Radius, meters.
        radius: f64,
        /// Angle of `from` seen from the center, radians counter-clockwise from +x.
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

    /// Start of the stretch, meters.
    pub fn from(&self) -> Point {
        match *self {
            Self::Line { from, .. } | Self::Arc { from, .. } => from,
        }
    }

    /// End of the stretch, meters.
    pub fn to(&self) -> Point {
        match *self {
            Self::Line { to, .. } | Self::Arc { to, .. } => to,
        }
    }

    /// Length along the stretch, meters.
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
