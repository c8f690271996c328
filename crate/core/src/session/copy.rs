//! A copy of a feature, put a step beside it.

use std::sync::Arc;

use crate::finding::Finding;
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Point, Vector};
use crate::site::{Feature, ShapeRecord, Site};

/// How far a copy lies from its original, meters: to the right and down, so that both are seen
/// (our choice).
const STEP: Vector = Vector::new(1.0, -1.0);

/// Puts a copy of a feature on the site, with an id of its own; neither hidden nor locked.
///
/// # Errors
/// There is no such feature.
pub(super) fn feature(site: &mut Site, id: &str) -> Result<(), Vec<Finding>> {
    let Some(index) = site.features.iter().position(|f| f.id == id) else {
        let message = format!("There is no feature \"{id}\".");
        let remedy = "Choose one that is on the lot.";
        return Err(vec![Finding::fault("no-feature", message, remedy)]);
    };
    let features = Arc::make_mut(&mut site.features);
    if let Some(original) = features.get(index) {
        let mut copy = original.clone();
        copy.id = fresh_id(id, features.iter());
        (copy.hidden, copy.locked) = (false, false);
        if !copy.name.is_empty() {
            copy.name.push_str(" (copy)");
        }
        shift(&mut copy);
        features.insert(index + 1, copy);
    }
    Ok(())
}

/// An id like `id` that no feature has.
pub(super) fn fresh_id<'a>(id: &str, taken: impl Iterator<Item = &'a Feature> + Clone) -> String {
    let stem = id.trim_end_matches(|c: char| c.is_ascii_digit());
    let stem = stem.trim_end_matches('-');
    let named = (2..).map(|n: usize| format!("{stem}-{n}"));
    let mut free = named.filter(|fresh| taken.clone().all(|f| f.id != *fresh));
    free.next().unwrap_or_default()
}

/// Moves a feature by the step; a band along a course stays with its course.
fn shift(feature: &mut Feature) {
    match &mut feature.shape {
        ShapeRecord::Area(path) | ShapeRecord::Track(path) | ShapeRecord::Strip { path, .. } => {
            shift_path(path);
        }
        ShapeRecord::Disc { at, .. } => *at = *at + STEP,
        ShapeRecord::Along { .. } => return,
        ShapeRecord::Compound(pieces) => {
            for piece in pieces {
                shift_path(&mut piece.outer);
                piece.holes.iter_mut().for_each(shift_path);
            }
        }
    }
    for opening in &mut feature.facts.openings {
        opening.at = opening.at + STEP;
    }
}

fn shift_path(path: &mut PathRecord) {
    for vertex in &mut path.0 {
        let (VertexRecord::Line([x, y]) | VertexRecord::Arc([x, y, _])) = vertex;
        let moved = Point::new(*x, *y) + STEP;
        (*x, *y) = (moved.x, moved.y);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::session::{Command, Session};
    use crate::site::{Feature, FeatureKind};

    #[test]
    fn a_copy_lies_beside_its_original_under_an_id_of_its_own() {
        let mut session = Session::new().unwrap();
        let shape = r#"{"compound": [{"outer": [[1, 1], [9, 1, 0.2], [9, 9]],
                                      "holes": [[[6, 3], [8, 3], [8, 5]]]}]}"#;
        let mut pond = Feature::of(
            "pond-2",
            FeatureKind::Watercourse,
            serde_json::from_str(shape).unwrap(),
        );
        pond.name = "Pond".to_owned();
        pond.locked = true;
        session.apply(Command::SetFeatures(vec![pond])).unwrap();
        for _ in 0..2 {
            let id = "pond-2".to_owned();
            session.apply(Command::CopyFeature { id }).unwrap();
        }
        let features = &session.site().site().features;
        let ids: Vec<&str> = features.iter().map(|f| f.id.as_str()).collect();
        assert_eq!(ids, ["pond-2", "pond-4", "pond-3"]);
        assert_eq!(features[1].name, "Pond (copy)");
        assert!(features[0].locked && !features[1].locked);
        let text = serde_json::to_string(&features[1].shape).unwrap();
        assert!(
            text.contains("[10.0,0.0,0.2]") && text.contains("[7.0,2.0]"),
            "{text}"
        );
        assert!(session.undo() && session.undo());
        assert_eq!(session.site().site().features.len(), 1);
        let none = Command::CopyFeature {
            id: "no".to_owned(),
        };
        assert!(!session.apply(none).unwrap_err()[0].remedy.is_empty());
    }
}
