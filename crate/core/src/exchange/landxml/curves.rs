//! What a file told beyond a draft, put into the lot that came from it: true curves, stated areas.

use crate::exchange::import::{Changes, Draft, Order, Position, Role, Settings};
use crate::geom::{Outline, Point, Vertex};
use crate::lot::{Course, LotRecord, Traverse};
use crate::site::Site;

/// Places nearer to each other than this are one corner, meters.
const ONE_CORNER: f64 = 0.001;

/// A curve of a parcel's boundary.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Arc {
    /// The item that the parcel became.
    pub item: usize,
    pub from: Position,
    pub to: Position,
    /// Its bulge with east to the right of north; see [`crate::geom::path`].
    pub bulge: f64,
    /// How many chords stand for it in the draft.
    pub chords: usize,
}

/// A LandXML file as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// What was found, curves as chords within 1 mm.
    pub draft: Draft,
    pub(super) arcs: Vec<Arc>,
    pub(super) areas: Vec<(usize, f64)>,
}

impl Survey {
    /// Puts true curves and the stated area into the lot of changes that were made from this draft with
    /// these settings and roles. Where a curve cannot be found again its chords stay.
    pub fn complete(
        &self,
        changes: &mut Changes,
        settings: &Settings,
        roles: &[Role],
        site: &Site,
    ) {
        let Some(item) = roles.iter().position(|role| *role == Role::Lot) else {
            return;
        };
        let Some(lot) = &mut changes.lot else {
            return;
        };
        let area = self.areas.iter().find(|(of, _)| *of == item);
        lot.stated_area = area.map(|(_, area)| *area);
        let Some(unit) = settings.frame.unit() else {
            return;
        };
        let grid = changes.grid.unwrap_or(site.grid);
        let (east, north) = grid.map_or((0.0, 0.0), |it| (it.easting, it.northing));
        let metres = unit.in_metres();
        // Read the other way round the figure is mirrored, and every curve with it.
        let mirrored = settings.order == Order::EastFirst;
        let placed = |p: &Position| {
            let (n, e) = match mirrored {
                false => (p.first, p.second),
                true => (p.second, p.first),
            };
            Point::new(e * metres - east, n * metres - north)
        };
        let mut kept = 0;
        let straight = lot.courses.len();
        for arc in self.arcs.iter().filter(|arc| arc.item == item) {
            let bulge = if mirrored { -arc.bulge } else { arc.bulge };
            let curved = curved(lot, placed(&arc.from), placed(&arc.to), bulge, arc.chords);
            if let Some(curved) = curved {
                *lot = curved;
                kept += 1;
            }
        }
        if kept == 0 {
            return;
        }
        let courses = lot.courses.len();
        let before = format!("The lot is replaced by one of {straight} courses.");
        for told in changes.told.iter_mut().filter(|it| **it == before) {
            *told =
                format!("The lot is replaced by one of {courses} courses, {kept} of them curves.");
        }
        changes.findings.retain(|it| it.code != "straight-courses");
    }
}

/// The lot with one curve in place of its chords; none where they are not there, or where no boundary
/// would be left.
fn curved(lot: &LotRecord, from: Point, to: Point, bulge: f64, chords: usize) -> Option<LotRecord> {
    let corners = Traverse::of(lot).vertices;
    let count = corners.len();
    let near = |i: usize, p: Point| {
        let corner = corners.get(i % count.max(1));
        corner.is_some_and(|it| it.at.distance(p) < ONE_CORNER)
    };
    let first = (0..count).find(|i| near(*i, from) && near(i + chords, to))?;
    // Walked from the arc's own start, the chords are the first courses.
    let walked = |i: usize| (first + i) % count;
    let course = |i: usize| lot.courses.get(i).cloned();
    let mut vertices = vec![Vertex { at: from, bulge }];
    let mut courses: Vec<Course> = vec![course(first)?];
    for i in (chords..count).map(walked) {
        vertices.push(*corners.get(i)?);
        courses.push(course(i)?);
    }
    // The lot begins where it began, unless that was within the arc.
    let start = (chords..count)
        .position(|i| walked(i) == 0)
        .map_or(0, |i| i + 1);
    vertices.rotate_left(start);
    courses.rotate_left(start);
    Outline::check(vertices.clone()).ok()?;
    let shapes = LotRecord::from_outline(&vertices, &[]);
    for (course, shaped) in courses.iter_mut().zip(&shapes.courses) {
        course.shape = shaped.shape;
    }
    Some(LotRecord {
        start: shapes.start,
        courses,
        ..lot.clone()
    })
}
