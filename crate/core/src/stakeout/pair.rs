//! The pair of fixed points from which all stakes are fixed best.

use core::cmp::Ordering;

use super::fixed::FixedCandidate;
use super::sight::Obstacles;
use super::tie::BaseLine;
use crate::geom::Point;
use crate::order::{put_in_order, put_in_order_by};

/// So many candidates are tried in pairs, the nearest to the work: more lie beyond any tape.
const MOST: usize = 48;

/// A pair of fixed points and how well it fixes the stakes.
#[derive(Debug, Clone, PartialEq)]
pub struct BestPair {
    /// The one that tape A is held to.
    pub a: FixedCandidate,
    /// The one that tape B is held to.
    pub b: FixedCandidate,
    /// Stakes that it does not fix well: something stands in the way of a tape, it is longer than
    /// the tape, or the two cross at a poor angle.
    pub unfit: usize,
    /// The greatest expected error of a stake, meters; none where a stake lies on the base line.
    pub worst: Option<f64>,
}

/// The pair of `firm` points that leaves the fewest stakes unfit, and of those the one with the least worst
/// expected error over all stakes; of equals the first in the order of the candidates.
pub(super) fn best(
    firm: Vec<&FixedCandidate>,
    stakes: &[Point],
    middle: Point,
    obstacles: &Obstacles<'_>,
    (sigma, longest): (f64, f64),
) -> Option<BestPair> {
    let mut firm: Vec<(usize, &FixedCandidate)> = firm.into_iter().enumerate().collect();
    put_in_order(&mut firm, |(_, a), (_, b)| {
        middle.distance(a.at).total_cmp(&middle.distance(b.at))
    });
    firm.truncate(MOST);
    put_in_order_by(&mut firm, |(i, _)| *i);
    let barred = |from: Point| -> Vec<bool> {
        let bars = |stake: &Point| {
            from.distance(*stake) > longest || obstacles.between(from, *stake).is_some()
        };
        stakes.iter().map(bars).collect()
    };
    let tried: Vec<(&FixedCandidate, Vec<bool>)> =
        firm.iter().map(|(_, it)| (*it, barred(it.at))).collect();
    let mut best: Option<(usize, f64, [&FixedCandidate; 2])> = None;
    for (i, (a, barred_a)) in tried.iter().enumerate() {
        for (b, barred_b) in tried.iter().skip(i + 1) {
            let Some(base) = BaseLine::new(a.at, b.at) else {
                continue;
            };
            let (mut unfit, mut worst) = (0, 0.0_f64);
            for ((stake, no_a), no_b) in stakes.iter().zip(barred_a).zip(barred_b) {
                let tie = base.tie(*stake);
                unfit += usize::from(*no_a || *no_b || !tie.is_sound());
                worst = worst.max(tie.error(sigma).unwrap_or(f64::INFINITY));
            }
            let better = best.as_ref().is_none_or(|(least, error, _)| {
                (unfit.cmp(least)).then(worst.total_cmp(error)) == Ordering::Less
            });
            if better {
                best = Some((unfit, worst, [a, b]));
            }
        }
    }
    let (unfit, worst, [a, b]) = best?;
    Some(BestPair {
        a: a.clone(),
        b: b.clone(),
        unfit,
        worst: worst.is_finite().then_some(worst),
    })
}
