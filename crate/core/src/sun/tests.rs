//! Shade worked out by hand.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::sync::Arc;

use super::*;
use crate::geom::{PathRecord, Point, Region, Ring, Vector, Vertex};
use crate::math::{TURN, cos, sin, tan};
use crate::shell::catalogue;
use crate::site::starter::blank_lot;
use crate::site::{
    CheckedSite, Facts, Feature, FeatureKind, GeoOrigin, Placement, ShapeRecord, ShellChoice, Site,
};

fn block(x: f64, y: f64, wide: f64, deep: f64) -> Region {
    Region::from_ring(Ring(vec![
        Point::new(x, y),
        Point::new(x + wide, y),
        Point::new(x + wide, y + deep),
        Point::new(x, y + deep),
    ]))
}

const NORTH: Vector = Vector::new(0.0, 1.0);

fn light(plane: f64, direction: Vector, a_meter: Option<f64>, reach: f64) -> Light {
    Light {
        plane,
        direction,
        a_meter,
        reach,
    }
}

/// A blank lot at 40 degrees north with a pool on it, and whatever else.
fn site(features: Vec<Feature>) -> Site {
    let mut site = blank_lot();
    site.origin = Some(GeoOrigin {
        longitude: 0.0,
        latitude: 40.0_f64.to_radians(),
    });
    site.features = Arc::new(features);
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue(catalogue::all()[0].name.clone())),
        at: Point::new(15.0, 30.0),
        heading: TURN / 4.0,
        mirrored: false,
        coping_elevation: 0.1,
    });
    site
}

fn track(points: &[[f64; 2]]) -> ShapeRecord {
    let vertices: Vec<Vertex> = points.iter().map(|p| Vertex::line(p[0], p[1])).collect();
    ShapeRecord::Track(PathRecord::from(&vertices[..]))
}

fn thing(id: &str, kind: FeatureKind, shape: ShapeRecord, height: Option<f64>) -> Feature {
    let mut feature = Feature::of(id, kind, shape);
    feature.name = id.to_owned();
    feature.facts = Facts {
        height,
        ..Facts::default()
    };
    feature
}

fn checked(site: Site) -> CheckedSite {
    CheckedSite::check(site, None).unwrap()
}

fn midsummer() -> SunDay {
    SunDay {
        date: "2026-06-21".parse().unwrap(),
        offset: "0".parse().unwrap(),
    }
}

fn told(site: Site) -> (SunOnWater, Vec<&'static str>) {
    let (told, findings) = sun_on_water(&checked(site), &midsummer());
    (told.unwrap(), findings.iter().map(|it| it.code).collect())
}

#[test]
fn the_shade_of_a_box_is_its_sweep() {
    // A box of 4 by 2 and 3 high, the shade of a meter 2 m long: 4 by 2 + 6 along the short way.
    let solid = Solid::block(&block(0.0, 0.0, 4.0, 2.0), |_| (0.0, 3.0));
    let shade = solid.shade(&light(0.0, NORTH, Some(2.0), 100.0));
    assert!((shade.area() - 4.0 * 8.0).abs() < 1e-9, "{}", shade.area());
    // From a plane one meter up it is 2 m high, from one above its top nothing.
    assert!((solid.shade(&light(1.0, NORTH, Some(2.0), 100.0)).area() - 4.0 * 6.0).abs() < 1e-9);
    assert!(solid.shade(&light(3.0, NORTH, Some(2.0), 100.0)).is_empty());
    // On the horizon the shade goes as far as it is followed.
    assert!((solid.shade(&light(0.0, NORTH, None, 50.0)).area() - 4.0 * 52.0).abs() < 1e-9);
    // Aslant: the box and its shift, and a band between them along the diagonal.
    let aslant = Vector::new(0.6, 0.8);
    let swept = solid.shade(&light(0.0, aslant, Some(2.0), 100.0)).area();
    assert!(
        (swept - (8.0 + 6.0 * (4.0 * 0.8 + 2.0 * 0.6))).abs() < 1e-9,
        "{swept}"
    );
}

#[test]
fn a_crown_on_branches_lets_the_low_light_through() {
    // From 2 to 3 m up: the shade of a meter 2 m long lies from 4 to 6 m off, swept over 2 m.
    let solid = Solid::block(&block(0.0, 0.0, 4.0, 2.0), |_| (2.0, 3.0));
    let shade = solid.shade(&light(0.0, NORTH, Some(2.0), 100.0));
    assert!((shade.area() - 4.0 * 4.0).abs() < 1e-9);
    assert!(shade.contains(Point::new(2.0, 4.5)) && !shade.contains(Point::new(2.0, 3.5)));
}

