//! The command-line program, built for the checks that compare it with something else.

use std::path::PathBuf;

use anyhow::Result;

use crate::repo::Repo;
use crate::sh;

/// The variable in which a check finds the program's path.
pub const VARIABLE: &str = "BATTERBOARD_BIN";

/// Builds the program, sharing the products of the tests, and says where it is.
///
/// # Errors
/// When it does not build.
pub fn build(repo: &Repo) -> Result<PathBuf> {
    sh::run(&mut sh::cargo(
        repo.root(),
        &["build", "--package", "batterboard"],
    ))?;
    let name = format!("batterboard{}", std::env::consts::EXE_SUFFIX);
    Ok(repo.target().join("debug").join(name))
}
