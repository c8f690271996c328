//! A house walked wall by wall, as text: `forward 24', right 90°, forward 12'6", close`.
//!
//! # What is understood
//! | words | means |
//! |---|---|
//! | `forward 24'`, `fwd`, `f`, `ahead`, `go`, or a length with its unit alone | a wall ahead |
//! | `back 3'`, `backward`, `b` | a wall straight back, the direction kept |
//! | `right 90`, `turn right`, `r`, `left`, `l`; without an angle a square corner | a turn |
//! | `around` | half a turn |
//! | `arc left radius 5' angle 90°`, `curve right r 5' 90°`, or `length 8'` for the angle | a curved wall |
//! | `bearing N 10 E`, `face east` | the direction itself |
//! | `close` | the last wall, back to the start |
//!
//! Statements stand on lines of their own, between commas or semicolons, or just one behind the
//! other. Nothing is guessed: what does not fit is marked and told, and bars the walk.

use core::ops::Range;

use serde::Serialize;

use super::Sketch;
use super::build::ahead;
use crate::finding::{Finding, Message};
use crate::geom::{Point, Vector, Vertex};
use crate::lot::Turn;
use crate::lot::deed::lex::Text;
use crate::lot::deed::phrase;
use crate::lot::deed::token::Kind;
use crate::math::TURN;
use crate::units::{Measure, System, parse_length, show};

/// The longest text read, characters.
pub const LONGEST: usize = 10_000;

/// A walk that ends nearer to its start than this closes, meters (four inches; our choice: a
/// tape read to the inch on eight walls).
pub const CLOSES_WITHIN: f64 = 0.1016;

/// What a stretch of the text was understood as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Taken {
    /// The wall with this index.
    Wall(usize),
    /// A change of direction.
    Turn,
    /// Marks between statements.
    Between,
    /// Not understood.
    Unread,
}

/// A stretch of the text.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "WalkPiece")
)]
pub struct Piece {
    /// Its first character, counted from 0.
    pub from: usize,
    /// Behind its last character.
    pub to: usize,
    /// What it was understood as.
    pub taken: Taken,
    /// What it says, or why it was not taken.
    pub message: String,
    /// What to do about it; empty where nothing is to be done.
    pub remedy: String,
}

/// How a walk comes back to its start.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Return {
    /// Distance from the start to the end, meters.
    pub length: f64,
    /// Bearing from the end back to the start, radians clockwise from north.
    pub bearing: f64,
    /// Whether the last wall was asked for by `close`.
    pub asked: bool,
    /// Whether the walls enclose a figure: by `close`, or because the end meets the start.
    pub closed: bool,
}

/// A walk as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Walk {
    /// The whole text in order, every character in exactly one piece.
    pub pieces: Vec<Piece>,
    /// The corners, from the start.
    pub sketch: Sketch,
    /// How it comes back; `None` while there is no wall.
    pub back: Option<Return>,
    /// What is wrong or worth a look; places are `line 3`.
    pub findings: Vec<Finding>,
}

/// Reads a walk that starts at a point, facing along a bearing (radians clockwise from north).
/// Lengths without a unit are in the default system, angles without one in degrees.
pub fn read(text: &str, start: Point, facing: f64, default: System) -> Walk {
    let cut = Text::cut(text);
    let mut reader = Reader {
        text: &cut,
        system: default,
        at: 0,
        facing,
        corners: vec![Vertex {
            at: start,
            bulge: 0.0,
        }],
        asked: false,
        pieces: Vec::new(),
        findings: Vec::new(),
    };
    if cut.length() > LONGEST {
        reader.trouble(
            0..cut.tokens.len(),
            format!("The text is longer than {LONGEST} characters."),
            "Walk one building at a time.",
        );
    } else {
        while reader.at < cut.tokens.len() {
            reader.statement();
        }
    }
    reader.finish(start)
}

struct Reader<'a> {
    text: &'a Text,
    system: System,
    at: usize,
    facing: f64,
    corners: Vec<Vertex>,
    asked: bool,
    pieces: Vec<Piece>,
    findings: Vec<Finding>,
}

/// What a word opens.
enum Opens {
    Wall(f64),
    Turn(Turn),
    Around,
    Arc,
    Facing,
    Close,
    /// A word that may stand before one of the others.
    Filler,
}

fn opens(word: &str) -> Option<Opens> {
    Some(match word {
        "forward" | "forwards" | "fwd" | "fd" | "f" | "ahead" | "straight" | "go" | "wall" => {
            Opens::Wall(1.0)
        }
        "back" | "backward" | "backwards" | "bk" | "b" => Opens::Wall(-1.0),
        "right" | "rt" | "r" => Opens::Turn(Turn::Right),
        "left" | "lt" | "l" => Opens::Turn(Turn::Left),
        "around" => Opens::Around,
        "arc" | "curve" => Opens::Arc,
        "bearing" | "face" | "facing" | "heading" => Opens::Facing,
        "close" | "closed" | "closes" => Opens::Close,
        "turn" | "then" | "and" | "walk" | "start" | "a" => Opens::Filler,
        _ => return None,
    })
}

