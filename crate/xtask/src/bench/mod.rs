//! `bench`: one drag step, timed natively and in the browser, in one table; and what it costs at
//! growing sizes, in a picture.

mod chart;
mod cost;
mod criterion;

use std::fs;

use anyhow::{Context, Result};
use clap::ValueEnum;
use serde_json::Value;

use crate::repo::Repo;
use crate::wasm::Build;
use crate::{browser, page, sh};

/// What can be measured by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Part {
    /// The core, natively.
    Native,
    /// The built page in the browser.
    Browser,
    /// The core at growing sizes.
    Cost,
}

/// What is measured and what becomes of it.
#[derive(Clone, Debug)]
pub struct Choice {
    /// The parts; all of them when empty.
    pub only: Vec<Part>,
    /// The largest size of the costs, where it is not the bench's own.
    pub most: Option<u32>,
    /// Whether table and picture of the costs are kept in the tree.
    pub keep: bool,
}

impl Choice {
    fn has(&self, part: Part) -> bool {
        self.only.is_empty() || self.only.contains(&part)
    }
}

/// One line of the table.
#[derive(Debug, PartialEq)]
struct Timing {
    name: String,
    median_ms: f64,
    /// The slowest, where it was kept.
    worst_ms: Option<f64>,
}

/// Times everything chosen and prints the tables.
///
/// # Errors
/// When a benchmark cannot be built or run, or leaves no figures.
pub fn run(repo: &Repo, choice: &Choice) -> Result<()> {
    let mut table = Vec::new();
    if choice.has(Part::Native) {
        sh::say("Timing the core natively");
        let args = ["bench", "--package", "batterboard-core"];
        let benches = ["--bench", "dig", "--bench", "geom", "--bench", "analysis"];
        sh::run(&mut sh::cargo(repo.root(), &[&args[..], &benches].concat()))?;
        let runs = criterion::runs(&repo.target().join("criterion"))?;
        let single = runs.iter().filter(|run| !cost::is_cost(run));
        table.extend(single.map(|run| Timing {
            name: format!("native: {}", run.name),
            median_ms: run.median_ms,
            worst_ms: None,
        }));
    }
    if choice.has(Part::Browser) {
        page::build(repo, Build::Finished)?;
        sh::say("Timing the built page in the browser");
        browser::playwright(repo, &["--config", "playwright.bench.config.ts"], &[])?;
        let results = repo.browser_tests().join("results/bench.json");
        let text = fs::read_to_string(&results)
            .with_context(|| format!("the browser left no {}", results.display()))?;
        table.extend(in_browser(&text)?);
    }
    if choice.has(Part::Cost) {
        cost::run(repo, choice.most, choice.keep)?;
    }
    if table.is_empty() {
        return Ok(());
    }
    println!("\n{:<48} {:>12} {:>12}", "what", "median, ms", "worst, ms");
    for timing in table {
        let worst = timing
            .worst_ms
            .map_or_else(|| "-".to_owned(), |ms| format!("{ms:.3}"));
        println!("{:<48} {:>12.3} {worst:>12}", timing.name, timing.median_ms);
    }
    Ok(())
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
    use super::*;

    #[test]
    fn the_figures_of_the_browser_are_read() {
        let browser = in_browser(r#"[{"name": "drag", "median_ms": 2.5, "worst_ms": 9}]"#).unwrap();
        assert_eq!(
            browser,
            [Timing {
                name: "browser: drag".to_owned(),
                median_ms: 2.5,
                worst_ms: Some(9.0)
            }]
        );
        assert!(in_browser("[{}]").is_err());
    }

    #[test]
    fn nothing_chosen_means_everything() {
        let all = Choice {
            only: Vec::new(),
            most: None,
            keep: false,
        };
        assert!(all.has(Part::Cost) && all.has(Part::Native));
        let one = Choice {
            only: vec![Part::Cost],
            ..all
        };
        assert!(one.has(Part::Cost) && !one.has(Part::Browser));
    }
}
