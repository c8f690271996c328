//! The figures of one clause, each given its meaning: by the label before or behind it, or by
//! what else stands in the clause.

use core::ops::Range;

use super::super::record::Turn;
use super::bend::Stated;
use super::clause::{Clause, Joint};
use super::keyword::{self, Keyword};
use super::length_unit::{LengthUnits, WrittenLength};
use super::lex::Text;
use super::monument;
use super::phrase::{self, Found};
use super::radial::Sense;
use super::words::{Label, leads_a_direction};
use crate::units::{Measure, Unit, show};

/// Reads the figures of one clause; tokens that are `used` already are left out. In a list of
/// courses, figures without units or marks are taken wherever they stand.
pub fn read(
    text: &Text,
    tokens: Range<usize>,
    used: &[bool],
    in_list: bool,
    units: LengthUnits,
) -> Clause {
    let mut reader = Reader {
        text,
        used,
        units,
        in_list,
        tokens: tokens.clone(),
        label: None,
        sense: Sense::Either,
        early_length: None,
        behind_bearing: false,
        clause: Clause::default(),
    };
    let mut at = tokens.start;
    while at < tokens.end {
        at = if used.get(at).copied().unwrap_or(false) {
            reader.label = None;
            at + 1
        } else {
            reader.step(at)
        };
    }
    reader.finish()
}

struct Reader<'a> {
    text: &'a Text,
    /// Tokens that are taken already.
    used: &'a [bool],
    units: LengthUnits,
    in_list: bool,
    /// Those of the clause.
    tokens: Range<usize>,
    /// What the next figure is said to be.
    label: Option<Label>,
    /// Which way the bearing of a radius looks, behind its label.
    sense: Sense,
    /// A length before any bearing, which may be the distance: "a distance of 80 feet on a
    /// bearing of N 10 E".
    early_length: Option<Found>,
    /// Whether nothing but joining stood since the bearing: a number is its distance.
    behind_bearing: bool,
    clause: Clause,
}

/// What a length is of.
enum Meaning {
    /// The size of what marks a corner.
    SizeOfMark,
    /// A figure of a curve.
    Curve(Label),
    /// The distance of a straight side.
    Distance,
    /// The distance, if a bearing follows.
    DistanceAhead,
    /// Nothing of this course.
    Nothing,
}

