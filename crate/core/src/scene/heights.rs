//! Heights and depths in the scene where nobody entered one: our choice, and told wherever one is used.

/// Height of a house, meters.
pub const HOUSE: f64 = 3.0;

/// Height of an outbuilding, meters.
pub const OUTBUILDING: f64 = 2.5;

/// Height of a wall, meters.
pub const WALL: f64 = 1.0;

/// Height of a fence, meters.
pub const FENCE: f64 = 1.8;

/// Height of a tree, meters.
pub const TREE: f64 = 6.0;

/// Height of an overhead line, meters.
pub const OVERHEAD: f64 = 6.0;

/// Depth of a buried line, meters.
pub const BURIED: f64 = 0.6;
