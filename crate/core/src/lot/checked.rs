//! The validated lot: its boundary, its sides, how it closes and what it encloses.

use super::area::AreaComparison;
use super::cautions::{area_caution, balance_note, closing_caution, not_closed};
use super::curve::chord_fits;
use super::record::{Balance, CourseShape, LineKind, LotRecord};
use super::traverse::{Closure, Traverse};
use crate::finding::said;
use crate::finding::{Caveat, Finding, Message, any_fault};
use crate::geom::{COORDINATE_LIMIT, Outline, Segment, Vector};
use crate::math::TURN;
use crate::units::{Measure, System, nearest_eighth, show};

/// A lot that closes worse than this has a wrong or missing course; it is no lot (our choice).
const NOT_CLOSED: f64 = 100.0;

/// One side of the checked lot.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// Index of the course it came from.
    pub course: usize,
    /// Its kind.
    pub kind: LineKind,
    /// Its shape, walked counter-clockwise round the lot.
    pub segment: Segment,
    /// What the plan calls it: the name that somebody gave it, or else its kind and where it faces.
    pub label: Message,
}

/// The checked lot.
#[derive(Debug, Clone, PartialEq)]
pub struct Lot {
    /// The boundary, counter-clockwise.
    pub outline: Outline,
    /// Its sides, in the order of the outline's segments.
    pub sides: Vec<Side>,
    /// How well the courses close.
    pub closure: Closure,
    /// Area inside the courses, arcs exact, m2.
    pub area: f64,
    /// The stated area beside it, where one is stated.
    pub area_comparison: Option<AreaComparison>,
    /// The ratio that was asked for, the x of 1:x, where the courses close worse.
    pub closes_worse_than: Option<f64>,
}

impl Lot {
    /// Checks a lot. Cautions come with it: courses that close worse than asked, an area
    /// that is not the stated one. Places are `/courses/2/shape/line/distance` and the like.
    ///
    /// # Errors
    /// Every fault at once: too few courses, figures that are not finite or out of range, a
    /// radius too small for its chord, courses that do not come back, a boundary that crosses
    /// itself or encloses nothing.
    pub fn check(record: &LotRecord) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        let mut faults = record_faults(record);
        if any_fault(&faults) {
            return Err(faults);
        }
        let traverse = Traverse::of(record);
        let closure = traverse.closure;
        if closure.ratio.is_some_and(|ratio| ratio < NOT_CLOSED) {
            faults.push(not_closed(&closure));
        }
        let corners = match record.balance {
            Some(Balance::CompassRule) => traverse.balanced(),
            None => traverse.vertices,
        };
        let outline = match Outline::check(corners) {
            Ok(outline) if faults.is_empty() => outline,
            Ok(_) => return Err(faults),
            Err(found) => {
                faults.extend(found.into_iter().map(|f| f.under("/courses")));
                return Err(faults);
            }
        };
        let area = outline.area();
        let area_comparison = record.stated_area.and_then(|s| AreaComparison::of(s, area));
        let mut findings = Vec::new();
        findings.extend(closing_caution(&closure, record));
        findings.extend(balance_note(&closure, record));
        findings.extend(area_comparison.and_then(|c| area_caution(&c)));
        let lot = Self {
            sides: sides(record, &outline),
            outline,
            closure,
            area,
            area_comparison,
            closes_worse_than: closure
                .ratio
                .and_then(|ratio| (ratio < record.closing_ratio).then_some(record.closing_ratio)),
        };
        Ok((lot, findings))
    }

    /// Why every figure of the lot, and every distance to its sides, is weaker than it looks.
    pub fn caveats(&self) -> Vec<Caveat> {
        self.closes_worse_than
            .map(|_| Caveat::PoorClosure)
            .into_iter()
            .collect()
    }

    /// That the lot closes worse than was asked, in a sentence; `None` when it does not.
    pub fn poor_closure(&self) -> Option<String> {
        let asked = show(Measure::Closing, self.closes_worse_than?, System::Feet);
        Some(format!("The lot does not close within {}.", asked.text))
    }
}

