//! The half of the plan that moves: dig, deck, shell, its axis, and clearances.

use super::{Drawing, Item, Layer, lettering};
use crate::analysis::{Analysis, ShellRings};
use crate::clearance::Clearance;
use crate::geom::{Pose, Vector, pattern};
use crate::shell::Shell;
use crate::site::{CheckedShape, CheckedSite};
use crate::units::{Measure, show};

/// Most clearances that are dimensioned on the plan without being asked for.
const DIMENSIONED: usize = 4;

/// A clearance with more room than this is not dimensioned unasked, meters (arbitrary: a
/// salesperson's "plenty").
const PLENTY: f64 = 4.0;

/// Spacing of hachures along the top of the dig, meters.
const HACHURE_SPACING: f64 = 0.35;

/// Length of a long hachure, as a part of the slope's run.
const LONG_HACHURE: f64 = 0.3;

/// Length of a short hachure, as a part of the slope's run.
const SHORT_HACHURE: f64 = 0.15;

/// What a row of the ledger asks to have lit up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Focus<'a> {
    /// Nothing.
    #[default]
    None,
    /// The clearance of this index.
    Clearance(usize),
    /// What the quantity of this key was measured on.
    Quantity(&'a str),
    /// The feature of this id, hidden or not.
    Feature(&'a str),
    /// The side of the lot that this course describes.
    Side(usize),
    /// The tape of this index.
    Tape(usize),
}

/// Dig, deck, shell and clearances as they stand.
pub fn work(site: &CheckedSite, analysis: &Analysis, focus: Focus<'_>) -> Drawing {
    let mut drawing = Drawing::default();
    if let Some((shell, placement)) = site.placed_shell() {
        let pose = placement.pose();
        dig(&mut drawing, analysis, &pose);
        if let Some(rings) = &analysis.rings {
            surround(&mut drawing, rings, &pose);
        }
        dig_edge(&mut drawing, analysis);
        draw_shell(&mut drawing, shell, &pose);
    }
    if let Some(pad) = site.equipment() {
        drawing.label_within(Layer::Equipment, &pad, "equipment");
        drawing.area(Layer::Equipment, pad);
    }
    if let Focus::Feature(id) = focus {
        light_up(&mut drawing, site, id);
    }
    if let Focus::Side(course) = focus {
        let sides = site.lot().lot.sides.iter();
        let lit = sides.filter(|side| side.course == course);
        let segments: Vec<_> = lit.map(|side| side.segment).collect();
        if !segments.is_empty() {
            drawing.path(Layer::FocusLine, segments, false);
        }
    }
    openings(&mut drawing, site, analysis);
    clearances(&mut drawing, site, &analysis.clearances, focus);
    drawing
}

/// The shape of a feature.
fn light_up(drawing: &mut Drawing, site: &CheckedSite, id: &str) {
    let records = &site.site().features;
    let is_it = |index: usize| records.get(index).is_some_and(|record| record.id == id);
    for feature in site.features().iter().filter(|f| is_it(f.index)) {
        match &feature.shape {
            CheckedShape::Area(_, region) => drawing.area(Layer::Focus, region.clone()),
            CheckedShape::Track(track, _) => {
                drawing.path(Layer::FocusLine, track.segments().collect(), false);
            }
        }
    }
}

/// The dig's opening: what it takes of the ground, under everything else.
fn dig(drawing: &mut Drawing, analysis: &Analysis, pose: &Pose) {
    let Some(dig) = &analysis.dig else { return };
    drawing.area(Layer::Dig, dig.top_edge.clone());
    if dig.slopes.greatest() <= 0.0 {
        return;
    }
    // A side that faces along the shell's own axes runs out by its own slope.
    let (ahead, left) = (
        pose.site_from_shell_vector(Vector::new(1.0, 0.0)),
        pose.site_from_shell_vector(Vector::new(0.0, 1.0)),
    );
    let mut lines = Vec::new();
    for ring in dig.top_edge.rings() {
        for (i, tick) in pattern::ticks_along(ring, HACHURE_SPACING)
            .iter()
            .enumerate()
        {
            let part = if i % 2 == 0 {
                LONG_HACHURE
            } else {
                SHORT_HACHURE
            };
            // Rings keep the hole to their left.
            let out = Vector::new(-tick.left.dot(ahead), -tick.left.dot(left));
            let run = dig.greatest_depth * dig.slopes.towards(out);
            if run > 0.0 {
                lines.push((tick.at, tick.at + tick.left * (run * part)));
            }
        }
    }
    drawing.lines(Layer::Hachure, lines);
}

/// The dig's top edge, over the deck that will cover it, and where the ground falls away within.
fn dig_edge(drawing: &mut Drawing, analysis: &Analysis) {
    let Some(dig) = &analysis.dig else { return };
    for ring in dig.top_edge.rings() {
        drawing.lines(Layer::DigEdge, ring.edges().collect());
    }
    for chain in &dig.daylight {
        let next = chain.iter().skip(1);
        let edges = chain.iter().zip(next).map(|(a, b)| (*a, *b));
        drawing.lines(Layer::DigEdge, edges.collect());
    }
}

/// Deck, collar and over-dig round the shell.
fn surround(drawing: &mut Drawing, rings: &ShellRings, pose: &Pose) {
    drawing.area(Layer::Deck, rings.deck.posed(pose));
    drawing.area(Layer::Collar, rings.collar.posed(pose));
    drawing.area(Layer::OverDig, rings.over_dig.posed(pose));
}

/// Coping, water by depth, breaks of the floor, and the axis.
fn draw_shell(drawing: &mut Drawing, shell: &Shell, pose: &Pose) {
    drawing.area(Layer::Coping, shell.rim.posed(pose));
    let (shallowest, deepest) = (shell.shallowest(), shell.deepest());
    for facet in &shell.facets {
        let depth = facet
            .region
            .centroid()
            .map_or(deepest, |p| facet.plane.depth(p));
        let shade = shade(depth, shallowest, deepest);
        drawing.area(Layer::Water { shade }, facet.region.posed(pose));
    }
    for facet in &shell.facets {
        for ring in facet.region.posed(pose).rings() {
            drawing.lines(Layer::FloorBreak, ring.edges().collect());
        }
    }
    drawing.path(
        Layer::Coping,
        shell.outline.posed(pose).segments().collect(),
        true,
    );
    let along = pose.site_from_shell_vector(Vector::new(1.0, 0.0));
    if let Some((low, high)) = shell.footprint.bounds() {
        let (from, to) = (
            pose.at + along * (low.x * 0.5),
            pose.at + along * (high.x * 0.6),
        );
        drawing.lines(Layer::Axis, vec![(from, to)]);
    }
}

fn shade(depth: f64, shallowest: f64, deepest: f64) -> u8 {
    let span = deepest - shallowest;
    if span <= 0.0 {
        return 2;
    }
    let share = ((depth - shallowest) / span * 5.0).floor().clamp(0.0, 4.0);
    // Between 0 and 4 by the line above.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    {
        share as u8
    }
}

