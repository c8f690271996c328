//! The browser tests: the built page, served from here, driven by Playwright in Chromium.

use std::path::Path;

use anyhow::Result;

use crate::repo::Repo;
use crate::server::Page;
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
    let page = Page::start(&repo.dist())?;
    sh::say(&format!("The page is served at {}", page.address()));
    let mut tests = sh::command(&folder, "npx", &["--no-install", "playwright", "test"]);
    sh::run(
        tests
            .args(args)
            .envs(variables.iter().copied())
            .env("BASE_URL", page.address())
            .env("CHROMIUM", chromium()),
    )
}
