//! The paths that a Rust file names, from the top of its crate.

use std::collections::BTreeMap;

use super::scan::Token;

/// What a file names.
#[derive(Debug, Default)]
pub struct Paths<'a> {
    /// Every path, in order.
    pub named: Vec<Path<'a>>,
    /// What the file's own names stand for that it takes from elsewhere with `use`.
    pub imports: BTreeMap<&'a str, Vec<&'a str>>,
}

/// One path that a file names.
#[derive(Debug, PartialEq)]
pub struct Path<'a> {
    /// Without `crate`; `*` where everything is meant.
    pub names: Vec<&'a str>,
    pub line: usize,
    /// The name by which a `pub use` hands it on.
    pub handed_on: Option<&'a str>,
}

/// A path as it is written.
struct Written<'a> {
    names: Vec<Token<'a>>,
    alias: Option<&'a str>,
}

/// Reads the paths of a file whose own place is `own`, from the top of its crate: those through
/// `crate`, `super` and `self`, and those that begin with a name brought in by `use` or one that
/// `is_child` knows as a module of the file.
pub fn paths<'a>(
    tokens: &[Token<'a>],
    own: &[&'a str],
    is_child: impl Fn(&str) -> bool,
) -> Paths<'a> {
    let mut found = Paths::default();
    let mut late = Vec::new();
    // For each open brace, the inline module it opened.
    let mut braces: Vec<Option<&str>> = Vec::new();
    let mut before = Token { text: "", line: 0 };
    let mut rest = tokens;
    while let [token, after @ ..] = rest {
        rest = after;
        let is_head = token.is_name() && !matches!(before.text, "::" | "." | "'");
        let inside = || own.iter().copied().chain(braces.iter().flatten().copied());
        match (token.text, after) {
            ("mod", [name, brace, beyond @ ..]) if brace.text == "{" => {
                braces.push(Some(name.text));
                rest = beyond;
            }
            ("{", _) => braces.push(None),
            ("}", _) => drop(braces.pop()),
            ("use", [head, ..]) if head.is_name() || matches!(head.text, "{" | "::") => {
                let is_public = matches!(before.text, "pub" | ")");
                for written in tree(&mut rest, &[]) {
                    let Some(last) = written.names.last() else {
                        continue;
                    };
                    let name = written.alias.unwrap_or(last.text);
                    let Some(names) = from_top(&written.names, inside(), &is_child) else {
                        continue;
                    };
                    found.imports.insert(name, names.clone());
                    found.named.push(Path {
                        names,
                        line: last.line,
                        handed_on: is_public.then_some(name),
                    });
                }
            }
            _ if is_head && after.first().is_some_and(|next| next.text == "::") => {
                let mut path = vec![*token];
                while let [colons, name, beyond @ ..] = rest
                    && colons.text == "::"
                    && name.is_name()
                {
                    path.push(*name);
                    rest = beyond;
                }
                // `crate::name!` is a macro, which has no module.
                let is_macro = rest.first().is_some_and(|next| next.text == "!") && path.len() == 2;
                match from_top(&path, inside(), &is_child) {
                    _ if is_macro => {}
                    Some(names) => found.named.push(Path {
                        names,
                        line: token.line,
                        handed_on: None,
                    }),
                    None => late.push(path),
                }
            }
            _ => {}
        }
        before = *token;
    }
    // What is imported may stand below its first use.
    for path in late {
        let [head, tail @ ..] = path.as_slice() else {
            continue;
        };
        let Some(meaning) = found.imports.get(head.text) else {
            continue;
        };
        let names = meaning.iter().copied().chain(tail.iter().map(|it| it.text));
        found.named.push(Path {
            names: names.collect(),
            line: head.line,
            handed_on: None,
        });
    }
    found
}

