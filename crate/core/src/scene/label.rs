//! Figures with the places they belong to: those of takeoff and analysis, none of its own.

use super::place::Placed;
use super::{Corner, Matter, Scene, Span, Stage};
use crate::geom::Point;
use crate::geom::region::bounds;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// How far above its thing a figure stands, meters.
const ABOVE: f64 = 0.4;

/// A figure in words, and where it belongs.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The words.
    pub text: String,
    /// When it is shown.
    pub span: Span,
    /// The place it belongs to, site meters.
    pub at: Corner,
}

/// Adds every figure.
pub(super) fn build(scene: &mut Scene, site: &CheckedSite, placed: Option<&Placed<'_>>) {
    let mut labels = standing(scene);
    if let Some(placed) = placed {
        labels.extend(work(site, placed));
    }
    scene.labels = labels;
}

/// The names of buildings, over them.
fn standing(scene: &Scene) -> Vec<Label> {
    let named = scene.parts.iter().filter(|part| {
        matches!(
            part.matter,
            Matter::House | Matter::Outbuilding | Matter::Pile
        )
    });
    let label = |part: &super::Part| {
        let corners = part.mesh.corners.iter();
        let top = corners
            .clone()
            .map(|it| it[2])
            .fold(f64::NEG_INFINITY, f64::max);
        let (low, high) = bounds(corners.map(|it| Point::new(it[0], it[1])))?;
        let middle = low.midpoint(high);
        Some(Label {
            text: part.name.clone(),
            span: part.span,
            at: [middle.x, middle.y, top + ABOVE],
        })
    };
    named.filter_map(label).collect()
}

/// The figures of the work, stage by stage.
fn work(site: &CheckedSite, placed: &Placed<'_>) -> Vec<Label> {
    let system = site.site().display;
    let length = |value: f64| show(Measure::Length, value, system).text;
    let mut labels = Vec::new();
    let mut add = |text: String, span: Span, at: Corner| labels.push(Label { text, span, at });
    let only = |stage: Stage| Span::between(stage, stage);
    let line = |key: &str| {
        let line = placed.analysis.line(key)?;
        let figure = show(line.measure, line.value, system).text;
        Some(format!("{}: {figure}", line.label))
    };
    let rim = |share: (f64, f64)| -> Option<Corner> {
        let (low, high) = placed.shell.rim.bounds()?;
        let at = |share: f64, a: f64, b: f64| a + (b - a) * share;
        let p = Point::new(at(share.0, low.x, high.x), at(share.1, low.y, high.y));
        let p = placed.pose.site_from_shell(p);
        Some([p.x, p.y, placed.coping])
    };
    let deepest = deepest(placed);
    if let Some((at, floor)) = deepest {
        let ground = placed.ground(at);
        let bottom = placed.dig.bottom_elevation;
        let dug = Span::between(Stage::Dug, Stage::Bed);
        if let Some(text) = line("dig-depth") {
            add(text, dug, [at.x, at.y, f64::midpoint(bottom, ground)]);
        }
        if let Some(text) = line("dig-bottom") {
            add(text, only(Stage::Dug), [at.x, at.y, bottom]);
        }
        if let Some(text) = line("base-stone-volume") {
            add(text, only(Stage::Bed), [at.x, at.y, floor]);
        }
        let level = placed.coping - placed.shell.record.waterline;
        if let Some(text) = line("water-volume") {
            add(text, Span::from(Stage::Backfilled), [at.x, at.y, level]);
        }
    }
    let ahead = rim((1.0, 0.5));
    let aside = rim((0.5, 1.0));
    let behind = rim((0.0, 0.5));
    if let Some(at) = aside {
        let dug = Span::between(Stage::Marked, Stage::Dug);
        let top = opening(placed)
            .map(|(long, wide)| format!("Top of dig: {} by {}", length(long), length(wide)));
        if let Some(text) = top {
            add(text, dug, at);
        }
        let text = show(Measure::Elevation, placed.coping, system).text;
        add(format!("Rim at {text}"), Span::from(Stage::Set), at);
    }
    if let Some(at) = behind {
        if let Some(text) = line("bank-cut") {
            add(text, Span::between(Stage::Marked, Stage::Dug), at);
        }
        if let Some(text) = line("backfill-stone-volume") {
            add(text, only(Stage::Backfilled), at);
        }
    }
    if let (Some(at), Some(text)) = (ahead, line("deck-area")) {
        add(text, Span::from(Stage::Decked), at);
    }
    if let Some(grading) = placed.grading {
        let heights = [
            (grading.stands, "above the ground"),
            (grading.lies, "below the ground"),
        ];
        for (height, words) in heights {
            if let Some(it) = height.filter(|it| it.height > 0.05) {
                let text = format!("Edge of deck {} {words}", length(it.height));
                let at = [it.at.x, it.at.y, placed.ground(it.at)];
                add(text, Span::from(Stage::Decked), at);
            }
        }
    }
    labels
}

/// The deepest place of the floor, site frame, and its elevation.
fn deepest(placed: &Placed<'_>) -> Option<(Point, f64)> {
    let most = placed.shell.deepest() - 1e-3;
    let corners = placed.shell.facets.iter().flat_map(|facet| {
        let points = facet.region.rings().flat_map(|ring| &ring.0);
        points.filter(move |p| facet.plane.depth(**p) >= most)
    });
    let (low, high) = bounds(corners.copied())?;
    let at = placed.pose.site_from_shell(low.midpoint(high));
    Some((at, placed.coping - most))
}

/// How long and how wide the hole opens at the ground, along the shell and across it, meters.
fn opening(placed: &Placed<'_>) -> Option<(f64, f64)> {
    let corners = placed.dig.top_edge.rings().flat_map(|ring| &ring.0);
    let (low, high) = bounds(corners.map(|p| placed.inward(*p)))?;
    Some((high.x - low.x, high.y - low.y))
}
