//! Whether the facets of a floor lie side by side and cover the outline.

use super::checked::Facet;
use crate::finding::Finding;
use crate::geom::boolean::{difference, intersection};
use crate::geom::flatten::{ChordSide, flatten};
use crate::geom::offset::offset_region;
use crate::geom::{Outline, Point, Region, VOLUME_TOLERANCE};

/// Two facets may part or overlap by a seam this wide, meters: what coordinates written to
/// the millimetre leave between two edges that are meant to be one.
const SEAM: f64 = 0.002;

/// How near to a boundary edge a point counts as on it, meters: far above the grid of the
/// boolean engine, far below anything that can be built.
const ON_EDGE: f64 = 1e-5;

/// The part of a facet's path that lies inside the footprint. What reaches over the outline
/// is cut away.
pub(super) fn inside(path: &Outline, footprint: &Region) -> Region {
    let whole = Region::from_ring(flatten(path, VOLUME_TOLERANCE, ChordSide::Centred));
    intersection(&whole, footprint)
}

/// Facets outside the outline, pairs that overlap, and the places no facet covers.
pub(super) fn faults(facets: &[Facet], footprint: &Region) -> Vec<Finding> {
    let mut faults = Vec::new();
    let mut bare = footprint.clone();
    for (index, facet) in facets.iter().enumerate() {
        if facet.region.area() < SEAM * SEAM {
            faults.push(
                Finding::fault(
                    "facet-outside",
                    format!("Facet {} lies outside the outline.", index + 1),
                    "Move it inside the outline, or take it out.",
                )
                .under(&format!("/floor/{index}/outline")),
            );
        }
        for (before, other) in facets.iter().enumerate().take(index) {
            if !apart(&facet.region, &other.region) {
                let shared = wider_than_seam(&intersection(&facet.region, &other.region));
                faults.extend(shared.map(|(area, at)| overlap(before, index, area, at)));
            }
        }
        bare = difference(&bare, &facet.region);
    }
    faults.extend(wider_than_seam(&bare).map(|(area, at)| {
        Finding::fault(
            "floor-gap",
            format!(
                "No facet covers {area:.3} m2 of the floor near x = {:.3} m, y = {:.3} m.",
                at.x, at.y
            ),
            "Widen the facets beside it, or add one. A facet may reach over the outline.",
        )
        .under("/floor")
    }));
    faults
}

fn overlap(first: usize, second: usize, area: f64, at: Point) -> Finding {
    Finding::fault(
        "facet-overlap",
        format!(
            "Facets {} and {} overlap by {area:.3} m2 near x = {:.3} m, y = {:.3} m.",
            first + 1,
            second + 1,
            at.x,
            at.y
        ),
        "Cut one of them back to the edge of the other.",
    )
    .under(&format!("/floor/{second}/outline"))
}

/// Area and a place of what remains of a region when every seam is taken out of it.
fn wider_than_seam(region: &Region) -> Option<(f64, Point)> {
    if region.area() < SEAM * SEAM {
        return None;
    }
    let core = offset_region(region, -SEAM / 2.0, VOLUME_TOLERANCE);
    let largest = core
        .polygons
        .iter()
        .max_by(|a, b| a.outer.signed_area().total_cmp(&b.outer.signed_area()))?;
    let place = Region {
        polygons: vec![largest.clone()],
    };
    (core.area() > 0.0).then_some(())?;
    Some((region.area(), place.centroid()?))
}

/// Whether the upright rectangles round two regions do not meet.
fn apart(a: &Region, b: &Region) -> bool {
    match (a.bounds(), b.bounds()) {
        (Some((al, ah)), Some((bl, bh))) => {
            al.x > bh.x || bl.x > ah.x || al.y > bh.y || bl.y > ah.y
        }
        _ => true,
    }
}

/// Whether a point lies on a straight edge, to within the boolean engine's grid.
pub(super) fn on_edge(p: Point, from: Point, to: Point) -> bool {
    let (edge, reach) = (to - from, p - from);
    let length = edge.length();
    let along = edge.dot(reach);
    let off = edge.cross(reach).abs();
    off <= ON_EDGE * length
        && along >= -ON_EDGE * length
        && along <= length * length + ON_EDGE * length
}
