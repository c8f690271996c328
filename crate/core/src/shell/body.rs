//! The body of a shell by depth: its water, and what it displaces, wall and floor included.
//!
//! A wall may lean inward (*draft*, run per unit of depth), and a rounding (*cove*) may fill the
//! corner between wall and floor. At a depth `z` below the rim the inside is then the part of
//! every facet that lies deeper, within the outline drawn in by `draft z + cove(h)`, where `h` is
//! the height of `z` above that facet and `cove` the fillet of the given radius that touches wall
//! and floor. The fillet is measured level and plumb, as if the floor were level across it.
//!
//! The outer face is the same figure once more: facets lowered by the thickness, the wall pushed
//! out by the thickness square to it, the fillet's radius greater by the thickness. What is pushed
//! out beyond the outline is square at each stretch, which is out by less than four times the
//! thickness squared.
//!
//! # Accuracy
//! Without draft and cove volumes are exact sums over facets (see [`super::plane`]). What draft
//! and cove take away is the integral over the depth of what they take from the area, by Gauss
//! quadrature between the depths where facets begin, end or bend. Areas are those of contours:
//! exact over level facets; over tilted ones a fillet is taken in `BANDS` of height, each with
//! its mean. A drafted basin with a level floor comes out exact. Where a floor falls into a wall
//! with a cove the bands converge slowly: some litres of a whole pool, 0.01 % of it.

use super::checked::{Facet, Shell};
use super::inset::Insets;
use super::losses::Loss;
use super::plane::DepthPlane;
use crate::geom::{Point, Region};
use crate::math::{acos, cos, sin};

/// Places and weights of three-point Gauss quadrature on -1..=1.
const THREE: [(f64, f64); 3] = [
    (-0.774_596_669_241_483_4, 5.0 / 9.0),
    (0.0, 8.0 / 9.0),
    (0.774_596_669_241_483_4, 5.0 / 9.0),
];

/// The same of five points.
const FIVE: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

/// Bands into which a fillet over a tilted facet is parted, by height.
const BANDS: u32 = 6;

/// The highest step of the quadrature, meters.
const STEP: f64 = 0.1;

/// Facets that tilt by less over their whole extent are level, meters.
const LEVEL: f64 = 1e-6;

/// Breaks nearer than this are one, meters.
const SLIVER: f64 = 1e-6;

/// Cosine of the least turn that counts as a corner of a facet.
const CORNER: f64 = 0.98;

/// The figures of a shell at one depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtDepth {
    /// Depth below the rim, meters.
    pub depth: f64,
    /// Area of the inside at that depth, m2: that of the water, were it to stand there.
    pub area: f64,
    /// Volume of the inside below it, m3.
    pub volume: f64,
    /// Volume of the body below it, wall and floor included, m3.
    pub displacement: f64,
}

/// The rounding between a leaning wall and a level floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Fillet {
    radius: f64,
    draft: f64,
    /// How far from the foot of the wall it ends on the floor, meters.
    pub reach: f64,
    /// How high above the floor it ends on the wall, meters.
    pub height: f64,
}

impl Fillet {
    /// The fillet of a radius at a wall that leans by `draft`.
    pub fn new(radius: f64, draft: f64) -> Self {
        let slant = (1.0 + draft * draft).sqrt();
        Self {
            radius,
            draft,
            reach: radius * (slant - draft),
            height: radius * (1.0 - draft / slant),
        }
    }

    /// How far it draws the inside in from the wall at a height above the floor, meters.
    fn draw(&self, height: f64) -> f64 {
        if height >= self.height {
            return 0.0;
        }
        let chord = (height * (2.0 * self.radius - height)).max(0.0).sqrt();
        self.reach + self.draft * height - chord
    }

    /// How high wall and fillet stand above the floor `from_foot` meters inward from the foot of
    /// the wall (negative: behind it); infinite behind an upright wall.
    fn rise(&self, from_foot: f64) -> f64 {
        let short = self.reach - from_foot;
        if short <= 0.0 {
            0.0
        } else if from_foot > -self.draft * self.height && short < self.radius {
            self.radius - (self.radius * self.radius - short * short).max(0.0).sqrt()
        } else if self.draft > 0.0 {
            -from_foot / self.draft
        } else if from_foot < -SLIVER {
            f64::INFINITY
        } else {
            self.height
        }
    }

