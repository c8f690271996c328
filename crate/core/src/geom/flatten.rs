//! Arcs into straight edges, with a named tolerance on a named side.
//!
//! An arc is cut into equal steps small enough for the tolerance; its points come from
//! turning the start point step by step, so an arc costs one sine and one cosine.

use super::path::{Outline, Segment, Track};
use super::point::{Point, Vector};
use super::region::{Region, Ring};
use crate::math::{TURN, asin, cos, sin};

/// On which side of the true arc the chords lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChordSide {
    /// Chords inside the arc's circle: vertices on the arc. An outward bulge loses area.
    Inscribed,
    /// Chords centered on the arc: its area is kept exactly, vertices and chords lie off the
    /// arc by at most the tolerance. End points of segments stay where they are.
    Centred,
}

/// Tolerances below this are taken as this, meters: finer than any instrument on site, and it
/// bounds the number of chords.
const FINEST_TOLERANCE: f64 = 1e-6;

/// The longest step along an arc, radians: an eighth of a turn, so that even a tolerance wider
/// than the arc leaves a recognisable figure.
const LONGEST_STEP: f64 = TURN / 8.0;

/// The largest step along an arc of `radius` meters whose chord stays within `tolerance`
/// meters of it, radians. Sagitta `r (1 - cos(step / 2)) = 2 r sin^2(step / 4)`.
pub(super) fn arc_step(radius: f64, tolerance: f64) -> f64 {
    let tolerance = tolerance.max(FINEST_TOLERANCE);
    (4.0 * asin((tolerance / (2.0 * radius)).sqrt())).min(LONGEST_STEP)
}

/// The most steps of one arc: a full circle of 10 km radius at 0.1 mm takes a third of this. It
/// keeps a radius that nobody meant from filling the memory.
const MOST_STEPS: u32 = 65_536;

/// How many equal steps no longer than `step` make up `sweep` (radians): at least one.
pub(super) fn step_count(sweep: f64, step: f64) -> u32 {
    // The cast saturates, and NaN becomes 0: a bad arc is one chord.
    ((sweep.abs() / step).ceil() as u32).clamp(1, MOST_STEPS)
}

/// The outline as a ring of straight edges, nowhere farther than `tolerance` meters from it.
/// Its first point is the outline's first vertex.
pub fn flatten(outline: &Outline, tolerance: f64, side: ChordSide) -> Ring {
    let mut points = Vec::new();
    for segment in outline.segments() {
        flatten_on(&segment, tolerance, side, &mut points);
    }
    // The last segment ends on the first vertex.
    let closing = usize::from(!points.is_empty());
    points.rotate_right(closing);
    Ring(points)
}

/// The open path as a chain of points (inscribed chords).
pub fn flatten_track(track: &Track, tolerance: f64) -> Vec<Point> {
    let mut points: Vec<Point> = track.vertices().iter().take(1).map(|v| v.at).collect();
    for segment in track.segments() {
        flatten_segment(&segment, tolerance, &mut points);
    }
    points
}

/// Points along one stretch, its start left out and its end put in (inscribed chords).
pub fn flatten_segment(segment: &Segment, tolerance: f64, out: &mut Vec<Point>) {
    flatten_on(segment, tolerance, ChordSide::Inscribed, out);
}

fn flatten_on(segment: &Segment, tolerance: f64, side: ChordSide, out: &mut Vec<Point>) {
    if let Segment::Arc {
        from,
        centre,
        radius,
        sweep,
        ..
    } = *segment
    {
        let (steps, stretch) = match side {
            ChordSide::Inscribed => (step_count(sweep, arc_step(radius, tolerance)), 1.0),
            ChordSide::Centred => {
                // To keep the area, a lone middle vertex must stand out by 4/3 of the sagitta
                // of a short step, 1.46 times that of the longest.
                let steps = step_count(sweep, arc_step(radius, tolerance / 1.5)).max(2);
                (steps, area_keeping_stretch(steps, sweep.abs()))
            }
        };
        let step = sweep / f64::from(steps);
        let (cos, sin) = (cos(step), sin(step));
        let mut spoke = (from - centre) * stretch;
        for _ in 1..steps {
            spoke = turned(spoke, cos, sin);
            out.push(centre + spoke);
        }
    }
    out.push(segment.to());
}

/// A vector turned by the angle of the given cosine and sine.
pub(super) fn turned(v: Vector, cos: f64, sin: f64) -> Vector {
    Vector::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}