impl Reader<'_> {
    /// Where the statement that begins at a token must end: at a comma, a semicolon or the end
    /// of the line.
    fn limit(&self, from: usize) -> usize {
        let tokens = &self.text.tokens;
        let line = tokens.get(from).map(|t| t.line);
        (from..tokens.len())
            .find(|i| {
                matches!(self.text.mark(*i), ',' | ';') || tokens.get(*i).map(|t| t.line) != line
            })
            .unwrap_or(tokens.len())
    }

    fn statement(&mut self) {
        let (text, at) = (self.text, self.at);
        if matches!(text.kind(at), Some(Kind::Mark(',' | ';' | '.' | ':'))) {
            self.at += 1;
            return;
        }
        let end = self.limit(at);
        match opens(text.word(at)) {
            Some(Opens::Filler) => self.at += 1,
            Some(Opens::Wall(sense)) => self.wall(at, at + 1, end, sense),
            Some(Opens::Turn(turn)) => self.turn(turn, at, end),
            Some(Opens::Around) => self.turned(at..at + 1, TURN / 2.0, "half a turn".to_owned()),
            Some(Opens::Arc) => self.arc(at, end),
            Some(Opens::Facing) => self.face(at, end),
            Some(Opens::Close) => {
                self.asked = true;
                let wall = Taken::Wall(self.corners.len() - 1);
                self.take(
                    at..at + 1,
                    wall,
                    "the last wall, back to the start".to_owned(),
                );
            }
            None if text.is_number(at) && self.length(at, end).is_some_and(|l| !l.2) => {
                self.wall(at, at, end, 1.0);
            }
            None => self.stray(at, end),
        }
    }

    /// What nothing begins with, up to the next word that opens a statement.
    fn stray(&mut self, at: usize, end: usize) {
        let until = (at + 1..end)
            .find(|i| opens(self.text.word(*i)).is_some())
            .unwrap_or(end);
        let (message, remedy) = if self.text.is_number(at) {
            (
                "A number stands here without a word or a unit.",
                "Write forward before a length, right or left before an angle.",
            )
        } else {
            (
                "This is not part of a walk.",
                "Use forward, back, right, left, arc, bearing or close.",
            )
        };
        self.trouble(at..until, message.to_owned(), remedy);
    }

    /// The longest length at a token: where it ends, meters, and whether it has no unit.
    fn length(&self, at: usize, end: usize) -> Option<(usize, f64, bool)> {
        let text = self.text;
        if !text.is_number(at) {
            return None;
        }
        (at + 1..=end.min(at + 12)).rev().find_map(|end| {
            let last = end - 1;
            // "24' 6": the 6 counts as inches only where it is written close to the mark.
            let loose = last > at && text.is_number(last) && !text.glued(last);
            let opens_next = last > at && opens(text.word(last)).is_some();
            let parts = matches!(text.mark(last), ',' | ';' | '=' | ':');
            if loose || opens_next || parts {
                return None;
            }
            let parsed = parse_length(&text.figure(&(at..end)), self.system).ok()?;
            Some((end, parsed.value, end == at + 1))
        })
    }

    fn wall(&mut self, first: usize, at: usize, end: usize, sense: f64) {
        let Some((after, length, _)) = self.length(at, end).filter(|l| l.1 > 0.0) else {
            let until = end.min(at + 1).max(first + 1);
            return self.trouble(
                first..until,
                "A length above zero belongs here.".to_owned(),
                "Write forward and a length, such as forward 12'6\".",
            );
        };
        let from = self.here();
        let to = ahead(from, length * sense, self.facing);
        let way = if sense > 0.0 { "forward" } else { "back" };
        let says = format!("{way} {}", self.shown(Measure::Length, length));
        self.wall_to(first..after, to, 0.0, says);
    }

    fn wall_to(&mut self, tokens: Range<usize>, to: Point, bulge: f64, says: String) {
        if let Some(from) = self.corners.last_mut() {
            from.bulge = bulge;
        }
        let wall = Taken::Wall(self.corners.len() - 1);
        self.corners.push(Vertex { at: to, bulge: 0.0 });
        self.take(tokens, wall, says);
    }

    /// An angle at a token, where it ends; or what is wrong with it.
    fn angle(&self, at: usize, end: usize) -> Option<Result<(usize, f64), (usize, String)>> {
        let found = phrase::angle(self.text, at, true).filter(|f| f.tokens.end <= end)?;
        let until = found.tokens.end;
        // 12' behind "right" would be minutes of an angle; a wall was meant.
        if let Some((after, _, false)) = self.length(at, end)
            && after > until
        {
            let message = "A length stands where an angle belongs.";
            return Some(Err((after, message.to_owned())));
        }
        Some(match found.value {
            Ok(value) => Ok((until, value)),
            Err(fault) => Err((until, fault.message)),
        })
    }

    fn turn(&mut self, turn: Turn, at: usize, end: usize) {
        let (after, angle) = match self.angle(at + 1, end) {
            Some(Ok(found)) => found,
            None => (at + 1, TURN / 4.0),
            Some(Err((after, message))) => {
                return self.trouble(
                    at..after,
                    message,
                    "Write the turn and the wall apart: right 90°, forward 12'.",
                );
            }
        };
        let (sense, side) = match turn {
            Turn::Right => (1.0, "right"),
            Turn::Left => (-1.0, "left"),
        };
        let says = format!("{side} {}", self.shown(Measure::Angle, angle));
        self.turned(at..after, sense * angle, says);
    }

    fn turned(&mut self, tokens: Range<usize>, by: f64, says: String) {
        self.facing += by;
        self.take(tokens, Taken::Turn, says);
    }

    fn face(&mut self, at: usize, end: usize) {
        let text = self.text;
        let found = phrase::quadrant(text, at + 1)
            .or_else(|| phrase::cardinal(text, at + 1, true))
            .or_else(|| phrase::angle(text, at + 1, true))
            .filter(|f| f.tokens.end <= end);
        match found.map(|f| (f.tokens.end, f.value)) {
            Some((after, Ok(bearing))) => {
                self.facing = bearing;
                let says = format!("facing {}", self.shown(Measure::Bearing, bearing));
                self.take(at..after, Taken::Turn, says);
            }
            Some((after, Err(fault))) => self.trouble(at..after, fault.message, fault.remedy),
            None => self.trouble(
                at..at + 1,
                "A bearing belongs here.".to_owned(),
                "Write a bearing such as N 10° E or 123.5.",
            ),
        }
    }

    fn here(&self) -> Point {
        self.corners.last().map(|v| v.at).unwrap_or_default()
    }

    fn shown(&self, measure: Measure, value: f64) -> String {
        show(measure, value, self.system).text
    }

    fn take(&mut self, tokens: Range<usize>, taken: Taken, message: String) {
        self.piece(tokens, taken, message, "");
    }

    fn piece(&mut self, tokens: Range<usize>, taken: Taken, message: String, remedy: &str) {
        self.at = tokens.end;
        let span = self.text.span(&tokens);
        self.between(span.start);
        self.pieces.push(Piece {
            from: span.start,
            to: span.end,
            taken,
            message,
            remedy: remedy.to_owned(),
        });
    }

    /// Fills up to a character with a piece of what only joins.
    fn between(&mut self, to: usize) {
        let from = self.pieces.last().map_or(0, |p| p.to);
        if from < to {
            self.pieces.push(Piece {
                from,
                to,
                taken: Taken::Between,
                message: String::new(),
                remedy: String::new(),
            });
        }
    }

    fn trouble(&mut self, tokens: Range<usize>, message: String, remedy: impl Into<Message>) {
        let remedy = remedy.into();
        let line = self.text.tokens.get(tokens.start).map_or(1, |t| t.line);
        let finding = Finding::fault("walk-unread", message.clone(), remedy.clone());
        self.findings.push(finding.under(&format!("line {line}")));
        self.piece(tokens, Taken::Unread, message, &remedy);
    }

    fn finish(mut self, start: Point) -> Walk {
        self.between(self.text.length());
        let end = self.here();
        let walls = self.corners.len() - 1;
        let gap: Vector = start - end;
        let back = (walls > 0).then(|| Return {
            length: gap.length(),
            bearing: gap.bearing(),
            asked: self.asked,
            closed: self.asked || gap.length() <= CLOSES_WITHIN && walls > 1,
        });
        if let Some(back) = back {
            self.tell_return(&back);
        }
        let closed = back.is_some_and(|b| b.closed);
        if closed && gap.length() <= CLOSES_WITHIN {
            // The last wall ends at the start and takes the misclosure up.
            self.corners.pop();
        }
        Walk {
            pieces: self.pieces,
            sketch: Sketch::new(self.corners, closed),
            back,
            findings: self.findings,
        }
    }

    fn tell_return(&mut self, back: &Return) {
        let length = self.shown(Measure::Length, back.length);
        let bearing = self.shown(Measure::Bearing, back.bearing);
        if !back.closed {
            self.findings.push(Finding::fault(
                "walk-open",
                format!(
                    "The walk does not come back to its start: it ends {length} away, which lies {bearing}."
                ),
                "Add the walls that are missing, mend a length or a turn, or write close for a last wall.",
            ));
        } else if !back.asked && back.length > 1e-6 {
            self.findings.push(Finding::caution(
                "walk-misclosure",
                format!("The walk misses its start by {length}; the last wall takes that up."),
                "Measure again if that is more than the tape allows.",
            ));
        }
    }
}

mod curve;
#[cfg(test)]
mod tests;
