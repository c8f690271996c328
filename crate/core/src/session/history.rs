//! Undo and redo: the sites before each step, newest last.
//!
//! Sites share their unchanged parts, so a step costs little more than what it changed.

use std::borrow::Cow;

use crate::site::CheckedSite;

/// What a step is called.
pub(super) type Label = Cow<'static, str>;

/// How many steps are kept. Arbitrary; a day's work on one lot.
const LIMIT: usize = 500;

/// A step: its name and the site on its other side.
#[derive(Debug)]
struct Step {
    label: Label,
    site: CheckedSite,
}

/// The steps that can be taken back and those that can be carried out again.
#[derive(Debug, Default)]
pub(super) struct History {
    past: Vec<Step>,
    future: Vec<Step>,
}

impl History {
    /// Records that a step named `label` has led away from `before`.
    pub(super) fn record(&mut self, label: impl Into<Label>, before: CheckedSite) {
        self.future.clear();
        if self.past.len() == LIMIT {
            self.past.remove(0);
        }
        self.past.push(Step {
            label: label.into(),
            site: before,
        });
    }

    pub(super) fn undo(&mut self, site: &mut CheckedSite) -> bool {
        swap(&mut self.past, &mut self.future, site)
    }

    pub(super) fn redo(&mut self, site: &mut CheckedSite) -> bool {
        swap(&mut self.future, &mut self.past, site)
    }

    pub(super) fn undo_label(&self) -> Option<&str> {
        self.past.last().map(|step| step.label.as_ref())
    }

    pub(super) fn redo_label(&self) -> Option<&str> {
        self.future.last().map(|step| step.label.as_ref())
    }
}

/// Takes the newest site from one side and leaves the present one on the other.
fn swap(from: &mut Vec<Step>, to: &mut Vec<Step>, site: &mut CheckedSite) -> bool {
    let Some(Step { label, site: other }) = from.pop() else {
        return false;
    };
    to.push(Step {
        label,
        site: core::mem::replace(site, other),
    });
    true
}