#[test]
fn a_box_that_is_not_convex_and_one_with_a_court() {
    let corner = Region::from_ring(Ring(
        [[0., 0.], [4., 0.], [4., 1.], [1., 1.], [1., 3.], [0., 3.]]
            .map(Point::from)
            .to_vec(),
    ));
    // Northward by 2: under the bar 4 by 3, over the leg one more.
    let solid = Solid::block(&corner, |_| (0.0, 1.0));
    let shade = solid.shade(&light(0.0, NORTH, Some(2.0), 100.0)).area();
    assert!((shade - (4.0 * 3.0 + 1.0 * 2.0)).abs() < 1e-6, "{shade}");
    let mut court = block(0.0, 0.0, 10.0, 10.0);
    court.polygons[0]
        .holes
        .push(block(3.0, 3.0, 4.0, 4.0).polygons[0].outer.reversed());
    let solid = Solid::block(&court, |_| (0.0, 1.0));
    // Northward by 1.5: the court keeps 4 by 2.5 in sun.
    let shade = solid.shade(&light(0.0, NORTH, Some(1.5), 100.0)).area();
    assert!((shade - (10.0 * 11.5 - 4.0 * 2.5)).abs() < 1e-6, "{shade}");
}

#[test]
fn a_fence_that_climbs_throws_a_shade_that_widens() {
    // 10 m eastward, its top from 1 to 2 m: a trapezoid of 2 and 4 m on 10 m.
    let solid = Solid::sheet(&[Point::new(0.0, 0.0), Point::new(10.0, 0.0)], |p| {
        (0.0, 1.0 + p.x / 10.0)
    });
    let shade = solid.shade(&light(0.0, NORTH, Some(2.0), 100.0)).area();
    assert!((shade - 30.0).abs() < 1e-9, "{shade}");
    // In line with the sun it throws none.
    assert!(
        solid
            .shade(&light(0.0, Vector::new(1.0, 0.0), Some(2.0), 100.0))
            .is_empty()
    );
}

#[test]
fn water_in_the_open_is_in_sun_all_day() {
    let (told, codes) = told(site(Vec::new()));
    assert!((told.in_sun - told.daylight).abs() < 1e-6);
    // Almanacs give 15 h 01 min at 40 degrees north (the day at 50' under the horizon, worked out from
    // cos H = (sin(-50') - sin lat sin dec) / (cos lat cos dec) with dec = 23.44 degrees).
    let (lat, dec, low) = (
        40.0_f64.to_radians(),
        23.436_f64.to_radians(),
        (-50.0 / 60.0_f64).to_radians(),
    );
    let half = crate::math::acos((sin(low) - sin(lat) * sin(dec)) / (cos(lat) * cos(dec)));
    assert!(
        (told.daylight / 3600.0 - half * 48.0 / TURN).abs() < 0.01,
        "{}",
        told.daylight
    );
    assert!(told.shaders.is_empty());
    assert!(codes.contains(&"sun-clear-sky") && codes.contains(&"sun-north"));
    assert!(!codes.contains(&"sun-solid-shapes"));
}

#[test]
fn a_wall_due_south_shades_at_noon_by_its_height_over_the_slope_of_the_sun() {
    let bare = checked(site(Vec::new()));
    let (shell, placement) = bare.placed_shell().unwrap();
    let water = shell.footprint.posed(&placement.pose());
    let (low, high) = water.bounds().unwrap();
    // Noon: the sun due south, at half the day.
    let day = midsummer();
    let place = EarthPlace::of(bare.site()).unwrap();
    let spell = spells(&place, &day)[0];
    let noon = (spell.from + spell.to) / 2.0;
    let sun = sun_at(&place, &day, noon);
    assert!((sun.azimuth - TURN / 2.0).abs() < 1e-3, "{}", sun.azimuth);
    // 90 - 40 + 23.44 degrees high.
    assert!((sun.altitude.to_degrees() - 73.44).abs() < 0.02);
    // A long wall 0.2 m south of the water: 3 m above ground at 0, the water at the coping less the waterline.
    let wall = thing(
        "wall",
        FeatureKind::Wall,
        track(&[[low.x - 40.0, low.y - 0.2], [high.x + 40.0, low.y - 0.2]]),
        Some(3.0),
    );
    let site = checked(site(vec![wall]));
    let plane = placement.coping_elevation - shell.record.waterline;
    let ground = site.ground().height(Point::new(15.0, low.y)).elevation;
    let depth = (ground + 3.0 - plane) / tan(sun.altitude) - 0.2;
    assert!(depth > 0.3, "{depth}");
    let band = block(low.x - 1.0, low.y - 1.0, high.x - low.x + 2.0, 1.0 + depth);
    let expected = crate::geom::boolean::intersection(&water, &band).area() / water.area();
    let found = moment(&site, &day, noon).unwrap();
    let shaded = 1.0 - found.sample.share;
    assert!((shaded - expected).abs() < 2e-4, "{shaded} {expected}");
    assert!((found.on_water.area() / water.area() - shaded).abs() < 1e-6);
    assert_eq!(found.shades.len(), 1);
}

