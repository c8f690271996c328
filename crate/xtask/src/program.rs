//! The packages tested natively, and of them the command-line program, for the checks that compare it with something else.

use std::path::PathBuf;
use std::process::Command;

use anyhow::Result;

use crate::repo::Repo;
use crate::sh;

/// The variable in which a check finds the program's path.
pub const VARIABLE: &str = "BATTERBOARD_BIN";

/// The packages whose tests run natively. What is built for them is asked for by one list: with another, cargo would give
/// what they share other features and build it again.
pub const NATIVE: [&str; 6] = [
    "--package",
    "batterboard-core",
    "--package",
    "batterboard-paper",
    "--package",
    "batterboard",
];

/// Cargo for these packages, with clippy in the compiler's place: what the tests need is linted while it is built, once,
/// and not checked again beside it with all its libraries. Every warning is an error.
pub fn cargo(repo: &Repo, args: &[&str]) -> Command {
    let mut cargo = sh::cargo(repo.root(), args);
    cargo
        .env("RUSTC_WORKSPACE_WRAPPER", "clippy-driver")
        .env("CLIPPY_ARGS", "-Dwarnings");
    cargo
}

/// Builds the program as the tests do, and says where it is.
///
/// # Errors
/// When it does not build.
pub fn build(repo: &Repo) -> Result<PathBuf> {
    let with_tests = ["test", "--no-run", "--test", "program"];
    sh::run(&mut cargo(repo, &[&with_tests[..], &NATIVE].concat()))?;
    let name = format!("batterboard{}", std::env::consts::EXE_SUFFIX);
    Ok(repo.target().join("debug").join(name))
}
