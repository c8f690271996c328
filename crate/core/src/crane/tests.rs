//! The lift against figures worked out by hand.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::sync::Arc;

use super::wire::{between, least_distance};
use super::*;
use crate::analysis::{self, Cache, Detail, Scenario};
use crate::geom::{PathRecord, Vertex};
use crate::math::hypot;
use crate::shell::catalogue;
use crate::site::starter::blank_lot;
use crate::site::{
    ConstructionSettings, Feature, Lift, LineClass, Placement, ShapeRecord, ShellChoice, Site,
};
use crate::units::constants::{FOOT, POUND};

/// A blank lot with a shell in its middle, a crane 30 ft west of it and a truck 40 ft south of that.
fn site(edit: impl FnOnce(&mut Site)) -> (CheckedSite, CranePlan) {
    let mut site = blank_lot();
    let place = Point::new(60.0 * FOOT, 90.0 * FOOT);
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue(catalogue::all()[0].name.clone())),
        at: place,
        heading: 0.0,
        mirrored: false,
        coping_elevation: 0.2,
    });
    site.lift = Some(Lift {
        crane: Some(CraneSpot {
            at: Point::new(30.0 * FOOT, 90.0 * FOOT),
            heading: 0.0,
        }),
        delivery: Some(Point::new(30.0 * FOOT, 50.0 * FOOT)),
        set_down: None,
    });
    edit(&mut site);
    let site = CheckedSite::check(site, None).unwrap();
    let analysis = analysis::run(
        &Scenario::of(&site),
        Detail::Clearances,
        &mut Cache::default(),
    );
    let plan = plan(&site, &analysis.work);
    (site, plan)
}

/// A wire along x at this y, feet.
fn wire(y: f64, height: Option<f64>, class: LineClass) -> Feature {
    let ends = [Vertex::line(-50.0, y * FOOT), Vertex::line(90.0, y * FOOT)];
    let path = PathRecord::from(&ends[..]);
    let mut it = Feature::of("wire", FeatureKind::OverheadLine, ShapeRecord::Track(path));
    it.facts.height = height.map(|it| it * FOOT);
    it.facts.line_class = Some(class);
    it
}

#[test]
fn table_a_holds_up_to_and_including() {
    let feet = |kilovolts| least_distance(kilovolts).map(|it| (it / FOOT).round());
    let rows = [
        (7.2, 10.0),
        (50.0, 10.0),
        (50.1, 15.0),
        (200.0, 15.0),
        (345.0, 20.0),
        (350.0, 20.0),
        (500.0, 25.0),
        (750.0, 35.0),
        (1000.0, 45.0),
    ];
    for (kilovolts, least) in rows {
        assert_eq!(feet(kilovolts), Some(least), "{kilovolts} kV");
    }
    assert_eq!(feet(1000.5), None);
}

#[test]
fn lines_in_space_are_measured_between_their_nearest_points() {
    let at = |x: f64, y: f64, z: f64| (Point::new(x, y), z);
    // Skew: one along x at z = 0, one along y at z = 3 that passes over it.
    let skew = between(
        at(-5., 0., 0.),
        at(5., 0., 0.),
        at(1., -5., 3.),
        at(1., 5., 3.),
    );
    assert!((skew - 3.0).abs() < 1e-12);
    // Ends: 3 across, 4 up and 12 on.
    let ends = between(
        at(0., 0., 0.),
        at(1., 0., 0.),
        at(4., 4., 12.),
        at(9., 4., 12.),
    );
    assert!((ends - 13.0).abs() < 1e-12);
    // Parallel, and a point of no length.
    let parallel = between(
        at(0., 0., 0.),
        at(9., 0., 0.),
        at(2., 3., 4.),
        at(5., 3., 4.),
    );
    assert!((parallel - 5.0).abs() < 1e-12);
    let point = between(
        at(0., 0., 0.),
        at(0., 0., 10.),
        at(6., 8., 4.),
        at(6., 8., 4.),
    );
    assert!((point - 10.0).abs() < 1e-12);
}

