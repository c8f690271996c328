//! The wasm layer: four modules built for the browser, then given their TypeScript bindings.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use crate::repo::Repo;
use crate::wasm_target::{TRIPLE, Toolchain};
use crate::{node, sh};

/// Flattened and looped anew, then twice over: each finds something in what the other left. Then
/// without arguments that nobody uses and values that never occur, and the functions that are
/// called most put first, where their numbers are short.
const PASSES: [&str; 9] = [
    "-Oz",
    "--flatten",
    "--rereloop",
    "-Oz",
    "-Oz",
    "--dae-optimizing",
    "--gufa-optimizing",
    "-Oz",
    "--reorder-functions",
];

/// One of the modules that the page loads.
struct Module {
    /// The binary of `batterboard-web` it is built from.
    binary: &'static str,
    /// What its files are called beside the page's sources.
    name: &'static str,
    /// What it may weigh before compression.
    most_bytes: u64,
}

/// The modules, from one build.
const MODULES: [Module; 4] = [
    // Loaded in a yard, over a phone, before anything is seen.
    Module {
        binary: "planner",
        name: "batterboard_web",
        most_bytes: 900_000,
    },
    // Loaded at the first text to be read, and beforehand by the service worker: it may never make
    // a visit half as heavy again, and what outgrows that wants another look.
    Module {
        binary: "intake",
        name: "batterboard_intake",
        most_bytes: 500_000,
    },
    // Loaded when a report is asked for: the core again, without a page to work on, so it may never
    // outweigh the planner.
    Module {
        binary: "report",
        name: "batterboard_report",
        most_bytes: 900_000,
    },
    // Loaded once the plan is on the screen and can be worked on: the core again, with everything
    // that the plan does without. Nobody waits for it with an empty screen, so it may weigh a
    // ninth more than the planner.
    Module {
        binary: "estimate",
        name: "batterboard_estimate",
        most_bytes: 1_000_000,
    },
];

/// How the modules are built.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Build {
    /// As the page ships: small.
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

/// Builds the wasm layer and writes its modules and their bindings into the page's sources.
///
/// # Errors
/// When no compiler can be had or the build fails.
pub fn build(repo: &Repo, how: Build) -> Result<()> {
    let toolchain = Toolchain::ensure(repo)?;
    sh::say("Building the core for the browser");
    let what = ["--package", "batterboard-web", "--bins", "--profile"];
    let what = [&what[..], &[how.profile()]].concat();
    sh::run(&mut match how {
        Build::Finished => toolchain.cargo_for_size(repo, &what),
        Build::Quick => toolchain.cargo(repo, "build", &what),
    })?;
    let products = toolchain.target_dir(repo).join(TRIPLE).join(how.profile());
    for module in &MODULES {
        write(repo, module, &products, how)?;
    }
    Ok(())
}

/// Writes one module for the page, unless it is there from the same build.
fn write(repo: &Repo, module: &Module, products: &Path, how: Build) -> Result<()> {
    let built = products.join(module.binary).with_extension("wasm");
    let stamp = repo.wasm_out().join(module.binary).with_extension("built");
    let same = fs::read_to_string(&stamp).is_ok_and(|text| text == how.profile());
    if same && is_newer(&stamp, &[&built, &std::env::current_exe()?]) {
        return Ok(());
    }
    sh::say(&format!("Writing the bindings of the {}", module.binary));
    bind(&built, module, &repo.wasm_out())?;
    if how == Build::Finished {
        shrink(repo, module)?;
    }
    fs::write(&stamp, how.profile()).with_context(|| format!("cannot write {}", stamp.display()))
}

/// Whether `made` is there and newer than everything it was made from.
fn is_newer(made: &Path, from: &[&Path]) -> bool {
    let time = |path: &Path| fs::metadata(path).and_then(|it| it.modified()).ok();
    let Some(made) = time(made) else { return false };
    from.iter()
        .all(|path| time(path).is_some_and(|it| it < made))
}

/// Lets Binaryen take out what the compiler left: about a twentieth of the module.
fn shrink(repo: &Repo, module: &Module) -> Result<()> {
    node::install(&repo.www())?;
    sh::say(&format!("Making the {} smaller", module.binary));
    let optimiser = repo.www().join("node_modules/binaryen/bin/wasm-opt");
    let module = module.path(repo);
    let mut node = sh::command(repo.root(), "node", &[&optimiser, &module]);
    node.arg("--output")
        .arg(&module)
        .args(FEATURES)
        .args(PASSES);
    sh::run(&mut node).context("the module could not be made smaller")
}

/// Checks what the built modules weigh: apart from building, so that a page too heavy can still be
/// looked at.
///
/// # Errors
/// When one is too heavy or was never built.
pub fn weigh(repo: &Repo) -> Result<()> {
    let mut heavy = Vec::new();
    for module in &MODULES {
        let path = module.path(repo);
        let bytes = fs::metadata(&path)
            .with_context(|| format!("cannot read {}", path.display()))?
            .len();
        println!("    {} kB of wasm: the {}", bytes / 1000, module.binary);
        heavy.extend(module.too_heavy(bytes));
    }
    if !heavy.is_empty() {
        bail!("{}. See what grew before raising a limit", heavy.join("; "));
    }
    Ok(())
}

fn bind(built: &Path, module: &Module, out: &Path) -> Result<()> {
    Bindgen::new()
        .input_path(built)
        .out_name(module.name)
        .web(true)?
        .typescript(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(out)
        .context("cannot write the bindings")
}

impl Module {
    /// The module as the page loads it.
    fn path(&self, repo: &Repo) -> PathBuf {
        repo.wasm_out().join(format!("{}_bg.wasm", self.name))
    }

    /// What is wrong with a module of this weight.
    fn too_heavy(&self, bytes: u64) -> Option<String> {
        let Self {
            binary, most_bytes, ..
        } = self;
        (bytes > *most_bytes)
            .then(|| format!("the {binary} is {bytes} bytes of wasm and may be {most_bytes}"))
    }
}

#[cfg(test)]
mod tests {
    use std::thread;
    use std::time::Duration;

    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn a_heavy_module_fails_with_its_name_and_both_numbers() {
        let tree = Scratch::new("weight");
        let repo = Repo::at(tree.root());
        let write = |module: &Module, bytes: u64| {
            fs::create_dir_all(repo.wasm_out()).unwrap();
            let file = fs::File::create(module.path(&repo)).unwrap();
            file.set_len(bytes).unwrap();
        };
        assert!(weigh(&repo).is_err(), "a page never built weighs nothing");
        MODULES.iter().for_each(|it| write(it, it.most_bytes));
        weigh(&repo).unwrap();
        let bounds = [900_000, 500_000, 900_000, 1_000_000];
        for (module, number) in MODULES.iter().zip(bounds) {
            write(module, number + 1);
            let error = weigh(&repo).unwrap_err().to_string();
            for part in [
                module.binary,
                &number.to_string(),
                &(number + 1).to_string(),
            ] {
                assert!(error.contains(part), "{part} in {error}");
            }
            write(module, number);
        }
    }

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
