//! From a text to changes on a site.

use serde_json::{Value, json};

use super::{Changes, Draft, Form, Frame, Order, Placed, Role, Settings, read};
use crate::finding::Finding;
use crate::ground::GroundRecord;
use crate::lot::{MonumentKind, MonumentState, North, Traverse};
use crate::site::{FeatureKind, GridUnit, ShapeRecord, Site, starter};

const PARCELS: &str = include_str!("../../../../../tests/reference/data/invented_parcels.geojson");
const POINTS: &str = include_str!("../../../../../tests/reference/data/invented_points.csv");

fn draft(text: &str) -> Draft {
    read(text, None).unwrap_or_else(|f| panic!("{f:?}"))
}

fn proposed(draft: &Draft, settings: &Settings, site: &Site) -> Vec<Role> {
    let placed = Placed::of(draft, settings, &[], site);
    placed.items.iter().map(|i| i.proposed).collect()
}

fn bring(draft: &Draft, settings: &Settings, roles: &[Role], site: &Site) -> Changes {
    Changes::of(draft, settings, roles, site).unwrap_or_else(|f| panic!("{f:?}"))
}

fn checks(findings: &[Finding]) -> Vec<&str> {
    findings.iter().map(|f| f.code).collect()
}

fn only(geometry: Value) -> Draft {
    draft(&geometry.to_string())
}

/// A square of about 30 m at a corner, degrees.
fn ring(at: [f64; 2], size: f64) -> Value {
    let [x, y] = at;
    json!([
        [x, y],
        [x + size, y],
        [x + size, y + size],
        [x, y + size],
        [x, y]
    ])
}

#[test]
fn an_offices_download_becomes_a_lot_with_what_stands_on_it() {
    let site = starter::blank_lot();
    let draft = draft(PARCELS);
    assert_eq!(draft.form, Form::GeoJson);
    assert_eq!(checks(&draft.findings), ["no-geometry"]);
    // Four parcels: none is the lot until one is chosen.
    let settings = draft.proposed;
    let placed = Placed::of(&draft, &settings, &[], &site);
    assert!(checks(&placed.findings).contains(&"which-lot"));
    assert!(placed.items.iter().all(|i| i.proposed != Role::Lot));

    let settings = Settings {
        lot: Some(0),
        ..settings
    };
    let roles = proposed(&draft, &settings, &site);
    let house = |name: &str| {
        let at = draft.items.iter().position(|i| i.name == name).unwrap();
        roles[at]
    };
    assert_eq!(house("House at 17"), Role::Feature(FeatureKind::House));
    assert_eq!(house("House at 31"), Role::LeaveOut, "too far from the lot");

    let changes = bring(&draft, &settings, &roles, &site);
    let lot = changes.lot.as_ref().unwrap();
    assert_eq!(lot.courses.len(), 5);
    assert_eq!(lot.basis.north, North::True);
    // 28 m by 42 m and a bend of 0.6 m at the front, the file's nine decimals aside.
    let corners = Traverse::of(lot);
    assert!((corners.closure.traversed - (2.0 * 42.0 + 28.0 + 2.0 * 14.012_85)).abs() < 1e-3);
    let features = changes.features.as_ref().unwrap();
    let of = |kind| {
        features
            .iter()
            .filter(|f| f.kind == kind)
            .collect::<Vec<_>>()
    };
    assert!(matches!(&of(FeatureKind::House)[0].shape,
        ShapeRecord::Compound(p) if p.len() == 1 && p[0].holes.len() == 1));
    assert!(matches!(&of(FeatureKind::Outbuilding)[0].shape,
        ShapeRecord::Compound(p) if p.len() == 2));
    assert_eq!(of(FeatureKind::Fence).len(), 2);
    assert_eq!(of(FeatureKind::Tree).len(), 3);
    assert_eq!(of(FeatureKind::Easement).len(), 1);
    assert!(matches!(changes.ground.as_ref().unwrap(),
        GroundRecord::Spots { spots, .. } if spots.len() == 6));
    assert!(changes.origin.is_some() && changes.grid.is_none());
    let told = checks(&changes.findings);
    for check in ["map-is-no-survey", "points-without-size", "origin-chosen"] {
        assert!(told.contains(&check), "{check} in {told:?}");
    }
}

