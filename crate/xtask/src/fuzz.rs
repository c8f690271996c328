//! `fuzz`: looks for what breaks it, further than the tests that every change must pass.
//!
//! Those draw the same cases on every machine, so that a tree passes or fails and does not do either by chance. Here they are
//! drawn anew: hostile texts and random edits ([`TARGET`]), and every property, round after round.

use std::time::{SystemTime, UNIX_EPOCH};

use anyhow::{Result, bail};

use crate::program;
use crate::repo::Repo;
use crate::sh;

/// The test crate of hostile texts and random edits.
const TARGET: &str = "fuzz";

/// What proptest draws from where a change is tested.
pub const SEED: (&str, &str) = ("PROPTEST_RNG_SEED", "2026");

/// How far to look.
pub struct Reach {
    /// Texts for each reader.
    pub inputs: u32,
    /// Edits on each demo site.
    pub edits: u32,
    /// How often every property draws its cases anew.
    pub rounds: u32,
    /// The first seed; every round takes the next.
    pub seed: u64,
}

/// A seed that nobody chose.
pub fn by_the_clock() -> u64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    since.map_or(0, |it| it.as_secs())
}

/// Looks that far, and goes on after what it finds.
///
/// # Errors
/// When something was found: which seed, and how to draw it again.
pub fn run(repo: &Repo, reach: &Reach) -> Result<()> {
    let mut found = Vec::new();
    let mut look = |crate_name: &str, seed: u64, serial: bool| {
        let mut args = vec!["test", "--test", crate_name, "--no-fail-fast"];
        args.extend(program::NATIVE);
        if serial {
            args.extend(["--", "--nocapture"]);
        }
        let done = sh::run(
            program::cargo(repo, &args)
                .env("BATTERBOARD_FUZZ_INPUTS", reach.inputs.to_string())
                .env("BATTERBOARD_FUZZ_EDITS", reach.edits.to_string())
                .env("BATTERBOARD_FUZZ_SEED", seed.to_string())
                .env(SEED.0, seed.to_string()),
        );
        if done.is_err() {
            found.push(format!("{crate_name} with seed {seed}"));
        }
    };
    sh::say("Hostile texts and random edits");
    look(TARGET, reach.seed, true);
    for round in 0..reach.rounds {
        sh::say(&format!(
            "Every property, round {} of {}",
            round + 1,
            reach.rounds
        ));
        look("property", reach.seed.wrapping_add(round.into()), false);
    }
    if found.is_empty() {
        println!("nothing found");
        return Ok(());
    }
    bail!(
        "{}: make each a test by name, with what was kept in tests/fuzz/found or tests/proptest-regressions",
        found.join(", ")
    )
}
