//! Circular curves as plats describe them (arc definition).

use crate::geom::path::bulge_of_angle;
use crate::math::{TURN, asin, cos, sin, tan};

/// The elements of a circular curve. Lengths in meters, or in whatever unit they came in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elements {
    /// Radius.
    pub radius: f64,
    /// Central angle, radians, always positive.
    pub delta: f64,
    /// Length along the arc.
    pub arc: f64,
    /// Straight length from end to end.
    pub chord: f64,
    /// From either end to the meeting point of the tangents; `None` from a half circle on.
    pub tangent: Option<f64>,
    /// From the meeting point of the tangents to the arc; `None` from a half circle on.
    pub external: Option<f64>,
    /// From the middle of the chord to the middle of the arc.
    pub middle: f64,
}

impl Elements {
    /// From radius and central angle (radians). `None` unless the radius is above zero and
    /// the angle between zero and a full turn.
    pub fn from_angle(radius: f64, delta: f64) -> Option<Self> {
        if !(radius.is_finite() && radius > 0.0 && delta > 0.0 && delta < TURN) {
            return None;
        }
        let half = delta / 2.0;
        let meets = delta < TURN / 2.0;
        Some(Self {
            radius,
            delta,
            arc: radius * delta,
            chord: 2.0 * radius * sin(half),
            tangent: meets.then(|| radius * tan(half)),
            external: meets.then(|| radius * (1.0 / cos(half) - 1.0)),
            middle: radius * (1.0 - cos(half)),
        })
    }

    /// From chord and radius; the longer arc when `long_way`. `None` when no arc of that
    /// radius spans the chord.
    pub fn from_chord(chord: f64, radius: f64, long_way: bool) -> Option<Self> {
        if !chord_fits(chord, radius) {
            return None;
        }
        Self::from_angle(radius, angle_of_chord(chord, radius, long_way))
    }
}

/// Whether an arc of this radius spans the chord. A radius short of half the chord by one
/// part in a million is a half circle: plats round both.
pub(super) fn chord_fits(chord: f64, radius: f64) -> bool {
    chord > 0.0 && chord.is_finite() && radius.is_finite() && radius >= chord / 2.0 * (1.0 - 1e-6)
}

/// Central angle of the arc over a chord, radians.
fn angle_of_chord(chord: f64, radius: f64, long_way: bool) -> f64 {
    let short = 2.0 * asin(chord / (2.0 * radius));
    if long_way { TURN - short } else { short }
}

/// The bulge of the arc over a chord, positive.
pub(super) fn bulge_of_chord(chord: f64, radius: f64, long_way: bool) -> f64 {
    bulge_of_angle(angle_of_chord(chord, radius, long_way))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn both_ways_in_agree() {
        let by_angle = Elements::from_angle(25.0, TURN / 4.0).unwrap();
        let by_chord = Elements::from_chord(by_angle.chord, 25.0, false).unwrap();
        assert!((by_angle.arc - by_chord.arc).abs() < 1e-12);
        let long = Elements::from_chord(by_angle.chord, 25.0, true).unwrap();
        assert!((long.arc + by_chord.arc - 25.0 * TURN).abs() < 1e-12);
        assert_eq!(long.tangent, None);
    }

    #[test]
    fn a_chord_longer_than_the_circle_is_refused() {
        assert_eq!(Elements::from_chord(10.0, 4.9, false), None);
        assert!(Elements::from_chord(10.0, 4.999_999, false).is_some());
        assert_eq!(Elements::from_angle(f64::NAN, 1.0), None);
        assert_eq!(Elements::from_angle(1.0, 0.0), None);
    }
}
