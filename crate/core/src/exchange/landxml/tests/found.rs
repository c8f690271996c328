//! What is found in files of others.

use super::*;
use crate::exchange::import::{Frame, Shape};
use crate::geom::Point;
use crate::ground::Ground;

#[test]
fn points_are_found_by_their_names_and_roles() {
    let survey = read(&file(
        "<CgPoints><CgPoint name=\"1\" code=\"IP\" desc=\"iron pipe found\">0 0</CgPoint>\
         <CgPoint name=\"2\">0 10 100.5</CgPoint><CgPoint name=\"3\" desc=\"24in oak\">10 10 101</CgPoint>\
         <CgPoint name=\"4\" pntRef=\"1\" pntSurv=\"boundary\"/>\
         <CgPoint name=\"5\" role=\"to stake out\">1 1 5</CgPoint>\
         <CgPoint name=\"6\" DTMAttribute=\"donotinclude\">2 2 5</CgPoint></CgPoints>\
         <Parcels><Parcel name=\"p\"><CoordGeom><Chain>1 2 3</Chain><Line><Start pntRef=\"3\"/><End pntRef=\"1\"/></Line>\
         </CoordGeom></Parcel></Parcels>",
    ))
    .unwrap();
    assert_eq!(places(&survey), [[0.0, 0.0], [0.0, 10.0], [10.0, 10.0]]);
    let roles: Vec<String> = survey
        .draft
        .items
        .iter()
        .map(|it| it.proposed.word())
        .collect();
    assert_eq!(
        roles,
        [
            "lot",
            "monument",
            "spot",
            "tree",
            "monument",
            "leave-out",
            "leave-out"
        ]
    );
}

#[test]
fn half_a_disc_has_its_curve_and_more_than_half_has_two() {
    let half = parcel(
        "<Curve rot=\"ccw\"><Start>0 10</Start><Center>0 0</Center><End>0 -10</End></Curve>\
         <Line><Start>0 -10</Start><End>0 10</End></Line>",
    );
    let (_, changes) = brought(&half);
    let lot = changes.lot.unwrap();
    let (checked, _) = crate::lot::Lot::check(&lot).unwrap();
    assert_eq!(lot.courses.len(), 2);
    // Half of pi r2: from east over north to west.
    assert!(
        (checked.area - 50.0 * core::f64::consts::PI).abs() < 1e-6,
        "{}",
        checked.area
    );
    assert!(checked.outline.vertices().iter().all(|it| it.at.y < 1e-9));
    assert!(
        changes.told[0].ends_with("2 courses, 1 of them curves."),
        "{:?}",
        changes.told
    );
    let large = half.replace("rot=\"ccw\"", "rot=\"cw\"");
    let (survey, changes) = brought(&large.replace("0 10<", "6 8<").replace("0 -10<", "6 -8<"));
    assert_eq!(survey.arcs.len(), 2);
    let lot = changes.lot.unwrap();
    let (checked, _) = crate::lot::Lot::check(&lot).unwrap();
    // The disc less the segment beyond the chord at 6 from its center.
    let angle = 2.0 * crate::math::acos(0.6);
    let segment = 50.0 * (angle - crate::math::sin(angle));
    let disc = 100.0 * core::f64::consts::PI;
    assert!(
        (checked.area - (disc - segment)).abs() < 1e-6,
        "{}",
        checked.area
    );
}

#[test]
fn a_curve_that_tells_its_radius_alone_goes_the_lesser_way() {
    let (survey, _) = brought(&parcel(
        "<Curve rot=\"cw\" radius=\"10\"><Start>0 -8</Start><End>0 8</End></Curve>\
         <Line><Start>0 8</Start><End>-9 0</End></Line><Line><Start>-9 0</Start><End>0 -8</End></Line>",
    ));
    let north = places(&survey).iter().map(|p| p[0]).fold(0.0, f64::max);
    // The rise of the arc: 10 - 6; the highest chord's end lies within 1 mm below.
    assert!((north - 4.0).abs() < 1e-3, "{north}");
    let misfit = read(&parcel(
        "<Curve rot=\"cw\"><Start>0 -8</Start><Center>-6 0.1</Center><End>0 8</End></Curve>",
    ));
    assert_eq!(codes(&misfit.unwrap_err()), ["curve-misfit", "parcel-open"]);
}

