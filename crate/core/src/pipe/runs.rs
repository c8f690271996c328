//! Every run in plan and in height.

use super::around::Around;
use super::route::Route;
use super::{PipePlan, bends, friction};
use crate::geom::clip::{inside, length};
use crate::geom::{Point, Pose};
use crate::shell::Shell;
use crate::site::{CheckedSite, FittingKind, Placement};

/// A rise smaller than this takes no bends, meters: 4 in.
const LEVEL: f64 = 0.1;

/// Two drains nearer than this are one told twice, meters.
const SAME_DRAIN: f64 = 0.1;

/// The run of one fitting, site frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// What the plan calls it: `R1`, `S1`, `D1`.
    pub label: String,
    /// What the fitting does.
    pub kind: FittingKind,
    /// Index of the fitting among the settings; none for the shell's own drain.
    pub fitting: Option<usize>,
    /// Its way in plan, from the fitting to the pad.
    pub path: Vec<Point>,
    /// Where it is strapped, beside the wall.
    pub straps: Vec<Point>,
    /// Length beside the wall, from the fitting to where it turns away, meters.
    pub around: f64,
    /// Length under the floor, meters.
    pub under_floor: f64,
    /// Length through the backfill, from there to the edge of the hole, meters.
    pub in_fill: f64,
    /// Length in the trench, meters.
    pub in_trench: f64,
    /// Height it climbs or falls, at the edge of the hole and at the pad, meters.
    pub risers: f64,
    /// Bends; wider turns are swept.
    pub bends: u32,
    /// Head lost at the flow of the settings, bends counted by the pipe they equal, meters.
    pub loss: f64,
    /// Speed of the water at that flow, meters per second.
    pub speed: f64,
}

impl Run {
    /// Length of pipe, meters.
    pub fn length(&self) -> f64 {
        self.around + self.under_floor + self.in_fill + self.in_trench + self.risers
    }

    /// Length of pipe that lies in the hole, meters.
    pub fn in_hole(&self) -> f64 {
        self.around + self.in_fill
    }
}

/// A fitting and where it is, shell frame.
struct Outlet {
    kind: FittingKind,
    index: Option<usize>,
    at: Point,
    depth: f64,
}

/// Lays every run; without a pad there is none.
pub(super) fn lay(
    site: &CheckedSite,
    shell: &Shell,
    placement: &Placement,
    around: &Around,
    route: &Route,
    plan: &mut PipePlan,
) {
    let Some(exit) = route.exit else { return };
    let settings = &site.site().works.pipe;
    let pose = placement.pose();
    let below_ground = depth_of_pipe(site);
    let ground = site.ground().height(route.leaves).elevation;
    // How deep the pipe of the trench lies below the rim, where it leaves the hole.
    let trench_below_rim = placement.coping_elevation - ground + below_ground;
    let mut numbers = [0; 3];
    for outlet in outlets(site, shell, around) {
        let wall = wall_way(&outlet, around, exit);
        let (straight, wall) = match outlet.kind {
            FittingKind::Drain => wall,
            FittingKind::Return | FittingKind::Skimmer => (Vec::new(), wall.1),
        };
        let place = |way: &[Point]| -> Vec<Point> {
            way.iter()
                .map(|p| Pose::site_from_shell(&pose, *p))
                .collect()
        };
        let beside = place(&wall);
        let mut path = place(&straight);
        path.extend(&beside);
        path.extend(&route.way);
        path.dedup_by(|a, b| a.distance(*b) < 1e-6);
        let climb = (outlet.depth - trench_below_rim).abs();
        let risers = climb + below_ground;
        let upright = 2 * u32::from(climb > LEVEL) + u32::from(below_ground > LEVEL);
        let whole = length(&route.way);
        let (letter, number) = match outlet.kind {
            FittingKind::Return => ('R', 0),
            FittingKind::Skimmer => ('S', 1),
            FittingKind::Drain => ('D', 2),
        };
        let count = numbers.get_mut(number).map_or(0, |n| {
            *n += 1;
            *n
        });
        let mut run = Run {
            label: format!("{letter}{count}"),
            kind: outlet.kind,
            fitting: outlet.index,
            straps: bends::evenly(&beside, settings.strap_spacing),
            around: length(&beside),
            under_floor: length(&straight),
            in_fill: whole - route.in_trench,
            in_trench: route.in_trench,
            risers,
            bends: bends::count(&path) + upright,
            path,
            loss: 0.0,
            speed: friction::speed(settings.flow, settings.size.inside()),
        };
        let equal = run.length() + f64::from(run.bends) * settings.bend;
        run.loss = friction::head_loss(
            equal,
            settings.flow,
            settings.coefficient,
            settings.size.inside(),
        );
        plan.runs.push(run);
    }
    plan.shared = plan.runs.len();
    plan.shared_length = route.in_trench;
}

