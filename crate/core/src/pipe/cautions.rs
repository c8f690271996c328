//! What is told beside the runs.

use super::around::Around;
use super::friction::{FASTEST_RETURN, FASTEST_SUCTION};
use super::route::Route;
use super::runs::underside;
use super::{PipePlan, Run};
use crate::finding::said;
use crate::finding::{Finding, Topic};
use crate::shell::Shell;
use crate::site::{CheckedSite, FittingKind, Placement};
use crate::units::{Measure, show};

/// A drawn trench this far from shell or pad is joined by a guess, meters: 10 ft.
const APART: f64 = 3.0;

/// How far inside the water's edge the floor beside a wall fitting is looked at, meters.
const INSIDE: f64 = 0.02;

const PLACE: &str = "/works/pipe";

pub(super) fn tell(
    site: &CheckedSite,
    shell: &Shell,
    placement: &Placement,
    around: &Around,
    route: &Route,
    plan: &mut PipePlan,
) {
    let settings = &site.site().works.pipe;
    let mut told = Vec::new();
    let drain = shell.record.drain.is_some();
    if settings.fittings.is_empty() && !drain {
        told.push(Finding::note(
            "no-fittings",
            "No fitting of the shell is named: pipe between shell and equipment is not counted.",
            "Add returns, skimmer and drain in the Dig step.",
        ));
    } else if route.exit.is_none() {
        told.push(Finding::note(
            "no-pad",
            "No equipment pad is placed: pipe between shell and equipment is not counted.",
            "Place the pad in the Shell step.",
        ));
    } else {
        told.extend(sides(site, drain));
        told.extend(fast(site, &plan.runs));
        told.extend(bridged(site, route));
    }
    told.extend(too_deep(site, shell, placement, around));
    plan.findings = told
        .into_iter()
        .map(|f| f.about(Topic::Pipe).under(PLACE))
        .collect();
}

/// Which side of the pump has no fitting, or one alone.
fn sides(site: &CheckedSite, own_drain: bool) -> Vec<Finding> {
    let fittings = &site.site().works.pipe.fittings;
    let count = |kind| fittings.iter().filter(|f| f.kind == kind).count();
    let drains = count(FittingKind::Drain).max(usize::from(own_drain));
    let skimmers = count(FittingKind::Skimmer);
    let mut told = Vec::new();
    if drains == 1 && skimmers == 0 {
        told.push(
            Finding::caution(
                "lone-drain",
                "One drain is the only suction: whoever covers it can be held under water.",
                "Common practice is two suctions or more, so far apart that no one covers both, each \
                 with a cover made and listed for it. The local code and a licensed trade decide.",
            )
            .under("/fittings"),
        );
    }
    if drains + skimmers == 0 {
        told.push(
            Finding::note(
                "no-suction",
                "No skimmer and no drain is named: the pipe to the pump is not counted.",
                "Add the skimmer in the Dig step.",
            )
            .under("/fittings"),
        );
    }
    if count(FittingKind::Return) == 0 {
        told.push(
            Finding::note(
                "no-return",
                "No return is named: the pipe back to the shell is not counted.",
                "Add the returns in the Dig step.",
            )
            .under("/fittings"),
        );
    }
    told
}

/// Water that runs too fast, on each side of the pump.
fn fast(site: &CheckedSite, runs: &[Run]) -> Vec<Finding> {
    let system = site.site().display;
    let limits = [
        ("fast-suction", "suction", FASTEST_SUCTION),
        ("fast-return", "return", FASTEST_RETURN),
    ];
    let mut told = Vec::new();
    for (check, words, most) in limits {
        let of_side = |run: &&Run| (run.kind == FittingKind::Return) == (check == "fast-return");
        let speed = runs.iter().find(of_side).map_or(0.0, |run| run.speed);
        if speed > most {
            let shown = |speed| show(Measure::Speed, speed, system).text;
            let message = said!(
                "With all of the flow in one {side} run the water runs at {speed}, faster than {most} \
                 (common practice, no source).",
                side = words,
                speed = shown(speed),
                most = shown(most),
            );
            let remedy = "Choose larger pipe or less flow, or share the flow between runs. Fast \
                          suction also holds harder.";
            told.push(Finding::caution(check, message, remedy).under("/flow"));
        }
    }
    told
}

/// A drawn trench that stops short of shell or pad.
fn bridged(site: &CheckedSite, route: &Route) -> Option<Finding> {
    if route.drawn.is_none() || route.bridged <= APART {
        return None;
    }
    let message = said!(
        "The drawn trench ends {length} from the shell's pipe or from the pad; it was run on straight.",
        length = show(Measure::Length, route.bridged, site.site().display).text,
    );
    Some(Finding::note(
        "trench-apart",
        message,
        "Draw the trench from beside the shell to the pad.",
    ))
}

/// Wall fittings below the floor beside them.
fn too_deep(
    site: &CheckedSite,
    shell: &Shell,
    placement: &Placement,
    around: &Around,
) -> Vec<Finding> {
    let pose = placement.pose();
    let middle = shell.footprint.centroid().unwrap_or_default();
    let fittings = site.site().works.pipe.fittings.iter().enumerate();
    let mut told = Vec::new();
    for (index, fitting) in fittings {
        if fitting.kind == FittingKind::Drain {
            continue;
        }
        let Some((_, at)) = around.water.nearest(fitting.at) else {
            continue;
        };
        let inward = (middle - at).unit().unwrap_or_default() * INSIDE;
        let floor = underside(shell, at + inward) - shell.record.wall_thickness;
        if fitting.depth > floor {
            let shown = |depth| show(Measure::Length, depth, site.site().display).text;
            let message = said!(
                "Fitting {number} lies {depth} below the rim, the floor beside it {floor}.",
                number = (index + 1).to_string(),
                depth = shown(fitting.depth),
                floor = shown(floor),
            );
            let at = pose.site_from_shell(at);
            told.push(
                Finding::caution("fitting-below-floor", message, "Give a lesser depth.")
                    .under(&format!("/fittings/{index}/depth"))
                    .at(at.x, at.y),
            );
        }
    }
    told
}
