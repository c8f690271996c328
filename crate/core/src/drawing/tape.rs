//! Tapes on the plan: dimension lines that somebody asked for.

use super::{Drawing, Focus, Item, Layer, lettering};
use crate::analysis::Analysis;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Every tape that is not waiting, and the one a row looks at lit up.
pub(super) fn lies(
    drawing: &mut Drawing,
    site: &CheckedSite,
    analysis: &Analysis,
    focus: Focus<'_>,
) {
    for (index, taped) in analysis.tapes.iter().enumerate() {
        let Some(taped) = taped else { continue };
        let focused = focus == Focus::Tape(index);
        let (from, to) = (taped.from, taped.to);
        if focused {
            drawing.lines(Layer::FocusLine, vec![(from, to)]);
        }
        drawing.items.push(Item::Measured {
            layer: Layer::Tape,
            from,
            to,
            text: show(Measure::Length, taped.distance, site.site().display).text,
            key: lettering::key("tape", u32::try_from(index).unwrap_or(u32::MAX)),
            focused,
        });
    }
}
