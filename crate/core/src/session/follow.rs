//! Bands along a course, tapes to one and fixed points at its beginning, when the courses of the lot change.
//!
//! A band knows its course by number, and so does a tape. Where courses are put in or taken out, those before and
//! behind the change are told apart by being the same as ever, and numbers move with them. Where
//! courses only change their order, each band goes with its own.

use std::sync::Arc;

use super::copy::fresh_id;
use crate::geom::PathRecord;
use crate::geom::path::VertexRecord;
use crate::lot::Course;
use crate::site::{
    CheckedShape, CheckedSite, Feature, FixedPair, FixedPoint, ShapeRecord, Site, Tape, TapeEnd,
};

/// What the note of a band says that has lost its course.
const LOST: &str = "It followed a side of the lot that is no longer there, and keeps the outline \
                    it had: check where it lies now.";

/// Where a course went.
#[derive(Debug, Clone, PartialEq)]
enum Now {
    At(usize),
    /// It was divided into these.
    Divided(usize, usize),
    Gone,
}

/// Has the bands and tapes of a site follow the courses it has now. One whose course was divided is
/// doubled. Where its course is gone, a band keeps its outline, and its note says so; a tape goes.
pub(super) fn courses(site: &mut Site, before: &CheckedSite) {
    let old = &before.site().lot.courses;
    let new = &site.lot.courses;
    let follows = |f: &Feature| matches!(f.shape, ShapeRecord::Along { .. });
    let order = reordered(old, new);
    let as_before = old.len() == new.len() && order.is_none();
    let followed = site.features.iter().any(follows);
    let fixed = site.stakeout.as_ref().is_some_and(|it| it.fixed.is_some());
    if as_before || (!followed && site.tapes.is_empty() && !fixed) {
        return;
    }
    let now = |course: usize| match &order {
        Some(order) => order.get(course).map_or(Now::Gone, |at| Now::At(*at)),
        None => now(old, new, course),
    };
    let mut tapes = Vec::with_capacity(site.tapes.len());
    for tape in &site.tapes {
        for from in ends(&tape.from, now) {
            for to in ends(&tape.to, now) {
                let from = from.clone();
                let tape = Tape { from, to };
                if tape.from != tape.to && !tapes.contains(&tape) {
                    tapes.push(tape);
                }
            }
        }
    }
    site.tapes = tapes;
    if let Some(record) = site.stakeout.as_mut().filter(|_| fixed) {
        let record = Arc::make_mut(record);
        record.fixed = record.fixed.take().and_then(|pair| {
            let (a, b) = (cornered(pair.a, now)?, cornered(pair.b, now)?);
            Some(FixedPair { a, b })
        });
    }
    if !followed {
        return;
    }
    let mut features = Vec::with_capacity(site.features.len());
    for (index, feature) in site.features.iter().enumerate() {
        let ShapeRecord::Along { course, width } = feature.shape else {
            features.push(feature.clone());
            continue;
        };
        let along = |course| Feature {
            shape: ShapeRecord::Along { course, width },
            ..feature.clone()
        };
        match now(course) {
            Now::At(course) => features.push(along(course)),
            Now::Divided(first, last) => {
                features.push(along(first));
                for course in first + 1..=last {
                    let id = fresh_id(&feature.id, site.features.iter().chain(&features));
                    features.push(Feature {
                        id,
                        ..along(course)
                    });
                }
            }
            Now::Gone => features.push(kept(feature, before, index)),
        }
    }
    site.features = Arc::new(features);
}

/// What an end of a tape is held to from now on: both where its course was divided, nothing where
/// that is gone.
fn ends(end: &TapeEnd, now: impl Fn(usize) -> Now) -> Vec<TapeEnd> {
    let TapeEnd::Side(course) = end else {
        return vec![end.clone()];
    };
    match now(*course) {
        Now::At(course) => vec![TapeEnd::Side(course)],
        Now::Divided(first, last) => (first..=last).map(TapeEnd::Side).collect(),
        Now::Gone => Vec::new(),
    }
}

/// A fixed point from now on: the corner at which a course begins goes with it.
fn cornered(point: FixedPoint, now: impl Fn(usize) -> Now) -> Option<FixedPoint> {
    let FixedPoint::Lot(course) = point else {
        return Some(point);
    };
    match now(course) {
        Now::At(course) | Now::Divided(course, _) => Some(FixedPoint::Lot(course)),
        Now::Gone => None,
    }
}

