//! The crane: how far it reaches, what the shell passes over, how near it comes to wires, and what an
//! outrigger puts on the ground.
//!
//! | part | what it knows |
//! |---|---|
//! | `wire` | approach distances by voltage, and distances from a wire in three dimensions |
//! | `cautions` | what is said of it |
//!
//! # What is modeled
//! The shell hangs level under the boom's tip, its rim so far below it, and is taken from the truck
//! to its place along a straight line, turned any way: it sweeps a band as wide as a circle about its
//! middle, and the swing. The boom is a straight line from the middle of the crane, at the ground,
//! to its tip; its own bulk, its bend and the crane's tail are not. Ground is taken as level. What
//! the crane may lift is in its own chart and nowhere else: here stand the radius and the weight to be
//! read off there.

mod cautions;
#[cfg(test)]
mod tests;
pub mod wire;

use crate::clearance::WorkFigures;
use crate::finding::Finding;
use crate::geom::distance::{self, Figure};
use crate::geom::{DRAWING_TOLERANCE, Point, Region, Vector, offset};
use crate::math::{TURN, greater};
use crate::shell::Shell;
use crate::site::{CheckedSite, CraneSettings, CraneSpot, FeatureKind};
use crate::units::constants::GRAVITY;
use wire::Approach;

/// Everything about the lift.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CranePlan {
    /// Where the crane stands, once somebody placed it and a shell is chosen.
    pub stand: Option<Stand>,
    /// The way of the load, once the delivery is placed as well.
    pub swing: Option<Swing>,
    /// What hangs on the hook.
    pub load: Option<Load>,
    /// What an outrigger puts on the ground.
    pub bearing: Option<Bearing>,
    /// What the shell passes over, or comes near to.
    pub passed: Vec<Passed>,
    /// Every overhead line, the least room first.
    pub wires: Vec<Approach>,
    /// What is worth knowing.
    pub findings: Vec<Finding>,
}

/// Where the crane stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// Its middle, site meters.
    pub at: Point,
    /// Its outriggers, site meters, in order round it.
    pub outriggers: [Point; 4],
    /// The pads under them, site frame.
    pub pads: [Region; 4],
    /// From its middle to the middle of the shell in its place, meters.
    pub radius_to_place: f64,
    /// From its middle to the middle of the shell on the truck, meters, where that is placed.
    pub radius_to_truck: Option<f64>,
    /// From the nearest outrigger to the edge of the dig, meters; negative over it.
    pub to_dig: Option<f64>,
}

impl Stand {
    /// The greatest radius of the lift, meters: a straight way is farthest at one of its ends.
    pub fn greatest_radius(&self) -> f64 {
        greater(self.radius_to_place, self.radius_to_truck.unwrap_or(0.0))
    }
}

/// The way of the load.
#[derive(Debug, Clone, PartialEq)]
pub struct Swing {
    /// From the truck to the place, site meters.
    pub line: [Point; 2],
    /// How far the shell reaches from its middle, with the swing, meters.
    pub reach: f64,
    /// The band that it sweeps, site frame.
    pub band: Region,
    /// Height of its underside above the ground, meters.
    pub underside: f64,
    /// Height of its rim above the ground, meters.
    pub rim: f64,
    /// Height of the boom's tip above the ground, meters.
    pub tip: f64,
}

/// What hangs on the hook.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// The shell, kilograms; none where neither the shell nor the settings tell it.
    pub shell: Option<f64>,
    /// Whether the settings tell it, in place of the shell.
    pub from_settings: bool,
    /// Slings, spreader and hook block, kilograms.
    pub rigging: f64,
}

impl Load {
    /// All of it, kilograms.
    pub fn total(&self) -> Option<f64> {
        Some(self.shell? + self.rigging)
    }
}

/// What an outrigger puts on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// Crane and load, kilograms.
    pub total: f64,
    /// The share of it on one outrigger.
    pub share: f64,
    /// Area of the pad, m2.
    pub area: f64,
    /// Pressure on the ground, pascals: total, share and standard gravity over the area.
    pub pressure: f64,
}

/// Something that the shell passes over or comes near to.
#[derive(Debug, Clone, PartialEq)]
pub struct Passed {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// What it is.
    pub kind: FeatureKind,
    /// What the plan calls it.
    pub name: String,
    /// Its height, meters, where it was entered.
    pub height: Option<f64>,
    /// Room between it and the shell's underside, meters; negative where it stands in the way.
    pub room: Option<f64>,
    /// A place of it in the band, site meters.
    pub at: Point,
}

