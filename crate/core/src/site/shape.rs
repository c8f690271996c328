//! Validated features: their shapes as distances take them, and the parts of them that a
//! rule may name (a tree's trunk, a door, a gate).

use super::checked_lot::CheckedLot;
use super::feature::{Feature, ShapeRecord};
use super::kind::FeatureKind;
use super::rule::FeaturePart;
use crate::finding::Finding;
use crate::finding::said;
use crate::geom::distance::Figure;
use crate::geom::flatten::{ChordSide, flatten, flatten_track};
use crate::geom::offset::offset_chain_square;
use crate::geom::{
    DRAWING_TOLERANCE, Outline, Point, Region, Segment, Track, Vertex, band, compound, span,
};
use crate::units::{Measure, System, out_of_range};

/// How far an opening may lie from the edge of what it opens before it is a finding, meters:
/// a thick wall (our choice).
pub const OPENING_TOLERANCE: f64 = 0.5;

/// A feature with a checked shape, flattened for distances (`DRAWING_TOLERANCE`).
#[derive(Debug, Clone, PartialEq)]
pub struct CheckedFeature {
    /// Its index in the site's list.
    pub index: usize,
    /// What it is.
    pub kind: FeatureKind,
    /// Its shape.
    pub shape: CheckedShape,
    /// The parts of it that a rule may name.
    pub parts: Vec<CheckedPart>,
}

impl CheckedFeature {
    /// What the plan calls it; `records` are the features as the site has them.
    pub fn label<'a>(&self, records: &'a [Feature]) -> &'a str {
        let record = records.get(self.index);
        record.map_or(self.kind.words(), Feature::label)
    }
}

/// A part of a feature.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckedPart {
    /// What it is.
    pub part: FeaturePart,
    /// What the plan calls it.
    pub name: String,
    /// Where it is.
    pub place: PartPlace,
}

/// Where a part is: a disc of a tree, or the stretch that an opening takes of its wall.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs)]
pub enum PartPlace {
    Disc(Region),
    Opening(Vec<Point>),
}

impl CheckedPart {
    /// The part as distances take it.
    pub fn figure(&self) -> Figure<'_> {
        match &self.place {
            PartPlace::Disc(region) => Figure::Area(region),
            PartPlace::Opening(points) => Figure::Chain(points),
        }
    }
}

/// A checked shape.
#[derive(Debug, Clone, PartialEq)]
pub enum CheckedShape {
    /// An area: its boundaries, each closed, and the same flattened.
    Area(Vec<Vec<Segment>>, Region),
    /// An open path and the same flattened.
    Track(Track, Vec<Point>),
}

impl CheckedShape {
    fn of_outline(outline: &Outline) -> Self {
        let ring = flatten(outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
        Self::Area(vec![outline.segments().collect()], Region::from_ring(ring))
    }

    /// Of a region whose edges are straight.
    fn of_region(region: Region) -> Self {
        let line = |(from, to)| Segment::Line { from, to };
        let rings = region.rings();
        let edges = rings.map(|ring| ring.edges().map(line).collect()).collect();
        Self::Area(edges, region)
    }

    /// The shape as distances take it.
    pub fn figure(&self) -> Figure<'_> {
        match self {
            Self::Area(_, region) => Figure::Area(region),
            Self::Track(_, chain) => Figure::Chain(chain),
        }
    }

    /// The stretches of its boundary or of its course.
    pub fn segments(&self) -> Vec<Segment> {
        match self {
            Self::Area(edges, _) => edges.concat(),
            Self::Track(track, _) => track.segments().collect(),
        }
    }

    /// How long it is, meters: of something with thickness along its middle.
    pub fn length(&self) -> f64 {
        match self {
            Self::Area(_, region) => region.perimeter() / 2.0,
            Self::Track(track, _) => track.segments().map(|it| it.length()).sum(),
        }
    }

    /// Its middle: the centroid of an area.
    fn middle(&self) -> Option<Point> {
        match self {
            Self::Area(_, region) => region.centroid(),
            Self::Track(..) => None,
        }
    }
}

