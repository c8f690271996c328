//! Reading GeoJSON: every geometry of the standard, and everything that goes wrong with it.

use serde_json::{Value, json};

use super::read;
use crate::exchange::import::{Draft, Frame, Order, Role, Shape};
use crate::finding::Finding;
use crate::site::FeatureKind;

fn draft(value: &Value) -> Draft {
    read(&value.to_string()).unwrap_or_else(|f| panic!("{f:?}"))
}

fn faults(value: &Value) -> Vec<Finding> {
    let faults = read(&value.to_string()).unwrap_err();
    for fault in faults.iter().filter(|f| f.is_fault()) {
        assert!(!fault.message.is_empty() && !fault.remedy.is_empty());
    }
    faults
}

fn told(findings: &[Finding]) -> Vec<(&str, &str)> {
    findings
        .iter()
        .map(|f| (f.code, f.pointer.as_str()))
        .collect()
}

fn square(at: f64, size: f64) -> Value {
    json!([
        [at, at],
        [at + size, at],
        [at + size, at + size],
        [at, at + size],
        [at, at]
    ])
}

fn polygon(rings: Value) -> Value {
    json!({ "type": "Polygon", "coordinates": rings })
}

/// The examples of RFC 7946, appendix A, and section 1.5.
#[test]
fn the_examples_of_the_standard_are_read() {
    let point = json!({ "type": "Point", "coordinates": [100.0, 0.0] });
    let line = json!({ "type": "LineString", "coordinates": [[100.0, 0.0], [101.0, 1.0]] });
    let hole = json!({ "type": "Polygon", "coordinates": [
        [[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]],
        [[100.8, 0.8], [100.8, 0.2], [100.2, 0.2], [100.2, 0.8], [100.8, 0.8]]] });
    let points = json!({ "type": "MultiPoint", "coordinates": [[100.0, 0.0], [101.0, 1.0]] });
    let lines = json!({ "type": "MultiLineString", "coordinates": [
        [[100.0, 0.0], [101.0, 1.0]], [[102.0, 2.0], [103.0, 3.0]]] });
    let polygons = json!({ "type": "MultiPolygon", "coordinates": [
        [[[102.0, 2.0], [103.0, 2.0], [103.0, 3.0], [102.0, 3.0], [102.0, 2.0]]],
        [[[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]],
         [[100.2, 0.2], [100.2, 0.8], [100.8, 0.8], [100.8, 0.2], [100.2, 0.2]]]] });
    let gathered = json!({ "type": "GeometryCollection", "geometries": [
        { "type": "Point", "coordinates": [100.0, 0.0] },
        { "type": "LineString", "coordinates": [[101.0, 0.0], [102.0, 1.0]] }] });

    assert!(matches!(&draft(&point).items[0].shape, Shape::Points(p) if p.len() == 1));
    assert!(matches!(&draft(&points).items[0].shape, Shape::Points(p) if p.len() == 2));
    assert!(matches!(&draft(&line).items[0].shape, Shape::Lines(l) if l.len() == 1));
    assert!(matches!(&draft(&lines).items[0].shape, Shape::Lines(l) if l.len() == 2));
    let Shape::Areas(pieces) = &draft(&hole).items[0].shape else {
        panic!("an area")
    };
    assert_eq!(
        (pieces.len(), pieces[0].outer.len(), pieces[0].holes.len()),
        (1, 4, 1)
    );
    let Shape::Areas(pieces) = &draft(&polygons).items[0].shape else {
        panic!("areas")
    };
    assert_eq!(
        pieces.iter().map(|p| p.holes.len()).collect::<Vec<_>>(),
        [0, 1]
    );
    let both = draft(&gathered);
    assert_eq!(both.items.len(), 2);
    assert_eq!(both.items[1].place, "/geometries/1");
    // A degree is no lot, but it is wider than one thing on it may be.
    assert_eq!(draft(&hole).proposed.frame, Frame::Metres);

    let collection = json!({ "type": "FeatureCollection", "features": [
        { "type": "Feature", "properties": { "prop0": "value0" },
          "geometry": { "type": "Point", "coordinates": [102.0, 0.5] } },
        { "type": "Feature", "properties": null,
          "geometry": { "type": "LineString", "coordinates": [[102.0, 0.0], [102.1, 0.1]] } }] });
    let read = draft(&collection);
    assert_eq!(read.items[0].words, "prop0: value0");
    assert_eq!(read.items[1].place, "/features/1/geometry");
    assert_eq!(
        (read.proposed.frame, read.proposed.order),
        (Frame::Degrees, Order::EastFirst)
    );
    assert!(read.findings.is_empty(), "{:?}", read.findings);
}

