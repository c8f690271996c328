//! Maps and lists of points as the page shows them before they come in, and the edit they make.

use batterboard_core::exchange::import::{
    Changes, Draft, Form, Placed, PlacedShape, Role, Settings, Shape, read,
};
use batterboard_core::finding::Finding;
use batterboard_core::ground::GroundRecord;
use batterboard_core::lot::LotRecord;
use batterboard_core::site::{Benchmark, GeoOrigin, Grid, Site};
use batterboard_core::units::{Measure, Shown, show};
use batterboard_web::answers::{cross, taken};
use serde::Serialize;
use serde_json::Value;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::site::Document;

/// What is in a map or a list, and where it would lie on a site. Without settings, those that seem to
/// be meant are taken.
///
/// # Errors
/// When the settings are not what the page can have.
#[wasm_bindgen(unchecked_return_type = "MapReading")]
pub fn read_map(
    text: &str,
    site: &str,
    #[wasm_bindgen(unchecked_param_type = "MapSettings | null")] settings: &JsValue,
) -> Result<JsValue, JsValue> {
    let reading = match looked_at(text, site, settings) {
        Ok((draft, settings, it)) => MapReading::of(draft, settings, &it.site),
        Err(findings) => MapReading {
            findings,
            ..MapReading::default()
        },
    };
    cross(&reading)
}

/// The edit that brings a map or a list in, with a role for each thing by its word.
///
/// # Errors
/// When the settings or roles are not what the page can have.
#[wasm_bindgen(unchecked_return_type = "MapBrought")]
pub fn bring_map(
    text: &str,
    site: &str,
    #[wasm_bindgen(unchecked_param_type = "MapSettings")] settings: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "string[]")] roles: &JsValue,
) -> Result<JsValue, JsValue> {
    cross(&match brought(text, site, settings, roles) {
        Ok(brought) => brought,
        Err(findings) => MapBrought {
            told: Vec::new(),
            findings,
            command: None,
        },
    })
}

type Looked = (Draft, Settings, Document);

fn looked_at(text: &str, site: &str, settings: &JsValue) -> Result<Looked, Vec<Finding>> {
    let document = Document::read(site)?;
    let site = &document.site;
    let settings: Option<Settings> = taken(settings)?;
    let draft = read(text, settings.and_then(|s| s.columns))?;
    let settings = settings.unwrap_or_else(|| {
        let mut proposed = draft.proposed;
        // A site that came from a survey has told its unit.
        if let (Form::Points, Some(grid), Some(_)) = (draft.form, site.grid, proposed.columns) {
            proposed.frame = grid.unit.into();
            proposed.heights = grid.unit;
        }
        proposed
    });
    Ok((draft, settings, document))
}

fn brought(
    text: &str,
    site: &str,
    settings: &JsValue,
    roles: &JsValue,
) -> Result<MapBrought, Vec<Finding>> {
    let (draft, settings, document) = looked_at(text, site, settings)?;
    let words: Vec<String> = taken(roles)?;
    let roles: Vec<Role> = words
        .iter()
        .map(|word| Role::named(word).unwrap_or(Role::LeaveOut))
        .collect();
    let mut changes = Changes::of(&draft, &settings, &roles, &document.site)?;
    let features = changes.features.take().map(|all| document.edited(all));
    Ok(MapBrought {
        told: core::mem::take(&mut changes.told),
        findings: core::mem::take(&mut changes.findings),
        command: Some(Edit::of(changes, features)),
    })
}

/// What was found, for the page.
#[derive(Debug, Default, Serialize)]
struct MapReading {
    /// None when nothing in the text can be used.
    form: Option<Form>,
    settings: Option<Settings>,
    items: Vec<MapItem>,
    findings: Vec<Finding>,
}

/// One thing that was found.
#[derive(Debug, Serialize)]
struct MapItem {
    place: String,
    name: String,
    group: String,
    words: String,
    form: &'static str,
    /// Area, or length of what has none; nothing of a point.
    size: Option<Shown>,
    /// The areas of its rings, where it has several.
    rings: Vec<String>,
    proposed: String,
    /// Its lines, each x, y, x, y ... in site metres; closed ones come back to their start.
    lines: Vec<Vec<f64>>,
    usable: bool,
}

