//! What a line cuts: every region of the section.

use super::dimension::{self, Measured};
use super::finish::{self, Grade};
use super::hole::Edges;
use super::line::Cut;
use super::{Piece, Section};
use crate::analysis::Analysis;
use crate::deck::DeckPlan;
use crate::geom::boolean::{difference, intersection, positive_winding};
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Region, Ring};
use crate::ground::Ground;
use crate::shell::Shell;
use crate::site::{CheckedSite, SectionLine};

/// How far below the lowest thing the ground is drawn, metres.
const BELOW: f64 = 0.6;

/// Chains are sampled until they bend by less than this between samples, metres.
const BEND: f64 = 0.001;

/// The farthest apart samples start out, metres.
const SAMPLE: f64 = 0.5;

/// How near to a break the two sides of it are looked at, metres.
pub(super) const BESIDE: f64 = 1e-6;

/// See [`Section::along`].
pub(super) fn section(
    site: &CheckedSite,
    analysis: &Analysis,
    edges: Option<&Edges>,
    line: SectionLine,
) -> Option<Section> {
    let cut = Cut::between(line.from, line.to)?;
    let (ground, assumed) = ground_along(site.ground(), &cut);
    let mut section = Section {
        line,
        length: cut.length,
        ground,
        assumed,
        banks: Vec::new(),
        stays: vec![(0.0, cut.length)],
        pieces: Vec::new(),
        water: None,
        groundwater: site.site().works.groundwater,
        dimensions: Vec::new(),
    };
    let mut work = None;
    if let (Some((shell, placement)), Some(edges)) = (site.placed_shell(), edges) {
        let pose = placement.pose();
        let local = Cut::between(
            pose.shell_from_site(line.from),
            pose.shell_from_site(line.to),
        )?;
        work = Some(Work {
            site,
            analysis,
            plan: analysis.deck.as_deref(),
            shell,
            cut: local,
            coping: placement.coping_elevation,
            hole: edges.along(&local),
        });
    }
    let mut lowest = section
        .ground
        .iter()
        .map(|p| p.y)
        .fold(f64::INFINITY, f64::min);
    if let Some(work) = &work {
        let bottom = work.hole.bounds().map_or(0.0, |(low, _)| low.y);
        lowest = lowest.min(work.coping + bottom);
    }
    let mut earth = section.ground.clone();
    earth.push(Point::new(cut.length, lowest - BELOW));
    earth.push(Point::new(0.0, lowest - BELOW));
    let earth = region(earth);
    match work {
        None => section.pieces.push((Piece::Soil, earth)),
        Some(work) => work.cut_into(&earth, &mut section),
    }
    Some(section)
}

/// Shell and hole along a line of the shell's frame.
struct Work<'a> {
    site: &'a CheckedSite,
    analysis: &'a Analysis,
    plan: Option<&'a DeckPlan>,
    shell: &'a Shell,
    cut: Cut,
    /// Elevation of the rim, metres.
    coping: f64,
    /// The hole, its y minus the depth below the rim.
    hole: Region,
}

