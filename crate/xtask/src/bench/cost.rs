//! Cost against size: what criterion measured at each size, as a table with the exponent by which it grows, and as a picture.

use std::fs;
use std::path::Path;
use std::time::SystemTime;

use anyhow::{Context, Result, bail};

use super::criterion::{self, Run};
use super::{batch, chart};
use crate::repo::Repo;
use crate::sh;

/// The variable in which the bench finds its largest size.
const MOST: &str = "BATTERBOARD_BENCH_MOST";

/// The groups of the bench, each with what its sizes count.
const GROUPS: [(&str, &str); 5] = [
    ("cost against spots", "spots of the ground"),
    ("cost against vertices", "vertices of the outline"),
    ("cost against features", "features on the lot"),
    ("cost against rules", "clearance rules"),
    ("cost against breaklines", "points of breaklines"),
];

/// What a hand waits for: it may grow no faster than n log n.
const DRAGGED: &str = "one frame";
/// The exponent that n log n shows between two sizes a decade apart, at most, and what measuring adds.
const MOST_EXPONENT: f64 = 1.25;
/// How many of the largest sizes an exponent is fitted to: the smallest hold what does not grow.
const FITTED: usize = 4;

/// Where a finished measurement is kept, from the top of the tree.
const KEPT: &str = "crate/core/benches/measured";

/// What one thing costs, by size.
#[derive(Debug, PartialEq)]
pub struct Series {
    /// What was measured.
    pub name: String,
    /// Size and median, milliseconds, smallest size first.
    pub points: Vec<(u32, f64)>,
}

/// Series over the same kind of size.
#[derive(Debug, PartialEq)]
pub struct Group {
    /// What the sizes count.
    pub counted: &'static str,
    /// The series, by name.
    pub series: Vec<Series>,
}

/// Measures and writes the table and the picture; `keep` puts a copy beside the bench.
///
/// # Errors
/// When the bench cannot be built or run, or leaves no figures.
pub fn run(repo: &Repo, most: Option<u32>, keep: bool) -> Result<()> {
    sh::say("Timing the core at growing sizes");
    let folder = repo.target().join("criterion");
    let start = SystemTime::now();
    let args = ["bench", "--package", "batterboard-core", "--bench", "cost"];
    let mut bench = sh::cargo(repo.root(), &args);
    if let Some(most) = most {
        bench.env(MOST, most.to_string());
    }
    sh::run(&mut bench)?;
    let mut groups = groups(&criterion::runs(&folder, start)?)?;
    groups.push(batch::run(repo, most)?);
    let kept = keep.then(|| repo.path(KEPT));
    for folder in [Some(repo.target().join("cost")), kept]
        .into_iter()
        .flatten()
    {
        write(&folder, &groups)?;
        sh::say(&format!("Table and picture are in {}", folder.display()));
    }
    print!("\n{}", table(&groups));
    hold(&groups)
}

/// Whether what is dragged grows as slowly as it must.
fn hold(groups: &[Group]) -> Result<()> {
    for group in groups {
        let dragged = group.series.iter().find(|it| it.name == DRAGGED);
        if let Some(exponent) = dragged.and_then(Series::exponent)
            && exponent > MOST_EXPONENT
        {
            bail!(
                "a frame of a drag grows with the {} to the power of {exponent:.2}",
                group.counted
            );
        }
    }
    Ok(())
}

impl Series {
    /// The exponent by which the cost grows with the size: the slope of a straight line by least squares through the largest
    /// sizes, both by their logarithms. None of fewer than three.
    #[expect(
        clippy::disallowed_methods,
        reason = "printed to two digits, and held to a bound with room"
    )]
    fn exponent(&self) -> Option<f64> {
        let from = self.points.len().saturating_sub(FITTED);
        let fitted = self.points.get(from..).filter(|it| it.len() >= 3)?;
        let by_logarithm = fitted
            .iter()
            .map(|(size, ms)| (f64::from(*size).ln(), ms.ln()));
        let points: Vec<(f64, f64)> = by_logarithm.collect();
        let count = points.len() as f64;
        let (x, y) = points
            .iter()
            .fold((0.0, 0.0), |sum, it| (sum.0 + it.0, sum.1 + it.1));
        let (x, y) = (x / count, y / count);
        let (along, square) = points.iter().fold((0.0, 0.0), |sum, it| {
            let dx = it.0 - x;
            (sum.0 + dx * (it.1 - y), sum.1 + dx * dx)
        });
        Some(along / square)
    }
}

fn write(folder: &Path, groups: &[Group]) -> Result<()> {
    fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    let file = folder.join("cost.md");
    fs::write(&file, table(groups)).with_context(|| format!("cannot write {}", file.display()))?;
    let file = folder.join("cost.svg");
    fs::write(&file, chart::svg(groups)?)
        .with_context(|| format!("cannot write {}", file.display()))
}

fn groups(runs: &[Run]) -> Result<Vec<Group>> {
    let groups: Vec<Group> = GROUPS
        .iter()
        .map(|(name, counted)| Group {
            counted,
            series: series(runs.iter().filter(|run| run.group == *name)),
        })
        .collect();
    if groups.iter().any(|group| group.series.is_empty()) {
        bail!("the bench of costs left no figures");
    }
    Ok(groups)
}