    /// Bands of its height between two, from below: where each begins and ends, and how far it
    /// draws the inside in on the mean, meters.
    fn bands(&self, low: f64, high: f64) -> impl Iterator<Item = (f64, f64, f64)> {
        let (radius, draft, reach) = (self.radius, self.draft, self.reach);
        let (from, to) = self.angles(low, high);
        let at = move |k: u32| {
            let angle = from + (to - from) * f64::from(k) / f64::from(BANDS);
            let (sine, cosine) = (sin(angle), cos(angle));
            let height = radius * (1.0 - cosine);
            let chords = radius * radius / 2.0 * (angle - sine * cosine);
            let sum = reach * height + draft * height * height / 2.0 - chords;
            (height, sum)
        };
        (0..if to > from { BANDS } else { 0 }).map(move |k| {
            let ((low, before), (high, sum)) = (at(k), at(k + 1));
            (low, high, (sum - before) / (high - low))
        })
    }

    /// The angles on it, from the floor up, of two heights; none where it has no part between.
    fn angles(&self, low: f64, high: f64) -> (f64, f64) {
        let (low, high) = (low.max(0.0), high.min(self.height));
        if self.radius > 0.0 && high - low > LEVEL {
            let angle = |height: f64| acos(1.0 - height / self.radius);
            (angle(low), angle(high))
        } else {
            (0.0, 0.0)
        }
    }

    /// Heights on it between two, with the weights of an integral over them.
    fn nodes(&self, low: f64, high: f64) -> impl Iterator<Item = (f64, f64)> {
        let radius = self.radius;
        // The figures go with the sine of the angle on it.
        let (from, to) = self.angles(low, high);
        let nodes = FIVE.iter().filter(move |_| to > from);
        nodes.map(move |(x, w)| {
            let at = from + (to - from) * (1.0 + x) / 2.0;
            let step = radius * sin(at) * w * (to - from) / 2.0;
            (radius * (1.0 - cos(at)), step)
        })
    }
}

/// A face of the moulding: the one in the water, or the one in the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Face {
    fillet: Fillet,
    /// How far the wall is pushed out level, meters.
    out: f64,
    /// How far the floor is lowered, meters.
    lower: f64,
}

impl Face {
    fn inner(shell: &Shell) -> Self {
        Self {
            fillet: Fillet::new(shell.record.cove, shell.record.draft),
            out: 0.0,
            lower: 0.0,
        }
    }

    fn outer(shell: &Shell) -> Self {
        let (draft, thickness) = (shell.record.draft, shell.record.wall_thickness);
        // Concentric; a sharp corner stays sharp.
        let radius = match shell.record.cove {
            cove if cove > 0.0 => cove + thickness,
            _ => 0.0,
        };
        Self {
            fillet: Fillet::new(radius, draft),
            out: thickness * (1.0 + draft * draft).sqrt(),
            lower: thickness,
        }
    }

    /// How far inside the outline the wall stands at a depth, meters.
    fn drawn_in(&self, depth: f64) -> f64 {
        self.fillet.draft * depth - self.out
    }

    /// Depth of the face below the rim at a point whose floor lies at `floor`, `inside` meters
    /// within the outline (negative: outside it); `None` beyond the wall.
    fn depth(&self, floor: f64, inside: f64) -> Option<f64> {
        let floor = floor + self.lower;
        let depth = floor - self.fillet.rise(inside - self.drawn_in(floor));
        (depth >= 0.0).then_some(depth)
    }

    /// Area within this face at a depth below the rim, m2.
    fn area(&self, shell: &Shell, depth: f64) -> f64 {
        let level = depth - self.lower;
        let plain = self.drawn_in(depth);
        let mut insets = Insets::of(shell);
        let mut area = 0.0;
        for facet in &shell.facets {
            let (least, most) = facet.depths();
            if most <= level {
                continue;
            }
            if most - least < LEVEL {
                let part = insets.part(facet, plain + self.fillet.draw(most - level));
                area += part.area();
                continue;
            }
            let part = insets.part(facet, plain);
            area += area_below(&facet.plane, &part, level + self.fillet.height);
            for (low, high, drawn) in self.fillet.bands(least - level, most - level) {
                let part = insets.part(facet, plain + drawn);
                area += area_below(&facet.plane, &part, level + low)
                    - area_below(&facet.plane, &part, level + high);
            }
        }
        if plain < 0.0 {
            area += self.beyond(shell, level, plain);
        }
        area
    }

    /// The part of that area outside the outline, m2.
    fn beyond(&self, shell: &Shell, level: f64, plain: f64) -> f64 {
        let width = |height: f64| (-plain - self.fillet.draw(height)).max(0.0);
        let mut area = 0.0;
        for strip in &shell.walls {
            let [a, b] = strip.depths.map(|d| d - level);
            let (low, high) = (a.min(b), a.max(b));
            if high <= 0.0 {
                continue;
            }
            if high - low < LEVEL {
                area += strip.length() * width(high);
                continue;
            }
            let per_height = strip.length() / (high - low);
            let above = high - low.max(self.fillet.height);
            area += per_height * -plain * above.max(0.0);
            for (height, weight) in self.fillet.nodes(low, high) {
                area += per_height * width(height) * weight;
            }
        }
        area
    }

