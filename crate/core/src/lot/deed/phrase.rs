//! Bearings, angles, lengths and areas where they begin in a deed: how far each runs and what
//! it says. The figures themselves are read by [`crate::units`].

use core::ops::Range;

use super::length_unit::LengthUnits;
use super::lex::Text;
use super::token::Kind;
use crate::units::{
    Measure, System, Unit, UnitFault, parse_bearing, parse_length_and_unit, parse_measure,
};

/// The most tokens of one figure: `North 89 degrees, 15 minutes, and 30.5 seconds East`.
const LONGEST: usize = 14;

/// A figure and where it stands.
#[derive(Debug, Clone)]
pub struct Found {
    /// Its tokens.
    pub tokens: Range<usize>,
    /// Its value in SI, or what is wrong with it.
    pub value: Result<f64, UnitFault>,
    /// Half a unit of the last digit written, in SI: how far rounding alone may carry it.
    pub rounding: f64,
    /// The unit written behind a length; none where it has none.
    pub unit: Option<Unit>,
}

impl Found {
    fn bearing(text: &Text, tokens: Range<usize>) -> Self {
        let value = parse_bearing(&text.figure(&tokens)).map(|parsed| parsed.value);
        Self {
            tokens,
            value,
            rounding: 0.0,
            unit: None,
        }
    }

    /// Whether a length was written without a unit.
    pub fn is_bare(&self) -> bool {
        self.unit.is_none()
    }
}

fn is_degree(text: &Text, at: usize) -> bool {
    matches!(text.mark(at), '°' | 'º' | '˚')
        || matches!(text.word(at), "d" | "deg" | "degree" | "degrees")
}

fn is_minute(text: &Text, at: usize) -> bool {
    matches!(text.mark(at), '\'' | '’' | '‘' | '′' | '`' | '´')
        || matches!(text.word(at), "m" | "min" | "minute" | "minutes")
}

fn is_second(text: &Text, at: usize) -> bool {
    matches!(text.mark(at), '"' | '”' | '“' | '″')
        || matches!(text.word(at), "s" | "sec" | "second" | "seconds")
}

fn is_dash(text: &Text, at: usize) -> bool {
    matches!(text.mark(at), '-' | '−' | '–' | '—' | '‐' | '‑')
}

/// Whether a word is a direction of the compass.
pub fn is_letter(word: &str) -> bool {
    matches!(
        word,
        "n" | "e" | "s" | "w" | "north" | "east" | "south" | "west"
    )
}

/// A bearing between two letters of the compass, which may be wrong, as `N 91 E` is.
pub fn quadrant(text: &Text, at: usize) -> Option<Found> {
    if !is_letter(text.word(at)) {
        return None;
    }
    let mut end = at + 1 + usize::from(text.mark(at + 1) == '.');
    let angle = end;
    if !text.is_number(angle) {
        return None;
    }
    while end < at + LONGEST {
        let more = text.is_number(end)
            || is_degree(text, end)
            || is_minute(text, end)
            || is_dash(text, end)
            || matches!(text.mark(end), ',' | '.' | ':' | '/' | '⁄' | '½' | '¼' | '¾')
            || text.word(end) == "and"
            // A lone `s` is seconds only where E or W still follows.
            || is_second(text, end) && (text.word(end) != "s" || is_letter(text.word(end + 1)));
        if !more {
            break;
        }
        end += 1;
    }
    if is_letter(text.word(end)) {
        return Some(Found::bearing(text, at..end + 1));
    }
    // An angle, but nothing that closes it.
    is_degree(text, angle + 1).then(|| Found::bearing(text, at..end))
}

/// One of the four directions in words, with or without "due". What stands before it says
/// whether it can be a bearing at all: "the north line of" holds none.
pub fn cardinal(text: &Text, at: usize, may_stand_alone: bool) -> Option<Found> {
    let due = text.word(at) == "due";
    let letter = at + usize::from(due);
    (is_letter(text.word(letter)) && (due || may_stand_alone))
        .then(|| Found::bearing(text, at..letter + 1))
}

