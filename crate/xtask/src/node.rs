//! Node packages: installed from the lock file, again only when it changed.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

use crate::sh;

/// Installs the packages of `folder` when its lock file is not the one installed last.
///
/// # Errors
/// When the folder has no lock file or npm fails.
pub fn install(folder: &Path) -> Result<()> {
    let lock_path = folder.join("package-lock.json");
    let lock = fs::read(&lock_path).with_context(|| {
        format!(
            "{} is missing: this folder is not set up to build",
            lock_path.display()
        )
    })?;
    let stamp = folder.join("node_modules/.installed-from.json");
    if fs::read(&stamp).is_ok_and(|installed| installed == lock) {
        return Ok(());
    }
    sh::say(&format!("Installing the node packages of {}", name(folder)));
    let mut npm = sh::command(folder, "npm", &["ci", "--no-audit", "--no-fund"]);
    sh::run(npm.env("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1"))
        .context("the node packages could not be installed: the lines above say why")?;
    fs::write(&stamp, lock).with_context(|| format!("cannot write {}", stamp.display()))
}

/// Runs a script of `folder`'s package.json.
///
/// # Errors
/// When npm cannot be started or the script fails.
pub fn script(folder: &Path, script: &str) -> Result<()> {
    sh::run(&mut sh::command(
        folder,
        "npm",
        &["run", "--silent", script],
    ))
}

fn name(folder: &Path) -> String {
    folder
        .file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default()
}