/// Collects the faults of plain figures.
fn record_faults(record: &LotRecord) -> Vec<Finding> {
    let mut faults = Vec::new();
    let mut fault = |check, place: String, message: &'static str, remedy: &'static str| {
        faults.push(Finding::fault(check, message, remedy).under(&place));
    };
    let start = record.start;
    let near = -COORDINATE_LIMIT..=COORDINATE_LIMIT;
    if !(near.contains(&start.x) && near.contains(&start.y)) {
        fault(
            "lot-start",
            "/start".to_owned(),
            "The lot starts too far from the site's origin.",
            "Bring the lot to a local origin, within 10,000 m.",
        );
    }
    if !(record.closing_ratio.is_finite() && record.closing_ratio >= 1.0) {
        fault(
            "closing-ratio",
            "/closing_ratio".to_owned(),
            "The closing ratio is not a number of 1 or more.",
            "Give the x of 1:x, such as 5000.",
        );
    }
    if record
        .stated_area
        .is_some_and(|a| !(a.is_finite() && a > 0.0))
    {
        fault(
            "stated-area",
            "/stated_area".to_owned(),
            "The stated area is not above zero.",
            "Give the area of the deed in square meters, or leave it out.",
        );
    }
    if record
        .basis
        .true_north
        .is_some_and(|b| !(-100.0 * TURN..=100.0 * TURN).contains(&b))
    {
        fault(
            "true-north",
            "/basis/true_north".to_owned(),
            "The bearing of true north is not a plain number of radians.",
            "Give the bearing clockwise from the lot's own north, or leave it out.",
        );
    }
    let curved = |shape: &CourseShape| matches!(shape, CourseShape::Curve { .. });
    let needed = if record.courses.iter().any(|c| curved(&c.shape)) {
        2
    } else {
        3
    };
    if record.courses.len() < needed {
        fault(
            "courses",
            "/courses".to_owned(),
            "The lot has too few courses to enclose anything.",
            "Give three straight courses or more, or two of which one is curved.",
        );
    }
    for (i, course) in record.courses.iter().enumerate() {
        let place = |field: &str| format!("/courses/{i}/shape/{field}");
        let (form, bearing, length) = match course.shape {
            CourseShape::Line { bearing, distance } => {
                (["line/bearing", "line/distance"], bearing, distance)
            }
            CourseShape::Curve {
                chord_bearing,
                chord,
                ..
            } => (["curve/chord_bearing", "curve/chord"], chord_bearing, chord),
        };
        let [bearing_field, length_field] = form;
        // A hundred turns either way: typed bearings are within one.
        if !(-100.0 * TURN..=100.0 * TURN).contains(&bearing) {
            fault(
                "course-bearing",
                place(bearing_field),
                "The bearing of this course is not a plain number of radians.",
                "Give the bearing clockwise from north, 0 to 2 pi.",
            );
        }
        if !(length > 0.0 && length <= 2.0 * COORDINATE_LIMIT) {
            fault(
                "course-length",
                place(length_field),
                "The length of this course is not above zero, or not within 20,000 m.",
                "Give its length in meters; go back by the bearing, not by a minus sign.",
            );
        } else if let CourseShape::Curve { chord, radius, .. } = course.shape
            && !chord_fits(chord, radius)
        {
            fault(
                "course-radius",
                place("curve/radius"),
                "The radius of this curve is less than half its chord.",
                "Check radius and chord: no circle so small spans that chord.",
            );
        }
    }
    faults
}

