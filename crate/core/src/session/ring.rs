//! The ring round the shell while it is turned by its handle: degrees, and the heading.

use super::drag::{DragTarget, handle};
use super::{Session, snap};
use crate::clear_ground::HeadingRange;
use crate::geom::{Point, Vector};
use crate::units::{Measure, show};

/// From one mark of the ring to the next, degrees.
const STEP: u16 = 5;

/// How long the marks at every 5, 15 and 90 degrees are, pixels.
const MARKS: [f64; 3] = [6.0, 11.0, 18.0];

/// The ring, site meters.
#[derive(Debug, Clone, PartialEq)]
pub struct TurnRing {
    /// The shell's middle.
    pub middle: Point,
    /// Its radius: the handle runs along it.
    pub radius: f64,
    /// Its marks, from the ring inward.
    pub marks: Vec<(Point, Point)>,
    /// The headings at which nothing falls short where the shell stands.
    pub free: Vec<HeadingRange>,
    /// Where the shell points, radians clockwise from north.
    pub heading: f64,
    /// The same as text.
    pub text: String,
}

impl Session {
    /// As [`Session::hit_test`], for a pointer that passes over the plan: the ring shows while it is over
    /// the shell's handle.
    pub fn hover(&mut self, at: Point, reach: f64, scale: f64) -> Option<DragTarget> {
        let under = self.hit_test(at, reach, scale);
        self.over_turn = under == Some(DragTarget::Turn);
        under
    }

    /// The ring, while the shell is turned by its handle or a pointer is over that.
    ///
    /// `scale`: pixels per meter of the view.
    pub fn turn_ring(&mut self, scale: f64) -> Option<TurnRing> {
        let held = self.held();
        let shown = held.map_or(self.over_turn, |held| held == DragTarget::Turn);
        let (_, knob) = handle(&self.site, scale).filter(|_| shown)?;
        let free = self.free_headings().to_vec();
        let site = self.site.site();
        let placement = site.placement.as_ref()?;
        let (middle, heading) = (placement.at, placement.heading);
        let radius = knob.distance(middle);
        let mark = |degrees: u16| {
            let long = match degrees {
                it if it % 90 == 0 => MARKS[2],
                it if it % 15 == 0 => MARKS[1],
                _ => MARKS[0],
            };
            let out = Vector::along_bearing(f64::from(degrees) * snap::DEGREE);
            (
                middle + out * radius,
                middle + out * (radius - long / scale),
            )
        };
        Some(TurnRing {
            middle,
            radius,
            marks: (0..360).step_by(STEP.into()).map(mark).collect(),
            free,
            heading,
            text: show(Measure::Heading, heading, site.display).text,
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]

    use super::*;
    use crate::math::TURN;
    use crate::session::Command;
    use crate::session::tests::with_shell;

    const SCALE: f64 = 20.0;

    fn heading(session: &Session) -> f64 {
        let placement = session.site().site().placement.as_ref().unwrap();
        placement.heading * 360.0 / TURN
    }

    /// A shell pointing 40 degrees, held by its handle; the distance of that from its middle.
    fn turning() -> (Session, Point, f64) {
        let mut session = with_shell();
        let heading = 40.0 * snap::DEGREE;
        session.apply(Command::TurnShell { heading }).unwrap();
        let (_, knob) = handle(session.site(), SCALE).unwrap();
        assert_eq!(session.grab(knob, 0.3, SCALE), Some(DragTarget::Turn));
        let middle = session.site().site().placement.as_ref().unwrap().at;
        (session, middle, knob.distance(middle))
    }

    #[test]
    fn the_hand_turns_by_whole_degrees_near_the_ring_and_freely_far_out() {
        let (mut session, middle, radius) = turning();
        let mut turned = |degrees: f64, out: f64, snap: bool| {
            session.drag_to(
                middle + Vector::along_bearing(degrees * snap::DEGREE) * out,
                snap,
            );
            heading(&session)
        };
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
        near(turned(52.3, radius, true), 52.0);
        near(turned(52.6, radius + 2.0, true), 53.0);
        near(turned(52.6, radius * 0.4, true), 53.0);
        near(turned(52.37, radius + 3.0, true), 52.37);
        near(turned(52.37, radius, false), 52.37);
        // The lot line first, and without a whole degree between it and the hand.
        near(turned(92.6, radius, true), 90.0);
        near(turned(92.6, radius + 3.0, true), 90.0);
        near(turned(93.4, radius, true), 93.0);
        near(turned(359.7, radius, false), 359.7);
        session.release();
        assert_eq!(session.undo_label(), Some("turn shell"));
    }

    #[test]
    fn the_ring_shows_while_the_handle_is_held_or_under_the_pointer() {
        let (mut session, middle, radius) = turning();
        let ring = session.turn_ring(SCALE).unwrap();
        assert_eq!((ring.marks.len(), ring.radius), (72, radius));
        let long = |i: usize| (ring.marks[i].0.distance(ring.marks[i].1) * SCALE).round();
        assert_eq!(
            [long(0), long(1), long(3), long(18)],
            [18.0, 6.0, 11.0, 18.0]
        );
        // The mark at 90 degrees lies east of the middle.
        assert!(ring.marks[18].0.distance(middle + Vector::new(radius, 0.0)) < 1e-9);
        assert!(ring.text.contains("40"), "{}", ring.text);
        session.release();
        assert_eq!(session.turn_ring(SCALE), None);
        let (_, knob) = handle(session.site(), SCALE).unwrap();
        assert_eq!(session.hover(knob, 0.3, SCALE), Some(DragTarget::Turn));
        assert!(session.turn_ring(SCALE).is_some());
        session.grab(middle, 0.3, SCALE).unwrap();
        assert_eq!(session.turn_ring(SCALE), None);
        session.release();
        session.hover(middle, 0.3, SCALE);
        assert_eq!(session.turn_ring(SCALE), None);
    }
}
