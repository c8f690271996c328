//! The earth: ground that stays, the hole, what is filled into it, what deck and banks take and bring.

use super::moulding::{THIN, insets};
use super::place::{Extent, Placed};
use super::plan::{Layer, Lines};
use super::{Matter, Scene, Span, Stage};
use crate::dig::base_under;
use crate::geom::clip::inside;
use crate::geom::offset::offset_region;
use crate::geom::region::bounds;
use crate::geom::{DRAWING_TOLERANCE, Point, Region, VOLUME_TOLERANCE, Vector};
use crate::grading::Finish;
use crate::ground::Facet;
use crate::site::CheckedSite;

/// How far apart in height the sides of the hole are followed, meters.
pub(super) const STEP: f64 = 0.35;

/// How far below everything the ground is drawn, meters.
const BELOW: f64 = 0.6;

/// Edges of the hole are followed so far beyond where it meets the ground, meters.
const BEYOND: f64 = 0.03;

/// Edges of the hole whose areas differ by less are the same, m2.
const SAME_AREA: f64 = 0.01;

/// Lines of the finished ground count within a millimeter or two, meters.
const GRADED: f64 = 0.005;

/// A survey with more triangles than this is looked at in steps instead (our choice).
const MOST_FACETS: usize = 4_000;

/// The steps, as a share of the drawn ground's longer side.
const STEPS: f64 = 40.0;

/// Adds the earth of a site.
pub(super) fn build(
    scene: &mut Scene,
    site: &CheckedSite,
    placed: Option<&Placed<'_>>,
    extent: &Extent,
) {
    let mut lines = Lines::default();
    lines.chain(&extent.edge(), 0.0);
    surveyed(&mut lines, site, extent);
    let ground = site.ground();
    let corners = extent.edge().into_iter();
    let around = corners.map(|p| ground.height(p).elevation);
    let near = ground.facets_near(extent.low, extent.high);
    let spots = near.flat_map(|facet| facet.corners.into_iter().zip(facet.elevations));
    let within = spots.filter(|(p, _)| extent.holds(*p)).map(|(_, z)| z);
    let lowest = around.chain(within).fold(f64::INFINITY, f64::min);
    let Some(placed) = placed else {
        let plan = lines.part(scene.section.as_ref());
        let [mesh] = plan.bodies(|p| {
            let within = extent.holds(p);
            [within.then(|| (lowest - BELOW, ground.height(p).elevation))]
        });
        scene.add(Matter::Ground, Matter::Ground.words(), Span::ALWAYS, mesh);
        return;
    };
    let lowest = lowest.min(placed.dig.bottom_elevation) - BELOW;
    let earth = Earth::of(placed, lowest);
    earth.lines(&mut lines);
    let plan = lines.part(scene.section.as_ref());
    let [ground, soil, dig, cut, base, beside, below, fill] =
        plan.bodies(|p| match extent.holds(p) {
            true => earth.layers(p),
            false => [None; 8],
        });
    let mut backfill = beside;
    backfill.add(below);
    let until_dug = Span::between(Stage::Lot, Stage::Marked);
    let until_decked = Span::between(Stage::Lot, Stage::Backfilled);
    for (matter, span, mesh) in [
        (Matter::Ground, Span::ALWAYS, ground),
        (Matter::Soil, Span::ALWAYS, soil),
        (Matter::Dig, until_dug, dig),
        (Matter::GradingCut, until_decked, cut),
        (Matter::Base, Span::from(Stage::Bed), base),
        (Matter::Backfill, Span::from(Stage::Backfilled), backfill),
        (Matter::Fill, Span::from(Stage::Decked), fill),
    ] {
        scene.add(matter, matter.words(), span, mesh);
    }
}

