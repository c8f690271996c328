//! What would free a shell that stands too close, in words, each with the placement that does it.

use serde::Serialize;

use super::wish::name_of;
use crate::analysis::{Cache, Scenario};
use crate::clear_ground::{Bounds, Cure, Ruler, cause_words, nothing_left_words};
use crate::geom::Vector;
use crate::math::{TURN, wrap_half_turn};
use crate::shell::{Shell, catalogue};
use crate::site::{CheckedSite, Placement, ShellChoice};
use crate::units::{Measure, nearest_eighth, show};

/// What falls short, and what would free it.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct CureCards {
    /// Everything that holds the shell off and is fallen short of, worst first: the rules that bind here.
    pub short: Vec<ShortOf>,
    /// One change each that leaves nothing short.
    pub cures: Vec<CureCard>,
    /// Why no ground is clear at the present heading, where none is.
    pub nothing_left: Option<String>,
}

/// One thing that is fallen short of.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ShortOf {
    /// What it is called.
    pub name: String,
    /// By how much.
    pub by: String,
}

/// One change that leaves nothing short.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct CureCard {
    /// What to do: `Move it 2'-3 1/4" toward the east`.
    pub words: String,
    /// The placement that does it; none where it is not the shell that changes.
    pub placement: Option<Placement>,
}

/// What would free the shell on a site; `None` before one is placed. Nothing is short where the lists are
/// empty.
pub fn cures(site: &CheckedSite) -> Option<CureCards> {
    let mut cache = Cache::default();
    let (_, placement) = site.placed_shell()?;
    let bounds = Bounds::where_it_stands(site, &mut cache)?;
    let found = bounds.cures(placement);
    let system = site.site().display;
    let length = |meters: f64| show(Measure::Length, meters, system).text;
    let mut cures: Vec<CureCard> = found
        .cures
        .iter()
        .map(|cure| card(site, placement, *cure, &length))
        .collect();
    if !found.short.is_empty() {
        cures.extend(smaller(site, placement, &mut cache));
    }
    let mut short: Vec<ShortOf> = Vec::new();
    for it in &found.short {
        let name = cause_words(site, it.bound.cause);
        if !short.iter().any(|known| known.name == name) {
            let by = length(-it.room);
            short.push(ShortOf { name, by });
        }
    }
    let nothing = (!found.nothing_left_by.is_empty())
        .then(|| nothing_left_words(site, &found.nothing_left_by));
    Some(CureCards {
        short,
        cures,
        nothing_left: nothing,
    })
}

fn card(
    site: &CheckedSite,
    before: &Placement,
    cure: Cure,
    length: &impl Fn(f64) -> String,
) -> CureCard {
    let moved = |by: Vector| {
        format!(
            "{} toward the {}",
            length(by.length()),
            nearest_eighth(by.bearing())
        )
    };
    let turned = |heading: f64| {
        let by = wrap_half_turn(heading - before.heading);
        let way = if by < 0.0 {
            "to the left"
        } else {
            "to the right"
        };
        let degrees = by.abs() * 360.0 / TURN;
        format!("{degrees:.1}° {way}")
    };
    match cure {
        Cure::Move { to } => CureCard {
            words: format!("Move it {}.", moved(to - before.at)),
            placement: Some(Placement {
                at: to,
                ..before.clone()
            }),
        },
        Cure::Turn { heading } => CureCard {
            words: format!("Turn it {}.", turned(heading)),
            placement: Some(Placement {
                heading,
                ..before.clone()
            }),
        },
        Cure::TurnAndMove { heading, to } => CureCard {
            words: format!(
                "Turn it {} and move it {}.",
                turned(heading),
                moved(to - before.at)
            ),
            placement: Some(Placement {
                at: to,
                heading,
                ..before.clone()
            }),
        },
        Cure::LesserRule { rule, by } => {
            let name = site
                .site()
                .rules
                .get(rule)
                .map_or("", |it| it.name.as_str());
            CureCard {
                words: format!(
                    "\"{name}\" would have to ask for {} less: a variance, which only the local \
                     authority grants.",
                    length(by)
                ),
                placement: None,
            }
        }
    }
}

/// The largest shell of the catalogue that is smaller than the one on the lot and stands in its place with
/// nothing short.
fn smaller(site: &CheckedSite, before: &Placement, cache: &mut Cache) -> Option<CureCard> {
    let (present, _) = site.placed_shell()?;
    let checked = catalogue::all()
        .iter()
        .filter_map(|it| Shell::check(it).ok());
    let mut smaller: Vec<Shell> = checked
        .map(|(shell, _)| shell)
        .filter(|it| it.water_area() < present.water_area() - 0.01)
        .collect();
    smaller.sort_by(|a, b| b.water_area().total_cmp(&a.water_area()));
    smaller.iter().find_map(|shell| {
        let placement = Placement {
            shell: ShellChoice::Catalogue(shell.record.name.clone()).into(),
            ..before.clone()
        };
        let scenario =
            Scenario::with(site, |next| next.placement = Some(placement.clone())).ok()?;
        let bounds = Bounds::where_it_stands(scenario.site(), cache)?;
        let room = Ruler::of(&bounds).tightest(&placement.pose())?.room;
        (room >= 0.0).then(|| CureCard {
            words: format!(
                "Take a smaller shell: \"{}\" stands here.",
                name_of(&placement.shell)
            ),
            placement: Some(placement),
        })
    })
}
