//! What a machine sweeps in a bend.
//!
//! In a steady turn the middle of the front axle runs on a circle of radius R and that of the rear
//! axle, a wheelbase L behind it and square to its own circle, on one of radius
//! sqrt(R^2 - L^2) (plane geometry: a right triangle). The machine sweeps its own width and the
//! difference of the two. A short bend ends before the turn is steady and sweeps less; bodies that
//! reach beyond the axles sweep more.

use super::gap::{self, Piece};
use crate::geom::{Point, Vector};
use crate::math::{atan2, greater, hypot, lesser, tan};
use crate::site::MachineSize;
use crate::units::constants::DEGREE;

/// A line that bends by less than this is driven without a turn (our choice).
const STRAIGHT: f64 = 8.0 * DEGREE;

/// The arc of a bend is looked at in so many parts (our choice: a few centimeters each).
const PARTS: u32 = 48;

/// A bend of the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// Where it is, site meters.
    pub at: Point,
    /// By how much it turns, radians.
    pub turn: f64,
    /// The width that the machine sweeps in a steady turn, meters.
    pub swept: f64,
    /// The clear width along its arc less what is swept and the room on either side, meters; none where
    /// the legs before and behind are too short for the arc.
    pub room: Option<f64>,
}

impl Bend {
    /// Whether the machine gets round it along this line.
    pub fn is_clear(&self) -> bool {
        self.room.is_some_and(|room| room >= 0.0)
    }
}

/// The width that a machine sweeps in a steady turn, meters; one that turns on the spot sweeps a
/// circle about its middle, as wide as its diagonal.
pub fn swept_width(machine: &MachineSize) -> f64 {
    match off_tracking(machine) {
        Some((_, off)) => machine.width + off,
        None => hypot(machine.width, machine.wheelbase),
    }
}

/// The radius on which the rear axle's middle runs, and by how much it runs inside the front one's,
/// meters; none of a machine that turns on the spot. No wheels turn on a radius below the wheelbase.
fn off_tracking(machine: &MachineSize) -> Option<(f64, f64)> {
    let (r, l) = (machine.turning_radius, machine.wheelbase);
    let rear = (r > l).then(|| ((r - l) * (r + l)).sqrt())?;
    Some((rear, r - rear))
}

/// Every bend of a line as the machine takes it, with so much room on either side, meters.
pub fn bends(pieces: &[Piece], line: &[Point], machine: &MachineSize, side: f64) -> Vec<Bend> {
    let swept = swept_width(machine);
    let needed = swept + 2.0 * side;
    let last = line.len().saturating_sub(3);
    let bend = |(i, [a, b, c]): (usize, &[Point; 3])| {
        let (before, after) = (*b - *a, *c - *b);
        let turn = atan2(before.cross(after), before.dot(after));
        if turn.abs() < STRAIGHT {
            return None;
        }
        let bend = |room| Bend {
            at: *b,
            turn: turn.abs(),
            swept,
            room,
        };
        let Some((rear, _)) = off_tracking(machine) else {
            let clear = 2.0 * gap::clearance(pieces, *b).0;
            return Some(bend(Some(clear - needed)));
        };
        // The middle of the band that is swept.
        let radius = (machine.turning_radius + rear) / 2.0;
        let tangent = radius * tan(turn.abs() / 2.0);
        // A leg between two bends serves both.
        let (lead, run) = (before.length(), after.length());
        let lead = if i == 0 { lead } else { lead / 2.0 };
        let run = if i == last { run } else { run / 2.0 };
        if tangent > lesser(lead, run) {
            return Some(bend(None));
        }
        let arc = arc(*b, before, tangent, radius, turn);
        let clear = 2.0
            * arc.fold(f64::INFINITY, |least, p| {
                lesser(least, gap::clearance(pieces, p).0)
            });
        Some(bend(Some(clear - needed)))
    };
    let corners = line.array_windows::<3>().enumerate();
    corners.filter_map(bend).collect()
}

/// Points of the arc that rounds a corner.
fn arc(
    at: Point,
    before: Vector,
    tangent: f64,
    radius: f64,
    turn: f64,
) -> impl Iterator<Item = Point> {
    let along = before.unit().unwrap_or_default();
    let start = at - along * tangent;
    let inward = if turn > 0.0 {
        along.left()
    } else {
        along.left() * -1.0
    };
    let middle = start + inward * radius;
    let first = (start - middle).angle();
    (0..=PARTS).map(move |i| {
        let angle = first + turn * f64::from(i) / f64::from(PARTS);
        middle + Vector::at_angle(angle) * greater(radius, 0.0)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn machine(width: f64, wheelbase: f64, turning_radius: f64) -> MachineSize {
        MachineSize {
            width,
            wheelbase,
            turning_radius,
            height: 3.0,
        }
    }

    #[test]
    fn swept_width_is_that_of_the_right_triangle() {
        // R 13, L 5: the rear runs on 12, and 2.5 wide sweeps 3.5.
        assert!((swept_width(&machine(2.5, 5.0, 13.0)) - 3.5).abs() < 1e-12);
        // On the spot: the diagonal of 3 by 4.
        assert!((swept_width(&machine(3.0, 4.0, 0.0)) - 5.0).abs() < 1e-12);
        assert!((swept_width(&machine(3.0, 4.0, 2.0)) - 5.0).abs() < 1e-12);
    }

    #[test]
    fn a_bend_of_a_right_angle_keeps_its_arc_clear() {
        let line = [[0.0, 0.0], [0.0, 30.0], [30.0, 30.0]].map(Point::from);
        // A post where the arc's middle passes: the arc has radius 12.5, its middle at (12.5, 17.5).
        let middle = 12.5 - 12.5 / 2.0_f64.sqrt();
        let post = Piece {
            from: Point::new(middle - 3.0, 30.0 - middle + 3.0),
            to: Point::new(middle - 3.0, 30.0 - middle + 3.0),
            radius: 0.0,
            owner: 0,
        };
        let found = bends(&[post], &line, &machine(2.5, 5.0, 13.0), 0.25);
        let [bend] = found.as_slice() else {
            unreachable!("one corner, one bend")
        };
        assert!((bend.turn - core::f64::consts::FRAC_PI_2).abs() < 1e-12);
        // 3 sqrt 2 away: clear width 6 sqrt 2, less 3.5 and 2 times 0.25.
        let expected = 6.0 * 2.0_f64.sqrt() - 4.0;
        assert!((bend.room.unwrap_or(f64::NAN) - expected).abs() < 1e-3);
        assert!(bend.is_clear());
        // Legs of 8 are too short for an arc of 12.5.
        let short = [[0.0, 22.0], [0.0, 30.0], [8.0, 30.0]].map(Point::from);
        assert_eq!(
            bends(&[], &short, &machine(2.5, 5.0, 13.0), 0.25)[0].room,
            None
        );
    }
}
