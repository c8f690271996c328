//! Where the runs leave the hole, and how they reach the equipment pad.

use super::around::Around;
use crate::geom::clip::{length, outside};
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Region};
use crate::site::{CheckedFeature, CheckedShape, CheckedSite, FeatureKind, Placement};

/// The way from the shell to the pad, site frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Route {
    /// Where it leaves the way round the shell: distance along that, meters. `None` without a pad.
    pub exit: Option<f64>,
    /// From there to the pad.
    pub way: Vec<Point>,
    /// The parts of the way outside the hole, and of every other trench that was drawn.
    pub trenches: Vec<Vec<Point>>,
    /// Length of the way outside the hole, meters.
    pub in_trench: f64,
    /// Where the way leaves the hole.
    pub leaves: Point,
    /// The drawn trench it follows: its index among the site's features.
    pub drawn: Option<usize>,
    /// The straight stretches that join a drawn trench to shell and pad, the longer of them.
    pub bridged: f64,
}

/// `any_run`: whether there is any pipe to lay; without it only what was drawn is dug.
pub(super) fn to_pad(
    site: &CheckedSite,
    placement: &Placement,
    around: &Around,
    top_edge: &Region,
    any_run: bool,
) -> Route {
    let mut route = Route::default();
    let pose = placement.pose();
    let drawn = || site.features().iter().filter_map(trench);
    if let Some(pad) = site.equipment().filter(|_| any_run) {
        let edge: Vec<Point> = (around.way.points().iter())
            .map(|p| pose.site_from_shell(*p))
            .collect();
        let best = drawn().filter_map(|(index, chain)| joined(index, chain, &edge, &pad));
        let best = best.min_by(|a, b| a.gaps().total_cmp(&b.gaps()));
        if let Some(joined) = best {
            route.drawn = Some(joined.index);
            route.bridged = joined.before.max(joined.after);
            route.way = joined.way;
        } else if let Some(pair) = straight(&edge, &pad) {
            route.way = pair.to_vec();
        }
        if let Some(first) = route.way.first() {
            let exit = around.way.nearest(pose.shell_from_site(*first));
            route.exit = exit.map(|(station, _)| station);
            route.leaves = *first;
        }
        route.trenches = outside(&route.way, top_edge);
        route.in_trench = route.trenches.iter().map(|part| length(part)).sum();
        if let Some(first) = route.trenches.first().and_then(|part| part.first()) {
            route.leaves = *first;
        }
    }
    for (_, chain) in drawn().filter(|(index, _)| route.drawn != Some(*index)) {
        route.trenches.extend(outside(chain, top_edge));
    }
    route
}

/// Straight across from the place nearest to the pad's middle, so that the way moves evenly with
/// the shell. (The nearest corner of a pad that lies along the shell changes at a hair.)
fn straight(edge: &[Point], pad: &Region) -> Option<[Point; 2]> {
    let middle = [pad.centroid()?];
    let exit = nearest(Figure::Chain(edge), Figure::Chain(&middle))?.from;
    let at_pad = nearest(Figure::Chain(&[exit]), Figure::Area(pad))?.to;
    Some([exit, at_pad])
}

/// A drawn trench: its index and its middle.
fn trench(feature: &CheckedFeature) -> Option<(usize, &[Point])> {
    match &feature.shape {
        CheckedShape::Track(_, chain) if feature.kind == FeatureKind::PipeTrench => {
            Some((feature.index, chain))
        }
        _ => None,
    }
}

/// A drawn trench with the straight stretches that join it to shell and pad.
struct Joined {
    index: usize,
    way: Vec<Point>,
    before: f64,
    after: f64,
}

impl Joined {
    fn gaps(&self) -> f64 {
        self.before + self.after
    }
}

/// Joins a trench by whichever of its ends lies nearer to the shell.
fn joined(index: usize, chain: &[Point], edge: &[Point], pad: &Region) -> Option<Joined> {
    let (first, last) = (*chain.first()?, *chain.last()?);
    let to_shell = |p: Point| nearest(Figure::Chain(edge), Figure::Chain(&[p]));
    let to_pad = |p: Point| nearest(Figure::Chain(&[p]), Figure::Area(pad));
    let forth = (to_shell(first)?, to_pad(last)?);
    let back = (to_shell(last)?, to_pad(first)?);
    let gaps = |(a, b): &(
        crate::geom::distance::Nearest,
        crate::geom::distance::Nearest,
    )| { a.distance.max(0.0) + b.distance.max(0.0) };
    let turned = gaps(&back) < gaps(&forth);
    let (start, end) = if turned { back } else { forth };
    let mut way = vec![start.from];
    if turned {
        way.extend(chain.iter().rev());
    } else {
        way.extend(chain);
    }
    // A trench that ends in the pad needs no more.
    if end.distance > 0.0 {
        way.push(end.to);
    }
    way.dedup_by(|a, b| a.distance(*b) < 1e-6);
    Some(Joined {
        index,
        way,
        before: start.distance.max(0.0),
        after: end.distance.max(0.0),
    })
}
