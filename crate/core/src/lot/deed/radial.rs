//! Radial bearings, and the side to which a curve is concave: what a deed tells of a curve that
//! does not run on from the course before it.
//!
//! "The center bears", "the radius point bears" and "from which a radial line bears" look
//! from the start of the curve to its center; "a radial line to said point bears" looks from
//! the center to the start. "Radial bearing" alone may be either.

use super::lex::Text;
use crate::math::TURN;
use crate::units::EIGHTHS;

/// Which way along the radius a bearing looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// From the start of the curve to its center.
    ToCentre,
    /// From the center to the start of the curve.
    FromCentre,
    /// Not told.
    Either,
}

/// How far behind "radial" or "center" its bearing is looked for, words.
const REACH: usize = 12;

fn is_centre(text: &Text, at: usize) -> bool {
    let point = matches!(text.word(at + 1), "point" | "pt");
    match text.word(at) {
        "center" | "centre" | "centerpoint" => !matches!(text.word(at + 1), "line" | "lines"),
        "radius" => point,
        _ => false,
    }
}

fn bears(word: &str) -> bool {
    matches!(word, "bears" | "bearing" | "bear" | "bearings" | "lies")
}

/// Whether this word opens the bearing of a radius, and which way that looks.
pub fn sense(text: &Text, at: usize) -> Option<Sense> {
    let radial = text.word(at) == "radial";
    if !radial && !is_centre(text, at) {
        return None;
    }
    // Its bearing follows, with no other figure between.
    let stop = |i: &usize| text.is_number(*i) || text.word(*i) == "thence";
    let end = (at + 1..at + REACH).find(stop).unwrap_or(at + REACH);
    let led = (at + 1..end).find(|i| bears(text.word(*i)));
    let marked = radial && matches!(text.mark(at + 1), '=' | ':');
    let led = led.or(marked.then_some(at + 1))?;
    if !radial {
        return Some(Sense::ToCentre);
    }
    if (1..=2).any(|back| matches!(text.before(at, back), "along" | "on")) {
        return None; // A side that runs along a radius.
    }
    let towards = |i: usize| {
        let centre = (i + 1..i + 4).any(|j| j < led && is_centre(text, j));
        match (text.word(i), centre) {
            ("to" | "toward" | "towards", true) | ("from", false) => Some(Sense::ToCentre),
            ("from", true) | ("to", false) => Some(Sense::FromCentre),
            _ => None,
        }
    };
    let behind = (at + 1..led).find_map(towards);
    // "from which a radial line bears", "to which point a radial line bears".
    let ahead = || {
        let near = (1..=5).filter_map(|back| at.checked_sub(back));
        near.clone()
            .any(|i| text.word(i) == "which")
            .then(|| near.filter_map(towards).next())
            .flatten()
    };
    Some(behind.or_else(ahead).unwrap_or(Sense::Either))
}

/// The bearing to which a curve is said to be concave: "concave northwesterly", "concave to the
/// north"; radians clockwise from north, with where its words end.
pub fn concave(text: &Text, at: usize) -> Option<(f64, usize)> {
    if text.word(at) != "concave" {
        return None;
    }
    let mut end = at + 1;
    while matches!(text.word(end), "to" | "toward" | "towards" | "the") {
        end += 1;
    }
    eighth(text, end)
}

/// The bearing on which a curve is said to run: "thence easterly along said curve".
pub fn runs_toward(text: &Text, at: usize) -> Option<(f64, usize)> {
    let (bearing, end) = eighth(text, at).filter(|_| text.word(at).ends_with("erly"))?;
    (matches!(text.word(end), "along" | "on")).then_some((bearing, end))
}

/// One of the eight directions in words, with where it ends.
fn eighth(text: &Text, at: usize) -> Option<(f64, usize)> {
    let mut end = at;
    let mut word = text.word(at).to_owned();
    // "north-westerly"
    if text.mark(end + 1) == '-' && matches!(word.as_str(), "north" | "south") {
        word.push_str(text.word(end + 2));
        end += 2;
    }
    let root = word
        .trim_end_matches("erly")
        .trim_end_matches("ern")
        .trim_end_matches("ward");
    // "northerly" loses "erly" and leaves "north"; "easterly" leaves "east".
    let eighth = EIGHTHS.iter().position(|name| *name == root)?;
    Some((eighth as f64 * TURN / 8.0, end + 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn first(words: &str) -> Option<Sense> {
        let text = Text::cut(words);
        (0..text.tokens.len()).find_map(|at| sense(&text, at))
    }

    #[test]
    fn the_way_a_radius_looks_is_told_by_its_words() {
        use Sense::*;
        for (words, expected) in [
            ("whose centre bears S 10 E", Some(ToCentre)),
            (
                "the center of which bears South 10 degrees East",
                Some(ToCentre),
            ),
            ("from which the radius point bears S 10 E", Some(ToCentre)),
            ("a radial line to said point bears N 10 W", Some(FromCentre)),
            (
                "to which point a radial line bears N 10 W",
                Some(FromCentre),
            ),
            ("from which a radial line bears S 10 E", Some(ToCentre)),
            ("a radial line from said point bears S 10 E", Some(ToCentre)),
            ("a radial line to the center bears S 10 E", Some(ToCentre)),
            (
                "a radial from the radius point bears S 10 E",
                Some(FromCentre),
            ),
            ("radial bearing S 10 E", Some(Either)),
            ("radial line bears S 10 E", Some(Either)),
            ("radial: S 10 E", Some(Either)),
            ("along a radial line bearing N 10 E 20 feet", None),
            ("the center line of Elm Street bears N 10 E", None),
            ("having a radius of 50 feet", None),
            ("N 10 E 20 feet (radial)", None),
        ] {
            assert_eq!(first(words), expected, "{words}");
        }
    }

    #[test]
    fn a_concave_side_is_one_of_eight() {
        for (words, degrees) in [
            ("concave northwesterly", 315.0),
            ("concave to the north", 0.0),
            ("concave south-easterly", 135.0),
            ("concave easterly", 90.0),
        ] {
            let found = concave(&Text::cut(words), 0).map(|(bearing, _)| bearing * 360.0 / TURN);
            assert_eq!(found, Some(degrees), "{words}");
        }
        assert_eq!(concave(&Text::cut("concave upwards"), 0), None);
    }
}
