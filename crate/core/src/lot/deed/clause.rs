//! One clause of a deed: the figures in it, and the one course that they make.

use core::ops::Range;

use super::super::record::{CourseShape, Turn};
use super::bend::{Bend, Stated};
use super::lex::Text;
use super::phrase::{self, Found};
use super::words::{Label, leads_a_direction};
use crate::units::{Measure, System, UnitFault, show};

/// Tokens that were understood, and as what.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The tokens.
    pub tokens: Range<usize>,
    /// What was understood, in words: `bearing N 89°15'30" E`.
    pub says: String,
}

/// Something in a clause that bars it or needs a look.
#[derive(Debug, Clone, PartialEq)]
pub struct Trouble {
    /// The tokens it concerns.
    pub tokens: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub remedy: String,
}

/// Everything read in a clause.
#[derive(Debug, Clone, Default)]
pub struct Clause {
    /// What was understood, in order.
    pub marks: Vec<Mark>,
    /// Bearing of a straight side or of a chord, radians; with whether a chord was named.
    pub bearing: Option<(f64, bool)>,
    /// Length of a straight side, metres.
    pub distance: Option<f64>,
    /// What is told of a curve.
    pub bend: Bend,
    /// The way the curve bends.
    pub turn: Option<Turn>,
    /// Whether it is said to run on in the direction of the course before.
    pub tangent: bool,
    /// Whether the word "curve" stands here.
    pub names_curve: bool,
    /// Figures that cannot be taken.
    pub troubles: Vec<Trouble>,
}

impl Clause {
    /// Whether there is anything that only a curve has.
    pub fn bends(&self) -> bool {
        self.bend != Bend::default() || self.bearing.is_some_and(|(_, chord)| chord)
    }

    /// Whether a straight side is complete.
    pub fn straight(&self) -> Option<CourseShape> {
        match (self.bearing, self.distance) {
            (Some((bearing, false)), Some(distance)) => {
                Some(CourseShape::Line { bearing, distance })
            }
            _ => None,
        }
    }
}

/// Reads the figures of one clause, `taken` tokens left out. `bare` takes figures without
/// units or marks wherever they stand, as in a list of courses.
pub fn read(
    text: &Text,
    tokens: Range<usize>,
    taken: &[bool],
    bare: bool,
    system: System,
) -> Clause {
    let mut scan = Scan {
        text,
        system,
        bare,
        end: tokens.end,
        label: None,
        after_figure: false,
        clause: Clause::default(),
    };
    let mut at = tokens.start;
    while at < tokens.end {
        at = if taken.get(at).copied().unwrap_or(false) {
            scan.label = None;
            at + 1
        } else {
            scan.step(at, at == tokens.start)
        };
    }
    scan.clause
}

struct Scan<'a> {
    text: &'a Text,
    system: System,
    bare: bool,
    end: usize,
    label: Option<Label>,
    /// Whether nothing but joining stood since the bearing: a number is its distance.
    after_figure: bool,
    clause: Clause,
}