/// Depth of the pipe's middle below the ground, meters: stone under it, in the trench.
fn depth_of_pipe(site: &CheckedSite) -> f64 {
    let settings = &site.site().works.pipe;
    let above_bottom = settings.encasement + settings.size.outside() / 2.0;
    (settings.trench_depth - above_bottom).max(0.0)
}

/// The fittings of the settings and the drain that the shell has, returns first, then skimmers.
fn outlets(site: &CheckedSite, shell: &Shell, around: &Around) -> Vec<Outlet> {
    let fittings = &site.site().works.pipe.fittings;
    let mut all: Vec<Outlet> = Vec::new();
    for kind in [
        FittingKind::Return,
        FittingKind::Skimmer,
        FittingKind::Drain,
    ] {
        let of_kind = fittings.iter().enumerate().filter(|(_, f)| f.kind == kind);
        all.extend(of_kind.map(|(index, fitting)| {
            let drain = kind == FittingKind::Drain;
            let on_wall = || around.water.nearest(fitting.at).map(|(_, at)| at);
            Outlet {
                kind,
                index: Some(index),
                at: if drain { None } else { on_wall() }.unwrap_or(fitting.at),
                depth: if drain {
                    underside(shell, fitting.at)
                } else {
                    fitting.depth
                },
            }
        }));
    }
    if let Some(at) = shell.record.drain {
        let told = |o: &Outlet| o.kind == FittingKind::Drain && o.at.distance(at) < SAME_DRAIN;
        if !all.iter().any(told) {
            all.push(Outlet {
                kind: FittingKind::Drain,
                index: None,
                at,
                depth: underside(shell, at),
            });
        }
    }
    all
}

/// Depth of the floor's underside below the rim at a point, meters; off the floor that of its
/// deepest place.
pub(super) fn underside(shell: &Shell, at: Point) -> f64 {
    let facet = shell.facets.iter().find(|facet| facet.region.contains(at));
    let depth = facet.map_or_else(|| shell.deepest(), |facet| facet.plane.depth(at));
    depth + shell.record.wall_thickness
}

/// The way under the floor, and from the wall to the exit, shell frame.
fn wall_way(outlet: &Outlet, around: &Around, exit: f64) -> (Vec<Point>, Vec<Point>) {
    let Some(leave) = around.way.at(exit) else {
        return (Vec::new(), Vec::new());
    };
    if outlet.kind == FittingKind::Drain {
        // Straight to the exit where nothing but floor lies between.
        let straight = [outlet.at, leave];
        let under: f64 = inside(&straight, &around.within)
            .iter()
            .map(|p| length(p))
            .sum();
        if under >= length(&straight) - 0.01 {
            return (straight.to_vec(), Vec::new());
        }
    }
    let Some((station, foot)) = around.way.nearest(outlet.at) else {
        return (Vec::new(), Vec::new());
    };
    let mut beside = around.way.between(station, exit);
    if outlet.kind == FittingKind::Drain {
        return (vec![outlet.at, foot], beside);
    }
    beside.insert(0, outlet.at);
    beside.dedup_by(|a, b| a.distance(*b) < 1e-6);
    (Vec::new(), beside)
}
