//! What stands in the way, at which height, and what of it may be taken out.

use super::gap::Piece;
use crate::geom::{DRAWING_TOLERANCE, Point, Region, Ring, boolean, offset};
use crate::lot::LineKind;
use crate::lot::kinds::along_edge;
use crate::math::greater;
use crate::site::shape::PartPlace;
use crate::site::{
    CheckedFeature, CheckedShape, CheckedSite, FeatureKind, FeaturePart, ShapeRecord,
};

/// Diameter of a tree's trunk where nobody entered it, meters (our choice: a foot).
pub const ASSUMED_TRUNK: f64 = 0.3048;

/// A gate in an area of a wall is cut this much farther than the wall is thick, meters.
const THROUGH: f64 = 0.05;

/// The thickest wall that a gate is cut through, meters (our choice).
const THICKEST: f64 = 2.0;

/// One thing that stands in the way.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// What the plan calls it.
    pub name: String,
    /// The feature, by its index in the site; none of a side of the lot.
    pub feature: Option<usize>,
    /// What it is; none of a side of the lot.
    pub kind: Option<FeatureKind>,
    /// Its edges, each a chain of points, gates left out; a point alone is a disc's middle.
    pub chains: Vec<Vec<Point>>,
    /// How far it reaches round those, meters.
    pub radius: f64,
    /// It stands in the way only of what is taller than this, meters.
    pub clear_height: Option<f64>,
}

impl Bar {
    /// Whether it may be taken out for the job and put back.
    pub fn may_go(&self) -> bool {
        matches!(self.kind, Some(FeatureKind::Fence | FeatureKind::Wall))
    }
}

/// A gate, as its two posts.
#[derive(Debug, Clone, PartialEq)]
pub struct Gate {
    /// What the plan calls it.
    pub name: String,
    /// The bar it is in.
    pub bar: usize,
    /// Its posts, site meters.
    pub posts: [Point; 2],
}

/// Everything that stands in the way, and where the street is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bars {
    /// What stands in the way.
    pub all: Vec<Bar>,
    /// The gates in them.
    pub gates: Vec<Gate>,
    /// The sides of the lot that lie on a street, as chains of points.
    pub streets: Vec<Vec<Point>>,
    /// How those are known: by their kind, or by an edge of a street or a driveway that reaches them.
    pub by_kind: bool,
    /// Trees of which nobody entered the trunk.
    pub no_trunk: Vec<String>,
}

impl Bars {
    /// Those of a site.
    pub fn of(site: &CheckedSite) -> Self {
        let mut bars = Self::default();
        let street = bars.find_street(site);
        let lot = site.lot();
        for (i, (side, chain)) in lot.lot.sides.iter().zip(&lot.sides).enumerate() {
            if street.contains(&i) {
                bars.streets.push(chain.clone());
                continue;
            }
            let kind = site.site().lot.courses.get(side.course).map(|it| it.kind);
            bars.all.push(Bar {
                name: kind.unwrap_or_default().words().to_owned(),
                feature: None,
                kind: None,
                chains: vec![chain.clone()],
                radius: 0.0,
                clear_height: None,
            });
        }
        for feature in site.features().iter() {
            bars.add(site, feature);
        }
        bars
    }

    /// The sides on a street: by their kind, or else along the edge of a street, or else those that a
    /// driveway reaches.
    fn find_street(&mut self, site: &CheckedSite) -> Vec<usize> {
        let lot = site.lot();
        let kind = |course: usize| site.site().lot.courses.get(course).map(|it| it.kind);
        let sides = || lot.lot.sides.iter().enumerate();
        let by_kind: Vec<usize> = sides()
            .filter(|(_, side)| {
                matches!(
                    kind(side.course),
                    Some(LineKind::Front | LineKind::StreetSide)
                )
            })
            .map(|(i, _)| i)
            .collect();
        if !by_kind.is_empty() {
            self.by_kind = true;
            return by_kind;
        }
        let edges = site.features().iter().filter_map(|it| match &it.shape {
            CheckedShape::Track(_, chain) if it.kind == FeatureKind::StreetEdge => Some(chain),
            _ => None,
        });
        let courses: Vec<usize> = edges.flat_map(|it| along_edge(&lot.lot, it)).collect();
        let by_edge: Vec<usize> = sides()
            .filter(|(_, side)| courses.contains(&side.course))
            .map(|(i, _)| i)
            .collect();
        if !by_edge.is_empty() {
            return by_edge;
        }
        let reaches = |chain: &Vec<Point>| {
            let drives = site.features().iter();
            let mut drives = drives.filter(|it| it.kind == FeatureKind::Driveway);
            drives.any(|it| {
                let side = crate::geom::distance::Figure::Chain(chain);
                let near = crate::geom::distance::nearest(it.shape.figure(), side);
                near.is_some_and(|it| it.distance < ASSUMED_TRUNK)
            })
        };
        let sides = lot.sides.iter().enumerate();
        sides
            .filter(|(_, it)| reaches(it))
            .map(|(i, _)| i)
            .collect()
    }

