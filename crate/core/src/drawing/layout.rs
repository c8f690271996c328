//! The labels of a plan from frame to frame.
//!
//! At rest all of them are placed in one pass, and the same plan in the same view always looks the same. Under a hand,
//! what stays keeps its places, so that its text need not be written again: only the labels that move are placed,
//! round the others and rather where they were. A label at rest that something more important comes to lie on steps
//! back until it is free again.

use super::Anchor;
use super::lettering::{Frame, Lettering};
use super::placement::{Guard, Label, Need, Obstacle, Placed, Shape, Slots, contains, place};
use crate::geom::Point;

/// What a frame places besides the labels at rest.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Moving {
    /// The labels of what moves.
    pub lettering: Vec<Lettering>,
    /// What moves and keeps labels off: lines of dimensions, handles.
    pub obstacles: Vec<Obstacle>,
    /// What covers the half that stays: the name of a point under it is not written.
    pub lids: Vec<Vec<Point>>,
    /// What lies over the plan: controls, scale bar, north arrow.
    pub furniture: Vec<Obstacle>,
}

/// Labels and their places.
#[derive(Debug, Default)]
pub struct Layout {
    frame: Option<Frame>,
    still: Vec<Lettering>,
    still_obstacles: Vec<Obstacle>,
    /// Whether the labels at rest were exchanged and have no places yet.
    renewed: bool,
    moving: Moving,
    /// Whether the last pass was under a hand.
    steady: bool,
    slots: Slots,
    /// The places of the labels at rest, and which of them stepped back.
    still_placed: Vec<(Placed, bool)>,
    moving_placed: Vec<Placed>,
    still_revision: u64,
}

impl Layout {
    /// Takes over the labels at rest and what else keeps labels off there, of a view.
    pub fn set_still(&mut self, frame: Frame, lettering: Vec<Lettering>, obstacles: Vec<Obstacle>) {
        self.frame = Some(frame);
        self.still = lettering;
        self.still_obstacles = obstacles;
        self.renewed = true;
    }

    /// Places the labels of a frame. `steady` under a hand.
    pub fn lay(&mut self, moving: Moving, steady: bool) {
        let same = !self.renewed && steady == self.steady && moving == self.moving;
        let Some(frame) = self.frame.filter(|_| !same) else {
            return;
        };
        self.moving = moving;
        self.steady = steady;
        if steady && !self.renewed {
            self.lay_moving(frame);
        } else {
            self.lay_all(frame, steady);
        }
        self.renewed = false;
    }

    /// The labels at rest that are written, with their places.
    pub fn still(&self) -> impl Iterator<Item = (&Lettering, &Placed)> + Clone {
        let written = self.still_placed.iter().filter(|(_, back)| !back);
        written.filter_map(|(placed, _)| Some((self.still.get(placed.label)?, placed)))
    }

    /// Changes whenever what [`Self::still`] gives does.
    pub fn still_revision(&self) -> u64 {
        self.still_revision
    }

    /// The labels of what moves that are written, with their places.
    pub fn moving(&self) -> impl Iterator<Item = (&Lettering, &Placed)> + Clone {
        let placed = self.moving_placed.iter();
        placed.filter_map(|placed| Some((self.moving.lettering.get(placed.label)?, placed)))
    }

    fn lay_all(&mut self, frame: Frame, steady: bool) {
        let moving = self.moving.lettering.iter();
        let open = (0..).zip(&self.still);
        let open = open.filter(|(_, it)| !is_covered(&self.moving.lids, &it.label));
        let open: Vec<(usize, &Label)> = open.map(|(i, it)| (i, &it.label)).collect();
        let labels: Vec<&Label> = moving
            .map(|it| &it.label)
            .chain(open.iter().map(|(_, label)| *label))
            .collect();
        let obstacles: Vec<Obstacle> = [
            &self.moving.furniture,
            &self.moving.obstacles,
            &self.still_obstacles,
        ]
        .into_iter()
        .flatten()
        .copied()
        .collect();
        if !steady {
            self.slots.clear();
        }
        let placed = place(frame.size, &labels, &obstacles, &self.slots);
        self.slots = slots(&labels, &placed);
        let (moving, still) = placed
            .into_iter()
            .partition(|it| it.label < self.moving.lettering.len());
        self.moving_placed = moving;
        let still = still.into_iter().filter_map(|it: Placed| {
            let (label, _) = *open.get(it.label - self.moving.lettering.len())?;
            Some((Placed { label, ..it }, false))
        });
        let still: Vec<(Placed, bool)> = still.collect();
        if self.renewed || still != self.still_placed {
            self.still_revision += 1;
        }
        self.still_placed = still;
    }

    fn lay_moving(&mut self, frame: Frame) {
        let labels: Vec<&Label> = self.moving.lettering.iter().map(|it| &it.label).collect();
        let mut obstacles: Vec<Obstacle> = Vec::with_capacity(
            self.moving.furniture.len()
                + self.moving.obstacles.len()
                + self.still_obstacles.len()
                + 2 * self.still_placed.len(),
        );
        obstacles.extend(&self.moving.furniture);
        obstacles.extend(&self.moving.obstacles);
        obstacles.extend(&self.still_obstacles);
        for (placed, back) in &self.still_placed {
            let Some(it) = self.still.get(placed.label).filter(|_| !back) else {
                continue;
            };
            let guarded = |shape| Obstacle {
                shape,
                guard: Guard::From(it.label.rank),
                of: None,
            };
            obstacles.push(guarded(Shape::Box(placed.text)));
            obstacles.extend(placed.leader.map(|(a, b)| guarded(Shape::Stroke(a, b))));
        }
        let placed = place(frame.size, &labels, &obstacles, &self.slots);
        self.slots.extend(slots(&labels, &placed));
        self.moving_placed = placed;
        self.step_back();
    }

    /// Has the labels at rest step back that lie under something always guarded or under a label that moves.
    fn step_back(&mut self) {
        let (moving, placed) = (&self.moving, &self.moving_placed);
        let mut changed = false;
        for (still, back) in &mut self.still_placed {
            let before = *back;
            let obstacles = moving.obstacles.iter();
            let mut guarded = obstacles.filter(|it| it.guard == Guard::Always);
            let under = |shape: &Shape| {
                let struck = still.leader.is_some_and(|(a, b)| shape.is_crossed_by(a, b));
                struck || shape.lies_under(&still.text)
            };
            let label = self.still.get(still.label).map(|it| &it.label);
            *back = label.is_some_and(|label| is_covered(&moving.lids, label))
                || guarded.any(|it| under(&it.shape))
                || placed.iter().any(|it| {
                    let leader = it.leader.map(|(a, b)| Shape::Stroke(a, b));
                    under(&Shape::Box(it.text)) || leader.is_some_and(|leader| under(&leader))
                });
            changed |= *back != before;
        }
        if changed {
            self.still_revision += 1;
        }
    }
}

/// Whether a label stands right beside a point that is covered.
fn is_covered(lids: &[Vec<Point>], label: &Label) -> bool {
    let near = label.need == Need::Near;
    let small = match &label.anchor {
        Anchor::Point { .. } => true,
        Anchor::Places(places) => places.len() == 1,
        _ => false,
    };
    let at = label.anchor.point().filter(|_| near && small);
    at.is_some_and(|at| lids.iter().any(|lid| contains(lid, at)))
}

/// The slots that labels took, by their keys.
fn slots(labels: &[&Label], placed: &[Placed]) -> Slots {
    let slot = |it: &Placed| Some((labels.get(it.label)?.key, it.slot));
    placed.iter().filter_map(slot).collect()
}
