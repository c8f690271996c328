//! Surfaces as triangles over points that are there once: the ground, and the hole.
//!
//! The hole is one depth for each place in plan, but the core holds it as contours and a grid. Its mesh is
//! made of contours: above and below every depth at which sides or floor bend, and between them no more
//! than 2 ft apart, with the top of dig laid on the ground. Where a side is upright its contours lie above
//! one another; each is then drawn in by 2.5 mm from the one above it, so that the wall leans by as much.
//!
//! # Accuracy
//! Between ground and mesh lies the dig's volume: within 0.1 % where all sides slope, short by up to 1.4 %
//! where they stand upright (measured on the demo sites).

use std::collections::BTreeMap;

use crate::analysis::Analysis;
use crate::dig::contours;
use crate::exchange::figures::thinned;
use crate::geom::boolean::intersection;
use crate::geom::offset::offset_region;
use crate::geom::region::bounds;
use crate::geom::{DRAWING_TOLERANCE, Point, Region};
use crate::ground::{Facet, Ground, GroundRecord};
use crate::site::CheckedSite;

/// The greatest step from contour to contour, meters (2 ft; arbitrary).
const STEP: f64 = 0.6096;

/// How far a contour lies inside the one above it at least, meters: more than what the ground takes for
/// one place, and less than a bucket cuts.
const LEAN: f64 = 0.0025;

/// How far points may lie off the contours, meters: less than half of what lies between two.
const THIN: f64 = 0.001;

/// Contours of areas that differ by less than this times their length are one, meters.
const ALIKE: f64 = 1e-4;

/// How far a contour has to lie below the ground to be of the hole, meters.
const BELOW: f64 = 0.005;

/// How far beyond the lot ground that is told by one plane is written, meters (30 ft; arbitrary).
const AROUND: f64 = 9.144;

/// Triangles over points `[x, y, elevation]`, site meters.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Mesh {
    pub points: Vec<[f64; 3]>,
    /// Counter-clockwise, by the indices of the points.
    pub faces: Vec<[usize; 3]>,
    /// The lines that it was made along.
    pub lines: Vec<Vec<[f64; 3]>>,
}

impl Mesh {
    fn of<'a>(facets: impl Iterator<Item = &'a Facet>) -> Self {
        let mut mesh = Self::default();
        let mut seen: BTreeMap<[u64; 3], usize> = BTreeMap::new();
        for facet in facets {
            let corners = facet.corners.iter().zip(facet.elevations);
            let face: Vec<usize> = corners
                .map(|(p, z)| {
                    let next = mesh.points.len();
                    *seen
                        .entry([p.x, p.y, z].map(f64::to_bits))
                        .or_insert_with(|| {
                            mesh.points.push([p.x, p.y, z]);
                            next
                        })
                })
                .collect();
            if let [a, b, c] = *face.as_slice() {
                mesh.faces.push([a, b, c]);
            }
        }
        mesh
    }
}

/// The ground as it is: where it was surveyed, or else over the lot and 30 ft round it.
pub(super) fn ground(site: &CheckedSite, analysis: &Analysis) -> Mesh {
    let record = site.site().ground.as_ref();
    if let GroundRecord::Spots { breaklines, .. } = record {
        let known = site.ground().facets().iter().filter(|it| it.known);
        return Mesh {
            lines: breaklines.clone(),
            ..Mesh::of(known)
        };
    }
    let dig = analysis.dig.as_ref().and_then(|it| it.top_edge.bounds());
    let extents = site.lot().region.bounds().into_iter().chain(dig);
    let Some((low, high)) = bounds(extents.flat_map(|(low, high)| [low, high])) else {
        return Mesh::default();
    };
    let (low, high) = (
        Point::new(low.x - AROUND, low.y - AROUND),
        Point::new(high.x + AROUND, high.y + AROUND),
    );
    let corners = [
        low,
        Point::new(high.x, low.y),
        high,
        Point::new(low.x, high.y),
    ];
    let high = |p: Point| [p.x, p.y, site.ground().height(p).elevation];
    Mesh {
        points: corners.map(high).to_vec(),
        faces: vec![[0, 1, 2], [0, 2, 3]],
        lines: Vec::new(),
    }
}

/// The surface of the dig from its top edge down; none before a shell is placed. Without faces where its
/// lines cannot be joined to triangles.
pub(super) fn dig(site: &CheckedSite, analysis: &Analysis) -> Option<Mesh> {
    let (shell, placement) = site.placed_shell()?;
    let dig = analysis.dig.as_ref()?;
    let (pose, coping) = (placement.pose(), placement.coping_elevation);
    let ground = |p: Point| site.ground().height(p).elevation;
    let mut lines = Vec::new();
    for ring in dig.top_edge.rings() {
        let closed = thinned(&closed(&ring.0), THIN);
        lines.push(closed.iter().map(|p| [p.x, p.y, ground(*p)]).collect());
    }
    let headroom = dig.ground_above_rim.max(0.0) + STEP;
    let settings = &site.site().works.dig;
    let mut inner = dig.top_edge.clone();
    for (depth, region) in telling(contours(shell, settings, headroom, STEP)) {
        let level = coping - depth;
        let within = offset_region(&inner, -LEAN, DRAWING_TOLERANCE);
        let contour = intersection(&region.posed(&pose), &within);
        for ring in contour.rings() {
            let ring = thinned(&closed(&ring.0), THIN);
            // What stands above the ground is none of the hole's.
            let parts = ring.split(|p| level > ground(*p) - BELOW);
            let parts = parts.filter(|part| part.len() > 1);
            lines.extend(parts.map(|part| part.iter().map(|p| [p.x, p.y, level]).collect()));
        }
        if !contour.is_empty() {
            inner = contour;
        }
    }
    let Ok((surface, _)) = Ground::surveyed_by(&[], &lines) else {
        return Some(Mesh {
            lines,
            ..Mesh::default()
        });
    };
    let inside = |it: &&Facet| {
        let middle = Point::mean(it.corners);
        it.known && middle.is_some_and(|p| dig.top_edge.contains(p))
    };
    Some(Mesh {
        lines,
        ..Mesh::of(surface.facets().iter().filter(inside))
    })
}

/// The contours that tell something: of those above one another the first and the last.
fn telling(all: Vec<(f64, Region)>) -> Vec<(f64, Region)> {
    let alike = |a: &Region, b: &Region| (a.area() - b.area()).abs() < ALIKE * a.perimeter();
    let mut kept: Vec<(f64, Region)> = Vec::new();
    for contour in all {
        if let [.., before, last] = kept.as_slice()
            && alike(&before.1, &last.1)
            && alike(&last.1, &contour.1)
        {
            kept.pop();
        }
        if let Some(last) = kept.last()
            && alike(&last.1, &contour.1)
            && contour.0 - last.0 < LEAN
        {
            continue;
        }
        kept.push(contour);
    }
    kept
}

fn closed(ring: &[Point]) -> Vec<Point> {
    ring.iter().chain(ring.first()).copied().collect()
}