/// The sides of the outline, each with the course it came from.
fn sides(record: &LotRecord, outline: &Outline) -> Vec<Side> {
    let last = record.courses.len().saturating_sub(1);
    let mut sides: Vec<Side> = outline
        .segments()
        .enumerate()
        .filter_map(|(i, segment)| {
            let index = if outline.was_clockwise() { last - i } else { i };
            let course = record.courses.get(index)?;
            let label = course
                .label
                .clone()
                .filter(|label| !label.trim().is_empty())
                .map_or_else(
                    || {
                        said!(
                            "{kind} ({faces})",
                            kind = course.kind.words(),
                            faces = faces(&segment)
                        )
                    },
                    Message::kept,
                );
            Some(Side {
                course: index,
                kind: course.kind,
                segment,
                label,
            })
        })
        .collect();
    number_twins(&mut sides);
    sides
}

/// The point of the compass toward which a side of the counter-clockwise boundary faces.
fn faces(segment: &Segment) -> &'static str {
    let along: Vector = segment.to() - segment.from();
    nearest_eighth((-along.left()).bearing())
}

/// Adds the course's number where two sides would be called alike.
fn number_twins(sides: &mut [Side]) {
    let labels: Vec<Message> = sides.iter().map(|s| s.label.clone()).collect();
    for side in sides {
        let alike = labels.iter().filter(|label| **label == side.label).count();
        if alike > 1 {
            side.label = said!(
                "{side}, course {number}",
                side = std::mem::take(&mut side.label),
                number = (side.course + 1).to_string(),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::super::record::Turn;
    use super::*;
    use crate::geom::{Point, Vertex};

    fn rectangle() -> LotRecord {
        let corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)];
        let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
        use LineKind::*;
        LotRecord::from_outline(&corners, &[Front, Side, Rear, Side])
    }

    fn places(record: &LotRecord) -> Vec<String> {
        let faults = Lot::check(record).unwrap_err();
        assert!(faults.iter().all(|f| f.is_fault() && !f.remedy.is_empty()));
        faults.into_iter().map(|f| f.pointer).collect()
    }

    #[test]
    fn a_rectangle_has_four_sides_that_know_their_kind() {
        let (lot, findings) = Lot::check(&rectangle()).unwrap();
        assert!(findings.is_empty());
        assert!((lot.area - 1200.0).abs() < 1e-9);
        let labels: Vec<&str> = lot.sides.iter().map(|s| s.label.as_str()).collect();
        assert_eq!(
            labels,
            [
                "front line (south)",
                "side line (east)",
                "rear line (north)",
                "side line (west)"
            ]
        );
    }

    #[test]
    fn a_clockwise_description_keeps_its_kinds() {
        let corners = [(0.0, 0.0), (0.0, 40.0), (30.0, 40.0), (30.0, 0.0)];
        let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
        use LineKind::*;
        let record = LotRecord::from_outline(&corners, &[Side, Rear, Side, Front]);
        let (lot, _) = Lot::check(&record).unwrap();
        for side in &lot.sides {
            let middle = side.segment.point_at(0.5);
            let course = record.courses.get(side.course).unwrap();
            assert_eq!(side.kind, course.kind);
            match side.kind {
                Front => assert!(middle.y.abs() < 1e-9),
                Rear => assert!((middle.y - 40.0).abs() < 1e-9),
                _ => assert!((middle.y - 20.0).abs() < 1e-9),
            }
        }
    }

    #[test]
    fn every_fault_is_told_with_its_place() {
        let mut record = rectangle();
        record.closing_ratio = f64::NAN;
        record.stated_area = Some(-1.0);
        record.start = Point::new(f64::INFINITY, 0.0);
        for (course, shape) in record.courses.iter_mut().zip([
            CourseShape::Line {
                bearing: f64::NAN,
                distance: 0.0,
            },
            CourseShape::Curve {
                chord_bearing: 0.0,
                chord: 10.0,
                radius: 4.0,
                turn: Turn::Left,
                long_way: false,
            },
        ]) {
            course.shape = shape;
        }
        assert_eq!(
            places(&record),
            [
                "/start",
                "/closing_ratio",
                "/stated_area",
                "/courses/0/shape/line/bearing",
                "/courses/0/shape/line/distance",
                "/courses/1/shape/curve/radius",
            ]
        );
        record = rectangle();
        record.courses.truncate(2);
        assert_eq!(places(&record), ["/courses"]);
        assert_eq!(places(&LotRecord::default()), ["/courses"]);
    }

    #[test]
    fn a_wrong_quadrant_is_a_fault_and_a_small_gap_a_caution() {
        let mut record = rectangle();
        *distance_of(&mut record, 1) += 0.05;
        let (lot, findings) = Lot::check(&record).unwrap();
        assert!((lot.closure.ratio.unwrap() - 140.05 / 0.05).abs() < 1e-6);
        assert_eq!(lot.caveats(), [Caveat::PoorClosure]);
        assert_eq!(
            lot.poor_closure().as_deref(),
            Some("The lot does not close within 1:5,000.")
        );
        record.closing_ratio = 2000.0;
        assert_eq!(Lot::check(&record).unwrap().0.caveats(), []);
        record.closing_ratio = 5000.0;
        assert_eq!(findings.first().unwrap().code, "lot-closure");
        *distance_of(&mut record, 1) = 45.0;
        assert_eq!(places(&record), ["/courses"]);
    }

    #[test]
    fn corners_are_balanced_on_request_and_the_courses_stay() {
        let mut record = rectangle();
        *distance_of(&mut record, 1) += 0.05;
        let courses = record.courses.clone();
        record.balance = Some(Balance::CompassRule);
        let (lot, findings) = Lot::check(&record).unwrap();
        let checks: Vec<_> = findings.iter().map(|f| f.code).collect();
        assert_eq!(checks, ["lot-closure", "lot-balanced"]);
        assert_eq!(record.courses, courses);
        // The second corner moves south by its share of 0.05: (30 of 140.05).
        let south = -0.05 * 30.0 / 140.05;
        let corner = Point::new(30.0, south);
        assert!(
            lot.sides
                .iter()
                .any(|s| s.segment.from().distance(corner) < 1e-9)
        );
        let exact = LotRecord {
            balance: record.balance,
            ..rectangle()
        };
        assert!(Lot::check(&exact).unwrap().1.is_empty());
        let text = serde_json::to_string(&record).unwrap();
        assert!(text.contains("\"balance\":\"compass-rule\""));
        assert!(
            !serde_json::to_string(&rectangle())
                .unwrap()
                .contains("balance")
        );
    }

    fn distance_of(record: &mut LotRecord, index: usize) -> &mut f64 {
        match &mut record.courses.get_mut(index).unwrap().shape {
            CourseShape::Line { distance, .. } => distance,
            CourseShape::Curve { chord, .. } => chord,
        }
    }

    #[test]
    fn an_area_that_is_not_the_stated_one_is_a_caution() {
        let mut record = rectangle();
        record.stated_area = Some(1195.0);
        assert!(Lot::check(&record).unwrap().1.is_empty());
        record.stated_area = Some(1500.0);
        let (lot, findings) = Lot::check(&record).unwrap();
        assert!((lot.area_comparison.unwrap().difference + 0.2).abs() < 1e-12);
        let caution = findings.first().unwrap();
        assert_eq!(
            (caution.code, caution.pointer.as_str()),
            ("lot-area", "/stated_area")
        );
        assert!(
            caution.message.ends_with("20.0% less."),
            "{}",
            caution.message
        );
    }

    #[test]
    fn a_half_disc_of_two_courses_is_a_lot() {
        let corners = [Vertex::line(0.0, 0.0), Vertex::arc(20.0, 0.0, 1.0)];
        let (lot, _) = Lot::check(&LotRecord::from_outline(&corners, &[])).unwrap();
        assert!((lot.area - 50.0 * core::f64::consts::PI).abs() < 1e-6);
        assert_eq!(lot.sides.len(), 2);
    }
}
