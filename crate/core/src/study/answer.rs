//! What may be asked, and what is answered.

use serde::{Deserialize, Serialize};

use crate::analysis::Ranges;
use crate::report::{BalanceFigures, ComparisonFigures, NudgeFigures};

/// What is asked of a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Question {
    /// Low and high of every quantity; low and high of the cost follow from them.
    Ranges,
    /// The coping at which cut and fill are even.
    Balance,
    /// What an inch of coping changes.
    CopingStep,
    /// The present placement beside those that were kept.
    Comparison,
    /// The report as text.
    ReportText,
    /// The report as JSON.
    ReportJson,
    /// The quantities and their cost as text.
    TakeoffText,
    /// The quantities and their cost as JSON.
    TakeoffJson,
    /// The quantities and their cost as a list for a spreadsheet.
    TakeoffList,
}

impl Question {
    /// Whether the answer speaks of the picture under the plan and of photographs, whose data takes long
    /// to check.
    pub(super) fn tells_images(self) -> bool {
        matches!(self, Self::ReportText | Self::ReportJson)
    }
}

/// The answer to a question.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
#[serde(tag = "kind", content = "value", rename_all = "kebab-case")]
pub enum Answer {
    /// Low and high of every quantity, SI units.
    Ranges(Ranges),
    /// Where earth is even; none before a shell is placed.
    Balance(Option<BalanceFigures>),
    /// What an inch of coping changes; no rows before a shell is placed.
    CopingStep(NudgeFigures),
    /// The placements side by side.
    Comparison(ComparisonFigures),
    /// The text of a report or a list.
    Text(String),
}
