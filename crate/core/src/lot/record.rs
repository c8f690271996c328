//! The lot as a file tells it, not yet checked.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::basis::Basis;
use super::curve;
use super::monument::Monument;
use crate::geom::{Point, Vector, Vertex};
use crate::math::wrap_turn;

/// The kind of a side of the lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum LineKind {
    /// Along the street the house faces.
    Front,
    /// Between neighbors.
    Side,
    /// At the back.
    Rear,
    /// Along another street.
    StreetSide,
    /// Shared with common land.
    Shared,
    /// Not told.
    #[default]
    Unspecified,
}

impl LineKind {
    /// The kind in plain words, lower case.
    pub fn words(self) -> &'static str {
        match self {
            Self::Front => "front line",
            Self::Side => "side line",
            Self::Rear => "rear line",
            Self::StreetSide => "street-side line",
            Self::Shared => "shared line",
            Self::Unspecified => "lot line",
        }
    }
}

/// The way a curve bends for somebody who walks along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Turn {
    /// Counter-clockwise, the center on the left.
    Left,
    /// Clockwise, the center on the right.
    Right,
}

/// One side of the lot as a deed describes it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Course {
    /// What kind of side it is.
    #[serde(default)]
    pub kind: LineKind,
    /// How it runs.
    pub shape: CourseShape,
    /// What the plan calls it; without it, its kind and the way it faces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// What marks the corner where it starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub monument: Option<Monument>,
}

impl Course {
    /// A course of no told kind, unnamed, its corner unmarked.
    pub fn of(shape: CourseShape) -> Self {
        Self {
            kind: LineKind::default(),
            shape,
            label: None,
            monument: None,
        }
    }
}

/// How a course runs from its start. Bearings are radians clockwise from north.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum CourseShape {
    /// Straight.
    Line {
        /// Bearing, radians clockwise from north.
        bearing: f64,
        /// Length, meters.
        distance: f64,
    },
    /// Along a circular arc, told by its chord as plats do.
    Curve {
        /// Bearing of the chord, radians clockwise from north.
        chord_bearing: f64,
        /// Length of the chord, meters.
        chord: f64,
        /// Radius, meters; at least half the chord.
        radius: f64,
        /// Which way it bends.
        turn: Turn,
        /// Whether it is the longer of the two arcs, more than a half circle.
        #[serde(default, skip_serializing_if = "core::ops::Not::not")]
        long_way: bool,
    },
}

impl CourseShape {
    /// From the start of the course straight to its end, meters.
    pub fn chord_vector(&self) -> Vector {
        let (bearing, length) = match *self {
            Self::Line { bearing, distance } => (bearing, distance),
            Self::Curve {
                chord_bearing,
                chord,
                ..
            } => (chord_bearing, chord),
        };
        Vector::along_bearing(bearing) * length
    }

    /// Straight length from start to end, meters.
    pub fn chord_length(&self) -> f64 {
        match *self {
            Self::Line { distance, .. } => distance,
            Self::Curve { chord, .. } => chord,
        }
    }

    /// Length along the course, meters: along the arc of a curve.
    pub fn length(&self) -> f64 {
        match *self {
            Self::Line { distance, .. } => distance,
            Self::Curve {
                chord,
                radius,
                long_way,
                ..
            } => curve::Elements::from_chord(chord, radius, long_way).map_or(chord, |e| e.arc),
        }
    }

    /// The bulge of the stretch (see [`crate::geom::path`]); 0 for a straight course.
    pub fn bulge(&self) -> f64 {
        match *self {
            Self::Line { .. } => 0.0,
            Self::Curve {
                chord,
                radius,
                turn,
                long_way,
                ..
            } => {
                let size = curve::bulge_of_chord(chord, radius, long_way);
                match turn {
                    Turn::Left => size,
                    Turn::Right => -size,
                }
            }
        }
    }
}

