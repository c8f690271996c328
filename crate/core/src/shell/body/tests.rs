//! Leaning walls and coves against closed forms.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use core::f64::consts::PI;

use super::*;
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Vertex};
use crate::math::{atan, tan};
use crate::shell::{ShellRecord, StationRecord, catalogue};

fn rect(length: f64, width: f64) -> PathRecord {
    let (x, y) = (length / 2.0, width / 2.0);
    let corners = [[-x, -y], [x, -y], [x, y], [-x, y]];
    PathRecord(corners.map(VertexRecord::Line).to_vec())
}

fn circle(radius: f64) -> PathRecord {
    PathRecord::from(
        [
            Vertex::arc(-radius, 0.0, 1.0),
            Vertex::arc(radius, 0.0, 1.0),
        ]
        .as_slice(),
    )
}

fn record(outline: PathRecord, depths: [f64; 2], draft: f64, cove: f64) -> ShellRecord {
    let station = |at: f64, depth: f64| StationRecord {
        at,
        depth,
        width: None,
        wall: None,
    };
    ShellRecord {
        name: "a basin".into(),
        note: String::new(),
        outline,
        floor: Vec::new(),
        coping_width: 0.2,
        waterline: 0.0,
        wall_thickness: 0.01,
        draft,
        cove,
        stations: vec![station(-1.0, depths[0]), station(1.0, depths[1])],
        drain: None,
        weight: None,
    }
}

fn shell(outline: PathRecord, depths: [f64; 2], draft: f64, cove: f64) -> Shell {
    Shell::check(&record(outline, depths, draft, cove))
        .unwrap()
        .0
}

#[track_caller]
fn close(found: f64, wanted: f64, tolerance: f64) {
    assert!(
        (found - wanted).abs() <= tolerance,
        "{found} is not {wanted}"
    );
}

#[test]
fn a_fillet_takes_what_its_corner_leaves() {
    for (radius, draft) in [(0.15, 0.0), (0.3, 0.1), (0.2, 0.5)] {
        let fillet = Fillet::new(radius, draft);
        let area: f64 = fillet
            .nodes(0.0, 1.0)
            .map(|(h, w)| fillet.draw(h) * w)
            .sum();
        // The corner stands at an angle of 90 degrees and the lean; a disc lies in it.
        let corner = PI / 2.0 + atan(draft);
        let wanted = radius * radius * (1.0 / tan(corner / 2.0) - (PI - corner) / 2.0);
        close(area, wanted, 1e-7);
        // Up and down again.
        for k in 0..20 {
            let height = fillet.height * f64::from(k) / 20.0;
            let from_foot = fillet.draw(height) - draft * height;
            close(fillet.rise(from_foot), height, 1e-9);
        }
    }
}

#[test]
fn a_drafted_basin_is_a_prismoid() {
    let shell = shell(rect(8.0, 4.0), [1.5, 1.5], 0.1, 0.0);
    let area = |z: f64| (8.0 - 0.2 * z) * (4.0 - 0.2 * z);
    close(shell.area_at(0.7), area(0.7), 1e-6);
    for from in [0.0, 0.4] {
        let middle = area((from + 1.5) / 2.0);
        let volume = (1.5 - from) / 6.0 * (area(from) + 4.0 * middle + area(1.5));
        close(shell.volume_below(from), volume, 1e-5);
    }
}

#[test]
fn a_drafted_round_basin_is_a_frustum() {
    let shell = shell(circle(3.0), [2.0, 2.0], 0.25, 0.0);
    let volume = PI * 2.0 / 3.0 * (9.0 + 3.0 * 2.5 + 6.25);
    close(shell.water_volume(), volume, 3e-3);
}

#[test]
fn a_cove_takes_its_share_of_every_length() {
    let (r, share) = (0.3, 1.0 - PI / 4.0);
    let lost = |length: f64| {
        let with = shell(rect(length, 4.0), [1.5, 1.5], 0.0, r).volume_below(0.0);
        length * 4.0 * 1.5 - with
    };
    close(lost(9.0) - lost(8.0), 2.0 * r * r * share, 1e-6);
    // All round a circle, by Pappus: the corner's center of area lies
    // r (10 - 3 pi) / (12 - 3 pi) from the wall.
    let round = shell(circle(3.0), [1.5, 1.5], 0.0, r);
    let corner = r * (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI);
    let wanted = 9.0 * PI * 1.5 - r * r * share * 2.0 * PI * (3.0 - corner);
    close(round.volume_below(0.0), wanted, 2e-3);
}

