//! The stone in the hole: base, backfill lift by lift, and the fabric round it.
//!
//! Everything here holds for a hole that reaches up to the collar's underside all round; what
//! ground that falls away takes from it is known with the dig alone (see `stone`).
//!
//! # Method
//! The hole below a level comes from its contours (`DigShape::volumes_below`), the shell's body
//! below it in closed form (`Shell::displacement_below`), the base facet by facet. What a level
//! leaves of the three is the backfill below it; two levels make a lift.

use crate::dig::{DigShape, base_under};
use crate::geom::clip::{inside, length};
use crate::geom::{Point, Region, Vector};
use crate::shell::{DepthPlane, Facet, FacetKind, Shell, WallStrip};
use crate::site::ConstructionSettings;

/// Levels at which the sides of the hole are measured for fabric.
const LEVELS: u32 = 24;

/// The most lifts that are told one by one; what lies higher is told with the last of them.
pub(super) const MOST_LIFTS: usize = 24;

/// A floor that falls less than this is level, meters per meter.
const LEVEL: f64 = 1e-6;

/// The strip beside the floor is taken in pieces no longer than this, meters.
const PIECE: f64 = 0.25;

/// Corners nearer to each other than this are one, meters.
const SAME_PLACE: f64 = 1e-6;

/// No strip is so wide, meters.
const FAR: f64 = 20.0;

/// Stone in a hole that reaches up to the collar's underside.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Fill {
    /// The base under each kind of floor, in the order in which the floor tells them.
    pub zones: Vec<Zone>,
    /// Area of the bottom beyond the floor: wall and over-dig, m2.
    pub strip: f64,
    /// Volume of the base, plan area times thickness, m3.
    pub base: f64,
    /// The part of it below the collar's underside: under a high ledge it may reach above that, m3.
    pub base_below: f64,
    /// Area of the bottom in plan, m2.
    pub bottom: f64,
    /// Area of the bottom along its slopes, m2.
    pub along_slopes: f64,
    /// Area of the sides along their slopes, from the bottom to the collar's underside, m2.
    pub sides: f64,
    /// The hole below the collar's underside, m3.
    pub hole: f64,
    /// Lifts of backfill from the bottom up.
    pub lifts: Vec<Lift>,
}

/// The base under one kind of floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    /// Which part of the floor.
    pub kind: FacetKind,
    /// Its area in plan, m2.
    pub area: f64,
    /// Thickness of the base, plumb, meters.
    pub thickness: f64,
}

/// A layer of backfill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lift {
    /// Depth of its underside below the rim, meters.
    pub from: f64,
    /// Depth of its top below the rim, meters.
    pub to: f64,
    /// Volume of stone in it, m3.
    pub volume: f64,
}

impl Fill {
    /// The stone in the hole of a shell; `shape` must stem from the same shell and settings.
    pub fn new(shell: &Shell, works: &ConstructionSettings, shape: &DigShape) -> Self {
        let mut fill = Self {
            bottom: shape.floor().area(),
            ..Self::default()
        };
        let floor: f64 = shell.facets.iter().map(|f| f.region.area()).sum();
        fill.strip = (fill.bottom - floor).max(0.0);
        fill.along_slopes = shell.floor_area() + fill.strip;
        for facet in &shell.facets {
            let area = facet.region.area();
            let thickness = base_under(&works.dig, facet.kind);
            fill.base += area * thickness;
            match fill.zones.iter_mut().find(|zone| zone.kind == facet.kind) {
                Some(zone) => zone.area += area,
                None => fill.zones.push(Zone {
                    kind: facet.kind,
                    area,
                    thickness,
                }),
            }
        }
        fill.base += fill.strip * works.dig.base_thickness;

        let cap = works.collar.underside();
        let mut below = 0.0;
        let mut from = shape.deepest();
        let tops = tops(shell, works, shape);
        let beside = beside_floor(shell, shape.floor());
        let holes = shape.volumes_below(&tops);
        for (to, hole) in tops.into_iter().zip(holes) {
            fill.hole = hole;
            fill.base_below = base_below(shell, works, (fill.strip, &beside), to);
            let filled = fill.hole - shell.displacement_below(to) - fill.base_below;
            fill.lifts.push(Lift {
                from,
                to,
                volume: (filled - below).max(0.0),
            });
            below = below.max(filled);
            from = to;
        }
        fill.sides = sides(shell, works, shape, cap);
        fill
    }