impl Work<'_> {
    fn cut_into(&self, earth: &Region, section: &mut Section) {
        let works = &self.site.site().works;
        let hole = lifted(&self.hole, self.coping);
        let dig = intersection(&hole, earth);
        let floor = self.base_top();
        let outer = self.face(|shell, p| shell.outside_depth(p), &self.outer_stretches());
        let inner = self.face(
            |shell, p| shell.inside_depth(p),
            &self.cut.inside(&self.shell.footprint),
        );
        let moulding = positive_winding(
            &[difference(&outer, &inner), self.copings()]
                .iter()
                .flat_map(Region::rings)
                .cloned()
                .collect::<Vec<_>>(),
        );

        let collar = self.collar();
        let [deck, steps, bed] = self.deck();
        let base = difference(&intersection(&hole, &floor), &outer);
        let cap = self.coping - works.collar.underside();
        let under_cap = self.band(f64::NEG_INFINITY, cap);
        let stone = difference(&intersection(&dig, &under_cap), &outer);
        let backfill = difference(&stone, &base);
        let surface = self.coping - self.shell.record.waterline;
        let water = intersection(&inner, &self.band(f64::NEG_INFINITY, surface));
        let wet = water.rings().filter_map(|ring| {
            let top = ring
                .0
                .iter()
                .filter(|p| (p.y - surface).abs() < BEND)
                .map(|p| p.x);
            let (low, high) = top.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| {
                (l.min(x), h.max(x))
            });
            (low < high).then_some((low, high))
        });
        section.water = Some((surface, wet.collect()));
        let measured = Measured {
            shell: self.shell,
            cut: &self.cut,
            coping: self.coping,
            ground: &section.ground,
            dig: &dig,
            base: &base,
            outer: &outer,
            inner: &inner,
            foot: self.foot(),
        };
        section.dimensions = dimension::all(&measured, self.site.site().display);
        let mut soil = difference(earth, &hole);
        let mut fill = Region::default();
        let rings = self.analysis.rings.as_deref();
        let grade =
            rings.and_then(|rings| finish::along(self.site, rings, &self.cut, &section.ground));
        if let Some(grade) = grade {
            let lowest = earth.bounds().map_or(self.coping, |(low, _)| low.y);
            let below = grade.below(lowest);
            let stone = intersection(&dig, &under_cap);
            let rim = self.slab(&self.shell.rim, -1.0, 51.0);
            // Within the rim nothing is filled.
            let filled = [&soil, &stone, &outer, &rim];
            fill = filled
                .into_iter()
                .fold(below.clone(), |left, it| difference(&left, it));
            soil = intersection(&soil, &below);
            section.take(grade, &dig);
        }
        let pieces = [
            (Piece::Soil, soil),
            (Piece::Dig, dig),
            (Piece::Fill, fill),
            (Piece::Backfill, backfill),
            (Piece::Base, base),
            (Piece::DeckBed, bed),
            (Piece::Deck, deck),
            (Piece::Steps, steps),
            (Piece::Collar, collar),
            (Piece::Water, water),
            (Piece::Shell, moulding),
        ];
        section.pieces.extend(
            pieces
                .into_iter()
                .filter(|(_, region)| region.area() > 1e-6),
        );
    }

    /// Everything between two elevations along the section and beyond.
    fn band(&self, low: f64, high: f64) -> Region {
        let low = if low.is_finite() {
            low
        } else {
            self.coping - 50.0
        };
        let (left, right) = (-100.0, self.cut.length + 100.0);
        region(vec![
            Point::new(left, low),
            Point::new(right, low),
            Point::new(right, high),
            Point::new(left, high),
        ])
    }

    /// Where the line crosses the foot of the sides.
    fn foot(&self) -> Vec<(f64, f64)> {
        let rings = self.analysis.rings.as_ref();
        rings.map_or_else(Vec::new, |rings| self.cut.inside(&rings.over_dig))
    }

    fn outer_stretches(&self) -> Vec<(f64, f64)> {
        let wall = crate::geom::offset::widen(
            &self.shell.footprint,
            self.shell.wall_width(),
            crate::geom::DRAWING_TOLERANCE,
        );
        self.cut.inside(&wall)
    }

    /// Stations where the floor bends or steps.
    fn breaks(&self) -> Vec<f64> {
        let facets = self.shell.facets.iter();
        let mut breaks: Vec<f64> = facets
            .flat_map(|facet| self.cut.crossings(&facet.region))
            .collect();
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|b, a| *b - *a < 4.0 * BESIDE);
        breaks
    }

    /// What lies inside a face of the moulding.
    fn face(&self, depth: fn(&Shell, Point) -> Option<f64>, stretches: &[(f64, f64)]) -> Region {
        let breaks = self.breaks();
        let at =
            |station: f64| self.coping - depth(self.shell, self.cut.at(station)).unwrap_or(0.0);
        let rings: Vec<Ring> = stretches
            .iter()
            .map(|stretch| {
                let mut chain = vec![Point::new(stretch.0, self.coping)];
                chain.extend(sampled(*stretch, &breaks, &at));
                chain.push(Point::new(stretch.1, self.coping));
                Ring(chain)
            })
            .collect();
        positive_winding(&rings)
    }

    /// Everything below the shell's underside, within the foot of the hole's sides.
    fn base_top(&self) -> Region {
        let breaks = self.breaks();
        let thickness = self.shell.record.wall_thickness;
        let at = |station: f64| {
            let floor = self.shell.floor_depth(self.cut.at(station)).unwrap_or(0.0);
            self.coping - floor - thickness
        };
        let deep = self.coping - 50.0;
        let rings: Vec<Ring> = self
            .foot()
            .into_iter()
            .map(|stretch| {
                let mut chain = sampled(stretch, &breaks, &at);
                chain.reverse();
                chain.extend([Point::new(stretch.0, deep), Point::new(stretch.1, deep)]);
                Ring(chain)
            })
            .collect();
        positive_winding(&rings)
    }

    /// The coping: from the water's edge to the rim, as thick as the wall.
    fn copings(&self) -> Region {
        let thick = self.shell.record.wall_thickness;
        difference(
            &self.slab(&self.shell.rim, 0.0, thick),
            &self.slab(&self.shell.footprint, -1.0, 51.0),
        )
    }

    /// A level slab over a region of the shell's frame, its top `top` metres below the rim.
    fn slab(&self, over: &Region, top: f64, thickness: f64) -> Region {
        let high = self.coping - top;
        let rings: Vec<Ring> = self
            .cut
            .inside(over)
            .into_iter()
            .map(|(a, b)| {
                Ring(vec![
                    Point::new(a, high - thickness),
                    Point::new(b, high - thickness),
                    Point::new(b, high),
                    Point::new(a, high),
                ])
            })
            .collect();
        positive_winding(&rings)
    }

    fn collar(&self) -> Region {
        let Some(rings) = &self.analysis.rings else {
            return Region::default();
        };
        let collar = &self.site.site().works.collar;
        let whole = self.slab(&rings.collar, collar.top_below_rim, collar.depth);
        difference(&whole, &self.slab(&self.shell.rim, -1.0, 51.0))
    }

    /// The deck's slab and that under its steps, falling away from the rim, and the bed of both.
    fn deck(&self) -> [Region; 3] {
        let Some(plan) = self.plan else {
            return Default::default();
        };
        let deck = &self.site.site().works.deck;
        let rim = Figure::Area(&self.shell.rim);
        let at = |station: f64| {
            let away = nearest(rim, Figure::Chain(&[self.cut.at(station)]));
            self.coping - deck.fall * away.map_or(0.0, |n| n.distance.max(0.0))
        };
        let mut layers: [Vec<Ring>; 3] = Default::default();
        let [slab, under_steps, bed] = &mut layers;
        let layer = |over: &Region, from: f64, to: f64, rings: &mut Vec<Ring>| {
            for stretch in self.cut.inside(over) {
                let top = sampled(stretch, &[], &at);
                let lower = top.iter().map(|p| Point::new(p.x, p.y - to));
                let upper = top.iter().rev().map(|p| Point::new(p.x, p.y - from));
                rings.push(Ring(lower.chain(upper).collect()));
            }
        };
        let under = deck.thickness + deck.bed;
        layer(&plan.slab, 0.0, deck.thickness, slab);
        layer(&plan.bed, deck.thickness, under, bed);
        for flight in &plan.steps {
            layer(&flight.region, 0.0, deck.thickness, under_steps);
            layer(&flight.region, deck.thickness, under, bed);
        }
        layers.map(|rings| positive_winding(&rings))
    }
}