impl Scan<'_> {
    /// Takes what stands at a token, and gives the next one to look at.
    fn step(&mut self, at: usize, first: bool) -> usize {
        let text = self.text;
        let previous = at.checked_sub(1).map_or("", |before| text.word(before));
        let alone =
            first && self.bare || leads_a_direction(previous) || self.label == Some(Label::Chord);
        let found = phrase::quadrant(text, at)
            .filter(|found| found.tokens.end <= self.end)
            .or_else(|| phrase::cardinal(text, at, alone));
        if let Some(found) = found {
            return self.take_bearing(found);
        }
        if text.is_number(at) {
            return self.number(at);
        }
        self.word(at);
        at + 1
    }

    fn number(&mut self, at: usize) -> usize {
        let text = self.text;
        let is_delta = self.label == Some(Label::Delta);
        let lone = self.bare && self.clause.bearing.is_none() && !self.clause.bends();
        let names_bearing = self.label == Some(Label::Bearing);
        let length = phrase::length(text, at, self.system).filter(|f| f.tokens.end <= self.end);
        let two = || {
            length
                .as_ref()
                .is_some_and(|l| l.bare && text.is_number(l.tokens.end))
        };
        let bare_angle = is_delta || names_bearing || lone && self.label.is_none() && two();
        if let Some(found) =
            phrase::angle(text, at, bare_angle).filter(|f| f.tokens.end <= self.end)
        {
            return if is_delta {
                self.take_delta(found)
            } else {
                self.take_bearing(found)
            };
        }
        match length {
            Some(found) => self.take_length(found),
            None => at + 1,
        }
    }

    fn word(&mut self, at: usize) {
        let text = self.text;
        let word = text.word(at);
        let equals = matches!(text.mark(at + 1), '=' | ':');
        match word {
            "" => {}
            "left" | "lt" | "counterclockwise" => self.take_turn(at, Turn::Left),
            "right" | "rt" | "clockwise" => self.take_turn(at, Turn::Right),
            "curve" | "curved" | "curving" => self.clause.names_curve = true,
            _ => {
                if let Some(label) = Label::of(word, equals) {
                    let bears_chord = label == Label::Bearing && self.label == Some(Label::Chord);
                    if bears_chord {
                        // "the chord of which bears": still the chord's.
                    } else if label != Label::Tangent || self.leads_to_a_number(at + 1) {
                        self.label = Some(label);
                    } else {
                        let before = |back| at.checked_sub(back).map_or("", |i| text.word(i));
                        self.clause.tangent |= before(1) != "not" && before(2) != "non";
                    }
                } else if !super::words::joins(word) {
                    self.after_figure = false;
                }
            }
        }
    }

    /// Whether a number comes next but for words such as "length of".
    fn leads_to_a_number(&self, at: usize) -> bool {
        let skips = |i: &usize| match self.text.word(*i) {
            "" => matches!(self.text.mark(*i), '=' | ':' | '('),
            word => matches!(word, "length" | "distance" | "of" | "is"),
        };
        (at..at + 5)
            .find(|i| !skips(i))
            .is_some_and(|i| self.text.is_number(i))
    }

    fn take_turn(&mut self, at: usize, turn: Turn) {
        if self.clause.turn.is_some_and(|before| before != turn) {
            return self.trouble(
                at..at + 1,
                "The curve is said to bend both to the left and to the right.",
                "Keep one of the two.",
            );
        }
        self.clause.turn = Some(turn);
        let side = if turn == Turn::Left {
            "to the left"
        } else {
            "to the right"
        };
        self.mark(at..at + 1, side.to_owned());
    }

    fn take_bearing(&mut self, found: Found) -> usize {
        let end = found.tokens.end;
        let Some(value) = self.value(&found) else {
            return end;
        };
        let chord = self.label == Some(Label::Chord);
        if self.clause.bearing.is_some() {
            self.trouble(
                found.tokens,
                "A second bearing stands in one course.",
                "Put each course on a line of its own, or behind a “thence” of its own.",
            );
            return end;
        }
        let name = if chord { "chord bearing" } else { "bearing" };
        self.clause.bearing = Some((value, chord));
        self.mark(
            found.tokens,
            format!("{name} {}", self.shown(Measure::Bearing, value)),
        );
        self.after_figure = true;
        if !chord {
            self.label = None;
        }
        end
    }

    fn take_delta(&mut self, found: Found) -> usize {
        let end = found.tokens.end;
        self.label = None;
        let Some(value) = self.value(&found) else {
            return end;
        };
        self.set(found, Label::Delta, value, Measure::Angle);
        end
    }

    fn take_length(&mut self, found: Found) -> usize {
        let text = self.text;
        let mut end = found.tokens.end;
        let Some(value) = self.value(&found) else {
            return end;
        };
        let behind = end + usize::from(text.mark(end) == '-');
        let label = self
            .label
            .take()
            .filter(|l| *l != Label::Bearing)
            .or_else(|| {
                // "a 25.00 foot radius curve": the name stands behind.
                let label = Label::of(text.word(behind), false).filter(|l| *l != Label::Tangent)?;
                end = behind + 1;
                Some(label)
            });
        if let Some(label) = label {
            self.set(found, label, value, Measure::LongLength);
            return end;
        }
        let expected = self.bare || self.after_figure;
        if found.bare && !expected || self.clause.bearing.is_none() {
            return found.tokens.end;
        }
        if let Some(before) = self.clause.distance {
            // The same length in other units is no contradiction.
            if (before - value).abs() > before * 0.002 + found.rounding {
                self.trouble(
                    found.tokens,
                    "A second distance stands in one course, and it is another length.",
                    "Keep one distance, or put each course on a line of its own.",
                );
            } else {
                self.mark(found.tokens, "the same distance again".to_owned());
            }
            return end;
        }
        self.clause.distance = Some(value);
        self.mark(
            found.tokens,
            format!("distance {}", self.shown(Measure::LongLength, value)),
        );
        self.after_figure = false;
        end
    }

    /// Keeps a figure of a curve.
    fn set(&mut self, found: Found, label: Label, value: f64, measure: Measure) {
        let bend = &mut self.clause.bend;
        let slot = match label {
            Label::Radius => &mut bend.radius,
            Label::Delta => &mut bend.delta,
            Label::Arc => &mut bend.arc,
            Label::Chord | Label::Bearing => &mut bend.chord,
            Label::Tangent => &mut bend.tangent,
        };
        if slot.is_some_and(|before| (before.value - value).abs() > found.rounding.max(1e-9)) {
            return self.trouble(
                found.tokens,
                &format!("A second {} stands in one course.", label.words()),
                "Keep one, or put each course on a line of its own.",
            );
        }
        *slot = Some(Stated {
            value,
            rounding: found.rounding,
        });
        self.mark(
            found.tokens,
            format!("{} {}", label.words(), self.shown(measure, value)),
        );
    }

    fn value(&mut self, found: &Found) -> Option<f64> {
        match &found.value {
            Ok(value) => Some(*value),
            Err(UnitFault {
                message, remedy, ..
            }) => {
                self.trouble(found.tokens.clone(), message, remedy);
                None
            }
        }
    }

    fn shown(&self, measure: Measure, value: f64) -> String {
        show(measure, value, self.system).text
    }

    fn mark(&mut self, tokens: Range<usize>, says: String) {
        self.clause.marks.push(Mark { tokens, says });
    }

    fn trouble(&mut self, tokens: Range<usize>, message: &str, remedy: &str) {
        self.clause.troubles.push(Trouble {
            tokens,
            message: message.to_owned(),
            remedy: remedy.to_owned(),
        });
    }
}
