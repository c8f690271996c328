//! Where things are: the one list of the folders that tasks read and write.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

/// The repository on disk.
pub struct Repo {
    root: PathBuf,
}

impl Repo {
    /// Finds the repository two folders above this package's manifest.
    ///
    /// # Errors
    /// When the task runner was moved out of the repository it was built in.
    pub fn find() -> Result<Self> {
        let manifest = std::env::var_os("CARGO_MANIFEST_DIR")
            .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
        let root = manifest
            .join("../..")
            .canonicalize()
            .context("cannot find the repository: run it as `cargo xtask` inside a clone")?;
        Ok(Self { root })
    }

    /// The repository at `root`: a copy, or a small one of a test.
    pub fn at(root: &Path) -> Self {
        Self {
            root: root.to_path_buf(),
        }
    }

    /// The top folder.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// Anything in the repository, by its path from the top.
    pub fn path(&self, relative: &str) -> PathBuf {
        self.root.join(relative)
    }

    /// The page's sources.
    pub fn www(&self) -> PathBuf {
        self.path("www")
    }

    /// The built page.
    pub fn dist(&self) -> PathBuf {
        self.path("www/dist")
    }

    /// The wasm module and its bindings, generated into the page's sources.
    pub fn wasm_out(&self) -> PathBuf {
        self.path("www/src/wasm")
    }

    /// The end-to-end tests.
    pub fn browser_tests(&self) -> PathBuf {
        self.path("tests/browser")
    }

    /// Where cargo puts its build products.
    pub fn target(&self) -> PathBuf {
        std::env::var_os("CARGO_TARGET_DIR")
            .map_or_else(|| self.path("target"), |dir| self.root.join(dir))
    }
}
