//! A stretch of a fence or a wall taken out, to see what it gives.

use super::bars::{Bars, along, without};
use super::line::length;
use super::{Goal, Ground, Pinch, Way};
use crate::geom::{Point, Segment, crossings};
use crate::math::lesser;

/// A way that widens by less than this is no wider, meters.
const WORTH: f64 = 0.01;

/// A stretch taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct Removal {
    /// The fence or wall, by its index in the site.
    pub feature: usize,
    /// What the plan calls it.
    pub name: String,
    /// Whether it is all of it, and not one panel.
    pub whole: bool,
    /// How long the stretch is, meters.
    pub length: f64,
    /// Its ends, site meters; of a whole fence its first and last point.
    pub ends: [Point; 2],
    /// Width of the widest way afterwards, meters; infinite where nothing holds it then.
    pub width: f64,
    /// What holds it then.
    pub pinch: Option<Pinch>,
}

/// Every fence or wall that gives something: one panel where that helps, and all of it where that
/// helps more. The best first.
pub(super) fn all(ground: &Ground<'_>, way: &Way) -> Vec<Removal> {
    let now = way.width();
    let closed = way.is_closed();
    let mut found: Vec<Removal> = Vec::new();
    for (index, bar) in ground.bars.all.iter().enumerate() {
        let Some(feature) = bar.feature.filter(|_| bar.may_go()) else {
            continue;
        };
        let holds = way.pinch.as_ref();
        let holds = holds.is_some_and(|it| it.features.contains(&Some(feature)) && !it.at_goal);
        if !holds && !closed {
            continue;
        }
        let without_it = changed(&ground.bars, index, Vec::new());
        let Some(open) = ground.way(&without_it, 0.0, Goal::Dig, f64::INFINITY) else {
            continue;
        };
        if open.width() < now + WORTH {
            continue;
        }
        let all_of_it = bar.chains.iter().map(|it| length(it)).sum();
        let ends = bar.chains.first().zip(bar.chains.last());
        let ends = ends.and_then(|(a, b)| Some([*a.first()?, *b.last()?]));
        let panel = places(&bar.chains, &open.line, way)
            .into_iter()
            .filter_map(|at| taken_out(ground, index, at))
            .reduce(|a, b| if b.width > a.width { b } else { a })
            .filter(|it| it.width > now + WORTH);
        let best = panel.as_ref().map_or(now, |it| it.width);
        found.extend(panel);
        if let Some(ends) = ends
            && open.width() > best + WORTH
        {
            found.push(Removal {
                feature,
                name: bar.name.clone(),
                whole: true,
                length: all_of_it,
                ends,
                width: open.width(),
                pinch: open.pinch,
            });
        }
    }
    found.sort_by(|a, b| a.whole.cmp(&b.whole).then(b.width.total_cmp(&a.width)));
    found
}

/// The bars with other chains for one of them.
fn changed(bars: &Bars, index: usize, chains: Vec<Vec<Point>>) -> Bars {
    let mut changed = bars.clone();
    if let Some(bar) = changed.all.get_mut(index) {
        bar.chains = chains;
    }
    changed
}

/// Places of a bar where a panel may be worth taking out: where the way without the bar crosses it,
/// and where the bar holds the way now.
fn places(chains: &[Vec<Point>], line: &[Point], way: &Way) -> Vec<(usize, Point)> {
    let mut places = Vec::new();
    for (number, chain) in chains.iter().enumerate() {
        for [a, b] in chain.array_windows() {
            let edge = Segment::Line { from: *a, to: *b };
            for [p, q] in line.array_windows() {
                let leg = Segment::Line { from: *p, to: *q };
                let crossed = crossings(&edge, &leg).into_iter().flatten();
                places.extend(crossed.map(|at| (number, at)));
            }
        }
    }
    let ends = way.pinch.iter().flat_map(|it| it.ends);
    for end in ends {
        let near = chains.iter().enumerate().filter_map(|(number, chain)| {
            let off = crate::geom::Edges::of_chain(chain).distance(end);
            (off < 1e-6).then_some((number, end))
        });
        places.extend(near);
    }
    places
}

/// One panel taken out about a place of a chain.
fn taken_out(ground: &Ground<'_>, index: usize, (number, at): (usize, Point)) -> Option<Removal> {
    let bar = ground.bars.all.get(index)?;
    let chain = bar.chains.get(number)?;
    let whole = length(chain);
    let panel = lesser(ground.site.site().works.access.panel, whole);
    let start = (along(chain, at) - panel / 2.0).clamp(0.0, whole - panel);
    let mut chains = bar.chains.clone();
    let left = without(chain, &[(start, start + panel)]);
    let out = without(chain, &[(0.0, start), (start + panel, whole)]);
    let out = out.first()?;
    let ends = [*out.first()?, *out.last()?];
    chains.splice(number..=number, left);
    let (width, pinch) = ground.width(&changed(&ground.bars, index, chains))?;
    Some(Removal {
        feature: bar.feature?,
        name: bar.name.clone(),
        whole: false,
        length: panel,
        ends,
        width,
        pinch,
    })
}
