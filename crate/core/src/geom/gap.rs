//! The widest way between obstacles, by the gaps between them.
//!
//! A disc of some width gets from far away to a goal unless the obstacles, each grown by half that
//! width, close a ring about it. Every obstacle is a set of straight pieces with a radius; grown, each
//! of them is convex, so a ring in their union is a ring in the graph whose nodes are the pieces and
//! whose edges are the gaps no wider than the disc (the nerve of convex sets). A ring goes about the
//! goal when it crosses a ray from there an odd number of times. So: the gaps in order of width into
//! a union-find that keeps the parity of crossings; the first odd ring closes at the widest disc, and
//! the gap that closes it is the pinch. The disc cannot stand at the goal when something is nearer to
//! it than half its width, which bounds the width as well.
//!
//! Exact for the pieces given, with no tolerance of its own.

use super::{Point, Vector};
use crate::math::{greater, lesser};
use crate::order::put_in_order;

/// A straight piece of an obstacle, with round ends where it has a radius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Its first end, site meters.
    pub from: Point,
    /// Its other end; the same for a disc.
    pub to: Point,
    /// How far it reaches round that line, meters.
    pub radius: f64,
    /// Whose it is: an index that the caller knows.
    pub owner: usize,
}

/// What two pieces, or a piece and a point, leave between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Its width, meters; 0 where they meet.
    pub width: f64,
    /// Where it begins and ends (site meters), on the first piece and on the second.
    pub ends: [Point; 2],
    /// The two pieces, by their indices; the same twice where it ends at the goal.
    pub pieces: [usize; 2],
}

/// The widest way to a goal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Widest {
    /// The point of the goal that it leads to.
    pub goal: Point,
    /// What holds it: a gap that every way passes; none where nothing does.
    pub pinch: Option<Gap>,
    /// The room at the goal itself is what holds it.
    pub at_goal: bool,
}

impl Widest {
    /// Its width, meters; infinite where nothing holds it.
    pub fn width(&self) -> f64 {
        self.pinch.map_or(f64::INFINITY, |it| it.width)
    }
}

impl Piece {
    /// The pieces of a chain, each with so much reach round it, meters; a single point is one of them.
    pub fn of_chain(chain: &[Point], radius: f64, owner: usize) -> impl Iterator<Item = Self> + '_ {
        let piece = move |from, to| Self {
            from,
            to,
            radius,
            owner,
        };
        let alone = match chain {
            [alone] => Some(piece(*alone, *alone)),
            _ => None,
        };
        let edges = chain.array_windows();
        alone
            .into_iter()
            .chain(edges.map(move |[a, b]| piece(*a, *b)))
    }

    /// The nearest points of two pieces.
    fn gap(&self, other: &Self) -> ([Point; 2], f64) {
        let (a, b) = nearest(self.from, self.to, other.from, other.to);
        let apart = a.distance(b) - self.radius - other.radius;
        let way = (b - a).unit().unwrap_or_default();
        if apart <= 0.0 {
            // Somewhere in both.
            let share = self.radius / greater(self.radius + other.radius, 1e-12);
            let middle = a + (b - a) * share;
            return ([middle, middle], 0.0);
        }
        let ends = [a + way * self.radius, b - way * other.radius];
        (ends, apart)
    }

    /// Distance of a point, meters; negative inside it.
    pub fn distance(&self, p: Point) -> f64 {
        p.distance(foot(self.from, self.to, p)) - self.radius
    }

    /// Distance of a straight line from it, meters; negative where it runs into it.
    pub fn distance_of_line(&self, from: Point, to: Point) -> f64 {
        let (a, b) = nearest(self.from, self.to, from, to);
        a.distance(b) - self.radius
    }
}

/// Least distance of a point from any piece, meters, and which.
pub fn clearance(pieces: &[Piece], p: Point) -> (f64, usize) {
    let each = pieces.iter().enumerate().map(|(i, it)| (it.distance(p), i));
    let least = each.fold((f64::INFINITY, 0), |a, b| if b.0 < a.0 { b } else { a });
    (greater(least.0, 0.0), least.1)
}

/// Least distance of a straight line from any piece, meters.
pub fn clearance_of_line(pieces: &[Piece], from: Point, to: Point) -> f64 {
    let each = pieces.iter().map(|it| it.distance_of_line(from, to));
    greater(each.fold(f64::INFINITY, lesser), 0.0)
}

