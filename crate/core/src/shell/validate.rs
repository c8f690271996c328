//! Validation of a shell: what a record must satisfy before anything is computed from it.
//!
//! Every fault is reported, not the first alone, up to the point where later checks would
//! speak of figures that are already known to be wrong.

use core::ops::RangeInclusive;

use super::body::Fillet;
use super::checked::{Facet, Shell, WallStrip};
use super::cover;
use super::depth::{DEPTH_LIMIT, depth_fault};
use super::losses::Losses;
use super::plane::DepthPlane;
use super::record::{FacetRecord, ShellRecord};
use super::stations;
use crate::finding::said;
use crate::finding::{Finding, Topic, any_fault};
use crate::geom::flatten::{ChordSide, flatten};
use crate::geom::offset::offset_region;
use crate::geom::{Outline, PathRecord, Point, Region, Ring, VOLUME_TOLERANCE};
use crate::math::TURN;
use crate::units::{Measure, System, format_decimal, out_of_range};

/// How far a depth may lie off the plane of its facet, meters.
const PLANE_TOLERANCE: f64 = 0.002;

/// How often one may turn round in all when walking along an outline: a rectangle takes 1, a shell of many bays 3 or 4. Arbitrary; every level of the
/// hole is this outline farther out, where teeth cross one another.
const MOST_TURNS: f64 = 30.0;

/// How many facets a floor may have; every one is held against every other.
const FACET_LIMIT: usize = 100;

impl Shell {
    /// Checks a shell; cautions come with it.
    ///
    /// # Errors
    /// Every fault, placed in the record (`/outline/3`, `/floor/1/depths/2`).
    pub fn check(record: &ShellRecord) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        check(record)
    }
}

fn check(record: &ShellRecord) -> Result<(Shell, Vec<Finding>), Vec<Finding>> {
    let mut faults = numbers(record);
    let outline = path(&record.outline, &mut faults);
    let by_stations = !record.stations.is_empty();
    let planes = if by_stations {
        faults.extend(stations::faults(record, outline.as_ref()));
        Vec::new()
    } else {
        floor(&record.floor, &mut faults)
    };
    let Some(outline) = outline.filter(|_| !any_fault(&faults)) else {
        return Err(faults);
    };

    let ring = flatten(&outline, VOLUME_TOLERANCE, ChordSide::Centred);
    if let Some(fault) = saw_toothed(&ring) {
        faults.push(fault);
        return Err(faults);
    }
    let footprint = Region::from_ring(ring);
    let facets: Vec<Facet> = if by_stations {
        stations::facets(&record.stations, &outline, &footprint)
    } else {
        let told = record.floor.iter().zip(planes);
        told.map(|(facet, (path, plane))| Facet {
            kind: facet.kind,
            region: cover::inside(&path, &footprint),
            plane,
        })
        .collect()
    };
    // Facets made of stations lie side by side and cover the outline by the way they are made.
    if !by_stations {
        faults.extend(cover::faults(&facets, &footprint));
    }
    faults.extend(above_rim(&facets, by_stations));
    let rim = offset_region(&footprint, record.coping_width, VOLUME_TOLERANCE);
    let shell = Shell {
        record: record.clone(),
        walls: walls(&facets, &footprint),
        losses: Losses::default(),
        outline,
        footprint,
        facets,
        rim,
    };
    faults.extend(waterline(&shell));
    faults.extend(foot(&shell));
    if any_fault(&faults) {
        return Err(faults);
    }
    let cautions = cautions(&shell);
    Ok((shell, cautions))
}

/// The fault of an outline that turns back and forth all the time.
fn saw_toothed(ring: &Ring) -> Option<Finding> {
    let turns = ring.turning() / TURN;
    (turns > MOST_TURNS).then(|| {
        let turns = format_decimal(turns, 0);
        let message = format!(
            "The outline turns back and forth: {turns} whole turns in all; at most {MOST_TURNS} are taken."
        );
        let remedy = "Draw it smoother: the edge of a shell has no teeth.";
        Finding::fault("outline-saw-toothed", message, remedy).under("/outline")
    })
}

/// Plain numbers that are out of range.
fn numbers(record: &ShellRecord) -> Vec<Finding> {
    let mut faults = Vec::new();
    // A shell belongs to no site, and so to neither system of units.
    let both = [System::Feet, System::Metres];
    let mut within = |place: &str, what: &str, value: f64, range: RangeInclusive<f64>, measure| {
        if !range.contains(&value) {
            let message = out_of_range(what, measure, value, &range, &both);
            let remedy = "Give a value within that range.";
            faults.push(Finding::fault("out-of-range", message, remedy).under(place));
        }
    };
    let (coping, wall) = (record.coping_width, record.wall_thickness);
    let length = Measure::Length;
    within(
        "/coping_width",
        "The coping's width",
        coping,
        0.0..=1.5,
        length,
    );
    let what = "The waterline below the rim";
    within(
        "/waterline",
        what,
        record.waterline,
        0.0..=DEPTH_LIMIT,
        length,
    );
    within(
        "/wall_thickness",
        "The wall's thickness",
        wall,
        0.0..=0.1,
        length,
    );
    within(
        "/draft",
        "The wall's draft (run per unit of depth)",
        record.draft,
        0.0..=0.5,
        Measure::Ratio,
    );
    within("/cove", "The cove's radius", record.cove, 0.0..=1.0, length);
    if let Some(weight) = record.weight {
        within(
            "/weight",
            "The shell's weight",
            weight,
            50.0..=20_000.0,
            Measure::Weight,
        );
    }
    faults
}

