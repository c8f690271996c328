//! Levels: how deep the floor and what is under it lie along the shell, and what the rod reads there.

use crate::dig::base_under;
use crate::finding::Message;
use crate::geom::{Edges, Point, Pose, Region, clip};
use crate::ground::table::height_of_instrument;
use crate::order::put_in_order;
use crate::shell::{DepthPlane, FacetKind, Shell};
use crate::site::{CheckedSite, DigSettings, Placement};

/// How far beside the middle the axis is taken, meters: facets often meet in the middle itself.
const BESIDE: f64 = 1.37e-4;

/// Two places this near to each other along the axis are one station, meters.
const SAME_PLACE: f64 = 0.01;

/// Two floors this near to each other in depth are one, meters.
const SAME_DEPTH: f64 = 0.001;

/// The greatest distance from station to station on a floor that falls, meters (5 ft; common
/// practice, no source).
const STEP: f64 = 1.524;

/// How far from the edge of a step the rod stands, meters (4 in; common practice, no source).
const INSET: f64 = 0.1016;

/// The floor and what lies under it, by place.
pub(super) struct Floors<'a> {
    facets: Vec<Floor<'a>>,
    pub pose: Pose,
    pub coping: f64,
}

struct Floor<'a> {
    kind: FacetKind,
    region: &'a Region,
    edges: Edges,
    plane: DepthPlane,
    wall: f64,
    base: f64,
}

/// A place where the axis meets the floor.
struct Met<'f> {
    /// The place, shell frame.
    at: Point,
    /// A place beside it that lies well on the same part.
    inner: Point,
    /// The part.
    floor: &'f Floor<'f>,
    /// Where the middle of the part lies along the axis, meters.
    middle: f64,
}

/// Depths and elevations at one place of the floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FloorAt {
    /// What part of the floor it is.
    pub kind: FacetKind,
    /// Depth of the floor below the rim, meters.
    pub depth: f64,
    /// Elevation of the top of the base, where the shell is to rest, meters.
    pub base: f64,
    /// Elevation of the underside of the base, the bottom of the dig, meters.
    pub bottom: f64,
}

/// A station along the shell, from its shallow end.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Its name: `S1` and on.
    pub name: String,
    /// Where it is, shell frame.
    pub in_shell: Point,
    /// Where it is, site frame.
    pub at: Point,
    /// How far along the shell from the shallow end of its floor, meters.
    pub along: f64,
    /// The floor there.
    pub floor: FloorAt,
}

/// Where the laser stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// What the mark is called.
    pub mark: Message,
    /// Elevation of the mark, meters.
    pub elevation: f64,
    /// The rod reading on it, meters.
    pub backsight: f64,
    /// Elevation of the line of sight, meters.
    pub instrument: f64,
}

impl Setup {
    /// The present set-up of a site; none before mark and reading are told.
    pub fn of(site: &CheckedSite) -> Option<Self> {
        let document = site.site();
        let mark = document.benchmark.as_ref()?;
        let backsight = document.stakeout.as_ref()?.backsight?;
        Some(Self {
            mark: mark.named(),
            elevation: mark.elevation,
            backsight,
            instrument: height_of_instrument(mark.elevation, backsight),
        })
    }

    /// What the rod reads on a level, meters.
    pub fn rod(&self, elevation: f64) -> f64 {
        self.instrument - elevation
    }
}

impl<'a> Floors<'a> {
    pub fn of(shell: &'a Shell, placement: &Placement, dig: &DigSettings) -> Self {
        let facets = shell.facets.iter().map(|facet| Floor {
            kind: facet.kind,
            region: &facet.region,
            edges: Edges::of_region(&facet.region),
            plane: facet.plane,
            wall: shell.record.wall_thickness,
            base: base_under(dig, facet.kind),
        });
        Self {
            facets: facets.collect(),
            pose: placement.pose(),
            coping: placement.coping_elevation,
        }
    }

    /// The floor at a place of the shell frame; beyond its edge that of the nearest facet there.
    pub fn at(&self, p: Point) -> Option<FloorAt> {
        let inside = self.facets.iter().find(|it| it.region.contains(p));
        if let Some(floor) = inside {
            return Some(self.on(floor, p));
        }
        let feet = self
            .facets
            .iter()
            .filter_map(|it| Some((it, it.edges.nearest(p)?)));
        let (floor, foot) = feet.min_by(|(_, a), (_, b)| a.distance.total_cmp(&b.distance))?;
        Some(self.on(floor, foot.at))
    }

