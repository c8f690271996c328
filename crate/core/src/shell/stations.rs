//! A floor told by stations along the length, made into facets.
//!
//! Between two stations the floor falls evenly. Where no width is told it reaches from wall to
//! wall: one facet across the outline. Where widths are told, a strip as wide as told, its middle
//! on the length, lies level across, and beside it the floor rises to the foot of the wall: the
//! outline at the depth `wall`. Four corners of such a side that are not in one plane are parted
//! along their shorter diagonal. Where the outline bends, sides are parted as well
//! (`SIDE_TOLERANCE`), so that their foot follows it. Before the first station and beyond the
//! last, everything runs on level to the outline.

use super::checked::Facet;
use super::depth::{DEPTH_LIMIT, depth_fault};
use super::plane::DepthPlane;
use super::record::{FacetKind, ShellRecord, StationRecord};
use crate::finding::Finding;
use crate::geom::boolean::intersection;
use crate::geom::flatten::{ChordSide, flatten};
use crate::geom::{Outline, Point, Region, Ring, region};

/// How many stations a floor may have: far above any that is told by hand.
const MOST: usize = 40;

/// How far the foot of a side may run beside the outline, meters, between places where it is on
/// it: at a slope of one in one the wall is out by as much.
const SIDE_TOLERANCE: f64 = 0.01;

/// Sides are not parted more often than this, meters.
const SHORTEST_SIDE: f64 = 0.02;

/// Stations nearer than this are one, and edges nearer meet, meters: lengths are typed to a
/// sixteenth of an inch.
const TOUCH: f64 = 0.002;

/// Corners this near to one plane are in it, meters.
const IN_PLANE: f64 = 0.001;

/// How far inside the ends of the outline its width is looked at, meters.
const NUDGE: f64 = 1e-6;

/// A facet smaller than this is none, m2: what cutting at the outline leaves of an edge.
const NOTHING: f64 = 4e-6;

/// A fall along the length up to which a floor counts as shallow or deep, not as the slope
/// between them (common practice, no source).
const GENTLE: f64 = 0.1;

/// From this depth on an even floor counts as deep, meters: arbitrary.
const DEEP: f64 = 1.5;

/// One side of a cross section: where the level floor ends, and where the wall stands.
#[derive(Debug, Clone, Copy)]
struct Side {
    /// How far across the floor's edge lies, meters, shell frame.
    edge: f64,
    /// How far across the foot of the wall lies, meters, shell frame.
    foot: f64,
    /// Depth of the foot below the rim, meters.
    wall: f64,
}

/// The floor across the length at one place.
#[derive(Debug, Clone, Copy)]
struct Section {
    at: f64,
    depth: f64,
    /// To the right of the length (y negative), and to the left.
    sides: [Side; 2],
}

/// Everything wrong with the stations of a record. Widths are held against the outline once
/// everything else is right.
pub(super) fn faults(record: &ShellRecord, outline: Option<&Outline>) -> Vec<Finding> {
    let stations = &record.stations;
    let mut faults = Vec::new();
    if !record.floor.is_empty() {
        faults.push(
            Finding::fault(
                "floor-twice",
                "The floor is given twice, by facets and by stations.",
                "Keep one of the two: take out the facets or the stations.",
            )
            .under("/stations"),
        );
    }
    if !(2..=MOST).contains(&stations.len()) {
        faults.push(
            Finding::fault(
                "station-count",
                format!("The floor has {} stations.", stations.len()),
                format!("Give from 2 to {MOST}: at least one at each end."),
            )
            .under("/stations"),
        );
    }
    for (index, station) in stations.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|i| stations.get(i));
        plain(station, before, &mut |member, check, message, remedy| {
            let place = format!("/stations/{index}/{member}");
            faults.push(Finding::fault(check, message, remedy).under(&place));
        });
    }
    if let Some(outline) = outline.filter(|_| faults.is_empty()) {
        let ring = flatten(outline, SIDE_TOLERANCE, ChordSide::Inscribed);
        let ends = ends(&ring);
        for (index, station) in stations.iter().enumerate() {
            if let Some((member, check, message, remedy)) = misfit(station, &ring, ends) {
                let place = format!("/stations/{index}/{member}");
                faults.push(Finding::fault(check, message, remedy).under(&place));
            }
        }
    }
    faults
}

