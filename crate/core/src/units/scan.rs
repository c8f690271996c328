//! Typed text into tokens. Everything that no parser could use is a fault right here.
//!
//! Typographic primes and quotes become foot and inch marks, every kind of dash becomes
//! one dash, every kind of space separates. A comma stands between thousands only: it must
//! be followed by exactly three digits and follow one to three.

use core::ops::Range;

use super::fault::UnitFault;

/// The longest text taken, characters: far above any measure, far below any harm.
const LONGEST: usize = 200;

/// What a stretch of text is.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// A decimal number without sign.
    Number(Decimal),
    /// A single character for a fraction: numerator, denominator.
    Vulgar(f64, f64),
    /// A run of letters, in lower case, with the full stop of an abbreviation dropped.
    Word(String),
    /// `'` or `′`: feet, or minutes of arc.
    Prime,
    /// `"` or `″` or two primes: inches, or seconds of arc.
    DoublePrime,
    /// `°`.
    Degree,
    /// `/`.
    Slash,
    /// Any dash or minus sign.
    Dash,
    /// `+`.
    Plus,
    /// `:`.
    Colon,
    /// `%`.
    Percent,
}

/// A decimal number as it was written.
#[derive(Debug, Clone, PartialEq)]
pub struct Decimal {
    /// Its value, finite.
    pub value: f64,
    /// The digits after the point; empty when there are none.
    pub fraction: String,
    /// Whether a comma stood between thousands.
    pub grouped: bool,
}

impl Decimal {
    /// Whether the number was written without a fraction.
    pub fn is_whole(&self) -> bool {
        self.fraction.is_empty()
    }
}

/// A token and its place: characters counted from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Where it is.
    pub span: Range<usize>,
    /// Whether a space stands before it.
    pub spaced: bool,
}

/// Cuts a text into tokens.
pub fn scan(text: &str) -> Result<Vec<Token>, UnitFault> {
    let chars: Vec<char> = text.chars().collect();
    if chars.len() > LONGEST {
        return Err(UnitFault::new(
            LONGEST..chars.len(),
            format!("The text is longer than {LONGEST} characters."),
            "Type one value only.",
        ));
    }
    let mut tokens = Vec::new();
    let mut at = 0;
    let mut spaced = false;
    while let Some(&c) = chars.get(at) {
        if c.is_whitespace() {
            spaced = true;
            at += 1;
            continue;
        }
        let rest = chars.get(at..).unwrap_or_default();
        let (kind, length) = next(rest, at)?;
        tokens.push(Token {
            kind,
            span: at..at + length,
            spaced,
        });
        spaced = false;
        at += length;
    }
    Ok(tokens)
}

/// The token at the head of `rest` (never empty) and its length in characters.
fn next(rest: &[char], at: usize) -> Result<(Kind, usize), UnitFault> {
    let first = rest.first().copied().unwrap_or(' ');
    let second = rest.get(1).copied();
    let kind = match first {
        '0'..='9' => return number(rest, at),
        '.' if second.is_some_and(|c| c.is_ascii_digit()) => return number(rest, at),
        c if c.is_ascii_alphabetic() => return Ok(word(rest)),
        '\'' | '’' | '‘' | '′' | '`' | '´' => {
            if second.is_some_and(|c| matches!(c, '\'' | '’' | '‘' | '′' | '`' | '´')) {
                return Ok((Kind::DoublePrime, 2));
            }
            Kind::Prime
        }
        '"' | '”' | '“' | '„' | '″' => Kind::DoublePrime,
        '°' | 'º' | '˚' => Kind::Degree,
        '/' | '⁄' | '∕' => Kind::Slash,
        '-' | '−' | '–' | '—' | '‐' | '‑' => Kind::Dash,
        '+' => Kind::Plus,
        ':' => Kind::Colon,
        '%' => Kind::Percent,
        '½' => Kind::Vulgar(1.0, 2.0),
        '¼' => Kind::Vulgar(1.0, 4.0),
        '¾' => Kind::Vulgar(3.0, 4.0),
        '⅛' => Kind::Vulgar(1.0, 8.0),
        '⅜' => Kind::Vulgar(3.0, 8.0),
        '⅝' => Kind::Vulgar(5.0, 8.0),
        '⅞' => Kind::Vulgar(7.0, 8.0),
        other => {
            return Err(UnitFault::new(
                at..at + 1,
                format!("“{}” is not understood here.", other.escape_debug()),
                "Use digits, a decimal point, fractions and units only.",
            ));
        }
    };
    Ok((kind, 1))
}

/// A run of letters and the full stop of an abbreviation.
fn word(rest: &[char]) -> (Kind, usize) {
    let letters = rest.iter().take_while(|c| c.is_ascii_alphabetic()).count();
    let text: String = rest
        .iter()
        .take(letters)
        .map(char::to_ascii_lowercase)
        .collect();
    let stop = usize::from(rest.get(letters) == Some(&'.'));
    (Kind::Word(text), letters + stop)
}

