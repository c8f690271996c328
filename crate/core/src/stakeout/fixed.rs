//! What tapes can be held to: corners, monuments, marks, each by its name.

use serde::Serialize;

use crate::finding::Message;
use crate::finding::said;
use crate::geom::Point;
use crate::ground::quick;
use crate::lot::MonumentState;
use crate::site::{CheckedSite, Feature, FeatureKind, FixedPoint, ShapeRecord, stakeout};
use crate::units::nearest_eighth;

/// A fixed point with its name and place.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct FixedCandidate {
    /// The point.
    pub point: FixedPoint,
    /// What it is called.
    #[cfg_attr(feature = "typescript", tsify(type = "string"))]
    pub name: Message,
    /// Where it is, site meters.
    pub at: Point,
    /// Whether there is something that a tape can be hooked to and that stays: a building, a
    /// monument that was found, a mark.
    pub firm: bool,
}

/// Every fixed point that the site knows: what stands there, the lot's corners, the benchmark.
pub fn candidates(site: &CheckedSite) -> Vec<FixedCandidate> {
    let document = site.site();
    let mut all = Vec::new();
    for feature in document.features.iter().filter(|f| holds(f)) {
        for corner in 0..stakeout::corners(feature).len() {
            let feature = feature.id.clone();
            all.extend(named(site, &FixedPoint::Corner { feature, corner }));
        }
    }
    for course in 0..document.lot.courses.len() {
        all.extend(named(site, &FixedPoint::Lot(course)));
    }
    all.extend(named(site, &FixedPoint::Benchmark));
    if let Some(pair) = document.stakeout.as_ref().and_then(|it| it.fixed.as_ref()) {
        let marked = [&pair.a, &pair.b].into_iter();
        let marked = marked.filter(|it| matches!(it, FixedPoint::Marked { .. }));
        all.extend(marked.filter_map(|it| named(site, it)));
    }
    all
}

/// Whether a tape can be held to the corners of such a thing.
fn holds(feature: &Feature) -> bool {
    use FeatureKind as K;
    let fence_or_slab = matches!(feature.kind, K::Fence | K::Walk | K::Driveway);
    fence_or_slab || is_firm(feature.kind)
}

/// Whether such a thing stays where it is when a machine passes.
fn is_firm(kind: FeatureKind) -> bool {
    use FeatureKind as K;
    matches!(kind, K::House | K::Outbuilding | K::Wall | K::Well)
}

/// A fixed point with its name and place; none where the site does not have it.
pub fn named(site: &CheckedSite, point: &FixedPoint) -> Option<FixedCandidate> {
    let document = site.site();
    let (name, at, firm) = match point {
        FixedPoint::Corner { feature, corner } => {
            let feature = document.features.iter().find(|f| f.id == *feature)?;
            let corners = stakeout::corners(feature);
            let at = *corners.get(*corner)?;
            let name = corner_name(feature, &corners, *corner, at);
            (name, at, is_firm(feature.kind))
        }
        FixedPoint::Lot(course) => {
            let corners = quick::corners(&site.lot().lot, &document.ground);
            let at = corners.iter().find(|it| it.course == *course)?.at;
            let monument = document.lot.courses.get(*course)?.monument.as_ref();
            let is_seen = |state| matches!(state, MonumentState::Found | MonumentState::Set);
            let number = (course + 1).to_string();
            let name = match monument {
                Some(it) => said!(
                    "lot corner {number}, {kind} {state}",
                    number = number,
                    kind = it.kind.words(),
                    state = it.state.words(),
                ),
                None => said!("lot corner {number}", number = number),
            };
            (name, at, monument.is_some_and(|it| is_seen(it.state)))
        }
        FixedPoint::Benchmark => {
            let mark = document.benchmark.as_ref()?;
            (mark.named(), mark.at?, true)
        }
        FixedPoint::Marked { name, at } => {
            let name = match name.trim() {
                "" => "marked point".into(),
                name => Message::kept(name),
            };
            (name, *at, true)
        }
    };
    Some(FixedCandidate {
        point: point.clone(),
        name,
        at,
        firm,
    })
}

/// "house corner 2 (southeast)": its number, and where it lies from the middle of the others.
fn corner_name(feature: &Feature, corners: &[Point], corner: usize, at: Point) -> Message {
    let thing = feature.named();
    let what = match &feature.shape {
        ShapeRecord::Disc { .. } => return said!("{thing}, middle", thing = thing),
        ShapeRecord::Track(_) => "point",
        _ => "corner",
    };
    let middle = Point::mean(corners.iter().copied()).unwrap_or(at);
    let toward = nearest_eighth((at - middle).bearing());
    said!(
        "{thing} {what} {number} ({toward})",
        thing = thing,
        what = what,
        number = (corner + 1).to_string(),
        toward = toward,
    )
}
