//! What a finger can hold, and how the site follows it.

use std::sync::Arc;

use super::follow;
use super::handle::{self, Handle};
use super::scene::scene;
use super::shape::Target;
use super::snap::{self, Snap};
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Region, Vector};
use crate::site::{CheckedSite, EquipmentPad, Feature, Picture, Placement, Site};
use crate::sketch::catch::{Scene, Stroke, catch};

/// How far outside the rim the turning handle stands on the screen, pixels: clear of the
/// finger that drags the shell.
const HANDLE_STANDOFF: f64 = 44.0;

/// How far beyond the handle a hand still turns the shell by whole degrees, pixels: a finger's
/// breadth or so.
const NEAR_RING: f64 = 48.0;

/// How far past the edge of clear ground a hand may go until the shell lets go of the edge and
/// follows it, pixels: two fingers' breadth (our choice).
const GIVES_WAY: f64 = 48.0;

/// What is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DragTarget {
    /// The shell, to move it.
    Shell,
    /// The shell's handle, to turn it.
    Turn,
    /// The equipment pad, to move it.
    Equipment,
    /// A part of the shape that is being changed.
    Part(Handle),
    /// The picture under the plan, to move it.
    Picture,
    /// The picture's handle, to turn it.
    TurnPicture,
}

/// A drag under way: what is held, where, and the site before it began.
#[derive(Debug)]
pub(super) struct Gesture {
    held: DragTarget,
    before: CheckedSite,
    /// From the hand to what it moves, meters; for turning, the angle between the hand and
    /// the shell's heading is kept in `turn` instead.
    offset: Vector,
    turn: f64,
    /// How far past the edge of clear ground the hand may go until the shell lets go of it, meters.
    gives_way: f64,
    /// How near to the shell's middle the hand turns it by whole degrees, meters.
    near: f64,
    shape: Option<ShapeHold>,
}

/// What a hand needs that holds a part of a shape.
#[derive(Debug)]
struct ShapeHold {
    target: Target,
    /// Where the part was when it was taken.
    from: Point,
    scene: Scene,
    stroke: Stroke,
    reach: f64,
}

/// Where the turning handle stands, site meters: beyond the deep end, along the heading.
///
/// `scale`: pixels per meter of the view.
pub fn handle(site: &CheckedSite, scale: f64) -> Option<(Point, Point)> {
    let (shell, placement) = site.placed_shell()?;
    let reach = shell.rim.bounds().map_or(0.0, |(_, high)| high.x);
    let along = Vector::along_bearing(placement.heading);
    let rim = placement.at + along * reach;
    Some((rim, rim + along * (HANDLE_STANDOFF / scale)))
}

/// What lies within reach of a place: the handle first, then the shell, then the pad.
pub(super) fn hit_test(
    site: &CheckedSite,
    at: Point,
    reach: f64,
    scale: f64,
) -> Option<DragTarget> {
    if handle(site, scale).is_some_and(|(_, knob)| knob.distance(at) <= reach.max(12.0 / scale)) {
        return Some(DragTarget::Turn);
    }
    if let Some((shell, placement)) = site.placed_shell() {
        let local = placement.pose().shell_from_site(at);
        if touches(&shell.rim, local, reach / 2.0) {
            return Some(DragTarget::Shell);
        }
    }
    let pad = site.equipment()?;
    touches(&pad, at, reach).then_some(DragTarget::Equipment)
}

/// Where the turning handle of the picture stands, site meters: beyond the middle of its upper
/// edge. None where there is no picture to move.
///
/// `scale`: pixels per meter of the view.
pub fn picture_handle(site: &CheckedSite, scale: f64) -> Option<(Point, Point)> {
    let picture = loose_picture(site)?;
    let edge = picture.site_from_pixel(f64::from(picture.width) / 2.0, 0.0);
    let up = Vector::along_bearing(picture.heading);
    Some((edge, edge + up * (HANDLE_STANDOFF / scale)))
}

/// The picture where a hand may move it: seen, and not locked.
fn loose_picture(site: &CheckedSite) -> Option<&Picture> {
    let picture = site.site().picture.as_deref()?;
    (!picture.locked && !picture.hidden).then_some(picture)
}

/// The picture or its handle at a place. It lies under everything and is held last.
pub(super) fn picture_at(
    site: &CheckedSite,
    at: Point,
    reach: f64,
    scale: f64,
) -> Option<DragTarget> {
    let (_, knob) = picture_handle(site, scale)?;
    if knob.distance(at) <= reach.max(12.0 / scale) {
        return Some(DragTarget::TurnPicture);
    }
    loose_picture(site)?
        .covers(at)
        .then_some(DragTarget::Picture)
}

/// The feature at a place, of those that are drawn; the last drawn wins.
pub(super) fn feature_at(site: &CheckedSite, at: Point, reach: f64) -> Option<&Feature> {
    let records = &site.site().features;
    let drawn = site.features().iter().rev();
    let mut drawn = drawn.filter_map(|f| Some((f, records.get(f.index)?)));
    let found = drawn.find(|(f, record)| !record.hidden && within(f.shape.figure(), at, reach));
    found.map(|(_, record)| record)
}

/// Whether a point is inside a region or within `reach` of its boundary.
fn touches(region: &Region, at: Point, reach: f64) -> bool {
    within(Figure::Area(region), at, reach)
}

/// Whether a figure comes within `reach` of a point.
fn within(figure: Figure<'_>, at: Point, reach: f64) -> bool {
    nearest(figure, Figure::Chain(&[at])).is_some_and(|n| n.distance <= reach)
}

