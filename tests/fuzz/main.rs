//! Hostile files and long days: whatever is read is read or refused, and whatever is done can be undone.
//!
//! Texts come from the demo sites and the examples of other tests, changed at random: [`change`]. Each reader takes many of
//! them, [`readers`], and whole ones ended too early, [`cut_off`]; sessions are edited at random, [`edits`]. A share that
//! is the same on every machine runs with the other tests; `cargo xtask fuzz` looks further. A text that breaks a reader
//! is kept in `found/` and read again by every run from then on.
#![allow(missing_docs)]
// A panic here fails a test.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod change;
mod cut_off;
mod edits;
mod readers;

use std::path::{Path, PathBuf};

use rand::SeedableRng;
use rand_pcg::Pcg64;

/// A number of the environment, or what counts without it.
fn told(name: &str, otherwise: u64) -> u64 {
    std::env::var(name)
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(otherwise)
}

/// What draws for a test: the same wherever nobody asked for another seed.
fn dice(test: &str) -> Pcg64 {
    let name: u64 = test.bytes().map(u64::from).sum();
    Pcg64::seed_from_u64(told("BATTERBOARD_FUZZ_SEED", 2_026).wrapping_add(name))
}

fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests")
}

fn demo(name: &str) -> String {
    let path = tests().join(format!("../demo-sites/{name}.json"));
    std::fs::read_to_string(path).unwrap()
}

const DEMOS: [&str; 4] = [
    "creek-side-deed",
    "level-suburban",
    "sloping-hillside",
    "wedge-cul-de-sac",
];
