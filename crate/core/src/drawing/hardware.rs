//! Hardware round the shell, over the plan: joints, ties, runs of pipe and the dewatering pipe.

use super::{Drawing, Item, Layer};
use crate::analysis::Analysis;
use crate::geom::{Point, Pose, Region, Ring, Vector};
use crate::math::TURN;
use crate::site::{CheckedSite, FittingKind};
use crate::takeoff::MeasuredOn;

/// Corners of a pipe seen from above.
const ROUND: u32 = 24;

/// How wide a trench is shown at least, meters.
const LEAST_TRENCH: f64 = 0.05;

/// What is laid, whatever the ledger looks at.
pub(super) fn lies(drawing: &mut Drawing, site: &CheckedSite, analysis: &Analysis) {
    let Some((_, placement)) = site.placed_shell() else {
        return;
    };
    let pose = placement.pose();
    if let Some(deck) = &analysis.deck {
        let joints = deck.joints.iter();
        let joints = joints.flat_map(|joint| pairs(&posed(joint, &pose)));
        drawing.lines(Layer::Joint, joints.collect());
        drawing.lines(Layer::Tie, ties(site, analysis, &pose));
    }
    for run in &analysis.pipes.runs {
        let suction = run.kind != FittingKind::Return;
        drawing.lines(Layer::Pipe { suction }, pairs(&run.path));
        for at in &run.straps {
            let at = *at;
            drawing.items.push(Item::Dot {
                layer: Layer::Strap,
                at,
            });
        }
        if let Some(at) = run.path.first() {
            // Outside of the shell, where its water does not lie under the name.
            let out = (*at - pose.at).bearing();
            drawing.label_beside(Layer::Pipe { suction }, *at, out, run.label.clone());
        }
    }
    if let Some(pipe) = &analysis.dewatering {
        let at = pose.site_from_shell(pipe.at);
        drawing.area(
            Layer::Standpipe,
            disc(at, site.site().works.dewatering.diameter),
        );
        let out = (at - pose.at).bearing();
        drawing.label_beside(Layer::Standpipe, at, out, "dewatering pipe");
    }
}

/// Lights up what a quantity was measured on; says whether it knows it.
pub(super) fn light(
    drawing: &mut Drawing,
    site: &CheckedSite,
    analysis: &Analysis,
    on: MeasuredOn,
    pose: &Pose,
) -> bool {
    let deck = analysis.deck.as_deref();
    let mut chains = |chains: Vec<Vec<Point>>| {
        let all: Vec<(Point, Point)> = chains.iter().flat_map(|chain| pairs(chain)).collect();
        let any = !all.is_empty();
        drawing.lines(Layer::FocusLine, all);
        any
    };
    let of_deck = |lines: &[Vec<Point>]| lines.iter().map(|line| posed(line, pose)).collect();
    match (on, deck) {
        (MeasuredOn::Joints, Some(deck)) => chains(of_deck(&deck.joints)),
        (MeasuredOn::Forms, Some(deck)) => {
            let pad = site.equipment();
            let edges = pad.iter().flat_map(Region::rings).map(closed);
            let mut all: Vec<Vec<Point>> = of_deck(&deck.forms);
            all.extend(edges);
            chains(all)
        }
        (MeasuredOn::Ties, Some(_)) => {
            let lines = ties(site, analysis, pose);
            chains(lines.into_iter().map(|(a, b)| vec![a, b]).collect())
        }
        (MeasuredOn::Pipes, _) => {
            chains(analysis.pipes.runs.iter().map(|r| r.path.clone()).collect())
        }
        (MeasuredOn::Trenches, _) => {
            let any = chains(analysis.pipes.trenches.clone());
            let width = site.site().works.pipe.trench_width.max(LEAST_TRENCH);
            for trench in &analysis.pipes.trenches {
                let strip = crate::geom::offset::offset_chain_square(trench, width / 2.0);
                drawing.area(Layer::Focus, strip);
            }
            any
        }
        (MeasuredOn::Deck | MeasuredOn::Rods, Some(deck)) => {
            drawing.area(Layer::Focus, deck.slab.posed(pose));
            for flight in &deck.steps {
                drawing.area(Layer::Focus, flight.region.posed(pose));
            }
            !deck.slab.is_empty()
        }
        (MeasuredOn::DeckBed, Some(deck)) => {
            drawing.area(Layer::Focus, deck.bed.posed(pose));
            !deck.bed.is_empty()
        }
        (MeasuredOn::Dewatering, _) => {
            let Some(pipe) = &analysis.dewatering else {
                return false;
            };
            let settings = &site.site().works.dewatering;
            let wide = if settings.sump_depth > 0.0 {
                settings.sump_width
            } else {
                settings.diameter
            };
            drawing.area(Layer::Focus, disc(pose.site_from_shell(pipe.at), wide));
            true
        }
        _ => false,
    }
}

/// The rods between coping and deck, half of each to either side of the rim.
fn ties(site: &CheckedSite, analysis: &Analysis, pose: &Pose) -> Vec<(Point, Point)> {
    let half = site.site().works.ties.length / 2.0;
    let ties = analysis.deck.iter().flat_map(|deck| &deck.ties);
    let line = |tie: &crate::deck::Tie| {
        let at = pose.site_from_shell(tie.at);
        let out = pose.site_from_shell_vector(tie.out) * half;
        (at - out, at + out)
    };
    ties.map(line).collect()
}

fn posed(chain: &[Point], pose: &Pose) -> Vec<Point> {
    chain.iter().map(|p| pose.site_from_shell(*p)).collect()
}

fn pairs(chain: &[Point]) -> Vec<(Point, Point)> {
    let next = chain.iter().skip(1);
    chain.iter().zip(next).map(|(a, b)| (*a, *b)).collect()
}

fn closed(ring: &Ring) -> Vec<Point> {
    let mut points = ring.0.clone();
    points.extend(ring.0.first());
    points
}

/// A circle of this width about a point.
fn disc(at: Point, width: f64) -> Region {
    let corner = |i| Vector::at_angle(TURN * f64::from(i) / f64::from(ROUND)) * (width / 2.0);
    Region::from_ring(Ring((0..ROUND).map(|i| at + corner(i)).collect()))
}
