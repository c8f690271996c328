//! GeoJSON text into a draft.

use serde_json::{Map, Value};

use super::frame;
use super::ring::Coordinates;
use crate::exchange::import::{
    Diagnostics, Draft, Form, ITEM_LIMIT, Item, POSITION_LIMIT, Role, Settings, Shape, guess,
};
use crate::exchange::read_value;
use crate::finding::{Finding, any_fault};
use crate::site::{FeatureKind, GridUnit};

/// The keys that a name stands under, most telling first.
const NAMES: [&str; 8] = [
    "name",
    "label",
    "title",
    "lot",
    "parcel",
    "parcel_id",
    "number",
    "id",
];

/// How many characters of its properties are shown of one thing.
const WORDS: usize = 80;

/// Reads GeoJSON.
///
/// # Errors
/// Every fault, when nothing in the text can be used.
pub fn read(text: &str) -> Result<Draft, Vec<Finding>> {
    let value: Value = read_value(text).map_err(|fault| vec![fault])?;
    let mut diagnostics = Diagnostics::default();
    let mut reader = Reader {
        items: Vec::new(),
        coordinates: Coordinates {
            diagnostics: &mut diagnostics,
            left: POSITION_LIMIT,
        },
    };
    reader.object(&value, "");
    let Reader { items, coordinates } = reader;
    let full = coordinates.left == 0;
    if full || items.len() > ITEM_LIMIT {
        return Err(vec![too_much(full, items.len())]);
    }
    if let Some(cut) = cut_short(&value) {
        diagnostics.add("", cut);
    }
    let guessed = frame::guess(&items, value.get("crs"));
    if let Some(finding) = guessed.finding {
        diagnostics.add("", finding);
    }
    let mut findings = diagnostics.into_findings();
    if items.is_empty() && !any_fault(&findings) {
        let remedy = "Open a file with points, lines or polygons in it.";
        findings.push(Finding::fault(
            "nothing-found",
            "There is no geometry in the text.",
            remedy,
        ));
    }
    let barred = findings.iter().any(|f| f.code == "other-crs");
    if items.is_empty() || barred {
        return Err(findings);
    }
    Ok(Draft {
        form: Form::GeoJson,
        items,
        proposed: Settings {
            frame: guessed.frame,
            order: guessed.order,
            heights: GridUnit::Metres,
            columns: None,
            lot: None,
            ring: None,
            fresh: false,
            keep_spots: true,
            spots_of_all: false,
        },
        findings,
    })
}

fn too_much(full: bool, items: usize) -> Finding {
    let message = if full {
        format!("There are more than {POSITION_LIMIT} positions in the text.")
    } else {
        format!("There are {items} things in the text; at most {ITEM_LIMIT} are read.")
    };
    let remedy = "Cut the file down to the lot and its neighbors before bringing it in.";
    Finding::fault("too-many", message, remedy)
}

/// Offices' servers say by a member of their own that they did not send everything.
fn cut_short(value: &Value) -> Option<Finding> {
    let says = |members: Option<&Value>| {
        members
            .and_then(Value::as_object)
            .into_iter()
            .flatten()
            .any(|(key, value)| {
                let key = key.to_ascii_lowercase();
                value == &Value::Bool(true)
                    && (key.contains("exceeded") || key.contains("truncated"))
            })
    };
    (says(Some(value)) || says(value.get("properties"))).then(|| {
        Finding::caution(
            "cut-short",
            "The file says that not everything was sent.",
            "Fetch a smaller area, so that nothing is missing.",
        )
    })
}

/// Walks the objects and gathers what has a shape.
struct Reader<'a> {
    items: Vec<Item>,
    coordinates: Coordinates<'a>,
}

impl Reader<'_> {
    /// A GeoJSON object at the top.
    fn object(&mut self, value: &Value, place: &str) {
        match kind(value) {
            "FeatureCollection" => self.collection(value, place),
            "Feature" => self.feature(value, place),
            _ => self.geometry(value, place, &Map::new(), ""),
        }
    }

    fn collection(&mut self, value: &Value, place: &str) {
        let Some(features) = value.get("features").and_then(Value::as_array) else {
            self.coordinates.fault(
                &format!("{place}/features"),
                "features-missing",
                "A FeatureCollection has a list of features.",
            );
            return;
        };
        for (i, feature) in features.iter().enumerate() {
            let place = format!("{place}/features/{i}");
            if kind(feature) == "Feature" {
                self.feature(feature, &place);
            } else {
                let message = "In a list of features stands something that is none.";
                self.coordinates.fault(&place, "feature", message);
            }
            if self.coordinates.left == 0 {
                return;
            }
        }
    }

    fn feature(&mut self, value: &Value, place: &str) {
        let nothing = Map::new();
        let properties = value
            .get("properties")
            .and_then(Value::as_object)
            .unwrap_or(&nothing);
        let id = match value.get("id") {
            Some(Value::String(id)) => id.clone(),
            _ => String::new(),
        };
        match value.get("geometry") {
            None | Some(Value::Null) => self.coordinates.diagnostics.add(
                place,
                Finding::note(
                    "no-geometry",
                    "A feature has no geometry; there is nothing to place.",
                    "",
                ),
            ),
            Some(geometry) => {
                self.geometry(geometry, &format!("{place}/geometry"), properties, &id);
            }
        }
    }

    fn geometry(&mut self, value: &Value, place: &str, about: &Map<String, Value>, id: &str) {
        let at = format!("{place}/coordinates");
        let missing = Value::Null;
        let given = value.get("coordinates").unwrap_or(&missing);
        let c = &mut self.coordinates;
        let shape = match kind(value) {
            "Point" => c.position(given, &at).map(|p| Shape::Points(vec![p])),
            "MultiPoint" => c.each(given, &at, Coordinates::position).map(Shape::Points),
            "LineString" => c.line(given, &at).map(|line| Shape::Lines(vec![line])),
            "MultiLineString" => c.each(given, &at, Coordinates::line).map(Shape::Lines),
            "Polygon" => c.polygon(given, &at).map(|piece| Shape::Areas(vec![piece])),
            "MultiPolygon" => c.each(given, &at, Coordinates::polygon).map(Shape::Areas),
            "GeometryCollection" => {
                match value.get("geometries").and_then(Value::as_array) {
                    Some(parts) => {
                        for (i, part) in parts.iter().enumerate() {
                            self.geometry(part, &format!("{place}/geometries/{i}"), about, "");
                        }
                    }
                    None => c.fault(
                        &format!("{place}/geometries"),
                        "geometries-missing",
                        "A GeometryCollection has a list of geometries.",
                    ),
                }
                return;
            }
            "" => {
                let message = "This has no \"type\", so it is no GeoJSON object.";
                return c.fault(place, "type-missing", message);
            }
            other => {
                let message = format!(
                    "\"{}\" is no geometry of RFC 7946.",
                    other.chars().take(40).collect::<String>()
                );
                return c.fault(place, "type-unknown", message);
            }
        };
        if let Some(shape) = shape.filter(|s| !s.positions().is_empty()) {
            self.items.push(item(place, shape, about, id));
        }
    }
}

