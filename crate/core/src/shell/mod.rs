//! The shell: its outline at the rim, its floor as planar facets, and the catalogue.
//!
//! A shell is told in its own frame (see [`crate::geom::point`]): origin at the middle, x
//! along the length toward the deep end. Its *outline* is the water's edge: the inside of
//! the wall at the rim. The *rim* is the outer edge of the coping, `coping_width` outside
//! the outline. Depths are measured below the rim, in meters, downward positive.
//!
//! A [`ShellRecord`] (typed in, loaded from a file or taken from the [`catalogue`]) is
//! checked by [`Shell::check`] and becomes a [`Shell`], which knows its water, the volume of
//! its body below any level, its wall and its floor. Walls stand upright from the floor to
//! the rim or lean inward by a draft, and a cove may round the corner between wall and floor
//! (`body`); a step between two facets is upright. A floor may also be told by stations along
//! the length (`stations`), which become facets when it is checked.
//!
//! Deliberately absent: anything round the shell (base, collar, deck: `takeoff`) and
//! anything about where it stands (`site`).

mod body;
pub mod catalogue;
pub mod checked;
mod cover;
mod depth;
#[cfg(test)]
pub(crate) mod fixture;
mod inset;
mod losses;
mod plane;
pub mod record;
mod stations;
pub mod traced;
pub mod typed;
mod validate;

pub use body::AtDepth;
pub use checked::{Facet, Shell, WallStrip};
pub use plane::DepthPlane;
pub use record::{FacetKind, FacetRecord, ShellRecord, StationRecord};
