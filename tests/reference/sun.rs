//! The sun's position and its day against published figures.

use batterboard_core::site::GeoOrigin;
use batterboard_core::sun::{Circumstances, EarthPlace, SunDay, spells, sun_at, sun_under};

use super::close;

fn place(latitude: f64, longitude: f64) -> EarthPlace {
    EarthPlace {
        origin: GeoOrigin {
            longitude: longitude.to_radians(),
            latitude: latitude.to_radians(),
        },
        true_north: 0.0,
    }
}

fn day(date: &str, offset: &str) -> SunDay {
    SunDay {
        date: date.parse().unwrap(),
        offset: offset.parse().unwrap(),
    }
}

/// The worked example of Reda and Andreas, "Solar Position Algorithm for Solar Radiation Applications", NREL/TP-560-34302
/// (revised January 2008), Appendix A.5: 17 October 2003, 12:30:30 at UTC-7, latitude 39.742476, longitude -105.1786:
/// zenith 50.11162 degrees, azimuth 194.34024, topocentric elevation without the air 39.872046.
///
/// The figures were read as the test suites of several other implementations quote them, not in the report itself.
#[test]
fn the_worked_example_of_the_published_algorithm() {
    let under = Circumstances {
        height: 1830.14,
        air: Some([820.0, 11.0]),
        behind: Some(67.0),
    };
    let place = place(39.742476, -105.1786);
    let day = day("2003-10-17", "-7");
    let sun = sun_under(&place, &day, 12.0 * 60.0 + 30.5, &under);
    close("azimuth, deg", sun.azimuth.to_degrees(), 194.34024, 6e-6);
    close(
        "zenith, deg",
        90.0 - sun.altitude.to_degrees(),
        50.11162,
        6e-6,
    );
    close(
        "elevation without air, deg",
        sun.geometric.to_degrees(),
        39.872046,
        1e-6,
    );
    // What the planner takes where nobody says (sea level, 1013.25 mbar, 15 degrees, its own estimate of the clock) moves
    // the sun by no more than a hundredth of its width.
    let usual = sun_at(&place, &day, 12.0 * 60.0 + 30.5);
    close("azimuth, deg", usual.azimuth.to_degrees(), 194.34024, 0.005);
    close(
        "zenith, deg",
        90.0 - usual.altitude.to_degrees(),
        50.11162,
        0.005,
    );
}

/// Sunrise and sunset of the worked example, as the program that was published with the report prints them: 06:12:43 and
/// 17:20:19 (from memory). It finds both in the day of UTC, whose sunset is that of the evening before by the clock there,
/// by its own interpolation and for its own height and air.
#[test]
fn the_day_of_the_worked_example() {
    let of = |date: &str| spells(&place(39.742476, -105.1786), &day(date, "-7"));
    let clock = |h: f64, m: f64, s: f64| 60.0 * h + m + s / 60.0;
    close(
        "sunrise, min",
        of("2003-10-17")[0].from,
        clock(6.0, 12.0, 43.0),
        0.15,
    );
    close(
        "sunset, min",
        of("2003-10-16")[0].to,
        clock(17.0, 20.0, 19.0),
        0.15,
    );
}
