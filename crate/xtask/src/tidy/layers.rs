//! The layers of the core: a module uses only modules above it in the table.
//!
//! Modules of one crate may call each other freely as far as the compiler minds, and in a year they
//! form one knot. This table keeps them a list. `DEVELOPERS.md` shows the same table to people, and
//! is checked against this one.

use super::Fault;
use super::scan::{Token, tokens};
use super::tree::Tree;

/// The modules of `crate/core/src`, lowest first. A module may use those before it.
const LAYERS: [&str; 28] = [
    "math",
    "json",
    "units",
    "finding",
    "geom",
    "lot",
    "sketch",
    "shell",
    "ground",
    "site",
    "clearance",
    "clear_ground",
    "dig",
    "grading",
    "deck",
    "pipe",
    "stockpile",
    "groundwater",
    "takeoff",
    "analysis",
    "section",
    "stakeout",
    "drawing",
    "sheet",
    "report",
    "exchange",
    "study",
    "session",
];

/// Third-party geometry crates, each with the one place that may name it.
const WRAPPED: [(&str, &str); 4] = [
    ("geo", "crate/core/src/geom/boolean"),
    ("i_overlay", "crate/core/src/geom/boolean"),
    ("lyon", "crate/core/src/geom/pattern"),
    ("spade", "crate/core/src/ground/tin"),
];

/// The names in the table, for tests that build a tree.
#[cfg(test)]
pub fn names() -> [&'static str; LAYERS.len()] {
    LAYERS
}

const CORE: &str = "crate/core/src/";
const GUIDE: &str = "DEVELOPERS.md";

/// Every breach of the layers, of the wrappers, and of the guide's copy of the table.
pub fn check(tree: &Tree) -> Vec<Fault> {
    let mut faults = Vec::new();
    for file in tree
        .files
        .iter()
        .filter(|file| file.ending() == "rs" && in_sources(&file.path))
    {
        let tokens = tokens(&file.text);
        wrappers(&file.path, &tokens, &mut faults);
        if let Some(inside) = file
            .path
            .strip_prefix(CORE)
            .filter(|inside| *inside != "lib.rs")
        {
            layer(&file.path, inside, &tokens, &mut faults);
        }
    }
    guide(tree, &mut faults);
    faults
}

fn in_sources(path: &str) -> bool {
    let mut parts = path.split('/');
    parts.next() == Some("crate") && parts.nth(1) == Some("src")
}

