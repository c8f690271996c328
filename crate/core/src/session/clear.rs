//! Clear ground of an open site: shown while the shell is in the hand, or for as long as it is asked
//! for; a shell pushed against its edge slides along it.

use std::sync::Arc;

use super::drag::DragTarget;
use super::{Session, Snap};
use crate::clear_ground::{
    Bounds, Cause, ClearGround, HeadingRange, Ruler, nothing_left_words, settled,
};
use crate::drawing::{self, Drawing};
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Region};
use crate::site::{Placement, Site};

/// A place this near to clear ground counts as on it, meters.
const ON_THE_EDGE: f64 = 0.005;

/// While the shell is turned clear ground is another one in each frame: places this near to its edge, three times over, may
/// be missing then, meters. Nobody sees that under a moving hand.
const UNDER_TURNING: f64 = 0.005;

/// What is kept of clear ground between frames.
#[derive(Debug, Default)]
pub(super) struct Clear {
    shown: bool,
    ready: Option<(Basis, ClearGround)>,
    at_heading: Option<AtHeading>,
    around: Option<(Basis, Vec<HeadingRange>)>,
}

impl Clear {
    /// Whether it is shown, and nothing else.
    pub(super) fn of_another_site(self) -> Self {
        Self {
            shown: self.shown,
            ..Self::default()
        }
    }
}

/// Clear ground at one heading.
#[derive(Debug)]
struct AtHeading {
    heading: f64,
    mirrored: bool,
    region: Arc<Region>,
    /// Where nothing is clear: what leaves nothing between them.
    nothing_left_by: Vec<Cause>,
}

/// What clear ground follows from.
#[derive(Debug, Clone)]
struct Basis {
    site: Arc<Site>,
    /// Where the shell stands, where that makes a difference.
    at: Option<Placement>,
    /// How far corners may lie off the edges that take their place, meters.
    within: f64,
}

impl Basis {
    /// Whether the same follows from both.
    fn same(&self, other: &Self) -> bool {
        let (a, b) = (&self.site, &other.site);
        let shells = a.placement.as_ref().zip(b.placement.as_ref());
        Arc::ptr_eq(&a.lot, &b.lot)
            && Arc::ptr_eq(&a.features, &b.features)
            && Arc::ptr_eq(&a.rules, &b.rules)
            && Arc::ptr_eq(&a.works, &b.works)
            && Arc::ptr_eq(&a.ground, &b.ground)
            && shells.is_some_and(|(a, b)| {
                Arc::ptr_eq(&a.shell, &b.shell) && a.coping_elevation == b.coping_elevation
            })
            && self.at == other.at
            && self.within == other.within
    }
}

impl Session {
    /// Shows clear ground from now on, or only while the shell is in the hand.
    pub fn show_clear_ground(&mut self, shown: bool) {
        self.clear.shown = shown;
    }

    /// Whether clear ground is shown: it was asked for, or the shell is in the hand.
    fn shows_clear_ground(&self) -> bool {
        self.clear.shown || matches!(self.held(), Some(DragTarget::Shell | DragTarget::Turn))
    }

    /// What a hand holds.
    pub(super) fn held(&self) -> Option<DragTarget> {
        self.gesture.as_ref().map(|gesture| gesture.held())
    }

    /// Every place of the shell's middle at its present heading, while it is shown; `None` otherwise
    /// and before a shell is placed.
    pub fn clear_ground(&mut self) -> Option<Arc<Region>> {
        if !self.shows_clear_ground() {
            return None;
        }
        self.ready_clear_ground()?;
        self.clear
            .at_heading
            .as_ref()
            .map(|it| Arc::clone(&it.region))
    }

    /// The same to be drawn over the work.
    pub fn clear_ground_drawing(&mut self) -> Option<Drawing> {
        let region = self.clear_ground()?;
        let placement = self.site.site().placement.as_ref()?;
        Some(drawing::clear_ground(&region, placement.at))
    }

    /// Why no ground is clear at the present heading, in words, where it is shown and none is.
    pub fn why_nothing_is_clear(&self) -> Option<String> {
        let clear = self.clear.at_heading.as_ref();
        let none = clear.filter(|it| it.region.is_empty() && self.shows_clear_ground())?;
        Some(nothing_left_words(&self.site, &none.nothing_left_by))
    }

