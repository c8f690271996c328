//! The tools this project wants, and how to look for each.

use std::path::Path;

use crate::repo::Repo;
use crate::{apt, browser, sh, wasm_target};

/// What happens when a tool is missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Need {
    /// Nothing works without it, and the reader installs it.
    Required,
    /// A task installs it.
    Installed,
    /// Its absence costs little.
    Optional,
}

/// One tool, looked for.
pub struct Tool {
    pub name: &'static str,
    /// The oldest version that will do; empty where any will.
    pub wanted: &'static str,
    /// What it says of itself, or nothing when it is not there.
    pub found: Option<String>,
    pub need: Need,
    /// What to do when it is missing or too old.
    pub remedy: &'static str,
}

impl Tool {
    /// Whether it is there and new enough.
    pub fn will_do(&self) -> bool {
        match (&self.found, version(self.wanted)) {
            (None, _) => false,
            (Some(_), None) => true,
            (Some(found), Some(least)) => version(found).is_some_and(|found| found >= least),
        }
    }
}

/// Looks for every tool.
pub fn look(repo: &Repo) -> Vec<Tool> {
    let root = repo.root();
    let ask = |program: &str, args: &[&str]| {
        let said = sh::answer(&mut sh::command(root, program, args))?;
        said.lines().next().map(str::to_owned)
    };
    // Without apt-get and root, the reader must do what a task would have done.
    let ours = if apt::available() {
        Need::Installed
    } else {
        Need::Required
    };
    let target = wasm_target::installed(root).then(|| "installed".to_owned());
    let target_need = if ask("rustup", &["--version"]).is_some() {
        Need::Installed
    } else {
        ours
    };
    let tool = |name, wanted, found, need, remedy| Tool {
        name,
        wanted,
        found,
        need,
        remedy,
    };
    vec![
        tool(
            "rustc",
            "1.95",
            ask("rustc", &["--version"]),
            Need::Required,
            "rustup update stable",
        ),
        tool(
            "cargo",
            "1.95",
            ask("cargo", &["--version"]),
            Need::Required,
            "rustup update stable",
        ),
        tool(
            "rustfmt",
            "",
            ask("rustfmt", &["--version"]),
            Need::Required,
            "rustup component add rustfmt",
        ),
        tool(
            "clippy",
            "",
            ask("cargo", &["clippy", "--version"]),
            Need::Required,
            "rustup component add clippy",
        ),
        tool(
            "nextest",
            "",
            ask("cargo", &["nextest", "--version"]),
            Need::Optional,
            "runs the tests faster: cargo install cargo-nextest",
        ),
        tool(
            "wasm target",
            "",
            target,
            target_need,
            "cargo xtask build installs it, or: rustup target add wasm32-unknown-unknown",
        ),
        tool(
            "node",
            "20",
            ask("node", &["--version"]),
            Need::Required,
            "install Node 20 or later",
        ),
        tool(
            "npm",
            "10",
            ask("npm", &["--version"]),
            Need::Required,
            "comes with Node",
        ),
        tool(
            "python",
            "3.11",
            ask("python3", &["--version"]),
            Need::Required,
            "install Python 3.11 or later (tests only)",
        ),
        tool(
            "python venv",
            "",
            ask("python3", &["-c", "import venv, ensurepip; print('there')"]),
            ours,
            "cargo xtask test installs it, or as root: apt-get install python3-venv",
        ),
        tool(
            "chromium",
            "",
            ask(&browser::chromium(), &["--version"]),
            ours,
            "cargo xtask test installs it, or put the path of one in CHROMIUM",
        ),
        tool(
            "pdftocairo",
            "",
            pdftocairo(root),
            Need::Optional,
            "turns sheets into pictures: apt-get install poppler-utils",
        ),
    ]
}

/// It prints its version where others print errors, so being there is enough.
fn pdftocairo(root: &Path) -> Option<String> {
    sh::answer(&mut sh::command(root, "pdftocairo", &["-v"])).map(|_| "there".to_owned())
}

/// The first dotted number in a text, as numbers that compare.
fn version(text: &str) -> Option<Vec<u32>> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let tail = text.get(start..)?;
    let end = tail
        .find(|c: char| !c.is_ascii_digit() && c != '.')
        .unwrap_or(tail.len());
    tail.get(..end)?
        .split('.')
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().ok())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tool(wanted: &'static str, found: Option<&str>) -> Tool {
        Tool {
            name: "t",
            wanted,
            found: found.map(str::to_owned),
            need: Need::Required,
            remedy: "",
        }
    }

    #[test]
    fn versions_compare_as_numbers() {
        for (wanted, found, enough) in [
            ("1.95", Some("rustc 1.95.0 (59807616e 2026-04-14)"), true),
            ("1.95", Some("rustc 1.100.0"), true),
            ("1.95", Some("rustc 1.94.9"), false),
            ("20", Some("v20.20.2"), true),
            ("20", Some("v9.1.0"), false),
            ("3.11", Some("Python 3.11.7"), true),
            ("3.11", Some("Python 3.9.1"), false),
            ("3.11", Some("no number"), false),
            ("", Some("anything"), true),
            ("", None, false),
        ] {
            assert_eq!(
                tool(wanted, found).will_do(),
                enough,
                "{found:?} for {wanted}"
            );
        }
    }
}