#[test]
fn units_and_versions_are_taken_or_told() {
    let of = |units: &str, namespace: &str| {
        format!(
            "<LandXML{namespace}>{units}<CgPoints><CgPoint name=\"1\">12 24 36</CgPoint></CgPoints></LandXML>"
        )
    };
    let v11 = " xmlns=\"http://www.landxml.org/schema/LandXML-1.1\"";
    for (units, frame, first) in [
        (
            "<Units><Metric linearUnit=\"millimeter\"/></Units>",
            Frame::Metres,
            0.012,
        ),
        (
            "<Units><Metric linearUnit=\"kilometer\"/></Units>",
            Frame::Metres,
            12_000.0,
        ),
        (
            "<Units><Imperial linearUnit=\"foot\"/></Units>",
            Frame::Feet,
            12.0,
        ),
        (
            "<Units><Imperial linearUnit=\"inch\"/></Units>",
            Frame::Feet,
            1.0,
        ),
        (
            "<Units><Imperial linearUnit=\"USSurveyFoot\"/></Units>",
            Frame::SurveyFeet,
            12.0,
        ),
    ] {
        let survey = read(&of(units, v11)).unwrap();
        assert_eq!(survey.draft.proposed.frame, frame);
        assert!((places(&survey)[0][0] - first).abs() < 1e-12);
        let height = survey.draft.items[0].shape.positions()[0].height.unwrap();
        assert!((height - 3.0 * first).abs() < 1e-9);
        assert_eq!(codes(&survey.draft.findings), [""; 0]);
    }
    let told =
        |units: &str, namespace: &str| codes(&read(&of(units, namespace)).unwrap().draft.findings);
    assert_eq!(told("", v11), ["unit-assumed"]);
    let metric = "<Units><Metric linearUnit=\"meter\"/></Units>";
    assert_eq!(told(metric, ""), ["version-unknown"]);
    assert_eq!(
        told(
            metric,
            " xmlns=\"http://www.landxml.org/schema/LandXML-2.0\""
        ),
        ["version-unknown"]
    );
    let more = format!("{metric}<Alignments/><Roadways/><Roadways/><x:Own xmlns:x=\"urn:x\"/>");
    assert_eq!(told(&more, v11), ["not-read", "not-read"]);
    let system = format!("{metric}<CoordinateSystem epsgCode=\"2273\"/>");
    assert_eq!(told(&system, v11), ["coordinate-system"]);
}

/// A surface of this name over a kite whose long diagonal is an edge.
fn kite(name: &str, more: &str, mark: &str) -> String {
    format!(
        "<Surface name=\"{name}\"{more}<Definition surfType=\"TIN\"><Pnts><P id=\"11\">0 0 5</P>\
         <P id=\"12\">-2 10 1</P><P id=\"13\">0 20 5</P><P id=\"14\">2 10 1</P><P id=\"15\">90 90 9</P></Pnts>\
         <Faces><F{mark}>11 12 13</F><F>11 13 14</F><F i=\"1\">12 13 15</F></Faces></Definition></Surface>"
    )
}

#[test]
fn a_surface_keeps_the_edges_that_a_fresh_triangulation_would_turn() {
    let text = file(&format!("<Surfaces>{}</Surfaces>", kite("EG", ">", "")));
    let (survey, changes) = brought(&text);
    let groups: Vec<&str> = survey
        .draft
        .items
        .iter()
        .map(|it| it.group.as_str())
        .collect();
    assert_eq!(
        groups,
        ["spots, surface EG", "edges of triangles, surface EG"]
    );
    assert_eq!(survey.draft.items[0].shape.positions().len(), 4);
    assert_eq!(codes(&survey.draft.findings), ["triangles-kept"]);
    // The middle of the ridge stays high: turned round it would be a valley.
    let (ground, _) = Ground::check(&changes.ground.unwrap()).unwrap();
    assert!((ground.height(Point::new(10.0, 0.0)).elevation - 5.0).abs() < 1e-9);
}

#[test]
fn breaklines_come_with_their_surface_and_planned_surfaces_stay_out() {
    let source = "><SourceData><Breaklines><Breakline brkType=\"standard\" name=\"ridge\"><PntList3D>0 0 5 0 20 5</PntList3D>\
                  </Breakline><Breakline><PntList2D>1 1 2 2</PntList2D></Breakline></Breaklines>\
                  <Contours><Contour elev=\"3\"><PntList2D>0 5 1 6</PntList2D></Contour></Contours></SourceData>";
    let surfaces = [
        kite("Design", ">", ""),
        kite("EG", source, " b=\"4\""),
        kite("EG 2", ">", ""),
        kite("old dig", " state=\"existing\">", ""),
    ];
    let points = "<CgPoints><CgPoint name=\"1\">1 10 7</CgPoint></CgPoints>";
    let survey = read(&file(&format!(
        "<Surfaces>{}</Surfaces>{points}",
        surfaces.concat()
    )))
    .unwrap();
    let wanted = survey
        .draft
        .items
        .iter()
        .filter(|it| it.proposed != Role::LeaveOut);
    let wanted: Vec<(&str, String)> = wanted
        .map(|it| (it.group.as_str(), it.proposed.word()))
        .collect();
    let spot = ("spots, surface EG", "spot".to_owned());
    assert_eq!(
        wanted,
        [spot, ("breakline, surface EG", "breakline".to_owned())]
    );
    let contour = survey
        .draft
        .items
        .iter()
        .find(|it| it.words == "contour")
        .unwrap();
    assert_eq!(contour.shape.positions()[0].height, Some(3.0));
    assert_eq!(codes(&survey.draft.findings), ["which-surface"]);
}

