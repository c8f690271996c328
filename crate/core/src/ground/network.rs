//! Spots and breaklines joined into a network whose lines meet at nodes alone.
//!
//! The triangulation takes edges that touch at their ends and nowhere else, so the lines are
//! noded first ([`super::noding`]), every spot or point that lies on a line becomes a node of
//! that line, and stretches that two lines share become one.
//!
//! # Whose elevation holds
//! 1. At a spot the spot's.
//! 2. Where points of lines stand, theirs (the mean, should they differ by rounding).
//! 3. Where lines cross between their points, the mean of what each of them has there.
//!
//! A line that has another elevation there, by more than [`AGREE`](super::breakline::AGREE), is told as a caution; two
//! measured elevations of one place that differ by more are a fault, as of two spots.

use super::breakline::Breakline;
use super::disagree::{Passing, judge};
use super::noding::{Noded, Stretch, by_place};
use super::spots::{ONE_PLACE, Spot};
use crate::finding::Finding;
use crate::geom::{Point, Vector};
use crate::order::put_in_order;

/// A place of known elevation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Node {
    /// Where, site meters.
    pub at: Point,
    /// Its elevation, meters.
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

/// Joins checked spots (by x, then y) and checked breaklines. The findings are cautions.
///
/// # Errors
/// Two measured elevations at one place, as faults; lines that cross too often.
pub(super) fn join(
    spots: &[Spot],
    lines: &[Breakline],
) -> Result<(Network, Vec<Finding>), Vec<Finding>> {
    let Noded { places, stretches } =
        Noded::of_survey(spots, lines).map_err(|fault| vec![fault])?;
    let passing = passing(lines, &stretches, &places);
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
        sorted(nodes.collect(), &stretches, lines.len()),
        judged.findings,
    ))
}

/// What every line has for an elevation at every node it passes.
fn passing(lines: &[Breakline], stretches: &[Stretch], places: &[Point]) -> Vec<Passing> {
    let mut passing = Vec::new();
    for stretch in stretches {
        let points = lines.get(stretch.line).map(|l| l.points.as_slice());
        let points = points.and_then(|points| points.get(stretch.start..));
        let Some([a, b, ..]) = points else { continue };
        for &node in &stretch.nodes {
            let Some(at) = places.get(node) else { continue };
            // The nodes of the stretch's own ends lie within a millimetre of them.
            let end = [(a, stretch.start), (b, stretch.start + 1)]
                .into_iter()
                .find(|(p, _)| p.at.distance(*at) < ONE_PLACE);
            let (elevation, point) = match end {
                Some((p, index)) => (p.elevation, Some(index)),
                None => (between(a, b, *at), None),
            };
            passing.push(Passing {
                node,
                line: stretch.line,
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
fn sorted(nodes: Vec<Node>, stretches: &[Stretch], lines: usize) -> Network {
    let mut order: Vec<usize> = (0..nodes.len()).collect();
    let at = |i: usize| nodes.get(i).map_or(Point::default(), |n| n.at);
    put_in_order(&mut order, |a, b| by_place(at(*a), at(*b)));
    let mut rank = vec![0; nodes.len()];
    for (new, old) in order.iter().enumerate() {
        if let Some(entry) = rank.get_mut(*old) {
            *entry = new;
        }
    }
    let mut chains: Vec<Vec<usize>> = vec![Vec::new(); lines];
    for stretch in stretches {
        if let Some(chain) = chains.get_mut(stretch.line) {
            // A stretch begins where the one before it ends.
            let known = usize::from(!chain.is_empty());
            let more = stretch.nodes.iter().skip(known);
            chain.extend(more.filter_map(|node| rank.get(*node)));
        }
    }
    let pairs = chains.iter().flat_map(|c| c.iter().zip(c.iter().skip(1)));
    let mut edges: Vec<[usize; 2]> = pairs.map(|(a, b)| [*a.min(b), *a.max(b)]).collect();
    put_in_order(&mut edges, Ord::cmp);
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

    /// Found by the property of lines that agree: parts of the second line, 2 m apart and in line but for
    /// rounding, were taken to cross each other.
    #[test]
    fn parts_of_one_line_do_not_cross_each_other() {
        let on_plane = |(x, y): (f64, f64)| [x, y, 100.0 + 0.07 * x - 0.04 * y];
        let first = [
            (-42.507714645105715, 19.50374961780623),
            (38.519632313015975, 12.357990326298138),
        ];
        let second = [
            (-0.3136324519620976, 43.04859400700474),
            (-34.36040374070662, -40.6848282925447),
            (26.58025563413108, 32.08911539412274),
            (-32.43627961405368, 10.562996747009787),
        ];
        let third = [
            (32.21087810844879, 16.123029709239688),
            (-43.08989842936014, -16.80679510670659),
        ];
        let lines: [&[(f64, f64)]; 3] = [&first, &second, &third];
        let lines = lines.map(|line| line.iter().copied().map(on_plane).collect());
        let (net, found) = network(&[], &lines).unwrap();
        assert!(found.is_empty());
        // Eight points and seven crossings.
        assert_eq!(net.nodes.len(), 15);
        let nodes: Vec<usize> = net.lines.iter().map(Vec::len).collect();
        assert_eq!(nodes, [6, 11, 5]);
    }

    #[test]
    fn lines_that_cross_too_often_are_refused_before_they_are_noded() {
        let line = |x: bool| {
            move |i: u32| {
                let at = f64::from(i) * 0.1;
                match x {
                    true => vec![[at, -1.0, 10.0], [at, 121.0, 10.0]],
                    false => vec![[-1.0, at, 10.0], [121.0, at, 10.0]],
                }
            }
        };
        let lines: Vec<_> = (0..1_200)
            .map(line(true))
            .chain((0..1_200).map(line(false)))
            .collect();
        let faults = network(&[], &lines).unwrap_err();
        assert_eq!(checks(&faults), [("too-many-crossings", "/breaklines")]);
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

    #[test]
    fn a_grid_of_lines_is_noded_at_every_crossing() {
        let count = 120;
        let across = |i: usize, along: bool| {
            let off = i as f64 * 0.5 + 0.25;
            let end = |far: f64| {
                if along {
                    [far, off, 1.0]
                } else {
                    [off, far, 1.0]
                }
            };
            vec![end(0.0), end(60.0)]
        };
        let lines: Vec<_> = (0..2 * count).map(|i| across(i / 2, i % 2 == 0)).collect();
        let (net, found) = network(&[], &lines).unwrap();
        assert!(found.is_empty());
        assert_eq!(net.nodes.len(), count * count + 4 * count);
        assert_eq!(net.edges.len(), 2 * count * (count + 1));
        assert!(net.lines.iter().all(|line| line.len() == count + 2));
    }
}
