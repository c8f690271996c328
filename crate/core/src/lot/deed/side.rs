//! One clause as one side of the lot: straight, or a curve, or a fault that says what it lacks.

use core::ops::Range;

use super::super::curve::Elements;
use super::super::record::{Course, CourseShape, Turn};
use super::bend::Bend;
use super::clause::{self, Clause, Trouble};
use super::walk::{Walk, is_odd};
use super::{Marked, Understood};
use crate::math::{wrap_half_turn, wrap_turn};
use crate::units::constants::DEGREE;
use crate::units::{Measure, show};

/// How far a stated chord bearing may lie from the one that tangency asks: 0.1 degree (our
/// choice; bearings are rounded, and so are the angles of both curves).
const TANGENCY: f64 = 0.1 * DEGREE;

impl Walk<'_> {
    /// One clause that should hold one side.
    pub(super) fn side(&mut self, tokens: Range<usize>) {
        let tokens = self.after_number(tokens);
        let clause = clause::read(
            self.text,
            tokens.clone(),
            &self.taken,
            !self.prose,
            self.system,
        );
        let any_figure = tokens
            .clone()
            .any(|at| self.text.is_number(at) && !self.free(at));
        let empty = clause.marks.is_empty() && clause.troubles.is_empty();
        if empty && !any_figure && (!self.prose || tokens.clone().all(|at| !is_odd(self.text, at)))
        {
            return self.words_only(tokens);
        }
        for trouble in &clause.troubles {
            self.fault("deed-course", trouble);
        }
        let straight = clause.straight();
        let shape = match straight {
            Some(shape) => {
                self.settle_pending();
                if clause.bend != Bend::default() {
                    self.pending = Some((clause.clone(), unused_curve(&tokens)));
                }
                Some(shape)
            }
            None => self.curve(&clause, &tokens),
        };
        let Some(shape) = shape else {
            if clause.troubles.is_empty() && !self.told(&tokens) {
                self.fault("deed-course", &lacking(&clause, tokens.clone()));
            }
            return;
        };
        if !clause.troubles.is_empty() {
            return;
        }
        let index = self.reading.courses.len();
        self.reading.courses.push(Course::of(shape));
        let mut read: Vec<bool> = vec![false; tokens.len()];
        for mark in clause.marks {
            for at in mark.tokens.clone() {
                if let Some(slot) = at.checked_sub(tokens.start).and_then(|i| read.get_mut(i)) {
                    *slot = true;
                }
            }
            self.mark(mark.tokens, Understood::Course(index), mark.says, "");
        }
        self.left_over(&tokens, &read);
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
        if let Some((_, trouble)) = self.pending.take() {
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

    /// The curve of a clause, with what the straight side before told of it.
    fn curve(&mut self, clause: &Clause, tokens: &Range<usize>) -> Option<CourseShape> {
        if !clause.bends() && !clause.names_curve {
            self.settle_pending();
            return None;
        }
        let before = self
            .pending
            .take()
            .map(|(before, _)| before)
            .unwrap_or_default();
        let bend = clause.bend.or(before.bend);
        let turn = clause.turn.or(before.turn);
        let tangent = clause.tangent || before.tangent;
        let lack = |message: &str, remedy: &str| Trouble {
            tokens: tokens.clone(),
            message: message.to_owned(),
            remedy: remedy.to_owned(),
        };
        let Some(turn) = turn else {
            self.fault(
                "deed-curve",
                &lack(
                    "The curve does not say whether it bends to the left or to the right.",
                    "Add “to the left” or “to the right”.",
                ),
            );
            return None;
        };
        let Some(solved) = bend.solve(self.system) else {
            self.fault("deed-curve", &lack(
                "The curve is not fixed: two figures that fit each other are needed.",
                "Give two of radius, central angle, arc, chord and tangent length, each by its name.",
            ));
            return None;
        };
        let end = tangent
            .then(|| self.reading.courses.last().map(|c| end_bearing(&c.shape)))
            .flatten();
        let by_tangent = end.map(|bearing| match turn {
            Turn::Left => wrap_turn(bearing - solved.elements.delta / 2.0),
            Turn::Right => wrap_turn(bearing + solved.elements.delta / 2.0),
        });
        let stated = clause
            .bearing
            .filter(|(_, chord)| *chord)
            .map(|(bearing, _)| bearing);
        let Some(chord_bearing) = stated.or(by_tangent) else {
            self.fault("deed-curve", &lack(
                "The direction of the curve is not told.",
                "Give its chord bearing, or write “tangent” if it runs on from the course before it.",
            ));
            return None;
        };
        if let (Some(stated), Some(asked)) = (stated, by_tangent)
            && wrap_half_turn(stated - asked).abs() > TANGENCY
        {
            let shown = |v| show(Measure::Bearing, v, self.system).text;
            let message = format!(
                "The curve is called tangent, which asks for a chord bearing of {}, but {} is stated \
                 and was used.",
                shown(asked),
                shown(stated)
            );
            self.caution(
                "deed-tangency",
                tokens.start,
                message,
                "Check the bearings and which way the curve bends.",
            );
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
        let (chord, radius, long_way) = solved.shape(&bend);
        Some(CourseShape::Curve {
            chord_bearing,
            chord,
            radius,
            turn,
            long_way,
        })
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