fn series<'a>(runs: impl Iterator<Item = &'a Run>) -> Vec<Series> {
    let mut found: Vec<Series> = Vec::new();
    for run in runs {
        let (Some(name), Some(size)) = (&run.function, run.size()) else {
            continue;
        };
        let point = (size, run.median_ms);
        match found.iter_mut().find(|series| series.name == *name) {
            Some(series) => series.points.push(point),
            None => found.push(Series {
                name: name.clone(),
                points: vec![point],
            }),
        }
    }
    for series in &mut found {
        series.points.sort_by_key(|(size, _)| *size);
    }
    found.sort_by(|a, b| a.name.cmp(&b.name));
    found
}

/// One table to the group, in Markdown.
fn table(groups: &[Group]) -> String {
    let mut text = String::new();
    for group in groups {
        let names: Vec<&str> = group.series.iter().map(|it| it.name.as_str()).collect();
        text += &format!("| {} | {} |\n", group.counted, names.join(" | "));
        text += &format!("|{}\n", "---:|".repeat(names.len() + 1));
        let mut sizes: Vec<u32> = Vec::new();
        for series in &group.series {
            sizes.extend(series.points.iter().map(|(size, _)| size));
        }
        sizes.sort_unstable();
        sizes.dedup();
        for size in sizes {
            let figures: Vec<String> = group.series.iter().map(|it| figure(it, size)).collect();
            text += &format!("| {size} | {} |\n", figures.join(" | "));
        }
        let exponents = group.series.iter().map(|it| {
            let exponent = it.exponent();
            exponent.map_or(String::new(), |it| format!("n^{it:.2}"))
        });
        let exponents: Vec<String> = exponents.collect();
        text += &format!("| grows as | {} |\n\n", exponents.join(" | "));
    }
    text + &format!("Medians, milliseconds. Exponents are fitted to the {FITTED} largest sizes.\n")
}

fn figure(series: &Series, size: u32) -> String {
    let found = series.points.iter().find(|(at, _)| *at == size);
    found.map_or_else(String::new, |(_, ms)| format!("{ms:.3}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(group: &str, function: &str, size: &str, median_ms: f64) -> Run {
        Run {
            name: format!("{group}/{function}/{size}"),
            group: group.to_owned(),
            function: Some(function.to_owned()),
            size: Some(size.to_owned()),
            median_ms,
        }
    }

    fn measured() -> Vec<Group> {
        let [
            (spots, _),
            (vertices, _),
            (features, _),
            (rules, _),
            (breaklines, _),
        ] = GROUPS;
        groups(&[
            run(features, "one frame", "10", 0.5),
            run(rules, "one frame", "10", 1.0),
            run(rules, "one frame", "100", 10.0),
            run(rules, "one frame", "1000", 100.0),
            run(breaklines, "one frame", "10", 0.5),
            run(spots, "one frame", "1000", 0.5),
            run(spots, "one frame", "100", 0.25),
            run(spots, "the cut", "100", 0.125),
            run("something else", "one frame", "100", 9.0),
            run(vertices, "one frame", "100", 0.75),
        ])
        .unwrap()
    }

    #[test]
    fn runs_become_series_by_size() {
        let groups = measured();
        let [spots, vertices, ..] = groups.as_slice() else {
            panic!("two groups at least")
        };
        assert_eq!(spots.series.len(), 2);
        assert_eq!(spots.series[0].points, [(100, 0.25), (1000, 0.5)]);
        assert_eq!(vertices.series[0].points, [(100, 0.75)]);
        assert!(groups_of_nothing().is_err());
    }

    #[test]
    fn the_exponent_is_that_of_the_largest_sizes() {
        let groups = measured();
        assert!((groups[3].series[0].exponent().unwrap() - 1.0).abs() < 1e-12);
        assert_eq!(groups[2].series[0].exponent(), None);
        assert!(hold(&groups).is_ok());
        let series = |points: &[(u32, f64)]| Series {
            name: DRAGGED.to_owned(),
            points: points.to_vec(),
        };
        let squared = series(&[
            (1, 9.0),
            (10, 1.0),
            (100, 100.0),
            (1_000, 10_000.0),
            (10_000, 1e6),
        ]);
        assert!((squared.exponent().unwrap() - 2.0).abs() < 1e-12);
        let group = Group {
            counted: "rules",
            series: vec![squared],
        };
        assert!(hold(&[group]).unwrap_err().to_string().contains("2.00"));
        assert!(table(&groups).contains("| grows as | n^1.00 |"));
    }

    fn groups_of_nothing() -> Result<Vec<Group>> {
        groups(&[])
    }

    #[test]
    fn a_size_that_was_not_measured_leaves_its_place_empty() {
        let text = table(&measured());
        assert!(text.contains("| spots of the ground | one frame | the cut |\n|---:|---:|---:|\n"));
        assert!(
            text.contains("| 100 | 0.250 | 0.125 |\n| 1000 | 0.500 |  |\n"),
            "{text}"
        );
    }

    #[test]
    fn the_picture_names_what_it_shows() {
        let svg = chart::svg(&measured()).unwrap();
        for words in [
            "<svg",
            "spots of the ground",
            "one frame",
            "the cut",
            "milliseconds",
        ] {
            assert!(svg.contains(words), "{words} in {svg}");
        }
    }
}