/// The lot as a file tells it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct LotRecord {
    /// Where the first course starts, site meters.
    #[serde(default)]
    pub start: Point,
    /// The sides in order, each starting where the one before ends.
    #[serde(default)]
    pub courses: Vec<Course>,
    /// The area that the deed or plat states, m2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stated_area: Option<f64>,
    /// The least ratio of the length round the lot to its misclosure that passes without a
    /// caution: 5000 for 1:5,000 (good boundary work is 1:5,000 to 1:10,000: a surveyors'
    /// exam guide, read).
    #[serde(default = "usual_closing_ratio")]
    pub closing_ratio: f64,
    /// How the misclosure is spread over the corners; without it the last course takes it up.
    /// The courses stay as described either way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub balance: Option<Balance>,
    /// What the bearings count from.
    #[serde(default, skip_serializing_if = "Basis::is_untold")]
    pub basis: Basis,
    /// The text of the deed that the courses were taken from, as it was typed or pasted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deed: Option<String>,
}

/// How a misclosure is spread over the corners of a lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Balance {
    /// Each course takes a share in proportion to its length, curves by their chords.
    CompassRule,
}

fn usual_closing_ratio() -> f64 {
    5000.0
}

impl Default for LotRecord {
    /// A lot of no courses.
    fn default() -> Self {
        Self {
            start: Point::default(),
            courses: Vec::new(),
            stated_area: None,
            closing_ratio: usual_closing_ratio(),
            balance: None,
            basis: Basis::default(),
            deed: None,
        }
    }
}

impl LotRecord {
    /// The courses of a lot known by its corners: one from each vertex to the next and from
    /// the last to the first. Sides beyond the end of `kinds` are unspecified.
    pub fn from_outline(vertices: &[Vertex], kinds: &[LineKind]) -> Self {
        let ends = vertices.iter().cycle().skip(1);
        let kinds = kinds
            .iter()
            .copied()
            .chain(core::iter::repeat_with(LineKind::default));
        let courses = vertices
            .iter()
            .zip(ends)
            .zip(kinds)
            .map(|((from, to), kind)| Course {
                kind,
                ..Course::of(shape_between(*from, to.at))
            })
            .collect();
        Self {
            start: vertices.first().map(|v| v.at).unwrap_or_default(),
            courses,
            ..Self::default()
        }
    }
}

/// The course from a vertex to the next corner. An arc straighter than 0.1 micrometre is a
/// line, as everywhere in `geom`.
pub(super) fn shape_between(from: Vertex, to: Point) -> CourseShape {
    let along = to - from.at;
    let chord = along.length();
    let bearing = wrap_turn(along.bearing());
    let bulge = from.bulge;
    if (bulge * chord / 2.0).abs() < 1e-7 {
        return CourseShape::Line {
            bearing,
            distance: chord,
        };
    }
    CourseShape::Curve {
        chord_bearing: bearing,
        chord,
        radius: chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs()),
        turn: if bulge > 0.0 { Turn::Left } else { Turn::Right },
        long_way: bulge.abs() > 1.0,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_record_reads_well_in_a_file() {
        let text = r#"{
            "start": [0.0, 0.0],
            "courses": [
                {"kind": "front", "shape": {"line": {"bearing": 1.5, "distance": 30.48}}},
                {"shape": {"curve": {"chord_bearing": 0.0, "chord": 9.0, "radius": 20.0, "turn": "left"}}}
            ]
        }"#;
        let record: LotRecord = serde_json::from_str(text).unwrap();
        assert_eq!(record.closing_ratio, 5000.0);
        let back: LotRecord =
            serde_json::from_str(&serde_json::to_string(&record).unwrap()).unwrap();
        assert_eq!(back, record);
        assert_eq!(record.courses.get(1).unwrap().kind, LineKind::Unspecified);
    }

    #[test]
    fn corners_become_courses_and_keep_their_arcs() {
        let corners = [
            Vertex::line(0.0, 0.0),
            Vertex::arc(30.0, 0.0, 0.3),
            Vertex::arc(30.0, 20.0, -1.4),
            Vertex::line(0.0, 20.0),
        ];
        let record = LotRecord::from_outline(&corners, &[LineKind::Front]);
        for (course, corner) in record.courses.iter().zip(&corners) {
            assert!((course.shape.bulge() - corner.bulge).abs() < 1e-12);
        }
        assert_eq!(record.courses.first().unwrap().kind, LineKind::Front);
    }
}
