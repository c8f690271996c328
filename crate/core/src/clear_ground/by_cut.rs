//! Whether the edge of clear ground holds by the cut made there.
//!
//! The region takes the dig as it is where the shell stands. On ground that is not level another place
//! has another dig: here the edge is walked, the whole cut is made anew at one place of it after
//! another, and the room left there is measured. On the true edge that room is nothing.

use super::bounds::Bounds;
use super::room::Ruler;
use crate::analysis::{self, Cache, Detail, Scenario};
use crate::geom::{DRAWING_TOLERANCE, Point, Region};
use crate::site::{CheckedSite, Placement};

/// Room that differs from nothing by no more than this is nothing, meters: the chords of the figure, of the figure
/// widened and of what it is held off from.
pub const EDGE_SLACK: f64 = 3.0 * DRAWING_TOLERANCE;

/// The places of the edge are at least this far apart, meters.
const LEAST_SPACING: f64 = 0.5;

/// Into how many parts the whole edge is cut; corners are places besides.
const PARTS: f64 = 64.0;

/// Corners nearer to the last place than this share of the spacing are passed over: they are those of an arc.
const CORNER_SHARE: f64 = 0.25;

/// A place of the edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgePlace {
    /// Where the shell's middle is, site meters.
    pub at: Point,
    /// The least room by the cut made there, meters; negative where a clearance falls short.
    pub room: f64,
}

/// The edge of clear ground, held against the cut.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EdgeByCut {
    /// The places of each ring of the edge, in turn.
    rings: Vec<Vec<EdgePlace>>,
}

impl EdgeByCut {
    /// Walks the edge of clear ground of the shell as it stands; nothing before one is placed.
    pub fn of(site: &CheckedSite, region: &Region, cache: &mut Cache) -> Self {
        let Some((_, placement)) = site.placed_shell() else {
            return Self::default();
        };
        let around: f64 = region.rings().map(|ring| ring.perimeter()).sum();
        let spacing = (around / PARTS).max(LEAST_SPACING);
        let rings = region.rings().map(|ring| {
            let places = spaced(ring.edges(), spacing).into_iter();
            let measured = places.filter_map(|at| {
                let room = room_at(site, placement, at, cache)?;
                Some(EdgePlace { at, room })
            });
            measured.collect()
        });
        Self {
            rings: rings.collect(),
        }
    }

    /// Every place that was measured.
    pub fn places(&self) -> impl Iterator<Item = &EdgePlace> {
        self.rings.iter().flatten()
    }

    /// By how much the clearances fall short where they do so most, meters; `None` where the edge holds.
    pub fn short_by(&self) -> Option<f64> {
        let least = self.places().map(|it| it.room).reduce(f64::min)?;
        (least < -EDGE_SLACK).then_some(-least)
    }

    /// How much room is left beyond the edge where there is most, meters; `None` where there is none.
    pub fn room_beyond(&self) -> Option<f64> {
        let most = self.places().map(|it| it.room).reduce(f64::max)?;
        (most > EDGE_SLACK).then_some(most)
    }

    /// The stretches of the edge along which the clearances fall short, each from halfway to the place before to halfway to
    /// the place after.
    pub fn short_stretches(&self) -> Vec<Vec<Point>> {
        self.rings.iter().flat_map(|ring| short_of(ring)).collect()
    }
}

/// The stretches of one ring.
fn short_of(ring: &[EdgePlace]) -> Vec<Vec<Point>> {
    let is_short = |it: &EdgePlace| it.room < -EDGE_SLACK;
    let Some(start) = ring.iter().position(|it| !is_short(it)) else {
        let whole = ring.iter().chain(ring.first()).map(|it| it.at).collect();
        return vec![whole];
    };
    let mut stretches = Vec::new();
    let mut open: Vec<Point> = Vec::new();
    let turned = ring.iter().cycle().skip(start).take(ring.len() + 1);
    let mut before: Option<&EdgePlace> = None;
    for place in turned {
        let halfway = before.map(|it| it.at.midpoint(place.at));
        match (is_short(place), open.is_empty()) {
            (true, true) => open.extend(halfway.into_iter().chain([place.at])),
            (true, false) => open.push(place.at),
            (false, false) => {
                open.extend(halfway);
                stretches.push(std::mem::take(&mut open));
            }
            (false, true) => {}
        }
        before = Some(place);
    }
    stretches
}

/// Places along a ring: its corners, and between them one after each `spacing`.
fn spaced(edges: impl Iterator<Item = (Point, Point)>, spacing: f64) -> Vec<Point> {
    let mut places: Vec<Point> = Vec::new();
    // How far it is from the last place to the corner.
    let mut since = f64::INFINITY;
    for (from, to) in edges {
        if since > spacing * CORNER_SHARE {
            places.push(from);
            since = 0.0;
        }
        let long = from.distance(to);
        let mut along = spacing - since;
        while along < long {
            places.push(from + (to - from) * (along / long));
            along += spacing;
        }
        since = long - (along - spacing);
    }
    places
}

/// The least room with the shell moved there and the cut made anew, meters.
fn room_at(site: &CheckedSite, placement: &Placement, at: Point, cache: &mut Cache) -> Option<f64> {
    let scenario = Scenario::with(site, |next| {
        next.placement = Some(Placement {
            at,
            ..placement.clone()
        });
    });
    let scenario = scenario.ok()?;
    let analysis = analysis::run(&scenario, Detail::Clearances, cache);
    let (_, placed) = scenario.site().placed_shell()?;
    let pose = placed.pose();
    let bounds = Bounds::of(scenario.site(), &analysis.work, &pose)?;
    Some(Ruler::of(&bounds).tightest(&pose)?.room)
}
