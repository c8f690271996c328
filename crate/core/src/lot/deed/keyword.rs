//! What a word of a deed says by itself: which figure follows, how a curve bends and joins.

use super::super::record::Turn;
use super::clause::Joint;
use super::lex::Text;
use super::radial::{self, Sense};
use super::words::{Label, joins};

/// What a word says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Keyword {
    /// The figure that follows is of this kind.
    Figure(Label),
    /// The bearing that follows is that of a radius, which looks this way.
    Radius(Sense),
    /// A curve is concave to this bearing, radians; the words end before the token.
    Concave(f64, usize),
    /// A curve runs roughly on this bearing, radians; the words end before the token.
    RunsToward(f64, usize),
    /// A curve bends this way.
    Turn(Turn),
    /// A curve joins the one before it.
    Joint(Joint),
    /// A course is tangent to the one before it, and whether that is said to be a curve.
    Tangent(bool),
    /// A curve is meant.
    Curve,
    /// It joins figures without saying anything of them.
    Joining,
    /// None of these: what follows it may belong to something else.
    Unknown,
}

/// What the word at a token says.
pub fn at(text: &Text, at: usize) -> Keyword {
    if let Some(sense) = radial::sense(text, at) {
        return Keyword::Radius(sense);
    }
    if let Some((bearing, end)) = radial::concave(text, at) {
        return Keyword::Concave(bearing, end);
    }
    if let Some((bearing, end)) = radial::runs_toward(text, at) {
        return Keyword::RunsToward(bearing, end);
    }
    let next = text.word(at + 1);
    match text.word(at) {
        "left" | "lt" | "counterclockwise" => Keyword::Turn(Turn::Left),
        // "Measured clockwise from north" says how bearings are counted.
        "clockwise" if next == "from" => Keyword::Joining,
        // "Right of way", "right angles".
        "right" if matches!(next, "of" | "angle" | "angles") => Keyword::Joining,
        "right" if text.mark(at + 1) == '-' && text.word(at + 2) == "of" => Keyword::Joining,
        "right" | "rt" | "clockwise" => Keyword::Turn(Turn::Right),
        "reverse" | "reversed" | "reversely" | "prc" => joint(text, at, Joint::Reverse),
        "compound" | "pcc" => joint(text, at, Joint::Compound),
        "" | "nontangent" => Keyword::Joining,
        "tangential" | "tangentially" => tangent(text, at),
        "curve" | "curved" | "curving" | "curvature" => Keyword::Curve,
        word => match Label::of(word, matches!(text.mark(at + 1), '=' | ':')) {
            Some(Label::Tangent) if !leads_to_a_number(text, at + 1) => bare_tangent(text, at),
            Some(label) => Keyword::Figure(label),
            None if joins(word) => Keyword::Joining,
            None => Keyword::Unknown,
        },
    }
}

/// "Reverse" and "compound" say something only of curves; "prc" and "pcc" name them.
fn joint(text: &Text, at: usize, joint: Joint) -> Keyword {
    let curve = |i: usize| matches!(text.word(i), "curve" | "curvature");
    if matches!(text.word(at), "prc" | "pcc") || (at + 1..at + 4).any(curve) {
        Keyword::Joint(joint)
    } else {
        Keyword::Joining
    }
}

/// "Tangent" that names no length: the bearing of the tangent, or a course that is tangent.
fn bare_tangent(text: &Text, at: usize) -> Keyword {
    let bears = |i: usize| matches!(text.word(i), "bears" | "bearing");
    if text.before(at, 1) == "not" || text.before(at, 2) == "non" {
        Keyword::Joining
    } else if (at + 1..at + 6).any(bears) {
        Keyword::Figure(Label::Heading)
    } else {
        tangent(text, at)
    }
}

fn tangent(text: &Text, at: usize) -> Keyword {
    let curve = |i: usize| matches!(text.word(i), "curve" | "arc");
    let to_curve = text.word(at + 1) == "to" && (at + 2..at + 6).any(curve);
    Keyword::Tangent(to_curve || matches!(text.word(at + 1), "thereto" | "line"))
}

/// Whether a number comes next but for words such as "length of".
fn leads_to_a_number(text: &Text, at: usize) -> bool {
    let skips = |i: &usize| match text.word(*i) {
        "" => matches!(text.mark(*i), '=' | ':' | '('),
        word => matches!(word, "length" | "distance" | "of" | "is"),
    };
    (at..at + 5)
        .find(|i| !skips(i))
        .is_some_and(|i| text.is_number(i))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_says_what_those_beside_it_make_of_it() {
        for (words, expected) in [
            ("right of way", Keyword::Joining),
            ("right-of-way", Keyword::Joining),
            ("clockwise from north", Keyword::Joining),
            ("right having a radius", Keyword::Turn(Turn::Right)),
            ("reverse curve", Keyword::Joint(Joint::Reverse)),
            ("reverse of the page", Keyword::Joining),
            ("pcc", Keyword::Joint(Joint::Compound)),
            ("tangent length of 12.5", Keyword::Figure(Label::Tangent)),
            ("tangent bears N 10 E", Keyword::Figure(Label::Heading)),
            ("tangent to said curve", Keyword::Tangent(true)),
            ("tangentially", Keyword::Tangent(false)),
            ("r = 25", Keyword::Figure(Label::Radius)),
            ("l 25", Keyword::Joining),
            ("creek", Keyword::Unknown),
        ] {
            assert_eq!(at(&Text::cut(words), 0), expected, "{words}");
        }
        assert_eq!(at(&Text::cut("not tangent"), 1), Keyword::Joining);
        assert_eq!(at(&Text::cut("non-tangent curve"), 2), Keyword::Joining);
    }
}
