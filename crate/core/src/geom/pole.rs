//! The place deepest inside a region: the one farthest from its edge.
//!
//! Squares are looked at, the most promising first, and quartered as long as one could hold a
//! deeper place than the best so far: no point of a square lies deeper than its middle by more than half
//! its diagonal.

use crate::order::put_in_order;

use std::collections::BinaryHeap;

use super::edges::Edges;
use super::point::Point;
use super::region::{Polygon, Region};

/// How far the depth found may lie below the greatest, meters.
const FINE: f64 = 0.005;

/// A place and how far from the edge it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pole {
    /// The place.
    pub at: Point,
    /// Its distance from the edge, meters.
    pub depth: f64,
}

/// The deepest place of each polygon of a region, deepest first, each within 5 mm of the greatest
/// depth.
pub fn poles(region: &Region) -> Vec<Pole> {
    let mut poles: Vec<Pole> = region.polygons.iter().filter_map(pole).collect();
    put_in_order(&mut poles, |a, b| b.depth.total_cmp(&a.depth));
    poles
}

/// A square by its middle and half its side, with the greatest depth that it could hold.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Square {
    most: f64,
    middle: Point,
    half: f64,
    depth: f64,
}

impl Eq for Square {}

impl PartialOrd for Square {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Square {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.most.total_cmp(&other.most)
    }
}

fn pole(polygon: &Polygon) -> Option<Pole> {
    let region = Region {
        polygons: vec![polygon.clone()],
    };
    let edges = Edges::of_region(&region);
    let square = |middle: Point, half: f64| {
        let away = edges.distance(middle);
        let depth = if region.contains(middle) { away } else { -away };
        Square {
            most: depth + half * core::f64::consts::SQRT_2,
            middle,
            half,
            depth,
        }
    };
    let (low, high) = region.bounds()?;
    let half = (high.x - low.x).max(high.y - low.y) / 2.0;
    let mut best = square(low.midpoint(high), half);
    let mut waiting = BinaryHeap::from([best]);
    if let Some(middle) = region.centroid() {
        let there = square(middle, 0.0);
        if there.depth > best.depth {
            best = there;
        }
    }
    while let Some(next) = waiting.pop() {
        if next.most <= best.depth + FINE {
            break;
        }
        let half = next.half / 2.0;
        for (east, north) in [(-half, -half), (half, -half), (half, half), (-half, half)] {
            let middle = Point::new(next.middle.x + east, next.middle.y + north);
            let quarter = square(middle, half);
            if quarter.depth > best.depth {
                best = quarter;
            }
            if quarter.most > best.depth + FINE {
                waiting.push(quarter);
            }
        }
    }
    (best.depth > 0.0).then_some(Pole {
        at: best.middle,
        depth: best.depth,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::boolean::difference;
    use crate::geom::distance::tests::block;

    #[test]
    fn the_deepest_place_of_a_block_is_in_its_middle() {
        let found = poles(&block(2.0, 1.0, 10.0, 4.0));
        assert_eq!(found.len(), 1);
        assert!((found[0].depth - 2.0).abs() <= FINE);
        assert!((found[0].at.y - 3.0).abs() <= FINE);
    }

    #[test]
    fn a_hole_and_a_second_part_are_seen() {
        // A post in the middle of a block of 10 by 10 leaves a depth of less than half; the farthest
        // place lies toward a corner: d = (5 - d) * sqrt 2, d = 2.929.
        let post = block(4.999, 4.999, 0.002, 0.002);
        let mut region = difference(&block(0.0, 0.0, 10.0, 10.0), &post);
        region.polygons.extend(block(20.0, 0.0, 3.0, 3.0).polygons);
        let found = poles(&region);
        assert_eq!(found.len(), 2);
        assert!((found[0].depth - 2.929).abs() < 2.0 * FINE, "{found:?}");
        assert!((found[1].depth - 1.5).abs() <= FINE);
        assert_eq!(poles(&Region::default()), []);
    }
}
