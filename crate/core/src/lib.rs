//! The domain of batterboard.
pub mod clearance;
pub mod dig;
pub mod drawing;
pub mod exchange;
pub mod finding;
pub mod geom;
pub mod ground;
pub mod lot;
pub mod math;
pub mod pretty;
pub mod report;
pub mod results;
pub mod session;
pub mod shell;
pub mod site;
pub mod takeoff;
pub mod units;
