//! Which elevation holds where spots and breaklines meet, and what is said when they differ.

use super::breakline::{AGREE, Breakline, name};
use super::spots::{self, Spot, told};
use crate::finding::said;
use crate::finding::{Finding, Message};
use crate::geom::Point;
use crate::order::put_in_order;

/// As many cautions as anyone reads.
const CAUTIONS_TOLD: usize = 50;

/// What a line has for an elevation at a node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Passing {
    /// The node.
    pub node: usize,
    /// Which of the lines.
    pub line: usize,
    /// What it has there, meters.
    pub elevation: f64,
    /// Its own point that stands there, by its place in `Breakline::points`; none where the
    /// elevation lies between two points.
    pub point: Option<usize>,
}

/// The elevation of every node, and cautions.
pub(super) struct Judged {
    pub elevations: Vec<f64>,
    pub findings: Vec<Finding>,
}

/// A pair that differs: who holds, the line that does not agree, and by how much.
struct Dispute {
    pair: (Holder, usize),
    gap: f64,
    finding: Finding,
}

/// Whose elevation a line is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Holder {
    Spot,
    Line(usize),
}

/// Judges every node. The first nodes are the spots, in their order.
///
/// # Errors
/// Every place with two measured elevations.
pub(super) fn judge(
    spots: &[Spot],
    count: usize,
    places: &[Point],
    lines: &[Breakline],
    mut passing: Vec<Passing>,
) -> Result<Judged, Vec<Finding>> {
    let mut elevations: Vec<f64> = spots.iter().map(|s| s.elevation).collect();
    elevations.resize(count, 0.0);
    // By node, then by elevation: sums do not depend on the order of the lines.
    put_in_order(&mut passing, |a, b| {
        let by_node = a.node.cmp(&b.node);
        let by_height = by_node.then(a.elevation.total_cmp(&b.elevation));
        by_height.then((a.line, a.point).cmp(&(b.line, b.point)))
    });
    passing.dedup();
    let (mut faults, mut disputes) = (Vec::new(), Vec::new());
    for here in passing.chunk_by(|a, b| a.node == b.node) {
        let Some(node) = here.first().map(|p| p.node) else {
            continue;
        };
        let scene = Scene {
            at: places.get(node).copied().unwrap_or_default(),
            spot: spots.get(node),
            lines,
            here,
        };
        if let Some(fault) = scene.two_measured() {
            faults.push(fault);
            continue;
        }
        let held = scene.held();
        if let Some(entry) = elevations.get_mut(node) {
            *entry = held;
        }
        scene.disputes(held, &mut disputes);
    }
    if !faults.is_empty() {
        return Err(spots::shortened(faults));
    }
    // One caution to each pair, where they differ most.
    put_in_order(&mut disputes, |a, b| {
        a.pair.cmp(&b.pair).then(b.gap.total_cmp(&a.gap))
    });
    disputes.dedup_by(|b, a| a.pair == b.pair && matches!(a.pair.0, Holder::Line(_)));
    let findings = disputes.into_iter().take(CAUTIONS_TOLD);
    Ok(Judged {
        elevations,
        findings: findings.map(|d| d.finding).collect(),
    })
}

/// Everything that meets at one node.
struct Scene<'a> {
    at: Point,
    spot: Option<&'a Spot>,
    lines: &'a [Breakline],
    here: &'a [Passing],
}

