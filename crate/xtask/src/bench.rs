//! `bench`: one drag step, timed natively and in the browser, in one table.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use serde_json::Value;

use crate::repo::Repo;
use crate::wasm::Build;
use crate::{browser, page, sh};

/// One line of the table.
#[derive(Debug, PartialEq)]
struct Timing {
    name: String,
    median_ms: f64,
    /// The slowest, where it was kept.
    worst_ms: Option<f64>,
}

/// Times everything and prints the table.
///
/// # Errors
/// When a benchmark cannot be built or run, or leaves no figures.
pub fn run(repo: &Repo) -> Result<()> {
    sh::say("Timing the core natively");
    sh::run(&mut sh::cargo(
        repo.root(),
        &["bench", "--package", "batterboard-core", "--benches"],
    ))?;
    page::build(repo, Build::Finished)?;
    sh::say("Timing the built page in the browser");
    browser::playwright(repo, &["--config", "playwright.bench.config.ts"], &[])?;

    let mut table = native(&repo.target().join("criterion"))?;
    let results = repo.browser_tests().join("results/bench.json");
    let text = fs::read_to_string(&results)
        .with_context(|| format!("the browser left no {}", results.display()))?;
    table.extend(in_browser(&text)?);
    println!("\n{:<48} {:>12} {:>12}", "what", "median, ms", "worst, ms");
    for timing in table {
        let worst = timing
            .worst_ms
            .map_or_else(|| "-".to_owned(), |ms| format!("{ms:.3}"));
        println!("{:<48} {:>12.3} {worst:>12}", timing.name, timing.median_ms);
    }
    Ok(())
}

/// What criterion kept of its newest runs, by name.
fn native(folder: &Path) -> Result<Vec<Timing>> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in folder
            .read_dir()
            .with_context(|| format!("cannot read {}", folder.display()))?
        {
            let path = entry?.path();
            if path.ends_with("new") {
                found.push(estimate(
                    &json(&path.join("benchmark.json"))?,
                    &json(&path.join("estimates.json"))?,
                )?);
            } else if path.is_dir() {
                folders.push(path);
            }
        }
    }
    found.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(found)
}

fn json(path: &Path) -> Result<Value> {
    let text =
        fs::read_to_string(path).with_context(|| format!("cannot read {}", path.display()))?;
    serde_json::from_str(&text).with_context(|| format!("{} is no JSON", path.display()))
}

fn estimate(benchmark: &Value, estimates: &Value) -> Result<Timing> {
    let name = benchmark
        .get("full_id")
        .and_then(Value::as_str)
        .context("a benchmark has no name")?;
    let nanoseconds = estimates
        .pointer("/median/point_estimate")
        .and_then(Value::as_f64)
        .context("no median")?;
    Ok(Timing {
        name: format!("native: {name}"),
        median_ms: nanoseconds / 1e6,
        worst_ms: None,
    })
}

/// Reads what the browser bench wrote: a list of `{ "name", "median_ms", "worst_ms" }`.
fn in_browser(text: &str) -> Result<Vec<Timing>> {
    let rows: Vec<Value> = serde_json::from_str(text).context("bench.json is no list")?;
    rows.iter()
        .map(|row| {
            let number = |key: &str| row.get(key).and_then(Value::as_f64);
            let name = row
                .get("name")
                .and_then(Value::as_str)
                .context("a browser timing has no name")?;
            let median_ms = number("median_ms").context("a browser timing has no median_ms")?;
            Ok(Timing {
                name: format!("browser: {name}"),
                median_ms,
                worst_ms: number("worst_ms"),
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn both_kinds_of_figures_are_read() {
        let native = estimate(
            &json!({"full_id": "drag"}),
            &json!({"median": {"point_estimate": 1_250_000.0}}),
        )
        .unwrap();
        assert_eq!(
            native,
            Timing {
                name: "native: drag".to_owned(),
                median_ms: 1.25,
                worst_ms: None
            }
        );
        let browser = in_browser(r#"[{"name": "drag", "median_ms": 2.5, "worst_ms": 9}]"#).unwrap();
        assert_eq!(
            browser,
            [Timing {
                name: "browser: drag".to_owned(),
                median_ms: 2.5,
                worst_ms: Some(9.0)
            }]
        );
        assert!(in_browser("[{}]").is_err() && estimate(&json!({}), &json!({})).is_err());
    }
}
