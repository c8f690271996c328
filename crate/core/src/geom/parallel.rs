//! The area and the length of an outline widened by a distance, arcs exact.
//!
//! # Method
//! Steiner's formula, stretch by stretch: an outline of length `P` that turns by the angle `t` at
//! its outer corners and along its arcs (inward arcs count against) gains `P r + t r^2 / 2` of
//! area and `t r` of length. Where two straight stretches meet at an inner corner that turns by
//! `u`, their strips overlap by a kite of `r^2 tan(u / 2)`.
//!
//! The formula knows nothing of parts of an outline that grow into each other (a waist that
//! closes, an inward arc tighter than the distance). So it is held against the widened polygon:
//! where the two differ by more than its chords can, the polygon is right.

use super::VOLUME_TOLERANCE;
use super::flatten::{ChordSide, flatten};
use super::offset::offset_region;
use super::path::{Outline, Segment};
use super::point::Vector;
use super::region::Region;
use crate::math::{atan2, tan};

/// A turn below this is rounding of arcs that meet smoothly, radians.
const SMOOTH: f64 = 1e-6;

/// An outline widened all round, its outer corners rounded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OffsetMeasure {
    /// Enclosed area, m2.
    pub area: f64,
    /// Length round it, meters.
    pub length: f64,
    /// Whether both are exact, or those of a polygon within `VOLUME_TOLERANCE`.
    pub exact: bool,
}

/// The outline widened by `distance` meters, not negative.
pub fn offset_measure(outline: &Outline, distance: f64) -> OffsetMeasure {
    let ring = flatten(outline, VOLUME_TOLERANCE, ChordSide::Centred);
    let polygon = offset_region(&Region::from_ring(ring), distance, VOLUME_TOLERANCE);
    let (area, length) = (polygon.area(), polygon.perimeter());
    // What chords can leave out or add.
    let doubt = 2.0 * VOLUME_TOLERANCE * length + 1e-6;
    match steiner(outline, distance) {
        Some((exact, long)) if (exact - area).abs() <= doubt && long >= length - doubt => {
            OffsetMeasure {
                area: exact,
                length: long,
                exact: true,
            }
        }
        _ => OffsetMeasure {
            area,
            length,
            exact: false,
        },
    }
}

/// Area and length by the formula; `None` where an inner corner has an arc beside it or reaches
/// past the end of a stretch, or an inward arc is tighter than the distance.
fn steiner(outline: &Outline, distance: f64) -> Option<(f64, f64)> {
    let segments: Vec<Segment> = outline.segments().collect();
    let mut turn = 0.0;
    let mut kites = 0.0;
    for (i, segment) in segments.iter().enumerate() {
        let next = segments.get((i + 1) % segments.len())?;
        if let Segment::Arc { radius, sweep, .. } = *segment {
            if sweep < 0.0 && radius <= distance {
                return None;
            }
            turn += sweep;
        }
        let (here, ahead) = (direction(segment, true), direction(next, false));
        let corner = atan2(here.cross(ahead), here.dot(ahead));
        if corner >= -SMOOTH {
            turn += corner;
            continue;
        }
        let half = tan(-corner / 2.0);
        let straight = |s: &Segment| matches!(s, Segment::Line { .. });
        let reach = half * distance;
        let short = segment.length().min(next.length());
        // Half of a stretch, because its other end may be an inner corner as well.
        if !straight(segment) || !straight(next) || reach > short / 2.0 {
            return None;
        }
        kites += half;
    }
    let (r, length) = (distance, outline.perimeter());
    Some((
        outline.area() + length * r + (turn / 2.0 - kites) * r * r,
        length + (turn - 2.0 * kites) * r,
    ))
}

/// The direction of travel at the end of a stretch, or at its start.
fn direction(segment: &Segment, at_end: bool) -> Vector {
    match *segment {
        Segment::Line { from, to } => to - from,
        Segment::Arc {
            from,
            to,
            centre,
            sweep,
            ..
        } => {
            let spoke = if at_end { to } else { from } - centre;
            spoke.left() * sweep.signum()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Vertex;
    use crate::math::TURN;

    const PI: f64 = TURN / 2.0;

    fn outline(vertices: Vec<Vertex>) -> Outline {
        Outline::check(vertices).unwrap()
    }

    fn near(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-9, "{a} is not {b}");
    }

    #[test]
    fn a_rectangle_is_rounded_at_its_corners() {
        let line = Vertex::line;
        let it = outline(vec![
            line(0., 0.),
            line(30., 0.),
            line(30., 14.),
            line(0., 14.),
        ]);
        let wide = offset_measure(&it, 3.0);
        near(wide.area, 420.0 + 88.0 * 3.0 + PI * 9.0);
        near(wide.length, 88.0 + TURN * 3.0);
        assert!(wide.exact);
    }

    #[test]
    fn an_inner_corner_stays_sharp() {
        let line = Vertex::line;
        let it = outline(vec![
            line(0., 0.),
            line(9., 0.),
            line(9., 4.),
            line(4., 4.),
            line(4., 8.),
            line(0., 8.),
        ]);
        let wide = offset_measure(&it, 0.5);
        // Five outer corners of a quarter disc each; at the inner one a square is counted twice.
        near(
            wide.area,
            it.area() + 34.0 * 0.5 + 5.0 / 4.0 * PI * 0.25 - 0.25,
        );
        near(wide.length, 34.0 + 5.0 / 4.0 * PI - 1.0);
        assert!(wide.exact);
    }

    #[test]
    fn arcs_grow_outward_and_shrink_inward() {
        // A kidney whose waist is an inward arc of radius 1.6 m.
        let it = outline(vec![
            Vertex::arc(1.4, 1.2, -0.6),
            Vertex::arc(-1.4, 1.2, 0.95),
            Vertex::arc(-1.4, -1.2, 0.15),
            Vertex::arc(1.4, -1.2, 0.95),
        ]);
        let polygon = |by: f64| offset_region(&it.region(1e-6), by, 1e-6);
        for by in [0.2, 0.5, 1.2, 1.7, 3.0] {
            let (wide, drawn) = (offset_measure(&it, by), polygon(by));
            let within = if wide.exact { 1e-4 } else { 0.02 };
            assert!((wide.area - drawn.area()).abs() < within, "{by}: {wide:?}");
            assert!((wide.length - drawn.perimeter()).abs() < within, "{by}");
        }
        // Its waist fills beyond its own radius: no formula holds there.
        assert!(!offset_measure(&it, 3.0).exact);
    }
}