#[test]
fn rings_may_be_open_repeated_or_turned_round_and_it_is_told() {
    let open = polygon(json!([[[10.0, 50.0], [10.001, 50.0], [10.001, 50.001]]]));
    let read = draft(&open);
    assert_eq!(
        told(&read.findings),
        [("ring-not-closed", "/coordinates/0")]
    );
    let twice = polygon(json!([[
        [10.0, 50.0],
        [10.001, 50.0],
        [10.001, 50.0],
        [10.001, 50.001],
        [10.0, 50.0]
    ]]));
    let read = draft(&twice);
    assert_eq!(
        told(&read.findings),
        [("position-repeated", "/coordinates/0")]
    );
    let Shape::Areas(pieces) = &read.items[0].shape else {
        panic!("an area")
    };
    assert_eq!(pieces[0].outer.len(), 3);
}

#[test]
fn every_fault_has_its_place_and_spoils_only_its_own_thing() {
    let feature =
        |geometry: Value| json!({ "type": "Feature", "properties": {}, "geometry": geometry });
    let collection = json!({ "type": "FeatureCollection", "features": [
        feature(polygon(json!([[[10.0, 50.0], [10.001, "x"], [10.0, 50.0]]]))),
        feature(polygon(json!([[[10.0, 50.0], [10.001, 50.0], [10.0, 50.0]]]))),
        feature(json!({ "type": "LineString", "coordinates": [[10.0, 50.0]] })),
        feature(json!({ "type": "Circle", "coordinates": [10.0, 50.0] })),
        feature(json!({ "coordinates": [10.0, 50.0] })),
        feature(json!({ "type": "Point" })),
        feature(polygon(json!([]))),
        feature(json!({ "type": "Point", "coordinates": [10.0, 50.0, "high"] })),
        { "type": "Point", "coordinates": [10.0, 50.0] },
        { "type": "Feature", "geometry": null },
        feature(json!({ "type": "Point", "coordinates": [10.0, 50.0, 3.5, 9.0] })),
    ] });
    let read = draft(&collection);
    assert_eq!(read.items.len(), 1);
    let all = told(&read.findings);
    for expected in [
        ("position", "/features/0/geometry/coordinates/0/1"),
        ("ring-too-short", "/features/1/geometry/coordinates/0"),
        ("line-too-short", "/features/2/geometry/coordinates"),
        ("type-unknown", "/features/3/geometry"),
        ("type-missing", "/features/4/geometry"),
        ("position", "/features/5/geometry/coordinates"),
        ("ring-missing", "/features/6/geometry/coordinates"),
        ("position", "/features/7/geometry/coordinates"),
        ("feature", "/features/8"),
        ("no-geometry", "/features/9"),
        ("position-length", "/features/10/geometry/coordinates"),
    ] {
        assert!(all.contains(&expected), "{expected:?} in {all:?}");
    }
    assert_eq!(read.items[0].proposed, Role::Spot);
}

#[test]
fn other_reference_systems_are_never_taken_for_degrees() {
    let with = |name: &str, coordinates: Value| {
        json!({ "type": "LineString", "coordinates": coordinates,
                "crs": { "type": "name", "properties": { "name": name } } })
    };
    let degrees = json!([[10.0, 50.0], [10.001, 50.0]]);
    for name in [
        "urn:ogc:def:crs:OGC:1.3:CRS84",
        "EPSG:4326",
        "urn:ogc:def:crs:EPSG::4326",
    ] {
        let read = draft(&with(name, degrees.clone()));
        assert_eq!(read.proposed.frame, Frame::Degrees);
        assert!(read.findings.is_empty());
    }
    let refused = faults(&with("urn:ogc:def:crs:EPSG::4269", degrees));
    assert_eq!(told(&refused), [("other-crs", "/crs")]);
    let metres = json!([[500_000.0, 4_650_000.0], [500_010.0, 4_650_000.0]]);
    let read = draft(&with("EPSG:32633", metres));
    assert_eq!(read.proposed.frame, Frame::Metres);
    assert_eq!(told(&read.findings), [("not-degrees", "/crs")]);
}

