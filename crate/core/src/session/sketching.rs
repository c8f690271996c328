//! What a session does with drawings and with shapes being changed.

use super::Session;
use super::draft::{Draft, Wanted};
use super::drag::{DragTarget, Gesture, feature_at};
use super::follow;
use super::handle::{self, Handle, Part, PlacedHandle};
use super::shape::Target;
use super::shaping::{ShapeEdit, Shaped, Shaping};
use crate::finding::Finding;
use crate::geom::{Point, Segment, Vertex};
use crate::site::Site;
use crate::sketch::Sketch;

/// Findings as one text for a narrow place: the first, with its remedy.
pub(super) fn sentence(findings: &[Finding]) -> String {
    findings
        .first()
        .map_or_else(String::new, |f| format!("{} {}", f.message, f.remedy))
}

impl Session {
    /// Begins a drawing, from what may be placed already. One under way is dropped.
    pub fn draw(&mut self, wanted: Wanted, start: Vec<Vertex>) {
        self.release();
        self.draft = Some(Draft::begin(wanted, start, &self.site));
    }

    /// The drawing under way.
    pub fn draft(&self) -> Option<&Draft> {
        self.draft.as_ref()
    }

    /// The drawing under way, to go on with it.
    pub fn draft_mut(&mut self) -> Option<&mut Draft> {
        self.draft.as_mut()
    }

    /// Ends the drawing under way; nothing of it is kept.
    pub fn end_drawing(&mut self) {
        self.draft = None;
    }

    /// Shows a path on the plan that is not in the document, or none.
    pub fn show_path(&mut self, path: Option<Sketch>) {
        self.shown = path;
    }

    /// The path shown that is not in the document.
    pub fn shown_path(&self) -> Option<&Sketch> {
        self.shown.as_ref()
    }

    /// Begins to change a shape, or ends it.
    pub fn choose_shape(&mut self, target: Option<Target>) {
        self.release();
        self.shaping = target.map(|target| Shaping {
            target,
            picked: None,
            word: String::new(),
        });
        if self.shape_is_locked() {
            self.tell_locked();
        }
    }

    /// The shape being changed, as the page shows it.
    pub fn shaped(&self) -> Option<Shaped> {
        Some(self.shaping.as_ref()?.shaped(self.site.site()))
    }

    /// The handles of the shape being changed, and the one that is picked.
    pub fn handles(&self, scale: f64) -> (Vec<PlacedHandle>, Option<Handle>) {
        match &self.shaping {
            Some(shaping) if !self.shape_is_locked() => (
                handle::handles(&shaping.target, self.site.site(), scale),
                shaping.picked,
            ),
            _ => (Vec::new(), None),
        }
    }

    /// The edge that is picked of the shape being changed.
    pub fn picked_edge(&self) -> Option<Segment> {
        let shaping = self.shaping.as_ref()?;
        let handle = shaping.picked?;
        let sketch = shaping
            .target
            .paths(self.site.site())
            .into_iter()
            .nth(handle.path)?;
        match handle.part {
            Part::Edge(i) => sketch.edge(i),
            _ => None,
        }
    }

    /// Carries out what a button or a key does to the shape being changed.
    ///
    /// # Errors
    /// Every fault that it would cause, or why there is nothing to do; nothing was changed.
    pub fn shape(&mut self, edit: ShapeEdit) -> Result<(), Vec<Finding>> {
        self.release();
        let Some(mut shaping) = self.shaping.clone() else {
            return Ok(());
        };
        shaping.word.clear();
        if let ShapeEdit::Pick { back } = edit {
            shaping.step(self.site.site(), back);
            self.shaping = Some(shaping);
            return Ok(());
        }
        if self.shape_is_locked() {
            self.tell_locked();
            return Ok(());
        }
        let mut next = Site::clone(self.site.site());
        let done = shaping.carry_out(&mut next, edit).and_then(|label| {
            follow::courses(&mut next, &self.site);
            self.commit(label.into(), next)
        });
        match &done {
            Ok(()) => self.shaping = Some(shaping),
            Err(faults) => self.tell_shape(sentence(faults)),
        }
        done
    }

    /// The handle or the edge at a place of the shape being changed.
    pub(super) fn part_at(&self, at: Point, reach: f64, scale: f64) -> Option<DragTarget> {
        let shaping = self.shaping.as_ref().filter(|_| !self.shape_is_locked())?;
        handle::taken(&shaping.target, self.site.site(), at, reach, scale).map(DragTarget::Part)
    }

    /// The feature being changed, where the place lies in it: to move it whole.
    pub(super) fn whole_at(&self, at: Point, reach: f64) -> Option<DragTarget> {
        let shaping = self.shaping.as_ref().filter(|_| !self.shape_is_locked())?;
        let own = shaping.target.feature(self.site.site())?;
        let movable = !shaping.target.paths(self.site.site()).is_empty()
            || shaping.target.disc(self.site.site()).is_some();
        let found = feature_at(&self.site, at, reach).filter(|f| movable && f.id == own.id)?;
        let part = Part::Whole;
        Some(found).map(|_| DragTarget::Part(Handle { path: 0, part }))
    }

    pub(super) fn grab_part(&mut self, handle: Handle, at: Point, reach: f64) -> Option<Gesture> {
        let shaping = self.shaping.as_mut()?;
        if !matches!(handle.part, Part::Whole | Part::Middle(_)) {
            shaping.picked = Some(handle);
        }
        shaping.word.clear();
        Gesture::begin_part(&shaping.target, handle, &self.site, at, reach)
    }

    /// Once a drag of a part is over: the new corner, or the edge bent, is picked.
    pub(super) fn pick_dragged(&mut self, held: DragTarget, before: &Site) {
        if let (Some(shaping), DragTarget::Part(handle)) = (&mut self.shaping, held)
            && matches!(handle.part, Part::Middle(_))
        {
            let sketch = shaping.target.paths(before).into_iter().nth(handle.path);
            shaping.picked = Some(handle::picked_after(handle, sketch.as_ref()));
        }
    }

    /// Says something of the shape being changed.
    pub(super) fn tell_shape(&mut self, word: String) {
        if let Some(shaping) = &mut self.shaping {
            shaping.word = word;
        }
    }

    fn shape_is_locked(&self) -> bool {
        let shaping = self.shaping.as_ref();
        shaping.is_some_and(|s| s.locked(self.site.site()))
    }

    fn tell_locked(&mut self) {
        let name = self
            .shaping
            .as_ref()
            .map_or_else(String::new, |s| s.target.name(self.site.site()));
        self.tell_shape(format!(
            "“{name}” is locked. Unlock it in the list to change it."
        ));
    }
}

#[cfg(test)]
mod tests;
