//! Whether places lie inside a region, asked for many places.

use super::point::Point;
use super::region::{Region, Ring, winding};

/// How many edges share a box.
const BLOCK: usize = 16;

/// The edges of a region, made ready to be asked for many places.
#[derive(Debug, Clone, Default)]
pub struct Inside {
    blocks: Vec<Block>,
}

/// Edges that follow each other, from end to end as they stand in their ring.
#[derive(Debug, Clone)]
struct Block {
    /// What they span of y, meters.
    low: f64,
    high: f64,
    /// The greatest x of any of them.
    right: f64,
    edges: Vec<(Point, Point)>,
}

impl Inside {
    /// Makes a region ready.
    pub fn of(region: &Region) -> Self {
        let rings = region.rings();
        let blocks = rings.flat_map(|ring: &Ring| {
            let edges: Vec<(Point, Point)> = ring.edges().collect();
            edges.chunks(BLOCK).map(Block::of).collect::<Vec<_>>()
        });
        Self {
            blocks: blocks.collect(),
        }
    }

    /// Whether the point lies inside (boundary points may go either way): as [`Region::contains`] has it.
    pub fn contains(&self, p: Point) -> bool {
        // An edge counts where it passes the point's height on the right.
        let near = self
            .blocks
            .iter()
            .filter(|it| it.low <= p.y && p.y <= it.high && it.right >= p.x);
        let edges = near.flat_map(|it| &it.edges);
        edges.map(|(a, b)| winding(*a, *b, p)).sum::<i32>() > 0
    }
}

impl Block {
    fn of(edges: &[(Point, Point)]) -> Self {
        let ends = || edges.iter().flat_map(|(a, b)| [a, b]);
        let least = |of: fn(&Point) -> f64| ends().map(of).fold(f64::INFINITY, f64::min);
        let most = |of: fn(&Point) -> f64| ends().map(of).fold(f64::NEG_INFINITY, f64::max);
        Self {
            low: least(|it| it.y),
            high: most(|it| it.y),
            right: most(|it| it.x),
            edges: edges.to_vec(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Polygon;
    use crate::math::{self, TURN};

    #[test]
    fn it_says_what_the_region_says() {
        let star = |n: usize, r: f64| {
            let at = |i: usize| {
                let (angle, r) = (
                    TURN * i as f64 / n as f64,
                    if i.is_multiple_of(2) { r } else { 0.6 * r },
                );
                // Heights that many corners share with the places asked about.
                let round = |v: f64| (v * 8.0).round() / 8.0;
                Point::new(round(r * math::cos(angle)), round(r * math::sin(angle)))
            };
            Ring((0..n).map(at).collect())
        };
        let region = Region {
            polygons: vec![Polygon {
                outer: star(150, 9.0),
                holes: vec![star(40, 3.0).reversed()],
            }],
        };
        let inside = Inside::of(&region);
        let mut counted = [0, 0];
        for row in -80..=80 {
            for column in -80..=80 {
                let p = Point::new(f64::from(column) / 8.0, f64::from(row) / 8.0);
                assert_eq!(inside.contains(p), region.contains(p), "{p:?}");
                counted[usize::from(inside.contains(p))] += 1;
            }
        }
        assert!(counted.iter().all(|it| *it > 1_000), "{counted:?}");
        assert!(!Inside::default().contains(Point::default()));
    }
}
