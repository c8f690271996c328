//! LandXML text into a survey.

use roxmltree::{Document, Node, ParsingOptions};

use super::context::Context;
use super::curves::Survey;
use super::element::{attribute, child, is_ours};
use super::units::FileUnits;
use super::{NAMESPACE, cg_points, parcels, plan_features, surfaces};
use crate::exchange::import::{Draft, Form, Frame, Item, Order, Role, Settings, Shape, TEXT_LIMIT};
use crate::finding::{Finding, any_fault};

/// The most elements and texts of one file: three for each point and each face of a surface as large as
/// a site takes.
const NODE_LIMIT: u32 = 2_000_000;

/// The most things that one file may hold, points among them; as many as a list of points may have.
const LIMIT: usize = 50_000;

/// What the namespaces of all versions begin with.
const ANY_VERSION: &str = "http://www.landxml.org/schema/LandXML-";

/// Versions that say the same of what is read.
const VERSIONS: [&str; 3] = ["1.0", "1.1", "1.2"];

/// Elements under the root that are read, or tell nothing of the ground.
const KNOWN: [&str; 9] = [
    "Units",
    "CoordinateSystem",
    "Project",
    "Application",
    "CgPoints",
    "Parcels",
    "PlanFeatures",
    "Surfaces",
    "FeatureDictionary",
];

/// Whether a text is XML, and so no map and no list.
pub fn is_xml(text: &str) -> bool {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    text.trim_start().starts_with('<')
}

