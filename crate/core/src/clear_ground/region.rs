//! Every place the shell's middle may take at one heading.
//!
//! # Method
//! Each moving figure is widened once for each distance it is held off. The lot's ring, walked
//! clockwise, and every obstacle are convolved with the reflected figure
//! ([`crate::geom::convolution`]): about a place where the figure lies in the lot the first winds
//! once the other way round, about one where it meets an obstacle the second winds at least once.
//! One overlay keeps where only the lot is left.

use super::bounds::{Bound, Bounds, Moving, Place};
use crate::geom::boolean::positive_winding;
use crate::geom::convolution::{Tracing, convolution};
use crate::geom::distance::Figure;
use crate::geom::offset::offset_region;
use crate::geom::region::bounds;
use crate::geom::thin::{thinned, thinned_chain};
use crate::geom::{DRAWING_TOLERANCE, Point, Pose, Region, Ring, Vector};

/// Two distances that differ by less than this are one, meters.
const SAME: f64 = 1e-9;

/// How far round the lot the ring is drawn that stands for all that lies outside, meters.
const MARGIN: f64 = 1.0;

/// What bounds the shell, made ready to be asked at one heading after another.
#[derive(Debug, Clone)]
pub struct ClearGround {
    /// The lot's boundary, clockwise.
    lot: Tracing,
    lot_area: f64,
    lot_bounds: [Point; 2],
    /// A ring round everything, clockwise.
    around: Ring,
    held: Vec<Held>,
    /// How far corners may lie off the edges that take their place, meters.
    within: f64,
}

/// A figure widened by one distance, and what it is held off from.
#[derive(Debug, Clone)]
struct Held {
    /// Shell frame.
    grown: Region,
    obstacles: Vec<Tracing>,
    /// Whether it has to lie in the lot.
    within_lot: bool,
}

impl Bounds<'_> {
    /// Every place of the shell's middle at one heading, as far as the arcs' chords go (see the
    /// module).
    pub fn region(&self, heading: f64, mirrored: bool) -> Region {
        ClearGround::of(self).region(heading, mirrored)
    }
}

impl ClearGround {
    /// Widens what moves and takes down what it is held off from.
    pub fn of(bounds: &Bounds<'_>) -> Self {
        Self::thinned(bounds, 0.0)
    }

    /// The same with fewer corners, for searches: every place it tells is clear, and places within some `within`
    /// meters of the edge may be missing.
    pub fn thinned(bounds: &Bounds<'_>, within: f64) -> Self {
        let lot = &bounds.site.lot().region;
        let outer = lot.polygons.first().map(|polygon| &polygon.outer);
        let ring = outer.map(|ring| thinned(ring, within).reversed());
        let (low, high) = lot.bounds().unwrap_or_default();
        let mut ground = Self {
            lot: Tracing::of_ring(&ring.unwrap_or_default().0),
            lot_area: lot.area(),
            lot_bounds: [low, high],
            around: Ring(vec![
                low + Vector::new(-MARGIN, -MARGIN),
                Point::new(low.x - MARGIN, high.y + MARGIN),
                high + Vector::new(MARGIN, MARGIN),
                Point::new(high.x + MARGIN, low.y - MARGIN),
            ]),
            held: Vec::new(),
            within,
        };
        let greatest = bounds.greatest();
        let met_first = bounds.met_first(&greatest);
        for moving in [Moving::Water, Moving::Dig] {
            let of_this = |all: &[Bound]| {
                all.iter()
                    .filter(|it| it.moving == moving)
                    .copied()
                    .collect()
            };
            let greatest: Vec<Bound> = of_this(&greatest);
            ground.hold(bounds, moving, &greatest, &of_this(&met_first));
        }
        ground
    }

    /// Adds one moving figure: in the lot, off its sides, off everything else. `greatest`: the bounds that follow from no other of
    /// this figure; `met_first`: those of them that no bound of the other figure stands before.
    fn hold(
        &mut self,
        bounds: &Bounds<'_>,
        moving: Moving,
        greatest: &[Bound],
        met_first: &[Bound],
    ) {
        let [water, dig] = &bounds.figures;
        let figure = match moving {
            Moving::Water => water,
            Moving::Dig => dig,
        };
        if figure.is_empty() {
            return;
        }
        let sides: Vec<Option<f64>> = (0..bounds.site.lot().sides.len())
            .map(|side| {
                let this = met_first.iter().find(|it| it.place == Place::Side(side));
                this.map(|it| it.apart)
            })
            .collect();
        let lines = greatest
            .iter()
            .filter(|it| matches!(it.place, Place::Side(_)));
        let least = lines
            .map(|it| it.apart)
            .reduce(f64::min)
            .unwrap_or_default();
        let within = self.within;
        // What the arcs of the widened figure, its corners and the obstacle's may lack.
        let spare = 3.0 * within;
        let grown = |apart: f64| {
            let mut grown = offset_region(figure, apart + spare, DRAWING_TOLERANCE.max(within));
            for polygon in &mut grown.polygons {
                polygon.outer = thinned(&polygon.outer, within);
            }
            Held {
                grown,
                obstacles: Vec::new(),
                within_lot: false,
            }
        };
        let mut held: Vec<(f64, Held)> = Vec::new();
        // Where the other figure reaches every line first, that one keeps both in the lot.
        if sides.iter().any(Option::is_some) {
            let mut first = grown(least);
            first.within_lot = true;
            held.push((least, first));
        }
        let mut add = |apart: f64, obstacle: Tracing| {
            let known = held.iter_mut().find(|(it, _)| (it - apart).abs() < SAME);
            match known {
                Some((_, held)) => held.obstacles.push(obstacle),
                None => {
                    let mut new = grown(apart);
                    new.obstacles.push(obstacle);
                    held.push((apart, new));
                }
            }
        };
        for (apart, chain) in chains(&bounds.site.lot().sides, &sides, least) {
            add(apart, Tracing::of_chain(&thinned_chain(&chain, within)));
        }
        for Bound { place, apart, .. } in met_first {
            match (place, bounds.figure(*place)) {
                (Place::Side(_), _) | (_, None) => {}
                (_, Some(Figure::Chain(chain))) => {
                    add(*apart, Tracing::of_chain(&thinned_chain(chain, within)));
                }
                (_, Some(Figure::Area(region))) => {
                    for ring in region.rings() {
                        // A hole frees only what fits into it.
                        let area = ring.signed_area();
                        if area > 0.0 || -area > figure.area() {
                            add(*apart, Tracing::of_ring(&thinned(ring, within).0));
                        }
                    }
                }
            }
        }
        self.held.extend(held.into_iter().map(|(_, held)| held));
    }

