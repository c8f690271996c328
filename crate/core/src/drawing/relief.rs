//! What the plan shows of the ground: contours with their elevations, breaklines, the part of
//! the lot that nobody measured, and the benchmark.

use super::{Anchor, Drawing, Item, Layer, upright};
use crate::analysis::drawn_contours;
use crate::geom::{Point, Region, Ring, Vector, pattern};
use crate::math::TURN;
use crate::order::put_in_order;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Spacing of the hatch over unknown ground, meters: wider than that of any feature.
const HATCH_SPACING: f64 = 1.6;

/// Its slant (counter-clockwise from east), one that no feature has.
const HATCH_ANGLE: f64 = TURN / 6.0;

/// The shortest stretch that a contour's elevation or the words on unknown ground are written
/// along, meters: about the text's own length on a plan at 1:200.
const SHORTEST_LABELLED: f64 = 3.0;

/// A stretch of a contour counts as straight as long as its chord is this much of its way.
const STRAIGHT: f64 = 0.985;

/// The longest stretch looked at for a label, in points of the contour.
const STRETCH: usize = 48;

/// With more contours than this only the index contours are labelled.
const ALL_LABELLED: usize = 24;

/// In how many places the words on unknown ground may be written.
const WORD_PLACES: usize = 12;

/// How far apart such places are, meters.
const WORDS_APART: f64 = 4.0;

/// Size of the benchmark's mark, meters.
const MARK: f64 = 0.7;

/// What lies under everything else: unknown ground and contours.
pub(super) fn draw(drawing: &mut Drawing, site: &CheckedSite) {
    let unknown = site.ground().unknown_within(&site.lot().region);
    draw_unknown(drawing, &unknown);
    let contours = drawn_contours(site);
    for index in [false, true] {
        let of_kind = contours.iter().filter(|c| c.index == index);
        let lines = of_kind.flat_map(|c| {
            c.points
                .iter()
                .copied()
                .zip(c.points.iter().skip(1).copied())
        });
        drawing.lines(Layer::Contour { index }, lines.collect());
    }
    let all = contours.len() <= ALL_LABELLED;
    for contour in contours.iter().filter(|c| all || c.index) {
        let places = straight(&contour.points);
        if !places.is_empty() {
            let layer = Layer::Contour {
                index: contour.index,
            };
            let elevation = bare(site, contour.elevation);
            drawing.label(layer, Anchor::Places(places), elevation);
        }
    }
}

/// An elevation without its unit.
fn bare(site: &CheckedSite, elevation: f64) -> String {
    let shown = show(Measure::Elevation, elevation, site.site().display);
    shown
        .text
        .trim_end_matches(shown.unit)
        .trim_end()
        .to_owned()
}

/// Where the elevation of a contour may be written: on its longest stretch that is nearly straight, and on
/// those of what lies before and after.
fn straight(points: &[Point]) -> Vec<(Point, f64)> {
    let third = points.len() / 3;
    let parts = [
        0..points.len(),
        0..third + 1,
        third..2 * third + 1,
        2 * third..points.len(),
    ];
    let parts = parts.into_iter().filter_map(|part| points.get(part));
    let places = parts.filter_map(straightest);
    places.map(|(at, along)| (at, upright(along))).collect()
}

/// The middle and the bearing of the longest stretch of a line that is nearly straight.
fn straightest(points: &[Point]) -> Option<(Point, f64)> {
    let mut best: Option<(f64, Point, Point)> = None;
    for (i, from) in points.iter().enumerate() {
        let mut way = 0.0;
        let mut last = *from;
        for to in points.iter().skip(i + 1).take(STRETCH) {
            way += last.distance(*to);
            last = *to;
            let chord = from.distance(*to);
            if chord < STRAIGHT * way {
                break;
            }
            if best.is_none_or(|(longest, ..)| chord > longest) {
                best = Some((chord, *from, *to));
            }
        }
    }
    let (length, from, to) = best?;
    (length >= SHORTEST_LABELLED).then(|| {
        let middle = from.midpoint(to);
        (on_line(points, middle), (to - from).bearing())
    })
}

/// The place of a line nearest to a point: a label's middle lies on its contour.
fn on_line(points: &[Point], p: Point) -> Point {
    let ends = points.iter().zip(points.iter().skip(1));
    let feet = ends.map(|(a, b)| {
        let along = *b - *a;
        let t = ((p - *a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        *a + along * t
    });
    feet.min_by(|a, b| a.distance(p).total_cmp(&b.distance(p)))
        .unwrap_or(p)
}

fn draw_unknown(drawing: &mut Drawing, unknown: &Region) {
    let hatch = pattern::hatch(unknown, HATCH_ANGLE, HATCH_SPACING);
    let length = |line: &(Point, Point)| line.0.distance(line.1);
    // The words lie where the unknown ground is widest; a centroid may lie outside of it. There are
    // several places for them, so that one has room between what is built there.
    let mut lines: Vec<&(Point, Point)> = hatch.iter().collect();
    put_in_order(&mut lines, |a, b| length(b).total_cmp(&length(a)));
    let mut places: Vec<Point> = Vec::new();
    for line in lines.iter().filter(|l| length(l) >= SHORTEST_LABELLED) {
        let apart = |p: Point| places.iter().all(|q| q.distance(p) >= WORDS_APART);
        let middle = line.0.midpoint(line.1);
        let halves = [middle, line.0.midpoint(middle), middle.midpoint(line.1)];
        if let Some(at) = halves.into_iter().find(|p| apart(*p)) {
            places.push(at);
        }
        if places.len() >= WORD_PLACES {
            break;
        }
    }
    if !places.is_empty() {
        let places = places.into_iter().map(|at| (at, TURN / 4.0)).collect();
        drawing.label(
            Layer::UnknownGround,
            Anchor::Places(places),
            "ground unknown",
        );
    }
    drawing.lines(Layer::UnknownGround, hatch);
    let edges = unknown.rings().flat_map(Ring::edges).collect();
    drawing.lines(Layer::UnknownGround, edges);
}

/// Breaklines and the benchmark, over what stands on the lot.
pub(super) fn marks(drawing: &mut Drawing, site: &CheckedSite) {
    for line in site.ground().breaklines() {
        let pairs = line.iter().copied().zip(line.iter().skip(1).copied());
        drawing.lines(Layer::Breakline, pairs.collect());
    }
    let Some(mark) = &site.site().benchmark else {
        return;
    };
    let Some(at) = mark.at else { return };
    let corner = |turn: f64| at + Vector::along_bearing(turn * TURN / 3.0) * (MARK / 2.0);
    let [a, b, c] = [0.0, 1.0, 2.0].map(corner);
    drawing.lines(Layer::Benchmark, vec![(a, b), (b, c), (c, a)]);
    drawing.items.push(Item::Dot {
        layer: Layer::Benchmark,
        at,
    });
    let text = mark.words(site.site().display);
    drawing.label_beside(Layer::Benchmark, at, TURN / 2.0, text);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_stands_on_the_longest_straight_stretch() {
        let line = [
            (0.0, 0.0),
            (1.0, 1.0),
            (2.0, 0.0),
            (12.0, 0.2),
            (16.0, 0.0),
            (17.0, 2.0),
        ]
        .map(|(x, y)| Point::new(x, y));
        let (at, along) = straightest(&line).unwrap();
        assert!((at.x - 9.0).abs() < 0.1 && at.y > 0.1, "{at:?}");
        assert!((along - TURN / 4.0).abs() < 1e-9);
        assert!(straightest(&line[..2]).is_none());
    }
}