    /// The same face, upright and with a sharp corner.
    fn plain(&self, thickness: f64) -> Self {
        Self {
            fillet: Fillet::new(0.0, 0.0),
            out: if self.lower > 0.0 { thickness } else { 0.0 },
            lower: self.lower,
        }
    }

    /// The volume in a layer that this face has less than an upright and sharp one, m3.
    fn lost(&self, shell: &Shell, top: f64, bottom: f64) -> f64 {
        let plain = self.plain(shell.record.wall_thickness);
        let lost = |depth: f64| plain.area(shell, depth) - self.area(shell, depth);
        match self.over(shell, top, bottom) {
            // Over a fillet on a level facet the area goes with the sine of the angle on it.
            Some(foot) => {
                let nodes = self.fillet.nodes(foot - bottom, foot - top);
                nodes.map(|(height, step)| lost(foot - height) * step).sum()
            }
            None => {
                let (middle, half) = ((top + bottom) / 2.0, (bottom - top) / 2.0);
                let nodes = THREE.iter();
                nodes.map(|(x, w)| lost(middle + half * x) * w * half).sum()
            }
        }
    }

    /// The loss below every layer's end, from the rim down.
    fn losses(&self, shell: &Shell) -> Vec<Loss> {
        let plain = self.plain(shell.record.wall_thickness);
        let rate = |depth: f64| self.area(shell, depth) - plain.area(shell, depth);
        let mut layers = self.layers(shell, 0.0, f64::INFINITY);
        layers.reverse();
        let mut losses: Vec<Loss> = Vec::with_capacity(layers.len() + 1);
        let mut below = 0.0;
        let mut under = 0.0;
        for (top, bottom) in layers {
            // Just within the layer: areas may jump at its ends.
            let (upper, lower) = (rate(top + SLIVER), rate(bottom - SLIVER));
            losses.push(Loss {
                depth: bottom,
                below,
                rate: (lower, under),
            });
            below += self.lost(shell, top, bottom);
            under = upper;
        }
        if let Some(last) = losses.last().copied() {
            let top = self
                .layers(shell, 0.0, f64::INFINITY)
                .first()
                .map_or(0.0, |l| l.0);
            debug_assert!(top < last.depth, "layers run downward");
            losses.push(Loss {
                depth: top,
                below,
                rate: (under, under),
            });
        }
        losses.reverse();
        losses
    }

    /// The depth of a level facet over whose fillet a layer lies.
    fn over(&self, shell: &Shell, top: f64, bottom: f64) -> Option<f64> {
        (self.fillet.radius > 0.0).then_some(())?;
        let level = shell
            .facets
            .iter()
            .map(Facet::depths)
            .filter(|(least, most)| most - least < LEVEL);
        let mut feet = level.map(|(_, most)| most + self.lower);
        feet.find(|foot| bottom <= foot + SLIVER && top >= foot - self.fillet.height - SLIVER)
    }

    /// The layers between two depths, cut where facets begin, end or bend.
    fn layers(&self, shell: &Shell, top: f64, bottom: f64) -> Vec<(f64, f64)> {
        let mut breaks = Vec::new();
        for facet in &shell.facets {
            for depth in corners(facet) {
                breaks.extend([depth + self.lower, depth + self.lower - self.fillet.height]);
            }
        }
        let most = breaks.iter().copied().fold(top, f64::max).min(bottom);
        breaks.retain(|depth| *depth > top && *depth < most);
        breaks.extend([top, most]);
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|below, above| *below - *above < SLIVER);
        let mut layers = Vec::new();
        for (&a, &b) in breaks.iter().zip(breaks.iter().skip(1)) {
            let steps = ((b - a) / STEP).ceil().max(1.0);
            let at = |k: f64| a + (b - a) * k / steps;
            layers.extend(
                (0..steps as u32)
                    .map(f64::from)
                    .map(|k| (at(k), at(k + 1.0))),
            );
        }
        layers
    }
}

/// Area of the part of a region over which a plane lies deeper than a level, m2.
fn area_below(plane: &DepthPlane, region: &Region, level: f64) -> f64 {
    let below = |p: Point| plane.depth(p) - level;
    let rings = region.rings();
    rings
        .map(|ring| ring.where_positive(below).signed_area())
        .sum()
}

