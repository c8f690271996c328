//! `way-in`: the widest way from the street to the dig, who fits through, and the crane.

use std::path::{Path, PathBuf};

use anyhow::Result;
use batterboard_core::report::AccessFigures;
use clap::Args;

use crate::folder::{Told, told_of};
use crate::{Units, input};

#[derive(Args)]
pub struct WayInArgs {
    /// Site files, or folders of them; - reads standard input.
    #[arg(required = true)]
    sites: Vec<PathBuf>,
    /// The units to print, in place of each site's own.
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// Print JSON; of several sites one line each, with its file.
    #[arg(long)]
    json: bool,
}

/// Prints it, and gives whether every file could be read.
pub fn run(args: &WayInArgs) -> Result<bool> {
    let told = Told {
        text: AccessFigures::to_text,
        json: AccessFigures::to_json,
    };
    told_of(
        &args.sites,
        args.json,
        |file| figures(file, args.units),
        &told,
    )
}

fn figures(file: &Path, units: Option<Units>) -> Result<AccessFigures> {
    let site = input::open(file)?.site;
    let system = units.map_or(site.site().display, Into::into);
    Ok(AccessFigures::of(&site, system))
}
