//! One clause as one side of the lot: straight, or a curve, or a fault that says what it lacks.

use core::ops::Range;

use super::super::curve::Elements;
use super::super::record::{Course, CourseShape, Turn};
use super::bend::Bend;
use super::clause::{Clause, Joint, Mark, Trouble};
use super::direction::AGREES;
use super::walk::{Pending, Walk, is_odd};
use super::{AlongStreet, Marked, Understood, along, figures, lead};
use crate::math::{wrap_half_turn, wrap_turn};
use crate::units::{Measure, show};

impl Walk<'_> {
    /// One clause that should hold one side.
    pub(super) fn side(&mut self, tokens: Range<usize>) {
        let tokens = self.after_number(tokens);
        let split = lead::split(self.text, &tokens);
        let head = tokens.start..split.unwrap_or(tokens.end);
        let read = |tokens: Range<usize>| {
            figures::read(self.text, tokens, &self.taken, !self.prose, self.units)
        };
        let mut clause = read(head.clone());
        let mut lead = split.map(|at| (read(at..tokens.end), at..tokens.end));
        let ahead = lead.iter().flat_map(|(next, _)| &next.lengths);
        self.lengths.extend(clause.lengths.iter().chain(ahead));
        if lead.is_none()
            && let Some((shape, mark)) = self.closing(&clause, &tokens)
        {
            self.settle_pending();
            clause.marks.extend(mark);
            return self.take_course(shape, tokens, clause.marks);
        }
        let any_figure = tokens
            .clone()
            .any(|at| self.text.is_number(at) && !self.free(at));
        let empty = clause.marks.is_empty() && clause.troubles.is_empty();
        if empty && !any_figure && (!self.prose || tokens.clone().all(|at| !is_odd(self.text, at)))
        {
            return self.words_only(tokens);
        }
        if let Some((next, _)) = &mut lead {
            clause.troubles.append(&mut next.troubles);
        }
        for trouble in &clause.troubles {
            self.fault("deed-course", trouble);
        }
        let mut marks = core::mem::take(&mut clause.marks);
        let shape = match self.straight(&clause, head.start) {
            Some(shape) => {
                self.settle_pending();
                if clause.bend != Bend::default() {
                    self.pending = Some(Pending {
                        clause: clause.clone(),
                        marks: Vec::new(),
                        trouble: Some(unused_curve(&head)),
                    });
                }
                Some(shape)
            }
            None => self.curve(&clause, &head, &mut marks),
        };
        if let Some(shape) = shape.filter(|_| clause.troubles.is_empty()) {
            self.take_course(shape, head.clone(), marks);
        } else if clause.troubles.is_empty() && shape.is_none() && !self.told(&head) {
            self.fault("deed-course", &lacking(&clause, head.clone()));
        }
        if let Some((mut next, words)) = lead.filter(|(next, _)| next.states_a_curve()) {
            self.settle_pending();
            let marks = core::mem::take(&mut next.marks);
            let loses = next.bends() || next.stated.radial.is_some();
            self.pending = Some(Pending {
                clause: next,
                marks,
                trouble: loses.then(|| unused_curve(&words)),
            });
        }
    }

    /// Keeps a course with everything that was understood of it.
    fn take_course(&mut self, shape: CourseShape, tokens: Range<usize>, marks: Vec<Mark>) {
        let index = self.reading.courses.len();
        self.reading.courses.push(Course::of(shape));
        if let Some((words, name)) = along::street(self.text, tokens.clone()) {
            let says = if name.is_empty() {
                "runs along a street".to_owned()
            } else {
                format!("runs along {name}")
            };
            // The figures that stand among the words keep their own marks.
            let clear = |m: &Mark| m.tokens.start >= words.end || m.tokens.end <= words.start;
            if marks.iter().all(clear) {
                self.mark(words, Understood::Course(index), says, "");
            }
            self.reading.streets.push(AlongStreet {
                course: index,
                name,
            });
        }
        let mut read: Vec<bool> = vec![false; tokens.len()];
        for mark in marks {
            for at in mark.tokens.clone() {
                if let Some(slot) = at.checked_sub(tokens.start).and_then(|i| read.get_mut(i)) {
                    *slot = true;
                }
            }
            self.mark(mark.tokens, Understood::Course(index), mark.says, "");
        }
        self.left_over(&tokens, &read);
    }

    /// A straight side, by its bearing or because it runs on from the curve before it.
    fn straight(&mut self, clause: &Clause, at: usize) -> Option<CourseShape> {
        let before = self.reading.courses.last().map(|c| end_bearing(&c.shape));
        let runs_on = clause.tangent_to_previous && !clause.bends() && clause.turn.is_none();
        if let (Some(asked), true) = (before, runs_on) {
            match (clause.bearing, clause.distance) {
                (None, Some(distance)) => {
                    let bearing = wrap_turn(asked);
                    return Some(CourseShape::Line { bearing, distance });
                }
                (Some(stated), Some(_)) if wrap_half_turn(stated - asked).abs() > AGREES => {
                    let shown = |v| show(Measure::Bearing, wrap_turn(v), self.units.system).text;
                    let message = format!(
                        "The course is called tangent to the curve before it, which ends at {}, but {} is \
                         stated and was used.",
                        shown(asked),
                        shown(stated)
                    );
                    let remedy = "Check the bearings and the figures of the curve.";
                    self.caution("deed-tangency", at, message, remedy);
                }
                _ => {}
            }
        }
        clause.straight()
    }

    /// Whether a token is taken by an area or the point of beginning.
    fn free(&self, at: usize) -> bool {
        self.taken.get(at).copied().unwrap_or(false)
    }

    /// Whether a fault stands in these tokens already.
    fn told(&self, tokens: &Range<usize>) -> bool {
        let unread =
            |m: &Marked| m.understood == Understood::Unread && tokens.contains(&m.tokens.start);
        self.marked.iter().any(unread)
    }

    /// A line such as "Beginning at an iron pin", in a list.
    fn words_only(&mut self, tokens: Range<usize>) {
        for at in tokens {
            if !self.free(at) && self.text.word(at) == "beginning" {
                self.take(
                    at..at + 1,
                    Understood::Beginning,
                    "where it begins".to_owned(),
                );
            }
        }
    }

    /// The clause without the number of a list before it: `1.`, `2)`, `L3:`.
    fn after_number(&self, tokens: Range<usize>) -> Range<usize> {
        let text = self.text;
        let mut at = tokens.start;
        let lettered = matches!(text.word(at), "l" | "c" | "course" | "line" | "curve")
            && text.is_number(at + 1)
            && matches!(text.mark(at + 2), '.' | ')' | ':');
        at += usize::from(lettered || text.mark(at) == '(');
        let listed = text.is_number(at) && matches!(text.mark(at + 1), '.' | ')' | ':');
        if listed && at + 2 < tokens.end {
            at + 2..tokens.end
        } else {
            tokens
        }
    }

    /// Curve figures that waited for a curve and got a straight side.
    pub(super) fn settle_pending(&mut self) {
        if let Some(trouble) = self.pending.take().and_then(|pending| pending.trouble) {
            self.fault("deed-curve", &trouble);
        }
    }

    /// Figures of a side that were not used.
    fn left_over(&mut self, tokens: &Range<usize>, read: &[bool]) {
        let counts = |at: usize| {
            let named = at
                .checked_sub(1)
                .is_some_and(|b| numbers_a_record(self.text.word(b)));
            self.text.is_number(at) && !named && !self.free(at)
        };
        let unused = tokens
            .clone()
            .zip(read)
            .find(|(at, read)| !**read && counts(*at));
        // Behind the return to the beginning, numbers are lots, plats and easements.
        let home = tokens
            .clone()
            .any(|at| self.free(at) && matches!(self.text.word(at), "beginning" | "pob"));
        if let Some((at, _)) = unused.filter(|_| !home) {
            let message = "A number stands in this course that was not used.";
            let remedy = "Check that it is neither a distance nor a figure of a curve.";
            self.caution("deed-unused", at, message.to_owned(), remedy);
            self.mark(at..at + 1, Understood::Unread, message.to_owned(), remedy);
        }
    }

    /// The curve of a clause, with what the course before told of it.
    fn curve(
        &mut self,
        clause: &Clause,
        tokens: &Range<usize>,
        marks: &mut Vec<Mark>,
    ) -> Option<CourseShape> {
        if !clause.bends() && !clause.mentions_curve {
            self.settle_pending();
            return None;
        }
        let before = self.pending.take().unwrap_or_default();
        let bend = clause.bend.or(before.clause.bend);
        let last = self.reading.courses.last().map(|course| course.shape);
        let mut told = clause.stated.or(before.clause.stated);
        told.before = last.map(|shape| end_bearing(&shape));
        let lack = |message: &str, remedy: &str| Trouble {
            tokens: tokens.clone(),
            message: message.to_owned(),
            remedy: remedy.to_owned(),
        };
        let stated = clause.turn.or(before.clause.turn);
        let joined = clause
            .joint
            .or(before.clause.joint)
            .map(|joint| match (last, joint) {
                (Some(CourseShape::Curve { turn, .. }), Joint::Compound) => Some(turn),
                (Some(CourseShape::Curve { turn, .. }), Joint::Reverse) => Some(other_way(turn)),
                _ => None,
            });
        match joined {
            Some(None) => {
                self.fault("deed-curve", &lack(
                    "The curve is called reverse or compound, but no curve stands before it.",
                    "Check that the curve before it was taken; otherwise say how this one bends.",
                ));
                return None;
            }
            Some(Some(turn)) if stated.is_some_and(|stated| stated != turn) => {
                self.fault("deed-curve", &lack(
                    "The way the curve is said to bend does not fit “reverse” or “compound” behind the curve before it.",
                    "Check “left” and “right” of both curves.",
                ));
                return None;
            }
            Some(Some(_)) => told.tangent |= told.chord.is_none() && told.radial.is_none(),
            None => {}
        }
        let Some(turn) = stated.or(joined.flatten()).or_else(|| told.turn()) else {
            self.fault(
                "deed-curve",
                &lack(
                    "The curve does not say whether it bends to the left or to the right.",
                    "Add “to the left” or “to the right”.",
                ),
            );
            return None;
        };
        let Some(solved) = bend.solve(self.units.system) else {
            self.fault("deed-curve", &lack(
                "The curve is not fixed: two figures that fit each other are needed.",
                "Give two of radius, central angle, arc, chord and tangent length, each by its name.",
            ));
            return None;
        };
        let Some(direction) = told.direction(turn, solved.elements.delta, self.units.system) else {
            let (message, remedy) = if told.radial.is_some() {
                (
                    "The text does not say whether the bearing of the radius points to the center of the curve or away from it.",
                    "Write “the centre bears” before it, or “a radial line from the centre bears”.",
                )
            } else {
                (
                    "The direction of the curve is not given.",
                    "Give its chord bearing, or write “tangent” if it runs on from the course before it.",
                )
            };
            self.fault("deed-curve", &lack(message, remedy));
            return None;
        };
        for (check, message) in direction.cautions {
            let remedy = "Check the bearings and which way the curve bends.";
            self.caution(check, tokens.start, message, remedy);
        }
        if !solved.against.is_empty() {
            let [first, second] = solved.from;
            let message = format!(
                "The figures of the curve contradict each other: {}. The {first} and the {second} were used.",
                solved.against.join("; ")
            );
            self.caution(
                "deed-curve-figures",
                tokens.start,
                message,
                "Check each figure of the curve against the deed.",
            );
        }
        marks.extend(before.marks);
        let (chord, radius, long_way) = solved.shape(&bend);
        Some(CourseShape::Curve {
            chord_bearing: direction.chord_bearing,
            chord,
            radius,
            turn,
            long_way,
        })
    }
}

