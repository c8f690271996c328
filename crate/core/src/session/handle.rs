//! The handles of a shape being changed: where they stand, which one a hand takes hold of, and
//! what the shape becomes when it is moved.

use super::shape::Target;
use crate::geom::{Point, Segment, Vector, nearest_on};
use crate::lot::CornerChange;
use crate::site::{ShapeRecord, Site};
use crate::sketch::Sketch;
use crate::sketch::catch::Stroke;

/// An edge shorter than this on the screen has no handle in its middle, pixels: it would lie
/// on those of its corners.
const ROOM_FOR_MIDDLE: f64 = 56.0;

/// The least radius that a hand can give a disc, meters (our choice).
const LEAST_RADIUS: f64 = 0.05;

/// A part of the shape being changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// A corner.
    Corner(usize),
    /// The middle of an edge: a straight one gets a corner there, an arc is bent.
    Middle(usize),
    /// An edge: a straight one moves parallel to itself, an arc is bent.
    Edge(usize),
    /// The whole, to move it.
    Whole,
    /// The rim of a disc.
    Rim,
}

/// A part, and of which of the shape's paths.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Handle {
    /// Index of the path.
    pub path: usize,
    /// The part of it.
    pub part: Part,
}

/// A handle on the plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlacedHandle {
    /// Where it stands, site meters.
    pub at: Point,
    /// What it moves.
    pub handle: Handle,
}

/// Every handle, corners first. `scale`: pixels per meter of the view.
pub(super) fn handles(target: &Target, site: &Site, scale: f64) -> Vec<PlacedHandle> {
    let mut handles = Vec::new();
    let mut put = |path, part, at| {
        let handle = Handle { path, part };
        handles.push(PlacedHandle { at, handle });
    };
    let paths = target.paths(site);
    for (path, sketch) in paths.iter().enumerate() {
        for (i, vertex) in sketch.vertices.iter().enumerate() {
            put(path, Part::Corner(i), vertex.at);
        }
    }
    for (path, sketch) in paths.iter().enumerate() {
        for (i, edge) in (0..sketch.edges()).filter_map(|i| Some((i, sketch.edge(i)?))) {
            if edge.length() * scale >= ROOM_FOR_MIDDLE {
                put(path, Part::Middle(i), edge.point_at(0.5));
            }
        }
    }
    if let Some((at, radius)) = target.disc(site) {
        put(0, Part::Rim, at + Vector::new(radius, 0.0));
        put(0, Part::Whole, at);
    }
    handles
}

/// What a hand at a place takes hold of: the nearest handle, or else the nearest edge.
pub(super) fn taken(
    target: &Target,
    site: &Site,
    at: Point,
    reach: f64,
    scale: f64,
) -> Option<Handle> {
    let mut best: Option<(f64, Handle)> = None;
    for placed in handles(target, site, scale) {
        // A corner wins over a middle that is as near.
        let off = placed.at.distance(at);
        if off <= reach && best.is_none_or(|(least, _)| off < least) {
            best = Some((off, placed.handle));
        }
    }
    if best.is_none() {
        for (path, sketch) in target.paths(site).iter().enumerate() {
            for (i, edge) in (0..sketch.edges()).filter_map(|i| Some((i, sketch.edge(i)?))) {
                // Half the reach: the middle of a small shape is left to move it whole.
                let off = nearest_on(&edge, at).distance(at);
                if off <= reach / 2.0 && best.is_none_or(|(least, _)| off < least) {
                    let part = Part::Edge(i);
                    best = Some((off, Handle { path, part }));
                }
            }
        }
    }
    best.map(|(_, handle)| handle)
}

/// Where a handle is, so that the hand keeps its distance from it: of an edge the point nearest
/// to the hand.
pub(super) fn place(target: &Target, site: &Site, handle: Handle, hand: Point) -> Option<Point> {
    if let Some((at, radius)) = target.disc(site) {
        return Some(match handle.part {
            Part::Rim => at + (hand - at).unit().unwrap_or(Vector::new(1.0, 0.0)) * radius,
            _ => at,
        });
    }
    let sketch = target.paths(site).into_iter().nth(handle.path)?;
    match handle.part {
        Part::Corner(i) => sketch.vertices.get(i).map(|v| v.at),
        Part::Middle(i) => Some(sketch.edge(i)?.point_at(0.5)),
        Part::Edge(i) => Some(nearest_on(&sketch.edge(i)?, hand)),
        // The corner nearest to the hand leads the whole.
        Part::Whole => {
            let mut best: Option<Point> = None;
            for vertex in target.paths(site).iter().flat_map(|s| &s.vertices) {
                if best.is_none_or(|b| vertex.at.distance(hand) < b.distance(hand)) {
                    best = Some(vertex.at);
                }
            }
            best
        }
        Part::Rim => None,
    }
}

