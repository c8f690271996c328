//! Where alone a clearance rule applies.
//!
//! Towns ask for a distance only of a deep hole, only toward the street, or only on lots of some
//! size. A rule whose conditions are not met is not measured, and the job says so.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{Measure, System, show};

/// The conditions of a rule, every one of which must be met.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RuleConditions {
    /// Only where the deepest place of the dig lies deeper than this below the ground, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dig_deeper_than: Option<f64>,
    /// Only on lots smaller than this, square meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lot_smaller_than: Option<f64>,
    /// Only on lots of this area or larger, square meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lot_at_least: Option<f64>,
    /// Only to what lies on the street side: a front or street-side line, or a thing that no other
    /// line of the lot is nearer to.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub on_street_side: bool,
}

impl RuleConditions {
    /// Whether the rule applies everywhere.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The conditions in plain words, behind "only": `where the dig is deeper than 5'-0"`.
    pub fn words(&self, system: System) -> Vec<String> {
        let shown = |measure, value| show(measure, value, system).text;
        let depth = self.dig_deeper_than.map(|it| {
            let depth = shown(Measure::Length, it);
            format!("where the dig is deeper than {depth}")
        });
        let smaller = self.lot_smaller_than.map(|it| {
            let area = shown(Measure::Area, it);
            format!("on a lot smaller than {area}")
        });
        let larger = self.lot_at_least.map(|it| {
            let area = shown(Measure::Area, it);
            format!("on a lot of {area} or more")
        });
        let street = (self.on_street_side).then(|| "on the street side".to_owned());
        [depth, smaller, larger, street]
            .into_iter()
            .flatten()
            .collect()
    }
}
