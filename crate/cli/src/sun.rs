//! `sun`: the share of the water in sun through a day, and what shades it.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};
use batterboard_core::report::SunFigures;
use clap::Args;

use crate::export::georeferenced;
use crate::folder::{Told, told_of};
use crate::{Units, input};

#[derive(Args)]
pub struct SunArgs {
    /// Site files, or folders of them; - reads standard input.
    #[arg(required = true)]
    sites: Vec<PathBuf>,
    /// The day, as YYYY-MM-DD; without it 21 June, south of the equator 21 December.
    #[arg(
        long,
        value_name = "YYYY-MM-DD",
        default_value = "",
        hide_default_value = true
    )]
    day: String,
    /// Hours that the clock is ahead of UTC, such as -5 or +5:30, daylight saving included; without it by the longitude.
    #[arg(
        long,
        value_name = "HOURS",
        allow_hyphen_values = true,
        default_value = "",
        hide_default_value = true
    )]
    utc_offset: String,
    /// Where the site's origin lies, WGS 84 degrees, in place of what the file says.
    #[arg(long, value_name = "LON,LAT", allow_hyphen_values = true)]
    origin: Option<String>,
    /// The units to print, in place of each site's own.
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// Print JSON; of several sites one line each, with its file.
    #[arg(long)]
    json: bool,
}

/// Prints it, and gives whether every file could be read.
///
/// # Errors
/// When the only file named cannot be read, or the day or the offset is none.
pub fn run(args: &SunArgs) -> Result<bool> {
    let told = Told {
        text: SunFigures::to_text,
        json: SunFigures::to_json,
    };
    told_of(&args.sites, args.json, |file| figures(args, file), &told)
}

fn figures(args: &SunArgs, file: &Path) -> Result<SunFigures> {
    let mut site = input::open(file)?.site;
    if let Some(origin) = &args.origin {
        site = georeferenced(&site, origin)?;
    }
    let system = args.units.map_or(site.site().display, Into::into);
    SunFigures::of(&site, &args.day, &args.utc_offset, system)
        .map_err(|faults| anyhow!("that cannot be done.\n{}", input::told(&faults)))
}
