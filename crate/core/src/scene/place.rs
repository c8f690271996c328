//! The shell where it stands, and how far the drawn ground reaches.

use super::Corner;
use crate::analysis::{Analysis, ShellRings};
use crate::deck::DeckPlan;
use crate::dig::{Depths, Dig};
use crate::geom::region::bounds;
use crate::geom::{Point, Pose, Region, Vector};
use crate::grading::{Drawn, Finished, Grading};
use crate::shell::Shell;
use crate::site::{CheckedShape, CheckedSite, ConstructionSettings};

/// How far beyond the lot and the work the ground is drawn, meters (our choice).
const MARGIN: f64 = 2.0;

/// How far beyond the lot what stands there is still drawn, meters (our choice).
const BESIDE_LOT: f64 = 8.0;

/// A shell on its site with everything that its bodies are measured from.
pub(super) struct Placed<'a> {
    pub site: &'a CheckedSite,
    pub analysis: &'a Analysis,
    pub shell: &'a Shell,
    pub works: &'a ConstructionSettings,
    pub pose: Pose,
    /// Elevation of the rim, meters.
    pub coping: f64,
    pub dig: &'a Dig,
    pub rings: &'a ShellRings,
    pub deck: Option<&'a DeckPlan>,
    pub grading: Option<&'a Grading>,
    pub depths: Depths,
    pub finished: Finished,
}

impl<'a> Placed<'a> {
    /// `None` without a shell.
    pub fn of(site: &'a CheckedSite, analysis: &'a Analysis) -> Option<Self> {
        let (shell, placement) = site.placed_shell()?;
        let (dig, rings) = (analysis.dig.as_ref()?, analysis.rings.as_deref()?);
        let (works, pose) = (&site.site().works, placement.pose());
        let edge = dig.top_edge.rings().flat_map(|ring| &ring.0);
        let above = edge.map(|p| site.ground().height(*p).elevation - placement.coping_elevation);
        let headroom = above.fold(dig.ground_above_rim, f64::max).max(0.0) + 0.05;
        let drawn = Drawn::of(site.features());
        Some(Self {
            site,
            analysis,
            shell,
            works,
            pose,
            coping: placement.coping_elevation,
            dig,
            rings,
            deck: analysis.deck.as_deref(),
            grading: analysis.grading.as_ref(),
            depths: Depths::of(shell, &works.dig, headroom),
            finished: Finished::new(shell, works, &drawn, &pose),
        })
    }

    /// A point of the site in the shell's frame.
    pub fn inward(&self, p: Point) -> Point {
        self.pose.shell_from_site(p)
    }

    /// Elevation of the existing ground, meters.
    pub fn ground(&self, p: Point) -> f64 {
        self.site.ground().height(p).elevation
    }

    /// The edges at which floors of the shell meet within its footprint, site frame.
    pub fn floor_edges(&self) -> Vec<[Point; 2]> {
        let edge = crate::geom::Edges::of_region(&self.shell.footprint);
        let facets = self.shell.facets.iter();
        let edges = facets.flat_map(|facet| facet.region.rings().flat_map(|ring| ring.edges()));
        let within = edges.filter(|(a, b)| edge.distance(a.midpoint(*b)) > 0.001);
        within
            .map(|(a, b)| [a, b].map(|p| self.pose.site_from_shell(p)))
            .collect()
    }
}

/// The part of the plan that is drawn: an upright rectangle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Extent {
    pub low: Point,
    pub high: Point,
}

impl Extent {
    /// Round lot, work and what stands beside it.
    pub fn of(site: &CheckedSite, analysis: &Analysis) -> Self {
        let (low, high) = site.lot().region.bounds().unwrap_or_default();
        let out = Vector::new(BESIDE_LOT, BESIDE_LOT);
        let beside = Self {
            low: low - out,
            high: high + out,
        };
        let features = site.features().iter();
        let features = features.flat_map(|it| match &it.shape {
            CheckedShape::Area(_, region) => region.rings().flat_map(|r| r.0.clone()).collect(),
            CheckedShape::Track(_, chain) => chain.clone(),
        });
        let features: Vec<Point> = features.map(|p: Point| beside.nearest(p)).collect();
        let mut work: Vec<Point> = Vec::new();
        if let Some(dig) = &analysis.dig {
            work.extend(dig.top_edge.rings().flat_map(|ring| &ring.0));
        }
        if let Some(grading) = &analysis.grading {
            work.extend(
                grading
                    .toe
                    .lines
                    .iter()
                    .chain(&grading.crest.lines)
                    .flatten(),
            );
        }
        if let (Some(deck), Some((_, placement))) = (&analysis.deck, site.placed_shell()) {
            let pose = placement.pose();
            let corners = deck.slab.rings().flat_map(|ring| &ring.0);
            work.extend(corners.map(|p| pose.site_from_shell(*p)));
        }
        let all = features.into_iter().chain(work).chain([low, high]);
        let (low, high) = bounds(all).unwrap_or((low, high));
        let margin = Vector::new(MARGIN, MARGIN);
        Self {
            low: low - margin,
            high: high + margin,
        }
    }

    /// The nearest place within it.
    pub fn nearest(&self, p: Point) -> Point {
        Point::new(
            p.x.clamp(self.low.x, self.high.x),
            p.y.clamp(self.low.y, self.high.y),
        )
    }

    /// Whether a place is within it.
    pub fn holds(&self, p: Point) -> bool {
        self.nearest(p) == p
    }

    /// Its edge, closed.
    pub fn edge(&self) -> Vec<Point> {
        let Self { low, high } = *self;
        let (right, left) = (Point::new(high.x, low.y), Point::new(low.x, high.y));
        vec![low, right, high, left, low]
    }

    /// It as a region.
    pub fn region(&self) -> Region {
        let mut ring = self.edge();
        ring.pop();
        Region::from_ring(crate::geom::Ring(ring))
    }
}

/// Where a first look should go, and how far the work reaches from there.
pub(super) fn focus(site: &CheckedSite, placed: Option<&Placed<'_>>) -> (Corner, f64) {
    let around = |region: &Region| {
        let (low, high) = region.bounds()?;
        Some((low.midpoint(high), low.distance(high) / 2.0))
    };
    let lot = || around(&site.lot().region);
    let work = placed.and_then(|it| around(&it.dig.top_edge));
    let (at, reach) = work.or_else(lot).unwrap_or_default();
    let level = placed.map_or_else(|| site.ground().height(at).elevation, |it| it.coping);
    ([at.x, at.y, level], reach.max(1.0))
}
