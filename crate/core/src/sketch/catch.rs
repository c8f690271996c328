//! A hand led to where it probably means: corners, edges, and the lines that run on from them.
//!
//! # Order
//! Within the hand's reach the first of these that there is wins; among several of a kind the
//! nearest, and among equals the one that stands first in the scene:
//! 1. a corner, or a marked point;
//! 2. where two lines of sight cross: an edge, a direction from the last point, an extension;
//! 3. the middle of an edge, or the foot of the perpendicular from the last point;
//! 4. an edge;
//! 5. a direction from the last point: straight on or square to the last edge, square to the
//!    first edge at the start, parallel or square to the edges nearest to the last point and
//!    to the hand;
//! 6. the extension of an edge.

use crate::geom::{Point, Segment, Vector, crossings, nearest_on};

/// How far an edge is extended, meters (our choice: across a wide yard).
const EXTENDED: f64 = 30.0;

/// How far a direction from the last point is followed, meters (our choice: across a lot).
const FOLLOWED: f64 = 300.0;

/// Lines that cross at less than this (sine of the angle, about 2 degrees) give no point.
const GRAZING: f64 = 0.035;

/// An edge that a hand can be led to.
#[derive(Debug, Clone, PartialEq)]
pub struct Rail {
    /// The edge.
    pub segment: Segment,
    /// What it is called: `side line (east)`, `house wall`.
    pub name: String,
    /// What it is an edge of: `the lot`, `house`.
    pub owner: String,
}

/// A point that a hand can be led to.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Where it is, site meters.
    pub at: Point,
    /// Why one would go there: `middle of tree`.
    pub reason: String,
}

/// Everything a hand can be led to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scene {
    /// Edges; their ends are corners.
    pub rails: Vec<Rail>,
    /// Other points.
    pub marks: Vec<Mark>,
}

/// What is being drawn or moved: where the stretch begins that the hand is to end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// The corner before, site meters.
    pub last: Option<Point>,
    /// The direction in which the edge before came there, and what it is called.
    pub came: Option<(Vector, &'static str)>,
    /// The corner after and the direction in which its edge leaves it, and what that edge is
    /// called.
    pub next: Option<(Point, Vector, &'static str)>,
    /// Whether the hand may come to the corner after, which is the first of a closed path.
    pub may_close: bool,
    /// A corner that is on the move: where it was, it leads nobody.
    pub leaving: Option<Point>,
}

impl Stroke {
    /// Nothing drawn yet.
    pub const FREE: Self = Self {
        last: None,
        came: None,
        next: None,
        may_close: false,
        leaving: None,
    };
}

impl Scene {
    /// The bearing of the straight edge nearest to a point, radians clockwise from north; 0
    /// where there is none.
    pub fn direction_at(&self, near: Point) -> f64 {
        nearest_straight(self, near)
            .and_then(|rail| direction(&rail.segment))
            .map_or(0.0, Vector::bearing)
    }
}

/// Where the hand was led, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct Caught {
    /// The place, site meters.
    pub at: Point,
    /// The reason in words: `on the extension of side line (east)`.
    pub reason: String,
    /// Lines that show the reason, site meters.
    pub guides: Vec<(Point, Point)>,
}

/// A line of sight within reach of the hand.
struct Guide {
    line: Segment,
    /// The place on it nearest to the hand, and how far off.
    at: Point,
    off: f64,
    rank: u8,
    reason: String,
    /// A line is shown from here to the place caught.
    from: Option<Point>,
    /// This edge is shown as well.
    edge: Option<Segment>,
}

struct Search<'a> {
    hand: Point,
    reach: f64,
    best: Option<(f64, Caught)>,
    guides: Vec<Guide>,
    scene: &'a Scene,
}

/// Where a hand is led; `None` when nothing lies within `reach` meters of it.
pub fn catch(hand: Point, reach: f64, scene: &Scene, stroke: &Stroke) -> Option<Caught> {
    let mut search = Search {
        hand,
        reach,
        best: None,
        guides: Vec::new(),
        scene,
    };
    search.corners(stroke);
    if let Some((_, caught)) = search.best {
        return Some(caught);
    }
    search.edges();
    search.directions(stroke);
    search.crossings(stroke);
    if search.best.is_none() {
        search.middles(stroke);
    }
    let Search { best, guides, .. } = search;
    if let Some((_, caught)) = best {
        return Some(caught);
    }
    let mut nearest: Option<&Guide> = None;
    for guide in &guides {
        if nearest.is_none_or(|n| (guide.rank, guide.off) < (n.rank, n.off)) {
            nearest = Some(guide);
        }
    }
    nearest.map(|guide| Caught {
        at: guide.at,
        reason: guide.reason.clone(),
        guides: guide.shown(guide.at),
    })
}

impl Guide {
    fn shown(&self, at: Point) -> Vec<(Point, Point)> {
        let edge = self.edge.map(|edge| (edge.from(), edge.to()));
        self.from
            .map(|from| (from, at))
            .into_iter()
            .chain(edge)
            .collect()
    }
}

