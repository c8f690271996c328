//! The ground along a line.

use super::chain::BESIDE;
use super::line::Cut;
use crate::geom::Point;
use crate::ground::Ground;

/// The ground from end to end, bending where the line crosses an edge of its surface, and the
/// stretches that nobody surveyed.
pub(super) fn along(ground: &Ground, cut: &Cut) -> (Vec<Point>, Vec<(f64, f64)>) {
    let (a, b) = (cut.from, cut.at(cut.length));
    let low = Point::new(a.x.min(b.x), a.y.min(b.y));
    let high = Point::new(a.x.max(b.x), a.y.max(b.y));
    let mut stations = vec![0.0, cut.length];
    for facet in ground.facets_near(low, high) {
        let [p, q, r] = facet.corners;
        let crossed = [(p, q), (q, r), (r, p)].map(|(p, q)| cut.crossing(p, q));
        let within = |station: &f64| *station > 0.0 && *station < cut.length;
        stations.extend(crossed.into_iter().flatten().filter(within));
    }
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|b, a| *b - *a < BESIDE);
    let mut assumed: Vec<(f64, f64)> = Vec::new();
    for (&from, &to) in stations.iter().zip(stations.iter().skip(1)) {
        if ground.height(cut.at((from + to) / 2.0)).known {
            continue;
        }
        match assumed.last_mut() {
            Some((_, end)) if *end == from => *end = to,
            _ => assumed.push((from, to)),
        }
    }
    let chain = stations
        .into_iter()
        .map(|s| Point::new(s, ground.height(cut.at(s)).elevation));
    (chain.collect(), assumed)
}
