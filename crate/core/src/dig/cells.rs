//! A hole as a grid of shares and depths.

/// A hole as a grid.
#[derive(Debug, Clone, Default)]
pub(super) struct Cells {
    /// Share of each cell that is hole; empty where it is 1 everywhere.
    pub cover: Vec<f64>,
    /// That share times its mean depth below the rim, meters.
    pub depths: Vec<f64>,
    /// The part below a cap, where shares are kept and a cap was told.
    pub capped: Option<Capped>,
}

/// The part of a hole below a cap, as shares of cells and those times their depths.
#[derive(Debug, Clone)]
pub(super) struct Capped {
    pub cap_depth: f64,
    pub cover: Vec<f64>,
    pub depths: Vec<f64>,
}
