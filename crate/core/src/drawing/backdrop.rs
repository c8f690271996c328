//! The half of the plan that stays while the shell moves: lot, features, ground, setbacks.

use super::{Drawing, Item, Layer, feature, relief, setback, shown, sides};
use crate::geom::Point;
use crate::ground::GroundRecord;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Most spots that get their elevation written beside them; beyond it, dots only.
const LABELLED_SPOTS: usize = 150;

/// Lot, features, ground and setback lines.
pub fn backdrop(site: &CheckedSite) -> Drawing {
    let mut drawing = Drawing::default();
    let lot = site.lot();
    drawing.area(Layer::Lot, lot.region.clone());
    relief::draw(&mut drawing, site);
    for feature in shown(site) {
        feature::draw(&mut drawing, site, feature);
    }
    relief::marks(&mut drawing, site);
    spots(&mut drawing, site);
    setback::draw(&mut drawing, site);
    drawing.path(Layer::LotLine, lot.lot.outline.segments().collect(), true);
    sides::draw(&mut drawing, site);
    drawing
}

fn spots(drawing: &mut Drawing, site: &CheckedSite) {
    let GroundRecord::Spots { spots, .. } = site.site().ground.as_ref() else {
        return;
    };
    let labelled = spots.len() <= LABELLED_SPOTS;
    for &[x, y, elevation] in spots {
        let at = Point::new(x, y);
        drawing.items.push(Item::Dot {
            layer: Layer::Spot,
            at,
        });
        if labelled {
            let shown = show(Measure::Elevation, elevation, site.site().display);
            let bare = shown.text.trim_end_matches(shown.unit).trim_end();
            drawing.label_beside(Layer::Spot, at, 0.0, bare);
        }
    }
}
