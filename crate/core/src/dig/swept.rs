//! A ring with a convex body on every vertex, swept from vertex to vertex.
//!
//! The bodies share the fan's normals and grow evenly along each edge. So the common tangent, on
//! the right, of the bodies at the two ends of an edge touches both at the vertex of one index:
//! where `(b - a) . n + h_b(n) - h_a(n)` changes sign as `n` turns. The raw ring runs along
//! these tangents; at an outer corner it walks the corner's body on from the one edge's index to
//! the next one's, at an inner corner back.
//!
//! That is the convolution of ring and bodies: it winds about a point as often as the ring's
//! inside meets the set of places whose bodies hold the point. That set is convex (its
//! conditions are linear as long as depths lie in a plane), so the number is that of the parts
//! in which they meet: never negative, and positive exactly where the swept area is. Rings of
//! several pieces can therefore be cleaned by one union.
//!
//! Where the floor falls faster than the side rises, a deep body holds its whole shallow
//! neighbour and there is no tangent: there each edge is swept by itself.

use super::body::{Body, Fan, NORMALS};
use super::sides::BySide;
use crate::geom::{Point, Ring, Vector};

/// Points nearer than this are one, metres: the order of the overlay's own grid.
const SAME_PLACE: f64 = 1e-7;

/// The bodies on the vertices of a piece: one at rise 0, growing by another with the rise.
pub(super) struct Bodies<'a> {
    pub fan: &'a Fan,
    /// At no rise.
    pub least: &'a Body,
    /// What is added for each metre of rise.
    pub growth: &'a Body,
    /// The half axes of that.
    pub run: BySide,
}

impl Bodies<'_> {
    fn vertex(&self, index: usize, rise: f64) -> Vector {
        self.least.vertex(index) + self.growth.vertex(index) * rise
    }

    /// By how much the body `grown` metres on and `along` away reaches farther in the direction
    /// of a normal.
    fn ahead(&self, index: usize, along: Vector, grown: f64) -> f64 {
        let normal = self.fan.normal(index);
        let growth = if grown == 0.0 {
            0.0
        } else {
            grown * self.run.towards(normal)
        };
        normal.dot(along) + growth
    }
}

/// An edge and where its tangent touches.
#[derive(Debug, Clone, Copy)]
struct Edge {
    along: Vector,
    /// The vertex at which a tangent to equal bodies would touch.
    level: usize,
    /// How many vertices farther round (counter-clockwise) the tangent touches.
    lean: isize,
}

/// The raw rings of a counter-clockwise ring of vertices, each with the rise of its body
/// (metres, >= 0). `gentle`: no body holds its neighbour on the floor's plane.
pub(super) fn sweep(ring: &[(Point, f64)], bodies: &Bodies<'_>, gentle: bool, out: &mut Vec<Ring>) {
    let ring = distinct(ring);
    if gentle && ring.len() >= 3 {
        out.push(convolution(&ring, bodies));
        return;
    }
    out.push(Ring(ring.iter().map(|(p, _)| *p).collect()));
    let next = ring.iter().cycle().skip(1);
    out.extend(ring.iter().zip(next).map(|(a, b)| hull(*a, *b, bodies)));
}

fn distinct(ring: &[(Point, f64)]) -> Vec<(Point, f64)> {
    let mut kept: Vec<(Point, f64)> = Vec::with_capacity(ring.len());
    for &(p, rise) in ring {
        match kept.last_mut() {
            Some((q, s)) if q.distance(p) < SAME_PLACE => *s = s.max(rise),
            _ => kept.push((p, rise)),
        }
    }
    while kept.len() > 1
        && let (Some((first, _)), Some((last, _))) = (kept.first(), kept.last())
        && first.distance(*last) < SAME_PLACE
    {
        kept.pop();
    }
    kept
}

