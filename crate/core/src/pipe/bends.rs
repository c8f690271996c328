//! How many bends a way takes, and places set evenly along it.

use crate::geom::Point;
use crate::geom::clip::length;
use crate::units::constants::DEGREE;

/// A turn below this is a sweep that pipe follows, radians: 20 degrees, common practice.
pub const LEAST_BEND: f64 = 20.0 * DEGREE;

/// Pipe follows a curve that turns less than [`LEAST_BEND`] within this length, meters: a radius
/// of 1.4 m and more.
const WINDOW: f64 = 0.5;

/// What one bend turns, radians.
const QUARTER: f64 = 90.0 * DEGREE;

/// The most places along one way: more stand for a spacing nobody meant.
const MOST: f64 = 2000.0;

/// Bends along a way: one for every turn of more than [`LEAST_BEND`] within half a meter, and one
/// more for each further quarter turn there.
pub(super) fn count(way: &[Point]) -> u32 {
    let mut turns: Vec<(f64, f64)> = Vec::new();
    let mut station = 0.0;
    let mut heading = None;
    for (a, b) in way.iter().zip(way.iter().skip(1)) {
        let Some(next) = (*b - *a).unit() else {
            continue;
        };
        if let Some(before) = heading.replace(next) {
            let turn = crate::math::atan2(next.cross(before).abs(), next.dot(before));
            turns.push((station, turn));
        }
        station += a.distance(*b);
    }
    let mut bends = 0;
    let mut rest = turns.as_slice();
    while let Some((first, _)) = rest.first() {
        let near = rest.iter().take_while(|(at, _)| at - first <= WINDOW);
        let (number, turn) = near.fold((0, 0.0), |(n, sum), (_, turn)| (n + 1, sum + turn));
        if turn > LEAST_BEND {
            bends += ((turn - LEAST_BEND) / QUARTER).ceil().clamp(1.0, 4.0) as u32;
            rest = rest.get(number..).unwrap_or_default();
        } else {
            rest = rest.get(1..).unwrap_or_default();
        }
    }
    bends
}

/// Places evenly along a way, none farther from the next than `most`, the first and the last half
/// as far from the ends.
pub(super) fn evenly(way: &[Point], most: f64) -> Vec<Point> {
    let whole = length(way);
    if whole <= 0.0 {
        return Vec::new();
    }
    let count = (whole / most - 1e-9).ceil().clamp(1.0, MOST);
    let step = whole / count;
    let mut places: Vec<Point> = Vec::with_capacity(count as usize);
    let mut station = 0.0;
    for (a, b) in way.iter().zip(way.iter().skip(1)) {
        let long = a.distance(*b);
        if long <= 0.0 {
            continue;
        }
        loop {
            let next = (places.len() as f64 + 0.5) * step;
            if next > station + long || places.len() as f64 >= count {
                break;
            }
            places.push(*a + (*b - *a) * ((next - station) / long));
        }
        station += long;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Vector;

    fn arc(radius: f64, sweep: f64) -> Vec<Point> {
        let steps = 40;
        let at = |k| Vector::at_angle(sweep * f64::from(k) / f64::from(steps)) * radius;
        (0..=steps).map(|k| Point::default() + at(k)).collect()
    }

    #[test]
    fn corners_are_bends_and_wide_curves_are_none() {
        let way = [[0.0, 0.0], [3.0, 0.0], [3.0, 3.0], [6.0, 3.2], [9.0, 0.0]].map(Point::from);
        // A quarter turn right and left, then half of one.
        assert_eq!(count(&way), 3);
        assert_eq!(count(&arc(3.0, 3.0)), 0);
        assert_eq!(count(&arc(0.15, 90.0 * DEGREE)), 1);
        assert_eq!(count(&arc(0.15, 180.0 * DEGREE)), 2);
        assert_eq!(count(&way[..2]), 0);
        assert_eq!(count(&[]), 0);
    }

    #[test]
    fn places_are_even_and_no_farther_apart_than_asked() {
        let way = [[0.0, 0.0], [3.0, 0.0], [3.0, 2.0]].map(Point::from);
        let straps = evenly(&way, 1.2);
        assert_eq!(straps.len(), 5);
        assert!(straps[0].distance(Point::new(0.5, 0.0)) < 1e-12);
        assert!(straps[4].distance(Point::new(3.0, 1.5)) < 1e-12);
        assert!(evenly(&way[..1], 1.0).is_empty());
    }
}