#[test]
fn what_takes_the_sun_is_named_and_what_has_no_height_too() {
    // A wall close by in the east and one behind it, which takes nothing that the first does not take.
    let east = |x: f64, height| {
        thing(
            "wall",
            FeatureKind::Wall,
            track(&[[x, 0.0], [x, 60.0]]),
            Some(height),
        )
    };
    let mut far = east(26.0, 1.0);
    (far.id, far.name) = ("far".to_owned(), "far wall".to_owned());
    let bush = thing(
        "bush",
        FeatureKind::Tree,
        ShapeRecord::Disc {
            at: Point::new(2.0, 2.0),
            radius: 1.0,
        },
        None,
    );
    let (told, codes) = told(site(vec![east(22.0, 3.0), far, bush]));
    assert_eq!(told.shaders[0].name, "wall");
    let wall = &told.shaders[0];
    assert!(
        wall.takes > 3600.0 && (told.daylight - told.in_sun - wall.takes).abs() < 1.0,
        "{wall:?}"
    );
    for shader in &told.shaders[1..] {
        assert!(
            shader.alone < 1.0 && shader.takes < wall.takes,
            "{shader:?}"
        );
    }
    // In the morning alone.
    assert!(wall.between[1] < 12.5 * 60.0 && (wall.between[0] - told.spells[0].from).abs() < 1e-6);
    assert!(codes.contains(&"sun-height-missing"));
}

#[test]
fn a_site_that_may_lie_anywhere_says_what_to_enter() {
    let mut nowhere = site(Vec::new());
    nowhere.origin = None;
    let (none, findings) = sun_on_water(&checked(nowhere), &midsummer());
    assert!(none.is_none());
    assert_eq!(findings[0].code, "sun-no-place");
    assert!(!findings[0].remedy.is_empty());
    let mut empty = site(Vec::new());
    empty.placement = None;
    let (none, findings) = sun_on_water(&checked(empty), &midsummer());
    assert!(none.is_none());
    assert_eq!(findings[0].code, "sun-no-shell");
}

#[test]
fn polar_days_and_nights_and_a_clock_set_wrong() {
    let place = |latitude: f64| EarthPlace {
        origin: GeoOrigin {
            longitude: 0.0,
            latitude: latitude.to_radians(),
        },
        true_north: 0.0,
    };
    let day = |date: &str, offset: &str| SunDay {
        date: date.parse().unwrap(),
        offset: offset.parse().unwrap(),
    };
    let up = |latitude, date, offset| spells(&place(latitude), &day(date, offset));
    assert_eq!(
        up(75.0, "2026-06-21", "0"),
        [Spell {
            from: 0.0,
            to: 1440.0
        }]
    );
    assert_eq!(up(75.0, "2026-12-21", "0"), []);
    assert_eq!(up(40.0, "2026-06-21", "0").len(), 1);
    // Twelve hours out, the day is cut by midnight.
    let cut = up(40.0, "2026-06-21", "12");
    assert_eq!(cut.len(), 2);
    assert!(cut[0].from == 0.0 && cut[1].to == 1440.0);
}

#[test]
fn north_of_the_plan_turns_with_true_north() {
    let mut turned = site(Vec::new());
    let mut lot = (*turned.lot).clone();
    lot.basis.true_north = Some(TURN / 4.0);
    turned.lot = Arc::new(lot);
    let place = EarthPlace::of(&turned).unwrap();
    let sun = SunPosition {
        azimuth: TURN / 2.0,
        altitude: 0.5,
        geometric: 0.5,
    };
    // The sun due south of a site whose true north lies to the east of the plan: it stands in the west of the plan, and
    // shade falls to the east.
    let falls = sun.shade_direction(&place);
    assert!(
        (falls - Vector::new(1.0, 0.0)).length() < 1e-12,
        "{falls:?}"
    );
}

#[test]
fn the_field_of_the_lot_agrees_with_the_water() {
    let tree = thing(
        "oak",
        FeatureKind::Tree,
        ShapeRecord::Disc {
            at: Point::new(15.0, 22.0),
            radius: 4.0,
        },
        Some(9.0),
    );
    let house = thing(
        "house",
        FeatureKind::House,
        ShapeRecord::Area({
            let corners = [[21.0, 24.0], [29.0, 24.0], [29.0, 36.0], [21.0, 36.0]]
                .map(|c| Vertex::line(c[0], c[1]));
            PathRecord::from(&corners[..])
        }),
        Some(7.0),
    );
    let site = checked(site(vec![tree, house]));
    let (told, _) = sun_on_water(&site, &midsummer());
    let told = told.unwrap();
    assert_eq!(told.shaders.len(), 2);
    let (shell, placement) = site.placed_shell().unwrap();
    let plane = placement.coping_elevation - shell.record.waterline;
    let field = SunField::of(&site, &midsummer(), plane).unwrap();
    let (low, high) = shell.footprint.bounds().unwrap();
    let mut points = Vec::new();
    let mut x = low.x + 0.25;
    while x < high.x {
        let mut y = low.y + 0.25;
        while y < high.y {
            if shell.footprint.contains(Point::new(x, y)) {
                points.push(Point::new(x, y));
            }
            y += 0.5;
        }
        x += 0.5;
    }
    let pose = placement.pose();
    let mean = field.mean(points.iter().map(|p| pose.site_from_shell(*p)));
    assert!(
        (mean - told.in_sun).abs() < 0.15 * 3600.0,
        "{mean} {}",
        told.in_sun
    );
}