    /// Backfill up to the collar's underside all round, m3.
    pub fn backfill(&self) -> f64 {
        self.lifts.iter().map(|lift| lift.volume).sum()
    }

    /// The lifts when so much less is placed, m3, from the top down: ground that falls away takes
    /// the highest stone first.
    pub fn lifts_less(&self, missing: f64) -> Vec<Lift> {
        let mut missing = missing.max(0.0);
        let mut lifts = self.lifts.clone();
        for lift in lifts.iter_mut().rev() {
            let gone = missing.min(lift.volume);
            lift.volume -= gone;
            missing -= gone;
        }
        lifts
    }
}

/// The tops of the lifts, depths below the rim, from the lowest up to the collar's underside. The
/// first lift stands on the base of the deepest floor.
fn tops(shell: &Shell, works: &ConstructionSettings, shape: &DigShape) -> Vec<f64> {
    let cap = works.collar.underside();
    let deepest = shape.deepest();
    if deepest <= cap {
        return Vec::new();
    }
    let start = shell.deepest() + shell.record.wall_thickness;
    let step = works.stone.lift;
    let count = ((start - cap) / step - 1e-9)
        .ceil()
        .clamp(1.0, MOST_LIFTS as f64);
    let mut tops: Vec<f64> = (1..count as u32)
        .map(|k| start - f64::from(k) * step)
        .collect();
    tops.push(cap);
    tops
}

/// A piece of the strip of bottom beside the floor, under wall and over-dig.
struct Beside {
    /// How deep the floor is at its two ends, meters below the rim.
    depths: [f64; 2],
    /// Area in plan, m2.
    area: f64,
}

/// The strip beside the floor in pieces along the wall, out to the foot of the sides.
fn beside_floor(shell: &Shell, foot: &Region) -> Vec<Beside> {
    let beyond = |at: Point, out: Vector| {
        let far = at + out * FAR;
        let first = inside(&[at, far], foot).into_iter().next();
        first.and_then(|it| it.last().copied()).unwrap_or(at)
    };
    // At a corner the pieces part along the line between both walls.
    let corner = |at: Point| {
        let there = |it: &&WallStrip| it.ends.iter().any(|end| end.distance(at) < SAME_PLACE);
        let outs = shell.walls.iter().filter(there).filter_map(WallStrip::out);
        let out = outs.fold(Vector::default(), |sum, out| sum + out);
        beyond(at, out.unit().unwrap_or_default())
    };
    let mut pieces = Vec::new();
    for wall in &shell.walls {
        let ([from, to], [shallow, deep]) = (wall.ends, wall.depths);
        let out = wall.out().unwrap_or_default();
        let count = (wall.length() / PIECE).ceil().max(1.0) as u32;
        let mut before = (from, corner(from), shallow);
        for number in 1..=count {
            let share = f64::from(number) / f64::from(count);
            let at = from + (to - from) * share;
            let (far, depth) = match number == count {
                true => (corner(to), deep),
                false => (beyond(at, out), shallow + (deep - shallow) * share),
            };
            let twice = (far - before.0).cross(at - before.1);
            pieces.push(Beside {
                depths: [before.2, depth],
                area: twice.abs() / 2.0,
            });
            before = (at, far, depth);
        }
    }
    pieces
}

/// Volume of the base below a level, m3. `beside`: the strip of so many m2 beside the floor ([`beside_floor`]).
fn base_below(
    shell: &Shell,
    works: &ConstructionSettings,
    (strip, beside): (f64, &[Beside]),
    level: f64,
) -> f64 {
    let wall = shell.record.wall_thickness;
    let under_floor: f64 = shell
        .facets
        .iter()
        .map(|facet| {
            let thick = base_under(&works.dig, facet.kind);
            let down_to = |by: f64| lowered(facet.plane, by).volume_below(&facet.region, level);
            down_to(wall + thick) - down_to(wall)
        })
        .sum();
    // Wall and over-dig stand along the wall, as deep as the floor beside them.
    let thick = works.dig.base_thickness;
    let (mut round, mut along) = (0.0, 0.0);
    for Beside { depths, area } in beside {
        let [a, b] = depths;
        let down_to = |by: f64| positive(a + by - level, b + by - level);
        round += area;
        along += (down_to(wall + thick) - down_to(wall)) * area;
    }
    if round > 0.0 {
        under_floor + strip / round * along
    } else {
        under_floor
    }
}

