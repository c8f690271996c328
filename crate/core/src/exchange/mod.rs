//! Files in and out: the site file, the shell file and the published schema.
//!
//! Opening never trusts the text. In order: its size, its syntax (with line and column), the
//! `format` and `version` it claims, older versions brought up to date, every member read
//! with its place, and at last every figure validated by the module it belongs to.
//! Whatever goes wrong is a [`Finding`](crate::finding::Finding) that says what, where and
//! how to mend it; the caller's open work is never touched.
//!
//! Members that this build does not know are kept beside the document ([`Unknown`]) and put
//! back when it is saved, so that a file from a newer minor build loses nothing here.
//!
//! | to do this | use |
//! |---|---|
//! | open and save a site | [`open`], [`save`] |
//! | the data of its images, apart from its file | [`images`] |
//! | load and write a single shell | [`open_shell`], [`save_shell`] |
//! | open and save a company's book | [`open_book`], [`save_book`] |
//! | how what a job took from it stands | [`standings`] |
//! | what was changed from one site to another, in words | [`changes::between`] |
//! | the JSON Schema of the site file | [`schema::site`] |
//! | bring in a map or a list of points | [`import`] |
//! | write a map or a list of points | [`geojson::write`], [`points::write`] |
//! | write a site for others, with what an instrument operator stakes | [`outgoing::write`] |
//! | read and write a surveyor's LandXML | [`landxml`] |
//!
//! JSON text with a fixed layout comes from [`crate::json`].

pub mod book_file;
pub mod changes;
mod figures;
pub mod geodesy;
pub mod geojson;
pub mod images;
pub mod import;
pub mod landxml;
pub mod layout;
mod locate;
mod migrate;
pub mod outgoing;
pub mod points;
mod read;
pub mod schema;
pub mod shell_file;
mod site_file;
mod standing;
mod unknown;

pub use book_file::{open as open_book, save as save_book};
pub use figures::{Areas, FeatureFigure, Figures};
pub use read::{SIZE_LIMIT, typed as read_value};
pub use shell_file::{open as open_shell, save as save_shell};
pub use site_file::{Opened, open, open_with_images, save};
pub use standing::{SinceTaken, TakenStanding, standings};
pub use unknown::Unknown;
