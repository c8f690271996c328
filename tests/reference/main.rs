//! Outside values: figures that somebody else published or worked out, each with its source.
//!
//! A value was *read in* a public page or file, recalled *from memory* of a publication that
//! was not opened, or *computed independently* with other software; each check says which. A
//! value from memory is never shown to a user as what a code says.
//!
//! One module for each part of the core; published tables stand in `data/`.
#![allow(missing_docs)]
// Helpers outside `#[test]` functions count as plain code for these lints; a panic here fails a test.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod access;
mod clear_ground;
mod clearance;
mod deed;
mod dig;
mod earthwork;
mod geometry;
mod grading;
mod ground;
mod groundwater;
mod landxml;
mod listed;
mod lot;
mod pipe;
mod safety;
mod shell;
mod sketch;
mod soil;
mod sources;
mod stakeout;
mod sun;
mod takeoff;
mod units;
mod yard;

/// Asserts that two figures agree within a tolerance, and says by how much they do not.
#[track_caller]
fn close(what: &str, actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{what}: {actual} is not {expected} within {tolerance}"
    );
}
