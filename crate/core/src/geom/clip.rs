//! Chains of straight edges cut to an area: joints in a slab, a pipe in the ground beside the
//! hole; and the length of evenly spaced straight lines in an area.

use super::extent::{BLOCK, Extent};
use super::point::{Point, Vector};
use super::region::{Region, Ring, winding};

/// A stretch shorter than this is rounding, meters.
const SHORT: f64 = 1e-4;

/// The most lines of one grid: more would be a smear, and stand for a spacing nobody meant.
const MOST_LINES: f64 = 5000.0;

/// The parts of a chain that lie inside a region, in order.
pub fn inside(chain: &[Point], region: &Region) -> Vec<Vec<Point>> {
    cut(chain, region, true)
}

/// The parts of a chain that lie outside a region, in order.
pub fn outside(chain: &[Point], region: &Region) -> Vec<Vec<Point>> {
    cut(chain, region, false)
}

/// Length of a chain, meters.
pub fn length(chain: &[Point]) -> f64 {
    let edges = chain.iter().zip(chain.iter().skip(1));
    edges.map(|(a, b)| a.distance(*b)).sum()
}

fn cut(chain: &[Point], region: &Region, wanted: bool) -> Vec<Vec<Point>> {
    let border = Border::of(region);
    let mut parts: Vec<Vec<Point>> = Vec::new();
    let mut open = false;
    let mut at = Vec::new();
    for (&a, &b) in chain.iter().zip(chain.iter().skip(1)) {
        at.clear();
        at.extend([0.0, 1.0]);
        border.cross(a, b, &mut at);
        at.sort_by(f64::total_cmp);
        for (&from, &to) in at.iter().zip(at.iter().skip(1)) {
            if to <= from {
                continue;
            }
            let on = |share: f64| a + (b - a) * share;
            if border.contains(on((from + to) / 2.0)) != wanted {
                open = false;
                continue;
            }
            match parts.last_mut().filter(|_| open) {
                Some(part) => part.push(on(to)),
                None => parts.push(vec![on(from), on(to)]),
            }
            open = true;
        }
    }
    parts.retain(|part| length(part) > SHORT);
    parts
}

/// The edges of a region, in blocks with a box round each: most blocks lie beside a short stretch.
struct Border {
    edges: Vec<(Point, Point)>,
    extents: Vec<Extent>,
}

impl Border {
    fn of(region: &Region) -> Self {
        let edges: Vec<_> = region.rings().flat_map(Ring::edges).collect();
        let round = |block: &[(Point, Point)]| Extent::round(block.iter().flat_map(|e| [e.0, e.1]));
        Self {
            extents: edges.chunks(BLOCK).map(round).collect(),
            edges,
        }
    }

    /// The blocks of edges whose boxes are of interest.
    fn blocks(&self, near: impl Fn(&Extent) -> bool) -> impl Iterator<Item = &[(Point, Point)]> {
        let blocks = self.edges.chunks(BLOCK).zip(&self.extents);
        blocks
            .filter(move |(_, extent)| near(extent))
            .map(|(block, _)| block)
    }

    /// Adds how far along `a` to `b` (0 to 1) edges cross it.
    fn cross(&self, a: Point, b: Point, at: &mut Vec<f64>) {
        let stretch = Extent::round([a, b].into_iter());
        for block in self.blocks(|extent| extent.meets(&stretch)) {
            at.extend(block.iter().filter_map(|(p, q)| crossing(a, b, *p, *q)));
        }
    }

    /// As [`Region::contains`].
    fn contains(&self, p: Point) -> bool {
        // An edge that lies to the left of the point, or passes above or below it, does not count.
        let counts = |e: &Extent| e.low.y <= p.y && e.high.y >= p.y && e.high.x >= p.x;
        let edges = self.blocks(counts).flatten();
        edges.map(|(a, b)| winding(*a, *b, p)).sum::<i32>() > 0
    }
}

