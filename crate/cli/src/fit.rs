//! `fit` and `clear-ground`: where a shell may stand.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow};
use batterboard_core::analysis::{Cache, Scenario};
use batterboard_core::clear_ground::Bounds;
use batterboard_core::exchange::geojson;
use batterboard_core::finding::Finding;
use batterboard_core::fit::{CAUTION, FitAim, FitWish, Search, ShellFit, table};
use batterboard_core::geom::Region;
use batterboard_core::geom::pole::poles;
use batterboard_core::math::{TURN, wrap_turn};
use batterboard_core::report::EdgeFigures;
use batterboard_core::shell::catalogue;
use batterboard_core::site::book::Day;
use batterboard_core::site::{CheckedSite, ShellChoice};
use batterboard_core::units::{Measure, show};
use clap::{Args, ValueEnum};
use serde_json::{Value, json};

use crate::export::georeferenced;
use crate::names::meant;
use crate::{Units, folder, input, print};

/// What is searched for.
#[derive(Args)]
pub struct FitArgs {
    /// The site file, or a folder of site files; - reads standard input.
    site: PathBuf,
    /// Print JSON: a list, best first.
    #[arg(long)]
    json: bool,
    /// Only this shell, by its name in the catalogue or on the lot; may be given more than once.
    #[arg(long = "shell", value_name = "NAME")]
    shells: Vec<String>,
    /// From one heading to the next, whole degrees.
    #[arg(long, value_name = "DEGREES", default_value_t = 1)]
    step: u16,
    /// What the best place is the best for.
    #[arg(long, value_enum, default_value = "most-room")]
    best_for: BestFor,
    /// The day whose sun counts, with --best-for most-sun; without it 21 June, south of the equator 21 December.
    #[arg(long, value_name = "YYYY-MM-DD")]
    day: Option<Day>,
    /// The units to print, in place of the site's own.
    #[arg(long, value_enum)]
    units: Option<Units>,
}

/// What the best place is the best for.
#[derive(Clone, Copy, ValueEnum)]
enum BestFor {
    /// The most room to whatever is nearest.
    MostRoom,
    /// The shortest way from a door of the house.
    NearDoor,
    /// The most room of those parallel or square to the house or a lot line.
    Parallel,
    /// The least earth to haul away.
    LeastSpoil,
    /// The least fill.
    LeastFill,
    /// The most sun on the water through a day.
    MostSun,
}

/// Clear ground of what, and how it is told.
#[derive(Args)]
pub struct ClearGroundArgs {
    /// The site file, or a folder of site files; - reads standard input.
    site: PathBuf,
    /// Where the shell's length points, degrees clockwise from north.
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    heading: f64,
    /// The shell flipped, as its mirror image.
    #[arg(long)]
    flipped: bool,
    /// Print it in another form.
    #[arg(long = "as", value_enum)]
    form: Option<AreaForm>,
    /// Where the site's origin lies, WGS 84 degrees, in place of what the file says: a map needs it.
    #[arg(long, value_name = "LON,LAT", allow_hyphen_values = true)]
    origin: Option<String>,
}

/// A form of an area.
#[derive(Clone, Copy, ValueEnum)]
enum AreaForm {
    /// GeoJSON in WGS 84 degrees.
    Geojson,
}

/// Prints what a search finds.
///
/// # Errors
/// When the site cannot be read, or a shell is not known.
pub fn run(args: &FitArgs) -> Result<()> {
    let search = |site: &Path| -> Result<(CheckedSite, Vec<ShellFit>)> {
        let site = input::open(site)?.site;
        let found = found(args, &site)?;
        Ok((site, found))
    };
    if args.site.is_dir() {
        return folder::lines(std::slice::from_ref(&args.site), |site| {
            Ok(serde_json::to_value(search(site)?.1)?)
        });
    }
    let (site, found) = search(&args.site)?;
    if args.json {
        let found = serde_json::to_value(found)?;
        return print(&batterboard_core::json::to_string(&found));
    }
    let system = args.units.map_or(site.site().display, Into::into);
    print(&table(&site, &found, system))
}

fn found(args: &FitArgs, site: &CheckedSite) -> Result<Vec<ShellFit>> {
    let wish = FitWish {
        wanted: match args.best_for {
            BestFor::MostRoom => FitAim::MostRoom,
            BestFor::NearDoor => FitAim::NearDoor,
            BestFor::Parallel => FitAim::Parallel,
            BestFor::LeastSpoil => FitAim::LeastSpoil,
            BestFor::LeastFill => FitAim::LeastFill,
            BestFor::MostSun => FitAim::MostSun,
        },
        step: args.step,
        shells: shells(args, site)?,
        sun_date: args.day,
    };
    let mut search = Search::new(site.clone(), wish).map_err(|faults| refused(&faults))?;
    while !search.step().is_done() {}
    Ok(search.found().to_vec())
}