impl Section {
    /// Takes over what the finished ground adds: banks and their runs, and what it leaves.
    fn take(&mut self, grade: Grade, dig: &Region) {
        self.banks = grade.banks;
        self.dimensions.extend(grade.runs);
        let opening = dig.bounds().map(|(low, high)| (low.x, high.x));
        let (from, to) = opening.unwrap_or((f64::INFINITY, f64::INFINITY));
        let parts = grade.left.iter();
        let parts = parts.flat_map(|(a, b)| [(*a, b.min(from)), (a.max(to), *b)]);
        self.stays = parts.filter(|(a, b)| a < b).collect();
    }
}

/// A region inside one ring, whichever way it runs.
pub(super) fn region(points: Vec<Point>) -> Region {
    let ring = Ring(points);
    Region::from_ring(if ring.signed_area() < 0.0 {
        ring.reversed()
    } else {
        ring
    })
}

fn lifted(region: &Region, by: f64) -> Region {
    let mut region = region.clone();
    let polygons = region.polygons.iter_mut();
    let rings = polygons.flat_map(|p| core::iter::once(&mut p.outer).chain(&mut p.holes));
    for point in rings.flat_map(|ring| &mut ring.0) {
        point.y += by;
    }
    region
}

/// A chain of elevations over a stretch, both sides of every break, bending by less than
/// `BEND` between points.
pub(super) fn sampled(
    (from, to): (f64, f64),
    breaks: &[f64],
    at: &dyn Fn(f64) -> f64,
) -> Vec<Point> {
    let mut stops = vec![from];
    stops.extend(
        breaks
            .iter()
            .copied()
            .filter(|s| *s > from + 2.0 * BESIDE && *s < to - 2.0 * BESIDE),
    );
    stops.push(to);
    let mut chain = Vec::new();
    for (&a, &b) in stops.iter().zip(stops.iter().skip(1)) {
        let (a, b) = (a + BESIDE, b - BESIDE);
        let count = ((b - a) / SAMPLE).ceil().max(1.0);
        let mut last = Point::new(a, at(a));
        chain.push(last);
        for k in 1..=count as u32 {
            let s = a + (b - a) * f64::from(k) / count;
            let next = Point::new(s, at(s));
            refine(last, next, at, &mut chain);
            chain.push(next);
            last = next;
        }
    }
    chain
}