/// The path and the plane of every facet that has both.
fn floor(records: &[FacetRecord], faults: &mut Vec<Finding>) -> Vec<(Outline, DepthPlane)> {
    if records.is_empty() || records.len() > FACET_LIMIT {
        faults.push(
            Finding::fault(
                "facet-count",
                format!("The floor has {} facets.", records.len()),
                format!("Give from 1 to {FACET_LIMIT} facets that together cover the outline."),
            )
            .under("/floor"),
        );
        return Vec::new();
    }
    let mut facets = Vec::new();
    for (index, record) in records.iter().enumerate() {
        match facet(record) {
            Ok(found) => facets.push(found),
            Err(found) => {
                faults.extend(
                    found
                        .into_iter()
                        .map(|f| f.under(&format!("/floor/{index}"))),
                );
            }
        }
    }
    facets
}

/// The path and the plane of one facet.
fn facet(record: &FacetRecord) -> Result<(Outline, DepthPlane), Vec<Finding>> {
    let places: Vec<Point> = record.outline.vertices().iter().map(|v| v.at).collect();
    let mut faults = depths(record, places.len());
    match path(&record.outline, &mut faults) {
        Some(outline) if faults.is_empty() => {
            let points: Vec<_> = places
                .into_iter()
                .zip(record.depths.iter().copied())
                .collect();
            let plane = DepthPlane::through(&points);
            match off_plane(&plane, &points) {
                None => Ok((outline, plane)),
                Some(fault) => Err(vec![fault]),
            }
        }
        _ => Err(faults),
    }
}

/// The outline of a path. The places of its faults are in the shell's frame, so they are told
/// by the pointer alone, not as points of the site.
fn path(record: &PathRecord, faults: &mut Vec<Finding>) -> Option<Outline> {
    match Outline::check(record.vertices()) {
        Ok(outline) => Some(outline),
        Err(found) => {
            faults.extend(
                found
                    .into_iter()
                    .map(|f| Finding { at: None, ..f }.under("/outline")),
            );
            None
        }
    }
}

/// Depths that are missing, not finite, above the rim or out of reach.
fn depths(record: &FacetRecord, vertices: usize) -> Vec<Finding> {
    let mut faults = Vec::new();
    let given = record.depths.len();
    if given != vertices {
        faults.push(
            Finding::fault(
                "depth-count",
                format!("The facet has {vertices} vertices and {given} depths."),
                "Give one depth for each vertex, in the same order.",
            )
            .under("/depths"),
        );
    }
    for (i, depth) in record.depths.iter().enumerate() {
        if let Some((message, remedy)) = depth_fault(*depth) {
            faults.push(Finding::fault("depth", message, remedy).under(&format!("/depths/{i}")));
        }
    }
    faults
}

/// The depth farthest off the facet's plane, when it is too far off.
fn off_plane(plane: &DepthPlane, points: &[(Point, f64)]) -> Option<Finding> {
    let deviation = |(p, d): &(Point, f64)| d - plane.depth(*p);
    let (index, worst) = points
        .iter()
        .map(deviation)
        .enumerate()
        .max_by(|(_, a), (_, b)| a.abs().total_cmp(&b.abs()))?;
    (worst.abs() > PLANE_TOLERANCE).then(|| {
        Finding::fault(
            "not-planar",
            format!(
                "The depths of the facet do not lie in one plane; vertex {} is worst, {:.0} mm off.",
                index + 1,
                worst.abs() * 1000.0
            ),
            "Correct that depth, or split the facet where the floor bends.",
        )
        .under(&format!("/depths/{index}"))
    })
}

/// Facets whose plane comes out above the rim somewhere inside the outline (an arc may bulge
/// beyond the vertices that were given depths).
fn above_rim(facets: &[Facet], by_stations: bool) -> Vec<Finding> {
    facets
        .iter()
        .enumerate()
        .filter(|(_, facet)| facet.depths().0 < -PLANE_TOLERANCE)
        .map(|(index, _)| {
            Finding::fault(
                "depth",
                "The plane of the facet comes out above the rim inside the outline.",
                "Give greater depths, or split the facet.",
            )
            .under(&if by_stations {
                "/stations".to_owned()
            } else {
                format!("/floor/{index}/depths")
            })
        })
        // The facets of stations have no place of their own in the record: one tells it.
        .take(if by_stations { 1 } else { facets.len() })
        .collect()
}

