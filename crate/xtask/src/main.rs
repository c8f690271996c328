//! The task runner: `cargo xtask <task>` does every piece of work around the planner.
//!
//! - `serve` sets everything up, builds the page and serves it on this machine alone;
//! - `build` does the same without serving; `--quick` makes either sooner, for a look;
//! - `test` runs every check a change must pass, and says how to run a failed one alone;
//! - `bench` drags the shell in the browser, times the core, plots what it costs at growing sizes, and weighs the page;
//! - `dist` lays out what is handed on;
//! - `fuzz` looks further for what breaks it;
//! - `audit` asks what comes from outside, and whether the page can be made again byte for byte;
//! - `doctor` lists the tools, what was found and what to do about what is missing;
//! - `tidy` polices the tree: layers, file sizes, stray names.
//!
//! Every task says what it is doing, and fails with what to do next. Nothing here knows anything
//! about pools: see `batterboard-core` for that.

mod apt;
mod audit;
mod bench;
mod browser;
mod built_in;
mod clock;
mod demo;
mod dist;
mod doctor;
mod fuzz;
mod node;
mod page;
mod program;
mod python;
mod repo;
mod sh;
mod steps;
mod suite;
mod tidy;
mod tools;
mod wasm;
mod wasm_target;
mod weight;

use std::process::ExitCode;

use clap::builder::PossibleValuesParser;
use clap::{Parser, Subcommand};

use crate::repo::Repo;
use crate::wasm::Build;

#[derive(Parser)]
#[command(
    name = "cargo xtask",
    bin_name = "cargo xtask",
    about = "The batterboard task runner"
)]
struct Args {
    #[command(subcommand)]
    task: Task,
}

#[derive(Subcommand)]
enum Task {
    /// Set up, build everything and serve the page on this machine
    Serve {
        /// The port to listen on; without it, the first free one from 8642 up
        #[arg(long)]
        port: Option<u16>,
        /// For a look: soon built, heavy to load
        #[arg(long)]
        quick: bool,
    },
    /// Build the core, the wasm layer and the page
    Build {
        /// Stop after the wasm layer and its bindings
        #[arg(long)]
        no_page: bool,
        /// For a look: soon built, heavy to load
        #[arg(long)]
        quick: bool,
    },
    /// Run every check a change must pass
    Test {
        /// Run this step alone (may be given more than once)
        #[arg(long, value_name = "STEP", value_parser = PossibleValuesParser::new(steps::names()))]
        only: Vec<String>,
        /// Leave this step out (may be given more than once)
        #[arg(long, value_name = "STEP", value_parser = PossibleValuesParser::new(steps::names()))]
        skip: Vec<String>,
    },
    /// Time a drag in the browser and the core natively, and at growing sizes; weigh the page
    Bench {
        /// Measure this part alone (may be given more than once)
        #[arg(long, value_name = "PART")]
        only: Vec<bench::Part>,
        /// Go no further than this size, for a look
        #[arg(long, value_name = "SIZE")]
        most: Option<u32>,
        /// Keep the table and the picture of the costs in the tree, beside the bench
        #[arg(long)]
        keep: bool,
    },
    /// Lay out what is handed on: the page for any static host, the command line, sums of all files
    Dist,
    /// Look for what breaks it: hostile texts, random edits, every property drawn anew
    Fuzz {
        /// Texts for each reader
        #[arg(long, default_value_t = 20_000)]
        inputs: u32,
        /// Edits on each demo site
        #[arg(long, default_value_t = 500)]
        edits: u32,
        /// How often every property is drawn anew
        #[arg(long, default_value_t = 1)]
        rounds: u32,
        /// What is drawn from; by the clock without it
        #[arg(long)]
        seed: Option<u64>,
    },
    /// Ask what comes from outside (licenses, sources, sums), and whether the page can be made again byte for byte
    Audit,
    /// List the tools: wanted, found, and what to do
    Doctor,
    /// Police the tree: layers, file sizes, stray names
    Tidy,
}

fn main() -> ExitCode {
    let args = Args::parse();
    let done = Repo::find().and_then(|repo| match args.task {
        Task::Serve { port, quick } => {
            page::build(&repo, how(quick)).and_then(|()| page::serve(&repo, port))
        }
        Task::Build { no_page, quick } => build(&repo, no_page, how(quick)),
        Task::Test { only, skip } => suite::run(&repo, &suite::Choice { only, skip }),
        Task::Bench { only, most, keep } => bench::run(&repo, &bench::Choice { only, most, keep }),
        Task::Dist => dist::run(&repo),
        Task::Fuzz {
            inputs,
            edits,
            rounds,
            seed,
        } => {
            let reach = fuzz::Reach {
                inputs,
                edits,
                rounds,
                seed: seed.unwrap_or_else(fuzz::by_the_clock),
            };
            fuzz::run(&repo, &reach)
        }
        Task::Audit => audit::run(&repo),
        Task::Doctor => doctor::run(&repo),
        Task::Tidy => tidy::run(&repo),
    });
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("\nfailed: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn how(quick: bool) -> Build {
    if quick { Build::Quick } else { Build::Finished }
}

fn build(repo: &Repo, no_page: bool, how: Build) -> anyhow::Result<()> {
    if no_page {
        return wasm::build(repo, how);
    }
    page::build(repo, how)
}
