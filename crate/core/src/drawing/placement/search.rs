//! The pass itself: labels by what they matter, each on the cheapest of its places that is free.

use core::cmp::Ordering;

use super::candidate::{self, Candidate, STAGES, bounds, contains};
use super::grid::Grid;
use super::shape::{Shape, TextBox};
use super::{Guard, Label, Need, Obstacle, Rank, Size, Slots};
use crate::drawing::Anchor;
use crate::geom::{Point, Vector};
use crate::math::TURN;
use crate::order::{put_in_order, put_in_order_by};

/// How near to the edge of the view text comes, view units.
const EDGE: f64 = 4.0;

/// What lying on something that matters less costs: about as much as a leader of some length.
const COVERING: f64 = 40.0;

/// What a place may cost at the most: a label that would have to stand farther off, or on more, says less than it
/// hides.
const WORTH: f64 = 58.0;

/// What standing in an area that another label names costs.
const MISTAKEN: f64 = 14.0;

/// Of a label that is wanted out of the way, how far from one ring of places to the next, view units.
const RING: f64 = 18.0;

/// The places on such a ring.
const ON_RING: u16 = 16;

/// Slots of the places that a required label finds for itself.
const FOUND: u16 = 10_000;

/// A label with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Which of the labels it is.
    pub label: usize,
    /// Where its text lies.
    pub text: TextBox,
    /// Which of its places it took.
    pub slot: u16,
    /// From its text to what it names, where it stands apart.
    pub leader: Option<(Point, Point)>,
    /// Whether it lies on something for want of room: a required label in a view that has none.
    pub crowded: bool,
}

/// Places labels in a view: no two on each other, none on what guards itself from it. In the order of the labels;
/// what finds no place is left out. `last` are the slots they would rather keep.
///
/// The same labels, obstacles and slots give the same places, whatever order the labels come in, as long as no two
/// have the same rank and key.
pub fn place(size: Size, labels: &[&Label], obstacles: &[Obstacle], last: &Slots) -> Vec<Placed> {
    let mut order: Vec<(usize, &Label)> = labels.iter().copied().enumerate().collect();
    put_in_order(&mut order, |(_, a), (_, b)| by_importance(a, b));
    let mut pass = Pass {
        size,
        grid: Grid::new(size, obstacles),
        areas: order
            .iter()
            .filter_map(|(_, label)| NamedArea::of(label))
            .collect(),
        scratch: Vec::new(),
    };
    let mut placed: Vec<Placed> = Vec::with_capacity(labels.len());
    // What stays where it was comes first, or a label that has lost its place would push the next one off its own, and
    // so on; only what is required may.
    let mut homeless = Vec::with_capacity(order.len());
    for (index, label) in order {
        let kept = last
            .get(&label.key)
            .and_then(|slot| pass.keep(label, *slot));
        let found = match label.need {
            Need::Required => kept.or_else(|| pass.find(label)),
            Need::Leader | Need::Near => kept,
        };
        match found {
            Some(found) => placed.push(pass.take(index, found)),
            None => homeless.push((index, label)),
        }
    }
    for (index, label) in homeless {
        if let Some(found) = pass.find(label) {
            placed.push(pass.take(index, found));
        }
    }
    put_in_order_by(&mut placed, |it| it.label);
    placed
}

/// By rank; among equals the longer first, which is harder to place.
fn by_importance(a: &Label, b: &Label) -> Ordering {
    weight(a)
        .cmp(&weight(b))
        .then(b.width.total_cmp(&a.width))
        .then(a.key.cmp(&b.key))
}

/// An area that a label names: the name of something less important in it would be taken for its own.
struct NamedArea<'a> {
    key: u64,
    weight: (bool, Rank),
    ring: &'a [Point],
    bounds: (Point, Point),
}

impl<'a> NamedArea<'a> {
    fn of(label: &'a Label) -> Option<Self> {
        let Anchor::Area { ring, .. } = &label.anchor else {
            return None;
        };
        Some(Self {
            key: label.key,
            weight: weight(label),
            ring,
            bounds: bounds(ring)?,
        })
    }

    fn contains(&self, p: Point) -> bool {
        let (low, high) = self.bounds;
        let near = p.x >= low.x && p.y >= low.y && p.x <= high.x && p.y <= high.y;
        near && contains(self.ring, p)
    }
}

/// How much a label matters, the least the most: what is required comes before everything else.
fn weight(label: &Label) -> (bool, Rank) {
    (label.need != Need::Required, label.rank)
}

struct Pass<'a> {
    size: Size,
    grid: Grid,
    areas: Vec<NamedArea<'a>>,
    scratch: Vec<Candidate>,
}

/// A place found, and whether it lies on something.
type Found = (Candidate, bool);

