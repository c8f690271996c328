//! The ground before anyone digs: level, falling evenly, or known by spot elevations.
//!
//! A [`GroundRecord`] is what files tell; [`Ground`] is the checked surface: triangles
//! (from [`tin`]) that know an elevation everywhere and say where it is only assumed.

pub mod record;
pub mod surface;

pub use record::GroundRecord;
pub use surface::{Facet, Ground, Height};
