//! What would free a shell that stands too close: the smallest move, the smallest turn, the lesser
//! rule.

use super::bounds::{Bounds, Cause};
use super::headings::HeadingRange;
use super::region::ClearGround;
use super::room::{Ruler, Tightest};
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Pose, Region, Vector};
use crate::math::{TURN, wrap_half_turn, wrap_turn};
use crate::order::put_in_order;
use crate::site::Placement;

/// A room that is short by less than this is none, meters (a hundredth of a millimeter).
const HAIR: f64 = 1e-5;

/// How often a place on the edge is moved inward by what its arcs' chords lack.
const SETTLING: usize = 6;

/// From one heading to the next that is tried where no place is free at the present one, degrees.
const TRIED_EVERY: u16 = 5;

/// One change that leaves nothing short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cure {
    /// The shell moved.
    Move {
        /// Where its middle comes to lie, site meters.
        to: Point,
    },
    /// The shell turned where it stands.
    Turn {
        /// The new heading, radians clockwise from north.
        heading: f64,
    },
    /// Turned and moved: at the present heading no place is free.
    TurnAndMove {
        /// The new heading, radians clockwise from north.
        heading: f64,
        /// Where its middle comes to lie, site meters.
        to: Point,
    },
    /// One rule that asks for less; nothing else falls short.
    LesserRule {
        /// The rule, by index in `Site::rules`.
        rule: usize,
        /// By how much less, meters.
        by: f64,
    },
}

/// What falls short where the shell stands, and what would mend all of it at once.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cures {
    /// Everything that falls short, worst first.
    pub short: Vec<Tightest>,
    /// The least change of each sort that leaves nothing short.
    pub cures: Vec<Cure>,
    /// Where neither a move nor a turn alone frees it: what leaves nothing at this heading between them.
    pub nothing_left_by: Vec<Cause>,
}

impl Bounds<'_> {
    /// What falls short with the shell where `placement` puts it, and what would mend it.
    pub fn cures(&self, placement: &Placement) -> Cures {
        let (ground, ruler) = (ClearGround::of(self), Ruler::of(self));
        let (pose, mirrored) = (placement.pose(), placement.mirrored);
        let mut short = ruler.rooms(&pose);
        short.retain(|it| it.room < -HAIR);
        put_in_order(&mut short, |a, b| a.room.total_cmp(&b.room));
        if short.is_empty() {
            return Cures::default();
        }
        let mut cures = Vec::new();
        let region = ground.region(placement.heading, mirrored);
        cures.extend(settled(&region, &ruler, &pose).map(|to| Cure::Move { to }));
        let ranges = self.headings(placement.at, mirrored);
        let turn = nearest_heading(&ranges, placement.heading);
        cures.extend(turn.map(|heading| Cure::Turn { heading }));
        let mut nothing_left_by = Vec::new();
        if cures.is_empty() {
            nothing_left_by = self.what_leaves_nothing(placement.heading, mirrored);
            cures.extend(turned_and_moved(&ground, &ruler, placement));
        }
        cures.extend(lesser_rule(&short));
        Cures {
            short,
            cures,
            nothing_left_by,
        }
    }
}

/// The place nearest to where the shell stands at which nothing falls short: on the edge of clear
/// ground, moved inward by what chords lack. `None` where no ground is clear.
pub fn settled(region: &Region, ruler: &Ruler<'_>, pose: &Pose) -> Option<Point> {
    let edge = nearest(Figure::Chain(&[pose.at]), Figure::Area(region))?;
    if edge.distance <= 0.0 {
        return Some(pose.at);
    }
    let inward = (edge.to - pose.at).unit()?;
    let mut at = edge.to;
    for _ in 0..SETTLING {
        let room = ruler
            .tightest(&Pose::new(at, pose.heading, pose.mirrored))?
            .room;
        if room >= 0.0 {
            break;
        }
        at = at + inward * (-room + HAIR);
    }
    Some(at)
}

/// The heading nearest to one, of those that are free.
fn nearest_heading(ranges: &[HeadingRange], heading: f64) -> Option<f64> {
    let ends = ranges.iter().flat_map(|range| [range.from, range.to]);
    ends.map(|end| heading + wrap_half_turn(end - heading))
        .min_by(|a, b| (a - heading).abs().total_cmp(&(b - heading).abs()))
        .map(wrap_turn)
}

/// The smallest move at the headings tried, the smaller turn of two that move alike.
fn turned_and_moved(
    ground: &ClearGround,
    ruler: &Ruler<'_>,
    placement: &Placement,
) -> Option<Cure> {
    let tried = (0..360 / TRIED_EVERY).map(|i| f64::from(i * TRIED_EVERY) * TURN / 360.0);
    let places = tried.filter_map(|turn| {
        let heading = wrap_turn(placement.heading + turn);
        let pose = Pose::new(placement.at, heading, placement.mirrored);
        let to = settled(&ground.region(heading, placement.mirrored), ruler, &pose)?;
        let moved: Vector = to - placement.at;
        // A turn counts as the way of a point 1 m from the middle: our choice, to rank them.
        let effort = moved.length() + wrap_half_turn(turn).abs();
        Some((effort, Cure::TurnAndMove { heading, to }))
    });
    let least = places.min_by(|a, b| a.0.total_cmp(&b.0));
    least.map(|(_, cure)| cure)
}

/// The rule that would have to ask for less, where all that falls short is that one rule.
fn lesser_rule(short: &[Tightest]) -> Option<Cure> {
    let worst = short.first()?;
    let Cause::Rule(rule, _) = worst.bound.cause else {
        return None;
    };
    let alone = short
        .iter()
        .all(|it| matches!(it.bound.cause, Cause::Rule(it, _) if it == rule));
    alone.then_some(Cure::LesserRule {
        rule,
        by: -worst.room,
    })
}
