//! Polices the tree: rules that no compiler and no lint can hold.
//!
//! - `layers`: a module of the core uses only modules above it; each third-party geometry crate is
//!   named in one module.
//! - `circles`: no files of one module of the core name each other in a circle;
//! - `shape`: the top folder holds what it should, sources stay short, every Rust file opens with
//!   its front-page comment.
//! - `sourced`: every figure that the core offers stands in its register of sources.
//! - `locks`: what is fetched from outside is pinned, has its sum, and a license that lets it be passed on.
//! - `words`: no registry host and no path of somebody's machine.
//!
//! Every rule takes the tree as data and gives faults, so that each is tested on a small bad tree.

mod circles;
mod layers;
mod locks;
mod paths;
mod scan;
mod shape;
mod sourced;
#[cfg(test)]
pub mod test_tree;
mod tree;
mod words;

use std::fmt;

use anyhow::{Result, bail};

use crate::repo::Repo;
use crate::sh;
use tree::Tree;

/// Something wrong in the tree.
#[derive(Clone, Debug, PartialEq)]
struct Fault {
    weight: Weight,
    path: String,
    /// Counted from 1; 0 stands for the whole file.
    line: usize,
    text: String,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Weight {
    Warning,
    Failure,
}

impl Fault {
    fn new(path: &str, line: usize, text: impl Into<String>) -> Self {
        Self {
            weight: Weight::Failure,
            path: path.to_owned(),
            line,
            text: text.into(),
        }
    }

    fn warning(path: &str, line: usize, text: impl Into<String>) -> Self {
        Self {
            weight: Weight::Warning,
            ..Self::new(path, line, text)
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = if self.weight == Weight::Warning {
            "warning: "
        } else {
            ""
        };
        match self.line {
            0 => write!(out, "{}: {word}{}", self.path, self.text),
            line => write!(out, "{}:{line}: {word}{}", self.path, self.text),
        }
    }
}

/// Checks the whole tree and prints every fault.
///
/// # Errors
/// When a fault is more than a warning.
pub fn run(repo: &Repo) -> Result<()> {
    sh::say("Checking the tree: layers, circles, shape, sources, locks, words");
    let tree = Tree::read(repo.root())?;
    let faults = check(&tree);
    for fault in &faults {
        println!("    {fault}");
    }
    let failures = faults
        .iter()
        .filter(|fault| fault.weight == Weight::Failure)
        .count();
    if failures > 0 {
        bail!("{failures} rules of the tree are broken: each line above names its place");
    }
    println!("    {} files, {} warnings", tree.files.len(), faults.len());
    Ok(())
}

/// The paths of all files that a clone would hold.
///
/// # Errors
/// When something cannot be read.
pub fn paths_of(repo: &Repo) -> Result<Vec<String>> {
    let files = Tree::read(repo.root())?.files;
    Ok(files.into_iter().map(|file| file.path).collect())
}

fn check(tree: &Tree) -> Vec<Fault> {
    [
        layers::check(tree),
        circles::check(tree),
        shape::check(tree),
        sourced::check(tree),
        locks::check(tree),
        words::check(tree),
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;
    use test_tree::Scratch;

    /// The smallest tree without a fault.
    fn good(name: &str) -> Scratch {
        let tree = Scratch::new(name);
        for path in [
            "Cargo.lock",
            "Cargo.toml",
            "LICENSE",
            "README.md",
            "demo-sites/a.json",
            "tests/a.txt",
            "www/a.ts",
        ] {
            tree.write(path, "");
        }
        tree.write(".gitignore", "/target\n");
        tree.write(
            "crate/core/src/lot.rs",
            "//! Lot.\n\nuse crate::geom::Path;\n",
        );
        let rows: String = layers::names()
            .map(|name| format!("| `{name}` | what |\n"))
            .concat();
        tree.write("DEVELOPERS.md", &format!("## Layers\n\n{rows}"));
        tree
    }

    #[test]
    fn a_good_tree_passes_and_a_bad_one_names_file_and_line() {
        let tree = good("tidy");
        tree.write("target/junk.rs", "no front page");
        run(&Repo::at(tree.root())).unwrap();

        tree.write(
            "crate/core/src/geom.rs",
            "//! Geometry.\n\nuse crate::lot::Lot;\n",
        );
        let faults = check(&Tree::read(tree.root()).unwrap());
        let shown: Vec<String> = faults.iter().map(Fault::to_string).collect();
        assert_eq!(shown.len(), 1, "{shown:?}");
        assert!(
            shown
                .iter()
                .all(|fault| fault.starts_with("crate/core/src/geom.rs:3: `geom` uses `lot`")),
            "{shown:?}"
        );
        assert!(run(&Repo::at(tree.root())).is_err());
    }

    #[test]
    fn a_warning_alone_does_not_fail() {
        let tree = good("tidy-warning");
        tree.write("www/long.ts", &"x\n".repeat(600));
        run(&Repo::at(tree.root())).unwrap();
        tree.write("www/long.ts", &"x\n".repeat(900));
        assert!(run(&Repo::at(tree.root())).is_err());
    }
}