    /// Works clear ground out for the present heading, unless that was done.
    fn ready_clear_ground(&mut self) -> Option<()> {
        let (_, placement) = self.site.placed_shell()?;
        let level = self.site.site().ground.is_level();
        let within = match self.held() {
            Some(DragTarget::Turn) => UNDER_TURNING,
            _ => 0.0,
        };
        let basis = Basis {
            site: Arc::clone(self.site.site()),
            at: (!level).then(|| placement.clone()),
            within,
        };
        let (heading, mirrored) = (placement.heading, placement.mirrored);
        let clear = &mut self.clear;
        let is_ready = clear.ready.as_ref().is_some_and(|(it, _)| it.same(&basis));
        let same = |it: &AtHeading| it.heading == heading && it.mirrored == mirrored;
        if is_ready && clear.at_heading.as_ref().is_some_and(same) {
            return Some(());
        }
        let bounds = Bounds::of(&self.site, &self.analysis.work, &placement.pose())?;
        if !is_ready {
            let ground = ClearGround::thinned(&bounds, within);
            clear.ready = Some((basis, ground));
        }
        let (_, ground) = clear.ready.as_ref()?;
        let mut region = ground.region(heading, mirrored);
        if region.is_empty() && within > 0.0 {
            // What is left may be narrower than that.
            region = bounds.region(heading, mirrored);
        }
        let mut nothing_left_by = Vec::new();
        if region.is_empty() {
            // What left nothing a moment ago mostly still does: that is soon told.
            let last = clear.at_heading.take().map(|it| it.nothing_left_by);
            let fewer = bounds.only(&last.unwrap_or_default());
            nothing_left_by = fewer.what_leaves_nothing(heading, mirrored);
            if nothing_left_by.is_empty() {
                nothing_left_by = bounds.what_leaves_nothing(heading, mirrored);
            }
        }
        clear.at_heading = Some(AtHeading {
            heading,
            mirrored,
            region: Arc::new(region),
            nothing_left_by,
        });
        Some(())
    }

    /// Every heading the shell may take where it stands.
    pub(super) fn free_headings(&mut self) -> &[HeadingRange] {
        let Some((_, placement)) = self.site.placed_shell() else {
            return &[];
        };
        // On a slope the dig is taken as it is where the shell was when the turn began.
        let at = Placement {
            heading: 0.0,
            ..placement.clone()
        };
        let basis = Basis {
            site: Arc::clone(self.site.site()),
            at: Some(at),
            within: 0.0,
        };
        let kept = self.clear.around.take().filter(|(it, _)| it.same(&basis));
        let found = kept.or_else(|| {
            let bounds = Bounds::of(&self.site, &self.analysis.work, &placement.pose())?;
            Some((basis, bounds.headings(placement.at, placement.mirrored)))
        });
        self.clear.around = found;
        self.clear.around.as_ref().map_or(&[], |(_, ranges)| ranges)
    }

    /// Holds a shell that a hand pushes over the edge of clear ground on that edge, as long as the hand
    /// is no farther past it than `gives_way`, meters.
    pub(super) fn held_on_clear_ground(&mut self, next: &mut Site, gives_way: f64) -> Option<Snap> {
        let before = self.site.site().placement.as_ref()?.at;
        let region = self.clear_ground()?;
        let placement = next.placement.as_mut()?;
        let off = |at: Point| nearest(Figure::Chain(&[at]), Figure::Area(&region));
        // What stood too close at first may go where the hand leads it.
        if off(before)?.distance > ON_THE_EDGE {
            return None;
        }
        let wanted = off(placement.at)?;
        if wanted.distance <= 0.0 || wanted.distance > gives_way {
            return None;
        }
        let here = self.site.site().placement.as_ref()?.pose();
        let bounds = Bounds::of(&self.site, &self.analysis.work, &here)?;
        placement.at = settled(&region, &Ruler::of(&bounds), &placement.pose())?;
        Some(Snap {
            reason: "along the edge of clear ground".to_owned(),
            guides: Vec::new(),
        })
    }
}
