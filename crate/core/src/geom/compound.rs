//! Several polygons with holes as one figure: what a county's parcel or a pond with an island is.
//!
//! Inside a hole is outside the figure, for areas as for distances. A piece may lie in the hole
//! of another. Pieces and holes may touch, but not overlap.

use super::boolean::{difference, intersection};
use super::flatten::{ChordSide, flatten};
use super::path::{Outline, Segment, Vertex};
use super::region::{Polygon, Region, Ring};
use super::{DRAWING_TOLERANCE, validate::SMALLEST_AREA};
use crate::finding::Finding;

/// One polygon as it came in: its outer path and its holes, either way round.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rough {
    /// The path round it.
    pub outer: Vec<Vertex>,
    /// The paths round what is not in it.
    pub holes: Vec<Vec<Vertex>>,
}

/// A checked compound figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Compound {
    /// The boundaries, arcs kept, each counter-clockwise by itself.
    pub outlines: Vec<Outline>,
    /// The figure flattened for distances (`DRAWING_TOLERANCE`): holes clockwise.
    pub region: Region,
}

/// Checks polygons with holes; paths the wrong way round are turned.
///
/// # Errors
/// Every fault, placed as `/0/outer/3`, `/0/holes/1`: what is wrong with a path by itself; a
/// hole that leaves its polygon or overlaps another; polygons that overlap; none at all.
pub fn check(pieces: &[Rough]) -> Result<Compound, Vec<Finding>> {
    let mut faults = Vec::new();
    let mut outlines = Vec::new();
    let mut polygons: Vec<Polygon> = Vec::new();
    if pieces.is_empty() {
        faults.push(Finding::fault(
            "no-pieces",
            "The shape has no piece.",
            "Give at least one outline.",
        ));
    }
    let mut ring = |path: &[Vertex], place: String, faults: &mut Vec<Finding>| match Outline::check(
        path.to_vec(),
    ) {
        Ok(outline) => {
            let ring = flatten(&outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
            outlines.push(outline);
            Some(ring)
        }
        Err(found) => {
            faults.extend(found.into_iter().map(|f| f.under(&place)));
            None
        }
    };
    for (i, piece) in pieces.iter().enumerate() {
        let outer = ring(&piece.outer, format!("/{i}/outer"), &mut faults);
        let mut holes: Vec<Ring> = Vec::new();
        for (j, hole) in piece.holes.iter().enumerate() {
            let place = format!("/{i}/holes/{j}");
            let (Some(hole), Some(outer)) = (ring(hole, place.clone(), &mut faults), &outer) else {
                continue;
            };
            let own = Region::from_ring(hole.clone());
            let out = difference(&own, &Region::from_ring(outer.clone()));
            let twice = holes.iter().map(|other| {
                let other = Region::from_ring(other.reversed());
                intersection(&own, &other)
            });
            let wrong = overlap(&own, &out)
                .map(|at| at_fault("hole-outside", at))
                .or_else(|| {
                    let at = twice.filter_map(|both| overlap(&own, &both)).next();
                    at.map(|at| at_fault("holes-overlap", at))
                });
            faults.extend(wrong.map(|fault| fault.under(&place)));
            holes.push(hole.reversed());
        }
        polygons.extend(outer.map(|outer| Polygon { outer, holes }));
    }
    if faults.is_empty() {
        apart(&polygons, &mut faults);
    }
    if faults.is_empty() {
        let region = Region { polygons };
        Ok(Compound { outlines, region })
    } else {
        Err(faults)
    }
}

impl Compound {
    /// The stretches of all boundaries, one list for each.
    pub fn boundaries(&self) -> Vec<Vec<Segment>> {
        let outlines = self.outlines.iter();
        outlines.map(|o| o.segments().collect()).collect()
    }
}

/// Faults of polygons that overlap others before them.
fn apart(polygons: &[Polygon], faults: &mut Vec<Finding>) {
    let regions: Vec<Region> = polygons
        .iter()
        .map(|polygon| Region {
            polygons: vec![polygon.clone()],
        })
        .collect();
    for (i, region) in regions.iter().enumerate() {
        let earlier = regions.iter().take(i);
        let near = earlier.filter(|other| boxes_meet(region, other));
        let both = near.map(|other| intersection(region, other));
        let at = both.filter_map(|both| overlap(region, &both)).next();
        faults.extend(at.map(|at| at_fault("pieces-overlap", at).under(&format!("/{i}/outer"))));
    }
}

fn boxes_meet(a: &Region, b: &Region) -> bool {
    let (Some((low, high)), Some((other_low, other_high))) = (a.bounds(), b.bounds()) else {
        return false;
    };
    low.x <= other_high.x && other_low.x <= high.x && low.y <= other_high.y && other_low.y <= high.y
}

/// The middle of what two figures share, when that is more than two boundaries that run along
/// each other leave when they are flattened.
fn overlap(one: &Region, shared: &Region) -> Option<super::Point> {
    let hair = SMALLEST_AREA + 2.0 * DRAWING_TOLERANCE * one.perimeter();
    if shared.area() > hair {
        shared.centroid()
    } else {
        None
    }
}

fn at_fault(check: &'static str, at: super::Point) -> Finding {
    let (message, remedy) = match check {
        "hole-outside" => (
            "The hole reaches out of its outline.",
            "Draw the hole inside it, or give it to the outline it lies in.",
        ),
        "holes-overlap" => (
            "The hole overlaps another hole.",
            "Join the two into one hole, or draw them apart.",
        ),
        _ => (
            "The outline overlaps another piece of the shape.",
            "Join the two pieces into one, or draw them apart.",
        ),
    };
    Finding::fault(check, message, remedy).at(at.x, at.y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::geom::distance::{Figure, nearest};

    fn square(x: f64, y: f64, side: f64) -> Vec<Vertex> {
        let corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)];
        corners.iter().map(|c| Vertex::line(c.0, c.1)).collect()
    }

    fn rough(outer: Vec<Vertex>, holes: Vec<Vec<Vertex>>) -> Rough {
        Rough { outer, holes }
    }

    fn faults(pieces: &[Rough]) -> Vec<(String, &'static str)> {
        let found = check(pieces).unwrap_err();
        assert!(found.iter().all(|f| f.is_fault() && !f.remedy.is_empty()));
        found.into_iter().map(|f| (f.pointer, f.code)).collect()
    }

    /// A pond with an island that has a pond of its own.
    fn pond() -> Compound {
        let mut island = square(4.0, 4.0, 4.0);
        island.reverse();
        let pieces = [
            rough(square(0.0, 0.0, 12.0), vec![island]),
            rough(square(5.0, 5.0, 2.0), vec![]),
        ];
        check(&pieces).unwrap()
    }

    #[test]
    fn inside_a_hole_is_outside() {
        let pond = pond();
        assert!((pond.region.area() - (144.0 - 16.0 + 4.0)).abs() < 1e-9);
        for (x, y, inside) in [(2.0, 6.0, true), (4.5, 6.0, false), (6.0, 6.0, true)] {
            assert_eq!(pond.region.contains(Point::new(x, y)), inside, "{x}");
        }
        assert_eq!(pond.boundaries().len(), 3);
    }

    #[test]
    fn a_distance_in_a_hole_is_measured_to_its_edge() {
        let pond = pond();
        let work = |x: f64, y: f64, side: f64| {
            let ring = square(x, y, side).iter().map(|v| v.at).collect();
            let work = Region::from_ring(Ring(ring));
            nearest(Figure::Area(&work), Figure::Area(&pond.region)).unwrap()
        };
        // On the island, between its shore (x = 4) and its own pond (x = 5).
        assert!((work(4.25, 6.0, 0.5).distance - 0.25).abs() < 1e-12);
        assert!((work(4.125, 6.0, 0.5).distance - 0.125).abs() < 1e-12);
        // In the water, over the shore, and round the whole island.
        assert!((work(1.0, 1.0, 1.0).distance + 2.0).abs() < 1e-12);
        assert!(work(3.5, 6.0, 1.0).distance < 0.0);
        assert!(work(3.0, 3.0, 6.0).distance <= -1.0);
        // Far outside and round it all.
        assert!((work(15.0, 0.0, 1.0).distance - 3.0).abs() < 1e-12);
        assert!(work(-5.0, -5.0, 30.0).distance < 0.0);
    }

    #[test]
    fn faults_are_placed() {
        let outside = [rough(square(0.0, 0.0, 4.0), vec![square(3.0, 3.0, 4.0)])];
        assert_eq!(
            faults(&outside),
            [("/0/holes/0".to_owned(), "hole-outside")]
        );
        let twins = vec![square(1.0, 1.0, 2.0), square(2.0, 2.0, 2.0)];
        let twins = [rough(square(0.0, 0.0, 9.0), twins)];
        assert_eq!(faults(&twins), [("/0/holes/1".to_owned(), "holes-overlap")]);
        let pieces = [
            rough(square(0.0, 0.0, 4.0), vec![]),
            rough(square(2.0, 2.0, 4.0), vec![]),
        ];
        assert_eq!(faults(&pieces), [("/1/outer".to_owned(), "pieces-overlap")]);
        let broken = [rough(vec![Vertex::line(0.0, f64::NAN)], vec![vec![]])];
        let places: Vec<String> = faults(&broken).into_iter().map(|f| f.0).collect();
        assert_eq!(places, ["/0/outer/0", "/0/holes/0"]);
        assert_eq!(faults(&[]), [(String::new(), "no-pieces")]);
    }

    #[test]
    fn pieces_may_touch() {
        let row = [
            rough(square(0.0, 0.0, 4.0), vec![square(0.0, 1.0, 2.0)]),
            rough(square(4.0, 0.0, 4.0), vec![]),
        ];
        assert!((check(&row).unwrap().region.area() - 28.0).abs() < 1e-9);
    }
}
