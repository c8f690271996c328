//! Rust source as a row of tokens: names and punctuation, with comments and literals left out.

use proc_macro2::{Delimiter, Spacing, Span, TokenStream, TokenTree};

/// A name, `::`, a bracket or one other character.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Token<'a> {
    pub text: &'a str,
    /// Counted from 1.
    pub line: usize,
}

impl Token<'_> {
    /// Whether this is a name or keyword.
    pub fn is_name(&self) -> bool {
        self.text
            .starts_with(|c: char| c.is_alphabetic() || c == '_')
    }
}

/// The tokens of `source`, in order; none when it is no Rust, which the compiler tells better.
pub fn tokens(source: &str) -> Vec<Token<'_>> {
    let mut found = Vec::new();
    if let Ok(stream) = source.parse() {
        flatten(stream, source, &mut found);
    }
    found
}

fn flatten<'a>(stream: TokenStream, source: &'a str, found: &mut Vec<Token<'a>>) {
    let token = |span: Span, text| Token {
        text,
        line: span.start().line,
    };
    let mut trees = stream.into_iter().peekable();
    while let Some(tree) = trees.next() {
        match tree {
            TokenTree::Literal(_) => {}
            TokenTree::Group(group) => {
                let (open, close) = brackets(group.delimiter());
                found.push(token(group.span_open(), open));
                flatten(group.stream(), source, found);
                found.push(token(group.span_close(), close));
            }
            TokenTree::Punct(mark) if mark.as_char() == ':' && mark.spacing() == Spacing::Joint => {
                trees.next();
                found.push(token(mark.span(), "::"));
            }
            TokenTree::Ident(_) | TokenTree::Punct(_) => {
                let span = tree.span();
                let text = source.get(span.byte_range()).unwrap_or_default();
                found.push(token(span, text.trim_start_matches("r#")));
            }
        }
    }
}

fn brackets(kind: Delimiter) -> (&'static str, &'static str) {
    match kind {
        Delimiter::Parenthesis => ("(", ")"),
        Delimiter::Brace => ("{", "}"),
        Delimiter::Bracket => ("[", "]"),
        Delimiter::None => ("", ""),
    }
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
            texts("use crate::{a::B, c}; let d: E = r#type;"),
            [
                "use", "crate", "::", "{", "a", "::", "B", ",", "c", "}", ";", "let", "d", ":",
                "E", "=", "type", ";"
            ]
        );
    }

    #[test]
    fn comments_and_literals_go() {
        assert_eq!(texts("a // b\nc /* d /* e */ f */ g"), ["a", "c", "g"]);
        assert_eq!(
            texts(r##"a "b \" c" d r#"e " f"# g b"h" i br"j" k 1.0"##),
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
    fn what_is_no_rust_has_no_tokens() {
        for source in ["a /* b", "a \"b", "a r#\"b\"", "a { b"] {
            assert_eq!(texts(source), [""; 0], "{source}");
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
