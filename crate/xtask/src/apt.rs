//! Installing system packages, where that is ours to do: as root on a Debian-like system.

use std::path::Path;

use anyhow::{Result, bail};

use crate::sh;

/// Installs `packages`, or says how the reader can.
///
/// # Errors
/// When we may not, or the package manager fails. `why` opens the message.
pub fn install(packages: &[&str], why: &str) -> Result<()> {
    let line = format!("apt-get install -y {}", packages.join(" "));
    if !available() {
        bail!(
            "{why}. Install it with your system's package manager (on Debian, as root: {line}) and run this again"
        );
    }
    sh::say(&format!("{why}: installing it"));
    let here = Path::new("/");
    let quiet = |args: &[&str]| {
        let mut command = sh::command(here, "apt-get", args);
        command.env("DEBIAN_FRONTEND", "noninteractive");
        command
    };
    // A stale list is no reason to stop: the install says whether the package can be had.
    if let Err(error) = sh::run(&mut quiet(&["update", "-q"])) {
        println!("    {error:#}; trying with the lists at hand");
    }
    sh::run(quiet(&["install", "-y", "-q"]).args(packages))
}

/// Whether this machine has apt-get and we are root.
pub fn available() -> bool {
    let here = Path::new("/");
    let root = sh::answer(&mut sh::command(here, "id", &["-u"])).as_deref() == Some("0");
    root && sh::answer(&mut sh::command(here, "apt-get", &["--version"])).is_some()
}
