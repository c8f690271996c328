//! The reference checks: Python scripts that compare the built program with outside values.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Instant;

use anyhow::{Context, Result, bail};

use crate::repo::Repo;
use crate::{apt, program, sh};

/// Runs every `tests/**/check_*.py` with the built command-line program's path in `BATTERBOARD_BIN`.
///
/// # Errors
/// When Python or its libraries cannot be had, or any check fails; all of them run first.
pub fn reference_checks(repo: &Repo) -> Result<()> {
    let scripts = scripts(&repo.path("tests"))?;
    if scripts.is_empty() {
        bail!("there is no tests/**/check_*.py: the reference checks are gone");
    }
    let python = environment(repo)?;
    let binary = program::build(repo)?;
    let mut failed = Vec::new();
    for (number, script) in scripts.iter().enumerate() {
        let name = script
            .strip_prefix(repo.root())
            .unwrap_or(script)
            .display()
            .to_string();
        sh::say(&format!("[{}/{}] {name}", number + 1, scripts.len()));
        let start = Instant::now();
        let mut check = sh::command(repo.root(), &python.to_string_lossy(), &[script]);
        check
            .env(program::VARIABLE, &binary)
            .env("PYTHONDONTWRITEBYTECODE", "1");
        if let Err(error) = sh::run(&mut check) {
            println!("    {error:#}");
            failed.push(name);
        }
        println!("    {:.1} s", start.elapsed().as_secs_f64());
    }
    if failed.is_empty() {
        return Ok(());
    }
    bail!(
        "{} of {} reference checks failed: {}",
        failed.len(),
        scripts.len(),
        failed.join(", ")
    )
}

/// The Python of the tests' own environment, made or renewed when the list of libraries changed.
///
/// # Errors
/// When Python is too old, or cannot be had or the libraries cannot.
pub fn environment(repo: &Repo) -> Result<PathBuf> {
    let (root, home) = (repo.root(), repo.path("tests/.venv"));
    let python = home.join("bin/python");
    let wanted = fs::read(repo.path("tests/requirements.txt"))
        .context("cannot read tests/requirements.txt")?;
    let stamp = home.join("installed-from.txt");
    if fs::read(&stamp).is_ok_and(|installed| installed == wanted) && python.exists() {
        return Ok(python);
    }
    sh::say("Installing the Python libraries of the reference checks");
    let can = |code: &str| sh::answer(&mut sh::command(root, "python3", &["-c", code])).is_some();
    if !can("import venv, ensurepip") {
        apt::install(
            &["python3", "python3-venv"],
            "Python's venv module is missing",
        )?;
    }
    if !can("import sys; assert sys.version_info >= (3, 11)") {
        bail!("the reference checks want Python 3.11 or later as `python3`");
    }
    sh::run(&mut sh::command(
        root,
        "python3",
        &["-m", "venv", "--clear", "tests/.venv"],
    ))?;
    let install = [
        "-m",
        "pip",
        "install",
        "--quiet",
        "--no-deps",
        "--requirement",
        "tests/requirements.txt",
    ];
    sh::run(&mut sh::command(root, &python.to_string_lossy(), &install))
        .context("the Python libraries could not be installed: the lines above say why")?;
    fs::write(&stamp, wanted)?;
    Ok(python)
}

/// Every `check_*.py` below `folder`, in path order.
fn scripts(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in folder
            .read_dir()
            .with_context(|| format!("cannot read {}", folder.display()))?
        {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if entry.file_type()?.is_dir() {
                if !name.starts_with('.') && name != "node_modules" {
                    folders.push(entry.path());
                }
            } else if name.starts_with("check_") && name.ends_with(".py") {
                found.push(entry.path());
            }
        }
    }
    found.sort();
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn checks_are_found_in_order_and_nothing_else() {
        let tree = Scratch::new("python");
        for path in [
            "b/check_b.py",
            "a/deep/check_a.py",
            "a/helper.py",
            ".venv/check_no.py",
            "check_x.txt",
        ] {
            tree.write(path, "");
        }
        let found = scripts(tree.root()).unwrap();
        let names: Vec<_> = found
            .iter()
            .map(|path| path.strip_prefix(tree.root()).unwrap())
            .collect();
        assert_eq!(
            names,
            [Path::new("a/deep/check_a.py"), Path::new("b/check_b.py")]
        );
    }
}
