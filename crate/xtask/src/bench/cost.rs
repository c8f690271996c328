//! Cost against size: what criterion measured at each size, as a table and as a picture.

use std::fs;
use std::path::Path;
use std::time::SystemTime;

use anyhow::{Context, Result, bail};

use super::chart;
use super::criterion::{self, Run};
use crate::repo::Repo;
use crate::sh;

/// The variable in which the bench finds its largest size.
const MOST: &str = "BATTERBOARD_BENCH_MOST";

/// The groups of the bench, each with what its sizes count.
const GROUPS: [(&str, &str); 2] = [
    ("cost against spots", "spots of the ground"),
    ("cost against vertices", "vertices of the outline"),
];

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
    let groups = groups(&criterion::runs(&folder, start)?)?;
    let kept = keep.then(|| repo.path(KEPT));
    for folder in [Some(repo.target().join("cost")), kept]
        .into_iter()
        .flatten()
    {
        write(&folder, &groups)?;
        sh::say(&format!("Table and picture are in {}", folder.display()));
    }
    print!("\n{}", table(&groups));
    Ok(())
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
        text += "\n";
    }
    text + "Medians, milliseconds.\n"
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
        let [(spots, _), (vertices, _)] = GROUPS;
        groups(&[
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
        let [spots, vertices] = groups.as_slice() else {
            panic!("two groups")
        };
        assert_eq!(spots.series.len(), 2);
        assert_eq!(spots.series[0].points, [(100, 0.25), (1000, 0.5)]);
        assert_eq!(vertices.series[0].points, [(100, 0.75)]);
        assert!(groups_of_nothing().is_err());
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