/// Every gap between two pieces that is narrower than `limit` meters, the narrowest first.
fn gaps(pieces: &[Piece], limit: f64) -> Vec<Gap> {
    let mut all = Vec::new();
    for (i, a) in pieces.iter().enumerate() {
        for (j, b) in pieces.iter().enumerate().skip(i + 1) {
            let (ends, width) = a.gap(b);
            if width < limit {
                let pieces = [i, j];
                all.push(Gap {
                    width,
                    ends,
                    pieces,
                });
            }
        }
    }
    put_in_order(&mut all, |a, b| {
        let by_width = a.width.total_cmp(&b.width);
        by_width.then_with(|| a.pieces.cmp(&b.pieces))
    });
    all
}

/// The widest way from far away to any of some points. None where there are no points.
pub fn widest(pieces: &[Piece], goals: &[Point]) -> Option<Widest> {
    let measured = goals.iter().map(|p| (*p, clearance(pieces, *p)));
    let mut goals: Vec<(Point, (f64, usize))> = measured.collect();
    // A goal with more room bounds less.
    put_in_order(&mut goals, |a, b| b.1.0.total_cmp(&a.1.0));
    let most = goals.first().map_or(0.0, |(_, (room, _))| 2.0 * room);
    let gaps = gaps(pieces, most);
    let mut best: Option<Widest> = None;
    for (goal, (room, nearest)) in goals {
        if best.is_some_and(|it| it.width() >= 2.0 * room) {
            break;
        }
        let found = to_point(pieces, &gaps, goal, (room, nearest));
        if best.is_none_or(|it| found.width() > it.width()) {
            best = Some(found);
        }
    }
    best
}

/// The widest way to one point with so much room round it.
fn to_point(pieces: &[Piece], gaps: &[Gap], goal: Point, (room, nearest): (f64, usize)) -> Widest {
    let mut rings = Rings::new(pieces.len());
    let within = gaps.iter().take_while(|gap| gap.width < 2.0 * room);
    let closing = within.copied().find(|gap| {
        let odd = crosses(pieces, gap, goal);
        rings.join(gap.pieces, odd)
    });
    if let Some(gap) = closing {
        return Widest {
            goal,
            pinch: Some(gap),
            at_goal: false,
        };
    }
    let held = pieces.get(nearest).filter(|_| room.is_finite());
    Widest {
        goal,
        pinch: held.map(|piece| Gap {
            width: 2.0 * room,
            ends: [foot(piece.from, piece.to, goal), goal],
            pieces: [nearest, nearest],
        }),
        at_goal: held.is_some(),
    }
}

/// Whether the way from the first end of one piece over the gap to the first end of the other
/// crosses the ray eastward from a point an odd number of times.
fn crosses(pieces: &[Piece], gap: &Gap, from: Point) -> bool {
    let [a, b] = gap.pieces.map(|i| pieces.get(i).map(|it| it.from));
    let (Some(a), Some(b)) = (a, b) else {
        return false;
    };
    let way = [a, gap.ends[0], gap.ends[1], b];
    let legs = way.array_windows();
    legs.fold(false, |odd, [p, q]| odd ^ passes(*p, *q, from))
}

/// Whether a line passes the ray eastward from a point.
fn passes(p: Point, q: Point, from: Point) -> bool {
    if (p.y > from.y) == (q.y > from.y) {
        return false;
    }
    let x = p.x + (q.x - p.x) * ((from.y - p.y) / (q.y - p.y));
    x > from.x
}

/// Which pieces hang together, and how often the way between them crosses the ray.
struct Rings {
    /// The piece above each, and whether the way to it crosses an odd number of times.
    above: Vec<(usize, bool)>,
    /// How many pieces each has below it, itself among them.
    size: Vec<usize>,
}

impl Rings {
    fn new(count: usize) -> Self {
        Self {
            above: (0..count).map(|i| (i, false)).collect(),
            size: vec![1; count],
        }
    }

    /// The piece on top of the tree that one is in, and the parity of the way to it.
    fn top(&self, piece: usize) -> (usize, bool) {
        let (mut at, mut odd) = (piece, false);
        while let Some(&(above, crosses)) = self.above.get(at) {
            if above == at {
                break;
            }
            odd ^= crosses;
            at = above;
        }
        (at, odd)
    }

    /// Joins two pieces by a way of that parity; true where that closes a ring about the goal.
    fn join(&mut self, [a, b]: [usize; 2], odd: bool) -> bool {
        let ((top_a, odd_a), (top_b, odd_b)) = (self.top(a), self.top(b));
        let parity = odd ^ odd_a ^ odd_b;
        if top_a == top_b {
            return parity;
        }
        let size = |top: usize| self.size.get(top).copied().unwrap_or(0);
        let (a, b) = (size(top_a), size(top_b));
        // The lower tree goes below the larger one.
        let (below, top) = if a < b {
            (top_a, top_b)
        } else {
            (top_b, top_a)
        };
        if let (Some(slot), Some(size)) = (self.above.get_mut(below), self.size.get_mut(top)) {
            (*slot, *size) = ((top, parity), a + b);
        }
        false
    }
}