/// The `type` of an object; empty when it has none.
fn kind(value: &Value) -> &str {
    value.get("type").and_then(Value::as_str).unwrap_or("")
}

/// A shape with what is told about it.
fn item(place: &str, shape: Shape, about: &Map<String, Value>, id: &str) -> Item {
    let words = words(about, &|_| true);
    let own = about.get("role").and_then(Value::as_str);
    let proposed = proposed(&shape, about);
    Item {
        place: place.to_owned(),
        id: own.map(|_| id.to_owned()).unwrap_or_default(),
        name: named(about),
        group: group(&shape, own, about, proposed),
        words,
        shape,
        proposed,
    }
}

/// What things of one sort have in common.
fn group(shape: &Shape, own: Option<&str>, about: &Map<String, Value>, proposed: Role) -> String {
    let form = match shape {
        Shape::Points(_) => "points",
        Shape::Lines(_) => "lines",
        Shape::Areas(_) => "areas",
    };
    let sort = match (proposed, about.get("kind").and_then(Value::as_str), own) {
        (_, Some(kind), _) => kind.replace('-', " "),
        (_, None, Some(role)) => role.replace('-', " "),
        (Role::Lot, ..) => "parcel".to_owned(),
        (Role::Feature(kind), ..) => kind.words().to_owned(),
        (Role::Spot, ..) => "spot".to_owned(),
        (Role::Breakline, ..) => "breakline".to_owned(),
        _ => return form.to_owned(),
    };
    format!("{sort}, {form}")
}

fn named(about: &Map<String, Value>) -> String {
    let text = |key: &str| {
        let (_, value) = about.iter().find(|(k, _)| k.eq_ignore_ascii_case(key))?;
        match value {
            Value::String(text) if !text.trim().is_empty() => Some(text.trim().to_owned()),
            Value::Number(number) => Some(number.to_string()),
            _ => None,
        }
    };
    let name = NAMES.iter().find_map(|key| text(key)).unwrap_or_default();
    name.chars().take(WORDS).collect()
}

/// Whether a property says where or whose a thing is, and so nothing of what it is.
fn addresses(key: &str) -> bool {
    let key = key.to_ascii_lowercase();
    [
        "addr", "street", "owner", "housen", "house_n", "city", "zip", "mail",
    ]
    .iter()
    .any(|part| key.contains(part))
}

/// A few of the properties, `key: value`.
fn words(about: &Map<String, Value>, takes: &dyn Fn(&str) -> bool) -> String {
    let mut words = String::new();
    for (key, value) in about.iter().filter(|(key, _)| takes(key)) {
        let value = match value {
            Value::String(text) if !text.is_empty() => text.clone(),
            Value::Number(number) => number.to_string(),
            Value::Bool(true) => "yes".to_owned(),
            _ => continue,
        };
        if !words.is_empty() {
            words.push_str(", ");
        }
        words.push_str(&format!("{key}: {value}"));
        if words.len() > WORDS {
            break;
        }
    }
    words.chars().take(WORDS).collect()
}

/// The role that the properties speak for, if the shape can take it on.
fn proposed(shape: &Shape, about: &Map<String, Value>) -> Role {
    let words = words(about, &|key| !addresses(key));
    let own = about.get("role").and_then(Value::as_str);
    let text = match own {
        Some("feature") => about.get("kind").and_then(Value::as_str).unwrap_or("other"),
        Some(role) => role,
        None => &words,
    };
    let exact = (own == Some("feature"))
        .then(|| serde_json::from_value::<FeatureKind>(Value::from(text)).ok())
        .flatten();
    let role = exact.map(Role::Feature).or_else(|| guess(text));
    let high = shape.positions().iter().all(|p| p.height.is_some());
    match (role, shape) {
        (Some(Role::Breakline), Shape::Lines(_)) if high => Role::Breakline,
        (Some(Role::Spot) | None, Shape::Points(_)) if high => Role::Spot,
        (Some(Role::Benchmark), Shape::Points(_)) if high => Role::Benchmark,
        (Some(Role::Lot), Shape::Areas(_)) => Role::Lot,
        (Some(Role::Feature(kind)), _) => Role::Feature(kind),
        (Some(Role::Corner), Shape::Points(_)) => Role::Corner,
        _ => Role::LeaveOut,
    }
}
