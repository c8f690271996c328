//! One clause of a deed: the figures in it, and the one course that they make.

use core::ops::Range;

use super::super::record::{CourseShape, Turn};
use super::bend::{Bend, Stated};
use super::direction::Told;
use super::lex::Text;
use super::monument;
use super::phrase::{self, Found};
use super::radial::{self, Sense};
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
    /// Bearing of a straight side, radians.
    pub bearing: Option<f64>,
    /// Length of a straight side, metres.
    pub distance: Option<f64>,
    /// What is told of a curve.
    pub bend: Bend,
    /// The way the curve bends.
    pub turn: Option<Turn>,
    /// What is told of the way a curve runs.
    pub told: Told,
    /// How a curve joins the curve before it.
    pub joint: Option<Joint>,
    /// Whether a straight side is said to run on from the curve before it, before its bearing.
    pub runs_on: bool,
    /// Whether the word "curve" stands here.
    pub names_curve: bool,
    /// Figures that cannot be taken.
    pub troubles: Vec<Trouble>,
}

/// How a curve joins the curve before it: it runs on, and bends the other way or the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joint {
    /// The other way.
    Reverse,
    /// The same way, with another radius.
    Compound,
}

impl Clause {
    /// Whether there is anything that only a curve has.
    pub fn bends(&self) -> bool {
        self.bend != Bend::default() || self.told.chord.is_some()
    }

    /// Whether anything at all is told of a curve.
    pub fn tells_of_curve(&self) -> bool {
        self.bends() || self.told != Told::default() || self.turn.is_some() || self.joint.is_some()
    }

    /// Whether a straight side is complete.
    pub fn straight(&self) -> Option<CourseShape> {
        match (self.bearing, self.distance) {
            (Some(bearing), Some(distance)) => Some(CourseShape::Line { bearing, distance }),
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
        sense: Sense::Either,
        early: None,
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
    scan.finish()
}

struct Scan<'a> {
    text: &'a Text,
    system: System,
    bare: bool,
    end: usize,
    label: Option<Label>,
    /// Which way the bearing of a radius looks, behind its label.
    sense: Sense,
    /// A length before any bearing, which may be the distance: "a distance of 80 feet on a
    /// bearing of N 10 E".
    early: Option<Found>,
    /// Whether nothing but joining stood since the bearing: a number is its distance.
    after_figure: bool,
    clause: Clause,
}

impl Scan<'_> {
    /// Takes what stands at a token, and gives the next one to look at.
    fn step(&mut self, at: usize, first: bool) -> usize {
        let text = self.text;
        let previous = at.checked_sub(1).map_or("", |before| text.word(before));
        let named = matches!(
            self.label,
            Some(Label::Chord | Label::Radial | Label::Heading)
        );
        // "along the line of Elm Street, East 100.00 feet"
        let before_length = || {
            at.checked_sub(1)
                .is_some_and(|before| text.mark(before) == ',')
                && phrase::length(text, at + 1, self.system).is_some_and(|found| !found.bare)
        };
        let alone = first && self.bare || leads_a_direction(previous) || named || before_length();
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
        let names_bearing = matches!(
            self.label,
            Some(Label::Bearing | Label::Radial | Label::Heading)
        );
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
        let before = |back: usize| at.checked_sub(back).map_or("", |i| text.word(i));
        if let Some(sense) = radial::sense(text, at) {
            self.label = Some(Label::Radial);
            self.sense = sense;
            return;
        }
        if let Some((bearing, end)) = radial::hollow(text, at) {
            self.clause.told.hollow = Some(bearing);
            self.mark(at..end, "the side to which the curve is hollow".to_owned());
            return;
        }
        if let Some((bearing, end)) = radial::walked(text, at) {
            self.clause.told.walked = Some(bearing);
            self.mark(at..end, "roughly the way it runs".to_owned());
            return;
        }
        match word {
            "" => {}
            "left" | "lt" | "counterclockwise" => self.take_turn(at, Turn::Left),
            // "Measured clockwise from north" says how bearings are counted.
            "clockwise" if text.word(at + 1) == "from" => {}
            // "Right of way", "right angles".
            "right" if matches!(text.word(at + 1), "of" | "angle" | "angles") => {}
            "right" if matches!(text.mark(at + 1), '-') && text.word(at + 2) == "of" => {}
            "right" | "rt" | "clockwise" => self.take_turn(at, Turn::Right),
            "reverse" | "reversed" | "reversely" | "prc" => self.take_joint(at, Joint::Reverse),
            "compound" | "pcc" => self.take_joint(at, Joint::Compound),
            "nontangent" => {}
            "tangential" | "tangentially" => self.take_tangent(at),
            "curve" | "curved" | "curving" | "curvature" => self.clause.names_curve = true,
            _ => {
                let equals = matches!(text.mark(at + 1), '=' | ':');
                let Some(label) = Label::of(word, equals) else {
                    if !super::words::joins(word) {
                        self.after_figure = false;
                    }
                    return;
                };
                let bears_other = label == Label::Bearing
                    && matches!(
                        self.label,
                        Some(Label::Chord | Label::Radial | Label::Heading)
                    );
                if bears_other {
                    // "the chord of which bears": still the chord's.
                } else if label != Label::Tangent || self.leads_to_a_number(at + 1) {
                    self.label = Some(label);
                } else if before(1) != "not" && before(2) != "non" {
                    let bears = |i: usize| matches!(text.word(i), "bears" | "bearing");
                    if (at + 1..at + 6).any(bears) {
                        self.label = Some(Label::Heading);
                    } else {
                        self.take_tangent(at);
                    }
                }
            }
        }
    }

