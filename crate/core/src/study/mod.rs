//! Long questions about a site, answered in steps that are short enough to be interrupted.
//!
//! A [`Study`] is made from a site and a [`Question`], computes one scenario in each
//! [`Study::step`] and says how far it is. It ends with an [`Answer`], plain data that can be sent
//! to whoever asked. In the browser it runs beside the page, in a worker; the command line runs it
//! to its end at once.
//!
//! ```
//! use batterboard_core::exchange;
//! use batterboard_core::session::Session;
//! use batterboard_core::study::{Answer, Question, Study};
//!
//! # fn main() -> Result<(), Vec<batterboard_core::finding::Finding>> {
//! let text = Session::new()?.save();
//! let mut study = Study::open(&text, Question::ReportText)?;
//! while !study.step().is_done() {}
//! let Some(Answer::Text(report)) = study.answer() else {
//!     unreachable!("a report is text")
//! };
//! assert!(report.contains("utility-locating service"));
//! # Ok(())
//! # }
//! ```

mod answer;
mod work;

pub use answer::{Answer, Question};

use std::sync::Arc;

use serde::Serialize;

use crate::exchange;
use crate::finding::Finding;
use crate::site::{CheckedSite, Site};
use crate::units::System;
use work::Work;

/// How far a study is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Progress {
    /// Steps done.
    pub done: usize,
    /// Steps in all. Of a search it is the most there can be, until it has ended.
    pub of: usize,
}

impl Progress {
    /// Whether the answer is there.
    pub fn is_done(self) -> bool {
        self.done >= self.of
    }
}

/// A question under way.
#[derive(Debug)]
pub struct Study {
    site: CheckedSite,
    units: System,
    noticed: Vec<Finding>,
    question: Question,
    work: Work,
    answer: Option<Answer>,
}

impl Study {
    /// A question about a site, to be answered in its own units.
    pub fn new(site: CheckedSite, question: Question) -> Self {
        Self {
            units: site.site().display,
            work: Work::new(&site, question),
            site,
            noticed: Vec::new(),
            question,
            answer: None,
        }
    }

    /// A question about the site of this text, as a session saved it.
    ///
    /// # Errors
    /// Every fault of the text.
    pub fn open(text: &str, question: Question) -> Result<Self, Vec<Finding>> {
        // It was checked before it was saved: of the present version, with nothing unknown in it.
        let mut site: Site = exchange::read_value(text).map_err(|fault| vec![fault])?;
        if !question.tells_images() {
            site.picture = None;
            site.photographs = Arc::default();
        }
        Ok(Self::new(CheckedSite::check(site, None)?, question))
    }

    /// The same, to be answered in these units.
    #[must_use]
    pub fn in_units(mut self, units: System) -> Self {
        self.units = units;
        self
    }

    /// The same, with what was noticed when the file was read: a report tells it.
    #[must_use]
    pub fn with_findings(mut self, findings: Vec<Finding>) -> Self {
        self.noticed = findings;
        self
    }

    /// Computes one more scenario, or makes the answer of those that were computed.
    pub fn step(&mut self) -> Progress {
        if self.answer.is_none() && !self.work.step(&self.site) {
            let noticed = core::mem::take(&mut self.noticed);
            let answer = self
                .work
                .answer(&self.site, self.question, self.units, noticed);
            self.answer = Some(answer);
        }
        let (done, of) = self.work.progress(&self.site);
        match self.answer {
            Some(_) => Progress {
                done: done + 1,
                of: done + 1,
            },
            None => Progress { done, of: of + 1 },
        }
    }

    /// The answer, once every step is done.
    pub fn answer(&self) -> Option<&Answer> {
        self.answer.as_ref()
    }

    /// Takes every step that is left, one after another.
    pub fn run(mut self) -> Answer {
        loop {
            self.step();
            if let Some(answer) = self.answer {
                return answer;
            }
        }
    }
}

#[cfg(test)]
mod tests;
