//! The shell: its outline at the rim, its floor as planar facets, and the catalogue.
//!
//! A shell is told in its own frame (see [`crate::geom::point`]): origin at the middle, x
//! along the length towards the deep end. Its *outline* is the water's edge: the inside of
//! the wall at the rim. The *rim* is the outer edge of the coping, `coping_width` outside
//! the outline. Depths are measured below the rim, in metres, downward positive.
//!
//! A [`ShellRecord`] (typed in, loaded from a file or taken from the [`catalogue`]) is
//! checked by [`Shell::check`] and becomes a [`Shell`].

pub mod catalogue;
pub mod checked;
pub mod record;

pub use checked::{DepthPlane, Facet, Shell};
pub use record::{FacetKind, FacetRecord, ShellRecord};
