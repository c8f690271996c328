//! The door: what a path must satisfy before anything is computed from it.
//!
//! Every fault names the vertex it concerns as a JSON pointer below the path (`/3`), the
//! place on the plan, and the remedy. A closed path must not repeat its first vertex at the
//! end: the repeat is a stretch of no length, told in words of its own.

use super::meet::{meeting, reach};
use super::point::Point;
use super::segment::{Segment, Vertex, closed_segments, signed_area};
use super::{COORDINATE_LIMIT, DRAWING_TOLERANCE};
use crate::finding::Finding;
use crate::order::put_in_order;

/// Two vertices nearer than this are one, and two sides nearer than this touch, meters: a
/// tenth of what a tape shows.
pub const SMALLEST_GAP: f64 = 1e-4;

/// The least area a closed path may enclose, m2: a square centimetre, below any post or pipe.
pub const SMALLEST_AREA: f64 = 1e-4;

/// The most vertices of one path. Lots and shells have tens; the bound keeps a hostile file
/// from stalling the page.
pub const VERTEX_LIMIT: usize = 5_000;

/// The largest bulge: an arc of 330 degrees, tan(330 / 4 degrees). A rounder arc hangs on a
/// chord too short to define it; give it a vertex more.
pub const BULGE_LIMIT: f64 = 7.595_754_112_725_15;

/// How many self-crossings are told of one path; a scribble has thousands.
const CROSSINGS_TOLD: usize = 20;

/// Every fault of a closed path; empty when it may become an outline.
pub fn closed_path(vertices: &[Vertex]) -> Vec<Finding> {
    let mut faults = vertex_faults(vertices);
    if !faults.is_empty() {
        return faults;
    }
    let segments: Vec<Segment> = closed_segments(vertices).collect();
    let curved = segments.iter().any(|s| matches!(s, Segment::Arc { .. }));
    if vertices.len() < 2 || vertices.len() < 3 && !curved {
        faults.push(Finding::fault(
            "path-too-short",
            "The outline has too few corners to enclose an area.",
            "Give at least three corners, or two joined by an arc.",
        ));
        return faults;
    }
    for (i, segment) in segments.iter().enumerate() {
        if segment.from().distance(segment.to()) >= SMALLEST_GAP {
            continue;
        }
        let last = i + 1 == segments.len();
        faults.push(no_length(i, segment.from(), last));
    }
    if faults.is_empty() {
        self_meetings(&segments, &mut faults);
    }
    // Written so that an area that is not a number is refused too.
    let encloses = signed_area(vertices).abs() >= SMALLEST_AREA;
    if faults.is_empty() && !encloses {
        faults.push(Finding::fault(
            "area-too-small",
            "The outline encloses next to no area.",
            "Draw the corners farther apart, and check the unit of the numbers.",
        ));
    }
    faults
}

/// Every fault of an open path; empty when it may become a track.
pub fn open_path(vertices: &[Vertex]) -> Vec<Finding> {
    let mut faults = vertex_faults(vertices);
    if !faults.is_empty() {
        return faults;
    }
    if vertices.len() < 2 {
        faults.push(Finding::fault(
            "path-too-short",
            "The line has fewer than two points.",
            "Give at least two points.",
        ));
    }
    for (i, (a, b)) in vertices.iter().zip(vertices.iter().skip(1)).enumerate() {
        if a.at.distance(b.at) < SMALLEST_GAP {
            faults.push(no_length(i, a.at, false));
        }
    }
    faults
}

/// Faults that each vertex has by itself, and of their number.
fn vertex_faults(vertices: &[Vertex]) -> Vec<Finding> {
    if vertices.len() > VERTEX_LIMIT {
        let message = format!(
            "The path has {} points; at most {VERTEX_LIMIT} are taken.",
            vertices.len()
        );
        let remedy = "Use arcs for curves, or thin the points out.";
        return vec![Finding::fault("path-too-long", message, remedy)];
    }
    let mut faults = Vec::new();
    for (i, vertex) in vertices.iter().enumerate() {
        let number = i + 1;
        let place = format!("/{i}");
        if !vertex.at.is_finite() {
            let message = format!("Point {number} has a coordinate that is not a number.");
            let remedy = "Type the coordinates of this point again.";
            faults.push(Finding::fault("coordinate-not-finite", message, remedy).under(&place));
        } else if vertex.at.x.abs() > COORDINATE_LIMIT || vertex.at.y.abs() > COORDINATE_LIMIT {
            let message = format!(
                "Point {number} lies more than {} km from the origin.",
                COORDINATE_LIMIT / 1000.0
            );
            let remedy = "Measure from a corner of the lot; bring state-plane coordinates to a \
                          local origin first, and check the unit.";
            faults.push(Finding::fault("coordinate-out-of-range", message, remedy).under(&place));
        }
        // Written so that a bulge that is not a number is refused too.
        let gentle = vertex.bulge.abs() <= BULGE_LIMIT;
        if !gentle {
            let message =
                format!("The arc that leaves point {number} turns more than 330 degrees.");
            let remedy = "Split the arc with one more point, or check its bulge.";
            let fault = Finding::fault("bulge-out-of-range", message, remedy).under(&place);
            faults.push(placed(fault, vertex.at));
        }
    }
    faults
}

