//! What groundwater does to the shell, as people read it.

use serde::Serialize;

use super::Figure;
use super::table::{Lean, columns, wrapped};
use crate::groundwater::Uplift;
use crate::units::{Measure, System};

/// Groundwater and the uplift by the depth of water in the shell.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UpliftFigures {
    /// Elevation at which groundwater is taken to stand.
    pub level: Figure,
    /// Whether that was told; else it is the worst case, the rim.
    pub told: bool,
    /// Elevation of the lowest underside of the shell.
    pub underside: Figure,
    /// From empty to full.
    pub by_depth: Vec<UpliftAt>,
}

/// Uplift with so much water in the shell.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UpliftAt {
    /// Depth of the water over the deepest floor.
    pub depth: Figure,
    /// Uplift beyond the weight of shell and water; negative where it is held down.
    pub net: Figure,
}

impl UpliftFigures {
    pub(super) fn of(uplift: &Uplift, system: System) -> Self {
        let by_depth = uplift.by_depth.iter().map(|(depth, net)| UpliftAt {
            depth: Figure::new(Measure::Length, *depth, system),
            net: Figure::new(Measure::Weight, *net, system),
        });
        Self {
            level: Figure::new(Measure::Elevation, uplift.level, system),
            told: uplift.told,
            underside: Figure::new(Measure::Elevation, uplift.underside, system),
            by_depth: by_depth.collect(),
        }
    }

    /// The table, as plain text.
    pub(super) fn text(&self, out: &mut String) {
        let level = self.level.both();
        let level = match self.told {
            true => format!("Groundwater at {level}, as entered."),
            false => format!(
                "Worst case: no level is entered, groundwater is assumed at the rim, {level}."
            ),
        };
        out.extend([&wrapped(&level, 2), "\n\n"]);
        let mut rows = vec![vec![
            "Water over the deepest floor".to_owned(),
            "Uplift beyond the weight of shell and water".to_owned(),
        ]];
        rows.extend(
            self.by_depth
                .iter()
                .map(|at| vec![at.depth.both(), at.net.both()]),
        );
        columns(2, &[Lean::Right, Lean::Right], &rows, out);
        let said = "Negative: held down. Friction, collar, deck and backfill are not counted.";
        out.extend(["\n", &wrapped(said, 2), "\n"]);
    }
}