/// An angle in degrees, minutes and seconds, or in gon. `bare` takes a number without any
/// mark for degrees.
pub fn angle(text: &Text, at: usize, bare: bool) -> Option<Found> {
    if !text.is_number(at) {
        return None;
    }
    if matches!(text.word(at + 1), "gon" | "gons" | "grad" | "grads" | "g") {
        return Some(Found::bearing(text, at..at + 2));
    }
    let dashed = |from: usize| {
        is_dash(text, from) && text.glued(from) && text.is_number(from + 1) && text.glued(from + 1)
    };
    let mut end = at + 1;
    if dashed(end) {
        end += 2;
        end += if dashed(end) { 2 } else { 0 };
        return Some(Found::bearing(text, at..end));
    }
    // "R=25 D=90°": the D is the name of the next figure.
    if !is_degree(text, end) || text.mark(end + 1) == '=' {
        return bare.then(|| Found::bearing(text, at..end));
    }
    end += 1;
    let comma = |from: usize| usize::from(text.mark(from) == ',' || text.word(from) == "and");
    let minutes = end + comma(end);
    // Behind a degree sign an `m` may be meters.
    let metres = text.word(minutes + 1) == "m" && text.word(at + 1) != "d";
    if text.is_number(minutes) && is_minute(text, minutes + 1) && !metres {
        end = minutes + 2;
        let seconds = end + comma(end);
        let two_primes = is_minute(text, seconds + 1) && is_minute(text, seconds + 2);
        if text.is_number(seconds) && (is_second(text, seconds + 1) || two_primes) {
            end = seconds + 2 + usize::from(two_primes);
        }
    }
    Some(Found::bearing(text, at..end))
}

/// A length: the longest run of numbers and units here that reads as one.
pub fn length(text: &Text, at: usize, units: LengthUnits) -> Option<Found> {
    let Some(Kind::Number { value, decimals }) = text.kind(at) else {
        return None;
    };
    let mut best: Option<(usize, f64, Option<Unit>)> = None;
    for end in at + 1..=at + 10 {
        let last = end - 1;
        let fits = match text.kind(last) {
            // "4 chains, 25 links"
            Some(Kind::Mark(',')) => is_counted_in_links(text, last),
            Some(Kind::Mark(m)) => "'’‘′`´\"”“″/-⁄½¼¾⅛⅜⅝⅞()".contains(*m) || *m == '.',
            // "100 in a northerly direction" holds no inches.
            Some(Kind::Word(word)) => word != "in" || !is_article(text.word(end)),
            Some(Kind::Number { .. }) => true,
            None => false,
        };
        if !fits {
            break;
        }
        let fraction = last > at && matches!(text.mark(last - 1), '/' | '⁄');
        let open = text.is_number(last) && !fraction || matches!(text.mark(last), '(' | ',');
        let closes = last == at || !open;
        let figure = text.figure(&(at..end));
        if closes && let Ok((parsed, unit)) = parse_length_and_unit(&figure, units.system) {
            best = Some((end, parsed.value, unit));
        }
    }
    let (end, mut metres, unit) = best?;
    if unit.is_none() {
        let figure = format!("{} {}", text.figure(&(at..end)), units.bare.symbol());
        if let Ok((parsed, _)) = parse_length_and_unit(&figure, units.system) {
            metres = parsed.value;
        }
    }
    let step = if *value > 0.0 { metres / value } else { 0.0 };
    let rounding = 0.5 * step / (1..=(*decimals).min(12)).fold(1.0, |power, _| power * 10.0);
    Some(Found {
        tokens: at..end,
        value: Ok(metres),
        rounding,
        unit,
    })
}

/// Whether the unit before a comma is one that links follow, and a number comes next.
fn is_counted_in_links(text: &Text, comma: usize) -> bool {
    let stop = usize::from(comma.checked_sub(1).is_some_and(|at| text.mark(at) == '.'));
    let unit = text.before(comma, 1 + stop);
    matches!(
        unit,
        "ch" | "chs" | "chain" | "chains" | "rod" | "rods" | "pole" | "poles"
    ) && text.is_number(comma + 1)
}

fn is_article(word: &str) -> bool {
    matches!(word, "a" | "an" | "the" | "said" | "that")
}