/// Depths of the corners of a facet.
fn corners(facet: &Facet) -> Vec<f64> {
    let (least, most) = facet.depths();
    let mut depths = vec![least, most];
    if most - least < LEVEL {
        return depths;
    }
    for ring in facet.region.rings() {
        let mut before = ring.edges().last().map(|(a, b)| b - a).unwrap_or_default();
        for (a, b) in ring.edges() {
            let after = b - a;
            if before.dot(after) < CORNER * before.length() * after.length() {
                depths.push(facet.plane.depth(a));
            }
            before = after;
        }
    }
    depths
}

impl Shell {
    /// Whether the wall stands upright and meets the floor in a sharp corner.
    pub fn is_plain(&self) -> bool {
        self.record.draft <= 0.0 && self.record.cove <= 0.0
    }

    /// Area of the inside at a depth below the rim, m2.
    pub fn area_at(&self, depth: f64) -> f64 {
        Face::inner(self).area(self, depth)
    }

    /// What draft and cove take from the volume inside below a depth, m3.
    pub(super) fn lost_inside_below(&self, depth: f64) -> f64 {
        let integrate = || Face::inner(self).losses(self);
        self.losses.inner.below(depth, integrate)
    }

    /// What they take from the volume of the body, m3.
    pub(super) fn lost_body_below(&self, depth: f64) -> f64 {
        let integrate = || Face::outer(self).losses(self);
        self.losses.outer.below(depth, integrate)
    }

    /// The shell's figures at the rim, at every `step` meters below it, and at the deepest floor.
    pub fn by_depth(&self, step: f64) -> Vec<AtDepth> {
        let deepest = self.deepest();
        let count = (deepest / step - SLIVER).floor().max(0.0) as u32;
        let even = (0..=count).map(|k| f64::from(k) * step);
        even.chain([deepest])
            .map(|depth| AtDepth {
                depth,
                area: self.area_at(depth),
                volume: self.volume_below(depth),
                displacement: self.displacement_below(depth),
            })
            .collect()
    }

    /// Depth of the inner face below the rim at a point of the shell frame, meters: floor, cove
    /// or wall; `None` outside the water's edge.
    pub fn inside_depth(&self, at: Point) -> Option<f64> {
        let (floor, inside) = self.floor_at(at)?;
        (inside >= 0.0).then_some(())?;
        Face::inner(self).depth(floor, inside)
    }

    /// The same of the outer face, thickness included; `None` beyond the wall.
    pub fn outside_depth(&self, at: Point) -> Option<f64> {
        let (floor, inside) = self.floor_at(at)?;
        Face::outer(self).depth(floor, inside)
    }

    /// Depth of the floor at a point of the shell frame, whatever wall or cove stand over it;
    /// outside the outline that of the nearest place on it, meters.
    pub fn floor_depth(&self, at: Point) -> Option<f64> {
        self.floor_at(at).map(|(floor, _)| floor)
    }

    /// How far the wall's outer face stands outside the water's edge at the rim, meters.
    pub fn wall_width(&self) -> f64 {
        Face::outer(self).out
    }

    /// Depth of the floor at a point, or at the nearest place of the outline, and how far within
    /// the outline the point lies, meters.
    fn floor_at(&self, at: Point) -> Option<(f64, f64)> {
        let edges = self.footprint.rings().flat_map(|ring| ring.edges());
        let nearest = edges
            .map(|(a, b)| nearest_on_edge(at, a, b))
            .min_by(|p, q| p.distance(at).total_cmp(&q.distance(at)))?;
        let distance = nearest.distance(at);
        let within = self.footprint.contains(at);
        let on = if within { at } else { nearest };
        let facet = self.facets.iter().find(|f| f.region.contains(on));
        // On the outline itself rounding decides whether a facet has the point: the nearest one.
        let facet = facet.or_else(|| {
            self.facets
                .iter()
                .min_by(|a, b| gap(a, on).total_cmp(&gap(b, on)))
        })?;
        Some((
            facet.plane.depth(on),
            if within { distance } else { -distance },
        ))
    }
}

fn gap(facet: &Facet, at: Point) -> f64 {
    let edges = facet.region.rings().flat_map(|ring| ring.edges());
    edges
        .map(|(a, b)| nearest_on_edge(at, a, b).distance(at))
        .fold(f64::INFINITY, f64::min)
}

fn nearest_on_edge(p: Point, a: Point, b: Point) -> Point {
    let along = b - a;
    let share = (p - a).dot(along) / along.dot(along).max(1e-18);
    a + along * share.clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests;
