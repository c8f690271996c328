//! The command-line program, built for the checks that compare it with something else.

use std::path::PathBuf;

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

/// Builds the program as the tests do, and says where it is.
///
/// # Errors
/// When it does not build.
pub fn build(repo: &Repo) -> Result<PathBuf> {
    let with_tests = ["test", "--no-run", "--test", "program"];
    sh::run(&mut sh::cargo(
        repo.root(),
        &[&with_tests[..], &NATIVE].concat(),
    ))?;
    let name = format!("batterboard{}", std::env::consts::EXE_SUFFIX);
    Ok(repo.target().join("debug").join(name))
}
