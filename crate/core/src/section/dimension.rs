//! The figures to read on a section.

use super::chain::height_on;
use super::line::Cut;
use crate::geom::{Point, Region};
use crate::shell::Shell;
use crate::units::{Measure, System, show};

/// A figure with the two places it lies between, section frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Dimension {
    /// What it is, in words.
    pub label: &'static str,
    /// One end, section frame.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// The figure itself, meters; a height below something else is negative.
    pub value: f64,
    /// The figure as it is read.
    pub text: String,
}

/// What dimensions are taken on.
pub(super) struct Measured<'a> {
    pub shell: &'a Shell,
    pub cut: &'a Cut,
    /// Elevation of the rim, meters.
    pub coping: f64,
    pub ground: &'a [Point],
    pub dig: &'a Region,
    pub base: &'a Region,
    pub outer: &'a Region,
    pub inner: &'a Region,
    /// Where the line crosses the foot of the hole's sides, stations.
    pub foot: Vec<(f64, f64)>,
}

/// Every dimension that the section has.
pub(super) fn all(cut: &Measured<'_>, system: System) -> Vec<Dimension> {
    let mut all = Vec::new();
    let mut tell = |label, from: Point, to: Point, value: f64| {
        all.push(Dimension {
            label,
            from,
            to,
            value,
            text: show(Measure::Length, value, system).text,
        });
    };
    let ground = |s: f64| height_on(cut.ground, s);
    // The hole's depth at the corners of its cut: the bottom and the ground are straight between.
    let corners = cut.dig.rings().flat_map(|ring| &ring.0);
    let stations = corners.map(|p| p.x).chain(cut.ground.iter().map(|p| p.x));
    let within = |s: &f64| {
        cut.foot
            .iter()
            .any(|(a, b)| *s >= a - 1e-6 && *s <= b + 1e-6)
    };
    let bottom = |s: f64| lowest_at(cut.dig, s);
    let depths: Vec<(f64, f64, f64)> = stations
        .filter(within)
        .filter_map(|s| Some((s, bottom(s)?, ground(s)?)))
        .collect();
    let depth = |(_, low, high): &(f64, f64, f64)| high - low;
    let by_depth = |a: &&(f64, f64, f64), b: &&(f64, f64, f64)| depth(a).total_cmp(&depth(b));
    let deepest = depths.iter().max_by(by_depth);
    if let Some(place @ (s, low, high)) = deepest {
        tell(
            "depth of the hole, deepest",
            Point::new(*s, *low),
            Point::new(*s, *high),
            depth(place),
        );
    }
    let shallow = cut
        .shell
        .floor_depth(cut.cut.at(0.0))
        .zip(cut.shell.floor_depth(cut.cut.at(cut.cut.length)));
    let (first, last) = (cut.foot.first(), cut.foot.last());
    if let (Some((near, far)), Some((left, _)), Some((_, right))) = (shallow, first, last)
        && (near - far).abs() > 1e-3
    {
        // A hand's breadth within the foot of the shallow end's side.
        let s = if near < far { left + 0.1 } else { right - 0.1 };
        if let (Some(low), Some(high)) = (bottom(s), ground(s)) {
            tell(
                "depth of the hole, shallow end",
                Point::new(s, low),
                Point::new(s, high),
                high - low,
            );
        }
    }
    let outer = cut.outer.bounds();
    if let (Some((low, high)), Some((left, _)), Some((_, right))) = (outer, first, last) {
        let ends = [
            ("over-dig, on the side of A", *left, low.x),
            ("over-dig, on the side of A′", high.x, *right),
        ];
        for (label, from, to) in ends {
            let beside = if from < low.x { from } else { to };
            if let Some(level) = bottom(beside - (beside - (from + to) / 2.0) * 1e-3) {
                tell(
                    label,
                    Point::new(from, level),
                    Point::new(to, level),
                    to - from,
                );
            }
        }
    }
    let floor = cut
        .inner
        .rings()
        .flat_map(|ring| &ring.0)
        .min_by(|a, b| a.y.total_cmp(&b.y));
    if let Some(floor) = floor {
        let s = floor.x;
        let waterline = cut.coping - cut.shell.record.waterline;
        tell(
            "water",
            *floor,
            Point::new(s, waterline),
            waterline - floor.y,
        );
        tell(
            "freeboard",
            Point::new(s, waterline),
            Point::new(s, cut.coping),
            cut.shell.record.waterline,
        );
        let under = lowest_at(cut.outer, s);
        if let (Some(top), Some(low)) = (under, lowest_at(cut.base, s)) {
            tell("base", Point::new(s, low), Point::new(s, top), top - low);
        }
    }
    let rim = cut.cut.inside(&cut.shell.rim);
    if let (Some((left, _)), Some((_, right))) = (rim.first(), rim.last()) {
        for (label, s) in [
            ("coping above the ground, on the side of A", *left),
            ("coping above the ground, on the side of A′", *right),
        ] {
            if let Some(level) = ground(s) {
                tell(
                    label,
                    Point::new(s, level),
                    Point::new(s, cut.coping),
                    cut.coping - level,
                );
            }
        }
    }
    all
}

/// Lowest elevation of a region at a station; `None` beside it.
fn lowest_at(region: &Region, s: f64) -> Option<f64> {
    let edges = region.rings().flat_map(|ring| ring.edges());
    edges
        .filter(|(a, b)| a.x.min(b.x) <= s && s <= a.x.max(b.x))
        .map(|(a, b)| {
            if b.x == a.x {
                a.y.min(b.y)
            } else {
                a.y + (b.y - a.y) * (s - a.x) / (b.x - a.x)
            }
        })
        .reduce(f64::min)
}
