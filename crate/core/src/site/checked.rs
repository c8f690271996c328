//! The site after the door: every figure checked, every outline simple.
//!
//! Computation takes a [`CheckedSite`] and nothing else, so it never meets a broken figure.
//! Parts that did not change since the last check are shared with it.

use std::sync::Arc;

use super::feature::{FeatureKind, ShapeRecord};
use super::placement::{Placement, ShellChoice};
use super::{Site, limits, numbers};
use crate::finding::{Finding, any_fault};
use crate::geom::distance::Figure;
use crate::geom::flatten::{ChordSide, flatten, flatten_track};
use crate::geom::{
    DRAWING_TOLERANCE, Outline, Point, Region, Ring, Segment, Track, Vector, Vertex,
};
use crate::ground::Ground;
use crate::lot::Lot;
use crate::math::TURN;
use crate::shell::{Shell, catalogue};

/// A feature with a checked shape, flattened for distances (`DRAWING_TOLERANCE`).
#[derive(Debug, Clone, PartialEq)]
pub struct CheckedFeature {
    /// Its index in the site's list.
    pub index: usize,
    /// What it is.
    pub kind: FeatureKind,
    /// Its shape.
    pub shape: CheckedShape,
}

/// A checked shape.
#[derive(Debug, Clone, PartialEq)]
pub enum CheckedShape {
    /// An area: its path and the same flattened.
    Area(Outline, Region),
    /// An open path and the same flattened.
    Track(Track, Vec<Point>),
}

impl CheckedShape {
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
            Self::Area(outline, _) => outline.segments().collect(),
            Self::Track(track, _) => track.segments().collect(),
        }
    }
}

/// The lot with its boundary flattened for distances.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckedLot {
    /// The lot.
    pub lot: Lot,
    /// The area inside it.
    pub region: Region,
    /// Each side as a chain of points, in the order of `lot.sides`.
    pub sides: Vec<Vec<Point>>,
}

/// A site that computation may rely on.
#[derive(Debug, Clone)]
pub struct CheckedSite {
    site: Arc<Site>,
    lot: Part<CheckedLot>,
    features: Part<Vec<CheckedFeature>>,
    ground: Part<Ground>,
    shell: Option<Part<Shell>>,
    findings: Vec<Finding>,
}

/// A checked part and what was noticed about it.
#[derive(Debug, Clone)]
struct Part<T> {
    value: Arc<T>,
    findings: Arc<[Finding]>,
}

type Checked<T> = Result<Part<T>, Vec<Finding>>;

fn part<T>(result: Result<(T, Vec<Finding>), Vec<Finding>>, place: &str) -> Checked<T> {
    let under = |findings: Vec<Finding>| -> Vec<Finding> {
        findings.into_iter().map(|f| f.under(place)).collect()
    };
    match result {
        Ok((value, findings)) => Ok(Part {
            value: Arc::new(value),
            findings: under(findings).into(),
        }),
        Err(findings) => Err(under(findings)),
    }
}

impl CheckedSite {
    /// Checks a site. Parts that are the same `Arc` as in `previous` are not checked again.
    ///
    /// # Errors
    /// Every fault of every part, placed in the site file; of a site that holds too much
    /// (see [`limits`]), those faults alone.
    pub fn check(site: Site, previous: Option<&Self>) -> Result<Self, Vec<Finding>> {
        let too_many = limits::check(&site);
        if any_fault(&too_many) {
            return Err(too_many);
        }
        let same = |pick: fn(&Site, &Site) -> bool| previous.filter(|p| pick(&p.site, &site));
        let lot = match same(|a, b| Arc::ptr_eq(&a.lot, &b.lot)) {
            Some(p) => Ok(p.lot.clone()),
            None => part(check_lot(&site), "/lot"),
        };
        let features = match same(|a, b| Arc::ptr_eq(&a.features, &b.features)) {
            Some(p) => Ok(p.features.clone()),
            None => part(check_features(&site), "/features"),
        };
        let ground = match same(|a, b| Arc::ptr_eq(&a.ground, &b.ground)) {
            Some(p) => Ok(p.ground.clone()),
            None => part(Ground::check(&site.ground), "/ground"),
        };
        let shell = site.placement.as_ref().map(|placement| {
            let kept = previous.and_then(|p| {
                let before = p.site.placement.as_ref()?;
                Arc::ptr_eq(&before.shell, &placement.shell)
                    .then(|| p.shell.clone())
                    .flatten()
            });
            kept.map_or_else(|| part(check_shell(placement), "/placement/shell"), Ok)
        });
        let mut findings = numbers::check(&site);

        let mut faults: Vec<Finding> = findings.iter().filter(|f| f.is_fault()).cloned().collect();
        let lot = keep(lot, &mut findings, &mut faults);
        let features = keep(features, &mut findings, &mut faults);
        let ground = keep(ground, &mut findings, &mut faults);
        let shell = match shell {
            None => Some(None),
            Some(result) => keep(result, &mut findings, &mut faults).map(Some),
        };
        match (lot, features, ground, shell) {
            (Some(lot), Some(features), Some(ground), Some(shell)) if !any_fault(&faults) => {
                Ok(Self {
                    site: Arc::new(site),
                    lot,
                    features,
                    ground,
                    shell,
                    findings,
                })
            }
            _ => Err(faults),
        }
    }

    /// The document itself.
    pub fn site(&self) -> &Arc<Site> {
        &self.site
    }

    /// The lot.
    pub fn lot(&self) -> &Arc<CheckedLot> {
        &self.lot.value
    }