#[test]
fn a_surveys_list_becomes_lot_house_ground_and_benchmark() {
    let site = starter::blank_lot();
    let draft = draft(POINTS);
    assert_eq!(draft.proposed.frame, Frame::SurveyFeet);
    let roles = proposed(&draft, &draft.proposed, &site);
    let changes = bring(&draft, &draft.proposed, &roles, &site);
    let grid = changes.grid.unwrap().unwrap();
    assert_eq!(grid.unit, GridUnit::SurveyFeet);
    let foot = 1200.0 / 3937.0;
    assert!((grid.easting / foot - 1_754_000.0).abs() < 1e-6);
    assert!((grid.northing / foot - 645_000.0).abs() < 1e-6);
    let lot = changes.lot.unwrap();
    assert_eq!(lot.courses.len(), 4);
    assert_eq!(lot.basis.north, North::Grid);
    let mark = lot.courses[1].monument.as_ref().unwrap();
    assert_eq!(
        (mark.kind, mark.state),
        (MonumentKind::IronPipe, MonumentState::Found)
    );
    let features = changes.features.unwrap();
    assert_eq!(
        features
            .iter()
            .filter(|f| f.kind == FeatureKind::House)
            .count(),
        1
    );
    assert_eq!(
        features
            .iter()
            .filter(|f| f.kind == FeatureKind::Tree)
            .count(),
        2
    );
    let GroundRecord::Spots { spots, breaklines } = changes.ground.unwrap() else {
        panic!("spots")
    };
    assert_eq!(
        (spots.len(), breaklines.len(), breaklines[0].len()),
        (20, 1, 4)
    );
    let mark = changes.benchmark.unwrap();
    assert!((mark.elevation - 413.07 * foot).abs() < 1e-9 && mark.name.contains("nail"));
}

#[test]
fn a_lot_of_several_rings_asks_for_one() {
    let site = starter::blank_lot();
    let both = only(json!({ "type": "Polygon", "coordinates": [
        ring([10.0, 50.0], 0.0004), ring([10.0001, 50.0001], 0.0001)] }));
    let refused = Changes::of(&both, &both.proposed, &[Role::Lot], &site).unwrap_err();
    assert!(checks(&refused).contains(&"lot-in-parts"));
    let outer = Settings {
        ring: Some(0),
        ..both.proposed
    };
    let changes = bring(&both, &outer, &[Role::Lot], &site);
    assert_eq!(changes.lot.unwrap().courses.len(), 4);
    assert!(checks(&changes.findings).contains(&"rings-left-out"));
    let none = Settings {
        ring: Some(9),
        ..both.proposed
    };
    assert!(Changes::of(&both, &none, &[Role::Lot], &site).is_err());
}

#[test]
fn what_crosses_itself_or_lies_far_off_is_told_and_left_out() {
    let mut site = starter::blank_lot();
    let bow = json!([
        [10.0, 50.0],
        [10.0002, 50.0002],
        [10.0002, 50.0],
        [10.0, 50.0002],
        [10.0, 50.0]
    ]);
    let text = json!({ "type": "GeometryCollection", "geometries": [
        { "type": "Polygon", "coordinates": [bow] },
        { "type": "Polygon", "coordinates": [ring([10.0, 50.0], 0.0002)] },
        { "type": "Polygon", "coordinates": [ring([11.0, 50.0], 0.0002)] }] });
    let all = only(text);
    let house = Role::Feature(FeatureKind::House);
    let roles = [house, house, house];
    let placed = Placed::of(&all, &all.proposed, &roles, &site);
    let usable: Vec<bool> = placed.items.iter().map(|i| i.shape.is_some()).collect();
    assert_eq!(usable, [false, true, false]);
    let told: Vec<(&str, &str)> = placed
        .findings
        .iter()
        .filter(|f| f.is_fault())
        .map(|f| (f.code, f.pointer.as_str()))
        .collect();
    assert_eq!(
        told,
        [
            ("path-crosses-itself", "/geometries/0"),
            ("too-far", "/geometries/2")
        ]
    );
    // A fault of something chosen bars the way; of something left out it does not.
    assert!(Changes::of(&all, &all.proposed, &roles, &site).is_err());
    let roles = [Role::LeaveOut, house, Role::LeaveOut];
    let changes = bring(&all, &all.proposed, &roles, &site);
    assert!(checks(&changes.findings).contains(&"no-common-origin"));
    // A site that has its place keeps it.
    site.origin = changes.origin;
    let again = bring(&all, &all.proposed, &roles, &site);
    assert_eq!(again.origin, None);
    assert!(!checks(&again.findings).contains(&"no-common-origin"));
    assert_eq!(again.features, changes.features);
}

