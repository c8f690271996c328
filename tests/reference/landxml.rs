//! LandXML written by others, read here.

use batterboard_core::exchange::import::{Changes, Role, Settings};
use batterboard_core::exchange::landxml::{Survey, read};
use batterboard_core::geom::Point;
use batterboard_core::ground::{Facet, Ground};
use batterboard_core::lot::CourseShape;
use batterboard_core::site::{GridUnit, starter};

use crate::close;

const NAMESPACE: &str = "http://www.landxml.org/schema/LandXML-1.2";

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

/// Read in `src/test_assets/S1.xml` of the repository abrman/landxml, a reader of LandXML surfaces: 17
/// points and 24 faces in US survey feet, ten to a hill. Its faces are the reference; the project's name
/// and its program's were left out here.
#[test]
fn a_sample_surface_is_as_high_as_its_own_faces() {
    let text = include_str!("data/cone_surface.xml");
    let (survey, changes) = brought(text);
    assert_eq!(survey.draft.proposed.heights, GridUnit::SurveyFeet);
    let grid = changes.grid.unwrap().unwrap();
    let foot = GridUnit::SurveyFeet.in_metres();
    let numbers = |line: &str| -> Vec<f64> {
        let inside = line.split(['>', '<']).nth(2).unwrap();
        inside.split(' ').map(|it| it.parse().unwrap()).collect()
    };
    let told = |tag: &str| -> Vec<Vec<f64>> {
        let lines = text.lines().filter(|it| it.trim().starts_with(tag));
        lines.map(numbers).collect()
    };
    let points = told("<P ");
    let (ground, _) = Ground::check(changes.ground.as_ref().unwrap()).unwrap();
    let mut faces = 0;
    for face in told("<F>") {
        let corners: Vec<&Vec<f64>> = face.iter().map(|id| &points[*id as usize - 1]).collect();
        let mean = |k: usize| corners.iter().map(|it| it[k]).sum::<f64>() / 3.0 * foot;
        let at = Point::new(mean(1) - grid.easting, mean(0) - grid.northing);
        close("elevation", ground.height(at).elevation, mean(2), 1e-6);
        faces += 1;
    }
    assert_eq!((points.len(), faces), (17, 24));
    assert_eq!(ground.facets().iter().filter(|it| it.known).count(), 24);
}

/// Read in a test of a public LandXML reader (example of a design program's export, 2023): a breakline, four
/// points and two faces, and beside them the areas that the program worked out, 18 in plan and
/// 33.674916480965 along the surface.
#[test]
fn a_sample_surface_with_a_breakline_has_the_areas_stated_in_it() {
    let text = format!(
        "<LandXML xmlns=\"{NAMESPACE}\" version=\"1.2\"><Units><Imperial areaUnit=\"squareFoot\" \
         linearUnit=\"USSurveyFoot\" volumeUnit=\"cubicYard\" temperatureUnit=\"fahrenheit\" pressureUnit=\"inchHG\"/>\
         </Units><Surfaces><Surface name=\"s\" desc=\"Description\"><SourceData><Breaklines>\
         <Breakline brkType=\"standard\" desc=\"Breakline set1\"><PntList3D>2. 1. 3. 5. 4. 6. 8. 7. 9. 2. 7. 0.</PntList3D>\
         <Feature code=\"BreakLine\"><Property label=\"weedDistance\" value=\"0.000000\"/></Feature></Breakline></Breaklines>\
         </SourceData><Definition surfType=\"TIN\" area2DSurf=\"18.\" area3DSurf=\"33.674916480965\" elevMax=\"9.\" elevMin=\"0.\">\
         <Pnts><P id=\"5\">2. 1. 3.</P><P id=\"6\">5. 4. 6.</P><P id=\"7\">8. 7. 9.</P><P id=\"8\">2. 7. 0.</P></Pnts>\
         <Faces><F n=\"2 0 0\">8 6 5</F><F n=\"0 0 1\">8 7 6</F></Faces></Definition></Surface></Surfaces></LandXML>"
    );
    let (survey, changes) = brought(&text);
    let odd = survey.draft.findings.iter().any(|it| it.is_fault());
    assert!(!odd, "{:?}", survey.draft.findings);
    let (ground, _) = Ground::check(changes.ground.as_ref().unwrap()).unwrap();
    let foot = GridUnit::SurveyFeet.in_metres();
    let square = foot * foot;
    let known = || ground.facets().iter().filter(|it| it.known);
    let plan: f64 = known().map(Facet::plan_area).sum();
    let along: f64 = known().map(Facet::surface_area).sum();
    close("area in plan", plan / square, 18.0, 1e-9);
    close(
        "area of the surface",
        along / square,
        33.674_916_480_965,
        1e-9,
    );
}

/// Read in a test of a public reader of road alignments, quoted there from a surveying program's file: a
/// clockwise curve with its chord 101.8231, its length 113.0969 and its radius 72.0000. It settles which
/// coordinate comes first: with easting first the same arc would be three times as long.
#[test]
fn a_sample_curve_has_the_chord_length_and_radius_stated_in_it() {
    let text = format!(
        "<LandXML xmlns=\"{NAMESPACE}\" version=\"1.2\"><Units><Imperial linearUnit=\"USSurveyFoot\"/></Units><Parcels>\
         <Parcel name=\"p\"><CoordGeom><Curve rot=\"cw\" chord=\"101.8231\" crvType=\"arc\" delta=\"-1.57079036\" \
         dirEnd=\"1.53009866\" dirStart=\"3.10088902\" length=\"113.0969\" radius=\"72.0000\" tangent=\"71.99956670\">\
         <Start>667078.5135 1241095.7181</Start><Center>667150.4539 1241098.6480</Center>\
         <End>667153.3833 1241026.7076</End></Curve><Line><Start>667153.3833 1241026.7076</Start>\
         <End>667078.5135 1241095.7181</End></Line></CoordGeom></Parcel></Parcels></LandXML>"
    );
    let (survey, changes) = brought(&text);
    assert!(
        survey.draft.findings.is_empty(),
        "{:?}",
        survey.draft.findings
    );
    let lot = changes.lot.unwrap();
    assert_eq!(lot.courses.len(), 2);
    let foot = GridUnit::SurveyFeet.in_metres();
    let CourseShape::Curve { chord, radius, .. } = lot.courses[0].shape else {
        panic!("{:?}", lot.courses[0].shape)
    };
    // The file's coordinates have four decimals.
    close("chord", chord / foot, 101.8231, 1e-4);
    close("radius", radius / foot, 72.0, 2e-4);
    close(
        "length",
        lot.courses[0].shape.length() / foot,
        113.0969,
        2e-4,
    );
}
