//! `bench`: a drag in the browser on every demo site, the core natively, what it costs at growing
//! sizes, the core beside other libraries, and what the page weighs.

mod batch;
mod chart;
mod cost;
mod criterion;
mod drag;
mod peers;

use std::time::SystemTime;

use anyhow::Result;
use clap::ValueEnum;

use crate::repo::Repo;
use crate::wasm::Build;
use crate::{page, sh, weight};

/// What can be measured by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Part {
    /// The built page in the browser, and its weight.
    Browser,
    /// The core, natively.
    Native,
    /// The core at growing sizes, and many sites in one call.
    Cost,
    /// The core beside other libraries.
    Peers,
}

/// What is measured and what becomes of it.
#[derive(Clone, Debug)]
pub struct Choice {
    /// The parts; all of them when empty.
    pub only: Vec<Part>,
    /// The largest size of the costs, where it is not the bench's own.
    pub most: Option<u32>,
    /// Whether table and picture of the costs are kept in the tree.
    pub keep: bool,
}

impl Choice {
    fn has(&self, part: Part) -> bool {
        self.only.is_empty() || self.only.contains(&part)
    }
}

/// Measures everything chosen and prints the tables: the whole frame first.
///
/// # Errors
/// When a benchmark cannot be built or run or leaves no figures, and when a target is missed.
pub fn run(repo: &Repo, choice: &Choice) -> Result<()> {
    // The page before the core: the machine is still cool, and its figures are what is aimed at.
    let drags = if choice.has(Part::Browser) {
        page::build(repo, Build::Finished)?;
        Some(drag::run(repo)?)
    } else {
        None
    };
    let natively = if choice.has(Part::Native) {
        sh::say("Timing the core natively");
        let start = SystemTime::now();
        let args = ["bench", "--package", "batterboard-core"];
        let benches = ["--bench", "dig", "--bench", "geom", "--bench", "analysis"];
        sh::run(&mut sh::cargo(repo.root(), &[&args[..], &benches].concat()))?;
        Some(criterion::runs(&repo.target().join("criterion"), start)?)
    } else {
        None
    };
    if choice.has(Part::Cost) {
        cost::run(repo, choice.most, choice.keep)?;
    }
    if choice.has(Part::Peers) {
        peers::run(repo)?;
    }
    if let Some(drags) = &drags {
        println!("\n{}", drag::table(drags));
    }
    if let Some(runs) = &natively {
        println!("{:<48} {:>12}", "the core natively", "median, ms");
        for run in runs {
            println!("{:<48} {:>12.3}", run.name, run.median_ms);
        }
    }
    drags.map_or(Ok(()), |drags| {
        weight::check(repo).and_then(|()| drag::hold(&drags))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_chosen_means_everything() {
        let all = Choice {
            only: Vec::new(),
            most: None,
            keep: false,
        };
        assert!(all.has(Part::Cost) && all.has(Part::Native));
        let one = Choice {
            only: vec![Part::Cost],
            ..all
        };
        assert!(one.has(Part::Cost) && !one.has(Part::Browser));
    }
}
