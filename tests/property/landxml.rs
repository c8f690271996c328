//! LandXML, out and in again: curves stay curves, the ground stays as high as it was, and no text is
//! too odd to be answered.

use std::sync::Arc;

use batterboard_core::analysis::{Cache, Detail, Scenario, run};
use batterboard_core::exchange::import::{Changes, Role, Settings};
use batterboard_core::exchange::landxml::{Choice, Moment, Survey, read, write};
use batterboard_core::geom::{Point, Vertex};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::lot::LotRecord;
use batterboard_core::site::{CheckedSite, Grid, GridUnit, starter};
use proptest::prelude::*;

use crate::import::{checked, corners, placed_anyhow, refused, same_points, site};
use crate::shapes::star;

/// What a round trip may cost, meters.
const ROUND_TRIP: f64 = 1e-4;

fn written(site: &CheckedSite, choice: Choice) -> String {
    let analysis = run(
        &Scenario::of(site),
        Detail::Clearances,
        &mut Cache::default(),
    );
    write(site, &analysis, choice, &Moment::of_unix(1_790_000_000))
}

/// What a file brings onto a site with its proposed roles.
fn brought(text: &str, site: &CheckedSite) -> Result<(Survey, Changes), TestCaseError> {
    let fail = |f| TestCaseError::fail(format!("{f:?}"));
    let survey = read(text).map_err(fail)?;
    let settings = Settings {
        keep_spots: false,
        ..survey.draft.proposed
    };
    let roles: Vec<Role> = survey.draft.items.iter().map(|it| it.proposed).collect();
    let mut changes = Changes::of(&survey.draft, &settings, &roles, site.site()).map_err(fail)?;
    survey.complete(&mut changes, &settings, &roles, site.site());
    Ok((survey, changes))
}

/// Both grounds are as high at a place where the first is known.
fn same_heights(
    before: &Ground,
    after: &Ground,
    places: &[(f64, f64)],
) -> Result<(), TestCaseError> {
    for (x, y) in places {
        let p = Point::new(*x, *y);
        let known = before.height(p);
        if known.known {
            let off = (after.height(p).elevation - known.elevation).abs();
            prop_assert!(off < 1e-3, "{off} m at {p:?}");
        }
    }
    Ok(())
}

