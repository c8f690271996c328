//! Spots and breaklines joined into a network whose lines meet at nodes alone.
//!
//! The triangulation takes edges that touch at their ends and nowhere else, so every crossing
//! is made a node here, every spot or point that lies on a line becomes a node of that line,
//! and stretches that two lines share become one. Points within a millimetre of each other
//! stand at one place ([`ONE_PLACE`]); what lies within half of that of a line lies on it, and
//! the line bends there by no more. (With the whole millimetre two neighbouring nodes could
//! each lie on the line to the other.)
//!
//! # Whose elevation holds
//! 1. At a spot the spot's.
//! 2. Where points of lines stand, theirs (the mean, should they differ by rounding).
//! 3. Where lines cross between their points, the mean of what each of them has there.
//!
//! A line that has another elevation there, by more than [`AGREE`](super::breakline::AGREE), is told as a caution; two
//! measured elevations of one place that differ by more are a fault, as of two spots.
//!
//! Everything is put in order by place before it is compared, so that neither the order of
//! the file nor the direction of a line changes the network by a digit.

use super::breakline::Breakline;
use super::disagree::{Passing, judge};
use super::spots::{ONE_PLACE, Spot};
use crate::finding::Finding;
use crate::geom::{Point, Vector};

/// How often lines are split anew before what still crosses is left to the triangulation,
/// which leaves it out and says so. Two rounds do for any survey; a line that shifts by a
/// millimetre onto another point may take a third.
const ROUNDS: usize = 12;

/// What lies nearer to a line than this lies on it, metres.
const ON_LINE: f64 = ONE_PLACE / 2.0;

/// A place of known elevation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Node {
    /// Where, site metres.
    pub at: Point,
    /// Its elevation, metres.
    pub elevation: f64,
    /// The index in the file of the spot that stands there.
    pub spot: Option<usize>,
}

impl Node {
    /// The spot that stands here.
    pub fn as_spot(&self) -> Option<Spot> {
        self.spot.map(|index| Spot {
            at: self.at,
            elevation: self.elevation,
            index,
        })
    }
}

/// Nodes, and lines that meet at them alone.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Network {
    /// The nodes, by x, then y.
    pub nodes: Vec<Node>,
    /// Each edge once, the lower node first, ascending.
    pub edges: Vec<[usize; 2]>,
    /// The nodes along every line, in the order of the file.
    pub lines: Vec<Vec<usize>>,
}

/// A part of a line between two neighbouring nodes.
#[derive(Debug, Clone, Copy)]
struct Piece {
    /// Which of the lines.
    line: usize,
    /// The point of the line (by its place in `Breakline::points`) its stretch starts at.
    stretch: usize,
    from: usize,
    to: usize,
}

/// Joins checked spots (by x, then y) and checked breaklines. The findings are cautions.
///
/// # Errors
/// Two measured elevations at one place, as faults.
pub(super) fn join(
    spots: &[Spot],
    lines: &[Breakline],
) -> Result<(Network, Vec<Finding>), Vec<Finding>> {
    let mut places: Vec<Point> = spots.iter().map(|s| s.at).collect();
    let mut pieces = placed(lines, &mut places);
    for _ in 0..ROUNDS {
        // The lines are first drawn through what lies on them: then every crossing that is
        // left is well away from every node.
        if !split_at_nodes(&mut pieces, &places) && !split_at_crossings(&mut pieces, &mut places) {
            break;
        }
    }
    let passing = passing(lines, &pieces, &places);
    let judged = judge(spots, places.len(), &places, lines, passing)?;
    let nodes = places
        .iter()
        .zip(&judged.elevations)
        .enumerate()
        .map(|(i, (at, elevation))| Node {
            at: *at,
            elevation: *elevation,
            spot: spots.get(i).map(|s| s.index),
        });
    Ok((
        sorted(nodes.collect(), &pieces, lines.len()),
        judged.findings,
    ))
}

