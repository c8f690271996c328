//! Closed outlines whose arcs run into each other without a corner.
//!
//! Unit-free: lengths come out in the unit they went in.

use crate::geom::path::bulge_of_angle;
use crate::geom::{Point, Vertex};
use crate::math::{TURN, tan, wrap_half_turn, wrap_turn};

/// A circle that an outline follows for a while: counter-clockwise where the radius is
/// positive (an outward bulge), clockwise where it is negative (an inward one).
///
/// Two circles met one after the other touch where their centers lie `|r1 - r2|` apart, the
/// radii signed: one inside the other for two bulges of one sense, side by side otherwise.
#[derive(Debug, Clone, Copy)]
pub(super) struct Round {
    /// Its center.
    pub centre: Point,
    /// Its signed radius.
    pub radius: f64,
}

impl Round {
    /// A circle from its center and signed radius.
    pub const fn new(x: f64, y: f64, radius: f64) -> Self {
        Self {
            centre: Point::new(x, y),
            radius,
        }
    }

    /// The circle of a signed radius that leads from this one to `next`, running outside the
    /// line of centers (to the right of the way) on a counter-clockwise round. `None` where
    /// no such circle touches both.
    pub fn towards(&self, next: &Self, radius: f64) -> Option<Self> {
        let way = next.centre - self.centre;
        let length = way.length();
        let (a, b) = (radius - self.radius, radius - next.radius);
        let along = (a * a - b * b + length * length) / (2.0 * length);
        let across = (a * a - along * along).sqrt();
        // A large circle that hugs both from outside has its center on the far side.
        let side = if radius > 0.0 { across } else { -across };
        let unit = way.unit().filter(|_| across.is_finite())?;
        Some(Self {
            centre: self.centre + unit * along + unit.left() * side,
            radius,
        })
    }

    /// Where this circle hands over to `next`, which touches it.
    fn touch(&self, next: &Self) -> Point {
        self.centre + (next.centre - self.centre) * (self.radius / (self.radius - next.radius))
    }

    /// The signed angle from one point on the circle to another, in its own sense.
    fn sweep(&self, from: Point, to: Point) -> f64 {
        let turn = (to - self.centre).angle() - (from - self.centre).angle();
        if self.radius > 0.0 {
            wrap_turn(turn)
        } else {
            wrap_turn(turn) - TURN
        }
    }
}

/// The outline that follows circles one after the other, each touching the next.
pub(super) fn around(rounds: &[Round]) -> Vec<Vertex> {
    let before = rounds.iter().cycle().skip(rounds.len().saturating_sub(1));
    let after = rounds.iter().cycle().skip(1);
    rounds
        .iter()
        .zip(before)
        .zip(after)
        .map(|((round, before), after)| {
            let (from, to) = (before.touch(round), round.touch(after));
            Vertex {
                at: from,
                bulge: bulge_of_angle(round.sweep(from, to)),
            }
        })
        .collect()
}

/// The outline round bulges listed counter-clockwise, each led to the next by a circle of the
/// signed radius listed with it. Empty where two of them cannot be joined so.
pub(super) fn around_bulges(bulges: &[(Round, f64)]) -> Vec<Vertex> {
    let after = bulges.iter().cycle().skip(1);
    let rounds: Option<Vec<Round>> = bulges
        .iter()
        .zip(after)
        .flat_map(|((round, lead), (next, _))| [Some(*round), round.towards(next, *lead)])
        .collect();
    rounds.map_or_else(Vec::new, |rounds| around(&rounds))
}

/// The outline of straight sides through corners, each rounded by its own radius.
pub(super) fn rounded(corners: &[(f64, f64, f64)]) -> Vec<Vertex> {
    let before = corners.iter().cycle().skip(corners.len().saturating_sub(1));
    let after = corners.iter().cycle().skip(1);
    let mut vertices: Vec<Vertex> = Vec::new();
    for ((corner, before), after) in corners.iter().zip(before).zip(after) {
        let at = |(x, y, _): &(f64, f64, f64)| Point::new(*x, *y);
        let (Some(inward), Some(outward)) = (
            (at(corner) - at(before)).unit(),
            (at(after) - at(corner)).unit(),
        ) else {
            continue;
        };
        let turn = wrap_half_turn(outward.angle() - inward.angle());
        let cut = corner.2 * tan(turn.abs() / 2.0);
        let start = at(corner) + inward * -cut;
        // Two roundings may use up the side between them: then it is gone.
        if vertices.last().is_some_and(|v| v.at.distance(start) < 1e-9) {
            vertices.pop();
        }
        vertices.push(Vertex {
            at: start,
            bulge: bulge_of_angle(turn),
        });
        vertices.push(Vertex {
            at: at(corner) + outward * cut,
            bulge: 0.0,
        });
    }
    vertices
}

/// The rectangle of a length (along x) and a width, its corners rounded.
pub(super) fn rectangle(length: f64, width: f64, radius: f64) -> Vec<Vertex> {
    let (x, y) = (length / 2.0, width / 2.0);
    rounded(&[
        (-x, -y, radius),
        (x, -y, radius),
        (x, y, radius),
        (-x, y, radius),
    ])
}

/// The directions in which a stretch leaves its start and reaches its end.
#[cfg(test)]
pub(super) fn end_directions(
    from: Vertex,
    to: Point,
) -> (crate::geom::Vector, crate::geom::Vector) {
    use crate::geom::Vector;
    use crate::math::atan;
    let chord = (to - from.at).angle();
    let half = 2.0 * atan(from.bulge);
    (
        Vector::at_angle(chord - half),
        Vector::at_angle(chord + half),
    )
}
