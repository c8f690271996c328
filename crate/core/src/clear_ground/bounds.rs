//! What holds the shell off, and by how much.

use crate::analysis::{self, Cache, Detail, Part, Scenario, Trunk, conflict, poured, trunk};
use crate::clearance::{Subject, WorkFigures, above_rim, applies, in_plan, targets};
use crate::finding::Severity;
use crate::geom::distance::Figure;
use crate::geom::{Edges, Point, Pose, Region};
use crate::site::{CheckedFeature, CheckedSite, FeatureKind, MeasuredFrom};

/// A figure of the work that goes where the shell goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Moving {
    /// The water's edge; rim, collar and deck are this, farther out.
    Water,
    /// The top edge of the dig.
    Dig,
}

/// What the shell is held off from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// A side of the lot, by index in `Lot::sides`.
    Side(usize),
    /// A feature, by its place among the checked ones.
    Feature(usize),
    /// A part of a feature.
    Part(usize, usize),
    /// The trunk of a tree; its middle where nobody measured that.
    Trunk(usize),
}

/// Why the shell is held off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// A rule, by index in `Site::rules`, and what it was measured to.
    Rule(usize, Subject),
    /// The land ends there: a side of the lot, by index.
    LotLine(usize),
    /// It cannot be built there: a feature, by index in `Site::features`.
    Conflict(usize),
}

/// One thing that holds the shell off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// The part of the work that is held off.
    pub moving: Moving,
    /// From what.
    pub place: Place,
    /// How far, from that figure, meters.
    pub apart: f64,
    /// Why.
    pub cause: Cause,
}

/// Everything that holds the shell off on one site.
#[derive(Debug, Clone)]
pub struct Bounds<'a> {
    pub(super) site: &'a CheckedSite,
    /// Water's edge and top of the dig, shell frame.
    pub(super) figures: [Region; 2],
    pub(super) bounds: Vec<Bound>,
    middles: Vec<(usize, [Point; 1])>,
}

impl<'a> Bounds<'a> {
    /// What holds the shell off, with the work round it as it is at `pose`. `None` before a shell
    /// is placed.
    pub fn of(site: &'a CheckedSite, work: &WorkFigures, pose: &Pose) -> Option<Self> {
        if work.waters_edge.is_empty() {
            return None;
        }
        let mut bounds = by_rule(site, work);
        let poured = poured(site, work);
        let out = poured.map_or(work.rim, |(_, out)| out.max(work.rim));
        for side in 0..site.lot().sides.len() {
            let line = |moving, apart| Bound {
                moving,
                place: Place::Side(side),
                apart,
                cause: Cause::LotLine(side),
            };
            bounds.extend([line(Moving::Water, out), line(Moving::Dig, 0.0)]);
        }
        let parts = [
            Some((Part::Shell, work.rim)),
            Some((Part::Dig, 0.0)),
            poured,
        ];
        for (at, feature) in site.features().iter().enumerate() {
            if !feature.kind.is_planned() {
                conflicts(&parts, at, feature, &mut bounds);
            }
        }
        Some(Self {
            site,
            figures: [&work.waters_edge, &work.dig].map(|it| it.shell_from_site(pose)),
            bounds,
            middles: middles(site),
        })
    }

    /// What holds the shell off where it stands on a site; `None` before one is placed.
    pub fn where_it_stands(site: &'a CheckedSite, cache: &mut Cache) -> Option<Self> {
        let (_, placement) = site.placed_shell()?;
        let analysis = analysis::run(&Scenario::of(site), Detail::Clearances, cache);
        Self::of(site, &analysis.work, &placement.pose())
    }

    /// Every bound.
    pub fn all(&self) -> &[Bound] {
        &self.bounds
    }

    /// Water's edge and top of the dig, shell frame.
    pub fn figures(&self) -> &[Region; 2] {
        &self.figures
    }

    /// The same bounds for other figures: water's edge and top of the dig, shell frame.
    #[must_use]
    pub fn with_figures(&self, figures: [Region; 2]) -> Self {
        Self {
            figures,
            ..self.clone()
        }
    }

    /// The lot's own lines, and of the others those with one of these causes.
    #[must_use]
    pub fn only(&self, causes: &[Cause]) -> Self {
        let mut fewer = self.clone();
        fewer
            .bounds
            .retain(|it| matches!(it.cause, Cause::LotLine(_)) || causes.contains(&it.cause));
        fewer
    }

    /// The bound that holds each moving figure off farthest from each place: the others follow from it.
    pub(super) fn greatest(&self) -> Vec<Bound> {
        let mut greatest: Vec<Bound> = Vec::new();
        for bound in &self.bounds {
            let same = |it: &&mut Bound| it.moving == bound.moving && it.place == bound.place;
            match greatest.iter_mut().find(same) {
                Some(known) if known.apart >= bound.apart => {}
                Some(known) => *known = *bound,
                None => greatest.push(*bound),
            }
        }
        greatest
    }

    /// Of those, the ones that are met first: a figure that cannot come too near to a place before the other one does is
    /// left out there.
    pub(super) fn met_first(&self, greatest: &[Bound]) -> Vec<Bound> {
        let (least, most) = self.dig_beyond_water();
        let comes_second = |bound: &&Bound| {
            let others = greatest.iter();
            let mut others =
                others.filter(|it| it.place == bound.place && it.moving != bound.moving);
            // Where each comes second to the other they are one, and the water's edge stays.
            others.any(|other| match bound.moving {
                Moving::Dig => bound.apart + most <= other.apart,
                Moving::Water => {
                    other.apart + least >= bound.apart && other.apart + most > bound.apart
                }
            })
        };
        let first = greatest.iter().filter(|it| !comes_second(it));
        first.copied().collect()
    }

