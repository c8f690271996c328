//! How near a lift comes to overhead lines, and how near it may.

use serde::Serialize;

use super::Swing;
use crate::geom::distance::{self, Figure};
use crate::geom::{Point, Vector};
use crate::math::{greater, hypot, lesser};
use crate::site::{CheckedSite, FeatureKind, LineClass};
use crate::units::constants::FOOT;

/// Least distance by nominal voltage, alternating current: up to and including so many kilovolts, so
/// many feet. 29 CFR 1926.1408 Table A, read; over 1,000 kV the utility or an engineer sets it.
pub const TABLE_A: [(f64, f64); 6] = [
    (50.0, 10.0),
    (200.0, 15.0),
    (350.0, 20.0),
    (500.0, 25.0),
    (750.0, 35.0),
    (1000.0, 45.0),
];

/// From so near to a line of up to 350 kV the work zone has to be looked at.
pub use crate::analysis::CRANE_NEAR_LINE as ZONE;

/// The same above 350 kV: 50 ft (29 CFR 1926.1409, read).
pub const ZONE_OVER_350: f64 = 50.0 * FOOT;

/// The way of the load is looked at every so many meters, for the boom that follows it.
const STEP: f64 = 0.1;

/// Least distance from a line of so many kilovolts, meters; none over 1,000 kV.
pub fn least_distance(kilovolts: f64) -> Option<f64> {
    let row = TABLE_A.iter().find(|(to, _)| kilovolts <= *to);
    row.map(|(_, feet)| feet * FOOT)
}

/// How the least distance is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Voltage {
    /// The voltage was entered.
    Entered,
    /// What the line carries puts it below 50 kV.
    OfItsClass,
    /// Not known: the distance from which the voltage has to be learned counts.
    Unknown,
    /// It carries no power.
    NoPower,
}

/// Which part of the lift comes nearest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// The shell.
    Load,
    /// The line between boom and shell.
    LoadLine,
    /// The boom.
    Boom,
}

impl Part {
    /// Which part, in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Load => "the shell",
            Self::LoadLine => "the load line",
            Self::Boom => "the boom",
        }
    }
}

/// A lift held against an overhead line.
#[derive(Debug, Clone, PartialEq)]
pub struct Approach {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// What the plan calls it.
    pub name: String,
    /// What comes nearest.
    pub part: Part,
    /// How near, meters: in three dimensions where the height of the line was entered, on the plan
    /// otherwise.
    pub distance: f64,
    /// Whether it was measured on the plan alone.
    pub on_plan: bool,
    /// The least distance, meters; none over 1,000 kV and of a line without power.
    pub required: Option<f64>,
    /// From so near the work zone has to be looked at, meters.
    pub zone: f64,
    /// How the voltage is known.
    pub voltage: Voltage,
    /// The place of the line that is nearest on the plan to the way of the load, site meters.
    pub at: Point,
}

impl Approach {
    /// Distance less the least one, meters.
    pub fn room(&self) -> Option<f64> {
        Some(self.distance - self.required?)
    }
}

/// Every overhead line of a site, the least room first.
pub(super) fn all(site: &CheckedSite, crane: Point, swing: &Swing) -> Vec<Approach> {
    let lines = site.features().iter();
    let mut all: Vec<Approach> = lines
        .filter(|it| it.kind == FeatureKind::OverheadLine)
        .filter_map(|feature| {
            let record = site.site().features.get(feature.index)?;
            let figure = feature.shape.figure();
            let Figure::Chain(chain) = figure else {
                return None;
            };
            let facts = &record.facts;
            let (part, distance) = match facts.height {
                Some(height) => nearest_in_space(chain, height, crane, swing),
                None => nearest_on_plan(chain, crane, swing),
            };
            let (voltage, required) = required(facts.voltage, facts.line_class);
            let near = distance::nearest(figure, Figure::Chain(&swing.line))?;
            let high = facts.voltage.is_some_and(|it| it > 350.0);
            Some(Approach {
                feature: feature.index,
                name: record.label().to_owned(),
                part,
                distance,
                on_plan: facts.height.is_none(),
                required,
                zone: if high { ZONE_OVER_350 } else { ZONE },
                voltage,
                at: near.from,
            })
        })
        .collect();
    let order = |it: &Approach| it.room().unwrap_or(it.distance);
    all.sort_by(|a, b| order(a).total_cmp(&order(b)));
    all
}

/// The least distance by what is known of the voltage.
fn required(kilovolts: Option<f64>, class: Option<LineClass>) -> (Voltage, Option<f64>) {
    match (kilovolts, class) {
        (Some(kilovolts), _) => (Voltage::Entered, least_distance(kilovolts)),
        (None, Some(LineClass::Communication)) => (Voltage::NoPower, None),
        (None, Some(LineClass::Service | LineClass::UpTo15Kv)) => {
            (Voltage::OfItsClass, least_distance(50.0))
        }
        (None, Some(LineClass::Over15Kv) | None) => (Voltage::Unknown, Some(ZONE)),
    }
}

