//! Shapes and parts of features once validated.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::sync::Arc;

use super::*;
use crate::site::{CheckedSite, Facts, Opening, Site, starter};

fn lot() -> Site {
    starter::blank_lot()
}

fn with(features: Vec<Feature>) -> Result<CheckedSite, Vec<Finding>> {
    let mut site = lot();
    site.features = Arc::new(features);
    CheckedSite::check(site, None)
}

fn shape(text: &str) -> ShapeRecord {
    serde_json::from_str(text).unwrap()
}

fn feature(kind: FeatureKind, text: &str) -> Feature {
    Feature::of("it", kind, shape(text))
}

fn area_of(site: &CheckedSite) -> f64 {
    match &site.features()[0].shape {
        CheckedShape::Area(_, region) => region.area(),
        CheckedShape::Track(..) => 0.0,
    }
}

#[test]
fn every_shape_is_taken() {
    let strip = r#"{"strip": {"path": [[2, 2], [12, 2]], "width": 3}}"#;
    let along = r#"{"along": {"course": 2, "width": 3}}"#;
    let compound = r#"{"compound": [
        {"outer": [[0, 0], [0, 9], [9, 9], [9, 0]], "holes": [[[3, 3], [6, 3], [6, 6], [3, 6]]]},
        {"outer": [[20, 0], [24, 0], [24, 4], [20, 4]]}]}"#;
    let rear = 100.0 * 0.3048 * 3.0;
    for (text, expected) in [(strip, 30.0), (along, rear), (compound, 88.0)] {
        let site = with(vec![feature(FeatureKind::Easement, text)]).unwrap();
        assert!(
            (area_of(&site) - expected).abs() < 1e-5,
            "{text}: {}",
            area_of(&site)
        );
    }
}

#[test]
fn faults_of_a_shape_are_placed() {
    for (text, place) in [
        (
            r#"{"strip": {"path": [[2, 2]], "width": 0}}"#,
            "strip/width",
        ),
        (r#"{"strip": {"path": [[2, 2]], "width": 1}}"#, "strip/path"),
        (r#"{"along": {"course": 0, "width": -3}}"#, "along/width"),
        (r#"{"along": {"course": 4, "width": 3}}"#, "along/course"),
        (r#"{"compound": []}"#, "compound"),
        (r#"{"disc": {"at": [0, 0], "radius": 0}}"#, "disc/radius"),
    ] {
        let faults = with(vec![feature(FeatureKind::Easement, text)]).unwrap_err();
        assert_eq!(faults[0].pointer, format!("/features/0/shape/{place}"));
        assert!(faults[0].is_fault() && !faults[0].remedy.is_empty());
    }
}

#[test]
fn a_band_is_checked_anew_with_the_lot_and_other_features_are_not() {
    let along = feature(
        FeatureKind::Easement,
        r#"{"along": {"course": 2, "width": 3}}"#,
    );
    let disc = feature(
        FeatureKind::Well,
        r#"{"disc": {"at": [5, 5], "radius": 1}}"#,
    );
    for (features, shared) in [(vec![along], false), (vec![disc], true)] {
        let before = with(features).unwrap();
        let mut wider = Site::clone(before.site());
        let mut record = wider.lot.as_ref().clone();
        for course in &mut record.courses {
            if let crate::lot::CourseShape::Line { distance, .. } = &mut course.shape {
                *distance *= 2.0;
            }
        }
        wider.lot = Arc::new(record);
        let after = CheckedSite::check(wider, Some(&before)).unwrap();
        assert_eq!(Arc::ptr_eq(before.features(), after.features()), shared);
        if !shared {
            assert!((area_of(&after) / area_of(&before) - 2.0).abs() < 1e-9);
        }
    }
}

#[test]
fn a_broken_lot_is_told_of_and_not_its_bands() {
    let mut site = lot();
    site.lot = Arc::default();
    site.features = Arc::new(vec![feature(
        FeatureKind::Easement,
        r#"{"along": {"course": 2, "width": 3}}"#,
    )]);
    let faults = CheckedSite::check(site, None).unwrap_err();
    assert!(
        faults.iter().all(|f| f.pointer.starts_with("/lot")),
        "{faults:?}"
    );
}

fn opening(x: f64, y: f64, width: f64) -> Opening {
    Opening {
        at: Point::new(x, y),
        width,
        name: String::new(),
        window: false,
    }
}

#[test]
fn openings_are_set_into_the_edge() {
    let mut house = feature(
        FeatureKind::House,
        r#"{"area": [[5, 5], [15, 5], [15, 12], [5, 12]]}"#,
    );
    house.facts.openings = vec![opening(10.0, 12.2, 2.0), opening(10.0, 14.0, 1.0)];
    let mut fence = Feature::of(
        "fence",
        FeatureKind::Fence,
        shape(r#"{"track": [[0, 20], [30, 20]]}"#),
    );
    fence.facts.openings = vec![opening(0.2, 20.0, 1.0)];
    let site = with(vec![house, fence]).unwrap();
    let door = &site.features()[0].parts[0];
    assert_eq!(
        (door.part, door.name.as_str()),
        (FeaturePart::Door, "door of house")
    );
    let PartPlace::Opening(points) = &door.place else {
        panic!("an opening")
    };
    // The wall runs westward there.
    assert_eq!(points[..], [Point::new(11.0, 12.0), Point::new(9.0, 12.0)]);
    assert_eq!(site.features()[1].parts[0].part, FeaturePart::Gate);
    let told: Vec<(&str, &str)> = site
        .findings()
        .iter()
        .map(|f| (f.code, f.pointer.as_str()))
        .collect();
    assert!(told.contains(&("opening-off-edge", "/features/0/facts/openings/1")));
    assert!(told.contains(&("opening-too-wide", "/features/1/facts/openings/0")));
    assert!(!told.contains(&("opening-off-edge", "/features/0/facts/openings/0")));
}

#[test]
fn a_tree_has_a_trunk_and_a_ring_where_they_are_told() {
    let mut tree = feature(
        FeatureKind::Tree,
        r#"{"disc": {"at": [8, 9], "radius": 4}}"#,
    );
    assert!(
        with(vec![tree.clone()]).unwrap().features()[0]
            .parts
            .is_empty()
    );
    tree.facts = Facts {
        trunk: Some(0.4),
        protection: Some(4.8),
        ..Facts::default()
    };
    let site = with(vec![tree]).unwrap();
    let parts = &site.features()[0].parts;
    let radius = |part: &CheckedPart| match part.figure() {
        Figure::Area(region) => (region.area() / core::f64::consts::PI).sqrt(),
        Figure::Chain(_) => 0.0,
    };
    assert!((radius(&parts[0]) - 0.2).abs() < 1e-3);
    assert!((radius(&parts[1]) - 4.8).abs() < 1e-3);
}
