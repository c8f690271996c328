//! Points, vectors and the pose that carries the shell's frame onto the site.
//!
//! # Frames
//! *Site*: x east, y north, meters. *Shell*: origin at the middle of the shell, x along
//! its length toward the deep end, y to the left of x. Headings are bearings: clockwise
//! from north, radians.

use core::ops::{Add, Mul, Neg, Sub};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::math::{atan2, cos, hypot, sin, wrap_turn};

/// A position in meters, written `[x, y]` in files.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(type = "[number, number]")
)]
#[serde(from = "[f64; 2]", into = "[f64; 2]")]
#[schemars(with = "[f64; 2]")]
pub struct Point {
    /// East of the origin (site frame) or along the length (shell frame), meters.
    pub x: f64,
    /// North of the origin (site frame) or to the left (shell frame), meters.
    pub y: f64,
}

/// A displacement in meters.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vector {
    /// Eastward part, meters.
    pub x: f64,
    /// Northward part, meters.
    pub y: f64,
}

impl From<[f64; 2]> for Point {
    fn from([x, y]: [f64; 2]) -> Self {
        Self { x, y }
    }
}

impl From<Point> for [f64; 2] {
    fn from(point: Point) -> Self {
        [point.x, point.y]
    }
}

impl Point {
    /// The point (x, y), meters.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Distance to another point, meters.
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The mean of some points; none where there are none.
    pub fn mean(points: impl IntoIterator<Item = Self>) -> Option<Self> {
        let (mut sum, mut count) = (Vector::default(), 0_u32);
        for p in points {
            sum = sum + (p - Self::default());
            count += 1;
        }
        (count > 0).then(|| Self::default() + sum * (1.0 / f64::from(count)))
    }

    /// The point halfway to another.
    pub fn midpoint(self, other: Self) -> Self {
        self + (other - self) * 0.5
    }

    /// Whether both coordinates are finite.
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

impl Vector {
    /// The vector (x, y), meters.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The unit vector along a bearing (radians clockwise from north).
    pub fn along_bearing(bearing: f64) -> Self {
        Self::new(sin(bearing), cos(bearing))
    }

    /// The unit vector at an angle counter-clockwise from +x, radians.
    pub fn at_angle(angle: f64) -> Self {
        Self::new(cos(angle), sin(angle))
    }

    /// Length, meters.
    pub fn length(self) -> f64 {
        hypot(self.x, self.y)
    }

    /// Bearing of this vector, radians clockwise from north, in `0..TURN`.
    pub fn bearing(self) -> f64 {
        wrap_turn(atan2(self.x, self.y))
    }

    /// Angle counter-clockwise from +x, radians, in -pi..=pi.
    pub fn angle(self) -> f64 {
        atan2(self.y, self.x)
    }

    /// Scalar product.
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Cross product (z part): positive when `other` lies counter-clockwise of `self`.
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// This vector turned a quarter turn counter-clockwise.
    pub fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// The unit vector of the same direction; `None` when the length is zero or not finite.
    pub fn unit(self) -> Option<Self> {
        let length = self.length();
        (length > 0.0 && length.is_finite()).then(|| self * (1.0 / length))
    }
}

impl Add<Vector> for Point {
    type Output = Self;
    fn add(self, by: Vector) -> Self {
        Self::new(self.x + by.x, self.y + by.y)
    }
}

impl Sub<Vector> for Point {
    type Output = Self;
    fn sub(self, by: Vector) -> Self {
        Self::new(self.x - by.x, self.y - by.y)
    }
}

impl Sub for Point {
    type Output = Vector;
    fn sub(self, from: Self) -> Vector {
        Vector::new(self.x - from.x, self.y - from.y)
    }
}

impl Add for Vector {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Vector {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Vector {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by)
    }
}

impl Neg for Vector {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}

/// The corners of a rectangle: from one of them `along` meters on a bearing (radians clockwise
/// from north), then `across` meters to the left of that. Counter-clockwise where both are
/// positive.
pub fn rectangle(corner: Point, bearing: f64, along: f64, across: f64) -> [Point; 4] {
    let unit = Vector::along_bearing(bearing);
    let (on, aside) = (unit * along, unit.left() * across);
    [corner, corner + on, corner + on + aside, corner + aside]
}

/// Where a shell-frame figure lies on the site: mirrored across its length or not,
/// turned so that its x axis points along `heading`, then moved so that its origin is `at`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pose {
    /// Site position of the shell frame's origin, meters.
    pub at: Point,
    /// Bearing of the shell's x axis, radians clockwise from north.
    pub heading: f64,
    /// Whether left and right are exchanged.
    pub mirrored: bool,
    axis: Vector,
}

impl Pose {
    /// A pose from its parts.
    pub fn new(at: Point, heading: f64, mirrored: bool) -> Self {
        Self {
            at,
            heading,
            mirrored,
            axis: Vector::along_bearing(heading),
        }
    }

    /// Carries a vector of the shell frame into the site frame.
    pub fn site_from_shell_vector(&self, v: Vector) -> Vector {
        let side = if self.mirrored { -v.y } else { v.y };
        self.axis * v.x + self.axis.left() * side
    }

    /// Carries a point of the shell frame into the site frame.
    pub fn site_from_shell(&self, p: Point) -> Point {
        self.at + self.site_from_shell_vector(Vector::new(p.x, p.y))
    }

    /// Carries a point of the site frame into the shell frame.
    pub fn shell_from_site(&self, p: Point) -> Point {
        let d = p - self.at;
        let side = d.dot(self.axis.left());
        Point::new(d.dot(self.axis), if self.mirrored { -side } else { side })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::TURN;

    #[test]
    fn a_bearing_runs_clockwise_from_north() {
        let east = Vector::along_bearing(TURN / 4.0);
        assert!((east.x - 1.0).abs() < 1e-15 && east.y.abs() < 1e-15);
        assert!((Vector::new(-1.0, 0.0).bearing() - 0.75 * TURN).abs() < 1e-15);
    }

    #[test]
    fn a_rectangle_leans_on_its_bearing() {
        let [a, b, c, d] = rectangle(Point::new(1.0, 2.0), TURN / 4.0, 6.0, 3.0);
        let expected = [(1.0, 2.0), (7.0, 2.0), (7.0, 5.0), (1.0, 5.0)];
        for (corner, (x, y)) in [a, b, c, d].into_iter().zip(expected) {
            assert!(corner.distance(Point::new(x, y)) < 1e-12);
        }
    }

    #[test]
    fn a_pose_and_its_inverse_meet() {
        for mirrored in [false, true] {
            let pose = Pose::new(Point::new(3.0, -2.0), 0.7, mirrored);
            let p = Point::new(1.25, 4.5);
            let back = pose.shell_from_site(pose.site_from_shell(p));
            assert!(back.distance(p) < 1e-12);
        }
    }

    #[test]
    fn heading_east_keeps_the_shell_frame_upright() {
        let pose = Pose::new(Point::new(10.0, 20.0), TURN / 4.0, false);
        let p = pose.site_from_shell(Point::new(2.0, 1.0));
        assert!(p.distance(Point::new(12.0, 21.0)) < 1e-12);
    }
}