    /// What a feature puts in the way.
    fn add(&mut self, site: &CheckedSite, feature: &CheckedFeature) {
        use FeatureKind as K;
        let records = &site.site().features;
        let Some(record) = records.get(feature.index) else {
            return;
        };
        let bar = |name: String, chains, radius, clear_height| Bar {
            name,
            feature: Some(feature.index),
            kind: Some(feature.kind),
            chains,
            radius,
            clear_height,
        };
        let name = || record.label().to_owned();
        let facts = &record.facts;
        match feature.kind {
            K::Fence | K::Wall => {
                let index = self.all.len();
                let chains = self.opened(index, feature, &record.shape);
                self.all.push(bar(name(), chains, 0.0, None));
            }
            K::House | K::Outbuilding => {
                self.all.push(bar(name(), edges(&feature.shape), 0.0, None));
                if let (Some(clear), Some(overhang)) = (facts.clear_height, facts.overhang)
                    && overhang > 0.0
                {
                    let eaves = format!("eaves of {}", record.label());
                    let chains = edges(&feature.shape);
                    self.all.push(bar(eaves, chains, overhang, Some(clear)));
                }
            }
            K::Tree => {
                let Some(middle) = middle(&feature.shape) else {
                    return;
                };
                let trunk = facts.trunk.unwrap_or_else(|| {
                    self.no_trunk.push(name());
                    ASSUMED_TRUNK
                });
                let trunk_of = format!("trunk of {}", record.label());
                self.all
                    .push(bar(trunk_of, vec![vec![middle]], trunk / 2.0, None));
                if let Some(clear) = facts.clear_height {
                    let crown = format!("branches of {}", record.label());
                    // The crown as a disc where it is one: exact.
                    let (chains, radius) = match &record.shape {
                        ShapeRecord::Disc { at, radius } => (vec![vec![*at]], *radius),
                        _ => (edges(&feature.shape), 0.0),
                    };
                    self.all.push(bar(crown, chains, radius, Some(clear)));
                }
            }
            K::OverheadLine => {
                if let Some(height) = facts.height {
                    let chains = edges(&feature.shape);
                    self.all.push(bar(name(), chains, 0.0, Some(height)));
                }
            }
            K::Well | K::Equipment | K::Watercourse | K::Other => {
                let (chains, radius) = match &record.shape {
                    ShapeRecord::Disc { at, radius } => (vec![vec![*at]], *radius),
                    _ => (edges(&feature.shape), 0.0),
                };
                self.all.push(bar(name(), chains, radius, None));
            }
            K::Driveway
            | K::Walk
            | K::Easement
            | K::SepticTank
            | K::SepticField
            | K::BuriedLine
            | K::StreetEdge
            | K::Deck
            | K::DeckOpening
            | K::DeckSteps
            | K::PipeTrench
            | K::SpoilSpace => {}
        }
    }

