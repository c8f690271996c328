//! A ring or a row of corners as the lot.

use super::draft::{Piece, Shape};
use super::place::{PlacedShape, Spot, corners};
use crate::finding::Finding;
use crate::geom::{Outline, Point};
use crate::lot::{Basis, LotRecord, Monument, MonumentKind, MonumentState, North};

/// A corner mark goes to a corner no farther off than this, meters.
const MARK_REACH: f64 = 1.0;

fn rings(shape: &PlacedShape) -> Vec<&Vec<Spot>> {
    match shape {
        Shape::Areas(pieces) => pieces.iter().flat_map(Piece::rings).collect(),
        Shape::Lines(lines) => lines.iter().collect(),
        Shape::Points(points) => vec![points],
    }
}

/// What was left out when one ring of several was taken as the lot.
pub(super) fn left_out(shape: &PlacedShape) -> Option<Finding> {
    let others = rings(shape).len().checked_sub(2)? + 1;
    let (rings, have) = match others {
        1 => ("ring", "is"),
        _ => ("rings", "are"),
    };
    Some(Finding::caution(
        "rings-left-out",
        format!(
            "Of what became the lot, {others} more {rings} {have} left out: a hole in it, or another part of it."
        ),
        "What a hole leaves out may belong to somebody else: bring it in as a feature, and keep off it.",
    ))
}

/// The one ring of a shape that is to be the lot.
///
/// # Errors
/// When there are several and none is chosen, or none at all.
pub(super) fn ring(shape: &PlacedShape, chosen: Option<usize>) -> Result<Vec<Spot>, Finding> {
    let rings = rings(shape);
    match (rings.as_slice(), chosen) {
        ([only], _) => Ok((*only).clone()),
        (_, Some(i)) => rings.get(i).map(|ring| (*ring).clone()).ok_or_else(several),
        _ => Err(several()),
    }
}

fn several() -> Finding {
    Finding::fault(
        "lot-in-parts",
        "The lot has several parts or a hole; it can have one boundary only.",
        "Choose which ring is its boundary. What a hole leaves out can come in as a feature.",
    )
}

/// A ring as a lot, straight from corner to corner.
///
/// # Errors
/// Every fault of the ring.
pub(super) fn record(ring: &[Spot], basis: Basis) -> Result<LotRecord, Vec<Finding>> {
    let mut vertices = corners(ring);
    // A line that comes back to where it began is a ring.
    if let [first, .., last] = vertices.as_slice()
        && vertices.len() > 3
        && first.at.distance(last.at) < crate::geom::validate::SMALLEST_GAP
    {
        vertices.pop();
    }
    // Checked here; the order of the corners is kept, whichever way it runs round the lot.
    Outline::check(vertices.clone())?;
    Ok(LotRecord {
        basis,
        ..LotRecord::from_outline(&vertices, &[])
    })
}

/// The basis of bearings of a lot that came from degrees or from a survey's grid.
pub(super) fn basis(degrees: bool, grid: bool) -> Basis {
    Basis {
        north: match (degrees, grid) {
            (true, _) => North::True,
            (false, true) => North::Grid,
            (false, false) => North::Assumed,
        },
        ..Basis::default()
    }
}

/// What marks a corner, as a description says it.
pub(super) fn monument(description: &str) -> Monument {
    let lower = description.to_ascii_lowercase();
    let has = |word: &str| lower.contains(word);
    let kind = if has("pipe") {
        MonumentKind::IronPipe
    } else if has("conc") {
        MonumentKind::Concrete
    } else if has("stone") {
        MonumentKind::Stone
    } else if has("nail") {
        MonumentKind::Nail
    } else if has("cut") || has("chisel") || has("cross") {
        MonumentKind::Cut
    } else if has("post") || has("stake") {
        MonumentKind::Post
    } else if has("iron") || has("rod") || has("rebar") || has("pin") {
        MonumentKind::IronRod
    } else {
        MonumentKind::Other
    };
    let state = if has("not found") {
        MonumentState::NotFound
    } else if has("found") {
        MonumentState::Found
    } else if has(" set") || lower.starts_with("set ") {
        MonumentState::Set
    } else {
        MonumentState::NotSearched
    };
    Monument {
        kind,
        state,
        note: description.to_owned(),
    }
}

/// Puts a mark at the nearest corner of a lot; says whether one is near enough.
pub(super) fn mark(lot: &mut LotRecord, at: Point, monument: Monument) -> bool {
    let corners = crate::lot::Traverse::of(lot).vertices;
    let nearest = corners
        .iter()
        .map(|v| v.at.distance(at))
        .enumerate()
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let Some((index, distance)) = nearest else {
        return false;
    };
    let course = lot.courses.get_mut(index);
    match course.filter(|_| distance <= MARK_REACH) {
        Some(course) => {
            course.monument = Some(monument);
            true
        }
        None => false,
    }
}