fn other_way(turn: Turn) -> Turn {
    match turn {
        Turn::Left => Turn::Right,
        Turn::Right => Turn::Left,
    }
}

/// Whether a number behind this word names a lot or a page, and measures nothing.
fn numbers_a_record(word: &str) -> bool {
    matches!(
        word,
        "lot"
            | "block"
            | "section"
            | "page"
            | "book"
            | "plat"
            | "no"
            | "number"
            | "tract"
            | "unit"
            | "phase"
    )
}

/// The direction in which a course ends, radians clockwise from north.
fn end_bearing(shape: &CourseShape) -> f64 {
    match *shape {
        CourseShape::Line { bearing, .. } => bearing,
        CourseShape::Curve {
            chord_bearing,
            chord,
            radius,
            turn,
            long_way,
        } => {
            let half = Elements::from_chord(chord, radius, long_way).map_or(0.0, |e| e.delta / 2.0);
            match turn {
                Turn::Left => chord_bearing - half,
                Turn::Right => chord_bearing + half,
            }
        }
    }
}

/// Curve figures behind a straight side to which no curve came.
fn unused_curve(tokens: &Range<usize>) -> Trouble {
    Trouble {
        tokens: tokens.clone(),
        message: "Figures of a curve stand behind a straight course, and no curve follows that takes them."
            .to_owned(),
        remedy: "If the bearing and the distance are those of the chord, write “chord bearing” and “chord”."
            .to_owned(),
    }
}

/// What keeps a clause from being a side.
fn lacking(clause: &Clause, tokens: Range<usize>) -> Trouble {
    let (message, remedy) = match (clause.bearing, clause.distance) {
        (None, _) => (
            "No bearing was found in this course.",
            "Write it as N 89°15'30\" E, N89-15-30E, due north, or 123.5° clockwise from north.",
        ),
        _ => (
            "No distance was found behind the bearing.",
            "Write it with its unit, as 120.00 feet, 120.00' or 36.58 m.",
        ),
    };
    Trouble {
        tokens,
        message: message.to_owned(),
        remedy: remedy.to_owned(),
    }
}
