//! The takeoff: every quantity to dig, haul, buy and place, with its working.

use serde::Serialize;

use crate::dig::Dig;
use crate::site::CheckedSite;

/// One quantity with the arithmetic behind it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// A stable kebab-case name, for scripts and tests (`bank-cut`, `base-stone`).
    pub key: &'static str,
    /// The group it is listed in.
    pub group: Group,
    /// What the ledger calls it.
    pub label: String,
    /// The value in SI units (m, m2, m3, kg, count), waste and rounding included.
    pub value: f64,
    /// What kind of figure it is; sets the unit it is shown in.
    pub measure: crate::units::Measure,
    /// The arithmetic.
    pub working: Working,
}

/// The groups of the takeoff, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Group {
    /// What leaves the hole.
    Dig,
    /// How it is hauled.
    Haul,
    /// Base and backfill.
    Stone,
    /// Collar and deck.
    Concrete,
    /// Ties and pipe.
    Fittings,
    /// What it holds.
    Water,
}

/// How a figure came about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Working {
    /// The formula in words and signs (`area x thickness`).
    pub formula: String,
    /// What went into it.
    pub inputs: Vec<Input>,
    /// The fraction added for waste, if any.
    pub waste: Option<f64>,
    /// How it was rounded, empty when it was not.
    pub rounding: String,
    /// Where formula and constants come from, or "common practice".
    pub source: String,
}

/// One number that went into a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Input {
    /// What it is.
    pub name: String,
    /// Its value in SI units.
    pub value: f64,
    /// What kind of figure it is.
    pub measure: crate::units::Measure,
    /// Where it comes from, when it is a constant; empty when it was measured.
    pub source: String,
}

/// Every quantity of the site, in order. Empty until a shell is placed.
pub fn takeoff(site: &CheckedSite, dig: &Dig) -> Vec<Line> {
    let _ = (site, dig);
    unimplemented!()
}
