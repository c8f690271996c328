//! Hours of sun everywhere on a lot, on a grid: what a search promises by, in no time a place.
//!
//! Shade is worked out once for each look at the day and rows of points are cut out of it. What a place has is read off
//! the grid, so that thousands of places cost no more than their points; whichever is told is worked out anew.

use super::calendar::SunDay;
use super::casters::Casters;
use super::position::{EarthPlace, spells, sun_at};
use crate::finding::Finding;
use crate::geom::boolean::union_of;
use crate::geom::winding::stretches;
use crate::geom::{Point, Region, Ring, Vector, region};
use crate::site::CheckedSite;

/// From one point of the grid to the next, meters (our choice).
const CELL: f64 = 0.5;

/// From one look at the day to the next, minutes (our choice).
const LOOK: f64 = 15.0;

/// No more points than this along a side: the grid of a large lot is coarser.
const MOST: f64 = 400.0;

/// Hours of sun over a lot on one day.
#[derive(Debug, Clone)]
pub struct SunField {
    /// The point of the first column and row.
    corner: Point,
    cell: f64,
    columns: usize,
    /// Seconds of sun, row by row from the south.
    seconds: Vec<f64>,
}

impl SunField {
    /// That of a site on a level plane at an elevation.
    ///
    /// # Errors
    /// A site without a place on the earth.
    pub fn of(site: &CheckedSite, day: &SunDay, plane: f64) -> Result<Self, Finding> {
        let place = EarthPlace::of(site.site()).ok_or_else(super::no_place)?;
        let casters = Casters::of(site);
        let lot = site.lot().region.bounds().unwrap_or_default();
        let mut field = Self::empty(lot);
        let solids: Vec<&super::Solid> = casters.all.iter().flat_map(|it| &it.solids).collect();
        let posts = solids.iter().flat_map(|it| it.posts()).map(|it| it.at);
        let reach = region::bounds(posts.chain([lot.0, lot.1]))
            .map_or(0.0, |(low, high)| low.distance(high));
        for spell in spells(&place, day) {
            let looks = ((spell.to - spell.from) / LOOK).ceil().max(1.0);
            let each = (spell.to - spell.from) / looks;
            let mut i = 0.5;
            while i < looks {
                let sun = sun_at(&place, day, spell.from + i * each);
                let light = sun.light(&place, plane, reach);
                let shades: Vec<Region> = solids.iter().map(|it| it.shade(&light)).collect();
                field.add(&union_of(&shades), each * 60.0);
                i += 1.0;
            }
        }
        Ok(field)
    }

    fn empty((low, high): (Point, Point)) -> Self {
        let (wide, deep) = (high.x - low.x, high.y - low.y);
        let cell = (wide.max(deep) / MOST).max(CELL);
        // Within MOST, and so within the type.
        let count = |long: f64| (long / cell).ceil() as usize + 1;
        let columns = count(wide);
        Self {
            corner: low,
            cell,
            columns,
            seconds: vec![0.0; columns * count(deep)],
        }
    }

    /// So many seconds more wherever there is no shade.
    fn add(&mut self, shade: &Region, seconds: f64) {
        let rings: Vec<Ring> = shade.rings().cloned().collect();
        let east = Vector::new(1.0, 0.0);
        for (row, line) in self.seconds.chunks_mut(self.columns).enumerate() {
            let from = self.corner + Vector::new(0.0, row as f64 * self.cell);
            let dark = stretches(from, east, &rings);
            for (column, here) in line.iter_mut().enumerate() {
                let station = column as f64 * self.cell;
                if !dark.iter().any(|(a, b)| (*a..=*b).contains(&station)) {
                    *here += seconds;
                }
            }
        }
    }

    /// Seconds of sun at a point, between those of the grid round it; none off the grid.
    pub fn at(&self, p: Point) -> f64 {
        let off = (p - self.corner) * (1.0 / self.cell);
        if off.x < 0.0 || off.y < 0.0 {
            return 0.0;
        }
        let (column, row) = (off.x.floor(), off.y.floor());
        let (east, north) = (off.x - column, off.y - row);
        let first = row as usize * self.columns + column as usize;
        if column as usize + 1 >= self.columns {
            return 0.0;
        }
        let here = |index: usize| self.seconds.get(index).copied().unwrap_or(0.0);
        let along = |index: usize| here(index) * (1.0 - east) + here(index + 1) * east;
        along(first) * (1.0 - north) + along(first + self.columns) * north
    }

    /// The mean over some points, seconds.
    pub fn mean(&self, points: impl Iterator<Item = Point>) -> f64 {
        let (sum, count) = points.fold((0.0, 0.0), |(sum, count), p| {
            (sum + self.at(p), count + 1.0)
        });
        if count > 0.0 { sum / count } else { 0.0 }
    }
}
