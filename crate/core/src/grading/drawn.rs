//! Decks that were drawn, and the openings in decks.

use super::layout::{Beside, EdgeSpot, Layout, Paved, edge_spots, half_plane};
use super::levels::Levels;
use crate::geom::boolean::{difference, union};
use crate::geom::inside::Inside;
use crate::geom::{Edges, Point, Pose, Region, Ring, Vector};
use crate::shell::Shell;
use crate::site::{CheckedFeature, CheckedShape, FeatureKind};

/// Edges of drawn decks are taken in stretches no longer than this, meters: along one the
/// deck's top changes evenly.
const STRETCH: f64 = 0.5;

/// Every drawn deck as one area, less its openings, and the openings; site frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawn {
    pub(super) decks: Region,
    pub(super) openings: Region,
}

impl Drawn {
    /// Those among some features.
    pub fn of(features: &[CheckedFeature]) -> Self {
        let all = |kind: FeatureKind| {
            let areas = features.iter().filter_map(|feature| match &feature.shape {
                CheckedShape::Area(_, region) if feature.kind == kind => Some(region),
                _ => None,
            });
            areas.fold(Region::default(), |sum, area| union(&sum, area))
        };
        Self::within(&all(FeatureKind::Deck), all(FeatureKind::DeckOpening))
    }

    /// Decks less their openings, site frame.
    pub fn within(decks: &Region, openings: Region) -> Self {
        Self {
            decks: difference(decks, &openings),
            openings,
        }
    }

    /// Whether nothing was drawn.
    pub fn is_empty(&self) -> bool {
        self.decks.is_empty() && self.openings.is_empty()
    }

    /// Distance of the farthest corner of a drawn deck from the rim, meters; 0 without one.
    pub fn farthest(&self, shell: &Shell, pose: &Pose) -> f64 {
        if self.decks.is_empty() {
            return 0.0;
        }
        let rim = Edges::of_region(&shell.rim);
        let corners = self.decks.rings().flat_map(|ring| &ring.0);
        let away = corners.map(|p| rim.distance(pose.shell_from_site(*p)));
        away.fold(0.0, f64::max)
    }

    /// The layout of a shell with these at a pose.
    pub(super) fn over(&self, layout: &Layout, pose: &Pose) -> Over {
        let decks = into_shell(&self.decks, pose);
        let openings = into_shell(&self.openings, pose);
        let stretches = Stretches::of(&decks, &layout.levels, &layout.rim);
        let mut over = Over {
            paved: Vec::with_capacity(layout.paved.len()),
            beside: Vec::with_capacity(layout.beside.len()),
            edge: Vec::new(),
            runs: Vec::with_capacity(layout.runs.len()),
        };
        let opening = Signed::of(&openings);
        let deck = Signed::of(&decks);
        let cell = layout.grid.cell;
        let place = |cell: u32| {
            let columns = layout.grid.columns.max(1);
            layout
                .grid
                .centre(cell as usize % columns, cell as usize / columns)
        };
        for paved in &layout.paved {
            let open = opening.share(place(paved.cell), cell);
            if open > 0.0 && paved.level != -layout.levels.cap {
                over.beside.push(untouched(paved, open));
            }
            if open < 1.0 || paved.level == -layout.levels.cap {
                let kept = if paved.level == -layout.levels.cap {
                    1.0
                } else {
                    1.0 - open
                };
                over.paved.push(Paved {
                    area: paved.area * kept,
                    ..*paved
                });
            }
        }
        for beside in &layout.beside {
            let p = place(beside.cell);
            let signed = deck.at(p, beside.run.max(cell));
            let covered = deck.share(p, cell);
            if covered > 0.0 {
                over.paved.push(Paved {
                    cell: beside.cell,
                    area: beside.area * covered,
                    level: layout.levels.subgrade(beside.run + layout.levels.edge()),
                    hole: beside.hole,
                });
            }
            if covered >= 1.0 {
                continue;
            }
            let mut left = Beside {
                area: beside.area * (1.0 - covered),
                ..*beside
            };
            if opening.at(p, cell) < 0.0 {
                left.run = f64::INFINITY;
            } else if signed < beside.run
                && let Some((top, foot)) = stretches.nearest(p)
            {
                left.run = signed.max(cell / 4.0);
                left.edge = top;
                left.toward = (foot - p).unit().unwrap_or_default();
            }
            over.beside.push(left);
        }
        over.runs
            .extend(layout.runs.iter().enumerate().map(|(i, run)| {
                let columns = layout.coarse.columns.max(1);
                let p = layout.coarse.centre(i % columns, i / columns);
                let ring = (*run, layout.levels.top(layout.levels.edge()));
                let signed = deck.at(p, run.max(2.0 * cell));
                let near = (signed < *run).then(|| stretches.nearest(p)).flatten();
                near.map_or(ring, |(top, _)| (signed, top))
            }));
        let drawn = |p: Point| deck.inside.contains(p) || opening.inside.contains(p);
        let ring = layout.edge.iter().filter(|spot| !drawn(spot.at));
        over.edge.extend(ring.copied());
        let own = edge_spots(&decks, |p| layout.levels.top(layout.rim.distance(p)));
        let rim = Inside::of(&layout.rim_area);
        let beyond = |spot: &EdgeSpot| {
            let out = layout.rim.distance(spot.at);
            let within = rim.contains(spot.at) || out < layout.levels.edge();
            // The edge of an opening is no edge of the deck.
            !within && opening.at(spot.at, cell) > cell / 2.0
        };
        over.edge.extend(own.into_iter().filter(beyond));
        over
    }
}

