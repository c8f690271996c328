//! The ground as it will lie, over the plan: where banks end, and the pile of spoil.

use super::{Anchor, Drawing, Layer, LineSide};
use crate::analysis::Analysis;
use crate::geom::Point;
use crate::grading::Bank;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Banks and pile, whatever the ledger looks at.
pub(super) fn lies(drawing: &mut Drawing, site: &CheckedSite, analysis: &Analysis) {
    if let Some(grading) = &analysis.grading {
        bank(drawing, &grading.toe, "toe of fill");
        bank(drawing, &grading.crest, "top of cut");
    }
    if let Some(pile) = &analysis.stockpile
        && pile.at.is_some()
    {
        let footprint = pile.footprint();
        drawing.area(Layer::Pile, footprint.clone());
        let height = show(Measure::Length, pile.heap.height, site.site().display).text;
        let words = format!("spoil pile, {height} high");
        drawing.label_within(Layer::Pile, &footprint, words);
    }
}

/// The lines of one kind of bank, named where it runs farthest.
fn bank(drawing: &mut Drawing, bank: &Bank, name: &str) {
    // How near it comes, on which line, and how far along that.
    let mut nearest: Option<(f64, &Vec<Point>, f64)> = None;
    for line in &bank.lines {
        let pairs: Vec<(Point, Point)> = line
            .iter()
            .zip(line.iter().skip(1))
            .map(|(a, b)| (*a, *b))
            .collect();
        let mut way = 0.0;
        for (a, b) in &pairs {
            let length = a.distance(*b);
            let away = a.midpoint(*b).distance(bank.at);
            if nearest.is_none_or(|(least, ..)| away < least) {
                nearest = Some((away, line, way + length / 2.0));
            }
            way += length;
        }
        drawing.lines(Layer::Bank, pairs);
    }
    if let Some((_, line, way)) = nearest {
        let pairs = line.iter().zip(line.iter().skip(1));
        let length: f64 = pairs.map(|(a, b)| a.distance(*b)).sum();
        let beside = Anchor::Line {
            line: line.clone(),
            share: way / length.max(1e-9),
            side: LineSide::Either,
        };
        drawing.label(Layer::Bank, beside, name);
    }
}
