//! The steps of `test`, in the order they run: cheap and telling first, the browser last.

use std::cell::RefCell;

use anyhow::{Result, anyhow};

use crate::repo::Repo;
use crate::wasm::Build;
use crate::wasm_target::Toolchain;
use crate::{browser, fuzz, node, page, program, python, sh, tidy, wasm, weight};

/// One step.
pub struct Step {
    /// What `--only` and `--skip` call it.
    pub name: &'static str,
    /// What it checks, for people.
    pub title: &'static str,
    pub run: fn(&Run<'_>) -> Result<()>,
}

/// What the steps of one run share.
pub struct Run<'a> {
    repo: &'a Repo,
    page: RefCell<Page>,
}

/// The page in this run.
enum Page {
    NotBegun,
    /// Being built beside other steps.
    Underway(page::Beside),
    Built,
    Failed,
}

impl<'a> Run<'a> {
    /// A run in which nothing was done yet.
    pub fn new(repo: &'a Repo) -> Self {
        Self {
            repo,
            page: RefCell::new(Page::NotBegun),
        }
    }

    /// Begins to build the page beside the steps before it: link-time optimisation keeps one core for minutes and leaves
    /// the others.
    ///
    /// # Errors
    /// When it cannot be begun.
    pub fn begin_page(&self) -> Result<()> {
        self.page
            .replace(Page::Underway(page::Beside::begin(self.repo)?));
        Ok(())
    }

    /// Builds the page or waits for it, once per run: every step that needs it may ask.
    fn page(&self) -> Result<()> {
        let built = match self.page.replace(Page::Failed) {
            Page::NotBegun => page::build(self.repo, Build::Finished),
            Page::Underway(beside) => beside.wait(),
            Page::Built => Ok(()),
            Page::Failed => Err(anyhow!(
                "the page could not be built: mend the step `page` first"
            )),
        };
        if built.is_ok() {
            self.page.replace(Page::Built);
        }
        built
    }

    /// Cargo for the packages tested natively, which are linted as they are built.
    fn native(&self, args: &[&str]) -> Result<()> {
        sh::run(&mut program::cargo(
            self.repo,
            &[args, &program::NATIVE].concat(),
        ))
    }

    fn cargo(&self, args: &[&str]) -> Result<()> {
        sh::run(&mut sh::cargo(self.repo.root(), args))
    }
}

/// Every step, in order.
pub const STEPS: [Step; 12] = [
    Step {
        name: "tidy",
        title: "the tree keeps its layers and its shape",
        run: |run| tidy::run(run.repo),
    },
    Step {
        name: "format",
        title: "the Rust code is formatted",
        run: |run| run.cargo(&["fmt", "--all", "--check"]),
    },
    Step {
        name: "clippy",
        title: "no lint warns",
        run: clippy,
    },
    Step {
        name: "core",
        title: "unit, property and reference tests in Rust",
        run: core,
    },
    Step {
        name: "doc",
        title: "the examples in the documentation run",
        run: |run| run.native(&["test", "--doc"]),
    },
    Step {
        name: "runner",
        title: "the task runner's own tests",
        run: |run| run.cargo(&["test", "--package", "xtask"]),
    },
    Step {
        name: "reference",
        title: "comparisons with other libraries, in Python",
        run: |run| python::reference_checks(run.repo),
    },
    Step {
        name: "page",
        title: "core, wasm and page build",
        run: |run| run.page(),
    },
    Step {
        name: "weight",
        title: "the page is light enough to fetch",
        run: weight,
    },
    Step {
        name: "types",
        title: "the page's types and unit tests",
        run: types,
    },
    Step {
        name: "browser",
        title: "the page works, with mouse and with touch",
        run: browser,
    },
    Step {
        name: "same-report",
        title: "native and wasm give the same bytes",
        run: same_report,
    },
];

/// The names of the steps.
pub fn names() -> [&'static str; STEPS.len()] {
    STEPS.map(|step| step.name)
}

/// What is tested natively is linted while its tests are built, as they are built elsewhere. The web layer is linted as what it is built for, where the toolchain can.
fn clippy(run: &Run<'_>) -> Result<()> {
    let deny = ["--all-targets", "--", "--deny", "warnings"];
    let browser = wasm::PACKAGES.map(|it| ["--package", it]).concat();
    run.native(&["test", "--no-run", "--all-targets"])?;
    run.cargo(&[&["clippy", "--package", "xtask"], &deny[..]].concat())?;
    match Toolchain::ensure(run.repo)? {
        Toolchain::Own => sh::run(&mut Toolchain::Own.cargo(
            run.repo,
            "clippy",
            &[&browser[..], &deny[1..]].concat(),
        )),
        Toolchain::Debian => {
            println!(
                "    Debian's toolchain has no clippy: the browser build is linted as native code"
            );
            run.cargo(&[&["clippy"], &browser[..], &deny].concat())
        }
    }
}

/// With nextest where it is installed.
fn core(run: &Run<'_>) -> Result<()> {
    let nextest = sh::answer(&mut sh::cargo(run.repo.root(), &["nextest", "--version"])).is_some();
    let how: &[&str] = if nextest {
        &["nextest", "run", "--no-fail-fast"]
    } else {
        &["test", "--tests", "--no-fail-fast"]
    };
    let mut cargo = program::cargo(run.repo, &[how, &program::NATIVE].concat());
    // The same cases on every machine; `fuzz` draws others.
    sh::run(cargo.env(fuzz::SEED.0, fuzz::SEED.1))
}

fn weight(run: &Run<'_>) -> Result<()> {
    run.page()?;
    weight::check(run.repo)
}

fn types(run: &Run<'_>) -> Result<()> {
    // The page's types include those of the bindings, which the build writes.
    run.page()?;
    node::script(&run.repo.www(), "check")?;
    let tests = run.repo.browser_tests();
    node::install(&tests)?;
    node::script(&tests, "check")
}

/// Some specs hold what the page says against what the program says of the same site.
fn browser(run: &Run<'_>) -> Result<()> {
    run.page()?;
    let binary = program::build(run.repo)?;
    browser::test(run.repo, &[(program::VARIABLE, &binary)])
}

fn same_report(run: &Run<'_>) -> Result<()> {
    run.page()?;
    let binary = program::build(run.repo)?;
    let mut check = sh::command(run.repo.root(), "node", &["tests/browser/same_report.mjs"]);
    sh::run(check.env(program::VARIABLE, binary))
}