impl Scene<'_> {
    fn measured(&self) -> impl Iterator<Item = &Passing> {
        self.here.iter().filter(|p| p.point.is_some())
    }

    /// The fault of two measured elevations that differ.
    fn two_measured(&self) -> Option<Finding> {
        let (low, high) = (self.measured().next()?, self.measured().last()?);
        let told_of = |p: &Passing| (self.point_name(p), p.elevation);
        let (first, second, line) = match self.spot {
            Some(spot) => {
                let off = |p: &Passing| (p.elevation - spot.elevation).abs();
                let far = if off(low) > off(high) { low } else { high };
                let spot = (format!("Spot {}", spot.index + 1), spot.elevation);
                (spot, told_of(far), far)
            }
            None => (told_of(low), told_of(high), high),
        };
        ((first.1 - second.1).abs() > AGREE).then(|| {
            Finding::fault(
                "two-elevations",
                format!(
                    "{} and {} stand at one place, at {} and {}.",
                    first.0,
                    second.0.to_lowercase(),
                    told(first.1),
                    told(second.1)
                ),
                "Correct one of them; show a wall as two lines a little apart, one along its top \
                 and one along its foot.",
            )
            .under(&self.place(line))
            .at(self.at.x, self.at.y)
        })
    }

    /// The elevation that holds.
    fn held(&self) -> f64 {
        if let Some(spot) = self.spot {
            return spot.elevation;
        }
        let only_measured = self.measured().next().is_some();
        let counted = |p: &&Passing| p.point.is_some() || !only_measured;
        let (mut sum, mut count) = (0.0, 0.0);
        for passing in self.here.iter().filter(counted) {
            sum += passing.elevation;
            count += 1.0;
        }
        sum / count
    }

    /// Every line that has another elevation here than the one that holds.
    fn disputes(&self, held: f64, disputes: &mut Vec<Dispute>) {
        let holder = match (self.spot, self.measured().next()) {
            (Some(spot), _) => {
                let number = (spot.index + 1).to_string();
                Some((Holder::Spot, said!("spot {number}", number = number)))
            }
            (None, Some(p)) => {
                let (point, line) = self.point_numbers(p);
                let name = said!(
                    "point {point} of breakline {line}",
                    point = point.to_string(),
                    line = line.to_string(),
                );
                Some((Holder::Line(p.line), name))
            }
            (None, None) => None,
        };
        let Some((holder, name)) = holder else {
            return disputes.extend(self.crossing());
        };
        for line in self.here.iter().filter(|p| p.point.is_none()) {
            let gap = (line.elevation - held).abs();
            if gap > AGREE {
                let message = said!(
                    "Breakline {line} passes {point} at {elevation}, which stands at {held}; the line \
                     is bent to it there.",
                    line = self.number(line).to_string(),
                    point = name.clone(),
                    elevation = told(line.elevation),
                    held = told(held),
                );
                disputes.push(self.dispute((holder, line.line), gap, message));
            }
        }
    }

    /// Two lines that cross at different elevations.
    fn crossing(&self) -> Option<Dispute> {
        let (low, high) = (self.here.first()?, self.here.last()?);
        let gap = high.elevation - low.elevation;
        let (first, second) = if low.line <= high.line {
            (low, high)
        } else {
            (high, low)
        };
        (gap > AGREE).then(|| {
            let (one, other) = (self.number(first), self.number(second));
            let who = if one == other {
                said!("Breakline {line} crosses itself", line = one.to_string())
            } else {
                said!(
                    "Breaklines {line} and {other} cross",
                    line = one.to_string(),
                    other = other.to_string(),
                )
            };
            let message = said!(
                "{who} at {first} and {second}; the mean is taken there.",
                who = who,
                first = told(first.elevation),
                second = told(second.elevation),
            );
            self.dispute((Holder::Line(first.line), second.line), gap, message)
        })
    }

    fn dispute(&self, pair: (Holder, usize), gap: f64, message: Message) -> Dispute {
        let index = self.lines.get(pair.1).map_or(0, |l| l.index);
        let finding = Finding::caution(
            "breaklines-disagree",
            message,
            "Check the elevations of both; give the place of the crossing as a point of each line.",
        )
        .under(&format!("/breaklines/{index}"))
        .at(self.at.x, self.at.y);
        Dispute { pair, gap, finding }
    }

    /// The number of a line as its reader counts.
    fn number(&self, passing: &Passing) -> usize {
        self.lines.get(passing.line).map_or(0, |l| l.index) + 1
    }

    fn point_name(&self, passing: &Passing) -> String {
        name(self.number(passing) - 1, self.point_index(passing))
    }

    /// The numbers of a point and of its line as their reader counts.
    fn point_numbers(&self, passing: &Passing) -> (usize, usize) {
        (self.point_index(passing) + 1, self.number(passing))
    }

    /// The point's index in the file.
    fn point_index(&self, passing: &Passing) -> usize {
        let line = self.lines.get(passing.line);
        let point = line.zip(passing.point).and_then(|(l, i)| l.points.get(i));
        point.map_or(0, |p| p.index)
    }

    fn place(&self, passing: &Passing) -> String {
        let line = self.number(passing) - 1;
        format!("/breaklines/{line}/{}", self.point_index(passing))
    }
}
