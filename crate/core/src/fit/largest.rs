//! The largest rectangle of water of a given proportion that fits anywhere.

use crate::clear_ground::{Bounds, ClearGround};
use crate::geom::offset::offset_region;
use crate::geom::pole::poles;
use crate::geom::{DRAWING_TOLERANCE, Point, Region, Ring};
use crate::math::TURN;
use crate::units::{Measure, System, show};

/// From one heading to the next, degrees.
const STEP: u16 = 2;

/// How far the length told may lie below the greatest at the headings tried, meters.
const FINE: f64 = 0.01;

/// The longest that is looked for, meters.
const LONGEST: f64 = 60.0;

/// A rectangle of water and where it fits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Largest {
    /// Length at the water's edge, meters.
    pub length: f64,
    /// Width at the water's edge, meters.
    pub width: f64,
    /// Its middle, site meters.
    pub at: Point,
    /// Bearing of its length, radians clockwise from north.
    pub heading: f64,
}

impl Largest {
    /// Its size, and where its length points.
    pub fn words(&self, system: System) -> String {
        let text = |measure, value| show(measure, value, system).text;
        format!(
            "{} by {} of water, its length pointing {}, with the work round it as it is round this shell.",
            text(Measure::Length, self.length),
            text(Measure::Length, self.width),
            text(Measure::Heading, self.heading),
        )
    }
}

/// The largest rectangle of `width / length` that fits anywhere by the same rules and with the
/// same work round it as the shell has now, at headings 2 degrees apart. `None` where none of a length of
/// 10 cm fits.
pub fn largest(bounds: &Bounds<'_>, proportion: f64) -> Option<Largest> {
    let (_, out) = bounds.dig_beyond_water();
    let ground = |length: f64| {
        let (x, y) = (length / 2.0, length * proportion / 2.0);
        let ring = [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| Point::new(x, y));
        let water = Region::from_ring(Ring(ring.to_vec()));
        let dig = offset_region(&water, out, DRAWING_TOLERANCE);
        ClearGround::of(&bounds.with_figures([water, dig]))
    };
    let mut best: Option<Largest> = None;
    // A length that fits nowhere at its best heading bounds all others: each heading is asked only
    // whether it beats the best so far.
    for step in 0..180 / STEP {
        let heading = f64::from(step * STEP) * TURN / 360.0;
        let fits = |length: f64| !ground(length).region(heading, false).is_empty();
        let mut low = best.map_or(0.1, |it| it.length + FINE);
        if !fits(low) {
            continue;
        }
        let mut high = LONGEST;
        while high - low > FINE {
            let middle = low.midpoint(high);
            if fits(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        let region = ground(low).region(heading, false);
        let middle = poles(&region).first().map(|it| it.at);
        let corner = || region.polygons.first()?.outer.0.first().copied();
        best = middle.or_else(corner).map(|at| Largest {
            length: low,
            width: low * proportion,
            at,
            heading,
        });
    }
    best
}
