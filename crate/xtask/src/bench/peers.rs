//! Clear ground beside other libraries: the same scenes, the same answer, one run, one table.

use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};
use serde::Deserialize;

use crate::repo::Repo;
use crate::{node, python, sh};

/// Scenes with more obstacles than this are too long a wait for Shapely.
const MOST_FOR_SHAPELY: &str = "100";
/// And for clipper2-ts, which is asked about the first headings only.
const MOST_FOR_CLIPPER: &str = "10";

/// By how much two areas may differ that are the same, as a share: chords of 1 mm round edges of hundreds of meters.
const SAME_AREA: f64 = 1e-3;

/// What the bench prints of a scene, and what it takes.
#[derive(Deserialize)]
struct Scene {
    count: u32,
    areas: Vec<f64>,
    make_ready_ms: f64,
    one_heading_ms: f64,
    turning_ms: f64,
    every_degree_ms: Option<f64>,
}

/// What a peer prints of a scene.
#[derive(Deserialize)]
struct Answer {
    count: u32,
    areas: Vec<f64>,
    one_heading_ms: f64,
}

/// A row of the table.
struct Row {
    scene: Scene,
    peers: BTreeMap<&'static str, Answer>,
}

/// Asks all of them and prints the table.
///
/// # Errors
/// When one cannot be run, or finds another area.
pub fn run(repo: &Repo) -> Result<()> {
    sh::say("Clear ground beside other libraries");
    let args = [
        "bench",
        "--package",
        "batterboard-core",
        "--bench",
        "clear_ground_peers",
    ];
    let printed =
        sh::answer(&mut sh::cargo(repo.root(), &args)).context("the bench could not be run")?;
    let lines: Vec<&str> = printed
        .lines()
        .filter(|line| line.starts_with('{'))
        .collect();
    let scenes = lines.join("\n");
    let folder = repo.target().join("peers");
    fs::create_dir_all(&folder).context("cannot make target/peers")?;
    fs::write(folder.join("scenes.jsonl"), &scenes).context("cannot keep the scenes")?;
    let shapely = python::environment(repo)?;
    let mut asked = sh::command(
        repo.root(),
        &shapely.to_string_lossy(),
        &["tests/peers/bench_clear_ground.py", MOST_FOR_SHAPELY],
    );
    let shapely = answers(&mut asked, &scenes).context("Shapely")?;
    let tests = repo.path("tests/browser");
    node::install(&tests)?;
    let mut asked = sh::command(
        &tests,
        "node",
        &["bench/clear_ground.mjs", MOST_FOR_CLIPPER],
    );
    let clipper = answers(&mut asked, &scenes).context("clipper2-ts")?;
    let mut rows = Vec::new();
    for line in lines {
        let scene: Scene = serde_json::from_str(line).context("a scene cannot be read")?;
        rows.push(Row {
            scene,
            peers: BTreeMap::new(),
        });
    }
    for (name, all) in [("Shapely", shapely), ("clipper2-ts", clipper)] {
        for answer in all {
            let row = rows.iter_mut().find(|row| row.scene.count == answer.count);
            let row = row.context("an answer to no question")?;
            agree(name, &row.scene, &answer)?;
            row.peers.insert(name, answer);
        }
    }
    print!("\n{}", table(&rows));
    Ok(())
}

/// What a program prints when it is handed the scenes.
fn answers(program: &mut Command, scenes: &str) -> Result<Vec<Answer>> {
    let mut child = program
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    let mut input = child.stdin.take().context("it takes no input")?;
    input.write_all(scenes.as_bytes())?;
    drop(input);
    let output = child.wait_with_output()?;
    if !output.status.success() {
        bail!("it ended with {}", output.status);
    }
    let text = String::from_utf8(output.stdout)?;
    text.lines()
        .map(|line| Ok(serde_json::from_str(line)?))
        .collect()
}

