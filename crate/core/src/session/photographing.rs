//! The edits of the photographs of the yard.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::finding::Finding;
use crate::geom::Point;
use crate::math::wrap_turn;
use crate::site::{Photograph, Site, Stage};

/// One edit of the photographs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
#[serde(rename_all = "kebab-case")]
pub enum PhotographEdit {
    /// Put photographs behind those that are there.
    Add(Vec<Photograph>),
    /// Say that one was taken elsewhere.
    Move {
        /// Its id.
        id: String,
        /// Where it was taken from, site meters.
        at: Point,
    },
    /// Say which way one looks, or that nobody knows.
    Turn {
        /// Its id.
        id: String,
        /// Radians clockwise from north.
        bearing: Option<f64>,
    },
    /// Say what one shows, and when.
    Describe {
        /// Its id.
        id: String,
        /// What is worth saying.
        note: String,
        /// The stage of the work.
        stage: Option<Stage>,
        /// When it was taken, in any words.
        when: String,
    },
    /// Remove one.
    Remove {
        /// Its id.
        id: String,
    },
}

impl PhotographEdit {
    /// What the step is called when it is taken back.
    pub(super) fn label(&self) -> &'static str {
        match self {
            Self::Add(all) if all.len() == 1 => "add a photograph",
            Self::Add(_) => "add photographs",
            Self::Move { .. } => "move a photograph",
            Self::Turn { .. } => "turn a photograph",
            Self::Describe { .. } => "describe a photograph",
            Self::Remove { .. } => "remove a photograph",
        }
    }

    /// Edits the site.
    ///
    /// # Errors
    /// A fault where a photograph is meant that is not there.
    pub(super) fn carry_out(self, site: &mut Site) -> Result<(), Vec<Finding>> {
        let all = Arc::make_mut(&mut site.photographs);
        match self {
            Self::Add(more) => all.extend(more),
            Self::Move { id, at } => found(all, &id)?.at = at,
            Self::Turn { id, bearing } => found(all, &id)?.bearing = bearing.map(wrap_turn),
            Self::Describe {
                id,
                note,
                stage,
                when,
            } => {
                let it = found(all, &id)?;
                (it.note, it.stage, it.when) = (note, stage, when);
            }
            Self::Remove { id } => {
                found(all, &id)?;
                all.retain(|it| it.id != id);
            }
        }
        Ok(())
    }
}

fn found<'a>(all: &'a mut [Photograph], id: &str) -> Result<&'a mut Photograph, Vec<Finding>> {
    let found = all.iter_mut().find(|it| it.id == id);
    found.ok_or_else(|| {
        let message = "There is no such photograph.";
        let fault = Finding::fault("no-photograph", message, "Choose one of the list.");
        vec![fault.under("/photographs")]
    })
}
