//! The way in: the widest clear way from the street to the dig, what holds it, and who fits through.
//!
//! | part | what it knows |
//! |---|---|
//! | `bars` | what stands in the way, at which height, and where the street is |
//! | `line` | a line along which it runs, to be drawn |
//! | `carried` | how wide and high the shell is on its way, flat and on edge |
//! | `turning` | what a machine sweeps in a bend |
//! | `passage` | everybody who has to pass, held against the way |
//! | `removal` | fences taken out to try |
//! | `cautions` | what the way crosses, and what was assumed |
//!
//! The land of the neighbors bounds the way: it runs over the lot and comes in from the street. A
//! machine has come to the dig when its middle stands over its edge.

mod bars;
mod carried;
mod cautions;
mod line;
mod passage;
mod removal;
#[cfg(test)]
mod tests;
mod turning;

pub use bars::{ASSUMED_TRUNK, Bar, Bars, Gate};
pub use carried::{Carried, least_width};
pub use passage::{Passage, Passenger};
pub use removal::Removal;
pub use turning::{Bend, swept_width};

use crate::clearance::WorkFigures;
use crate::finding::Finding;
use crate::geom::gap::{self, Piece, Widest};
use crate::geom::{Point, Region};
use crate::site::CheckedSite;
use line::Yard;

/// Points of the dig's edge that the way may end at lie so far apart, meters: what of the width the
/// room at the dig itself may be out.
const EDGE_STEP: f64 = 0.25;

/// A way narrower than this is closed, meters: fences are drawn to walls by hand, and nothing passes
/// there (our choice).
const CLOSED: f64 = 0.05;

/// A gate is named where the pinch is as wide as it to this, meters.
const SAME_GATE: f64 = 0.01;

/// Posts of a gate lie no farther than this from the ends of the pinch, meters: a thick wall.
const AT_POST: f64 = 2.1;

/// Everything about the way in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WayIn {
    /// The widest way to the dig at ground level, once a shell is placed and the street is known.
    pub to_dig: Option<Way>,
    /// The same to where the shell is laid down, where somebody chose such a place.
    pub to_set_down: Option<Way>,
    /// Everybody who has to pass.
    pub passages: Vec<Passage>,
    /// Fences and walls of which a stretch taken out widens the way to the dig, the best first.
    pub removals: Vec<Removal>,
    /// What is worth knowing.
    pub findings: Vec<Finding>,
}

/// The widest way to one goal.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// What holds it; none where nothing does.
    pub pinch: Option<Pinch>,
    /// A line along which it runs, from the street, site meters; empty of a way that is closed.
    pub line: Vec<Point>,
    /// Length of that line, meters.
    pub length: f64,
    /// How wide that line is at its narrowest, meters; the way itself is no narrower.
    pub narrowest: f64,
    /// What it ends at, site meters.
    pub goal: Point,
}

/// Where a way is narrowest.
#[derive(Debug, Clone, PartialEq)]
pub struct Pinch {
    /// Its width, meters; 0 of a way that is closed.
    pub width: f64,
    /// Where it was measured, site meters.
    pub ends: [Point; 2],
    /// What it lies between.
    pub between: [String; 2],
    /// The features at its ends, by their indices in the site; none of a side of the lot.
    pub features: [Option<usize>; 2],
    /// The gate that it is, where it is one.
    pub gate: Option<String>,
    /// It is the room at the goal itself: twice the distance of what stands nearest to it.
    pub at_goal: bool,
}

impl Pinch {
    /// Where it is, in words.
    pub fn place(&self) -> String {
        let [a, b] = &self.between;
        match &self.gate {
            Some(gate) => format!("in {gate}"),
            None if self.at_goal => format!("beside {a}, at the end of the way"),
            None if self.features[0] == self.features[1] && a == b => {
                format!("between two parts of {a}")
            }
            None => format!("between {a} and {b}"),
        }
    }
}

impl Way {
    /// Its width, meters; infinite where nothing holds it.
    pub fn width(&self) -> f64 {
        self.pinch.as_ref().map_or(f64::INFINITY, |it| it.width)
    }

    /// Whether nothing passes.
    pub fn is_closed(&self) -> bool {
        self.width() < CLOSED
    }
}

/// What a way is looked for in.
struct Ground<'a> {
    site: &'a CheckedSite,
    bars: Bars,
    /// The top of the dig.
    dig: &'a Region,
    /// Points of it that a way may end at.
    dig_points: Vec<Point>,
    set_down: Option<Point>,
}

/// Where a way leads.
#[derive(Clone, Copy)]
enum Goal {
    /// To the dig.
    Dig,
    /// To a point.
    At(Point),
}

