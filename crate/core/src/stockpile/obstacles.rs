//! What keeps a pile away.

use crate::clearance::WorkFigures;
use crate::finding::Message;
use crate::geom::distance::Figure;
use crate::geom::{Edges, Point, Region};
use crate::math::{greater, lesser};
use crate::site::{CheckedFeature, CheckedLot, Feature, FeatureKind, FeaturePart};

/// How much a thing keeps a pile away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Weight {
    /// Worth a note.
    Note,
    /// Kept free where the pile fits elsewhere.
    Avoid,
    /// Never under a pile.
    Bar,
}

/// What a pile keeps from, and from how far.
#[derive(Debug, Clone)]
pub(super) struct Obstacle {
    pub weight: Weight,
    /// Whether a pile on it does harm that cannot stand: buildings, septic systems, wells, water.
    pub harmed: bool,
    /// What the plan calls it.
    pub label: Message,
    /// Where it stands in the site file.
    pub place: String,
    figure: Signed,
}

/// An area or a line that distances are measured to.
#[derive(Debug, Clone, Default)]
pub(super) struct Signed {
    edges: Edges,
    area: Option<Region>,
    bounds: Option<(Point, Point)>,
}

impl Signed {
    pub fn of_area(area: &Region) -> Self {
        Self {
            edges: Edges::of_region(area),
            area: Some(area.clone()),
            bounds: area.bounds(),
        }
    }

    fn of_figure(figure: Figure<'_>) -> Self {
        match figure {
            Figure::Area(region) => Self::of_area(region),
            Figure::Chain(points) => Self {
                edges: Edges::of_chain(points),
                area: None,
                bounds: crate::geom::region::bounds(points.iter().copied()),
            },
        }
    }

    /// Distance of a point, meters; negative inside an area; infinite to nothing. Where it is at
    /// least `enough`, any value from there to the distance itself may be told.
    pub fn distance(&self, p: Point, enough: f64) -> f64 {
        let Some((low, high)) = self.bounds else {
            return f64::INFINITY;
        };
        let x = greater(low.x - p.x, p.x - high.x);
        let y = greater(low.y - p.y, p.y - high.y);
        // Outside the box round it the thing is no nearer than the box.
        if x > enough || y > enough {
            return greater(x, y);
        }
        let distance = self.edges.distance(p);
        let in_box = x <= 0.0 && y <= 0.0;
        if in_box && self.area.as_ref().is_some_and(|area| area.contains(p)) {
            -distance
        } else {
            distance
        }
    }
}

/// Everything on a lot that a pile keeps from, and the lot itself. Worth keeping for as long as
/// lot and features stay the same.
#[derive(Debug, Clone)]
pub struct Obstacles {
    lot: Signed,
    all: Vec<Obstacle>,
    /// Room that was drawn for spoil.
    spaces: Vec<Space>,
}

/// Room that was drawn for spoil.
#[derive(Debug, Clone)]
pub struct Space {
    pub(super) area: Signed,
    pub(super) bounds: (Point, Point),
    pub(super) label: Message,
    pub(super) place: String,
}

/// The work that a pile keeps from at one placement.
#[derive(Debug, Clone)]
pub struct Work {
    dig: Signed,
    water: Signed,
    /// Distance of the deck's edge from the water's edge, meters.
    deck: f64,
    pad: Signed,
    /// Distance kept from the dig's edge, meters.
    back: f64,
    /// The middle of the shell, site meters.
    pub middle: Point,
}

impl Work {
    /// The work as it stands, with the distance kept from the dig's edge and the shell's middle.
    pub fn of(work: &WorkFigures, back: f64, middle: Point) -> Self {
        Self {
            dig: Signed::of_area(&work.dig),
            water: Signed::of_area(&work.waters_edge),
            deck: work.deck_edge,
            pad: work
                .equipment
                .as_ref()
                .map_or_else(Signed::default, Signed::of_area),
            back,
            middle,
        }
    }

    /// The parts of the work, each with how far from it a pile keeps, meters.
    fn parts(&self) -> [(&Signed, f64); 3] {
        [
            (&self.pad, 0.0),
            (&self.dig, self.back),
            (&self.water, self.deck),
        ]
    }

