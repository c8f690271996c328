//! How much room one place leaves, measured.

use super::bounds::{Bound, Bounds, Moving, Place};
use crate::geom::distance::{Figure, Measurable, Nearest};
use crate::geom::{Pose, Region};
use crate::math::hypot;

/// What is nearest of all that holds the shell off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tightest {
    /// What holds it off.
    pub bound: Bound,
    /// The slack left, meters; negative where it falls short.
    pub room: f64,
}

/// Everything that holds the shell off, made ready to be measured to at one place after another.
pub struct Ruler<'a> {
    bounds: &'a Bounds<'a>,
    lot: Measurable<'a>,
    places: Vec<(Place, Measurable<'a>)>,
}

impl<'a> Ruler<'a> {
    /// Makes every place ready.
    pub fn of(bounds: &'a Bounds<'a>) -> Self {
        let mut places: Vec<Place> = Vec::new();
        for bound in &bounds.bounds {
            if !places.contains(&bound.place) {
                places.push(bound.place);
            }
        }
        Self {
            bounds,
            lot: Measurable::of(Figure::Area(&bounds.site.lot().region)),
            places: places
                .into_iter()
                .filter_map(|place| Some((place, Measurable::of(bounds.figure(place)?))))
                .collect(),
        }
    }

    /// The slack of every bound at one place, meters, in their order.
    pub fn rooms(&self, pose: &Pose) -> Vec<Tightest> {
        let [water, dig] = self.bounds.figures.each_ref().map(|it| it.posed(pose));
        let mut measured: Vec<(Moving, Place, Option<f64>)> = Vec::new();
        let [water, dig] = [&water, &dig].map(|it: &Region| Measurable::of(Figure::Area(it)));
        let in_lot = [water.within(&self.lot), dig.within(&self.lot)];
        let [water_in, dig_in] = &in_lot;
        let mut measure = |bound: &Bound| {
            let known = measured
                .iter()
                .find(|it| it.0 == bound.moving && it.1 == bound.place);
            if let Some((_, _, apart)) = known {
                return *apart;
            }
            let (figure, within) = match bound.moving {
                Moving::Water => (&water, water_in),
                Moving::Dig => (&dig, dig_in),
            };
            let nearest: Option<Nearest> = match bound.place {
                Place::Side(side) => self.bounds.side(side).and_then(|it| within.nearest(it)),
                place => {
                    let ready = self.places.iter().find(|(it, _)| *it == place);
                    ready.and_then(|(_, it)| figure.nearest(it))
                }
            };
            let apart = nearest.map(|it| it.distance);
            measured.push((bound.moving, bound.place, apart));
            apart
        };
        let bounds = self.bounds.bounds.iter();
        bounds
            .filter_map(|bound| {
                Some(Tightest {
                    bound: *bound,
                    room: measure(bound)? - bound.apart,
                })
            })
            .collect()
    }

    /// What is nearest at one place; `None` where nothing holds the shell off.
    pub fn tightest(&self, pose: &Pose) -> Option<Tightest> {
        let rooms = self.rooms(pose).into_iter();
        rooms.reduce(|a, b| if b.room < a.room { b } else { a })
    }

    /// How far the farthest point of what moves lies from the shell's middle, meters: a turn by so
    /// many radians moves nothing farther than this many times as much.
    pub fn reach(&self) -> f64 {
        let rings = self.bounds.figures.iter().flat_map(Region::rings);
        let points = rings.flat_map(|ring| ring.0.iter());
        points.map(|p| hypot(p.x, p.y)).fold(0.0, f64::max)
    }
}
