//! What stands, lies and hangs on the lot already, and what the work leaves standing there.
//!
//! Heights that nobody entered are assumed, and a note says so; posts of wires and openings of walls are not invented.

use super::heights::{BURIED, FENCE, HOUSE, OUTBUILDING, OVERHEAD, TREE, WALL};
use super::place::Extent;
use super::plan::{Layer, Lines};
use super::solid::tube;
use super::{Corner, Matter, Mesh, Part, Scene, Span, Stage};
use crate::analysis::Analysis;
use crate::geom::boolean::{difference, intersection, union};
use crate::geom::clip::inside;
use crate::geom::offset::offset_chain_square;
use crate::geom::{Edges, Point, Region, Vector};
use crate::math::TURN;
use crate::site::shape::PartPlace;
use crate::site::{CheckedFeature, CheckedShape, CheckedSite, Feature, FeatureKind, FeaturePart};
use crate::units::{Measure, show};

/// Thickness of walls and fences that were drawn as a line, meters: our choice.
const WALL_WIDE: f64 = 0.2;
const FENCE_WIDE: f64 = 0.06;

/// How thick what lies on the ground is drawn above it, and how far into it everything reaches, meters.
const LYING: f64 = 0.03;
const INTO: f64 = 0.15;

/// Radius that wires and buried lines are drawn with, meters: to be seen, not to scale.
const WIRE: f64 = 0.03;
const PIPE: f64 = 0.06;

/// The share of a tree's height at which its crown begins where nobody entered that.
const BRANCHES: f64 = 0.3;

/// Radius of a trunk that nobody measured, meters.
const TRUNK: f64 = 0.15;

/// How far apart the ground is looked at along lines, meters.
const ALONG: f64 = 2.0;

/// Adds everything.
pub(super) fn build(scene: &mut Scene, site: &CheckedSite, analysis: &Analysis, extent: &Extent) {
    let mut yard = Yard {
        work: work(site, analysis),
        scene,
        site,
        extent,
    };
    let records = &site.site().features;
    for feature in site.features().iter() {
        if let Some(record) = records.get(feature.index).filter(|it| !it.hidden) {
            yard.add(feature, record);
        }
    }
    yard.pad();
    yard.pile(analysis);
}

/// Where the work changes the ground, site frame: what lies flat there goes.
fn work(site: &CheckedSite, analysis: &Analysis) -> Region {
    let dig = analysis.dig.as_ref().map(|it| it.top_edge.clone());
    let deck = analysis.deck.as_deref().zip(site.placed_shell());
    let deck = deck.map(|(deck, (_, placement))| deck.slab.posed(&placement.pose()));
    let both = [dig, deck].into_iter().flatten();
    both.fold(Region::default(), |sum, it| union(&sum, &it))
}

struct Yard<'a> {
    scene: &'a mut Scene,
    site: &'a CheckedSite,
    extent: &'a Extent,
    work: Region,
}

