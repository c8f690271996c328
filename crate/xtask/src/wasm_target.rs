//! A compiler that can build for the browser: found, or fetched in a fixed order.
//!
//! The order is: the target is installed; `rustup target add`, with a time limit; Debian's own
//! toolchain, which builds the standard library from its source package; a clear error.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use anyhow::{Context, Result};

use crate::repo::Repo;
use crate::{apt, sh};

/// The target triple of the page.
pub const TRIPLE: &str = "wasm32-unknown-unknown";

/// The compiler's flags for the page, and the variable that gives them to its target alone.
const FLAGS: &str = "-C target-feature=+simd128,+bulk-memory";
const FLAGS_OF_TARGET: &str = "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS";

/// How long `rustup target add` may take. It downloads about 20 MB.
const RUSTUP_LIMIT: Duration = Duration::from_secs(180);

/// Debian's compiler, its cargo, the standard library's source and a linker.
const DEBIAN_PACKAGES: [&str; 4] = ["rustc-web", "cargo-web", "rust-web-src", "lld-22"];

/// A toolchain that builds for the browser.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Toolchain {
    /// The reader's own, with the target installed.
    Own,
    /// Debian's packages, with build products of their own: two compilers cannot share them.
    Debian,
}

impl Toolchain {
    /// Finds a toolchain, installing what is missing.
    ///
    /// # Errors
    /// When every way fails, with what to do by hand.
    pub fn ensure(repo: &Repo) -> Result<Self> {
        if installed(repo.root()) {
            return Ok(Self::Own);
        }
        sh::say(&format!("The {TRIPLE} target is missing: installing it"));
        let mut add = sh::command(repo.root(), "rustup", &["target", "add", TRIPLE]);
        match sh::run_within(&mut add, RUSTUP_LIMIT) {
            Ok(()) if installed(repo.root()) => return Ok(Self::Own),
            Ok(()) => println!("    rustup ended well, but rustc does not see the target"),
            Err(error) => println!("    {error:#}"),
        }
        if !debian_is_there() {
            apt::install(&DEBIAN_PACKAGES, "rustup could not add the target; Debian's toolchain can build it")
                .with_context(|| {
                    format!("no compiler for the browser. Try `rustup target add {TRIPLE}` by hand, then run this again")
                })?;
        }
        Ok(Self::Debian)
    }

    /// A cargo command for the browser target, with `args` after the subcommand's name.
    pub fn cargo(self, repo: &Repo, subcommand: &str, args: &[&str]) -> Command {
        let mut command = match self {
            Self::Own => sh::cargo(repo.root(), &[subcommand]),
            Self::Debian => {
                let mut command = sh::command(
                    repo.root(),
                    "/usr/bin/cargo",
                    &[subcommand, "-Zbuild-std=std,panic_abort"],
                );
                command
                    .env("RUSTC", "/usr/bin/rustc")
                    .env("RUSTC_BOOTSTRAP", "1")
                    .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", "wasm-ld-22");
                command
            }
        };
        command
            .args(["--target", TRIPLE, "--target-dir"])
            .arg(self.target_dir(repo))
            .args(args);
        // Flags of this target alone, so that build scripts stay native.
        command.env(FLAGS_OF_TARGET, FLAGS);
        command
    }

    /// Where this toolchain's build products go.
    pub fn target_dir(self, repo: &Repo) -> PathBuf {
        match self {
            Self::Own => repo.target(),
            Self::Debian => repo.target().join("debian"),
        }
    }
}

/// Whether the reader's own compiler has the target: asked of the compiler, not of a list.
pub fn installed(root: &Path) -> bool {
    let mut ask = sh::command(
        root,
        "rustc",
        &["--print", "target-libdir", "--target", TRIPLE],
    );
    sh::answer(&mut ask).is_some_and(|folder| holds_libraries(Path::new(&folder)))
}

fn holds_libraries(folder: &Path) -> bool {
    let Ok(entries) = folder.read_dir() else {
        return false;
    };
    entries
        .flatten()
        .any(|entry| entry.path().extension().is_some_and(|kind| kind == "rlib"))
}

fn debian_is_there() -> bool {
    let tools = ["/usr/bin/cargo", "/usr/bin/rustc", "/usr/bin/wasm-ld-22"];
    tools.iter().all(|tool| Path::new(tool).exists())
}

#[cfg(test)]
mod tests {
    use std::ffi::OsStr;

    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn a_target_is_there_when_its_folder_holds_libraries() {
        let tree = Scratch::new("target");
        assert!(!holds_libraries(&tree.root().join("lib")));
        tree.write("lib/notes.txt", "");
        assert!(!holds_libraries(&tree.root().join("lib")));
        tree.write("lib/libcore-1a2b.rlib", "");
        assert!(holds_libraries(&tree.root().join("lib")));
    }

    #[test]
    fn two_compilers_never_share_their_products() {
        let repo = Repo::at(Path::new("/clone"));
        assert!(Toolchain::Debian.target_dir(&repo) != Toolchain::Own.target_dir(&repo));
        let command = Toolchain::Debian.cargo(&repo, "build", &["--profile", "wasm"]);
        let args: Vec<_> = command.get_args().map(OsStr::to_string_lossy).collect();
        let folder = Toolchain::Debian.target_dir(&repo).display().to_string();
        assert_eq!(command.get_program(), "/usr/bin/cargo");
        assert!(
            args.contains(&"-Zbuild-std=std,panic_abort".into()) && args.contains(&folder.into())
        );
        let compiler = command
            .get_envs()
            .find(|(name, _)| *name == "RUSTC")
            .and_then(|(_, value)| value);
        assert_eq!(compiler, Some(OsStr::new("/usr/bin/rustc")));
    }

    #[test]
    fn build_scripts_stay_native() {
        let command = Toolchain::Own.cargo(&Repo::at(Path::new("/clone")), "build", &[]);
        let flags = |name: &str| command.get_envs().any(|(it, _)| it == name);
        assert!(flags("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS") && !flags("RUSTFLAGS"));
    }
}
