//! `stakes`: what the crew lays out with tapes and a laser.

use std::sync::Arc;

use anyhow::{Context, Result, bail};
use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::exchange::Opened;
use batterboard_core::report::StakeoutFigures;
use batterboard_core::site::{CheckedSite, FixedPair, FixedPoint, Site};
use batterboard_core::stakeout;
use clap::Args;

use crate::{SiteArgs, input};

#[derive(Args)]
pub struct StakesArgs {
    #[command(flatten)]
    site: SiteArgs,
    /// Print a list for a spreadsheet: RFC 4180, UTF-8.
    #[arg(long, conflicts_with = "json")]
    csv: bool,
    /// Print JSON with SI values, display values and units.
    #[arg(long)]
    json: bool,
    /// What tape A is held to, by its name, in place of what the file says.
    #[arg(long, value_name = "NAME", requires = "and")]
    from: Option<String>,
    /// What tape B is held to.
    #[arg(long, value_name = "NAME", requires = "from")]
    and: Option<String>,
}

/// The text to print.
pub fn run(args: &StakesArgs) -> Result<String> {
    let Opened { mut site, .. } = input::open(&args.site.site)?;
    if let (Some(a), Some(b)) = (&args.from, &args.and) {
        let pair = FixedPair {
            a: named(&site, a)?,
            b: named(&site, b)?,
        };
        site = fixed(&site, pair)?;
    }
    let system = crate::units(args.site.units, &site);
    let analysis = analysis::run(
        &Scenario::of(&site),
        Detail::Clearances,
        &mut Cache::default(),
    );
    let figures =
        StakeoutFigures::of(&site, &analysis, system).context("no shell is placed yet")?;
    Ok(match (args.csv, args.json) {
        (true, _) => figures.to_list(&site, system),
        (_, true) => figures.to_json(),
        _ => figures.to_text(),
    })
}

/// The fixed point of this name, whatever its capitals.
fn named(site: &CheckedSite, name: &str) -> Result<FixedPoint> {
    let candidates = stakeout::candidates(site);
    let is_it = |it: &&stakeout::FixedCandidate| it.name.eq_ignore_ascii_case(name.trim());
    match candidates.iter().find(is_it) {
        Some(it) => Ok(it.point.clone()),
        None => {
            let names: Vec<&str> = candidates.iter().map(|it| it.name.as_str()).collect();
            bail!(
                "there is no fixed point \"{name}\"; there are: {}",
                names.join("; ")
            )
        }
    }
}

/// The site with these fixed points.
fn fixed(site: &CheckedSite, pair: FixedPair) -> Result<CheckedSite> {
    let mut document = Site::clone(site.site());
    Arc::make_mut(document.stakeout.get_or_insert_default()).fixed = Some(pair);
    let checked = CheckedSite::check(document, Some(site));
    checked.map_err(|faults| {
        let messages: Vec<&str> = faults.iter().map(|it| it.message.as_str()).collect();
        anyhow::anyhow!(messages.join(" "))
    })
}
