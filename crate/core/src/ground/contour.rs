//! Contours: where the surface stands at whole multiples of an interval.
//!
//! # Corners exactly on a level
//! A corner that stands on the level (within a micrometre) counts as standing above it. So
//! every triangle is crossed once or not at all: a contour may run through a corner or along
//! an edge, a flat triangle on the level is land above it, and around it the contour goes along
//! the side where the ground falls away. Chains never branch: they end at the edge of the
//! surface or close.
//!
//! Every chain keeps the higher ground to its left.

use super::facet::Facet;
use crate::geom::{Point, Region, Ring, Vector};
use crate::order::{put_in_order, put_in_order_by};

/// A corner nearer to a level than this stands on it, meters: elevations are told to the
/// millimetre, and feet turned into meters are off by less than this.
const ON_LEVEL: f64 = 1e-6;

/// Every how many contours one is an index contour, drawn heavier (drafting convention).
const INDEX: i64 = 5;

/// The most levels that are traced; see [`drawn_interval`].
pub const LEVEL_LIMIT: f64 = 100.0;

/// One contour line.
#[derive(Debug, Clone, PartialEq)]
pub struct Contour {
    /// Its elevation, meters.
    pub elevation: f64,
    /// Whether it is drawn heavier: every fifth, counted from the datum.
    pub index: bool,
    /// Its points, site meters, higher ground to the left; a closed one ends where it began.
    pub points: Vec<Point>,
}

impl Contour {
    /// Whether it comes back to its start.
    pub fn is_closed(&self) -> bool {
        self.points.len() > 2 && self.points.first() == self.points.last()
    }

    /// Its length in plan, meters.
    pub fn length(&self) -> f64 {
        let next = self.points.iter().skip(1);
        self.points
            .iter()
            .zip(next)
            .map(|(a, b)| a.distance(*b))
            .sum()
    }
}

/// The interval that is drawn when another is asked for: the same, or so many times five of it
/// that no more than [`LEVEL_LIMIT`] levels lie in the relief. Meters.
pub fn drawn_interval(asked: f64, relief: f64) -> f64 {
    let mut interval = asked;
    while relief > LEVEL_LIMIT * interval && interval > 0.0 {
        interval *= INDEX as f64;
    }
    interval
}

/// The least interval of a series 1, 2, 5, 10 ... (times `unit` meters, times a power of ten)
/// at which a relief of so many meters has no more than twelve levels.
///
/// Twelve: a plan with fewer than a dozen contours can be read without counting (our choice).
pub fn proposed_interval(relief: f64, unit: f64) -> f64 {
    let mut interval = unit / 10.0;
    let steps = [2.0, 2.5, 2.0];
    let mut next = steps.iter().cycle();
    while relief > 12.0 * interval && interval < 1000.0 * unit {
        interval *= next.next().copied().unwrap_or(2.0);
    }
    interval
}

/// Every contour of these triangles, by elevation, then by place.
///
/// `interval`: meters, above zero. The triangles must meet in whole edges, as those of a ground
/// do, and turn counter-clockwise.
pub fn contours<'a>(
    facets: impl Iterator<Item = &'a Facet> + Clone,
    interval: f64,
) -> Vec<Contour> {
    if !(interval > 0.0 && interval.is_finite()) {
        return Vec::new();
    }
    let mut corners: Vec<Point> = facets.clone().flat_map(|f| f.corners).collect();
    put_in_order(&mut corners, |a, b| {
        a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
    });
    corners.dedup();
    let mut steps = Vec::new();
    for facet in facets {
        cross(facet, interval, &corners, &mut steps);
    }
    put_in_order_by(&mut steps, |step| (step.level, step.enter));
    let mut contours = Vec::new();
    for level in steps.chunk_by(|a, b| a.level == b.level) {
        chains(level, interval, &mut contours);
    }
    contours
}

/// An edge of the surface by its two corners, the lower number first.
type Edge = (u32, u32);

/// A contour's way across one triangle.
#[derive(Debug, Clone, Copy)]
struct Step {
    level: i64,
    enter: Edge,
    leave: Edge,
    from: Point,
    to: Point,
}

/// Adds the ways of all levels across a triangle.
fn cross(facet: &Facet, interval: f64, corners: &[Point], steps: &mut Vec<Step>) {
    let heights = facet.elevations;
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let high = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let number = |p: Point| {
        let before = |q: &Point| q.x.total_cmp(&p.x).then(q.y.total_cmp(&p.y)).is_lt();
        corners.partition_point(before) as u32
    };
    let [a, b, c] = facet.corners.map(|p| (number(p), p));
    let [za, zb, zc] = heights;
    let ring = [(a, za), (b, zb), (c, zc)];
    // Validation bounds elevations; a level's number is far below what an i64 holds.
    let mut level = (low / interval).floor() as i64;
    while level as f64 * interval <= high + ON_LEVEL {
        let at = level as f64 * interval;
        let above = |z: f64| z >= at - ON_LEVEL;
        let (mut enter, mut leave) = (None, None);
        for (k, from) in ring.iter().enumerate() {
            let to = ring.get((k + 1) % 3).unwrap_or(from);
            match (above(from.1), above(to.1)) {
                (true, false) => enter = Some(meet(from, to, at)),
                (false, true) => leave = Some(meet(from, to, at)),
                _ => {}
            }
        }
        if let (Some((enter, from)), Some((leave, to))) = (enter, leave) {
            steps.push(Step {
                level,
                enter,
                leave,
                from,
                to,
            });
        }
        level += 1;
    }
}

