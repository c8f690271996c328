//! The domain of batterboard.
pub mod finding;
pub mod geom;
pub mod math;
