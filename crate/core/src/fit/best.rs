//! A place worked out in full.

use serde::Serialize;

use super::candidates::{Candidate, doors};
use super::wish::{FitAim, name_of};
use crate::analysis::{self, Cache, Detail, Scenario};
use crate::clear_ground::{Bounds, EDGE_SLACK, Ruler};
use crate::clearance;
use crate::finding::{Finding, Topic};
use crate::geom::Point;
use crate::geom::distance::{Figure, nearest};
use crate::grading;
use crate::site::{CheckedSite, Placement};
use crate::sun::{SunDay, sun_on_water};

/// One place of one shell, the shell being on the lot by every rule.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct ShellFit {
    /// Shell, place and heading, as a site file has them.
    #[serde(flatten)]
    pub placement: Placement,
    /// What the shell is called.
    pub name: String,
    /// The least room of every clearance that goes with the shell, meters.
    pub room: f64,
    /// What is nearest: the rule, and what it measures to.
    pub tightest: String,
    /// From the water's edge to the nearest door (to the house where no door is told), meters.
    pub to_door: Option<f64>,
    /// Area of the water, m2.
    pub water: f64,
    /// Volume of the hole in the bank, m3.
    pub bank_cut: f64,
    /// Earth left over, bank, m3; negative where some is brought.
    pub surplus: f64,
    /// Fill under the deck and in its banks, m3.
    pub fill: f64,
    /// Sun on the water, seconds of the day that was asked about; none where it was not asked for.
    pub sun: Option<f64>,
    /// At how many of the headings looked at the shell fits anywhere.
    pub headings: usize,
    /// Headings looked at.
    pub headings_of: usize,
    /// The outer edge of the coping, site meters.
    pub rim: Vec<Point>,
    /// How good it is for what was wanted; the greatest is the best.
    #[serde(skip)]
    pub score: f64,
}

/// Works a place out; `None` where it falls short with its own hole.
pub(super) fn told(
    site: &CheckedSite,
    candidate: &Candidate,
    (wanted, day): (FitAim, Option<&SunDay>),
    (headings, headings_of): (usize, usize),
    cache: &mut Cache,
) -> Option<ShellFit> {
    let (_, before) = site.placed_shell()?;
    let above = before.coping_elevation - site.ground().height(before.at).elevation;
    let coping_elevation = site.ground().height(candidate.at).elevation + above;
    let scenario = Scenario::with(site, |next| {
        if let Some(placement) = &mut next.placement {
            placement.at = candidate.at;
            placement.heading = candidate.heading;
            placement.mirrored = candidate.mirrored;
            placement.coping_elevation = coping_elevation;
        }
    });
    let scenario = scenario.ok()?;
    let placed = scenario.site();
    let analysis = analysis::run(&scenario, Detail::Earth, cache);
    let (shell, placement) = placed.placed_shell()?;
    let bounds = Bounds::of(placed, &analysis.work, &placement.pose())?;
    let least = Ruler::of(&bounds).tightest(&placement.pose())?.room;
    if least < -EDGE_SLACK {
        return None;
    }
    // A bank over a lot line bars a place as a distance that falls short does.
    let graded = analysis.grading.as_ref();
    let graded = graded.map(|it| grading::findings(placed, &analysis.work, it));
    let bars = |it: &Finding| it.is_fault() && it.topic == Topic::Verdict;
    if graded.is_some_and(|found| found.iter().any(bars)) {
        return None;
    }
    let clearances = clearance::measure(placed, &analysis.work);
    let goes_along = |it: &&clearance::Clearance| it.from.goes_with_shell();
    let tightest = clearances.iter().find(goes_along);
    let bank_cut = analysis.dig.as_ref().map_or(0.0, |dig| dig.bank_volume);
    let surplus = analysis.surplus.map_or(0.0, |it| it.all);
    let grading = analysis.grading.as_ref();
    let fill = grading.map_or(0.0, |it| it.deck_fill + it.bank_fill);
    let water = Figure::Area(&analysis.work.waters_edge);
    let apart = |door: Figure<'_>| nearest(water, door).map(|it| it.distance);
    let to_door = doors(placed).into_iter().filter_map(apart).reduce(f64::min);
    let room = tightest.map_or(least, |it| it.room).max(0.0);
    let sun = day.and_then(|day| Some(sun_on_water(placed, day).0?.in_sun));
    let score = match wanted {
        FitAim::MostRoom | FitAim::Parallel => room,
        FitAim::NearDoor => -to_door.unwrap_or(f64::INFINITY),
        FitAim::LeastSpoil => -surplus,
        FitAim::LeastFill => -fill,
        FitAim::MostSun => sun.unwrap_or(0.0),
    };
    let rim = shell.rim.posed(&placement.pose());
    Some(ShellFit {
        name: name_of(&placement.shell).to_owned(),
        room,
        tightest: tightest.map_or_else(String::new, |it| format!("{} ({})", it.name, it.target)),
        to_door,
        water: shell.water_area(),
        bank_cut,
        surplus,
        fill,
        sun,
        headings,
        headings_of,
        rim: rim
            .polygons
            .into_iter()
            .next()
            .map_or(Vec::new(), |it| it.outer.0),
        placement: placement.clone(),
        score,
    })
}