impl Search<'_> {
    /// Takes a point if it is the nearest within reach so far.
    fn offer(&mut self, at: Point, caught: &dyn Fn() -> Caught) {
        let off = at.distance(self.hand);
        if off <= self.reach && self.best.as_ref().is_none_or(|(best, _)| off < *best) {
            self.best = Some((off, caught()));
        }
    }

    fn offer_plain(&mut self, at: Point, reason: &dyn Fn() -> String) {
        self.offer(at, &|| Caught {
            at,
            reason: reason(),
            guides: Vec::new(),
        });
    }

    fn corners(&mut self, stroke: &Stroke) {
        if let Some((first, _, _)) = stroke.next.filter(|_| stroke.may_close) {
            self.offer_plain(first, &|| "back at the first corner".to_owned());
        }
        let scene = self.scene;
        for rail in &scene.rails {
            for end in [rail.segment.from(), rail.segment.to()] {
                if stroke.leaving.is_some_and(|gone| gone.distance(end) < 1e-6) {
                    continue;
                }
                self.offer_plain(end, &|| format!("corner of {}", rail.owner));
            }
        }
        for mark in &scene.marks {
            self.offer_plain(mark.at, &|| mark.reason.clone());
        }
    }

    /// Keeps a line of sight if it comes within reach.
    fn guide(
        &mut self,
        line: Segment,
        rank: u8,
        from: Option<Point>,
        edge: Option<Segment>,
        reason: &dyn Fn() -> String,
    ) {
        let at = nearest_on(&line, self.hand);
        let off = at.distance(self.hand);
        if off <= self.reach {
            self.guides.push(Guide {
                line,
                at,
                off,
                rank,
                reason: reason(),
                from,
                edge,
            });
        }
    }

    /// Edges and their extensions.
    fn edges(&mut self) {
        let scene = self.scene;
        for rail in &scene.rails {
            let segment = rail.segment;
            let straight = matches!(segment, Segment::Line { .. });
            let edge = straight.then_some(segment);
            self.guide(segment, 0, None, edge, &|| format!("on {}", rail.name));
            let Some(along) = direction(&segment) else {
                continue;
            };
            for (end, way) in [(segment.from(), -along), (segment.to(), along)] {
                let line = Segment::Line {
                    from: end,
                    to: end + way * EXTENDED,
                };
                self.guide(line, 2, Some(end), edge, &|| {
                    format!("on the extension of {}", rail.name)
                });
            }
        }
    }

    /// Directions from the last point, and square to the first edge at the start.
    fn directions(&mut self, stroke: &Stroke) {
        if let Some((corner, way, name)) = stroke.next {
            self.ray(corner, way.left(), None, &|| format!("square to {name}"));
        }
        let Some(last) = stroke.last else { return };
        if let Some((came, name)) = stroke.came {
            self.ray(last, came, None, &|| format!("straight on from {name}"));
            self.ray(last, came.left(), None, &|| format!("square to {name}"));
        }
        let scene = self.scene;
        let near_last = nearest_straight(scene, last);
        let near_hand = nearest_straight(scene, self.hand).filter(|it| near_last != Some(*it));
        for rail in [near_last, near_hand].into_iter().flatten() {
            let Some(along) = direction(&rail.segment) else {
                continue;
            };
            let edge = Some(rail.segment);
            self.ray(last, along, edge, &|| format!("parallel to {}", rail.name));
            self.ray(last, along.left(), edge, &|| {
                format!("square to {}", rail.name)
            });
        }
    }

    fn ray(
        &mut self,
        from: Point,
        way: Vector,
        edge: Option<Segment>,
        reason: &dyn Fn() -> String,
    ) {
        let line = Segment::Line {
            from: from - way * FOLLOWED,
            to: from + way * FOLLOWED,
        };
        self.guide(line, 1, Some(from), edge, reason);
    }

    /// Where two lines of sight cross.
    fn crossings(&mut self, stroke: &Stroke) {
        let guides = core::mem::take(&mut self.guides);
        for (i, a) in guides.iter().enumerate() {
            for b in guides.iter().skip(i + 1) {
                if let (Some(u), Some(v)) = (direction(&a.line), direction(&b.line))
                    && u.cross(v).abs() < GRAZING
                {
                    continue;
                }
                for at in crossings(&a.line, &b.line).into_iter().flatten() {
                    let on = |g: &Guide| nearest_on(&g.line, at).distance(at) < 1e-6;
                    // Directions from one point cross there: that leads nowhere.
                    let at_own = [stroke.leaving, stroke.last, stroke.next.map(|n| n.0)];
                    let own = at_own.iter().flatten().any(|own| own.distance(at) < 1e-6);
                    if !own && on(a) && on(b) {
                        self.offer(at, &|| Caught {
                            at,
                            reason: format!("{} and {}", a.reason, b.reason),
                            guides: [a.shown(at), b.shown(at)].concat(),
                        });
                    }
                }
            }
        }
        self.guides = guides;
    }

    /// Middles of edges, and feet of perpendiculars from the last point.
    fn middles(&mut self, stroke: &Stroke) {
        let scene = self.scene;
        for rail in &scene.rails {
            self.offer_plain(rail.segment.point_at(0.5), &|| {
                format!("middle of {}", rail.name)
            });
            let (Some(last), Some(along)) = (stroke.last, direction(&rail.segment)) else {
                continue;
            };
            let from = rail.segment.from();
            let foot = from + along * (last - from).dot(along);
            let on = nearest_on(&rail.segment, foot).distance(foot) < 1e-6;
            if on && foot.distance(last) > self.reach {
                let edge = (from, rail.segment.to());
                self.offer(foot, &|| Caught {
                    at: foot,
                    reason: format!("square to {}", rail.name),
                    guides: vec![(last, foot), edge],
                });
            }
        }
    }
}