fn wrappers(path: &str, tokens: &[Token<'_>], faults: &mut Vec<Fault>) {
    for (at, token) in tokens.iter().enumerate() {
        let Some((name, home)) = WRAPPED.iter().find(|(name, _)| *name == token.text) else {
            continue;
        };
        let inside = path
            .strip_prefix(home)
            .is_some_and(|rest| rest == ".rs" || rest.starts_with('/'));
        if !inside && names_a_crate(tokens, at) {
            let text =
                format!("`{name}` is named here; only {home} may name it. Ask that module instead");
            faults.push(Fault::new(path, token.line, text));
        }
    }
}

/// Whether the name at `at` opens a path or is imported, as opposed to a field or a local name.
fn names_a_crate(tokens: &[Token<'_>], at: usize) -> bool {
    let text = |at: Option<usize>| {
        at.and_then(|at| tokens.get(at))
            .map_or("", |token| token.text)
    };
    let (parent, before, after) = (
        text(at.checked_sub(2)),
        text(at.checked_sub(1)),
        text(Some(at + 1)),
    );
    let follows_a_name =
        before == "::" && parent != "use" && parent.starts_with(char::is_alphabetic);
    let imported = matches!(before, "use" | "crate") && matches!(after, ";" | "as");
    (after == "::" && !follows_a_name) || imported
}

fn layer(path: &str, inside: &str, tokens: &[Token<'_>], faults: &mut Vec<Fault>) {
    let module = inside.split(['/', '.']).next().unwrap_or_default();
    let Some(own) = place(module) else {
        faults.push(Fault::new(
            path,
            0,
            format!("`{module}` has no layer: add it to LAYERS in the task runner and to {GUIDE}"),
        ));
        return;
    };
    for (name, line) in used(tokens, depth(inside)) {
        match place(name) {
            Some(other) if other <= own => {}
            Some(_) => faults.push(Fault::new(
                path,
                line,
                format!("`{module}` uses `{name}`, which is built on top of it: see the layers in {GUIDE}"),
            )),
            None => faults.push(Fault::new(path, line, format!("`crate::{name}` is no layer: name the module it comes from"))),
        }
    }
}

fn place(module: &str) -> Option<usize> {
    LAYERS.iter().position(|layer| *layer == module)
}

/// How many modules deep the file's own items are: 1 for `dig.rs` and `dig/mod.rs`, 2 for `dig/cut.rs`.
fn depth(inside: &str) -> usize {
    let parts = inside.split('/').count();
    if inside.ends_with("/mod.rs") {
        parts - 1
    } else {
        parts
    }
}

/// The top modules that a file names, through `crate::` or enough `super::`, with their lines.
fn used<'a>(tokens: &[Token<'a>], file_depth: usize) -> Vec<(&'a str, usize)> {
    let mut found = Vec::new();
    let mut braces: Vec<bool> = Vec::new();
    let mut rest = tokens;
    while let [token, after @ ..] = rest {
        rest = after;
        match (token.text, after) {
            ("mod", [name, brace, beyond @ ..]) if name.is_name() && brace.text == "{" => {
                braces.push(true);
                rest = beyond;
            }
            ("{", _) => braces.push(false),
            ("}", _) => drop(braces.pop()),
            ("crate", [colons, path @ ..]) if colons.text == "::" => found.extend(heads(path)),
            ("super", _) => {
                let Some((supers, path)) = climb(after) else {
                    continue;
                };
                let modules = braces.iter().filter(|is_module| **is_module).count();
                if supers == file_depth + modules {
                    found.extend(heads(path));
                }
                rest = path;
            }
            _ => {}
        }
    }
    found
}

/// What follows a first `super`: how many there are in all, and the path after the last `::`.
/// `None` when no path follows, as in `pub(super)`.
fn climb<'t, 'a>(mut rest: &'t [Token<'a>]) -> Option<(usize, &'t [Token<'a>])> {
    let mut supers = 1;
    loop {
        match rest {
            [colons, next, beyond @ ..] if colons.text == "::" && next.text == "super" => {
                supers += 1;
                rest = beyond;
            }
            [colons, path @ ..] if colons.text == "::" => return Some((supers, path)),
            _ => return None,
        }
    }
}

/// The first names of the path or group of paths that `path` begins with.
fn heads<'a>(path: &[Token<'a>]) -> Vec<(&'a str, usize)> {
    let Some(first) = path.first() else {
        return Vec::new();
    };
    if first.text != "{" {
        // `crate::name!` is a macro, which has no module.
        let is_macro = path.get(1).is_some_and(|next| next.text == "!");
        return if is_macro {
            Vec::new()
        } else {
            vec![(first.text, first.line)]
        };
    }
    let mut found = Vec::new();
    let (mut level, mut at_start) = (0_usize, false);
    for token in path {
        match token.text {
            "{" => {
                level += 1;
                at_start = level == 1;
            }
            "}" if level == 1 => break,
            "}" => level -= 1,
            "," if level == 1 => at_start = true,
            name if at_start => {
                found.push((name, token.line));
                at_start = false;
            }
            _ => {}
        }
    }
    found
}

/// The guide must show the same table: rows "| `module` | ... |" under the heading "Layers".
fn guide(tree: &Tree, faults: &mut Vec<Fault>) {
    let Some(text) = tree.text(GUIDE) else { return };
    let section = text
        .lines()
        .enumerate()
        .skip_while(|(_, line)| *line != "## Layers")
        .skip(1);
    let rows = section.take_while(|(_, line)| !line.starts_with("## "));
    let named: Vec<(usize, &str)> = rows
        .filter_map(|(number, line)| {
            Some((number + 1, line.strip_prefix("| `")?.split_once('`')?.0))
        })
        .collect();
    if named.iter().map(|(_, name)| *name).eq(LAYERS) {
        return;
    }
    let wrong = named
        .iter()
        .zip(LAYERS)
        .find(|((_, name), layer)| name != layer);
    let line = wrong.map_or(0, |((line, _), _)| *line);
    faults.push(Fault::new(
        GUIDE,
        line,
        format!(
            "its table of layers is not the one that is enforced: {}",
            LAYERS.join(", ")
        ),
    ));
}

#[cfg(test)]
mod tests;
