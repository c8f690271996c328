//! The wasm layer: the modules built for the browser, the planner's and that of the sheets, each given its TypeScript
//! bindings.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::built_in;
use crate::repo::Repo;
use crate::sh;
use crate::wasm_target::{TRIPLE, Toolchain};

/// The packages that are built for the browser. What they and their bindings are called, from the compiler to the page,
/// is the same with underscores.
pub const PACKAGES: [&str; 2] = ["batterboard-web", "batterboard-web-paper"];

/// How the module is built.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Build {
    /// As the page ships: optimised whole.
    Finished,
    /// For a look at the page: soon there, heavy, and never what a test sees.
    Quick,
}

impl Build {
    fn profile(self) -> &'static str {
        match self {
            Self::Finished => "wasm",
            Self::Quick => "wasm-quick",
        }
    }
}

/// Builds the wasm layer and writes its modules and their bindings into the page's sources, unless
/// they are there from the same build.
///
/// # Errors
/// When no compiler can be had or the build fails.
pub fn build(repo: &Repo, how: Build) -> Result<()> {
    let toolchain = Toolchain::ensure(repo)?;
    sh::say("Building the core for the browser");
    // In one call: each module is optimised as a whole by a single thread, one beside the other.
    let [planner, paper] = PACKAGES;
    let what = ["--package", planner, "--package", paper, "--lib"];
    let what = [&what[..], &["--profile", how.profile()]].concat();
    sh::run(&mut toolchain.cargo(repo, "build", &what))?;

    let products = toolchain.target_dir(repo).join(TRIPLE).join(how.profile());
    let name = |package: &str| package.replace('-', "_");
    let built = PACKAGES.map(|it| products.join(name(it)).with_extension("wasm"));
    let out = repo.wasm_out();
    let stamp = out.join("built");
    let same = fs::read_to_string(&stamp).is_ok_and(|text| text == how.profile());
    let [planner, paper] = &built;
    if same && is_newer(&stamp, &[planner, paper, &std::env::current_exe()?]) {
        return Ok(());
    }
    // What an older task runner wrote there must not reach the page.
    match fs::remove_dir_all(&out) {
        Err(error) if !sh::is_missing(&error) => {
            return Err(error).context("cannot clear the old bindings");
        }
        _ => {}
    }
    sh::say("Writing the bindings");
    for (package, built) in PACKAGES.iter().zip(&built) {
        bind(built, &name(package), &out, For::Page)?;
    }
    built_in::write(repo, &out)?;
    fs::write(&stamp, how.profile()).with_context(|| format!("cannot write {}", stamp.display()))
}

/// Whether `made` is there and newer than everything it was made from.
fn is_newer(made: &Path, from: &[&Path]) -> bool {
    let time = |path: &Path| fs::metadata(path).and_then(|it| it.modified()).ok();
    let Some(made) = time(made) else { return false };
    from.iter()
        .all(|path| time(path).is_some_and(|it| it < made))
}

/// Builds an example of the planner's package as its module is built, for a script to call, and gives the folder of its
/// bindings.
///
/// # Errors
/// When no compiler can be had or the build fails.
pub fn example(repo: &Repo, name: &str) -> Result<PathBuf> {
    let toolchain = Toolchain::ensure(repo)?;
    let profile = Build::Finished.profile();
    let [planner, _] = PACKAGES;
    let what = [
        "--package",
        planner,
        "--example",
        name,
        "--profile",
        profile,
    ];
    sh::run(&mut toolchain.cargo(repo, "build", &what))?;
    let products = toolchain.target_dir(repo).join(TRIPLE).join(profile);
    let built = products.join("examples").join(name).with_extension("wasm");
    let out = repo.target().join("examples").join(name);
    bind(&built, name, &out, For::Script)?;
    Ok(out)
}

/// Who calls a module.
#[derive(Clone, Copy, PartialEq)]
enum For {
    Page,
    Script,
}

fn bind(built: &Path, name: &str, out: &Path, caller: For) -> Result<()> {
    let mut bindgen = Bindgen::new();
    match caller {
        For::Page => bindgen.web(true)?,
        For::Script => bindgen.nodejs(true)?,
    };
    bindgen
        .input_path(built)
        .out_name(name)
        .typescript(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(out)
        .context("cannot write the bindings")
}

#[cfg(test)]
mod tests {
    use std::thread;
    use std::time::Duration;

    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn a_quick_build_is_never_taken_for_a_finished_one() {
        assert_ne!(Build::Quick.profile(), Build::Finished.profile());
    }

    #[test]
    fn what_is_older_than_its_source_is_made_again() {
        let tree = Scratch::new("newer");
        tree.write("old", "");
        thread::sleep(Duration::from_millis(20));
        tree.write("new", "");
        let [old, new, none] = ["old", "new", "none"].map(|name| tree.root().join(name));
        assert!(is_newer(&new, &[&old]));
        assert!(!is_newer(&old, &[&new]));
        assert!(!is_newer(&none, &[&old]));
        assert!(!is_newer(&new, &[&old, &none]));
    }
}
