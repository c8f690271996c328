//! Where the sun stands, by the solar position algorithm of Reda and Andreas (NREL/TP-560-34302, revised January 2008).
//!
//! The algorithm comes from `solar-positioning`, named here alone and built on `libm`, which gives the same bits on
//! every machine. It holds to 0.0003 degrees. UTC is taken for UT1 (they differ by less than a second), and the
//! difference to terrestrial time comes from the library's own estimate.

use solar_positioning::time::JulianDate;
use solar_positioning::{Location, RefractionCorrection, SolarPositions, delta_t};

use super::calendar::SunDay;
use super::shade::Light;
use crate::geom::Vector;
use crate::math::{TURN, cos, sin};
use crate::site::{GeoOrigin, Site};

/// Minutes of a day.
pub(super) const DAY: f64 = 1440.0;

/// The sun rises and sets when its middle is this far below a level horizon, radians: 34' of refraction and 16' of its
/// own radius, as almanacs have it (50', read in the documentation of `solar-positioning`).
pub const HORIZON: f64 = -50.0 / 60.0 * TURN / 360.0;

/// From one look for a rise or a set to the next, minutes (our choice): a day or a night shorter than that may be missed.
const LOOK: f64 = 10.0;

/// Halvings of [`LOOK`] until a rise is known, to a hundredth of a second.
const HALVINGS: usize = 16;

/// Where on earth, and where true north lies there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EarthPlace {
    /// The site's origin.
    pub origin: GeoOrigin,
    /// True north as a bearing of the site's own frame, radians.
    pub true_north: f64,
}

impl EarthPlace {
    /// That of a site; `None` where nobody said where it lies.
    pub fn of(site: &Site) -> Option<Self> {
        Some(Self {
            origin: site.origin?,
            true_north: site.lot.basis.true_north.unwrap_or(0.0),
        })
    }
}

/// Where the sun stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunPosition {
    /// From true north, clockwise, radians.
    pub azimuth: f64,
    /// Of its middle above a level horizon as it is seen, through a standard atmosphere, radians.
    pub altitude: f64,
    /// The same without the atmosphere.
    pub geometric: f64,
}

impl SunPosition {
    /// Whether it is up, as almanacs count.
    pub fn is_up(&self) -> bool {
        self.geometric > HORIZON
    }

    /// Its light on a level plane at an elevation; shade farther than `reach` from its foot is left out, meters.
    pub fn light(&self, place: &EarthPlace, plane: f64, reach: f64) -> Light {
        Light {
            plane,
            direction: self.shade_direction(place),
            a_meter: self.shade_of_a_meter(),
            reach,
        }
    }

    /// Which way the shade of an upright thing falls, a unit vector of the site's frame.
    pub fn shade_direction(&self, place: &EarthPlace) -> Vector {
        -Vector::along_bearing(place.true_north + self.azimuth)
    }

    /// How long the shade of a meter is on level ground, meters; none where the sun is no higher than the horizon.
    pub fn shade_of_a_meter(&self) -> Option<f64> {
        let height = sin(self.altitude);
        (height > 1e-6).then(|| cos(self.altitude) / height)
    }
}

/// The air and the clock that a position is for.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Circumstances {
    /// Height above the sea, meters. It counts for less than the algorithm's own uncertainty.
    pub height: f64,
    /// Pressure in mbar and temperature in degrees Celsius; the library's standard atmosphere without.
    pub air: Option<[f64; 2]>,
    /// Terrestrial time less UT1, seconds; the library's estimate without.
    pub behind: Option<f64>,
}

/// Where the sun stands over a place so many minutes after midnight of a day's clock.
pub fn sun_at(place: &EarthPlace, day: &SunDay, minutes: f64) -> SunPosition {
    sun_under(place, day, minutes, &Circumstances::default())
}

/// The same under some circumstances.
pub fn sun_under(
    place: &EarthPlace,
    day: &SunDay,
    minutes: f64,
    under: &Circumstances,
) -> SunPosition {
    found(place, day, minutes, under).unwrap_or(SunPosition {
        azimuth: 0.0,
        altitude: -TURN / 4.0,
        geometric: -TURN / 4.0,
    })
}

/// The same; `None` is for what a checked day and place never give.
fn found(
    place: &EarthPlace,
    day: &SunDay,
    minutes: f64,
    under: &Circumstances,
) -> Option<SunPosition> {
    let (year, month, date) = day.date.parts();
    let (year, month, date) = (i32::from(year), u32::from(month), u32::from(date));
    let behind = match under.behind {
        Some(behind) => behind,
        None => delta_t::estimate_from_date(year, month).ok()?,
    };
    let air = match under.air {
        Some([pressure, temperature]) => RefractionCorrection::new(pressure, temperature).ok()?,
        None => RefractionCorrection::standard(),
    };
    let midnight = JulianDate::from_utc(year, month, date, 0, 0, 0.0, behind).ok()?;
    let at = midnight.julian_date() + (minutes - day.offset.minutes()) / DAY;
    let time = JulianDate::new(at, behind).ok()?;
    let location = Location {
        latitude: place.origin.latitude.to_degrees().clamp(-90.0, 90.0),
        longitude: place.origin.longitude.to_degrees().clamp(-180.0, 180.0),
    };
    let at = SolarPositions::new().for_time_from_julian(time).ok()?;
    let bare = at.at(location, under.height, None).ok()?;
    let seen = at.at(location, under.height, Some(air)).ok()?;
    Some(SunPosition {
        azimuth: bare.azimuth().to_radians(),
        altitude: seen.elevation_angle().to_radians(),
        geometric: bare.elevation_angle().to_radians(),
    })
}

/// A stretch of the day with the sun up, minutes after midnight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spell {
    /// It rises then, or is up already at 0.
    pub from: f64,
    /// It sets just after that, or is up still at 1440.
    pub to: f64,
}

/// When the sun is up between one midnight and the next: none in a polar night, two where the clock is set so that it is
/// up at midnight.
pub fn spells(place: &EarthPlace, day: &SunDay) -> Vec<Spell> {
    let up = |minutes: f64| sun_at(place, day, minutes).is_up();
    let mut found: Vec<Spell> = Vec::new();
    let (mut at, mut was) = (0.0, up(0.0));
    if was {
        found.push(Spell { from: 0.0, to: DAY });
    }
    while at < DAY {
        let next = at + LOOK;
        let is = up(next);
        if is != was {
            let (mut before, mut after) = (at, next);
            for _ in 0..HALVINGS {
                let middle = (before + after) / 2.0;
                if up(middle) == was {
                    before = middle;
                } else {
                    after = middle;
                }
            }
            match (is, found.last_mut()) {
                (true, _) => found.push(Spell {
                    from: after,
                    to: DAY,
                }),
                (false, Some(last)) => last.to = before,
                (false, None) => {}
            }
        }
        (at, was) = (next, is);
    }
    found
}
