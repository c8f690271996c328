//! The rim as set: how far it is out of level, and which end to lift.
//!
//! The plane is that of least squares through the elevations read; what it leaves is twist, which
//! no lifting of an end mends.

use super::Read;
use crate::geom::{Point, Pose, Region};
use crate::shell::DepthPlane;
use crate::site::RodReading;

/// So many readings tell a twisted rim from a tilted one (3 fix the plane, the rest test it).
pub const ENOUGH: usize = 6;

/// A lift less than this is none, meters: half a millimeter.
const NOTHING: f64 = 5e-4;

/// The rim at one reading.
#[derive(Debug, Clone, PartialEq)]
pub struct RimAt<'a> {
    /// The reading.
    pub read: Read<'a, RodReading>,
    /// Where it was taken, site frame.
    pub at: Point,
    /// Elevation there, meters; above the benchmark where that one's elevation is not known.
    pub elevation: f64,
    /// How far it lies above the plane, meters; none while there is no plane.
    pub off_plane: Option<f64>,
}

/// What end or side of the shell is low, seen toward the deep end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ShellEnd {
    /// The deep end.
    Deep,
    /// The shallow end.
    Shallow,
    /// The left side.
    Left,
    /// The right side.
    Right,
}

impl ShellEnd {
    /// The end in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Deep => "deep end",
            Self::Shallow => "shallow end",
            Self::Left => "left side (looking toward the deep end)",
            Self::Right => "right side (looking toward the deep end)",
        }
    }
}

/// The plane through the rim.
#[derive(Debug, Clone, PartialEq)]
pub struct Tilt {
    /// Rise of the elevation along the shell's x and y axis per meter.
    pub rise: [f64; 2],
    /// Which ends to lift, and by how much over the length or the width of the rim, meters.
    pub lifts: Vec<(ShellEnd, f64)>,
    /// From the lowest to the highest reading once the plane is taken off, meters.
    pub twist: f64,
}

/// The rim as far as it was read; of several readings at one place the last. At least one reading.
#[derive(Debug, Clone, PartialEq)]
pub struct AsSet<'a> {
    /// Each reading that counts, in order.
    pub places: Vec<RimAt<'a>>,
    /// Index of the highest and of the lowest of them.
    pub high_low: [usize; 2],
    /// From the lowest to the highest, meters.
    pub out_of_level: f64,
    /// How far the mean lies above the coping as planned, meters; none without a benchmark.
    pub above_plan: Option<f64>,
    /// The plane, from three readings that are not on one line.
    pub tilt: Option<Tilt>,
}

/// The rim by its readings. `rim`: inside the outer edge of the coping, shell frame; `coping`: its
/// elevation as planned, meters; `mark`: elevation of the benchmark, where it is known.
pub(super) fn as_set<'a>(
    readings: &[Read<'a, RodReading>],
    (rim, pose, coping): (&Region, &Pose, f64),
    mark: Option<f64>,
) -> Option<AsSet<'a>> {
    let level = |it: &RodReading| mark.unwrap_or(0.0) + it.backsight - it.rod;
    let points: Vec<(Point, f64)> = readings
        .iter()
        .map(|it| (it.reading.at, level(it.reading)))
        .collect();
    let tilt = tilted(&points, rim, pose);
    let plane = tilt.as_ref().map(|(plane, _)| *plane);
    let places: Vec<RimAt<'a>> = readings
        .iter()
        .zip(&points)
        .map(|(read, (p, elevation))| RimAt {
            read: *read,
            at: pose.site_from_shell(*p),
            elevation: *elevation,
            off_plane: plane.map(|plane| elevation - plane.depth(*p)),
        })
        .collect();
    let by = |a: &&(usize, &RimAt<'_>), b: &&(usize, &RimAt<'_>)| {
        a.1.elevation.total_cmp(&b.1.elevation)
    };
    let numbered: Vec<(usize, &RimAt<'_>)> = places.iter().enumerate().collect();
    let (high, low) = (numbered.iter().max_by(by)?, numbered.iter().min_by(by)?);
    let out_of_level = high.1.elevation - low.1.elevation;
    let high_low = [high.0, low.0];
    let mean = points.iter().map(|it| it.1).sum::<f64>() / points.len() as f64;
    Some(AsSet {
        high_low,
        out_of_level,
        above_plan: mark.map(|_| mean - coping),
        tilt: tilt.map(|it| it.1),
        places,
    })
}

/// The plane through elevations of the rim; none where they lie on one line.
fn tilted(points: &[(Point, f64)], rim: &Region, pose: &Pose) -> Option<(DepthPlane, Tilt)> {
    let (low, high) = rim.bounds()?;
    if !span_a_plane(points) {
        return None;
    }
    let plane = DepthPlane::through(points);
    let rise = plane.gradient;
    let mut lifts = Vec::new();
    let left = if pose.mirrored {
        [ShellEnd::Right, ShellEnd::Left]
    } else {
        [ShellEnd::Left, ShellEnd::Right]
    };
    for (rise, span, [ahead, behind]) in [
        (rise.x, high.x - low.x, [ShellEnd::Deep, ShellEnd::Shallow]),
        (rise.y, high.y - low.y, left),
    ] {
        let lift = (rise * span).abs();
        if lift > NOTHING {
            lifts.push((if rise > 0.0 { behind } else { ahead }, lift));
        }
    }
    let left_over = points.iter().map(|(p, z)| z - plane.depth(*p));
    let (least, most) = left_over.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), off| {
        (l.min(off), m.max(off))
    });
    let tilt = Tilt {
        rise: [rise.x, rise.y],
        lifts,
        twist: most - least,
    };
    Some((plane, tilt))
}

/// Whether three of the points stand wide enough apart to fix a plane: a tenth as wide as long.
fn span_a_plane(points: &[(Point, f64)]) -> bool {
    let Some(middle) = Point::mean(points.iter().map(|it| it.0)) else {
        return false;
    };
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (p, _) in points {
        let r = *p - middle;
        xx += r.x * r.x;
        xy += r.x * r.y;
        yy += r.y * r.y;
    }
    let (spread, area) = (xx + yy, xx * yy - xy * xy);
    points.len() >= 3 && area > 0.01 * spread * spread
}
