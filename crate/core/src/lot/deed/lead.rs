//! A clause that ends where a curve begins: what it tells of that curve belongs to the next
//! course ("... 100.00 feet to the beginning of a tangent curve to the left, having a radius
//! of 25.00 feet; thence along said curve ...").

use core::ops::Range;

use super::lex::Text;

/// How far behind "to" the curve is named, words.
const REACH: usize = 14;

/// Where the words for the next curve begin in a clause; `None` when it has none, or no figure
/// before them.
pub fn split(text: &Text, tokens: &Range<usize>) -> Option<usize> {
    let first = tokens.clone().find(|at| text.is_number(*at))?;
    (first + 1..tokens.end).find(|at| leads_to_curve(text, *at, tokens.end))
}

fn leads_to_curve(text: &Text, at: usize, end: usize) -> bool {
    if text.word(at) != "to" {
        return false;
    }
    let until = (at + REACH).min(end);
    let stop = |i: &usize| text.is_number(*i) || matches!(text.mark(*i), ';' | '.');
    let until = (at..until).find(stop).unwrap_or(until);
    let is = |words: &[&str]| (at..until).find(|i| words.contains(&text.word(*i)));
    if is(&["prc", "pcc", "curvature"]).is_some() {
        return true;
    }
    let (Some(point), Some(curve)) = (
        is(&["beginning", "point", "start", "commencement"]),
        is(&["curve"]),
    ) else {
        return false;
    };
    // "to a point on the curve, thence": what ends on a curve tells nothing of the next.
    point < curve
}

/// Whether "point of beginning" at these tokens is that of a curve, not of the lot.
pub fn begins_a_curve(text: &Text, behind: usize) -> bool {
    text.word(behind) == "of" && (behind + 1..behind + 6).any(|at| text.word(at) == "curve")
}