/// Whether a peer finds the same area at every heading that it was asked about.
fn agree(name: &str, scene: &Scene, answer: &Answer) -> Result<()> {
    let apart = scene.areas.iter().zip(&answer.areas);
    let worst = apart
        .map(|(ours, theirs)| (ours - theirs).abs() / theirs.max(1.0))
        .fold(0.0, f64::max);
    if answer.areas.is_empty() || worst > SAME_AREA {
        bail!(
            "{name} finds other clear ground among {} obstacles: areas differ by {:.3} %",
            scene.count,
            worst * 100.0
        );
    }
    Ok(())
}

fn table(rows: &[Row]) -> String {
    let mut text = format!(
        "{:<10} {:>10} {:>12} {:>12} {:>14} {:>12} {:>8} {:>14} {:>8}\n",
        "obstacles",
        "ready, ms",
        "heading, ms",
        "turned, ms",
        "360 headings",
        "Shapely, ms",
        "ratio",
        "clipper2-ts",
        "ratio"
    );
    for Row { scene, peers } in rows {
        text += &format!(
            "{:<10} {:>10.2} {:>12.3} {:>12.3} {:>14}",
            scene.count,
            scene.make_ready_ms,
            scene.one_heading_ms,
            scene.turning_ms,
            scene
                .every_degree_ms
                .map_or("-".to_owned(), |it| format!("{it:.0}"))
        );
        for (name, wide) in [("Shapely", 12), ("clipper2-ts", 14)] {
            text += &match peers.get(name) {
                Some(it) => format!(
                    " {:>wide$.1} {:>8.4}",
                    it.one_heading_ms,
                    scene.one_heading_ms / it.one_heading_ms
                ),
                None => format!(" {:>wide$} {:>8}", "-", "-"),
            };
        }
        text.push('\n');
    }
    text + &growth(rows)
}

/// The exponent with which the time grows, from the smallest scene to the largest.
#[expect(
    clippy::disallowed_methods,
    reason = "printed to two digits, and compared with nothing"
)]
fn growth(rows: &[Row]) -> String {
    let ends = rows.first().zip(rows.last());
    ends.map_or(String::new(), |(first, last)| {
        let by = |of: fn(&Scene) -> f64| (of(&last.scene) / of(&first.scene)).ln();
        let exponent = by(|it| it.one_heading_ms) / by(|it| f64::from(it.count));
        format!("one heading grows with the obstacles to the power of {exponent:.2}\n")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scene(count: u32, one_heading_ms: f64) -> Scene {
        Scene {
            count,
            areas: vec![100.0, 200.0],
            make_ready_ms: 1.0,
            one_heading_ms,
            turning_ms: one_heading_ms / 4.0,
            every_degree_ms: None,
        }
    }

    #[test]
    fn another_area_is_refused() {
        let answer = |areas: &[f64]| Answer {
            count: 10,
            areas: areas.to_vec(),
            one_heading_ms: 5.0,
        };
        assert!(agree("it", &scene(10, 1.0), &answer(&[100.05, 200.0])).is_ok());
        let error = agree("it", &scene(10, 1.0), &answer(&[100.0, 201.0])).unwrap_err();
        assert!(error.to_string().contains("0.498 %"), "{error}");
        assert!(agree("it", &scene(10, 1.0), &answer(&[])).is_err());
    }

    #[test]
    fn the_table_has_ratios_where_a_peer_answered_and_the_growth() {
        let answer = Answer {
            count: 10,
            areas: Vec::new(),
            one_heading_ms: 8.0,
        };
        let rows = [
            Row {
                scene: scene(10, 2.0),
                peers: BTreeMap::from([("Shapely", answer)]),
            },
            Row {
                scene: scene(1000, 200.0),
                peers: BTreeMap::new(),
            },
        ];
        let text = table(&rows);
        assert!(
            text.contains("0.2500") && text.contains("power of 1.00"),
            "{text}"
        );
        assert_eq!(text.lines().count(), 4);
    }
}
