//! Control joints: where a slab is to crack.
//!
//! All of it is common practice, no source: joints at most the settings' spacing apart, panels at
//! most one and a half times as long as wide where that leaves panels worth the name, a joint at
//! every re-entrant corner, and one where what was drawn leaves the ring round the rim.

mod grid;

use crate::geom::clip::inside;
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Edges, Outline, Point, Region, Ring, Segment, Vector};
use crate::math::{atan2, cos};
use crate::shell::Shell;
use crate::site::DeckSettings;
use crate::units::constants::{DEGREE, FOOT};

/// How long a panel may be for its width.
pub const LONGEST_PANEL: f64 = 1.5;

/// Panels are not made shorter than this for the sake of their form, meters: 3 ft.
pub const SHORTEST_PANEL: f64 = 3.0 * FOOT;

/// A turn from which on a corner is one, radians.
const CORNER: f64 = 20.0 * DEGREE;

/// An arc of the rim tighter than this is a corner, meters: 2 ft.
const TIGHT: f64 = 2.0 * FOOT;

/// How near to a corner a joint must pass to serve it, meters: 2 in.
const SERVES: f64 = 0.05;

/// The most joints across one ring: more stand for a spacing nobody meant.
const MOST: f64 = 2000.0;

/// All joints of a slab. `within`: everything inside the outer edge of the ring; `beyond`: the
/// slab outside it.
pub(super) fn set(
    shell: &Shell,
    settings: &DeckSettings,
    within: &Region,
    beyond: &Region,
    slab: &Region,
) -> Vec<Vec<Point>> {
    let spacing = settings.joint_spacing;
    let mut joints = Vec::new();
    if settings.width > 0.0 {
        ring(shell, settings, within, &mut joints);
        // Where a drawn slab begins, the ring ends in a joint.
        if !beyond.is_empty() {
            joints.extend(within.rings().map(|ring| {
                let mut closed = ring.0.clone();
                closed.extend(ring.0.first());
                closed
            }));
        }
    }
    for polygon in &beyond.polygons {
        grid::lay(polygon, spacing, &mut joints);
    }
    let edges = Edges::of_region(slab);
    let cut = joints.iter().flat_map(|j| inside_of(j, slab, &edges));
    let mut cut: Vec<Vec<Point>> = cut.collect();
    for corner in reentrant(slab) {
        if !cut.iter().any(|joint| passes(joint, corner.at)) {
            cut.extend(corner.joint(slab));
        }
    }
    cut
}

/// A joint cut to the slab. One that runs along the slab's edge is none: it is looked at a hair
/// to either side. `edges`: those of the slab.
fn inside_of(joint: &[Point], slab: &Region, edges: &Edges) -> Vec<Vec<Point>> {
    let parts = inside(joint, slab);
    let in_it = |part: &Vec<Point>| {
        let pairs = part.iter().zip(part.iter().skip(1));
        let sides = pairs.filter_map(|(a, b)| {
            let aside = (*b - *a).unit()?.left() * SERVES;
            let middle = a.midpoint(*b);
            // Farther from every edge both sides lie where the joint itself does: in the slab.
            let clear = !edges.within(middle, SERVES * 1.01);
            Some(clear || (slab.contains(middle + aside) && slab.contains(middle - aside)))
        });
        let (both, all) = sides.fold((0, 0), |(both, all), it| (both + usize::from(it), all + 1));
        2 * both > all
    };
    parts.into_iter().filter(in_it).collect()
}

/// Joints across the ring, square to the rim, and round it where it is wide.
fn ring(shell: &Shell, settings: &DeckSettings, within: &Region, joints: &mut Vec<Vec<Point>>) {
    let (width, spacing) = (settings.width, settings.joint_spacing);
    let (Some(edge), Some(rim)) = (within.polygons.first(), shell.rim.polygons.first()) else {
        return;
    };
    let rows = (width / spacing - 1e-9).ceil().clamp(1.0, 100.0);
    let longest = (LONGEST_PANEL * width / rows).max(SHORTEST_PANEL);
    let across = spacing.min(longest);
    let rim_chain = [&rim.outer];
    let to_rim = |p: Point| nearest_of(&rim_chain, p);
    for at in stations(shell, settings, &edge.outer, across) {
        if let Some(foot) = to_rim(at) {
            joints.push(vec![foot, at]);
        }
    }
    for row in 1..rows as u32 {
        let out = shell.record.coping_width + width * f64::from(row) / rows;
        let line = crate::geom::offset::offset_region(
            &shell.footprint,
            out,
            crate::geom::DRAWING_TOLERANCE,
        );
        joints.extend(line.rings().map(|ring| {
            let mut closed = ring.0.clone();
            closed.extend(ring.0.first());
            closed
        }));
    }
}

/// Where the joints across the ring meet its outer edge: at the corners of the rim, and evenly
/// between them, at most `most` meters apart.
fn stations(shell: &Shell, settings: &DeckSettings, edge: &Ring, most: f64) -> Vec<Point> {
    let out = shell.record.coping_width + settings.width;
    let around = edge.perimeter();
    let mut fixed: Vec<f64> = corners(&shell.outline)
        .filter_map(|(corner, outward)| station_of(edge, corner + outward * out))
        .collect();
    fixed.sort_by(f64::total_cmp);
    fixed.dedup_by(|b, a| *b - *a < SHORTEST_PANEL / 2.0);
    let start = fixed.first().copied().unwrap_or(0.0);
    let mut ends: Vec<f64> = fixed.iter().skip(1).copied().collect();
    ends.push(start + around);
    let mut from = start;
    let mut all = Vec::new();
    for end in ends {
        let parts = ((end - from) / most - 1e-9).ceil().clamp(1.0, MOST);
        all.extend((0..parts as u32).map(|k| from + (end - from) * f64::from(k) / parts));
        from = end;
    }
    all.into_iter()
        .filter_map(|s| at_station(edge, s % around))
        .collect()
}

