//! Where a fitting is: from a place on the plan into the shell's frame, and along the wall.

use super::Closed;
use crate::geom::{Point, Pose};
use crate::shell::Shell;

/// The place of a fitting, shell frame, from a place on the plan (site frame). One in the wall goes
/// to the nearest place of the water's edge; one in the floor stays where it is.
pub fn from_site(shell: &Shell, pose: &Pose, at: Point, in_wall: bool) -> Point {
    let here = pose.shell_from_site(at);
    if !in_wall {
        return here;
    }
    let edge = Closed::of(&shell.footprint);
    edge.nearest(here).map_or(here, |(_, on)| on)
}

/// How far a place (shell frame) lies along the water's edge, meters: from where the edge crosses
/// the length at the deep end, counter-clockwise as the shell is drawn.
pub fn along(shell: &Shell, at: Point) -> f64 {
    let edge = Closed::of(&shell.footprint);
    let Some((station, _)) = edge.nearest(at) else {
        return 0.0;
    };
    let from = start(shell, &edge);
    let ahead = station - from;
    let round = edge.length();
    // A hair before the start is the start.
    let ahead = ahead - (ahead / round).floor() * round;
    if round - ahead < 1e-6 { 0.0 } else { ahead }
}

/// The place so far along the water's edge, meters, shell frame.
pub fn at_along(shell: &Shell, along: f64) -> Point {
    let edge = Closed::of(&shell.footprint);
    let from = start(shell, &edge);
    edge.at(from + along).unwrap_or_default()
}

/// Where the edge is counted from: its place nearest to a point far ahead.
fn start(shell: &Shell, edge: &Closed) -> f64 {
    let ahead = shell.footprint.bounds().map_or(0.0, |(_, high)| high.x);
    let nearest = edge.nearest(Point::new(ahead, 0.0));
    nearest.map_or(0.0, |(station, _)| station)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::shell::catalogue;

    #[test]
    fn a_place_on_the_plan_comes_to_the_wall_and_back() {
        for record in catalogue::all() {
            let (shell, _) = Shell::check(record).unwrap();
            for mirrored in [false, true] {
                let pose = Pose::new(Point::new(20.0, 30.0), 0.7, mirrored);
                let tapped = pose.site_from_shell(Point::new(1.0, 9.0));
                let at = from_site(&shell, &pose, tapped, true);
                let station = along(&shell, at);
                assert!(
                    at_along(&shell, station).distance(at) < 1e-6,
                    "{}",
                    record.name
                );
                // The left side lies less than halfway round, counter-clockwise from ahead.
                assert!(station > 0.0 && station < shell.outline.perimeter() / 2.0);
                let floor = from_site(&shell, &pose, tapped, false);
                assert!(floor.distance(Point::new(1.0, 9.0)) < 1e-9);
            }
            assert!(at_along(&shell, 0.0).x > 0.0);
            assert!(along(&shell, at_along(&shell, 0.0)) < 1e-6);
        }
    }
}