#[test]
fn on_a_floor_that_falls_the_cove_is_measured_plumb() {
    let r = 0.3;
    let loss = |length: f64| {
        let stations = |draft, cove| {
            let mut record = record(rect(length, 4.0), [1.0, 1.0], draft, cove);
            record.stations[0].at = -length / 2.0;
            record.stations[1].at = length / 2.0;
            record.stations[1].depth = 2.0;
            Shell::check(&record).unwrap().0
        };
        stations(0.0, 0.0).volume_below(0.0) - stations(0.0, r).volume_below(0.0)
    };
    // The ends are as high in both; the sides grow by 2 m.
    let per_length = r * r * (1.0 - PI / 4.0);
    close(loss(10.0) - loss(8.0), 4.0 * per_length, 4e-4);
}

/// Areas of the general way against the derivative of the exact sums over facets.
#[test]
fn upright_sharp_walls_have_the_areas_that_their_volumes_grow_by() {
    for record in catalogue::all().iter().step_by(4) {
        let shell = Shell::check(record).unwrap().0;
        for depth in [0.1, 0.7, 1.2] {
            let volume = |z: f64| (shell.volume_below(z), shell.displacement_below(z));
            let (above, below) = (volume(depth - 1e-4), volume(depth + 1e-4));
            close(shell.area_at(depth), (above.0 - below.0) / 2e-4, 2e-3);
            let outer = Face::outer(&shell).area(&shell, depth);
            close(outer, (above.1 - below.1) / 2e-4, 2e-3);
        }
    }
}

#[test]
fn the_outer_face_is_the_inner_one_grown_by_the_thickness() {
    let mut record = record(rect(8.0, 4.0), [1.5, 1.5], 0.1, 0.0);
    record.wall_thickness = 0.05;
    let shell = Shell::check(&record).unwrap().0;
    let out = 0.05 * 1.01_f64.sqrt();
    let area = |z: f64| (8.0 - 0.2 * z + 2.0 * out) * (4.0 - 0.2 * z + 2.0 * out);
    let volume = 1.55 / 6.0 * (area(0.0) + 4.0 * area(0.775) + area(1.55));
    close(
        shell.displacement_below(0.0),
        volume,
        4.0 * 0.05 * 0.05 * 1.55,
    );
    close(
        shell.outside_depth(Point::new(0.0, 0.0)).unwrap(),
        1.55,
        1e-12,
    );
    // Half way down the wall.
    let y = 2.0 - 0.1 * 0.75;
    close(shell.inside_depth(Point::new(0.0, y)).unwrap(), 0.75, 1e-6);
    close(
        shell.outside_depth(Point::new(0.0, y + out)).unwrap(),
        0.75,
        1e-6,
    );
    assert_eq!(shell.outside_depth(Point::new(0.0, 2.06)), None);
}

#[test]
fn the_table_by_depth_ends_at_the_deepest_floor() {
    let shell = shell(rect(8.0, 4.0), [1.0, 2.0], 0.05, 0.1);
    let table = shell.by_depth(0.25);
    let depths: Vec<f64> = table.iter().map(|row| row.depth).collect();
    assert_eq!(depths.len(), 9);
    assert_eq!((depths[0], depths[8]), (0.0, 2.0));
    assert!(table.is_sorted_by(|a, b| a.volume > b.volume && a.displacement > b.displacement));
    close(table[0].volume, shell.volume_below(0.0), 1e-4);
    close(table[3].displacement, shell.displacement_below(0.75), 1e-4);
    close(table[8].volume, 0.0, 1e-9);
}

#[test]
fn a_cove_or_a_draft_that_leaves_no_floor_is_a_fault() {
    let faults = |draft: f64, cove: f64| {
        let found = Shell::check(&record(rect(8.0, 4.0), [0.5, 5.0], draft, cove));
        found.map_or_else(
            |f| f.into_iter().map(|f| (f.code, f.pointer)).collect(),
            |_| Vec::new(),
        )
    };
    let one = |check, place: &str| vec![(check, place.to_owned())];
    assert_eq!(faults(0.0, 0.0), []);
    assert_eq!(faults(0.6, 0.0), one("out-of-range", "/draft"));
    assert_eq!(faults(-0.1, 0.0), one("out-of-range", "/draft"));
    assert_eq!(faults(0.0, f64::NAN), one("out-of-range", "/cove"));
    assert_eq!(faults(0.0, 1.5), one("out-of-range", "/cove"));
    assert_eq!(faults(0.0, 0.6), one("cove", "/cove"));
    assert_eq!(faults(0.45, 0.0), one("no-floor", "/draft"));
}
