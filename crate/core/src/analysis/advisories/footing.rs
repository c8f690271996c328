//! A screen for digging below a footing.
//!
//! 29 CFR 1926.651(i) forbids digging below the base of a footing that could be undermined,
//! without support or a registered engineer's word; it gives no distance. The screen is plain
//! geometry: from every edge of the bottom two planes rise, one at 1:1 (a rule of thumb, common
//! practice) and one at 1 1/2 : 1, the slope that 1926.652(b)(1) asks of unclassified soil. A
//! footing that stands above such a plane is in reach.

use super::super::cache::ShellCache;
use super::super::data::InfluenceLine;
use crate::dig::Dig;
use crate::finding::said;
use crate::finding::{Finding, Scope, Topic};
use crate::geom::distance::{Figure, Measurable, Nearest};
use crate::geom::{Point, Region, Ring};
use crate::site::{CheckedFeature, CheckedSite, Feature, Placement};
use crate::units::{Measure, show};

/// The two lines: run per unit of rise and their words, the steeper first.
pub const LINES: [(f64, &str); 2] = [(1.0, "1:1"), (1.5, "1 1/2 : 1")];

/// The flatter of them.
const FLATTEST: f64 = LINES[1].0;

/// A footing this near is at the toe itself, meters.
const TOUCH: f64 = 1e-6;

/// Every structure whose footing the hole reaches under, and both lines for each structure that they
/// could reach at all. A footing of unknown depth is taken to lie at the ground.
pub(super) fn screen(
    site: &CheckedSite,
    placement: &Placement,
    cut: &Dig,
    kept: &mut ShellCache,
) -> (Vec<Finding>, Vec<InfluenceLine>) {
    let pose = placement.pose();
    let toe = kept.toe().posed(&pose);
    let toe = Measurable::of(Figure::Area(&toe));
    let (mut found, mut drawn) = (Vec::new(), Vec::new());
    for feature in site.features().iter().filter(|f| f.kind.has_footing()) {
        let Some(record) = site.site().features.get(feature.index) else {
            continue;
        };
        let Some(ground) = highest_ground(site, feature) else {
            continue;
        };
        let base = ground - record.facts.footing_depth.unwrap_or(0.0);
        let figure = Measurable::of(feature.shape.figure());
        // No plane is above the footing farther from the toe than the flattest is that rises from the
        // deepest bottom.
        if toe.boxes_apart(&figure) > FLATTEST * (base - cut.bottom_elevation).max(0.0) {
            continue;
        }
        let below_rim = placement.coping_elevation - base;
        let lines = LINES.map(|(slope, _)| InfluenceLine {
            feature: feature.index,
            slope,
            region: kept.undermined(below_rim, slope).posed(&pose),
        });
        let first = lines.iter().zip(LINES).find_map(|(line, (_, words))| {
            let line = Measurable::of(Figure::Area(&line.region));
            if line.boxes_apart(&figure) > 0.0 {
                return None;
            }
            let pair = line.nearest(&figure)?;
            (pair.distance <= 0.0).then_some((words, pair.to))
        });
        if let Some((words, at)) = first
            && let Some(from_toe) = toe.nearest(&figure)
        {
            let needed = lines.each_ref().map(|line| {
                let deepest = line.slope * (base - cut.bottom_elevation).max(0.0);
                needed(&from_toe, &line.region).unwrap_or(deepest)
            });
            found.push(told(
                site,
                record,
                feature.index,
                (words, at),
                &from_toe,
                needed,
            ));
        }
        drawn.extend(lines);
    }
    (found, drawn)
}

/// How far from the toe a line ends, measured straight through the place where the footing comes
/// nearest, meters; none where the footing stands at the toe itself.
fn needed(from_toe: &Nearest, line: &Region) -> Option<f64> {
    let way = from_toe.to - from_toe.from;
    let along = way.unit().filter(|_| from_toe.distance > TOUCH)?;
    let mut farthest: Option<f64> = None;
    for (a, b) in line.rings().flat_map(Ring::edges) {
        let (a, b) = (a - from_toe.from, b - from_toe.from);
        let (off_a, off_b) = (along.cross(a), along.cross(b));
        if (off_a > 0.0) == (off_b > 0.0) {
            continue;
        }
        let share = off_a / (off_a - off_b);
        let ahead = along.dot(a) + share * (along.dot(b) - along.dot(a));
        farthest = Some(farthest.map_or(ahead, |f| f.max(ahead)));
    }
    farthest.filter(|ahead| *ahead > 0.0)
}

fn told(
    site: &CheckedSite,
    record: &Feature,
    index: usize,
    (words, at): (&'static str, Point),
    from_toe: &Nearest,
    [by_one, by_flat]: [f64; 2],
) -> Finding {
    let length = |value: f64| show(Measure::Length, value, site.site().display).text;
    let assumed = match record.facts.footing_depth {
        Some(_) => "",
        None => " Its depth is not entered: it is assumed to stand at existing grade.",
    };
    let message = said!(
        "The dig may undermine the footing of {thing}: it lies above the line that rises {slope} from \
         the toe of the dig, {distance} from the toe, where {steeper} is needed at 1:1 and {flatter} at \
         1 1/2 : 1.{assumed}",
        thing = record.named(),
        slope = words.to_owned(),
        distance = length(from_toe.distance.max(0.0)),
        steeper = length(by_one),
        flatter = length(by_flat),
        assumed = assumed,
    );
    let remedy = "Find out how deep the footing goes, and move the shell or have a licensed engineer \
                  design its support (29 CFR 1926.651(i), which gives no distance: both lines are \
                  a screen, not proof, and ground beyond them can still move).";
    Finding::caution("dig-near-footing", message, remedy)
        .about(Topic::Verdict)
        .scoped(Scope::Placement)
        .under(&format!("/features/{index}"))
        .at(at.x, at.y)
}

/// The highest ground at a corner of a feature: where its footing stands highest.
fn highest_ground(site: &CheckedSite, feature: &CheckedFeature) -> Option<f64> {
    let corners: Vec<Point> = match feature.shape.figure() {
        Figure::Area(region) => region
            .rings()
            .flat_map(|Ring(points)| points)
            .copied()
            .collect(),
        Figure::Chain(points) => points.to_vec(),
    };
    let heights = corners.iter().map(|p| site.ground().height(*p).elevation);
    heights.reduce(f64::max)
}