/// The direction of a straight stretch.
fn direction(segment: &Segment) -> Option<Vector> {
    match segment {
        Segment::Line { from, to } => (*to - *from).unit(),
        Segment::Arc { .. } => None,
    }
}

/// The straight edge nearest to a point; the first among equals.
fn nearest_straight(scene: &Scene, to: Point) -> Option<&Rail> {
    let mut best: Option<(f64, &Rail)> = None;
    for rail in &scene.rails {
        let off = nearest_on(&rail.segment, to).distance(to);
        if direction(&rail.segment).is_some() && best.is_none_or(|(least, _)| off < least) {
            best = Some((off, rail));
        }
    }
    best.map(|(_, rail)| rail)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::geom::Vertex;

    fn wall(from: [f64; 2], to: [f64; 2], name: &str) -> Rail {
        Rail {
            segment: Segment::between(Vertex::line(from[0], from[1]), Point::from(to)),
            name: name.to_owned(),
            owner: "house".to_owned(),
        }
    }

    fn scene() -> Scene {
        Scene {
            rails: vec![
                wall([0.0, 0.0], [10.0, 0.0], "south wall"),
                wall([10.0, 0.0], [10.0, 8.0], "east wall"),
            ],
            marks: vec![Mark {
                at: Point::new(20.0, 20.0),
                reason: "middle of tree".to_owned(),
            }],
        }
    }

    fn caught(hand: [f64; 2], stroke: &Stroke) -> Option<(Point, String)> {
        catch(Point::from(hand), 0.3, &scene(), stroke).map(|c| (c.at, c.reason))
    }

    fn from(last: [f64; 2], came: [f64; 2]) -> Stroke {
        let came = Vector::new(came[0], came[1]).unit();
        Stroke {
            last: Some(Point::from(last)),
            came: came.map(|way| (way, "the last edge")),
            ..Stroke::FREE
        }
    }

    #[test]
    fn each_kind_has_its_reason() {
        let free = Stroke::FREE;
        let drawn = from([2.0, 5.0], [4.0, 3.0]);
        for (hand, stroke, at, reason) in [
            ([9.9, 0.1], free, [10.0, 0.0], "corner of house"),
            ([20.1, 20.1], free, [20.0, 20.0], "middle of tree"),
            ([3.0, 0.2], free, [3.0, 0.0], "on south wall"),
            ([5.1, 0.2], free, [5.0, 0.0], "middle of south wall"),
            (
                [13.0, 0.1],
                free,
                [13.0, 0.0],
                "on the extension of south wall",
            ),
            (
                [2.1, 0.1],
                drawn,
                [2.0, 0.0],
                "on south wall and square to south wall",
            ),
            (
                [6.0, 8.1],
                drawn,
                [6.05, 8.04],
                "straight on from the last edge",
            ),
            ([-1.0, 9.1], drawn, [-1.05, 9.06], "square to the last edge"),
            ([6.0, 5.1], drawn, [6.0, 5.0], "parallel to south wall"),
        ] {
            let (found, why) = caught(hand, &stroke).unwrap();
            assert_eq!(why, reason);
            assert!(
                found.distance(Point::from(at)) < 0.02,
                "{reason}: {found:?}"
            );
        }
        assert_eq!(caught([5.0, 4.0], &free), None);
        let leaving = Stroke {
            leaving: Some(Point::new(10.0, 0.0)),
            ..free
        };
        let (at, _) = caught([10.1, 0.1], &leaving).unwrap();
        assert!(at.distance(Point::new(10.0, 0.0)) > 1e-3);
    }

    #[test]
    fn the_first_corner_closes_and_squares() {
        let stroke = Stroke {
            next: Some((
                Point::new(1.0, 3.0),
                Vector::new(0.6, 0.8),
                "the first edge",
            )),
            may_close: true,
            ..from([2.0, 5.0], [1.0, 0.0])
        };
        let at_first = caught([1.1, 3.1], &stroke).unwrap();
        assert_eq!(at_first.1, "back at the first corner");
        let beside = caught([-2.9, 6.1], &stroke).unwrap();
        assert_eq!(beside.1, "square to the first edge");
    }
}
