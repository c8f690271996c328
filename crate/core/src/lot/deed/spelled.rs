//! Numbers written out: "one hundred twenty and fifty hundredths feet", also with the digits
//! in brackets behind them.
//!
//! A run of number words counts as a number only where a unit, a letter of the compass or the
//! same number in digits stands behind it, so that "one of the corners" stays words. Where a
//! run can be read in two ways ("fifty one hundredths") it stays words as well.

use super::token::{Kind, Token};

/// A number in words that the digits behind it contradict.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// The token that holds both.
    pub token: usize,
    /// What the words say, in digits.
    pub words: String,
    /// The digits.
    pub digits: String,
}

/// The tokens with every run of number words as one number.
pub fn join(tokens: Vec<Token>) -> (Vec<Token>, Vec<Conflict>) {
    let mut joined: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut conflicts = Vec::new();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let run = Run { tokens: &tokens };
        let Some((number, words_end)) = run.number(at) else {
            joined.push(token.clone());
            at += 1;
            continue;
        };
        let (again, end) = run.again(words_end);
        let after_letter = joined.last().is_some_and(|t| is_letter(word_of(t)));
        let fits = run.leads_to_unit(end) || again.is_some() || after_letter && run.letter(end);
        let last = end.checked_sub(1).and_then(|i| tokens.get(i));
        let (true, Some(last)) = (fits, last) else {
            // The whole run stays words: its end is no number of its own.
            joined.extend(
                tokens
                    .get(at..words_end)
                    .unwrap_or_default()
                    .iter()
                    .cloned(),
            );
            at = words_end;
            continue;
        };
        if let Some(digits) = again.filter(|d| (d - number.value).abs() > 1e-9) {
            conflicts.push(Conflict {
                token: joined.len(),
                words: number.digits(),
                digits: plain(digits),
            });
        }
        joined.push(Token {
            kind: Kind::Number {
                value: number.value,
                decimals: number.decimals,
            },
            span: token.span.start..last.span.end,
            line: token.line,
            spelled: Some(number.digits()),
        });
        at = end;
    }
    (joined, conflicts)
}

/// A number and how many decimals its words give it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Spelled {
    value: f64,
    decimals: u32,
}

impl Spelled {
    fn digits(self) -> String {
        plain(self.value)
    }
}

/// A number in digits, without zeros behind it.
fn plain(value: f64) -> String {
    let text = format!("{value:.6}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn word_of(token: &Token) -> &str {
    match &token.kind {
        Kind::Word(word) => word,
        _ => "",
    }
}

fn is_letter(word: &str) -> bool {
    matches!(
        word,
        "n" | "e" | "s" | "w" | "north" | "east" | "south" | "west"
    )
}

/// The value of a word below a hundred.
fn small(word: &str) -> Option<u32> {
    const WORDS: [&str; 20] = [
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ];
    const TENS: [&str; 8] = [
        "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
    ];
    let place = |words: &[&str]| words.iter().position(|known| *known == word);
    let tens = || place(&TENS).map(|i| i * 10 + 20);
    let value = place(&WORDS)
        .or_else(tens)
        .or((word == "fourty").then_some(40))?;
    u32::try_from(value).ok()
}

/// What a fraction's name divides by, and how many decimals it gives.
fn denominator(word: &str) -> Option<(f64, u32)> {
    Some(match word {
        "half" | "halves" => (2.0, 1),
        "third" | "thirds" => (3.0, 3),
        "fourth" | "fourths" | "quarter" | "quarters" => (4.0, 2),
        "eighth" | "eighths" => (8.0, 3),
        "tenth" | "tenths" => (10.0, 1),
        "sixteenth" | "sixteenths" => (16.0, 4),
        "hundredth" | "hundredths" => (100.0, 2),
        "thousandth" | "thousandths" => (1000.0, 3),
        _ => return None,
    })
}

struct Run<'a> {
    tokens: &'a [Token],
}

