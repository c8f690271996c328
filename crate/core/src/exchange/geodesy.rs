//! From degrees on the globe to the site's plane and back.
//!
//! # The plane
//! [`LocalPlane`] touches the WGS 84 ellipsoid at the site's origin; a place on the ellipsoid goes
//! straight down onto it. With the radii of curvature in the prime vertical, nu at the place and
//! nu0 at the origin,
//!
//! ```text
//! east  = nu cos(lat) sin(lon - lon0)
//! north = nu (sin(lat) cos(lat0) - cos(lat) sin(lat0) cos(lon - lon0))
//!         + e2 (nu0 sin(lat0) - nu sin(lat)) cos(lat0)
//! ```
//!
//! which is the orthographic projection of an ellipsoid (the method that the register of the
//! geodetic parameters of the oil and gas producers numbers 9840; from memory, and compared with
//! PROJ in `tests/peers`). Here it is computed with vectors from the center of the earth, so
//! that the poles and the line where the longitude jumps from 180 to -180 are places like any other.
//!
//! # Error
//! A place at the distance s from the origin along the ellipsoid comes out nearer by
//! s^3 / (6 R^2), R about 6,370 km: 4e-9 m at 100 m, 4 micrometres at 1 km, 4 mm at 10 km. Between
//! two places r from the origin a length is short by at most r^2 / (2 R^2) of itself: 1e-8 at 1 km.
//! There and back differ by rounding alone, less than 1e-8 m.
//!
//! # What it is not
//! Lengths on the plane are lengths on the ellipsoid. A tape on ground h meters above it reads
//! h / R more: 16 mm in 100 m at an elevation of 1,000 m.

use crate::geom::{Point, Vector};
use crate::math::{TURN, atan2, cos, hypot, sin};

/// The equatorial radius of WGS 84, meters (its defining value; NGA standard 0036, from memory, and
/// compared with geographiclib in `tests/peers`).
pub const EQUATOR_RADIUS: f64 = 6_378_137.0;

/// The flattening of WGS 84, 1/298.257223563 (the same).
pub const FLATTENING: f64 = 1.0 / 298.257_223_563;

/// The mean radius of the earth, meters, to two digits: what is said of errors goes by it.
pub const ROUND_RADIUS: f64 = 6_370_000.0;

/// Places farther from the origin than this are not taken, meters: the corner of the square that
/// the site's coordinates may fill. The error there is 11 mm.
pub const REACH: f64 = 14_200.0;

/// Square of the first eccentricity.
const E2: f64 = FLATTENING * (2.0 - FLATTENING);

/// A place on the ellipsoid, radians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// East of Greenwich, `-pi..=pi`.
    pub longitude: f64,
    /// North of the equator, `-pi/2..=pi/2`.
    pub latitude: f64,
}

impl Place {
    /// A place told in degrees.
    pub fn degrees(longitude: f64, latitude: f64) -> Self {
        Self {
            longitude: longitude.to_radians(),
            latitude: latitude.to_radians(),
        }
    }

    /// Longitude and latitude, degrees.
    pub fn in_degrees(self) -> [f64; 2] {
        [self.longitude.to_degrees(), self.latitude.to_degrees()]
    }
}

/// The plane that touches the ellipsoid at a site's origin, turned to the site's own north.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LocalPlane {
    /// From the center of the earth to the origin, meters.
    origin: Space,
    /// Unit vectors at the origin.
    east: Space,
    north: Space,
    up: Space,
    /// True north on the site.
    true_north: Vector,
}

impl LocalPlane {
    /// The plane at an origin. `true_north` is the bearing of true north counted in the site's own
    /// bearings, radians; 0 where the site's y points to true north.
    pub fn new(origin: Place, true_north: f64) -> Self {
        let (slat, clat) = (sin(origin.latitude), cos(origin.latitude));
        let (slon, clon) = (sin(origin.longitude), cos(origin.longitude));
        Self {
            origin: Space::on_ellipsoid(origin),
            east: Space([-slon, clon, 0.0]),
            north: Space([-slat * clon, -slat * slon, clat]),
            up: Space([clat * clon, clat * slon, slat]),
            true_north: Vector::along_bearing(true_north),
        }
    }

    /// Where a place lies on the site, meters; `None` farther off than [`REACH`].
    pub fn site_from_globe(&self, place: Place) -> Option<Point> {
        let from_origin = Space::on_ellipsoid(place).minus(self.origin);
        // Written so that what is no number is refused too.
        let near = from_origin.dot(from_origin) <= REACH * REACH;
        if !near {
            return None;
        }
        let (east, north) = (from_origin.dot(self.east), from_origin.dot(self.north));
        // East is a quarter turn clockwise of north.
        let across = self.true_north.left() * -east;
        Some(Point::default() + (self.true_north * north + across))
    }

    /// The place under a point of the site (meters).
    ///
    /// The point goes down by z along the vertical of the origin until it meets the ellipsoid:
    /// a square equation in z, without a linear part at the origin itself.
    pub fn globe_from_site(&self, at: Point) -> Place {
        let v = at - Point::default();
        let (north, east) = (v.dot(self.true_north), -v.dot(self.true_north.left()));
        let level = self.east.times(east).plus(self.north.times(north));
        let (o, q, u) = (
            self.origin.to_sphere(),
            level.to_sphere(),
            self.up.to_sphere(),
        );
        let (a, b, c) = (u.dot(u), o.dot(u) + q.dot(u), q.dot(q));
        let drop = c / (b + (b * b - a * c).max(0.0).sqrt());
        let p = self.origin.plus(level).minus(self.up.times(drop));
        let [x, y, z] = p.0;
        Place {
            longitude: atan2(y, x),
            latitude: atan2(z, (1.0 - E2) * hypot(x, y)),
        }
    }
}