/// The edges of the ground's own triangles; of a survey too large for that, places in even steps.
fn surveyed(lines: &mut Lines, site: &CheckedSite, extent: &Extent) {
    let facets: Vec<&Facet> = site
        .ground()
        .facets_near(extent.low, extent.high)
        .take(MOST_FACETS + 1)
        .collect();
    if facets.len() > MOST_FACETS {
        let (low, high) = (extent.low, extent.high);
        let step = (high.x - low.x).max(high.y - low.y) / STEPS;
        let mut y = low.y + step / 2.0;
        while y < high.y {
            let mut x = low.x + step / 2.0;
            while x < high.x {
                lines.point(Point::new(x, y));
                x += step;
            }
            y += step;
        }
        return;
    }
    // A plane needs no lines at all.
    if site.ground().surveyed().is_none() {
        return;
    }
    let region = extent.region();
    for facet in facets {
        let [a, b, c] = facet.corners;
        for (from, to) in [(a, b), (b, c), (c, a)] {
            for part in inside(&[from, to], &region) {
                lines.chain(&part, 0.0);
            }
        }
    }
}

/// The earth round a placed shell.
struct Earth<'a> {
    placed: &'a Placed<'a>,
    lowest: f64,
    /// The foot of the sides, shell frame.
    foot: Region,
    /// Everything inside the wall's outer face, shell frame.
    wall: Region,
    /// What encloses the hole, and what encloses the finished ground, shell frame.
    hole: (Point, Point),
    graded: Option<(Point, Point)>,
    cap: f64,
}

impl<'a> Earth<'a> {
    fn of(placed: &'a Placed<'a>, lowest: f64) -> Self {
        let shell = placed.shell;
        let opening = placed.depths.contours(f64::INFINITY);
        let opening = opening.first().and_then(|(_, region)| region.bounds());
        Self {
            lowest,
            foot: placed
                .depths
                .bottom()
                .into_iter()
                .next()
                .unwrap_or_default(),
            wall: offset_region(&shell.footprint, shell.wall_width(), VOLUME_TOLERANCE),
            hole: opening.unwrap_or_default(),
            graded: graded(placed),
            cap: placed.coping - placed.works.collar.underside(),
            placed,
        }
    }

    /// Adds every line at which it bends or steps.
    fn lines(&self, lines: &mut Lines) {
        let placed = self.placed;
        let (pose, shell) = (&placed.pose, placed.shell);
        let near = offset_region(&placed.dig.top_edge, BEYOND, DRAWING_TOLERANCE);
        let cap = placed.works.collar.underside();
        let mut contours = placed.depths.contours(STEP);
        contours.push((cap, placed.depths.contour(cap)));
        // Between two of them the surface is taken as ruled; where it stands upright they are its edge.
        let mut before: Option<f64> = None;
        for (_, contour) in contours {
            // On both sides of a bend it is most often the same line.
            let area = contour.area();
            if before.is_some_and(|before| (before - area).abs() < SAME_AREA) {
                continue;
            }
            before = Some(area);
            for ring in contour.posed(pose).rings() {
                for part in inside(&ring.closed(), &near) {
                    lines.chain(&part, THIN);
                }
            }
        }
        // With upright sides the edge at the ground is that of the hole, which was taken exactly.
        if placed.depths.is_sloping() {
            lines.region(&placed.dig.top_edge, GRADED);
        }
        lines.shell_region(&self.foot, pose, THIN);
        for region in [&self.wall, &shell.rim] {
            lines.shell_region(region, pose, 2.0 * THIN);
        }
        for edge in placed.floor_edges() {
            lines.chain(&edge, 0.0);
        }
        for by in insets(placed) {
            let inset = offset_region(&shell.footprint, -by, VOLUME_TOLERANCE);
            lines.shell_region(&inset, pose, GRADED);
        }
        for chain in &placed.dig.daylight {
            lines.chain(chain, GRADED);
        }
        let Some(grading) = placed.grading else {
            return;
        };
        lines.shell_region(&placed.rings.collar, pose, 2.0 * THIN);
        lines.shell_region(&placed.rings.deck, pose, GRADED);
        for region in placed.finished.drawn() {
            lines.shell_region(region, pose, GRADED);
        }
        for chain in grading.toe.lines.iter().chain(&grading.crest.lines) {
            lines.chain(chain, 2.0 * GRADED);
        }
    }

