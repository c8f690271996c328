//! `audit`: what comes from outside, and whether the page can be made again from its sources.
//!
//! `tidy` holds every lock file to its sums and licenses, in every test. What is asked here takes longer, and a tool that no other
//! task needs: cargo-deny on licenses, duplicates and sources of the crates, and the modules of the page built a second time,
//! from a copy of the tree in another folder, which must give the same bytes.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::repo::Repo;
use crate::wasm::{self, Build};
use crate::{sh, tidy};

/// The tool, and the version that this was written with.
const DENY: (&str, &str) = ("cargo-deny", "0.20.2");
/// What it asks.
const QUESTIONS: [&str; 3] = ["licenses", "bans", "sources"];

/// Asks all of it.
///
/// # Errors
/// When something is found, or cannot be asked; all of it is asked first.
pub fn run(repo: &Repo) -> Result<()> {
    let answers = [
        ("the tree", tidy::run(repo)),
        ("the crates", crates(repo)),
        ("the same bytes", same_bytes(repo)),
    ];
    let mut failed = Vec::new();
    for (what, answer) in answers {
        if let Err(error) = answer {
            println!("    {what}: {error:#}");
            failed.push(what);
        }
    }
    if failed.is_empty() {
        println!("nothing found");
        return Ok(());
    }
    bail!("found something in {}", failed.join(", "))
}

fn crates(repo: &Repo) -> Result<()> {
    sh::say("Asking cargo-deny about licenses, duplicates and sources");
    let tool = installed(repo)?;
    let rules = ["--config", "crate/xtask/deny.toml"];
    let args = [
        &["--offline", "check"][..],
        &rules,
        &["--hide-inclusion-graph"],
        &QUESTIONS,
    ];
    sh::run(&mut sh::command(
        repo.root(),
        &tool.to_string_lossy(),
        &args.concat(),
    ))
}

/// The tool, from the reader's own path or installed below `target`.
fn installed(repo: &Repo) -> Result<PathBuf> {
    let (name, version) = DENY;
    if sh::answer(&mut sh::command(repo.root(), name, &["--version"])).is_some() {
        return Ok(PathBuf::from(name));
    }
    let home = repo.target().join("tools");
    let tool = home
        .join("bin")
        .join(format!("{name}{}", std::env::consts::EXE_SUFFIX));
    if !tool.exists() {
        sh::say(&format!("Installing {name}, which takes some minutes"));
        let home = home.to_string_lossy();
        let args = [
            "install",
            name,
            "--version",
            version,
            "--locked",
            "--root",
            &home,
        ];
        sh::run(&mut sh::cargo(repo.root(), &args))
            .with_context(|| format!("try `cargo install {name}` by hand, then run this again"))?;
    }
    Ok(tool)
}

fn same_bytes(repo: &Repo) -> Result<()> {
    wasm::build(repo, Build::Finished)?;
    sh::say("Building the modules again, from a copy of the tree in another folder");
    let again = repo.target().join("again");
    let copy = again.join("tree");
    match fs::remove_dir_all(&copy) {
        Err(error) if !sh::is_missing(&error) => {
            return Err(error).context("cannot clear the old copy");
        }
        _ => {}
    }
    for path in tidy::paths_of(repo)? {
        let to = copy.join(&path);
        fs::create_dir_all(to.parent().unwrap_or(&copy)).context("cannot make a folder")?;
        fs::copy(repo.path(&path), &to).with_context(|| format!("cannot copy {path}"))?;
    }
    let copy = Repo::at(&copy);
    wasm::build(&copy, Build::Finished)?;
    compare(&repo.wasm_out(), &copy.wasm_out())
}

/// Whether the modules in two folders are the same.
fn compare(one: &Path, other: &Path) -> Result<()> {
    let mut compared = 0;
    for entry in one.read_dir().context("cannot list the modules")? {
        let name = entry?.file_name();
        if Path::new(&name).extension().is_none_or(|it| it != "wasm") {
            continue;
        }
        let bytes = |folder: &Path| {
            let file = folder.join(&name);
            fs::read(&file).with_context(|| format!("cannot read {}", file.display()))
        };
        let (first, second) = (bytes(one)?, bytes(other)?);
        if first != second {
            let at = first.iter().zip(&second).position(|(a, b)| a != b);
            bail!(
                "{}: {} and {} bytes, which differ from byte {} on",
                name.display(),
                first.len(),
                second.len(),
                at.unwrap_or(first.len().min(second.len()))
            );
        }
        println!("    {}: {} bytes, the same", name.display(), first.len());
        compared += 1;
    }
    if compared == 0 {
        bail!("there are no modules in {}", one.display());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn a_byte_that_differs_is_told_with_its_place() {
        let [one, other] = ["one", "other"].map(Scratch::new);
        one.write("a.wasm", "0123");
        one.write("a.js", "only here");
        other.write("a.wasm", "0123");
        compare(one.root(), other.root()).unwrap();
        other.write("a.wasm", "01x3");
        let error = compare(one.root(), other.root()).unwrap_err().to_string();
        assert!(
            error.contains("a.wasm: 4 and 4 bytes") && error.contains("byte 2"),
            "{error}"
        );
        other.write("a.wasm", "01234");
        assert!(compare(one.root(), other.root()).is_err());
        let empty = Scratch::new("empty");
        assert!(compare(empty.root(), empty.root()).is_err());
        assert!(compare(one.root(), empty.root()).is_err());
    }
}
