//! An open site being worked on: commands, undo, redo, and its analysis kept in step.
//!
//! A [`Session`] always holds a site that has passed the door, and everything that follows from it
//! but low and high of its quantities, which take longer (see [`Session::set_ranges`]). A [`Command`] that would break it is refused with findings and changes nothing.
//! Dragging is a *gesture*: many small changes that undo in one step (see [`drag`]).

pub mod band;
mod bring_in;
mod clear;
pub mod command;
mod copy;
pub mod draft;
mod drag;
mod follow;
pub mod ground_words;
mod handle;
mod history;
pub mod incoming;
mod keepsake;
pub mod ledger;
mod patch;
mod photographing;
mod plan;
mod price_list;
mod ring;
mod scene;
mod section_view;
mod shape;
mod shaping;
mod site_value;
mod sketching;
pub mod snap;
mod staking;
pub mod tally;
pub mod tapes;

pub use band::BandFigure;
pub use command::Command;
pub use draft::Draft;
pub use drag::{DragTarget, handle, picture_handle};
pub use ground_words::GroundWords;
pub use handle::{Handle, Part, PlacedHandle};
pub use history::Steps;
pub use keepsake::Keepsake;
pub use ledger::{ClearanceRow, Ledger, Listed, clearance_rows};
pub use photographing::PhotographEdit;
pub use price_list::{PriceRow, price_rows};
pub use ring::TurnRing;
pub use section_view::{SectionDimension, SectionFigures};
pub use shape::Target;
pub use shaping::{PickedPart, ShapeEdit, Shaped, ShapedForm, Shaping};
pub use snap::Snap;
pub use staking::StakeoutEdit;
pub use tally::Tally;
pub use tapes::{TapeChoice, TapeRow};

use crate::analysis::{self, Analysis, Cache, Detail, Ranges, Scenario};
use crate::exchange::{self, Unknown, images};
use crate::finding::Finding;
use crate::geom::Point;
use crate::site::{CheckedSite, Feature, Site, stakeout, starter, tape};
use crate::sketch::Sketch;
use history::{History, Label};

/// An open site with its history and everything that follows from it.
#[derive(Debug)]
pub struct Session {
    site: CheckedSite,
    analysis: Analysis,
    cache: Cache,
    history: History,
    marks: band::Marks,
    gesture: Option<drag::Gesture>,
    /// A pointer is over the shell's handle.
    over_turn: bool,
    snap: Option<Snap>,
    draft: Option<Draft>,
    shown: Option<Sketch>,
    shaping: Option<Shaping>,
    section: section_view::SectionView,
    still: Option<plan::StillDrawing>,
    clear: clear::Clear,
    unknown: Unknown,
    revision: u64,
    /// It follows what is done elsewhere and makes no edit.
    watching: bool,
}

impl Session {
    /// A session on a blank lot.
    ///
    /// # Errors
    /// None that a test would not have caught: the blank lot goes through the door as well.
    pub fn new() -> Result<Self, Vec<Finding>> {
        let site = CheckedSite::check(starter::blank_lot(), None)?;
        Ok(Self::of(site, Unknown::default()))
    }

    fn of(site: CheckedSite, unknown: Unknown) -> Self {
        let mut cache = Cache::default();
        let analysis = analysis::run(&Scenario::of(&site), Detail::Complete, &mut cache);
        Self {
            site,
            analysis,
            cache,
            history: History::default(),
            marks: band::Marks::default(),
            gesture: None,
            over_turn: false,
            snap: None,
            draft: None,
            shown: None,
            shaping: None,
            section: section_view::SectionView::default(),
            still: None,
            clear: clear::Clear::default(),
            unknown,
            revision: 0,
            watching: false,
        }
    }

    /// Opens a site file in place of the present one; history starts afresh.
    ///
    /// # Errors
    /// Every fault of the file; the open work stays as it was.
    pub fn open(&mut self, text: &str) -> Result<Vec<Finding>, Vec<Finding>> {
        self.open_kept(text, "")
    }