    fn take_tangent(&mut self, at: usize) {
        let text = self.text;
        self.clause.told.tangent = true;
        let to_curve = text.word(at + 1) == "to"
            && (at + 2..at + 6).any(|i| matches!(text.word(i), "curve" | "arc"));
        let runs_on = to_curve || matches!(text.word(at + 1), "thereto" | "line");
        self.clause.runs_on |= runs_on && self.clause.bearing.is_none();
    }

    fn take_joint(&mut self, at: usize, joint: Joint) {
        let names_curve = |i: usize| matches!(self.text.word(i), "curve" | "curvature");
        let lone = matches!(self.text.word(at), "prc" | "pcc");
        if lone || (at + 1..at + 4).any(names_curve) {
            self.clause.joint = Some(joint);
            let words = match joint {
                Joint::Reverse => "bends the other way than the curve before",
                Joint::Compound => "bends the same way as the curve before",
            };
            self.mark(at..at + 1, words.to_owned());
        }
    }

    /// The clause, with what could only be told at its end.
    fn finish(mut self) -> Clause {
        if let Some(found) = self.early.take()
            && self.clause.distance.is_none()
            && self.clause.bearing.is_some()
            && let Some(value) = self.value(&found)
        {
            self.take_distance(found.tokens, value);
        }
        self.clause
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
        let told = &mut self.clause.told;
        let second = match self.label {
            Some(Label::Chord) => told.chord.replace(value).is_some(),
            Some(Label::Radial) => told.radial.replace((value, self.sense)).is_some(),
            Some(Label::Heading) => told.heading.replace(value).is_some(),
            _ => self.clause.bearing.replace(value).is_some(),
        };
        if second {
            self.trouble(
                found.tokens,
                "A second bearing stands in one course.",
                "Put each course on a line of its own, or behind a “thence” of its own.",
            );
            return end;
        }
        let name = match self.label {
            Some(Label::Chord) => "chord bearing",
            Some(label @ (Label::Radial | Label::Heading)) => label.words(),
            _ => "bearing",
        };
        self.mark(
            found.tokens,
            format!("{name} {}", self.shown(Measure::Bearing, value)),
        );
        self.after_figure = true;
        if self.label != Some(Label::Chord) {
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
        if monument::is_size(text, &found.tokens) {
            self.mark(
                found.tokens,
                "the size of a mark, not a distance".to_owned(),
            );
            return end;
        }
        let behind = end + usize::from(text.mark(end) == '-');
        let label = self
            .label
            .take()
            .filter(|l| !matches!(l, Label::Bearing | Label::Radial | Label::Heading))
            .or_else(|| {
                // "a 25.00 foot radius curve": the name stands behind.
                let label = Label::of(text.word(behind), false).filter(|l| {
                    behind < self.end && matches!(l, Label::Radius | Label::Arc | Label::Chord)
                })?;
                end = behind + 1;
                Some(label)
            });
        if let Some(label) = label {
            self.set(found, label, value, Measure::LongLength);
            return end;
        }
        let straight = self.clause.bearing.is_some() || self.clause.runs_on;
        // "Along said curve, a distance of 35.20 feet".
        if !straight && self.clause.names_curve && !found.bare {
            self.set(found, Label::Arc, value, Measure::LongLength);
            return end;
        }
        let expected = self.bare || self.after_figure;
        if !straight {
            let before = |back: usize| {
                let at = found.tokens.start.checked_sub(back);
                at.map_or("", |i| text.word(i)).to_owned()
            };
            let leads = before(1) == "thence" || before(1) == "of" && before(2) == "distance";
            if leads && !found.bare {
                self.early = Some(found);
            }
            return end;
        }
        if found.bare && !expected {
            return found.tokens.end;
        }
        if let Some(before) = self.clause.distance {
            let at = found.tokens.start;
            let word = |back: usize| at.checked_sub(back).map_or("", |i| text.word(i));
            let total = word(1) == "all" || (1..=4).any(|back| word(back) == "total");
            // The same length in other units is no contradiction.
            if total && value > before {
                self.clause.distance = None;
                self.take_distance(found.tokens, value);
            } else if (before - value).abs() > before * 0.002 + found.rounding {
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
        self.take_distance(found.tokens, value);
        end
    }

    fn take_distance(&mut self, tokens: Range<usize>, value: f64) {
        self.clause.distance = Some(value);
        self.mark(
            tokens,
            format!("distance {}", self.shown(Measure::LongLength, value)),
        );
        self.after_figure = false;
    }

    /// Keeps a figure of a curve.
    fn set(&mut self, found: Found, label: Label, value: f64, measure: Measure) {
        let bend = &mut self.clause.bend;
        let slot = match label {
            Label::Radius => &mut bend.radius,
            Label::Delta => &mut bend.delta,
            Label::Arc => &mut bend.arc,
            Label::Chord | Label::Bearing | Label::Radial | Label::Heading => &mut bend.chord,
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
