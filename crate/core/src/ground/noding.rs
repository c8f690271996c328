//! Lines noded: every place where one meets another, itself, a spot or a point becomes a node of
//! each line there, so that lines meet at nodes alone.
//!
//! Points within a millimetre of each other stand at one place ([`ONE_PLACE`]); what lies within
//! half of that of a line lies on it, and the line bends there by no more. (With the whole
//! millimetre two neighboring nodes could each lie on the line to the other.)
//!
//! Everything is put in order by place before it is compared, so that neither the order of
//! the file nor the direction of a line changes the result by a digit.

use core::cmp::Ordering;
use std::collections::BTreeSet;

use super::breakline::Breakline;
use super::spots::{ONE_PLACE, Spot};
use super::tree::{Bounds, Tree};
use crate::finding::Finding;
use crate::geom::Point;
use crate::order::put_in_order;

/// How often lines are split anew before what still crosses is left to the triangulation,
/// which leaves it out and says so. Two rounds do for any survey; a line that shifts by a
/// millimetre onto another point may take a third.
const ROUNDS: usize = 12;

/// How often breaklines may cross each other: arbitrary, far above any survey, whose lines hardly ever do.
const CROSSING_LIMIT: usize = 20_000;

/// The same where many lines run almost along each other: a place that lies on one moves it onto the next.
const MANY_ROUNDS: usize = 100;

/// What lies nearer to a line than this lies on it, meters.
const ON_LINE: f64 = ONE_PLACE / 2.0;

/// Lines that meet at nodes alone.
pub(super) struct Noded {
    /// The nodes: first the spots in their order, then the others.
    pub places: Vec<Point>,
    /// The stretches of all lines, by line, then along it.
    pub stretches: Vec<Stretch>,
}

/// A line from one of its points to the next.
pub(super) struct Stretch {
    /// Which of the lines.
    pub line: usize,
    /// The point it starts at, by its place in `Breakline::points`.
    pub start: usize,
    /// The nodes along it, two or more; none of them twice.
    pub nodes: Vec<usize>,
}

/// The straight part of a stretch between two neighboring nodes.
struct Segment {
    /// Which of the stretches.
    stretch: usize,
    /// Which of its parts.
    part: usize,
    /// The ends, the lower by place first.
    low: Point,
    high: Point,
}

/// A node that lies within a segment.
struct Cut {
    stretch: usize,
    part: usize,
    /// How far along the segment from its lower end, times the segment's length, m2.
    foot: f64,
    node: usize,
}

impl Noded {
    /// Nodes checked breaklines with each other and with checked spots (by x, then y).
    ///
    /// # Errors
    /// When they cross each other more often than [`CROSSING_LIMIT`], as a fault of the breaklines.
    pub fn of_survey(spots: &[Spot], lines: &[Breakline]) -> Result<Self, Finding> {
        Self::within(spots, lines, ROUNDS, CROSSING_LIMIT).ok_or_else(too_many_crossings)
    }

    /// Nodes lines with each other and with points (by x, then y), however often they cross, and though many run almost
    /// along others, as the edges of a steep side do from one level to the next.
    pub fn of(points: &[Spot], lines: &[Breakline]) -> Self {
        // No more crossings than that can be counted.
        Self::within(points, lines, MANY_ROUNDS, usize::MAX)
            .unwrap_or_else(|| Self::points(points, lines))
    }

    /// The nodes after so many rounds at the most; `None` where lines cross oftener than `most` times.
    fn within(spots: &[Spot], lines: &[Breakline], rounds: usize, most: usize) -> Option<Self> {
        let mut noded = Self::points(spots, lines);
        for _ in 0..rounds {
            // The lines are first drawn through what lies on them: then every crossing that is
            // left is well away from every node.
            if !noded.cut_at_nodes() && !noded.cut_at_crossings(most)? {
                break;
            }
        }
        Some(noded)
    }