impl Pass<'_> {
    /// The place that a label had, where that is free.
    fn keep(&mut self, label: &Label, slot: u16) -> Option<Found> {
        let mut list = core::mem::take(&mut self.scratch);
        list.clear();
        for stage in 0..STAGES.len() {
            candidate::stage(label, self.size, stage, &mut list);
        }
        let same = list.iter().find(|it| it.slot == slot).copied();
        self.scratch = list;
        let same = same.filter(|it| self.cost(label, it, f64::INFINITY).is_some());
        same.map(|it| (it, false))
    }

    /// The cheapest free place of a label.
    fn find(&mut self, label: &Label) -> Option<Found> {
        let mut list = core::mem::take(&mut self.scratch);
        let mut best: Option<(f64, Candidate)> = None;
        let worth = match label.need {
            Need::Required => f64::INFINITY,
            Need::Leader | Need::Near => WORTH,
        };
        for (stage, least) in STAGES.into_iter().enumerate() {
            if best.is_some_and(|(cost, _)| cost <= least) {
                break;
            }
            list.clear();
            candidate::stage(label, self.size, stage, &mut list);
            for it in &list {
                let most = best.map_or(worth, |(cost, _)| cost);
                if let Some(cost) = self.cost(label, it, most) {
                    best = Some((cost, *it));
                }
            }
        }
        self.scratch = list;
        let found = best.map(|(_, it)| (it, false));
        if found.is_none() && label.need == Need::Required {
            return self.wherever(label);
        }
        found
    }

    /// What a place costs with all it lies on; none where it is not free or costs as much as `most`.
    fn cost(&self, label: &Label, it: &Candidate, most: f64) -> Option<f64> {
        if it.cost >= most || !self.is_seen(&it.text) {
            return None;
        }
        let mut cost = it.cost;
        if self.would_name_another(label, it.text.centre) {
            cost += MISTAKEN;
        }
        if cost >= most {
            return None;
        }
        // Softly guarded strokes come in chains, and an obstacle is met in several cells: what lies
        // under the text is counted once by its index.
        let mut met: [u32; 16] = [u32::MAX; 16];
        let mut count = 0;
        let reach = it.text.extent();
        let (low, high) = (it.text.centre - reach, it.text.centre + reach);
        let mut free = true;
        self.grid.near(low, high, |index, obstacle| {
            let (hard, price) = match obstacle.guard {
                Guard::Always => (true, 0.0),
                Guard::From(rank) => (label.rank >= rank, COVERING),
                Guard::Soft(price) => (false, price),
            };
            if met.contains(&index) || !obstacle.shape.lies_under(&it.text) {
                return true;
            }
            if let Some(slot) = met.get_mut(count) {
                *slot = index;
                count += 1;
            }
            free = !hard;
            cost += price;
            free && cost < most
        });
        if !free || cost >= most {
            return None;
        }
        let leader = it.leader.map(|at| (it.text.nearest(at), at));
        match leader {
            Some((from, to)) if self.grid.bars(from, to, label) => None,
            _ => Some(cost),
        }
    }

    /// Whether a text at a place lies in an area that another label names and its own anchor is not in.
    fn would_name_another(&self, label: &Label, at: Point) -> bool {
        let own = weight(label);
        let others = self.areas.iter().filter(|it| it.key != label.key);
        let mut others = others.filter(|it| it.weight <= own);
        others.any(|it| it.contains(at) && !label.anchor.point().is_some_and(|p| it.contains(p)))
    }

    /// Whether all of a text lies in the view.
    fn is_seen(&self, text: &TextBox) -> bool {
        let (c, reach) = (text.centre, text.extent());
        c.x - reach.x >= EDGE
            && c.y - reach.y >= EDGE
            && c.x + reach.x <= self.size.width - EDGE
            && c.y + reach.y <= self.size.height - EDGE
    }

    /// The nearest free place to a label's anchor anywhere in the view; where there is none, the one at the anchor.
    fn wherever(&self, label: &Label) -> Option<Found> {
        let anchor = label.anchor.point()?;
        let home = self.brought_in(label, anchor, Vector::new(0.0, 0.0), FOUND);
        let across = Vector::new(self.size.width, self.size.height).length();
        // A leader may be barred from everywhere, as by a text that lies on the anchor: then it stands without one.
        for with_leader in [true, false] {
            let mut slot = FOUND;
            let mut out = 0.0;
            while out < across {
                for i in 0..ON_RING {
                    let turn = TURN * f64::from(i) / f64::from(ON_RING);
                    let mut it = self.brought_in(label, anchor, Vector::at_angle(turn) * out, slot);
                    slot = slot.saturating_add(1);
                    it.leader = it.leader.filter(|_| with_leader);
                    if self.cost(label, &it, f64::INFINITY).is_some() {
                        return Some((it, false));
                    }
                }
                out += RING;
            }
        }
        let home = Candidate {
            leader: None,
            ..home
        };
        Some((home, true))
    }

    /// A place off a point, brought into the view.
    fn brought_in(&self, label: &Label, anchor: Point, off: Vector, slot: u16) -> Candidate {
        let within = |at: f64, half: f64, most: f64| {
            let room = half + EDGE;
            at.clamp(room.min(most / 2.0), (most - room).max(most / 2.0))
        };
        let (l, h) = (label.width / 2.0, label.height / 2.0);
        // The anchor first: rings begin at the edge of the view for what lies outside of it.
        let seen = Point::new(
            within(anchor.x, l, self.size.width),
            within(anchor.y, h, self.size.height),
        );
        let at = seen + off;
        let centre = Point::new(
            within(at.x, l, self.size.width),
            within(at.y, h, self.size.height),
        );
        Candidate {
            text: TextBox {
                centre,
                half_length: l,
                half_height: h,
                along: Vector::new(1.0, 0.0),
            },
            slot,
            cost: 0.0,
            leader: Some(anchor),
        }
    }

    /// Sets a label on a place and guards it from all that follow.
    fn take(&mut self, index: usize, (it, crowded): Found) -> Placed {
        let guarded = |shape: Shape| Obstacle {
            shape,
            guard: Guard::Always,
            of: None,
        };
        self.grid.add(guarded(Shape::Box(it.text)));
        let leader = it.leader.map(|at| (it.text.nearest(at), at));
        let leader = leader.filter(|(from, to)| from.distance(*to) > 1.0);
        if let Some((from, to)) = leader {
            self.grid.add(guarded(Shape::Stroke(from, to)));
        }
        Placed {
            label: index,
            text: it.text,
            slot: it.slot,
            leader,
            crowded,
        }
    }
}