/// By how much the inner vertices of `steps >= 2` chords must leave the circle so that the
/// chords enclose the same area as the arc: the triangles from the center,
/// `sin(step) ((n - 2) k^2 + 2 k)`, must equal the sector's `sweep`.
fn area_keeping_stretch(steps: u32, sweep: f64) -> f64 {
    let inner = f64::from(steps) - 2.0;
    let sector = sweep / sin(sweep / f64::from(steps));
    sector / (1.0 + (1.0 + inner * sector).sqrt())
}

impl Outline {
    /// The area inside this outline, inscribed chords within `tolerance` meters. Distances to
    /// it differ from those to the true arcs by at most the tolerance.
    pub fn region(&self, tolerance: f64) -> Region {
        Region::from_ring(flatten(self, tolerance, ChordSide::Inscribed))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{VOLUME_TOLERANCE, Vertex};
    use crate::math::tan;

    /// A circle of radius 3 as two half turns.
    fn circle() -> Outline {
        Outline::check(vec![
            Vertex::arc(-3.0, 0.0, 1.0),
            Vertex::arc(3.0, 0.0, 1.0),
        ])
        .unwrap()
    }

    #[test]
    fn inscribed_chords_stay_within_the_tolerance_inside() {
        let ring = flatten(&circle(), 0.001, ChordSide::Inscribed);
        for (a, b) in ring.edges() {
            assert!((a.distance(Point::default()) - 3.0).abs() < 1e-12);
            let sagitta = 3.0 - a.midpoint(b).distance(Point::default());
            assert!((0.0..=0.001).contains(&sagitta), "{sagitta}");
        }
        assert_eq!(ring.0[0], Point::new(-3.0, 0.0));
        assert!(ring.signed_area() < circle().area());
    }

    #[test]
    fn centred_chords_keep_the_area() {
        for tolerance in [1.0, 0.3, 0.1, 0.01, VOLUME_TOLERANCE] {
            let ring = flatten(&circle(), tolerance, ChordSide::Centred);
            assert!((ring.signed_area() - circle().area()).abs() < 1e-10);
            for (a, b) in ring.edges() {
                for p in [a, a.midpoint(b)] {
                    let off = (p.distance(Point::default()) - 3.0).abs();
                    assert!(off <= tolerance, "{off} at {tolerance}");
                }
            }
        }
    }

    #[test]
    fn short_arcs_keep_their_area_too() {
        let lens = Outline::check(vec![
            Vertex::arc(0.0, 0.0, 0.02),
            Vertex::line(1.0, 0.0),
            Vertex::line(0.5, 1.0),
        ])
        .unwrap();
        let ring = flatten(&lens, 0.1, ChordSide::Centred);
        assert!((ring.signed_area() - lens.area()).abs() < 1e-13);
    }

    #[test]
    fn a_lone_middle_vertex_stays_within_the_tolerance() {
        // Half the sweep is the longest step; the tolerance is what that step just meets.
        let wedge = Outline::check(vec![
            Vertex::arc(0.0, 0.0, tan(TURN / 16.0)),
            Vertex::line(2.0, 0.0),
        ]);
        let wedge = wedge.unwrap();
        let Some(Segment::Arc { centre, radius, .. }) = wedge.segments().next() else {
            panic!("an arc")
        };
        let tolerance = 1.5 * radius * (1.0 - cos(LONGEST_STEP / 2.0));
        let ring = flatten(&wedge, tolerance, ChordSide::Centred);
        assert_eq!(ring.0.len(), 3);
        assert!(ring.0[1].distance(centre) - radius <= tolerance);
    }

    #[test]
    fn a_track_keeps_its_ends() {
        let track =
            Track::check(vec![Vertex::arc(0.0, 0.0, -1.0), Vertex::line(2.0, 0.0)]).unwrap();
        let points = flatten_track(&track, 0.001);
        assert_eq!(points[0], Point::new(0.0, 0.0));
        assert_eq!(points[points.len() - 1], Point::new(2.0, 0.0));
        assert!(points.iter().all(|p| p.y >= 0.0));
    }

    #[test]
    fn a_foolish_tolerance_is_bounded() {
        for tolerance in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let ring = flatten(&circle(), tolerance, ChordSide::Inscribed);
            assert!((8..10_000).contains(&ring.0.len()), "{}", ring.0.len());
        }
    }
}