#[test]
fn numbers_that_are_no_degrees_are_offered_as_lengths() {
    let grid = polygon(json!([square(600_000.0, 40.0)]));
    let read = draft(&grid);
    assert_eq!(told(&read.findings), [("not-degrees", "")]);
    assert_eq!(read.proposed.frame, Frame::Metres);
    // A lot in feet from a corner of its own fits into degrees but is a county wide.
    assert_eq!(
        draft(&polygon(json!([square(0.0, 40.0)]))).proposed.frame,
        Frame::Metres
    );
    let swapped = polygon(json!([[
        [50.0, 110.0],
        [50.0, 110.001],
        [50.001, 110.0],
        [50.0, 110.0]
    ]]));
    let read = draft(&swapped);
    assert_eq!(read.proposed.order, Order::NorthFirst);
    assert_eq!(told(&read.findings), [("latitude-first", "")]);
    let across = polygon(json!([[
        [179.9999, 10.0],
        [-179.9999, 10.0],
        [-179.9999, 10.0002],
        [179.9999, 10.0]
    ]]));
    assert_eq!(draft(&across).proposed.frame, Frame::Degrees);
}

#[test]
fn properties_give_names_and_propose_roles() {
    let with = |properties: Value, geometry: Value| {
        draft(&json!({ "type": "Feature", "properties": properties, "geometry": geometry }))
            .items
            .remove(0)
    };
    let small = || polygon(json!([square(10.0, 0.0002)]));
    let parcel = with(json!({ "PARCEL": 17, "class": "parcel" }), small());
    assert_eq!((parcel.proposed, parcel.name.as_str()), (Role::Lot, "17"));
    assert_eq!(parcel.group, "parcel, areas");
    let addressed = json!({ "street": "Elm lane", "house_no": 3, "OWNER": "x", "use": "lot" });
    assert_eq!(with(addressed, small()).proposed, Role::Lot);
    let house = with(json!({ "building": "yes", "Name": "Main house" }), small());
    assert_eq!(house.proposed, Role::Feature(FeatureKind::House));
    assert_eq!(house.name, "Main house");
    // A line is no lot, however it is called.
    let line = json!({ "type": "LineString", "coordinates": [[10.0, 50.0], [10.001, 50.0]] });
    assert_eq!(
        with(json!({ "class": "parcel" }), line).proposed,
        Role::LeaveOut
    );
    assert_eq!(with(json!({}), small()).proposed, Role::LeaveOut);
    let own = json!({ "role": "feature", "kind": "septic-field", "name": "Field" });
    assert_eq!(
        with(own, small()).proposed,
        Role::Feature(FeatureKind::SepticField)
    );
    let own = json!({ "role": "feature", "kind": "other", "name": "house" });
    assert_eq!(
        with(own, small()).proposed,
        Role::Feature(FeatureKind::Other)
    );
    assert_eq!(
        with(json!({ "role": "shell" }), small()).proposed,
        Role::LeaveOut
    );
}

#[test]
fn texts_that_hold_nothing_are_refused() {
    let checks =
        |text: &str| -> Vec<&str> { read(text).unwrap_err().iter().map(|f| f.code).collect() };
    assert_eq!(checks("{"), ["cut-off"]);
    assert_eq!(checks("{]"), ["syntax"]);
    assert_eq!(checks("[]"), ["type-missing"]);
    assert_eq!(checks("{\"type\":\"Topology\"}"), ["type-unknown"]);
    assert_eq!(
        checks("{\"type\":\"FeatureCollection\",\"features\":[]}"),
        ["nothing-found"]
    );
    assert_eq!(
        checks("{\"type\":\"FeatureCollection\"}"),
        ["features-missing"]
    );
    let deep = format!(
        "{}{}",
        "{\"type\":\"GeometryCollection\",\"geometries\":[".repeat(5_000),
        "]}".repeat(5_000)
    );
    assert_eq!(checks(&deep), ["syntax"]);
}

#[test]
fn crowds_are_refused_and_repeated_faults_are_counted() {
    let point = json!({ "type": "Point", "coordinates": [10.0, 50.0] });
    let many = |n: usize, geometry: &Value| {
        let feature = json!({ "type": "Feature", "geometry": geometry });
        json!({ "type": "FeatureCollection", "features": vec![feature; n] })
    };
    assert_eq!(told(&faults(&many(2_001, &point))), [("too-many", "")]);
    let long = json!({ "type": "MultiPoint", "coordinates": vec![json!([1.0, 2.0]); 200_001] });
    assert_eq!(told(&faults(&long)), [("too-many", "")]);
    let bad = faults(&many(15, &json!({ "type": "Point", "coordinates": [] })));
    assert_eq!(bad.len(), 11);
    assert!(bad[10].message.contains("5 more"));
}

#[test]
fn a_server_that_sent_only_a_part_is_told() {
    let cut = json!({ "type": "FeatureCollection", "exceededLimit": true, "features": [
        { "type": "Feature", "geometry": { "type": "Point", "coordinates": [10.0, 50.0] } }] });
    assert_eq!(told(&draft(&cut).findings), [("cut-short", "")]);
}
