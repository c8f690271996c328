//! A deed as it was read, in figures and as plain text: its courses, how they close, and every stretch of it that no
//! figure was taken from.

use serde::Serialize;

use super::Figure;
use super::table::Lean::{Left, Right};
use super::table::{columns, findings, heading, hung, pairs};
use crate::finding::{Finding, sort_by_severity};
use crate::json;
use crate::lot::deed::{Reading, Summary, Understood};
use crate::lot::{CourseShape, LineKind, LotRecord, Turn};
use crate::units::{Measure, System};

/// What a deed says of a lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DeedFigures {
    /// Its courses in order.
    pub courses: Vec<CourseFigures>,
    /// How far the courses miss their start; none while there are none.
    pub misclosure: Option<Figure>,
    /// From start to end; none where they close exactly.
    pub direction: Option<Figure>,
    /// The legs of the traverse over the misclosure; none where they close exactly.
    pub closing: Option<Figure>,
    /// Length round the boundary, arcs along the arc.
    pub perimeter: Option<Figure>,
    /// Area inside the courses; none while they enclose nothing.
    pub area: Option<Figure>,
    /// The area that the deed states.
    pub stated_area: Option<Figure>,
    /// What no figure was taken from.
    pub read_over: Vec<ReadOver>,
    /// What is wrong or worth a look.
    pub findings: Vec<Finding>,
}

/// One course of a deed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CourseFigures {
    /// Its kind, as far as the streets that the deed names tell it.
    pub kind: LineKind,
    /// The bearing of the line, or of the curve's chord.
    pub bearing: Figure,
    /// Along the course: of a curve, along its arc.
    pub length: Figure,
    /// What else a curve has.
    pub curve: Option<CurveFigures>,
    /// The street it runs along, as the deed writes it; empty of one without a name.
    pub street: Option<String>,
}

/// The curve of a course.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CurveFigures {
    /// Its radius.
    pub radius: Figure,
    /// From end to end.
    pub chord: Figure,
    /// Which way it bends for somebody who walks along it.
    pub turn: Turn,
}

/// A stretch of the text that was read over.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadOver {
    /// The line it begins in, counted from 1.
    pub line: usize,
    /// Its words.
    pub text: String,
    /// Why nothing was taken from it.
    pub message: String,
    /// How to mend it; empty where nothing has to be done.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub remedy: String,
}

impl DeedFigures {
    /// Those of a text as it was read, its lot being otherwise as `rest` has it (start, the closure that is asked for).
    pub fn of(text: &str, reading: &Reading, rest: &LotRecord, system: System) -> Self {
        let figure = |measure, value| Figure::new(measure, value, system);
        let record = reading.record(rest);
        let summary = Summary::of(&record);
        let closure = summary.closure;
        let ratio = closure.and_then(|it| it.ratio);
        let kinds = reading.kinds(rest).unwrap_or_default();
        let street = |course: usize| {
            let found = reading.streets.iter().find(|it| it.course == course);
            found.map(|it| it.name.clone())
        };
        let courses = record.courses.iter().enumerate().map(|(at, course)| {
            let (bearing, curve) = match course.shape {
                CourseShape::Line { bearing, .. } => (bearing, None),
                CourseShape::Curve {
                    chord_bearing,
                    chord,
                    radius,
                    turn,
                    ..
                } => {
                    let curve = CurveFigures {
                        radius: figure(Measure::LongLength, radius),
                        chord: figure(Measure::LongLength, chord),
                        turn,
                    };
                    (chord_bearing, Some(curve))
                }
            };
            CourseFigures {
                kind: kinds.get(at).copied().unwrap_or_default(),
                bearing: figure(Measure::Bearing, bearing),
                length: figure(Measure::LongLength, course.shape.length()),
                curve,
                street: street(at),
            }
        });
        // What the text itself is blamed for comes first, then what its courses make.
        let mut all = reading.findings.clone();
        all.extend(summary.findings);
        Self {
            courses: courses.collect(),
            misclosure: closure.map(|it| figure(Measure::Misclosure, it.length)),
            direction: closure
                .filter(|_| ratio.is_some())
                .map(|it| figure(Measure::Bearing, it.bearing)),
            closing: ratio.map(|it| figure(Measure::Closing, it)),
            perimeter: summary.perimeter.map(|it| figure(Measure::LongLength, it)),
            area: summary.area.map(|it| figure(Measure::LandArea, it)),
            stated_area: reading.stated_area.map(|it| figure(Measure::LandArea, it)),
            read_over: read_over(text, reading),
            findings: sort_by_severity(&all),
        }
    }

    /// As JSON text of the fixed layout.
    pub fn to_json(&self) -> String {
        json::to_string(self)
    }

