//! A picture laid over the plan by two of its points.

use serde::{Deserialize, Serialize};

use super::Picture;
use crate::finding::{Finding, Message};
use crate::geom::Point;
use crate::math::{cos, sin, wrap_turn};
use crate::units::{Measure, System, out_of_range};

/// The two points must lie at least this many pixels apart. Arbitrary: a point is hit to about a
/// pixel, and the scale would be off by more than a twentieth.
const FEWEST_PIXELS: f64 = 20.0;

/// The distances a scale may be taken from, meters.
const DISTANCES: core::ops::RangeInclusive<f64> = 0.1..=10_000.0;

/// What is known of two points of a picture, told by where they lie on the plan now.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Fit {
    /// The point that stays where it is, site meters.
    pub first: Point,
    /// The other, site meters.
    pub second: Point,
    /// How far apart they are on the ground, meters.
    #[serde(default)]
    pub distance: Option<f64>,
    /// The bearing from the first to the second, radians clockwise from north.
    #[serde(default)]
    pub bearing: Option<f64>,
}

impl Fit {
    /// The picture scaled and turned about the first point, so that the second comes to lie at
    /// the distance and on the bearing that are known. What is not known stays as it is.
    ///
    /// # Errors
    /// When the picture is locked, the points are too close to tell anything, or the distance is
    /// none a lot can have.
    pub fn lay(&self, picture: &Picture) -> Result<Picture, Finding> {
        let fault =
            |check, message: Message, remedy: &'static str| Finding::fault(check, message, remedy);
        if picture.locked {
            return Err(fault(
                "picture-locked",
                "The picture is locked where it is.".into(),
                "Unlock it to scale or turn it.",
            ));
        }
        let known = self.second - self.first;
        let apart = known.length();
        if !(FEWEST_PIXELS..=f64::MAX).contains(&(apart / picture.scale)) {
            return Err(fault(
                "points-too-close",
                "The two points lie so close together in the picture that they tell no scale."
                    .into(),
                "Take two points far apart: the farther, the better.",
            ));
        }
        if let Some(distance) = self.distance.filter(|it| !DISTANCES.contains(it)) {
            let both = [System::Feet, System::Metres];
            let what = "The known distance";
            return Err(fault(
                "known-distance",
                out_of_range(what, Measure::LongLength, distance, &DISTANCES, &both).into(),
                "Give the distance along the ground between the two points.",
            ));
        }
        let grown = self.distance.map_or(1.0, |distance| distance / apart);
        let turned = self
            .bearing
            .map_or(0.0, |bearing| bearing - known.bearing());
        let arm = (picture.at - self.first) * grown;
        let (across, along) = (cos(turned), sin(turned));
        Ok(Picture {
            at: Point::new(
                self.first.x + arm.x * across + arm.y * along,
                self.first.y - arm.x * along + arm.y * across,
            ),
            scale: picture.scale * grown,
            heading: wrap_turn(picture.heading + turned),
            ..picture.clone()
        })
    }
}

/// Where a new picture of so many pixels is laid, and at which scale (meters to the pixel), until
/// somebody scales it: over the middle of an area, covering it.
///
/// `low` and `high`: the corners of the box round the area, site meters.
pub fn first_place(width: u32, height: u32, low: Point, high: Point) -> (Point, f64) {
    let across = (high.x - low.x) / f64::from(width.max(1));
    let along = (high.y - low.y) / f64::from(height.max(1));
    (low.midpoint(high), across.max(along).clamp(1e-5, 10.0))
}