fn convolution(ring: &[(Point, f64)], bodies: &Bodies<'_>) -> Ring {
    let next = ring.iter().cycle().skip(1);
    let mut level = 0;
    let edges: Vec<Edge> = ring
        .iter()
        .zip(next)
        .map(|(&(a, rise), &(b, later))| {
            let along = b - a;
            level = ring_index(touching(bodies, along, 0.0, level).0);
            let lean = if later == rise {
                0
            } else {
                touching(bodies, along, later - rise, level).1
            };
            Edge { along, level, lean }
        })
        .collect();
    let before = edges.iter().cycle().skip(edges.len().max(1) - 1);
    let mut raw: Vec<Point> = Vec::with_capacity(ring.len() + 2 * NORMALS);
    for ((&(p, rise), edge), before) in ring.iter().zip(&edges).zip(before) {
        let steps = turn(before, edge) + edge.lean - before.lean;
        let start = before.level as isize + before.lean;
        let step = steps.signum();
        let mut index = start;
        loop {
            let point = p + bodies.vertex(ring_index(index), rise);
            if raw
                .last()
                .is_none_or(|last| last.distance(point) >= SAME_PLACE)
            {
                raw.push(point);
            }
            if index == start + steps {
                break;
            }
            index += step;
        }
    }
    Ring(raw)
}

/// An index counted round and round, brought into the fan.
fn ring_index(index: isize) -> usize {
    index.rem_euclid(NORMALS as isize) as usize
}

/// The vertex at which the tangent to the right of an edge touches, looked for from `start` on;
/// and how far that is from there, counter-clockwise.
fn touching(bodies: &Bodies<'_>, along: Vector, grown: f64, start: usize) -> (isize, isize) {
    let start = start as isize;
    let ahead = |index: isize| bodies.ahead(ring_index(index), along, grown);
    let mut index = start;
    // Never farther than once round: an edge without a tangent is not gentle.
    let most = NORMALS as isize;
    if ahead(index) >= 0.0 {
        while ahead(index) >= 0.0 && start - index < most {
            index -= 1;
        }
    } else {
        while ahead(index + 1) < 0.0 && index - start < most {
            index += 1;
        }
    }
    (index, index - start)
}

/// By how many vertices the direction turns from one edge to the next: counter-clockwise
/// positive; straight back is an outer corner.
fn turn(from: &Edge, to: &Edge) -> isize {
    let most = NORMALS as isize;
    let around = (to.level as isize - from.level as isize).rem_euclid(most);
    let cross = from.along.cross(to.along);
    let outer = cross > 0.0 || (cross == 0.0 && from.along.dot(to.along) < 0.0);
    // A turn the other way that rounding makes of next to none is none, not a full one.
    if outer && around <= most / 2 + 1 {
        around
    } else if outer || around > 0 && around + 1 >= most / 2 {
        around - most
    } else {
        around
    }
}

