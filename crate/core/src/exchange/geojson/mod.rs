//! GeoJSON (RFC 7946): read as things that may stand on the site, written from a site.
//!
//! Taken in: a FeatureCollection, a Feature, a bare geometry, a GeometryCollection; every
//! geometry of the standard, with holes, in either winding, closed or (told) not; a third number as an
//! elevation. A `crs` member of the older form is told: WGS 84 is taken, coordinates of another system
//! are never taken for degrees. Numbers that cannot be degrees are offered as lengths.

mod frame;
mod read;
mod ring;
mod write;

pub use read::read;
pub use write::{Parts, write, write_area, write_laid_out};

#[cfg(test)]
mod tests;
