//! Floors told by stations, against sections worked out by hand.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Vertex};
use crate::shell::Shell;

fn rect(length: f64, width: f64) -> PathRecord {
    let (x, y) = (length / 2.0, width / 2.0);
    let corners = [[-x, -y], [x, -y], [x, y], [-x, y]];
    PathRecord(corners.map(VertexRecord::Line).to_vec())
}

fn even(at: f64, depth: f64) -> StationRecord {
    StationRecord {
        at,
        depth,
        width: None,
        wall: None,
    }
}

fn told(at: f64, depth: f64, width: f64, wall: f64) -> StationRecord {
    StationRecord {
        at,
        depth,
        width: Some(width),
        wall: Some(wall),
    }
}

fn shell(outline: PathRecord, stations: &[StationRecord]) -> ShellRecord {
    ShellRecord {
        name: "told by stations".into(),
        note: String::new(),
        outline,
        floor: Vec::new(),
        coping_width: 0.25,
        waterline: 0.15,
        wall_thickness: 0.01,
        draft: 0.0,
        cove: 0.0,
        stations: stations.to_vec(),
        drain: None,
        weight: None,
    }
}

fn checked(record: &ShellRecord) -> Shell {
    Shell::check(record).unwrap().0
}

#[test]
fn stations_without_widths_are_facets_across_the_outline() {
    let stations = [
        even(-5.0, 1.0),
        even(-1.0, 1.0),
        even(2.0, 2.0),
        even(5.0, 2.0),
    ];
    let shell = checked(&shell(rect(10.0, 4.0), &stations));
    let kinds: Vec<_> = shell.facets.iter().map(|f| f.kind).collect();
    assert_eq!(
        kinds,
        [FacetKind::Shallow, FacetKind::Slope, FacetKind::Deep]
    );
    let volume = 4.0 * (4.0 * 1.0 + 3.0 * 1.5 + 3.0 * 2.0);
    assert!((shell.volume_below(0.0) - volume).abs() < 1e-5);
}

#[test]
fn the_floor_runs_on_level_before_the_first_and_beyond_the_last() {
    let shell = checked(&shell(rect(10.0, 4.0), &[even(-1.0, 1.0), even(1.0, 2.0)]));
    let volume = 4.0 * (4.0 * 1.0 + 2.0 * 1.5 + 4.0 * 2.0);
    assert!((shell.volume_below(0.0) - volume).abs() < 1e-5);
    assert_eq!(shell.facets.len(), 3);
}

#[test]
fn a_level_strip_stands_between_sides_that_rise_to_the_foot_of_the_wall() {
    let stations = [told(-4.0, 2.0, 2.0, 1.0), told(4.0, 2.0, 2.0, 1.0)];
    let shell = checked(&shell(rect(8.0, 4.0), &stations));
    // Across: 4 x 1 upright, below it a trapezium of 4 and 2, 1 deep.
    assert!((shell.volume_below(0.0) - 8.0 * 7.0).abs() < 1e-5);
    assert_eq!(shell.facets.len(), 3);
    assert!(
        shell
            .walls
            .iter()
            .any(|w| (w.length() - 8.0).abs() < 1e-6 && (w.depths[0] - 1.0).abs() < 1e-6)
    );
}

#[test]
fn without_a_depth_of_its_own_the_wall_ends_half_way_down() {
    let stations = [-4.0, 4.0].map(|at| StationRecord {
        width: Some(2.0),
        ..even(at, 2.0)
    });
    let shell = checked(&shell(rect(8.0, 4.0), &stations));
    assert!((shell.volume_below(0.0) - 8.0 * 7.0).abs() < 1e-5);
}

#[test]
fn corners_out_of_plane_are_parted_along_the_shorter_diagonal() {
    // The floor narrows as it falls: foot at 1 m all along, edge from 1.5 m out and 1.2 m deep
    // to 0.5 m out and 2.2 m deep.
    let stations = [told(-2.0, 1.2, 3.0, 1.0), told(2.0, 2.2, 1.0, 1.0)];
    let shell = checked(&shell(rect(4.0, 4.0), &stations));
    assert_eq!(shell.facets.len(), 5);
    // Middle section: foot 2 m out at 1 m; edge 1 m out at 1.7 m. The diagonals: edge to foot
    // beyond runs 4.03 m, foot to edge beyond 4.27 m. The first passes 1.75 m out at 1.1 m.
    let half = 1.7 * 1.0 + (1.7 + 1.1) / 2.0 * 0.75 + (1.1 + 1.0) / 2.0 * 0.25;
    let first = 1.2 * 1.5 + (1.2 + 1.0) / 2.0 * 0.5;
    let last = 2.2 * 0.5 + (2.2 + 1.0) / 2.0 * 1.5;
    // Sections vary as a cubic at most: Simpson is exact.
    let volume = 2.0 * 4.0 / 6.0 * (first + 4.0 * half + last);
    let found = shell.volume_below(0.0);
    assert!((found - volume).abs() < 1e-5, "{found} {volume}");
}