/// A layout with drawn decks, at one pose.
pub(super) struct Over {
    pub paved: Vec<Paved>,
    pub beside: Vec<Beside>,
    pub edge: Vec<EdgeSpot>,
    /// Run from the nearest edge and the deck's top there, at every place of the coarse grid.
    pub runs: Vec<(f64, f64)>,
}

/// The share of a paved piece that an opening leaves as it is.
fn untouched(paved: &Paved, share: f64) -> Beside {
    Beside {
        cell: paved.cell,
        area: paved.area * share,
        run: f64::INFINITY,
        edge: 0.0,
        toward: Vector::default(),
        hole: paved.hole,
    }
}

/// An area that distances are measured to, negative inside.
pub(super) struct Signed {
    edges: Edges,
    inside: Inside,
    bounds: Option<(Point, Point)>,
}

impl Signed {
    pub fn of(area: &Region) -> Self {
        Self {
            edges: Edges::of_region(area),
            inside: Inside::of(area),
            bounds: area.bounds(),
        }
    }

    /// The share of the cell about a place that lies inside.
    fn share(&self, p: Point, cell: f64) -> f64 {
        let signed = self.at(p, cell);
        if signed.abs() >= cell {
            return if signed < 0.0 { 1.0 } else { 0.0 };
        }
        let way = self
            .edges
            .nearest(p)
            .map_or_else(Vector::default, |foot| foot.way);
        let outward = half_plane(way, signed.abs(), cell);
        if signed < 0.0 { outward } else { 1.0 - outward }
    }

    /// The distance of a place, meters; infinite where it is certainly more than `most`.
    pub fn at(&self, p: Point, most: f64) -> f64 {
        let Some((low, high)) = self.bounds else {
            return f64::INFINITY;
        };
        let beyond = |c: f64, low: f64, high: f64| (low - c).max(c - high).max(0.0);
        let (x, y) = (beyond(p.x, low.x, high.x), beyond(p.y, low.y, high.y));
        if x > most || y > most {
            return f64::INFINITY;
        }
        let distance = self.edges.distance(p);
        if self.inside.contains(p) {
            -distance
        } else {
            distance
        }
    }
}

/// The edges of drawn decks in short stretches, with the deck's top at their ends.
pub(super) struct Stretches {
    edges: Edges,
    tops: Vec<(f64, f64)>,
}

impl Stretches {
    pub fn of(decks: &Region, levels: &Levels, rim: &Edges) -> Self {
        let mut edges = Edges::default();
        let mut tops = Vec::new();
        for (a, b) in decks.rings().flat_map(|ring| ring.edges()) {
            let count = (a.distance(b) / STRETCH).ceil().max(1.0);
            let at = |k: u32| a + (b - a) * (f64::from(k) / count);
            let chain: Vec<Point> = (0..=count as u32).map(at).collect();
            let top = |p: &Point| levels.top(rim.distance(*p));
            tops.extend(
                chain
                    .iter()
                    .zip(chain.iter().skip(1))
                    .map(|(p, q)| (top(p), top(q))),
            );
            edges.extend(Edges::of_chain(&chain));
        }
        Self { edges, tops }
    }

    /// The deck's top at the place of the edge nearest to a point, and that place.
    pub fn nearest(&self, p: Point) -> Option<(f64, Point)> {
        let foot = self.edges.nearest(p)?;
        let (from, to) = self.tops.get(foot.edge)?;
        Some((from + (to - from) * foot.along, foot.at))
    }
}

/// A region of the site in the shell's frame.
pub(super) fn into_shell(region: &Region, pose: &Pose) -> Region {
    let carry = |ring: &Ring| {
        let mut points: Vec<Point> = ring.0.iter().map(|p| pose.shell_from_site(*p)).collect();
        if pose.mirrored {
            points.reverse();
        }
        Ring(points)
    };
    let mut region = region.clone();
    for polygon in &mut region.polygons {
        polygon.outer = carry(&polygon.outer);
        for hole in &mut polygon.holes {
            *hole = carry(hole);
        }
    }
    region
}
