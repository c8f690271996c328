//! What comes from outside and is to stand on the site: maps in GeoJSON, lists of points.
//!
//! ```text
//! text ──read──▶ Draft ──place──▶ Placed ──bring──▶ Changes ──session──▶ one undoable edit
//!               (what is in it,   (the same in       (lot, features,
//!                in its own       site meters)        ground, origin)
//!                coordinates)
//! ```
//!
//! Nothing of it touches the site before the last step. A [`Draft`] holds every thing that was
//! found, each with a proposed [`Role`], and proposed [`Settings`]: whether the numbers are
//! degrees or lengths and which of the two goes north. A reader looks at them, changes what is wrong
//! and brings in what is wanted. Whatever cannot be used is told with its place in the text.
//!
//! | to do this | use |
//! |---|---|
//! | read a text of either form | [`read`] |
//! | see where it all lies on the site | [`Placed::of`] |
//! | make it part of the site | [`Changes::of`] |

mod bring;
mod diagnostics;
mod draft;
mod features;
mod guess;
mod lot;
mod origin;
mod place;
mod role;

pub use bring::Changes;
pub use draft::{Draft, Form, Item, Piece, Position, Shape};
pub use origin::plane_of;
pub use place::{Placed, PlacedItem, PlacedShape, Spot};
pub use role::{Columns, Frame, Joined, Order, Role, Settings};

pub(super) use diagnostics::Diagnostics;
pub(super) use guess::guess;
use guess::marks_a_corner;

use super::{geojson, points};
use crate::finding::Finding;

/// The longest text that is read, bytes: a county's download of a few blocks.
pub const TEXT_LIMIT: usize = 16 * 1024 * 1024;

/// The most things that one text may hold; as many features as a site takes.
pub const ITEM_LIMIT: usize = crate::site::limits::FEATURES;

/// The most positions of all things together.
pub const POSITION_LIMIT: usize = 200_000;

/// Reads a text: JSON is taken as GeoJSON, anything else as a list of points. `columns` says which
/// columns a list without a heading has; without it they are told from the numbers.
///
/// # Errors
/// Every fault, when nothing in it can be used.
pub fn read(text: &str, columns: Option<Columns>) -> Result<Draft, Vec<Finding>> {
    if text.len() > TEXT_LIMIT {
        return Err(vec![Finding::fault(
            "text-size",
            format!(
                "The text is {} bytes long; the longest that is read is {TEXT_LIMIT} bytes.",
                text.len()
            ),
            "Cut it down to the lot and its neighbors before bringing it in.",
        )]);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim_start().starts_with(['{', '[']) {
        geojson::read(text)
    } else {
        points::read(text, columns)
    }
}

#[cfg(test)]
mod tests;
