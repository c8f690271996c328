//! Every figure that the work rests on, with its source.

use anyhow::Result;
use batterboard_core::{json, sources};
use clap::Args;

use crate::Units;

/// How they are told.
#[derive(Args)]
pub struct SourcesArgs {
    /// Print JSON with SI values, display values, place in the site file, source and check.
    #[arg(long)]
    json: bool,
    /// The units to print.
    #[arg(long, value_enum, default_value = "feet")]
    units: Units,
}

/// The list.
///
/// # Errors
/// When it cannot be written as JSON.
pub fn run(args: &SourcesArgs) -> Result<String> {
    let system = args.units.into();
    if args.json {
        return Ok(json::to_string(&sources::figures(system)));
    }
    Ok(sources::text(system))
}