/// The path that `written` means from the top, or nothing when it leads out of the crate.
fn from_top<'a>(
    written: &[Token<'a>],
    inside: impl Iterator<Item = &'a str>,
    is_child: &impl Fn(&str) -> bool,
) -> Option<Vec<&'a str>> {
    let mut place: Vec<&str> = inside.collect();
    let [head, ..] = written else { return None };
    let climbed = match head.text {
        "crate" => {
            place.clear();
            1
        }
        "self" => 1,
        "super" => {
            let count = written.iter().take_while(|it| it.text == "super").count();
            place.truncate(place.len().checked_sub(count)?);
            count
        }
        name if is_child(name) => 0,
        _ => return None,
    };
    place.extend(written.iter().skip(climbed).map(|it| it.text));
    Some(place)
}

/// The paths of a `use` tree that `rest` begins with, each after `stem`; `rest` goes past it.
fn tree<'a>(rest: &mut &[Token<'a>], stem: &[Token<'a>]) -> Vec<Written<'a>> {
    let mut names = stem.to_vec();
    while let [token, after @ ..] = *rest {
        match token.text {
            "::" => *rest = after,
            "{" => {
                *rest = after;
                let mut found = Vec::new();
                while let [next, beyond @ ..] = *rest {
                    match next.text {
                        "}" => {
                            *rest = beyond;
                            break;
                        }
                        "," => *rest = beyond,
                        _ => found.extend(tree(rest, &names)),
                    }
                }
                return found;
            }
            "as" => {
                *rest = after.get(1..).unwrap_or_default();
                let alias = after.first().map(|name| name.text);
                return vec![Written { names, alias }];
            }
            // In a group, the module itself.
            "self" if !stem.is_empty() => *rest = after,
            "*" => {
                *rest = after;
                names.push(*token);
            }
            _ if token.is_name() => {
                *rest = after;
                names.push(*token);
            }
            _ => break,
        }
    }
    vec![Written { names, alias: None }]
}

#[cfg(test)]
mod tests {
    use super::super::scan::tokens;
    use super::*;

    fn named(source: &str) -> Vec<String> {
        let found = paths(&tokens(source), &["dig", "cut"], |name| name == "child");
        let shown = found.named.iter().map(|path| path.names.join("::"));
        shown.collect()
    }

    #[test]
    fn every_way_to_write_a_path_is_read() {
        for (source, path) in [
            ("use crate::lot::Lot;", "lot::Lot"),
            ("use super::Hole;", "dig::Hole"),
            ("use super::super::lot::Lot;", "lot::Lot"),
            ("use child::Part;", "dig::cut::child::Part"),
            ("use self::child::Part;", "dig::cut::child::Part"),
            ("use crate::lot::*;", "lot::*"),
            ("fn f(hole: super::Hole) {}", "dig::Hole"),
            (
                "fn f() { child::make::<f64>(1.0) }",
                "dig::cut::child::make",
            ),
            ("mod inner { use super::super::Hole; }", "dig::Hole"),
            ("fn f() { vec![crate::lot::f()] }", "lot::f"),
        ] {
            assert_eq!(named(source), [path], "{source}");
        }
    }

    #[test]
    fn a_group_is_read_apart() {
        assert_eq!(
            named("use crate::{a::{self, B}, c as d, e::{f::G, h}};"),
            ["a", "a::B", "c", "e::f::G", "e::h"]
        );
    }

    #[test]
    fn an_imported_name_is_read_for_what_it_stands_for() {
        for source in [
            "use crate::lot as l; fn f() { l::g() }",
            "fn f() { l::g() } use crate::{lot as l};",
        ] {
            assert_eq!(named(source), ["lot", "lot::g"], "{source}");
        }
    }

    #[test]
    fn what_leads_out_of_the_crate_or_is_no_path_is_left_alone() {
        for source in [
            "use std::fs;",
            "fn f() { std::fs::read(g) }",
            "pub(super) fn f() {}",
            "crate::some_macro!(1);",
            "a.child::<f64>();",
        ] {
            assert_eq!(named(source), [""; 0], "{source}");
        }
    }

    #[test]
    fn what_is_handed_on_says_so() {
        let source = "pub use child::A; pub(crate) use child::B as C; use child::D;";
        let found = paths(&tokens(source), &["dig"], |name| name == "child");
        let handed: Vec<_> = found.named.iter().map(|path| path.handed_on).collect();
        assert_eq!(handed, [Some("A"), Some("C"), None]);
    }
}