fn no_length(i: usize, at: Point, closing: bool) -> Finding {
    let (message, remedy) = if closing {
        (
            format!("Point {} repeats the first point.", i + 1),
            "Remove the last point: the outline closes by itself.".to_owned(),
        )
    } else {
        (
            format!("Points {} and {} are the same place.", i + 1, i + 2),
            "Remove one of the two, or move it.".to_owned(),
        )
    };
    placed(
        Finding::fault("stretch-of-no-length", message, remedy).under(&format!("/{i}")),
        at,
    )
}

/// Sides that cross or touch other than at the corner they share. Sides are taken from west
/// to east, and each is compared only with those that begin before it ends.
fn self_meetings(segments: &[Segment], faults: &mut Vec<Finding>) {
    let mut sides: Vec<Side<'_>> = segments
        .iter()
        .enumerate()
        .map(|(index, segment)| {
            let (low, high) = reach(segment);
            Side {
                index,
                segment,
                low,
                high,
            }
        })
        .collect();
    put_in_order(&mut sides, |a, b| {
        a.low.x.total_cmp(&b.low.x).then(a.index.cmp(&b.index))
    });
    for (k, a) in sides.iter().enumerate() {
        let rivals = sides.iter().skip(k + 1);
        for b in rivals.take_while(|b| b.low.x <= a.high.x + SMALLEST_GAP) {
            if faults.len() >= CROSSINGS_TOLD {
                return;
            }
            if a.low.y > b.high.y + SMALLEST_GAP || b.low.y > a.high.y + SMALLEST_GAP {
                continue;
            }
            let (first, second) = if a.index < b.index { (a, b) } else { (b, a) };
            let shared = shared_corners(first, second, segments.len());
            let at = meeting(
                first.segment,
                second.segment,
                &shared,
                SMALLEST_GAP,
                DRAWING_TOLERANCE,
            );
            if let Some(at) = at {
                faults.push(crossing(first.index, second.index, at));
            }
        }
    }
}

/// A side of the path and the box it lies in.
struct Side<'a> {
    index: usize,
    segment: &'a Segment,
    low: Point,
    high: Point,
}

/// The corners that two sides of a closed path have in common.
fn shared_corners(first: &Side<'_>, second: &Side<'_>, count: usize) -> Vec<Point> {
    let mut shared = Vec::new();
    if (first.index + 1) % count == second.index {
        shared.push(second.segment.from());
    }
    if (second.index + 1) % count == first.index {
        shared.push(first.segment.from());
    }
    shared
}

fn crossing(first: usize, second: usize, at: Point) -> Finding {
    let message = format!("Side {} crosses or touches side {}.", first + 1, second + 1);
    let remedy = "Move a corner so that the outline does not cross or touch itself.";
    placed(
        Finding::fault("path-crosses-itself", message, remedy).under(&format!("/{first}")),
        at,
    )
}