/// Adds points between two until a straight stretch is near enough, looked at in two places.
fn refine(a: Point, b: Point, at: &dyn Fn(f64) -> f64, chain: &mut Vec<Point>) {
    if b.x - a.x < BEND {
        return;
    }
    let off = |share: f64| {
        let s = a.x + (b.x - a.x) * share;
        (at(s) - (a.y + (b.y - a.y) * share)).abs()
    };
    if off(0.5) > BEND || off(0.23) > BEND || off(0.81) > BEND {
        let s = (a.x + b.x) / 2.0;
        let middle = Point::new(s, at(s));
        refine(a, middle, at, chain);
        chain.push(middle);
        refine(middle, b, at, chain);
    }
}

/// The ground from end to end, bending where the line crosses an edge of its surface, and the
/// stretches that nobody surveyed.
fn ground_along(ground: &Ground, cut: &Cut) -> (Vec<Point>, Vec<(f64, f64)>) {
    let (a, b) = (cut.from, cut.at(cut.length));
    let low = Point::new(a.x.min(b.x), a.y.min(b.y));
    let high = Point::new(a.x.max(b.x), a.y.max(b.y));
    let mut stations = vec![0.0, cut.length];
    for facet in ground.facets_near(low, high) {
        let [p, q, r] = facet.corners;
        for (p, q) in [(p, q), (q, r), (r, p)] {
            let (u, v) = (cut.along.cross(p - cut.from), cut.along.cross(q - cut.from));
            if (u > 0.0) != (v > 0.0) {
                let on = p + (q - p) * (u / (u - v));
                let station = (on - cut.from).dot(cut.along);
                if station > 0.0 && station < cut.length {
                    stations.push(station);
                }
            }
        }
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
