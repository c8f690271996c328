//! Many sites in one call of the command line: what it takes, and that memory does not grow with them.

use std::fs;
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};

use super::cost::{Group, Series};
use crate::repo::Repo;
use crate::sh;

/// How many sites.
const SIZES: [u32; 5] = [1, 10, 100, 1_000, 10_000];
/// The site that is copied.
const SITE: &str = "demo-sites/level-suburban.json";
/// How often the memory is looked at.
const LOOK: Duration = Duration::from_millis(10);

/// What so many sites took.
struct Taken {
    count: u32,
    ms: f64,
    /// The most memory that was held, MB, where the system tells it.
    peak: Option<f64>,
}

/// Measures `check` of folders of growing size, and prints what is held.
///
/// # Errors
/// When the program cannot be built or run, or answers fewer sites than there are.
pub fn run(repo: &Repo, most: Option<u32>) -> Result<Group> {
    sh::say("Checking many sites in one call");
    sh::run(&mut sh::cargo(
        repo.root(),
        &["build", "--release", "--package", "batterboard"],
    ))?;
    let name = format!("batterboard{}", std::env::consts::EXE_SUFFIX);
    let program = repo.target().join("release").join(name);
    let folder = repo.target().join("batch");
    let mut taken = Vec::new();
    for count in SIZES
        .into_iter()
        .filter(|it| *it <= most.unwrap_or(u32::MAX))
    {
        taken.push(check(repo, &program, &folder, count)?);
    }
    print!("\n{}", table(&taken));
    let points = taken.iter().map(|it| (it.count, it.ms)).collect();
    Ok(Group {
        counted: "sites in one call",
        series: vec![Series {
            name: "check".to_owned(),
            points,
        }],
    })
}

fn check(repo: &Repo, program: &Path, folder: &Path, count: u32) -> Result<Taken> {
    fs::create_dir_all(folder).context("cannot make target/batch")?;
    let text = fs::read(repo.path(SITE)).context("cannot read the demo site")?;
    for at in 0..count {
        fs::write(folder.join(format!("{at:05}.json")), &text).context("cannot write a site")?;
    }
    let out = folder.join("answers.txt");
    let start = Instant::now();
    let mut child = sh::command(repo.root(), &program.to_string_lossy(), &["check"])
        .arg(folder)
        .stdout(fs::File::create(&out)?)
        .stderr(Stdio::inherit())
        .spawn()?;
    let peak = watched(&mut child)?;
    let ms = start.elapsed().as_secs_f64() * 1e3;
    let answered = fs::read_to_string(&out)?.matches(".json: ").count();
    fs::remove_dir_all(folder).context("cannot clear target/batch")?;
    if answered != count as usize {
        bail!("{answered} of {count} sites were answered");
    }
    Ok(Taken { count, ms, peak })
}

/// Waits for a program to end, and gives the most memory that it held, MB.
fn watched(child: &mut Child) -> Result<Option<f64>> {
    let status = format!("/proc/{}/status", child.id());
    let mut peak = None;
    while child.try_wait()?.is_none() {
        let held = fs::read_to_string(&status).ok().and_then(|it| held(&it));
        peak = held.or(peak);
        std::thread::sleep(LOOK);
    }
    Ok(peak)
}

/// The most memory that a process has held, MB, as Linux tells it.
fn held(status: &str) -> Option<f64> {
    let line = status.lines().find_map(|it| it.strip_prefix("VmHWM:"))?;
    let kilobytes: f64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kilobytes / 1024.0)
}

fn table(taken: &[Taken]) -> String {
    let mut text =
        "| sites in one call | ms | ms a site | most memory, MB |\n|---:|---:|---:|---:|\n"
            .to_owned();
    for it in taken {
        let peak = it.peak.map_or(String::new(), |mb| format!("{mb:.0}"));
        let each = it.ms / f64::from(it.count);
        text += &format!("| {} | {:.0} | {each:.1} | {peak} |\n", it.count, it.ms);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_most_memory_is_read_from_what_linux_tells() {
        let status = "Name:\tit\nVmPeak:\t  9000 kB\nVmHWM:\t  2048 kB\n";
        assert_eq!(held(status), Some(2.0));
        assert_eq!(held("Name:\tit\n"), None);
    }

    #[test]
    fn the_table_has_what_a_site_takes() {
        let taken = [Taken {
            count: 100,
            ms: 250.0,
            peak: Some(31.4),
        }];
        assert!(table(&taken).contains("| 100 | 250 | 2.5 | 31 |"));
    }
}
