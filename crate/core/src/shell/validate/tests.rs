//! What validation of a shell lets in and what it says to the rest.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::geom::Vertex;
use crate::geom::path::VertexRecord;
use crate::shell::fixture::box_record;
use crate::shell::record::FacetKind;

fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> PathRecord {
    PathRecord(vec![
        VertexRecord::Line([x0, y0]),
        VertexRecord::Line([x1, y0]),
        VertexRecord::Line([x1, y1]),
        VertexRecord::Line([x0, y1]),
    ])
}

fn facet(outline: PathRecord, depths: &[f64]) -> FacetRecord {
    FacetRecord {
        kind: FacetKind::Shallow,
        outline,
        depths: depths.to_vec(),
    }
}

/// 8 m by 4 m, 1 m deep on the left, falling to 2 m on the right.
fn plain() -> ShellRecord {
    ShellRecord {
        outline: rect(-4.0, -2.0, 4.0, 2.0),
        floor: vec![
            facet(rect(-4.0, -2.0, 0.0, 2.0), &[1.0; 4]),
            facet(rect(0.0, -2.0, 4.0, 2.0), &[1.0, 2.0, 2.0, 1.0]),
        ],
        weight: Some(1000.0),
        ..box_record()
    }
}

/// The faults of the plain shell after a change: check and place of each.
fn faults(change: impl FnOnce(&mut ShellRecord)) -> Vec<(&'static str, String)> {
    let mut record = plain();
    change(&mut record);
    let found = check(&record).map(|_| ()).unwrap_err();
    for fault in &found {
        assert!(!fault.message.is_empty() && !fault.remedy.is_empty() && fault.at.is_none());
    }
    found.into_iter().map(|f| (f.code, f.pointer)).collect()
}

fn one(check: &'static str, place: &str) -> Vec<(&'static str, String)> {
    vec![(check, place.to_owned())]
}

#[test]
fn a_plain_shell_passes_and_is_measured() {
    let (shell, cautions) = check(&plain()).unwrap();
    assert_eq!(cautions, []);
    assert!((shell.deepest() - 2.0).abs() < 1e-7);
    assert!((shell.volume_below(0.0) - 40.0).abs() < 1e-5);
    assert!((shell.water_volume() - (40.0 - 32.0 * 0.15)).abs() < 1e-5);
    // Ends of 4 m by 1 m and by 2 m, sides of 8 m with a mean depth of 1.25 m.
    assert!((shell.wall_area(0.0) - (4.0 + 8.0 + 2.0 * 10.0)).abs() < 1e-5);
    let slope = 4.0 * 17.0_f64.sqrt();
    assert!((shell.floor_area() - (16.0 + slope)).abs() < 1e-5);
    assert!((shell.rim.area() - (8.5 * 4.5 - 0.0625 * (4.0 - core::f64::consts::PI))).abs() < 1e-3);
}

#[test]
fn the_body_is_the_inside_grown_by_the_wall() {
    let mut record = plain();
    record.floor = vec![facet(rect(-4.0, -2.0, 4.0, 2.0), &[1.5; 4])];
    let (shell, _) = check(&record).unwrap();
    // Below 0.5 m: a box of 8.02 x 4.02 x 1.01, less four corners of 1 cm square.
    let whole = (8.02 * 4.02 - 4.0 * 0.01 * 0.01) * 1.01;
    assert!((shell.displacement_below(0.5) - whole).abs() < 1e-5);
    assert_eq!(shell.displacement_below(1.51), 0.0);
    // Just under the inner floor only the floor's own thickness is left.
    let left = shell.displacement_below(1.505);
    assert!((left - (32.0 + 24.0 * 0.01) * 0.005).abs() < 1e-6, "{left}");
}

