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
//! neighbor and there is no tangent: there each edge is swept by itself.

use super::body::{Body, Fan, NORMALS};
use super::sides::BySide;
use super::skin::Corner;
use crate::geom::{Point, Ring, Vector};

/// Points nearer than this are one, meters: the order of the overlay's own grid.
const SAME_PLACE: f64 = 1e-7;

/// The bodies that stand round the places of one layer: one at its top (or at the level, within
/// it), growing by another with the depth.
pub(super) struct LayerBodies<'a> {
    /// At the depth `start`.
    pub least: Body,
    pub start: f64,
    /// What is added for each meter of depth.
    pub growth: &'a Body,
    /// The half axes of that.
    pub run: BySide,
}

/// The bodies of every layer, from the top down.
pub(super) struct Bodies<'a> {
    pub fan: &'a Fan,
    pub layers: Vec<LayerBodies<'a>>,
}

impl Bodies<'_> {
    /// A vertex of the body at a corner.
    fn vertex(&self, index: usize, corner: &Corner) -> Vector {
        self.layers
            .get(corner.layer)
            .map_or(Vector::default(), |layer| {
                let rise = (corner.depth - layer.start).max(0.0);
                layer.least.vertex(index) + layer.growth.vertex(index) * rise
            })
    }

    /// The same index of bodies `deeper` meters deeper and `along` away: by how much the second
    /// reaches farther in the direction of the normal.
    pub fn ahead(&self, index: usize, along: Vector, deeper: f64, layer: usize) -> f64 {
        let normal = self.fan.normal(index);
        let run = match self.layers.get(layer) {
            Some(layer) if deeper != 0.0 => layer.run.towards(normal),
            _ => 0.0,
        };
        normal.dot(along) + deeper * run
    }

    /// An edge of a ring, its tangent looked for from the index `near` on.
    pub fn edge(&self, a: &Corner, b: &Corner, near: usize) -> Edge {
        let along = b.at - a.at;
        let level = outward(self.fan, along, near);
        let deeper = b.depth - a.depth;
        let ahead = |index| self.ahead(ring_index(index), along, deeper, a.layer);
        Edge {
            along,
            level,
            lean: match deeper {
                0.0 => 0,
                _ => touching(&ahead, level).1,
            },
            widened: a.widened,
        }
    }
}

/// The vertex of the fan at which a tangent to equal bodies, on the right of an edge, touches;
/// looked for from the index `near` on.
pub(super) fn outward(fan: &Fan, along: Vector, near: usize) -> usize {
    let ahead = |index| fan.normal(ring_index(index)).dot(along);
    ring_index(touching(&ahead, near).0)
}

/// An inner corner that turns by no more steps of the fan is part of an inward curve. Its detour
/// lies, to one step of the fan, along the tangents themselves: the place half way along it
/// stands for it.
const SMOOTH: isize = 2;

/// An edge and the vertex of the fan at which its tangent touches.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    pub along: Vector,
    /// The vertex at which a tangent to equal bodies would touch.
    pub level: usize,
    /// How many vertices farther round (counter-clockwise) the tangent touches.
    pub lean: isize,
    /// Whether anything is to stand beside it.
    pub widened: bool,
}

impl Edge {
    /// The vertex at which the tangent touches.
    pub fn index(&self) -> usize {
        ring_index(self.level as isize + self.lean)
    }
}

/// The raw rings of a counter-clockwise ring. `gentle`: no body holds its neighbor.
pub(super) fn sweep(ring: &[Corner], bodies: &Bodies<'_>, gentle: bool, out: &mut Vec<Ring>) {
    let ring = distinct(ring);
    if gentle && ring.len() >= 3 {
        out.push(convolution(&ring, bodies));
        return;
    }
    out.push(Ring(ring.iter().map(|corner| corner.at).collect()));
    let edges = ring.iter().zip(ring.iter().cycle().skip(1));
    out.extend(edges.map(|(a, b)| hull(a, b, bodies)));
}

fn distinct(ring: &[Corner]) -> Vec<Corner> {
    let mut kept: Vec<Corner> = Vec::with_capacity(ring.len());
    for corner in ring {
        match kept.last_mut() {
            // The edge that goes on is the later corner's.
            Some(last) if last.at.distance(corner.at) < SAME_PLACE => *last = *corner,
            _ => kept.push(*corner),
        }
    }
    while kept.len() > 1
        && let (Some(first), Some(last)) = (kept.first(), kept.last())
        && first.at.distance(last.at) < SAME_PLACE
    {
        kept.pop();
    }
    kept
}

