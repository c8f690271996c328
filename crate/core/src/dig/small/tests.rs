//! Small digs against closed forms.

use super::*;
use crate::geom::{PathRecord, Vertex};
use crate::ground::GroundRecord;
use crate::shell::{FacetKind, FacetRecord, ShellRecord};

fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Region {
    let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)];
    Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()))
}

/// A box of a shell, 8 m by 4 m, its floor level in the half ahead and falling to it behind.
fn shell() -> Shell {
    let path = |x0: f64, x1: f64| {
        let corners = [(x0, -2.0), (x1, -2.0), (x1, 2.0), (x0, 2.0)];
        PathRecord::from(corners.map(|(x, y)| Vertex::line(x, y)).as_slice())
    };
    let facet = |kind, x0, x1, depths: [f64; 4]| FacetRecord {
        kind,
        outline: path(x0, x1),
        depths: depths.to_vec(),
    };
    let mut record = crate::shell::catalogue::all()[0].clone();
    record = ShellRecord {
        outline: path(-4.0, 4.0),
        floor: vec![
            facet(FacetKind::Slope, -4.0, 0.0, [1.0, 1.8, 1.8, 1.0]),
            facet(FacetKind::Deep, 0.0, 4.0, [1.8; 4]),
        ],
        wall_thickness: 0.0,
        ..record
    };
    Shell::check(&record).unwrap().0
}

fn settings(slope: f64) -> DigSettings {
    DigSettings {
        over_dig: 0.3,
        base_thickness: 0.1,
        side_slope: Some(slope),
        ..DigSettings::default()
    }
}

fn near(value: f64, expected: f64, within: f64) {
    assert!(
        (value - expected).abs() <= within,
        "{value}, not {expected}"
    );
}

/// z = 10 + 0.1 x - 0.05 y over a wide square.
fn plane() -> Ground {
    let corners = [
        (-50.0, -50.0),
        (50.0, -50.0),
        (50.0, 50.0),
        (-50.0, 50.0),
        (1.0, 2.0),
    ];
    let spots = corners.map(|(x, y)| [x, y, 10.0 + 0.1 * x - 0.05 * y]);
    Ground::check(&GroundRecord::of_spots(spots.to_vec()))
        .unwrap()
        .0
}

#[test]
fn a_sump_within_the_floor_is_its_own_box_or_cylinder() {
    let at = Point::new(2.0, 0.5);
    let pit = |form| Sump {
        at,
        form,
        width: 0.6,
        depth: 0.5,
    };
    let dug = sump(&shell(), &settings(1.0), &pit(SumpForm::Square));
    near(dug.bank_volume, 0.36 * 0.5, 1e-6);
    near(dug.bottom.0, 2.4, 1e-12);
    let round = sump(&shell(), &settings(1.0), &pit(SumpForm::Round));
    let circle = TURN / 2.0 * 0.09;
    near(round.area, circle, 5e-4 * circle);
    near(round.bank_volume, circle * 0.5, 1e-4);
    let none = Sump {
        depth: 0.0,
        ..pit(SumpForm::Round)
    };
    assert_eq!(sump(&shell(), &settings(1.0), &none), SmallDig::default());
}

/// Half of a pit 0.6 m wide stands under a side of 1 1/2:1: a wedge 0.3 m wide and 0.2 m high
/// comes out above it. Beside an upright wall all of it comes out, up to the rim.
#[test]
fn a_sump_under_a_side_takes_what_stands_above_it() {
    let pit = Sump {
        at: Point::new(4.3, 0.0),
        form: SumpForm::Square,
        width: 0.6,
        depth: 0.5,
    };
    let dug = sump(&shell(), &settings(1.5), &pit);
    near(dug.bank_volume, 0.18 + 0.6 * 0.3 * 0.2 / 2.0, 2e-4);
    let dug = sump(&shell(), &settings(0.0), &pit);
    near(dug.bank_volume, 0.18 + 0.6 * 0.3 * 1.9, 1e-5);
}

