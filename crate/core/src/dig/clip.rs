//! Lines and level surfaces cut at the edge of a region.

use crate::geom::{Point, Region, Ring};
use crate::ground::{Facet, Ground};

/// A straight line cut at the edges of a region: its stretches in order, and whether each lies
/// inside.
pub(super) fn stretches(a: Point, b: Point, region: &Region) -> Vec<(Point, Point, bool)> {
    let along = b - a;
    let mut cuts = vec![0.0, 1.0];
    for (c, d) in region.rings().flat_map(Ring::edges) {
        let edge = d - c;
        let turn = along.cross(edge);
        let (t, u) = ((c - a).cross(edge) / turn, (c - a).cross(along) / turn);
        // Not a number for parallels: what they cut off is told by their neighbors.
        if (0.0..=1.0).contains(&u) && t > 0.0 && t < 1.0 {
            cuts.push(t);
        }
    }
    cuts.sort_by(f64::total_cmp);
    let pairs = cuts.iter().zip(cuts.iter().skip(1));
    pairs
        .filter(|(from, to)| to > from)
        .map(|(from, to)| {
            let (p, q) = (a + along * *from, a + along * *to);
            (p, q, region.contains(p.midpoint(q)))
        })
        .collect()
}

/// The triangles of the ground over the upright rectangle round a region.
pub(super) fn facets_over<'a>(
    region: &Region,
    ground: &'a Ground,
) -> impl Iterator<Item = &'a Facet> {
    let (low, high) = region.bounds().unwrap_or_default();
    ground.facets_near(low, high)
}

/// Where the ground meets a level within a region: chains of points.
pub(super) fn meeting(ground: &Ground, level: f64, within: &Region) -> Vec<Vec<Point>> {
    let mut pieces: Vec<(Point, Point)> = Vec::new();
    if within.is_empty() {
        return Vec::new();
    }
    for facet in facets_over(within, ground) {
        if let Some((a, b)) = level_line(facet, level) {
            let inside = stretches(a, b, within).into_iter().filter(|s| s.2);
            pieces.extend(inside.map(|(p, q, _)| (p, q)));
        }
    }
    chained(pieces)
}

/// Where a triangle meets a level: with the higher ground to its left.
fn level_line(facet: &Facet, level: f64) -> Option<(Point, Point)> {
    let corners = facet.corners.iter().zip(&facet.elevations);
    let next = corners.clone().cycle().skip(1);
    let (mut up, mut down) = (None, None);
    for ((a, za), (b, zb)) in corners.zip(next) {
        let (below, above) = (*za < level, *zb < level);
        if below != above {
            // From the same end for both triangles that share the side.
            let from_a = (a.x, a.y) <= (b.x, b.y);
            let (p, q, zp, zq) = if from_a {
                (*a, *b, *za, *zb)
            } else {
                (*b, *a, *zb, *za)
            };
            let at = p + (q - p) * ((level - zp) / (zq - zp));
            *(if below { &mut up } else { &mut down }) = Some(at);
        }
    }
    // Going round, the ground comes up at one and goes down at the other.
    Some((down?, up?)).filter(|(p, q)| p.distance(*q) > 0.0)
}

/// Ends nearer than this are one, meters.
const SAME_PLACE: f64 = 1e-6;

/// Stretches joined end to start into as few chains as may be.
fn chained(mut pieces: Vec<(Point, Point)>) -> Vec<Vec<Point>> {
    let mut chains = Vec::new();
    while let Some((a, b)) = pieces.pop() {
        let mut chain = std::collections::VecDeque::from([a, b]);
        while let (Some(&first), Some(&last)) = (chain.front(), chain.back()) {
            let onward = pieces.iter().position(|p| p.0.distance(last) < SAME_PLACE);
            let back = || pieces.iter().position(|p| p.1.distance(first) < SAME_PLACE);
            if let Some(index) = onward {
                chain.push_back(pieces.swap_remove(index).1);
            } else if let Some(index) = back() {
                chain.push_front(pieces.swap_remove(index).0);
            } else {
                break;
            }
        }
        chains.push(chain.into());
    }
    chains
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Polygon;
    use crate::ground::GroundRecord;

    fn square(half: f64) -> Ring {
        let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
        Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec())
    }

    #[test]
    fn a_line_through_a_ring_is_inside_twice() {
        let region = Region {
            polygons: vec![Polygon {
                outer: square(2.0),
                holes: vec![square(1.0).reversed()],
            }],
        };
        let parts = stretches(Point::new(-5.0, 0.3), Point::new(5.0, 0.3), &region);
        let inside: Vec<f64> = parts
            .iter()
            .filter(|s| s.2)
            .map(|s| s.0.distance(s.1))
            .collect();
        assert_eq!(parts.len(), 5);
        assert!(inside.iter().all(|length| (length - 1.0).abs() < 1e-12));
        assert_eq!(inside.len(), 2);
    }

    #[test]
    fn ground_meets_a_level_along_one_line() {
        // A dome of spots about the origin: the level is met on a ring, cut off at the region.
        let mut spots = vec![[0.0, 0.0, 3.0]];
        for i in 0..12 {
            let at = crate::geom::Vector::at_angle(f64::from(i) * crate::math::TURN / 12.0);
            spots.push([at.x * 2.0, at.y * 2.0, 2.0]);
            spots.push([at.x * 6.0, at.y * 6.0, 0.0]);
        }
        let ground = Ground::check(&GroundRecord::of_spots(spots)).unwrap().0;
        let whole = meeting(&ground, 1.0, &Region::from_ring(square(5.0)));
        assert_eq!(whole.len(), 1);
        let ring = &whole[0];
        assert!(ring.first().unwrap().distance(*ring.last().unwrap()) < 1e-6);
        for p in ring {
            assert!((ground.height(*p).elevation - 1.0).abs() < 1e-9);
        }
        // Higher ground to the left: counter-clockwise round the dome.
        assert!(Ring(ring.clone()).signed_area() > 40.0);
        let parts = meeting(&ground, 1.0, &Region::from_ring(square(3.0)));
        assert_eq!(parts.len(), 4);
        assert!(meeting(&ground, 9.0, &Region::from_ring(square(3.0))).is_empty());
    }
}