/// A waterline below the whole floor.
fn waterline(shell: &Shell) -> Option<Finding> {
    let (waterline, deepest) = (shell.record.waterline, shell.deepest());
    (waterline >= deepest && !shell.facets.is_empty()).then(|| {
        Finding::fault(
            "waterline",
            format!(
                "The waterline lies {waterline} m below the rim, no higher than the deepest \
                 floor ({deepest:.3} m)."
            ),
            "Give the depth of the water's surface below the rim.",
        )
        .under("/waterline")
    })
}

/// A wall or a cove that leaves no floor, or a cove higher than the wall.
fn foot(shell: &Shell) -> Option<Finding> {
    let record = &shell.record;
    let fillet = Fillet::new(record.cove, record.draft);
    let lowest = shell.walls.iter().flat_map(|strip| strip.depths);
    let lowest = lowest.fold(DEPTH_LIMIT, f64::min);
    if record.cove > 0.0 && fillet.height > lowest {
        return Some(
            Finding::fault(
                "cove",
                format!(
                    "The cove is {:.3} m high, higher than the wall where it is lowest ({lowest:.3} m).",
                    fillet.height
                ),
                "Give a smaller radius: it is that of the rounding between wall and floor, in meters.",
            )
            .under("/cove"),
        );
    }
    let run = record.draft * shell.deepest() + fillet.reach;
    (run > 0.0 && offset_region(&shell.footprint, -run, VOLUME_TOLERANCE).is_empty()).then(|| {
        Finding::fault(
            "no-floor",
            format!("Draft and cove draw the wall in by {run:.3} m: no floor is left."),
            "Draft is run per unit of depth, the cove a radius in meters; give smaller ones.",
        )
        .under(if record.draft > 0.0 {
            "/draft"
        } else {
            "/cove"
        })
    })
}

/// The edges of facets that run along the footprint's boundary.
fn walls(facets: &[Facet], footprint: &Region) -> Vec<WallStrip> {
    let boundary: Vec<_> = footprint.rings().flat_map(|ring| ring.edges()).collect();
    let mut strips = Vec::new();
    for facet in facets {
        for (from, to) in facet.region.rings().flat_map(|ring| ring.edges()) {
            let middle = from.midpoint(to);
            if boundary.iter().any(|(a, b)| cover::on_edge(middle, *a, *b)) {
                strips.push(WallStrip {
                    ends: [from, to],
                    depths: [facet.plane.depth(from), facet.plane.depth(to)],
                });
            }
        }
    }
    strips
}

/// What is unusual, though it may be meant.
fn cautions(shell: &Shell) -> Vec<Finding> {
    let mut cautions = Vec::new();
    let deepest = shell.deepest();
    let place = if shell.record.stations.is_empty() {
        "/floor"
    } else {
        "/stations"
    };
    // One-piece shells run from about 0.9 m to 2.6 m deep: common practice, no source.
    if deepest > 2.75 {
        cautions.push(
            Finding::caution(
                "very-deep",
                said!(
                    "The shell is {depth} deep, deeper than one-piece shells are.",
                    depth = format!("{deepest:.2} m"),
                ),
                "Check the depths: they are meters below the rim.",
            )
            .under(place),
        );
    } else if deepest < 0.75 {
        cautions.push(
            Finding::caution(
                "very-shallow",
                said!(
                    "The shell is only {depth} deep.",
                    depth = format!("{deepest:.2} m"),
                ),
                "Check the depths: they are meters below the rim.",
            )
            .under(place),
        );
    }
    let span = shell.footprint.bounds().map_or(0.0, |(low, high)| {
        let size = high - low;
        size.x.max(size.y)
    });
    // A road load: common practice, no source.
    if !(2.0..=15.0).contains(&span) {
        cautions.push(
            Finding::caution(
                "unusual-size",
                said!(
                    "The shell is {length} long; one-piece shells are 2 m to 15 m.",
                    length = format!("{span:.2} m"),
                ),
                "Check the outline: its coordinates are meters, not feet.",
            )
            .under("/outline"),
        );
    }
    for (index, facet) in shell.facets.iter().enumerate() {
        if facet.depths().0 < shell.record.waterline {
            let place = if shell.record.stations.is_empty() {
                format!("/floor/{index}")
            } else {
                "/stations".to_owned()
            };
            cautions.push(
                Finding::caution(
                    "dry-floor",
                    "A part of the floor stands above the waterline.",
                    "Check its depths and the waterline.",
                )
                .about(Topic::Water)
                .under(&place),
            );
        }
    }
    // Facets of stations share their place.
    cautions.dedup();
    cautions
}

#[cfg(test)]
mod tests;
