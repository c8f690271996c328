//! The course back to the beginning that states no distance: "thence West to the point of
//! beginning". The courses before it say how long it is.

use core::ops::Range;

use super::super::record::{CourseShape, LotRecord};
use super::super::traverse::Traverse;
use super::clause::{Clause, Mark, Trouble};
use super::direction::AGREES;
use super::walk::{Walk, is_odd};
use crate::geom::Vector;
use crate::math::{wrap_half_turn, wrap_turn};
use crate::units::{Measure, show};

/// Without a bearing, "to the beginning" is a course only where the others miss the beginning by
/// more than this share of their length (our choice): below it, they close but for rounding.
const CLOSES: f64 = 0.01;

/// Words that lead straight back.
const STRAIGHT: [&str; 6] = ["straight", "direct", "directly", "home", "back", "again"];

impl Walk<'_> {
    /// The course of a clause that runs to the beginning and states no distance, with what was
    /// understood of it. `None` where the clause says anything else.
    pub(super) fn closing(
        &mut self,
        clause: &Clause,
        tokens: &Range<usize>,
    ) -> Option<(CourseShape, Option<Mark>)> {
        let home = *self.homes.iter().find(|home| tokens.contains(home))?;
        let before = tokens.start..home;
        let curved = clause.states_a_curve() || clause.mentions_curve || clause.tangent_to_previous;
        let marked = |at: usize| clause.marks.iter().any(|mark| mark.tokens.contains(&at));
        let number = |at: usize| self.text.is_number(at) && !marked(at);
        if clause.distance.is_some()
            || curved
            || !clause.troubles.is_empty()
            || self.reading.courses.len() < 2
            || before.clone().any(number)
        {
            return None;
        }
        let closure = Traverse::of(&self.reading.record(&LotRecord::default())).closure;
        let back = Vector::new(-closure.easting, -closure.northing);
        let (bearing, distance) = match clause.bearing {
            Some(stated) => (stated, back.dot(Vector::along_bearing(stated))),
            None => {
                let strays =
                    |at: usize| is_odd(self.text, at) && !STRAIGHT.contains(&self.text.word(at));
                if before.clone().any(strays) || back.length() <= closure.traversed * CLOSES {
                    return None;
                }
                (wrap_turn(back.bearing()), back.length())
            }
        };
        if distance <= 0.0 {
            let trouble = Trouble {
                tokens: tokens.clone(),
                message: "This course is said to run to the beginning, but its bearing leads away from it."
                    .to_owned(),
                remedy: "Check the bearings; otherwise write the distance of this course.".to_owned(),
            };
            self.fault("deed-course", &trouble);
            return None;
        }
        let shown = |measure, value| show(measure, value, self.units.system).text;
        let length = shown(Measure::LongLength, distance);
        let mut message = format!(
            "No distance is stated for the course to the beginning; {length} follows from the courses \
             before it."
        );
        let truly = wrap_turn(back.bearing());
        if wrap_half_turn(bearing - truly).abs() > AGREES {
            let truly = shown(Measure::Bearing, truly);
            message.push_str(&format!(
                " The beginning lies at {truly} from there, not on the bearing stated."
            ));
        }
        let remedy = "Closure checks the other courses less well then: compare area and plat.";
        self.caution("deed-closing", home, message, remedy);
        let to = before.rev().find(|at| self.text.word(*at) == "to");
        let mark = to.filter(|at| !marked(*at)).map(|at| Mark {
            tokens: at..home,
            says: format!("distance {length}, back to the beginning"),
        });
        Some((CourseShape::Line { bearing, distance }, mark))
    }
}