/// What is wrong with one station by itself, or with its order.
fn plain(
    station: &StationRecord,
    before: Option<&StationRecord>,
    tell: &mut dyn FnMut(&str, &'static str, String, &'static str),
) {
    if !station.at.is_finite() {
        let remedy = "Give its distance along the length from the shell's middle, in meters.";
        tell(
            "at",
            "out-of-range",
            "The station has no distance.".into(),
            remedy,
        );
    } else if before.is_some_and(|b| station.at - b.at < TOUCH) {
        let message = format!(
            "The station at {} m does not lie beyond the one before.",
            station.at
        );
        let remedy = "Give the stations in order along the length, shallow end to deep end.";
        tell("at", "station-order", message, remedy);
    }
    let depths = [("depth", Some(station.depth)), ("wall", station.wall)];
    for (member, depth) in depths {
        if let Some((message, remedy)) = depth.and_then(depth_fault) {
            tell(member, "depth", message, remedy);
        }
    }
    if station.wall.is_some_and(|wall| wall > station.depth) {
        let message = "The wall ends deeper than the floor lies.".to_owned();
        let remedy = "Give the depth at which the wall ends, no greater than that of the floor.";
        tell("wall", "station-wall", message, remedy);
    }
    if station
        .width
        .is_some_and(|width| !(width > 0.0 && width.is_finite()))
    {
        let message = "The width of the floor is not a positive number.".to_owned();
        let remedy = "Give the width in meters, or leave it out where the floor reaches the walls.";
        tell("width", "station-width", message, remedy);
    }
}

/// A station beyond the outline, or wider than it is.
fn misfit(
    station: &StationRecord,
    ring: &Ring,
    (low, high): (f64, f64),
) -> Option<(&'static str, &'static str, String, &'static str)> {
    if station.at < low - SIDE_TOLERANCE || station.at > high + SIDE_TOLERANCE {
        return Some((
            "at",
            "station-outside",
            format!(
                "The station at {:.3} m lies beyond the outline, which runs from {low:.3} m to {high:.3} m.",
                station.at
            ),
            "Give its distance along the length from the shell's middle, in meters.",
        ));
    }
    let width = station.width?;
    let (right, left) = chord(ring, station.at, (low, high)).unwrap_or_default();
    // The outline is flattened from the inside.
    let room = 2.0 * (left.min(-right) + SIDE_TOLERANCE);
    (width > room).then(|| {
        (
            "width",
            "station-width",
            format!(
                "The floor is {width:.3} m wide, its middle on the length; the outline leaves {:.3} m there.",
                (2.0 * left.min(-right)).max(0.0)
            ),
            "Give a width no greater, or leave it out where the floor reaches the walls.",
        )
    })
}

/// The facets of stations without faults.
pub(super) fn facets(
    stations: &[StationRecord],
    outline: &Outline,
    footprint: &Region,
) -> Vec<Facet> {
    let ring = flatten(outline, SIDE_TOLERANCE, ChordSide::Inscribed);
    let ends = ends(&ring);
    let (low, high) = footprint.bounds().unwrap_or_default();
    let depths = stations.iter().map(|s| s.depth);
    let (least, most) = depths.fold((DEPTH_LIMIT, 0.0), |(l, m): (f64, f64), d| {
        (l.min(d), m.max(d))
    });
    let mut builder = Builder {
        footprint,
        far: [low.y - 1.0, high.y + 1.0],
        range: (least, most),
        facets: Vec::new(),
    };
    let told: Vec<Section> = stations.iter().map(|s| section(s, &ring, ends)).collect();
    let mut bends: Vec<f64> = ring.0.iter().map(|p| p.x).collect();
    bends.sort_by(f64::total_cmp);
    if let (Some(first), Some(last)) = (told.first(), told.last()) {
        builder.stretch(&[
            Section {
                at: low.x - 1.0,
                ..*first
            },
            *first,
        ]);
        for (a, b) in told.iter().zip(told.iter().skip(1)) {
            builder.stretch(&between(a, b, &bends, &ring, ends));
        }
        builder.stretch(&[
            *last,
            Section {
                at: high.x + 1.0,
                ..*last
            },
        ]);
    }
    builder.facets
}

