//! How far quantities may be out: each doubt carried through the whole arithmetic.
//!
//! Nothing is taken from rules of thumb. For each doubt the hole is cut, or the spoil swollen,
//! again at both of its ends, and every quantity is taken off anew; what comes out is its low
//! and its high by that cause alone. That costs four more holes, so it is done when the work
//! rests and not on every frame of a drag (see [`super::Estimate::in_passing`]).

use super::cache::Kept;
use crate::dig::{Dig, excavate};
use crate::finding::Caveat;
use crate::grading::{Drawn, graded};
use crate::results::headroom_needed;
use crate::shell::Shell;
use crate::site::{CheckedSite, Placement, Works};
use crate::stockpile::Heap;
use crate::takeoff::{Cause, Doubt, Earth, Inputs, Line, Measured, Range, takeoff};

/// A change smaller than this share of a value is rounding.
const ROUNDING: f64 = 1e-9;

/// Gives every line its range.
pub(super) fn judge(
    site: &CheckedSite,
    placed: (&Shell, &Placement),
    inputs: &Inputs<'_>,
    kept: &mut Kept,
    drawn: &Drawn,
    lines: &mut [Line],
) {
    let works = inputs.works;
    let doubt = &works.doubt;
    let mut ends: Vec<(Doubt, [Vec<Line>; 2])> = Vec::new();
    if doubt.swell > 0.0 {
        let taken = [-1.0, 1.0].map(|sign| {
            let works = swollen(works, sign * doubt.swell);
            let inputs = Inputs {
                works: &works,
                ..*inputs
            };
            taken_off(inputs)
        });
        ends.push((Doubt::Swell, taken));
    }
    if doubt.over_dig > 0.0 {
        let taken = [-1.0, 1.0].map(|sign| {
            let works = wider(works, sign * doubt.over_dig);
            let (measured, dig) = dug(site, placed, kept, &works, 0.0);
            let fill = kept.fill_of(placed.0, &works);
            let (shell, placement) = placed;
            let at = (
                site.ground().as_ref(),
                &placement.pose(),
                placement.coping_elevation,
            );
            let opening = &dig.top_edge;
            let graded_before = kept.grading_of(&works);
            let grading = graded(shell, &works, drawn, at, opening, graded_before);
            let mut inputs = *inputs;
            (inputs.works, inputs.measured, inputs.dig) = (&works, &measured, &dig);
            inputs.fill = Some(&fill);
            inputs.moved.grading = inputs.moved.grading.map(|_| &grading);
            taken_off(inputs)
        });
        ends.push((Doubt::OverDig, taken));
    }
    if doubt.ground > 0.0 {
        let taken = [-1.0, 1.0].map(|sign| {
            let raised = sign * doubt.ground;
            let (_, dig) = dug(site, placed, kept, works, raised);
            let (shell, placement) = placed;
            let at = (
                site.ground().as_ref(),
                &placement.pose(),
                placement.coping_elevation - raised,
            );
            let opening = &dig.top_edge;
            let grading = graded(shell, works, drawn, at, opening, &mut kept.grading);
            let mut inputs = *inputs;
            inputs.dig = &dig;
            inputs.moved.grading = inputs.moved.grading.map(|_| &grading);
            taken_off(inputs)
        });
        ends.push((Doubt::Ground, taken));
    }
    for line in lines {
        let value_in = |taken: &[Line]| taken.iter().find(|l| l.key == line.key).map(|l| l.value);
        let causes = ends.iter().filter_map(|(doubt, [less, more])| {
            let cause = Cause {
                doubt: *doubt,
                less: value_in(less).unwrap_or(0.0),
                more: value_in(more).unwrap_or(0.0),
            };
            let off = (cause.less - line.value).abs() + (cause.more - line.value).abs();
            (off > ROUNDING * line.value.abs().max(1.0)).then_some(cause)
        });
        let open = line.caveats.contains(&Caveat::UnknownGround);
        line.range = Range::of(line.value, line.measure, causes.collect(), open);
    }
}

/// Every quantity at one end of a doubt; the pile holds what is dug then.
fn taken_off(inputs: Inputs<'_>) -> Vec<Line> {
    let (works, spoil) = (inputs.works, &inputs.works.spoil);
    let dug = Earth::of(works, inputs.dig.bank_volume, &inputs.moved).dug;
    let loose = dug * works.dig.loose_per_bank() * spoil.piled;
    let heap = inputs
        .moved
        .pile
        .and_then(|_| Heap::of(loose, spoil.repose, spoil.most_height));
    let mut inputs: Inputs<'_> = Inputs { ..inputs };
    inputs.moved.pile = heap.as_ref();
    takeoff(&inputs).lines
}

/// The settings with a swell that adds so much more or less, as a share of what it adds.
fn swollen(works: &Works, share: f64) -> Works {
    let mut works = works.clone();
    let adds = works.dig.loose_per_bank() - 1.0;
    works.dig.swell = Some(1.0 + adds * (1.0 + share));
    works
}

/// The settings with the over-dig so much wider on every side.
fn wider(works: &Works, by: f64) -> Works {
    let mut works = works.clone();
    let told = works.dig.sides.iter_mut();
    let told = told.filter_map(|side| side.over_dig.as_mut());
    for over_dig in told.chain([&mut works.dig.over_dig]) {
        *over_dig = (*over_dig + by).max(0.0);
    }
    works
}

/// What is measured on the shell, and the hole, under these settings, in ground that lies
/// `raised` metres higher than the site's.
fn dug(
    site: &CheckedSite,
    (shell, placement): (&Shell, &Placement),
    kept: &mut Kept,
    works: &Works,
    raised: f64,
) -> (Measured, Dig) {
    let (ground, pose) = (site.ground(), placement.pose());
    // Ground that lies higher is a rim that lies lower.
    let rim = placement.coping_elevation - raised;
    let headroom = headroom_needed(shell, &works.dig, ground, &pose, rim);
    let hole = kept.hole(shell, works, headroom);
    let mut dig = excavate(&hole.shape, ground, &pose, rim, works.collar.underside());
    dig.bottom_elevation += raised;
    (hole.measured, dig)
}
