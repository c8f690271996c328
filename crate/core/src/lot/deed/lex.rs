//! Deed text into words, numbers and marks, each with its place.
//!
//! Nothing is refused here: a character without a meaning becomes a mark, and what cannot be
//! used is told by whoever looks for it.

use core::ops::Range;

use super::spelled::{self, Conflict};
use super::token::{Kind, Token};

/// A text and its tokens.
#[derive(Debug)]
pub struct Text {
    chars: Vec<char>,
    /// The tokens in order.
    pub tokens: Vec<Token>,
    /// Numbers in words that the digits behind them contradict.
    pub conflicts: Vec<Conflict>,
}

impl Text {
    /// Cuts a text.
    pub fn cut(text: &str) -> Self {
        let chars: Vec<char> = text.chars().collect();
        let mut tokens = Vec::new();
        let (mut at, mut line) = (0, 1);
        while let Some(&c) = chars.get(at) {
            let rest = chars.get(at..).unwrap_or_default();
            let (kind, length) = if c.is_whitespace() {
                line += usize::from(c == '\n');
                at += 1;
                continue;
            } else if c.is_alphabetic() && c != 'º' {
                word(rest)
            } else {
                number(rest).unwrap_or((Kind::Mark(c), 1))
            };
            let span = at..at + length;
            tokens.push(Token {
                kind,
                span,
                line,
                spelled: None,
            });
            at += length;
        }
        let (tokens, conflicts) = spelled::join(tokens);
        Self {
            chars,
            tokens,
            conflicts,
        }
    }

    /// How many characters the text has.
    pub fn length(&self) -> usize {
        self.chars.len()
    }

    /// What the token at an index is.
    pub fn kind(&self, at: usize) -> Option<&Kind> {
        self.tokens.get(at).map(|token| &token.kind)
    }

    /// The word at an index, or nothing that any word equals.
    pub fn word(&self, at: usize) -> &str {
        match self.kind(at) {
            Some(Kind::Word(word)) => word,
            _ => "",
        }
    }

    /// The word so many tokens before an index, or nothing that any word equals.
    pub fn before(&self, at: usize, back: usize) -> &str {
        at.checked_sub(back).map_or("", |before| self.word(before))
    }

    /// The mark at an index, or a space.
    pub fn mark(&self, at: usize) -> char {
        match self.kind(at) {
            Some(Kind::Mark(mark)) => *mark,
            _ => ' ',
        }
    }

    /// Whether a number stands at an index.
    pub fn is_number(&self, at: usize) -> bool {
        matches!(self.kind(at), Some(Kind::Number { .. }))
    }

    /// Whether no space stands between a token and the one before it.
    pub fn glued(&self, at: usize) -> bool {
        let before = at.checked_sub(1).and_then(|b| self.tokens.get(b));
        match (before, self.tokens.get(at)) {
            (Some(before), Some(token)) => before.span.end == token.span.start,
            _ => false,
        }
    }

    /// The characters from the first of the tokens to the last.
    pub fn span(&self, tokens: &Range<usize>) -> Range<usize> {
        let start = self.tokens.get(tokens.start).map(|t| t.span.start);
        let end = tokens.end.checked_sub(1).and_then(|e| self.tokens.get(e));
        let start = start.unwrap_or(self.chars.len());
        start..end.map_or(start, |t| t.span.end).max(start)
    }

    /// The text of some tokens as it stands, spaces between words made one.
    pub fn original(&self, tokens: &Range<usize>) -> String {
        let chars = self.chars.get(self.span(tokens)).unwrap_or_default();
        let words: String = chars.iter().collect();
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// The text of some tokens as the parsers of figures take it: brackets, commas and the
    /// word "and" become spaces, numbers in words digits.
    pub fn figure(&self, tokens: &Range<usize>) -> String {
        let span = self.span(tokens);
        let mut figure = String::new();
        let mut at = span.start;
        for index in tokens.clone() {
            let Some(token) = self.tokens.get(index) else {
                break;
            };
            let cut = |from: usize, to: usize| self.chars.get(from..to).unwrap_or_default();
            figure.extend(cut(at, token.span.start));
            let blank =
                matches!(token.kind, Kind::Mark(',' | '(' | ')')) || self.word(index) == "and";
            match &token.spelled {
                Some(digits) => figure.push_str(digits),
                None if blank => figure.push(' '),
                None => figure.extend(cut(token.span.start, token.span.end)),
            }
            at = token.span.end;
        }
        figure
    }
}

/// A run of letters and its length.
fn word(rest: &[char]) -> (Kind, usize) {
    let letters = || rest.iter().take_while(|c| c.is_alphabetic() && **c != 'º');
    let word = letters().flat_map(|c| c.to_lowercase()).collect();
    (Kind::Word(word), letters().count())
}

/// A number with commas between thousands and a decimal point, and its length.
fn number(rest: &[char]) -> Option<(Kind, usize)> {
    let digits = |from: usize| {
        let tail = rest.iter().skip(from);
        tail.take_while(|c| c.is_ascii_digit()).count()
    };
    let mut end = digits(0);
    if (1..=3).contains(&end) {
        while rest.get(end) == Some(&',') && digits(end + 1) == 3 {
            end += 4;
        }
    }
    let decimals = if rest.get(end) == Some(&'.') {
        digits(end + 1)
    } else {
        0
    };
    if decimals > 0 {
        end += 1 + decimals;
    }
    let plain: String = rest.iter().take(end).filter(|c| **c != ',').collect();
    let value = plain.parse::<f64>().ok().filter(|v| v.is_finite())?;
    let decimals = u32::try_from(decimals).unwrap_or(u32::MAX);
    Some((Kind::Number { value, decimals }, end))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_words_and_marks_are_told_apart() {
        let text = Text::cut("N89-15E, 1,234.50'\nΔ=.5, 12.");
        let shown: Vec<String> = text
            .tokens
            .iter()
            .map(|t| match &t.kind {
                Kind::Word(w) => w.clone(),
                Kind::Number { value, decimals } => format!("{value}/{decimals}"),
                Kind::Mark(m) => m.to_string(),
            })
            .collect();
        let expected = [
            "n", "89/0", "-", "15/0", "e", ",", "1234.5/2", "'", "δ", "=", "0.5/1", ",", "12/0",
            ".",
        ];
        assert_eq!(shown, expected);
        assert_eq!(text.tokens.last().map(|t| t.line), Some(2));
        assert_eq!(text.figure(&(6..8)), "1,234.50'");
    }
}
