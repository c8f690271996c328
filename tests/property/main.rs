//! Properties that hold for every input, each number reached a second, independent way.
//!
//! One module for each part of the core.
#![allow(missing_docs)]

mod lot;
mod units;
