//! Areas bounded by straight edges: rings, polygons with holes, and sets of polygons.
//!
//! All sums run relative to the first point of a ring, so that an origin a kilometre away
//! costs no digits. Nothing here panics on coordinates that are not finite: the answer is
//! then not finite either (or `false`, or `None`).

use super::point::{Point, Pose, Vector};
use crate::math::{greater, lesser, wrap_half_turn};

/// A closed ring of straight edges (the last point joins the first; it is not repeated).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ring(pub Vec<Point>);

/// An outer ring (counter-clockwise) and its holes (clockwise).
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polygon {
    /// The outer ring, counter-clockwise.
    pub outer: Ring,
    /// The holes, clockwise.
    pub holes: Vec<Ring>,
}

/// Any number of polygons that do not overlap. Empty is a valid region.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Region {
    /// The polygons, outer rings counter-clockwise.
    pub polygons: Vec<Polygon>,
}

impl Ring {
    /// Its corners, the first one again at the end.
    pub fn closed(&self) -> Vec<Point> {
        self.0.iter().chain(self.0.first()).copied().collect()
    }

    /// A chain walked there and back: a ring without area.
    pub fn there_and_back(chain: &[Point]) -> Self {
        let inner = chain.len().saturating_sub(2);
        let back = chain.iter().rev().skip(1).take(inner);
        Self(chain.iter().chain(back).copied().collect())
    }

    /// Signed area, m2; positive counter-clockwise.
    pub fn signed_area(&self) -> f64 {
        self.moments().0
    }

    /// Length round the ring, meters.
    pub fn perimeter(&self) -> f64 {
        self.edges().map(|(a, b)| a.distance(b)).sum()
    }

    /// The part where a height that varies evenly over the plan is not negative. Where the ring
    /// is not convex that leaves edges that run back and forth; they enclose nothing.
    pub fn where_positive(&self, height: impl Fn(Point) -> f64) -> Self {
        let mut kept = Vec::with_capacity(self.0.len() + 2);
        for (from, to) in self.edges() {
            let (a, b) = (height(from), height(to));
            if a >= 0.0 {
                kept.push(from);
            }
            if (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0) {
                kept.push(from + (to - from) * (a / (a - b)));
            }
        }
        Self(kept)
    }

    /// The edges in order, each as its two ends.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let closing = self.0.last().copied().zip(self.0.first().copied());
        let pairs = self.0.array_windows().map(|[a, b]| (*a, *b));
        pairs.chain(closing)
    }

    /// How far one turns in all when walking round it, to the left or to the right alike, radians: a whole turn for a
    /// convex ring, more the oftener it turns back.
    pub fn turning(&self) -> f64 {
        let directions: Vec<f64> = self.edges().map(|(a, b)| (b - a).angle()).collect();
        let after = directions.iter().cycle().skip(1);
        let turns = directions.iter().zip(after);
        turns.map(|(a, b)| wrap_half_turn(b - a).abs()).sum()
    }

    /// The same ring walked the other way round.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self(self.0.iter().rev().copied().collect())
    }

    /// How many times the ring winds counter-clockwise about `p` (a point on the ring may be
    /// counted either way).
    pub fn winding(&self, p: Point) -> i32 {
        self.edges().map(|(a, b)| winding(a, b, p)).sum()
    }

    /// Signed area and first moment of area about the site origin (m2, m3, m3).
    fn moments(&self) -> (f64, Vector) {
        let Some(&origin) = self.0.first() else {
            return (0.0, Vector::default());
        };
        let mut twice = 0.0;
        let mut six = Vector::default();
        for (a, b) in self.edges() {
            let (a, b) = (a - origin, b - origin);
            let cross = a.cross(b);
            twice += cross;
            six = six + (a + b) * cross;
        }
        let area = twice / 2.0;
        let moment = six * (1.0 / 6.0) + Vector::new(origin.x, origin.y) * area;
        (area, moment)
    }
}

impl Region {
    /// The region inside one counter-clockwise ring.
    pub fn from_ring(outer: Ring) -> Self {
        Self {
            polygons: vec![Polygon {
                outer,
                holes: Vec::new(),
            }],
        }
    }

    /// All rings, outer ones and holes.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        self.polygons
            .iter()
            .flat_map(|p| core::iter::once(&p.outer).chain(&p.holes))
    }

    /// Whether there is nothing in this region.
    pub fn is_empty(&self) -> bool {
        self.polygons.is_empty()
    }

    /// Area, m2.
    pub fn area(&self) -> f64 {
        self.rings().map(Ring::signed_area).sum()
    }

    /// Length round all rings, meters.
    pub fn perimeter(&self) -> f64 {
        self.rings().map(Ring::perimeter).sum()
    }

    /// Centroid of the area; `None` when there is none.
    pub fn centroid(&self) -> Option<Point> {
        let (area, moment) = self
            .rings()
            .map(Ring::moments)
            .reduce(|(a, m), (b, n)| (a + b, m + n))?;
        let centroid = moment * (1.0 / area);
        let centroid = Point::new(centroid.x, centroid.y);
        centroid.is_finite().then_some(centroid)
    }

    /// Whether the point lies inside (boundary points may go either way).
    pub fn contains(&self, p: Point) -> bool {
        self.rings().map(|ring| ring.winding(p)).sum::<i32>() > 0
    }

    /// Smallest upright rectangle round the region: its lower left and upper right corners.
    pub fn bounds(&self) -> Option<(Point, Point)> {
        let points = self.polygons.iter().flat_map(|p| &p.outer.0);
        bounds(points.copied())
    }

    /// This region carried from the shell's frame to the site's (rings keep their sense).
    pub fn posed(&self, pose: &Pose) -> Self {
        self.carried(pose.mirrored, |p| pose.site_from_shell(p))
    }

    /// This region carried from the site's frame to the shell's (rings keep their sense).
    pub fn shell_from_site(&self, pose: &Pose) -> Self {
        self.carried(pose.mirrored, |p| pose.shell_from_site(p))
    }

    fn carried(&self, mirrored: bool, place: impl Fn(Point) -> Point) -> Self {
        let carry = |ring: &Ring| {
            let mut points: Vec<Point> = ring.0.iter().map(|p| place(*p)).collect();
            if mirrored {
                points.reverse();
            }
            Ring(points)
        };
        let polygons = self
            .polygons
            .iter()
            .map(|polygon| Polygon {
                outer: carry(&polygon.outer),
                holes: polygon.holes.iter().map(carry).collect(),
            })
            .collect();
        Self { polygons }
    }
}

