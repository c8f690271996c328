//! A closed surface of triangles, in two halves that the line of the section parts.
//!
//! Whole, the halves are drawn without the wall between them; cut, the half beyond the line is drawn with that wall.
//! Either way the surface is closed: every edge of a triangle is the edge of another one, walked the other way.

use std::collections::BTreeMap;

use core::ops::Range;

/// A corner: east, north and elevation, meters.
pub type Corner = [f64; 3];

/// A closed surface of triangles, counter-clockwise as they are seen from outside.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mesh {
    /// Its corners, site meters.
    pub corners: Vec<Corner>,
    /// Its triangles: first those of the half that a cut takes away, then what shows between the halves where the body is
    /// whole, then those of the half that stays, then its wall along the cut.
    pub triangles: Vec<[u32; 3]>,
    /// Where the half that stays begins among the triangles.
    beyond: usize,
    /// Where its wall along the cut begins.
    wall: usize,
}

impl Mesh {
    /// A surface from its four lots of triangles (see [`Self::triangles`]).
    pub(super) fn of(corners: Vec<Corner>, lots: [Vec<[u32; 3]>; 4]) -> Self {
        let [before, between, after, wall] = lots;
        let beyond = before.len() + between.len();
        let start = beyond + after.len();
        let mut triangles = before;
        triangles.extend(between);
        triangles.extend(after);
        triangles.extend(wall);
        Self {
            corners,
            triangles,
            beyond,
            wall: start,
        }
    }

    /// The triangles of the whole body, by their places in the list.
    pub fn whole(&self) -> Range<usize> {
        0..self.wall
    }

    /// The triangles of the body cut along the section.
    pub fn cut(&self) -> Range<usize> {
        self.beyond..self.triangles.len()
    }

    /// How many of the last of these are the cut itself.
    pub fn wall(&self) -> usize {
        self.triangles.len() - self.wall
    }

    /// The corners of some triangles.
    pub fn corners_of(&self, range: Range<usize>) -> impl Iterator<Item = [Corner; 3]> + '_ {
        let triangles = self.triangles.get(range).unwrap_or_default();
        triangles.iter().map(|it| {
            it.map(|i| {
                let corner = self.corners.get(i as usize);
                corner.copied().unwrap_or_default()
            })
        })
    }

    /// The volume that some triangles enclose, m3, by the divergence theorem.
    pub fn volume_of(&self, range: Range<usize>) -> f64 {
        // From a corner of its own: far from the origin digits would be lost.
        let [ox, oy, oz] = self.corners.first().copied().unwrap_or_default();
        let six: f64 = self
            .corners_of(range)
            .map(|corners| {
                let [a, b, c] = corners.map(|[x, y, z]| [x - ox, y - oy, z - oz]);
                dot(a, cross(b, c))
            })
            .sum();
        six / 6.0
    }

    /// The volume of the whole body, m3.
    pub fn volume(&self) -> f64 {
        self.volume_of(self.whole())
    }

    /// Whether some triangles close: every edge is walked as often one way as the other.
    pub fn is_closed(&self, range: Range<usize>) -> bool {
        let mut walked: BTreeMap<(u32, u32), i32> = BTreeMap::new();
        for [a, b, c] in self.triangles.get(range).unwrap_or_default() {
            for (from, to) in [(a, b), (b, c), (c, a)] {
                let (key, way) = if from < to {
                    ((*from, *to), 1)
                } else {
                    ((*to, *from), -1)
                };
                *walked.entry(key).or_default() += way;
            }
        }
        walked.values().all(|times| *times == 0)
    }

    /// Adds the triangles of another surface.
    pub(super) fn add(&mut self, other: Self) {
        let mut lots: [Vec<[u32; 3]>; 4] = Default::default();
        let shift = self.corners.len() as u32;
        for (mesh, by) in [(&*self, 0), (&other, shift)] {
            let ranges = [
                0..mesh.beyond,
                mesh.beyond..mesh.wall,
                mesh.wall..mesh.triangles.len(),
            ];
            for (range, lot) in ranges.into_iter().zip([0, 2, 3]) {
                let moved = mesh.triangles.get(range).unwrap_or_default().iter();
                if let Some(lot) = lots.get_mut(lot) {
                    lot.extend(moved.map(|it| it.map(|i| i + by)));
                }
            }
        }
        let mut corners = core::mem::take(&mut self.corners);
        corners.extend(other.corners);
        *self = Self::of(corners, lots);
    }
}

/// The vector product.
pub(super) fn cross([ax, ay, az]: Corner, [bx, by, bz]: Corner) -> Corner {
    [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx]
}

fn dot([ax, ay, az]: Corner, [bx, by, bz]: Corner) -> f64 {
    ax * bx + ay * by + az * bz
}
