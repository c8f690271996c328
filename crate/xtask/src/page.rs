//! The page: wasm layer, demo sites and front end, built into one folder, and that folder served.

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

/// Serves the built page on this machine's loopback address until stopped, on `port` or the first
/// free one. What is sent with every file stands in the page's `vite.config.ts`.
///
/// # Errors
/// When the port is taken.
pub fn serve(repo: &Repo, port: Option<u16>) -> Result<()> {
    sh::say("Serving the page   (Ctrl-C stops it)");
    let mut preview = sh::command(&repo.www(), "npx", &["--no-install", "vite", "preview"]);
    if let Some(port) = port {
        preview.args(["--port", &port.to_string(), "--strictPort"]);
    }
    sh::run(&mut preview)
}
