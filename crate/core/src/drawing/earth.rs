//! The ground as it will lie, over the plan: where banks end, and the pile of spoil.

use super::{Drawing, Layer};
use crate::analysis::Analysis;
use crate::geom::{Point, Vector};
use crate::grading::Bank;
use crate::math::TURN;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Banks and pile, whatever the ledger looks at.
pub(super) fn lies(drawing: &mut Drawing, site: &CheckedSite, analysis: &Analysis) {
    if let Some(grading) = &analysis.grading {
        bank(drawing, &grading.toe, "toe of fill");
        bank(drawing, &grading.crest, "top of cut");
    }
    if let Some(pile) = &analysis.stockpile
        && let Some(at) = pile.at
    {
        drawing.area(Layer::Pile, pile.footprint());
        let height = show(Measure::Length, pile.heap.height, site.site().display).text;
        let words = format!("spoil pile, {height} high");
        drawing.label(Layer::Pile, at, TURN / 4.0, words);
    }
}

/// The lines of one kind of bank, named where it runs farthest.
fn bank(drawing: &mut Drawing, bank: &Bank, name: &str) {
    let mut nearest: Option<(f64, Point, Vector)> = None;
    for line in &bank.lines {
        let pairs: Vec<(Point, Point)> = line
            .iter()
            .zip(line.iter().skip(1))
            .map(|(a, b)| (*a, *b))
            .collect();
        for (a, b) in &pairs {
            let away = a.midpoint(*b).distance(bank.at);
            if nearest.is_none_or(|(least, ..)| away < least) {
                nearest = Some((away, a.midpoint(*b), *b - *a));
            }
        }
        drawing.lines(Layer::Bank, pairs);
    }
    if let Some((_, at, along)) = nearest {
        drawing.label(Layer::Bank, at, along.bearing(), name);
    }
}