    /// Opens what [`Session::save_bare`] gave, with the data of its images ([`images`]).
    ///
    /// # Errors
    /// As [`Session::open`].
    pub fn open_kept(&mut self, text: &str, data: &str) -> Result<Vec<Finding>, Vec<Finding>> {
        let opened = exchange::open_with_images(text, data)?;
        let revision = self.revision + 1;
        let section = self.section.of_another_site();
        *self = Self {
            revision,
            section,
            watching: self.watching,
            clear: core::mem::take(&mut self.clear).of_another_site(),
            ..Self::of(opened.site, opened.unknown)
        };
        Ok(opened.findings)
    }

    /// The site file of the present site.
    pub fn save(&self) -> String {
        exchange::save(self.site.site(), &self.unknown)
    }

    /// The site file without the data of its images, which are large and seldom change: for forms, and
    /// to be kept after every edit.
    pub fn save_bare(&self) -> String {
        self.bare_text(self.site.site())
    }

    /// A site with the members that nobody knows, as the text of a file without its images' data.
    fn bare_text(&self, site: &Site) -> String {
        exchange::save(&images::without(site), &self.unknown)
    }

    /// The present site.
    pub fn site(&self) -> &CheckedSite {
        &self.site
    }

    /// Everything that follows from the present site; low and high of its quantities once they
    /// were brought ([`Session::set_ranges`]).
    pub fn analysis(&self) -> &Analysis {
        &self.analysis
    }

    /// Takes low and high of the quantities, worked out elsewhere for the site as it was at a
    /// revision. False, and nothing is changed, where the site has moved on since.
    pub fn set_ranges(&mut self, ranges: &Ranges, revision: u64) -> bool {
        let fresh = revision == self.revision;
        if fresh {
            self.analysis.set_ranges(ranges, &self.site.site().rates);
        }
        fresh
    }

    /// Counts every change; equal revisions mean an equal site.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// What the shell snapped to in the gesture under way.
    pub fn snap(&self) -> Option<&Snap> {
        self.snap.as_ref()
    }

    /// Carries out one undoable edit. A gesture under way is ended first.
    ///
    /// # Errors
    /// Every fault it would cause; nothing was changed.
    pub fn apply(&mut self, command: Command) -> Result<(), Vec<Finding>> {
        self.release();
        let label = command.label();
        let next = command.carried_out(&self.site)?;
        self.commit(label, next)
    }

    fn commit(&mut self, label: Label, mut next: Site) -> Result<(), Vec<Finding>> {
        tape::drop_loose(&mut next);
        stakeout::drop_lost(&mut next);
        if next == **self.site.site() {
            return Ok(());
        }
        if self.watching {
            return Err(vec![keepsake::watching()]);
        }
        let checked = CheckedSite::check(next, Some(&self.site))?;
        let before = core::mem::replace(&mut self.site, checked);
        self.history.record(label, before);
        self.section.forget_drag();
        self.refresh();
        Ok(())
    }

    fn refresh(&mut self) {
        self.revision += 1;
        self.section.forget_cut();
        if self.gesture.is_none() {
            self.mark();
        }
        let scenario = Scenario::of(&self.site);
        self.analysis = analysis::run(&scenario, Detail::Complete, &mut self.cache);
        // Where it is shown the ledger tells of it, before the plan is painted.
        self.clear_ground();
    }

    /// What the figures are compared with from here on (see [`band`]).
    fn mark(&mut self) {
        self.marks = band::Marks::of(&self.analysis);
    }

    /// Takes the last edit back; says whether there was one.
    pub fn undo(&mut self) -> bool {
        self.undo_steps(1) == 1
    }

    /// Carries the last edit taken back out again; says whether there was one.
    pub fn redo(&mut self) -> bool {
        self.redo_steps(1) == 1
    }

    /// Takes back so many edits at once, as far as there are any; gives how many. What follows from
    /// the site is worked out once, however many there are.
    pub fn undo_steps(&mut self, steps: usize) -> usize {
        self.go(|history, site| history.undo(steps, site))
    }

    /// Carries out again so many edits at once, as [`Session::undo_steps`] takes them back.
    pub fn redo_steps(&mut self, steps: usize) -> usize {
        self.go(|history, site| history.redo(steps, site))
    }