impl Gesture {
    /// `scale`: pixels per meter of the view.
    pub(super) fn begin(
        held: DragTarget,
        site: &CheckedSite,
        at: Point,
        scale: f64,
    ) -> Option<Self> {
        let mut near = 0.0;
        let (offset, turn) = match held {
            DragTarget::Shell => (site.site().placement.as_ref()?.at - at, 0.0),
            DragTarget::Turn => {
                let placement = site.site().placement.as_ref()?;
                let (_, knob) = handle(site, scale)?;
                near = knob.distance(placement.at) + NEAR_RING / scale;
                (
                    Vector::default(),
                    placement.heading - (at - placement.at).bearing(),
                )
            }
            DragTarget::Equipment => (site.site().equipment?.at - at, 0.0),
            DragTarget::Part(_) => return None,
            DragTarget::Picture => (loose_picture(site)?.at - at, 0.0),
            DragTarget::TurnPicture => {
                let picture = loose_picture(site)?;
                let turn = picture.heading - (at - picture.at).bearing();
                (Vector::default(), turn)
            }
        };
        Some(Self {
            held,
            before: site.clone(),
            offset,
            turn,
            gives_way: GIVES_WAY / scale,
            near,
            shape: None,
        })
    }

    /// Takes hold of a part of a shape.
    pub(super) fn begin_part(
        target: &Target,
        handle: Handle,
        site: &CheckedSite,
        at: Point,
        reach: f64,
    ) -> Option<Self> {
        let from = handle::place(target, site.site(), handle, at)?;
        let shape = ShapeHold {
            target: target.clone(),
            from,
            scene: scene(site),
            stroke: handle::stroke(target, site.site(), handle),
            reach,
        };
        Some(Self {
            held: DragTarget::Part(handle),
            before: site.clone(),
            offset: from - at,
            turn: 0.0,
            gives_way: 0.0,
            near: 0.0,
            shape: Some(shape),
        })
    }

    /// How far past the edge of clear ground the hand may go until the shell lets go of it, meters.
    pub(super) fn gives_way(&self) -> f64 {
        self.gives_way
    }

    /// What is held.
    pub(super) fn held(&self) -> DragTarget {
        self.held
    }

    /// The site with a part of a shape moved, always from where it was taken.
    fn part_moved(
        &self,
        hold: &ShapeHold,
        handle: Handle,
        at: Point,
        snap: bool,
    ) -> (Site, Option<Snap>) {
        let hand = at + self.offset;
        let caught = Some(())
            .filter(|()| snap)
            .and_then(|()| catch(hand, hold.reach, &hold.scene, &hold.stroke));
        let to = caught.as_ref().map_or(hand, |c| c.at);
        let mut next = Site::clone(self.before.site());
        handle::moved(&hold.target, &mut next, handle, hold.from, to);
        follow::courses(&mut next, &self.before);
        let snapped = caught.map(|c| Snap {
            reason: c.reason,
            guides: c.guides,
        });
        (next, snapped)
    }

    /// The site with what is held moved to follow the hand.
    pub(super) fn moved(&self, site: &CheckedSite, at: Point, snap: bool) -> (Site, Option<Snap>) {
        if let (DragTarget::Part(handle), Some(hold)) = (self.held, &self.shape) {
            return self.part_moved(hold, handle, at, snap);
        }
        let mut next = Site::clone(site.site());
        let mut snapped = None;
        match (self.held, &mut next) {
            (
                DragTarget::Shell,
                Site {
                    placement: Some(placement),
                    ..
                },
            ) => placement.at = at + self.offset,
            (
                DragTarget::Equipment,
                Site {
                    equipment: Some(pad),
                    ..
                },
            ) => {
                *pad = EquipmentPad {
                    at: at + self.offset,
                    ..*pad
                };
            }
            (
                DragTarget::Turn,
                Site {
                    placement: Some(placement),
                    ..
                },
            ) => {
                snapped = self.turn(site, placement, at, snap);
            }
            (
                DragTarget::Picture,
                Site {
                    picture: Some(picture),
                    ..
                },
            ) => Arc::make_mut(picture).at = at + self.offset,
            (
                DragTarget::TurnPicture,
                Site {
                    picture: Some(picture),
                    ..
                },
            ) => {
                let heading = (at - picture.at).bearing() + self.turn;
                Arc::make_mut(picture).heading = crate::math::wrap_turn(heading);
            }
            _ => {}
        }
        (next, snapped)
    }

    fn turn(
        &self,
        site: &CheckedSite,
        placement: &mut Placement,
        at: Point,
        snap: bool,
    ) -> Option<Snap> {
        let wanted = (at - placement.at).bearing() + self.turn;
        let (heading, snapped) = if snap {
            snap::turned(site, placement.at, wanted)
        } else {
            (crate::math::wrap_turn(wanted), None)
        };
        let near = at.distance(placement.at) <= self.near;
        placement.heading = if snap && near && snapped.is_none() {
            snap::whole(wanted)
        } else {
            heading
        };
        snapped
    }

    pub(super) fn label(&self) -> &'static str {
        match self.held {
            DragTarget::Shell => "move shell",
            DragTarget::Turn => "turn shell",
            DragTarget::Equipment => "move equipment",
            DragTarget::Part(handle) => super::shaping::label(handle.part),
            DragTarget::Picture => "move the picture",
            DragTarget::TurnPicture => "turn the picture",
        }
    }

    /// The site before the gesture began.
    pub(super) fn before(self) -> CheckedSite {
        self.before
    }

    /// The site as it was when the drag began.
    pub(super) fn begun_from(&self) -> &CheckedSite {
        &self.before
    }
}
