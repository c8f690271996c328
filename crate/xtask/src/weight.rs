//! What a visitor fetches until everything is usable: the built page, compressed as a server would.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::repo::Repo;
use crate::sh;

/// What all of it may weigh, compressed, bytes.
const MOST_BYTES: u64 = 1_000_000;

/// Prints the raw and the compressed size of every file named. Node's own settings are Brotli's best, with the window
/// that servers use.
const WEIGH: &str = "
    const { readFileSync } = require('node:fs');
    const { brotliCompressSync } = require('node:zlib');
    for (const file of process.argv.slice(1)) {
        const bytes = readFileSync(file);
        console.log(bytes.length, brotliCompressSync(bytes).length);
    }";

/// What nobody waits for: sites opened when asked for, parts fetched when they are first wanted or in the background once
/// the page is there (among them what makes sheets to print, which holds the core a second time), pictures for the device's
/// home screen.
const ON_DEMAND: [&str; 3] = ["demo-sites", LATER, "screenshots"];
const LATER: &str = "later";
const ICONS: [&str; 3] = ["svg", "png", "ico"];

/// One file of the built page.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// From the folder of the built page.
    pub path: String,
    pub raw_bytes: u64,
    pub brotli_bytes: u64,
}

/// Weighs the built page, prints it file by file and holds it to the bound. Apart from building, so
/// that a page too heavy can still be looked at.
///
/// # Errors
/// When it is too heavy or was never built.
pub fn check(repo: &Repo) -> Result<()> {
    let files = weigh(&repo.dist())?;
    println!("\n{}", table("fetched", &files));
    let later = weigh(&repo.dist().join(LATER))?;
    println!("\n{}", table("when first wanted", &later));
    within(&files, MOST_BYTES)
}

/// Every file that is fetched until everything is usable, heaviest first.
fn weigh(dist: &Path) -> Result<Vec<Weighed>> {
    let mut paths = Vec::new();
    walk(dist, "", &mut paths)?;
    if paths.is_empty() {
        bail!("{} is empty: build the page first", dist.display());
    }
    let sizes = sizes(dist, &paths)?;
    let mut files: Vec<Weighed> = paths
        .into_iter()
        .zip(sizes)
        .map(|(path, (raw_bytes, brotli_bytes))| Weighed {
            path,
            raw_bytes,
            brotli_bytes,
        })
        .collect();
    files.sort_by(|a, b| {
        b.brotli_bytes
            .cmp(&a.brotli_bytes)
            .then_with(|| a.path.cmp(&b.path))
    });
    Ok(files)
}

fn walk(folder: &Path, prefix: &str, paths: &mut Vec<String>) -> Result<()> {
    let entries = folder
        .read_dir()
        .with_context(|| format!("cannot read {}", folder.display()))?;
    for entry in entries {
        let entry = entry?;
        let path = format!("{prefix}{}", entry.file_name().to_string_lossy());
        if ON_DEMAND.contains(&path.as_str()) || is_icon(&path) {
            continue;
        }
        if entry.file_type()?.is_dir() {
            walk(&entry.path(), &format!("{path}/"), paths)?;
        } else {
            paths.push(path);
        }
    }
    Ok(())
}

/// The sizes of each of these files, raw and by Brotli, bytes.
fn sizes(folder: &Path, paths: &[String]) -> Result<Vec<(u64, u64)>> {
    let files: Vec<PathBuf> = paths.iter().map(|path| folder.join(path)).collect();
    let mut node = sh::command(folder, "node", &["--eval", WEIGH, "--"]);
    let said = sh::answer(node.args(files)).context("node could not weigh the page")?;
    let sizes: Vec<(u64, u64)> = said
        .lines()
        .filter_map(|line| {
            let (raw, brotli) = line.split_once(' ')?;
            Some((raw.parse().ok()?, brotli.parse().ok()?))
        })
        .collect();
    if sizes.len() != paths.len() {
        bail!("node weighed {} of {} files", sizes.len(), paths.len());
    }
    Ok(sizes)
}

