//! What is wrong or worth knowing: where, how bad, and what to do about it.
//!
//! Everything that enters the planner (a file, a field, a paste) and everything it
//! notices by itself is told as a [`Finding`]. A *fault* bars the way: the value is not
//! taken, the open work stays. A *caution* goes beside the number it concerns. A *note*
//! says which assumption a number rests on.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How much a finding matters.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Worth knowing; changes nothing.
    Note,
    /// A hazard or an assumption to check before anyone relies on the number.
    Caution,
    /// The value cannot be used; it was not taken.
    Fault,
}

/// One thing that somebody should know.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// A stable kebab-case name of the check that spoke, for tests and scripts.
    pub check: &'static str,
    /// Where: a JSON pointer into the site file (`/features/2/outline`), or empty for the whole.
    pub place: String,
    /// Where on the plan, in site metres, if it has a place there.
    pub at: Option<[f64; 2]>,
    /// What is wrong, in a sentence.
    pub message: String,
    /// How to mend it, in a sentence; empty when nothing is to be done.
    pub remedy: String,
}

impl Finding {
    /// A finding of the given severity, with no place yet.
    pub fn new(
        severity: Severity,
        check: &'static str,
        message: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self {
            severity,
            check,
            place: String::new(),
            at: None,
            message: message.into(),
            remedy: remedy.into(),
        }
    }

    /// A fault: the value cannot be used.
    pub fn fault(
        check: &'static str,
        message: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self::new(Severity::Fault, check, message, remedy)
    }

    /// A caution: a hazard or an assumption.
    pub fn caution(
        check: &'static str,
        message: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self::new(Severity::Caution, check, message, remedy)
    }

    /// A note.
    pub fn note(
        check: &'static str,
        message: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self::new(Severity::Note, check, message, remedy)
    }

    /// The same finding, placed below `prefix` in the site file.
    #[must_use]
    pub fn under(mut self, prefix: &str) -> Self {
        self.place = format!("{prefix}{}", self.place);
        self
    }

    /// The same finding, placed at a point of the plan (site metres).
    #[must_use]
    pub fn at(mut self, x: f64, y: f64) -> Self {
        self.at = Some([x, y]);
        self
    }

    /// Whether this finding bars the way.
    pub fn is_fault(&self) -> bool {
        self.severity == Severity::Fault
    }
}

/// Why a figure is weaker than it looks: said in a word beside the figure itself.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Caveat {
    /// It is measured to a lot whose courses close worse than was asked.
    PoorClosure,
    /// It rests on ground that nobody has measured.
    UnknownGround,
    /// It rests on groundwater whose level nobody has measured; it is the worst case.
    UnknownGroundwater,
}

impl Caveat {
    /// The caveat in a few words, lower case.
    pub fn words(self) -> &'static str {
        match self {
            Self::PoorClosure => "the lot closes poorly",
            Self::UnknownGroundwater => "worst case",
            Self::UnknownGround => "the ground is unknown there",
        }
    }
}

/// The findings with the gravest first, otherwise in their order.
pub fn gravest_first(findings: &[Finding]) -> Vec<Finding> {
    let grades = [Severity::Fault, Severity::Caution, Severity::Note];
    let of_grade = |grade| findings.iter().filter(move |f| f.severity == grade);
    grades.into_iter().flat_map(of_grade).cloned().collect()
}

/// Whether any of the findings bars the way.
pub fn any_fault(findings: &[Finding]) -> bool {
    findings.iter().any(Finding::is_fault)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_grows_from_the_inside_out() {
        let finding = Finding::fault(
            "depth",
            "The depth is negative.",
            "Give a depth below the rim.",
        )
        .under("/floor/2")
        .under("/shell");
        assert_eq!(finding.place, "/shell/floor/2");
        assert!(any_fault(&[finding]));
    }

    #[test]
    fn the_gravest_come_first_and_keep_their_order() {
        let all = [
            Finding::note("a", "", ""),
            Finding::fault("b", "", ""),
            Finding::caution("c", "", ""),
            Finding::note("d", "", ""),
            Finding::caution("e", "", ""),
        ];
        let order: Vec<&str> = gravest_first(&all).iter().map(|f| f.check).collect();
        assert_eq!(order, ["b", "c", "e", "a", "d"]);
    }
}
