//! Tapes measured: how far it is from the edge of one thing to the edge of another.
//!
//! A clearance asks how much room a rule has left, and goes below nothing where things overlap. A
//! tape is held from edge to edge: it measures as well how far inside one thing another lies, and
//! reads nothing where their edges cross.
//!
//! # Tolerance
//! Arcs of sides, features and the water's edge are exact. Rim and deck edge are exact from outside
//! them (an outline widened with round corners is nearer by its width); from within, and at drawn
//! decks and the top of dig, their edges are flattened (`DRAWING_TOLERANCE`).

use crate::geom::stretches;
use crate::geom::{DRAWING_TOLERANCE, Point, Region, Segment, boolean, offset};
use crate::site::{CheckedFeature, CheckedShape, CheckedSite, MeasuredFrom, TapeEnd};

use super::WorkFigures;

/// Edges nearer than this to each other meet, meters: a micrometre is rounding.
const HAIR: f64 = 1e-6;

/// A tape as it was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taped {
    /// From edge to edge, meters; 0 where they meet.
    pub distance: f64,
    /// The place at its first end (site meters).
    pub from: Point,
    /// The place at its other end.
    pub to: Point,
    /// How the two things lie to each other.
    pub lie: Lie,
}

/// How the two things at the ends of a tape lie to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lie {
    /// Neither is inside the other.
    Apart,
    /// The first lies inside the second.
    FirstInside,
    /// The second lies inside the first.
    SecondInside,
    /// Their edges meet or cross.
    Meeting,
}

/// The edge of a thing.
struct Edge {
    stretches: Vec<Segment>,
    /// How far outside those stretches it runs, meters.
    out: f64,
    /// What the stretches run round, where the edge runs outside them.
    within: Option<Region>,
    /// What it runs round, where it is the edge of an area.
    area: Option<Region>,
}

/// Every tape of a site, in order; none where an end waits for a part of the work that is not placed.
pub fn measure(site: &CheckedSite, work: &WorkFigures) -> Vec<Option<Taped>> {
    let tapes = site.site().tapes.iter();
    tapes
        .map(|tape| between(site, work, &tape.from, &tape.to))
        .collect()
}

/// How far it is from the edge of one thing to that of another.
fn between(site: &CheckedSite, work: &WorkFigures, from: &TapeEnd, to: &TapeEnd) -> Option<Taped> {
    apart(edge(site, work, from)?, edge(site, work, to)?)
}

/// How far the edge at an end of a tape lies from a place, meters; none where it waits.
pub fn off(site: &CheckedSite, work: &WorkFigures, end: &TapeEnd, at: Point) -> Option<f64> {
    between(site, work, end, &TapeEnd::At(at)).map(|taped| taped.distance)
}

fn apart(mut a: Edge, mut b: Edge) -> Option<Taped> {
    let raw = stretches::nearest(&a.stretches, &b.stretches)?;
    let out = a.out + b.out;
    let inside = |edge: &Edge, other: &Edge| other.starts_in(edge.within.as_ref());
    if out > 0.0 && (raw.distance <= out || inside(&a, &b) || inside(&b, &a)) {
        // From within, only the edge itself tells.
        a.settle();
        b.settle();
        let near = stretches::nearest(&a.stretches, &b.stretches)?;
        return Some(taped(near.distance, near.from, near.to, &a, &b));
    }
    let along = (raw.to - raw.from).unit().unwrap_or_default();
    let (from, to) = (raw.from + along * a.out, raw.to - along * b.out);
    Some(taped(raw.distance - out, from, to, &a, &b))
}

fn taped(distance: f64, from: Point, to: Point, a: &Edge, b: &Edge) -> Taped {
    let lie = if distance < HAIR {
        Lie::Meeting
    } else if a.starts_in(b.area.as_ref()) {
        Lie::FirstInside
    } else if b.starts_in(a.area.as_ref()) {
        Lie::SecondInside
    } else {
        Lie::Apart
    };
    let distance = if lie == Lie::Meeting { 0.0 } else { distance };
    Taped {
        distance,
        from,
        to,
        lie,
    }
}

impl Edge {
    fn of_region(region: &Region) -> Self {
        Self {
            stretches: lines(region),
            out: 0.0,
            within: None,
            area: Some(region.clone()),
        }
    }

    /// Whether any of its stretches begins in an area.
    fn starts_in(&self, area: Option<&Region>) -> bool {
        let holds = |area: &Region| self.stretches.iter().any(|s| area.contains(s.from()));
        area.is_some_and(holds)
    }

    /// Puts the stretches where the edge runs.
    fn settle(&mut self) {
        if let (true, Some(area)) = (self.out > 0.0, &self.area) {
            self.stretches = lines(area);
            self.out = 0.0;
        }
    }
}

fn lines(region: &Region) -> Vec<Segment> {
    let line = |(from, to)| Segment::Line { from, to };
    region
        .rings()
        .flat_map(|ring| ring.edges())
        .map(line)
        .collect()
}

/// The edge at an end of a tape; none where it is not placed.
fn edge(site: &CheckedSite, work: &WorkFigures, end: &TapeEnd) -> Option<Edge> {
    match end {
        TapeEnd::At(at) => Some(Edge {
            stretches: vec![Segment::Line { from: *at, to: *at }],
            out: 0.0,
            within: None,
            area: None,
        }),
        TapeEnd::Side(course) => {
            let mut sides = site.lot().lot.sides.iter();
            let side = sides.find(|side| side.course == *course)?;
            Some(Edge {
                stretches: vec![side.segment],
                out: 0.0,
                within: None,
                area: None,
            })
        }
        TapeEnd::Feature(id) => {
            let feature = feature(site, id)?;
            let area = match &feature.shape {
                CheckedShape::Area(_, region) => Some(region.clone()),
                CheckedShape::Track(..) => None,
            };
            Some(Edge {
                stretches: feature.shape.segments(),
                out: 0.0,
                within: None,
                area,
            })
        }
        TapeEnd::Work(part) => of_work(site, work, *part),
    }
}

fn feature<'a>(site: &'a CheckedSite, id: &str) -> Option<&'a CheckedFeature> {
    let index = site.site().features.iter().position(|f| f.id == id)?;
    site.features().iter().find(|f| f.index == index)
}

fn of_work(site: &CheckedSite, work: &WorkFigures, part: MeasuredFrom) -> Option<Edge> {
    let (_, region, out) = work.base(part);
    let region = region?;
    if !part.goes_with_shell() || part == MeasuredFrom::Dig {
        return Some(Edge::of_region(region));
    }
    let (shell, placement) = site.placed_shell()?;
    let outline = shell.outline.posed(&placement.pose());
    let edge = Edge {
        stretches: outline.segments().collect(),
        out,
        within: (out > 0.0).then(|| region.clone()),
        area: Some(region.clone()),
    };
    if out == 0.0 {
        return Some(edge);
    }
    let ring = offset::offset_region(region, out, DRAWING_TOLERANCE);
    if part == MeasuredFrom::DeckEdge && !work.drawn_decks.polygons.is_empty() {
        // The deck ends where its ring does, or a part of it that was drawn.
        return Some(Edge::of_region(&boolean::union(&ring, &work.drawn_decks)));
    }
    Some(Edge {
        area: Some(ring),
        ..edge
    })
}