#[test]
fn the_place_beside_the_deepest_floor_is_ahead_in_the_over_dig() {
    let at = beside_deepest(&shell(), &settings(1.0));
    near(at.x, 4.15, 1e-9);
    near(at.y, 0.0, 0.2);
    for record in crate::shell::catalogue::all() {
        let shell = Shell::check(record).unwrap().0;
        let at = beside_deepest(&shell, &settings(1.0));
        assert!(!shell.footprint.contains(at), "{}", record.name);
        let foot = super::super::foot(&shell, &settings(1.0));
        assert!(foot.contains(at), "{}", record.name);
    }
}

/// Under a plane the volume is area times depth at the centroid, as long as the level stays
/// below; a level through the middle of a square of side a cuts a^3 g / 8 (g along one side).
#[test]
fn a_level_against_a_plane() {
    let region = rectangle(1.0, 2.0, 4.0, 6.0);
    let mean = 10.0 + 0.25 - 0.2;
    near(mean_ground(&region, &plane()).unwrap(), mean, 1e-9);
    let off = against_level(&region, &plane(), 9.0);
    near(off.cut, 12.0 * (mean - 9.0), 1e-6);
    near(off.cut_area, 12.0, 1e-6);
    near(off.fill, 0.0, 1e-12);
    let corners = [(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)];
    let spots = corners.map(|(x, y)| [x, y, 0.2 * x]);
    let ground = Ground::check(&GroundRecord::of_spots(spots.to_vec()))
        .unwrap()
        .0;
    let off = against_level(&rectangle(-1.0, 3.0, 1.0, 5.0), &ground, 0.0);
    near(off.cut, 8.0 * 0.2 / 8.0, 1e-7);
    near(off.fill, off.cut, 1e-7);
    near(off.cut_area, 2.0, 1e-6);
    assert_eq!(off.unsurveyed_area, 0.0);
}

#[test]
fn a_pad_lies_flush_with_the_mean_ground_or_where_it_is_told() {
    let outline = rectangle(0.0, 0.0, 2.0, 1.0);
    let dug = pad(&outline, &plane(), None, 0.1, 0.15);
    near(dug.bank_volume, 2.0 * 0.25, 1e-6);
    let mean = 10.0 + 0.1 - 0.025;
    near(dug.bottom.0, mean - 0.25, 1e-9);
    let dug = pad(&outline, &plane(), Some(mean + 1.0), 0.1, 0.1);
    assert_eq!(dug.bank_volume, 0.0);
    assert_eq!(
        pad(&Region::default(), &plane(), None, 0.1, 0.1),
        SmallDig::default()
    );
}

#[test]
fn trenches_are_dug_once_and_outside_the_hole() {
    let opening = rectangle(-3.0, -3.0, 3.0, 3.0);
    let paths = vec![
        vec![
            Point::new(0.0, 0.0),
            Point::new(8.0, 0.0),
            Point::new(8.0, 4.0),
        ],
        vec![Point::new(8.0, 0.0), Point::new(8.0, 4.0)],
    ];
    let dug = trenches(&paths[..1], 0.4, 0.5, &opening, &plane());
    near(dug.length, 9.0, 1e-9);
    // 5 m to the corner, 4 m on; the corner's square once, and its mitre.
    near(dug.area, 0.4 * 9.0, 1e-6);
    near(dug.bank_volume, 0.5 * dug.area, 1e-12);
    near(dug.bottom.0, 10.0 + 0.3 - 0.5, 1e-9);
    near(dug.bottom.1, 10.0 + 0.8 - 0.5, 1e-9);
    let both = trenches(&paths, 0.4, 0.5, &opening, &plane());
    near(both.area, dug.area, 1e-6);
    let inside = trenches(
        &[vec![Point::default(), Point::new(2.0, 2.0)]],
        0.4,
        0.5,
        &opening,
        &plane(),
    );
    assert_eq!(inside, SmallDig::default());
}