    /// How far the top of the dig lies outside the water's edge, at least and at most, meters.
    pub(crate) fn dig_beyond_water(&self) -> (f64, f64) {
        let [water, dig] = &self.figures;
        if dig.is_empty() {
            return (f64::NEG_INFINITY, f64::INFINITY);
        }
        let edges = Edges::of_region(water);
        let points = dig.rings().flat_map(|ring| &ring.0);
        let most = points.map(|p| edges.distance(*p)).fold(0.0, f64::max);
        let apart = nearest_edges(water, dig).unwrap_or_default();
        let inside = water
            .rings()
            .flat_map(|ring| &ring.0)
            .all(|p| dig.contains(*p));
        (if inside { apart } else { f64::NEG_INFINITY }, most)
    }

    /// A side of the lot.
    pub(super) fn side(&self, side: usize) -> Option<&[Point]> {
        self.site.lot().sides.get(side).map(Vec::as_slice)
    }

    /// A place as distances take it.
    pub(super) fn figure(&self, place: Place) -> Option<Figure<'_>> {
        let (lot, features) = (self.site.lot(), self.site.features());
        Some(match place {
            Place::Side(side) => Figure::Chain(lot.sides.get(side)?),
            Place::Feature(at) => features.get(at)?.shape.figure(),
            Place::Part(at, part) => features.get(at)?.parts.get(part)?.figure(),
            Place::Trunk(at) => match self.middles.iter().find(|(it, _)| *it == at) {
                Some((_, middle)) => Figure::Chain(middle),
                None => match trunk(features.get(at)?) {
                    Trunk::Told(figure) => figure,
                    Trunk::Middle(_) => return None,
                },
            },
        })
    }
}

/// Distance between the edges of two regions, meters.
fn nearest_edges(a: &Region, b: &Region) -> Option<f64> {
    let edges = Edges::of_region(b);
    let of_a = a
        .rings()
        .flat_map(|ring| &ring.0)
        .map(|p| edges.distance(*p));
    let edges = Edges::of_region(a);
    let of_b = b
        .rings()
        .flat_map(|ring| &ring.0)
        .map(|p| edges.distance(*p));
    of_a.chain(of_b).reduce(f64::min)
}

/// The middles of those trees whose trunks nobody measured, by their places among the features.
fn middles(site: &CheckedSite) -> Vec<(usize, [Point; 1])> {
    let features = site.features().iter().enumerate();
    let trees = features.filter(|(_, feature)| feature.kind == FeatureKind::Tree);
    trees
        .filter_map(|(at, tree)| match trunk(tree) {
            Trunk::Middle(middle) => Some((at, [middle])),
            Trunk::Told(_) => None,
        })
        .collect()
}

/// Every rule that measures from a part of the work that goes with the shell.
fn by_rule(site: &CheckedSite, work: &WorkFigures) -> Vec<Bound> {
    let mut bounds = Vec::new();
    for (index, rule) in site.site().rules.iter().enumerate() {
        let (moving, out) = match rule.from {
            MeasuredFrom::WatersEdge => (Moving::Water, 0.0),
            MeasuredFrom::Rim => (Moving::Water, work.rim),
            MeasuredFrom::DeckEdge => (Moving::Water, work.deck_edge),
            MeasuredFrom::Dig => (Moving::Dig, 0.0),
            MeasuredFrom::Equipment
            | MeasuredFrom::Steps
            | MeasuredFrom::SpoilPile
            | MeasuredFrom::Barrier => continue,
        };
        if !applies(site, work, rule) {
            continue;
        }
        for (subject, _) in targets(site, rule) {
            let among = |index| site.features().iter().position(|f| f.index == index);
            let place = match subject {
                Subject::Side(side) => Some(Place::Side(side)),
                Subject::Feature(index) => among(index).map(Place::Feature),
                Subject::Part { feature, part } => among(feature).map(|at| Place::Part(at, part)),
            };
            let apart = in_plan(rule.distance, above_rim(site, rule, subject));
            bounds.extend(place.zip(apart).map(|(place, apart)| Bound {
                moving,
                place,
                apart: out + apart,
                cause: Cause::Rule(index, subject),
            }));
        }
    }
    bounds
}

/// The parts of the work that cannot be built where a feature is.
fn conflicts(
    parts: &[Option<(Part, f64)>],
    at: usize,
    feature: &CheckedFeature,
    bounds: &mut Vec<Bound>,
) {
    let place = match feature.kind {
        FeatureKind::Tree => Place::Trunk(at),
        _ => Place::Feature(at),
    };
    for (part, apart) in parts.iter().flatten() {
        let met = conflict(*part, feature.kind);
        if met.is_some_and(|met| met.severity == Severity::Fault) {
            bounds.push(Bound {
                moving: match part {
                    Part::Dig => Moving::Dig,
                    _ => Moving::Water,
                },
                place,
                apart: *apart,
                cause: Cause::Conflict(feature.index),
            });
        }
    }
}
