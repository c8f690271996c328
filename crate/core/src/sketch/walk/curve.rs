//! Curved walls of a walk: `arc left radius 5' angle 90°`.

use core::ops::Range;

use super::{Opens, Reader, opens};
use crate::geom::path::bulge_of_angle;
use crate::lot::Turn;
use crate::lot::deed::phrase;
use crate::math::{TURN, sin};
use crate::sketch::build::ahead;
use crate::units::Measure;

impl Reader<'_> {
    /// A curved wall: its side, its radius, and its angle or its length, in any order.
    pub(super) fn arc(&mut self, first: usize, end: usize) {
        let text = self.text;
        let (mut side, mut radius, mut sweep, mut along) = (None, None, None, None);
        let mut at = first + 1;
        // A curve may be written with commas between its figures.
        let end = (first..text.tokens.len())
            .skip(1)
            .find(|i| {
                let next_line = *i >= end && !matches!(text.mark(end), ',');
                next_line
                    || text.mark(*i) == ';'
                    || matches!(
                        opens(text.word(*i)),
                        Some(Opens::Wall(_) | Opens::Arc | Opens::Facing | Opens::Close)
                    )
            })
            .unwrap_or(text.tokens.len());
        while at < end {
            let word = text.word(at);
            let known = match word {
                "to" | "the" | "of" | "a" | "with" | "and" => true,
                "" => matches!(text.mark(at), ',' | '=' | ':'),
                "left" | "l" | "lt" if side.is_none() => {
                    side = Some(Turn::Left);
                    true
                }
                "right" | "rt" if side.is_none() => {
                    side = Some(Turn::Right);
                    true
                }
                // The second `r` of "arc r r 5'" is its radius.
                "r" if side.is_none() && !text.is_number(at + 1) => {
                    side = Some(Turn::Right);
                    true
                }
                _ => false,
            };
            if known {
                at += 1;
                continue;
            }
            let skip = usize::from(matches!(text.mark(at + 1), '=' | ':'));
            let figure = at + 1 + skip;
            match word {
                "radius" | "rad" | "r" if radius.is_none() => {
                    let Some((after, value, _)) = self.length(figure, end) else {
                        break;
                    };
                    radius = Some(value).filter(|r| *r > 0.0);
                    at = after;
                }
                "length" | "long" if along.is_none() => {
                    let Some((after, value, _)) = self.length(figure, end) else {
                        break;
                    };
                    along = Some(value).filter(|l| *l > 0.0);
                    at = after;
                }
                "angle" | "through" | "delta" | "sweep" | "turning" if sweep.is_none() => {
                    let Some(Ok((after, value))) = self.angle(figure, end) else {
                        break;
                    };
                    sweep = Some(value);
                    at = after;
                }
                "" if sweep.is_none() && text.is_number(at) => {
                    let marked = phrase::angle(text, at, false).filter(|f| f.tokens.end <= end);
                    let Some((after, Ok(value))) = marked.map(|f| (f.tokens.end, f.value)) else {
                        break;
                    };
                    sweep = Some(value);
                    at = after;
                }
                _ => break,
            }
        }
        let angle = sweep.or_else(|| Some(along? / radius?));
        match (side, radius, angle) {
            (Some(side), Some(radius), Some(angle))
                if angle > 0.0 && angle < TURN && (sweep.is_none() || along.is_none()) =>
            {
                self.curve(first..at, side, radius, angle);
            }
            _ => self.trouble(
                first..at.max(first + 1),
                "A curved wall needs a side, a radius, and an angle or a length.".to_owned(),
                "Write arc left radius 5' angle 90°.",
            ),
        }
    }

    fn curve(&mut self, tokens: Range<usize>, side: Turn, radius: f64, angle: f64) {
        let (sense, word) = match side {
            Turn::Right => (1.0, "right"),
            Turn::Left => (-1.0, "left"),
        };
        let chord = 2.0 * radius * sin(angle / 2.0);
        let to = ahead(self.here(), chord, self.facing + sense * angle / 2.0);
        let says = format!(
            "arc {word}, radius {}, angle {}",
            self.shown(Measure::Length, radius),
            self.shown(Measure::Angle, angle)
        );
        self.facing += sense * angle;
        self.wall_to(tokens, to, -sense * bulge_of_angle(angle), says);
    }
}