    /// The edges of a fence or a wall without its gates, which are taken down.
    fn opened(
        &mut self,
        bar: usize,
        feature: &CheckedFeature,
        record: &ShapeRecord,
    ) -> Vec<Vec<Point>> {
        let openings = feature.parts.iter().filter_map(|it| match &it.place {
            PartPlace::Opening(points) if it.part == FeaturePart::Gate => Some((it, points)),
            _ => None,
        });
        let openings: Vec<_> = openings.collect();
        for (part, points) in &openings {
            if let (Some(first), Some(last)) = (points.first(), points.last()) {
                self.gates.push(Gate {
                    name: part.name.clone(),
                    bar,
                    posts: [*first, *last],
                });
            }
        }
        match &feature.shape {
            CheckedShape::Track(_, chain) => {
                let mut spans: Vec<(f64, f64)> = openings
                    .iter()
                    .filter_map(|(_, points)| Some((*points.first()?, *points.last()?)))
                    .map(|(a, b)| (along(chain, a), along(chain, b)))
                    .map(|(a, b)| if a < b { (a, b) } else { (b, a) })
                    .collect();
                spans.sort_by(|a, b| a.0.total_cmp(&b.0));
                without(chain, &spans)
            }
            CheckedShape::Area(_, region) => {
                let thick = match record {
                    ShapeRecord::Strip { width, .. } => *width,
                    _ => THICKEST,
                };
                let cut = openings.iter().fold(region.clone(), |rest, (_, points)| {
                    let slot = offset::offset_chain_square(points, thick + THROUGH);
                    boolean::difference(&rest, &slot)
                });
                rings(&cut)
            }
        }
    }

    /// The pieces in the way of something so tall, meters, but for some bars.
    pub fn pieces(&self, height: f64, left_out: impl Fn(usize) -> bool) -> Vec<Piece> {
        let mut pieces = Vec::new();
        for (owner, bar) in self.all.iter().enumerate() {
            if left_out(owner) || bar.clear_height.is_some_and(|clear| clear >= height) {
                continue;
            }
            for chain in &bar.chains {
                pieces.extend(Piece::of_chain(chain, bar.radius, owner));
            }
        }
        pieces
    }

    /// The heights above which something more stands in the way, from the lowest.
    pub fn heights(&self) -> Vec<f64> {
        let mut heights: Vec<f64> = self.all.iter().filter_map(|it| it.clear_height).collect();
        heights.sort_by(f64::total_cmp);
        heights
    }
}

/// How far along a chain the place nearest to a point lies, meters.
pub fn along(chain: &[Point], p: Point) -> f64 {
    let (mut best, mut so_far) = ((f64::INFINITY, 0.0), 0.0);
    for [a, b] in chain.array_windows() {
        let way = *b - *a;
        let length = way.length();
        let share = (p - *a).dot(way) / greater(length * length, 1e-300);
        let share = share.clamp(0.0, 1.0);
        let off = p.distance(*a + way * share);
        if off < best.0 {
            best = (off, so_far + share * length);
        }
        so_far += length;
    }
    best.1
}

/// A chain without some spans of its length, meters, in order.
pub fn without(chain: &[Point], spans: &[(f64, f64)]) -> Vec<Vec<Point>> {
    let whole = super::line::length(chain);
    let mut left = Vec::new();
    let mut from = 0.0;
    for (start, end) in spans.iter().copied().chain([(whole, whole)]) {
        if start > from + DRAWING_TOLERANCE {
            left.push(part(chain, from, start));
        }
        from = greater(from, end);
    }
    left
}

/// The part of a chain from one length to another, meters.
fn part(chain: &[Point], from: f64, to: f64) -> Vec<Point> {
    let mut points = Vec::new();
    let mut so_far = 0.0;
    for [a, b] in chain.array_windows() {
        let length = a.distance(*b);
        let end = so_far + length;
        if end > from && so_far < to && length > 0.0 {
            let at = |s: f64| *a + (*b - *a) * ((s - so_far) / length).clamp(0.0, 1.0);
            if points.is_empty() {
                points.push(at(from));
            }
            points.push(at(to));
        }
        so_far = end;
    }
    points
}

/// The edges of a shape as chains.
fn edges(shape: &CheckedShape) -> Vec<Vec<Point>> {
    match shape {
        CheckedShape::Area(_, region) => rings(region),
        CheckedShape::Track(_, chain) => vec![chain.clone()],
    }
}

/// The rings of a region, each closed.
fn rings(region: &Region) -> Vec<Vec<Point>> {
    region.rings().map(Ring::closed).collect()
}

/// The middle of a tree.
fn middle(shape: &CheckedShape) -> Option<Point> {
    match shape {
        CheckedShape::Area(_, region) => region.centroid(),
        CheckedShape::Track(..) => None,
    }
}
