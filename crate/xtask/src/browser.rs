//! The browser tests: the built page, served and driven by Playwright in Chromium.

use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;

use anyhow::{Result, anyhow};
use serde::Deserialize;

use crate::repo::Repo;
use crate::{apt, node, sh};

/// Where a run leaves traces, and what failed in it, from the folder of the tests.
const TRACES: &str = "results/traces";
const LAST_RUN: &str = "results/traces/.last-run.json";
/// Where it leaves every test with what came of it (as `playwright.config.ts` says).
const OUTCOMES: &str = "results/outcomes.json";

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
    let outcomes = repo.browser_tests().join(OUTCOMES);
    let Err(error) = playwright(repo, &[], variables) else {
        return Ok(());
    };
    let failed = std::fs::read_to_string(&outcomes).map_or(Vec::new(), |text| failures(&text));
    if !repo.browser_tests().join(LAST_RUN).exists() {
        return Err(error);
    }
    sh::say("Running what failed once more, for a trace; the step has failed whatever comes of it");
    let again = ["--last-failed", "--workers", "1", "--trace", "on"];
    let words = match playwright(repo, &again, variables) {
        Ok(()) => "passed alone: it depends on time or on what runs beside it",
        Err(_) => "failed again",
    };
    sh::say(&format!("{words}. Traces are in tests/browser/{TRACES}"));
    let list = failed.iter().map(|it| format!("\n            {it}"));
    Err(anyhow!("{error}; {words}{}", list.collect::<String>()))
}

/// A file of tests, or a group of them, as Playwright's own JSON reporter writes it.
#[derive(Deserialize)]
struct Suite {
    #[serde(default)]
    suites: Vec<Suite>,
    #[serde(default)]
    specs: Vec<Spec>,
}

/// One test, and whether it came out as it should.
#[derive(Deserialize)]
struct Spec {
    title: String,
    ok: bool,
    file: String,
    line: u32,
    tests: Vec<Tried>,
}

#[derive(Deserialize)]
struct Tried {
    results: Vec<Try>,
}

#[derive(Deserialize)]
struct Try {
    error: Option<Reason>,
}

#[derive(Deserialize)]
struct Reason {
    message: Option<String>,
}

/// Every test that failed, in a line: where it stands, what it is called, and the first line of why.
fn failures(outcomes: &str) -> Vec<String> {
    fn walk(suite: &Suite, found: &mut Vec<String>) {
        for spec in suite.specs.iter().filter(|spec| !spec.ok) {
            let results = spec.tests.iter().flat_map(|it| &it.results);
            let reason = results.filter_map(|it| it.error.as_ref()?.message.as_deref());
            let lines = reason.flat_map(str::lines).map(plain);
            let why: Vec<String> = lines.filter(|it| !it.is_empty()).take(6).collect();
            let Spec {
                title, file, line, ..
            } = spec;
            found.push(format!("{file}:{line} {title}: {}", why.join(" | ")));
        }
        suite.suites.iter().for_each(|it| walk(it, found));
    }
    let mut found = Vec::new();
    if let Ok(all) = serde_json::from_str(outcomes) {
        walk(&all, &mut found);
    }
    found
}

/// A line without the colors that a terminal is told.
fn plain(line: &str) -> String {
    let mut parts = line.split('\u{1b}');
    let first = parts.next().unwrap_or_default().to_owned();
    let rest = parts.filter_map(|part| part.split_once('m'));
    let line = rest.fold(first, |line, (_, words)| line + words);
    line.trim().to_owned()
}

/// A port that nobody listens on, so that two clones can test at once.
fn free_port() -> Result<u16> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
    Ok(listener.local_addr()?.port())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_failed_is_told_by_name_and_reason() {
        let outcomes = r#"{"suites": [{"title": "a.spec.ts", "specs": [], "suites": [{"specs": [
            {"title": "digs", "ok": true, "file": "a.spec.ts", "line": 3, "tests": []},
            {"title": "fills", "ok": false, "file": "a.spec.ts", "line": 9, "tests": [{"results": [
                {"error": {"message": "\u001b[31mtoo late\u001b[39m\n\n  waited 5 s"}}]}]}]}]}]}"#;
        assert_eq!(
            failures(outcomes),
            ["a.spec.ts:9 fills: too late | waited 5 s"]
        );
        assert!(failures("not what was asked for").is_empty());
    }
}
