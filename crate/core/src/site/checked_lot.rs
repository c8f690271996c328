//! The validated lot, its boundary flattened for distances.

use crate::finding::Finding;
use crate::geom::flatten::{ChordSide, flatten, flatten_segment};
use crate::geom::{DRAWING_TOLERANCE, Point, Region};
use crate::lot::{Lot, LotRecord, Side};

/// The lot with its boundary flattened for distances.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckedLot {
    /// The lot.
    pub lot: Lot,
    /// The area inside it.
    pub region: Region,
    /// Each side as a chain of points, in the order of `lot.sides`.
    pub sides: Vec<Vec<Point>>,
}

impl CheckedLot {
    /// Validates a lot, and gives what was noticed about it besides.
    ///
    /// # Errors
    /// Every fault, its place below the lot.
    pub(super) fn check(record: &LotRecord) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        let (lot, findings) = Lot::check(record)?;
        let ring = flatten(&lot.outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
        let chain = |side: &Side| {
            let mut chain = vec![side.segment.from()];
            flatten_segment(&side.segment, DRAWING_TOLERANCE, &mut chain);
            chain
        };
        let checked = Self {
            region: Region::from_ring(ring),
            sides: lot.sides.iter().map(chain).collect(),
            lot,
        };
        Ok((checked, findings))
    }
}