/// The outer corners of an outline, each with the direction that halves it; tight arcs count.
fn corners(outline: &Outline) -> impl Iterator<Item = (Point, Vector)> {
    let segments: Vec<Segment> = outline.segments().collect();
    let mut found = Vec::new();
    for (i, segment) in segments.iter().enumerate() {
        if let Segment::Arc {
            radius,
            sweep,
            centre,
            ..
        } = *segment
            && radius < TIGHT
            && sweep > CORNER
        {
            let middle = segment.point_at(0.5);
            found.extend((middle - centre).unit().map(|out| (middle, out)));
        }
        let Some(next) = segments.get((i + 1) % segments.len()) else {
            continue;
        };
        let (here, ahead) = (travel(segment, true), travel(next, false));
        if atan2(here.cross(ahead), here.dot(ahead)) > CORNER
            && let Some(on) = (here + ahead).unit()
        {
            found.push((segment.to(), -on.left()));
        }
    }
    found.into_iter()
}

/// The unit direction of travel at the end of a stretch, or at its start.
fn travel(segment: &Segment, at_end: bool) -> Vector {
    let way = match *segment {
        Segment::Line { from, to } => to - from,
        Segment::Arc {
            from,
            to,
            centre,
            sweep,
            ..
        } => {
            let spoke = if at_end { to } else { from } - centre;
            spoke.left() * sweep.signum()
        }
    };
    way.unit().unwrap_or_default()
}

/// Distance along a ring to the point of it nearest to `p`, meters.
fn station_of(ring: &Ring, p: Point) -> Option<f64> {
    let mut station = 0.0;
    let mut best: Option<(f64, f64)> = None;
    for (a, b) in ring.edges() {
        let along = b - a;
        let share = ((p - a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        let off = p.distance(a + along * share);
        if best.is_none_or(|(least, _)| off < least) {
            best = Some((off, station + along.length() * share));
        }
        station += along.length();
    }
    best.map(|(_, station)| station)
}

/// The point of a ring at a distance along it, meters.
fn at_station(ring: &Ring, station: f64) -> Option<Point> {
    let mut before = 0.0;
    for (a, b) in ring.edges() {
        let length = a.distance(b);
        if length > 0.0 && station <= before + length {
            return Some(a + (b - a) * ((station - before) / length));
        }
        before += length;
    }
    ring.0.first().copied()
}

fn nearest_of(rings: &[&Ring], p: Point) -> Option<Point> {
    let chains = rings.iter().map(|ring| {
        let mut chain = ring.0.clone();
        chain.extend(ring.0.first());
        chain
    });
    let to = [p];
    let pairs = chains.filter_map(|chain| nearest(Figure::Chain(&chain), Figure::Chain(&to)));
    pairs
        .min_by(|a, b| a.distance.total_cmp(&b.distance))
        .map(|pair| pair.from)
}

/// A corner that points into the slab.
struct Reentrant {
    at: Point,
    /// The directions in which its two edges go on into the slab.
    on: [Vector; 2],
}

impl Reentrant {
    /// The shorter of the two joints that run on from its edges.
    fn joint(&self, slab: &Region) -> Option<Vec<Point>> {
        let reach = slab.bounds().map_or(0.0, |(low, high)| low.distance(high));
        let joints = self.on.iter().filter_map(|on| {
            let chain = [self.at + *on * 1e-4, self.at + *on * reach];
            let first = inside(&chain, slab).into_iter().next()?;
            (first.first()?.distance(self.at) < SERVES).then_some(first)
        });
        joints.min_by(|a, b| {
            let long = |joint: &[Point]| crate::geom::clip::length(joint);
            long(a).total_cmp(&long(b))
        })
    }
}

/// Every corner of a slab where the slab fills more than half a turn, arcs left out.
fn reentrant(slab: &Region) -> Vec<Reentrant> {
    let mut found = Vec::new();
    for ring in slab.rings() {
        let edges: Vec<(Point, Point)> = ring
            .edges()
            .filter(|(a, b)| a.distance(*b) > 1e-4)
            .collect();
        for (i, (a, b)) in edges.iter().enumerate() {
            let Some((c, d)) = edges.get((i + 1) % edges.len()) else {
                continue;
            };
            let (Some(here), Some(ahead)) = ((*b - *a).unit(), (*d - *c).unit()) else {
                continue;
            };
            if here.cross(ahead) < 0.0 && here.dot(ahead) < cos(CORNER) {
                found.push(Reentrant {
                    at: *b,
                    on: [here, -ahead],
                });
            }
        }
    }
    found
}

/// Whether a joint begins, ends or passes at a corner.
fn passes(joint: &[Point], corner: Point) -> bool {
    let at = [corner];
    nearest(Figure::Chain(joint), Figure::Chain(&at)).is_some_and(|pair| pair.distance < SERVES)
}
