//! The bottom as dug: what the rod reads on it against what it should, and the stone that changes.
//!
//! # Method
//! Each reading stands for the part of the bottom that lies nearer to it than to any other reading
//! (its Thiessen polygon, cut at the foot of the sides). The stone that changes there is that area
//! times how far the bottom lies below grade: exact where the bottom lies off by as much all over
//! the part.

use super::Read;
use super::level::Floors;
use crate::geom::{Point, Region};
use crate::site::RodReading;

/// What is to be done at a place of the bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum GradeWork {
    /// It is too high: cut.
    Cut,
    /// It is within the limit.
    OnGrade,
    /// It is too low: fill with stone.
    Fill,
}

/// The bottom at one reading.
#[derive(Debug, Clone, PartialEq)]
pub struct BottomAt<'a> {
    /// The reading.
    pub read: Read<'a, RodReading>,
    /// Where it was taken, site frame.
    pub at: Point,
    /// Elevation of the bottom there, meters.
    pub elevation: f64,
    /// How far it lies above grade, meters; negative when it lies below.
    pub high: f64,
    /// What is to be done.
    pub grade: GradeWork,
    /// The part of the bottom that it stands for, m2.
    pub share: f64,
}

/// The bottom as far as it was read; of several readings at one place the last.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AsDug<'a> {
    /// Each reading that counts, in order.
    pub places: Vec<BottomAt<'a>>,
}

impl AsDug<'_> {
    /// To be cut down to grade, m3 as it lies.
    pub fn cut(&self) -> f64 {
        self.sum(|high| high.max(0.0))
    }

    /// Stone to fill up to grade, m3 in place.
    pub fn fill(&self) -> f64 {
        self.sum(|high| (-high).max(0.0))
    }

    /// Stone beyond what the plan takes where nothing is cut: negative where the bottom is high,
    /// m3 in place.
    pub fn stone_as_it_lies(&self) -> f64 {
        self.sum(|high| -high)
    }

    fn sum(&self, height: impl Fn(f64) -> f64) -> f64 {
        self.places
            .iter()
            .map(|it| it.share * height(it.high))
            .sum()
    }
}

/// The bottom by its readings. `bottom`: inside the foot of the sides, shell frame; `mark`: elevation
/// of the benchmark, meters.
pub(super) fn as_dug<'a>(
    readings: &[Read<'a, RodReading>],
    floors: &Floors<'_>,
    bottom: &Region,
    mark: f64,
    limit: f64,
) -> AsDug<'a> {
    let places = readings.iter().filter_map(|read| {
        let at = read.reading.at;
        let elevation = mark + read.reading.backsight - read.reading.rod;
        let high = elevation - floors.at(at)?.bottom;
        let others = readings.iter().filter(|it| it.index != read.index);
        let others: Vec<Point> = others.map(|it| it.reading.at).collect();
        Some(BottomAt {
            read: *read,
            at: floors.pose.site_from_shell(at),
            elevation,
            high,
            grade: grade(high, limit),
            share: share(bottom, at, &others),
        })
    });
    AsDug {
        places: places.collect(),
    }
}

fn grade(high: f64, limit: f64) -> GradeWork {
    match high {
        high if high > limit => GradeWork::Cut,
        high if high < -limit => GradeWork::Fill,
        _ => GradeWork::OnGrade,
    }
}

/// Area of the part of a region that lies nearer to a point than to any of the others, m2.
fn share(region: &Region, own: Point, others: &[Point]) -> f64 {
    let ring = |ring: &crate::geom::Ring| {
        let cut = others.iter().fold(ring.clone(), |ring, other| {
            let (middle, way) = (own.midpoint(*other), own - *other);
            ring.where_positive(|p| way.dot(p - middle))
        });
        cut.signed_area()
    };
    region.rings().map(ring).sum()
}
