//! The shape of the tree: what stands at the top, how long sources are, how they open.

use std::collections::BTreeSet;

use super::Fault;
use super::tree::{File, Tree};

/// Everything at the top, besides dot-files.
const TOP: [&str; 9] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "crate",
    "demo-sites",
    "tests",
    "www",
];

/// Endings of what people write and read.
const SOURCES: [&str; 6] = ["css", "mjs", "py", "rs", "ts", "tsx"];

/// Past this a source has become the place where things go.
const MOST_LINES: usize = 800;
/// Past this it wants another look.
const MANY_LINES: usize = 500;

/// Every breach of shape.
pub fn check(tree: &Tree) -> Vec<Fault> {
    let mut faults = top(tree);
    for file in tree
        .files
        .iter()
        .filter(|file| SOURCES.contains(&file.ending()))
    {
        faults.extend(length(file));
        faults.extend(opening(file));
    }
    faults
}

fn top(tree: &Tree) -> Vec<Fault> {
    let first = |file: &File| file.path.split('/').next().unwrap_or_default().to_owned();
    let found: BTreeSet<String> = tree
        .files
        .iter()
        .map(first)
        .filter(|name| !name.starts_with('.'))
        .collect();
    let extra = found.iter().filter(|name| !TOP.contains(&name.as_str()));
    let missing = TOP.iter().filter(|name| !found.contains(**name));
    extra
        .map(|name| Fault::new(name, 0, "has no place at the top: put it in a folder below"))
        .chain(missing.map(|name| Fault::new(name, 0, "is missing at the top")))
        .collect()
}

fn length(file: &File) -> Option<Fault> {
    let lines = file.text.lines().count();
    if lines > MOST_LINES {
        let text = format!("{lines} lines, {MOST_LINES} at most: split it by idea");
        return Some(Fault::new(&file.path, lines, text));
    }
    let text = format!("{lines} lines: does it hold two ideas?");
    (lines > MANY_LINES).then(|| Fault::warning(&file.path, lines, text))
}

fn opening(file: &File) -> Option<Fault> {
    let opens = file.ending() != "rs" || file.text.starts_with("//! ");
    (!opens).then(|| {
        Fault::new(
            &file.path,
            1,
            "must open with a `//!` comment that says what it is for",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::Weight;

    fn file(path: &str, text: &str) -> File {
        File {
            path: path.to_owned(),
            text: text.to_owned(),
        }
    }

    fn with_top(more: Vec<File>) -> Tree {
        let mut files: Vec<File> = TOP.iter().map(|name| file(name, "")).collect();
        files.extend(more);
        Tree { files }
    }

    #[test]
    fn the_top_is_exact() {
        assert_eq!(
            check(&with_top(vec![
                file(".ci/run", ""),
                file("www/src/main.ts", "")
            ])),
            []
        );
        let extra = check(&with_top(vec![
            file("notes/a.md", ""),
            file("notes/b.md", ""),
        ]));
        assert_eq!(
            extra
                .iter()
                .map(|fault| fault.path.as_str())
                .collect::<Vec<_>>(),
            ["notes"]
        );
        let mut tree = with_top(Vec::new());
        tree.files.retain(|file| file.path != "LICENSE");
        assert!(
            check(&tree)
                .iter()
                .any(|fault| fault.to_string() == "LICENSE: is missing at the top")
        );
    }

    #[test]
    fn long_sources_warn_and_then_fail() {
        for (ending, lines, weight) in [
            ("ts", 500, None),
            ("ts", 501, Some(Weight::Warning)),
            ("css", 800, Some(Weight::Warning)),
            ("py", 801, Some(Weight::Failure)),
            ("json", 5000, None),
        ] {
            let tree = with_top(vec![file(&format!("www/x.{ending}"), &"x\n".repeat(lines))]);
            assert_eq!(
                check(&tree).first().map(|fault| fault.weight),
                weight,
                "{lines} lines of {ending}"
            );
        }
    }

    #[test]
    fn rust_opens_with_its_front_page() {
        assert_eq!(
            check(&with_top(vec![
                file("crate/a.rs", "//! What it is.\n"),
                file("www/a.ts", "x")
            ])),
            []
        );
        let faults = check(&with_top(vec![file(
            "crate/a.rs",
            "use std::fs;\n//! Late.\n",
        )]));
        assert_eq!(
            faults
                .iter()
                .map(|fault| (fault.path.as_str(), fault.line))
                .collect::<Vec<_>>(),
            [("crate/a.rs", 1)]
        );
    }
}
