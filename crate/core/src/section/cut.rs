//! What a line cuts: every region of the section.

use super::chain::{BEND, down_to, sampled};
use super::dimension::{self, Measured};
use super::finish;
use super::hole::Edges;
use super::line::Cut;
use super::moulding::Moulding;
use super::paving::{self, Deck};
use super::placed::{FAR_BELOW, Placed};
use super::{Piece, Section, ground};
use crate::analysis::Analysis;
use crate::geom::boolean::{difference, intersection, positive_winding};
use crate::geom::{Point, Region, Ring};
use crate::site::{CheckedSite, SectionLine};

/// How far below the lowest thing the ground is drawn, meters.
const BELOW: f64 = 0.6;

/// Less of a piece is not drawn, m2.
const NOTHING: f64 = 1e-6;

/// See [`Section::along`].
pub(super) fn section(
    site: &CheckedSite,
    analysis: &Analysis,
    edges: Option<&Edges>,
    line: SectionLine,
) -> Option<Section> {
    let cut = Cut::between(line.from, line.to)?;
    let (ground, assumed) = ground::along(site.ground(), &cut);
    let mut lowest = ground.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
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
    let (Some((shell, placement)), Some(edges)) = (site.placed_shell(), edges) else {
        let earth = down_to(lowest - BELOW, &section.ground);
        section.pieces.push((Piece::Soil, earth));
        return Some(section);
    };
    let pose = placement.pose();
    let placed = Placed {
        shell,
        cut: Cut::between(
            pose.shell_from_site(line.from),
            pose.shell_from_site(line.to),
        )?,
        coping: placement.coping_elevation,
    };
    let hole = edges.along(&placed.cut);
    let bottom = hole.bounds().map_or(0.0, |(low, _)| low.y);
    lowest = lowest.min(placed.coping + bottom) - BELOW;
    let hole = raised(hole, placed.coping);
    section.cut_shell(site, analysis, &placed, (&hole, lowest));
    Some(section)
}

impl Section {
    /// Adds all that lies round a shell: its hole, and the ground down to the lowest elevation.
    fn cut_shell(
        &mut self,
        site: &CheckedSite,
        analysis: &Analysis,
        placed: &Placed<'_>,
        (hole, lowest): (&Region, f64),
    ) {
        let works = &site.site().works;
        let rings = analysis.rings.as_deref();
        let earth = down_to(lowest, &self.ground);
        let foot = rings.map_or_else(Vec::new, |rings| placed.cut.inside(&rings.over_dig));
        let Moulding { outer, inner, body } = Moulding::of(placed);
        let collar = rings.map_or_else(Region::default, |rings| {
            paving::collar(placed, &rings.collar, &works.collar)
        });
        let deck = analysis.deck.as_deref();
        let deck = deck.map_or_else(Deck::default, |plan| Deck::of(placed, plan, &works.deck));

        let dig = intersection(hole, &earth);
        let base = intersection(hole, &under_shell(placed, &foot));
        let base = difference(&base, &outer);
        let stone = placed.below(placed.coping - works.collar.underside());
        let stone = intersection(&dig, &stone);
        let backfill = difference(&difference(&stone, &outer), &base);
        let surface = placed.coping - placed.shell.record.waterline;
        let water = intersection(&inner, &placed.below(surface));
        self.water = Some((surface, touching(&water, surface)));
        let measured = Measured {
            shell: placed.shell,
            cut: &placed.cut,
            coping: placed.coping,
            ground: &self.ground,
            dig: &dig,
            base: &base,
            outer: &outer,
            inner: &inner,
            foot,
        };
        self.dimensions = dimension::all(&measured, site.site().display);

        let mut soil = difference(&earth, hole);
        let mut fill = Region::default();
        let graded = rings.and_then(|rings| finish::along(site, rings, &placed.cut, &self.ground));
        if let Some(grade) = graded {
            let finished = down_to(lowest, &grade.earth);
            // Within the rim nothing is filled.
            let filled = [&soil, &stone, &outer, &placed.column(&placed.shell.rim)];
            fill = filled
                .into_iter()
                .fold(finished.clone(), |left, it| difference(&left, it));
            soil = intersection(&soil, &finished);
            self.stays = outside(&dig, &grade.left);
            self.banks = grade.banks;
            self.dimensions.extend(grade.runs);
        }
        let pieces = [
            (Piece::Soil, soil),
            (Piece::Dig, dig),
            (Piece::Fill, fill),
            (Piece::Backfill, backfill),
            (Piece::Base, base),
            (Piece::DeckBed, deck.bed),
            (Piece::Deck, deck.slab),
            (Piece::Steps, deck.steps),
            (Piece::Collar, collar),
            (Piece::Water, water),
            (Piece::Shell, body),
        ];
        let drawn = |(_, region): &(Piece, Region)| region.area() > NOTHING;
        self.pieces.extend(pieces.into_iter().filter(drawn));
    }
}

/// Everything below the shell's underside, within the foot of the hole's sides.
fn under_shell(placed: &Placed<'_>, foot: &[(f64, f64)]) -> Region {
    let breaks = placed.floor_breaks();
    let thickness = placed.shell.record.wall_thickness;
    let at = |station: f64| {
        let floor = placed.shell.floor_depth(placed.cut.at(station));
        placed.coping - floor.unwrap_or(0.0) - thickness
    };
    let deep = placed.coping - FAR_BELOW;
    let below = |stretch: &(f64, f64)| {
        let mut chain = sampled(*stretch, &breaks, &at);
        chain.reverse();
        chain.extend([Point::new(stretch.0, deep), Point::new(stretch.1, deep)]);
        Ring(chain)
    };
    positive_winding(&foot.iter().map(below).collect::<Vec<_>>())
}

/// Where a region reaches up to a level, stations from and to.
fn touching(region: &Region, level: f64) -> Vec<(f64, f64)> {
    let stretch = |ring: &Ring| {
        let at_level = ring.0.iter().filter(|p| (p.y - level).abs() < BEND);
        let ends = at_level.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| {
            (low.min(p.x), high.max(p.x))
        });
        (ends.0 < ends.1).then_some(ends)
    };
    region.rings().filter_map(stretch).collect()
}

/// What a region leaves of stretches to either side of it.
fn outside(region: &Region, stretches: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let ends = region.bounds().map(|(low, high)| (low.x, high.x));
    let (from, to) = ends.unwrap_or((f64::INFINITY, f64::INFINITY));
    let sides = |(a, b): &(f64, f64)| [(*a, b.min(from)), (a.max(to), *b)];
    let parts = stretches.iter().flat_map(sides);
    parts.filter(|(a, b)| a < b).collect()
}

fn raised(mut region: Region, by: f64) -> Region {
    let polygons = region.polygons.iter_mut();
    let rings = polygons.flat_map(|p| core::iter::once(&mut p.outer).chain(&mut p.holes));
    for point in rings.flat_map(|ring| &mut ring.0) {
        point.y += by;
    }
    region
}
