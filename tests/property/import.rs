//! Maps and lists, out and in again: what comes back lies where it was.

use std::sync::Arc;

use batterboard_core::exchange::geodesy::{LocalPlane, Place};
use batterboard_core::exchange::import::{
    Changes, Draft, Frame, Order, Placed, Role, Settings, Shape, read,
};
use batterboard_core::exchange::{Figures, geojson, points};
use batterboard_core::finding::Finding;
use batterboard_core::geom::{Outline, Point, Vertex};
use batterboard_core::ground::GroundRecord;
use batterboard_core::lot::{LotRecord, Traverse};
use batterboard_core::math::TURN;
use batterboard_core::site::{
    Benchmark, CheckedSite, Feature, FeatureKind, GeoOrigin, Grid, GridUnit, ShapeRecord, Site,
    starter,
};
use proptest::prelude::*;

use crate::shapes::star;

/// What a round trip may cost, meters.
const ROUND_TRIP: f64 = 0.001;

/// A place on the globe, and which way its lot has true north.
fn origin() -> impl Strategy<Value = (GeoOrigin, f64)> {
    let longitude = prop_oneof![-180.0..180.0f64, 179.9999..180.0f64, -180.0..-179.9999f64];
    (longitude, -88.0..88.0f64, 0.0..TURN).prop_map(|(longitude, latitude, turn)| {
        let origin = GeoOrigin {
            longitude: longitude.to_radians(),
            latitude: latitude.to_radians(),
        };
        (origin, turn)
    })
}

fn spokes() -> impl Strategy<Value = Vec<(f64, f64)>> {
    proptest::collection::vec((0.2..1.0f64, 12.0..40.0f64), 3..9)
}

/// A site with a lot, an area, a track and spots, all by chance.
pub(crate) fn site() -> impl Strategy<Value = Site> {
    let spot = (-60.0..60.0f64, -60.0..60.0f64, 100.0..140.0f64);
    (
        spokes(),
        spokes(),
        origin(),
        proptest::collection::vec(spot, 3..12),
        proptest::collection::vec((-50.0..50.0f64, -50.0..50.0f64), 2..6),
        any::<bool>(),
    )
        .prop_map(|(lot, area, (origin, turn), spots, track, turned)| {
            let vertices = |ring: Vec<Point>| -> Vec<Vertex> {
                ring.iter().map(|p| Vertex::line(p.x, p.y)).collect()
            };
            let mut site = starter::blank_lot();
            let corners = vertices(star(Point::new(3.0, 5.0), &lot));
            let mut record = LotRecord::from_outline(&corners, &[]);
            record.basis.true_north = turned.then_some(turn);
            site.lot = Arc::new(record);
            site.origin = Some(origin);
            let feature = |id: &str, kind, shape| Feature::of(id, kind, shape);
            let area = vertices(star(Point::new(80.0, -30.0), &area));
            let track: Vec<Vertex> = track.iter().map(|(x, y)| Vertex::line(*x, *y)).collect();
            site.features = Arc::new(vec![
                feature(
                    "house",
                    FeatureKind::House,
                    ShapeRecord::Area(area[..].into()),
                ),
                feature(
                    "fence",
                    FeatureKind::Fence,
                    ShapeRecord::Track(track[..].into()),
                ),
            ]);
            let spots = spots.iter().map(|(x, y, z)| [*x, *y, *z]).collect();
            site.ground = Arc::new(GroundRecord::of_spots(spots));
            site.benchmark = Some(Benchmark {
                name: "nail".to_owned(),
                at: Some(Point::new(-4.0, 2.0)),
                elevation: 120.0,
                assumed: false,
            });
            site
        })
}

/// The site through its door; chance may draw a lot or a track that no door lets in.
pub(crate) fn checked(site: Site) -> Option<CheckedSite> {
    CheckedSite::check(site, None).ok()
}

pub(crate) fn corners(lot: &LotRecord) -> Vec<Point> {
    Traverse::of(lot).vertices.iter().map(|v| v.at).collect()
}

