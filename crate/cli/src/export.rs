//! `export`: writes a site as a map, a list of points or LandXML.

use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use anyhow::{Context, Result, anyhow, bail};
use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::exchange::layout::Layout;
use batterboard_core::exchange::{Figures, Opened, geojson, landxml, points};
use batterboard_core::finding::Finding;
use batterboard_core::site::{CheckedSite, GeoOrigin, GridUnit, Site};
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
    let edge = analysis.dig.as_ref().map(|dig| &dig.top_edge);
    let figures = || Figures::of(&site, edge);
    let refused = |faults: Vec<Finding>| {
        let told = input::told(&faults);
        anyhow!("{} was not written.\n{told}", args.site.display())
    };
    let document = site.site();
    match args.form {
        FormArg::Geojson => {
            let parts = geojson::Parts {
                lot: args.wants(PartArg::Lot),
                features: args.wants(PartArg::Features),
                shell: args.wants(PartArg::Shell),
                dig: args.wants(PartArg::Dig),
                ground: args.wants(PartArg::Ground),
            };
            let layout = args.layout(&site, &analysis);
            geojson::write_laid_out(document, &figures(), parts, &layout).map_err(refused)
        }
        FormArg::Points => {
            let mut choice = points::Choice::usual(document);
            choice.corners = args.wants(PartArg::Lot);
            choice.features = args.wants(PartArg::Features);
            choice.ground = args.wants(PartArg::Ground);
            if let Some(frame) = args.frame {
                choice.frame = frame.into();
            }
            if let Some(order) = args.order {
                choice.order = order.into();
            }
            let layout = args.layout(&site, &analysis);
            points::write_laid_out(document, &figures(), choice, &layout).map_err(refused)
        }
        FormArg::Landxml => {
            let mut choice = landxml::Choice::usual(&site);
            choice.lot = args.wants(PartArg::Lot);
            choice.features = args.wants(PartArg::Features);
            choice.shell = args.wants(PartArg::Shell);
            choice.dig = args.wants(PartArg::Dig);
            choice.ground = args.wants(PartArg::Ground);
            match args.frame {
                Some(FrameArg::Degrees) => bail!("LandXML is written in feet or meters"),
                Some(FrameArg::Metres) => choice.unit = GridUnit::Metres,
                Some(FrameArg::Feet) => choice.unit = GridUnit::Feet,
                Some(FrameArg::SurveyFeet) => choice.unit = GridUnit::SurveyFeet,
                None => {}
            }
            let now = SystemTime::now().duration_since(UNIX_EPOCH);
            let moment = landxml::Moment::of_unix(now.map_or(0, |it| it.as_secs()));
            Ok(landxml::write(&site, &analysis, choice, &moment))
        }
    }
}

impl ExportArgs {
    fn wants(&self, part: PartArg) -> bool {
        self.only.as_ref().is_none_or(|only| only.contains(&part))
    }

    /// The stakes and lines of the parts that are wanted.
    fn layout(&self, site: &CheckedSite, analysis: &analysis::Analysis) -> Layout {
        let (shell, dig) = (self.wants(PartArg::Shell), self.wants(PartArg::Dig));
        if !shell && !dig {
            return Layout::default();
        }
        let mut layout = Layout::of(site, analysis);
        layout.keep(|part| if part.is_dig() { dig } else { shell });
        layout
    }
}

/// The site with its origin at a place told as longitude and latitude.
fn georeferenced(site: &CheckedSite, text: &str) -> Result<CheckedSite> {
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