impl Run<'_> {
    fn word(&self, at: usize) -> &str {
        self.tokens.get(at).map_or("", word_of)
    }

    fn mark(&self, at: usize) -> char {
        match self.tokens.get(at).map(|t| &t.kind) {
            Some(Kind::Mark(mark)) => *mark,
            _ => ' ',
        }
    }

    fn digits(&self, at: usize) -> Option<f64> {
        match self.tokens.get(at).map(|t| &t.kind) {
            Some(Kind::Number { value, .. }) => Some(*value),
            _ => None,
        }
    }

    fn dash(&self, at: usize) -> usize {
        usize::from(matches!(self.mark(at), '-' | '–' | '‐' | '‑'))
    }

    /// A number in words from here, with where it ends.
    fn number(&self, at: usize) -> Option<(Spelled, usize)> {
        small(self.word(at))?;
        // "fifty one hundredths" is 0.51 or 0.50.
        if let Some(fraction) = self.fraction(at) {
            return fraction;
        }
        // "one hundred and fifty hundredths" is 100.50, "one hundred and fifty feet" 150.
        [true, false].into_iter().find_map(|and_joins| {
            let (whole, end) = self.whole(at, and_joins)?;
            if denominator(self.word(end + self.dash(end))).is_some() {
                return None;
            }
            let alone = Spelled {
                value: f64::from(whole),
                decimals: 0,
            };
            Some(match self.tail(end) {
                Some((part, end)) => (
                    Spelled {
                        value: alone.value + part.value,
                        decimals: part.decimals,
                    },
                    end,
                ),
                None => (alone, end),
            })
        })
    }

    /// What stands behind the whole number: "and fifty hundredths", "and 50/100", "point five".
    fn tail(&self, at: usize) -> Option<(Spelled, usize)> {
        if self.word(at) == "point" {
            let digits: Vec<u32> = (at + 1..at + 5)
                .map_while(|i| small(self.word(i)).filter(|d| *d < 10))
                .collect();
            let share = digits
                .iter()
                .rev()
                .fold(0.0, |below, d| (below + f64::from(*d)) / 10.0);
            let decimals = u32::try_from(digits.len()).ok().filter(|n| *n > 0)?;
            let end = at + 1 + digits.len();
            return Some((
                Spelled {
                    value: share,
                    decimals,
                },
                end,
            ));
        }
        if self.word(at) != "and" {
            return None;
        }
        let first = at + 1;
        let none = self.word(first) == "no";
        if none && let Some((_, decimals)) = denominator(self.word(first + 1)) {
            return Some((
                Spelled {
                    value: 0.0,
                    decimals,
                },
                first + 2,
            ));
        }
        let above = if none { Some(0.0) } else { self.digits(first) };
        if let (Some(above), '/', Some(below)) =
            (above, self.mark(first + 1), self.digits(first + 2))
        {
            let ending = usize::from(matches!(self.word(first + 3), "th" | "ths"));
            let decimals = match below {
                10.0 => 1,
                100.0 => 2,
                _ => 3,
            };
            let value = above / below;
            return (above < below).then_some((Spelled { value, decimals }, first + 3 + ending));
        }
        if self.word(first) == "a" && self.word(first + 1) == "half" {
            return Some((
                Spelled {
                    value: 0.5,
                    decimals: 1,
                },
                first + 2,
            ));
        }
        self.fraction(first).flatten()
    }

    /// A fraction in words; `Some(None)` where it can be read in two ways.
    #[allow(clippy::option_option)]
    fn fraction(&self, at: usize) -> Option<Option<(Spelled, usize)>> {
        let (count, end) = self.whole(at, false)?;
        let close = |count: u32, name: usize| {
            let (below, decimals) = denominator(self.word(name))?;
            let value = f64::from(count) / below;
            Some((value < 1.0).then_some((Spelled { value, decimals }, name + 1)))
        };
        // "fifty-five one-hundredths": the "one" belongs to the name of the fraction.
        if self.word(end) == "one" {
            return close(count, end + 1 + self.dash(end + 1));
        }
        let one_last = end > at + 1 && self.word(end - 1) == "one";
        let named = end + self.dash(end);
        if one_last && denominator(self.word(named)).is_some() {
            return match (self.dash(end - 2), named > end) {
                (1, false) => close(count, named),
                (0, true) => close(count - 1, named),
                _ => Some(None),
            };
        }
        close(count, named)
    }

    /// A whole number in words below a million, with where it ends.
    fn whole(&self, at: usize, and_joins: bool) -> Option<(u32, usize)> {
        let (mut total, mut current) = (0u32, 0u32);
        // The least place that is taken: a word must be below it.
        let mut free = 1000u32;
        let mut end = at;
        loop {
            let mut next = end;
            if end > at {
                next += self.dash(end);
                let behind_hundred = matches!(self.word(end - 1), "hundred" | "thousand");
                next += usize::from(and_joins && behind_hundred && self.word(next) == "and");
            }
            let word = self.word(next);
            if let Some(value) = small(word) {
                let below = if value >= 10 { 100 } else { 10 };
                if free < below || value == 0 && end > at {
                    break;
                }
                current += value;
                free = if value >= 20 { 10 } else { 1 };
            } else if word == "hundred" && (1..100).contains(&current) {
                current *= 100;
                free = 100;
            } else if word == "thousand" && total == 0 && (1..1000).contains(&current) {
                total = current * 1000;
                current = 0;
                free = 1000;
            } else {
                break;
            }
            end = next + 1;
            if word == "zero" {
                break;
            }
        }
        (end > at).then_some((total + current, end))
    }

    /// The number again in digits and brackets, and where that ends.
    fn again(&self, at: usize) -> (Option<f64>, usize) {
        match (self.mark(at), self.digits(at + 1), self.mark(at + 2)) {
            ('(', Some(digits), ')') => (Some(digits), at + 3),
            _ => (None, at),
        }
    }

    fn letter(&self, at: usize) -> bool {
        is_letter(self.word(at))
    }

    fn leads_to_unit(&self, at: usize) -> bool {
        const UNITS: &str = " degree degrees deg minute minutes min second seconds sec gon gons foot feet \
            ft inch inches yard yards metre metres meter meters chain chains link links rod rods pole \
            poles perch perches vara varas acre acres square us survey hectare hectares ";
        let at = at + self.dash(at);
        let word = self.word(at);
        let unit = !word.is_empty() && UNITS.split_ascii_whitespace().any(|unit| unit == word);
        // "fifty and one-half (50 1/2) feet" is told by its own words.
        unit || matches!(self.mark(at), '°' | 'º' | '˚')
    }
}

