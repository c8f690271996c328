//! Rust source as tokens: names and punctuation, with comments and literals left out.
//!
//! Not a parser: just enough to read paths (`crate::lot::Lot`) without being fooled by a path that
//! stands in a comment or a string.

/// A name, a number, `::` or one other character.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Token<'a> {
    pub text: &'a str,
    /// Counted from 1.
    pub line: usize,
}

impl Token<'_> {
    /// Whether this is a name or keyword.
    pub fn is_name(&self) -> bool {
        self.text.starts_with(starts_name)
    }
}

/// The tokens of `source`, in order. Text that ends inside a comment or literal just ends.
pub fn tokens(source: &str) -> Vec<Token<'_>> {
    let mut found = Vec::new();
    let (mut rest, mut line) = (source, 1);
    while let Some(first) = rest.chars().next() {
        let length = skipped(rest).unwrap_or_else(|| {
            let length = token_length(rest, first);
            let text = rest.get(..length).unwrap_or(rest);
            found.push(Token { text, line });
            length
        });
        let (taken, after) = rest.split_at_checked(length).unwrap_or((rest, ""));
        line += taken.matches('\n').count();
        rest = after;
    }
    found
}

fn starts_name(c: char) -> bool {
    c.is_alphabetic() || c == '_'
}

fn token_length(rest: &str, first: char) -> usize {
    if first.is_alphanumeric() || first == '_' {
        rest.find(|c: char| !c.is_alphanumeric() && c != '_')
            .unwrap_or(rest.len())
    } else if rest.starts_with("::") {
        2
    } else {
        first.len_utf8()
    }
}

/// How much of the start of `rest` is blank, comment or literal.
fn skipped(rest: &str) -> Option<usize> {
    let upto = |end: Option<usize>| Some(end.unwrap_or(rest.len()));
    if rest.starts_with(char::is_whitespace) {
        return upto(rest.find(|c: char| !c.is_whitespace()));
    }
    if rest.starts_with("//") {
        return upto(rest.find('\n'));
    }
    if rest.starts_with("/*") {
        return upto(comment_end(rest));
    }
    if let Some(body) = rest.strip_prefix('\'') {
        return char_literal(body).map(|length| length + 1);
    }
    let body = rest.trim_start_matches(['b', 'c']);
    let prefix = rest.len() - body.len();
    if prefix <= 1 {
        if let Some(text) = body.strip_prefix('"') {
            return upto(string_end(text).map(|end| prefix + 1 + end));
        }
        if let Some(raw) = body.strip_prefix('r') {
            let text = raw.trim_start_matches('#');
            let hashes = raw.len() - text.len();
            if let Some(text) = text.strip_prefix('"') {
                let close = format!("\"{}", "#".repeat(hashes));
                let end = text
                    .find(&close)
                    .map(|end| prefix + 1 + hashes + 1 + end + close.len());
                return upto(end);
            }
        }
    }
    None
}

/// The end of a comment that may hold others.
fn comment_end(rest: &str) -> Option<usize> {
    let (mut depth, mut at) = (0_usize, 0);
    loop {
        let tail = rest.get(at..)?;
        let next = tail.find(['/', '*'])?;
        let here = tail.get(next..)?;
        let step = if here.starts_with("/*") {
            depth += 1;
            2
        } else if here.starts_with("*/") {
            depth -= 1;
            2
        } else {
            1
        };
        at += next + step;
        if depth == 0 {
            return Some(at);
        }
    }
}

/// The length of a string's text and its closing quote.
fn string_end(text: &str) -> Option<usize> {
    let mut escaped = false;
    for (at, c) in text.char_indices() {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => return Some(at + 1),
            _ => {}
        }
    }
    None
}

/// The length of a character literal after its opening quote; `None` for a lifetime.
fn char_literal(body: &str) -> Option<usize> {
    let mut chars = body.char_indices();
    let (_, first) = chars.next()?;
    if first == '\\' {
        chars.next()?;
        return chars.find(|(_, c)| *c == '\'').map(|(at, _)| at + 1);
    }
    chars
        .next()
        .filter(|(_, c)| *c == '\'')
        .map(|(at, _)| at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(source: &str) -> Vec<&str> {
        tokens(source).iter().map(|token| token.text).collect()
    }

    #[test]
    fn names_and_paths_remain() {
        assert_eq!(
            texts("use crate::lot::{A, b2};"),
            [
                "use", "crate", "::", "lot", "::", "{", "A", ",", "b2", "}", ";"
            ]
        );
        assert_eq!(
            texts("bar::c; r#type"),
            ["bar", "::", "c", ";", "r", "#", "type"]
        );
    }

    #[test]
    fn comments_and_literals_go() {
        assert_eq!(texts("a // b\nc /* d /* e */ f */ g"), ["a", "c", "g"]);
        assert_eq!(
            texts(r##"a "b \" c" d r#"e " f"# g b"h" i br"j" k"##),
            ["a", "d", "g", "i", "k"]
        );
        assert_eq!(texts(r"x 'a' '\'' '\u{41}' '\\' y"), ["x", "y"]);
        assert_eq!(
            texts("fn f<'a>(x: &'a str)"),
            [
                "fn", "f", "<", "'", "a", ">", "(", "x", ":", "&", "'", "a", "str", ")"
            ]
        );
    }

    #[test]
    fn an_open_end_just_ends() {
        for source in ["a /* b", "a \"b", "a r#\"b\"", "a // b", "a '"] {
            assert_eq!(texts(source).first(), Some(&"a"), "{source}");
        }
    }

    #[test]
    fn lines_are_counted_through_everything() {
        let source = "a\n/* 1\n2 */ b \"x\ny\"\nc";
        let lines: Vec<_> = tokens(source)
            .iter()
            .map(|token| (token.text, token.line))
            .collect();
        assert_eq!(lines, [("a", 1), ("b", 3), ("c", 5)]);
    }
}