#[test]
fn a_floor_from_wall_to_wall_narrows_into_a_strip() {
    let stations = [even(-3.0, 1.0), told(3.0, 2.0, 2.0, 1.0)];
    let shell = checked(&shell(rect(6.0, 4.0), &stations));
    assert_eq!(shell.facets.len(), 3);
    // Half sections: 2 x 1; middle: 1.5 m wide at 1.5 m, then to 1 m over 0.5 m; last: 1 x 2
    // and 1.5 over 1 m.
    let (first, half, last) = (2.0, 1.5 * 1.5 + 1.25 * 0.5, 2.0 + 1.5);
    let volume = 2.0 * 6.0 / 6.0 * (first + 4.0 * half + last);
    let found = shell.volume_below(0.0);
    assert!((found - volume).abs() < 1e-5, "{found} {volume}");
}

#[test]
fn where_the_outline_bends_the_foot_of_the_sides_follows_it() {
    let bulge = crate::math::tan(core::f64::consts::PI / 8.0);
    let outline = PathRecord::from(
        [
            Vertex::line(-4.0, -2.5),
            Vertex::arc(4.0, -2.5, bulge),
            Vertex::line(5.0, -1.5),
            Vertex::arc(5.0, 1.5, bulge),
            Vertex::line(4.0, 2.5),
            Vertex::arc(-4.0, 2.5, bulge),
            Vertex::line(-5.0, 1.5),
            Vertex::arc(-5.0, -1.5, bulge),
        ]
        .as_slice(),
    );
    let stations = [
        told(-5.0, 1.2, 2.0, 0.9),
        told(0.0, 1.5, 2.0, 0.9),
        told(5.0, 2.2, 1.5, 0.9),
    ];
    let shell = checked(&shell(outline, &stations));
    let area: f64 = shell.facets.iter().map(|f| f.region.area()).sum();
    assert!((area - shell.footprint.area()).abs() < 1e-4, "{area}");
    // The wall is 0.9 m high along the sides, within what the outline bulges between places.
    for strip in &shell.walls {
        assert!(strip.depths.iter().all(|d| *d > 0.8), "{strip:?}");
    }
    let plain = shell
        .walls
        .iter()
        .filter(|w| w.depths.iter().all(|d| (d - 0.9).abs() < 0.03));
    let along: f64 = plain.map(crate::shell::WallStrip::length).sum();
    assert!(along > 16.0 + 4.0, "{along}");
}

fn faults(stations: &[StationRecord]) -> Vec<(&'static str, String)> {
    let found = Shell::check(&shell(rect(8.0, 4.0), stations)).unwrap_err();
    found.into_iter().map(|f| (f.code, f.pointer)).collect()
}

fn one(check: &'static str, place: &str) -> Vec<(&'static str, String)> {
    vec![(check, place.to_owned())]
}

#[test]
fn every_fault_is_told_with_its_place() {
    let end = even(4.0, 2.0);
    assert_eq!(faults(&[end]), one("station-count", "/stations"));
    assert_eq!(
        faults(&[end, even(-4.0, 1.0)]),
        one("station-order", "/stations/1/at")
    );
    assert_eq!(faults(&[end, end]), one("station-order", "/stations/1/at"));
    assert_eq!(
        faults(&[even(f64::NAN, 1.0), end]),
        one("out-of-range", "/stations/0/at")
    );
    assert_eq!(
        faults(&[even(-4.0, -1.0), end]),
        one("depth", "/stations/0/depth")
    );
    assert_eq!(
        faults(&[even(-4.0, 7.0), end]),
        one("depth", "/stations/0/depth")
    );
    assert_eq!(
        faults(&[even(-4.2, 1.0), end]),
        one("station-outside", "/stations/0/at")
    );
    assert_eq!(
        faults(&[told(-4.0, 1.0, 4.1, 0.5), end]),
        one("station-width", "/stations/0/width")
    );
    assert_eq!(
        faults(&[told(-4.0, 1.0, 0.0, 0.5), end]),
        one("station-width", "/stations/0/width")
    );
    assert_eq!(
        faults(&[told(-4.0, 1.0, 2.0, 1.5), end]),
        one("station-wall", "/stations/0/wall")
    );
    assert_eq!(
        faults(&[told(-4.0, 1.0, -2.0, 1.5), even(-5.0, f64::INFINITY)]),
        [
            ("station-wall", "/stations/0/wall".to_owned()),
            ("station-width", "/stations/0/width".to_owned()),
            ("station-order", "/stations/1/at".to_owned()),
            ("depth", "/stations/1/depth".to_owned()),
        ]
    );
    let mut both = shell(rect(8.0, 4.0), &[even(-4.0, 1.0), end]);
    both.floor = vec![crate::shell::FacetRecord {
        kind: FacetKind::Deep,
        outline: rect(8.0, 4.0),
        depths: vec![1.0; 4],
    }];
    let found = Shell::check(&both).unwrap_err();
    assert_eq!(
        (found[0].code, found[0].pointer.as_str()),
        ("floor-twice", "/stations")
    );
}