/// Where a level crosses an edge: the same to the last digit from both of its triangles.
fn meet(from: &((u32, Point), f64), to: &((u32, Point), f64), at: f64) -> (Edge, Point) {
    let (low, high) = if from.0.0 <= to.0.0 {
        (from, to)
    } else {
        (to, from)
    };
    let ((i, p), z) = *low;
    let ((j, q), y) = *high;
    let point = if (z - at).abs() <= ON_LEVEL {
        p
    } else if (y - at).abs() <= ON_LEVEL {
        q
    } else {
        p + (q - p) * ((at - z) / (y - z)).clamp(0.0, 1.0)
    };
    ((i, j), point)
}

/// Joins the steps of one level, which are in the order of the edges they enter by.
fn chains(steps: &[Step], interval: f64, contours: &mut Vec<Contour>) {
    let after = |step: &Step| steps.binary_search_by_key(&step.leave, |s| s.enter).ok();
    let mut is_followed = vec![false; steps.len()];
    for next in steps.iter().filter_map(after) {
        if let Some(mark) = is_followed.get_mut(next) {
            *mark = true;
        }
    }
    let mut taken = vec![false; steps.len()];
    // First what begins at the edge of the surface; what is left goes round.
    let open = (0..steps.len()).filter(|i| is_followed.get(*i) == Some(&false));
    for start in open.chain(0..steps.len()).collect::<Vec<_>>() {
        let mut points: Vec<Point> = Vec::new();
        let mut here = Some(start);
        while let Some((i, step)) = here.and_then(|i| Some((i, steps.get(i)?))) {
            match taken.get_mut(i) {
                Some(mark) if !*mark => *mark = true,
                _ => break,
            }
            for point in [step.from, step.to] {
                if points.last() != Some(&point) {
                    points.push(point);
                }
            }
            here = after(step);
        }
        if points.len() > 1
            && let Some(level) = steps.first().map(|s| s.level)
        {
            contours.push(Contour {
                elevation: level as f64 * interval,
                index: level % INDEX == 0,
                points,
            });
        }
    }
}

/// The contours of a plane inside a region: straight lines across it.
///
/// `elevation` is the plane's at `at`, `gradient` its rise per meter.
pub fn plane_contours(
    region: &Region,
    at: Point,
    elevation: f64,
    gradient: Vector,
    interval: f64,
) -> Vec<Contour> {
    let corners = || region.rings().flat_map(|ring| &ring.0);
    let heights = corners().map(|p| elevation + gradient.dot(*p - at));
    let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| {
        (l.min(z), h.max(z))
    });
    let steep = gradient.length();
    let Some(up) = gradient.unit() else {
        return Vec::new();
    };
    if !(low.is_finite() && high.is_finite() && interval > 0.0) {
        return Vec::new();
    }
    let mut contours = Vec::new();
    let mut level = (low / interval).floor() as i64;
    while level as f64 * interval <= high {
        let z = level as f64 * interval;
        let on = at + up * ((z - elevation) / steep);
        // Higher ground to the left: the line runs to the right of the way up.
        for (from, to) in across(region, on, -up.left()) {
            contours.push(Contour {
                elevation: z,
                index: level % INDEX == 0,
                points: vec![from, to],
            });
        }
        level += 1;
    }
    contours
}

