//! What is wrong or worth knowing: where, how bad, and what to do about it.
//!
//! Everything that enters the planner (a file, a field, a paste) and everything it
//! notices by itself is told as a [`Finding`]. A *fault* bars the way: a value that cannot be
//! used is not taken and the open work stays; work that cannot be built where it stands leads
//! the verdict. A *caution* goes beside the number it concerns. A *note* says which assumption
//! a number rests on.

mod message;

use crate::order::put_in_order_by;

use std::cmp::Reverse;

pub use message::{Message, Said, filled, filled_as, names_are_those_of, names_in, said};
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
    /// The value cannot be used and was not taken; or the work cannot be built where it stands.
    Fault,
}

/// What a finding holds for. Among equals in severity, those about this placement come first
/// and those true of every job last.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Scope {
    /// The work where it stands now: moving the shell may mend it.
    Placement,
    /// This lot, its yard and the settings of its work, wherever the shell stands.
    #[default]
    Site,
    /// Every job alike.
    EveryJob,
}

/// Where the value that mends something is entered: the page opens it at a tap.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Entry {
    /// The courses of the lot.
    Lot,
    /// The kinds of the lot's sides: front, side, rear.
    LineKinds,
    /// The clearance rules.
    Rules,
    /// The choice of a shell.
    Shell,
    /// The equipment pad.
    Equipment,
    /// The elevation of groundwater.
    Groundwater,
}

/// What a finding is shown beside: a caution stands where its number is.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Topic {
    /// Whether the shell may stand there at all.
    Verdict,
    /// Distances to lot lines, structures and systems, and everything that has no other home.
    #[default]
    Clearances,
    /// The hole.
    Dig,
    /// The finished ground.
    Grading,
    /// Spoil and its way off the lot.
    Haul,
    /// Stone and fabric.
    Stone,
    /// Collar, deck and steps.
    Concrete,
    /// Rebar and forms.
    RodsAndForms,
    /// Pipe and its fittings.
    Pipe,
    /// Water in the shell and in the ground.
    Water,
    /// What it costs.
    Cost,
}

/// One thing that somebody should know.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// A stable kebab-case name of what was found, for tests and scripts.
    pub code: &'static str,
    /// A JSON pointer into the site file (`/features/2/outline`), or empty for the whole.
    pub pointer: String,
    /// What it is shown beside.
    pub topic: Topic,
    /// What it holds for.
    pub scope: Scope,
    /// Where what mends it is entered, if one place does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub entry: Option<Entry>,
    /// Where on the plan, in site meters, if it has a place there.
    pub at: Option<[f64; 2]>,
    /// What is wrong, in a sentence.
    #[cfg_attr(feature = "typescript", tsify(type = "string"))]
    pub message: Message,
    /// How to mend it, in a sentence; empty when nothing is to be done.
    #[cfg_attr(feature = "typescript", tsify(type = "string"))]
    pub remedy: Message,
}

impl Finding {
    /// A finding of the given severity, with no place yet, to be shown beside the clearances.
    pub fn new(
        severity: Severity,
        code: &'static str,
        message: impl Into<Message>,
        remedy: impl Into<Message>,
    ) -> Self {
        Self::made(severity, code, message.into(), remedy.into())
    }

    /// The same of messages: once for all that they are made from.
    fn made(severity: Severity, code: &'static str, message: Message, remedy: Message) -> Self {
        Self {
            severity,
            code,
            pointer: String::new(),
            topic: Topic::default(),
            scope: Scope::default(),
            entry: None,
            at: None,
            message,
            remedy,
        }
    }

    /// A fault: the value cannot be used.
    pub fn fault(
        code: &'static str,
        message: impl Into<Message>,
        remedy: impl Into<Message>,
    ) -> Self {
        Self::new(Severity::Fault, code, message, remedy)
    }

    /// A caution: a hazard or an assumption.
    pub fn caution(
        code: &'static str,
        message: impl Into<Message>,
        remedy: impl Into<Message>,
    ) -> Self {
        Self::new(Severity::Caution, code, message, remedy)
    }

    /// A note.
    pub fn note(
        code: &'static str,
        message: impl Into<Message>,
        remedy: impl Into<Message>,
    ) -> Self {
        Self::new(Severity::Note, code, message, remedy)
    }

    /// The same finding, placed below `prefix` in the site file.
    #[must_use]
    pub fn under(mut self, prefix: &str) -> Self {
        self.pointer = format!("{prefix}{}", self.pointer);
        self
    }

    /// The same finding, to be shown beside what it is about.
    #[must_use]
    pub fn about(mut self, topic: Topic) -> Self {
        self.topic = topic;
        self
    }

    /// The same finding, holding for as much.
    #[must_use]
    pub fn scoped(mut self, scope: Scope) -> Self {
        self.scope = scope;
        self
    }

    /// The same finding, mended by what is entered there.
    #[must_use]
    pub fn entered_at(mut self, entry: Entry) -> Self {
        self.entry = Some(entry);
        self
    }

    /// The same finding, placed at a point of the plan (site meters).
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

/// The findings in the order in which people read them: the most severe first; among those, what
/// is about this placement first and what is true of every job last; otherwise in their order.
pub fn sort_by_severity(findings: &[Finding]) -> Vec<Finding> {
    let mut sorted = findings.to_vec();
    put_in_order_by(&mut sorted, |finding| {
        (Reverse(finding.severity), finding.scope)
    });
    sorted
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
        assert_eq!(finding.pointer, "/shell/floor/2");
        assert!(any_fault(&[finding]));
    }

    #[test]
    fn the_most_severe_come_first_and_keep_their_order() {
        let all = [
            Finding::note("a", "", ""),
            Finding::fault("b", "", ""),
            Finding::caution("c", "", ""),
            Finding::note("d", "", ""),
            Finding::caution("e", "", ""),
        ];
        let order: Vec<&str> = sort_by_severity(&all).iter().map(|f| f.code).collect();
        assert_eq!(order, ["b", "c", "e", "a", "d"]);
    }

    #[test]
    fn this_placement_comes_before_every_job() {
        let all = [
            Finding::caution("every", "", "").scoped(Scope::EveryJob),
            Finding::caution("site", "", ""),
            Finding::note("note", "", "").scoped(Scope::Placement),
            Finding::caution("here", "", "").scoped(Scope::Placement),
            Finding::fault("fault", "", ""),
            Finding::caution("here too", "", "").scoped(Scope::Placement),
        ];
        let order: Vec<&str> = sort_by_severity(&all).iter().map(|f| f.code).collect();
        assert_eq!(
            order,
            ["fault", "here", "here too", "site", "every", "note"]
        );
    }
}
