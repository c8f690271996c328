//! Coordinates: positions, lines, rings and polygons out of nested lists of numbers.

use serde_json::Value;

use crate::exchange::import::{Diagnostics, Piece, Position};
use crate::finding::{Finding, Message};

/// Reads coordinates and tells what is wrong with them.
pub(super) struct Coordinates<'a> {
    /// Where findings go.
    pub diagnostics: &'a mut Diagnostics,
    /// How many positions may still come.
    pub left: usize,
}

impl Coordinates<'_> {
    /// A list of something, each with its place.
    pub fn each<T>(
        &mut self,
        value: &Value,
        place: &str,
        mut one: impl FnMut(&mut Self, &Value, &str) -> Option<T>,
    ) -> Option<Vec<T>> {
        let Some(list) = value.as_array() else {
            self.fault(
                place,
                "coordinates",
                "Here should stand a list of coordinates.",
            );
            return None;
        };
        let mut all = Vec::with_capacity(list.len().min(self.left));
        let mut sound = true;
        for (i, item) in list.iter().enumerate() {
            match one(self, item, &format!("{place}/{i}")) {
                Some(item) => all.push(item),
                None => sound = false,
            }
            if self.left == 0 {
                return None;
            }
        }
        sound.then_some(all)
    }

    /// Two or three numbers.
    pub fn position(&mut self, value: &Value, place: &str) -> Option<Position> {
        let list = value.as_array().map(Vec::as_slice).unwrap_or_default();
        let number = |i: usize| list.get(i).and_then(Value::as_f64);
        let (Some(first), Some(second)) = (number(0), number(1)) else {
            let message = "A position is a list of at least two numbers: longitude and latitude.";
            self.fault(place, "position", message);
            return None;
        };
        if list.len() > 3 {
            self.diagnostics.add(
                place,
                Finding::note(
                    "position-length",
                    format!("The position has {} numbers; three are read.", list.len()),
                    "The first is taken as longitude, the second as latitude, the third as elevation.",
                ),
            );
        }
        self.left = self.left.saturating_sub(1);
        let height = number(2);
        if height.is_none() && list.get(2).is_some_and(|z| !z.is_null()) {
            self.fault(place, "position", "The elevation is not a number.");
            return None;
        }
        Some(Position {
            first,
            second,
            height,
        })
    }

    /// At least two positions.
    pub fn line(&mut self, value: &Value, place: &str) -> Option<Vec<Position>> {
        let line = self.each(value, place, Self::position)?;
        if line.len() < 2 {
            self.fault(
                place,
                "line-too-short",
                "A line needs at least two positions.",
            );
            return None;
        }
        Some(line)
    }

    /// A closed ring without its repeated first position.
    fn ring(&mut self, value: &Value, place: &str) -> Option<Vec<Position>> {
        let mut ring = self.each(value, place, Self::position)?;
        let same = |a: &Position, b: &Position| a.first == b.first && a.second == b.second;
        let closed = matches!(ring.as_slice(), [a, .., b] if same(a, b));
        if closed {
            ring.pop();
        } else if ring.len() > 1 {
            self.diagnostics.add(
                place,
                Finding::caution(
                    "ring-not-closed",
                    "The last position of the ring does not repeat the first.",
                    "The ring was closed by a straight line; check that no corner is missing.",
                ),
            );
        }
        let before = ring.len();
        ring.dedup_by(|b, a| same(a, b));
        if ring.len() < before {
            self.diagnostics.add(
                place,
                Finding::note(
                    "position-repeated",
                    "Positions that repeat the one before were left out.",
                    "",
                ),
            );
        }
        if ring.len() < 3 {
            self.fault(
                place,
                "ring-too-short",
                "A ring needs at least three different corners.",
            );
            return None;
        }
        Some(ring)
    }

    /// An outer ring and its holes.
    pub fn polygon(&mut self, value: &Value, place: &str) -> Option<Piece<Position>> {
        let mut rings = self.each(value, place, Self::ring)?.into_iter();
        let Some(outer) = rings.next() else {
            self.fault(place, "ring-missing", "The polygon has no ring.");
            return None;
        };
        Some(Piece {
            outer,
            holes: rings.collect(),
        })
    }

    /// Tells of something that cannot be used.
    pub fn fault(&mut self, place: &str, check: &'static str, message: impl Into<Message>) {
        let remedy = "Mend it in the file, or ask its author for a copy; this thing was left out.";
        self.diagnostics
            .add(place, Finding::fault(check, message, remedy));
    }
}