#[test]
fn a_facet_may_reach_over_the_outline_and_run_either_way_round() {
    let mut record = plain();
    record.floor = vec![
        facet(rect(-9.0, -9.0, 0.0, 9.0), &[1.0; 4]),
        // Clockwise, its depths in its own order.
        FacetRecord {
            kind: FacetKind::Slope,
            outline: PathRecord(vec![
                VertexRecord::Line([0.0, -9.0]),
                VertexRecord::Line([0.0, 9.0]),
                VertexRecord::Line([8.0, 9.0]),
                VertexRecord::Line([8.0, -9.0]),
            ]),
            depths: vec![1.0, 1.0, 3.0, 3.0],
        },
    ];
    let (shell, _) = check(&record).unwrap();
    assert!((shell.volume_below(0.0) - 40.0).abs() < 1e-5);
}

#[test]
fn plain_numbers_out_of_range_are_faults() {
    let place = |change: fn(&mut ShellRecord)| faults(change);
    assert_eq!(
        place(|r| r.coping_width = f64::NAN),
        one("out-of-range", "/coping_width")
    );
    assert_eq!(
        place(|r| r.coping_width = 1.6),
        one("out-of-range", "/coping_width")
    );
    assert_eq!(
        place(|r| r.waterline = -0.1),
        one("out-of-range", "/waterline")
    );
    assert_eq!(place(|r| r.waterline = 2.0), one("waterline", "/waterline"));
    assert_eq!(
        place(|r| r.wall_thickness = 1.0),
        one("out-of-range", "/wall_thickness")
    );
    assert_eq!(
        place(|r| r.weight = Some(-5.0)),
        one("out-of-range", "/weight")
    );
}

#[test]
fn depths_above_the_rim_or_below_nothing_are_faults() {
    let depth = |value: f64| faults(move |r| r.floor[1].depths[2] = value);
    assert_eq!(depth(-1.0), one("depth", "/floor/1/depths/2"));
    assert_eq!(depth(6.5), one("depth", "/floor/1/depths/2"));
    assert_eq!(depth(f64::NAN), one("depth", "/floor/1/depths/2"));
    assert_eq!(depth(f64::INFINITY), one("depth", "/floor/1/depths/2"));
    assert_eq!(
        faults(|r| r.floor[0].depths.truncate(3)),
        one("depth-count", "/floor/0/depths")
    );
}

#[test]
fn a_facet_that_bends_is_a_fault() {
    // Of four corners no one stands out; of five the one pulled down does.
    assert_eq!(faults(|r| r.floor[1].depths[2] = 2.1).len(), 1);
    let bent = faults(|r| {
        r.floor[0].outline.0.push(VertexRecord::Line([-4.0, 0.0]));
        r.floor[0].depths = vec![1.0, 1.0, 1.0, 1.0, 1.02];
    });
    assert_eq!(bent, one("not-planar", "/floor/0/depths/4"));
    // Within 2 mm it passes: depths are written to the millimetre.
    let mut record = plain();
    record.floor[1].depths[2] = 2.004;
    assert!(check(&record).is_ok());
}

#[test]
fn facets_that_overlap_or_leave_a_gap_are_faults() {
    assert_eq!(
        faults(|r| r.floor[1].outline = rect(-0.5, -2.0, 4.0, 2.0)),
        one("facet-overlap", "/floor/1/outline")
    );
    assert_eq!(
        faults(|r| r.floor[1].outline = rect(0.5, -2.0, 4.0, 2.0)),
        one("floor-gap", "/floor")
    );
    assert_eq!(faults(|r| r.floor.truncate(1)), one("floor-gap", "/floor"));
    assert_eq!(faults(|r| r.floor.clear()), one("facet-count", "/floor"));
    let outside = faults(|r| r.floor.push(facet(rect(9.0, 0.0, 10.0, 1.0), &[1.0; 4])));
    assert_eq!(outside, one("facet-outside", "/floor/2/outline"));
    // A seam of a millimetre is not a gap.
    let mut record = plain();
    record.floor[1].outline = rect(0.001, -2.0, 4.0, 2.0);
    assert!(check(&record).is_ok());
}