/// Checks every feature; `lot` is there unless it is faulty itself. Openings that lie off their
/// walls or reach over their ends are cautions.
///
/// # Errors
/// Every fault of ids and shapes.
pub(super) fn check_features(
    all: &[Feature],
    lot: Option<&CheckedLot>,
) -> Result<(Vec<CheckedFeature>, Vec<Finding>), Vec<Finding>> {
    let mut features = Vec::new();
    let mut faults = Vec::new();
    let mut cautions = Vec::new();
    for (index, feature) in all.iter().enumerate() {
        let twin = all.iter().take(index).any(|f| f.id == feature.id);
        if twin || feature.id.is_empty() {
            faults.push(
                Finding::fault(
                    "feature-id",
                    format!("The feature id \"{}\" is empty or used twice.", feature.id),
                    "Give every feature an id of its own.",
                )
                .under(&format!("/{index}/id")),
            );
        }
        match check_shape(&feature.shape, lot) {
            Ok(shape) => {
                let mut noticed = Vec::new();
                features.push(CheckedFeature {
                    index,
                    kind: feature.kind,
                    parts: parts_of(feature, &shape, &mut noticed),
                    shape,
                });
                let place = format!("/{index}");
                cautions.extend(noticed.into_iter().map(|f| f.under(&place)));
            }
            Err(found) => {
                let place = format!("/{index}/shape");
                faults.extend(found.into_iter().map(|f| f.under(&place)));
            }
        }
    }
    if faults.is_empty() {
        Ok((features, cautions))
    } else {
        Err(faults)
    }
}

/// Checks one shape; faults are placed inside the shape. A band along a course needs the lot;
/// without one it is no shape and no fault.
///
/// # Errors
/// Every fault of its paths and figures.
pub fn check_shape(
    shape: &ShapeRecord,
    lot: Option<&CheckedLot>,
) -> Result<CheckedShape, Vec<Finding>> {
    let area = |vertices: Vec<Vertex>| Ok(CheckedShape::of_outline(&Outline::check(vertices)?));
    match shape {
        ShapeRecord::Area(path) => area(path.vertices()).map_err(|f| under(f, "/area")),
        ShapeRecord::Track(path) => {
            let track = Track::check(path.vertices()).map_err(|f| under(f, "/track"))?;
            let chain = flatten_track(&track, DRAWING_TOLERANCE);
            Ok(CheckedShape::Track(track, chain))
        }
        ShapeRecord::Strip { path, width } => {
            let mut faults = size_faults(*width, "width", "/strip/width");
            match Track::check(path.vertices()) {
                Ok(track) if faults.is_empty() => {
                    let chain = flatten_track(&track, DRAWING_TOLERANCE);
                    return Ok(CheckedShape::of_region(offset_chain_square(
                        &chain,
                        width / 2.0,
                    )));
                }
                Ok(_) => {}
                Err(found) => faults.extend(under(found, "/strip/path")),
            }
            Err(faults)
        }
        ShapeRecord::Along { course, width } => along(*course, *width, lot),
        ShapeRecord::Compound(pieces) => {
            let pieces: Vec<compound::Rough> = pieces
                .iter()
                .map(|piece| compound::Rough {
                    outer: piece.outer.vertices(),
                    holes: piece.holes.iter().map(|hole| hole.vertices()).collect(),
                })
                .collect();
            let whole = compound::check(&pieces).map_err(|f| under(f, "/compound"))?;
            Ok(CheckedShape::Area(whole.boundaries(), whole.region))
        }
        ShapeRecord::Disc { at, radius } => {
            let faults = size_faults(*radius, "radius", "/disc/radius");
            if !faults.is_empty() {
                return Err(faults);
            }
            area(round(*at, *radius)).map_err(|f| under(f, "/disc"))
        }
    }
}

fn under(found: Vec<Finding>, place: &str) -> Vec<Finding> {
    found.into_iter().map(|f| f.under(place)).collect()
}

/// The fault of a radius or a width out of range.
fn size_faults(value: f64, check: &'static str, place: &str) -> Vec<Finding> {
    let range = 0.01..=1000.0;
    let both = [System::Feet, System::Metres];
    let fault = || {
        let what = format!("The {check}");
        let message = out_of_range(&what, Measure::Length, value, &range, &both);
        let remedy = "Give the distance from the centre to the edge, or across the whole band.";
        Finding::fault(check, message, remedy).under(place)
    };
    (!range.contains(&value)).then(fault).into_iter().collect()
}

/// A circle of two half turns.
fn round(at: Point, radius: f64) -> Vec<Vertex> {
    vec![
        Vertex::arc(at.x - radius, at.y, 1.0),
        Vertex::arc(at.x + radius, at.y, 1.0),
    ]
}

