//! Demo sites written and read back, and files that are wrong.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::mesh;
use super::*;
use crate::analysis::{Analysis, Cache, Detail, Scenario, run};
use crate::exchange::import::{Changes, Frame, Role, Settings, Shape};
use crate::exchange::open;
use crate::finding::Finding;
use crate::geom::Point;
use crate::ground::Ground;
use crate::lot::{CourseShape, Traverse};
use crate::site::{CheckedSite, Grid, GridUnit, Site, starter};

const DEMOS: [(&str, &str); 4] = [
    (
        "level",
        include_str!("../../../../../demo-sites/level-suburban.json"),
    ),
    (
        "hillside",
        include_str!("../../../../../demo-sites/sloping-hillside.json"),
    ),
    (
        "creek",
        include_str!("../../../../../demo-sites/creek-side-deed.json"),
    ),
    (
        "wedge",
        include_str!("../../../../../demo-sites/wedge-cul-de-sac.json"),
    ),
];

/// What a round trip may cost, meters.
const ROUND_TRIP: f64 = 1e-4;

fn analysis(site: &CheckedSite) -> Analysis {
    run(
        &Scenario::of(site),
        Detail::Clearances,
        &mut Cache::default(),
    )
}

fn written(site: &CheckedSite, choice: Choice) -> String {
    write(
        site,
        &analysis(site),
        choice,
        &Moment::of_unix(1_790_000_000),
    )
}

/// What a file brings onto a blank site, with its proposed roles.
fn brought(text: &str) -> (Survey, Changes) {
    let survey = read(text).unwrap();
    let site = starter::blank_lot();
    let settings = Settings {
        keep_spots: false,
        ..survey.draft.proposed
    };
    let roles: Vec<Role> = survey.draft.items.iter().map(|it| it.proposed).collect();
    let mut changes = Changes::of(&survey.draft, &settings, &roles, &site).unwrap();
    survey.complete(&mut changes, &settings, &roles, &site);
    (survey, changes)
}

fn codes(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|it| it.code).collect()
}

fn faults(text: &str) -> Vec<&'static str> {
    let found = read(text).unwrap_err();
    assert!(found.iter().any(Finding::is_fault));
    assert!(
        found
            .iter()
            .all(|it| !it.is_fault() || !it.remedy.is_empty())
    );
    codes(&found)
}

#[test]
fn a_moment_is_a_date_and_a_time() {
    let moment = |seconds| {
        let Moment { date, time } = Moment::of_unix(seconds);
        format!("{date}T{time}")
    };
    // As `date -u -d @SECONDS` of GNU coreutils says.
    assert_eq!(moment(0), "1970-01-01T00:00:00");
    assert_eq!(moment(951_782_399), "2000-02-28T23:59:59");
    assert_eq!(moment(951_868_800), "2000-03-01T00:00:00");
    assert_eq!(moment(1_790_000_000), "2026-09-21T14:13:20");
    assert_eq!(moment(4_107_542_400), "2100-03-01T00:00:00");
}

#[test]
fn every_demo_site_comes_back_as_it_was() {
    for (name, text) in DEMOS {
        for unit in [GridUnit::Feet, GridUnit::SurveyFeet, GridUnit::Metres] {
            let site = open(text).unwrap().site;
            let choice = Choice {
                unit,
                ..Choice::usual(&site)
            };
            let (survey, changes) = brought(&written(&site, choice));
            let odd: Vec<&Finding> = survey
                .draft
                .findings
                .iter()
                .filter(|it| it.is_fault())
                .collect();
            assert!(odd.is_empty(), "{name}: {odd:?}");
            same_lot(name, site.site(), &changes);
            same_ground(name, &site, &changes);
            let features = changes.features.unwrap();
            assert_eq!(features.len(), told_features(&site), "{name}");
            let mark = site.site().benchmark.as_ref().filter(|it| it.at.is_some());
            assert_eq!(changes.benchmark.is_some(), mark.is_some(), "{name}");
            if let (Some(before), Some(after)) = (mark, changes.benchmark) {
                assert!(before.at.unwrap().distance(after.at.unwrap()) < ROUND_TRIP);
                assert!((before.elevation - after.elevation).abs() < ROUND_TRIP);
            }
        }
    }
}

