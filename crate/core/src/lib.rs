//! The domain of batterboard: lot, shell, ground, clearances, dig and takeoff.
//!
//! One pure library. It knows no files, no clock, no chance, no pixels and no browser: text
//! and numbers go in, figures and things to draw come out, and the same site gives the same
//! bytes on every machine.
//!
//! # The pipeline
//!
//! ```text
//! site file ──exchange──▶ Site ──door──▶ CheckedSite ──analysis──▶ Analysis ──report──▶ text, JSON
//!   (JSON)                (plain data)   (nothing broken           │
//!                                         gets past)               └──drawing──▶ the plan
//!
//! session: an open CheckedSite with its Analysis, commands, undo, and a finger that drags
//! ```
//!
//! # Where to look
//!
//! | to do this | go to |
//! |---|---|
//! | read or print feet and inches, bearings, slopes | [`units`] |
//! | say what is wrong, where, and how to mend it | [`finding`] |
//! | widen, cut, unite or measure between outlines | [`geom`] |
//! | walk the courses of a deed and see how they close | [`lot`] |
//! | describe a shell, or take one from the catalogue | [`shell`] |
//! | know the ground's elevation anywhere | [`ground`] |
//! | read or change the document | [`site`] |
//! | measure every rule | [`clearance`] |
//! | cut the hole | [`dig`] |
//! | finish the ground round it, balance cut and fill | [`grading`] |
//! | find room for the spoil | [`stockpile`] |
//! | list what to haul and buy, with its working | [`takeoff`] |
//! | get everything that follows from a site | [`analysis`] |
//! | find the widest way in and what fits through it | [`way_in`] |
//! | place a crane and measure its lift | [`crane`] |
//! | know the sun over the site and the shade on the water | [`sun`] |
//! | lay it out with tapes and a laser, and check it as dug | [`stakeout`] |
//! | know where else the shell may stand | [`clear_ground`] |
//! | draw the plan | [`drawing`] |
//! | report as text or JSON | [`report`] |
//! | open and save files, publish the schema | [`exchange`] |
//! | ask what takes long, step by step | [`study`] |
//! | edit, undo, drag | [`session`] |
//! | search for the shells and places that fit | [`fit`] |
//!
//! A module uses only those above it in the table of layers (see `DEVELOPERS.md`);
//! `cargo xtask tidy` holds the code to it.
//!
//! # Units and frames
//!
//! Meters, square meters, cubic meters, kilograms and radians, in `f64`. The site frame is x
//! east, y north, z up; bearings run clockwise from north. The shell has a frame of its own
//! (see [`geom::point`]); functions that cross frames say so: `site_from_shell`.
//!
//! # A shell on a lot
//!
//! ```
//! use batterboard_core::session::{Command, Session};
//! use batterboard_core::shell::catalogue;
//! use batterboard_core::site::ShellChoice;
//!
//! # fn main() -> Result<(), Vec<batterboard_core::finding::Finding>> {
//! let mut session = Session::new()?;
//! let shell = catalogue::all().first().map(|s| s.name.clone()).unwrap_or_default();
//! session.apply(Command::ChooseShell(ShellChoice::Catalogue(shell)))?;
//! session.apply(Command::NudgeShell { east: 0.5, north: 0.0 })?;
//!
//! let analysis = session.analysis();
//! let tightest = analysis.clearances.first().map(|c| c.room);
//! assert!(tightest.is_some_and(|room| room > 0.0), "it fits the blank lot");
//! assert!(analysis.dig.as_ref().is_some_and(|dig| dig.bank_volume > 10.0));
//!
//! assert!(session.undo());
//! # Ok(())
//! # }
//! ```

pub mod analysis;
pub mod barrier;
pub mod clear_ground;
pub mod clearance;
pub mod coverage;
pub mod crane;
pub mod deck;
pub mod dig;
pub mod drawing;
pub mod exchange;
pub mod finding;
pub mod fit;
pub mod geom;
pub mod grading;
pub mod ground;
pub mod groundwater;
pub mod json;
pub mod lot;
pub mod math;
mod order;
pub mod pipe;
pub mod report;
pub mod scene;
pub mod section;
pub mod session;
pub mod shell;
pub mod site;
pub mod sketch;
pub mod sources;
pub mod stakeout;
pub mod stockpile;
pub mod study;
pub mod sun;
pub mod takeoff;
pub mod units;
pub mod way_in;
