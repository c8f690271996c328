//! Properties that hold for every input, each number reached a second, independent way.
//!
//! One module for each part of the core.
#![allow(missing_docs)]
// Helpers outside `#[test]` functions count as plain code for these lints; a panic here fails a test.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod analysis;
mod assumed;
mod bands;
mod clear_ground;
mod clearance;
mod cuts;
mod deed;
mod dig;
mod dig_sides;
mod exchange;
mod fit;
mod geom;
mod grading;
mod ground;
mod import;
mod labels;
mod laid;
mod landxml;
mod lot;
mod picture;
mod required;
mod scene;
mod shapes;
mod shell;
mod sketch;
mod stakeout;
mod sun;
mod tapes;
mod units;
mod verdict;
mod way_in;
mod workings;