/// How many features a file has: what has neither area nor line is not written.
fn told_features(site: &CheckedSite) -> usize {
    let figures = crate::exchange::Figures::of(site, None);
    let told = figures.features.iter();
    told.filter(|it| it.line.len() > 1 || !it.areas.is_empty())
        .count()
}

fn same_lot(name: &str, site: &Site, changes: &Changes) {
    let corners = |lot: &crate::lot::LotRecord| match lot.balance {
        Some(_) => Traverse::of(lot).balanced(),
        None => Traverse::of(lot).vertices,
    };
    let lot = changes.lot.as_ref().unwrap();
    let (before, after) = (corners(&site.lot), corners(lot));
    assert_eq!(before.len(), after.len(), "{name}");
    for (corner, course) in before.iter().zip(&site.lot.courses) {
        let near = |it: &&crate::geom::Vertex| it.at.distance(corner.at) < ROUND_TRIP;
        assert!(after.iter().any(|it| near(&it)), "{name}: {corner:?}");
        // A true curve, of the same radius.
        if let CourseShape::Curve { radius, chord, .. } = course.shape {
            let same = |it: &crate::lot::Course| match it.shape {
                CourseShape::Curve {
                    radius: r,
                    chord: c,
                    ..
                } => (r - radius).abs() < 0.01 && (c - chord).abs() < 0.01,
                CourseShape::Line { .. } => false,
            };
            assert!(lot.courses.iter().any(same), "{name}: {:?}", course.shape);
        }
    }
    let curves = |lot: &crate::lot::LotRecord| {
        let curved = lot.courses.iter().map(|it| it.shape.bulge() != 0.0);
        curved.filter(|it| *it).count()
    };
    assert_eq!(curves(&site.lot), curves(lot), "{name}");
    let area = lot.stated_area.unwrap();
    let (checked, _) = crate::lot::Lot::check(lot).unwrap();
    assert!((checked.area - area).abs() < 0.01, "{name}: {area}");
}

/// The ground that comes back is as high as it was, wherever the lot is.
fn same_ground(name: &str, site: &CheckedSite, changes: &Changes) {
    let (ground, _) = Ground::check(changes.ground.as_ref().unwrap()).unwrap();
    let (low, high) = site.lot().region.bounds().unwrap();
    for i in 0..=40 {
        for j in 0..=40 {
            let part = |a: f64, b: f64, k: i32| a + (b - a) * f64::from(k) / 40.0;
            let p = Point::new(part(low.x, high.x, i), part(low.y, high.y, j));
            let before = site.ground().height(p);
            if before.known {
                let after = ground.height(p).elevation;
                let off = (before.elevation - after).abs();
                assert!(off < 1e-3, "{name}: {off} m at {p:?}");
            }
        }
    }
}

#[test]
fn a_survey_grid_comes_back_with_its_own_coordinates() {
    let mut site = Site::clone(open(DEMOS[1].1).unwrap().site.site());
    let grid = Grid {
        easting: 600_000.0,
        northing: 250_000.0,
        unit: GridUnit::SurveyFeet,
    };
    site.grid = Some(grid);
    let site = CheckedSite::check(site, None).unwrap();
    let text = written(&site, Choice::usual(&site));
    assert!(text.contains("linearUnit=\"USSurveyFoot\""));
    let (survey, changes) = brought(&text);
    let came = changes.grid.unwrap().unwrap();
    assert_eq!(came.unit, GridUnit::SurveyFeet);
    let corner = |lot: &crate::lot::LotRecord, grid: Grid| {
        Point::new(lot.start.x + grid.easting, lot.start.y + grid.northing)
    };
    let lot = changes.lot.unwrap();
    let apart = corner(&lot, came).distance(corner(&site.site().lot, grid));
    assert!(apart < ROUND_TRIP, "{apart}");
    assert_eq!(survey.draft.proposed.heights, GridUnit::SurveyFeet);
}

