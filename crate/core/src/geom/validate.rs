//! The door: what a path must satisfy before anything is computed from it.

use super::path::Vertex;
use crate::finding::Finding;

/// Every fault of a closed path; empty when it may become an outline.
pub fn closed_path(vertices: &[Vertex]) -> Vec<Finding> {
    let _ = vertices;
    unimplemented!()
}

/// Every fault of an open path; empty when it may become a track.
pub fn open_path(vertices: &[Vertex]) -> Vec<Finding> {
    let _ = vertices;
    unimplemented!()
}