fn lowered(plane: DepthPlane, by: f64) -> DepthPlane {
    DepthPlane {
        at_origin: plane.at_origin + by,
        gradient: plane.gradient,
    }
}

/// The mean of the positive part of what varies evenly from `a` to `b`.
fn positive(a: f64, b: f64) -> f64 {
    let (low, high) = (a.min(b), a.max(b));
    if low >= 0.0 {
        f64::midpoint(low, high)
    } else if high > 0.0 {
        high * high / (2.0 * (high - low))
    } else {
        0.0
    }
}

/// Area of the sides from the bottom up to a depth, along their slopes, m2.
///
/// At each of some levels the length of the hole's edge, but for where a sloping floor passes the
/// level, times the slope's own length per meter of height. Within 2 % of the surface itself.
fn sides(shell: &Shell, works: &ConstructionSettings, shape: &DigShape, cap: f64) -> f64 {
    let deepest = shape.deepest();
    // Levels keep away from where a level floor makes the edge jump.
    let mut breaks: Vec<f64> = shell
        .facets
        .iter()
        .flat_map(|facet| {
            let (least, greatest) = facet.depths();
            let lower = shell.record.wall_thickness + base_under(&works.dig, facet.kind);
            [least + lower, greatest + lower]
        })
        .collect();
    breaks.extend([cap, deepest]);
    breaks.retain(|depth| *depth >= cap && *depth <= deepest);
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|b, a| *b - *a < LEVEL);
    let mut area = 0.0;
    for (&top, &bottom) in breaks.iter().zip(breaks.iter().skip(1)) {
        let share = (bottom - top) / (deepest - cap).max(LEVEL) * f64::from(LEVELS);
        let steps = share.ceil().max(1.0) as u32;
        let step = (bottom - top) / f64::from(steps);
        for k in 0..steps {
            let depth = top + (f64::from(k) + 0.5) * step;
            let edge = shape.contour(depth);
            let along_floor: f64 = shell
                .facets
                .iter()
                .map(|facet| level_line(facet, shell, works, depth))
                .sum();
            area += sloped(&edge, shape, along_floor) * step;
        }
    }
    area
}

/// Length of the edge times the length of its side per meter of height, each stretch by the slope
/// of the side that it faces; the part that runs along a floor left out.
fn sloped(edge: &Region, shape: &DigShape, along_floor: f64) -> f64 {
    let slopes = shape.slopes();
    let (mut whole, mut area) = (0.0, 0.0);
    for (a, b) in edge.rings().flat_map(|ring| ring.edges()) {
        let length = a.distance(b);
        let Some(along) = (b - a).unit() else {
            continue;
        };
        let slope = slopes.towards(-along.left());
        whole += length;
        area += length * (1.0 + slope * slope).sqrt();
    }
    let share = if whole > 0.0 {
        along_floor / whole
    } else {
        0.0
    };
    area * (1.0 - share).max(0.0)
}