/// From what the hand that holds a handle is led.
pub(super) fn stroke(target: &Target, site: &Site, handle: Handle) -> Stroke {
    let sketch = target.paths(site).into_iter().nth(handle.path);
    let Some(sketch) = sketch else {
        return Stroke::FREE;
    };
    // The corners on either side of the one on the move, and the edges beyond them.
    let count = sketch.vertices.len();
    let step = |i: usize, by: usize| {
        let next = i + by;
        (sketch.closed || (count..2 * count).contains(&next)).then_some(next % count.max(1))
    };
    let (before, after, leaving) = match handle.part {
        Part::Corner(i) => (
            step(i + count, count - 1).filter(|_| sketch.closed || i > 0),
            step(i, 1).filter(|_| sketch.closed || i + 1 < count),
            sketch.vertices.get(i).map(|v| v.at),
        ),
        Part::Middle(i) => (Some(i), Some((i + 1) % count.max(1)), None),
        _ => return Stroke::FREE,
    };
    let straight = |edge: Option<Segment>| match edge {
        Some(Segment::Line { from, to }) => (to - from).unit(),
        _ => None,
    };
    let before_that = before
        .and_then(|b| {
            b.checked_sub(1)
                .or_else(|| sketch.closed.then(|| count - 1))
        })
        .and_then(|b| straight(sketch.edge(b)));
    let next = after.and_then(|a| {
        let way = straight(sketch.edge(a))?;
        Some((sketch.vertices.get(a)?.at, way, "the edge after"))
    });
    Stroke {
        last: before.and_then(|b| sketch.vertices.get(b)).map(|v| v.at),
        came: before_that.map(|way| (way, "the edge before")),
        next,
        may_close: false,
        leaving,
    }
}

/// Moves what is gripped to a place, in a site that is as it was when the handle was taken.
pub(super) fn moved(target: &Target, site: &mut Site, handle: Handle, from: Point, to: Point) {
    if target.disc(site).is_some() {
        return target.change_shape(site, |shape| {
            if let ShapeRecord::Disc { at, radius } = shape {
                match handle.part {
                    Part::Rim => *radius = at.distance(to).max(LEAST_RADIUS),
                    _ => *at = *at + (to - from),
                }
            }
        });
    }
    let paths = target.paths(site);
    if handle.part == Part::Whole {
        for (index, sketch) in paths.iter().enumerate() {
            target.put(site, index, &sketch.moved(to - from), CornerChange::Moved);
        }
        return target.move_openings(site, to - from);
    }
    let Some(sketch) = paths.get(handle.path) else {
        return;
    };
    let arc = |i| matches!(sketch.edge(i), Some(Segment::Arc { .. }));
    let (next, change) = match handle.part {
        Part::Corner(i) => (sketch.with_corner_at(i, to), CornerChange::Moved),
        Part::Middle(i) if arc(i) => (sketch.bent(i, to), CornerChange::Moved),
        Part::Middle(i) => (
            sketch.with_corner(i, from).with_corner_at(i + 1, to),
            CornerChange::Added(i + 1),
        ),
        Part::Edge(i) => (sketch.with_edge_through(i, to), CornerChange::Moved),
        Part::Whole | Part::Rim => return,
    };
    target.put(site, handle.path, &next, change);
}

/// The part that is picked once a handle has been moved.
pub(super) fn picked_after(handle: Handle, sketch: Option<&Sketch>) -> Handle {
    let part = match handle.part {
        Part::Middle(i) if matches!(sketch.and_then(|s| s.edge(i)), Some(Segment::Line { .. })) => {
            Part::Corner(i + 1)
        }
        Part::Middle(i) => Part::Edge(i),
        other => other,
    };
    Handle { part, ..handle }
}
