//! Union, intersection and difference of regions. The only module that names the `geo` crate.
//!
//! The engine works on an integer grid whose scale follows the bounding box: vertices that
//! nothing touched move by up to 3e-8 m on a lot. Never compare coordinates with `==` after it.

use super::region::{Region, Ring};

/// Everything in `a` or in `b`.
pub fn union(a: &Region, b: &Region) -> Region {
    let _ = (a, b);
    unimplemented!()
}

/// Everything in both.
pub fn intersection(a: &Region, b: &Region) -> Region {
    let _ = (a, b);
    unimplemented!()
}

/// Everything in `a` and not in `b`.
pub fn difference(a: &Region, b: &Region) -> Region {
    let _ = (a, b);
    unimplemented!()
}

/// The points about which the rings together wind a positive number of times. Rings may
/// cross themselves and each other: this is what cleans a raw offset ring.
pub fn positive_winding(rings: &[Ring]) -> Region {
    let _ = rings;
    unimplemented!()
}