/// The section at a station.
fn section(station: &StationRecord, ring: &Ring, ends: (f64, f64)) -> Section {
    let (right, left) = chord(ring, station.at, ends).unwrap_or_default();
    let side = |foot: f64, sign: f64| match station.width {
        Some(width) if (foot * sign - width / 2.0) > TOUCH => Side {
            edge: sign * width / 2.0,
            foot,
            wall: station.wall.unwrap_or(station.depth / 2.0),
        },
        _ => Side {
            edge: foot,
            foot,
            wall: station.depth,
        },
    };
    Section {
        at: station.at,
        depth: station.depth,
        sides: [side(right, -1.0), side(left, 1.0)],
    }
}

/// Two sections, and those between them where the outline bends and a side follows it.
fn between(a: &Section, b: &Section, bends: &[f64], ring: &Ring, ends: (f64, f64)) -> Vec<Section> {
    let mut sections = vec![*a];
    let sided = [a, b]
        .iter()
        .any(|s| s.sides.iter().any(|side| !side.meets()));
    let mut last = a.at;
    for at in bends.iter().copied().filter(|_| sided) {
        if at - last < SHORTEST_SIDE || b.at - at < SHORTEST_SIDE {
            continue;
        }
        let Some((right, left)) = chord(ring, at, ends) else {
            continue;
        };
        last = at;
        let part = (at - a.at) / (b.at - a.at);
        let mix = |from: f64, to: f64| from + (to - from) * part;
        let depth = mix(a.depth, b.depth);
        let side = |from: &Side, to: &Side, foot: f64, sign: f64| {
            let edge = mix(from.edge, to.edge);
            if (foot - edge) * sign > TOUCH {
                let wall = mix(from.wall, to.wall);
                Side { edge, foot, wall }
            } else {
                Side {
                    edge: foot,
                    foot,
                    wall: depth,
                }
            }
        };
        let [ar, al] = &a.sides;
        let [br, bl] = &b.sides;
        sections.push(Section {
            at,
            depth,
            sides: [side(ar, br, right, -1.0), side(al, bl, left, 1.0)],
        });
    }
    sections.push(*b);
    sections
}

impl Side {
    /// Whether the level floor reaches the wall.
    fn meets(&self) -> bool {
        (self.foot - self.edge).abs() <= TOUCH
    }
}

struct Builder<'a> {
    footprint: &'a Region,
    /// Beyond the outline to the right and to the left, meters across.
    far: [f64; 2],
    range: (f64, f64),
    facets: Vec<Facet>,
}