fn is_icon(path: &str) -> bool {
    path.rsplit_once('.')
        .is_some_and(|(_, ending)| ICONS.contains(&ending))
}

fn table(when: &str, files: &[Weighed]) -> String {
    let row = |name: &str, raw: u64, brotli: u64| format!("{name:<48} {raw:>12} {brotli:>12}");
    let mut lines = vec![format!("{:<48} {:>12} {:>12}", when, "raw, B", "Brotli, B")];
    lines.extend(
        files
            .iter()
            .map(|file| row(&file.path, file.raw_bytes, file.brotli_bytes)),
    );
    let raw = files.iter().map(|file| file.raw_bytes).sum();
    lines.push(row("in all", raw, total(files)));
    lines.join("\n")
}

fn total(files: &[Weighed]) -> u64 {
    files.iter().map(|file| file.brotli_bytes).sum()
}

fn within(files: &[Weighed], most_bytes: u64) -> Result<()> {
    let bytes = total(files);
    if bytes > most_bytes {
        bail!(
            "until everything is usable {bytes} bytes are fetched, and it may be {most_bytes}. \
             See what grew before raising the limit"
        );
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    /// Bytes that no compression shortens.
    fn noise(count: usize) -> Vec<u8> {
        let mut state = 1_u64;
        let next = |_| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            (state >> 32) as u8
        };
        (0..count).map(next).collect()
    }

    #[test]
    fn everything_fetched_is_weighed_compressed_and_the_rest_left_out() {
        let tree = Scratch::new("weight");
        let dist = tree.root().join("www/dist");
        assert!(weigh(&dist).is_err(), "a page never built weighs nothing");
        for path in [
            "index.html",
            "sw.js",
            "manifest.webmanifest",
            "assets/a.css",
            "assets/b.wasm",
            "icon.svg",
            "demo-sites/level.json",
            "later/press.wasm",
            "screenshots/wide.webp",
        ] {
            tree.write(&format!("www/dist/{path}"), &"abc ".repeat(1000));
        }
        let files = weigh(&dist).unwrap();
        let paths: Vec<&str> = files.iter().map(|file| file.path.as_str()).collect();
        let fetched = [
            "assets/a.css",
            "assets/b.wasm",
            "index.html",
            "manifest.webmanifest",
            "sw.js",
        ];
        assert_eq!(paths, fetched);
        for file in &files {
            assert_eq!(file.raw_bytes, 4000);
            assert!((1..100).contains(&file.brotli_bytes), "{file:?}");
        }
    }

    #[test]
    fn what_cannot_be_shortened_keeps_its_weight() {
        let tree = Scratch::new("noise");
        std::fs::write(tree.root().join("noise"), noise(100_000)).unwrap();
        let [(raw, brotli)] = sizes(tree.root(), &["noise".to_owned()]).unwrap()[..] else {
            panic!("one file, one weight")
        };
        assert_eq!(raw, 100_000);
        assert!((100_000..100_100).contains(&brotli), "{brotli}");
    }

    #[test]
    fn a_page_too_heavy_fails_with_both_numbers() {
        let file = |path: &str, brotli_bytes| Weighed {
            path: path.to_owned(),
            raw_bytes: 3_000_000,
            brotli_bytes,
        };
        let most = [file("a.wasm", 900_000), file("b.js", 100_000)];
        within(&most, MOST_BYTES).unwrap();
        let over = [file("a.wasm", 900_000), file("b.js", 100_001)];
        let error = within(&over, MOST_BYTES).unwrap_err().to_string();
        assert!(
            error.contains("1000001") && error.contains("1000000"),
            "{error}"
        );
        let shown = table("fetched", &over);
        for part in [
            "a.wasm", "900000", "b.js", "100001", "in all", "6000000", "1000001",
        ] {
            assert!(shown.contains(part), "{part} in {shown}");
        }
    }
}
