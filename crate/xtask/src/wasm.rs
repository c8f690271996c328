//! The wasm layer: built for the browser, then given its TypeScript bindings.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use crate::repo::Repo;
use crate::wasm_target::{TRIPLE, Toolchain};
use crate::{node, sh};

/// What the page may weigh before compression: it is loaded in a yard, over a phone.
const MOST_BYTES: u64 = 900_000;

/// What the module uses beyond the first version of WebAssembly; every browser of the last
/// three years knows them.
const FEATURES: [&str; 7] = [
    "--enable-bulk-memory",
    "--enable-multivalue",
    "--enable-mutable-globals",
    "--enable-nontrapping-float-to-int",
    "--enable-reference-types",
    "--enable-sign-ext",
    "--enable-simd",
];

/// The module as the page loads it.
const MODULE: &str = "batterboard_web_bg.wasm";

/// Builds the wasm layer and writes the module and its bindings into the page's sources.
///
/// # Errors
/// When no compiler can be had or the build fails.
pub fn build(repo: &Repo) -> Result<()> {
    let toolchain = Toolchain::ensure(repo)?;
    sh::say("Building the core for the browser");
    let package = ["--package", "batterboard-web", "--profile", "wasm"];
    sh::run(&mut toolchain.cargo(repo, "build", &package))?;
    let built = toolchain
        .target_dir(repo)
        .join(TRIPLE)
        .join("wasm/batterboard_web.wasm");

    let stamp = repo.wasm_out().join("finished");
    if is_newer(&stamp, &[&built, &std::env::current_exe()?]) {
        return Ok(());
    }
    sh::say("Writing its TypeScript bindings");
    bind(&built, &repo.wasm_out())?;
    shrink(repo)?;
    fs::write(&stamp, "").with_context(|| format!("cannot write {}", stamp.display()))
}

/// Whether `made` is there and newer than everything it was made from.
fn is_newer(made: &Path, from: &[&Path]) -> bool {
    let time = |path: &Path| fs::metadata(path).and_then(|it| it.modified()).ok();
    let Some(made) = time(made) else { return false };
    from.iter()
        .all(|path| time(path).is_some_and(|it| it < made))
}

/// Lets Binaryen take out what the compiler left: about a twentieth of the module.
fn shrink(repo: &Repo) -> Result<()> {
    node::install(&repo.www())?;
    sh::say("Making the module smaller");
    let optimiser = repo.www().join("node_modules/binaryen/bin/wasm-opt");
    let module = repo.wasm_out().join(MODULE);
    let mut node = sh::command(repo.root(), "node", &[&optimiser, &module]);
    node.arg("--output").arg(&module).arg("-Oz").args(FEATURES);
    sh::run(&mut node).context("the module could not be made smaller")
}

/// Checks what the built module weighs: apart from building, so that a page too heavy can still be
/// looked at.
///
/// # Errors
/// When it is too heavy or was never built.
pub fn weigh(repo: &Repo) -> Result<()> {
    let module = repo.wasm_out().join(MODULE);
    let bytes = fs::metadata(&module)
        .with_context(|| format!("cannot read {}", module.display()))?
        .len();
    println!("    {} kB of wasm", bytes / 1000);
    light_enough(bytes)
}

fn bind(module: &Path, out: &Path) -> Result<()> {
    Bindgen::new()
        .input_path(module)
        .web(true)?
        .typescript(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(out)
        .context("cannot write the bindings")
}

fn light_enough(bytes: u64) -> Result<()> {
    if bytes > MOST_BYTES {
        bail!(
            "the wasm module is {bytes} bytes; the page may load {MOST_BYTES}. See what grew before raising the limit"
        );
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::thread;
    use std::time::Duration;

    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn a_heavy_module_fails_with_both_numbers() {
        assert!(light_enough(MOST_BYTES).is_ok());
        let error = light_enough(MOST_BYTES + 1).unwrap_err().to_string();
        assert!(
            error.contains("900001") && error.contains("900000"),
            "{error}"
        );
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