/// The convex hull of the bodies at the ends of an edge.
fn hull((a, rise): (Point, f64), (b, later): (Point, f64), bodies: &Bodies<'_>) -> Ring {
    let farther = |index: usize| bodies.ahead(index, b - a, later - rise) >= 0.0;
    let mut ring = Vec::with_capacity(NORMALS + 2);
    for index in 0..NORMALS {
        let (here, next) = (farther(index), farther(index + 1));
        let at = |of_b: bool| {
            let (p, rise) = if of_b { (b, later) } else { (a, rise) };
            p + bodies.vertex(index, rise)
        };
        ring.push(at(here));
        if here != next {
            ring.push(at(next));
        }
    }
    Ring(ring)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::boolean::positive_winding;
    use crate::math::TURN;

    struct Kit {
        fan: Fan,
        least: Body,
        growth: Body,
        run: BySide,
    }

    impl Kit {
        fn new(reach: [f64; 4], run: [f64; 4]) -> Self {
            let fan = Fan::new();
            let run = BySide::from_values(run);
            Self {
                least: fan.body(BySide::from_values(reach)),
                growth: fan.body(run),
                fan,
                run,
            }
        }

        fn area(&self, ring: &[(f64, f64, f64)], gentle: bool) -> f64 {
            let ring: Vec<_> = ring
                .iter()
                .map(|(x, y, r)| (Point::new(*x, *y), *r))
                .collect();
            let bodies = Bodies {
                fan: &self.fan,
                least: &self.least,
                growth: &self.growth,
                run: self.run,
            };
            let mut raw = Vec::new();
            sweep(&ring, &bodies, gentle, &mut raw);
            positive_winding(&raw).area()
        }
    }

    const SQUARE: [(f64, f64, f64); 4] = [
        (0.0, 0.0, 1.0),
        (4.0, 0.0, 1.0),
        (4.0, 2.0, 1.0),
        (0.0, 2.0, 1.0),
    ];

    /// Rectangle and quarter ellipses: A + W (ahead + behind) + L (left + right) + the corners.
    #[test]
    fn a_rectangle_grows_by_each_sides_own_run() {
        let kit = Kit::new([0.1, 0.2, 0.0, 0.3], [1.0, 0.5, 0.0, 2.0]);
        let [a, b, c, d] = [1.1, 0.7, 0.0, 2.3];
        // Corners are sums of unlike quarter ellipses: between the sums' own and a mixed one.
        let found = kit.area(&SQUARE, true);
        let plain = 8.0 + 2.0 * (a + c) + 4.0 * (b + d);
        let corners = TURN / 8.0 * (a * b + b * c + c * d + d * a);
        assert!((found - plain - corners).abs() < 0.02 * corners, "{found}");
        let exact = Kit::new([0.0; 4], [1.1, 0.7, 0.0, 2.3]).area(&SQUARE, true);
        assert!((exact - plain - corners).abs() < 1e-4 * exact, "{exact}");
        assert!(found >= exact - 1e-9);
    }

    #[test]
    fn gentle_and_steep_ways_agree_on_rings_that_are_not_convex() {
        // A plane of rises over an L and over a comb.
        let rise = |x: f64, y: f64| 0.4 + 0.2 * x + 0.1 * y;
        let shapes: [&[(f64, f64)]; 3] = [
            &[
                (0.0, 0.0),
                (4.0, 0.0),
                (4.0, 1.0),
                (1.0, 1.0),
                (1.0, 3.0),
                (0.0, 3.0),
            ],
            &[
                (0.0, 0.0),
                (5.0, 0.0),
                (5.0, 3.0),
                (4.0, 3.0),
                (4.0, 0.4),
                (3.7, 0.4),
                (3.5, 2.9),
                (1.0, 3.0),
                (1.2, 1.0),
                (0.9, 0.8),
                (0.3, 3.0),
                (0.0, 2.0),
            ],
            &[(0.0, 0.0), (3.0, -0.01), (3.0, 0.01)],
        ];
        for run in [
            [1.0, 1.0, 1.0, 1.0],
            [1.5, 0.0, 0.3, 2.0],
            [0.0; 4],
            [0.0, 3.0, 0.0, 0.0],
        ] {
            let kit = Kit::new([0.2, 0.3, 0.1, 0.2], run);
            for shape in shapes {
                let ring: Vec<_> = shape.iter().map(|(x, y)| (*x, *y, rise(*x, *y))).collect();
                let (one, two) = (kit.area(&ring, true), kit.area(&ring, false));
                assert!(
                    (one - two).abs() < 1e-6 * two,
                    "{run:?} {shape:?}: {one} {two}"
                );
            }
        }
    }

    #[test]
    fn a_body_that_holds_its_neighbours_is_all_there_is() {
        let kit = Kit::new([0.0; 4], [1.0; 4]);
        // The deep end's disc of 5 m round a square of 1 m.
        let ring = [
            (0.0, 0.0, 0.0),
            (1.0, 0.0, 5.0),
            (1.0, 1.0, 5.0),
            (0.0, 1.0, 0.0),
        ];
        let found = kit.area(&ring, false);
        let exact = TURN / 2.0 * 25.0 + 10.0;
        assert!((found - exact).abs() < 1e-4 * exact, "{found} {exact}");
    }
}
