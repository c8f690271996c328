//! A measurement from a figure, taken from the same figure widened with round corners.

use crate::geom::distance::Nearest;

/// The measurement from the figure `by` meters farther out.
///
/// Outside, the distance shrinks by exactly `by`, and the point on the figure moves along the
/// line of measurement. Where the figures overlap already, the overlap deepens by `by` in the
/// direction in which the figure reaches over; that is how far the deepest place has gone at
/// least. Figures that just touch give no direction: there the point stays.
pub(super) fn out(pair: Nearest, by: f64) -> Nearest {
    let towards = if pair.distance > 0.0 {
        pair.to - pair.from
    } else {
        pair.from - pair.to
    };
    let moved = towards.unit().map(|unit| pair.from + unit * by);
    Nearest {
        distance: pair.distance - by,
        from: moved.unwrap_or(pair.from),
        to: pair.to,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;

    #[test]
    fn a_point_moves_along_the_line_of_measurement() {
        let pair = Nearest {
            distance: 5.0,
            from: Point::new(0.0, 0.0),
            to: Point::new(3.0, 4.0),
        };
        let rim = out(pair, 1.0);
        assert_eq!(rim.distance, 4.0);
        assert!(rim.from.distance(Point::new(0.6, 0.8)) < 1e-15);
        // Past the target: 2 m over it.
        let deck = out(pair, 7.0);
        assert_eq!(deck.distance, -2.0);
        assert!(deck.from.distance(Point::new(4.2, 5.6)) < 1e-12);
    }

    #[test]
    fn an_overlap_deepens() {
        // The figure reaches 1 m over a line at x = 10.
        let pair = Nearest {
            distance: -1.0,
            from: Point::new(11.0, 0.0),
            to: Point::new(10.0, 0.0),
        };
        let rim = out(pair, 0.5);
        assert_eq!(rim.distance, -1.5);
        assert_eq!(rim.from, Point::new(11.5, 0.0));
        let touching = Nearest {
            distance: 0.0,
            from: pair.to,
            to: pair.to,
        };
        assert_eq!(out(touching, 0.5).from, pair.to);
    }
}