impl Picture {
    /// The corners of the picture on the site, from its upper left one clockwise as it is seen.
    pub fn corners(&self) -> [Point; 4] {
        [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(|(x, y)| {
            self.site_from_pixel(x * f64::from(self.width), y * f64::from(self.height))
        })
    }

    /// Where a place in the picture lies on the site; pixels count from its upper left corner,
    /// to the right and down.
    pub fn site_from_pixel(&self, x: f64, y: f64) -> Point {
        let up = crate::geom::Vector::along_bearing(self.heading) * self.scale;
        let right = -up.left();
        let (half_wide, half_tall) = (f64::from(self.width) / 2.0, f64::from(self.height) / 2.0);
        self.at + right * (x - half_wide) + up * (half_tall - y)
    }

    /// Whether a point of the site lies on the picture.
    pub fn covers(&self, place: Point) -> bool {
        let up = crate::geom::Vector::along_bearing(self.heading);
        let off = place - self.at;
        let within = |off: f64, pixels: u32| off.abs() <= self.scale * f64::from(pixels) / 2.0;
        within(off.dot(up), self.height) && within(off.dot(up.left()), self.width)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::TURN;
    use crate::site::PictureMedia;

    /// 400 by 200 pixels of 0.1 m, its upper edge facing east, about (50, 20).
    fn plat() -> Picture {
        Picture {
            name: "Plat".into(),
            media: PictureMedia::Png,
            data: "".into(),
            width: 400,
            height: 200,
            at: Point::new(50.0, 20.0),
            scale: 0.1,
            heading: TURN / 4.0,
            opacity: 1.0,
            hidden: false,
            locked: false,
        }
    }

    fn near(a: Point, x: f64, y: f64) -> bool {
        a.distance(Point::new(x, y)) < 1e-9
    }

    #[test]
    fn a_picture_lies_where_its_frame_says() {
        let plat = plat();
        // The upper edge faces east: pixels run to the right southward, and down westward.
        let [upper_left, upper_right, lower_right, _] = plat.corners();
        assert!(near(upper_left, 60.0, 40.0), "{upper_left:?}");
        assert!(near(upper_right, 60.0, 0.0), "{upper_right:?}");
        assert!(near(lower_right, 40.0, 0.0), "{lower_right:?}");
        assert!(plat.covers(Point::new(59.9, 0.1)) && plat.covers(plat.at));
        assert!(!plat.covers(Point::new(60.1, 20.0)) && !plat.covers(Point::new(50.0, 40.1)));
    }

    #[test]
    fn the_known_distance_comes_out_and_the_first_point_stays() {
        // Two pixels (100, 50) and (300, 50): 200 pixels, 20 m apart along the picture.
        let plat = plat();
        let (first, second) = (
            plat.site_from_pixel(100.0, 50.0),
            plat.site_from_pixel(300.0, 50.0),
        );
        let fit = Fit {
            first,
            second,
            distance: Some(30.48),
            bearing: None,
        };
        let laid = fit.lay(&plat).unwrap();
        assert!((laid.scale - 30.48 / 200.0).abs() < 1e-12);
        assert_eq!(laid.heading, plat.heading);
        assert!(near(laid.site_from_pixel(100.0, 50.0), first.x, first.y));
        let fit = Fit {
            bearing: Some(TURN / 8.0),
            ..fit
        };
        let laid = fit.lay(&plat).unwrap();
        let arm = laid.site_from_pixel(300.0, 50.0) - laid.site_from_pixel(100.0, 50.0);
        assert!((arm.length() - 30.48).abs() < 1e-9 && (arm.bearing() - TURN / 8.0).abs() < 1e-12);
        assert!(near(laid.site_from_pixel(100.0, 50.0), first.x, first.y));
    }

    #[test]
    fn what_tells_no_scale_is_refused() {
        let fit = |apart: f64, distance: f64| Fit {
            first: Point::new(50.0, 20.0),
            second: Point::new(50.0 + apart, 20.0),
            distance: Some(distance),
            bearing: None,
        };
        let refused = |fit: Fit, plat: &Picture| fit.lay(plat).unwrap_err().code;
        assert_eq!(refused(fit(0.0, 10.0), &plat()), "points-too-close");
        assert_eq!(refused(fit(1.9, 10.0), &plat()), "points-too-close");
        assert_eq!(refused(fit(f64::NAN, 10.0), &plat()), "points-too-close");
        assert_eq!(refused(fit(5.0, 0.0), &plat()), "known-distance");
        assert_eq!(refused(fit(5.0, f64::NAN), &plat()), "known-distance");
        let locked = Picture {
            locked: true,
            ..plat()
        };
        assert_eq!(refused(fit(5.0, 10.0), &locked), "picture-locked");
    }
}
