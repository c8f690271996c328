//! The surface of a hole whose sides are not all alike: plane facets, deepest counts.
//!
//! Within a layer of soil every vertex of a raw ring (see [`super::swept`]) moves evenly with the
//! depth and every edge of it keeps its direction. So what an edge passes on its way up is a plane
//! facet, and a few hundred facets are the whole surface. An edge of a raw ring always has the
//! hole on one side of it at its own level, since rings wind a number of times that is never
//! negative: no facet lies below the hole's surface, and where they overlap the deepest is the
//! surface. Nothing has to be united.
//!
//! At the depth of the bottom itself stand the floor, the floor moved uphill by the reach, and
//! what the reach passes along the floor's edges.

use super::body::{Body, NORMALS};
use super::skin::Corner;
use super::swept::{Bodies, Edge, outward, ring_index, turn};
use crate::geom::{Point, Vector};

/// Facets narrower than this in plan hold nothing, meters.
const NARROW: f64 = 1e-9;

/// The widest part of what the reach holds round a corner that is one facet, in indices.
const SECTOR: usize = 16;

/// A plane facet, convex in plan.
#[derive(Debug, Clone)]
pub(super) struct Facet {
    outline: core::ops::Range<usize>,
    on: Point,
    depth: f64,
    gradient: Vector,
    /// Least and greatest depth of its corners.
    range: (f64, f64),
}

impl Facet {
    /// Depth at a place of the facet, meters.
    pub fn depth(&self, at: Point) -> f64 {
        let depth = self.depth + self.gradient.dot(at - self.on);
        depth.clamp(self.range.0, self.range.1)
    }
}

/// Facets with their outlines in one list.
#[derive(Debug, Clone, Default)]
pub(super) struct Facets {
    points: Vec<Point>,
    pub all: Vec<Facet>,
}

/// A corner of a facet in plan, and its depth.
type Spot = (Point, f64);

impl Facets {
    /// The corners of a facet in plan.
    pub fn outline(&self, facet: &Facet) -> &[Point] {
        self.points.get(facet.outline.clone()).unwrap_or_default()
    }

    /// Adds a facet through its first corner with a gradient.
    fn push(&mut self, corners: &[Spot], gradient: Vector) {
        let Some(&(on, depth)) = corners.first() else {
            return;
        };
        let start = self.points.len();
        self.points.extend(corners.iter().map(|(p, _)| *p));
        let depths = corners.iter().map(|(_, depth)| *depth);
        let range = depths.fold((depth, depth), |(l, h), d| (l.min(d), h.max(d)));
        self.all.push(Facet {
            outline: start..self.points.len(),
            on,
            depth,
            gradient,
            range,
        });
    }

    /// A level facet.
    fn level(&mut self, corners: &[Spot]) {
        self.push(corners, Vector::default());
    }

    /// What a stretch from `a` to `b` passes when it is moved by `off` at its own depths.
    fn moved(&mut self, a: Spot, b: Spot, off: Vector) {
        let along = b.0 - a.0;
        let area = along.cross(off);
        if area.abs() <= NARROW * off.length().max(along.length()) {
            return;
        }
        // Nothing changes along `off`.
        let gradient = off.left() * ((b.1 - a.1) / -area);
        self.push(&[a, b, (b.0 + off, b.1), (a.0 + off, a.1)], gradient);
    }

    /// What a level line passes between two depths, its ends going evenly from `low` to `high`.
    fn risen(&mut self, low: [Spot; 2], high: [Spot; 2]) {
        let [(a, da), (b, db)] = low;
        let [(c, dc), (d, dd)] = high;
        // The lower end is level only where both its ends lie equally deep.
        let long = if da != db || c.distance(d) > a.distance(b) {
            d - c
        } else {
            b - a
        };
        let Some(along) = long.unit() else { return };
        let out = -along.left();
        // By the end that rises more.
        let (run, rise, at) = if da - dc >= db - dd {
            (out.dot(c - a), da - dc, (a, da))
        } else {
            (out.dot(d - b), db - dd, (b, db))
        };
        if run <= NARROW {
            return;
        }
        let corners = if da - dc >= db - dd {
            [at, (b, db), (d, dd), (c, dc)]
        } else {
            [at, (d, dd), (c, dc), (a, da)]
        };
        self.push(&corners, out * (-rise / run));
    }
}

/// Makes facets of rings up to a level.
pub(super) struct Maker<'a> {
    pub bodies: &'a Bodies<'a>,
    /// The over-dig.
    pub reach: &'a Body,
    pub bench: Option<&'a (f64, Body)>,
    /// Depth at which each layer begins; the first at minus infinity.
    pub tops: Vec<f64>,
    /// Up to this depth, above all of the bottom, meters.
    pub up_to: f64,
    pub facets: Facets,
}