    fn on(&self, floor: &Floor<'_>, p: Point) -> FloorAt {
        let depth = floor.plane.depth(p);
        let base = self.coping - depth - floor.wall;
        FloorAt {
            kind: floor.kind,
            depth,
            base,
            bottom: base - floor.base,
        }
    }

    /// Stations along the middle of the shell, wherever the floor begins, ends or bends, and in the
    /// middle of every part that lies beside it.
    pub fn stations(&self) -> Vec<Station> {
        let reach = self.facets.iter().filter_map(|it| it.region.bounds());
        let reach = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), (low, high)| {
            (l.min(low.x), h.max(high.x))
        });
        if !(reach.0.is_finite() && reach.1.is_finite()) {
            return Vec::new();
        }
        let axis = [
            Point::new(reach.0 - 1.0, BESIDE),
            Point::new(reach.1 + 1.0, BESIDE),
        ];
        let mut found: Vec<Met<'_>> = Vec::new();
        for floor in &self.facets {
            let parts = clip::inside(&axis, floor.region);
            for part in &parts {
                if let (Some(from), Some(to)) = (part.first(), part.last()) {
                    found.extend(between(floor, *from, *to));
                }
            }
            if parts.is_empty() {
                let middle = floor.region.centroid();
                found.extend(middle.map(|at| Met {
                    at,
                    inner: at,
                    floor,
                    middle: at.x,
                }));
            }
        }
        // Where two parts meet the one toward the shallow end comes first.
        let place = |it: &Met<'_>| (it.at.x / SAME_PLACE).round();
        put_in_order(&mut found, |a, b| {
            place(a)
                .total_cmp(&place(b))
                .then(a.middle.total_cmp(&b.middle))
        });
        found.dedup_by(|b, a| {
            let (at_a, at_b) = (self.on(a.floor, a.at), self.on(b.floor, b.at));
            a.at.distance(b.at) < SAME_PLACE
                && (at_a.depth - at_b.depth).abs() < SAME_DEPTH
                && (at_a.bottom - at_b.bottom).abs() < SAME_DEPTH
        });
        // At a step the rod stands on either side of it, not on its edge.
        let places: Vec<Point> = found.iter().map(|it| it.at).collect();
        let here = |p: Point| places.iter().filter(|q| q.distance(p) < SAME_PLACE).count();
        let found = found.into_iter().map(|it| {
            let p = if here(it.at) > 1 { it.inner } else { it.at };
            (p, self.on(it.floor, p))
        });
        let found: Vec<(Point, FloorAt)> = found.collect();
        let start = found.first().map_or(0.0, |(p, _)| p.x);
        let stations = found
            .into_iter()
            .enumerate()
            .map(|(i, (p, floor))| Station {
                name: format!("S{}", i + 1),
                in_shell: p,
                at: self.pose.site_from_shell(p),
                along: p.x - start,
                floor,
            });
        stations.collect()
    }
}

/// Both ends of a part of the axis, and places between where the floor falls.
fn between<'f>(floor: &'f Floor<'f>, from: Point, to: Point) -> impl Iterator<Item = Met<'f>> {
    let fall = (floor.plane.depth(to) - floor.plane.depth(from)).abs();
    let length = from.distance(to);
    let parts = match fall > SAME_DEPTH {
        true => (length / STEP).ceil().max(1.0),
        false => 1.0,
    };
    let last = parts as u32;
    let inset = INSET.min(length / 3.0);
    (0..=last).map(move |k| {
        let x = from.x + (to.x - from.x) * (f64::from(k) / parts);
        let inward = match k {
            0 => inset,
            _ if k == last => -inset,
            _ => 0.0,
        };
        Met {
            at: Point::new(x, 0.0),
            inner: Point::new(x + inward, 0.0),
            floor,
            middle: from.midpoint(to).x,
        }
    })
}

/// Elevation of the bottom of the dig at some places of the site, meters; beyond the floor's edge that of
/// the nearest part of it. None before a shell is placed.
pub fn bottoms(site: &CheckedSite, places: &[Point]) -> Vec<Option<f64>> {
    let Some((shell, placement)) = site.placed_shell() else {
        return vec![None; places.len()];
    };
    let floors = Floors::of(shell, placement, &site.site().works.dig);
    let bottom = |p: &Point| Some(floors.at(floors.pose.shell_from_site(*p))?.bottom);
    places.iter().map(bottom).collect()
}
