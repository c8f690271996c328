//! The small digs beside and below the hole: sump, pad, trenches.
//!
//! Each is a pure function of plain figures and gives its bank volume, its plan and its outline
//! for drawing. None of them is in the volume of the hole, and none holds ground that another
//! of them, or the hole, takes out already: a trench is told outside the hole's opening.

use super::clip::{facets_over, stretches};
use super::hole::Hole;
use crate::geom::boolean::{difference, intersection, union};
use crate::geom::offset::offset_chain_square;
use crate::geom::{Point, Region, Ring, Vector};
use crate::ground::{Facet, Ground};
use crate::math::TURN;
use crate::shell::Shell;
use crate::site::DigSettings;

/// A small dig.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SmallDig {
    /// Volume of ground taken out, in place, m3.
    pub bank_volume: f64,
    /// Area in plan, m2.
    pub area: f64,
    /// Length along its middle in plan, meters; 0 for what has none.
    pub length: f64,
    /// Lowest and highest elevation of its bottom (of a sump: depth below the rim, twice), meters.
    pub bottom: (f64, f64),
    /// Its outline.
    pub outline: Region,
}

/// The plan of a sump.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SumpForm {
    /// A square of its width, along the shell's frame.
    Square,
    /// A circle of its width.
    Round,
}

/// A sump, in the shell's frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sump {
    /// Its middle, shell frame.
    pub at: Point,
    /// Its form in plan.
    pub form: SumpForm,
    /// Its width, meters.
    pub width: f64,
    /// Depth of its bottom below the deepest underside of the base, meters.
    pub depth: f64,
}

/// Corners of a round sump: its area is short by 0.04 %.
const CORNERS: u32 = 128;

/// The highest step in which a sump beside the floor is followed up through the side, meters.
const STEP: f64 = 0.1;

/// The pit of a sump, outline in the shell's frame: everything below the hole's bottom and, where
/// it stands under a side of the hole or a higher part of the floor, what has to come out above it
/// up to there (no higher than the rim).
pub fn sump(shell: &Shell, settings: &DigSettings, sump: &Sump) -> SmallDig {
    let half = sump.width / 2.0;
    let corner = |direction: Vector| sump.at + direction * half;
    let ring: Vec<Point> = match sump.form {
        SumpForm::Square => [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
            .map(|(x, y)| corner(Vector::new(x, y)))
            .to_vec(),
        SumpForm::Round => (0..CORNERS)
            .map(|i| corner(Vector::at_angle(TURN * f64::from(i) / f64::from(CORNERS))))
            .collect(),
    };
    if !(half > 0.0 && sump.depth > 0.0) {
        return SmallDig::default();
    }
    let plan = Region::from_ring(Ring(ring));
    let (hole, _) = Hole::of(shell, settings);
    let area = plan.area();
    let mut above = 0.0;
    for (depth, height) in hole.samples(STEP) {
        let beside = difference(&plan, &hole.contour(depth));
        if !beside.is_empty() {
            above += beside.area() * height;
        }
    }
    let bottom = hole.deepest() + sump.depth;
    SmallDig {
        bank_volume: area * sump.depth + above,
        area,
        length: 0.0,
        bottom: (bottom, bottom),
        outline: plan,
    }
}

/// Floor nearer to the deepest than this counts as deepest, meters.
const AS_DEEP: f64 = 0.01;

/// A place beside the deepest floor, in the middle of the over-dig, shell frame: of all walls of
/// the deepest floor the one farthest ahead, nearest to the axis. Where the deepest floor meets no
/// wall, the wall nearest to it.
pub fn beside_deepest(shell: &Shell, settings: &DigSettings) -> Point {
    let deepest = shell.deepest();
    let off = shell.record.wall_thickness + settings.over_dig / 2.0;
    let depth = |p: Point| {
        let here = shell.facets.iter().filter(|facet| facet.region.contains(p));
        here.map(|facet| facet.plane.depth(p)).fold(0.0, f64::max)
    };
    // Walls as their middle and the way out, which lies to the right of a ring's edge.
    let walls = shell.footprint.rings().flat_map(Ring::edges);
    let walls: Vec<(Point, Vector)> = walls
        .filter_map(|(a, b)| Some((a.midpoint(b), -(b - a).unit()?.left())))
        .collect();
    let deep = walls
        .iter()
        .filter(|(p, out)| depth(*p - *out * 1e-3) >= deepest - AS_DEEP);
    let farthest = deep.reduce(|best, wall| {
        let (by, than) = (wall.0, best.0);
        let ahead = by.x > than.x + AS_DEEP;
        let level = (by.x - than.x).abs() <= AS_DEEP && by.y.abs() < than.y.abs();
        if ahead || level { wall } else { best }
    });
    let middle = shell
        .facets
        .iter()
        .find(|facet| facet.depths().1 >= deepest - AS_DEEP)
        .and_then(|facet| facet.region.centroid())
        .unwrap_or_default();
    let nearest = || {
        let by_distance = |a: &&(Point, Vector), b: &&(Point, Vector)| {
            a.0.distance(middle).total_cmp(&b.0.distance(middle))
        };
        walls.iter().min_by(by_distance)
    };
    farthest
        .or_else(nearest)
        .map_or(middle, |(p, out)| *p + *out * off)
}

/// What a level takes of the ground within a region, and what it lacks.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CutFill {
    /// Volume of the ground above the level, m3.
    pub cut: f64,
    /// Area over which the ground stands above it, m2.
    pub cut_area: f64,
    /// Volume between the level and lower ground, m3.
    pub fill: f64,
    /// Area over which the ground lies below it, m2.
    pub fill_area: f64,
    /// The part of both areas on ground that nobody surveyed, m2.
    pub unsurveyed_area: f64,
}

