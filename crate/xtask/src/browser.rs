//! The browser tests: the built page, served and driven by Playwright in Chromium.

use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;

use anyhow::Result;

use crate::repo::Repo;
use crate::{apt, node, sh};

/// Where a run leaves traces, and what failed in it, from the folder of the tests.
const TRACES: &str = "results/traces";
const LAST_RUN: &str = "results/traces/.last-run.json";

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

/// Runs the browser tests. What fails runs once more, alone and with a trace, for whoever looks into it: it has failed
/// even when it passes then.
///
/// # Errors
/// When the browser or the packages cannot be had, or a test fails.
pub fn test(repo: &Repo, variables: &[(&str, &Path)]) -> Result<()> {
    let first = playwright(repo, &[], variables);
    if first.is_err() && repo.browser_tests().join(LAST_RUN).exists() {
        sh::say(
            "Running what failed once more, for a trace; the step has failed whatever comes of it",
        );
        let again = ["--last-failed", "--workers", "1", "--trace", "on"];
        let words = match playwright(repo, &again, variables) {
            Ok(()) => "Passed alone: what failed depends on time or on what runs beside it",
            Err(_) => "Failed again",
        };
        sh::say(&format!("{words}. Traces are in tests/browser/{TRACES}"));
    }
    first
}

/// A port that nobody listens on, so that two clones can test at once.
fn free_port() -> Result<u16> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    Ok(listener.local_addr()?.port())
}