fn along(
    course: usize,
    width: f64,
    lot: Option<&CheckedLot>,
) -> Result<CheckedShape, Vec<Finding>> {
    let mut faults = size_faults(width, "width", "/along/width");
    let Some(lot) = lot.filter(|_| faults.is_empty()) else {
        // Of a lot with faults of its own, those are told.
        return if faults.is_empty() {
            Ok(CheckedShape::of_region(Region::default()))
        } else {
            Err(faults)
        };
    };
    let Some(side) = lot.lot.sides.iter().find(|side| side.course == course) else {
        let message = format!(
            "The band follows side {}, and the lot has {} sides.",
            course + 1,
            lot.lot.sides.len()
        );
        let remedy = "Have it follow a side that is there, or give it an outline of its own.";
        faults.push(Finding::fault("along-course", message, remedy).under("/along/course"));
        return Err(faults);
    };
    let land = band::along_side(&lot.region, &side.segment, width, DRAWING_TOLERANCE);
    Ok(CheckedShape::of_region(land))
}

/// The parts that the facts of a feature tell of.
fn parts_of(
    feature: &Feature,
    shape: &CheckedShape,
    noticed: &mut Vec<Finding>,
) -> Vec<CheckedPart> {
    let whose = |part: FeaturePart| {
        said!(
            "{part} of {thing}",
            part = part.words(),
            thing = feature.named()
        )
    };
    let mut parts = Vec::new();
    if feature.kind == FeatureKind::Tree {
        for (part, radius) in [
            (FeaturePart::TreeTrunk, feature.facts.trunk.map(|d| d / 2.0)),
            (FeaturePart::TreeProtection, feature.facts.protection),
        ] {
            let (Some(at), Some(radius)) = (shape.middle(), radius) else {
                continue;
            };
            if let Ok(outline) = Outline::check(round(at, radius)) {
                let place = PartPlace::Disc(outline.region(DRAWING_TOLERANCE));
                let name = whose(part).into();
                parts.push(CheckedPart { part, name, place });
            }
        }
    }
    let Some(part) = opens(feature.kind) else {
        return parts;
    };
    let opened = part;
    for (i, opening) in feature.facts.openings.iter().enumerate() {
        let part = match opened {
            FeaturePart::Door if opening.window => FeaturePart::Window,
            other => other,
        };
        let Some(found) = span_of(shape, opening.at, opening.width) else {
            continue;
        };
        let mut notice = |check, what: &'static str, remedy: &'static str, at: Point| {
            let message = said!("A {opening} {what}", opening = whose(part), what = what);
            let finding = Finding::caution(check, message, remedy);
            let place = format!("/facts/openings/{i}");
            noticed.push(finding.under(&place).at(at.x, at.y));
        };
        if found.off > OPENING_TOLERANCE {
            notice(
                "opening-off-edge",
                "lies off its edge; it was moved to the nearest place on it.",
                "Place it again, on the wall or the fence that it opens.",
                opening.at,
            );
        }
        if !found.fits {
            notice(
                "opening-too-wide",
                "reaches over the end of what it opens; it was cut short.",
                "Check its width, or place it farther from the end.",
                found.middle,
            );
        }
        let named = Some(&opening.name).filter(|name| !name.is_empty());
        parts.push(CheckedPart {
            part,
            name: named.cloned().unwrap_or_else(|| whose(part).into()),
            place: PartPlace::Opening(found.points),
        });
    }
    parts
}

/// What openings of a kind of feature are.
pub(super) fn opens(kind: FeatureKind) -> Option<FeaturePart> {
    match kind {
        FeatureKind::House | FeatureKind::Outbuilding => Some(FeaturePart::Door),
        FeatureKind::Fence | FeatureKind::Wall => Some(FeaturePart::Gate),
        _ => None,
    }
}

/// The stretch of a shape's edge that an opening takes.
fn span_of(shape: &CheckedShape, at: Point, width: f64) -> Option<span::Span> {
    match shape {
        CheckedShape::Track(_, chain) => span::on_chain(chain, false, at, width),
        CheckedShape::Area(_, region) => region
            .rings()
            .filter_map(|ring| span::on_chain(&ring.0, true, at, width))
            .min_by(|a, b| a.off.total_cmp(&b.off)),
    }
}

#[cfg(test)]
mod tests;