    fn go(&mut self, to: impl FnOnce(&mut History, &mut CheckedSite) -> usize) -> usize {
        self.release();
        if self.watching {
            return 0;
        }
        let moved = to(&mut self.history, &mut self.site);
        if moved > 0 {
            self.section.forget_drag();
            self.refresh();
        }
        moved
    }

    /// Every edit that can be taken back or carried out again, by its name.
    pub fn steps(&self) -> Steps {
        self.history.steps()
    }

    /// The edit that [`Session::undo`] would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.history.undo_label()
    }

    /// The edit that [`Session::redo`] would carry out again.
    pub fn redo_label(&self) -> Option<&str> {
        self.history.redo_label()
    }

    /// What a finger or pointer at a place would take hold of.
    ///
    /// `reach`: how far off it may be, meters; `scale`: pixels per meter of the view.
    pub fn hit_test(&self, at: Point, reach: f64, scale: f64) -> Option<DragTarget> {
        self.part_at(at, reach, scale)
            .or_else(|| drag::hit_test(&self.site, at, reach, scale))
            .or_else(|| self.whole_at(at, reach))
            .or_else(|| drag::picture_at(&self.site, at, reach, scale))
    }

    /// Takes hold of what lies at a place and begins a gesture.
    pub fn grab(&mut self, at: Point, reach: f64, scale: f64) -> Option<DragTarget> {
        self.release();
        if self.watching {
            return None;
        }
        let held = self.hit_test(at, reach, scale)?;
        self.gesture = match held {
            DragTarget::Part(handle) => self.grab_part(handle, at, reach),
            _ => drag::Gesture::begin(held, &self.site, at, scale),
        };
        self.mark();
        self.gesture.as_ref().map(|_| held)
    }

    /// The feature within `reach` meters of a place, of those that are drawn; the last drawn wins.
    pub fn feature_at(&self, at: Point, reach: f64) -> Option<&Feature> {
        drag::feature_at(&self.site, at, reach)
    }

    /// Moves what is held to follow the hand.
    pub fn drag_to(&mut self, at: Point, snap: bool) {
        let Some(gesture) = &self.gesture else { return };
        let (mut next, mut snapped) = gesture.moved(&self.site, at, snap);
        let (held, gives_way) = (gesture.held(), gesture.gives_way());
        if snap && held == DragTarget::Shell {
            snapped = self.held_on_clear_ground(&mut next, gives_way);
        }
        self.snap = snapped;
        if next == **self.site.site() {
            return;
        }
        // What the door refuses is not taken: the hand goes on, what it holds stays where it was.
        match CheckedSite::check(next, Some(&self.site)) {
            Ok(checked) => {
                self.site = checked;
                self.refresh();
                self.tell_shape(String::new());
            }
            Err(faults) => self.tell_shape(sketching::sentence(&faults)),
        }
    }

    /// Lets go; the whole gesture becomes one step of the history.
    pub fn release(&mut self) {
        self.snap = None;
        let Some(gesture) = self.gesture.take() else {
            return;
        };
        let (label, held) = (gesture.label(), gesture.held());
        let before = gesture.before();
        if before.site() != self.site.site() {
            self.section.forget_drag();
            self.pick_dragged(held, before.site());
            self.history.record(label, before);
        }
    }

    /// Lets go and puts back what was moved.
    pub fn cancel(&mut self) {
        self.snap = None;
        if let Some(gesture) = self.gesture.take() {
            self.site = gesture.before();
            self.refresh();
            self.mark();
        }
    }

    /// Opens a shell file and chooses the shell in it.
    ///
    /// # Errors
    /// Every fault of the file or the shell; nothing was changed.
    pub fn open_shell(&mut self, text: &str) -> Result<Vec<Finding>, Vec<Finding>> {
        let (record, findings) = exchange::shell_file::open(text)?;
        self.apply(Command::ChooseShell(crate::site::ShellChoice::Own(record)))?;
        Ok(findings)
    }
}

#[cfg(test)]
mod photographed;
#[cfg(test)]
mod pictured;
#[cfg(test)]
mod poor_closure;
#[cfg(test)]
mod tests;