/// Where each course went, when nothing but their order changed.
fn reordered(old: &[Course], new: &[Course]) -> Option<Vec<usize>> {
    if old.len() != new.len() || old == new {
        return None;
    }
    let mut free: Vec<bool> = vec![true; new.len()];
    old.iter()
        .map(|course| {
            let mut places = new.iter().zip(&mut free).enumerate();
            let (at, (_, free)) = places.find(|(_, (other, free))| **free && *other == course)?;
            *free = false;
            Some(at)
        })
        .collect()
}

fn now(old: &[Course], new: &[Course], course: usize) -> Now {
    let same = old.iter().zip(new).take_while(|(a, b)| a == b).count();
    let behind = old.iter().rev().zip(new.iter().rev());
    let most = old.len().min(new.len()) - same;
    let behind = behind.take(most).take_while(|(a, b)| a == b).count();
    let (changed, instead) = (old.len() - same - behind, new.len() - same - behind);
    if course < same {
        Now::At(course)
    } else if course >= old.len() - behind {
        Now::At(new.len() + course - old.len())
    } else if changed == 1 && instead > 1 {
        Now::Divided(same, same + instead - 1)
    } else if instead == 1 {
        Now::At(same)
    } else {
        Now::Gone
    }
}

/// The band as an area of its own, where the checked site before has it.
fn kept(feature: &Feature, before: &CheckedSite, index: usize) -> Feature {
    let checked = before.features().iter().find(|f| f.index == index);
    let same = before.site().features.get(index) == Some(feature);
    let mut kept = feature.clone();
    if let Some(CheckedShape::Area(_, region)) = checked.filter(|_| same).map(|f| &f.shape)
        && let Some(polygon) = region.polygons.first()
    {
        let corners = polygon.outer.0.iter();
        let path = corners.map(|p| VertexRecord::Line([p.x, p.y])).collect();
        kept.shape = ShapeRecord::Area(PathRecord(path));
        if !kept.note.is_empty() {
            kept.note.push(' ');
        }
        kept.note.push_str(LOST);
    }
    kept
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::geom::{Point, Vertex};
    use crate::lot::LotRecord;
    use crate::session::{Command, Session};
    use crate::site::FeatureKind;

    fn lot(corners: &[(f64, f64)]) -> LotRecord {
        let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
        LotRecord::from_outline(&corners, &[])
    }

    /// A square with a band along one of its sides.
    fn with_band(course: usize) -> Session {
        let mut session = Session::new().unwrap();
        let square = lot(&[(0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (0.0, 30.0)]);
        session.apply(Command::SetLot(square)).unwrap();
        let shape = ShapeRecord::Along { course, width: 3.0 };
        let band = Feature::of("band", FeatureKind::Easement, shape);
        session.apply(Command::SetFeatures(vec![band])).unwrap();
        session
    }

    fn bands(session: &Session) -> Vec<(usize, f64)> {
        let site = session.site();
        let areas = site.features().iter().map(|f| match &f.shape {
            CheckedShape::Area(_, region) => region.area(),
            CheckedShape::Track(..) => 0.0,
        });
        let records = site.site().features.iter();
        let courses = records.map(|f| match f.shape {
            ShapeRecord::Along { course, .. } => course,
            _ => usize::MAX,
        });
        courses
            .zip(areas.map(|a| (a * 1e6).round() / 1e6))
            .collect()
    }

    #[test]
    fn a_band_follows_the_lot() {
        let mut session = with_band(2);
        assert_eq!(bands(&session), [(2, 90.0)]);
        let wider = lot(&[(0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)]);
        session.apply(Command::SetLot(wider)).unwrap();
        assert_eq!(bands(&session), [(2, 120.0)]);
        assert!(session.undo());
        assert_eq!(bands(&session), [(2, 90.0)]);
    }

    #[test]
    fn it_stays_where_it_is_when_the_description_begins_elsewhere() {
        let mut session = with_band(2);
        let mut lot = LotRecord::clone(&session.site().site().lot);
        lot.start = Point::new(30.0, 0.0);
        lot.courses.rotate_left(1);
        session.apply(Command::SetLot(lot)).unwrap();
        assert_eq!(bands(&session), [(1, 90.0)]);
    }

    #[test]
    fn its_number_moves_when_a_side_before_it_is_divided() {
        let mut session = with_band(2);
        let corners = [
            (0.0, 0.0),
            (15.0, -4.0),
            (30.0, 0.0),
            (30.0, 30.0),
            (0.0, 30.0),
        ];
        session.apply(Command::SetLot(lot(&corners))).unwrap();
        assert_eq!(bands(&session), [(3, 90.0)]);
    }

    #[test]
    fn a_divided_side_keeps_its_band_along_both_pieces() {
        let mut session = with_band(2);
        let corners = [
            (0.0, 0.0),
            (30.0, 0.0),
            (30.0, 30.0),
            (15.0, 34.0),
            (0.0, 30.0),
        ];
        session.apply(Command::SetLot(lot(&corners))).unwrap();
        let courses: Vec<usize> = bands(&session).iter().map(|b| b.0).collect();
        assert_eq!(courses, [2, 3]);
        let back = lot(&[(0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (0.0, 30.0)]);
        session.apply(Command::SetLot(back)).unwrap();
        assert!(bands(&session).iter().all(|b| b.0 == 2));
    }

    #[test]
    fn a_band_whose_side_is_gone_keeps_its_outline_and_says_so() {
        let mut session = with_band(3);
        let corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 31.0)];
        session.apply(Command::SetLot(lot(&corners))).unwrap();
        assert_eq!(bands(&session), [(usize::MAX, 90.0)]);
        let site = session.site().site();
        assert!(site.features[0].note.contains("no longer there"));
        assert!(session.undo());
        assert_eq!(bands(&session), [(3, 90.0)]);
    }

    #[test]
    fn a_tape_follows_its_side_and_goes_with_it() {
        let mut session = with_band(0);
        let tape = |course| Tape {
            from: TapeEnd::Side(course),
            to: TapeEnd::At(Point::new(10.0, 10.0)),
        };
        let reading = |session: &Session| -> Vec<f64> {
            let tapes = session.analysis().tapes.iter();
            tapes.map(|taped| taped.unwrap().distance).collect()
        };
        session
            .apply(Command::SetTapes(vec![tape(1), tape(3)]))
            .unwrap();
        assert_eq!(reading(&session), [20.0, 10.0]);
        // A corner put into the first side: the numbers of those behind it move.
        let corners = [
            (0.0, 0.0),
            (15.0, -4.0),
            (30.0, 0.0),
            (30.0, 30.0),
            (0.0, 30.0),
        ];
        session.apply(Command::SetLot(lot(&corners))).unwrap();
        assert_eq!(session.site().site().tapes, [tape(2), tape(4)]);
        assert_eq!(reading(&session), [20.0, 10.0]);
        // Its own side divided: a tape to each part.
        let corners = [
            (0.0, 0.0),
            (15.0, -4.0),
            (30.0, 0.0),
            (31.0, 9.0),
            (30.0, 30.0),
            (0.0, 30.0),
        ];
        session.apply(Command::SetLot(lot(&corners))).unwrap();
        assert_eq!(session.site().site().tapes, [tape(2), tape(3), tape(5)]);
        // All of them made one: one tape is enough.
        let corners = [(0.0, 0.0), (15.0, -4.0), (30.0, 0.0)];
        session.apply(Command::SetLot(lot(&corners))).unwrap();
        assert_eq!(session.site().site().tapes, [tape(2)]);
        assert!(session.undo());
        // Sides that are gone take their tapes along; undo brings both back.
        let corners = [(0.0, 0.0), (15.0, -4.0), (28.0, 0.0), (20.0, 20.0)];
        session.apply(Command::SetLot(lot(&corners))).unwrap();
        assert!(session.site().site().tapes.is_empty());
        assert!(session.undo() && session.analysis().tapes.len() == 3);
    }

    #[test]
    fn a_file_with_a_band_along_no_side_is_refused_with_a_remedy() {
        let mut session = with_band(0);
        let shape = ShapeRecord::Along {
            course: 9,
            width: 3.0,
        };
        let band = Feature::of("band", FeatureKind::Easement, shape);
        let faults = session.apply(Command::SetFeatures(vec![band])).unwrap_err();
        assert_eq!(faults[0].pointer, "/features/0/shape/along/course");
        assert!(faults[0].message.contains("side 10") && !faults[0].remedy.is_empty());
    }
}
