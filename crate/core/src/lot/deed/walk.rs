//! The clauses of a deed in their order: where it begins, its sides, its return, its area.

use core::ops::Range;

use super::clause::{self, Clause, Trouble};
use super::length_unit::{self, LengthUnits, WrittenLength};
use super::lex::Text;
use super::token::Kind;
use super::words::joins;
use super::{Marked, Reading, Understood, figures, lead, phrase, pieces};
use crate::finding::{Finding, Message};
use crate::units::{Measure, System, show};

/// Two stated areas further apart than this share contradict each other (our choice).
const AREAS_AGREE: f64 = 0.01;

/// Whether a token is a number, or a word that does not only join.
pub fn is_odd(text: &Text, at: usize) -> bool {
    match text.kind(at) {
        Some(Kind::Number { .. }) => true,
        Some(Kind::Word(word)) => !joins(word),
        _ => false,
    }
}

/// Whether "to" or "to the" stands before a token.
fn led_to(text: &Text, at: usize) -> bool {
    let back = 1 + usize::from(text.before(at, 1) == "the");
    text.before(at, back) == "to"
}

/// Where the walk stands in the description.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Stage {
    /// On the way from a point of commencement to the point of beginning.
    Tie,
    /// Round the lot.
    Round,
    /// Back at the beginning.
    Home,
}

/// Reads all clauses; a second time where numbers without a unit turn out to be in another unit
/// than that of the system.
pub fn walk(text: &Text, system: System) -> Reading {
    let usual = LengthUnits::of(system);
    let first = walk_in(text, usual);
    let other = length_unit::shared(&first.lengths).filter(|unit| *unit != usual.bare);
    let mut walk = match other {
        Some(bare) => walk_in(text, LengthUnits { system, bare }),
        None => first,
    };
    for caution in length_unit::cautions(&walk.lengths, walk.units) {
        walk.caution(caution.code, caution.at, caution.message, caution.remedy);
    }
    let mut reading = walk.reading;
    reading.pieces = pieces(text, walk.marked);
    reading
}

/// Reads all clauses in the given units.
fn walk_in(text: &Text, units: LengthUnits) -> Walk<'_> {
    let prose = (0..text.tokens.len()).any(|at| text.word(at) == "thence");
    let mut walk = Walk {
        text,
        units,
        prose,
        taken: vec![false; text.tokens.len()],
        marked: Vec::new(),
        reading: Reading::default(),
        lines: Vec::new(),
        lengths: Vec::new(),
        homes: Vec::new(),
        pending: None,
    };
    walk.tell_conflicts();
    walk.tell_other_zero();
    walk.take_areas();
    walk.homes = walk.find_homes();
    let clauses = walk.clauses();
    walk.round(&clauses);
    walk.settle_pending();
    walk
}

/// What is told of a curve before its own clause.
#[derive(Debug, Clone, Default)]
pub struct Pending {
    /// What is told.
    pub clause: Clause,
    /// Marks that are not shown yet: they belong to the curve.
    pub marks: Vec<clause::Mark>,
    /// The fault when no curve takes it; `None` when nothing is lost.
    pub trouble: Option<Trouble>,
}

/// The walk so far.
pub struct Walk<'a> {
    pub(super) text: &'a Text,
    pub(super) units: LengthUnits,
    pub(super) prose: bool,
    pub(super) taken: Vec<bool>,
    /// In the order of the text.
    pub(super) marked: Vec<Marked>,
    pub(super) reading: Reading,
    /// The line of each finding.
    lines: Vec<usize>,
    /// The lengths that the courses rest on.
    pub(super) lengths: Vec<WrittenLength>,
    /// Where the point of beginning is named: the first token of each.
    pub(super) homes: Vec<usize>,
    /// What the course before tells of a curve that it leads to, and the fault if no curve
    /// comes that takes it.
    pub(super) pending: Option<Pending>,
}