/// Gives every point of every line a node: a spot at its place, or one shared with the points
/// of lines at its place.
fn placed(lines: &[Breakline], places: &mut Vec<Point>) -> Vec<Piece> {
    let spots = places.len();
    // By place, so that which of two near points becomes the node is no matter of the file.
    let mut points: Vec<(Point, usize, usize)> = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        points.extend(line.points.iter().enumerate().map(|(j, p)| (p.at, i, j)));
    }
    points.sort_by(|a, b| by_place(a.0, b.0).then((a.1, a.2).cmp(&(b.1, b.2))));
    let mut nodes: Vec<Vec<usize>> = lines.iter().map(|l| vec![0; l.points.len()]).collect();
    for (at, line, point) in points {
        let node = near(places.get(..spots).unwrap_or_default(), at)
            .or_else(|| near(places.get(spots..).unwrap_or_default(), at).map(|i| spots + i))
            .unwrap_or_else(|| {
                places.push(at);
                places.len() - 1
            });
        if let Some(entry) = nodes.get_mut(line).and_then(|l| l.get_mut(point)) {
            *entry = node;
        }
    }
    let mut pieces = Vec::new();
    for (line, nodes) in nodes.iter().enumerate() {
        let pairs = nodes.iter().zip(nodes.iter().skip(1)).enumerate();
        pieces.extend(
            pairs
                .filter(|(_, (from, to))| from != to)
                .map(|(stretch, (&from, &to))| Piece {
                    line,
                    stretch,
                    from,
                    to,
                }),
        );
    }
    pieces
}

fn by_place(a: Point, b: Point) -> core::cmp::Ordering {
    a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
}

/// The nearest of these places (by x, then y) within [`ONE_PLACE`].
fn near(places: &[Point], at: Point) -> Option<usize> {
    let first = places.partition_point(|p| p.x < at.x - ONE_PLACE);
    let mut best: Option<(f64, usize)> = None;
    for (i, place) in places.iter().enumerate().skip(first) {
        if place.x > at.x + ONE_PLACE {
            break;
        }
        let distance = place.distance(at);
        if distance < ONE_PLACE && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, i));
        }
    }
    best.map(|(_, i)| i)
}

/// The two ends of a piece, always in the same order, and whether it runs the other way.
fn ends(piece: &Piece, places: &[Point]) -> Option<(Point, Point, bool)> {
    let (from, to) = (*places.get(piece.from)?, *places.get(piece.to)?);
    let turned = by_place(from, to).is_gt();
    Some(if turned {
        (to, from, true)
    } else {
        (from, to, false)
    })
}

/// Puts nodes into pieces: `(piece, how far along it from its lower end, node)`. A stretch runs
/// through a node once, so that splitting comes to an end.
fn split(pieces: &mut Vec<Piece>, places: &[Point], mut at: Vec<(usize, f64, usize)>) -> bool {
    let mut met: Vec<[usize; 3]> = Vec::with_capacity(2 * pieces.len());
    for piece in pieces.iter() {
        met.extend([piece.from, piece.to].map(|node| [piece.line, piece.stretch, node]));
    }
    met.sort_by(Ord::cmp);
    let key = |i: usize, node: usize| {
        let piece = pieces.get(i);
        piece.map_or([usize::MAX; 3], |p| [p.line, p.stretch, node])
    };
    at.retain(|(i, _, node)| met.binary_search(&key(*i, *node)).is_err());
    if at.is_empty() {
        return false;
    }
    at.sort_by(|a, b| {
        let by_stretch = key(a.0, a.2).cmp(&key(b.0, b.2));
        by_stretch.then(a.0.cmp(&b.0)).then(a.1.total_cmp(&b.1))
    });
    at.dedup_by(|b, a| key(a.0, a.2) == key(b.0, b.2));
    at.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
    let mut rest = at.as_slice();
    let mut after = Vec::with_capacity(pieces.len() + at.len());
    for (i, piece) in pieces.iter().enumerate() {
        let count = rest.iter().take_while(|(of, ..)| *of == i).count();
        let (here, others) = rest.split_at(count);
        rest = others;
        let mut nodes: Vec<usize> = here.iter().map(|(.., node)| *node).collect();
        if ends(piece, places).is_some_and(|(.., turned)| turned) {
            nodes.reverse();
        }
        let mut from = piece.from;
        for to in nodes.into_iter().chain([piece.to]) {
            if to != from {
                after.push(Piece { from, to, ..*piece });
            }
            from = to;
        }
    }
    *pieces = after;
    true
}

