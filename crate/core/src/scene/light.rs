//! The sun over the scene through one day.

use super::Corner;
use crate::finding::Finding;
use crate::geom::Vector;
use crate::math::{cos, sin};
use crate::site::CheckedSite;
use crate::sun::{EarthPlace, SunDay, clock, spells, sun_at};

/// From one look at the sun to the next, minutes (our choice).
const LOOK: f64 = 10.0;

/// The sun at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct SunLook {
    /// Minutes after midnight.
    pub minutes: f64,
    /// The same by the clock.
    pub words: String,
    /// Toward the sun, a unit vector of the site's frame.
    pub toward: Corner,
}

/// The sun from rise to set.
#[derive(Debug, Clone, PartialEq)]
pub struct SunPath {
    /// The day, `2026-06-21`.
    pub date: String,
    /// Its clock's offset from UTC, `-7:00`.
    pub utc_offset: String,
    /// The looks at it, in order.
    pub looks: Vec<SunLook>,
}

/// That of a site on a day as it was typed; what is empty is the usual. `None` where nobody said where on earth it lies.
///
/// # Errors
/// A day or an offset that is none.
pub fn sun_path(
    site: &CheckedSite,
    date: &str,
    offset: &str,
) -> Result<Option<SunPath>, Vec<Finding>> {
    let Some(place) = EarthPlace::of(site.site()) else {
        return Ok(None);
    };
    let day = SunDay::read(date, offset, &place.origin)?;
    let mut looks = Vec::new();
    for spell in spells(&place, &day) {
        let count = ((spell.to - spell.from) / LOOK).ceil().clamp(1.0, 200.0) as u32;
        for k in 0..=count {
            let minutes = spell.from + (spell.to - spell.from) * f64::from(k) / f64::from(count);
            let sun = sun_at(&place, &day, minutes);
            let (over, level) = (sin(sun.altitude), cos(sun.altitude));
            let way: Vector = -sun.shade_direction(&place);
            looks.push(SunLook {
                minutes,
                words: clock(minutes),
                toward: [way.x * level, way.y * level, over],
            });
        }
    }
    Ok(Some(SunPath {
        date: day.date.to_string(),
        utc_offset: day.offset.to_string(),
        looks,
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::tests::{checked, document};
    use serde_json::json;

    #[test]
    fn the_sun_goes_from_east_by_south_to_west() {
        let mut placed = document();
        placed["origin"] = json!({ "longitude": 0.0, "latitude": 0.7 });
        let path = sun_path(&checked(&placed, None), "", "").unwrap().unwrap();
        let [first, .., last] = path.looks.as_slice() else {
            panic!("it is up all day")
        };
        assert!(first.toward[0] > 0.5 && last.toward[0] < -0.5);
        let noon = path.looks.iter().find(|it| it.minutes > 720.0).unwrap();
        assert!(noon.toward[1] < -0.1 && noon.toward[2] > 0.9, "{noon:?}");
        for look in &path.looks {
            let [x, y, z] = look.toward;
            assert!((x * x + y * y + z * z - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn a_site_anywhere_has_no_sun_and_no_day_is_told() {
        let site = checked(&document(), None);
        assert_eq!(sun_path(&site, "", "").unwrap(), None);
        let mut placed = document();
        placed["origin"] = json!({ "longitude": 0.0, "latitude": 0.7 });
        assert!(sun_path(&checked(&placed, None), "31 Undecember", "").is_err());
    }
}
