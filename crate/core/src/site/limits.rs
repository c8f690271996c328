//! How much of anything a site may hold, checked before anything is computed from it.
//!
//! The limits are arbitrary: far above any job, and low enough that a hostile file cannot
//! keep the planner busy. The slowest check at the door takes time with the square of the
//! vertices of one path.

use super::{ShapeRecord, ShellChoice, Site};
use crate::finding::Finding;
use crate::ground::GroundRecord;
use crate::shell::ShellRecord;

/// Vertices of one path.
pub const VERTICES: usize = 5_000;
/// Features of one site.
pub const FEATURES: usize = 2_000;
/// Vertices of all features of one site together.
pub const FEATURE_VERTICES: usize = 50_000;
/// Clearance rules of one site.
pub const RULES: usize = 500;
/// Spot elevations: one to the square metre on more than 30 acres.
pub const SPOTS: usize = 150_000;
/// Facets of one shell's floor.
pub const FACETS: usize = 200;

/// Everything a site holds too much of, placed in the site file.
pub(super) fn check(site: &Site) -> Vec<Finding> {
    let mut door = Door::default();
    door.at_most("/features", "features", site.features.len(), FEATURES);
    let mut vertices = 0;
    for (i, feature) in site.features.iter().enumerate() {
        if let ShapeRecord::Area(path) | ShapeRecord::Track(path) = &feature.shape {
            vertices += path.0.len();
            if path.0.len() > VERTICES {
                door.path(&format!("/features/{i}/shape"), path.0.len());
            }
        }
    }
    door.at_most(
        "/features",
        "vertices of features",
        vertices,
        FEATURE_VERTICES,
    );
    door.at_most("/rules", "rules", site.rules.len(), RULES);
    if let GroundRecord::Spots { spots } = site.ground.as_ref() {
        door.at_most("/ground/spots/spots", "spot elevations", spots.len(), SPOTS);
    }
    let own = site.placement.as_ref().map(|p| p.shell.as_ref());
    if let Some(ShellChoice::Own(record)) = own {
        let under = |f: Finding| f.under("/placement/shell/own");
        door.faults.extend(shell(record).into_iter().map(under));
    }
    door.faults
}

/// Everything a shell holds too much of, placed in the shell.
pub fn shell(record: &ShellRecord) -> Vec<Finding> {
    let mut door = Door::default();
    door.path("/outline", record.outline.0.len());
    door.at_most("/floor", "facets", record.floor.len(), FACETS);
    for (i, facet) in record.floor.iter().enumerate() {
        door.path(&format!("/floor/{i}/outline"), facet.outline.0.len());
    }
    door.faults
}

#[derive(Default)]
struct Door {
    faults: Vec<Finding>,
}

impl Door {
    fn at_most(&mut self, place: &str, what: &str, count: usize, limit: usize) {
        if count > limit {
            let message = format!("There are {count} {what}; at most {limit} are read.");
            let remedy = "Leave out what the plan does not need, or thin it out.";
            self.faults
                .push(Finding::fault("too-many", message, remedy).under(place));
        }
    }

    fn path(&mut self, place: &str, vertices: usize) {
        self.at_most(place, "vertices in this path", vertices, VERTICES);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::PathRecord;
    use crate::geom::path::VertexRecord;

    #[test]
    fn a_path_of_a_million_vertices_is_refused_with_its_place() {
        let record = ShellRecord {
            name: String::new(),
            note: String::new(),
            outline: PathRecord(vec![VertexRecord::Line([0.0, 0.0]); 1_000_000]),
            floor: Vec::new(),
            coping_width: 0.3,
            waterline: 0.1,
            wall_thickness: 0.0,
            weight: None,
        };
        let faults = shell(&record);
        assert_eq!(faults.len(), 1);
        assert_eq!(faults[0].place, "/outline");
        assert!(faults[0].message.contains("1000000"));
    }
}