#[test]
fn radii_load_and_bearing_are_plain_arithmetic() {
    let (_, plan) = site(|site| {
        let mut works = ConstructionSettings::default();
        works.crane.weight = 60_000.0 * POUND;
        works.crane.rigging = 500.0 * POUND;
        works.crane.share = 0.75;
        works.crane.pad = 4.0 * FOOT;
        site.works = Arc::new(works);
        let record = catalogue::all()[0].clone();
        let record = crate::shell::ShellRecord {
            weight: Some(2_500.0 * POUND),
            ..record
        };
        site.placement.as_mut().unwrap().shell = Arc::new(ShellChoice::Own(record));
    });
    let stand = plan.stand.unwrap();
    assert!((stand.radius_to_place - 30.0 * FOOT).abs() < 1e-9);
    assert!((stand.radius_to_truck.unwrap() - 40.0 * FOOT).abs() < 1e-9);
    assert!((stand.greatest_radius() - 40.0 * FOOT).abs() < 1e-9);
    let load = plan.load.unwrap();
    assert!((load.total().unwrap() / POUND - 3_000.0).abs() < 1e-9);
    // (60,000 + 3,000) * 0.75 / 16 = 2,953.125 lb/sq ft.
    let shown = crate::units::Measure::Pressure
        .shown_unit(crate::units::System::Feet)
        .from_si(plan.bearing.unwrap().pressure);
    assert!((shown - 2_953.125).abs() < 1e-9);
    // 22 ft square, standing north.
    let corner = stand.outriggers[2];
    assert!(corner.distance(Point::new(41.0 * FOOT, 101.0 * FOOT)) < 1e-9);
}

#[test]
fn a_wire_over_the_load_is_measured_in_space() {
    // The wire runs along y = 120 ft, 30 ft north of the place; the way of the load ends at y = 90.
    let (_, plan) = site(|site| {
        site.features = Arc::new(vec![wire(120.0, Some(25.0), LineClass::UpTo15Kv)]);
    });
    let swing = plan.swing.unwrap();
    let it = &plan.wires[0];
    assert!(!it.on_plan && it.required == Some(10.0 * FOOT));
    // Three parts, each by hand.
    let (h, flat) = (25.0 * FOOT, 30.0 * FOOT);
    let load = hypot(flat - swing.reach, greater(h - swing.rim, 0.0));
    let load_line = hypot(flat, greater(greater(swing.rim - h, h - swing.tip), 0.0));
    // The boom to the place runs along y = 90 ft: 30 ft off on the plan, and passes the wire's height.
    let expected = load.min(load_line).min(flat);
    assert!((it.distance - expected).abs() < 1e-9, "{it:?}");
    // On the plan alone when nobody entered its height.
    let (_, plan) = site(|site| {
        site.features = Arc::new(vec![wire(120.0, None, LineClass::UpTo15Kv)]);
    });
    let it = &plan.wires[0];
    assert!(it.on_plan && (it.distance - (flat - swing.reach)).abs() < 1e-9);
}

#[test]
fn a_lift_under_a_wire_is_a_fault_and_a_house_wants_its_height() {
    let (_, plan) = site(|site| {
        let corners = [[35., 60.], [55., 60.], [55., 75.], [35., 75.]];
        let path: Vec<Vertex> = corners
            .iter()
            .map(|c| Vertex::line(c[0] * FOOT, c[1] * FOOT))
            .collect();
        let house = Feature::of(
            "house",
            FeatureKind::House,
            ShapeRecord::Area(PathRecord::from(&path[..])),
        );
        site.features = Arc::new(vec![wire(70.0, Some(20.0), LineClass::Service), house]);
    });
    let codes: Vec<&str> = plan.findings.iter().map(|it| it.code).collect();
    assert!(
        plan.findings[0].is_fault() && codes[0] == "lift-near-wire",
        "{codes:?}"
    );
    assert_eq!(plan.wires[0].distance, 0.0);
    for code in [
        "lift-height-unknown",
        "lift-weight",
        "lift-ground",
        "lift-chart",
    ] {
        let known = code == "lift-weight" && plan.load.unwrap().shell.is_some();
        assert!(codes.contains(&code) || known, "{code}: {codes:?}");
    }
}

#[test]
fn the_room_under_the_shell_is_its_height_less_that_of_what_it_passes() {
    let (_, plan) = site(|site| {
        let mut tree = Feature::of(
            "tree",
            FeatureKind::Tree,
            ShapeRecord::Disc {
                at: Point::new(45.0 * FOOT, 70.0 * FOOT),
                radius: 2.0,
            },
        );
        tree.facts.height = Some(8.0 * FOOT);
        site.features = Arc::new(vec![tree]);
    });
    let it = &plan.passed[0];
    // 10 ft of lift over 8 ft of tree.
    assert!((it.room.unwrap() - 2.0 * FOOT).abs() < 1e-9);
    assert!(plan.findings.iter().any(|it| it.code == "lift-too-low"));
}

#[test]
fn without_a_crane_nothing_is_said_and_nothing_is_measured() {
    let (_, plan) = site(|site| site.lift = None);
    assert_eq!(plan, CranePlan::default());
    let (_, plan) = site(|site| site.lift.as_mut().unwrap().delivery = None);
    assert!(plan.stand.is_some() && plan.swing.is_none());
    assert_eq!(plan.findings[0].code, "lift-no-truck");
}