fn placed(finding: Finding, at: Point) -> Finding {
    if at.is_finite() {
        finding.at(at.x, at.y)
    } else {
        finding
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::path::bulge_of_angle;

    fn lines(points: &[[f64; 2]]) -> Vec<Vertex> {
        points.iter().map(|p| Vertex::line(p[0], p[1])).collect()
    }

    fn checks(findings: &[Finding]) -> Vec<&str> {
        findings.iter().map(|f| f.code).collect()
    }

    #[test]
    fn the_bulge_limit_is_an_arc_of_330_degrees() {
        assert!((bulge_of_angle(330f64.to_radians()) - BULGE_LIMIT).abs() < 1e-12);
    }

    #[test]
    fn sound_outlines_pass() {
        let l = [[0., 0.], [4., 0.], [4., 1.], [1., 1.], [1., 3.], [0., 3.]];
        assert!(closed_path(&lines(&l)).is_empty());
        let circle = [Vertex::arc(0., 0., 1.0), Vertex::arc(2., 0., 1.0)];
        assert!(closed_path(&circle).is_empty());
        let half = [Vertex::arc(0., 0., 1.0), Vertex::line(2., 0.)];
        assert!(closed_path(&half).is_empty());
        // Tangent corners, given to a millimetre only.
        let b = bulge_of_angle(core::f64::consts::FRAC_PI_2);
        let mut rounded = lines(&[
            [1.001, 0.],
            [7., 0.],
            [8., 1.],
            [8., 4.],
            [0., 4.],
            [0., 1.],
        ]);
        rounded[1].bulge = b;
        rounded[5].bulge = b;
        assert!(closed_path(&rounded).is_empty());
    }

    #[test]
    fn a_bow_tie_is_told_with_its_place() {
        let faults = closed_path(&lines(&[[0., 0.], [2., 2.], [2., 0.], [0., 2.]]));
        assert_eq!(checks(&faults), ["path-crosses-itself"]);
        assert_eq!(faults[0].pointer, "/0");
        assert_eq!(faults[0].at, Some([1.0, 1.0]));
        assert!(faults[0].is_fault() && !faults[0].remedy.is_empty());
    }

    #[test]
    fn a_corner_on_a_side_and_a_spike_are_refused() {
        let touching = [[0., 0.], [4., 0.], [4., 4.], [2., 0.], [0., 4.]];
        assert!(checks(&closed_path(&lines(&touching))).contains(&"path-crosses-itself"));
        let spike = [[0., 0.], [4., 0.], [4., 4.], [4., 1.], [0., 1.]];
        assert!(checks(&closed_path(&lines(&spike))).contains(&"path-crosses-itself"));
    }

    #[test]
    fn an_arc_that_swings_into_another_side_is_refused() {
        let mut swung = lines(&[[0., 0.], [4., 0.], [4., 1.], [0., 1.]]);
        swung[0].bulge = -0.4;
        assert!(closed_path(&swung).is_empty());
        swung[0].bulge = -0.6;
        assert_eq!(checks(&closed_path(&swung)), ["path-crosses-itself"; 1]);
        // Two arcs on the same track enclose nothing.
        let flat = [Vertex::arc(0., 0., 0.5), Vertex::arc(2., 0., -0.5)];
        assert!(!closed_path(&flat).is_empty());
    }

    #[test]
    fn a_repeated_first_point_is_told_in_its_own_words() {
        let faults = closed_path(&lines(&[[0., 0.], [1., 0.], [1., 1.], [0., 0.]]));
        assert_eq!(checks(&faults), ["stretch-of-no-length"]);
        assert_eq!(faults[0].pointer, "/3");
        assert!(faults[0].message.contains("repeats the first"));
    }

    #[test]
    fn every_bad_vertex_is_told() {
        let mut bad = lines(&[[f64::NAN, 0.], [1., 2e4], [1., 1.], [0., f64::INFINITY]]);
        bad[2].bulge = f64::NAN;
        let faults = closed_path(&bad);
        let expected = [
            "coordinate-not-finite",
            "coordinate-out-of-range",
            "bulge-out-of-range",
            "coordinate-not-finite",
        ];
        assert_eq!(checks(&faults), expected);
        let places: Vec<&str> = faults.iter().map(|f| f.pointer.as_str()).collect();
        assert_eq!(places, ["/0", "/1", "/2", "/3"]);
    }

    #[test]
    fn too_few_too_many_and_too_small_are_refused() {
        assert_eq!(checks(&closed_path(&[])), ["path-too-short"]);
        assert_eq!(
            checks(&closed_path(&lines(&[[0., 0.], [1., 0.]]))),
            ["path-too-short"]
        );
        let crowd = vec![Vertex::line(0.0, 0.0); VERTEX_LIMIT + 1];
        assert_eq!(checks(&closed_path(&crowd)), ["path-too-long"]);
        let speck = [[0., 0.], [0.009, 0.], [0.009, 0.009], [0., 0.009]];
        assert_eq!(checks(&closed_path(&lines(&speck))), ["area-too-small"]);
    }

    #[test]
    fn a_scribble_is_told_in_few_words() {
        let zigzag: Vec<[f64; 2]> = (0..200)
            .map(|i| [f64::from(i * 7919 % 101), f64::from(i * 104_729 % 97)])
            .collect();
        assert_eq!(closed_path(&lines(&zigzag)).len(), CROSSINGS_TOLD);
    }

    #[test]
    fn open_paths_may_cross_themselves_but_not_stand_still() {
        assert!(open_path(&lines(&[[0., 0.], [2., 2.], [2., 0.], [0., 2.]])).is_empty());
        assert_eq!(checks(&open_path(&lines(&[[0., 0.]]))), ["path-too-short"]);
        let still = open_path(&lines(&[[0., 0.], [1., 0.], [1., 0.]]));
        assert_eq!(checks(&still), ["stretch-of-no-length"]);
        assert_eq!(still[0].pointer, "/1");
    }
}
