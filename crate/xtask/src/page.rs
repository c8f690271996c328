//! The page: wasm layer, demo sites and front end, built into one folder, and that folder served.

use std::fs::{self, File};
use std::path::PathBuf;
use std::process::{Child, Stdio};
use std::thread;

use anyhow::{Context, Result, bail};

use crate::clock::Clock;
use crate::repo::Repo;
use crate::wasm::Build;
use crate::{demo, node, sh, wasm};

/// Builds everything the page needs into `www/dist`, and says what took how long.
///
/// # Errors
/// When any part cannot be built; the message says which and what to do.
pub fn build(repo: &Repo, how: Build) -> Result<()> {
    let www = repo.www();
    let mut clock = Clock::start();
    // The packages come from elsewhere while the compiler works.
    thread::scope(|scope| {
        let packages = scope.spawn(|| node::install(&www));
        wasm::build(repo, how)?;
        packages
            .join()
            .unwrap_or_else(|_| bail!("npm was not waited for"))
    })?;
    clock.lap("core for the browser and node packages");
    demo::publish(repo)?;
    sh::say("Building the page");
    node::script(&www, "build")?;
    clock.lap("page");
    sh::say(&format!("Built in {}", clock.summary()));
    Ok(())
}

/// A build of the finished page beside other work, by a task runner of its own. What it prints is kept until somebody
/// waits for it.
pub struct Beside {
    runner: Child,
    log: PathBuf,
}

impl Beside {
    /// Begins to build.
    ///
    /// # Errors
    /// When the task runner cannot be started once more or its output not be kept.
    pub fn begin(repo: &Repo) -> Result<Self> {
        let log = repo.target().join("page.log");
        let kept = File::create(&log).with_context(|| format!("cannot write {}", log.display()))?;
        let program = std::env::current_exe()?;
        let mut runner = sh::command(repo.root(), &program.to_string_lossy(), &["build"]);
        let runner = runner
            .stdout(Stdio::from(kept.try_clone()?))
            .stderr(Stdio::from(kept))
            .spawn()
            .context("cannot start the task runner once more")?;
        Ok(Self { runner, log })
    }

    /// Waits for the end of it and prints what it said.
    ///
    /// # Errors
    /// When the page could not be built.
    pub fn wait(mut self) -> Result<()> {
        let status = self.runner.wait()?;
        print!("{}", fs::read_to_string(&self.log).unwrap_or_default());
        if !status.success() {
            bail!("the page could not be built: the lines above say why");
        }
        Ok(())
    }
}

/// Serves the built page on this machine's loopback address until stopped, on `port` or the first
/// free one. What is sent with every file stands in the page's `vite.config.ts`.
///
/// # Errors
/// When the port is taken.
pub fn serve(repo: &Repo, port: Option<u16>) -> Result<()> {
    sh::say("Serving the page   (Ctrl-C stops it)");
    let mut preview = sh::command(&repo.www(), "npx", &["--no-install", "vite", "preview"]);
    if let Some(port) = port {
        preview.args(["--port", &port.to_string(), "--strictPort"]);
    }
    sh::run(&mut preview)
}
