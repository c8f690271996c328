//! Whose shape is being changed, as paths that can be taken out of the site and put back.

use std::sync::Arc;

use crate::geom::{PathRecord, Point, Vector, Vertex};
use crate::ground::GroundRecord;
use crate::lot::CornerChange;
use crate::site::{Feature, ShapeRecord, Site};
use crate::sketch::Sketch;

/// Whose shape is being changed.
#[derive(Debug, Clone, PartialEq, Eq)]
#[cfg_attr(feature = "typescript", derive(serde::Deserialize, tsify::Tsify))]
#[cfg_attr(feature = "typescript", serde(rename_all = "kebab-case"))]
#[cfg_attr(feature = "typescript", tsify(rename = "ShapeTarget"))]
pub enum Target {
    /// The lot's corners.
    Lot,
    /// A feature, by its name in the file.
    Feature(String),
    /// The ground's spots.
    Spots,
    /// A breakline, by its index.
    Breakline(usize),
}

impl Target {
    /// The feature it is.
    pub(super) fn feature<'a>(&self, site: &'a Site) -> Option<&'a Feature> {
        match self {
            Self::Feature(id) => site.features.iter().find(|f| f.id == *id),
            _ => None,
        }
    }

    /// What it is called.
    pub(super) fn name(&self, site: &Site) -> String {
        match self {
            Self::Lot => "the lot".to_owned(),
            Self::Feature(_) => self
                .feature(site)
                .map_or_else(String::new, |f| f.label().to_owned()),
            Self::Spots => "the spots".to_owned(),
            Self::Breakline(index) => format!("breakline {}", index + 1),
        }
    }

    /// Its paths; none where there is nothing to take hold of by corners.
    pub(super) fn paths(&self, site: &Site) -> Vec<Sketch> {
        let of = |path: &PathRecord, closed| Sketch::new(path.vertices(), closed);
        match self {
            Self::Lot => vec![Sketch::new(site.lot.corners(), true)],
            Self::Feature(_) => match self.feature(site).map(|f| &f.shape) {
                Some(ShapeRecord::Area(path)) => vec![of(path, true)],
                Some(ShapeRecord::Track(path) | ShapeRecord::Strip { path, .. }) => {
                    vec![of(path, false)]
                }
                Some(ShapeRecord::Compound(pieces)) => pieces
                    .iter()
                    .flat_map(|piece| core::iter::once(&piece.outer).chain(&piece.holes))
                    .map(|path| of(path, true))
                    .collect(),
                _ => Vec::new(),
            },
            // Spots stand alone: each is a path of one corner.
            Self::Spots => match &*site.ground {
                GroundRecord::Spots { spots, .. } => spots
                    .iter()
                    .map(|s| points(core::slice::from_ref(s)))
                    .collect(),
                _ => Vec::new(),
            },
            Self::Breakline(index) => match &*site.ground {
                GroundRecord::Spots { breaklines, .. } => breaklines
                    .get(*index)
                    .map(|line| points(line))
                    .into_iter()
                    .collect(),
                _ => Vec::new(),
            },
        }
    }

    /// Its center and radius, where it is a disc.
    pub(super) fn disc(&self, site: &Site) -> Option<(Point, f64)> {
        match self.feature(site)?.shape {
            ShapeRecord::Disc { at, radius } => Some((at, radius)),
            _ => None,
        }
    }

    /// The feature it is, to be changed.
    fn feature_mut<'a>(&self, site: &'a mut Site) -> Option<&'a mut Feature> {
        match self {
            Self::Feature(id) => Arc::make_mut(&mut site.features)
                .iter_mut()
                .find(|f| f.id == *id),
            _ => None,
        }
    }

    /// Changes the shape of the feature it is.
    pub(super) fn change_shape(&self, site: &mut Site, change: impl FnOnce(&mut ShapeRecord)) {
        if let Some(feature) = self.feature_mut(site) {
            change(&mut feature.shape);
        }
    }

    /// Moves the doors and gates of the feature it is, which go with the whole.
    pub(super) fn move_openings(&self, site: &mut Site, by: Vector) {
        if let Some(feature) = self.feature_mut(site) {
            for opening in &mut feature.facts.openings {
                opening.at = opening.at + by;
            }
        }
    }

    /// Puts a path back in place of the one with this index.
    pub(super) fn put(&self, site: &mut Site, index: usize, sketch: &Sketch, change: CornerChange) {
        let path = || PathRecord::from(sketch.vertices.as_slice());
        match self {
            Self::Lot => site.lot = Arc::new(site.lot.reshaped(&sketch.vertices, change)),
            Self::Feature(_) => self.change_shape(site, |shape| match shape {
                ShapeRecord::Area(own)
                | ShapeRecord::Track(own)
                | ShapeRecord::Strip { path: own, .. } => *own = path(),
                ShapeRecord::Compound(pieces) => {
                    let mut rings = pieces
                        .iter_mut()
                        .flat_map(|p| core::iter::once(&mut p.outer).chain(&mut p.holes));
                    if let Some(ring) = rings.nth(index) {
                        *ring = path();
                    }
                }
                ShapeRecord::Disc { .. } | ShapeRecord::Along { .. } => {}
            }),
            Self::Spots => {
                if let GroundRecord::Spots { spots, .. } = Arc::make_mut(&mut site.ground) {
                    match (spots.get_mut(index), sketch.vertices.first()) {
                        (Some([x, y, _]), Some(v)) => (*x, *y) = (v.at.x, v.at.y),
                        (Some(_), None) => {
                            spots.remove(index);
                        }
                        _ => {}
                    }
                }
            }
            Self::Breakline(line) => {
                if let GroundRecord::Spots { breaklines, .. } = Arc::make_mut(&mut site.ground)
                    && let Some(line) = breaklines.get_mut(*line)
                {
                    put_line(line, &sketch.vertices, change);
                }
            }
        }
    }
}

fn points(of: &[[f64; 3]]) -> Sketch {
    Sketch::new(of.iter().map(|p| Vertex::line(p[0], p[1])).collect(), false)
}

/// Moves the points of a breakline; a new one lies at the height of the line there.
fn put_line(line: &mut Vec<[f64; 3]>, vertices: &[Vertex], change: CornerChange) {
    match change {
        CornerChange::Moved => {}
        CornerChange::Added(index) => {
            let ends = index
                .checked_sub(1)
                .and_then(|before| Some((*line.get(before)?, *line.get(index)?)));
            if let (Some((a, b)), Some(new)) = (ends, vertices.get(index)) {
                let flat = |p: [f64; 3]| Point::new(p[0], p[1]);
                let (to_a, to_b) = (new.at.distance(flat(a)), new.at.distance(flat(b)));
                let share = to_a / (to_a + to_b).max(f64::MIN_POSITIVE);
                line.insert(index, [0.0, 0.0, a[2] + (b[2] - a[2]) * share]);
            }
        }
        CornerChange::Removed(index) if index < line.len() => {
            line.remove(index);
        }
        CornerChange::Removed(_) => {}
    }
    for ([x, y, _], v) in line.iter_mut().zip(vertices) {
        (*x, *y) = (v.at.x, v.at.y);
    }
}
