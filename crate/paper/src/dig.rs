//! The dig sheet for the foreman: stake plan with ties, levels and depths, both sections, order of work, cautions.

mod order;
mod sections;
mod tables;

use batterboard_core::drawing::{Drawing, Item, Layer, stakes};
use batterboard_core::finding::Finding;
use batterboard_core::geom::{Point, region};
use batterboard_core::report::StakeoutFigures;
use batterboard_core::site::FeatureKind;

use crate::binder::Binder;
use crate::blocks;
use crate::flow::{BODY, Flow, SMALL};
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::legend;
use crate::mark::Document;
use crate::pen::Style;
use crate::plan;
use crate::site_plan;
use crate::words::Language;
use order::{cautions, order};
use sections::sections;
use tables::{diagonals, levels, offsets, ties};

/// The sheet; a fault before a shell is placed.
///
/// # Errors
/// When no shell is placed.
pub fn make(job: &Job, wanted: &SheetWish) -> Result<(Document, Vec<Finding>), Finding> {
    let Some(stakeout) = &job.stakeout else {
        return Err(crate::no_shell());
    };
    let language = wanted.language;
    let extent = stake_extent(job, stakeout);
    let mut binder = site_plan::binder(job, wanted, extent, side_width);
    let (plan_area, column) = site_plan::beside(binder.body(), side_width(&binder));
    let window = site_plan::window(job, wanted, plan_area, extent);
    let drawing = stake_plan(job, wanted, stakeout);
    let drawn = plan::draw(&drawing, &window, Palette::Drafting, &[]);
    binder.put_plan(drawn.marks, window);
    let outside = site_plan::outside(job, &window, extent);

    let mut side = binder.flow(column.width);
    blocks::scale_and_north(&mut side, &job.site, window.scale, (job.system, language));
    if let Some(finding) = &outside {
        blocks::findings(&mut side, [finding], language);
    }
    base(&mut side, stakeout, language);
    side.heading(language.say("Legend", "Símbolos"));
    legend::put(&mut side, &drawn.layers, Palette::Drafting, language);
    binder.pour_beside((plan_area, column), &side, |main| {
        levels(main, stakeout, language);
        ties(main, stakeout, language);
        offsets(main, stakeout, language);
        diagonals(main, stakeout, language);
    });

    let first = binder.len();
    sections(&mut binder, job, wanted, first);
    let last = binder.len();
    let many = binder.text_columns();
    let mut flow = binder.flow(binder.column_width(many));
    order(&mut flow, job, language);
    cautions(&mut flow, job, language);
    binder.pour(&flow, binder.columns(last, many), 0);
    Ok((binder.document(), outside.into_iter().collect()))
}

fn side_width(binder: &Binder<'_>) -> f64 {
    (binder.body().width * 0.26).clamp(56.0, 120.0)
}

/// The corners of all stakes and of the base line.
fn stake_extent(job: &Job, stakeout: &StakeoutFigures) -> (Point, Point) {
    let stakes = stakeout.stakes.iter().map(|it| it.at);
    let offsets = stakeout.offsets.iter().map(|it| it.at);
    let base = stakeout
        .base
        .iter()
        .flat_map(|it| &it.points)
        .map(|it| it.at);
    region::bounds(stakes.chain(offsets).chain(base)).unwrap_or_else(|| site_plan::work_extent(job))
}

/// What the crew needs of the site, and over it every stake with its name.
fn stake_plan(job: &Job, wanted: &SheetWish, stakeout: &StakeoutFigures) -> Drawing {
    use FeatureKind as F;
    let mut drawing = site_plan::drawing(job, wanted, |item, layer| {
        let label = matches!(item, Item::Label { .. });
        match layer {
            Layer::LotLine | Layer::Monument(_) => !label,
            Layer::Feature(
                F::House | F::Outbuilding | F::OverheadLine | F::SepticTank | F::SepticField,
            ) => true,
            Layer::Feature(F::Fence | F::Wall | F::Tree | F::Well) => !label,
            Layer::Buried(_) | Layer::Mark(_) | Layer::OverheadMark => true,
            Layer::Trunk | Layer::Protection | Layer::DigEdge | Layer::OverDig | Layer::Collar => {
                true
            }
            Layer::Standpipe | Layer::Pile | Layer::Benchmark => true,
            Layer::Coping => true,
            _ => false,
        }
    });
    let all = stakeout.stakes.iter().map(|it| (it.name.as_str(), it.at));
    let all = all.chain(stakeout.offsets.iter().map(|it| (it.name.as_str(), it.at)));
    let base = stakeout.base.as_ref().map(|it| {
        let [a, b] = &it.points;
        [a.at, b.at]
    });
    drawing.items.extend(stakes(all, base).items);
    drawing
}

/// What the tapes hang on.
fn base(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    let Some(base) = &stakeout.base else { return };
    flow.heading(language.say("Fixed points", "Puntos fijos"));
    for (name, point) in ["A", "B"].iter().zip(&base.points) {
        let words = language.sentence(&point.name);
        flow.item(name, &words, Style::heavy(BODY.points));
    }
    let from_a = language.say("From A to B", "De A a B");
    flow.paragraph(&format!("{from_a}: {}", base.length.shown.text), BODY);
    if base.proposed {
        flow.paragraph(
            language.say(
                "Nobody chose them: they are the pair that fixes the stakes best.",
                "Nadie los eligió: son el par que mejor fija las estacas.",
            ),
            SMALL,
        );
    }
    if let Some(worst) = &base.worst {
        let words = language.say(
            "Greatest expected error of a stake",
            "Mayor error esperado de una estaca",
        );
        flow.paragraph(&format!("{words}: {}", worst.shown.text), BODY);
    }
    let words = language.say(
        "Each tape is taken to be read within",
        "Se supone que cada cinta se lee a",
    );
    flow.paragraph(
        &format!("{words} {}.", stakeout.tape_error.shown.text),
        SMALL,
    );
}
