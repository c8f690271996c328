//! A lot changed by its corners: the courses follow, and keep what is known of them.

use super::record::{Course, LotRecord, shape_between};
use super::traverse::Traverse;
use crate::geom::Vertex;

/// What became of the corners besides being moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CornerChange {
    /// Moved, or their edges bent.
    Moved,
    /// The corner with this index is new.
    Added(usize),
    /// The corner that had this index is gone.
    Removed(usize),
}

impl LotRecord {
    /// The corners of the lot in use, one at the start of each course: balanced where the
    /// record asks for it.
    pub fn corners(&self) -> Vec<Vertex> {
        let traverse = Traverse::of(self);
        match self.balance {
            Some(_) => traverse.balanced(),
            None => traverse.vertices,
        }
    }

    /// The lot with its corners changed, as [`LotRecord::corners`] gives them.
    ///
    /// Courses between corners that stay keep their figures to the last digit; the others are
    /// taken from their corners. Kinds, names and monuments stay with their courses: a course cut in
    /// two gives its kind to both parts and its name to the first; of two courses that become one the
    /// longer is kept, at the first one's corner. The balance is dropped where any corner changes,
    /// the deed's text is kept.
    #[must_use]
    pub fn reshaped(&self, corners: &[Vertex], change: CornerChange) -> Self {
        let mut courses = self.courses.clone();
        let mut old = self.corners();
        match change {
            CornerChange::Moved => {}
            CornerChange::Added(index) => {
                let cut = index.checked_sub(1).and_then(|i| courses.get(i));
                let part = cut.map(|course| Course {
                    kind: course.kind,
                    ..Course::of(course.shape)
                });
                if let (Some(part), Some(corner)) = (part, corners.get(index)) {
                    courses.insert(index, part);
                    old.insert(index, *corner);
                }
            }
            CornerChange::Removed(index) if index < courses.len() => {
                let gone = courses.remove(index);
                old.remove(index);
                let kept = index
                    .checked_sub(1)
                    .unwrap_or(courses.len().wrapping_sub(1));
                if let Some(kept) = courses.get_mut(kept)
                    && gone.shape.chord_length() > kept.shape.chord_length()
                {
                    kept.kind = gone.kind;
                    kept.label = gone.label;
                }
            }
            CornerChange::Removed(_) => {}
        }
        let ends = corners.iter().cycle().skip(1);
        let old_ends = old.iter().cycle().skip(1);
        let last = corners.len().saturating_sub(1);
        let mut all_kept = change == CornerChange::Moved;
        for (i, (((course, (from, to)), old_from), old_to)) in courses
            .iter_mut()
            .zip(corners.iter().zip(ends))
            .zip(&old)
            .zip(old_ends)
            .enumerate()
        {
            let stays = from == old_from && to.at == old_to.at && self.balance.is_none();
            // Next to a corner that came or went the course itself is another.
            let touched = match change {
                CornerChange::Moved => false,
                CornerChange::Added(index) => i == index || i + 1 == index,
                CornerChange::Removed(index) => i + 1 == index || index == 0 && i == last,
            };
            if !stays || touched {
                course.shape = shape_between(*from, to.at);
                all_kept = false;
            }
        }
        Self {
            start: corners.first().map_or(self.start, |v| v.at),
            courses,
            balance: if all_kept { self.balance } else { None },
            ..self.clone()
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::super::LineKind;
    use super::*;
    use crate::geom::Point;

    fn lot() -> LotRecord {
        let corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)];
        let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
        use LineKind::*;
        let mut record = LotRecord::from_outline(&corners, &[Front, Side, Rear, Side]);
        record.courses[1].label = Some("along the lane".to_owned());
        record.deed = Some("thence".to_owned());
        record
    }

    fn kinds(record: &LotRecord) -> Vec<LineKind> {
        record.courses.iter().map(|c| c.kind).collect()
    }

    #[test]
    fn courses_away_from_the_corner_keep_their_figures() {
        let before = lot();
        let mut corners = before.corners();
        corners[2].at = Point::new(31.0, 41.0);
        let after = before.reshaped(&corners, CornerChange::Moved);
        assert_eq!(after.courses[0], before.courses[0]);
        assert_eq!(after.courses[3], before.courses[3]);
        assert_ne!(after.courses[1].shape, before.courses[1].shape);
        assert_eq!(after.courses[1].label, before.courses[1].label);
        assert_eq!(after.deed, before.deed);
        assert!(after.corners()[2].at.distance(corners[2].at) < 1e-9);
        // Nothing moved: nothing changed.
        assert_eq!(
            before.reshaped(&before.corners(), CornerChange::Moved),
            before
        );
    }

    #[test]
    fn a_side_cut_in_two_has_one_kind() {
        use LineKind::*;
        let before = lot();
        let mut corners = before.corners();
        corners.insert(2, Vertex::line(33.0, 20.0));
        let after = before.reshaped(&corners, CornerChange::Added(2));
        assert_eq!(kinds(&after), [Front, Side, Side, Rear, Side]);
        assert_eq!(after.courses[2].label, None);
        assert_eq!(after.courses[0], before.courses[0]);
        assert!(after.corners()[3].at.distance(Point::new(30.0, 40.0)) < 1e-9);
        let mut less = after.corners();
        less.remove(2);
        let back = after.reshaped(&less, CornerChange::Removed(2));
        assert_eq!(kinds(&back), kinds(&before));
        assert!(back.corners()[2].at.distance(Point::new(30.0, 40.0)) < 1e-9);
    }

    #[test]
    fn the_first_corner_can_go() {
        use LineKind::*;
        let before = lot();
        let mut corners = before.corners();
        corners.remove(0);
        let after = before.reshaped(&corners, CornerChange::Removed(0));
        assert!(after.start.distance(Point::new(30.0, 0.0)) < 1e-9);
        // The last course and the front became one; the last was the longer.
        assert_eq!(kinds(&after), [Side, Rear, Side]);
        assert!(crate::lot::Lot::check(&after).is_ok());
    }

    #[test]
    fn a_balance_is_dropped_with_the_first_change() {
        let mut before = lot();
        before.courses[3].shape = crate::lot::CourseShape::Line {
            bearing: crate::math::TURN / 2.0,
            distance: 39.9,
        };
        before.balance = Some(crate::lot::Balance::CompassRule);
        let mut corners = before.corners();
        corners[1].at = Point::new(29.0, 0.0);
        let after = before.reshaped(&corners, CornerChange::Moved);
        assert_eq!(after.balance, None);
        for (corner, wanted) in after.corners().iter().zip(&corners) {
            assert!(corner.at.distance(wanted.at) < 1e-9);
        }
    }
}
