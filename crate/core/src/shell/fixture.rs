//! A shell that tests of other modules stand on the lot.
#![allow(clippy::unwrap_used)]

use super::{FacetKind, FacetRecord, Shell, ShellRecord};
use crate::geom::PathRecord;
use crate::geom::path::VertexRecord;

/// The record of [`box_shell`].
pub fn box_record() -> ShellRecord {
    let square = PathRecord(
        [[-4.0, -2.0], [4.0, -2.0], [4.0, 2.0], [-4.0, 2.0]]
            .map(VertexRecord::Line)
            .to_vec(),
    );
    ShellRecord {
        name: "Plain".to_owned(),
        note: String::new(),
        outline: square.clone(),
        floor: vec![FacetRecord {
            kind: FacetKind::Deep,
            outline: square,
            depths: vec![1.5; 4],
        }],
        coping_width: 0.25,
        waterline: 0.15,
        wall_thickness: 0.01,
        draft: 0.0,
        cove: 0.0,
        stations: Vec::new(),
        drain: None,
        weight: None,
    }
}

/// 8 m by 4 m at the water's edge, square corners, a level floor 1.5 m deep, the rim 0.25 m outside the water's edge.
pub fn box_shell() -> Shell {
    Shell::check(&box_record()).unwrap().0
}
