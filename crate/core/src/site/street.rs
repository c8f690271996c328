//! The sides of the lot that lie on a street, as the plan tells them, and the kinds that
//! follow.

use super::CheckedShape;
use super::checked::CheckedSite;
use super::kind::FeatureKind;
use crate::geom::Point;
use crate::geom::flatten::flatten_segment;
use crate::lot::LineKind;
use crate::lot::kinds::{Streets, along_edge, fill, propose};

/// How exactly the edge of a street is followed, meters (our choice: far finer than a verge).
const EXACT: f64 = 0.05;

/// A kind for every course: those that the lot has already stay, unless `replace`; `front` is
/// the course told to lie on the street that the house faces. Without one, the edge of the
/// only street on the plan tells it.
pub fn kinds_from_street(site: &CheckedSite, front: Option<usize>, replace: bool) -> Vec<LineKind> {
    let record = &site.site().lot;
    let lot = &site.lot().lot;
    let mut streets = if replace {
        Streets::default()
    } else {
        Streets::of(record)
    };
    let edges: Vec<Vec<usize>> = edges(site)
        .iter()
        .map(|edge| along_edge(lot, edge))
        .filter(|courses| !courses.is_empty())
        .collect();
    let front = front.or(match (&edges[..], streets.front.is_empty()) {
        ([only], true) => only.first().copied(),
        _ => None,
    });
    let mut told = Vec::new();
    if let Some(front) = front {
        // A front that moves leaves no front behind.
        told = Streets::of(record).front;
        told.push(front);
        streets = streets.fronting(front);
    }
    for courses in edges {
        let same_street = courses.iter().any(|course| streets.front.contains(course));
        let list = if same_street {
            &mut streets.front
        } else {
            &mut streets.other
        };
        list.extend(courses);
    }
    let filled = fill(record, &propose(lot, &streets), &told, replace);
    filled.courses.iter().map(|course| course.kind).collect()
}

/// The edges of streets on the plan, as chains of points.
fn edges(site: &CheckedSite) -> Vec<Vec<Point>> {
    let streets = site.features().iter();
    streets
        .filter(|feature| feature.kind == FeatureKind::StreetEdge)
        .filter_map(|feature| match &feature.shape {
            CheckedShape::Track(track, _) => {
                let mut chain: Vec<Point> =
                    track.segments().next().iter().map(|s| s.from()).collect();
                for segment in track.segments() {
                    flatten_segment(&segment, EXACT, &mut chain);
                }
                Some(chain)
            }
            _ => None,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::sync::Arc;

    use super::*;
    use crate::geom::Vertex;
    use crate::geom::path::PathRecord;
    use crate::lot::LotRecord;
    use crate::site::starter::blank_lot;
    use crate::site::{Feature, ShapeRecord, Site};

    fn site(edges: &[[(f64, f64); 2]]) -> CheckedSite {
        let corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 40.0), (0.0, 40.0)];
        let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
        let edge = |(i, ends): (usize, &[(f64, f64); 2])| {
            let path = PathRecord::from(&ends.map(|e| Vertex::line(e.0, e.1))[..]);
            Feature::of(
                format!("street-{i}"),
                FeatureKind::StreetEdge,
                ShapeRecord::Track(path),
            )
        };
        let site = Site {
            lot: Arc::new(LotRecord::from_outline(&corners, &[])),
            features: Arc::new(edges.iter().enumerate().map(edge).collect()),
            ..blank_lot()
        };
        CheckedSite::check(site, None).unwrap()
    }

    #[test]
    fn the_edge_of_the_only_street_tells_the_front() {
        use LineKind::{Front, Rear, Side, StreetSide, Unspecified};
        let south = [(-20.0, -4.0), (50.0, -4.0)];
        let east = [(35.0, -20.0), (35.0, 60.0)];
        let one = site(&[south]);
        assert_eq!(
            kinds_from_street(&one, None, false),
            [Front, Side, Rear, Side]
        );
        let two = site(&[south, east]);
        assert_eq!(
            kinds_from_street(&two, None, false),
            [StreetSide, StreetSide, Unspecified, Unspecified]
        );
        assert_eq!(
            kinds_from_street(&two, Some(1), false),
            [StreetSide, Front, Side, Rear]
        );
        let none = site(&[]);
        assert_eq!(kinds_from_street(&none, None, true), [Unspecified; 4]);
        assert_eq!(
            kinds_from_street(&none, Some(3), true),
            [Side, Rear, Side, Front]
        );
        // The front moves; what else is told stays.
        let mut told = Site::clone(none.site());
        let mut lot = LotRecord::clone(&told.lot);
        let kinds = [Front, Side, Rear, LineKind::Shared];
        for (course, kind) in lot.courses.iter_mut().zip(kinds) {
            course.kind = kind;
        }
        told.lot = Arc::new(lot);
        let told = CheckedSite::check(told, None).unwrap();
        assert_eq!(
            kinds_from_street(&told, Some(1), false),
            [Side, Front, Rear, LineKind::Shared]
        );
    }
}
