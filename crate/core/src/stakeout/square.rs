//! Check diagonals: four stakes are square when both are as long as planned.

use crate::geom::{Point, Pose};
use crate::math::asin;

/// Two diagonals across four stakes.
#[derive(Debug, Clone, PartialEq)]
pub struct Diagonals {
    /// The stakes, in order round.
    pub stakes: [String; 4],
    /// From the first to the third, and from the second to the fourth, meters.
    pub lengths: [f64; 2],
    /// The sides from the first to the second and from the second to the third, meters.
    pub sides: [f64; 2],
}

impl Diagonals {
    /// The diagonals across the stakes that stand farthest out toward the four corners of the
    /// shell's frame; none where they are not four.
    pub(super) fn across(stakes: &[(String, Point)], pose: &Pose) -> Option<Self> {
        let local: Vec<(&String, Point)> = stakes
            .iter()
            .map(|(name, p)| (name, pose.shell_from_site(*p)))
            .collect();
        let (low, high) = crate::geom::region::bounds(local.iter().map(|it| it.1))?;
        let (length, width) = (high.x - low.x, high.y - low.y);
        let farthest = |x: f64, y: f64| {
            let out = |p: Point| x * p.x / length + y * p.y / width;
            let first = local.first()?;
            let best = local.iter().skip(1).fold(*first, |best, it| {
                if out(it.1) > out(best.1) + 1e-9 {
                    *it
                } else {
                    best
                }
            });
            Some(best)
        };
        let four = [
            farthest(-1.0, -1.0)?,
            farthest(1.0, -1.0)?,
            farthest(1.0, 1.0)?,
            farthest(-1.0, 1.0)?,
        ];
        let [a, b, c, d] = four.map(|it| it.1);
        let apart = [(a, b), (b, c), (c, d), (d, a)];
        apart
            .iter()
            .all(|(p, q)| p.distance(*q) > 0.0)
            .then(|| Self {
                stakes: four.map(|it| it.0.clone()),
                lengths: [a.distance(c), b.distance(d)],
                sides: [a.distance(b), b.distance(c)],
            })
    }
}

/// By how much the corners of a parallelogram of sides `a` and `b` are off square whose diagonals
/// were measured, radians: `asin((d1^2 - d2^2) / (4 a b))`.
pub fn off_square([a, b]: [f64; 2], [d1, d2]: [f64; 2]) -> f64 {
    asin((d1 * d1 - d2 * d2) / (4.0 * a * b))
}
