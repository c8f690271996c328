//! Outside values: figures that somebody else published or worked out, each with its source.
//!
//! One module for each part of the core; published tables stand in `data/`.
#![allow(missing_docs)]