/// How far along `a` to `b` (0 to 1) the edge `p` to `q` crosses it.
fn crossing(a: Point, b: Point, p: Point, q: Point) -> Option<f64> {
    let (along, other, between) = (b - a, q - p, p - a);
    let turn = along.cross(other);
    let (here, there) = (between.cross(other) / turn, between.cross(along) / turn);
    let on = (0.0..=1.0).contains(&here) && (0.0..=1.0).contains(&there);
    on.then_some(here)
}

/// Length in all of straight lines through a region, `spacing` meters apart, in the direction
/// of `along` (a unit vector): the outermost equally far from its edges, at most half a spacing.
/// Exact for its straight edges.
pub fn lines_through(region: &Region, along: Vector, spacing: f64) -> f64 {
    let across = |p: Point| along.cross(Vector::new(p.x, p.y));
    let on = |p: Point| along.dot(Vector::new(p.x, p.y));
    let points = region.rings().flat_map(|ring| &ring.0);
    let (low, high) = points.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| {
        (l.min(across(*p)), h.max(across(*p)))
    });
    // So many that none is farther than half a spacing from the edge; noise makes no line.
    let count = ((high - low) / spacing - 1e-9).ceil();
    if !(1.0..MOST_LINES).contains(&count) {
        return 0.0;
    }
    let first = (low + high - (count - 1.0) * spacing) / 2.0;
    let mut sum = 0.0;
    for (a, b) in region.rings().flat_map(|ring| ring.edges()) {
        // Every line takes the places where it leaves less those where it enters: an edge that
        // climbs lies, of a ring that runs counter-clockwise, on the line's far side.
        let (from, to) = (across(a), across(b));
        let (under, over) = (from.min(to), from.max(to));
        let mut line = ((under - first) / spacing).ceil().max(0.0);
        while first + line * spacing < over {
            let share = (first + line * spacing - from) / (to - from);
            let place = on(a) + (on(b) - on(a)) * share;
            sum += if to > from { place } else { -place };
            line += 1.0;
        }
    }
    sum.max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Ring;

    fn block(x: f64, y: f64, w: f64, h: f64) -> Region {
        let corners = [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
        Region::from_ring(Ring(corners.map(Point::from).to_vec()))
    }

    fn washer() -> Region {
        let mut region = block(0.0, 0.0, 10.0, 6.0);
        let hole = block(4.0, 2.0, 2.0, 2.0).polygons[0].outer.reversed();
        region.polygons[0].holes.push(hole);
        region
    }

    #[test]
    fn a_chain_is_cut_where_it_leaves() {
        let chain = [[-1.0, 3.0], [5.0, 3.0], [5.0, 9.0]].map(Point::from);
        let within = inside(&chain, &washer());
        let lengths: Vec<f64> = within.iter().map(|part| length(part)).collect();
        assert_eq!(within.len(), 2);
        assert!((lengths[0] - 4.0).abs() < 1e-12 && (lengths[1] - 2.0).abs() < 1e-12);
        let beyond: f64 = outside(&chain, &washer()).iter().map(|p| length(p)).sum();
        assert!((beyond - (1.0 + 2.0 + 3.0)).abs() < 1e-12);
        assert!(inside(&chain[..1], &washer()).is_empty());
    }

    #[test]
    fn a_part_runs_on_over_a_corner() {
        let chain = [[1.0, 1.0], [2.0, 1.0], [2.0, 5.0]].map(Point::from);
        assert_eq!(inside(&chain, &washer()), [chain.to_vec()]);
    }

    #[test]
    fn lines_are_as_long_as_the_area_is_wide() {
        let east = Vector::new(1.0, 0.0);
        // At y = 0.5, 1.5 ... 5.5: four of 10 m and two of 8 m.
        assert!((lines_through(&washer(), east, 1.0) - 56.0).abs() < 1e-9);
        // At x = 0.5 ... 9.5, on the way down: eight of 6 m and two of 4 m.
        assert!((lines_through(&washer(), -east.left(), 1.0) - 56.0).abs() < 1e-9);
        // One line through the middle of what is narrower than the spacing.
        assert!((lines_through(&washer(), east, 7.0) - 8.0).abs() < 1e-9);
        assert_eq!(lines_through(&washer(), east, 1e-9), 0.0);
        assert_eq!(lines_through(&Region::default(), east, 1.0), 0.0);
    }
}
