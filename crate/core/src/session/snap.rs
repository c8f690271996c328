//! Turning the shell parallel to a wall or a lot line.

use crate::geom::{Point, Segment};
use crate::math::{TURN, wrap_half_turn, wrap_turn};
use crate::site::{CheckedSite, FeatureKind};

/// One degree, radians.
pub(super) const DEGREE: f64 = TURN / 360.0;

/// How far from parallel a turn still snaps, radians (3 degrees; arbitrary, tried by hand).
const CATCH: f64 = 3.0 * DEGREE;

/// The shortest straight stretch worth aligning to, meters (arbitrary: a door's width).
const SHORTEST: f64 = 0.9;

/// What a hand has snapped to.
#[derive(Debug, Clone, PartialEq)]
pub struct Snap {
    /// The reason, in words: `parallel to house`.
    pub reason: String,
    /// Lines that show the reason, site meters: what it is parallel or square to, where it is led.
    pub guides: Vec<(Point, Point)>,
}

/// A straight stretch of a wall or of the lot's boundary.
#[derive(Debug, Clone, PartialEq)]
pub struct StraightLine {
    from: Point,
    to: Point,
    label: String,
}

impl StraightLine {
    fn bearing(&self) -> f64 {
        (self.to - self.from).bearing()
    }

    /// The heading parallel or square to this line that lies nearest to `heading`, radians.
    pub fn heading(&self, heading: f64) -> f64 {
        let quarter = TURN / 4.0;
        let turns = ((heading - self.bearing()) / quarter).round();
        wrap_turn(self.bearing() + turns * quarter)
    }

    /// How a heading made by [`StraightLine::heading`] lies to this line, as a snap.
    fn snap(&self, heading: f64) -> Snap {
        let off = wrap_turn(heading - self.bearing() + TURN / 8.0) % (TURN / 2.0);
        let how = if off < TURN / 4.0 {
            "parallel"
        } else {
            "square"
        };
        Snap {
            reason: format!("{how} to {}", self.label),
            guides: vec![(self.from, self.to)],
        }
    }

    fn distance(&self, at: Point) -> f64 {
        let along = self.to - self.from;
        let t = ((at - self.from).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        at.distance(self.from + along * t)
    }
}

/// The heading a turn toward `heading` settles on, and what it snapped to.
pub fn turned(site: &CheckedSite, at: Point, heading: f64) -> (f64, Option<Snap>) {
    let nearest = lines(site)
        .filter(|line| wrap_half_turn(line.heading(heading) - heading).abs() <= CATCH)
        .min_by(|a, b| a.distance(at).total_cmp(&b.distance(at)));
    match nearest {
        Some(line) => {
            let heading = line.heading(heading);
            (heading, Some(line.snap(heading)))
        }
        None => (wrap_turn(heading), None),
    }
}

/// The heading of whole degrees nearest to one, radians in one turn.
pub(super) fn whole(heading: f64) -> f64 {
    wrap_turn((heading / DEGREE).round() * DEGREE)
}

/// The straight wall or lot line nearest to a point.
pub fn nearest_line(site: &CheckedSite, at: Point) -> Option<StraightLine> {
    lines(site).min_by(|a, b| a.distance(at).total_cmp(&b.distance(at)))
}

/// The bearings of the straight walls and lot lines worth aligning to, radians.
pub fn headings_along(site: &CheckedSite) -> impl Iterator<Item = f64> + '_ {
    lines(site).map(|line| wrap_turn(line.bearing()))
}

/// Every straight stretch worth aligning to: the lot's sides, then walls, buildings and fences.
fn lines(site: &CheckedSite) -> impl Iterator<Item = StraightLine> + '_ {
    let sides = site
        .lot()
        .lot
        .sides
        .iter()
        .map(|side| (side.segment, side.label.to_string()));
    let walls = site
        .features()
        .iter()
        .filter(|f| is_wall(f.kind))
        .flat_map(|f| {
            let label = site.site().features.get(f.index).map_or("", |f| f.label());
            f.shape
                .segments()
                .into_iter()
                .map(move |s| (s, label.to_owned()))
        });
    sides
        .chain(walls)
        .filter_map(|(segment, label)| match segment {
            Segment::Line { from, to } if from.distance(to) >= SHORTEST => {
                Some(StraightLine { from, to, label })
            }
            _ => None,
        })
}

fn is_wall(kind: FeatureKind) -> bool {
    use FeatureKind as K;
    matches!(
        kind,
        K::House | K::Outbuilding | K::Wall | K::Fence | K::Driveway | K::Walk
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(bearing_degrees: f64) -> StraightLine {
        let along = crate::geom::Vector::along_bearing(bearing_degrees * TURN / 360.0);
        let from = Point::new(3.0, 4.0);
        StraightLine {
            from,
            to: from + along * 10.0,
            label: "house".into(),
        }
    }

    #[test]
    fn the_nearest_quarter_turn_is_taken() {
        let degrees = |d: f64| d * TURN / 360.0;
        for (bearing, heading, expected) in [
            (10.0, 12.0, 10.0),
            (10.0, 98.0, 100.0),
            (350.0, 5.0, 350.0),
            (10.0, 193.0, 190.0),
        ] {
            let settled = line(bearing).heading(degrees(heading));
            assert!(
                wrap_half_turn(settled - degrees(expected)).abs() < 1e-12,
                "{bearing} {heading}"
            );
        }
    }

    #[test]
    fn the_reason_tells_parallel_from_square() {
        let degrees = |d: f64| d * TURN / 360.0;
        let wall = line(30.0);
        assert_eq!(
            wall.snap(wall.heading(degrees(31.0))).reason,
            "parallel to house"
        );
        assert_eq!(
            wall.snap(wall.heading(degrees(211.0))).reason,
            "parallel to house"
        );
        assert_eq!(
            wall.snap(wall.heading(degrees(122.0))).reason,
            "square to house"
        );
        assert_eq!(
            wall.snap(wall.heading(degrees(301.0))).reason,
            "square to house"
        );
    }
}
