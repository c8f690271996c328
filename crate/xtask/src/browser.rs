//! The browser tests: the built page, served and driven by Playwright in Chromium.

use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;

use anyhow::Result;

use crate::repo::Repo;
use crate::{apt, node, sh};

/// Which browser to drive: `CHROMIUM`, or the system's.
pub fn chromium() -> String {
    std::env::var("CHROMIUM").unwrap_or_else(|_| "/usr/bin/chromium".to_owned())
}

/// Runs Playwright with `args` against the built page, with `variables` in its environment.
///
/// # Errors
/// When the browser or the packages cannot be had, or a test fails.
pub fn playwright(repo: &Repo, args: &[&str], variables: &[(&str, &Path)]) -> Result<()> {
    let folder = repo.browser_tests();
    if !Path::new(&chromium()).exists() {
        apt::install(
            &["chromium"],
            "the browser tests drive Chromium, which is missing",
        )?;
    }
    node::install(&folder)?;
    let mut tests = sh::command(&folder, "npx", &["--no-install", "playwright", "test"]);
    sh::run(
        tests
            .args(args)
            .envs(variables.iter().copied())
            .env("PORT", free_port()?.to_string())
            .env("CHROMIUM", chromium()),
    )
}

/// A port that nobody listens on, so that two clones can test at once.
fn free_port() -> Result<u16> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    Ok(listener.local_addr()?.port())
}