    /// What stands over a place: ground that stays, ground that stays under the hole, what the hole takes, what grading takes, base, backfill beside and
    /// below, fill.
    fn layers(&self, p: Point) -> [Layer; 8] {
        let placed = self.placed;
        let (q, ground) = (placed.inward(p), placed.ground(p));
        let near = within(q, self.hole);
        let hole = match near {
            true => placed.coping - placed.depths.at(q),
            false => f64::INFINITY,
        };
        let dug = hole < ground;
        let left = if dug { hole } else { ground };
        let finish = self.finish(q, ground);
        let level = match finish {
            Finish::Left => None,
            Finish::Paved(rise) | Finish::Bank(rise) => Some(placed.coping + rise),
        };
        let stays = level.map_or(left, |level| level.min(left));
        let mut layers = [None; 8];
        let [earth, soil, dig, grading, base, beside, below, fill] = &mut layers;
        *(if dug { soil } else { earth }) = Some((self.lowest, stays));
        // Of no height where nothing is cut: so it runs out evenly.
        *grading = Some((stays, left));
        // The base lies under the whole floor, also where the ground is lower than it.
        let under = (near && self.foot.contains(q))
            .then(|| placed.shell.floor_depth(q))
            .flatten();
        let under = under.map(|floor| placed.coping - floor - placed.shell.record.wall_thickness);
        let bed = under.map(|under| ((under - self.base(q)).max(hole), under));
        *base = bed.filter(|(bottom, under)| bottom < under);
        if !dug {
            *fill = level
                .filter(|level| *level > ground)
                .map(|level| (ground, level));
            return layers;
        }
        *dig = Some((hole, ground));
        let stone = self.cap.min(ground);
        let mut start = hole;
        if let Some((bottom, under)) = bed {
            let room = bottom.min(stone);
            *below = (hole < room).then_some((hole, room));
            start = under;
        }
        let body = self
            .wall
            .contains(q)
            .then(|| placed.shell.outside_depth(q))
            .flatten()
            .map(|depth| placed.coping - depth);
        let top = body.map_or(stone, |body| body.min(stone));
        *beside = (start < top).then_some((start, top));
        if body.is_none() && !placed.shell.rim.contains(q) {
            let from = stone.max(hole);
            let to = level.unwrap_or(ground);
            *fill = (from < to).then_some((from, to));
        }
        layers
    }

    /// Thickness of the base at a place within the foot, meters: under wall and over-dig the usual one.
    fn base(&self, q: Point) -> f64 {
        let dig = &self.placed.works.dig;
        let facets = self.placed.shell.facets.iter();
        let over = facets.filter(|facet| facet.region.contains(q));
        let own = over.map(|facet| base_under(dig, facet.kind)).next();
        own.unwrap_or(dig.base_thickness)
    }

    fn finish(&self, q: Point, ground: f64) -> Finish {
        let placed = self.placed;
        match self.graded {
            Some(around) if within(q, around) => {
                let rise = |at: Point| match at == q {
                    true => ground - placed.coping,
                    false => placed.ground(placed.pose.site_from_shell(at)) - placed.coping,
                };
                placed.finished.at(q, &rise)
            }
            _ => Finish::Left,
        }
    }
}

/// What encloses deck, collar and banks, shell frame.
fn graded(placed: &Placed<'_>) -> Option<(Point, Point)> {
    let grading = placed.grading?;
    let lines = grading.toe.lines.iter().chain(&grading.crest.lines);
    let banks = lines.flatten().map(|p| placed.inward(*p));
    let regions = [&placed.rings.deck, &placed.rings.collar].into_iter();
    let regions = regions.chain(placed.finished.drawn());
    let paved = regions.flat_map(|it| it.rings().flat_map(|ring| ring.0.clone()));
    let (low, high) = bounds(banks.chain(paved))?;
    let out = Vector::new(0.1, 0.1);
    Some((low - out, high + out))
}

fn within(p: Point, (low, high): (Point, Point)) -> bool {
    p.x >= low.x && p.x <= high.x && p.y >= low.y && p.y <= high.y
}