#[test]
fn coordinates_near_the_origin_stay_as_they_stand() {
    let site = starter::blank_lot();
    let list = draft("1,10,20,1,ground\n2,30,20,2,ground\n3,30,50,3,ground");
    let settings = Settings {
        frame: Frame::Metres,
        heights: GridUnit::Metres,
        ..list.proposed
    };
    let roles = [Role::Spot; 3];
    let changes = bring(&list, &settings, &roles, &site);
    assert_eq!((changes.grid, changes.origin), (None, None));
    let spots = |changes: &Changes| match &changes.ground {
        Some(GroundRecord::Spots { spots, .. }) => spots.clone(),
        _ => panic!("spots"),
    };
    assert_eq!(spots(&changes)[0], [20.0, 10.0, 1.0]);
    let east = Settings {
        order: Order::EastFirst,
        ..settings
    };
    assert_eq!(
        spots(&bring(&list, &east, &roles, &site))[0],
        [10.0, 20.0, 1.0]
    );
}

#[test]
fn spots_join_those_that_are_there_or_take_their_place() {
    let mut site = starter::blank_lot();
    let there = vec![[20.0, 10.0, 9.0], [0.0, 0.0, 8.0]];
    site.ground = std::sync::Arc::new(GroundRecord::of_spots(there));
    let list = draft("1,10,20,1,ground\n2,30,20,2,ground");
    let settings = Settings {
        frame: Frame::Metres,
        heights: GridUnit::Metres,
        ..list.proposed
    };
    let ground = |settings: &Settings| match bring(&list, settings, &[Role::Spot; 2], &site).ground
    {
        Some(GroundRecord::Spots { spots, .. }) => spots,
        _ => panic!("spots"),
    };
    let joined = ground(&settings);
    assert_eq!(
        joined,
        [[0.0, 0.0, 8.0], [20.0, 10.0, 1.0], [20.0, 30.0, 2.0]]
    );
    let alone = Settings {
        keep_spots: false,
        ..settings
    };
    assert_eq!(ground(&alone).len(), 2);
}

#[test]
fn roles_that_do_not_suit_are_told() {
    let site = starter::blank_lot();
    let list = draft("1,10,20,,a\n2,30,20,,a\n3,30,50,,b");
    let refused = |roles: [Role; 3]| {
        let faults = Changes::of(&list, &list.proposed, &roles, &site).unwrap_err();
        faults
            .iter()
            .filter(|f| f.is_fault())
            .map(|f| f.code)
            .collect::<Vec<_>>()
    };
    let out = Role::LeaveOut;
    assert_eq!(refused([out, out, out]), ["nothing-chosen"]);
    assert_eq!(
        refused([Role::Breakline, Role::Breakline, out]),
        ["no-elevation"; 2]
    );
    assert_eq!(refused([Role::Benchmark, out, out]), ["no-elevation"]);
    assert_eq!(
        refused([Role::Benchmark, Role::Benchmark, out]),
        ["two-benchmarks"]
    );
    assert_eq!(
        refused([Role::Corner, Role::Corner, out]),
        ["path-too-short"]
    );
    assert_eq!(refused([Role::Lot, Role::Lot, out]), ["two-lots"]);
    let house = Role::Feature(FeatureKind::House);
    assert_eq!(refused([house, house, out]), ["too-few-points"]);
    let fence = Role::Feature(FeatureKind::Fence);
    assert_eq!(refused([out, out, fence]), ["too-few-points"]);
    assert!(Changes::of(&list, &list.proposed, &[out], &site).is_err());
}

#[test]
fn what_was_written_from_a_feature_comes_back_to_it() {
    let mut site = starter::blank_lot();
    let text = json!({ "type": "Feature", "id": "shed-7",
        "properties": { "role": "feature", "kind": "outbuilding", "name": "Shed" },
        "geometry": { "type": "Polygon", "coordinates": [ring([10.0, 50.0], 0.0001)] } });
    let shed = only(text);
    let first = bring(&shed, &shed.proposed, &[shed.items[0].proposed], &site);
    site.features = std::sync::Arc::new(first.features.unwrap());
    site.origin = first.origin;
    assert_eq!(site.features[0].id, "shed-7");
    let again = bring(&shed, &shed.proposed, &[shed.items[0].proposed], &site);
    assert_eq!(again.features.unwrap().len(), 1);
    assert!(again.told[0].contains("get the shape"), "{:?}", again.told);
}

#[test]
fn a_text_that_is_too_long_is_refused_at_once() {
    let faults = read(&" ".repeat(super::TEXT_LIMIT + 1), None).unwrap_err();
    assert_eq!(checks(&faults), ["text-size"]);
    // A byte order mark is no fault.
    assert!(read("\u{feff}1,2,3\n2,3,4", None).is_ok());
}

#[test]
fn roles_have_names() {
    for role in [
        Role::LeaveOut,
        Role::Lot,
        Role::Feature(FeatureKind::SepticTank),
        Role::Feature(FeatureKind::Other),
    ] {
        assert_eq!(Role::named(&role.word()), Some(role));
    }
    assert_eq!(Role::named("castle"), None);
}