/// Every point of one list lies at a point of the other.
pub(crate) fn same_points(ours: &[Point], back: &[Point]) -> Result<(), TestCaseError> {
    prop_assert_eq!(ours.len(), back.len());
    for p in ours {
        let near = back
            .iter()
            .map(|q| p.distance(*q))
            .fold(f64::INFINITY, f64::min);
        prop_assert!(near <= ROUND_TRIP, "{p:?} comes back {near} m off");
    }
    Ok(())
}

fn same_spots(before: &GroundRecord, after: Option<&GroundRecord>) -> Result<(), TestCaseError> {
    let (GroundRecord::Spots { spots: a, .. }, Some(GroundRecord::Spots { spots: b, .. })) =
        (before, after)
    else {
        return Err(TestCaseError::fail("no spots came back"));
    };
    let high = |spots: &[[f64; 3]]| -> Vec<Point> {
        spots.iter().map(|s| Point::new(s[0], s[2])).collect()
    };
    let plan = |spots: &[[f64; 3]]| -> Vec<Point> {
        spots.iter().map(|s| Point::new(s[0], s[1])).collect()
    };
    same_points(&plan(a), &plan(b))?;
    same_points(&high(a), &high(b))
}

fn path(shape: &ShapeRecord) -> Vec<Point> {
    match shape {
        ShapeRecord::Area(path) | ShapeRecord::Track(path) => {
            path.vertices().iter().map(|v| v.at).collect()
        }
        _ => Vec::new(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn the_plane_and_the_globe_are_inverse(
        (origin, turn) in origin(), x in -9_999.0..9_999.0f64, y in -9_999.0..9_999.0f64,
    ) {
        let place = Place { longitude: origin.longitude, latitude: origin.latitude };
        let plane = LocalPlane::new(place, turn);
        let at = Point::new(x, y);
        let back = plane.site_from_globe(plane.globe_from_site(at));
        prop_assert!(back.is_some_and(|b| b.distance(at) < 1e-7), "{back:?}");
    }

    #[test]
    fn a_map_written_and_read_again_is_the_same_site(site in site()) {
        let Some(checked) = checked(site) else { return Ok(()) };
        let text = geojson::write(checked.site(), &Figures::of(&checked, None), geojson::Parts::default()).unwrap();
        let site: &Site = checked.site();
        let draft = read(&text, None).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert_eq!(draft.proposed.frame, Frame::Degrees);
        let settings = Settings { keep_spots: false, ..draft.proposed };
        let roles: Vec<Role> = draft.items.iter().map(|i| i.proposed).collect();
        let changes = Changes::of(&draft, &settings, &roles, site)
            .map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert_eq!(changes.origin, None);
        same_points(&corners(&site.lot), &corners(changes.lot.as_ref().unwrap()))?;
        let features = changes.features.unwrap();
        prop_assert_eq!(features.len(), site.features.len());
        for (a, b) in site.features.iter().zip(&features) {
            prop_assert_eq!((&a.id, a.kind), (&b.id, b.kind));
            same_points(&path(&a.shape), &path(&b.shape))?;
        }
        same_spots(&site.ground, changes.ground.as_ref())?;
        let mark = changes.benchmark.unwrap();
        same_points(&[Point::new(-4.0, 2.0)], &[mark.at.unwrap()])?;
    }

    #[test]
    fn a_list_written_and_read_again_is_the_same_site(
        site in site(),
        grid in proptest::option::of((1e5..3e6f64, 1e5..3e6f64)),
        unit in prop::sample::select(vec![GridUnit::Metres, GridUnit::Feet, GridUnit::SurveyFeet]),
        order in prop::sample::select(vec![Order::NorthFirst, Order::EastFirst]),
        degrees in any::<bool>(),
    ) {
        let mut site = site;
        site.grid = grid.map(|(easting, northing)| Grid { easting, northing, unit });
        let Some(checked) = checked(site) else { return Ok(()) };
        let site: &Site = checked.site();
        let mut choice = points::Choice::usual(site);
        choice.order = order;
        choice.features = false;
        choice.frame = if degrees { Frame::Degrees } else { unit.into() };
        let text = points::write(checked.site(), &Figures::of(&checked, None), choice).unwrap();
        let draft = read(&text, None).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert_eq!((draft.proposed.frame, draft.proposed.order), (choice.frame, order));
        let settings = Settings { keep_spots: false, ..draft.proposed };
        let roles: Vec<Role> = draft.items.iter().map(|i| i.proposed).collect();
        let changes = Changes::of(&draft, &settings, &roles, site)
            .map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert_eq!((changes.origin, changes.grid), (None, None));
        same_points(&corners(&site.lot), &corners(changes.lot.as_ref().unwrap()))?;
        same_spots(&site.ground, changes.ground.as_ref())?;
        // The same list comes out of what came in, to the last digit written.
        let mut again = site.clone();
        again.lot = Arc::new(changes.lot.unwrap());
        again.ground = Arc::new(changes.ground.unwrap());
        again.benchmark = changes.benchmark;
        let Some(again) = self::checked(again) else { return Ok(()) };
        prop_assert_eq!(points::write(again.site(), &Figures::of(&again, None), choice).unwrap().lines().count(), text.lines().count());
    }

    #[test]
    fn areas_do_not_depend_on_where_the_origin_lies((origin, turn) in origin(), spokes in spokes()) {
        // The same figure of degrees, from an origin inside it and from one 5 km off.
        let place = Place { longitude: origin.longitude, latitude: origin.latitude };
        let near = LocalPlane::new(place, 0.0);
        let far = LocalPlane::new(near.globe_from_site(Point::new(3_000.0, -4_000.0)), turn);
        let ring = star(Point::new(0.0, 0.0), &spokes);
        let area = |ring: Vec<Point>| {
            let vertices = ring.iter().map(|p| Vertex::line(p.x, p.y)).collect();
            Outline::check(vertices).map(|o| o.area()).ok()
        };
        let moved: Option<Vec<Point>> =
            ring.iter().map(|p| far.site_from_globe(near.globe_from_site(*p))).collect();
        let (Some(a), Some(b)) = (area(ring), area(moved.unwrap())) else { return Ok(()) };
        // An area r = 5 km off is short by r^2 / (2 R^2), 3e-7.
        prop_assert!((a - b).abs() <= 4e-7 * a + 1e-6, "{a} and {b}");
    }

    #[test]
    fn any_text_is_answered(text in any::<String>()) {
        answered(&text)?;
    }

    #[test]
    fn any_list_is_answered(text in r#"([0-9a-z.,;°'"NSEW \t+-]{0,40}\n){0,6}"#) {
        answered(&text)?;
    }

    #[test]
    fn any_map_is_answered(tail in r#"[\[\]{}",:0-9e.+\- ]{0,80}"#) {
        answered(&format!("{{\"type\":\"Polygon\",\"coordinates\":[[[10,50],[10.1,50]{tail}"))?;
        answered(&format!("{{\"type\":\"LineString\",\"coordinates\":[[1e300,-1e300],[1e-300,90],{tail}"))?;
    }
}

/// Whatever a text is, it is read or refused with remedies, and what was read can be placed with any
/// roles.
fn answered(text: &str) -> Result<(), TestCaseError> {
    match read(text, None) {
        Ok(draft) => placed_anyhow(&draft),
        Err(faults) => refused(&faults),
    }
}

/// What was refused says what to do.
pub(crate) fn refused(faults: &[Finding]) -> Result<(), TestCaseError> {
    prop_assert!(faults.iter().any(|f| f.is_fault()));
    prop_assert!(faults.iter().all(|f| !f.is_fault() || !f.remedy.is_empty()));
    Ok(())
}

/// A draft can be placed with any roles.
pub(crate) fn placed_anyhow(draft: &Draft) -> Result<(), TestCaseError> {
    let site = starter::blank_lot();
    for role in [
        "lot",
        "corner",
        "spot",
        "breakline",
        "benchmark",
        "monument",
        "house",
        "tree",
        "fence",
    ] {
        let roles = vec![Role::named(role).unwrap(); draft.items.len()];
        let placed = Placed::of(draft, &draft.proposed, &roles, &site);
        for item in placed.items.iter().filter_map(|i| i.shape.as_ref()) {
            prop_assert!(item.positions().iter().all(|s| s.at.is_finite()));
            prop_assert!(!matches!(item, Shape::Points(p) if p.is_empty()));
        }
        let _ = Changes::of(draft, &draft.proposed, &roles, &site);
    }
    Ok(())
}
