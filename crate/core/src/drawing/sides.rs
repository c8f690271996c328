//! The lot's sides and corners on the plan: lengths and kinds along the sides, marks at corners.

use super::{Anchor, Drawing, Item, Layer, LineSide, points_along};
use crate::geom::{Segment, Vector};
use crate::lot::{LineKind, Side};
use crate::math::TURN;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Where along a side its kind is written: clear of the length in its middle.
const KIND_AT: f64 = 0.22;

/// What stands behind a length that is weaker than it looks.
const DOUBT: &str = " (?)";

/// Side lengths, side kinds and monuments.
pub(super) fn draw(drawing: &mut Drawing, site: &CheckedSite) {
    let lot = &site.lot().lot;
    let doubt = if lot.closes_worse_than.is_some() {
        DOUBT
    } else {
        ""
    };
    for side in &lot.sides {
        let length = show(
            Measure::LongLength,
            side.segment.length(),
            site.site().display,
        );
        let text = format!("{}{doubt}", length.text);
        // The outline runs counter-clockwise: outside is to the right.
        let beside = |share| Anchor::Line {
            line: points_along(&side.segment),
            share,
            side: LineSide::Right,
        };
        drawing.label(Layer::LotLine, beside(0.5), text);
        if side.kind != LineKind::Unspecified {
            drawing.label(Layer::SideKind, beside(KIND_AT), side.kind.words());
        }
    }
    monuments(drawing, site, &lot.sides);
}

/// What marks the corners, each with what it is and whether it was seen.
fn monuments(drawing: &mut Drawing, site: &CheckedSite, sides: &[Side]) {
    let courses = &site.site().lot.courses;
    let clockwise = site.lot().lot.outline.was_clockwise();
    for side in sides {
        let Some(monument) = courses.get(side.course).and_then(|c| c.monument.as_ref()) else {
            continue;
        };
        let outward = outward_of(&side.segment);
        let along = (side.segment.to() - side.segment.from())
            .unit()
            .unwrap_or_default();
        // The course starts where the counter-clockwise side ends when it was told clockwise.
        let (at, away) = if clockwise {
            (side.segment.to(), along)
        } else {
            (side.segment.from(), -along)
        };
        let layer = Layer::Monument(monument.state);
        drawing.items.push(Item::Dot { layer, at });
        let text = format!("{}, {}", monument.kind.words(), monument.state.words());
        drawing.label_beside(layer, at, (outward + away).bearing(), text);
    }
}

/// The way out of the lot over a side.
fn outward_of(segment: &Segment) -> Vector {
    let bearing = (segment.to() - segment.from()).bearing();
    Vector::along_bearing(bearing + TURN / 4.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::sync::Arc;

    use super::*;
    use crate::geom::Vertex;
    use crate::lot::{LotRecord, Monument, MonumentState};
    use crate::site::Site;
    use crate::site::starter::blank_lot;

    fn drawn(record: LotRecord) -> Vec<String> {
        let site = Site {
            lot: Arc::new(record),
            ..blank_lot()
        };
        let site = CheckedSite::check(site, None).unwrap();
        let mut drawing = Drawing::default();
        draw(&mut drawing, &site);
        let text = |item: &Item| match item {
            Item::Label { text, .. } => Some(text.clone()),
            Item::Dot { at, .. } => Some(format!("{:.3} {:.3}", at.x, at.y)),
            _ => None,
        };
        drawing.items.iter().filter_map(text).collect()
    }

    #[test]
    fn a_side_tells_its_length_its_kind_and_what_marks_its_corner() {
        for corners in [
            [(0.0, 0.0), (30.48, 0.0), (30.48, 30.48), (0.0, 30.48)],
            [(0.0, 0.0), (0.0, 30.48), (30.48, 30.48), (30.48, 0.0)],
        ] {
            let corners: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
            let mut record = LotRecord::from_outline(&corners, &[LineKind::Front]);
            record.courses.get_mut(1).unwrap().monument = Some(Monument {
                state: MonumentState::Found,
                ..Monument::default()
            });
            let texts = drawn(record.clone());
            let has = |text: &str| texts.iter().any(|t| t == text);
            assert!(has("front line") && has("100.00 ft") && has("iron rod, found"));
            // The second course starts at the second corner, whichever way round.
            let corner = corners.get(1).unwrap().at;
            assert!(
                has(&format!("{:.3} {:.3}", corner.x, corner.y)),
                "{texts:?}"
            );
            if let Some(course) = record.courses.last_mut()
                && let crate::lot::CourseShape::Line { distance, .. } = &mut course.shape
            {
                *distance += 0.1;
            }
            let texts = drawn(record);
            assert!(texts.iter().any(|t| t.ends_with("ft (?)")), "{texts:?}");
        }
    }
}