/// Draws every piece through the nodes that lie on it; says whether there were any.
fn split_at_nodes(pieces: &mut Vec<Piece>, places: &[Point]) -> bool {
    let mut order: Vec<usize> = (0..places.len()).collect();
    let place = |i: usize| places.get(i).copied().unwrap_or_default();
    order.sort_by(|a, b| by_place(place(*a), place(*b)));
    let mut at = Vec::new();
    for (i, piece) in pieces.iter().enumerate() {
        let Some((low, high, _)) = ends(piece, places) else {
            continue;
        };
        let along = high - low;
        let squared = along.dot(along);
        let first = order.partition_point(|n| place(*n).x < low.x - ONE_PLACE);
        for &node in order.iter().skip(first) {
            let p = place(node);
            if p.x > high.x + ONE_PLACE {
                break;
            }
            let off = p - low;
            let foot = along.dot(off);
            let beside = along.cross(off);
            let on = beside * beside < ON_LINE * ON_LINE * squared;
            if on && foot > 0.0 && foot < squared {
                at.push((i, foot, node));
            }
        }
    }
    split(pieces, places, at)
}

/// Gives every crossing of two pieces a node; says whether there were any.
fn split_at_crossings(pieces: &mut Vec<Piece>, places: &mut Vec<Point>) -> bool {
    let mut spans: Vec<(usize, Point, Point)> = pieces
        .iter()
        .enumerate()
        .filter_map(|(i, piece)| ends(piece, places).map(|(low, high, _)| (i, low, high)))
        .collect();
    spans.sort_by(|a, b| by_place(a.1, b.1).then(by_place(a.2, b.2)));
    let mut found: Vec<(Point, usize, usize)> = Vec::new();
    for (k, (i, a, b)) in spans.iter().enumerate() {
        for (j, c, d) in spans.iter().skip(k + 1) {
            if c.x > b.x {
                break;
            }
            let apart = a.y.max(b.y) < c.y.min(d.y) || c.y.max(d.y) < a.y.min(b.y);
            if !apart && let Some(at) = crossing(*a, *b, *c, *d) {
                found.push((at, *i, *j));
            }
        }
    }
    if found.is_empty() {
        return false;
    }
    found.sort_by(|a, b| by_place(a.0, b.0));
    let known = places.len();
    let mut at = Vec::new();
    for (point, i, j) in found {
        // A third line may cross at the same place: then there is a node already.
        let new = places.get(known..).unwrap_or_default();
        let node = near(new, point).map(|n| known + n).unwrap_or_else(|| {
            places.push(point);
            places.len() - 1
        });
        for piece in [i, j] {
            let foot = pieces
                .get(piece)
                .and_then(|p| ends(p, places))
                .map_or(0.0, |(low, high, _)| (high - low).dot(point - low));
            at.push((piece, foot, node));
        }
    }
    split(pieces, places, at)
}