impl Yard<'_> {
    fn add(&mut self, feature: &CheckedFeature, record: &Feature) {
        use FeatureKind as K;
        let name = record.label();
        let facts = &record.facts;
        match feature.kind {
            K::House => self.block(Matter::House, feature, name, facts.height.unwrap_or(HOUSE)),
            K::Outbuilding => {
                self.block(
                    Matter::Outbuilding,
                    feature,
                    name,
                    facts.height.unwrap_or(OUTBUILDING),
                );
            }
            K::Wall => self.upright(Matter::Wall, feature, name, (facts.height, WALL, WALL_WIDE)),
            K::Fence => self.upright(
                Matter::Fence,
                feature,
                name,
                (facts.height, FENCE, FENCE_WIDE),
            ),
            K::Tree => self.tree(feature, record),
            K::OverheadLine => self.overhead(feature, record),
            K::BuriedLine => self.buried(feature, record),
            K::Driveway | K::Walk => self.lying(Matter::Paving, feature, name),
            K::SepticTank | K::SepticField | K::Well => self.lying(Matter::Septic, feature, name),
            K::Watercourse => self.lying(Matter::Watercourse, feature, name),
            K::Equipment | K::Other => {
                let matter = match feature.kind {
                    K::Equipment => Matter::Equipment,
                    _ => Matter::Other,
                };
                match facts.height.filter(|height| *height > 0.0) {
                    Some(height) => self.block(matter, feature, name, height),
                    None => self.lying(matter, feature, name),
                }
            }
            // Lines on the ground, and what is yet to be built.
            K::Easement
            | K::StreetEdge
            | K::Deck
            | K::DeckOpening
            | K::DeckSteps
            | K::PipeTrench
            | K::SpoilSpace => {}
        }
        let assumed = match feature.kind {
            K::House => Some(HOUSE),
            K::Outbuilding => Some(OUTBUILDING),
            K::Wall => Some(WALL),
            K::Fence => Some(FENCE),
            K::Tree => Some(TREE),
            K::OverheadLine => Some(OVERHEAD),
            _ => None,
        };
        if let Some(height) = assumed.filter(|_| facts.height.is_none()) {
            let height = self.length(height);
            self.scene.notes.push(format!(
                "{}: no height entered, drawn {height} high.",
                capital(name)
            ));
        }
    }

    fn length(&self, value: f64) -> String {
        show(Measure::Length, value, self.site.site().display).text
    }

    fn ground(&self, p: Point) -> f64 {
        self.site.ground().height(p).elevation
    }

    /// Bodies over a region, of one layer.
    fn body(&self, region: &Region, more: &[Vec<Point>], layer: impl Fn(Point) -> Layer) -> Mesh {
        let mut lines = Lines::default();
        lines.region(region, 0.002);
        for chain in more {
            lines.chain(chain, 0.0);
        }
        let plan = lines.part(self.scene.section.as_ref());
        let [mesh] = plan.bodies(|p| [region.contains(p).then(|| layer(p)).flatten()]);
        mesh
    }

    /// A block on the ground under its middle.
    fn block(&mut self, matter: Matter, feature: &CheckedFeature, name: &str, height: f64) {
        let CheckedShape::Area(_, region) = &feature.shape else {
            self.upright(matter, feature, name, (Some(height), height, WALL_WIDE));
            return;
        };
        let Some(middle) = region.centroid() else {
            return;
        };
        let corners = region.rings().flat_map(|ring| &ring.0);
        let lowest = corners
            .map(|p| self.ground(*p))
            .fold(self.ground(middle), f64::min);
        let top = self.ground(middle) + height;
        let mesh = self.body(region, &[], |_| Some((lowest - INTO, top.max(lowest))));
        self.scene.add(matter, name, Span::ALWAYS, mesh);
    }

    /// Something as high everywhere above the ground beside it.
    fn upright(
        &mut self,
        matter: Matter,
        feature: &CheckedFeature,
        name: &str,
        (height, usual, wide): (Option<f64>, f64, f64),
    ) {
        let height = height.unwrap_or(usual);
        let mut bends = Vec::new();
        let region = match &feature.shape {
            CheckedShape::Area(_, region) => region.clone(),
            CheckedShape::Track(_, chain) => {
                // Across the line at every step, so that its top follows the ground.
                for (p, along) in stations(chain) {
                    let aside = along.left() * (wide / 2.0);
                    bends.push(vec![p + aside, p - aside]);
                }
                offset_chain_square(chain, wide / 2.0)
            }
        };
        let mesh = self.body(&region, &bends, |p| {
            let ground = self.ground(p);
            Some((ground - INTO, ground + height))
        });
        self.scene.add(matter, name, Span::ALWAYS, mesh);
    }

    /// Something that lies on the ground; where the work is, it goes with the dig.
    fn lying(&mut self, matter: Matter, feature: &CheckedFeature, name: &str) {
        let region = match &feature.shape {
            CheckedShape::Area(_, region) => region.clone(),
            CheckedShape::Track(_, chain) => offset_chain_square(chain, WALL_WIDE),
        };
        let region = intersection(&region, &self.extent.region());
        let stays = difference(&region, &self.work);
        let goes = intersection(&region, &self.work);
        let until_dug = Span::between(Stage::Lot, Stage::Marked);
        for (region, span) in [(stays, Span::ALWAYS), (goes, until_dug)] {
            let bends = self.bends(&region);
            let mesh = self.body(&region, &bends, |p| {
                let ground = self.ground(p);
                Some((ground - LYING, ground + LYING))
            });
            self.scene.add(matter, name, span, mesh);
        }
    }

    /// The edges of the ground's own triangles within a region.
    fn bends(&self, region: &Region) -> Vec<Vec<Point>> {
        let ground = self.site.ground();
        let (Some((low, high)), true) = (region.bounds(), ground.surveyed().is_some()) else {
            return Vec::new();
        };
        let facets = ground.facets_near(low, high);
        let edges = facets.flat_map(|facet| {
            let [a, b, c] = facet.corners;
            [[a, b], [b, c], [c, a]]
        });
        edges.flat_map(|edge| inside(&edge, region)).collect()
    }

    fn tree(&mut self, feature: &CheckedFeature, record: &Feature) {
        let CheckedShape::Area(_, crown) = &feature.shape else {
            return;
        };
        let Some(middle) = crown.centroid() else {
            return;
        };
        let radius = (crown.area() * 2.0 / TURN).sqrt();
        let ground = self.ground(middle);
        let height = record.facts.height.unwrap_or(TREE).max(0.1);
        let low = record
            .facts
            .clear_height
            .unwrap_or(height * BRANCHES)
            .min(height);
        let ring = |share: f64, count: u32| -> Vec<Point> {
            let at = |i: u32| {
                let angle = TURN * f64::from(i) / f64::from(count);
                middle + Vector::at_angle(angle) * (radius * share)
            };
            (0..=count).map(at).collect()
        };
        let (mid, half) = (ground + f64::midpoint(low, height), (height - low) / 2.0);
        let mut outer = ring(1.0, 12);
        outer.pop();
        let region = Region::from_ring(crate::geom::Ring(outer));
        let edge = Edges::of_region(&region);
        let apex = vec![middle, middle + Vector::new(radius * 0.1, 0.0)];
        let mesh = self.body(&region, &[ring(0.82, 12), ring(0.45, 8), apex], |p| {
            // From its own edge, so that it closes there whatever its chords leave out.
            let out = edge.distance(p) / radius;
            let rise = half
                * (1.0 - (1.0 - out).max(0.0) * (1.0 - out).max(0.0))
                    .max(0.0)
                    .sqrt();
            Some((mid - rise * 0.75, mid + rise))
        });
        self.scene
            .add(Matter::Crown, record.label(), Span::ALWAYS, mesh);
        let stem = feature.parts.iter().find_map(|it| match &it.place {
            PartPlace::Disc(trunk) if it.part == FeaturePart::TreeTrunk => trunk.bounds(),
            _ => None,
        });
        let thick = stem.map_or(TRUNK, |(low, high)| (high.x - low.x) / 2.0);
        let trunk = [
            [middle.x, middle.y, ground - INTO],
            [middle.x, middle.y, mid],
        ];
        let mesh = tube(&trunk, thick, self.scene.section.as_ref());
        self.scene
            .add(Matter::Trunk, record.label(), Span::ALWAYS, mesh);
    }

    /// A wire: level, its lowest point as high above the ground as was entered.
    fn overhead(&mut self, feature: &CheckedFeature, record: &Feature) {
        let CheckedShape::Track(_, chain) = &feature.shape else {
            return;
        };
        let height = record.facts.height.unwrap_or(OVERHEAD);
        for part in inside(chain, &self.extent.region()) {
            let below = stations(&part).map(|(p, _)| self.ground(p));
            let level = below.fold(f64::NEG_INFINITY, f64::max) + height;
            let line: Vec<Corner> = part.iter().map(|p| [p.x, p.y, level]).collect();
            let mesh = tube(&line, WIRE, self.scene.section.as_ref());
            self.scene
                .add(Matter::Wire, record.label(), Span::ALWAYS, mesh);
        }
    }

    fn buried(&mut self, feature: &CheckedFeature, record: &Feature) {
        let CheckedShape::Track(_, chain) = &feature.shape else {
            return;
        };
        let depth = record.facts.depth.unwrap_or(BURIED);
        if record.facts.depth.is_none() {
            let depth = self.length(depth);
            let name = capital(record.label());
            self.scene
                .notes
                .push(format!("{name}: no depth entered, drawn {depth} deep."));
        }
        for part in inside(chain, &self.extent.region()) {
            let line = stations(&part).map(|(p, _)| [p.x, p.y, self.ground(p) - depth - PIPE]);
            let line: Vec<Corner> = line.collect();
            let mesh = tube(&line, PIPE, self.scene.section.as_ref());
            self.scene.parts.push(Part {
                matter: Matter::Buried,
                name: record.label().to_owned(),
                utility: record.facts.utility,
                span: Span::ALWAYS,
                mesh,
            });
        }
    }

    /// The equipment's pad, once it is poured.
    fn pad(&mut self) {
        let Some(region) = self.site.equipment() else {
            return;
        };
        let thickness = self.site.site().works.pad.thickness;
        let corners = region.rings().flat_map(|ring| &ring.0);
        let highest = corners
            .map(|p| self.ground(*p))
            .fold(f64::NEG_INFINITY, f64::max);
        let top = highest + LYING;
        let mesh = self.body(&region, &[], |_| Some((top - thickness - INTO, top)));
        self.scene.add(
            Matter::Equipment,
            "equipment pad",
            Span::from(Stage::Decked),
            mesh,
        );
    }

    /// The pile of spoil, from the dig on until everything is cleared away.
    fn pile(&mut self, analysis: &Analysis) {
        let Some((pile, at)) = analysis
            .stockpile
            .as_ref()
            .and_then(|it| Some((it, it.at?)))
        else {
            return;
        };
        let heap = pile.heap;
        let ring = |radius: f64| -> Vec<Point> {
            let at_angle = |i: u32| at + Vector::at_angle(TURN * f64::from(i) / 24.0) * radius;
            (0..=24).map(at_angle).collect()
        };
        let mut outer = ring(heap.radius);
        outer.pop();
        let region = Region::from_ring(crate::geom::Ring(outer));
        let mut more = self.bends(&region);
        more.push(match heap.top > 0.05 {
            true => ring(heap.top),
            false => vec![at, at + Vector::new(heap.radius * 0.05, 0.0)],
        });
        let edge = Edges::of_region(&region);
        let steepness = heap.height / (heap.radius - heap.top).max(0.01);
        let mesh = self.body(&region, &more, |p| {
            let ground = self.ground(p);
            let rise = (edge.distance(p) * steepness).min(heap.height);
            Some((ground - LYING, ground + rise))
        });
        let span = Span::between(Stage::Dug, Stage::Decked);
        self.scene.add(Matter::Pile, "spoil pile", span, mesh);
    }
}

/// Points along a chain, corners among them, with the way there; no farther apart than `ALONG`.
pub(super) fn stations(chain: &[Point]) -> impl Iterator<Item = (Point, Vector)> + '_ {
    let last = chain.len().saturating_sub(2);
    let pairs = chain.iter().zip(chain.iter().skip(1)).enumerate();
    pairs.flat_map(move |(number, (a, b))| {
        let way = (*b - *a).unit().unwrap_or_default();
        let count = (a.distance(*b) / ALONG).ceil().clamp(1.0, 10_000.0) as u32;
        let end = if number == last { count } else { count - 1 };
        (0..=end).map(move |k| (*a + (*b - *a) * (f64::from(k) / f64::from(count)), way))
    })
}

/// With a capital letter first.
fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