/// The stretches of a line (through `on`, along a unit vector) inside a region.
fn across(region: &Region, on: Point, along: Vector) -> Vec<(Point, Point)> {
    let mut crossings: Vec<f64> = Vec::new();
    for (a, b) in region.rings().flat_map(Ring::edges) {
        let (sa, sb) = (along.cross(a - on), along.cross(b - on));
        if (sa >= 0.0) != (sb >= 0.0) {
            let t = sa / (sa - sb);
            crossings.push(along.dot(a + (b - a) * t - on));
        }
    }
    crossings.sort_by(f64::total_cmp);
    crossings
        .chunks_exact(2)
        .filter_map(|pair| match pair {
            [from, to] if to > from => Some((on + along * *from, on + along * *to)),
            _ => None,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Ground;

    fn surveyed(spots: &[[f64; 3]]) -> Ground {
        Ground::surveyed_by(spots, &[]).unwrap().0
    }

    fn lines(spots: &[[f64; 3]], interval: f64) -> Vec<Contour> {
        contours(surveyed(spots).surveyed_facets(), interval)
    }

    #[test]
    fn a_tent_has_rings_and_a_pane_has_lines() {
        // A pyramid 3 m high on a square of 6 m: rings at 1 and 2 m, of sides 4 and 2 m.
        let tent = [
            [-3.0, -3.0, 0.0],
            [3.0, -3.0, 0.0],
            [3.0, 3.0, 0.0],
            [-3.0, 3.0, 0.0],
            [0.0, 0.0, 3.0],
        ];
        let rings = lines(&tent, 1.0);
        let told: Vec<_> = rings
            .iter()
            .map(|c| (c.elevation, c.is_closed(), c.length()))
            .collect();
        assert_eq!(told.len(), 2, "{told:?}");
        for ((z, closed, length), expected) in told.iter().zip([(1.0, 16.0), (2.0, 8.0)]) {
            assert!(*closed && *z == expected.0 && (length - expected.1).abs() < 1e-12);
        }
        // Higher ground to the left: counter-clockwise round a top.
        assert!(
            rings
                .iter()
                .all(|c| Ring(c.points.clone()).signed_area() > 0.0)
        );
        let pane = [
            [0.0, 0.0, 0.5],
            [10.0, 0.0, 2.5],
            [10.0, 4.0, 2.5],
            [0.0, 4.0, 0.5],
        ];
        let across = lines(&pane, 1.0);
        let told: Vec<_> = across.iter().map(|c| (c.elevation, c.length())).collect();
        assert_eq!(told, [(1.0, 4.0), (2.0, 4.0)]);
        // Ground rises eastward: with it to the left the line runs south.
        assert!(
            across
                .iter()
                .all(|c| c.points[0].y > c.points[c.points.len() - 1].y)
        );
    }

    #[test]
    fn flat_ground_and_corners_on_a_level_follow_the_stated_rule() {
        // A terrace at exactly 1 m between a bank that falls to 0 and one that rises to 2.
        let terrace = [
            [0.0, 0.0, 0.0],
            [0.0, 4.0, 0.0],
            [2.0, 0.0, 1.0],
            [2.0, 4.0, 1.0],
            [5.0, 0.0, 1.0],
            [5.0, 4.0, 1.0],
            [7.0, 0.0, 2.0],
            [7.0, 4.0, 2.0],
        ];
        let found = lines(&terrace, 1.0);
        // At 1 m along the foot of the terrace alone; at 2 m along the upper edge; none at 0.
        let told: Vec<_> = found
            .iter()
            .map(|c| (c.elevation, c.length(), c.points[0].x))
            .collect();
        assert_eq!(told, [(1.0, 4.0, 2.0), (2.0, 4.0, 7.0)]);
        assert!(lines(&terrace.map(|[x, y, _]| [x, y, 1.0]), 1.0).is_empty());
        // A foot turned into meters stands on its level, not a hair below.
        let foot = 0.304_8;
        let pane = [[0.0, 0.0, 99.0], [4.0, 0.0, 100.0], [0.0, 4.0, 99.0]];
        let found = lines(&pane.map(|[x, y, z]| [x, y, z * foot]), foot);
        assert!(found.iter().all(|c| c.length() < 1e-9), "{found:?}");
    }

    #[test]
    fn every_fifth_is_an_index_contour_below_the_datum_too() {
        let pane = [[0.0, 0.0, -7.5], [10.0, 0.0, 6.5], [0.0, 5.0, -7.5]];
        let index: Vec<f64> = lines(&pane, 1.0)
            .iter()
            .filter(|c| c.index)
            .map(|c| c.elevation)
            .collect();
        assert_eq!(index, [-5.0, 0.0, 5.0]);
    }

    #[test]
    fn a_plane_is_crossed_by_straight_lines_within_the_region() {
        // An L: the line at 5 m lies in both arms, the one at 15 m in one of them.
        let corners = [
            (0.0, 0.0),
            (20.0, 0.0),
            (20.0, 10.0),
            (10.0, 10.0),
            (10.0, 20.0),
            (0.0, 20.0),
        ];
        let region = Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()));
        let up = Vector::new(0.0, 0.1);
        let found = plane_contours(&region, Point::default(), 100.0, up, 0.5);
        let told: Vec<_> = found
            .iter()
            .map(|c| (c.elevation, (c.length() * 1e9).round() / 1e9))
            .collect();
        assert_eq!(
            told,
            [(100.5, 20.0), (101.0, 20.0), (101.5, 10.0), (102.0, 10.0)]
        );
        // Ground rises northward: with it to the left the line runs east.
        assert!(found.iter().all(|c| c.points[1].x > c.points[0].x));
        assert!(plane_contours(&region, Point::default(), 1.0, Vector::default(), 0.5).is_empty());
    }

    #[test]
    fn intervals_come_in_steps_of_one_two_and_five() {
        let foot = 0.304_8;
        for (relief, expected) in [
            (0.0, 0.1),
            (1.0, 0.1),
            (2.0, 0.2),
            (5.0, 0.5),
            (8.0, 1.0),
            (20.0, 2.0),
            (50.0, 5.0),
            (270.0, 50.0),
        ] {
            let found = proposed_interval(relief * foot, foot) / foot;
            assert!((found - expected).abs() < 1e-9, "{relief}: {found}");
        }
        assert_eq!(drawn_interval(0.5, 40.0), 0.5);
        assert_eq!(drawn_interval(0.1, 40.0), 0.5);
        assert!(drawn_interval(0.0, 40.0) == 0.0);
    }
}
