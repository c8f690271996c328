//! A site written for others: in which form, what of it, in which coordinates.

use serde::{Deserialize, Serialize};

use super::import::{Frame, Order};
use super::layout::Layout;
use super::{Figures, geojson, landxml, points};
use crate::analysis::Analysis;
use crate::finding::Finding;
use crate::site::CheckedSite;

/// A form that others read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum FileForm {
    /// A map: GeoJSON in WGS 84 degrees.
    Geojson,
    /// A list of points, comma separated.
    Points,
    /// LandXML 1.2: lot, points, features, the ground's surface and that of the dig.
    Landxml,
}

/// What is written, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct FileWish {
    /// In which form.
    pub form: FileForm,
    /// What of the site.
    #[cfg_attr(feature = "typescript", tsify(type = "MapParts"))]
    pub parts: geojson::Parts,
    /// Of a list and of LandXML: what the coordinates are; without it those of the survey that the site came from, or else
    /// the site's own units.
    #[cfg_attr(feature = "typescript", tsify(type = "MapFrame | null"))]
    pub frame: Option<Frame>,
    /// Of a list: which coordinate comes first.
    #[cfg_attr(feature = "typescript", tsify(type = "MapOrder | null"))]
    pub order: Option<Order>,
    /// When it is written, seconds after 1970 began, UTC: LandXML says so.
    pub seconds: u32,
}

/// The text of a site in a form. `analysis` must have been computed from the site.
///
/// # Errors
/// When the form needs what the site does not say: where its origin lies on the earth.
pub fn write(
    site: &CheckedSite,
    analysis: &Analysis,
    wish: &FileWish,
) -> Result<String, Vec<Finding>> {
    let (document, parts) = (site.site(), wish.parts);
    let figures = || Figures::of(site, analysis.dig.as_ref().map(|dig| &dig.top_edge));
    match wish.form {
        FileForm::Geojson => {
            geojson::write_laid_out(document, &figures(), parts, &layout(site, analysis, parts))
        }
        FileForm::Points => {
            let usual = points::Choice::usual(document);
            let choice = points::Choice {
                frame: wish.frame.unwrap_or(usual.frame),
                order: wish.order.unwrap_or(usual.order),
                corners: parts.lot,
                features: parts.features,
                ground: parts.ground,
                ..usual
            };
            points::write_laid_out(document, &figures(), choice, &layout(site, analysis, parts))
        }
        FileForm::Landxml => {
            let usual = landxml::Choice::usual(site);
            let unit = match wish.frame {
                None => usual.unit,
                Some(frame) => frame.unit().ok_or_else(|| vec![no_degrees()])?,
            };
            let choice = landxml::Choice {
                unit,
                lot: parts.lot,
                features: parts.features,
                shell: parts.shell,
                dig: parts.dig,
                ground: parts.ground,
            };
            let moment = landxml::Moment::of_unix(u64::from(wish.seconds));
            Ok(landxml::write(site, analysis, choice, &moment))
        }
    }
}

/// The stakes and lines of the parts that are wanted.
fn layout(site: &CheckedSite, analysis: &Analysis, parts: geojson::Parts) -> Layout {
    if !parts.shell && !parts.dig {
        return Layout::default();
    }
    let mut layout = Layout::of(site, analysis);
    layout.keep(|part| {
        if part.is_dig() {
            parts.dig
        } else {
            parts.shell
        }
    });
    layout
}

fn no_degrees() -> Finding {
    Finding::fault(
        "no-degrees",
        "LandXML is written in feet or meters.",
        "Choose one of them for its coordinates.",
    )
}
