//! A lot and its house told in one line: `lot 100 by 140, house 50 by 34 set back 35`.
//!
//! Enough for a first sketch with a homeowner. What the line leaves out is taken as usual, and said.

use std::sync::Arc;

use super::facts::Facts;
use super::feature::{Feature, ShapeRecord};
use super::kind::FeatureKind;
use super::{Site, starter};
use crate::geom::{PathRecord, Vertex};
use crate::lot::{LineKind, LotRecord};
use crate::units::constants::FOOT;
use crate::units::{Measure, System, UnitFault, parse_measure, show};

/// A house whose size is not told: width along the street and depth, meters. Common practice, no source.
const HOUSE: [f64; 2] = [50.0 * FOOT, 34.0 * FOOT];
/// How far a house stands behind the street line where it is not told, meters. Common practice, no source.
const SET_BACK: f64 = 25.0 * FOOT;
/// Room that a house of usual size leaves at each side of the lot, meters. Common practice, no source.
const SIDE_ROOM: f64 = 5.0 * FOOT;

/// How a line is written, for whoever is stuck.
const PATTERN: &str = "Write it like: lot 100 by 140, house 50 by 34 set back 35.";

/// What a line describes.
#[derive(Debug, Clone, PartialEq)]
pub struct Described {
    /// A new job on that lot, its street in the south.
    pub site: Site,
    /// What was understood and what was taken as usual, in a sentence or two.
    pub words: String,
}

/// A stretch of the line: where it starts, characters, and its text.
#[derive(Clone, Copy)]
struct Stretch<'a> {
    start: usize,
    text: &'a str,
}

/// What the line says of a house.
struct House {
    size: Option<[f64; 2]>,
    set_back: Option<f64>,
}

/// Reads a line; lengths without a unit are in that of the system.
///
/// # Errors
/// What was not understood, where, and how to write it.
pub fn read_description(line: &str, system: System) -> Result<Described, UnitFault> {
    let mut lot = None;
    let mut house = None;
    for clause in clauses(line) {
        let said = clause.text.to_lowercase();
        if let Some(rest) = after_word(clause, &said, "corner lot") {
            once(&mut lot, (two_lengths(rest, system)?, true), clause)?;
        } else if let Some(rest) = after_word(clause, &said, "lot") {
            once(&mut lot, (two_lengths(rest, system)?, false), clause)?;
        } else if let Some(rest) = after_word(clause, &said, "house") {
            once(&mut house, read_house(rest, system)?, clause)?;
        } else {
            let message = format!("\"{}\" is neither a lot nor a house.", clause.text);
            return Err(fault(clause, message));
        }
    }
    let whole = Stretch {
        start: 0,
        text: line,
    };
    let Some((size, corner)) = lot else {
        return Err(fault(whole, "No lot is described.".to_owned()));
    };
    let mut site = starter::blank_lot();
    site.display = system;
    site.lot = Arc::new(rectangle(size, corner));
    let length = |metres| show(Measure::LongLength, metres, system).text;
    let what = if corner { "corner lot" } else { "lot" };
    let [width, depth] = size;
    let mut words = format!(
        "A {what} {} along the street and {} deep",
        length(width),
        length(depth)
    );
    if let Some(house) = house {
        let (feature, said) = placed(&house, size, system).map_err(|why| fault(whole, why))?;
        site.features = vec![feature].into();
        words = format!("{words}, {said}");
    }
    Ok(Described {
        site,
        words: format!("{words}. The street is in the south."),
    })
}

/// The clauses between commas and semicolons. A comma inside a number stands before a digit.
fn clauses(line: &str) -> Vec<Stretch<'_>> {
    let mut found = Vec::new();
    let mut rest = Stretch {
        start: 0,
        text: line,
    };
    let ends = |(at, c): (usize, char), text: &str| {
        let next = text
            .get(at + c.len_utf8()..)
            .and_then(|after| after.chars().next());
        c == ';' || (c == ',' && !next.is_some_and(|it| it.is_ascii_digit()))
    };
    loop {
        let end = rest
            .text
            .char_indices()
            .find(|&it| ends(it, rest.text))
            .map(|it| it.0);
        let (clause, after) = match end {
            Some(at) => rest.text.split_at(at),
            None => (rest.text, ""),
        };
        found.extend(trimmed(Stretch {
            text: clause,
            ..rest
        }));
        let Some(text) = after.get(1..) else {
            return found;
        };
        rest = Stretch {
            start: rest.start + clause.chars().count() + 1,
            text,
        };
    }
}

/// Without the space round it; none where nothing is left.
fn trimmed(stretch: Stretch<'_>) -> Option<Stretch<'_>> {
    let text = stretch.text.trim_start();
    let gone = stretch.text.chars().count() - text.chars().count();
    (!text.trim().is_empty()).then(|| Stretch {
        start: stretch.start + gone,
        text: text.trim_end(),
    })
}

/// What follows a word at the beginning; `said` is the stretch in lower case.
fn after_word<'a>(stretch: Stretch<'a>, said: &str, word: &str) -> Option<Stretch<'a>> {
    let follows = said.strip_prefix(word)?;
    let whole = follows.is_empty() || follows.starts_with(|c: char| !c.is_alphabetic());
    let text = stretch.text.get(word.len()..)?;
    whole.then(|| {
        let rest = Stretch {
            start: stretch.start + word.len(),
            text,
        };
        trimmed(rest).unwrap_or(Stretch { text: "", ..rest })
    })
}