    /// Every place of the shell's middle at one heading.
    pub fn region(&self, heading: f64, mirrored: bool) -> Region {
        let pose = Pose::new(Point::default(), heading, mirrored);
        let posed: Vec<(&Held, Region)> = self
            .held
            .iter()
            .map(|held| (held, held.grown.posed(&pose)))
            .collect();
        let Some(frame) = self.frame(&posed) else {
            return Region::default();
        };
        let mut rings = Vec::new();
        let mut lots = 0;
        for (held, grown) in &posed {
            for polygon in &grown.polygons {
                let figure = Tracing::reflected(&polygon.outer.0);
                if held.within_lot {
                    // A figure larger than the lot could hold it in its middle.
                    if polygon.outer.signed_area() >= self.lot_area {
                        return Region::default();
                    }
                    rings.extend(convolution(&self.lot, &figure));
                    // Each further figure takes its own lot away again: inside stays one.
                    if lots > 0 {
                        rings.push(self.around.reversed());
                    }
                    lots += 1;
                }
                for obstacle in &held.obstacles {
                    if frame.is_reached(obstacle, &figure) {
                        let around = convolution(obstacle, &figure);
                        rings.extend(around.iter().filter_map(|ring| frame.part(ring)));
                    }
                }
            }
        }
        for ring in &mut rings {
            ring.0.reverse();
        }
        positive_winding(&rings)
    }

    /// The upright frame that holds every place at which what moves lies in the lot; `None` where there is no
    /// such place.
    fn frame(&self, posed: &[(&Held, Region)]) -> Option<Frame> {
        let [from, to] = self.lot_bounds;
        let (mut low, mut high) = (from, to);
        for (_, grown) in posed.iter().filter(|(held, _)| held.within_lot) {
            let (least, most) = grown.bounds()?;
            low = Point::new(low.x.max(from.x - least.x), low.y.max(from.y - least.y));
            high = Point::new(high.x.min(to.x - most.x), high.y.min(to.y - most.y));
        }
        (low.x < high.x && low.y < high.y).then_some(Frame { low, high })
    }
}

/// An upright rectangle outside of which nothing matters.
struct Frame {
    low: Point,
    high: Point,
}

impl Frame {
    /// Whether any sum of a point of one and a point of the other can lie in it.
    fn is_reached(&self, a: &Tracing, b: &Tracing) -> bool {
        let extents = a.extent().zip(b.extent());
        extents.is_some_and(|([a_low, a_high], [b_low, b_high])| {
            a_low.x + b_low.x < self.high.x
                && a_high.x + b_high.x > self.low.x
                && a_low.y + b_low.y < self.high.y
                && a_high.y + b_high.y > self.low.y
        })
    }

    /// The part of a ring in the frame, winding about every place in it as the whole does; `None` where the ring lies
    /// outside. What runs along the frame's edge may run back and forth.
    fn part(&self, ring: &Ring) -> Option<Ring> {
        let (low, high) = bounds(ring.0.iter().copied())?;
        let outside = high.x <= self.low.x
            || low.x >= self.high.x
            || high.y <= self.low.y
            || low.y >= self.high.y;
        if outside {
            return None;
        }
        let mut part = ring.clone();
        if low.x < self.low.x {
            part = part.where_positive(|p| p.x - self.low.x);
        }
        if high.x > self.high.x {
            part = part.where_positive(|p| self.high.x - p.x);
        }
        if low.y < self.low.y {
            part = part.where_positive(|p| p.y - self.low.y);
        }
        if high.y > self.high.y {
            part = part.where_positive(|p| self.high.y - p.y);
        }
        Some(part)
    }
}

/// Sides that are held off farther than the whole lot is, those that follow one another at one
/// distance joined.
fn chains(sides: &[Vec<Point>], apart: &[Option<f64>], least: f64) -> Vec<(f64, Vec<Point>)> {
    let mut chains: Vec<(f64, Vec<Point>)> = Vec::new();
    let mut open = false;
    for (side, apart) in sides.iter().zip(apart) {
        let farther = apart.filter(|apart| *apart > least + SAME);
        match (chains.last_mut(), farther) {
            (Some((last, chain)), Some(apart)) if open && (*last - apart).abs() < SAME => {
                chain.extend(side.iter().skip(1));
            }
            (_, Some(apart)) => chains.push((apart, side.clone())),
            (_, None) => {}
        }
        open = farther.is_some();
    }
    chains
}
