//! The drag in the browser: what a hand feels on every demo site, held against the targets.

use std::fmt::Write;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use serde::Deserialize;

use crate::repo::Repo;
use crate::{browser, sh};

/// The targets, milliseconds: work per frame, and time from one frame to the next.
const FRAME_MEDIAN_MS: f64 = 8.0;
const FRAME_P95_MS: f64 = 16.0;
const GAP_P95_MS: f64 = 20.0;

/// What one demo site showed.
#[derive(Debug, Deserialize)]
pub struct Drag {
    site: String,
    /// Work per frame, ledger and painting included.
    frame: Spread,
    /// From one frame of the screen to the next.
    gap: Spread,
    /// Tasks over 50 ms while the shell moved, milliseconds.
    long_moving: Vec<f64>,
    /// Tasks over 50 ms once it was let go, milliseconds.
    long_after: Vec<f64>,
    /// The core alone, per step.
    core: Spread,
}

/// Many times in three figures, milliseconds.
#[derive(Debug, Deserialize)]
struct Spread {
    median: f64,
    p95: f64,
    most: f64,
}

/// Drags the shell on every demo site of the built page.
///
/// # Errors
/// When the browser cannot be had or leaves no figures.
pub fn run(repo: &Repo) -> Result<Vec<Drag>> {
    sh::say("Dragging the shell on every demo site in the browser");
    let folder = repo.browser_tests().join("results/bench");
    // Sites of an earlier run are not this run's.
    match fs::remove_dir_all(&folder) {
        Err(error) if !sh::is_missing(&error) => {
            return Err(error).context("cannot clear the old figures");
        }
        _ => {}
    }
    browser::playwright(repo, &["--config", "playwright.bench.config.ts"], &[])?;
    read(&folder)
}

fn read(folder: &Path) -> Result<Vec<Drag>> {
    let entries = folder
        .read_dir()
        .with_context(|| format!("the browser left no {}", folder.display()))?;
    let mut found = Vec::new();
    for entry in entries {
        let path = entry?.path();
        let text = fs::read_to_string(&path)?;
        let drag: Drag = serde_json::from_str(&text)
            .with_context(|| format!("{} holds no figures of a drag", path.display()))?;
        found.push(drag);
    }
    found.sort_by(|a, b| a.site.cmp(&b.site));
    Ok(found)
}

/// The whole frame by site, and after it the core's share.
pub fn table(drags: &[Drag]) -> String {
    let mut text = format!(
        "{:<28} {:>20}   {:>20}   tasks over 50 ms\n{:<28} {:>6} {:>6} {:>6}   {:>6} {:>6} {:>6}   moving; on release\n",
        "a drag in the browser, ms",
        "work per frame",
        "between frames",
        "",
        "median",
        "95 %",
        "most",
        "median",
        "95 %",
        "most"
    );
    for drag in drags {
        let long = |tasks: &[f64]| {
            let most = tasks.iter().copied().fold(0.0, f64::max);
            match tasks.len() {
                0 => "none".to_owned(),
                count => format!("{count}, longest {most:.0}"),
            }
        };
        let _ = writeln!(
            text,
            "{:<28} {}   {}   {}; {}",
            drag.site,
            drag.frame.columns(),
            drag.gap.columns(),
            long(&drag.long_moving),
            long(&drag.long_after)
        );
    }
    let _ = writeln!(
        text,
        "\n{:<28} {:>6} {:>6} {:>6}",
        "of it the core, ms", "median", "95 %", "most"
    );
    for drag in drags {
        let _ = writeln!(text, "{:<28} {}", drag.site, drag.core.columns());
    }
    text
}

/// Holds every site to the targets.
///
/// # Errors
/// When one misses any; the message says which.
pub fn hold(drags: &[Drag]) -> Result<()> {
    let missed: Vec<String> = drags.iter().flat_map(Drag::missed).collect();
    if !missed.is_empty() {
        bail!("over the target:\n    {}", missed.join("\n    "));
    }
    Ok(())
}

impl Drag {
    fn missed(&self) -> Vec<String> {
        let long = self.long_moving.len() + self.long_after.len();
        [
            (
                self.frame.median,
                FRAME_MEDIAN_MS,
                "ms of work per frame at the median",
            ),
            (self.frame.p95, FRAME_P95_MS, "ms of work per frame at 95 %"),
            (self.gap.p95, GAP_P95_MS, "ms between frames at 95 %"),
            (long as f64, 0.0, "tasks over 50 ms"),
        ]
        .iter()
        .filter(|(is, most, _)| is > most)
        .map(|(is, most, what)| {
            let is = (is * 10.0).round() / 10.0;
            format!("{}: {is} {what}, and it may be {most}", self.site)
        })
        .collect()
    }
}

impl Spread {
    fn columns(&self) -> String {
        format!("{:>6.1} {:>6.1} {:>6.1}", self.median, self.p95, self.most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    const GOOD: &str = r#"{"site": "level", "frame": {"median": 4.0, "p95": 9.0, "most": 21.0},
        "gap": {"median": 16.7, "p95": 18.0, "most": 33.4}, "long_moving": [], "long_after": [],
        "core": {"median": 1.25, "p95": 2.0, "most": 3.0}}"#;

    fn drag() -> Drag {
        serde_json::from_str(GOOD).unwrap()
    }

    #[test]
    fn figures_are_read_by_site() {
        let tree = Scratch::new("drag");
        assert!(
            read(&tree.root().join("bench")).is_err(),
            "no run, no figures"
        );
        tree.write("bench/wedge.json", &GOOD.replace("level", "wedge"));
        tree.write("bench/level.json", GOOD);
        let found = read(&tree.root().join("bench")).unwrap();
        let sites: Vec<&str> = found.iter().map(|it| it.site.as_str()).collect();
        assert_eq!(sites, ["level", "wedge"]);
        tree.write("bench/no.json", "{}");
        assert!(read(&tree.root().join("bench")).is_err());
    }

    #[test]
    fn the_whole_frame_stands_before_the_core() {
        let shown = table(&[drag()]);
        let frame = shown.find("4.0    9.0   21.0").unwrap();
        let core = shown.find("1.2    2.0    3.0").unwrap();
        assert!(frame < core && shown.contains("none; none"), "{shown}");
        let long = Drag {
            long_moving: vec![60.0, 396.4],
            ..drag()
        };
        assert!(table(&[long]).contains("2, longest 396; none"));
    }

    #[test]
    fn every_missed_target_is_named() {
        hold(&[drag()]).unwrap();
        let slow = Drag {
            frame: Spread {
                median: 8.5,
                p95: 17.0,
                most: 30.0,
            },
            gap: Spread {
                median: 16.7,
                p95: 20.5,
                most: 30.0,
            },
            long_after: vec![800.0],
            ..drag()
        };
        let error = hold(&[drag(), slow]).unwrap_err().to_string();
        for part in [
            "level: 8.5 ms of work",
            "17 ms",
            "20.5 ms between",
            "1 tasks over 50 ms",
        ] {
            assert!(error.contains(part), "{part} in {error}");
        }
    }
}
