//! What leaves the screen: sheets to scale, as display lists in millimeters of paper, written as PDF, SVG and PNG.
//!
//! ```text
//! site ──Job──▶ figures, drawings, sections ──SheetKind──▶ Document (marks on pages) ──pdf, svg──▶ bytes
//! ```
//!
//! A [`Job`] is a site with everything that follows from it; [`make`] turns it into the [`Document`] of the sheet that is
//! [`SheetWish`]; [`pdf::of`] and [`svg::of`] write it. The same job and the same wish give the same bytes natively and in
//! the browser. Nothing here has a rule or a formula of its own: what is told comes from the core.
//!
//! | module | idea |
//! |---|---|
//! | [`job`] | what a sheet is made from, and what was asked for |
//! | [`mark`], [`face`], [`pen`] | the display list, its letters, the hand that writes it |
//! | [`flow`] | text and tables poured into columns |
//! | [`scale`] | papers and scales |
//! | [`plan`], `ink`, `legend`, `section` | drawings of the core in a window of the paper |
//! | `binder`, `blocks`, `site_plan` | frame, title block and what sheets have in common |
//! | `permit`, `dig`, `takeoff`, `home`, `record`, `full_report` | one sheet each |
//! | `photographs`, `pins` | the photographs of the yard, and where they were taken |
//! | [`yard`] | the homeowner's view on a screen |
//! | [`pdf`], [`svg`], `png`, [`read`] | the files, and the site back out of them |
//! | [`words`], `spanish` | English and Spanish |
//!
//! It is a crate of its own so that the page fetches it with the first sheet and not before.

mod binder;
mod blocks;
mod covered;
mod dig;
pub mod face;
pub mod flow;
mod full_report;
mod home;
mod ink;
pub mod job;
mod legend;
pub mod mark;
pub mod pdf;
pub mod pen;
mod permit;
mod photographs;
mod pins;
pub mod plan;
#[cfg(feature = "png")]
pub mod png;
pub mod read;
mod record;
pub mod revision;
pub mod scale;
mod section;
mod site_plan;
mod spanish;
pub mod svg;
mod takeoff;
pub mod words;
pub mod yard;

pub use job::{Job, PlanPart, SheetKind, SheetWish};
pub use mark::Document;
pub use scale::{Lie, Paper, Scale};
pub use words::Language;

use batterboard_core::finding::Finding;

/// The sheet that is wanted of a job, and what is worth knowing about it: a part of the lot that lies outside.
///
/// # Errors
/// With what is missing: no shell, no readings, a language that the sheet does not come in.
pub fn make(job: &Job, wanted: &SheetWish) -> Result<(Document, Vec<Finding>), Finding> {
    if !wanted.kind.speaks(wanted.language) {
        return Err(Finding::fault(
            "language-not-there",
            "This sheet comes in English only.",
            "Take the dig sheet, the homeowner's sheet or the record in Spanish, or this one in English.",
        ));
    }
    match wanted.kind {
        SheetKind::Permit => Ok(permit::make(job, wanted)),
        SheetKind::Dig => dig::make(job, wanted),
        SheetKind::Takeoff => takeoff::make(job, wanted),
        SheetKind::Home => home::make(job, wanted),
        SheetKind::Record => record::make(job, wanted),
        SheetKind::Report => Ok(full_report::make(job, wanted)),
    }
}

fn no_shell() -> Finding {
    Finding::fault(
        "no-shell",
        "No shell is placed yet, and this sheet is about one.",
        "Choose a shell and place it; the permit plan comes without one.",
    )
    .under("/placement")
}
