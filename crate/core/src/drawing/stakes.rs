//! The stake plan: stakes as dots with their names, and the base line that the tapes hang on.

use super::{Anchor, Drawing, Item, Layer};
use crate::geom::Point;

/// Stakes by their names and places, and the two ends of the base line, site meters.
pub fn stakes<'a>(
    stakes: impl IntoIterator<Item = (&'a str, Point)>,
    base: Option<[Point; 2]>,
) -> Drawing {
    let mut drawing = Drawing::default();
    if let Some([a, b]) = base {
        drawing.lines(Layer::BaseLine, vec![(a, b)]);
        for (name, at) in [("A", a), ("B", b)] {
            dot(&mut drawing, Layer::BaseLine, name, at);
        }
    }
    for (name, at) in stakes {
        dot(&mut drawing, Layer::Stake, name, at);
    }
    drawing
}

fn dot(drawing: &mut Drawing, layer: Layer, name: &str, at: Point) {
    drawing.items.push(Item::Dot { layer, at });
    drawing.items.push(Item::Label {
        layer,
        anchor: Anchor::Point { at, toward: 0.0 },
        text: name.to_owned(),
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_stake_has_a_dot_and_its_name_and_the_base_line_its_ends() {
        let at = |x| Point::new(x, 0.0);
        let drawing = stakes(
            [("R1", at(1.0)), ("R2", at(2.0))],
            Some([at(-5.0), at(5.0)]),
        );
        let dots = drawing
            .items
            .iter()
            .filter(|it| matches!(it, Item::Dot { .. }));
        assert_eq!(dots.count(), 4);
        let names: Vec<&str> = (drawing.items.iter())
            .filter_map(|it| match it {
                Item::Label { text, .. } => Some(text.as_str()),
                _ => None,
            })
            .collect();
        assert_eq!(names, ["A", "B", "R1", "R2"]);
        assert!(stakes([], None).items.is_empty());
    }
}
