//! `export`: writes a site as a map or a list of points.

use std::path::PathBuf;

use anyhow::{Result, anyhow};
use batterboard_core::exchange::{Opened, geojson, points};
use batterboard_core::study::{Answer, Question, Study};
use clap::{Args, ValueEnum};

use crate::import::{FrameArg, OrderArg};
use crate::input;

/// What is written, and how.
#[derive(Args)]
pub struct ExportArgs {
    /// The site file; - reads standard input.
    site: PathBuf,
    /// The form to write.
    #[arg(long = "as", value_enum)]
    form: FormArg,
    /// Only these parts; all without it.
    #[arg(long, value_enum, value_delimiter = ',')]
    only: Option<Vec<PartArg>>,
    /// Of a list of points: what its coordinates are; without it, those of the survey it came from.
    #[arg(long, value_enum)]
    frame: Option<FrameArg>,
    /// Of a list of points: which coordinate comes first.
    #[arg(long, value_enum)]
    order: Option<OrderArg>,
}

/// A form to write.
#[derive(Clone, Copy, ValueEnum)]
enum FormArg {
    /// GeoJSON in WGS 84 degrees.
    Geojson,
    /// A list of points, comma separated.
    Points,
}

/// A part of the site.
#[derive(Clone, Copy, PartialEq, ValueEnum)]
enum PartArg {
    /// The lot, or its corners.
    Lot,
    /// What stands on it.
    Features,
    /// The edge of the shell.
    Shell,
    /// Where the dig meets the ground.
    Dig,
    /// Spots, breaklines and the benchmark.
    Ground,
}

/// The text of a site in another form.
///
/// # Errors
/// When the site cannot be read or cannot be written in that form.
pub fn run(args: &ExportArgs) -> Result<String> {
    let Opened { site, .. } = input::open(&args.site)?;
    let wants = |part| args.only.as_ref().is_none_or(|only| only.contains(&part));
    let question = match args.form {
        FormArg::Geojson => {
            let parts = geojson::Parts {
                lot: wants(PartArg::Lot),
                features: wants(PartArg::Features),
                shell: wants(PartArg::Shell),
                dig: wants(PartArg::Dig),
                ground: wants(PartArg::Ground),
            };
            Question::Geojson(parts)
        }
        FormArg::Points => {
            let mut choice = points::Choice::usual(site.site());
            choice.corners = wants(PartArg::Lot);
            choice.features = wants(PartArg::Features);
            choice.shell = wants(PartArg::Shell);
            choice.ground = wants(PartArg::Ground);
            if let Some(frame) = args.frame {
                choice.frame = frame.into();
            }
            if let Some(order) = args.order {
                choice.order = order.into();
            }
            Question::Points(choice)
        }
    };
    match Study::new(site, question).run() {
        Answer::Text(text) => Ok(text),
        Answer::Refused(faults) => Err(anyhow!(
            "{} was not written.\n{}",
            args.site.display(),
            input::told(&faults)
        )),
        _ => Err(anyhow!("that is not answered with a text")),
    }
}