    /// A node for every point of every line: a spot at its place, or one shared with the points
    /// of lines at its place.
    fn points(spots: &[Spot], lines: &[Breakline]) -> Self {
        let mut places: Vec<Point> = spots.iter().map(|s| s.at).collect();
        // By place, so that which of two near points becomes the node is no matter of the file.
        let mut points: Vec<(Point, usize, usize)> = Vec::new();
        for (i, line) in lines.iter().enumerate() {
            points.extend(line.points.iter().enumerate().map(|(j, p)| (p.at, i, j)));
        }
        put_in_order(&mut points, |a, b| {
            by_place(a.0, b.0).then((a.1, a.2).cmp(&(b.1, b.2)))
        });
        let mut nodes: Vec<Vec<usize>> = lines.iter().map(|l| vec![0; l.points.len()]).collect();
        for (at, line, point) in points {
            let node = nearest(&places, 0..spots.len(), at)
                .unwrap_or_else(|| nearest_or_new(&mut places, spots.len(), at));
            if let Some(entry) = nodes.get_mut(line).and_then(|l| l.get_mut(point)) {
                *entry = node;
            }
        }
        let mut stretches = Vec::new();
        for (line, nodes) in nodes.iter().enumerate() {
            let pairs = nodes.iter().zip(nodes.iter().skip(1)).enumerate();
            let apart = pairs.filter(|(_, (from, to))| from != to);
            stretches.extend(apart.map(|(start, (&from, &to))| Stretch {
                line,
                start,
                nodes: vec![from, to],
            }));
        }
        Self { places, stretches }
    }

    fn place(&self, node: usize) -> Point {
        self.places.get(node).copied().unwrap_or_default()
    }

    /// The straight parts of all stretches.
    fn segments(&self) -> Vec<Segment> {
        let mut segments = Vec::new();
        for (i, stretch) in self.stretches.iter().enumerate() {
            for part in 0..stretch.nodes.len().saturating_sub(1) {
                let [low, high] = self.ends(stretch, part);
                segments.push(Segment {
                    stretch: i,
                    part,
                    low,
                    high,
                });
            }
        }
        segments
    }

    /// The ends of a part of a stretch, the lower by place first.
    fn ends(&self, stretch: &Stretch, part: usize) -> [Point; 2] {
        let end = |i: usize| self.place(stretch.nodes.get(i).copied().unwrap_or_default());
        let (from, to) = (end(part), end(part + 1));
        if by_place(from, to).is_gt() {
            [to, from]
        } else {
            [from, to]
        }
    }

    /// Draws every segment through the nodes that lie on it; says whether there were any.
    fn cut_at_nodes(&mut self) -> bool {
        let boxes: Vec<Bounds> = self.places.iter().map(|p| Bounds::of(&[*p])).collect();
        let tree = Tree::new(&boxes);
        let mut cuts = Vec::new();
        for segment in self.segments() {
            let along = segment.high - segment.low;
            let squared = along.dot(along);
            let round = Bounds::of(&[segment.low, segment.high]).grown(ONE_PLACE);
            for node in tree.near(&round) {
                let off = self.place(node) - segment.low;
                let (foot, beside) = (along.dot(off), along.cross(off));
                let on = beside * beside < ON_LINE * ON_LINE * squared;
                if on && foot > 0.0 && foot < squared {
                    cuts.push(segment.cut(foot, node));
                }
            }
        }
        self.insert(cuts)
    }

    /// Gives every crossing of two segments a node; says whether there were any. `None` where there are more than `most`.
    fn cut_at_crossings(&mut self, most: usize) -> Option<bool> {
        let mut segments = self.segments();
        put_in_order(&mut segments, |a, b| {
            by_place(a.low, b.low).then(by_place(a.high, b.high))
        });
        let boxes: Vec<Bounds> = segments
            .iter()
            .map(|s| Bounds::of(&[s.low, s.high]))
            .collect();
        let tree = Tree::new(&boxes);
        let mut found: Vec<(Point, &Segment, &Segment)> = Vec::new();
        for (i, (a, round)) in segments.iter().zip(&boxes).enumerate() {
            // Parts of one line lie in line with each other: by rounding alone two that are far apart
            // would seem to cross.
            let meets = |j: &usize| *j > i && boxes.get(*j).is_some_and(|b| b.meets(round));
            let after = tree.near(round).into_iter().filter(meets);
            for b in after.filter_map(|j| segments.get(j)) {
                if let Some(at) = crossing(a, b) {
                    found.push((at, a, b));
                }
            }
            if found.len() > most {
                return None;
            }
        }
        put_in_order(&mut found, |a, b| by_place(a.0, b.0));
        let known = self.places.len();
        let mut cuts = Vec::new();
        for (at, a, b) in found {
            // A third line may cross at the same place: then there is a node already.
            let node = nearest_or_new(&mut self.places, known, at);
            for segment in [a, b] {
                let foot = (segment.high - segment.low).dot(at - segment.low);
                cuts.push(segment.cut(foot, node));
            }
        }
        Some(self.insert(cuts))
    }