impl Reader<'_> {
    /// Takes what stands at a token, and gives the next one to look at.
    fn step(&mut self, at: usize) -> usize {
        if let Some(bearing) = self.lettered_bearing(at) {
            self.take_bearing(bearing)
        } else if self.text.is_number(at) {
            self.take_number(at)
        } else {
            self.take_word(at);
            at + 1
        }
    }

    /// Whether the next figure is said to be a bearing that no straight side has.
    fn names_other_bearing(&self) -> bool {
        matches!(
            self.label,
            Some(Label::Chord | Label::Radial | Label::Heading)
        )
    }

    fn within(&self, found: &Found) -> bool {
        found.tokens.end <= self.tokens.end
    }

    /// A bearing by the letters or words of the compass.
    fn lettered_bearing(&self, at: usize) -> Option<Found> {
        let text = self.text;
        // "along the line of Elm Street, East 100.00 feet"
        let before_length = || {
            let comma = at.checked_sub(1).is_some_and(|i| text.mark(i) == ',');
            comma && phrase::length(text, at + 1, self.units).is_some_and(|found| !found.is_bare())
        };
        let may_stand_alone = self.in_list && at == self.tokens.start
            || leads_a_direction(text.before(at, 1))
            || self.names_other_bearing()
            || before_length();
        phrase::quadrant(text, at)
            .filter(|found| self.within(found))
            .or_else(|| phrase::cardinal(text, at, may_stand_alone))
    }

    fn take_number(&mut self, at: usize) -> usize {
        let text = self.text;
        let length = phrase::length(text, at, self.units).filter(|found| self.within(found));
        // Two bare numbers in a row of a list: an azimuth and a distance.
        let first_of_two = || {
            let length = length.as_ref();
            let whole = |l: &Found| l.is_bare() && l.tokens.len() == 1;
            length.is_some_and(|l| whole(l) && text.is_number(l.tokens.end))
        };
        let bare_angle = match self.label {
            Some(Label::Delta | Label::Bearing | Label::Radial | Label::Heading) => true,
            Some(_) => false,
            None => {
                let opens = self.clause.bearing.is_none() && !self.clause.bends();
                self.in_list && opens && first_of_two()
            }
        };
        let angle = phrase::angle(text, at, bare_angle).filter(|found| self.within(found));
        match (angle, length) {
            (Some(angle), _) if self.label == Some(Label::Delta) => self.take_delta(angle),
            (Some(angle), _) => self.take_bearing(angle),
            (None, Some(length)) => self.take_length(length),
            (None, None) => at + 1,
        }
    }

    fn take_word(&mut self, at: usize) {
        let other_bearing = self.names_other_bearing();
        let clause = &mut self.clause;
        match keyword::at(self.text, at) {
            // "The chord of which bears": still the chord's.
            Keyword::Figure(Label::Bearing) if other_bearing => {}
            Keyword::Figure(label) => self.label = Some(label),
            Keyword::Radius(sense) => {
                self.label = Some(Label::Radial);
                self.sense = sense;
            }
            Keyword::Concave(bearing, end) => {
                clause.stated.concave_to = Some(bearing);
                clause.mark(at..end, "the side to which the curve is hollow");
            }
            Keyword::RunsToward(bearing, end) => {
                clause.stated.runs_toward = Some(bearing);
                clause.mark(at..end, "roughly the way it runs");
            }
            Keyword::Turn(turn) => self.take_turn(at, turn),
            Keyword::Joint(joint) => {
                clause.joint = Some(joint);
                let says = match joint {
                    Joint::Reverse => "bends the other way than the curve before",
                    Joint::Compound => "bends the same way as the curve before",
                };
                clause.mark(at..at + 1, says);
            }
            Keyword::Tangent(to_curve) => {
                clause.stated.tangent = true;
                clause.tangent_to_previous |= to_curve && clause.bearing.is_none();
            }
            Keyword::Curve => clause.mentions_curve = true,
            Keyword::Joining => {}
            Keyword::Unknown => self.behind_bearing = false,
        }
    }

    fn take_turn(&mut self, at: usize, turn: Turn) {
        let tokens = at..at + 1;
        if self.clause.turn.is_some_and(|before| before != turn) {
            return self.clause.trouble(
                tokens,
                "The curve is said to bend both to the left and to the right.",
                "Keep one of the two.",
            );
        }
        self.clause.turn = Some(turn);
        let says = match turn {
            Turn::Left => "to the left",
            Turn::Right => "to the right",
        };
        self.clause.mark(tokens, says);
    }

    fn take_bearing(&mut self, found: Found) -> usize {
        let end = found.tokens.end;
        let Some(value) = self.value(&found) else {
            return end;
        };
        let stated = &mut self.clause.stated;
        let (second, name) = match self.label {
            Some(Label::Chord) => (stated.chord.replace(value).is_some(), "chord bearing"),
            Some(label @ Label::Radial) => {
                let second = stated.radial.replace((value, self.sense)).is_some();
                (second, label.words())
            }
            Some(label @ Label::Heading) => {
                (stated.heading.replace(value).is_some(), label.words())
            }
            _ => (self.clause.bearing.replace(value).is_some(), "bearing"),
        };
        if second {
            self.clause.trouble(
                found.tokens,
                "A second bearing stands in one course.",
                "Put each course on a line of its own, or behind a “thence” of its own.",
            );
            return end;
        }
        self.mark_figure(found.tokens, name, Measure::Bearing, value);
        self.behind_bearing = true;
        if self.label != Some(Label::Chord) {
            self.label = None;
        }
        end
    }

    fn take_delta(&mut self, found: Found) -> usize {
        let end = found.tokens.end;
        self.label = None;
        if let Some(value) = self.value(&found) {
            self.keep_curve_figure(found, Label::Delta, value, Measure::Angle);
        }
        end
    }

    fn take_length(&mut self, found: Found) -> usize {
        let end = found.tokens.end;
        let Some(value) = self.value(&found) else {
            return end;
        };
        if monument::is_size(self.text, &found.tokens) {
            self.give_length(Meaning::SizeOfMark, found, value);
            return end;
        }
        let before = self
            .label
            .take()
            .filter(|label| !matches!(label, Label::Bearing | Label::Radial | Label::Heading));
        let (meaning, end) = match (before, self.label_behind(end)) {
            (Some(label), _) => (Meaning::Curve(label), end),
            (None, Some((label, behind))) => (Meaning::Curve(label), behind),
            (None, None) => (self.unlabeled_length(&found), end),
        };
        if !matches!(meaning, Meaning::Nothing)
            && let Some(word) = self.unknown_unit(&found)
        {
            return self.refuse_unit(&found, word);
        }
        self.give_length(meaning, found, value);
        end
    }

    /// The word right behind a number without a unit that can only be a unit nobody knows here.
    fn unknown_unit(&self, found: &Found) -> Option<usize> {
        let (text, at) = (self.text, found.tokens.end);
        let word = text.word(at);
        let used = self.used.get(at).copied().unwrap_or(false);
        let stands = found.is_bare() && at < self.tokens.end && !used && !word.is_empty();
        let known = phrase::is_letter(word) || word == "due" || goes_on(word);
        (stands && !known && keyword::at(text, at) == Keyword::Unknown).then_some(at)
    }

    /// Tells that a word is no unit of length, and gives the next token.
    fn refuse_unit(&mut self, found: &Found, word: usize) -> usize {
        let number = self.text.original(&found.tokens);
        let unit = self.text.original(&(word..word + 1));
        let message =
            format!("“{unit}” behind {number} is not a unit of length that is known here.");
        let remedy = format!(
            "Write the length in feet, meters, yards, chains and links, rods (poles, perches) or varas; if \
             “{unit}” is no unit, put a comma before it."
        );
        let tokens = found.tokens.start..word + 1;
        self.clause.trouble(tokens, &message, &remedy);
        word + 1
    }

    /// The name of a length that stands behind it, and where that ends: "a 25.00 foot radius
    /// curve".
    fn label_behind(&self, end: usize) -> Option<(Label, usize)> {
        let at = end + usize::from(self.text.mark(end) == '-');
        let label = Label::of(self.text.word(at), false).filter(|_| at < self.tokens.end)?;
        matches!(label, Label::Radius | Label::Arc | Label::Chord).then_some((label, at + 1))
    }

    /// What a length is of that no word names.
    fn unlabeled_length(&self, found: &Found) -> Meaning {
        let straight = self.clause.bearing.is_some() || self.clause.tangent_to_previous;
        if straight {
            return if !found.is_bare() || self.in_list || self.behind_bearing {
                Meaning::Distance
            } else {
                Meaning::Nothing
            };
        }
        let before = |back: usize| self.text.before(found.tokens.start, back);
        let leads = before(1) == "thence" || before(1) == "of" && before(2) == "distance";
        if found.is_bare() {
            Meaning::Nothing
        } else if self.clause.mentions_curve {
            // "Along said curve, a distance of 35.20 feet".
            Meaning::Curve(Label::Arc)
        } else if leads {
            Meaning::DistanceAhead
        } else {
            Meaning::Nothing
        }
    }

    fn give_length(&mut self, meaning: Meaning, found: Found, value: f64) {
        match meaning {
            Meaning::SizeOfMark => self
                .clause
                .mark(found.tokens, "the size of a mark, not a distance"),
            Meaning::Curve(label) => {
                self.keep_curve_figure(found, label, value, Measure::LongLength);
            }
            Meaning::Distance => self.take_distance(found, value),
            Meaning::DistanceAhead => self.early_length = Some(found),
            Meaning::Nothing => {}
        }
    }

    /// A distance, unless one was stated: then the total of both or the same in other units.
    fn take_distance(&mut self, found: Found, value: f64) {
        let Some(before) = self.clause.distance else {
            return self.keep_distance(found.tokens, found.unit, value);
        };
        let word = |back: usize| self.text.before(found.tokens.start, back);
        let total = word(1) == "all" || (1..=4).any(|back| word(back) == "total");
        if total && value > before {
            self.keep_distance(found.tokens, found.unit, value);
        } else if (before - value).abs() > before * 0.002 + found.rounding {
            self.clause.trouble(
                found.tokens,
                "A second distance stands in one course, and it is another length.",
                "Keep one distance, or put each course on a line of its own.",
            );
        } else {
            self.clause.mark(found.tokens, "the same distance again");
        }
    }

    fn keep_distance(&mut self, tokens: Range<usize>, unit: Option<Unit>, value: f64) {
        self.clause.distance = Some(value);
        let at = tokens.start;
        self.clause.lengths.push(WrittenLength { at, unit });
        self.mark_figure(tokens, "distance", Measure::LongLength, value);
        self.behind_bearing = false;
    }

    fn keep_curve_figure(&mut self, found: Found, label: Label, value: f64, measure: Measure) {
        let Found {
            tokens,
            rounding,
            unit,
            ..
        } = found;
        let kept = self.clause.curve_figure(label);
        if kept.is_some_and(|before| (before.value - value).abs() > rounding.max(1e-9)) {
            let message = format!("A second {} stands in one course.", label.words());
            let remedy = "Keep one, or put each course on a line of its own.";
            return self.clause.trouble(tokens, &message, remedy);
        }
        *kept = Some(Stated { value, rounding });
        if measure == Measure::LongLength {
            let at = tokens.start;
            self.clause.lengths.push(WrittenLength { at, unit });
        }
        self.mark_figure(tokens, label.words(), measure, value);
    }

    fn mark_figure(&mut self, tokens: Range<usize>, name: &str, measure: Measure, value: f64) {
        let shown = show(measure, value, self.units.system).text;
        self.clause.mark(tokens, format!("{name} {shown}"));
    }

    /// The value of a figure; what is wrong with one that has none is kept.
    fn value(&mut self, found: &Found) -> Option<f64> {
        match &found.value {
            Ok(value) => Some(*value),
            Err(fault) => {
                let tokens = found.tokens.clone();
                self.clause.trouble(tokens, &fault.message, &fault.remedy);
                None
            }
        }
    }

    /// The clause, with what could only be told at its end.
    fn finish(mut self) -> Clause {
        if let Some(found) = self.early_length.take()
            && self.clause.distance.is_none()
            && self.clause.bearing.is_some()
            && let Some(value) = self.value(&found)
        {
            self.keep_distance(found.tokens, found.unit, value);
        }
        self.clause
    }
}

/// Whether a word goes on behind a number that is a distance: no unit ends so, or is called so.
fn goes_on(word: &str) -> bool {
    word.ends_with("ing")
        || matches!(
            word,
            "across"
                | "over"
                | "under"
                | "near"
                | "between"
                | "past"
                | "up"
                | "down"
                | "into"
                | "toward"
                | "towards"
                | "until"
                | "where"
                | "per"
                | "record"
                | "calculated"
        )
}
