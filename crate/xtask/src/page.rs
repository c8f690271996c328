//! The page: wasm layer, demo sites and front end, built into one folder that can be served.

use anyhow::Result;

use crate::repo::Repo;
use crate::wasm::Build;
use crate::{demo, node, sh, wasm};

/// Builds everything the page needs into `www/dist`.
///
/// # Errors
/// When any part cannot be built; the message says which and what to do.
pub fn build(repo: &Repo, how: Build) -> Result<()> {
    wasm::build(repo, how)?;
    demo::publish(repo)?;
    let www = repo.www();
    node::install(&www)?;
    sh::say("Building the page");
    node::script(&www, "build")
}