/// The way in of a site with its work.
pub fn way_in(site: &CheckedSite, work: &WorkFigures) -> WayIn {
    let bars = Bars::of(site);
    let mut found = WayIn::default();
    if bars.streets.is_empty() {
        found.findings.push(cautions::no_street());
    }
    let Some((shell, placement)) = site.placed_shell().filter(|_| !bars.streets.is_empty()) else {
        if site.placed_shell().is_none() {
            found.findings.push(cautions::no_shell());
        }
        return found;
    };
    // What reaches over the lot's lines is reached over them, and not from outside.
    let lot = &site.lot().region;
    let mut dig = edge_points(&work.dig);
    dig.retain(|p| lot.contains(*p));
    dig.push(placement.at);
    let ground = Ground {
        site,
        bars,
        dig: &work.dig,
        dig_points: dig,
        set_down: site.site().lift.and_then(|it| it.set_down),
    };
    let carried = Carried::of(shell);
    let open = f64::INFINITY;
    let to_dig = ground.way(&ground.bars, 0.0, Goal::Dig, open);
    let to_set_down = ground
        .set_down
        .and_then(|at| ground.way(&ground.bars, 0.0, Goal::At(at), open));
    found.passages = passage::all(&ground, &carried, to_dig.as_ref(), to_set_down.as_ref());
    if let Some(way) = &to_dig {
        found.removals = removal::all(&ground, way);
    }
    let findings = cautions::all(&ground, to_dig.as_ref(), &found);
    found.findings.extend(findings);
    (found.to_dig, found.to_set_down) = (to_dig, to_set_down);
    found
}

impl Ground<'_> {
    /// The widest way of something so tall, meters. Its line keeps a width of `wanted` free where it
    /// can, and no more than that.
    fn way(&self, bars: &Bars, height: f64, goal: Goal, wanted: f64) -> Option<Way> {
        let pieces = bars.pieces(height, |_| false);
        let widest = match goal {
            Goal::Dig => gap::widest(&pieces, &self.dig_points),
            Goal::At(at) => gap::widest(&pieces, &[at]),
        }?;
        let yard = Yard {
            pieces: &pieces,
            lot: &self.site.lot().region,
            streets: &bars.streets,
            driven: driven(self.site),
        };
        let line = if widest.width() < CLOSED {
            Vec::new()
        } else {
            let line = line::along(&yard, &widest, wanted);
            match goal {
                Goal::Dig => line::until(self.dig, line),
                Goal::At(_) => line,
            }
        };
        Some(Way {
            pinch: pinch(bars, &pieces, &widest),
            length: line::length(&line),
            narrowest: line::narrowest(&pieces, &line),
            line,
            goal: widest.goal,
        })
    }

    /// Width of the widest way to the dig at ground level, and what holds it.
    fn width(&self, bars: &Bars) -> Option<(f64, Option<Pinch>)> {
        let pieces = bars.pieces(0.0, |_| false);
        let widest = gap::widest(&pieces, &self.dig_points)?;
        Some((widest.width(), pinch(bars, &pieces, &widest)))
    }
}

/// What holds a way, by its names.
fn pinch(bars: &Bars, pieces: &[Piece], widest: &Widest) -> Option<Pinch> {
    let gap = widest.pinch?;
    let owners = gap.pieces.map(|i| pieces.get(i).map_or(0, |it| it.owner));
    let bar = |owner: usize| bars.all.get(owner);
    let name = |owner: usize| bar(owner).map_or_else(String::new, |it| it.name.clone());
    let is_it = |gate: &&Gate| {
        let [a, b] = gate.posts;
        let wide = a.distance(b);
        let [p, q] = gap.ends;
        let near = |p: Point, post: Point| p.distance(post) < AT_POST;
        owners == [gate.bar; 2]
            && (wide - gap.width).abs() < SAME_GATE
            && (near(p, a) && near(q, b) || near(p, b) && near(q, a))
    };
    let gate = bars.gates.iter().find(is_it).filter(|_| !widest.at_goal);
    Some(Pinch {
        width: gap.width,
        ends: gap.ends,
        between: owners.map(name),
        features: owners.map(|owner| bar(owner).and_then(|it| it.feature)),
        gate: gate.map(|it| it.name.clone()),
        at_goal: widest.at_goal,
    })
}

/// The driveways of a site.
fn driven(site: &CheckedSite) -> Vec<&Region> {
    let drives = site.features().iter();
    drives
        .filter(|it| it.kind == crate::site::FeatureKind::Driveway)
        .filter_map(|it| match &it.shape {
            crate::site::CheckedShape::Area(_, region) => Some(region),
            crate::site::CheckedShape::Track(..) => None,
        })
        .collect()
}

/// Points along the edge of the dig.
fn edge_points(dig: &Region) -> Vec<Point> {
    let mut points = Vec::new();
    for (a, b) in dig.rings().flat_map(crate::geom::Ring::edges) {
        let parts = (a.distance(b) / EDGE_STEP).ceil().max(1.0);
        let mut i = 0.0;
        while i < parts {
            points.push(a + (b - a) * (i / parts));
            i += 1.0;
        }
    }
    thinned(points)
}

/// The points of a list that lie no nearer than half a step to the one kept before.
fn thinned(points: Vec<Point>) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::with_capacity(points.len());
    for p in points {
        if kept
            .last()
            .is_none_or(|it| it.distance(p) >= EDGE_STEP / 2.0)
        {
            kept.push(p);
        }
    }
    kept
}
