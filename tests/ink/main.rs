//! The inks of the plan in every theme: that each reads on its paper, that what is told apart in one theme is told apart
//! in all, and that nothing is told by color alone.
//!
//! The modules of the web layer are taken in as they are: they hold plain colors and need no browser.
#![allow(missing_docs, dead_code)]
// Helpers outside `#[test]` functions count as plain code for these lints; a panic here fails a test.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

#[path = "../../crate/web/src/paint/ink/mod.rs"]
mod ink;

mod apart;
mod every;
mod reads;
mod sight;