/// Cut and fill between the ground and a level within a region (site frame): exact prisms, one
/// for each triangle of the ground.
pub fn against_level(region: &Region, ground: &Ground, level: f64) -> CutFill {
    let mut sum = CutFill::default();
    for facet in facets_over(region, ground) {
        let Some(gradient) = facet.gradient() else {
            continue;
        };
        let ([a, ..], [za, ..]) = (facet.corners, facet.elevations);
        for (above, sense) in [(true, 1.0), (false, -1.0)] {
            let Some(part) = beyond(facet, level, above) else {
                continue;
            };
            let part = intersection(region, &part);
            let area = part.area();
            let height = |p: Point| (za + gradient.dot(p - a) - level) * sense;
            let volume = part.centroid().map_or(0.0, |c| area * height(c).max(0.0));
            if above {
                sum.cut += volume;
                sum.cut_area += area;
            } else {
                sum.fill += volume;
                sum.fill_area += area;
            }
            if !facet.known {
                sum.unsurveyed_area += area;
            }
        }
    }
    sum
}

/// The part of a triangle above a level, or below it.
fn beyond(facet: &Facet, level: f64, above: bool) -> Option<Region> {
    let corners: Vec<(Point, f64)> = facet
        .corners
        .iter()
        .zip(&facet.elevations)
        .map(|(p, z)| (*p, if above { z - level } else { level - z }))
        .collect();
    let next = corners.iter().cycle().skip(1);
    let mut kept = Vec::new();
    for ((a, za), (b, zb)) in corners.iter().zip(next) {
        // Ground exactly at the level counts as above it.
        let (from, to) = if above {
            (*za >= 0.0, *zb >= 0.0)
        } else {
            (*za > 0.0, *zb > 0.0)
        };
        if from {
            kept.push(*a);
        }
        if from != to {
            kept.push(*a + (*b - *a) * (za / (za - zb)));
        }
    }
    (kept.len() >= 3).then(|| Region::from_ring(Ring(kept)))
}

/// The mean elevation of the ground within a region, meters; `None` for no area.
pub fn mean_ground(region: &Region, ground: &Ground) -> Option<f64> {
    let start = ground.height(region.centroid()?).elevation;
    let off = against_level(region, ground, start);
    let area = off.cut_area + off.fill_area;
    (area > 0.0).then(|| start + (off.cut - off.fill) / area)
}

/// The dig for a slab on a bed, sides upright. `top`: elevation of the slab's top, meters; without
/// it the slab lies flush with the mean of the ground under it (our choice).
pub fn pad(
    outline: &Region,
    ground: &Ground,
    top: Option<f64>,
    thickness: f64,
    bed: f64,
) -> SmallDig {
    let Some(top) = top.or_else(|| mean_ground(outline, ground)) else {
        return SmallDig::default();
    };
    let bottom = top - thickness - bed;
    SmallDig {
        bank_volume: against_level(outline, ground, bottom).cut,
        area: outline.area(),
        length: 0.0,
        bottom: (bottom, bottom),
        outline: outline.clone(),
    }
}

/// Trenches along paths (site frame): `width` wide, their bottom `depth` below the ground
/// everywhere, sides upright. Only what lies outside the hole's `opening` counts, and where paths
/// cross or run together the ground is taken once.
pub fn trenches(
    paths: &[Vec<Point>],
    width: f64,
    depth: f64,
    opening: &Region,
    ground: &Ground,
) -> SmallDig {
    let mut strips = Region::default();
    let mut length = 0.0;
    let mut bottom = (f64::INFINITY, f64::NEG_INFINITY);
    for path in paths {
        strips = union(&strips, &offset_chain_square(path, width / 2.0));
        for (a, b) in path.iter().zip(path.iter().skip(1)) {
            for (p, q, _) in stretches(*a, *b, opening).iter().filter(|s| !s.2) {
                length += p.distance(*q);
                for end in [p, q] {
                    let elevation = ground.height(*end).elevation - depth;
                    bottom = (bottom.0.min(elevation), bottom.1.max(elevation));
                }
            }
        }
    }
    if length <= 0.0 {
        return SmallDig::default();
    }
    let outline = difference(&strips, opening);
    let area = outline.area();
    SmallDig {
        bank_volume: area * depth,
        area,
        length,
        bottom,
        outline,
    }
}

#[cfg(test)]
mod tests;
