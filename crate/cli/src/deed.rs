//! `deed`: reads the description of a lot by bearings and distances.

use std::path::PathBuf;
use std::process::ExitCode;

use anyhow::{Result, bail};
use batterboard_core::finding::any_fault;
use batterboard_core::lot::LotRecord;
use batterboard_core::lot::deed::read;
use batterboard_core::report::DeedFigures;
use batterboard_core::session::Command;
use clap::Args;

use crate::import::Onto;
use crate::{Units, WRONG, input};

/// Which deed, and what becomes of it.
#[derive(Args)]
pub struct DeedArgs {
    /// The text of the description, prose or one course to a line; - reads standard input.
    file: PathBuf,
    /// Print this site file with the lot of the deed in place of its own.
    #[arg(long, value_name = "SITE", conflicts_with = "new")]
    onto: Option<PathBuf>,
    /// Print the site file of a new job with the lot of the deed.
    #[arg(long)]
    new: bool,
    /// Print JSON with SI values, display values and units.
    #[arg(long, conflicts_with_all = ["onto", "new"])]
    json: bool,
    /// The units to print, and those of numbers that the deed gives no unit; without it those of the site, or feet.
    #[arg(long, value_enum)]
    units: Option<Units>,
}

/// What the command prints, what is said beside it, and how it ends.
pub struct DeedRead {
    /// The deed in figures, or the site file.
    pub text: String,
    /// Beside a site file: the deed in figures.
    pub told: String,
    /// 1 where a part of the deed could not be understood, or its courses make no lot.
    pub code: ExitCode,
}

/// Reads a deed, and puts its lot on a site where that is asked for.
///
/// # Errors
/// When a file cannot be read; and when a site is asked for, with every fault that keeps the courses from being its lot.
pub fn run(args: &DeedArgs) -> Result<DeedRead> {
    let text = input::text(&args.file)?;
    let onto_a_site = args.new || args.onto.is_some();
    let Onto {
        mut session,
        lot_is_lent,
    } = Onto::open(args.onto.as_deref())?;
    let site = session.site().site().clone();
    let system = args.units.map_or(site.display, Into::into);
    let rest = match &args.onto {
        Some(_) if !lot_is_lent => LotRecord::clone(&site.lot),
        _ => LotRecord::default(),
    };
    let reading = read(&text, system);
    let figures = DeedFigures::of(&text, &reading, &rest, system);
    let faulty = any_fault(&figures.findings);
    if !onto_a_site {
        return Ok(DeedRead {
            text: if args.json {
                figures.to_json()
            } else {
                figures.to_text()
            },
            told: String::new(),
            code: if faulty {
                ExitCode::from(WRONG)
            } else {
                ExitCode::SUCCESS
            },
        });
    }
    let name = input::name(&args.file);
    if faulty {
        let faults = input::told(&figures.findings);
        bail!("{name} was not taken as the lot.\n{faults}");
    }
    let mut lot = reading.record(&rest);
    for (course, kind) in lot
        .courses
        .iter_mut()
        .zip(reading.kinds(&rest).unwrap_or_default())
    {
        course.kind = kind;
    }
    lot.deed = Some(text);
    session.apply(Command::SetLot(lot)).map_err(|faults| {
        anyhow::anyhow!("{name} was not taken as the lot.\n{}", input::told(&faults))
    })?;
    Ok(DeedRead {
        text: session.save(),
        told: figures.to_text(),
        code: ExitCode::SUCCESS,
    })
}