/// Reads a LandXML file.
///
/// # Errors
/// Every fault, when nothing in it can be used: it is too large, no XML, no LandXML, has a document type
/// declaration, or holds nothing that is read.
pub fn read(text: &str) -> Result<Survey, Vec<Finding>> {
    if text.len() > TEXT_LIMIT {
        let message = format!(
            "The text is {} bytes long; the longest that is read is {TEXT_LIMIT} bytes.",
            text.len()
        );
        let remedy = "Have the lot and its surroundings written alone.";
        return Err(vec![Finding::fault("text-size", message, remedy)]);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let options = ParsingOptions {
        allow_dtd: false,
        nodes_limit: NODE_LIMIT,
        ..ParsingOptions::default()
    };
    let document = Document::parse_with_options(text, options).map_err(|it| vec![unparsed(&it)])?;
    let root = document.root_element();
    let version = version(root).map_err(|fault| vec![fault])?;
    let units = FileUnits::of(root);
    let mut context = Context::new(text, units.unwrap_or_else(FileUnits::assumed));
    if let Some(finding) = version {
        context.tell(root, finding);
    }
    if units.is_none() {
        let message = "The file does not say which unit of length it is in; feet were taken.";
        let remedy = "Choose the unit of the survey. At two million feet the two kinds of foot differ by 4 ft.";
        context.tell(root, Finding::caution("unit-assumed", message, remedy));
    }
    told_apart(&mut context, root);
    context.learn_names(root);
    parcels::read(&mut context, root);
    plan_features::read(&mut context, root);
    let surface = surfaces::read(&mut context, root);
    cg_points::read(&mut context, root);
    let parcel = context.items.iter().any(|it| it.proposed == Role::Lot);
    cg_points::beside(&mut context.items, parcel, surface);
    finish(context)
}

fn finish(context: Context) -> Result<Survey, Vec<Finding>> {
    let full = context.is_full();
    let Context {
        items,
        arcs,
        areas,
        diagnostics,
        units,
        ..
    } = context;
    let mut findings = diagnostics.into_findings();
    if full || items.len() > LIMIT {
        let message = match full {
            true => "There are too many points in the file.".to_owned(),
            false => format!(
                "There are {} things in the file; at most {LIMIT} are read.",
                items.len()
            ),
        };
        let remedy = "Have the lot and its surroundings written alone, or the surface thinned out.";
        return Err(vec![Finding::fault("too-many", message, remedy)]);
    }
    if items.is_empty() {
        if !any_fault(&findings) {
            let message = "There is no parcel, point, plan feature or surface in the file.";
            let remedy = "Have one of them written into it.";
            findings.push(Finding::fault("nothing-found", message, remedy));
        }
        return Err(findings);
    }
    findings.extend(without_elevation(&items));
    let frame = Frame::from(units.unit);
    let draft = Draft {
        form: Form::LandXml,
        proposed: Settings {
            frame,
            order: Order::NorthFirst,
            heights: units.unit,
            columns: None,
            lot: None,
            ring: None,
            fresh: false,
            keep_spots: true,
            spots_of_all: false,
        },
        items,
        findings,
    };
    Ok(Survey { draft, arcs, areas })
}

/// Points of a surface at the elevation 0 among others far from it.
fn without_elevation(items: &[Item]) -> Option<Finding> {
    let spots = items.iter().filter(|it| it.proposed == Role::Spot);
    let heights: Vec<f64> = spots
        .flat_map(|it| match &it.shape {
            Shape::Points(points) => points.iter().filter_map(|p| p.height).collect(),
            _ => Vec::new(),
        })
        .collect();
    let zeros = heights.iter().filter(|h| **h == 0.0).count();
    let far = heights.iter().filter(|h| h.abs() > 20.0).count();
    (zeros > 0 && 2 * far > heights.len()).then(|| {
        Finding::caution(
            "elevation-zero",
            format!("{zeros} points have the elevation 0 among others far above it."),
            "A program writes 0 where it knows no elevation: have those points left out of the file.",
        )
    })
}

/// What the version of a file gives reason to say.
fn version(root: Node<'_, '_>) -> Result<Option<Finding>, Finding> {
    if root.tag_name().name() != "LandXML" {
        let name: String = root.tag_name().name().chars().take(40).collect();
        return Err(Finding::fault(
            "not-landxml",
            format!("The file is XML, but no LandXML: it begins with <{name}>."),
            "Have it written as LandXML 1.2, as GeoJSON or as a list of points.",
        ));
    }
    let namespace = root.tag_name().namespace().unwrap_or_default();
    let known = namespace
        .strip_prefix(ANY_VERSION)
        .is_some_and(|version| VERSIONS.contains(&version));
    Ok((!known).then(|| {
        Finding::caution(
            "version-unknown",
            match namespace {
                "" => format!("The file does not say that it is of {NAMESPACE}."),
                other => format!(
                    "The file is of another version: {}.",
                    other.chars().take(80).collect::<String>()
                ),
            },
            "It was read as version 1.2. Check what came in, or have it written as 1.2.",
        )
    }))
}

/// Names what is in the file and not read, and the system of its coordinates.
fn told_apart(context: &mut Context, root: Node<'_, '_>) {
    if let Some(system) = child(root, "CoordinateSystem") {
        let told = ["name", "desc", "horizontalCoordinateSystemName", "epsgCode"];
        let told = told.iter().map(|name| attribute(system, name));
        if let Some(name) = told.into_iter().find(|it| !it.is_empty()) {
            let message = format!("The coordinates are of the system {name}.");
            let remedy = "They are taken as lengths on a plane; lengths of a state or national grid differ \
                          a little from those of a tape.";
            context.tell(system, Finding::note("coordinate-system", message, remedy));
        }
    }
    let mut left: Vec<(String, usize)> = Vec::new();
    for node in root.children().filter(|it| it.is_element() && is_ours(*it)) {
        let name = node.tag_name().name();
        if KNOWN.contains(&name) {
            continue;
        }
        match left.iter_mut().find(|(known, _)| known == name) {
            Some((_, count)) => *count += 1,
            None => {
                left.push((name.chars().take(40).collect(), 1));
                let message = format!("{name} are in the file; they are not read.");
                let remedy = "What is needed of them can be written as parcels, points, plan features or \
                              surfaces.";
                context.tell(node, Finding::note("not-read", message, remedy));
            }
        }
    }
}

fn unparsed(error: &roxmltree::Error) -> Finding {
    let (code, message, remedy) = match error {
        roxmltree::Error::DtdDetected => (
            "document-type",
            "The file has a document type declaration; LandXML has none.".to_owned(),
            "Have it written anew, or remove the declaration.",
        ),
        roxmltree::Error::NodesLimitReached => (
            "too-many",
            format!("The file has more than {NODE_LIMIT} elements."),
            "Have the lot and its surroundings written alone, or the surface thinned out.",
        ),
        other => (
            "xml",
            format!("The text is no sound XML: {other}."),
            "Mend it there, or have it written anew; it may have been cut off.",
        ),
    };
    Finding::fault(code, message, remedy)
}