/// Digits with thousands commas and a decimal point.
fn number(rest: &[char], at: usize) -> Result<(Kind, usize), UnitFault> {
    let digits_from = |start: usize| {
        rest.iter()
            .skip(start)
            .take_while(|c| c.is_ascii_digit())
            .count()
    };
    let mut end = digits_from(0);
    let lead = end;
    let mut grouped = false;
    while rest.get(end) == Some(&',') {
        let group = digits_from(end + 1);
        if group != 3 || !(1..=3).contains(&lead) {
            return Err(UnitFault::new(
                at + end..at + end + 1,
                "A comma is read between thousands only, as in 1,250.",
                "Write a decimal with a point, as in 12.5.",
            ));
        }
        grouped = true;
        end += 4;
    }
    let whole: String = rest
        .iter()
        .take(end)
        .filter(|c| c.is_ascii_digit())
        .collect();
    let mut fraction = String::new();
    if rest.get(end) == Some(&'.') {
        let digits = digits_from(end + 1);
        fraction = rest.iter().skip(end + 1).take(digits).collect();
        end += 1 + digits;
    }
    let value = format!("0{whole}.{fraction}0")
        .parse::<f64>()
        .ok()
        .filter(|v| v.is_finite());
    let Some(value) = value else {
        return Err(UnitFault::new(
            at..at + end,
            "The number is too large.",
            "Type a shorter number.",
        ));
    };
    let decimal = Decimal {
        value,
        fraction,
        grouped,
    };
    Ok((Kind::Number(decimal), end))
}

/// A place in a list of tokens, moved forward as they are understood.
#[derive(Debug, Clone, Copy)]
pub struct Reader<'a> {
    tokens: &'a [Token],
    at: usize,
}

impl<'a> Reader<'a> {
    /// Before the first token.
    pub fn new(tokens: &'a [Token]) -> Self {
        Self { tokens, at: 0 }
    }

    /// The next token, not taken.
    pub fn peek(&self) -> Option<&'a Token> {
        self.tokens.get(self.at)
    }

    /// What the token `ahead` places on is, not taken.
    pub fn kind(&self, ahead: usize) -> Option<&'a Kind> {
        self.tokens.get(self.at + ahead).map(|t| &t.kind)
    }

    /// Takes a number of tokens.
    pub fn skip(&mut self, count: usize) {
        self.at += count;
    }

    /// Takes the next token if it is of the given kind.
    pub fn take(&mut self, kind: &Kind) -> bool {
        let found = self.kind(0) == Some(kind);
        self.at += usize::from(found);
        found
    }

    /// Takes a sign, if one stands here: -1 or +1.
    pub fn sign(&mut self) -> f64 {
        if self.take(&Kind::Dash) {
            -1.0
        } else {
            let _ = self.take(&Kind::Plus);
            1.0
        }
    }

    /// Takes the next token if it is a number.
    pub fn number(&mut self) -> Option<&'a Decimal> {
        let Some(Kind::Number(decimal)) = self.kind(0) else {
            return None;
        };
        self.skip(1);
        Some(decimal)
    }

    /// The place of the next token, or just behind the last one.
    pub fn span(&self) -> Range<usize> {
        let end = self.tokens.last().map_or(0, |t| t.span.end);
        self.peek().map_or(end..end, |t| t.span.clone())
    }

    /// From the start of the token `since` to the end of the last token taken.
    pub fn span_since(&self, since: &Self) -> Range<usize> {
        let start = since.span().start;
        let end = self
            .at
            .checked_sub(1)
            .and_then(|last| self.tokens.get(last))
            .map_or(start, |t| t.span.end);
        start..end.max(start)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn marks_of_every_font_are_the_same_marks() {
        let kinds =
            |text| -> Vec<Kind> { scan(text).unwrap().into_iter().map(|t| t.kind).collect() };
        let plain = kinds("12'-6 1/2\"");
        assert_eq!(kinds("12′–6 1⁄2″"), plain);
        assert_eq!(kinds("12’-6 1/2''"), plain);
    }

    #[test]
    fn commas_group_thousands_only() {
        assert!(matches!(
            scan("1,234,567.5").unwrap().first().unwrap().kind,
            Kind::Number(Decimal { value, .. }) if value == 1_234_567.5
        ));
        for (text, at) in [("12,5", 2), ("1234,567", 4), ("1,2345", 1), ("1,", 1)] {
            assert_eq!(scan(text).unwrap_err().span.start, at, "{text}");
        }
    }

    #[test]
    fn what_is_not_understood_is_named_with_its_place() {
        let fault = scan("12 é").unwrap_err();
        assert_eq!(fault.span, 3..4);
        assert!(fault.message.contains('é'));
        assert!(scan(&"9".repeat(150)).is_ok());
        assert!(scan(&"9".repeat(400)).is_err());
    }
}
