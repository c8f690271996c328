//! Circles between files: inside one module of the core no two files may name each other, and no
//! longer way from file to file may lead back to its start. Such files can only be read all at once.
//!
//! A name that a file hands on (`pub use`) is looked up where it comes from, so that going through
//! the module's front page is no circle. A file and the parts in its own folder (`takeoff` and
//! `takeoff/rods`) are read from the top down, and the parts may name what the file above them holds.
//! Tests are left out: they name whatever they test.

mod graph;

use std::collections::BTreeMap;

use super::Fault;
use super::paths::{Paths, paths};
use super::scan::{Token, tokens};
use super::tree::{File, Tree};
use graph::Graph;

const CORE: &str = "crate/core/src/";

/// How often a name may be handed on before it is lost sight of.
const MOST_HANDS: usize = 8;

/// Every circle.
pub fn check(tree: &Tree) -> Vec<Fault> {
    let of = |circle: graph::Circle<'_>| {
        let uses = circle.uses();
        let (file, _, line) = uses.first().copied().unwrap_or_default();
        let shown: Vec<String> = uses
            .iter()
            .map(|(from, to, line)| format!("`{from}` names `{to}` in line {line}"))
            .collect();
        let text = format!(
            "a circle of files: {}. Move what both want into a file below them, or hand it over as an argument",
            shown.join(", ")
        );
        Fault::new(&file_path(tree, file), line, text)
    };
    graph(tree).circles().into_iter().map(of).collect()
}

/// A module's file, as the files of a circle are called: from the core's sources, without its ending.
fn file_name(path: &str) -> Option<&str> {
    let name = path.strip_prefix(CORE)?.strip_suffix(".rs")?;
    let is_test = name.split('/').any(|part| part == "tests");
    (name != "lib" && !is_test).then(|| name.strip_suffix("/mod").unwrap_or(name))
}

/// The path of the file of that name.
fn file_path(tree: &Tree, name: &str) -> String {
    let file = tree
        .files
        .iter()
        .find(|it| file_name(&it.path) == Some(name));
    file.map_or_else(|| name.to_owned(), |file| file.path.clone())
}

/// A file and what it names.
struct Module<'a> {
    tokens: Vec<Token<'a>>,
    paths: Paths<'a>,
}

/// Which file of the core names which other of the same module.
fn graph<'t>(tree: &'t Tree) -> Graph<'t> {
    let names: Vec<&str> = (tree.files.iter())
        .filter_map(|file| file_name(&file.path))
        .collect();
    let read = |file: &'t File| {
        let name = file_name(&file.path)?;
        let own: Vec<&str> = name.split('/').collect();
        let tokens = without_tests(&tokens(&file.text));
        let is_child = |child: &str| names.contains(&format!("{name}/{child}").as_str());
        let paths = paths(&tokens, &own, is_child);
        Some((name, Module { tokens, paths }))
    };
    let modules: BTreeMap<&str, Module<'_>> = tree.files.iter().filter_map(read).collect();
    let mut graph = Graph::default();
    for (name, module) in &modules {
        for path in &module.paths.named {
            let only_handed_on = path
                .handed_on
                .is_some_and(|it| !is_used(it, &module.tokens));
            let Some(other) = home(&path.names, &modules, MOST_HANDS) else {
                continue;
            };
            if !only_handed_on && top(other) == top(name) && !is_in_folder_of(other, name) {
                graph.add(name, other, path.line);
            }
        }
    }
    graph
}

/// The module of the core that a file belongs to.
fn top(name: &str) -> &str {
    name.split('/').next().unwrap_or(name)
}

/// Whether `part` is the file `name` or one of the parts in its folder.
fn is_in_folder_of(part: &str, name: &str) -> bool {
    let below = part.strip_prefix(name);
    below.is_some_and(|below| below.is_empty() || below.starts_with('/'))
}

/// The file in which the thing at the path `names` stands, or nothing when it names no thing in a
/// file: a module alone does nothing, and what is named through it is a path of its own.
fn home<'t>(
    names: &[&str],
    modules: &BTreeMap<&'t str, Module<'t>>,
    hands: usize,
) -> Option<&'t str> {
    let file_of = |count: usize| {
        let name = names.get(..count)?.join("/");
        Some((count, modules.get_key_value(name.as_str())?))
    };
    let (count, (name, module)) = (1..=names.len()).rev().find_map(file_of)?;
    let thing = names.get(count)?;
    match module.paths.imports.get(thing) {
        Some(from) if hands > 0 => {
            let rest = names.iter().skip(count + 1);
            let whole: Vec<&str> = from.iter().chain(rest).copied().collect();
            home(&whole, modules, hands - 1)
        }
        _ => Some(name),
    }
}

/// Whether a file uses a name that it hands on, too.
fn is_used(name: &str, tokens: &[Token<'_>]) -> bool {
    let is_thing = name.starts_with(char::is_uppercase);
    let mut in_use = false;
    tokens.windows(3).any(|window| {
        let [before, token, after] = window else {
            return false;
        };
        match token.text {
            "use" => in_use = true,
            ";" => in_use = false,
            _ => {}
        }
        // A small name may be a field or a local one: a call or a path is none.
        let is_own = !matches!(before.text, "." | "::" | "fn");
        !in_use && token.text == name && is_own && (is_thing || matches!(after.text, "(" | "::"))
    })
}

/// The tokens of a file without what is built for tests alone.
fn without_tests<'a>(tokens: &[Token<'a>]) -> Vec<Token<'a>> {
    const MARK: [&str; 7] = ["#", "[", "cfg", "(", "test", ")", "]"];
    let mut kept = Vec::new();
    let mut rest = tokens;
    while let [token, after @ ..] = rest {
        if rest.len() >= MARK.len() && rest.iter().zip(MARK).all(|(it, text)| it.text == text) {
            rest = beyond_item(rest.get(MARK.len()..).unwrap_or_default());
        } else {
            kept.push(*token);
            rest = after;
        }
    }
    kept
}

/// What follows the item that `rest` begins with: it ends with a semicolon or its own braces.
fn beyond_item<'t, 'a>(mut rest: &'t [Token<'a>]) -> &'t [Token<'a>] {
    let mut depth = 0_usize;
    while let [token, after @ ..] = rest {
        rest = after;
        match token.text {
            "{" | "(" | "[" => depth += 1,
            "}" | ")" | "]" => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth == 0 && matches!(token.text, ";" | "}") {
            break;
        }
    }
    rest
}

#[cfg(test)]
mod tests;