/// A longitude brought to within half a turn of another, radians: so that places on both sides of
/// the 180th meridian lie side by side.
pub fn beside(longitude: f64, other: f64) -> f64 {
    let turns = ((longitude - other) / TURN).round();
    longitude - turns * TURN
}

/// A vector from the center of the earth: to longitude 0 on the equator, to 90 degrees east, to the
/// north pole; meters.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Space([f64; 3]);

impl Space {
    fn on_ellipsoid(place: Place) -> Self {
        let (slat, clat) = (sin(place.latitude), cos(place.latitude));
        let nu = EQUATOR_RADIUS / (1.0 - E2 * slat * slat).sqrt();
        Self([
            nu * clat * cos(place.longitude),
            nu * clat * sin(place.longitude),
            nu * (1.0 - E2) * slat,
        ])
    }

    /// The same, stretched so that the ellipsoid becomes a sphere of radius 1.
    fn to_sphere(self) -> Self {
        let [x, y, z] = self.0;
        let a = 1.0 / EQUATOR_RADIUS;
        Self([x * a, y * a, z * a / (1.0 - FLATTENING)])
    }

    fn dot(self, other: Self) -> f64 {
        let ([a, b, c], [d, e, f]) = (self.0, other.0);
        a * d + b * e + c * f
    }

    fn plus(self, other: Self) -> Self {
        let ([a, b, c], [d, e, f]) = (self.0, other.0);
        Self([a + d, b + e, c + f])
    }

    fn minus(self, other: Self) -> Self {
        self.plus(other.times(-1.0))
    }

    fn times(self, by: f64) -> Self {
        let [a, b, c] = self.0;
        Self([a * by, b * by, c * by])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn there_and_back(plane: &LocalPlane, at: Point) -> f64 {
        let place = plane.globe_from_site(at);
        plane.site_from_globe(place).unwrap().distance(at)
    }

    #[test]
    fn the_origin_is_the_origin() {
        let origin = Place::degrees(-84.3, 36.4);
        let plane = LocalPlane::new(origin, 0.3);
        let at = plane.site_from_globe(origin).unwrap();
        assert!(at.distance(Point::default()) < 1e-9);
        let back = plane.globe_from_site(Point::default());
        assert!((back.longitude - origin.longitude).abs() < 1e-15);
    }

    #[test]
    fn a_degree_measures_what_the_radii_of_curvature_say() {
        // Meridian radius a(1 - e2)/(1 - e2 sin2)^1.5 and prime vertical a/(1 - e2 sin2)^0.5 at 45
        // degrees north, worked out by hand: 6,367,381.816 m and 6,388,838.290 m.
        let plane = LocalPlane::new(Place::degrees(10.0, 45.0), 0.0);
        let second = 1.0 / 3600.0;
        let north = plane
            .site_from_globe(Place::degrees(10.0, 45.0 + second))
            .unwrap();
        assert!((north.y - 6_367_381.816 * second.to_radians()).abs() < 1e-4);
        assert!(north.x.abs() < 1e-9);
        let east = plane
            .site_from_globe(Place::degrees(10.0 + second, 45.0))
            .unwrap();
        let wanted = 6_388_838.290 * core::f64::consts::FRAC_1_SQRT_2 * second.to_radians();
        assert!((east.x - wanted).abs() < 1e-4, "{}", east.x);
    }

    #[test]
    fn true_north_may_lie_anywhere_on_the_site() {
        // The site's own north is 10 degrees west of true north: true north bears N 10 E there.
        let plane = LocalPlane::new(Place::degrees(5.0, 50.0), 10f64.to_radians());
        let at = plane.site_from_globe(Place::degrees(5.0, 50.001)).unwrap();
        assert!(((at - Point::default()).bearing() - 10f64.to_radians()).abs() < 1e-9);
        let at = plane.site_from_globe(Place::degrees(5.001, 50.0)).unwrap();
        assert!(((at - Point::default()).bearing() - 100f64.to_radians()).abs() < 1e-4);
    }

    #[test]
    fn poles_and_the_180th_meridian_are_places_like_any_other() {
        for origin in [
            Place::degrees(180.0, 10.0),
            Place::degrees(-180.0, -40.0),
            Place::degrees(17.0, 90.0),
            Place::degrees(-100.0, -89.999_99),
            Place::degrees(0.0, 0.0),
        ] {
            let plane = LocalPlane::new(origin, 1.0);
            for at in [
                Point::new(50.0, 0.0),
                Point::new(-30.0, 80.0),
                Point::new(-9000.0, 9000.0),
            ] {
                assert!(there_and_back(&plane, at) < 1e-8, "{origin:?} {at:?}");
            }
        }
    }

    #[test]
    fn what_lies_far_off_is_not_taken() {
        let plane = LocalPlane::new(Place::degrees(0.0, 0.0), 0.0);
        assert_eq!(plane.site_from_globe(Place::degrees(180.0, 0.0)), None);
        assert_eq!(plane.site_from_globe(Place::degrees(0.2, 0.0)), None);
        assert_eq!(plane.site_from_globe(Place::degrees(f64::NAN, 0.0)), None);
    }

    #[test]
    fn longitudes_are_brought_side_by_side() {
        let (east, west) = (179.9f64.to_radians(), -179.9f64.to_radians());
        assert!((beside(west, east) - 180.1f64.to_radians()).abs() < 1e-12);
        assert_eq!(beside(0.1, 0.2), 0.1);
    }
}