#[test]
fn the_message_of_a_gap_says_where_and_how_much() {
    let mut record = plain();
    record.floor[1].outline = rect(0.5, -2.0, 4.0, 2.0);
    let found = check(&record).unwrap_err();
    assert!(
        found[0].message.contains("2.000 m2"),
        "{}",
        found[0].message
    );
    assert!(
        found[0].message.contains("x = 0.250 m"),
        "{}",
        found[0].message
    );
}

#[test]
fn every_fault_is_told_not_the_first_alone() {
    let all = faults(|r| {
        r.outline = rect(0.0, 0.0, f64::NAN, 1.0);
        r.floor[0].depths[0] = -1.0;
        r.floor[1].outline = PathRecord(Vec::new());
        r.weight = Some(0.0);
    });
    let said = |place: &str| all.iter().any(|(_, at)| at.starts_with(place));
    for place in ["/outline", "/floor/0/depths/0", "/floor/1", "/weight"] {
        assert!(said(place), "{place} missing in {all:?}");
    }
}

#[test]
fn an_arc_that_bulges_above_the_rim_is_a_fault() {
    let bulging = faults(|r| {
        r.outline = PathRecord::from(
            [
                Vertex::line(0.0, -2.0),
                Vertex::line(3.0, -2.0),
                Vertex::line(3.0, 2.0),
                Vertex::arc(0.0, 2.0, 1.0),
            ]
            .as_slice(),
        );
        r.floor = vec![FacetRecord {
            kind: FacetKind::Slope,
            outline: r.outline.clone(),
            depths: vec![0.0, 3.0, 3.0, 0.0],
        }];
    });
    assert_eq!(bulging, one("depth", "/floor/0/depths"));
}

#[test]
fn what_is_unusual_is_a_caution() {
    let said = |change: fn(&mut ShellRecord)| {
        let mut record = plain();
        change(&mut record);
        let (_, cautions) = check(&record).unwrap();
        cautions.into_iter().map(|f| f.code).collect::<Vec<_>>()
    };
    assert_eq!(
        said(|r| r.floor[1].depths = vec![1.0, 3.0, 3.0, 1.0]),
        ["very-deep"]
    );
    assert_eq!(
        said(|r| {
            r.floor = vec![facet(rect(-4.0, -2.0, 4.0, 2.0), &[0.5; 4])];
        }),
        ["very-shallow"]
    );
    assert_eq!(said(|r| r.floor[0].depths = vec![0.1; 4]), ["dry-floor"]);
    assert_eq!(
        said(|r| {
            r.outline = rect(-14.0, -7.0, 14.0, 7.0);
            r.floor = vec![facet(rect(-14.0, -7.0, 14.0, 7.0), &[1.5; 4])];
        }),
        ["unusual-size"]
    );
}

#[test]
fn an_outline_of_teeth_is_refused_before_anything_is_made_of_it() {
    let round = |tooth: f64| {
        move |record: &mut ShellRecord| {
            let vertices = (0..500_u32).map(|i| {
                let angle = f64::from(i) * crate::math::TURN / 500.0;
                let out = if i % 2 == 0 { 1.0 } else { 1.0 - tooth };
                let (x, y) = (crate::math::cos(angle), crate::math::sin(angle));
                VertexRecord::Line([3.0 * out * x, 1.5 * out * y])
            });
            record.outline = PathRecord(vertices.collect());
            record.floor = vec![facet(rect(-4.0, -2.0, 4.0, 2.0), &[1.0; 4])];
        }
    };
    assert_eq!(faults(round(0.03)), one("outline-saw-toothed", "/outline"));
    let mut smooth = plain();
    round(0.0)(&mut smooth);
    let found = check(&smooth).map(|_| ());
    let codes = found.err().unwrap_or_default();
    assert!(
        codes.iter().all(|it| it.code != "outline-saw-toothed"),
        "{codes:?}"
    );
}