/// The lift of a site with its work.
pub fn plan(site: &CheckedSite, work: &WorkFigures) -> CranePlan {
    let settings = site.site().works.crane;
    let lift = site.site().lift.unwrap_or_default();
    let mut plan = CranePlan::default();
    if let (Some((shell, placement)), Some(spot)) = (site.placed_shell(), lift.crane) {
        let load = load(shell, &settings);
        plan.bearing = bearing(&load, &settings);
        plan.load = Some(load);
        plan.stand = Some(stand(
            &spot,
            &settings,
            placement.at,
            lift.delivery,
            &work.dig,
        ));
        if let Some(truck) = lift.delivery {
            let swing = swing(shell, &settings, truck, placement.at);
            plan.passed = passed(site, &swing);
            plan.wires = wire::all(site, spot.at, &swing);
            plan.swing = Some(swing);
        }
    }
    plan.findings = cautions::all(site, &lift, &plan);
    plan
}

/// Where the crane stands.
fn stand(
    spot: &CraneSpot,
    settings: &CraneSettings,
    place: Point,
    truck: Option<Point>,
    dig: &Region,
) -> Stand {
    let along = Vector::along_bearing(spot.heading);
    let across = Vector::along_bearing(spot.heading + TURN / 4.0);
    let square = |middle: Point, length: f64, width: f64| {
        let (a, b) = (along * (length / 2.0), across * (width / 2.0));
        [
            middle - a - b,
            middle - a + b,
            middle + a + b,
            middle + a - b,
        ]
    };
    let outriggers = square(spot.at, settings.outrigger_length, settings.outrigger_width);
    let pads = outriggers.map(|it| {
        let mut ring = square(it, settings.pad, settings.pad).to_vec();
        ring.reverse();
        Region::from_ring(crate::geom::Ring(ring))
    });
    let to_dig = pads.iter().filter_map(|pad| {
        let near = distance::nearest(Figure::Area(pad), Figure::Area(dig))?;
        Some(near.distance)
    });
    Stand {
        at: spot.at,
        radius_to_place: spot.at.distance(place),
        radius_to_truck: truck.map(|it| spot.at.distance(it)),
        to_dig: to_dig.reduce(f64::min),
        outriggers,
        pads,
    }
}

/// What hangs on the hook.
fn load(shell: &Shell, settings: &CraneSettings) -> Load {
    let own = shell.record.weight;
    Load {
        shell: own.or(settings.shell_weight),
        from_settings: own.is_none() && settings.shell_weight.is_some(),
        rigging: settings.rigging,
    }
}

/// What an outrigger puts on the ground.
fn bearing(load: &Load, settings: &CraneSettings) -> Option<Bearing> {
    let total = load.total()? + settings.weight;
    let area = settings.pad * settings.pad;
    Some(Bearing {
        total,
        share: settings.share,
        area,
        pressure: total * settings.share * GRAVITY / area,
    })
}

/// The way of the load.
fn swing(shell: &Shell, settings: &CraneSettings, truck: Point, place: Point) -> Swing {
    let rim = shell.rim.rings().flat_map(|it| it.0.iter());
    let reach = rim.map(|p| p.distance(Point::default())).fold(0.0, greater) + settings.swing;
    let depth = shell.deepest() + shell.record.wall_thickness;
    // A crane over its truck's own place still sweeps a circle.
    let line = [truck, place];
    let chain: &[Point] = if truck == place { &line[..1] } else { &line };
    Swing {
        line,
        reach,
        band: offset::offset_chain(chain, reach, DRAWING_TOLERANCE),
        underside: settings.lift_height,
        rim: settings.lift_height + depth,
        tip: settings.lift_height + depth + settings.tip_above,
    }
}

/// What the shell passes over.
fn passed(site: &CheckedSite, swing: &Swing) -> Vec<Passed> {
    use FeatureKind as K;
    let features = site.features().iter();
    features
        .filter(|it| {
            matches!(
                it.kind,
                K::House | K::Outbuilding | K::Wall | K::Fence | K::Tree | K::Equipment | K::Other
            )
        })
        .filter_map(|feature| {
            let near = distance::nearest(Figure::Chain(&swing.line), feature.shape.figure())?;
            let record = site.site().features.get(feature.index)?;
            let height = record.facts.height;
            (near.distance <= swing.reach).then(|| Passed {
                feature: feature.index,
                kind: feature.kind,
                name: record.label().to_owned(),
                height,
                room: height.map(|it| swing.underside - it),
                at: near.to,
            })
        })
        .collect()
}