impl Walk<'_> {
    pub(super) fn take(&mut self, tokens: Range<usize>, understood: Understood, message: String) {
        for taken in self.taken.iter_mut().take(tokens.end).skip(tokens.start) {
            *taken = true;
        }
        self.mark(tokens, understood, message, "");
    }

    pub(super) fn mark(
        &mut self,
        tokens: Range<usize>,
        understood: Understood,
        message: String,
        remedy: &str,
    ) {
        let place = self
            .marked
            .partition_point(|before| before.tokens.start <= tokens.start);
        let mark = Marked {
            tokens,
            understood,
            message,
            remedy: remedy.to_owned(),
        };
        self.marked.insert(place, mark);
    }

    /// Keeps a finding at a token, in the order of the lines.
    fn tell(&mut self, at: usize, finding: Finding) {
        let line = self.text.tokens.get(at).map_or(1, |token| token.line);
        let place = self.lines.partition_point(|before| *before <= line);
        self.lines.insert(place, line);
        let finding = finding.under(&format!("line {line}"));
        self.reading.findings.insert(place, finding);
    }

    pub(super) fn fault(&mut self, check: &'static str, trouble: &Trouble) {
        let Trouble {
            tokens,
            message,
            remedy,
        } = trouble.clone();
        let finding = Finding::fault(check, message.clone(), remedy.clone());
        self.tell(tokens.start, finding);
        self.mark(tokens, Understood::Unread, message, &remedy);
    }

    pub(super) fn caution(
        &mut self,
        check: &'static str,
        at: usize,
        message: String,
        remedy: impl Into<Message>,
    ) {
        self.tell(at, Finding::caution(check, message, remedy));
    }

    /// Numbers in words with other digits behind them.
    fn tell_conflicts(&mut self) {
        let text = self.text;
        for conflict in &text.conflicts {
            let trouble = Trouble {
                tokens: conflict.token..conflict.token + 1,
                message: format!(
                    "The number in words is {}, but the digits behind it say {}.",
                    conflict.words, conflict.digits
                ),
                remedy: "Keep the one that the deed means.".to_owned(),
            };
            self.fault("deed-words", &trouble);
        }
    }

    /// Azimuths that count from the south: they would be read half a turn off.
    fn tell_other_zero(&mut self) {
        let text = self.text;
        let is_azimuth = |at: usize| matches!(text.word(at), "azimuth" | "azimuths" | "az");
        for at in 0..text.tokens.len() {
            let south = at + 1 + usize::from(matches!(text.word(at + 1), "true" | "the"));
            let from_south = text.word(at) == "from" && text.word(south) == "south";
            if from_south && (at.saturating_sub(12)..at).any(is_azimuth) {
                let trouble = Trouble {
                    tokens: at..south + 1,
                    message: "The azimuths of this text count from the south; here they count from the north."
                        .to_owned(),
                    remedy: "Turn every azimuth by 180 degrees, and leave these words out.".to_owned(),
                };
                self.fault("deed-azimuth", &trouble);
                return;
            }
        }
    }

    /// Areas, wherever they stand.
    fn take_areas(&mut self) {
        let mut at = 0;
        while at < self.text.tokens.len() {
            let found = phrase::area(self.text, at, self.units.system);
            let Some((found, value)) = found.and_then(|f| f.value.clone().ok().map(|v| (f, v)))
            else {
                at += 1;
                continue;
            };
            at = found.tokens.end;
            let shown = show(Measure::LandArea, value, self.units.system).text;
            match self.reading.stated_area {
                Some(first) if (first - value).abs() > first * AREAS_AGREE => self.caution(
                    "deed-areas",
                    found.tokens.start,
                    format!("Two areas are stated, and they differ; {shown} was not taken."),
                    "Keep the one that the deed means.",
                ),
                Some(_) => {}
                None => self.reading.stated_area = Some(value).filter(|v| *v > 0.0),
            }
            self.take(
                found.tokens,
                Understood::Area(value),
                format!("stated area {shown}"),
            );
        }
    }

    /// The phrases for the point of beginning.
    fn find_homes(&mut self) -> Vec<usize> {
        let text = self.text;
        let mut homes = Vec::new();
        for at in 0..text.tokens.len() {
            let length = match (text.word(at), text.word(at + 1), text.word(at + 2)) {
                ("point" | "place" | "corner", "of", "beginning") => 3,
                ("pob", _, _) => 1,
                // "To the beginning", but not "to the beginning point of a curve".
                ("beginning", next, last) if led_to(text, at) && ![next, last].contains(&"of") => 1,
                ("p", _, "o") if text.word(at + 4) == "b" => 5,
                _ => continue,
            };
            if length == 3 && lead::begins_a_curve(text, at + 3) {
                continue;
            }
            homes.push(at);
            self.take(
                at..at + length,
                Understood::Beginning,
                "the point of beginning".to_owned(),
            );
        }
        homes
    }

    /// The clauses: from "thence" to "thence" in prose, otherwise lines and what lies between
    /// semicolons.
    fn clauses(&self) -> Vec<Range<usize>> {
        let text = self.text;
        let mut starts = vec![0];
        let line = |at: usize| text.tokens.get(at).map(|t| t.line);
        for at in 1..text.tokens.len() {
            let opens = if self.prose {
                text.word(at) == "thence"
            } else {
                line(at) != line(at - 1) || text.mark(at - 1) == ';'
            };
            if opens {
                starts.push(at);
            }
        }
        starts.dedup();
        let ends = starts.iter().copied().skip(1).chain([text.tokens.len()]);
        starts
            .iter()
            .copied()
            .zip(ends)
            .map(|(from, to)| from..to)
            .collect()
    }

    /// Every clause in its turn.
    fn round(&mut self, clauses: &[Range<usize>]) {
        let text = self.text;
        let head = clauses.first().cloned().unwrap_or(0..0);
        let commences = head.clone().any(|at| text.word(at).starts_with("commenc"));
        let homes = self.homes.clone();
        let home_in = |clause: &Range<usize>| homes.iter().any(|home| clause.contains(home));
        let returns = clauses.iter().filter(|c| home_in(c)).count();
        let mut stage = if commences && returns > 1 && !home_in(&head) {
            Stage::Tie
        } else {
            Stage::Round
        };
        for (index, clause) in clauses.iter().enumerate() {
            let home = home_in(clause);
            if self.prose && index == 0 && text.word(clause.start) != "thence" {
                self.caption(clause.clone());
                continue;
            }
            match stage {
                Stage::Tie => self.take(
                    clause.clone(),
                    Understood::Beginning,
                    "a tie to the point of beginning: not a side of the lot".to_owned(),
                ),
                Stage::Home => self.after_home(clause.clone()),
                Stage::Round => self.side(clause.clone()),
            }
            stage = match (stage, home) {
                (Stage::Tie, true) => Stage::Round,
                (Stage::Round, true) if !self.reading.courses.is_empty() => Stage::Home,
                (as_before, _) => as_before,
            };
        }
    }

    /// What stands before the first "thence".
    fn caption(&mut self, tokens: Range<usize>) {
        let text = self.text;
        for at in tokens.clone() {
            if text.word(at) == "beginning" || text.word(at).starts_with("commenc") {
                self.take(
                    at..at + 1,
                    Understood::Beginning,
                    "where it begins".to_owned(),
                );
            }
        }
        if let Some(found) = tokens.clone().find_map(|at| phrase::quadrant(text, at)) {
            let trouble = Trouble {
                tokens: found.tokens.clone(),
                message: "A bearing stands before the first “thence”; it was not taken as a side."
                    .to_owned(),
                remedy: "If it is a side of the lot, write “thence” before it.".to_owned(),
            };
            self.caution(
                "deed-caption",
                found.tokens.start,
                trouble.message.clone(),
                trouble.remedy.clone(),
            );
            self.mark(
                found.tokens,
                Understood::Unread,
                trouble.message,
                &trouble.remedy,
            );
        }
    }

    /// What stands behind the return to the beginning.
    fn after_home(&mut self, tokens: Range<usize>) {
        let clause = figures::read(
            self.text,
            tokens.clone(),
            &self.taken,
            !self.prose,
            self.units,
        );
        if clause.bearing.is_some() || clause.bends() {
            self.fault(
                "deed-second-parcel",
                &Trouble {
                    tokens,
                    message: "The description goes on after it came back to its beginning."
                        .to_owned(),
                    remedy: "Paste one parcel at a time, without the parts taken out of it."
                        .to_owned(),
                },
            );
        }
    }
}
