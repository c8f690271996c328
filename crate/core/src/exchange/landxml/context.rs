//! What all parts of a reading share: the unit, the points that have names, the things found so far.

use std::collections::BTreeMap;

use roxmltree::Node;

use super::curves::Arc;
use super::element::{all, attribute, text};
use super::units::FileUnits;
use crate::exchange::import::{Diagnostics, Item, POSITION_LIMIT, Position};
use crate::finding::Finding;

/// A reading under way.
pub(super) struct Context {
    /// What was found.
    pub items: Vec<Item>,
    /// The true curves of parcels.
    pub arcs: Vec<Arc>,
    /// Areas that parcels state: which item, and m2.
    pub areas: Vec<(usize, f64)>,
    /// What there is to say.
    pub diagnostics: Diagnostics,
    /// How lengths are meant.
    pub units: FileUnits,
    named: BTreeMap<String, Position>,
    /// Where lines begin in the text, bytes.
    lines: Vec<usize>,
    /// How many positions may still come.
    left: usize,
}

/// Which coordinates a list of points has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Width {
    /// Northing and easting.
    Plan,
    /// Northing, easting and elevation.
    High,
}

impl Context {
    pub fn new(source: &str, units: FileUnits) -> Self {
        let after = source.match_indices('\n').map(|(at, _)| at + 1);
        Self {
            items: Vec::new(),
            arcs: Vec::new(),
            areas: Vec::new(),
            diagnostics: Diagnostics::default(),
            units,
            named: BTreeMap::new(),
            lines: core::iter::once(0).chain(after).collect(),
            left: POSITION_LIMIT,
        }
    }

    /// Learns the points that others refer to by their names. Of two of one name the first counts.
    pub fn learn_names(&mut self, root: Node<'_, '_>) {
        for node in all(root, "CgPoint") {
            let name = attribute(node, "name");
            if name.is_empty() || self.named.contains_key(&name) {
                continue;
            }
            let at = numbers(&text(node)).ok().and_then(|it| self.made(&it));
            if let Some(at) = at {
                self.named.insert(name, at);
            }
        }
    }

    /// Whether more positions came than are read.
    pub fn is_full(&self) -> bool {
        self.left == 0
    }

    /// Where an element stands, as findings say it: `Parcel "Lot 4", line 31`.
    pub fn place(&self, node: Node<'_, '_>) -> String {
        let offset = node.range().start;
        let line = self.lines.partition_point(|start| *start <= offset);
        let begins = self.lines.get(line.saturating_sub(1)).copied();
        let column = offset - begins.unwrap_or(0) + 1;
        let kind = node.tag_name().name();
        match attribute(node, "name").as_str() {
            "" => format!("{kind}, line {line} column {column}"),
            name => format!("{kind} \"{name}\", line {line} column {column}"),
        }
    }

    /// Says something of an element.
    pub fn tell(&mut self, node: Node<'_, '_>, finding: Finding) {
        let place = self.place(node);
        self.diagnostics.add(&place, finding);
    }

    /// The place of a point: its own coordinates, or those of the point that it refers to.
    pub fn position(&mut self, node: Node<'_, '_>) -> Option<Position> {
        let told = match numbers(&text(node)) {
            Ok(told) => told,
            Err(word) => {
                self.tell(node, no_number(&word));
                return None;
            }
        };
        let reference = attribute(node, "pntRef");
        let at = match (told.is_empty(), reference.is_empty()) {
            (false, _) => self.made(&told),
            (true, false) => {
                let at = self.named.get(&reference).copied();
                if at.is_none() {
                    let message = format!(
                        "It refers to the point \"{reference}\", which is not in the file."
                    );
                    let remedy = "Have the points written into the file too; this was left out.";
                    self.tell(node, Finding::fault("point-missing", message, remedy));
                    return None;
                }
                at
            }
            (true, true) => None,
        };
        if at.is_none() {
            let message = "A point needs its northing and easting, and may have an elevation.";
            let remedy = "Mend the coordinates; this was left out.";
            self.tell(node, Finding::fault("point", message, remedy));
        }
        self.left = self.left.saturating_sub(1);
        at
    }

    /// The places of a list of points.
    pub fn list(&mut self, node: Node<'_, '_>, width: Width) -> Option<Vec<Position>> {
        let each = match width {
            Width::Plan => 2,
            Width::High => 3,
        };
        let told = match numbers(&text(node)) {
            Ok(told) => told,
            Err(word) => {
                self.tell(node, no_number(&word));
                return None;
            }
        };
        if told.is_empty() || told.len() % each != 0 {
            let message = format!(
                "The list has {} numbers; {each} are needed for each point.",
                told.len()
            );
            let remedy = "Mend the list; this was left out.";
            self.tell(node, Finding::fault("point-list", message, remedy));
            return None;
        }
        self.left = self.left.saturating_sub(told.len() / each);
        told.chunks(each).map(|it| self.made(it)).collect()
    }

    /// The point of a name.
    pub fn named(&self, name: &str) -> Option<Position> {
        self.named.get(name).copied()
    }

    /// An elevation of the file in the unit that is handed on.
    pub fn height(&self, told: f64) -> f64 {
        told * self.units.scale
    }

    /// Two or three numbers as a place.
    fn made(&self, told: &[f64]) -> Option<Position> {
        let scale = self.units.scale;
        let (first, second, height) = match told {
            [north, east] => (north, east, None),
            [north, east, up] => (north, east, Some(up * scale)),
            _ => return None,
        };
        Some(Position {
            first: first * scale,
            second: second * scale,
            height,
        })
    }

    /// How far two places lie apart in plan, meters.
    pub fn apart(&self, a: &Position, b: &Position) -> f64 {
        crate::math::hypot(a.first - b.first, a.second - b.second) * self.units.unit.in_metres()
    }
}

/// The numbers of a text; the word that is none.
pub(super) fn numbers(text: &str) -> Result<Vec<f64>, String> {
    // A comma separates nothing: it would be a decimal sign as likely as not.
    let words = text.split_ascii_whitespace();
    let number = |word: &str| match word.parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        _ => Err(word.chars().take(40).collect()),
    };
    words.map(number).collect()
}

fn no_number(word: &str) -> Finding {
    Finding::fault(
        "number",
        format!("\"{word}\" is not a number."),
        "Mend the coordinates: numbers with a decimal point, separated by spaces. This was left out.",
    )
}