/// Length of the line along which a sloping floor passes a depth, with the over-dig at both its
/// ends, meters.
fn level_line(facet: &Facet, shell: &Shell, works: &ConstructionSettings, depth: f64) -> f64 {
    let steepness = facet.plane.gradient.length();
    let (Some(down), true) = (facet.plane.gradient.unit(), steepness > LEVEL) else {
        return 0.0;
    };
    let Some((low, high)) = facet.region.bounds() else {
        return 0.0;
    };
    let wall = shell.record.wall_thickness;
    let lower = wall + base_under(&works.dig, facet.kind);
    // The hole keeps its depth all over the reach, so uphill of the floor's own line.
    let middle = low.midpoint(high);
    let to_line = (depth - lower - facet.plane.depth(middle)) / steepness;
    let foot = middle + down * to_line;
    let half = down.left() * low.distance(high);
    let line: [Point; 2] = [foot + half, foot - half];
    let within: f64 = inside(&line, &facet.region).iter().map(|p| length(p)).sum();
    if within > 0.0 {
        within + 2.0 * (wall + works.dig.over_dig)
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::geom::PathRecord;
    use crate::geom::path::VertexRecord;
    use crate::shell::{FacetRecord, ShellRecord, catalogue};

    const PI: f64 = core::f64::consts::PI;

    fn rectangle(x: f64, y: f64, w: f64, h: f64) -> PathRecord {
        let corners = [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
        PathRecord(corners.map(VertexRecord::Line).to_vec())
    }

    /// 8 x 4 m: 4 m of ledge 0.5 m deep beside 4 m of floor 1.5 m deep.
    fn stepped() -> Shell {
        let facet = |kind, x, depth| FacetRecord {
            kind,
            outline: rectangle(x, -2.0, 4.0, 4.0),
            depths: vec![depth; 4],
        };
        let record = ShellRecord {
            name: "Stepped".to_owned(),
            note: String::new(),
            outline: rectangle(-4.0, -2.0, 8.0, 4.0),
            floor: vec![
                facet(FacetKind::Ledge, -4.0, 0.5),
                facet(FacetKind::Deep, 0.0, 1.5),
            ],
            coping_width: 0.25,
            waterline: 0.15,
            wall_thickness: 0.0,
            draft: 0.0,
            cove: 0.0,
            stations: Vec::new(),
            drain: None,
            weight: None,
        };
        Shell::check(&record).unwrap().0
    }

    fn works(slope: f64) -> ConstructionSettings {
        let mut works = ConstructionSettings::default();
        works.dig.over_dig = 0.2;
        works.dig.base_thickness = 0.1;
        works.dig.side_slope = Some(slope);
        works.collar.depth = 0.3;
        works.collar.top_below_rim = 0.1;
        works.stone.lift = 0.4;
        works
    }

    fn filled(shell: &Shell, works: &ConstructionSettings) -> (Fill, DigShape) {
        let shape = DigShape::new(shell, &works.dig, 0.0);
        (Fill::new(shell, works, &shape), shape)
    }

    fn near(a: f64, b: f64, within: f64) {
        assert!((a - b).abs() <= within, "{a} is not {b}");
    }

    #[test]
    fn upright_sides_are_worked_out_by_hand() {
        let works = works(0.0);
        let (fill, _) = filled(&stepped(), &works);
        let bottom = 32.0 + 24.0 * 0.2 + PI * 0.04;
        near(fill.bottom, bottom, 1e-3);
        near(fill.base, bottom * 0.1, 1e-3);
        // Of the hole below 0.4 m: the deep half to 1.6 m with its over-dig, the ledge to 0.6 m.
        let deep = 4.4 * 4.4 - (4.0 - PI) * 0.04;
        near(fill.hole, bottom * 0.2 + deep * 1.0, 2e-3);
        let body = 32.0 * 0.1 + 16.0 * 1.0;
        near(fill.backfill(), fill.hole - body - fill.base, 2e-3);
        // 1.1 m in lifts of 0.4 m, the last one what is left.
        let tops: Vec<f64> = fill.lifts.iter().map(|lift| lift.to).collect();
        for (top, expected) in tops.iter().zip([1.1, 0.7, 0.4]) {
            near(*top, expected, 1e-9);
        }
        // Round the deep half to 0.6 m, round all of it above.
        let round = 4.0 * 4.0 + 2.0 * PI * 0.2;
        near(
            fill.sides,
            round * 1.0 + (24.0 + 2.0 * PI * 0.2) * 0.2,
            0.02,
        );
        near(fill.along_slopes, bottom, 1e-3);
    }

    #[test]
    fn a_zone_of_its_own_thickness_counts_with_it() {
        let mut works = works(0.0);
        works.dig.bases.push(crate::site::BaseZone {
            kind: FacetKind::Deep,
            thickness: 0.3,
        });
        let (fill, _) = filled(&stepped(), &works);
        near(fill.base, 16.0 * 0.1 + 16.0 * 0.3 + fill.strip * 0.1, 1e-6);
        let thicknesses: Vec<f64> = fill.zones.iter().map(|zone| zone.thickness).collect();
        assert_eq!(thicknesses, [0.1, 0.3]);
    }

    #[test]
    fn a_side_that_is_dug_wider_has_more_of_the_base_beside_it() {
        let mut works = works(0.0);
        works.dig.sides.push(crate::site::SideSettings {
            side: crate::site::HoleSide::Ahead,
            over_dig: Some(0.6),
            slope: None,
            note: String::new(),
        });
        let shape = DigShape::new(&stepped(), &works.dig, 0.0);
        let strip = Fill::new(&stepped(), &works, &shape).strip;
        let pieces = beside_floor(&stepped(), shape.floor());
        // Below 1 m lies the base of the deep half: beside its walls 0.2 m wide, ahead of it 0.6 m, and two quarters
        // of an ellipse at the corners.
        let beside = 2.0 * 4.0 * 0.2 + 4.0 * 0.6 + PI / 2.0 * 0.2 * 0.6;
        let below = base_below(&stepped(), &works, (strip, &pieces), 1.0);
        near(below, (16.0 + beside) * 0.1, 0.004);
    }

    #[test]
    fn a_sloping_pit_has_the_sides_of_its_frustum() {
        let mut record = stepped().record;
        record.floor = vec![FacetRecord {
            kind: FacetKind::Deep,
            outline: record.outline.clone(),
            depths: vec![1.5; 4],
        }];
        let shell = Shell::check(&record).unwrap().0;
        let works = works(0.75);
        let (fill, _) = filled(&shell, &works);
        // Straight sides and quarter cones: from 0.2 m out at 1.6 m to 1.1 m out at 0.4 m.
        let slant = 1.2 * (1.0 + 0.75_f64 * 0.75).sqrt();
        let mean_radius = 0.65;
        near(fill.sides, (24.0 + 2.0 * PI * mean_radius) * slant, 0.02);
    }

    #[test]
    fn low_ground_takes_the_highest_stone_first() {
        let (fill, _) = filled(&stepped(), &works(0.5));
        let top = fill.lifts.last().unwrap().volume;
        let less = fill.lifts_less(top + 0.1);
        assert_eq!(less.last().unwrap().volume, 0.0);
        let left: f64 = less.iter().map(|lift| lift.volume).sum();
        near(left, fill.backfill() - top - 0.1, 1e-9);
        assert!(fill.lifts_less(1e9).iter().all(|lift| lift.volume == 0.0));
    }

    #[test]
    fn sides_agree_with_the_surface_walked_over_in_small_steps() {
        for name in ["Knapweed", "Pignut"] {
            let record = catalogue::find(name).unwrap();
            let (shell, _) = Shell::check(record).unwrap();
            let works = works(1.0);
            let (fill, shape) = filled(&shell, &works);
            let cap = works.collar.underside();
            // Area over the plan of the slope, floor and sides together, then the floor off. The
            // steps are turned, so that no side lies along them.
            let step = 0.15;
            let (on, aside) = (
                Vector::at_angle(0.6) * step,
                Vector::at_angle(0.6).left() * step,
            );
            let (mut all, mut floor) = (0.0, 0.0);
            for (i, j) in (-90..90).flat_map(|i| (-90..90).map(move |j| (i, j))) {
                let p = Point::default() + on * f64::from(i) + aside * f64::from(j);
                let here = shape.depth(p);
                if here < cap {
                    continue;
                }
                let rise = |by: Vector| (shape.depth(p + by) - here) / 0.001;
                let (dx, dy) = (rise(Vector::new(0.001, 0.0)), rise(Vector::new(0.0, 0.001)));
                let slope = dx * dx + dy * dy;
                let area = (1.0 + slope).sqrt() * step * step;
                all += area;
                // What is flatter than a side is floor: no floor here falls one in one.
                if slope < 0.8 {
                    floor += area;
                }
            }
            let walked = all - floor;
            let off = (fill.sides - walked).abs() / walked;
            assert!(
                off < 0.05,
                "{}: {} against {walked}",
                record.name,
                fill.sides
            );
        }
    }
}
