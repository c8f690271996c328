//! `export`: writes a site as a map, a list of points or LandXML.

use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use anyhow::{Context, Result, anyhow, bail};
use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::exchange::outgoing::{self, FileForm, FileWish};
use batterboard_core::exchange::{Opened, geojson};
use batterboard_core::finding::Finding;
use batterboard_core::site::{CheckedSite, GeoOrigin, Site};
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
    /// Of a list of points and of LandXML: what its coordinates are; without it, those of the survey
    /// that the site came from, or else the site's own units. LandXML has no degrees.
    #[arg(long, value_enum)]
    frame: Option<FrameArg>,
    /// Of a list of points: which coordinate comes first.
    #[arg(long, value_enum)]
    order: Option<OrderArg>,
    /// Where the site's origin lies, WGS 84 degrees, in place of what the file says: a map, and a list in
    /// degrees, need it.
    #[arg(long, value_name = "LON,LAT", allow_hyphen_values = true)]
    origin: Option<String>,
}

/// A form to write.
#[derive(Clone, Copy, ValueEnum)]
enum FormArg {
    /// GeoJSON in WGS 84 degrees.
    Geojson,
    /// A list of points, comma separated.
    Points,
    /// LandXML 1.2: lot, points, features, the ground's surface and that of the dig.
    Landxml,
}

/// A part of the site.
#[derive(Clone, Copy, PartialEq, ValueEnum)]
enum PartArg {
    /// The lot, or its corners.
    Lot,
    /// What stands on it.
    Features,
    /// Rim and collar with their stakes; of a map, the water's edge too.
    Shell,
    /// Bottom and top of the dig with their stakes, the hole's corners, offset stakes; of LandXML, the
    /// surface of the dig.
    Dig,
    /// Spots, breaklines and the benchmark; of LandXML, the surface of the ground.
    Ground,
}

/// The text of a site in another form.
///
/// # Errors
/// When the site cannot be read or cannot be written in that form.
pub fn run(args: &ExportArgs) -> Result<String> {
    let Opened { site, .. } = input::open(&args.site)?;
    let site = match &args.origin {
        Some(text) => georeferenced(&site, text)?,
        None => site,
    };
    let scenario = Scenario::of(&site);
    let analysis = analysis::run(&scenario, Detail::Clearances, &mut Cache::default());
    let refused = |faults: Vec<Finding>| {
        let told = input::told(&faults);
        anyhow!("{} was not written.\n{told}", args.site.display())
    };
    let now = SystemTime::now().duration_since(UNIX_EPOCH);
    let wish = FileWish {
        form: match args.form {
            FormArg::Geojson => FileForm::Geojson,
            FormArg::Points => FileForm::Points,
            FormArg::Landxml => FileForm::Landxml,
        },
        parts: geojson::Parts {
            lot: args.wants(PartArg::Lot),
            features: args.wants(PartArg::Features),
            shell: args.wants(PartArg::Shell),
            dig: args.wants(PartArg::Dig),
            ground: args.wants(PartArg::Ground),
        },
        frame: args.frame.map(Into::into),
        order: args.order.map(Into::into),
        seconds: now.map_or(0, |it| u32::try_from(it.as_secs()).unwrap_or(u32::MAX)),
    };
    outgoing::write(&site, &analysis, &wish).map_err(refused)
}

impl ExportArgs {
    fn wants(&self, part: PartArg) -> bool {
        self.only.as_ref().is_none_or(|only| only.contains(&part))
    }
}

/// The site with its origin at a place told as longitude and latitude.
///
/// # Errors
/// When that is no place.
pub fn georeferenced(site: &CheckedSite, text: &str) -> Result<CheckedSite> {
    let told =
        || format!("--origin \"{text}\" is not LON,LAT in degrees, such as -84.3071,36.4512");
    let (longitude, latitude) = text.split_once(',').with_context(told)?;
    let degrees = |it: &str| it.trim().parse::<f64>().ok().filter(|it| it.is_finite());
    let (Some(longitude), Some(latitude)) = (degrees(longitude), degrees(latitude)) else {
        bail!(told());
    };
    let mut document = Site::clone(site.site());
    document.origin = Some(GeoOrigin {
        longitude: longitude.to_radians(),
        latitude: latitude.to_radians(),
    });
    CheckedSite::check(document, Some(site))
        .map_err(|faults| anyhow!("{}\n{}", told(), input::told(&faults)))
}
