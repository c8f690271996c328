//! A deed as text: courses one to a line, or the prose of a description by bearings and
//! distances, with what was understood of every stretch of it.
//!
//! | file | says |
//! |---|---|
//! | `token` | what a word, a number or a mark is |
//! | `lex` | words, numbers and marks with their places |
//! | `spelled` | numbers written out in words |
//! | `phrase` | how far a bearing, an angle, a length or an area runs |
//! | `words` | which words give a figure its meaning, and which only join |
//! | `keyword` | what a word says by itself |
//! | `clause` | what one clause says of its course |
//! | `figures` | the figures of one clause, each given its meaning |
//! | `monument` | lengths that are the size of a mark |
//! | `along` | the street along which a course runs |
//! | `lead` | what the end of a clause tells of the curve behind it |
//! | `radial` | bearings of radii, and concave sides |
//! | `direction` | the way a curve sets out |
//! | `length_unit` | the unit of each length, and of numbers without one |
//! | `bend` | a curve from any sufficient two of its figures, and what contradicts them |
//! | `walk` | the clauses in their order: beginning, sides, return, area |
//! | `side` | one clause as one side, or what it lacks |
//! | `closing` | the course back to the beginning that states no distance |
//! | `summary` | closure and area of what was read |
//!
//! Nothing is guessed. A figure that does not fit is marked and told; a course that lacks
//! something is not taken; words without a meaning for the lot are marked as read over.
//!
//! ```
//! use batterboard_core::lot::deed;
//! use batterboard_core::units::System;
//!
//! let reading = deed::read("N 0 E 100\nEast 60.5 ft\nS 0 E 100\nwest 60.5'", System::Feet);
//! assert_eq!(reading.courses.len(), 4);
//! assert!(reading.findings.is_empty());
//! ```

use core::ops::Range;

use serde::Serialize;

use super::checked::Lot;
use super::kinds::{Streets, propose};
use super::record::{Course, CourseShape, LineKind, LotRecord};
use crate::finding::Finding;
use crate::math::wrap_half_turn;
use crate::units::System;

mod along;
mod bend;
mod clause;
mod closing;
mod direction;
mod figures;
mod keyword;
mod lead;
mod length_unit;
pub(crate) mod lex;
mod monument;
pub(crate) mod phrase;
mod radial;
mod side;
mod spelled;
mod summary;
pub(crate) mod token;
mod walk;
mod words;

#[cfg(test)]
mod forms;
#[cfg(test)]
mod tests;

pub use direction::AGREES;
pub use summary::Summary;

/// The longest text read, characters: a long deed has a few thousand.
pub const LONGEST: usize = 20_000;

/// What a stretch of a deed was understood as.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Understood {
    /// A figure or a word of the course with this index in [`Reading::courses`].
    Course(usize),
    /// Where the description begins, or that it returns there; a tie to it.
    Beginning,
    /// The area it states, m2.
    Area(f64),
    /// Words and marks that join.
    Connective,
    /// Not understood, or of no use for the lot.
    Unread,
}

/// A stretch of a deed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "DeedPiece")
)]
pub struct Piece {
    /// Its first character, counted from 0.
    pub from: usize,
    /// Behind its last character.
    pub to: usize,
    /// What it was understood as.
    pub understood: Understood,
    /// What it says, or why it was not taken; empty for connectives.
    pub message: String,
    /// What to do about it; empty where nothing is to be done.
    pub remedy: String,
}

/// A course that runs along a street.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct AlongStreet {
    /// Index of the course.
    pub course: usize,
    /// The street's name as the deed writes it; empty where it has none.
    pub name: String,
}

/// A deed as it was read.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Reading {
    /// The whole text in order, every character in exactly one piece.
    pub pieces: Vec<Piece>,
    /// The courses, their kinds not told.
    pub courses: Vec<Course>,
    /// The area that the text states, m2.
    pub stated_area: Option<f64>,
    /// The courses that the text says run along a street.
    pub streets: Vec<AlongStreet>,
    /// What is wrong or worth a look, in the order of the text; places are `line 3`.
    pub findings: Vec<Finding>,
}

impl Reading {
    /// Whether the courses of a record run as these do, within a hundredth of a millimetre and
    /// a fiftieth of a second; names, kinds and corners aside.
    pub fn runs_as(&self, record: &LotRecord) -> bool {
        let pairs = || self.courses.iter().zip(&record.courses);
        self.courses.len() == record.courses.len()
            && pairs().all(|(a, b)| same_run(&a.shape, &b.shape))
    }

