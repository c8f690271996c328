//! The places that a label may take, from its anchor: stage by stage, each stage dearer than the one before.

use super::super::chain::{Chain, clipped};
use super::shape::TextBox;
use super::{Label, Need, Size};
use crate::drawing::{Anchor, LineSide};
use crate::geom::{Point, Vector};
use crate::math::{TURN, cos, sin, wrap_turn};

/// A place that a label may take.
#[derive(Debug, Clone, Copy)]
pub(super) struct Candidate {
    /// Where the text would lie.
    pub text: TextBox,
    /// Which of the label's places it is, the same from pass to pass.
    pub slot: u16,
    /// How much worse than the natural place it is.
    pub cost: f64,
    /// Where a leader would end, for a place with one.
    pub leader: Option<Point>,
}

/// The least cost of the places of each stage.
pub(super) const STAGES: [f64; 3] = [0.0, 6.0, 24.0];

/// What a slide along a line costs, each step.
const SLIDE: f64 = 1.5;

/// One step of it, as a part of the line's length.
const STEP: f64 = 0.11;

/// What standing on the other side of a line costs.
const OTHER_SIDE: f64 = 9.0;

/// How far beyond the anchor's gap a label with a leader stands.
const LEADERS: [f64; 5] = [14.0, 26.0, 42.0, 62.0, 88.0];

/// What such a distance costs, each unit.
const FAR: f64 = 0.35;

/// Slots of one stage.
const STAGE_SLOTS: u16 = 1000;

const LEVEL: Vector = Vector::new(1.0, 0.0);

/// The direction of a bearing in the view.
fn direction(bearing: f64) -> Vector {
    Vector::new(sin(bearing), -cos(bearing))
}

/// Of the two directions along a line the one that reads from the bottom or the right.
fn upright(along: Vector) -> Vector {
    if along.x < -1e-9 || (along.x.abs() <= 1e-9 && along.y > 0.0) {
        -along
    } else {
        along
    }
}

/// The candidates of one stage, gathered.
pub(super) struct Candidates<'a> {
    label: &'a Label,
    size: Size,
    slot: u16,
    list: &'a mut Vec<Candidate>,
}

/// Adds a stage's candidates of a label to a list.
pub(super) fn stage(label: &Label, size: Size, stage: usize, list: &mut Vec<Candidate>) {
    let slot = u16::try_from(stage).unwrap_or_default() * STAGE_SLOTS;
    let mut it = Candidates {
        label,
        size,
        slot,
        list,
    };
    let led = label.need != Need::Near;
    match (&label.anchor, stage) {
        (Anchor::Point { at, toward }, 0) => it.beside(*at, *toward),
        (Anchor::Point { at, toward }, 2) if led => it.led(*at, *toward, Vector::default()),
        (Anchor::Line { line, share, side }, stage) => it.line(line, *share, *side, stage, led),
        (Anchor::Area { ring, at, along }, stage) => it.area(ring, *at, *along, stage, led),
        (Anchor::Places(places), 0) => {
            for (i, (at, along)) in (0_u16..).zip(places) {
                it.push(*at, direction(*along), 1.5 * f64::from(i), None);
            }
        }
        (Anchor::Span { from, to }, stage) => it.span(*from, *to, stage, led),
        _ => {}
    }
}

