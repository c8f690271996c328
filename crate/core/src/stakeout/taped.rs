//! Points as taped: where two readings meet, how far that is from the plan, and where the hole is
//! narrower than asked.

use super::tie::{BaseLine, Meeting};
use super::{Read, Stake};
use crate::geom::{Edges, Point, Region, Vector};
use crate::site::{StakedLine, TapedPoint};

/// A point as taped.
#[derive(Debug, Clone, PartialEq)]
pub struct TapedAt<'a> {
    /// The reading.
    pub read: Read<'a, TapedPoint>,
    /// Where the tapes meet.
    pub fix: Fix,
}

/// What two tapes say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fix {
    /// They were held to one place: they fix nothing.
    NoBase,
    /// They cannot meet: they are out by this, meters.
    Apart(f64),
    /// They meet.
    At(Found),
}

/// A point that was found by two tapes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// Where it is, site frame.
    pub at: Point,
    /// Expected error of the place for the tapes as they are read, meters, where they fix one.
    pub error: Option<f64>,
    /// From where the stake was planned to where it is; none where no stake of that name is planned.
    pub miss: Option<Vector>,
    /// How far inside its line it lies, meters: the hole is so much narrower there; negative when
    /// it is wider. None for lines that are no edge of the hole.
    pub narrower: Option<f64>,
    /// The over-dig there, from the wall of the shell, meters; at the bottom edge alone.
    pub over_dig: Option<f64>,
}

/// The lines that a taped point is held against, with the regions they enclose, site frame.
pub(super) struct Planned<'a> {
    pub stakes: &'a [Stake],
    pub lines: &'a [(StakedLine, Region)],
    /// The water's edge, and the thickness of the wall outside it, meters.
    pub shell: (&'a Region, f64),
    pub middle: Point,
    pub sigma: f64,
}

impl Planned<'_> {
    /// What a pair of tapes says.
    pub fn hold<'a>(&self, read: Read<'a, TapedPoint>) -> TapedAt<'a> {
        TapedAt {
            fix: self.fix(read.reading),
            read,
        }
    }

    fn fix(&self, taped: &TapedPoint) -> Fix {
        let [a, b] = taped.from;
        let Some(base) = BaseLine::new(a, b) else {
            return Fix::NoBase;
        };
        let (left, right) = match base.meet(taped.tapes) {
            Meeting::At { left, right } => (left, right),
            Meeting::TooShort(by) | Meeting::TooLong(by) => return Fix::Apart(by),
        };
        let mut stakes = self.stakes.iter();
        let planned = stakes.find(|it| it.name == taped.stake).map(|it| it.at);
        // Of the two places the one on the side of the plan.
        let near = planned.unwrap_or(self.middle);
        let at = if near.distance(left) <= near.distance(right) {
            left
        } else {
            right
        };
        let is_edge = !matches!(taped.line, StakedLine::Rim | StakedLine::Collar);
        let mut lines = self.lines.iter();
        let edge = lines.find(|it| is_edge && it.0 == taped.line);
        let (water, wall) = self.shell;
        Fix::At(Found {
            at,
            error: base.tie(at).error(self.sigma),
            miss: planned.map(|planned| at - planned),
            narrower: edge.map(|(_, region)| within(region, at)),
            over_dig: (taped.line == StakedLine::Bottom).then(|| -within(water, at) - wall),
        })
    }
}

/// How far inside a region a point lies, meters; negative outside.
fn within(region: &Region, p: Point) -> f64 {
    let off = Edges::of_region(region).distance(p);
    if region.contains(p) { off } else { -off }
}
