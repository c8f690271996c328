//! The shells that come with the planner. All invented, named after wayside plants.
//!
//! A shell of the catalogue is a [`ShellRecord`] like any other: it is validated the same way, and
//! a user may take it as the start of a shell of their own. [`draft`] turns a length profile
//! and the platforms that stand on it into facets; [`curve`] closes outlines of arcs that
//! run into each other without a corner.

mod curve;
mod curved;
mod draft;
mod straight;

use std::sync::OnceLock;

use super::record::ShellRecord;
use crate::geom::Outline;

/// Every shell of the catalogue, smallest first by the area of its water. Names are unique.
pub fn all() -> &'static [ShellRecord] {
    static SHELLS: OnceLock<Vec<ShellRecord>> = OnceLock::new();
    SHELLS.get_or_init(|| {
        let mut shells: Vec<ShellRecord> = Vec::new();
        for shell in straight::shells().into_iter().chain(curved::shells()) {
            let area = water_area(&shell);
            shells.insert(shells.partition_point(|s| water_area(s) <= area), shell);
        }
        shells
    })
}

/// The catalogue entry of this name.
pub fn find(name: &str) -> Option<&'static ShellRecord> {
    all().iter().find(|shell| shell.name == name)
}

/// Area inside the outline, m2.
fn water_area(record: &ShellRecord) -> f64 {
    Outline::check(record.outline.vertices()).map_or(0.0, |outline| outline.area())
}

#[cfg(test)]
mod tests;
