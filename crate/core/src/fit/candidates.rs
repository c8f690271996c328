//! Headings that are looked at, and the places worth a closer look at each.

use super::sunny::Sunny;
use super::wish::FitAim;
use crate::clear_ground::Bounds;
use crate::geom::boolean::difference;
use crate::geom::distance::{Figure, nearest};
use crate::geom::pole::poles;
use crate::geom::{Point, Region, Ring, Vector};
use crate::math::{TURN, wrap_half_turn, wrap_turn};
use crate::session::snap::headings_along;
use crate::site::{CheckedSite, FeatureKind, FeaturePart};

/// Two places of one shell nearer than this, at headings nearer than [`LIKE_HEADING`], are one, meters.
const LIKE_PLACE: f64 = 2.0;

/// See [`LIKE_PLACE`], radians (20 degrees).
const LIKE_HEADING: f64 = TURN / 18.0;

/// A figure and another that differ by less than this share of its area are one (the chords of
/// their arcs begin at other corners).
const ALIKE: f64 = 1e-3;

/// A place at which a shell fits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The shell's middle, site meters.
    pub at: Point,
    /// Radians clockwise from north.
    pub heading: f64,
    /// Whether it is the mirror image.
    pub mirrored: bool,
    /// What the place promises for what is wanted; the greatest is the best.
    pub promise: f64,
}

/// The headings that are looked at, each as drawn or as its mirror image.
#[derive(Debug)]
pub struct Turns {
    /// Radians clockwise from north, and whether mirrored.
    pub all: Vec<(f64, bool)>,
}

impl Turns {
    /// Every heading of a step; of a shell that looks alike after half a turn or in a mirror, those
    /// that differ.
    pub fn all_round(step: f64, bounds: &Bounds<'_>) -> Self {
        let headings = |from: f64, to: f64| {
            let mut at = from;
            core::iter::from_fn(move || {
                let heading = (at < to - step / 2.0).then_some(at);
                at += step;
                heading
            })
        };
        Self::of(headings(0.0, TURN).collect(), bounds)
    }

    /// Every heading along or square to a wall of the house or a lot line.
    pub fn parallel(site: &CheckedSite, bounds: &Bounds<'_>) -> Self {
        let mut headings = Vec::new();
        for along in headings_along(site) {
            for quarter in 0..4_u8 {
                headings.push(wrap_turn(along + f64::from(quarter) * TURN / 4.0));
            }
        }
        headings.sort_by(f64::total_cmp);
        headings.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        Self::of(headings, bounds)
    }

    fn of(headings: Vec<f64>, bounds: &Bounds<'_>) -> Self {
        let mirror = |p: Point| Point::new(p.x, -p.y);
        let half_turn = |p: Point| Point::new(-p.x, -p.y);
        let same_mirrored = bounds.figures().iter().all(|it| alike(it, mirror));
        let same_turned = bounds.figures().iter().all(|it| alike(it, half_turn));
        let headings = headings
            .into_iter()
            .filter(|it| !same_turned || *it < TURN / 2.0 - 1e-9);
        let both = headings.flat_map(|it| [(it, false), (it, true)]);
        Self {
            all: both
                .filter(|(_, mirrored)| !(same_mirrored && *mirrored))
                .collect(),
        }
    }
}

/// Whether a figure is the same after a change that keeps sizes.
fn alike(region: &Region, change: impl Fn(Point) -> Point) -> bool {
    let mut changed = region.clone();
    for polygon in &mut changed.polygons {
        let points = polygon.outer.0.iter().map(|p| change(*p));
        polygon.outer = Ring(points.collect());
        if polygon.outer.signed_area() < 0.0 {
            polygon.outer.0.reverse();
        }
        polygon.holes.clear();
    }
    difference(region, &changed).area() < ALIKE * region.area()
}

/// The places of clear ground at one heading that promise most.
pub fn candidates(
    site: &CheckedSite,
    region: &Region,
    (heading, mirrored): (f64, bool),
    wanted: FitAim,
    sunny: Option<&Sunny>,
) -> Vec<Candidate> {
    let candidate = |at: Point, promise: f64| Candidate {
        at,
        heading,
        mirrored,
        promise,
    };
    match wanted {
        FitAim::MostSun => {
            let places = sunny.map(|it| it.places(region, (heading, mirrored)));
            let places = places.into_iter().flatten();
            places.map(|(at, promise)| candidate(at, promise)).collect()
        }
        FitAim::MostRoom | FitAim::Parallel => poles(region)
            .iter()
            .map(|pole| candidate(pole.at, pole.depth))
            .collect(),
        FitAim::NearDoor => near_door(site, region)
            .map(|(at, away)| candidate(at, -away))
            .into_iter()
            .collect(),
        // The evener the ground, the less is cut into it and filled on it.
        FitAim::LeastSpoil | FitAim::LeastFill => poles(region)
            .iter()
            .map(|pole| candidate(pole.at, -relief(site, pole.at)))
            .collect(),
    }
}

/// How much the ground round a place rises and falls, meters.
fn relief(site: &CheckedSite, at: Point) -> f64 {
    const ROUND: f64 = 4.0;
    let heights = (0..8_u8).map(|i| {
        let out = Vector::along_bearing(f64::from(i) * TURN / 8.0) * ROUND;
        site.ground().height(at + out).elevation
    });
    let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
        (low.min(it), high.max(it))
    });
    high - low
}

/// The place of clear ground nearest to a door, and how far that is.
fn near_door(site: &CheckedSite, region: &Region) -> Option<(Point, f64)> {
    let found = doors(site).into_iter().filter_map(|door| {
        let pair = nearest(door, Figure::Area(region))?;
        Some((pair.to, pair.distance))
    });
    found.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// Every door of the buildings; the houses themselves where no door is told.
pub fn doors(site: &CheckedSite) -> Vec<Figure<'_>> {
    let features = site.features().iter();
    let parts = features.clone().flat_map(|it| &it.parts);
    let doors = parts.filter(|part| part.part == FeaturePart::Door);
    let told: Vec<Figure<'_>> = doors.map(|door| door.figure()).collect();
    if !told.is_empty() {
        return told;
    }
    let houses = features.filter(|it| it.kind == FeatureKind::House);
    houses.map(|it| it.shape.figure()).collect()
}

/// The most promising places, of those that are much alike the best one alone.
pub fn keep_apart(candidates: &[Candidate], most: usize) -> Vec<Candidate> {
    let mut sorted: Vec<&Candidate> = candidates.iter().collect();
    sorted.sort_by(|a, b| b.promise.total_cmp(&a.promise));
    let mut kept: Vec<Candidate> = Vec::new();
    for candidate in sorted {
        if kept.len() >= most {
            break;
        }
        let like = |it: &Candidate| {
            it.at.distance(candidate.at) < LIKE_PLACE
                && wrap_half_turn(it.heading - candidate.heading).abs() < LIKE_HEADING
        };
        // Half a turn is told as another place only where it is elsewhere.
        let turned = |it: &Candidate| {
            it.at.distance(candidate.at) < LIKE_PLACE
                && wrap_half_turn(it.heading - candidate.heading + TURN / 2.0).abs() < LIKE_HEADING
        };
        if !kept.iter().any(|it| like(it) || turned(it)) {
            kept.push(*candidate);
        }
    }
    kept
}