fn unit() -> impl Strategy<Value = GridUnit> {
    prop::sample::select(vec![GridUnit::Metres, GridUnit::Feet, GridUnit::SurveyFeet])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn a_file_written_and_read_again_is_the_same_site(
        site in site(),
        grid in proptest::option::of((1e5..3e6f64, 1e5..3e6f64)),
        unit in unit(),
        spokes in proptest::collection::vec((0.2..1.0f64, 12.0..40.0f64), 3..9),
        bulges in proptest::collection::vec(prop_oneof![Just(0.0), -0.6..0.6f64], 9),
        places in proptest::collection::vec((-60.0..60.0f64, -60.0..60.0f64), 20),
    ) {
        let mut site = site;
        site.grid = grid.map(|(easting, northing)| Grid { easting, northing, unit });
        let ring = star(Point::new(3.0, 5.0), &spokes);
        let vertices: Vec<Vertex> = ring.iter().zip(&bulges).map(|(p, b)| Vertex::arc(p.x, p.y, *b)).collect();
        site.lot = Arc::new(LotRecord::from_outline(&vertices, &[]));
        let Some(site) = checked(site) else { return Ok(()) };
        let choice = Choice { unit, ..Choice::usual(&site) };
        let (_, changes) = brought(&written(&site, choice), &site)?;
        prop_assert_eq!((changes.origin, changes.grid), (None, None));
        let lot = changes.lot.as_ref().unwrap();
        let (before, after) = (&site.site().lot, lot);
        same_points(&corners(before), &corners(after))?;
        // Every arc has its own bulge again, walked either way.
        let sizes = |lot: &LotRecord| {
            let mut sizes: Vec<f64> = lot.courses.iter().map(|it| it.shape.bulge().abs()).collect();
            sizes.sort_by(f64::total_cmp);
            sizes
        };
        for (a, b) in sizes(before).iter().zip(&sizes(after)) {
            prop_assert!((a - b).abs() < 1e-4, "{a} came back as {b}");
        }
        let (ground, _) = Ground::check(changes.ground.as_ref().unwrap()).unwrap();
        same_heights(site.ground(), &ground, &places)?;
        let mark = changes.benchmark.unwrap().at.unwrap();
        prop_assert!(mark.distance(Point::new(-4.0, 2.0)) < ROUND_TRIP);
        prop_assert_eq!(changes.features.unwrap().len(), 2 * site.site().features.len());
    }

    #[test]
    fn a_surface_of_triangles_alone_keeps_its_shape(
        spots in proptest::collection::vec((-60.0..60.0f64, -60.0..60.0f64, 100.0..140.0f64), 5..40),
        lines in proptest::collection::vec(
            proptest::collection::vec((-60.0..60.0f64, -60.0..60.0f64, 100.0..140.0f64), 2..5), 0..3),
        places in proptest::collection::vec((-60.0..60.0f64, -60.0..60.0f64), 30),
    ) {
        let [spots, lines] = [vec![spots], lines].map(|all| -> Vec<Vec<[f64; 3]>> {
            all.iter().map(|line| line.iter().map(|(x, y, z)| [*x, *y, *z]).collect()).collect()
        });
        let mut document = starter::blank_lot();
        let spots = spots.into_iter().next().unwrap();
        document.ground = Arc::new(GroundRecord::Spots { spots, breaklines: lines });
        let Some(site) = checked(document) else { return Ok(()) };
        let choice = Choice {
            unit: GridUnit::Metres, lot: false, features: false, shell: false, dig: false, ground: true,
        };
        let text = written(&site, choice);
        // What the surface was made of is taken out; the triangles have to tell it.
        let bare = match (text.find("<SourceData>"), text.find("</SourceData>")) {
            (Some(from), Some(to)) => format!("{}{}", &text[..from], &text[to + 13..]),
            _ => text,
        };
        let bare = bare.replace("<CgPoint ", "<Other ").replace("</CgPoint>", "</Other>");
        let (_, changes) = brought(&bare, &site)?;
        let (ground, _) = Ground::check(changes.ground.as_ref().unwrap()).unwrap();
        same_heights(site.ground(), &ground, &places)?;
    }

    #[test]
    fn any_text_that_looks_like_xml_is_answered(text in r#"[<>/="'&;!\[\]a-zA-Z0-9 .:-]{0,120}"#) {
        answered(&format!("<LandXML>{text}</LandXML>"))?;
        answered(&format!("<{text}"))?;
    }

    #[test]
    fn a_broken_file_is_answered(
        from in 0.0..1.0f64, length in 0usize..60, put in r#"[<>/0-9 .eE"=a-z-]{0,12}"#,
    ) {
        let sound = "<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Units><Imperial linearUnit=\"foot\"/></Units>\
            <CgPoints><CgPoint name=\"1\" desc=\"corner\">5000 5000 100</CgPoint><CgPoint name=\"2\">5100 5000</CgPoint></CgPoints>\
            <Parcels><Parcel name=\"L\" area=\"12\"><CoordGeom><Line><Start pntRef=\"1\"/><End pntRef=\"2\"/></Line>\
            <Curve rot=\"cw\" radius=\"60\"><Start>5100 5000</Start><Center>5050 5030</Center><End>5000 5060</End></Curve>\
            <IrregularLine><Start>5000 5060</Start><End>5000 5000</End><PntList2D>5000 5060 4990 5030 5000 5000</PntList2D>\
            </IrregularLine></CoordGeom></Parcel></Parcels><Surfaces><Surface name=\"EG\"><SourceData><Breaklines><Breakline>\
            <PntList3D>5000 5000 1 5009 5009 2</PntList3D></Breakline></Breaklines><Contours><Contour elev=\"3\"><PntList2D>\
            5001 5000 5002 5003</PntList2D></Contour></Contours></SourceData><Definition surfType=\"TIN\"><Pnts>\
            <P id=\"1\">5000 5000 1</P><P id=\"2\">5000 5090 2</P><P id=\"3\">5090 5000 3</P></Pnts><Faces><F b=\"3\">1 2 3</F>\
            </Faces></Definition></Surface></Surfaces></LandXML>";
        prop_assert!(read(sound).is_ok());
        let from = (from * sound.len() as f64) as usize;
        let to = (from + length).min(sound.len());
        answered(&format!("{}{put}{}", &sound[..from], &sound[to..]))?;
    }
}

/// Whatever a text is, it is read or refused with remedies, and what was read can be placed and brought in.
fn answered(text: &str) -> Result<(), TestCaseError> {
    let survey = match read(text) {
        Ok(survey) => survey,
        Err(faults) => return refused(&faults),
    };
    placed_anyhow(&survey.draft)?;
    let site = starter::blank_lot();
    let settings = survey.draft.proposed;
    let roles: Vec<Role> = survey.draft.items.iter().map(|it| it.proposed).collect();
    if let Ok(mut changes) = Changes::of(&survey.draft, &settings, &roles, &site) {
        survey.complete(&mut changes, &settings, &roles, &site);
    }
    Ok(())
}
