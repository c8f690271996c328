//! What reads text: deeds, walks, tables of spots, maps and lists, shells by stations, places.
//!
//! Text comes in and what was understood of it goes out, read against the open site. Nothing of
//! it is in the document until the page makes an edit of it, which the door checks like any other.

mod deed;
mod ground;
mod map;
mod place;
mod shell;
mod walk;