impl MapReading {
    fn of(draft: Draft, settings: Settings, site: &Site) -> Self {
        let placed = Placed::of(&draft, &settings, &[], site);
        let shown = |measure, value| show(measure, value, site.display);
        let items = draft
            .items
            .into_iter()
            .zip(placed.items)
            .map(|(item, on_site)| MapItem {
                place: item.place,
                name: item.name,
                group: item.group,
                words: item.words,
                form: match item.shape {
                    Shape::Points(_) => "points",
                    Shape::Lines(_) => "lines",
                    Shape::Areas(_) => "areas",
                },
                size: if on_site.area > 0.0 {
                    Some(shown(Measure::Area, on_site.area))
                } else if on_site.length > 0.0 {
                    Some(shown(Measure::LongLength, on_site.length))
                } else {
                    None
                },
                rings: rings(on_site.shape.as_ref(), &shown),
                proposed: on_site.proposed.word(),
                usable: on_site.shape.is_some(),
                lines: on_site.shape.as_ref().map(lines).unwrap_or_default(),
            })
            .collect();
        let mut findings = draft.findings;
        findings.extend(placed.findings);
        Self {
            form: Some(draft.form),
            settings: Some(settings),
            items,
            findings,
        }
    }
}

/// The length round each ring, where there are several.
fn rings(shape: Option<&PlacedShape>, shown: &dyn Fn(Measure, f64) -> Shown) -> Vec<String> {
    let Some(Shape::Areas(pieces)) = shape else {
        return Vec::new();
    };
    let all: Vec<_> = pieces.iter().flat_map(|p| p.rings()).collect();
    if all.len() < 2 {
        return Vec::new();
    }
    let round = |ring: &&Vec<_>| -> String {
        let ring: &Vec<batterboard_core::exchange::import::Spot> = ring;
        let next = ring.iter().cycle().skip(1);
        let length = ring
            .iter()
            .zip(next)
            .map(|(a, b)| a.at.distance(b.at))
            .sum();
        shown(Measure::LongLength, length).text
    };
    all.iter().map(round).collect()
}

fn lines(shape: &PlacedShape) -> Vec<Vec<f64>> {
    let flat = |chain: &[batterboard_core::exchange::import::Spot], closed: bool| {
        let back = chain.first().filter(|_| closed);
        chain
            .iter()
            .chain(back)
            .flat_map(|s| [s.at.x, s.at.y])
            .collect()
    };
    match shape {
        Shape::Points(points) => points.iter().map(|p| vec![p.at.x, p.at.y]).collect(),
        Shape::Lines(lines) => lines.iter().map(|l| flat(l, false)).collect(),
        Shape::Areas(pieces) => pieces
            .iter()
            .flat_map(|p| p.rings())
            .map(|r| flat(r, true))
            .collect(),
    }
}

/// What would come in.
#[derive(Debug, Serialize)]
struct MapBrought {
    /// What will have happened, a sentence each.
    told: Vec<String>,
    findings: Vec<Finding>,
    /// None when a fault bars it.
    command: Option<Edit>,
}

/// The edits that bring things in, as the planner reads them: the words are those of
/// `batterboard_core::session::Command`, without the writers of all its other edits.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
enum Edit {
    SetOrigin(GeoOrigin),
    SetGrid(Option<Grid>),
    SetLot(LotRecord),
    SetFeatures(Vec<Value>),
    SetGround(GroundRecord),
    SetBenchmark(Benchmark),
    Together {
        label: &'static str,
        commands: Vec<Edit>,
    },
}

impl Edit {
    fn of(changes: Changes, features: Option<Vec<Value>>) -> Self {
        let commands = [
            changes.origin.map(Self::SetOrigin),
            changes.grid.map(Self::SetGrid),
            changes.lot.map(Self::SetLot),
            features.map(Self::SetFeatures),
            changes.ground.map(Self::SetGround),
            changes.benchmark.map(Self::SetBenchmark),
        ];
        Self::Together {
            label: "bring in",
            commands: commands.into_iter().flatten().collect(),
        }
    }
}
