//! What the barrier round the water has to be, as the authority says.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::rule::says_example;

/// What counts as a closed barrier. There is no usual value: the local authority's own figures
/// are typed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BarrierRule {
    /// The least height of a fence or wall that counts, meters.
    pub least_height: f64,
    /// The widest opening that still counts as closed, meters.
    pub widest_gap: f64,
    /// Who says so, and in which edition.
    #[serde(default)]
    pub source: String,
}

impl BarrierRule {
    /// Whether somebody has named who requires it here (see [`super::Rule::is_confirmed`]).
    pub fn is_confirmed(&self) -> bool {
        !self.source.trim().is_empty() && !says_example(&self.source)
    }
}