#[cfg(test)]
mod tests {
    use super::super::lex::Text;

    fn shown(words: &str) -> String {
        Text::cut(words).figure(&(0..Text::cut(words).tokens.len()))
    }

    #[test]
    fn numbers_in_words_become_digits() {
        for (words, digits) in [
            ("one hundred twenty and fifty hundredths feet", "120.5 feet"),
            ("One Hundred and Twenty feet", "120 feet"),
            ("one hundred and fifty hundredths feet", "100.5 feet"),
            ("one hundred and 25/100 feet", "100.25 feet"),
            ("sixty-six and no/100 feet", "66 feet"),
            ("two thousand three hundred five feet", "2305 feet"),
            ("fifty-five one-hundredths feet", "0.55 feet"),
            ("fifty-one hundredths feet", "0.51 feet"),
            ("fifty one-hundredths feet", "0.5 feet"),
            ("twelve and one-half feet", "12.5 feet"),
            ("three-quarters inch", "0.75 inch"),
            ("eighty-nine point two five degrees", "89.25 degrees"),
            ("eighty-nine (89) degrees", "89 degrees"),
            ("north forty-five east", "north 45 east"),
            ("nineteen hundred feet", "1900 feet"),
            ("zero degrees", "0 degrees"),
        ] {
            assert_eq!(shown(words), digits);
        }
    }

    #[test]
    fn what_is_no_measure_or_has_two_meanings_stays_words() {
        for words in [
            "one of the corners",
            "lot twelve",
            "fifty one hundredths feet",
            "five six feet",
        ] {
            let text = Text::cut(words);
            let first = text.tokens.first().and_then(|t| t.spelled.clone());
            assert_eq!(first, None, "{words}");
        }
    }

    #[test]
    fn digits_that_contradict_the_words_are_kept_beside_them() {
        let text = Text::cut("one hundred twenty (125.00) feet");
        let conflict = text
            .conflicts
            .first()
            .map(|c| (c.words.as_str(), c.digits.as_str()));
        assert_eq!(conflict, Some(("120", "125")));
        assert!(
            Text::cut("one hundred twenty (120.00) feet")
                .conflicts
                .is_empty()
        );
    }
}
