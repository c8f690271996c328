//! The view that shows a whole plan: as large as it fits, with no corner of the lot under a control.

use super::lettering::Frame;
use super::placement::{Size, TextBox};
use crate::geom::Point;

/// Margin round what is shown, view units: room for dimensions and names outside of it.
const MARGIN: f64 = 34.0;

/// How near a corner may come to what covers the view: half of its mark and a little more, view units.
const CLEAR: f64 = 10.0;

/// What stands clear of the controls is no smaller than this part of the largest it can be; on a small
/// screen a corner under a control is the lesser evil.
const SMALLEST: f64 = 0.72;

/// The least and the greatest scale, view units per meter.
const SCALES: (f64, f64) = (0.5, 600.0);

/// Room kept free at the edges of a view: left, top, right, bottom.
type Margins = [f64; 4];

/// The frame of a size that shows everything between the corners `low` and `high` as large as it can, with none of
/// `corners` (site meters) under what `covers` says is covered in a frame: reserved for that are strips at the edges
/// of the view. Where that would make it much smaller, the whole view is used.
pub fn fit(
    size: Size,
    (low, high): (Point, Point),
    corners: &[Point],
    covers: impl Fn(&Frame) -> Vec<TextBox>,
) -> Frame {
    let margin = MARGIN.min(size.width / 8.0).min(size.height / 8.0);
    let within = |margins: Margins| framed(size, (low, high), margins);
    let clear = |frame: &Frame| {
        let covered = covers(frame);
        let hit = |p: Point| {
            let near = |it: &TextBox| it.nearest(p).distance(p) < CLEAR;
            covered.iter().any(near)
        };
        !corners.iter().any(|p| hit(frame.place(*p)))
    };
    let largest = within([margin; 4]);
    if clear(&largest) {
        return largest;
    }
    let mut tried = vec![[margin; 4]];
    for it in covers(&largest) {
        let known = tried.clone();
        let strips = strips(size, &it);
        tried.extend(
            known
                .iter()
                .flat_map(|margins| strips.map(|strip| wider(margins, strip))),
        );
    }
    let frames = tried.into_iter().map(within);
    let mut best: Option<Frame> = None;
    for frame in frames.filter(|it| it.scale >= SMALLEST * largest.scale) {
        if best.is_none_or(|best| frame.scale > best.scale + 1e-9) && clear(&frame) {
            best = Some(frame);
        }
    }
    best.unwrap_or(largest)
}

/// The two strips that would keep clear of a box: beside it, and above or below it.
fn strips(size: Size, it: &TextBox) -> [Margins; 2] {
    let (at, reach) = (it.centre, it.extent());
    let across = if at.x < size.width / 2.0 {
        [at.x + reach.x + CLEAR, 0.0, 0.0, 0.0]
    } else {
        [0.0, 0.0, size.width - (at.x - reach.x) + CLEAR, 0.0]
    };
    let down = if at.y < size.height / 2.0 {
        [0.0, at.y + reach.y + CLEAR, 0.0, 0.0]
    } else {
        [0.0, 0.0, 0.0, size.height - (at.y - reach.y) + CLEAR]
    };
    [across, down]
}

/// The wider of two margins at each edge.
fn wider(a: &Margins, b: Margins) -> Margins {
    let [a0, a1, a2, a3] = *a;
    let [b0, b1, b2, b3] = b;
    [a0.max(b0), a1.max(b1), a2.max(b2), a3.max(b3)]
}

/// The largest frame that keeps margins free.
fn framed(size: Size, (low, high): (Point, Point), [left, top, right, bottom]: Margins) -> Frame {
    let across = (size.width - left - right).max(1.0) / (high.x - low.x).max(1.0);
    let up = (size.height - top - bottom).max(1.0) / (high.y - low.y).max(1.0);
    let scale = across.min(up).clamp(SCALES.0, SCALES.1);
    let middle = low.midpoint(high);
    Frame {
        size,
        centre: Point::new(
            middle.x - (left - right) / 2.0 / scale,
            middle.y - (bottom - top) / 2.0 / scale,
        ),
        scale,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: Size = Size {
        width: 600.0,
        height: 500.0,
    };

    fn lot() -> [Point; 4] {
        [(0.0, 0.0), (60.0, 0.0), (60.0, 50.0), (0.0, 50.0)].map(|(x, y)| Point::new(x, y))
    }

    fn shown(covers: &[TextBox]) -> Frame {
        let [low, _, high, _] = lot();
        fit(SIZE, (low, high), &lot(), |_| covers.to_vec())
    }

    #[test]
    fn without_controls_the_lot_is_as_large_as_the_margins_let_it() {
        let frame = shown(&[]);
        assert!((frame.scale - 432.0 / 50.0).abs() < 1e-9);
        assert_eq!(frame.centre, Point::new(30.0, 25.0));
    }

    #[test]
    fn a_corner_comes_out_from_under_a_control() {
        // Over the lower right corner of the lot.
        let tools = TextBox::between(Point::new(546.0, 358.0), Point::new(590.0, 490.0));
        let frame = shown(&[tools]);
        let free = |p: Point| tools.nearest(frame.place(p)).distance(frame.place(p)) >= CLEAR;
        assert!(lot().into_iter().all(free));
        assert!(frame.scale < 432.0 / 50.0 && frame.scale > 0.8 * 432.0 / 50.0);
        let seen = |p: Point| {
            let p = frame.place(p);
            p.x >= 0.0 && p.y >= 0.0 && p.x <= SIZE.width && p.y <= SIZE.height
        };
        assert!(lot().into_iter().all(seen));
    }

    #[test]
    fn nothing_is_made_tiny_for_the_sake_of_a_corner() {
        let half = TextBox::between(Point::new(200.0, 0.0), Point::new(600.0, 490.0));
        assert_eq!(shown(&[half]), shown(&[]));
    }
}
