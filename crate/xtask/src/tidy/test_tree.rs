//! A scratch folder for tests, gone when the test ends.

use std::fs;
use std::path::{Path, PathBuf};
use std::process;
use std::sync::atomic::{AtomicU32, Ordering};

/// A folder of its own under the system's scratch folder.
pub struct Scratch {
    root: PathBuf,
}

impl Scratch {
    /// Makes an empty folder; `name` helps a reader who finds it after a crash.
    pub fn new(name: &str) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let root =
            std::env::temp_dir().join(format!("batterboard-{name}-{}-{number}", process::id()));
        fs::create_dir_all(&root).unwrap();
        Self {
            root: root.canonicalize().unwrap(),
        }
    }

    /// The folder.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// Writes a file below it, with the folders in between.
    pub fn write(&self, path: &str, text: &str) {
        let path = self.root.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.root);
    }
}