    /// The features.
    pub fn features(&self) -> &Arc<Vec<CheckedFeature>> {
        &self.features.value
    }

    /// The ground.
    pub fn ground(&self) -> &Arc<Ground> {
        &self.ground.value
    }

    /// The shell and its placement, once chosen.
    pub fn placed_shell(&self) -> Option<(&Arc<Shell>, &Placement)> {
        Some((&self.shell.as_ref()?.value, self.site.placement.as_ref()?))
    }

    /// The equipment pad, site frame.
    pub fn equipment(&self) -> Option<Region> {
        let pad = self.site.equipment?;
        let along = Vector::along_bearing(pad.heading) * (pad.length / 2.0);
        let across = Vector::along_bearing(pad.heading - TURN / 4.0) * (pad.width / 2.0);
        let ring = vec![
            pad.at - along - across,
            pad.at + along - across,
            pad.at + along + across,
            pad.at - along + across,
        ];
        Some(Region::from_ring(Ring(ring)))
    }

    /// What was noticed on the way in: cautions and notes, no faults.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }
}

/// Moves a part's findings to where they belong.
fn keep<T>(
    checked: Checked<T>,
    findings: &mut Vec<Finding>,
    faults: &mut Vec<Finding>,
) -> Option<Part<T>> {
    match checked {
        Ok(part) => {
            findings.extend(part.findings.iter().cloned());
            Some(part)
        }
        Err(found) => {
            faults.extend(found);
            None
        }
    }
}

fn check_lot(site: &Site) -> Result<(CheckedLot, Vec<Finding>), Vec<Finding>> {
    let (lot, findings) = Lot::check(&site.lot)?;
    let ring = flatten(&lot.outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
    let sides = lot
        .sides
        .iter()
        .map(|side| {
            let mut chain = vec![side.segment.from()];
            crate::geom::flatten::flatten_segment(&side.segment, DRAWING_TOLERANCE, &mut chain);
            chain
        })
        .collect();
    Ok((
        CheckedLot {
            lot,
            region: Region::from_ring(ring),
            sides,
        },
        findings,
    ))
}

fn check_features(site: &Site) -> Result<(Vec<CheckedFeature>, Vec<Finding>), Vec<Finding>> {
    let mut features = Vec::new();
    let mut faults = Vec::new();
    for (index, feature) in site.features.iter().enumerate() {
        let twin = site.features.iter().take(index).any(|f| f.id == feature.id);
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
        match check_shape(&feature.shape) {
            Ok(shape) => features.push(CheckedFeature {
                index,
                kind: feature.kind,
                shape,
            }),
            Err(found) => {
                faults.extend(
                    found
                        .into_iter()
                        .map(|f| f.under(&format!("/{index}/shape"))),
                );
            }
        }
    }
    if faults.is_empty() {
        Ok((features, Vec::new()))
    } else {
        Err(faults)
    }
}

/// Checks one shape; faults are placed inside the shape.
///
/// # Errors
/// Every fault of its path.
pub fn check_shape(shape: &ShapeRecord) -> Result<CheckedShape, Vec<Finding>> {
    let area = |vertices: Vec<Vertex>| {
        let outline = Outline::check(vertices)?;
        let ring = flatten(&outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
        Ok(CheckedShape::Area(outline, Region::from_ring(ring)))
    };
    let under = |place: &'static str| {
        move |found: Vec<Finding>| -> Vec<Finding> {
            found.into_iter().map(|f| f.under(place)).collect()
        }
    };
    match shape {
        ShapeRecord::Area(path) => area(path.vertices()).map_err(under("/area")),
        ShapeRecord::Track(path) => {
            let track = Track::check(path.vertices()).map_err(under("/track"))?;
            let chain = flatten_track(&track, DRAWING_TOLERANCE);
            Ok(CheckedShape::Track(track, chain))
        }
        // Their geometry follows with the features that need it.
        ShapeRecord::Strip { .. } | ShapeRecord::Along { .. } | ShapeRecord::Compound(_) => {
            Err(vec![Finding::fault(
                "shape-kind",
                "This build does not draw bands and compound shapes yet.",
                "Give an area, a track or a disc.",
            )])
        }
        ShapeRecord::Disc { at, radius } => {
            if !(radius.is_finite() && (0.01..=1000.0).contains(radius)) {
                return Err(vec![
                    Finding::fault(
                        "radius",
                        "The radius of a disc must lie between 0.01 m and 1,000 m.",
                        "Give the distance from the centre to the edge.",
                    )
                    .under("/disc/radius"),
                ]);
            }
            // Two half circles.
            area(vec![
                Vertex::arc(at.x - radius, at.y, 1.0),
                Vertex::arc(at.x + radius, at.y, 1.0),
            ])
            .map_err(under("/disc"))
        }
    }
}

fn check_shell(placement: &Placement) -> Result<(Shell, Vec<Finding>), Vec<Finding>> {
    match placement.shell.as_ref() {
        ShellChoice::Own(record) => Shell::check(record)
            .map_err(|found| found.into_iter().map(|f| f.under("/own")).collect()),
        ShellChoice::Catalogue(name) => match catalogue::find(name) {
            Some(record) => Shell::check(record),
            None => Err(vec![
                Finding::fault(
                    "unknown-shell",
                    format!("There is no shell named \"{name}\" in the catalogue."),
                    "Choose one from the catalogue, or give the shell in full as \"own\".",
                )
                .under("/catalogue"),
            ]),
        },
    }
}