#[test]
fn contours_and_data_points_alone_are_a_ground() {
    let survey = read(&file(
        "<Surfaces><Surface name=\"s\"><SourceData><Contours><Contour elev=\"3\"><PntList2D>0 0 0 9</PntList2D></Contour>\
         <Contour><PntList2D>0 0 0 9</PntList2D></Contour></Contours>\
         <Boundaries><Boundary bndType=\"void\" edgeTrim=\"true\"><PntList2D>0 0 0 1 1 1</PntList2D></Boundary></Boundaries>\
         <Breaklines><RetWall/></Breaklines></SourceData></Surface></Surfaces>",
    ))
    .unwrap();
    assert_eq!(survey.draft.items.len(), 1);
    assert_eq!(survey.draft.items[0].proposed, Role::Breakline);
    assert_eq!(
        codes(&survey.draft.findings),
        ["contour", "surface-part", "surface-void"]
    );
    let points = "<DataPoints><PntList3D>0 0 1 0 9 2 9 0 3</PntList3D></DataPoints>";
    let survey = read(&file(&format!(
        "<Surfaces><Surface name=\"s\"><SourceData>{points}</SourceData></Surface></Surfaces>"
    )))
    .unwrap();
    assert!(matches!(&survey.draft.items[0].shape, Shape::Points(points) if points.len() == 3));
    assert_eq!(survey.draft.items[0].proposed, Role::Spot);
}

#[test]
fn plan_features_come_by_their_kinds() {
    let survey = read(&file(
        "<PlanFeatures><PlanFeature name=\"Smith\" desc=\"house\"><CoordGeom><IrregularLine><Start>0 0</Start><End>0 0</End>\
         <PntList2D>0 0 0 9 9 9 0 0</PntList2D></IrregularLine></CoordGeom></PlanFeature>\
         <PlanFeature name=\"gas main\"><CoordGeom><Line><Start>0 0</Start><End>1 1</End></Line></CoordGeom></PlanFeature>\
         <PlanFeature name=\"t\" desc=\"tree\"><Location>4 4</Location></PlanFeature><PlanFeature name=\"?\">\
         <CoordGeom><Line><Start>0 0</Start><End>1 1</End></Line></CoordGeom></PlanFeature></PlanFeatures>",
    ))
    .unwrap();
    let told: Vec<(String, &str)> = survey
        .draft
        .items
        .iter()
        .map(|it| (it.proposed.word(), it.group.as_str()))
        .collect();
    let expected = [
        ("house", "house, areas"),
        ("buried-line", "buried line, lines"),
        ("tree", "tree, points"),
        ("leave-out", "plan feature, lines"),
    ];
    assert_eq!(told, expected.map(|(role, group)| (role.to_owned(), group)));
}

#[test]
fn parcels_are_told_apart_by_their_state_and_use() {
    let ring = [("0 0", "0 9"), ("0 9", "9 9"), ("9 9", "0 0")].map(|(a, b)| line(a, b));
    let ring = ring.concat();
    let parcel = |about: &str| format!("<Parcel {about}><CoordGeom>{ring}</CoordGeom></Parcel>");
    let all = [
        "name=\"5 Elm Street\" area=\"40.5\"",
        "name=\"6\" state=\"adjoining\"",
        "name=\"Elm Street\" class=\"Road\"",
        "name=\"A\" desc=\"drainage easement\"",
    ];
    let parcels: String = all.iter().map(|it| parcel(it)).collect();
    let text = file(&format!("<Parcels>{parcels}</Parcels>"));
    let survey = read(&text).unwrap();
    let roles: Vec<String> = survey
        .draft
        .items
        .iter()
        .map(|it| it.proposed.word())
        .collect();
    assert_eq!(roles, ["lot", "leave-out", "leave-out", "easement"]);
    let (_, changes) = brought(&text);
    assert_eq!(changes.lot.unwrap().stated_area, Some(40.5));
}

#[test]
fn a_notch_in_a_surface_is_told() {
    let corners = "<P id=\"1\">0 0 1</P><P id=\"2\">0 9 1</P><P id=\"3\">9 9 2</P><P id=\"4\">9 0 2</P><P id=\"5\">4 4 1</P>";
    let text = file(&format!(
        "<Surfaces><Surface name=\"s\"><Definition surfType=\"TIN\"><Pnts>{corners}</Pnts><Faces><F>1 2 5</F><F>2 3 5</F>\
         <F>3 4 5</F></Faces></Definition></Surface></Surfaces>"
    ));
    let told = codes(&read(&text).unwrap().draft.findings);
    assert_eq!(told, ["surface-filled", "no-breaklines"]);
}