/// Where two lines cross between their ends; nothing where they touch at an end.
fn crossing(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
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

/// What every line has for an elevation at every node it passes.
fn passing(lines: &[Breakline], pieces: &[Piece], places: &[Point]) -> Vec<Passing> {
    let mut passing = Vec::with_capacity(2 * pieces.len());
    for piece in pieces {
        let stretch = lines.get(piece.line).map(|l| l.points.as_slice());
        let stretch = stretch.and_then(|points| points.get(piece.stretch..));
        let Some([a, b, ..]) = stretch else { continue };
        for node in [piece.from, piece.to] {
            let Some(at) = places.get(node) else { continue };
            // The nodes of the stretch's own ends lie within a millimetre of them.
            let end = [(a, piece.stretch), (b, piece.stretch + 1)]
                .into_iter()
                .find(|(p, _)| p.at.distance(*at) < ONE_PLACE);
            let (elevation, point) = match end {
                Some((p, index)) => (p.elevation, Some(index)),
                None => (between(a, b, *at), None),
            };
            passing.push(Passing {
                node,
                line: piece.line,
                elevation,
                point,
            });
        }
    }
    passing
}

/// The elevation of a stretch at a place on it, the same whichever way it runs.
fn between(a: &Spot, b: &Spot, at: Point) -> f64 {
    let (low, high) = if by_place(a.at, b.at).is_gt() {
        (b, a)
    } else {
        (a, b)
    };
    let along: Vector = high.at - low.at;
    let t = (along.dot(at - low.at) / along.dot(along)).clamp(0.0, 1.0);
    low.elevation + (high.elevation - low.elevation) * t
}

/// The network with its nodes by place and every edge once.
fn sorted(nodes: Vec<Node>, pieces: &[Piece], lines: usize) -> Network {
    let mut order: Vec<usize> = (0..nodes.len()).collect();
    let at = |i: usize| nodes.get(i).map_or(Point::default(), |n| n.at);
    order.sort_by(|a, b| by_place(at(*a), at(*b)));
    let mut rank = vec![0; nodes.len()];
    for (new, old) in order.iter().enumerate() {
        if let Some(entry) = rank.get_mut(*old) {
            *entry = new;
        }
    }
    let ranked = |i: usize| rank.get(i).copied().unwrap_or(0);
    let mut edges = Vec::with_capacity(pieces.len());
    let mut chains: Vec<Vec<usize>> = vec![Vec::new(); lines];
    for piece in pieces {
        let (from, to) = (ranked(piece.from), ranked(piece.to));
        edges.push([from.min(to), from.max(to)]);
        if let Some(chain) = chains.get_mut(piece.line) {
            if chain.is_empty() {
                chain.push(from);
            }
            chain.push(to);
        }
    }
    edges.sort_by(Ord::cmp);
    edges.dedup();
    Network {
        nodes: order
            .iter()
            .filter_map(|i| nodes.get(*i))
            .copied()
            .collect(),
        edges,
        lines: chains,
    }
}

#[cfg(test)]
mod tests {
    use super::super::breakline;
    use super::super::spots;
    use super::*;

    fn network(
        spots: &[[f64; 3]],
        lines: &[Vec<[f64; 3]>],
    ) -> Result<(Network, Vec<Finding>), Vec<Finding>> {
        join(
            &spots::check(spots).unwrap(),
            &breakline::check(lines).unwrap(),
        )
    }

    fn checks(found: &[Finding]) -> Vec<(&str, &str)> {
        found.iter().map(|f| (f.code, f.pointer.as_str())).collect()
    }

    #[test]
    fn a_crossing_becomes_a_node_of_both_lines() {
        let lines = [
            vec![[0.0, 0.0, 10.0], [10.0, 10.0, 12.0]],
            vec![[0.0, 10.0, 11.5], [10.0, 0.0, 10.5]],
        ];
        let (net, found) = network(&[], &lines).unwrap();
        assert!(found.is_empty());
        assert_eq!((net.nodes.len(), net.edges.len()), (5, 4));
        let middle = net.nodes[2];
        assert_eq!((middle.at, middle.elevation), (Point::new(5.0, 5.0), 11.0));
        assert_eq!(net.lines, [vec![0, 2, 4], vec![1, 2, 3]]);
    }

    #[test]
    fn lines_that_cross_at_two_heights_take_the_mean_and_say_so() {
        let lines = [
            vec![[0.0, 0.0, 10.0], [10.0, 10.0, 10.0]],
            vec![[0.0, 10.0, 10.5], [10.0, 0.0, 10.5]],
        ];
        let (net, found) = network(&[], &lines).unwrap();
        assert_eq!(net.nodes[2].elevation, 10.25);
        assert_eq!(checks(&found), [("breaklines-disagree", "/breaklines/1")]);
        assert_eq!(found[0].at, Some([5.0, 5.0]));
        assert_eq!(
            found[0].message,
            "Breaklines 1 and 2 cross at 32.81 ft (10.000 m) and 34.45 ft (10.500 m); the mean \
             is taken there."
        );
        // Within a tenth of a foot they agree.
        let near = [
            lines[0].clone(),
            vec![[0.0, 10.0, 10.03], [10.0, 0.0, 10.03]],
        ];
        assert!(network(&[], &near).unwrap().1.is_empty());
    }

    #[test]
    fn a_spot_on_a_line_holds_and_bends_it() {
        let line = vec![[0.0, 0.0, 10.0], [10.0, 0.0, 12.0]];
        let agree = [[5.0, 0.0004, 11.02]];
        let (net, found) = network(&agree, core::slice::from_ref(&line)).unwrap();
        assert!(found.is_empty());
        assert_eq!(net.nodes[1].at, Point::new(5.0, 0.0004));
        assert_eq!(net.nodes[1].elevation, 11.02);
        assert_eq!(net.lines, [vec![0, 1, 2]]);
        let (net, found) = network(&[[5.0, 0.0, 11.5]], core::slice::from_ref(&line)).unwrap();
        assert_eq!(net.nodes[1].elevation, 11.5);
        assert_eq!(checks(&found), [("breaklines-disagree", "/breaklines/0")]);
        // Two millimetres aside it is a spot of its own.
        let (net, _) = network(&[[5.0, 0.002, 11.5]], &[line]).unwrap();
        assert_eq!(net.lines, [vec![0, 2]]);
    }

    #[test]
    fn two_measured_elevations_at_one_place_are_a_fault() {
        let line = vec![[0.0, 0.0, 10.0], [10.0, 0.0, 12.0]];
        let fault = network(&[[10.0, 0.0, 11.0]], core::slice::from_ref(&line)).unwrap_err();
        assert_eq!(checks(&fault), [("two-elevations", "/breaklines/0/1")]);
        assert!(
            fault[0]
                .message
                .starts_with("Spot 1 and point 2 of breakline 1")
        );
        let other = vec![[10.0, 0.0, 13.0], [10.0, 9.0, 13.0]];
        let fault = network(&[], &[line, other]).unwrap_err();
        assert_eq!(checks(&fault), [("two-elevations", "/breaklines/1/0")]);
    }

    #[test]
    fn a_point_on_another_line_and_shared_stretches_are_joined() {
        // The second starts on the first; the third runs along it for a while, backwards.
        let lines = [
            vec![[0.0, 0.0, 0.0], [10.0, 0.0, 10.0]],
            vec![[4.0, 0.0, 4.0], [4.0, 5.0, 4.0]],
            vec![[12.0, 0.0, 12.0], [6.0, 0.0, 6.0]],
        ];
        let (net, found) = network(&[], &lines).unwrap();
        assert!(found.is_empty());
        let along = |line: usize| -> Vec<f64> {
            net.lines[line].iter().map(|n| net.nodes[*n].at.x).collect()
        };
        assert_eq!(along(0), [0.0, 4.0, 6.0, 10.0]);
        assert_eq!(along(1), [4.0, 4.0]);
        assert_eq!(along(2), [12.0, 10.0, 6.0]);
        assert_eq!(net.edges.len(), 5);
        // A point of one line off the height of another that passes it.
        let lines = [lines[0].clone(), vec![[4.0, 0.0, 5.0], [4.0, 5.0, 4.0]]];
        let (net, found) = network(&[], &lines).unwrap();
        assert_eq!(checks(&found), [("breaklines-disagree", "/breaklines/0")]);
        let node = net.nodes.iter().find(|n| n.at == Point::new(4.0, 0.0));
        assert_eq!(node.unwrap().elevation, 5.0);
    }

    #[test]
    fn three_lines_through_one_place_meet_in_one_node() {
        let ray = |x: f64, y: f64| vec![[-x, -y, 1.0], [x, y, 1.0]];
        let lines = [ray(7.0, 0.3), ray(2.0, 9.1), ray(-4.7, 3.3), ray(5.1, 5.0)];
        let (net, _) = network(&[], &lines).unwrap();
        assert_eq!((net.nodes.len(), net.edges.len()), (9, 8));
    }

    #[test]
    fn a_line_that_crosses_itself_is_joined_with_itself() {
        let bow = vec![
            [0.0, 0.0, 1.0],
            [10.0, 10.0, 1.0],
            [10.0, 0.0, 1.0],
            [0.0, 10.0, 1.0],
        ];
        let (net, _) = network(&[], &[bow]).unwrap();
        assert_eq!((net.nodes.len(), net.lines[0].len()), (5, 6));
    }
}