#[test]
fn the_surface_of_the_dig_holds_the_volume_of_the_dig() {
    for (name, text) in DEMOS {
        let site = open(text).unwrap().site;
        let analysis = analysis(&site);
        let mesh = mesh::dig(&site, &analysis).unwrap();
        let dig = analysis.dig.as_ref().unwrap();
        let (mut volume, mut area, mut lowest) = (0.0, 0.0, f64::INFINITY);
        for face in &mesh.faces {
            let corners = face.map(|i| mesh.points[i]);
            let [a, b, c] = corners.map(|[x, y, _]| Point::new(x, y));
            let plan = (b - a).cross(c - a) / 2.0;
            assert!(plan > 0.0);
            // The middles of the sides: exact for a depth that changes evenly.
            let depth = |i: usize, j: usize| {
                let [u, v] = [corners[i], corners[j]];
                let middle = Point::new((u[0] + v[0]) / 2.0, (u[1] + v[1]) / 2.0);
                site.ground().height(middle).elevation - (u[2] + v[2]) / 2.0
            };
            volume += plan * (depth(0, 1) + depth(1, 2) + depth(2, 0)) / 3.0;
            area += plan;
            lowest = corners.iter().fold(lowest, |low, p| low.min(p[2]));
        }
        let off = (volume / dig.bank_volume - 1.0).abs();
        assert!(off < 0.003, "{name}: {volume} m3, not {}", dig.bank_volume);
        let opened = dig.top_edge.area();
        assert!(
            (area / opened - 1.0).abs() < 1e-3,
            "{name}: {area} m2, not {opened}"
        );
        assert!(
            (lowest - dig.bottom_elevation).abs() < 1e-3,
            "{name}: {lowest}"
        );
    }
}

/// A file with this under its root.
fn file(inside: &str) -> String {
    format!(
        "<?xml version=\"1.0\"?>\n<LandXML xmlns=\"{NAMESPACE}\" version=\"1.2\">\n\
         <Units><Metric areaUnit=\"squareMeter\" linearUnit=\"meter\"/></Units>\n{inside}\n</LandXML>"
    )
}

fn parcel(geometry: &str) -> String {
    file(&format!(
        "<Parcels><Parcel name=\"Lot 4\"><CoordGeom>{geometry}</CoordGeom></Parcel></Parcels>"
    ))
}

fn line(from: &str, to: &str) -> String {
    format!("<Line><Start>{from}</Start><End>{to}</End></Line>")
}

/// The places of the first thing, northing and easting.
fn places(survey: &Survey) -> Vec<[f64; 2]> {
    let all = survey.draft.items[0].shape.positions();
    all.iter().map(|p| [p.first, p.second]).collect()
}

#[test]
fn what_is_no_landxml_is_refused_with_its_place() {
    assert_eq!(faults(""), ["xml"]);
    assert_eq!(faults("<LandXML>"), ["xml"]);
    assert_eq!(faults("<gpx/>"), ["not-landxml"]);
    assert_eq!(faults(&file("")), ["nothing-found"]);
    let cut = &written(
        &open(DEMOS[0].1).unwrap().site,
        Choice::usual(&open(DEMOS[0].1).unwrap().site),
    );
    assert_eq!(faults(&cut[..cut.len() / 2]), ["xml"]);
    assert!(is_xml("\u{feff}  <?xml?>") && !is_xml("{}") && !is_xml("1,2,3"));
}