/// What comes nearest to a line that hangs level at a height, and how near, meters.
fn nearest_in_space(chain: &[Point], height: f64, crane: Point, swing: &Swing) -> (Part, f64) {
    let plan = distance::nearest(Figure::Chain(&swing.line), Figure::Chain(chain));
    let plan = plan.map_or(f64::INFINITY, |it| it.distance);
    // Sets that are a figure on the plan and a range of heights: the distances on the plan and in
    // height are the legs of a right triangle.
    let above = |low: f64, high: f64| greater(greater(low - height, height - high), 0.0);
    let load = hypot(
        greater(plan - swing.reach, 0.0),
        above(swing.underside, swing.rim),
    );
    let load_line = hypot(plan, above(swing.rim, swing.tip));
    let tips = stations(swing);
    let boom = tips.map(|tip| {
        let legs = chain.array_windows();
        legs.map(|[a, b]| between((crane, 0.0), (tip, swing.tip), (*a, height), (*b, height)))
            .fold(f64::INFINITY, lesser)
    });
    let boom = boom.fold(f64::INFINITY, lesser);
    least([
        (Part::Load, load),
        (Part::LoadLine, load_line),
        (Part::Boom, boom),
    ])
}

/// The same on the plan.
fn nearest_on_plan(chain: &[Point], crane: Point, swing: &Swing) -> (Part, f64) {
    let apart = |line: &[Point]| {
        let near = distance::nearest(Figure::Chain(line), Figure::Chain(chain));
        near.map_or(f64::INFINITY, |it| it.distance)
    };
    let load = greater(apart(&swing.line) - swing.reach, 0.0);
    // The boom sweeps the triangle between the crane and the way of the load: nearest at its edges,
    // or over what lies inside it.
    let [truck, place] = swing.line;
    let boom = lesser(apart(&[crane, truck]), apart(&[crane, place]));
    let inside = chain
        .first()
        .is_some_and(|p| within(*p, [crane, truck, place]));
    let boom = if inside {
        0.0
    } else {
        lesser(boom, apart(&swing.line))
    };
    least([(Part::Load, load), (Part::Boom, boom)])
}

/// Whether a point lies in a triangle.
fn within(p: Point, [a, b, c]: [Point; 3]) -> bool {
    let sides = [(a, b), (b, c), (c, a)].map(|(from, to)| (to - from).cross(p - from));
    sides.iter().all(|it| *it > 0.0) || sides.iter().all(|it| *it < 0.0)
}

fn least<const N: usize>(all: [(Part, f64); N]) -> (Part, f64) {
    let start = (Part::Load, f64::INFINITY);
    all.into_iter()
        .fold(start, |best, it| if it.1 < best.1 { it } else { best })
}

/// Places of the boom's tip along the way of the load.
fn stations(swing: &Swing) -> impl Iterator<Item = Point> {
    let [from, to] = swing.line;
    let parts = (from.distance(to) / STEP).ceil().max(1.0);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    // A count of steps over a lot.
    let count = parts as u32;
    (0..=count).map(move |i| from + (to - from) * (f64::from(i) / parts))
}

/// Distance of two straight lines in space, each between two points of the plan with their heights,
/// meters.
pub fn between(a: (Point, f64), b: (Point, f64), c: (Point, f64), d: (Point, f64)) -> f64 {
    type InSpace = (Vector, f64);
    let less = |p: (Point, f64), q: (Point, f64)| -> InSpace { (p.0 - q.0, p.1 - q.1) };
    let dot = |u: InSpace, v: InSpace| u.0.dot(v.0) + u.1 * v.1;
    let (u, v, w) = (less(b, a), less(d, c), less(a, c));
    let at = |s: f64, t: f64| -> f64 {
        let x = w.0 + u.0 * s - v.0 * t;
        hypot(x.length(), w.1 + u.1 * s - v.1 * t)
    };
    let (uu, uv, vv) = (dot(u, u), dot(u, v), dot(v, v));
    let (uw, vw) = (dot(u, w), dot(v, w));
    let on = |top: f64, bottom: f64| {
        if bottom > 0.0 {
            (top / bottom).clamp(0.0, 1.0)
        } else {
            0.0
        }
    };
    // The least of a convex square: inside it, or on one of its edges.
    let turn = uu * vv - uv * uv;
    let (s, t) = ((uv * vw - vv * uw) / turn, (uu * vw - uv * uw) / turn);
    let inner = if turn > 0.0 && (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t) {
        at(s, t)
    } else {
        f64::INFINITY
    };
    [
        at(0.0, on(vw, vv)),
        at(1.0, on(vw + uv, vv)),
        at(on(-uw, uu), 0.0),
        at(on(uv - uw, uu), 1.0),
    ]
    .into_iter()
    .fold(inner, lesser)
}
