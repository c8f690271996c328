//! Clear ground on the plan: every place of the shell's middle, and the middle itself.

use super::{Drawing, Item, Layer};
use crate::geom::{Point, Region};

/// Every place of the shell's middle, and where it is, to lie over the work: the shell itself would hide most of it.
pub fn clear_ground(region: &Region, middle: Point) -> Drawing {
    let mut drawing = Drawing::default();
    drawing.area(Layer::ClearGround, region.clone());
    drawing.label_within(
        Layer::ClearGround,
        region,
        "clear ground for the shell's middle",
    );
    drawing.items.push(Item::Dot {
        layer: Layer::ClearGround,
        at: middle,
    });
    drawing
}
