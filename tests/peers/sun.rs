//! Where the sun stands against pvlib's own writing of the same published algorithm, over a year and all latitudes.
//!
//! Source: computed independently with the version named in `sun_cases.json`, which `make_sun.py` builds and
//! `check_sun.py` keeps honest. The two share no code; both follow Reda and Andreas (NREL/TP-560-34302), which claims
//! 0.0003 degrees.

use batterboard_core::math::{cos, wrap_half_turn};
use batterboard_core::site::GeoOrigin;
use batterboard_core::sun::{EarthPlace, SunDay, sun_at};
use serde::Deserialize;

/// Of two writings of one algorithm whose estimates of terrestrial time differ by seconds, degrees.
const AGREE: f64 = 0.000_3;

#[derive(Deserialize)]
struct Peers {
    source: String,
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    latitude: f64,
    longitude: f64,
    date: String,
    minutes: f64,
    azimuth: f64,
    seen: f64,
    bare: f64,
}

#[test]
fn the_sun_stands_where_pvlib_has_it() {
    let peers: Peers = serde_json::from_str(include_str!("sun_cases.json")).unwrap();
    assert!(peers.source.starts_with("pvlib"));
    assert_eq!(peers.cases.len(), 1440);
    let mut up = 0;
    for case in &peers.cases {
        let place = EarthPlace {
            origin: GeoOrigin {
                longitude: case.longitude.to_radians(),
                latitude: case.latitude.to_radians(),
            },
            true_north: 0.0,
        };
        let day = SunDay {
            date: case.date.parse().unwrap(),
            offset: "0".parse().unwrap(),
        };
        let sun = sun_at(&place, &day, case.minutes);
        let off = |what: &str, ours: f64, theirs: f64| {
            let off = (ours - theirs).abs();
            assert!(
                off < AGREE,
                "{what} at {} {} on {} {}: {ours}, pvlib {theirs}",
                case.latitude,
                case.longitude,
                case.date,
                case.minutes
            );
        };
        off(
            "altitude without air",
            sun.geometric.to_degrees(),
            case.bare,
        );
        // Near the horizon the two cut the refraction off at other altitudes; there is none well below it.
        if case.bare > -0.8 {
            up += 1;
            off("altitude", sun.altitude.to_degrees(), case.seen);
        }
        // An azimuth counts for less the higher the sun stands.
        let turn = wrap_half_turn(sun.azimuth - case.azimuth.to_radians()).to_degrees();
        off("azimuth", turn * cos(sun.geometric), 0.0);
    }
    assert!(up > 600, "{up}");
}