impl Candidates<'_> {
    fn push(&mut self, centre: Point, along: Vector, cost: f64, leader: Option<Point>) {
        let text = TextBox {
            centre,
            half_length: self.label.width / 2.0,
            half_height: self.label.height / 2.0,
            along,
        };
        self.list.push(Candidate {
            text,
            slot: self.slot,
            cost,
            leader,
        });
        self.slot += 1;
    }

    /// Passes over a slot, so that those after it keep their numbers.
    fn skip(&mut self, count: u16) {
        self.slot += count;
    }

    /// Level text off something that reaches `reach` from its middle, in the eight directions, the nearest to a
    /// bearing first.
    fn round(
        &mut self,
        at: Point,
        toward: f64,
        reach: Vector,
        beyond: f64,
        cost: (f64, f64),
        leader: Option<Point>,
    ) {
        let first = (wrap_turn(toward) / (TURN / 8.0)).round();
        let gap = self.label.gap + beyond;
        let (w, h) = (
            self.label.width / 2.0 + reach.x,
            self.label.height / 2.0 + reach.y,
        );
        for (step, turn) in (0_u8..).zip([0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 4.0]) {
            let d = direction((first + turn) * (TURN / 8.0));
            let sign = |v: f64| if v.abs() < 0.1 { 0.0 } else { v.signum() };
            let (sx, sy) = (sign(d.x), sign(d.y));
            let off = if sx != 0.0 && sy != 0.0 {
                gap * 0.7
            } else {
                gap
            };
            let centre = at + Vector::new(sx * (w + off), sy * (h + off));
            self.push(centre, LEVEL, cost.0 + cost.1 * f64::from(step), leader);
        }
    }

    fn beside(&mut self, at: Point, toward: f64) {
        self.round(at, toward, Vector::default(), 0.0, (0.0, 0.7), None);
    }

    /// At the end of a leader, farther and farther out.
    fn led(&mut self, at: Point, toward: f64, reach: Vector) {
        for far in LEADERS {
            let cost = STAGES[2] + FAR * far;
            self.round(at, toward, reach, far, (cost, 0.8), Some(at));
        }
    }

    fn line(&mut self, line: &[Point], share: f64, side: LineSide, stage: usize, led: bool) {
        let Some(chain) = Chain::new(line) else {
            return;
        };
        match stage {
            0 => {
                for step in [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0] {
                    self.along(
                        &chain,
                        (share + step * STEP) * chain.length(),
                        side,
                        step.abs() * SLIDE,
                    );
                }
            }
            1 => {
                // Of a line that is seen in part, along that part.
                let seen = chain.visible(self.size);
                let part = seen.filter(|(from, to)| *from > 0.0 || *to < chain.length());
                let Some((from, to)) = part else {
                    return self.skip(10);
                };
                for (i, share) in (0_u8..).zip([0.5, 0.35, 0.65, 0.2, 0.8]) {
                    let way = from + (to - from) * share;
                    self.along(&chain, way, side, STAGES[1] + f64::from(i) * SLIDE);
                }
            }
            _ if led => {
                let wanted = chain.length() * share;
                let way = chain
                    .visible(self.size)
                    .map(|(from, to)| wanted.clamp(from, to));
                let Some(way) = way else { return };
                let out = chain.at(way + 1.0) - chain.at(way - 1.0);
                let right = Vector::new(-out.y, out.x);
                let out = if side == LineSide::Right {
                    right
                } else {
                    -right
                };
                self.led(
                    chain.at(way),
                    wrap_turn(TURN / 4.0 + out.angle()),
                    Vector::default(),
                );
            }
            _ => {}
        }
    }

    /// On both sides of a line, so far along it.
    fn along(&mut self, chain: &Chain<'_>, way: f64, side: LineSide, cost: f64) {
        let (half, length) = (self.label.width / 2.0, chain.length());
        // A line shorter than its name has it in its middle.
        let short = 2.0 * half > length;
        let (from, to) = if short {
            (0.0, length)
        } else {
            (way - half, way + half)
        };
        if from < -1e-9 || to > length + 1e-9 || (short && (way - length / 2.0).abs() > 1e-9) {
            return self.skip(2);
        }
        let (start, end) = (chain.at(from), chain.at(to));
        let Some(ahead) = (end - start).unit() else {
            return self.skip(2);
        };
        // To the right of the way ahead, y running down.
        let right = Vector::new(-ahead.y, ahead.x);
        let sides = match side {
            LineSide::Left => [(-right, 0.0), (right, OTHER_SIDE)],
            LineSide::Right => [(right, 0.0), (-right, OTHER_SIDE)],
            LineSide::Either => [(-right, 0.0), (right, 1.0)],
        };
        let middle = start.midpoint(end);
        let cost = if short { cost + 4.0 } else { cost };
        for (across, more) in sides {
            let bulge = chain.bulge((from, to), start, across);
            let off = bulge + self.label.height / 2.0 + self.label.gap;
            // Text along a chord that its line leaves far behind reads as somebody else's.
            let bent = if bulge > self.label.height { 12.0 } else { 0.0 };
            self.push(
                middle + across * off,
                upright(ahead),
                cost + more + bent,
                None,
            );
        }
    }

    fn area(&mut self, ring: &[Point], at: Point, along: f64, stage: usize, led: bool) {
        let Some((low, high)) = bounds(ring) else {
            return;
        };
        let (low, high) = within(low, high, self.size);
        if low.x >= high.x || low.y >= high.y {
            return;
        }
        let (middle, reach) = (low.midpoint(high), (high - low) * 0.5);
        let ways = [direction(along), LEVEL, Vector::new(0.0, -1.0)];
        match stage {
            0 => {
                let room = if ways[0].x.abs() > 0.7 {
                    reach.x
                } else {
                    reach.y
                };
                // A little over its edge is no harm; a name three times as long stands better beside it.
                let over = self.label.width > 3.2 * room;
                self.push(at, ways[0], if over { 17.0 } else { 0.0 }, None);
                for way in [ways[1], ways[2]] {
                    self.inside(ring, at, way, 2.5);
                }
            }
            1 => {
                for (i, down) in (0_u8..).zip([0.0, 0.5, -0.5, 0.8, -0.8]) {
                    for (j, aside) in (0_u8..).zip([0.0, 0.45, -0.45]) {
                        let centre = middle + Vector::new(reach.x * aside, reach.y * down);
                        let cost = STAGES[1] + 1.5 * f64::from(i) + f64::from(j);
                        self.inside(ring, centre, LEVEL, cost);
                        self.inside(ring, centre, ways[0], cost + 0.5);
                    }
                }
                self.round(middle, 0.0, reach, 0.0, (16.0, 0.5), None);
            }
            _ if led => {
                // A leader starts in the part that is seen.
                let seen = Point::new(at.x.clamp(low.x, high.x), at.y.clamp(low.y, high.y));
                let reach = Vector::new(reach.x.min(40.0), reach.y.min(40.0));
                self.led(seen, 0.0, reach);
            }
            _ => {}
        }
    }

    /// Text that lies in an area as a whole.
    fn inside(&mut self, ring: &[Point], centre: Point, along: Vector, cost: f64) {
        self.push(centre, along, cost, None);
        let corners = self.list.last().map(|it| it.text.corners());
        if !corners.is_some_and(|corners| corners.iter().all(|p| contains(ring, *p))) {
            self.list.pop();
        }
    }

    fn span(&mut self, from: Point, to: Point, stage: usize, led: bool) {
        let Some((enter, leave)) = clipped(from, to, self.size) else {
            return;
        };
        let (from, to) = (from + (to - from) * enter, from + (to - from) * leave);
        let (middle, length) = (from.midpoint(to), from.distance(to));
        let Some(ahead) = (to - from).unit() else {
            return self.beside(middle, 0.0);
        };
        let ahead = upright(ahead);
        let below = Vector::new(-ahead.y, ahead.x);
        let reach = Vector::new((to.x - from.x).abs() / 2.0, (to.y - from.y).abs() / 2.0);
        // Beside its line where that is about as long as the text, level and clear of it otherwise.
        let long = length >= 0.8 * self.label.width;
        let off = self.label.height / 2.0 + self.label.gap;
        match stage {
            0 => {
                for (i, shift) in (0_u8..).zip([0.0, 0.22, -0.22, 0.36, -0.36]) {
                    for (side, more) in [(-below, 0.0), (below, 1.0)] {
                        if long {
                            let at = middle + ahead * (shift * length) + side * off;
                            self.push(at, ahead, f64::from(i) + more, None);
                        } else {
                            self.skip(1);
                        }
                    }
                }
                let cost = if long { 5.0 } else { 0.0 };
                self.round(middle, 0.0, reach, 0.0, (cost, 0.7), None);
            }
            1 => {
                for end in [from, to] {
                    let away = wrap_turn(TURN / 4.0 + (end - middle).angle());
                    self.round(end, away, Vector::default(), 4.0, (STAGES[1], 1.5), None);
                }
            }
            _ if led => self.led(middle, 0.0, Vector::default()),
            _ => {}
        }
    }
}

/// The corners of least and greatest coordinates of some points.
pub(super) fn bounds(points: &[Point]) -> Option<(Point, Point)> {
    let first = *points.first()?;
    Some(points.iter().fold((first, first), |(low, high), p| {
        (
            Point::new(low.x.min(p.x), low.y.min(p.y)),
            Point::new(high.x.max(p.x), high.y.max(p.y)),
        )
    }))
}

/// The part of an upright rectangle within the view.
fn within(low: Point, high: Point, size: Size) -> (Point, Point) {
    (
        Point::new(low.x.max(0.0), low.y.max(0.0)),
        Point::new(high.x.min(size.width), high.y.min(size.height)),
    )
}

/// Whether a point lies within a ring.
pub(in crate::drawing) fn contains(ring: &[Point], p: Point) -> bool {
    let ends = ring.iter().zip(ring.iter().cycle().skip(1));
    let crossed = ends.filter(|(a, b)| {
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
    });
    crossed.count() % 2 == 1
}