/// The clearances with the least room, one to each target, and the one asked for; the
/// tightest on top.
fn clearances(drawing: &mut Drawing, site: &CheckedSite, all: &[Clearance], focus: Focus<'_>) {
    let mut shown: Vec<(&Clearance, bool)> = Vec::new();
    for (index, clearance) in all.iter().enumerate() {
        let asked = focus == Focus::Clearance(index);
        let twin = shown.iter().any(|(c, _)| c.subject == clearance.subject);
        let tight = clearance.room < PLENTY && shown.len() < DIMENSIONED && !twin;
        if asked || tight {
            shown.push((clearance, asked));
        }
    }
    for (clearance, asked) in shown.into_iter().rev() {
        dimension(drawing, site, clearance, asked);
    }
}

/// Where the barrier is open, the widest places.
fn openings(drawing: &mut Drawing, site: &CheckedSite, analysis: &Analysis) {
    let openings = analysis.barrier.iter().flat_map(|it| &it.openings);
    for (index, opening) in openings.take(DIMENSIONED).enumerate() {
        let [from, to] = opening.ends;
        let text = show(Measure::Length, opening.width, site.site().display).text;
        drawing.items.push(Item::Measured {
            layer: Layer::Shortfall,
            from,
            to,
            text: format!("open {text}"),
            key: lettering::key(&format!("opening {index}"), 0),
            focused: false,
        });
    }
}

fn dimension(drawing: &mut Drawing, site: &CheckedSite, clearance: &Clearance, asked: bool) {
    let layer = if clearance.room < 0.0 {
        Layer::Shortfall
    } else {
        Layer::Clearance
    };
    let (from, to) = (clearance.from_point, clearance.to_point);
    if asked {
        drawing.items.push(Item::Lines {
            layer: Layer::Focus,
            lines: vec![(from, to)],
        });
    }
    let text = show(Measure::Length, clearance.distance, site.site().display).text;
    drawing.items.push(Item::Measured {
        layer,
        from,
        to,
        text,
        key: lettering::key(&format!("{:?}", clearance.subject), u32::from(asked)),
        focused: asked,
    });
}
