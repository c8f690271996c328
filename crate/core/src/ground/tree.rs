//! A tree of boxes: finds the things near a place without looking at the others.

use crate::geom::Point;
use crate::order::put_in_order;

/// How many boxes a leaf holds: few enough to try them all.
const LEAF: usize = 4;

/// An upright rectangle in plan, meters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bounds {
    pub low: Point,
    pub high: Point,
}

impl Bounds {
    const EMPTY: Self = Self {
        low: Point::new(f64::INFINITY, f64::INFINITY),
        high: Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
    };

    /// The least that holds these points.
    pub fn of(points: &[Point]) -> Self {
        points.iter().fold(Self::EMPTY, |b, &p| b.with(p))
    }

    /// The same with a margin all round, meters.
    pub fn grown(self, margin: f64) -> Self {
        Self {
            low: Point::new(self.low.x - margin, self.low.y - margin),
            high: Point::new(self.high.x + margin, self.high.y + margin),
        }
    }

    fn with(self, p: Point) -> Self {
        Self {
            low: Point::new(self.low.x.min(p.x), self.low.y.min(p.y)),
            high: Point::new(self.high.x.max(p.x), self.high.y.max(p.y)),
        }
    }

    /// Whether the two overlap or touch.
    pub fn meets(&self, other: &Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }
}

/// The tree. Every node covers a range of `order`; a node's first child follows it.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Tree {
    nodes: Vec<Node>,
    order: Vec<u32>,
}

#[derive(Debug, Clone, PartialEq)]
struct Node {
    bounds: Bounds,
    start: usize,
    end: usize,
    /// Index of the second child; 0 for a leaf.
    second: usize,
}

impl Tree {
    /// Builds the tree of these boxes.
    pub fn new(boxes: &[Bounds]) -> Self {
        let mut tree = Self {
            nodes: Vec::with_capacity(boxes.len()),
            order: (0..boxes.len() as u32).collect(),
        };
        tree.split(boxes, 0, boxes.len());
        tree
    }

    fn split(&mut self, boxes: &[Bounds], start: usize, end: usize) {
        let range = self.order.get_mut(start..end).unwrap_or_default();
        let middle = |i: &u32| {
            boxes.get(*i as usize).map_or(Point::default(), |b| {
                Point::new(b.low.x + b.high.x, b.low.y + b.high.y)
            })
        };
        let bounds = range
            .iter()
            .filter_map(|&i| boxes.get(i as usize))
            .fold(Bounds::EMPTY, |b, o| b.with(o.low).with(o.high));
        let spread = range.iter().fold(Bounds::EMPTY, |b, i| b.with(middle(i)));
        let here = self.nodes.len();
        self.nodes.push(Node {
            bounds,
            start,
            end,
            second: 0,
        });
        if range.len() <= LEAF {
            return;
        }
        let half = range.len() / 2;
        let wide = spread.high.x - spread.low.x >= spread.high.y - spread.low.y;
        range.select_nth_unstable_by(half, |a, b| {
            let (p, q) = (middle(a), middle(b));
            let by_place = if wide {
                p.x.total_cmp(&q.x)
            } else {
                p.y.total_cmp(&q.y)
            };
            by_place.then(a.cmp(b))
        });
        self.split(boxes, start, start + half);
        let second = self.nodes.len();
        if let Some(node) = self.nodes.get_mut(here) {
            node.second = second;
        }
        self.split(boxes, start + half, end);
    }

    /// The indices of the boxes that may meet `bounds`, ascending.
    pub fn near(&self, bounds: &Bounds) -> Vec<usize> {
        let mut found = Vec::new();
        let mut open = vec![0];
        while let Some(index) = open.pop() {
            let Some(node) = self.nodes.get(index) else {
                continue;
            };
            if !node.bounds.meets(bounds) {
                continue;
            }
            if node.second == 0 {
                let range = self.order.get(node.start..node.end).unwrap_or_default();
                found.extend(range.iter().map(|&i| i as usize));
            } else {
                open.push(node.second);
                open.push(index + 1);
            }
        }
        put_in_order(&mut found, Ord::cmp);
        found
    }
}
