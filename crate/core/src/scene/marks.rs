//! Lines on the ground and over it.

use super::place::{Extent, Placed};
use super::yard::stations;
use super::{Corner, Scene, Span, Stage};
use crate::analysis::drawn_contours;
use crate::geom::boolean::union;
use crate::geom::clip::{inside, outside};
use crate::geom::thin::thinned_chain;
use crate::geom::{Point, Region};
use crate::site::{CheckedShape, CheckedSite, FeatureKind};

/// How far above the ground lines are drawn, so that it does not hide them, meters.
const OVER: f64 = 0.04;

/// Lines are thinned by so much, meters.
const THIN: f64 = 0.005;

/// What a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// The lot's own line.
    LotLine,
    /// A contour of the ground before the dig.
    Contour,
    /// One that is drawn heavier.
    IndexContour,
    /// An easement's edge.
    Easement,
    /// The edge of a street.
    StreetEdge,
    /// The rim of the shell, marked on the ground.
    Rim,
    /// Where the hole's sides are to meet the ground.
    DigEdge,
    /// The deck's edge, marked on the ground.
    DeckEdge,
    /// Where banks meet the ground.
    Bank,
}

impl MarkKind {
    /// What it is called.
    pub const fn words(self) -> &'static str {
        match self {
            Self::LotLine => "lot line",
            Self::Contour => "contour",
            Self::IndexContour => "index contour",
            Self::Easement => "easement",
            Self::StreetEdge => "street edge",
            Self::Rim => "rim, marked",
            Self::DigEdge => "edge of the dig",
            Self::DeckEdge => "edge of the deck, marked",
            Self::Bank => "end of a bank",
        }
    }
}

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// What it is.
    pub kind: MarkKind,
    /// When it is there.
    pub span: Span,
    /// Its points, site meters.
    pub points: Vec<Corner>,
}

/// Adds every line.
pub(super) fn build(
    scene: &mut Scene,
    site: &CheckedSite,
    placed: Option<&Placed<'_>>,
    extent: &Extent,
) {
    let mut marks = Marks {
        site,
        window: extent.region(),
        list: Vec::new(),
    };
    marks.region(MarkKind::LotLine, Span::ALWAYS, &site.lot().region);
    let records = &site.site().features;
    for feature in site.features().iter() {
        let kind = match feature.kind {
            FeatureKind::Easement => MarkKind::Easement,
            FeatureKind::StreetEdge => MarkKind::StreetEdge,
            _ => continue,
        };
        if records.get(feature.index).is_some_and(|it| it.hidden) {
            continue;
        }
        match &feature.shape {
            CheckedShape::Area(_, region) => marks.region(kind, Span::ALWAYS, region),
            CheckedShape::Track(_, chain) => marks.chain(kind, Span::ALWAYS, chain),
        }
    }
    let mut work = Region::default();
    if let Some(placed) = placed {
        let marked = Span::between(Stage::Marked, Stage::Marked);
        let top_edge = &placed.dig.top_edge;
        work = top_edge.clone();
        marks.region(MarkKind::Rim, marked, &placed.shell.rim.posed(&placed.pose));
        marks.region(
            MarkKind::DigEdge,
            Span::between(Stage::Marked, Stage::Backfilled),
            top_edge,
        );
        if let Some(deck) = placed.deck {
            let slab = deck.slab.posed(&placed.pose);
            marks.region(MarkKind::DeckEdge, marked, &slab);
            work = union(&work, &slab);
        }
        if let Some(grading) = placed.grading {
            for chain in grading.toe.lines.iter().chain(&grading.crest.lines) {
                marks.chain(MarkKind::Bank, Span::from(Stage::Decked), chain);
            }
        }
    }
    marks.contours(&work);
    scene.marks = marks.list;
}

struct Marks<'a> {
    site: &'a CheckedSite,
    window: Region,
    list: Vec<Mark>,
}

impl Marks<'_> {
    fn region(&mut self, kind: MarkKind, span: Span, region: &Region) {
        for ring in region.rings() {
            self.chain(kind, span, &ring.closed());
        }
    }

    /// A chain laid over the ground.
    fn chain(&mut self, kind: MarkKind, span: Span, chain: &[Point]) {
        for part in inside(&thinned_chain(chain, THIN), &self.window) {
            let height = |p: Point| self.site.ground().height(p).elevation + OVER;
            let points = stations(&part).map(|(p, _)| [p.x, p.y, height(p)]);
            self.list.push(Mark {
                kind,
                span,
                points: points.collect(),
            });
        }
    }

    /// The contours, where the work changes the ground only until it is dug.
    fn contours(&mut self, work: &Region) {
        let until_dug = Span::between(Stage::Lot, Stage::Marked);
        for contour in drawn_contours(self.site) {
            let kind = match contour.index {
                true => MarkKind::IndexContour,
                false => MarkKind::Contour,
            };
            for part in inside(&contour.points, &self.window) {
                let stays = outside(&part, work)
                    .into_iter()
                    .map(|it| (it, Span::ALWAYS));
                let goes = inside(&part, work).into_iter().map(|it| (it, until_dug));
                for (chain, span) in stays.chain(goes) {
                    let points = thinned_chain(&chain, THIN).into_iter();
                    let points = points.map(|p| [p.x, p.y, contour.elevation + OVER]);
                    self.list.push(Mark {
                        kind,
                        span,
                        points: points.collect(),
                    });
                }
            }
        }
    }
}
