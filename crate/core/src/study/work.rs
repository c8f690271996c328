//! The scenarios behind a question, one step at a time, and the answer they make.

use super::answer::{Answer, Question};
use crate::analysis::balance::Search;
use crate::analysis::compare::Columns;
use crate::analysis::coping_step::Copings;
use crate::analysis::sensitivity::Sensitivity;
use crate::analysis::{self, Analysis, Cache, Detail, Scenario};
use crate::finding::Finding;
use crate::report::{BalanceFigures, ComparisonFigures, NudgeFigures, Report, csv};
use crate::site::CheckedSite;
use crate::units::System;

/// The scenarios that a question needs.
#[derive(Debug)]
pub(super) enum Work {
    /// The plan, once; then, where low and high are asked for, both ends of every doubt.
    Plan(Box<Plan>),
    /// Copings in search of the one where earth is even; none before a shell is placed.
    Balance(Option<Search>),
    /// The coping an inch up and down.
    CopingStep(Copings),
    /// One placement after another.
    Comparison(Columns),
}

/// A plan as it is computed.
#[derive(Debug)]
pub(super) struct Plan {
    detail: Detail,
    cache: Cache,
    analysis: Option<Analysis>,
    sensitivity: Option<Sensitivity>,
}

impl Work {
    pub(super) fn new(site: &CheckedSite, question: Question) -> Self {
        match question {
            Question::Ranges => Self::Plan(Plan::new(Detail::Quantities)),
            Question::Balance => Self::Balance(Search::new(site)),
            Question::CopingStep => Self::CopingStep(Copings::default()),
            Question::Comparison => Self::Comparison(Columns::default()),
            Question::ReportText
            | Question::ReportJson
            | Question::TakeoffText
            | Question::TakeoffJson
            | Question::TakeoffList => Self::Plan(Plan::new(Detail::Complete)),
        }
    }

    /// Computes one more scenario; false when none was left.
    pub(super) fn step(&mut self, site: &CheckedSite) -> bool {
        match self {
            Self::Plan(plan) => plan.step(site),
            Self::Balance(search) => search.as_mut().is_some_and(|it| it.step(site)),
            Self::CopingStep(copings) => copings.step(site),
            Self::Comparison(columns) => columns.step(site),
        }
    }

    /// How many scenarios are done, and how many there are about.
    pub(super) fn progress(&self, site: &CheckedSite) -> (usize, usize) {
        match self {
            Self::Plan(plan) => plan.progress(),
            Self::Balance(search) => search.as_ref().map_or((0, 0), Search::progress),
            Self::CopingStep(copings) => copings.progress(),
            Self::Comparison(columns) => columns.progress(site),
        }
    }

    /// The answer, when no scenario is left.
    pub(super) fn answer(
        &mut self,
        site: &CheckedSite,
        question: Question,
        units: System,
        noticed: Vec<Finding>,
    ) -> Answer {
        match self {
            Self::Plan(plan) => plan.answer(site, question, units, noticed),
            Self::Balance(search) => {
                let found = search.as_ref().and_then(|it| it.balance(site));
                Answer::Balance(found.map(|it| BalanceFigures::of(&it, units)))
            }
            Self::CopingStep(copings) => {
                Answer::CopingStep(NudgeFigures::of(copings.changes(site), units))
            }
            Self::Comparison(columns) => {
                Answer::Comparison(ComparisonFigures::of(&columns.comparison(), site, units))
            }
        }
    }
}

impl Plan {
    fn new(detail: Detail) -> Box<Self> {
        Box::new(Self {
            detail,
            cache: Cache::default(),
            analysis: None,
            sensitivity: None,
        })
    }

    fn step(&mut self, site: &CheckedSite) -> bool {
        let Some(analysis) = &self.analysis else {
            let scenario = Scenario::of(site);
            let computed = analysis::run(&scenario, self.detail, &mut self.cache);
            let doubted = self.detail != Detail::Clearances;
            self.sensitivity = doubted.then(|| Sensitivity::new(site, &computed));
            self.analysis = Some(computed);
            return true;
        };
        let sensitivity = self.sensitivity.as_mut();
        sensitivity.is_some_and(|it| it.step(site, analysis, &mut self.cache))
    }

    fn progress(&self) -> (usize, usize) {
        let planned = usize::from(self.analysis.is_some());
        let (done, of) = match &self.sensitivity {
            Some(sensitivity) => sensitivity.progress(),
            // Every doubt has two ends; how many doubts there are is not known yet.
            None if self.analysis.is_none() && self.detail != Detail::Clearances => (0, MOST_ENDS),
            None => (0, 0),
        };
        (planned + done, 1 + of)
    }

    fn answer(
        &mut self,
        site: &CheckedSite,
        question: Question,
        units: System,
        noticed: Vec<Finding>,
    ) -> Answer {
        let mut analysis = self.analysis.take().unwrap_or_default();
        let ranges = self.sensitivity.as_ref().map(|it| it.ranges(&analysis));
        let ranges = ranges.unwrap_or_default();
        if question == Question::Ranges {
            self.analysis = Some(analysis);
            return Answer::Ranges(ranges);
        }
        analysis.findings.extend(noticed);
        analysis.set_ranges(&ranges, &site.site().rates);
        let answer = written(site, &analysis, question, units);
        self.analysis = Some(analysis);
        answer
    }
}

/// The most ends that doubts have: two of the swell, the over-dig and the ground.
const MOST_ENDS: usize = 6;

/// The text that was asked for.
fn written(site: &CheckedSite, analysis: &Analysis, question: Question, units: System) -> Answer {
    let report = || Report::new(site, analysis, units);
    Answer::Text(match question {
        Question::ReportText => report().to_text(),
        Question::ReportJson => report().to_json(),
        Question::TakeoffText => report().to_takeoff_text(),
        Question::TakeoffJson => report().to_takeoff_json(),
        Question::TakeoffList => csv::takeoff(site, analysis, units),
        Question::Ranges | Question::Balance | Question::CopingStep | Question::Comparison => {
            String::new()
        }
    })
}