/// An edge and where its tangent begins and ends.
#[derive(Debug, Clone, Copy)]
struct Tangent {
    edge: Edge,
    touch: (Point, Point),
}

fn convolution(ring: &[Corner], bodies: &Bodies<'_>) -> Ring {
    let next = ring.iter().cycle().skip(1);
    let mut level = 0;
    let edges: Vec<Tangent> = ring
        .iter()
        .zip(next)
        .map(|(a, b)| {
            let edge = bodies.edge(a, b, level);
            level = edge.level;
            let inner = Corner {
                layer: a.layer,
                ..*b
            };
            let at = |corner: &Corner| corner.at + bodies.vertex(edge.index(), corner);
            Tangent {
                touch: (at(a), at(&inner)),
                edge,
            }
        })
        .collect();
    let before = edges.iter().cycle().skip(edges.len().max(1) - 1);
    let mut raw: Vec<Point> = Vec::with_capacity(ring.len() + 2 * NORMALS);
    let mut push = |point: Point| {
        let last = raw.last();
        if last.is_none_or(|last| last.distance(point) >= SAME_PLACE) {
            raw.push(point);
        }
    };
    for ((corner, tangent), last) in ring.iter().zip(&edges).zip(before) {
        let (edge, before) = (&tangent.edge, &last.edge);
        if !(edge.widened && before.widened) {
            // Out to a widened edge, or back from it, by way of the corner itself.
            if before.widened {
                push(last.touch.1);
            }
            push(corner.at);
            if edge.widened {
                push(tangent.touch.0);
            }
            continue;
        }
        let steps = turn(before, edge) + edge.lean - before.lean;
        let start = before.level as isize + before.lean;
        if steps < 0 {
            if let Some(point) = short_cut(last, tangent) {
                push(point);
                continue;
            }
            if steps >= -SMOOTH {
                push(last.touch.1.midpoint(tangent.touch.0));
                continue;
            }
        }
        let step = steps.signum();
        let mut index = start;
        loop {
            push(corner.at + bodies.vertex(ring_index(index), corner));
            if index == start + steps {
                break;
            }
            index += step;
        }
    }
    Ring(raw)
}

/// The way past an inner corner without the detour back round its body: the meeting point of the
/// tangents, where both are long enough. What is cut off is covered from both edges, and once is
/// enough.
fn short_cut(before: &Tangent, after: &Tangent) -> Option<Point> {
    let (arrival, departure) = (before.touch.1, after.touch.0);
    let (u, v) = (arrival - before.touch.0, after.touch.1 - departure);
    let across = u.cross(v);
    let gap = departure - arrival;
    // In parts of the two tangents, from the corner.
    let (back, on) = (-gap.cross(v) / across, -gap.cross(u) / across);
    let open = (0.0..=0.5).contains(&back) && (0.0..=0.5).contains(&on);
    open.then(|| arrival + u * -back)
}

/// An index counted round and round, brought into the fan.
pub(super) fn ring_index(index: isize) -> usize {
    index.rem_euclid(NORMALS as isize) as usize
}

/// The vertex at which the tangent to the right of an edge touches, looked for from `start` on;
/// and how far that is from there, counter-clockwise. `ahead` tells of every normal whether the
/// edge leads on in its direction.
fn touching(ahead: &dyn Fn(isize) -> f64, start: usize) -> (isize, isize) {
    let start = start as isize;
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
pub(super) fn turn(from: &Edge, to: &Edge) -> isize {
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
fn hull(a: &Corner, b: &Corner, bodies: &Bodies<'_>) -> Ring {
    let b = Corner {
        layer: a.layer,
        ..*b
    };
    let (along, deeper) = (b.at - a.at, b.depth - a.depth);
    let farther = |index: usize| bodies.ahead(index, along, deeper, a.layer) >= 0.0;
    let mut ring = Vec::with_capacity(NORMALS + 2);
    for index in 0..NORMALS {
        let (here, next) = (farther(index), farther(index + 1));
        let at = |of_b: bool| {
            let corner = if of_b { &b } else { a };
            corner.at + bodies.vertex(index, corner)
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
            let corner = |(x, y, rise): &(f64, f64, f64)| Corner {
                at: Point::new(*x, *y),
                depth: *rise,
                layer: 0,
                widened: true,
            };
            let ring: Vec<_> = ring.iter().map(corner).collect();
            let layer = LayerBodies {
                least: self.least.clone(),
                start: 0.0,
                growth: &self.growth,
                run: self.run,
            };
            let bodies = Bodies {
                fan: &self.fan,
                layers: vec![layer],
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