    /// The same with what they are called: how far a point lies from where a pile may begin,
    /// meters.
    pub(super) fn named(&self, p: Point) -> [(&'static str, f64); 3] {
        let [pad, dig, deck] = self
            .parts()
            .map(|(part, out)| part.distance(p, f64::INFINITY) - out);
        [
            ("the dig", dig),
            ("the deck", deck),
            ("the equipment pad", pad),
        ]
    }
}

impl Obstacles {
    /// Those of a lot with its features; `records` are the features as the site tells them.
    pub fn of(lot: &CheckedLot, features: &[CheckedFeature], records: &[Feature]) -> Self {
        let mut all = Vec::new();
        let mut spaces = Vec::new();
        for feature in features {
            let label = feature.named(records);
            let place = format!("/features/{}", feature.index);
            let figure = feature.shape.figure();
            if let (FeatureKind::SpoilSpace, Figure::Area(area)) = (feature.kind, figure) {
                spaces.extend(area.bounds().map(|bounds| Space {
                    area: Signed::of_area(area),
                    bounds,
                    label,
                    place,
                }));
                continue;
            }
            let Some(weight) = weight(feature.kind) else {
                continue;
            };
            let roots = |p: &&crate::site::CheckedPart| p.part == FeaturePart::TreeProtection;
            let roots = feature.parts.iter().find(roots);
            all.push(Obstacle {
                weight,
                harmed: harmed(feature.kind),
                label,
                place,
                figure: Signed::of_figure(roots.map_or(figure, |part| part.figure())),
            });
        }
        Self {
            lot: Signed::of_area(&lot.region),
            all,
            spaces,
        }
    }

    /// Room that was drawn for spoil.
    pub fn spaces(&self) -> &[Space] {
        &self.spaces
    }

    /// The rectangle round the lot.
    pub(super) fn bounds(&self) -> Option<(Point, Point)> {
        self.lot.bounds
    }

    /// How far a point lies inside the lot, meters; negative outside.
    pub(super) fn within_lot(&self, p: Point) -> f64 {
        -self.lot.distance(p, f64::INFINITY)
    }

    /// Everything with the distance of a point from it, meters.
    pub(super) fn each(&self, p: Point) -> impl Iterator<Item = (&Obstacle, f64)> {
        let apart = move |it: &Obstacle| it.figure.distance(p, f64::INFINITY);
        self.all.iter().map(move |it| (it, apart(it)))
    }

    /// How large a pile's footprint round a point may be, meters of radius: the way to whatever
    /// is nearest of what weighs at least so much. Negative where none may lie. It changes by no
    /// more than a meter over a meter. Where it is less than the first of `between`, or more than
    /// the second, any value beyond that end may be told.
    pub(super) fn room(
        &self,
        p: Point,
        work: &Work,
        least: Weight,
        (hopeless, enough): (f64, f64),
    ) -> f64 {
        let mut room = lesser(enough, -self.lot.distance(p, -hopeless));
        if room < hopeless {
            return room;
        }
        // What has few edges first: most places are hopeless by it.
        for it in self.all.iter().filter(|it| it.weight >= least) {
            room = lesser(room, it.figure.distance(p, greater(room, 0.0)));
            if room < hopeless {
                return room;
            }
        }
        for (part, out) in work.parts() {
            room = lesser(room, part.distance(p, greater(room, 0.0) + out) - out);
            if room < hopeless {
                return room;
            }
        }
        room
    }
}

/// Whether a pile on a kind of thing does harm that cannot stand.
fn harmed(kind: FeatureKind) -> bool {
    use FeatureKind as K;
    matches!(
        kind,
        K::House | K::Outbuilding | K::SepticTank | K::SepticField | K::Well | K::Watercourse
    )
}

/// How much a kind of thing keeps a pile away; `None`: not at all.
fn weight(kind: FeatureKind) -> Option<Weight> {
    use FeatureKind as K;
    match kind {
        K::House
        | K::Outbuilding
        | K::Wall
        | K::Fence
        | K::Tree
        | K::Easement
        | K::SepticTank
        | K::SepticField
        | K::Well
        | K::Equipment
        | K::Watercourse
        | K::Deck
        | K::DeckSteps
        | K::PipeTrench
        | K::Other => Some(Weight::Bar),
        K::Driveway | K::Walk | K::OverheadLine => Some(Weight::Avoid),
        K::BuriedLine => Some(Weight::Note),
        K::StreetEdge | K::DeckOpening | K::SpoilSpace => None,
    }
}
