//! `dist`: what is handed on. One folder: the page for any static host, the command line as one program, what is new, what
//! is built in, and the sum of every file.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use sha2::{Digest, Sha256};

use crate::built_in::{self, Product};
use crate::page;
use crate::repo::Repo;
use crate::sh;
use crate::wasm::Build;

/// The list of sums, as `sha256sum --check` reads it.
const SUMS: &str = "SHA256SUMS";

/// Builds everything and lays it into `target/dist`.
///
/// # Errors
/// When something does not build or cannot be written.
pub fn run(repo: &Repo) -> Result<()> {
    page::build(repo, Build::Finished)?;
    sh::say("Building the command line");
    sh::run(&mut sh::cargo(
        repo.root(),
        &["build", "--release", "--locked", "--package", "batterboard"],
    ))?;
    let out = repo.target().join("dist");
    match fs::remove_dir_all(&out) {
        Err(error) if !sh::is_missing(&error) => {
            return Err(error).context("cannot clear the old folder");
        }
        _ => {}
    }
    copy(&repo.dist(), &out.join("page"))?;
    let program = format!("batterboard{}", std::env::consts::EXE_SUFFIX);
    for (from, to) in [
        (
            repo.target().join("release").join(&program),
            program.as_str(),
        ),
        (repo.path("www/src/about/changes.md"), "CHANGES.md"),
        (repo.path("LICENSE"), "LICENSE"),
        (repo.wasm_out().join(built_in::FILE), built_in::FILE),
    ] {
        fs::copy(&from, out.join(to)).with_context(|| format!("cannot copy {}", from.display()))?;
    }
    for (product, name) in [
        (Product::Page, "page.cdx.json"),
        (Product::Program, "batterboard.cdx.json"),
    ] {
        let bill = built_in::bill_of_materials(repo, product)?;
        fs::write(out.join(name), bill).with_context(|| format!("cannot write {name}"))?;
    }
    let sums = sums(&out)?;
    fs::write(out.join(SUMS), &sums).context("cannot write the sums")?;
    println!("{}: {} files", out.display(), sums.lines().count());
    Ok(())
}

fn copy(from: &Path, to: &Path) -> Result<()> {
    fs::create_dir_all(to).with_context(|| format!("cannot make {}", to.display()))?;
    for entry in from
        .read_dir()
        .with_context(|| format!("cannot read {}", from.display()))?
    {
        let (path, name) = entry.map(|it| (it.path(), it.file_name()))?;
        if path.is_dir() {
            copy(&path, &to.join(name))?;
        } else {
            fs::copy(&path, to.join(name))
                .with_context(|| format!("cannot copy {}", path.display()))?;
        }
    }
    Ok(())
}

/// The sum of every file below a folder, in the order of their paths.
fn sums(folder: &Path) -> Result<String> {
    let mut files = Vec::new();
    list(folder, &mut files)?;
    files.sort();
    let mut text = String::new();
    for file in files {
        let bytes = fs::read(&file).with_context(|| format!("cannot read {}", file.display()))?;
        let inside = file
            .strip_prefix(folder)?
            .to_string_lossy()
            .replace('\\', "/");
        for byte in Sha256::digest(&bytes) {
            write!(text, "{byte:02x}")?;
        }
        writeln!(text, "  {inside}")?;
    }
    Ok(text)
}

fn list(folder: &Path, files: &mut Vec<PathBuf>) -> Result<()> {
    for entry in folder.read_dir()? {
        let path = entry?.path();
        if path.is_dir() {
            list(&path, files)?;
        } else {
            files.push(path);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    /// The sum of `abc` is the example of FIPS 180-4 (from memory).
    #[test]
    fn every_file_has_its_sum() {
        let folder = Scratch::new("dist");
        folder.write("page/index.html", "abc");
        folder.write("LICENSE", "");
        let text = sums(folder.root()).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines.len(), 2);
        assert!(lines[0].ends_with("  LICENSE"));
        assert_eq!(
            lines[1],
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  page/index.html"
        );
    }

    #[test]
    fn a_folder_is_copied_with_what_is_in_it() {
        let (from, to) = (Scratch::new("from"), Scratch::new("to"));
        from.write("a/b.txt", "b");
        copy(from.root(), &to.root().join("out")).unwrap();
        assert_eq!(
            fs::read_to_string(to.root().join("out/a/b.txt")).unwrap(),
            "b"
        );
    }
}
