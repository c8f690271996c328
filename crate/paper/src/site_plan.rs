//! The plan of a site for a sheet: the core's drawing with what the sheet leaves off, and the window that shows it.

use batterboard_core::drawing::{Drawing, Focus, Item, Layer, backdrop, overlay, work};
use batterboard_core::finding::Finding;
use batterboard_core::finding::said;
use batterboard_core::geom::{Point, region};

use crate::binder::{Binder, INSIDE};
use crate::job::{Job, SheetWish};
use crate::legend;
use crate::mark::Area;
use crate::plan::Window;
use crate::scale::{Lie, Scale};
use crate::words::Language;

/// Room round the lot for lettering, millimeters.
const ROUND: f64 = 9.0;

/// Everything on the plan whose layer is kept and was not left off.
pub fn drawing(job: &Job, wanted: &SheetWish, keep: impl Fn(&Item, Layer) -> bool) -> Drawing {
    let halves = [
        backdrop(&job.site),
        work(&job.site, &job.analysis, Focus::None),
        overlay(&job.site, &job.analysis, Focus::None),
    ];
    let shown = |item: &Item| {
        let layer = item.layer();
        keep(item, layer) && !wanted.without.iter().any(|part| part.has(layer))
    };
    Drawing {
        items: halves
            .into_iter()
            .flat_map(|it| it.items)
            .filter(shown)
            .map(|item| lettered(item, wanted.language))
            .collect(),
    }
}

/// An item whose label says no more than what its layer is called, in a language; names that somebody gave are kept.
fn lettered(mut item: Item, language: Language) -> Item {
    if let Item::Label { layer, text, .. } = &mut item
        && legend::name(*layer, Language::English).as_ref() == Some(text)
        && let Some(name) = legend::name(*layer, language)
    {
        *text = name;
    }
    item
}

/// The corners of the lot and of all the work.
pub fn extent(job: &Job) -> (Point, Point) {
    let lot = job.site.lot().region.rings();
    let lot = lot.flat_map(|ring| ring.0.iter().copied());
    let dig = job.analysis.dig.iter().flat_map(|dig| dig.top_edge.rings());
    let dig = dig.flat_map(|ring| ring.0.iter().copied());
    region::bounds(lot.chain(dig)).unwrap_or_default()
}

/// The same of the work alone; of everything before a shell is placed.
pub fn work_extent(job: &Job) -> (Point, Point) {
    let dig = job.analysis.dig.iter().flat_map(|dig| dig.top_edge.rings());
    region::bounds(dig.flat_map(|ring| ring.0.iter().copied())).unwrap_or_else(|| extent(job))
}

/// The window of a plan: the scale that was asked for, or the largest usual one at which it fits.
pub fn window(job: &Job, wanted: &SheetWish, area: Area, (low, high): (Point, Point)) -> Window {
    let span = high - low;
    let room = (area.width - 2.0 * ROUND, area.height - 2.0 * ROUND);
    let proposed = Scale::fitting(job.system, (span.x, span.y), room);
    Window {
        area,
        centre: wanted.centre.unwrap_or(low.midpoint(high)),
        scale: wanted.scale.unwrap_or(proposed),
        lettering: wanted.paper(job).lettering(),
    }
}

/// A binder whose paper lies as asked for, or the way that shows the plan larger beside a column of a width.
pub fn binder<'a>(
    job: &'a Job,
    wanted: &'a SheetWish,
    extent: (Point, Point),
    side: impl Fn(&Binder<'a>) -> f64,
) -> Binder<'a> {
    let of = |lie: Lie| Binder::new(job, wanted, lie.of(wanted.paper(job)));
    if let Some(lie) = wanted.lie {
        return of(lie);
    }
    let proposed = SheetWish {
        scale: None,
        ..wanted.clone()
    };
    let ratio = |binder: &Binder<'a>| {
        let (plan, _) = beside(binder.body(), side(binder));
        window(job, &proposed, plan, extent).scale.ratio
    };
    let (wide, tall) = (of(Lie::Wide), of(Lie::Tall));
    if ratio(&tall) < ratio(&wide) {
        tall
    } else {
        wide
    }
}

/// A body divided into a plan and a column beside it of a width.
pub fn beside(body: Area, width: f64) -> (Area, Area) {
    let plan = Area {
        width: body.width - width - INSIDE,
        ..body
    };
    let column = Area {
        x: plan.right() + INSIDE,
        width,
        ..body
    };
    (plan, column)
}

/// What to tell when a part of the lot lies outside the window at the scale that was asked for.
pub fn outside(job: &Job, window: &Window, extent: (Point, Point)) -> Option<Finding> {
    if window.holds(extent) {
        return None;
    }
    let (low, high) = extent;
    let span = high - low;
    let room = (
        window.area.width - 2.0 * ROUND,
        window.area.height - 2.0 * ROUND,
    );
    let fits = Scale::fitting(job.system, (span.x, span.y), room).words(job.system);
    Some(Finding::caution(
        "part-outside",
        said!(
            "At {scale} part of the lot lies outside this sheet.",
            scale = window.scale.words(job.system),
        ),
        said!(
            "Take {scale}, a larger paper, or move the frame; the scale was left as chosen.",
            scale = fits,
        ),
    ))
}
