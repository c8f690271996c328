//! The command line as scripts use it, in one test crate: it is linked once.
#![allow(missing_docs)]
// Helpers outside `#[test]` functions count as plain code for these lints; a panic here fails a test.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod batch;
mod book;
mod command;
mod deed;
mod exchange;
mod figures;
mod fit;
mod golden;
mod members;
mod photographs;
mod run;
mod sheet;
mod shells;
mod stakes;
mod sun;
mod way_in;