#[test]
fn no_entity_is_expanded_and_sizes_are_bounded() {
    let bomb = "<?xml version=\"1.0\"?><!DOCTYPE LandXML [<!ENTITY a \"aaaaaaaaaa\">\
                <!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]><LandXML>&b;</LandXML>";
    assert_eq!(faults(bomb), ["document-type"]);
    let outside = "<!DOCTYPE LandXML SYSTEM \"file:///etc/passwd\"><LandXML/>";
    assert_eq!(faults(outside), ["document-type"]);
    let wide = file(&"<a/>".repeat(2_100_000));
    assert_eq!(faults(&wide), ["too-many"]);
    let deep = format!("{}{}", "<a>".repeat(500_000), "</a>".repeat(500_000));
    assert_eq!(faults(&file(&deep)), ["not-read", "nothing-found"]);
    let long = file(&format!("<Project name=\"{}\"/>", "x".repeat(17 << 20)));
    assert_eq!(faults(&long), ["text-size"]);
    let list = "1 2 3 ".repeat(200_001);
    let many = format!(
        "<Surfaces><Surface name=\"s\"><SourceData><DataPoints><PntList3D>{list}</PntList3D></DataPoints></SourceData></Surface></Surfaces>"
    );
    assert_eq!(faults(&file(&many)), ["too-many"]);
}

#[test]
fn a_part_that_cannot_be_read_is_told_and_left_out() {
    let square = [
        line("0 0", "0 10"),
        line("0 10", "10 10"),
        line("10 10", "10 0"),
        line("10 0", "0 0"),
    ];
    let whole = parcel(&square.concat());
    let survey = read(&whole).unwrap();
    assert_eq!(
        places(&survey),
        [[0.0, 0.0], [0.0, 10.0], [10.0, 10.0], [10.0, 0.0]]
    );
    assert_eq!(survey.draft.items[0].proposed, Role::Lot);
    assert!(
        survey.draft.items[0]
            .place
            .starts_with("Parcel \"Lot 4\", line 4 column")
    );
    // Against the walk, and with a gap of 1 cm.
    let turned = [
        &square[0],
        &line("10 10.01", "0 10"),
        &square[2],
        &square[3],
    ];
    let survey = read(&parcel(&turned.map(String::as_str).concat())).unwrap();
    assert_eq!(places(&survey).len(), 4);
    assert_eq!(codes(&survey.draft.findings), ["gap"]);
    for (inside, code) in [
        (square[..3].concat(), "parcel-open"),
        (line("0 0", "0 x"), "number"),
        (line("0 0", "0 nan"), "number"),
        (line("0", "0 1"), "point"),
        (line("0 0 0 0", "0 1"), "point"),
        ("<Line><Start>0 0</Start></Line>".to_owned(), "point-missing"),
        ("<Line><Start pntRef=\"7\"/><End>0 0</End></Line>".to_owned(), "point-missing"),
        ("<Chain>1 2</Chain>".to_owned(), "point-missing"),
        (line("0 0", "0 10") + &line("5 5", "9 9"), "not-joined"),
        ("<Spiral><Start>0 0</Start></Spiral>".to_owned(), "spiral"),
        ("<Bend/>".to_owned(), "geometry-unknown"),
        (String::new(), "geometry-missing"),
        ("<IrregularLine><Start>0 0</Start><End>0 9</End><PntList2D>0 0 1</PntList2D></IrregularLine>".to_owned(), "point-list"),
        ("<Curve><Start>0 0</Start><Center>0 5</Center><End>0 10</End></Curve>".to_owned(), "curve-turn"),
        ("<Curve rot=\"cw\"><Start>0 0</Start><End>0 10</End></Curve>".to_owned(), "point-missing"),
        ("<Curve rot=\"cw\"><Start>0 0</Start><Center>0 0</Center><End>0 10</End></Curve>".to_owned(), "curve"),
    ] {
        let told = faults(&parcel(&inside));
        assert_eq!(told, [code], "{inside}");
    }
}

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