/// The point of a line nearest to another.
fn foot(from: Point, to: Point, p: Point) -> Point {
    let along = to - from;
    let square = along.dot(along);
    if square <= 0.0 {
        return from;
    }
    let share = (p - from).dot(along) / square;
    from + along * lesser(greater(share, 0.0), 1.0)
}

/// The nearest points of two straight lines; where they cross, the crossing twice.
fn nearest(a: Point, b: Point, c: Point, d: Point) -> (Point, Point) {
    let (ab, cd): (Vector, Vector) = (b - a, d - c);
    let turn = ab.cross(cd);
    if turn != 0.0 {
        let (s, t) = ((c - a).cross(cd) / turn, (c - a).cross(ab) / turn);
        if (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t) {
            let at = a + ab * s;
            return (at, at);
        }
    }
    let pairs = [
        (a, foot(c, d, a)),
        (b, foot(c, d, b)),
        (foot(a, b, c), c),
        (foot(a, b, d), d),
    ];
    let apart = |pair: &(Point, Point)| pair.0.distance(pair.1);
    let [first, rest @ ..] = pairs;
    rest.into_iter().fold(
        first,
        |best, it| if apart(&it) < apart(&best) { it } else { best },
    )
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn line(from: [f64; 2], to: [f64; 2]) -> Piece {
        Piece {
            from: from.into(),
            to: to.into(),
            radius: 0.0,
            owner: 0,
        }
    }

    fn way(pieces: &[Piece], goal: [f64; 2]) -> Widest {
        widest(pieces, &[goal.into()]).unwrap()
    }

    /// A yard 20 wide and 30 deep, open to the south.
    fn yard() -> Vec<Piece> {
        vec![
            line([0.0, 0.0], [0.0, 30.0]),
            line([0.0, 30.0], [20.0, 30.0]),
            line([20.0, 30.0], [20.0, 0.0]),
        ]
    }

    #[test]
    fn the_room_at_the_goal_holds_where_nothing_else_does() {
        let found = way(&yard(), [10.0, 15.0]);
        assert!(found.at_goal);
        assert!((found.width() - 20.0).abs() < 1e-12);
        let open = way(&[], [1.0, 1.0]);
        assert!(open.pinch.is_none() && open.width().is_infinite());
    }

    #[test]
    fn the_wider_side_of_a_house_is_the_way() {
        let mut pieces = yard();
        // A house from x = 3 to x = 16.5: 3 to the left, 3.5 to the right.
        let corners = [[3.0, 8.0], [16.5, 8.0], [16.5, 16.0], [3.0, 16.0]];
        for i in 0..4 {
            pieces.push(line(corners[i], corners[(i + 1) % 4]));
        }
        let found = way(&pieces, [10.0, 23.0]);
        assert!((found.width() - 3.5).abs() < 1e-12 && !found.at_goal);
        let pinch = found.pinch.unwrap();
        let mut xs = pinch.ends.map(|p| p.x);
        xs.sort_by(f64::total_cmp);
        assert_eq!(xs, [16.5, 20.0]);
        // A disc in the wider passage leaves the narrower one.
        pieces.push(Piece {
            radius: 0.5,
            ..line([18.5, 12.0], [18.5, 12.0])
        });
        assert!((way(&pieces, [10.0, 23.0]).width() - 3.0).abs() < 1e-12);
    }

    #[test]
    fn a_fence_closes_and_a_gate_opens() {
        let mut pieces = yard();
        pieces.push(line([0.0, 10.0], [20.0, 10.0]));
        assert_eq!(way(&pieces, [10.0, 20.0]).width(), 0.0);
        pieces.pop();
        pieces.push(line([0.0, 10.0], [7.0, 10.0]));
        pieces.push(line([8.2, 10.0], [20.0, 10.0]));
        let found = way(&pieces, [10.0, 20.0]);
        assert!((found.width() - 1.2).abs() < 1e-12);
        // Before the fence, the gate does not count.
        assert!(way(&pieces, [10.0, 5.0]).width() > 9.0);
    }

    #[test]
    fn the_best_of_several_goals_counts() {
        let mut pieces = yard();
        pieces.push(line([0.0, 10.0], [20.0, 10.0]));
        let goals = [Point::new(10.0, 20.0), Point::new(10.0, 6.0)];
        let found = widest(&pieces, &goals).unwrap();
        assert_eq!(found.goal, goals[1]);
        assert!((found.width() - 8.0).abs() < 1e-12);
    }
}