    /// Puts nodes into stretches; says whether any was new there. A stretch runs through a node
    /// once, so that cutting comes to an end.
    fn insert(&mut self, mut cuts: Vec<Cut>) -> bool {
        put_in_order(&mut cuts, |a, b| {
            let by_part = (a.stretch, a.part).cmp(&(b.stretch, b.part));
            by_part
                .then(a.foot.total_cmp(&b.foot))
                .then(a.node.cmp(&b.node))
        });
        let mut any = false;
        for cuts in cuts.chunk_by(|a, b| a.stretch == b.stretch) {
            let index = cuts.first().map_or(0, |cut| cut.stretch);
            let Some(stretch) = self.stretches.get(index) else {
                continue;
            };
            let mut met: BTreeSet<usize> = stretch.nodes.iter().copied().collect();
            let mut nodes: Vec<usize> = stretch.nodes.first().copied().into_iter().collect();
            let mut cuts = cuts.iter().peekable();
            for (part, end) in stretch.nodes.iter().skip(1).enumerate() {
                let first = nodes.len();
                while let Some(cut) = cuts.next_if(|cut| cut.part == part) {
                    if met.insert(cut.node) {
                        nodes.push(cut.node);
                    }
                }
                // The cuts run from the lower end, the nodes along the line.
                let from = stretch.nodes.get(part).copied().unwrap_or_default();
                if by_place(self.place(from), self.place(*end)).is_gt() {
                    nodes.get_mut(first..).unwrap_or_default().reverse();
                }
                nodes.push(*end);
            }
            any |= nodes.len() > stretch.nodes.len();
            if let Some(stretch) = self.stretches.get_mut(index) {
                stretch.nodes = nodes;
            }
        }
        any
    }
}

fn too_many_crossings() -> Finding {
    Finding::fault(
        "too-many-crossings",
        format!("The breaklines cross each other more than {CROSSING_LIMIT} times."),
        "Leave out lines that cross others: a line of a survey follows an edge of the ground, and edges seldom cross.",
    )
    .under("/breaklines")
}

impl Segment {
    fn cut(&self, foot: f64, node: usize) -> Cut {
        Cut {
            stretch: self.stretch,
            part: self.part,
            foot,
            node,
        }
    }
}

/// The order of places: by x, then y.
pub(super) fn by_place(a: Point, b: Point) -> Ordering {
    a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
}

/// The nearest of some of these places (by x, then y) within [`ONE_PLACE`].
fn nearest(places: &[Point], range: core::ops::Range<usize>, at: Point) -> Option<usize> {
    let start = range.start;
    let places = places.get(range).unwrap_or_default();
    let first = places.partition_point(|p| p.x < at.x - ONE_PLACE);
    let mut best: Option<(f64, usize)> = None;
    for (i, place) in places.iter().enumerate().skip(first) {
        if place.x > at.x + ONE_PLACE {
            break;
        }
        let distance = place.distance(at);
        if distance < ONE_PLACE && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, start + i));
        }
    }
    best.map(|(_, i)| i)
}

/// The nearest place from an index on, or a new one. Places are asked for by x, then y, so that
/// those from the index on stay in that order.
fn nearest_or_new(places: &mut Vec<Point>, start: usize, at: Point) -> usize {
    nearest(places, start..places.len(), at).unwrap_or_else(|| {
        places.push(at);
        places.len() - 1
    })
}

/// Where two segments cross between their ends; nothing where they touch at an end.
fn crossing(first: &Segment, second: &Segment) -> Option<Point> {
    let (a, b, c, d) = (first.low, first.high, second.low, second.high);
    if a == c || a == d || b == c || b == d {
        return None;
    }
    let (ab, cd) = (b - a, d - c);
    let (to_c, to_d) = (ab.cross(c - a), ab.cross(d - a));
    let (to_a, to_b) = (cd.cross(a - c), cd.cross(b - c));
    let parted = |u: f64, v: f64| (u > 0.0 && v < 0.0) || (u < 0.0 && v > 0.0);
    if !parted(to_c, to_d) || !parted(to_a, to_b) {
        return None;
    }
    let t = to_a / (to_a - to_b);
    Some(a + ab * t)
}
