//! The sheets as they leave the program: every text on its paper and on no other, true to scale, and files that other
//! programs read.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    missing_docs
)]

mod files;
mod legible;
mod photographs;
#[cfg(feature = "png")]
mod pixels;
mod scale;
mod told;

use std::path::Path;

use batterboard_core::exchange;
use batterboard_paper::{Document, Job, Language, SheetKind, SheetWish, make};

/// The sites that go with the planner.
pub const DEMOS: [&str; 4] = [
    "creek-side-deed",
    "level-suburban",
    "sloping-hillside",
    "wedge-cul-de-sac",
];

/// A demo site's file.
pub fn demo_text(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../../demo-sites/{name}.json"));
    std::fs::read_to_string(path).unwrap()
}

/// A demo site, worked out.
pub fn demo(name: &str) -> Job {
    Job::of(exchange::open(&demo_text(name)).unwrap(), None)
}

/// A sheet that is there, in its language; none where the job has nothing for it.
pub fn sheet(job: &Job, wanted: &SheetWish) -> Option<Document> {
    match make(job, wanted) {
        Ok((document, _)) => Some(document),
        Err(fault) => {
            let expected = match fault.code {
                "nothing-read" => wanted.kind == SheetKind::Record,
                "language-not-there" => wanted.language == Language::Spanish,
                _ => false,
            };
            assert!(expected, "{fault:?}");
            None
        }
    }
}
