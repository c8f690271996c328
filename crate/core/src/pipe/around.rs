//! The way round a shell, beside its wall.

use crate::geom::offset::offset_region;
use crate::geom::{DRAWING_TOLERANCE, Point, Region};
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// What of the pipe depends on the shell and the settings alone, shell frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Around {
    /// The curve that pipe follows round the shell.
    pub way: Closed,
    /// Everything inside that curve.
    pub within: Region,
    /// The water's edge.
    pub water: Closed,
}

impl Around {
    /// Of a shell whose pipe keeps `works.pipe.off_wall` from its wall.
    pub fn new(shell: &Shell, works: &ConstructionSettings) -> Self {
        let out = shell.record.wall_thickness + works.pipe.off_wall;
        let within = offset_region(&shell.footprint, out, DRAWING_TOLERANCE);
        Self {
            way: Closed::of(&within),
            water: Closed::of(&shell.footprint),
            within,
        }
    }
}

/// A closed chain with the distance along it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Closed {
    /// The points, the first repeated at the end.
    points: Vec<Point>,
    /// Distance along the chain to each point, meters.
    stations: Vec<f64>,
}

impl Closed {
    /// The outer edge of the first polygon of a region.
    pub fn of(region: &Region) -> Self {
        let mut points = region
            .polygons
            .first()
            .map_or(Vec::new(), |p| p.outer.0.clone());
        points.extend(points.first().copied());
        let mut stations = Vec::with_capacity(points.len());
        let mut station = 0.0;
        let mut before = points.first().copied();
        for p in &points {
            station += before.map_or(0.0, |b| b.distance(*p));
            stations.push(station);
            before = Some(*p);
        }
        Self { points, stations }
    }

    /// The points, the first repeated at the end.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Length round it, meters.
    pub fn length(&self) -> f64 {
        self.stations.last().copied().unwrap_or(0.0)
    }

    /// The point nearest to `p`, and its distance along the chain, meters.
    pub fn nearest(&self, p: Point) -> Option<(f64, Point)> {
        let edges = self.points.iter().zip(self.points.iter().skip(1));
        let places = edges.zip(&self.stations).filter(|((a, b), _)| a != b);
        let places = places.map(|((a, b), station)| {
            let along = *b - *a;
            let share = ((p - *a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
            (station + along.length() * share, *a + along * share)
        });
        places.min_by(|a, b| a.1.distance(p).total_cmp(&b.1.distance(p)))
    }

    /// The point at a distance along the chain, counted round and round, meters.
    pub fn at(&self, station: f64) -> Option<Point> {
        let around = self.length();
        let station = station - (station / around).floor() * around;
        let pairs = self.points.iter().zip(&self.stations);
        let next = pairs.clone().skip(1);
        for ((a, from), (b, to)) in pairs.zip(next) {
            if station <= *to && to > from {
                return Some(*a + (*b - *a) * ((station - from) / (to - from)));
            }
        }
        self.points.last().copied()
    }

    /// The way from one distance along the chain to another, both ends put in, the shorter way
    /// round (with the chain where both are as long).
    pub fn between(&self, from: f64, to: f64) -> Vec<Point> {
        let around = self.length();
        let ahead = to - from;
        let ahead = ahead - (ahead / around).floor() * around;
        let backward = ahead > around / 2.0;
        let (start, run) = if backward {
            (to, around - ahead)
        } else {
            (from, ahead)
        };
        let mut way: Vec<Point> = self.at(start).into_iter().collect();
        for turn in [0.0, around] {
            let pairs = self.points.iter().zip(&self.stations).skip(1);
            let on = pairs.filter(|(_, s)| **s + turn > start + 1e-9);
            way.extend(
                on.take_while(|(_, s)| **s + turn < start + run - 1e-9)
                    .map(|(p, _)| *p),
            );
        }
        way.extend(self.at(start + run));
        if backward {
            way.reverse();
        }
        way
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::geom::Ring;
    use crate::geom::clip::length;

    fn square() -> Closed {
        let corners = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]];
        Closed::of(&Region::from_ring(Ring(corners.map(Point::from).to_vec())))
    }

    #[test]
    fn the_nearest_place_is_found_with_its_station() {
        let (station, at) = square().nearest(Point::new(5.0, 1.0)).unwrap();
        assert!((station - 5.0).abs() < 1e-12 && at == Point::new(4.0, 1.0));
        assert_eq!(square().at(5.0), Some(Point::new(4.0, 1.0)));
        assert_eq!(square().at(21.0), Some(Point::new(4.0, 1.0)));
    }

    #[test]
    fn the_shorter_way_is_taken_over_the_start_and_backward() {
        for (from, to) in [
            (1.0, 6.0),
            (6.0, 1.0),
            (15.0, 2.0),
            (2.0, 15.0),
            (3.0, 3.0),
            (0.0, 8.0),
        ] {
            let way = square().between(from, to);
            let ahead: f64 = (to - from + 16.0) % 16.0;
            assert!(
                (length(&way) - ahead.min(16.0 - ahead)).abs() < 1e-9,
                "{from} {to}"
            );
            assert!(way[0].distance(square().at(from).unwrap()) < 1e-9);
            assert!(way[way.len() - 1].distance(square().at(to).unwrap()) < 1e-9);
        }
        let corner = square().between(15.0, 2.0);
        assert_eq!(
            corner,
            [[0.0, 1.0], [0.0, 0.0], [2.0, 0.0]].map(Point::from)
        );
    }

    #[test]
    fn nothing_has_no_way() {
        let none = Closed::default();
        assert!(none.nearest(Point::default()).is_none() && none.between(0.0, 1.0).is_empty());
    }
}
