//! The ground before anyone digs: level, falling evenly, or known by spot elevations.
//!
//! A [`GroundRecord`] is what files tell; [`Ground`] is the checked surface. Spots are joined
//! into triangles (`tin`); beyond the outermost spots nobody knows anything, so the nearest
//! known elevation is carried outwards (`skirt`) and every triangle says whether it is known.
//! A tree of boxes (`tree`) finds the few triangles near a point or under a shell. `plan_mesh` parts a plan along lines
//! by the same means.

mod breakline;
pub mod contour;
mod disagree;
mod facet;
mod network;
mod noding;
mod plan_mesh;
pub mod quick;
pub mod record;
mod skirt;
mod spots;
pub mod surface;
pub mod table;
mod tin;
mod tree;
mod validate;

pub use breakline::{AGREE, BREAKLINE_POINT_LIMIT};
pub use facet::Facet;
pub(crate) use facet::gradient;
pub use plan_mesh::PlanMesh;
pub use record::GroundRecord;
pub use spots::{ELEVATION_RANGE, SPOT_LIMIT};
pub use surface::{Ground, Height};
