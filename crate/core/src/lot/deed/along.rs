//! Sides that a deed says run along a street: "along the northerly right of way line of Elm
//! Street".

use core::ops::Range;

use super::lex::Text;
use super::token::Kind;

/// How far behind "along" the name of the street is looked for, words.
const REACH: usize = 18;

/// Words that are streets.
fn is_street(text: &Text, at: usize) -> bool {
    matches!(
        text.word(at),
        "street"
            | "road"
            | "rd"
            | "avenue"
            | "ave"
            | "lane"
            | "drive"
            | "court"
            | "boulevard"
            | "blvd"
            | "highway"
            | "circle"
            | "terrace"
            | "parkway"
            | "roadway"
    )
}

fn dash(text: &Text, at: usize) -> usize {
    usize::from(matches!(text.mark(at), '-' | '–'))
}

/// Where "right of way" or "right-of-way" ends.
fn right_of_way(text: &Text, at: usize) -> Option<usize> {
    if text.word(at) != "right" {
        return None;
    }
    let of = at + 1 + dash(text, at + 1);
    let way = of + 1 + dash(text, of + 1);
    (text.word(of) == "of" && text.word(way) == "way").then_some(way + 1)
}

/// The street along which the course of these tokens runs: where its words stand, and its
/// name, empty where it has none.
pub fn street(text: &Text, tokens: Range<usize>) -> Option<(Range<usize>, String)> {
    let mut since: Option<usize> = None;
    let mut unnamed: Option<Range<usize>> = None;
    for at in tokens {
        match text.word(at) {
            "along" | "with" | "following" | "upon" => {
                let before = at.checked_sub(1).map_or("", |i| text.word(i));
                since = (!matches!(before, "parallel" | "concentric" | "together")).then_some(at);
            }
            "to" | "from" | "at" | "thence" | "crossing" => since = None,
            // A way of another kind.
            "railroad" | "railway" | "pipeline" | "transmission" | "power" | "utility" => {
                since = None;
                unnamed = None;
            }
            _ => {}
        }
        let Some(begin) = since.filter(|begin| at < begin + REACH) else {
            continue;
        };
        if is_street(text, at) {
            return Some((begin..at + 1, name(text, begin, at)));
        }
        if let Some(end) = right_of_way(text, at) {
            unnamed = Some(begin..end);
        }
    }
    unnamed.map(|range| (range, String::new()))
}

/// The name before the word for a street, with that word: "Elm Street".
fn name(text: &Text, begin: usize, at: usize) -> String {
    let plain = |i: &usize| match text.kind(*i) {
        Some(Kind::Word(word)) => !matches!(
            word.as_str(),
            "the" | "of" | "said" | "line" | "along" | "with" | "a" | "and" | "public" | "way"
        ),
        Some(Kind::Number { .. }) => true,
        _ => false,
    };
    let from = (begin..at).rev().take_while(plain).last();
    from.map_or(String::new(), |from| text.original(&(from..at + 1)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name_of(words: &str) -> Option<String> {
        let text = Text::cut(words);
        street(&text, 0..text.tokens.len()).map(|(_, name)| name)
    }

    #[test]
    fn a_side_along_a_street_is_known_by_its_words() {
        for (words, name) in [
            (
                "along the north line of Elm Street, N 10 E 100 feet",
                Some("Elm Street"),
            ),
            (
                "with the right-of-way of Old Mill Road 100 feet",
                Some("Old Mill Road"),
            ),
            (
                "along the northerly right of way line of 5th Avenue",
                Some("5th Avenue"),
            ),
            ("along said street 100 feet", Some("")),
            ("along the southerly right of way 100 feet", Some("")),
            ("N 10 E 100 feet to the north line of Elm Street", None),
            ("parallel with Elm Street 100 feet", None),
            (
                "along the west line of Lot 5 to the south line of Elm Street",
                None,
            ),
            ("along the railroad right of way", None),
            ("along the creek", None),
        ] {
            assert_eq!(name_of(words).as_deref(), name, "{words}");
        }
    }
}