/// What an edge adds to the times its ring winds counter-clockwise about a point: 1 where it passes
/// the point's height on the right going up, -1 going down.
pub(super) fn winding(a: Point, b: Point, p: Point) -> i32 {
    let up = b.y > p.y;
    // Most edges lie above the point or below it.
    if (a.y > p.y) == up {
        return 0;
    }
    let aside = (b - a).cross(p - a);
    if up {
        i32::from(aside > 0.0)
    } else {
        -i32::from(aside < 0.0)
    }
}

/// Smallest upright rectangle round some points: its lower left and upper right corners.
/// `None` when there are none.
pub fn bounds(points: impl IntoIterator<Item = Point>) -> Option<(Point, Point)> {
    points.into_iter().fold(None, |bounds, p| {
        let (low, high) = bounds.unwrap_or((p, p));
        Some((
            Point::new(lesser(low.x, p.x), lesser(low.y, p.y)),
            Point::new(greater(high.x, p.x), greater(high.y, p.y)),
        ))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::TURN;

    fn rectangle(x: f64, y: f64, w: f64, h: f64) -> Ring {
        Ring(vec![
            Point::new(x, y),
            Point::new(x + w, y),
            Point::new(x + w, y + h),
            Point::new(x, y + h),
        ])
    }

    /// 10 x 6 with a 2 x 2 hole at its lower left.
    fn with_hole() -> Region {
        let mut region = Region::from_ring(rectangle(0.0, 0.0, 10.0, 6.0));
        region.polygons[0]
            .holes
            .push(rectangle(1.0, 1.0, 2.0, 2.0).reversed());
        region
    }

    #[test]
    fn a_hole_counts_against_the_area() {
        let region = with_hole();
        assert!((region.area() - 56.0).abs() < 1e-12);
        assert!((region.perimeter() - 40.0).abs() < 1e-12);
        let c = region.centroid().unwrap();
        assert!((c.x - (60.0 * 5.0 - 4.0 * 2.0) / 56.0).abs() < 1e-12);
        assert!((c.y - (60.0 * 3.0 - 4.0 * 2.0) / 56.0).abs() < 1e-12);
    }

    #[test]
    fn a_point_in_the_hole_is_outside() {
        let region = with_hole();
        assert!(region.contains(Point::new(5.0, 3.0)));
        assert!(!region.contains(Point::new(2.0, 2.0)));
        assert!(!region.contains(Point::new(-1.0, 3.0)));
        assert!(!region.contains(Point::new(f64::NAN, 3.0)));
    }

    #[test]
    fn a_far_origin_costs_no_digits() {
        let ring = rectangle(9_000.0, -9_000.0, 0.1, 0.1);
        assert!((ring.signed_area() - 0.01).abs() < 1e-12);
        let c = Region::from_ring(ring).centroid().unwrap();
        assert!(c.distance(Point::new(9_000.05, -8_999.95)) < 1e-9);
    }

    #[test]
    fn an_empty_region_has_no_place() {
        let empty = Region::default();
        assert_eq!(empty.area(), 0.0);
        assert!(empty.centroid().is_none() && empty.bounds().is_none() && empty.is_empty());
        assert!(Region::from_ring(Ring::default()).centroid().is_none());
    }

    #[test]
    fn a_mirrored_pose_keeps_the_sense_of_rings() {
        let region = with_hole();
        let posed = region.posed(&Pose::new(Point::new(100.0, 50.0), TURN / 7.0, true));
        assert!((posed.area() - region.area()).abs() < 1e-9);
        assert!(posed.polygons[0].outer.signed_area() > 0.0);
        assert!(posed.polygons[0].holes[0].signed_area() < 0.0);
    }

    #[test]
    fn a_region_comes_back_from_the_site() {
        let region = with_hole();
        for mirrored in [false, true] {
            let pose = Pose::new(Point::new(100.0, 50.0), TURN / 7.0, mirrored);
            let back = region.posed(&pose).shell_from_site(&pose);
            let pairs = back.rings().zip(region.rings());
            for (a, b) in pairs.flat_map(|(a, b)| a.0.iter().zip(&b.0)) {
                assert!(a.distance(*b) < 1e-9);
            }
        }
    }
}