impl Maker<'_> {
    /// The sides over a counter-clockwise ring of gentle floors: one facet stack to every widened
    /// edge, and one to every step of the fan at an outer corner.
    pub fn ring(&mut self, ring: &[Corner]) {
        let edges: Vec<Edge> = self.edges(ring);
        let next = ring.iter().cycle().skip(1);
        for ((a, b), edge) in ring.iter().zip(next).zip(&edges) {
            if edge.widened {
                let index = ring_index(edge.level as isize + edge.lean);
                self.stack((a, index), (b, index), a.layer);
            }
        }
        let before = edges.iter().cycle().skip(edges.len().max(1) - 1);
        for ((corner, edge), before) in ring.iter().zip(&edges).zip(before) {
            if edge.widened && before.widened {
                self.fan(corner, before, edge);
            }
        }
    }

    fn edges(&self, ring: &[Corner]) -> Vec<Edge> {
        let next = ring.iter().cycle().skip(1);
        let pairs = ring.iter().zip(next);
        let mut level = 0;
        let edges = pairs.map(|(a, b)| {
            let edge = self.bodies.edge(a, b, level);
            level = edge.level;
            edge
        });
        edges.collect()
    }

    /// The facets round an outer corner from one edge's tangent to the next one's.
    fn fan(&mut self, corner: &Corner, before: &Edge, after: &Edge) {
        let steps = turn(before, after) + after.lean - before.lean;
        let start = before.level as isize + before.lean;
        for step in 0..steps.max(0) {
            let (here, next) = (ring_index(start + step), ring_index(start + step + 1));
            self.stack((corner, here), (corner, next), corner.layer);
        }
    }

    /// The facets between two vertices of bodies, from the depths of their corners up.
    fn stack(&mut self, (a, i): (&Corner, usize), (b, k): (&Corner, usize), layer: usize) {
        let mut low = [
            (a.at + self.reach.vertex(i), a.depth),
            (b.at + self.reach.vertex(k), b.depth),
        ];
        for layer in (0..=layer).rev() {
            let (Some(bodies), Some(top)) = (self.bodies.layers.get(layer), self.tops.get(layer))
            else {
                return;
            };
            let end = top.max(self.up_to);
            let grown = |(p, depth): Spot, index: usize| {
                let rise = (depth - end).max(0.0);
                (p + bodies.growth.vertex(index) * rise, depth - rise)
            };
            let [from, to] = low;
            let high = [grown(from, i), grown(to, k)];
            self.facets.risen(low, high);
            low = high;
            if *top <= self.up_to {
                return;
            }
            if let Some((depth, body)) = self.bench
                && depth == top
            {
                let [(p, d), (q, e)] = low;
                let out = [(p + body.vertex(i), d), (q + body.vertex(k), e)];
                let [r, s] = out;
                self.facets.level(&[(p, d), (q, e), s, r]);
                low = out;
            }
        }
    }

    /// All round the ends of an edge of a floor that falls faster than the side rises: the hull of
    /// the bodies at both.
    pub fn hull(&mut self, a: &Corner, b: &Corner) {
        let (along, deeper) = (b.at - a.at, b.depth - a.depth);
        let farther = |index: usize| self.bodies.ahead(index, along, deeper, a.layer) >= 0.0;
        let b = Corner {
            layer: a.layer,
            ..*b
        };
        let of_b: Vec<bool> = (0..NORMALS).map(farther).collect();
        let next = of_b.iter().cycle().skip(1);
        for (index, (here, next)) in of_b.iter().zip(next).enumerate() {
            let corner = |of_b: bool| if of_b { &b } else { a };
            if here != next {
                self.stack((corner(*here), index), (corner(*next), index), a.layer);
            }
            let corner = corner(*next);
            self.stack(
                (corner, index),
                (corner, ring_index(index as isize + 1)),
                a.layer,
            );
        }
        let down = if deeper >= 0.0 { along } else { -along };
        for index in 0..NORMALS {
            if deeper != 0.0 && self.bodies.fan.normal(index + 1).dot(down) <= 0.0 {
                self.trail(a, &b, index);
            }
        }
        let side = outward(self.bodies.fan, along, 0);
        self.reach_beside(a, &b, side);
        let side = outward(self.bodies.fan, -along, 0);
        self.reach_beside(a, &b, side);
        self.reach_round(a);
        self.reach_round(&b);
    }

    /// What the reach's edge of an index passes along an edge of the floor.
    fn trail(&mut self, a: &Corner, b: &Corner, index: usize) {
        let (r, s) = (self.reach.vertex(index), self.reach.vertex(index + 1));
        let (from, to) = ((a.at + r, a.depth), (b.at + r, b.depth));
        self.facets.moved(from, to, s + -r);
    }

    /// What the reach holds to one side of an edge, at the edge's own depths.
    pub fn reach_beside(&mut self, a: &Corner, b: &Corner, index: usize) {
        let off = self.reach.vertex(index);
        self.facets.moved((a.at, a.depth), (b.at, b.depth), off);
    }

    /// What the reach holds all round a corner, at the corner's own depth.
    pub fn reach_round(&mut self, corner: &Corner) {
        for start in (0..NORMALS).step_by(SECTOR) {
            self.sector(corner, start, SECTOR);
        }
    }

    /// What the reach holds from one index to another, round a corner at its own depth.
    fn sector(&mut self, corner: &Corner, start: usize, steps: usize) {
        let rim = (start..=start + steps).map(|i| corner.at + self.reach.vertex(i));
        let spots: Vec<Spot> = core::iter::once(corner.at)
            .chain(rim)
            .map(|p| (p, corner.depth))
            .collect();
        self.facets.level(&spots);
    }

    /// Along an edge of a tilted floor, from `a` down to `b`, the reach's part between the floors
    /// (or the sides) on its left and on its right.
    pub fn reach_along(&mut self, a: &Corner, b: &Corner, left: &Edge, right: &Edge) {
        let steps = turn(left, right) + right.lean - left.lean;
        let start = left.level as isize + left.lean;
        for step in 0..steps.max(0) {
            self.trail(a, b, ring_index(start + step));
        }
    }
}