/// The shells that are meant, by the names they have.
fn shells(args: &FitArgs, site: &CheckedSite) -> Result<Vec<String>> {
    let placed = site.site().placement.as_ref();
    let own = placed.and_then(|it| match it.shell.as_ref() {
        ShellChoice::Own(record) => Some(record.name.as_str()),
        ShellChoice::Catalogue(_) => None,
    });
    let catalogue = catalogue::all().iter().map(|it| it.name.as_str());
    let known = catalogue.chain(own);
    let named = args.shells.iter().map(|typed| {
        let name = meant(typed, known.clone()).map_err(|instead| {
            anyhow!("unknown-shell: no shell of the catalogue or on the lot is called \"{typed}\"{instead}")
        });
        name.map(str::to_owned)
    });
    named.collect()
}

fn refused(faults: &[Finding]) -> anyhow::Error {
    anyhow!("that cannot be done.\n{}", input::told(faults))
}

/// Prints clear ground at one heading.
///
/// # Errors
/// When the site cannot be read, has no shell on it, or a map is asked for and nothing says where it
/// lies.
pub fn clear_ground(args: &ClearGroundArgs) -> Result<()> {
    if args.site.is_dir() {
        return folder::lines(std::slice::from_ref(&args.site), |site| {
            let clear = clear(args, site)?;
            Ok(about(&clear))
        });
    }
    print(&told(args)?)
}

/// The text of clear ground on one site.
fn told(args: &ClearGroundArgs) -> Result<String> {
    let clear = clear(args, &args.site)?;
    let Clear { site, region, edge } = &clear;
    if let Some(AreaForm::Geojson) = args.form {
        let about = about(&clear);
        let written = geojson::write_area(site.site(), region, about);
        return written.map_err(|faults| refused(&faults));
    }
    let system = site.site().display;
    let text = |measure, value| show(measure, value, system).text;
    let mut told = format!(
        "Clear ground for the shell's middle: {}\nheading {}: {}\n",
        site.site().name,
        text(Measure::Heading, wrap_turn(args.heading * TURN / 360.0)),
        text(Measure::Area, region.area()),
    );
    for pole in poles(region) {
        told += &format!(
            "  most room {} at {} east, {} north of the site's origin\n",
            text(Measure::Length, pole.depth),
            text(Measure::LongLength, pole.at.x),
            text(Measure::LongLength, pole.at.y),
        );
    }
    if !edge.words.is_empty() {
        told += &format!("\n{}\n", edge.words);
    }
    Ok(told + "\n" + CAUTION + "\n")
}

/// Clear ground on a site, with the shell turned as asked.
struct Clear {
    site: CheckedSite,
    region: Region,
    edge: EdgeFigures,
}

fn clear(args: &ClearGroundArgs, site: &Path) -> Result<Clear> {
    let mut site = input::open(site)?.site;
    if let Some(origin) = &args.origin {
        site = georeferenced(&site, origin)?;
    }
    let heading = wrap_turn(args.heading * TURN / 360.0);
    let turned = Scenario::with(&site, |next| {
        if let Some(placement) = &mut next.placement {
            (placement.heading, placement.mirrored) = (heading, args.flipped);
        }
    });
    let site = turned.map_err(|faults| refused(&faults))?.site().clone();
    let mut cache = Cache::default();
    let bounds = Bounds::where_it_stands(&site, &mut cache);
    let region = bounds
        .context("no shell is placed yet")?
        .region(heading, args.flipped);
    let edge = EdgeFigures::along(&site, &region, site.site().display, &mut cache);
    Ok(Clear { site, region, edge })
}

/// What there is to say of clear ground: SI units, its parts with the place that leaves the most room.
fn about(Clear { site, region, edge }: &Clear) -> Value {
    let parts: Vec<Value> = poles(region)
        .iter()
        .map(|pole| json!({ "at": [pole.at.x, pole.at.y], "room": pole.depth }))
        .collect();
    json!({
        "role": "clear-ground",
        "name": site.site().name,
        "area": region.area(),
        "places": parts,
        "edge": { "holds": edge.holds, "short": edge.short, "words": edge.words },
    })
}