    /// Everything as plain text: what is wrong, the courses, how they close, what was read over.
    pub fn to_text(&self) -> String {
        let mut out = String::new();
        findings(&self.findings.iter().collect::<Vec<&Finding>>(), &mut out);
        heading("Courses", &mut out);
        let rows: Vec<Vec<String>> = self
            .courses
            .iter()
            .enumerate()
            .map(|(at, course)| course.row(at + 1))
            .collect();
        columns(2, &[Right, Left, Right, Left, Left], &rows, &mut out);
        if rows.is_empty() {
            out.push_str("  None was understood.\n");
        }
        heading("Closure and area", &mut out);
        let exact = || Some("exact".to_owned());
        let both = |figure: &Option<Figure>| figure.as_ref().map(Figure::both);
        let missed = |figure: &Figure| match &self.direction {
            Some(direction) => format!("{}, {}", figure.both(), direction.shown.text),
            None => "exact".to_owned(),
        };
        let lines = [
            ("Misses its start by", self.misclosure.as_ref().map(missed)),
            (
                "Closure",
                both(&self.closing).or_else(|| self.misclosure.as_ref().and_then(|_| exact())),
            ),
            ("Length round it", both(&self.perimeter)),
            ("Area", both(&self.area)),
            ("Area stated", both(&self.stated_area)),
        ];
        let told = lines.into_iter().filter_map(|(name, it)| Some((name, it?)));
        pairs(&told.collect::<Vec<(&str, String)>>(), &mut out);
        if !self.read_over.is_empty() {
            heading("Not understood, or of no use for the lot", &mut out);
            for it in &self.read_over {
                let text = format!(
                    "line {}: \"{}\" {} {}",
                    it.line, it.text, it.message, it.remedy
                );
                hung("  - ", &text, &mut out);
            }
        }
        out
    }
}

impl CourseFigures {
    fn row(&self, number: usize) -> Vec<String> {
        let kind = match self.kind {
            LineKind::Unspecified => "",
            kind => kind.words(),
        };
        let curve = self.curve.as_ref().map(|it| {
            let side = match it.turn {
                Turn::Left => "left",
                Turn::Right => "right",
            };
            let (radius, chord) = (&it.radius.shown.text, &it.chord.shown.text);
            format!("curve to the {side}, radius {radius}, chord {chord}")
        });
        let street = self.street.as_ref().map(|name| match name.as_str() {
            "" => "along a street".to_owned(),
            name => format!("along {name}"),
        });
        let more: Vec<String> = curve.into_iter().chain(street).collect();
        vec![
            number.to_string(),
            self.bearing.shown.text.clone(),
            self.length.shown.text.clone(),
            kind.to_owned(),
            more.join("; "),
        ]
    }
}

/// The stretches that nothing was taken from, each with its place.
fn read_over(text: &str, reading: &Reading) -> Vec<ReadOver> {
    let letters: Vec<char> = text.chars().collect();
    let unread = reading
        .pieces
        .iter()
        .filter(|it| it.understood == Understood::Unread);
    let told = unread.map(|piece| {
        let before = letters.get(..piece.from).unwrap_or_default();
        let words: String = letters
            .get(piece.from..piece.to)
            .unwrap_or_default()
            .iter()
            .collect();
        ReadOver {
            line: 1 + before.iter().filter(|it| **it == '\n').count(),
            text: words.split_whitespace().collect::<Vec<&str>>().join(" "),
            message: piece.message.clone(),
            remedy: piece.remedy.clone(),
        }
    });
    told.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lot::deed::read;

    fn figures(text: &str) -> DeedFigures {
        let reading = read(text, System::Feet);
        DeedFigures::of(text, &reading, &LotRecord::default(), System::Feet)
    }

    #[test]
    fn a_square_of_a_hundred_feet_closes_and_has_its_area() {
        let it = figures("N 0 E 100 ft\nEast 100 ft\nS 0 E 100 ft\nWest 100 ft");
        assert_eq!(it.courses.len(), 4);
        assert!(it.closing.is_none() && it.read_over.is_empty());
        // 100 ft are 30.48 m.
        let area = it.area.as_ref().unwrap().value;
        assert!((area - 30.48 * 30.48).abs() < 1e-6, "{area}");
        let text = it.to_text();
        assert!(text.contains("Misses its start by  exact"), "{text}");
        assert!(text.contains("N 90°00'00\" E  100.00 ft"), "{text}");
    }

    #[test]
    fn what_was_read_over_is_told_with_its_line() {
        let text = "North 100 ft\nsubject to the covenants of record\nEast 100 ft";
        let it = figures(text);
        let over: Vec<(usize, &str)> = it
            .read_over
            .iter()
            .map(|it| (it.line, it.text.as_str()))
            .collect();
        assert!(
            over.iter()
                .any(|(line, words)| *line == 2 && words.contains("covenants")),
            "{over:?}"
        );
        assert!(it.to_text().contains("line 2: \""), "{}", it.to_text());
    }

    #[test]
    fn a_gap_is_told_both_ways() {
        let it = figures("N 0 E 100 ft\nEast 100 ft\nS 0 E 100 ft\nWest 99.9 ft");
        // 399.9 ft of legs over a gap of 0.1 ft.
        let ratio = it.closing.as_ref().unwrap().value;
        assert!((ratio - 3999.0).abs() < 1e-3, "{ratio}");
        assert!(it.direction.is_some());
        assert!(it.findings.iter().any(|it| it.code == "lot-closure"));
    }
}
