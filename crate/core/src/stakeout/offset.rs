//! Stakes that stay: clear of the dig, square to its sides.

use super::level::{Floors, Station};
use crate::geom::boolean::union;
use crate::geom::offset::offset_region;
use crate::geom::{DRAWING_TOLERANCE, Point, Region, Vector, clip};
use crate::units::nearest_eighth;

/// How far a line square to a side is followed, meters: farther than any dig opens.
const FAR: f64 = 200.0;

/// A station this near to a corner of the hole has its offset stakes there already, meters.
const NEAR_CORNER: f64 = 1.0;

/// A stake clear of the dig.
#[derive(Debug, Clone, PartialEq)]
pub struct OffsetStake {
    /// Its name: `O1` and on.
    pub name: String,
    /// The stake or station that it stands square to.
    pub serves: String,
    /// Which way it lies from the dig.
    pub towards: &'static str,
    /// Where it is, site frame.
    pub at: Point,
    /// The point at the bottom edge of the dig that it is measured to, site frame.
    pub edge: Point,
    /// How far it stands from there, level, meters.
    pub distance: f64,
    /// Elevation of the ground at the stake, where it is known, meters.
    pub ground: Option<f64>,
    /// Elevation of the bottom of the dig at that edge, meters.
    pub bottom: f64,
}

impl OffsetStake {
    /// From the ground at the stake down to the bottom of the dig, meters; negative where the ground
    /// lies lower.
    pub fn cut(&self) -> Option<f64> {
        Some(self.ground? - self.bottom)
    }
}

/// The four corners of the rectangle round a region of the shell's frame, counter-clockwise from the
/// one at the shallow end on the right of the length.
pub(super) fn rectangle(bottom: &Region) -> Option<[Point; 4]> {
    let (low, high) = bottom.bounds()?;
    Some([
        low,
        Point::new(high.x, low.y),
        high,
        Point::new(low.x, high.y),
    ])
}

/// Where a line across the shell at `x` meets a region of the shell's frame first and last: the lowest
/// and the highest point.
pub(super) fn across(region: &Region, x: f64) -> Option<(Point, Point)> {
    let parts = clip::inside(&[Point::new(x, -FAR), Point::new(x, FAR)], region);
    Some((*parts.first()?.first()?, *parts.last()?.last()?))
}

/// What offset stakes are set from.
pub(super) struct Dug<'a> {
    /// The bottom edge of the dig, shell frame.
    pub bottom: &'a Region,
    /// The top of dig, site frame.
    pub top: &'a Region,
    /// How far stakes stand clear of it, meters.
    pub clear: f64,
    /// Elevation of the ground at a point of the site, where it is known.
    pub ground: &'a dyn Fn(Point) -> Option<f64>,
}

/// Two offset stakes to each corner of the hole, on its sides lengthened, and one to either side of
/// each station between.
pub(super) fn stakes(
    dug: &Dug<'_>,
    floors: &Floors<'_>,
    corners: &[(String, Point)],
    stations: &[Station],
) -> Vec<OffsetStake> {
    // Where the ground lies lower than the bottom nothing is dug, and the bottom is its own edge.
    let opened = union(dug.top, &dug.bottom.posed(&floors.pose));
    let kept_free = offset_region(&opened, dug.clear, DRAWING_TOLERANCE);
    let mut places: Vec<(String, Point, Vector)> = Vec::new();
    let middle = Point::mean(corners.iter().map(|it| it.1)).unwrap_or_default();
    for (name, p) in corners {
        let out = |c: f64, middle: f64| if c < middle { -1.0 } else { 1.0 };
        let along = Vector::new(out(p.x, middle.x), 0.0);
        let across = Vector::new(0.0, out(p.y, middle.y));
        places.extend([along, across].map(|way| (name.clone(), *p, way)));
    }
    let near_corner = |x: f64| corners.iter().any(|(_, p)| (p.x - x).abs() < NEAR_CORNER);
    let mut last = f64::NEG_INFINITY;
    for station in stations {
        let x = station.in_shell.x;
        // A step in the floor is one place in plan; what lies beside the middle has no side.
        if near_corner(x) || x - last < NEAR_CORNER || station.in_shell.y != 0.0 {
            continue;
        }
        last = x;
        if let Some((low, high)) = across(dug.bottom, x) {
            for (p, y) in [(low, -1.0), (high, 1.0)] {
                places.push((station.name.clone(), p, Vector::new(0.0, y)));
            }
        }
    }
    let placed = places.into_iter().filter_map(|(serves, edge, way)| {
        let floor = floors.at(edge)?;
        let (edge, way) = (
            floors.pose.site_from_shell(edge),
            floors.pose.site_from_shell_vector(way),
        );
        let ray = [edge, edge + way * FAR];
        let within = clip::inside(&ray, &kept_free);
        let at = *within.last()?.last()?;
        Some(OffsetStake {
            name: String::new(),
            serves,
            towards: nearest_eighth(way.bearing()),
            at,
            edge,
            distance: edge.distance(at),
            ground: (dug.ground)(at),
            bottom: floor.bottom,
        })
    });
    let numbered = placed.enumerate().map(|(i, stake)| OffsetStake {
        name: format!("O{}", i + 1),
        ..stake
    });
    numbered.collect()
}
