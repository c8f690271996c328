//! The layers of the core: a module uses only modules above it in the table.
//!
//! Modules of one crate may call each other freely as far as the compiler minds, and in a year they
//! form one knot. This table keeps them a list. `DEVELOPERS.md` shows the same table to people, and
//! is checked against this one.

use super::Fault;
use super::paths::paths;
use super::scan::{Token, tokens};
use super::tree::Tree;

/// The modules of `crate/core/src`, lowest first. A module may use those before it.
const LAYERS: [&str; 36] = [
    "math",
    "order",
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
    "coverage",
    "barrier",
    "dig",
    "grading",
    "deck",
    "pipe",
    "stockpile",
    "groundwater",
    "takeoff",
    "analysis",
    "clear_ground",
    "way_in",
    "crane",
    "sun",
    "section",
    "scene",
    "stakeout",
    "drawing",
    "report",
    "exchange",
    "study",
    "session",
    "fit",
    "sources",
];

/// Third-party crates, each with the one place that may name it.
const WRAPPED: [(&str, &str); 6] = [
    ("geo", "crate/core/src/geom/boolean"),
    ("i_overlay", "crate/core/src/geom/boolean"),
    ("lyon", "crate/core/src/geom/pattern"),
    ("roxmltree", "crate/core/src/exchange/landxml"),
    ("solar_positioning", "crate/core/src/sun/position"),
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

fn layer(at: &str, inside: &str, tokens: &[Token<'_>], faults: &mut Vec<Fault>) {
    let module = inside.split(['/', '.']).next().unwrap_or_default();
    let Some(own) = place(module) else {
        faults.push(Fault::new(
            at,
            0,
            format!("`{module}` has no layer: add it to LAYERS in the task runner and to {GUIDE}"),
        ));
        return;
    };
    let file = inside.trim_end_matches(".rs").trim_end_matches("/mod");
    let file: Vec<&str> = file.split('/').collect();
    for path in paths(tokens, &file, |_| false).named {
        let (Some(name), line) = (path.names.first(), path.line) else {
            continue;
        };
        match place(name) {
            Some(other) if other <= own => {}
            Some(_) => faults.push(Fault::new(
                at,
                line,
                format!("`{module}` uses `{name}`, which is built on top of it: see the layers in {GUIDE}"),
            )),
            None => faults.push(Fault::new(at, line, format!("`crate::{name}` is no layer: name the module it comes from"))),
        }
    }
    // A group of names from one module is one use.
    faults.dedup();
}

fn place(module: &str) -> Option<usize> {
    LAYERS.iter().position(|layer| *layer == module)
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