/// An area: a number and a unit of area.
pub fn area(text: &Text, at: usize, default: System) -> Option<Found> {
    if !text.is_number(at) {
        return None;
    }
    let stop = |from: usize| usize::from(text.mark(from) == '.');
    let first = at + 1 + usize::from(text.mark(at + 1) == ')');
    let one = first + 1;
    let second = one + stop(one);
    let two = second + 1;
    let number = text.figure(&(at..at + 1));
    [
        (
            format!("{number} {} {}", text.word(first), text.word(second)),
            two,
        ),
        (format!("{number} {}", text.word(first)), one),
    ]
    .into_iter()
    .filter(|(words, end)| {
        words.matches(' ').count() > 0 && !words.ends_with(' ') && *end <= text.tokens.len()
    })
    .find_map(|(words, end)| {
        let parsed = parse_measure(&words, Measure::LandArea, default).ok()?;
        Some(Found {
            tokens: at..end,
            value: Ok(parsed.value),
            rounding: 0.0,
            unit: None,
        })
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::units::constants::{ACRE, CHAIN, DEGREE, FOOT, SURVEY_FOOT};

    #[test]
    fn a_bearing_runs_to_its_closing_letter() {
        for (words, tokens, degrees) in [
            ("N 89°15'30\" E 120.00", 8, 89.258_333_333),
            (
                "North 89 degrees, 15 minutes, and 30 seconds East 5",
                11,
                89.258_333_333,
            ),
            ("N.89°15'30''E. 120", 9, 89.258_333_333),
            ("S12.25W 100", 3, 192.25),
            ("S 10d20m30s E", 8, 169.658_333_333),
            ("N89-15-30E120", 7, 89.258_333_333),
        ] {
            let found = quadrant(&Text::cut(words), 0).unwrap();
            assert!(
                (found.value.unwrap() / DEGREE - degrees).abs() < 1e-8,
                "{words}"
            );
            assert_eq!(found.tokens.end, tokens, "{words}");
        }
        assert!(quadrant(&Text::cut("North 100.00 feet"), 0).is_none());
        assert!(quadrant(&Text::cut("N 10 S"), 0).unwrap().value.is_err());
        assert!(
            quadrant(&Text::cut("N 10° 100 feet"), 0)
                .unwrap()
                .value
                .is_err()
        );
        assert!(cardinal(&Text::cut("due north"), 0, false).is_some());
        assert!(cardinal(&Text::cut("north"), 0, false).is_none());
    }

    #[test]
    fn angles_without_letters_need_a_mark() {
        for (words, tokens, degrees) in [
            ("123°30'15\" 85.2", 6, 123.504_166_667),
            ("123-30-15 85.2", 5, 123.504_166_667),
            ("123.5° 85.2 m", 2, 123.5),
            ("150.25 gon 30", 2, 135.225),
        ] {
            let found = angle(&Text::cut(words), 0, false).unwrap();
            assert!(
                (found.value.unwrap() / DEGREE - degrees).abs() < 1e-8,
                "{words}"
            );
            assert_eq!(found.tokens.end, tokens, "{words}");
        }
        assert!(angle(&Text::cut("123.5 85.2"), 0, false).is_none());
        assert_eq!(
            angle(&Text::cut("123.5 85.2"), 0, true).unwrap().tokens,
            0..1
        );
    }

    #[test]
    fn lengths_stop_where_the_unit_does() {
        let feet = LengthUnits::of(System::Feet);
        for (words, tokens, metres) in [
            ("120.00 feet to a point", 2, 120.0 * FOOT),
            ("120.00' S 12 W", 2, 120.0 * FOOT),
            ("12'-6 1/2\" to", 8, 12.541_666_667 * FOOT),
            ("2.50 chains; thence", 2, 2.5 * CHAIN),
            ("120 US survey feet", 4, 120.0 * SURVEY_FOOT),
            ("100 in a northerly direction", 1, 100.0 * FOOT),
            ("120.00) feet to", 3, 120.0 * FOOT),
            ("36.58 m", 2, 36.58),
            ("4 chs. 25 lks. to", 6, 4.25 * CHAIN),
            ("4 chains, 25 links, 30", 5, 4.25 * CHAIN),
            ("4 chains, N 10 E", 2, 4.0 * CHAIN),
        ] {
            let found = length(&Text::cut(words), 0, feet).unwrap();
            assert!((found.value.unwrap() - metres).abs() < 1e-8, "{words}");
            assert_eq!(found.tokens.end, tokens, "{words}");
        }
        let found = length(&Text::cut("34.5 ft"), 0, feet).unwrap();
        assert!((found.rounding - 0.05 * FOOT).abs() < 1e-12);
    }

    #[test]
    fn areas_are_known_by_their_units() {
        for (words, tokens, area_si) in [
            ("0.32 acres, more", 2, 0.32 * ACRE),
            ("13,939.2 sq. ft.", 4, 0.32 * ACRE),
            ("13,939.2 square feet", 3, 0.32 * ACRE),
            ("0.853 AC", 2, 0.853 * ACRE),
        ] {
            let found = area(&Text::cut(words), 0, System::Feet).unwrap();
            assert!((found.value.unwrap() - area_si).abs() < 1e-6, "{words}");
            assert_eq!(found.tokens.end, tokens, "{words}");
        }
        assert!(area(&Text::cut("12 of the plat"), 0, System::Feet).is_none());
    }
}