    /// The kinds that follow from the streets named in the text, a kind for every course;
    /// `None` where no street is named, or more than one, or the courses make no lot yet.
    pub fn kinds(&self, rest: &LotRecord) -> Option<Vec<LineKind>> {
        let names: Vec<&str> = self.streets.iter().map(|s| s.name.as_str()).collect();
        // "Said street" is the one that was named.
        let mut named = names.iter().filter(|name| !name.is_empty());
        let first = named.next();
        if named.any(|name| Some(name) != first) {
            return None;
        }
        let (lot, _) = Lot::check(&self.record(rest)).ok()?;
        let front: Vec<usize> = self.streets.iter().map(|street| street.course).collect();
        let streets = Streets {
            front,
            other: Vec::new(),
        };
        (!names.is_empty()).then(|| propose(&lot, &streets))
    }

    /// The lot of another record with the courses and the stated area of this reading; a
    /// balance is dropped, since it was asked for other courses.
    pub fn record(&self, rest: &LotRecord) -> LotRecord {
        LotRecord {
            start: rest.start,
            courses: self.courses.clone(),
            stated_area: self.stated_area,
            closing_ratio: rest.closing_ratio,
            balance: None,
            basis: rest.basis.clone(),
            deed: rest.deed.clone(),
        }
    }
}

/// Whether two courses run alike, within what writing figures down and reading them costs.
fn same_run(a: &CourseShape, b: &CourseShape) -> bool {
    let length = |a: f64, b: f64| (a - b).abs() < 1e-5;
    let bearing = |a: f64, b: f64| wrap_half_turn(a - b).abs() < 1e-7;
    match (*a, *b) {
        (
            CourseShape::Line {
                bearing: way,
                distance,
            },
            CourseShape::Line {
                bearing: other_way,
                distance: other,
            },
        ) => bearing(way, other_way) && length(distance, other),
        (
            CourseShape::Curve {
                chord_bearing,
                chord,
                radius,
                turn,
                long_way,
            },
            CourseShape::Curve {
                chord_bearing: other_bearing,
                chord: other_chord,
                radius: other_radius,
                turn: other_turn,
                long_way: other_long,
            },
        ) => {
            bearing(chord_bearing, other_bearing)
                && length(chord, other_chord)
                && length(radius, other_radius)
                && (turn, long_way) == (other_turn, other_long)
        }
        _ => false,
    }
}

/// Reads a deed. Numbers without a unit are in the default system, or in the one unit that other
/// numbers of the text have, which is told; a bare angle is degrees clockwise from north.
///
/// Text with the word "thence" is prose: each "thence" opens a course, and numbers without a
/// unit are taken only right behind a bearing or a name such as "radius of". Any other text
/// is a list, one course to a line or between semicolons.
pub fn read(text: &str, default: System) -> Reading {
    let cut = lex::Text::cut(text);
    if cut.length() > LONGEST {
        let message = format!("The text is longer than {LONGEST} characters.");
        let remedy = "Paste the description of the boundary alone.";
        return Reading {
            pieces: vec![Piece {
                from: 0,
                to: cut.length(),
                understood: Understood::Unread,
                message: message.clone(),
                remedy: remedy.to_owned(),
            }],
            findings: vec![Finding::fault("deed-length", message, remedy)],
            ..Reading::default()
        };
    }
    walk::walk(&cut, default)
}

/// Tokens and what they were understood as, before the gaps between are filled.
#[derive(Debug, Clone)]
struct Marked {
    tokens: Range<usize>,
    understood: Understood,
    message: String,
    remedy: String,
}

/// Every character in a piece: the marked tokens, and what lies between them as joining or
/// unread. The marks come in the order of the text.
fn pieces(text: &lex::Text, marked: Vec<Marked>) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut token = 0;
    let mut at = 0;
    for mark in marked {
        if mark.tokens.start < token || mark.tokens.is_empty() {
            continue; // Within one that is marked already.
        }
        let span = text.span(&mark.tokens);
        fill(text, token..mark.tokens.start, at..span.start, &mut pieces);
        token = mark.tokens.end;
        at = span.end;
        pieces.push(Piece {
            from: span.start,
            to: span.end,
            understood: mark.understood,
            message: mark.message,
            remedy: mark.remedy,
        });
    }
    fill(
        text,
        token..text.tokens.len(),
        at..text.length(),
        &mut pieces,
    );
    pieces
}

/// A gap: joining words to both sides of what was read over.
fn fill(text: &lex::Text, tokens: Range<usize>, span: Range<usize>, pieces: &mut Vec<Piece>) {
    let mut push = |from: usize, to: usize, understood, message: &str| {
        if from < to {
            pieces.push(Piece {
                from,
                to,
                understood,
                message: message.to_owned(),
                remedy: String::new(),
            });
        }
    };
    let odd = |at: &usize| walk::is_odd(text, *at);
    let (Some(first), Some(last)) = (tokens.clone().find(odd), tokens.rev().find(odd)) else {
        return push(span.start, span.end, Understood::Connective, "");
    };
    let middle = text.span(&(first..last + 1));
    push(span.start, middle.start, Understood::Connective, "");
    let over = "Read over: no bearing, distance or curve figure was taken from these words.";
    push(middle.start, middle.end, Understood::Unread, over);
    push(middle.end, span.end, Understood::Connective, "");
}