fn once<T>(slot: &mut Option<T>, value: T, clause: Stretch<'_>) -> Result<(), UnitFault> {
    if slot.is_some() {
        let message = format!("\"{}\" is told twice.", clause.text);
        return Err(fault(clause, message));
    }
    *slot = Some(value);
    Ok(())
}

fn read_house(rest: Stretch<'_>, system: System) -> Result<House, UnitFault> {
    let said = rest.text.to_lowercase();
    let (size, back) = match said
        .find("set back")
        .filter(|_| said.len() == rest.text.len())
    {
        None => (trimmed(rest), None),
        Some(at) => {
            let (before, after) = rest.text.split_at(at);
            let start = rest.start + before.chars().count();
            let back = after_word(Stretch { start, text: after }, "set back", "set back");
            (
                trimmed(Stretch {
                    text: before,
                    ..rest
                }),
                back,
            )
        }
    };
    Ok(House {
        size: size.map(|it| two_lengths(it, system)).transpose()?,
        set_back: back.map(|it| one_length(it, system)).transpose()?,
    })
}

/// `100 by 140`, `100 x 140`.
fn two_lengths(stretch: Stretch<'_>, system: System) -> Result<[f64; 2], UnitFault> {
    let between = [" by ", " x ", " X ", "×"];
    let cut = between
        .iter()
        .find_map(|it| stretch.text.find(it).map(|at| (at, it.len())));
    let parts = cut.and_then(|(at, long)| {
        let (first, rest) = stretch.text.split_at(at);
        Some((first, rest.get(..long)?, rest.get(long..)?))
    });
    let Some((first, by, second)) = parts else {
        let message =
            "Two lengths are needed: along the street, and from front to back.".to_owned();
        return Err(fault(stretch, message));
    };
    let start = stretch.start + first.chars().count() + by.chars().count();
    Ok([
        one_length(
            Stretch {
                text: first,
                ..stretch
            },
            system,
        )?,
        one_length(
            Stretch {
                start,
                text: second,
            },
            system,
        )?,
    ])
}

fn one_length(stretch: Stretch<'_>, system: System) -> Result<f64, UnitFault> {
    let read = parse_measure(stretch.text, Measure::LongLength, system);
    let value = read.map_err(|mut fault| {
        fault.span = fault.span.start + stretch.start..fault.span.end + stretch.start;
        fault
    })?;
    if value.value > 0.0 {
        return Ok(value.value);
    }
    let message = format!(
        "\"{}\" is no length: it must be more than nothing.",
        stretch.text
    );
    Err(fault(stretch, message))
}

fn fault(stretch: Stretch<'_>, message: String) -> UnitFault {
    UnitFault {
        message,
        remedy: PATTERN.to_owned(),
        span: stretch.start..stretch.start + stretch.text.chars().count(),
    }
}

/// The lot, its front along the street in the south; a corner lot has another street in the east.
fn rectangle([width, depth]: [f64; 2], corner: bool) -> LotRecord {
    let corners = [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)];
    let vertices: Vec<Vertex> = corners.iter().map(|&(x, y)| Vertex::line(x, y)).collect();
    let east = if corner {
        LineKind::StreetSide
    } else {
        LineKind::Side
    };
    let kinds = [LineKind::Front, east, LineKind::Rear, LineKind::Side];
    LotRecord::from_outline(&vertices, &kinds)
}

/// The house in the middle of the lot's width, and what is said of it; why it cannot stand there.
fn placed(house: &House, lot: [f64; 2], system: System) -> Result<(Feature, String), String> {
    let length = |metres| show(Measure::LongLength, metres, system).text;
    let usual = [HOUSE[0].min(lot[0] - 2.0 * SIDE_ROOM), HOUSE[1]];
    let [width, depth] = house.size.unwrap_or(usual);
    let back = house.set_back.unwrap_or(SET_BACK);
    if width <= 0.0 || width > lot[0] {
        return Err(format!(
            "A house {} wide does not fit on the lot.",
            length(width)
        ));
    }
    if back + depth > lot[1] {
        let (depth, back) = (length(depth), length(back));
        return Err(format!(
            "A house {depth} deep, set back {back}, does not fit on the lot."
        ));
    }
    let left = (lot[0] - width) / 2.0;
    let corners = [
        Vertex::line(left, back),
        Vertex::line(left + width, back),
        Vertex::line(left + width, back + depth),
        Vertex::line(left, back + depth),
    ];
    let taken = |told: bool| if told { "" } else { " (taken as usual)" };
    let said = format!(
        "with a house {} by {}{} in its middle, set back {}{}",
        length(width),
        length(depth),
        taken(house.size.is_some()),
        length(back),
        taken(house.set_back.is_some()),
    );
    let feature = Feature {
        id: "house".to_owned(),
        kind: FeatureKind::House,
        name: String::new(),
        shape: ShapeRecord::Area(PathRecord::from(&corners[..])),
        hidden: false,
        locked: false,
        facts: Facts::default(),
        note: String::new(),
    };
    Ok((feature, said))
}

#[cfg(test)]
mod tests;
