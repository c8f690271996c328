//! The list of outside checks, `README.md` beside these files: written from what stands over each test.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

/// How a figure may be known; each check says one of these in so many words, or gives the formula it follows from.
const KNOWN: [&str; 20] = [
    "read",
    "from memory",
    "computed",
    "worked out",
    "worked answer",
    "by hand",
    "closed form",
    "steiner",
    "mitred",
    "common practice",
    "arithmetic",
    "geometry",
    "segment of a circle",
    "inscribed",
    "table b 1",
    "1926",
    "rounding of",
    "frustum",
    "triangle",
    "rectangle",
];

/// Words alone, each between blanks.
fn words(text: &str) -> String {
    let apart: String = text
        .chars()
        .map(|c| {
            if c.is_alphanumeric() {
                c.to_ascii_lowercase()
            } else {
                ' '
            }
        })
        .collect();
    let words: Vec<&str> = apart.split_whitespace().collect();
    format!(" {} ", words.join(" "))
}

const HEAD: &str = "\
# Outside checks

Figures that somebody else published or worked out, and the tests that hold this project to them. *Read* means that the figure was seen
in a public page or file; *from memory*, that it was recalled of the publication and not looked up; *computed* or *worked out
independently*, outside this project with other software or a pencil. Comparisons with other libraries on the same
input stand in `../peers`; `cargo xtask test --only reference` runs them. `batterboard sources` lists every constant with its
source and its check.

This list is written from the comments over the tests: `BATTERBOARD_UPDATE=1 cargo test -p batterboard-core --test reference listed`.
";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference")
}

/// A test with the words over it.
pub struct Told {
    pub name: String,
    words: String,
}

/// The tests of a file, in order.
pub fn tests(text: &str) -> Vec<Told> {
    let mut found = Vec::new();
    let (mut words, mut marked) = (Vec::new(), false);
    for line in text.lines().map(str::trim) {
        if let Some(told) = line.strip_prefix("///") {
            words.push(told.trim());
        } else if line == "#[test]" {
            marked = true;
        } else if let Some(rest) = line.strip_prefix("fn ").filter(|_| marked) {
            let name = rest.split('(').next().unwrap_or_default().to_owned();
            let words = words.join(" ");
            found.push(Told { name, words });
            marked = false;
        }
        if !line.starts_with("///") && !line.starts_with("#[") {
            words.clear();
        }
    }
    found
}

fn files() -> Vec<(String, String)> {
    let mut files: Vec<_> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|it| it == "rs"))
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (name, fs::read_to_string(path).unwrap())
        })
        .filter(|(name, _)| !["main", "listed", "sources"].contains(&name.as_str()))
        .collect();
    files.sort();
    files
}

/// What the file says of itself.
fn front(text: &str) -> String {
    let lines = text.lines().map_while(|line| line.strip_prefix("//!"));
    lines
        .map(str::trim)
        .collect::<Vec<_>>()
        .join(" ")
        .trim()
        .to_owned()
}

fn written() -> String {
    let mut page = HEAD.to_owned();
    for (name, text) in files() {
        let _ = write!(page, "\n## {name}\n\n{}\n\n", front(&text));
        for test in tests(&text) {
            let words = match test.words.is_empty() {
                true => "as told over the file.",
                false => &test.words,
            };
            let _ = writeln!(page, "- `{}`: {words}", test.name);
        }
    }
    page
}

#[test]
fn the_list_is_as_the_tests_are() {
    let path = folder().join("README.md");
    let page = written();
    if std::env::var_os("BATTERBOARD_UPDATE").is_some() {
        fs::write(&path, &page).unwrap();
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == page,
        "tests/reference/README.md is not what the tests say; its head says how it is written"
    );
}

#[test]
fn every_check_says_how_its_figure_is_known() {
    let mut bare = Vec::new();
    for (name, text) in files() {
        let over = front(&text);
        for test in tests(&text) {
            let told = words(&format!("{} {over}", test.words));
            if !KNOWN.iter().any(|it| told.contains(&format!(" {it} "))) {
                bare.push(format!("{name}::{}", test.name));
            }
        }
    }
    assert_eq!(bare, [""; 0], "where are these from?");
}