impl Builder<'_> {
    /// The strip of even fall along sections, and the sides beside it.
    fn stretch(&mut self, sections: &[Section]) {
        let (Some(a), Some(b)) = (sections.first(), sections.last()) else {
            return;
        };
        let mut ring = Vec::new();
        for (side, far) in [0, 1].into_iter().zip(self.far) {
            let mut chain = Vec::new();
            for (p, q) in sections.iter().zip(sections.iter().skip(1)) {
                let (Some(s), Some(t)) = (p.sides.get(side), q.sides.get(side)) else {
                    continue;
                };
                if s.meets() && t.meets() {
                    chain.extend([Point::new(p.at, far), Point::new(q.at, far)]);
                } else {
                    chain.extend([Point::new(p.at, s.edge), Point::new(q.at, t.edge)]);
                    self.side((p.at, p.depth, s), (q.at, q.depth, t), far);
                }
            }
            if side == 1 {
                chain.reverse();
            }
            ring.extend(chain);
        }
        let fall = (b.depth - a.depth) / (b.at - a.at);
        let plane = DepthPlane::through(&[
            (Point::new(a.at, -1.0), a.depth),
            (Point::new(a.at, 1.0), a.depth),
            (Point::new(b.at, 1.0), b.depth),
            (Point::new(b.at, -1.0), b.depth),
        ]);
        let (least, most) = self.range;
        let middle = (a.depth + b.depth) / 2.0;
        let deep = if most - least > GENTLE {
            middle > (least + most) / 2.0
        } else {
            middle >= DEEP
        };
        let kind = match (fall.abs() > GENTLE, deep) {
            (true, _) => FacetKind::Slope,
            (false, true) => FacetKind::Deep,
            (false, false) => FacetKind::Shallow,
        };
        self.add(kind, plane, ring);
    }

    /// What lies between the floor's edge and the foot of the wall, from one section to the next.
    fn side(&mut self, (x, d, s): (f64, f64, &Side), (u, e, t): (f64, f64, &Side), far: f64) {
        let at = Point::new;
        let (edge, edge_on) = ((at(x, s.edge), d), (at(u, t.edge), e));
        let (foot, foot_on) = ((at(x, s.foot), s.wall), (at(u, t.foot), t.wall));
        let (beyond, beyond_on) = (at(x, far), at(u, far));
        let whole = vec![edge.0, edge_on.0, beyond_on, beyond];
        let flat = DepthPlane::through(&[edge, edge_on, foot_on, foot]);
        let off = [edge, edge_on, foot_on, foot]
            .iter()
            .any(|(p, d)| (flat.depth(*p) - d).abs() > IN_PLANE);
        if s.meets() {
            self.add(
                FacetKind::Slope,
                DepthPlane::through(&[edge, edge_on, foot_on]),
                whole,
            );
        } else if t.meets() {
            self.add(
                FacetKind::Slope,
                DepthPlane::through(&[edge, edge_on, foot]),
                whole,
            );
        } else if !off {
            self.add(FacetKind::Slope, flat, whole);
        } else if edge.0.distance(foot_on.0) <= foot.0.distance(edge_on.0) {
            let (outer, inner) = ([edge, foot, foot_on], [edge, edge_on, foot_on]);
            self.add(
                FacetKind::Slope,
                DepthPlane::through(&outer),
                vec![edge.0, foot_on.0, beyond_on, beyond],
            );
            self.add(
                FacetKind::Slope,
                DepthPlane::through(&inner),
                vec![edge.0, edge_on.0, foot_on.0],
            );
        } else {
            let (outer, inner) = ([edge_on, foot, foot_on], [edge, edge_on, foot]);
            self.add(
                FacetKind::Slope,
                DepthPlane::through(&outer),
                vec![foot.0, edge_on.0, beyond_on, beyond],
            );
            self.add(
                FacetKind::Slope,
                DepthPlane::through(&inner),
                vec![edge.0, edge_on.0, foot.0],
            );
        }
    }

    fn add(&mut self, kind: FacetKind, plane: DepthPlane, ring: Vec<Point>) {
        let ring = Ring(ring);
        let ring = if ring.signed_area() < 0.0 {
            ring.reversed()
        } else {
            ring
        };
        let region = intersection(&Region::from_ring(ring), self.footprint);
        if region.area() > NOTHING {
            self.facets.push(Facet {
                kind,
                region,
                plane,
            });
        }
    }
}

/// Where the outline begins and ends along the length, meters.
fn ends(ring: &Ring) -> (f64, f64) {
    let bounds = region::bounds(ring.0.iter().copied());
    bounds.map_or((0.0, 0.0), |(low, high)| (low.x, high.x))
}

/// How far the outline reaches to the right and to the left of the length at a place on it;
/// `None` where the length does not run inside it.
fn chord(ring: &Ring, at: f64, (low, high): (f64, f64)) -> Option<(f64, f64)> {
    let x = at.max(low + NUDGE).min(high - NUDGE);
    let (mut right, mut left) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut winds = 0;
    for (a, b) in ring.edges().filter(|(a, b)| (a.x > x) != (b.x > x)) {
        let y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
        if y > 0.0 {
            left = left.min(y);
            winds += 1;
        } else {
            right = right.max(y);
        }
    }
    (winds % 2 == 1).then_some((right, left))
}

#[cfg(test)]
mod tests;
